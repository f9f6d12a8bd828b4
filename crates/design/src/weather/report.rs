//! Gathering problems while a weather file is read.

use crate::problem::{Problem, Severity, Span};

/// What a reader has to say, how to mend it always included; the file's name is added by the
/// [`Report`].
pub(super) struct Told {
    pub(super) code: &'static str,
    /// Counted from 1; 0 for the whole file.
    pub(super) line: usize,
    pub(super) found: String,
    pub(super) expected: String,
    pub(super) says: String,
    pub(super) hint: String,
}

/// The problems of one file.
pub(super) struct Report {
    file: String,
    problems: Vec<Problem>,
}

impl Report {
    pub(super) fn new(file: &str) -> Self {
        Report { file: file.to_owned(), problems: Vec::new() }
    }

    pub(super) fn fault(&mut self, told: Told) {
        self.tell(Severity::Fault, told);
    }

    pub(super) fn warning(&mut self, told: Told) {
        self.tell(Severity::Warning, told);
    }

    pub(super) fn note(&mut self, told: Told) {
        self.tell(Severity::Note, told);
    }

    pub(super) fn has_fault(&self) -> bool {
        self.problems.iter().any(Problem::is_fault)
    }

    pub(super) fn into_problems(self) -> Vec<Problem> {
        self.problems
    }

    fn tell(&mut self, severity: Severity, told: Told) {
        self.problems.push(Problem {
            code: told.code,
            severity,
            file: self.file.clone(),
            span: Span::line(told.line),
            place: String::new(),
            found: told.found,
            expected: told.expected,
            says: told.says,
            hint: told.hint,
        });
    }
}

/// Something that may befall thousands of lines and is told once: the first line, and how many.
#[derive(Default)]
pub(super) struct Tally {
    pub(super) count: usize,
    pub(super) first_line: usize,
    pub(super) first_found: String,
}

impl Tally {
    pub(super) fn add(&mut self, line: usize, found: &str) {
        if self.count == 0 {
            self.first_line = line;
            self.first_found = super::text::shown(found);
        }
        self.count += 1;
    }

    /// `1 value` or `7 values`.
    pub(super) fn counted(&self, one: &str) -> String {
        counted(self.count, one)
    }
}

/// `1 hour` or `7 hours`.
pub(super) fn counted(count: usize, one: &str) -> String {
    if count == 1 { format!("1 {one}") } else { format!("{count} {one}s") }
}
