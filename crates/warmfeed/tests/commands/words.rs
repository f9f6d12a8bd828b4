//! What people read, kept as snapshots of whole commands.

use crate::program::run;

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
    let us = run(&["year", "southern-harp.toml", "--units", "us"]);
    insta::assert_snapshot!("year_us", without_figures(&us.out));
}

/// Given no command, the sample's first build: the same page as by its name, but for the path.
#[test]
fn without_a_command_it_computes_the_first_sample() {
    let bare = run(&[]);
    assert_eq!(bare.status, 0);
    assert_eq!(bare.out, run(&["year", "first-panel.toml"]).out);
    assert!(bare.talk.contains("warmfeed new"), "{}", bare.talk);
}

/// Given `--help`, the commands and the exit statuses.
#[test]
fn help_reads_like_this() {
    insta::assert_snapshot!("help", run(&["--help"]).out);
}

/// Given any output, no word stands that calls a design safe.
#[test]
fn nothing_is_called_safe() {
    for arguments in
        [&["year", "first-panel.toml"][..], &["check", "first-panel.toml"], &["--help"]]
    {
        let run = run(arguments);
        let words = format!("{} {}", run.out, run.talk).to_lowercase();
        assert!(!words.contains("safe"), "{arguments:?}");
    }
}

/// Given a reader that closes the pipe at once, the program ends quietly with success.
#[test]
fn a_closed_pipe_is_no_error() {
    let mut child = std::process::Command::new(env!("CARGO_BIN_EXE_warmfeed"))
        .args(["year", "first-panel.toml"])
        .current_dir(crate::program::samples())
        .stdout(std::process::Stdio::piped())
        .stderr(std::process::Stdio::piped())
        .spawn()
        .unwrap();
    drop(child.stdout.take());
    let output = child.wait_with_output().unwrap();
    assert_eq!(output.status.code(), Some(0), "{}", String::from_utf8_lossy(&output.stderr));
}
