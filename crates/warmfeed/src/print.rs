//! Standard output and standard error. A reader that closes the pipe is no error.

use std::io::{self, Write};

use anyhow::{Context, Result};

/// Writes data to standard output, byte for byte.
///
/// # Errors
/// Where standard output cannot be written for another reason than a closed pipe.
pub fn out(text: &str) -> Result<()> {
    quiet_if_closed(io::stdout().lock().write_all(text.as_bytes()))
        .context("cannot write to standard output")
}

/// Writes words for people to standard output.
///
/// # Errors
/// As [`out`].
pub fn page(text: &str) -> Result<()> {
    out(&tame(text))
}

/// Writes to standard error: talk. What cannot be said is not worth stopping for.
pub fn talk(text: &str) {
    let mut stderr = io::stderr().lock();
    drop(writeln!(stderr, "{}", tame(text)));
}

/// Columns a page of words may take: the terminal's; where standard output is none, what `COLUMNS`
/// says; else [`PAGE`]. Never fewer than [`NARROWEST`].
pub fn width() -> usize {
    let terminal = console::Term::stdout().size_checked().map(|(_, columns)| usize::from(columns));
    let said = || std::env::var("COLUMNS").ok()?.trim().parse().ok();
    terminal.or_else(said).unwrap_or(PAGE).clamp(NARROWEST, PAGE)
}

/// A page of text no wider than this is easily read.
const PAGE: usize = 120;

/// Below this words are no longer folded: every line would hold a few of them only.
const NARROWEST: usize = 60;

/// The text without signs that would command the terminal or turn its lines round: a title may come
/// from anywhere.
fn tame(text: &str) -> String {
    let commands = |sign: char| {
        (sign.is_control() && sign != '\n')
            || matches!(sign, '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}')
    };
    text.chars().map(|sign| if commands(sign) { '\u{fffd}' } else { sign }).collect()
}

fn quiet_if_closed(result: io::Result<()>) -> io::Result<()> {
    match result {
        Err(error) if error.kind() == io::ErrorKind::BrokenPipe => Ok(()),
        other => other,
    }
}

#[cfg(test)]
mod tests {
    use super::tame;

    /// Given escape sequences, a carriage return and a right-to-left override, none is left; words and
    /// line breaks are.
    #[test]
    fn no_text_commands_the_terminal() {
        let tamed = tame("a\u{1b}[31mb\rc\u{202e}d\u{9b}e\n\u{e9}");
        assert_eq!(tamed, "a\u{fffd}[31mb\u{fffd}c\u{fffd}d\u{fffd}e\n\u{e9}");
    }
}
