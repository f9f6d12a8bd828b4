//! A problem as JSON.

use design::problem::{Problem, Severity};
use schemars::JsonSchema;
use serde::Serialize;

use crate::sums::Note;

/// One problem of an input file.
#[derive(Clone, Debug, JsonSchema, Serialize)]
pub struct ProblemWire {
    /// Short stable name.
    pub code: String,
    /// `fault`, `warning` or `note`.
    pub severity: SeverityWire,
    /// The file as the user named it.
    pub file: String,
    /// Line, from 1; 0 where the problem is of the whole file.
    pub line: usize,
    /// Column in characters, from 1; 0 where the problem is of the whole line or file.
    pub column: usize,
    /// Place in the design's words; may be empty.
    #[serde(rename = "where")]
    pub place: String,
    /// What was found.
    pub found: String,
    /// What must be.
    pub expected: String,
    /// The problem in one sentence.
    pub says: String,
    /// How to mend it; may be empty.
    pub hint: String,
}

/// How much a problem matters.
#[derive(Clone, Copy, Debug, JsonSchema, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum SeverityWire {
    /// The file cannot be used so.
    Fault,
    /// The file can be used, but something is doubtful.
    Warning,
    /// Worth knowing.
    Note,
}

impl ProblemWire {
    /// What must be known of a sum's answer.
    pub fn of_note(sum: &str, note: &Note) -> Self {
        ProblemWire {
            code: note.code.to_owned(),
            severity: SeverityWire::Note,
            file: String::new(),
            line: 0,
            column: 0,
            place: sum.to_owned(),
            found: String::new(),
            expected: String::new(),
            says: note.says.to_owned(),
            hint: String::new(),
        }
    }
}

impl From<&Problem> for ProblemWire {
    fn from(problem: &Problem) -> Self {
        ProblemWire {
            code: problem.code.to_owned(),
            severity: match problem.severity {
                Severity::Fault => SeverityWire::Fault,
                Severity::Warning => SeverityWire::Warning,
                Severity::Note => SeverityWire::Note,
            },
            file: problem.file.clone(),
            line: problem.span.line,
            column: problem.span.column,
            place: problem.place.clone(),
            found: problem.found.clone(),
            expected: problem.expected.clone(),
            says: problem.says.clone(),
            hint: problem.hint.clone(),
        }
    }
}
