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

/// The reader's mark for degrees.
pub fn degree_mark(units: Units) -> &'static str {
    match units {
        Units::Metric => "\u{b0}C",
        Units::Us => "\u{b0}F",
    }
}

/// The months' names, short.
pub const MONTHS: [&str; 12] =
    ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"];

/// The months' letters.
pub const MONTH_LETTERS: [&str; 12] = ["J", "F", "M", "A", "M", "J", "J", "A", "S", "O", "N", "D"];

#[cfg(test)]
mod tests {
    use super::{decimal, whole};

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
