//! The program under test and the sample job book.

use std::path::{Path, PathBuf};

use assert_cmd::Command;

/// The program, to be given arguments.
pub fn warmfeed() -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_warmfeed"));
    command.current_dir(samples()).env_remove("COLUMNS");
    command
}

/// The folder of the sample job book.
pub fn samples() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../../samples").canonicalize().expect("samples")
}

/// What a run came to.
pub struct Run {
    pub status: i32,
    pub out: String,
    pub talk: String,
}

/// Runs the program with these arguments in the sample job book.
pub fn run(arguments: &[&str]) -> Run {
    let output = warmfeed().args(arguments).output().expect("the program starts");
    Run {
        status: output.status.code().expect("it ended by itself"),
        out: String::from_utf8(output.stdout).expect("its output is text"),
        talk: String::from_utf8(output.stderr).expect("its talk is text"),
    }
}

/// Runs the program until it prints the address of a page, asks it to stop, and waits for its end: what
/// it printed, and what it said.
#[cfg(unix)]
pub fn run_until_served(arguments: &[&str]) -> (String, String) {
    use std::io::{BufRead, BufReader, Read};
    use std::process::{Command, Stdio};

    let mut child = Command::new(env!("CARGO_BIN_EXE_warmfeed"))
        .args(arguments)
        .current_dir(samples())
        .env_remove("COLUMNS")
        .env_remove("DISPLAY")
        .env_remove("WAYLAND_DISPLAY")
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .expect("the program starts");
    let mut printed = String::new();
    let mut lines = BufReader::new(child.stdout.take().expect("its output"));
    while !printed.lines().last().is_some_and(|line| line.starts_with("http://")) {
        let read = lines.read_line(&mut printed).expect("its output is text");
        assert!(read > 0, "it ended without an address:\n{printed}");
    }
    let asked = Command::new("kill").arg(child.id().to_string()).status().expect("kill runs");
    assert!(asked.success());
    let mut talk = String::new();
    child.stderr.take().expect("its talk").read_to_string(&mut talk).expect("its talk is text");
    assert_eq!(child.wait().expect("it ends").code(), Some(0));
    (printed, talk)
}
