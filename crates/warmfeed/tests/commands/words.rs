//! What people read, kept as snapshots of whole commands.

use crate::program::run;
#[cfg(unix)]
use crate::program::run_until_served;

/// Every digit as a nought: a pump start hangs on the last bit of a logarithm, which processors
/// round differently, and this test is about words and columns. Figures are pinned apart.
fn without_figures(text: &str) -> String {
    text.chars().map(|letter| if letter.is_ascii_digit() { '0' } else { letter }).collect()
}

/// Given two samples, the whole page, in metric and in US units.
#[test]
fn the_year_reads_like_this() {
    let metric = run(&["year", "first-panel.toml"]);
    let page = without_figures(&format!("{}----\n{}", metric.out, metric.talk));
    insta::assert_snapshot!("year_metric", page);
    let us = run(&["year", "southern-harp.toml", "--units", "us", "--no-band"]);
    insta::assert_snapshot!("year_us", without_figures(&us.out));
}

/// Given no command, the sample's first build: the same page as by its name, but for the path; then the
/// address of a page that answers, until it is asked to stop.
#[cfg(unix)]
#[test]
fn without_a_command_it_computes_the_first_sample_and_opens_the_page() {
    let (printed, talk) = run_until_served(&[]);
    let year = run(&["year", "first-panel.toml"]).out;
    let address = printed.strip_prefix(&year[..]).unwrap_or_else(|| panic!("{printed}"));
    assert!(address.starts_with("http://127.0.0.1:"), "{address}");
    assert!(talk.contains("warmfeed new") && talk.contains("copy of the sample"), "{talk}");
}

/// Given `--help`, the commands and the exit statuses.
#[test]
fn help_reads_like_this() {
    insta::assert_snapshot!("help", run(&["--help"]).out);
}

/// Given any output, no word stands that calls a design safe.
#[test]
fn nothing_is_called_safe() {
    for arguments in [
        &["year", "first-panel.toml", "--no-band"][..],
        &["check", "first-panel.toml"],
        &["worry", "first-panel.toml"],
        &["--help"],
    ] {
        let run = run(arguments);
        let words = format!("{} {}", run.out, run.talk).to_lowercase();
        let mut words = words.split(|letter: char| !letter.is_alphanumeric());
        assert!(!words.any(|word| ["safe", "safely"].contains(&word)), "{arguments:?}");
    }
}

/// Given a heater with a cylinder, what that loses stands right under what the heater gives, of which
/// it is a part; given one without, there is no such row.
#[test]
fn a_cylinders_loss_stands_under_what_it_is_part_of() {
    let page = run(&["year", "first-panel.toml", "--no-band"]).out;
    let mut lines = page.lines().skip_while(|line| !line.ends_with("is given by the heater"));
    let next = lines.nth(1).expect("a row under it");
    assert!(next.ends_with("of it is lost by the heater while it stands"), "{next}");
    let page = run(&["year", "thermostat-shed.toml", "--no-band"]).out;
    assert!(
        page.contains("is given by the heater") && !page.contains("lost by the heater"),
        "{page}"
    );
}

/// Given US units, no figure of ours stands in metric ones: none of the page's own rows, and none of
/// the values assumed (what a source says of them stays as it says it).
#[test]
fn us_units_hold_throughout() {
    const METRIC: [&str; 12] =
        ["C", "K", "mm", "m", "m2", "cm2", "l", "kWh", "kg/m3", "W/K", "kJ/K", "l/min"];
    let is_metric = |cell: &str| {
        let words: Vec<&str> = cell.split([' ', ',', ':', ';']).collect();
        let figure = |word: &str| word.parse::<f64>().is_ok();
        words.windows(2).any(|two| figure(two[0]) && METRIC.contains(&two[1]))
    };
    for arguments in [
        &["year", "southern-harp.toml", "--units", "us", "--no-band"][..],
        &["check", "southern-harp.toml", "--units", "us"],
    ] {
        let out = run(arguments).out;
        let (page, assumed) = out.split_once("\nAssumed").expect("a table of what is assumed");
        for line in page.lines().filter(|line| !line.contains("of electricity")) {
            assert!(!is_metric(line), "{line}");
        }
        let head = out.lines().find(|line| line.starts_with("Assumed")).expect("its head");
        let from = head.find("value").expect("a column");
        let to = head.find("where from").expect("a column");
        let (rows, rest) = assumed.split_once("\n\n").expect("an end");
        for row in rows.lines().skip(1) {
            let cell: String = row.chars().skip(from).take(to - from).collect();
            assert!(!is_metric(&cell), "{row}");
        }
        let cautions = rest.split_once("Caution").expect("cautions").1;
        assert!(!is_metric(cautions) && cautions.contains("140 F"), "{cautions}");
    }
}

