//! What was given, read.

use std::str::FromStr;

use design::quantity::{Kind, QuantityFault, parse};
use design::value::nearest;
use physics::Angle;
use physics::sun::Instant;
use toml::value::{Datetime, Offset};

use super::fault::SumFault;
use super::table::{Form, Key};

/// Everything given to a sum, what is assumed included.
#[derive(Default)]
pub struct Given {
    /// In the order of the sum's keys.
    pub entries: Vec<Entry>,
}

/// One thing given.
pub struct Entry {
    /// Which.
    pub key: &'static Key,
    /// As it was written.
    pub text: String,
    /// As it was read.
    pub value: Value,
    /// Where it comes from, where nobody wrote it.
    pub assumed: Option<&'static str>,
}

/// A value as it was read.
#[derive(Clone, Debug, PartialEq)]
pub enum Value {
    /// A number in SI, or without a dimension.
    Si(f64),
    /// A flow by volume \[m3/s\].
    VolumeFlow(f64),
    /// A flow by mass \[kg/s\].
    MassFlow(f64),
    /// A whole number.
    Count(u32),
    /// A word.
    Word(&'static str),
    /// An instant, as days since 2000 January 1, 12 h UTC.
    Days(f64),
}

impl Given {
    fn entry(&self, name: &'static str) -> Result<&Entry, SumFault> {
        let found = self.entries.iter().find(|entry| entry.key.name == name);
        found.ok_or(SumFault::Missing { wanted: name })
    }

    /// True where the key stands, or is assumed.
    pub fn has(&self, name: &'static str) -> bool {
        self.entry(name).is_ok()
    }

    /// The number of a key, in SI.
    pub fn si(&self, name: &'static str) -> Result<f64, SumFault> {
        match self.entry(name)?.value {
            Value::Si(si) | Value::VolumeFlow(si) | Value::MassFlow(si) | Value::Days(si) => Ok(si),
            Value::Count(count) => Ok(f64::from(count)),
            Value::Word(_) => Err(SumFault::Missing { wanted: name }),
        }
    }

    /// The number of a key that may be left out.
    pub fn maybe(&self, name: &'static str) -> Result<Option<f64>, SumFault> {
        if self.has(name) { self.si(name).map(Some) } else { Ok(None) }
    }

    /// The angle of a key.
    pub fn angle(&self, name: &'static str) -> Result<Angle, SumFault> {
        self.si(name).map(Angle::from_radians)
    }

    /// The whole number of a key.
    pub fn count(&self, name: &'static str) -> Result<u32, SumFault> {
        match self.entry(name)?.value {
            Value::Count(count) => Ok(count),
            _ => Err(SumFault::Missing { wanted: name }),
        }
    }

