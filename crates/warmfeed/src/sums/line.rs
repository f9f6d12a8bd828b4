//! The command line as a text that a problem can point into.

use std::ops::Range;

use design::problem::{Problem, Severity, Span};

/// What problems call the command line.
pub const COMMAND_LINE: &str = "command line";

/// Longest stretch of one argument that is shown \[characters\].
const LONGEST: usize = 120;

/// The command line, written out again.
pub struct Line {
    /// The text.
    pub text: String,
    /// Where the name stands.
    name: Range<usize>,
    /// Where each argument stands: its key, and its value.
    arguments: Vec<(Range<usize>, Range<usize>)>,
}

/// What a problem points at.
#[derive(Clone, Copy)]
pub enum At {
    /// The sum's name.
    Name,
    /// The key of the argument at this place.
    Key(usize),
    /// The value of the argument at this place.
    Value(usize),
}

impl Line {
    /// The line that asks for a sum.
    pub fn of(name: &str, written: &[String]) -> Line {
        let mut line = Line { text: "warmfeed sum ".to_owned(), name: 0..0, arguments: Vec::new() };
        line.name = line.put(name);
        for argument in written {
            line.text.push(' ');
            let (key, value) = match argument.split_once('=') {
                Some((key, value)) => (key, Some(value)),
                None => (argument.as_str(), None),
            };
            let key = line.put(key);
            let value = match value {
                None => key.clone(),
                Some(value) => {
                    line.text.push('=');
                    line.put(value)
                }
            };
            line.arguments.push((key, value));
        }
        line
    }

    /// Writes one word, in quotes where the shell wants them; returns where it stands.
    fn put(&mut self, word: &str) -> Range<usize> {
        let start = self.text.len();
        self.text.push_str(&quoted(&shortened(word)));
        start..self.text.len()
    }

    /// A fault of the command line, to be filled in by struct update.
    pub fn fault(&self, code: &'static str, at: At) -> Problem {
        let (key, value) = match at {
            At::Name => (&self.name, &self.name),
            At::Key(place) => (&self.arguments[place].0, &self.arguments[place].0),
            At::Value(place) => (&self.arguments[place].0, &self.arguments[place].1),
        };
        let place = match at {
            At::Name => String::new(),
            At::Key(_) | At::Value(_) => self.text[key.clone()].to_owned(),
        };
        Problem {
            code,
            severity: Severity::Fault,
            file: COMMAND_LINE.to_owned(),
            span: Span::of(&self.text, value.clone()),
            place,
            found: self.text[value.clone()].to_owned(),
            expected: String::new(),
            says: String::new(),
            hint: String::new(),
        }
    }
}

/// A word as the shell wants it: in quotes where it holds a space or a sign that the shell reads.
pub fn quoted(word: &str) -> String {
    let plain = |sign: char| sign.is_alphanumeric() || "_-+.,:/%".contains(sign);
    if !word.is_empty() && word.chars().all(plain) {
        word.to_owned()
    } else if word.contains('"') {
        format!("'{word}'")
    } else {
        format!("\"{word}\"")
    }
}

/// A word on one line, cut off where it is long beyond reading.
fn shortened(word: &str) -> String {
    let mut short: String =
        word.chars().take(LONGEST).map(|sign| if sign.is_control() { ' ' } else { sign }).collect();
    if word.chars().nth(LONGEST).is_some() {
        short.push_str("...");
    }
    short
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Given a value with a space, the line quotes it, and a fault points at it, quotes and all
    /// (counted by hand).
    #[test]
    fn a_fault_points_at_the_value() {
        let line = Line::of("fin", &["spacing=150 mm".to_owned()]);
        assert_eq!(line.text, "warmfeed sum fin spacing=\"150 mm\"");
        let fault = line.fault("wrong-unit", At::Value(0));
        assert_eq!((fault.span.line, fault.span.column), (1, 26));
        assert_eq!((fault.place.as_str(), fault.found.as_str()), ("spacing", "\"150 mm\""));
    }
}