/// Given a terminal of sixty columns, running words fold to it; tables stay whole.
#[test]
fn words_fold_to_the_terminal() {
    let output = crate::program::warmfeed()
        .env("COLUMNS", "60")
        .args(["year", "first-panel.toml", "--no-band"])
        .output()
        .expect("the program starts");
    let out = String::from_utf8(output.stdout).expect("text");
    let (head, rest) = out.split_once("\n\n           sun on plane").expect("the months");
    let (_, caution) = rest.split_once("Caution").expect("the cautions");
    for line in head.lines().chain(caution.lines()) {
        // The name of a weather file is one word.
        let one_word = line.split_whitespace().any(|word| word.len() > 40);
        assert!(line.chars().count() <= 60 || one_word, "{line}");
    }
}

/// Given a title that holds an escape sequence, it never reaches the terminal as one: neither on the
/// page nor in what is said of the file.
#[test]
fn a_title_does_not_command_the_terminal() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("build.toml");
    let text = std::fs::read_to_string(crate::program::samples().join("first-panel.toml")).unwrap();
    let weather = crate::program::samples().join("weather");
    let text = text.replacen("First panel", "First\\u001b[31m panel\\u0007", 1).replacen(
        "weather/",
        &format!("{}/", weather.display()),
        1,
    );
    std::fs::write(&path, &text).unwrap();
    let page = run(&["year", path.to_str().unwrap(), "--no-band"]);
    assert_eq!(page.status, 0, "{}", page.talk);
    assert!(page.out.contains("[31m panel"), "{}", page.out);
    std::fs::write(&path, text.replacen("count = 1", "count = \"\\u001b[31m\"", 1)).unwrap();
    let fault = run(&["check", path.to_str().unwrap()]);
    assert_eq!(fault.status, 1);
    for said in [page.out, page.talk, fault.out, fault.talk] {
        assert!(!said.contains(['\u{1b}', '\u{7}']), "{said}");
    }
}

/// Given `check` and `new`, the cautions stand there too and point to where more is said.
#[test]
fn cautions_stand_where_a_build_begins() {
    let folder = tempfile::tempdir().unwrap();
    let book = folder.path().join("book");
    for arguments in [&["check", "first-panel.toml"][..], &["new", book.to_str().unwrap()]] {
        let out = run(arguments).out;
        assert!(out.contains("Caution") && out.contains("docs/safety.md"), "{out}");
    }
    assert!(crate::program::samples().join("../docs/safety.md").is_file());
}

/// Given a reader that closes the pipe at once, the program ends quietly with success.
#[test]
fn a_closed_pipe_is_no_error() {
    let mut child = std::process::Command::new(env!("CARGO_BIN_EXE_warmfeed"))
        .args(["year", "first-panel.toml", "--no-band"])
        .current_dir(crate::program::samples())
        .stdout(std::process::Stdio::piped())
        .stderr(std::process::Stdio::piped())
        .spawn()
        .unwrap();
    drop(child.stdout.take());
    let output = child.wait_with_output().unwrap();
    assert_eq!(output.status.code(), Some(0), "{}", String::from_utf8_lossy(&output.stderr));
}