    /// The word of a key.
    pub fn word(&self, name: &'static str) -> Result<&'static str, SumFault> {
        match self.entry(name)?.value {
            Value::Word(word) => Ok(word),
            _ => Err(SumFault::Missing { wanted: name }),
        }
    }

    /// A flow by mass \[kg/s\], whichever way it was written.
    pub fn flow_kg_s(&self, name: &'static str, density_kg_m3: f64) -> Result<f64, SumFault> {
        match self.entry(name)?.value {
            Value::VolumeFlow(flow_m3_s) => Ok(flow_m3_s * density_kg_m3),
            _ => self.si(name),
        }
    }
}

/// Why a value cannot be used.
#[derive(Clone, Debug, PartialEq)]
pub struct ValueFault {
    /// Short stable name.
    pub code: &'static str,
    /// What must be there.
    pub expected: String,
    /// What is wrong, in one sentence.
    pub says: String,
    /// How to mend it.
    pub hint: String,
}

/// Reads one value as its key wants it.
///
/// # Errors
/// A [`ValueFault`] that says what must be there.
pub fn read(key: &Key, text: &str) -> Result<Value, ValueFault> {
    let value = match key.form {
        Form::Quantity(kind) => {
            Value::Si(parse(text, kind).map_err(|fault| quantity_fault(key, &fault, kind))?.si)
        }
        Form::AnyFlow => flow(key, text)?,
        Form::Percent => Value::Si(percent(key, text)?),
        Form::Count => Value::Count(text.trim().parse().map_err(|_| {
            let hint = "write it in figures, without a unit or a point";
            fault("not-a-count", key, "this is no whole number".to_owned(), hint.to_owned())
        })?),
        Form::Choice(words) => Value::Word(choice(key, text, words)?),
        Form::Catalogue(words) => Value::Word(choice(key, text, &words())?),
        Form::Time => Value::Days(instant(key, text)?.days_since_j2000()),
    };
    check_range(key, &value)?;
    Ok(value)
}

fn fault(code: &'static str, key: &Key, says: String, hint: String) -> ValueFault {
    ValueFault { code, expected: key.form.words(), says, hint }
}

fn quantity_fault(key: &Key, found: &QuantityFault, kind: Kind) -> ValueFault {
    fault(found.code(), key, found.says(kind), found.hint(kind))
}

/// A flow by volume; where the unit is one of mass, by mass.
fn flow(key: &Key, text: &str) -> Result<Value, ValueFault> {
    match (parse(text, Kind::Flow), parse(text, Kind::MassFlow)) {
        (Ok(volume), _) => Ok(Value::VolumeFlow(volume.si)),
        (Err(_), Ok(mass)) => Ok(Value::MassFlow(mass.si)),
        (Err(found), Err(_)) => Err(quantity_fault(key, &found, Kind::Flow)),
    }
}

/// A share whose key says percent, so that a bare number is percent too.
fn percent(key: &Key, text: &str) -> Result<f64, ValueFault> {
    let bare = parse(text, Kind::Number).map(|number| number.si / 100.0);
    bare.or_else(|_| parse(text, Kind::Share).map(|share| share.si))
        .map_err(|found| quantity_fault(key, &found, Kind::Share))
}

fn choice(key: &Key, text: &str, words: &[&'static str]) -> Result<&'static str, ValueFault> {
    let text = text.trim();
    let same = words.iter().find(|word| word.eq_ignore_ascii_case(text));
    same.copied().ok_or_else(|| {
        let hint = match nearest(text, words) {
            Some(near) => format!("did you mean `{near}`?"),
            None => "write one of the words".to_owned(),
        };
        fault("unknown-word", key, "this is none of the words that fit".to_owned(), hint)
    })
}

/// Years whose calendar has every fourth year a leap year.
const YEARS: std::ops::RangeInclusive<u16> = 1901..=2099;

fn instant(key: &Key, text: &str) -> Result<Instant, ValueFault> {
    let refuse =
        |says: &str, hint: &str| fault("not-a-time", key, says.to_owned(), hint.to_owned());
    let example = "write for instance 2026-06-21T12:25:00+01:00, or a time in UTC with Z";
    let read = Datetime::from_str(text.trim()).map_err(|_| refuse("this is no time", example))?;
    let (Some(date), Some(time)) = (read.date, read.time) else {
        return Err(refuse("a date and a clock time both belong here", example));
    };
    let Some(offset) = read.offset else {
        return Err(refuse("the time does not say how far it is from UTC", example));
    };
    if !YEARS.contains(&date.year) {
        let says = format!("the year is {}; it must lie between 1901 and 2099", date.year);
        return Err(fault("out-of-range", key, says, "give a year in between".to_owned()));
    }
    let ahead_min = match offset {
        Offset::Z => 0,
        Offset::Custom { minutes } => minutes,
    };
    let second =
        f64::from(time.second.unwrap_or(0)) + f64::from(time.nanosecond.unwrap_or(0)) * 1e-9;
    let minute = f64::from(time.minute) + second / 60.0 - f64::from(ahead_min);
    Ok(Instant {
        year: i32::from(date.year),
        month: u32::from(date.month),
        day: u32::from(date.day),
        hour: f64::from(time.hour) + minute / 60.0,
    })
}

/// Holds a value against its key's range.
fn check_range(key: &Key, value: &Value) -> Result<(), ValueFault> {
    let Some((low, high)) = key.range else { return Ok(()) };
    let number = |value: &Value| match value {
        Value::Si(number) => Some(*number),
        Value::Count(count) => Some(f64::from(*count)),
        _ => None,
    };
    // The table's own range is read by the reader of values; a test reads them all.
    let bound = |text: &'static str| {
        let bare = Key { range: None, ..*key };
        read(&bare, text).ok().as_ref().and_then(number)
    };
    match (number(value), bound(low), bound(high)) {
        (Some(number), Some(least), Some(most)) if !(least..=most).contains(&number) => {
            Err(ValueFault {
                code: "out-of-range",
                expected: format!("{low} to {high}"),
                says: format!("this lies outside {low} to {high}"),
                hint: "check the figure and its unit".to_owned(),
            })
        }
        _ => Ok(()),
    }
}

#[cfg(test)]
mod tests {
    use super::super::table::key;
    use super::*;

    /// Given one instant in two offsets, the same day; given none, a fault. J2000.0 is by
    /// definition 2000 January 1, 12 h.
    #[test]
    fn an_instant_counts_its_offset() {
        let time = key("time", Form::Time, "");
        assert_eq!(read(&time, "2000-01-01T12:00:00Z"), Ok(Value::Days(0.0)));
        assert_eq!(read(&time, "2000-01-01T13:30:00+01:30"), Ok(Value::Days(0.0)));
        assert_eq!(read(&time, "2000-01-01T12:00:00").unwrap_err().code, "not-a-time");
        assert_eq!(read(&time, "1850-01-01T12:00:00Z").unwrap_err().code, "out-of-range");
    }

    /// Given percent bare and with its sign, the same share.
    #[test]
    fn percent_stands_bare_too() {
        let growth = key("growth_percent", Form::Percent, "");
        assert_eq!(read(&growth, "6.25"), Ok(Value::Si(0.0625)));
        assert_eq!(read(&growth, "6.25 %"), Ok(Value::Si(0.0625)));
    }

    /// Given a flow by volume and by mass, each as what it is.
    #[test]
    fn a_flow_is_read_either_way() {
        let flow = key("flow", Form::AnyFlow, "");
        assert_eq!(read(&flow, "3 kg/min"), Ok(Value::MassFlow(0.05)));
        assert_eq!(read(&flow, "60 l/min"), Ok(Value::VolumeFlow(1e-3)));
        assert_eq!(read(&flow, "60 mm").unwrap_err().code, "wrong-unit");
    }
}
