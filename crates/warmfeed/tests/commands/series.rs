//! `year --out`: whole files, the right number of rows, and agreement with the document.

use crate::pictures::PICTURES;
use crate::program::run;

/// Given a folder, months, hours and chosen minutes stand in it, with heads and all rows; the hours'
/// draws add up to the year's.
#[test]
fn months_hours_and_minutes_are_written() {
    let folder = tempfile::tempdir().unwrap();
    let out = folder.path().join("out");
    let run = run(&[
        "year",
        "--no-band",
        "first-panel.toml",
        "--out",
        out.to_str().unwrap(),
        "--minutes",
        "store-top,pump,store-top",
        "--json",
    ]);
    assert_eq!(run.status, 0, "{}", run.talk);
    let lines = |name: &str| -> Vec<String> {
        let text = std::fs::read_to_string(out.join(name)).unwrap();
        text.lines().map(str::to_owned).collect()
    };
    let months = lines("months.csv");
    assert_eq!(months.len(), 14);
    let heads: Vec<&str> = months[0].split(',').collect();
    let at = |name: &str| heads.iter().position(|head| *head == name).unwrap();
    assert_eq!(heads[0], "month");
    let order = ["absorbed_kwh", "panel_loss_kwh", "panel_heat_kwh", "coil_heat_kwh", "drawn_l"];
    assert!(order.map(at).is_sorted(), "{heads:?}");
    assert!(months[13].starts_with("year,"), "{}", months[13]);
    let hours = lines("hours.csv");
    assert_eq!(hours.len(), 8761);
    let minutes = lines("minutes.csv");
    assert_eq!(minutes.len(), 525_601);
    assert_eq!(minutes[0], "minute_starting,store_top_c,pump_share");
    assert!(minutes[1].starts_with("01-01 00:00,"), "{}", minutes[1]);
    assert!(minutes[525_600].starts_with("12-31 23:59,"));
    let draw = hours[0].split(',').position(|head| head == "drawn_l").unwrap();
    let drawn: f64 = hours[1..]
        .iter()
        .map(|row| row.split(',').nth(draw).unwrap().parse::<f64>().unwrap())
        .sum();
    let document: serde_json::Value = serde_json::from_str(&run.out).unwrap();
    assert!(
        run.talk.contains("Wrote months.csv, hours.csv, minutes.csv and its pictures"),
        "{}",
        run.talk
    );
    let year: Vec<&str> = months[13].split(',').collect();
    let panel_kwh: f64 = year[at("panel_heat_kwh")].parse().unwrap();
    assert_eq!(document["year"]["panel_heat_kwh"].as_f64().unwrap(), panel_kwh);
    let said = document["year"]["drawn_l"].as_f64().unwrap();
    // Hours are written to a thousandth of a litre.
    assert!((drawn - said).abs() < 0.0005 * 8760.0, "{drawn} against {said}");
    // Nothing half-written or temporary is left beside them.
    assert_eq!(std::fs::read_dir(&out).unwrap().count(), 3 + PICTURES.len());
}

/// Given a folder that cannot be made (a file stands there), status 3 and its name.
#[test]
fn a_place_that_cannot_be_written_is_named() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("file");
    std::fs::write(&file, "").unwrap();
    let run = run(&["year", "first-panel.toml", "--out", file.to_str().unwrap(), "--no-band"]);
    assert_eq!(run.status, 3);
    assert!(run.talk.contains("file"), "{}", run.talk);
}

