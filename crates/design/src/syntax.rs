//! Lines that are no TOML, told in a builder's words.

use crate::problem::{Problem, Span};
use crate::walk::Desk;
use crate::written::Written;

/// How many faults of syntax are told at once.
const MOST_SYNTAX_FAULTS: usize = 20;

/// A text longer than this is told one fault of syntax only: each further one costs a reading.
const LARGEST_MENDED_BYTES: usize = 200_000;

/// Blanks the lines that are no TOML, one by one, reporting each, so that the rest is looked at too.
pub(crate) fn mend_syntax(desk: &mut Desk) -> Option<Written> {
    let mut bytes = desk.text.as_bytes().to_vec();
    for _ in 0..MOST_SYNTAX_FAULTS {
        let text = String::from_utf8(bytes.clone()).ok()?;
        let fault = match Written::parse(desk.file, &text) {
            Ok(written) => return Some(written),
            Err(fault) => fault,
        };
        let at = fault.span().unwrap_or(0..0);
        let start = text.as_bytes()[..at.start.min(text.len())]
            .iter()
            .rposition(|&byte| byte == b'\n')
            .map_or(0, |at| at + 1);
        let end = text.as_bytes()[start..]
            .iter()
            .position(|&byte| byte == b'\n')
            .map_or(text.len(), |at| start + at);
        let line = text[start..end].trim();
        let (says, hint) = told(line, fault.message().contains("duplicate"));
        let problem = Problem {
            found: line.chars().take(60).collect(),
            expected: "a line `key = value`, a heading `[table]`, or a comment `# ...`".to_owned(),
            says: says.to_owned(),
            hint,
            ..desk.fault("syntax", "", Span::of(desk.text, at))
        };
        desk.problems.push(problem);
        let blank = bytes[start..end].iter().all(|&byte| byte == b' ');
        if blank || bytes.len() > LARGEST_MENDED_BYTES {
            return None;
        }
        // The keys below a broken heading belong to no table that is known.
        let end = if line.starts_with('[') { next_heading(&text, end) } else { end };
        for byte in bytes[start..end].iter_mut().filter(|byte| **byte != b'\n') {
            *byte = b' ';
        }
    }
    None
}

/// Where the next line begins that is a heading; the text's end where none is.
fn next_heading(text: &str, from: usize) -> usize {
    let mut at = from;
    for line in text[from..].split_inclusive('\n') {
        if line.trim_start().starts_with('[') {
            return at;
        }
        at += line.len();
    }
    text.len()
}

/// What is wrong with a line, and how to mend it.
fn told(line: &str, twice: bool) -> (&'static str, String) {
    const REMARK: &str = "one value stands at the right of the equals sign; a remark begins with #";
    if line.starts_with('[') {
        return if twice {
            (
                "This table has its heading twice",
                "put all its keys under one heading; each member of a list has its own, in double \
                 brackets: [[panel.back]]"
                    .to_owned(),
            )
        } else {
            (
                "This heading is not whole",
                "a heading stands alone on its line: [panel.cover], or [[panel.back]] for a member \
                 of a list"
                    .to_owned(),
            )
        };
    }
    let Some((key, value)) = line.split_once('=') else {
        return (
            "Neither a key with its value, nor a heading, nor a comment stands here",
            "write for instance gap = \"25 mm\"; a comment begins with #".to_owned(),
        );
    };
    let (key, value) = (key.trim(), value.trim());
    if twice {
        return ("This key stands twice in its table", "keep one of its lines".to_owned());
    }
    let is_plain = |sign: char| sign.is_ascii_alphanumeric() || matches!(sign, '-' | '_' | '.');
    if key.is_empty() || !key.chars().all(is_plain) {
        return (
            "What stands at the left of the equals sign is no key",
            "a key is one word with hyphens, for instance water-depth".to_owned(),
        );
    }
    if value.is_empty() || value.starts_with('#') {
        return (
            "Nothing stands at the right of the equals sign",
            format!("write a value, or begin the line with # to leave `{key}` out"),
        );
    }
    if value.contains(['\u{201c}', '\u{201d}', '\u{201e}', '\u{2018}', '\u{2019}']) {
        return (
            "The quotes are printer's quotes",
            "write straight ones, \"like this\"; a word processor bends them".to_owned(),
        );
    }
    if let Some(inside) = value.strip_prefix('"') {
        return match inside.split_once('"') {
            None => (
                "A quote is opened and not closed",
                format!("close it: {key} = {}\"", value.split('#').next().unwrap_or(value).trim()),
            ),
            Some((quoted, _)) if quoted.contains('\\') => (
                "A backslash stands between double quotes, where it means something else",
                "write a path with /, or between single quotes: 'weather\\place.csv'".to_owned(),
            ),
            Some((_, rest)) if rest.trim_start().starts_with('"') => (
                "An inch sign and a closing quote cannot be told apart",
                "write inches as in: \"1/2 in\"".to_owned(),
            ),
            Some(_) => ("Something stands behind the closing quote", REMARK.to_owned()),
        };
    }
    if value.starts_with('[') {
        return (
            "The list cannot be read",
            "a list ends with ], its values stand in quotes and are parted by commas".to_owned(),
        );
    }
    if value.starts_with(['\'', '{']) {
        return ("The value cannot be read", REMARK.to_owned());
    }
    let bare = value.split('#').next().unwrap_or(value).trim();
    (
        "The value stands without quotes",
        format!("text and quantities stand in quotes: {key} = \"{bare}\""),
    )
}

#[cfg(test)]
mod tests {
    use super::told;

    /// Given lines a builder may well write, what is said and how it is mended: in our words, each
    /// by its own kind.
    #[test]
    fn each_kind_of_line_has_its_own_words() {
        for (line, twice, says, hint) in [
            ("tilt = 35 deg # steep", false, "without quotes", "tilt = \"35 deg\""),
            ("gap \"25 mm\"", false, "Neither a key", "gap = \"25 mm\""),
            ("off = \"4 K\"", true, "twice", "keep one"),
            ("[panel.cover]", true, "heading twice", "one heading"),
            ("[panel.cover", false, "not whole", "[panel.cover]"),
            ("gap = \"25 mm", false, "not closed", "gap = \"25 mm\""),
            ("gap = \"25 mm\" wide", false, "behind the closing quote", "#"),
            ("gap = \"1/2\"\"", false, "inch", "1/2 in"),
            ("gap =", false, "Nothing stands", "#"),
            ("water depth = \"1 m\"", false, "no key", "water-depth"),
            ("weather = \"C:\\new\\a.csv\"", false, "backslash", "single quotes"),
            ("gap = \u{201c}25 mm\u{201d}", false, "printer's", "straight"),
            ("holidays = [[\"07-20\"", false, "list", "]"),
        ] {
            let (is, how) = told(line, twice);
            assert!(is.contains(says), "{line}: {is}");
            assert!(how.contains(hint), "{line}: {how}");
        }
    }
}
