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
