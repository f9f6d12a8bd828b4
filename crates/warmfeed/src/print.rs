//! Standard output and standard error. A reader that closes the pipe is no error.

use std::io::{self, Write};

use anyhow::{Context, Result};

/// Writes to standard output: data, and nothing but data.
///
/// # Errors
/// Where standard output cannot be written for another reason than a closed pipe.
pub fn out(text: &str) -> Result<()> {
    quiet_if_closed(io::stdout().lock().write_all(text.as_bytes()))
        .context("cannot write to standard output")
}

/// Writes to standard error: talk. What cannot be said is not worth stopping for.
pub fn talk(text: &str) {
    let mut stderr = io::stderr().lock();
    drop(writeln!(stderr, "{text}"));
}

fn quiet_if_closed(result: io::Result<()>) -> io::Result<()> {
    match result {
        Err(error) if error.kind() == io::ErrorKind::BrokenPipe => Ok(()),
        other => other,
    }
}
