//! Sentences with quantities in them, told in the reader's units when they are told.

use design::quantity::{Kind, Units, spoken};

/// A sentence: a pattern with a `{}` for each value.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Words {
    pattern: &'static str,
    values: Vec<Value>,
}

/// What stands in a sentence.
#[derive(Clone, Debug, PartialEq)]
pub enum Value {
    /// Words as they are.
    Text(String),
    /// Another sentence.
    Words(Words),
    /// A quantity in SI.
    Quantity(Kind, f64),
    /// Heat or electricity \[kWh\]: in these units for every reader.
    Kwh(f64),
    /// A number without unit, to so many decimals.
    Number(f64, usize),
    /// A time \[s\], in the unit in which it is best read.
    Span(f64),
}

/// How signs are set.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Setting {
    /// For a terminal: plain letters.
    Plain,
    /// For page and paper: the degree sign, raised figures, spaces that do not break.
    Typeset,
}

impl Words {
    /// A sentence of a pattern and its values, as many as the pattern has places.
    pub fn of(pattern: &'static str, values: Vec<Value>) -> Words {
        debug_assert_eq!(pattern.matches("{}").count(), values.len(), "{pattern}");
        Words { pattern, values }
    }

    /// True where nothing is said.
    pub fn is_empty(&self) -> bool {
        self.pattern.is_empty()
    }

    /// The sentence for a reader.
    pub fn told(&self, units: Units, setting: Setting) -> String {
        let mut told = String::new();
        let mut values = self.values.iter();
        for (place, piece) in self.pattern.split("{}").enumerate() {
            if place > 0
                && let Some(value) = values.next()
            {
                told.push_str(&value.told(units, setting));
            }
            told.push_str(piece);
        }
        told
    }
}

impl Value {
    fn told(&self, units: Units, setting: Setting) -> String {
        let plain = match self {
            Value::Text(text) => return text.clone(),
            Value::Words(words) => return words.told(units, setting),
            Value::Quantity(kind, si) => spoken(*kind, *si, units),
            Value::Kwh(kwh) if kwh.abs() < 10.0 => format!("{kwh:.1} kWh"),
            Value::Kwh(kwh) => format!("{kwh:.0} kWh"),
            Value::Number(number, decimals) => format!("{number:.decimals$}"),
            Value::Span(span_s) => span(*span_s),
        };
        match setting {
            // A file writes a difference so; a person reads it as degrees.
            Setting::Plain => plain.replace("F diff", "degrees F"),
            Setting::Typeset => typeset(&plain),
        }
    }
}

/// A time in the unit in which it is best read.
fn span(span_s: f64) -> String {
    let (number, unit) = match span_s {
        s if s < 90.0 => (s, "s"),
        s if s < 5400.0 => (s / 60.0, "min"),
        s if s < 48.0 * 3600.0 => (s / 3600.0, "h"),
        s => (s / 86_400.0, "days"),
    };
    if number < 9.95 && unit != "s" && unit != "min" {
        let tenths = format!("{number:.1}");
        return format!("{} {unit}", tenths.trim_end_matches(".0"));
    }
    format!("{number:.0} {unit}")
}

/// A quantity as print sets it.
fn typeset(plain: &str) -> String {
    let set = match plain.rsplit_once(' ') {
        Some((number, unit @ ("C" | "F"))) => format!("{number} °{unit}"),
        _ => plain.replace("m2", "m²").replace("m3", "m³").replace("F diff", "F°"),
    };
    let signed = match set.strip_prefix('-') {
        Some(rest) => format!("\u{2212}{rest}"),
        None => set,
    };
    signed.replace(' ', "\u{a0}")
}

impl From<&str> for Value {
    fn from(text: &str) -> Value {
        Value::Text(text.to_owned())
    }
}

impl From<String> for Value {
    fn from(text: String) -> Value {
        Value::Text(text)
    }
}

impl From<Words> for Value {
    fn from(words: Words) -> Value {
        Value::Words(words)
    }
}

/// An absolute temperature \[K\], in whole degrees.
pub fn warm(kelvin: f64) -> Value {
    Value::Quantity(Kind::Temperature, kelvin)
}

/// A quantity in SI.
pub fn of(kind: Kind, si: f64) -> Value {
    Value::Quantity(kind, si)
}

/// A time \[s\].
pub fn lasting(span_s: f64) -> Value {
    Value::Span(span_s)
}

/// Heat or electricity \[kWh\].
pub fn kwh(kwh: f64) -> Value {
    Value::Kwh(kwh)
}

/// A number without unit, whole.
pub fn count(number: f64) -> Value {
    Value::Number(number, 0)
}

/// A share of one as whole percent.
pub fn percent(share: f64) -> Value {
    Value::Text(format!("{:.0} %", 100.0 * share))
}

/// A sentence: `words!("{} reaches {}", "the sheet", warm(400.0))`.
macro_rules! words {
    ($pattern:literal $(, $value:expr)* $(,)?) => {
        $crate::worry::words::Words::of($pattern, vec![$($crate::worry::words::Value::from($value)),*])
    };
}
pub(crate) use words;

#[cfg(test)]
mod tests {
    use super::*;

    /// Given a sentence with a temperature of 381.23 K, a volume and a time, the two readers' words: 108 C
    /// is 227 F and 10 litres are 2.64 US gallons (definitions of the units).
    #[test]
    fn the_same_sentence_in_two_systems() {
        let words = words!(
            "{} at {}, {} in {}.",
            "Steam",
            warm(381.23),
            of(Kind::Volume, 0.01),
            lasting(600.0)
        );
        assert_eq!(words.told(Units::Metric, Setting::Plain), "Steam at 108 C, 10 l in 10 min.");
        assert_eq!(words.told(Units::Us, Setting::Plain), "Steam at 227 F, 2.64 US gal in 10 min.");
        assert_eq!(
            words.told(Units::Metric, Setting::Typeset),
            "Steam at 108\u{a0}°C, 10\u{a0}l in 10\u{a0}min."
        );
    }

    /// Given times, the unit in which each is read (by hand).
    #[test]
    fn times_are_told_in_their_own_unit() {
        for (span_s, told) in [
            (3.0, "3 s"),
            (300.0, "5 min"),
            (5400.0, "1.5 h"),
            (86_400.0, "24 h"),
            (10.0 * 86_400.0, "10 days"),
        ] {
            assert_eq!(span(span_s), told);
        }
    }
}
