//! From bytes to text and from text to numbers.

use std::borrow::Cow;

use super::report::{Report, Told};

/// Larger than any hourly year: the six-minute years of weather services stay below it.
const LARGEST_BYTES: usize = 64 * 1024 * 1024;

/// The file's text, or none with a fault.
///
/// Place names in old files are in Latin-1; such a file is taken as that, with a note.
pub(super) fn decode<'a>(bytes: &'a [u8], report: &mut Report) -> Option<Cow<'a, str>> {
    if bytes.len() > LARGEST_BYTES {
        report.fault(Told {
            code: "weather-file-too-large",
            found: format!("{} MB", bytes.len() / (1024 * 1024)),
            expected: "an hourly year: 1 to 3 MB, at most 64 MB".to_owned(),
            says: "The file is far larger than a year of hours.".to_owned(),
            hint: "Give one year of hourly rows, not minutes or many years.".to_owned(),
            line: 0,
        });
        return None;
    }
    let bytes = bytes.strip_prefix(b"\xef\xbb\xbf").unwrap_or(bytes);
    if bytes.trim_ascii().is_empty() {
        report.fault(Told {
            code: "empty-weather-file",
            found: "nothing".to_owned(),
            expected: "a header and 8760 rows".to_owned(),
            says: "The weather file is empty.".to_owned(),
            hint: "The download may have broken off; fetch it again.".to_owned(),
            line: 0,
        });
        return None;
    }
    match std::str::from_utf8(bytes) {
        Ok(text) if !text.contains('\0') => Some(Cow::Borrowed(text)),
        Err(_) if !bytes.iter().any(|&byte| byte < 9 || (14..32).contains(&byte)) => {
            report.note(Told {
                code: "latin-1-text",
                found: "bytes that are not UTF-8".to_owned(),
                expected: "UTF-8".to_owned(),
                says: "The file is not UTF-8; its letters are read as Latin-1.".to_owned(),
                hint: "Nothing need be done: the numbers are the same; only names of places may look odd.".to_owned(), line: 0,
            });
            Some(Cow::Owned(bytes.iter().map(|&byte| char::from(byte)).collect()))
        }
        _ => {
            report.fault(Told {
                code: "weather-file-not-text",
                found: "bytes that no text holds".to_owned(),
                expected: "plain text (UTF-8)".to_owned(),
                says: "The file is not text.".to_owned(),
                hint: "A zipped download must be unpacked first; a spreadsheet saved as CSV."
                    .to_owned(),
                line: 0,
            });
            None
        }
    }
}

/// The fields of a comma-separated line; commas inside double quotes do not part them.
pub(super) fn fields(line: &str) -> Vec<&str> {
    let mut quoted = false;
    line.split(|letter| {
        quoted ^= letter == '"';
        letter == ',' && !quoted
    })
    .map(|field| field.trim().trim_matches('"').trim())
    .collect()
}

/// A finite number, or none.
pub(super) fn number(text: &str) -> Option<f64> {
    text.trim().parse().ok().filter(|value: &f64| value.is_finite())
}

/// Text from a file, cut short enough for a message and without control letters.
pub(super) fn shown(text: &str) -> String {
    let mut shown: String =
        text.chars().take(60).map(|c| if c.is_control() { ' ' } else { c }).collect();
    if text.chars().nth(60).is_some() {
        shown.push_str("...");
    }
    shown
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A station's name may hold a comma: CSV rule of RFC 4180.
    #[test]
    fn a_comma_in_quotes_does_not_part_fields() {
        assert_eq!(
            fields("722780,\"PHOENIX, AZ\",AZ,-7.0"),
            ["722780", "PHOENIX, AZ", "AZ", "-7.0"]
        );
    }

    /// What a parser of floats would also take, and no weather file means.
    #[test]
    fn infinity_and_nan_are_no_numbers() {
        assert_eq!((number("inf"), number("nan"), number(" -0.0 ")), (None, None, Some(-0.0)));
    }
}
