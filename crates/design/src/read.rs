//! From a file's bytes to a design and a list of problems; reading never stops at the first.

use crate::fill::fill;
use crate::fit;
use crate::origin::Origins;
use crate::problem::{Problem, Span};
use crate::resolve::{self, Design};
use crate::syntax::mend_syntax;
use crate::values::Values;
use crate::walk::{Desk, walk};
use crate::written::Written;

/// The largest design file that is read \[bytes\]; one of a few hundred lines has some 10 000.
pub const LARGEST_BYTES: usize = 4 << 20;

/// What reading a design file yields.
#[derive(Clone, Debug)]
pub struct Reading {
    /// The text and its syntax; `None` where it is no TOML.
    pub written: Option<Written>,
    /// The design; `None` where a fault stands in its way.
    pub design: Option<Design>,
    /// Everything found wrong or doubtful, in the order of the file.
    pub problems: Vec<Problem>,
}

impl Reading {
    /// True where nothing stands in the way of reckoning.
    pub fn is_ok(&self) -> bool {
        self.design.is_some() && !self.problems.iter().any(Problem::is_fault)
    }
}

/// Reads a design file.
///
/// `name` is the file as the user named it, for the problems; `bytes` are what it holds.
///
/// # Example
/// ```
/// let reading = design::read_design("a.toml", b"title = \"A shed roof\"\n");
/// assert!(reading.design.is_none());
/// assert!(reading.problems.iter().any(|problem| problem.code == "missing-table"));
/// ```
pub fn read_design(name: &str, bytes: &[u8]) -> Reading {
    let text = match text_of(&Desk::new(name, ""), bytes) {
        Ok(text) => text,
        Err(problem) => return Reading { written: None, design: None, problems: vec![*problem] },
    };
    let mut desk = Desk::new(name, text);
    let (written, mended) = match Written::parse(name, text) {
        Ok(written) => (Some(written), None),
        Err(_) => (None, mend_syntax(&mut desk)),
    };
    let mut design = None;
    if let Some(tree) = written.as_ref().or(mended.as_ref()) {
        let mut values = walk(&mut desk, tree.root());
        if desk.is_given_up() {
            let problem = given_up(&desk);
            desk.problems.push(problem);
        } else if written.is_some() {
            fill(&mut desk, &mut values);
            fit::check(&mut desk, &values);
            if !desk.problems.iter().any(Problem::is_fault) {
                design = resolved(&mut desk, &values);
            }
        }
    }
    let mut problems = desk.problems;
    problems.sort_by_key(|problem| (problem.span.line, problem.span.column));
    Reading { written, design, problems }
}

fn given_up(desk: &Desk) -> Problem {
    Problem {
        found: format!("{} problems", desk.problems.len()),
        expected: "a design file".to_owned(),
        says: format!(
            "After {} problems the rest of the file is not looked at",
            desk.problems.len()
        ),
        hint: "is this a design file? `warmfeed new` writes one to compare with".to_owned(),
        ..desk.fault("given-up", "", Span::default())
    }
}

fn resolved(desk: &mut Desk, values: &Values) -> Option<Design> {
    let mut origins = Origins::default();
    for (place, entry) in values.iter() {
        origins.note(place, entry.shown.clone(), entry.origin.clone());
    }
    resolve::note_demand(values, &mut origins);
    let design = resolve::design(values, origins);
    if design.is_none() {
        let problem = Problem {
            says: "The values are read but the build cannot be put together from them".to_owned(),
            expected: "a whole build".to_owned(),
            hint: "this is a fault of the program: please report it with this file".to_owned(),
            ..desk.fault("incomplete", "", Span::default())
        };
        desk.problems.push(problem);
    }
    design
}

/// The file's text, or why it is none.
fn text_of<'a>(desk: &Desk, bytes: &'a [u8]) -> Result<&'a str, Box<Problem>> {
    if bytes.len() > LARGEST_BYTES {
        return Err(Box::new(Problem {
            found: format!("{:.1} MB", bytes.len() as f64 / 1e6),
            expected: format!("at most {:.1} MB", LARGEST_BYTES as f64 / 1e6),
            says: "The file is far too large for a design file".to_owned(),
            hint: "a design file is a page or two of text; is this a weather file or a log?"
                .to_owned(),
            ..desk.fault("too-large", "", Span::default())
        }));
    }
    let bytes = bytes.strip_prefix(b"\xef\xbb\xbf").unwrap_or(bytes);
    let text = match std::str::from_utf8(bytes) {
        Ok(text) => match text.bytes().position(|byte| byte == 0) {
            Some(at) => return Err(Box::new(not_text(desk, bytes, at))),
            None => text,
        },
        Err(fault) => return Err(Box::new(not_text(desk, bytes, fault.valid_up_to()))),
    };
    if text.trim().is_empty() {
        return Err(Box::new(Problem {
            found: "nothing".to_owned(),
            expected: "a design".to_owned(),
            says: "The file is empty".to_owned(),
            hint: "a first line may be `title = \"My first panel\"`; `warmfeed new` writes a whole file to start from".to_owned(),
            ..desk.fault("empty-file", "", Span::default())
        }));
    }
    Ok(text)
}

fn not_text(desk: &Desk, bytes: &[u8], at: usize) -> Problem {
    let before = String::from_utf8_lossy(&bytes[..at]);
    let line = before.bytes().filter(|&byte| byte == b'\n').count() + 1;
    Problem {
        found: format!("byte 0x{:02x} at offset {at}", bytes.get(at).copied().unwrap_or_default()),
        expected: "text in UTF-8".to_owned(),
        says: "The file is not text".to_owned(),
        hint: "a design file is plain text; save it as UTF-8, not from a word processor or a spreadsheet".to_owned(),
        ..desk.fault("not-text", "", Span { start: at, end: at + 1, line, column: 0 })
    }
}
