//! A fault in an input file, told so that a person can mend it.

/// How much a problem matters.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Severity {
    /// Worth knowing; nothing is wrong.
    Note,
    /// The file can be used, but something in it is doubtful.
    Warning,
    /// The file cannot be used so.
    Fault,
}

impl Severity {
    /// The word that stands in output.
    pub fn word(self) -> &'static str {
        match self {
            Severity::Note => "note",
            Severity::Warning => "warning",
            Severity::Fault => "fault",
        }
    }
}

/// Where in a text something stands.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Span {
    /// First byte.
    pub start: usize,
    /// One past the last byte.
    pub end: usize,
    /// Line, counted from 1; 0 where the problem is of the whole file.
    pub line: usize,
    /// Column in characters, counted from 1; 0 where the problem is of the whole line or file.
    pub column: usize,
}

impl Span {
    /// The place of a byte range in a text. Bytes past the end stand at the end.
    pub fn of(text: &str, bytes: std::ops::Range<usize>) -> Span {
        let start = bytes.start.min(text.len());
        let before = text.as_bytes().get(..start).unwrap_or_default();
        let line_start = before.iter().rposition(|&b| b == b'\n').map_or(0, |at| at + 1);
        Span {
            start,
            end: bytes.end.clamp(start, text.len()),
            line: before.iter().filter(|&&b| b == b'\n').count() + 1,
            column: String::from_utf8_lossy(&before[line_start..]).chars().count() + 1,
        }
    }

    /// A whole line of a file that is not kept as text.
    pub fn line(line: usize) -> Span {
        Span { line, ..Span::default() }
    }
}

/// One problem of an input file: what is, what must be, how to mend it.
#[derive(Clone, Debug, PartialEq)]
pub struct Problem {
    /// Short stable name, lower case with hyphens, for instance `unknown-key`.
    pub code: &'static str,
    /// How much it matters.
    pub severity: Severity,
    /// The file as the user named it.
    pub file: String,
    /// Where in the file.
    pub span: Span,
    /// The place in the design's own words, for instance `panel.cover.thickness`; may be empty.
    pub place: String,
    /// What was found there.
    pub found: String,
    /// What must be there.
    pub expected: String,
    /// The problem in one sentence.
    pub says: String,
    /// How to mend it; may be empty.
    pub hint: String,
}

impl Problem {
    /// True where the file cannot be used so.
    pub fn is_fault(&self) -> bool {
        self.severity == Severity::Fault
    }
}

#[cfg(test)]
mod tests {
    use super::Span;

    /// Given a text of two lines with an accent, the place of a byte in the second line:
    /// counted by hand.
    #[test]
    fn a_span_counts_lines_and_characters_from_one() {
        let text = "tilt = 35\nécran = 1\n";
        let at = text.find("= 1").expect("the text holds it");
        let span = Span::of(text, at..at + 1);
        assert_eq!((span.line, span.column), (2, 7));
    }

    /// Given a range past the end, the end itself.
    #[test]
    fn a_span_past_the_end_stands_at_the_end() {
        let span = Span::of("ab", 9..12);
        assert_eq!((span.start, span.end, span.line, span.column), (2, 2, 1, 3));
    }
}
