//! Figures in words, as they stand on pictures.

use design::quantity::Units;

/// Between a figure and its unit, and between thousands.
const NO_BREAK: char = '\u{a0}';

/// A whole number with its thousands set apart; a true minus sign.
pub fn whole(value: f64) -> String {
    let rounded = value.round();
    let digits = format!("{:.0}", rounded.abs());
    let mut text = String::new();
    if rounded < 0.0 {
        text.push('\u{2212}');
    }
    for (place, digit) in digits.chars().enumerate() {
        if place > 0 && (digits.len() - place).is_multiple_of(3) {
            text.push(NO_BREAK);
        }
        text.push(digit);
    }
    text
}

/// A number of kilowatt-hours.
pub fn kwh(value: f64) -> String {
    format!("{}{NO_BREAK}kWh", whole(value))
}

/// A number with so many decimals; a true minus sign.
pub fn decimal(value: f64, decimals: usize) -> String {
    let text = format!("{value:.decimals$}");
    match text.strip_prefix('-') {
        Some(rest) if rest.bytes().any(|byte| (b'1'..=b'9').contains(&byte)) => {
            format!("\u{2212}{rest}")
        }
        Some(rest) => rest.to_owned(),
        None => text,
    }
}

/// A temperature to the whole degree, from Celsius.
pub fn degrees(celsius: f64, units: Units) -> String {
    format!("{}{}", whole(reader_degrees(celsius, units)), degree_mark(units))
}

/// The reader's figure for a temperature in Celsius.
pub fn reader_degrees(celsius: f64, units: Units) -> f64 {
    match units {
        Units::Metric => celsius,
        Units::Us => celsius * 1.8 + 32.0,
    }
}

/// An area to three digits.
pub fn area(area_m2: f64, units: Units) -> String {
    const M2_PER_FT2: f64 = 0.09290304;
    let (value, unit) = match units {
        Units::Metric => (area_m2, "m\u{b2}"),
        Units::Us => (area_m2 / M2_PER_FT2, "ft\u{b2}"),
    };
    let decimals = if value < 10.0 { 2 } else { 1 };
    format!("{}{NO_BREAK}{unit}", decimal(value, decimals))
}

/// The reader's mark for degrees.
pub fn degree_mark(units: Units) -> &'static str {
    match units {
        Units::Metric => "\u{b0}C",
        Units::Us => "\u{b0}F",
    }
}

/// A sentence from a plain terminal as it is set on a picture: squares raised, degrees marked, no line
/// broken between a figure and its unit.
pub fn set(plain: &str) -> String {
    let mut text = String::new();
    let mut after_figure = false;
    for token in plain.split(' ') {
        let bare = token.trim_end_matches([',', ';', '.', ')', ':']);
        let tail = &token[bare.len()..];
        let mark = match bare {
            "C" if after_figure => Some("\u{b0}C"),
            "F" if after_figure => Some("\u{b0}F"),
            "deg" if after_figure => Some("\u{b0}"),
            _ => None,
        };
        if !text.is_empty() && mark.is_none() {
            let first = bare.chars().next();
            let is_unit = first.is_some_and(|letter| letter.is_ascii_alphabetic() || letter == '%');
            text.push(if after_figure && is_unit { NO_BREAK } else { ' ' });
        }
        match mark {
            Some(mark) => text.push_str(mark),
            None => text.push_str(&bare.replace("m2", "m\u{b2}").replace("ft2", "ft\u{b2}")),
        }
        text.push_str(tail);
        let figure = bare.trim_start_matches('(');
        after_figure = tail.is_empty() && figure.parse::<f64>().is_ok();
    }
    text
}

/// The months' names, short.
pub const MONTHS: [&str; 12] =
    ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"];

/// The months' letters.
pub const MONTH_LETTERS: [&str; 12] = ["J", "F", "M", "A", "M", "J", "J", "A", "S", "O", "N", "D"];

#[cfg(test)]
mod tests {
    use super::{decimal, set, whole};

    #[test]
    fn plain_sentences_are_set() {
        assert_eq!(
            set("sun (1059 W/m2, air of 19 C; tilt 35 deg) for each 1 m2"),
            "sun (1059\u{a0}W/m\u{b2}, air of 19\u{b0}C; tilt 35\u{b0}) for each 1\u{a0}m\u{b2}"
        );
        assert_eq!(set("C is a letter, 15 % of it"), "C is a letter, 15\u{a0}% of it");
    }

    #[test]
    fn figures_are_set_as_a_reader_expects() {
        assert_eq!(whole(2240.4), "2\u{a0}240");
        assert_eq!(whole(-38.0), "\u{2212}38");
        assert_eq!(whole(-0.2), "0");
        assert_eq!(whole(1_234_567.0), "1\u{a0}234\u{a0}567");
        assert_eq!(decimal(-0.04, 1), "0.0");
        assert_eq!(decimal(-1.25, 1), "\u{2212}1.2");
    }
}
