//! `year --out`: whole files, the right number of rows, and agreement with the document.

use crate::program::run;

/// Given a folder, months, hours and chosen minutes stand in it, with heads and all rows; the hours'
/// draws add up to the year's.
#[test]
fn months_hours_and_minutes_are_written() {
    let folder = tempfile::tempdir().unwrap();
    let out = folder.path().join("out");
    let run = run(&[
        "year",
        "first-panel.toml",
        "--out",
        out.to_str().unwrap(),
        "--minutes",
        "store-top,pump",
        "--json",
    ]);
    assert_eq!(run.status, 0, "{}", run.talk);
    let lines = |name: &str| -> Vec<String> {
        let text = std::fs::read_to_string(out.join(name)).unwrap();
        text.lines().map(str::to_owned).collect()
    };
    assert_eq!(lines("months.csv").len(), 14);
    let hours = lines("hours.csv");
    assert_eq!(hours.len(), 8761);
    let minutes = lines("minutes.csv");
    assert_eq!(minutes.len(), 525_601);
    assert_eq!(minutes[0], "minute_starting,store_top_c,pump_share");
    assert!(minutes[1].starts_with("01-01 00:00,"), "{}", minutes[1]);
    assert!(minutes[525_600].starts_with("12-31 23:59,"));
    let draw = hours[0].split(',').position(|head| head == "draw_l").unwrap();
    let drawn: f64 = hours[1..]
        .iter()
        .map(|row| row.split(',').nth(draw).unwrap().parse::<f64>().unwrap())
        .sum();
    let document: serde_json::Value = serde_json::from_str(&run.out).unwrap();
    let said = document["year"]["drawn_l"].as_f64().unwrap();
    // Hours are written to a thousandth of a litre.
    assert!((drawn - said).abs() < 0.0005 * 8760.0, "{drawn} against {said}");
    // Nothing half-written or temporary is left beside them.
    assert_eq!(std::fs::read_dir(&out).unwrap().count(), 3);
}

/// Given a folder that cannot be made (a file stands there), status 3 and its name.
#[test]
fn a_place_that_cannot_be_written_is_named() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("file");
    std::fs::write(&file, "").unwrap();
    let run = run(&["year", "first-panel.toml", "--out", file.to_str().unwrap()]);
    assert_eq!(run.status, 3);
    assert!(run.talk.contains("file"), "{}", run.talk);
}

/// Given Ctrl-C at moments spread over the work, whatever files stand there are whole, and nothing
/// temporary is left; the status says that it was interrupted, unless it was done before.
#[cfg(unix)]
#[test]
fn an_interrupt_leaves_nothing_half_written() {
    for wait_ms in [20, 150, 300, 450, 600, 900] {
        let folder = tempfile::tempdir().unwrap();
        let out = folder.path().join("out");
        let mut child = std::process::Command::new(env!("CARGO_BIN_EXE_warmfeed"))
            .args(["year", "first-panel.toml", "--minutes", "plate,flow", "--out"])
            .arg(&out)
            .current_dir(crate::program::samples())
            .stdout(std::process::Stdio::null())
            .stderr(std::process::Stdio::null())
            .spawn()
            .unwrap();
        std::thread::sleep(std::time::Duration::from_millis(wait_ms));
        let asked = std::process::Command::new("kill")
            .args(["-INT", &child.id().to_string()])
            .stderr(std::process::Stdio::null())
            .status()
            .unwrap();
        let status = child.wait().unwrap().code();
        // Before it listens, the signal ends it at once, and then it has made nothing.
        let early = status.is_none() && !out.exists();
        assert!(
            early || status == Some(130) || status == Some(0),
            "{wait_ms} ms: {status:?}, {asked}"
        );
        for (name, rows) in [("months.csv", 14), ("hours.csv", 8761), ("minutes.csv", 525_601)] {
            if let Ok(text) = std::fs::read_to_string(out.join(name)) {
                assert_eq!(text.lines().count(), rows, "{wait_ms} ms: {name} is not whole");
            }
        }
        if let Ok(files) = std::fs::read_dir(&out) {
            for file in files {
                let name = file.unwrap().file_name();
                assert!(!name.to_string_lossy().starts_with('.'), "{wait_ms} ms: {name:?} is left");
            }
        }
    }
}