/// Given an interrupt at moments spread over the work, once, twice, or as a system sends it that shuts
/// down: the files there are all of the earlier run or all of this one, and nothing temporary is left;
/// the status says that it was interrupted, unless it was done before.
#[cfg(unix)]
#[test]
fn an_interrupt_leaves_nothing_half_written() {
    const NAMES: [&str; 3] = ["months.csv", "hours.csv", "minutes.csv"];
    for (signals, wait_ms) in [
        (&["-INT"][..], 20),
        (&["-INT"], 300),
        (&["-INT"], 900),
        (&["-INT", "-INT"], 150),
        (&["-INT", "-INT"], 450),
        (&["-INT", "-INT"], 600),
        (&["-INT", "-INT"], 750),
        (&["-INT", "-INT"], 1000),
        (&["-TERM"], 500),
        (&["-TERM", "-TERM"], 700),
    ] {
        let folder = tempfile::tempdir().unwrap();
        let out = folder.path().join("out");
        std::fs::create_dir(&out).unwrap();
        for name in NAMES {
            std::fs::write(out.join(name), "earlier\n").unwrap();
        }
        let mut child = std::process::Command::new(env!("CARGO_BIN_EXE_warmfeed"))
            .args(["year", "--no-band", "first-panel.toml", "--minutes", "sheet,flow", "--out"])
            .arg(&out)
            .current_dir(crate::program::samples())
            .stdout(std::process::Stdio::null())
            .stderr(std::process::Stdio::null())
            .spawn()
            .unwrap();
        std::thread::sleep(std::time::Duration::from_millis(wait_ms));
        for signal in signals {
            let asked = std::process::Command::new("kill")
                .args([signal, child.id().to_string().as_str()])
                .stderr(std::process::Stdio::null())
                .status();
            assert!(asked.is_ok(), "{asked:?}");
        }
        let status = child.wait().unwrap().code();
        let rows =
            NAMES.map(|name| std::fs::read_to_string(out.join(name)).unwrap().lines().count());
        let case = format!("{signals:?} after {wait_ms} ms: {status:?}, {rows:?} rows");
        // Before it listens, the signal ends it at once.
        assert!(status.is_none() || status == Some(130) || status == Some(0), "{case}");
        match status {
            Some(0) => assert_eq!(rows, [14, 8761, 525_601], "{case}"),
            None => assert_eq!(rows, [1, 1, 1], "{case}"),
            _ => assert!(rows == [1, 1, 1] || rows == [14, 8761, 525_601], "{case}"),
        }
        let left = std::fs::read_dir(&out).unwrap().count();
        // The pictures belong to the same writing: all of them or none.
        let want = if rows[0] == 1 { 3 } else { 3 + PICTURES.len() };
        assert_eq!(left, want, "{case}: something is missing, or something temporary left");
    }
}

/// Given a place for one of the files that is taken by a folder, none is changed.
#[test]
fn all_files_are_written_or_none() {
    let folder = tempfile::tempdir().unwrap();
    std::fs::write(folder.path().join("months.csv"), "earlier").unwrap();
    std::fs::create_dir(folder.path().join("hours.csv")).unwrap();
    let run =
        run(&["year", "first-panel.toml", "--out", folder.path().to_str().unwrap(), "--no-band"]);
    assert_eq!(run.status, 3, "{}", run.talk);
    assert!(run.talk.contains("hours.csv"), "{}", run.talk);
    assert_eq!(std::fs::read_to_string(folder.path().join("months.csv")).unwrap(), "earlier");
    assert_eq!(std::fs::read_dir(folder.path()).unwrap().count(), 2);
}

/// Given a user's mask that keeps others out, a file made under it keeps them out too; given the usual
/// one, it lets them read.
#[cfg(unix)]
#[test]
fn a_new_file_obeys_the_users_mask() {
    use std::os::unix::fs::PermissionsExt;
    for (mask, mode) in [("077", 0o600), ("022", 0o644)] {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("mine.toml");
        let status = std::process::Command::new("sh")
            .args(["-c", &format!("umask {mask}; exec \"$0\" new \"$1\"")])
            .arg(env!("CARGO_BIN_EXE_warmfeed"))
            .arg(&path)
            .stdout(std::process::Stdio::null())
            .status()
            .unwrap();
        assert!(status.success());
        assert_eq!(std::fs::metadata(&path).unwrap().permissions().mode() & 0o777, mode, "{mask}");
    }
}
