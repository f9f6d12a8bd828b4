//! One written value, read as the form of its parameter.

use crate::catalogue::{materials, tubes};
use crate::origin::Origin;
use crate::parameters::{Default, Form, Parameter, Spread, parameter_at};
use crate::quantity::{self, Kind, QuantityFault, Units, show};
use crate::values::Value;
use physics::climate::MONTH_STARTS_DAY;
use physics::panel::route::Place;
use physics::tap::DaySpan;

/// A value as TOML has it, before its meaning is known.
#[derive(Clone, Debug, PartialEq)]
pub enum Raw {
    /// Text in quotes.
    Text(String),
    /// A number with a point.
    Number(f64),
    /// A whole number.
    Whole(i64),
    /// A list.
    List(Vec<Raw>),
    /// A table, where none belongs.
    Table,
    /// True, false or a date: nothing that a design file holds.
    Other(String),
}

impl Raw {
    /// The value as it is quoted in a message.
    pub fn quoted(&self) -> String {
        match self {
            Raw::Text(text) if text.chars().count() > 60 => {
                format!("\"{}...\"", text.chars().take(57).collect::<String>())
            }
            Raw::Text(text) => format!("\"{text}\""),
            Raw::Number(number) => format!("{number}"),
            Raw::Whole(number) => format!("{number}"),
            Raw::List(list) if list.len() == 1 => "a list of one value".to_owned(),
            Raw::List(list) => format!("a list of {} values", list.len()),
            Raw::Table => "a table".to_owned(),
            Raw::Other(text) => text.clone(),
        }
    }
}

/// A value that was read: what it is, how it is shown, where it comes from.
#[derive(Clone, Debug, PartialEq)]
pub struct Read {
    /// The value.
    pub value: Value,
    /// As it is shown.
    pub shown: String,
    /// Where it comes from.
    pub origin: Origin,
}

/// Why a value cannot be used.
#[derive(Clone, Debug, PartialEq)]
pub struct Fault {
    /// Short stable name.
    pub code: &'static str,
    /// What must be there.
    pub expected: String,
    /// What is wrong, in one sentence.
    pub says: String,
    /// How to mend it.
    pub hint: String,
}

/// Reads words as a user writes them in a design file.
///
/// # Errors
///
/// A [`Fault`] that says what must be there.
pub fn from_words(parameter: &Parameter, words: &str) -> Result<Read, Fault> {
    let raw = match (parameter.form, words.parse::<i64>()) {
        (Form::Count, Ok(whole)) => Raw::Whole(whole),
        _ => Raw::Text(words.to_owned()),
    };
    read(parameter, &raw)
}

/// Reads a value for a parameter, in its form and within its range.
///
/// # Errors
///
/// A [`Fault`] that says what must be there.
pub fn read(parameter: &Parameter, raw: &Raw) -> Result<Read, Fault> {
    if let (Raw::Text(text), Some(spread)) = (raw, parameter.unknown)
        && text.trim() == "unknown"
    {
        return unknown(parameter, spread);
    }
    let value = match parameter.form {
        Form::Text => words(raw)?,
        Form::Quantity(kind) => Value::Si(quantity(parameter, raw, kind)?),
        Form::Worded(kind, _) => return worded(parameter, raw, kind),
        Form::Count => count(parameter, raw)?,
        Form::Choice(choices) => choice(parameter, raw, choices)?,
        Form::Material(group) => {
            let mut names = materials::names(group);
            names.push("own");
            choice(parameter, raw, &names)?
        }
        Form::TubeSize => tube_size(raw)?,
        Form::Monthly(kind) => monthly(parameter, raw, kind)?,
        Form::Clock => clock(raw)?,
        Form::DaySpans => day_spans(raw)?,
        Form::Places => places(parameter, raw)?,
    };
    Ok(Read { shown: shown(parameter.form, &value), value, origin: Origin::Written })
}

/// A value as it is shown to people.
pub fn shown(form: Form, value: &Value) -> String {
    match (form, value) {
        (Form::Quantity(kind) | Form::Worded(kind, _) | Form::Monthly(kind), Value::Si(si)) => {
            show(kind, *si, Units::Metric)
        }
        (Form::Monthly(kind), Value::Months(months)) => {
            if months.iter().all(|month| *month == months[0]) {
                show(kind, months[0], Units::Metric)
            } else {
                let all: Vec<String> =
                    months.iter().map(|month| show(kind, *month, Units::Metric)).collect();
                all.join(", ")
            }
        }
        (_, Value::Count(count)) => count.to_string(),
        (_, Value::Word(word)) => word.clone(),
        (_, Value::Size { name: Some(name), .. }) => (*name).to_owned(),
        (_, Value::Size { outside_m, wall_m, name: None }) => {
            format!(
                "{} x {}",
                show(Kind::Number, outside_m * 1e3, Units::Metric),
                show(Kind::Number, wall_m * 1e3, Units::Metric)
            )
        }
        (_, Value::Minute(minute)) => format!("{:02}:{:02}", minute / 60, minute % 60),
        (_, Value::Days(days)) => format!("{} spans", days.len()),
        (_, Value::Places(places)) => format!("{} places", places.len()),
        (_, Value::Si(si)) => format!("{si}"),
        (_, Value::Months(_)) => "twelve months".to_owned(),
    }
}

/// A value as it was shown in metric units, in the reader's. Words, and figures that are the same
/// everywhere (angles, times, shares), stay as they are.
pub fn in_units(place: &str, text: &str, units: Units) -> String {
    if units == Units::Metric {
        return text.to_owned();
    }
    if place == "tap.draw" {
        // A day's water and in how many draws.
        return match text.split_once(" a day") {
            Some((volume, rest)) => format!("{} a day{rest}", one_in(Kind::Volume, volume, units)),
            None => text.to_owned(),
        };
    }
    match parameter_at(place).map(|parameter| parameter.form) {
        Some(Form::Quantity(kind) | Form::Worded(kind, _) | Form::Monthly(kind)) => {
            let all: Vec<String> = text.split(", ").map(|part| one_in(kind, part, units)).collect();
            all.join(", ")
        }
        Some(Form::TubeSize) => {
            let all: Vec<String> = text
                .split(" x ")
                .map(|part| one_in(Kind::Length, &format!("{part} mm"), units))
                .collect();
            all.join(" x ")
        }
        _ => text.to_owned(),
    }
}

fn one_in(kind: Kind, text: &str, units: Units) -> String {
    if matches!(kind, Kind::Angle | Kind::Time | Kind::Share | Kind::Number | Kind::Rate) {
        return text.to_owned();
    }
    quantity::parse(text, kind).map_or_else(|_| text.to_owned(), |read| show(kind, read.si, units))
}

fn unknown(parameter: &Parameter, spread: Spread) -> Result<Read, Fault> {
    let middle = from_words(parameter, spread.middle)?;
    Ok(Read {
        value: middle.value,
        shown: middle.shown,
        origin: Origin::Unknown {
            middle: spread.middle.to_owned(),
            low: spread.low.to_owned(),
            high: spread.high.to_owned(),
            source: spread.source.to_owned(),
        },
    })
}

/// The fault of a value of the wrong sort.
fn wrong_sort(raw: &Raw, expected: &str, hint: &str) -> Fault {
    Fault {
        code: "wrong-sort",
        expected: expected.to_owned(),
        says: format!("Here stands {}; what must stand here: {expected}", raw.quoted()),
        hint: hint.to_owned(),
    }
}

fn words(raw: &Raw) -> Result<Value, Fault> {
    match raw {
        Raw::Text(text) if !text.trim().is_empty() => Ok(Value::Word(text.clone())),
        _ => Err(wrong_sort(raw, "words in quotes", "write words between quotes")),
    }
}

fn quantity(parameter: &Parameter, raw: &Raw, kind: Kind) -> Result<f64, Fault> {
    let text = match raw {
        Raw::Text(text) => text.clone(),
        Raw::Number(number) => format!("{number:?}"),
        Raw::Whole(number) => format!("{number}"),
        _ => {
            let hint = format!("write it in quotes with its unit: {}", kind.fitting());
            return Err(wrong_sort(raw, kind.words(), &hint));
        }
    };
    if text.trim() == "unknown" {
        return Err(not_unknown(parameter, kind.words()));
    }
    let read = quantity::parse(&text, kind).map_err(|fault| Fault {
        code: fault.code(),
        expected: format!("{} ({})", kind.words(), kind.fitting()),
        says: capital(&fault.says(kind)),
        hint: match fault {
            QuantityFault::NoUnit => format!(
                "write for instance `{} = \"{} {}\"`; {}",
                parameter.key(),
                text.trim(),
                kind.spellings().first().copied().unwrap_or_default(),
                fault.hint(kind)
            ),
            _ => fault.hint(kind),
        },
    })?;
    within(parameter, read.si, kind, &text)?;
    Ok(read.si)
}

fn not_unknown(parameter: &Parameter, wanted: &str) -> Fault {
    Fault {
        code: "unknown-not-possible",
        expected: wanted.to_owned(),
        says: format!("`{}` cannot be left unknown", parameter.key()),
        hint: match parameter.default {
            Default::Required | Default::Size { .. } => {
                "measure it: nothing can stand in its place".to_owned()
            }
            // Left out, it would be asked for at once.
            Default::Absent if parameter.path.starts_with("circuit.share-by-") => {
                "measure it with a refractometer or a hydrometer for this antifreeze, or write the \
                 share it was mixed by"
                    .to_owned()
            }
            _ => "leave the line out: what is reckoned with instead is then listed".to_owned(),
        },
    }
}

fn within(parameter: &Parameter, si: f64, kind: Kind, written: &str) -> Result<(), Fault> {
    let Some((low, high)) = parameter.range else { return Ok(()) };
    // The bounds are read by the same reader, and a test reads them all.
    let bound = |text: &str| quantity::parse(text, kind).map_or(f64::NAN, |bound| bound.si);
    if si < bound(low) || si > bound(high) {
        return Err(out_of_range(parameter, written, (low, high)));
    }
    Ok(())
}

fn out_of_range(parameter: &Parameter, written: &str, (low, high): (&str, &str)) -> Fault {
    Fault {
        code: "out-of-range",
        expected: format!("{low} to {high}"),
        says: format!("`{}` is {}, outside {low} to {high}", parameter.key(), written.trim()),
        hint: format!("{} Write a value from {low} to {high}", parameter.help),
    }
}

fn worded(parameter: &Parameter, raw: &Raw, kind: Kind) -> Result<Read, Fault> {
    let Form::Worded(_, words) = parameter.form else {
        return Err(wrong_sort(raw, kind.words(), ""));
    };
    if let Raw::Text(text) = raw {
        if let Some(word) = words.iter().find(|word| word.word == text.trim()) {
            let si = quantity(parameter, &Raw::Text(word.value.to_owned()), kind)?;
            let origin = match word.certainty {
                "exact" => Origin::Written,
                certainty => Origin::Said {
                    word: word.word.to_owned(),
                    source: word.source.to_owned(),
                    certainty: certainty.to_owned(),
                },
            };
            return Ok(Read { value: Value::Si(si), shown: word.value.to_owned(), origin });
        }
        let all: Vec<&str> = words.iter().map(|word| word.word).collect();
        if text.starts_with(|first: char| first.is_alphabetic()) {
            let expected = format!("{}, or one of {}", kind.words(), all.join(", "));
            return Err(if text.trim() == "unknown" {
                not_unknown(parameter, &expected)
            } else {
                Fault {
                    code: "unknown-word",
                    says: format!("{} is none of the words known here", raw.quoted()),
                    hint: nearest(text, &all).map_or_else(
                        || format!("words that fit: {}", all.join(", ")),
                        |near| format!("did you mean \"{near}\"?"),
                    ),
                    expected,
                }
            });
        }
    }
    let si = quantity(parameter, raw, kind)?;
    Ok(Read { value: Value::Si(si), shown: show(kind, si, Units::Metric), origin: Origin::Written })
}

fn count(parameter: &Parameter, raw: &Raw) -> Result<Value, Fault> {
    let Raw::Whole(whole) = raw else {
        return Err(wrong_sort(raw, "a whole number", "write a whole number without quotes"));
    };
    let (low, high) = parameter.range.unwrap_or(("0", "1000000"));
    let bound = |text: &str| text.parse::<i64>().unwrap_or_default();
    if *whole < bound(low) || *whole > bound(high) {
        return Err(out_of_range(parameter, &whole.to_string(), (low, high)));
    }
    u32::try_from(*whole)
        .map(Value::Count)
        .map_err(|_| wrong_sort(raw, "a whole number", "write a smaller number"))
}

fn choice(parameter: &Parameter, raw: &Raw, choices: &[&str]) -> Result<Value, Fault> {
    let expected = format!("one of {}", choices.join(", "));
    let Raw::Text(text) = raw else {
        return Err(wrong_sort(raw, &expected, "write one of the words in quotes"));
    };
    if choices.contains(&text.trim()) {
        return Ok(Value::Word(text.trim().to_owned()));
    }
    if text.trim() == "unknown" {
        return Err(not_unknown(parameter, &expected));
    }
    let near = nearest(text, choices);
    Err(Fault {
        code: "unknown-word",
        says: format!("{} is none of the words known here", raw.quoted()),
        hint: near.map_or_else(
            || format!("words that fit: {}", choices.join(", ")),
            |near| format!("did you mean \"{near}\"?"),
        ),
        expected,
    })
}

/// The known word most like this one, if any is near.
pub fn nearest<'a>(word: &str, known: &[&'a str]) -> Option<&'a str> {
    let word = word.trim().to_lowercase().replace(['_', ' '], "-");
    known
        .iter()
        .map(|&other| (strsim::normalized_damerau_levenshtein(&word, &other.to_lowercase()), other))
        .filter(|(alike, _)| *alike >= 0.6)
        .max_by(|a, b| a.0.total_cmp(&b.0))
        .map(|(_, other)| other)
}

fn tube_size(raw: &Raw) -> Result<Value, Fault> {
    let expected =
        "outside diameter x wall in millimetres, for instance 15 x 0.7, or a hose's name";
    let fault = || {
        let names: Vec<&str> = tubes::named().iter().map(|tube| tube.name.as_str()).collect();
        let hint = "write \"15 x 0.7\", or `outside` and `wall` with their units, or one of";
        wrong_sort(raw, expected, &format!("{hint} {}", names.join(", ")))
    };
    let Raw::Text(text) = raw else { return Err(fault()) };
    if let Some(tube) = tubes::of_name(text.trim()) {
        return Ok(Value::Size {
            outside_m: (tube.bore_mm + 2.0 * tube.wall_mm) * 1e-3,
            wall_m: tube.wall_mm * 1e-3,
            name: Some(&tube.name),
        });
    }
    let text = text.replace('\u{d7}', "x").replace("mm", "").replace(',', ".");
    let (outside, wall) = text.split_once(['x', 'X']).ok_or_else(fault)?;
    let number =
        |part: &str| part.trim().parse::<f64>().ok().filter(|mm| mm.is_finite() && *mm > 0.0);
    let (outside, wall) = (number(outside).ok_or_else(fault)?, number(wall).ok_or_else(fault)?);
    Ok(Value::Size { outside_m: outside * 1e-3, wall_m: wall * 1e-3, name: None })
}

fn monthly(parameter: &Parameter, raw: &Raw, kind: Kind) -> Result<Value, Fault> {
    let list = match raw {
        Raw::List(list) => list.clone(),
        Raw::Text(text) if text.contains(", ") => in_a_row(text),
        _ => return quantity(parameter, raw, kind).map(|si| Value::Months([si; 12])),
    };
    if list.len() != 12 {
        return Err(Fault {
            code: "not-twelve",
            expected: "one value or twelve, January first".to_owned(),
            says: format!(
                "`{}` has {} values; a year has twelve months",
                parameter.key(),
                list.len()
            ),
            hint: "write twelve, January first; or one that holds all year".to_owned(),
        });
    }
    let mut months = [0.0; 12];
    for ((month, name), raw) in months.iter_mut().zip(crate::MONTHS).zip(&list) {
        *month = quantity(parameter, raw, kind)
            .map_err(|fault| Fault { says: format!("{name}: {}", fault.says), ..fault })?;
    }
    Ok(Value::Months(months))
}

/// Numbers in a row with their unit after the last: `4.3, 4.9, 6.5 C`.
fn in_a_row(text: &str) -> Vec<Raw> {
    let parts: Vec<&str> = text.split(',').map(str::trim).collect();
    let unit = parts.last().and_then(|last| {
        let at = last.find(|sign: char| sign.is_alphabetic() || sign == '%' || sign == '\u{b0}')?;
        Some(last[at..].to_owned())
    });
    let alone = |part: &str| part.parse::<f64>().is_ok();
    parts
        .iter()
        .map(|part| match &unit {
            Some(unit) if alone(part) => Raw::Text(format!("{part} {unit}")),
            _ => Raw::Text((*part).to_owned()),
        })
        .collect()
}

fn clock(raw: &Raw) -> Result<Value, Fault> {
    let fault =
        || wrong_sort(raw, "a time of day", "write hours and minutes, for instance \"07:30\"");
    let Raw::Text(text) = raw else { return Err(fault()) };
    minute_of_day(text).map(Value::Minute).ok_or_else(fault)
}

/// `07:30` as minutes from midnight.
pub fn minute_of_day(text: &str) -> Option<u16> {
    let (hours, minutes) = text.trim().split_once(':')?;
    let part = |text: &str, below: u16| {
        (text.len() <= 2).then(|| text.parse::<u16>().ok().filter(|part| *part < below)).flatten()
    };
    Some(part(hours, 24)? * 60 + part(minutes, 60)?)
}

fn day_spans(raw: &Raw) -> Result<Value, Fault> {
    let expected = "spans of days, for instance [[\"07-20\", \"08-02\"]]";
    let fault =
        |raw: &Raw| wrong_sort(raw, expected, "write month and day of the first and the last day");
    let Raw::List(list) = raw else { return Err(fault(raw)) };
    let mut days = Vec::with_capacity(list.len());
    for span in list {
        let Raw::List(ends) = span else { return Err(fault(span)) };
        let [Raw::Text(first), Raw::Text(last)] = ends.as_slice() else { return Err(fault(span)) };
        days.push(DaySpan { first: day(first)?, last: day(last)? });
    }
    Ok(Value::Days(days))
}

fn places(parameter: &Parameter, raw: &Raw) -> Result<Value, Fault> {
    let expected =
        "two places or more, each to the right and up from the sheet's lower left corner";
    let hint = "write for instance [[\"50 mm\", \"40 mm\"], [\"50 mm\", \"900 mm\"]]";
    let fault = |raw: &Raw| wrong_sort(raw, expected, hint);
    let Raw::List(list) = raw else { return Err(fault(raw)) };
    if list.len() < 2 {
        return Err(fault(raw));
    }
    let mut places: Vec<Place> = Vec::with_capacity(list.len());
    for pair in list {
        let Raw::List(both) = pair else { return Err(fault(pair)) };
        let [across, up] = both.as_slice() else { return Err(fault(pair)) };
        let place = Place {
            across_m: quantity(parameter, across, Kind::Length)?,
            up_m: quantity(parameter, up, Kind::Length)?,
        };
        if places.last().is_some_and(|before| before.to_m(&place) < 1e-6) {
            return Err(Fault {
                code: "place-twice",
                expected: "places that differ from the one before".to_owned(),
                says: format!("Place {} of the route is where the one before is", places.len() + 1),
                hint: "take one of the two out".to_owned(),
            });
        }
        places.push(place);
    }
    Ok(Value::Places(places))
}

fn day(text: &str) -> Result<u16, Fault> {
    let fault = |says: String, hint: &str| Fault {
        code: "no-such-day",
        expected: "month and day, MM-DD".to_owned(),
        says,
        hint: hint.to_owned(),
    };
    if text == "02-29" {
        return Err(fault(
            "The year that is reckoned has no 29 February".to_owned(),
            "write 02-28 or 03-01",
        ));
    }
    let parts = text
        .split_once('-')
        .and_then(|(month, day)| Some((month.parse::<usize>().ok()?, day.parse::<usize>().ok()?)));
    match parts {
        Some((month @ 1..=12, day))
            if day >= 1 && MONTH_STARTS_DAY[month - 1] + day <= MONTH_STARTS_DAY[month] =>
        {
            Ok((MONTH_STARTS_DAY[month - 1] + day - 1) as u16)
        }
        _ => Err(fault(
            format!("\"{text}\" is no day of the year"),
            "write month and day, for instance \"07-20\"",
        )),
    }
}

/// The first letter large.
pub fn capital(text: &str) -> String {
    let mut signs = text.chars();
    signs.next().map_or_else(String::new, |first| first.to_uppercase().chain(signs).collect())
}

#[cfg(test)]
mod tests {
    use super::in_units;
    use crate::quantity::Units;

    /// Given values as they are shown, the same in US units: by hand with the inch of 25.4 mm, the
    /// gallon of 3.785 l, the Fahrenheit scale; words, angles and times as they were.
    #[test]
    fn shown_values_are_put_into_us_units() {
        for (place, metric, us) in [
            ("panel.gap", "25.4 mm", "1 in"),
            ("tap.delivery", "52 C", "125.6 F"),
            ("tap.draw", "86 l a day in 8 draws", "22.72 US gal a day in 8 draws"),
            ("tap.draw", "none", "none"),
            ("control.store-reset", "5 K", "9 F diff"),
            ("circuit.flow-pipe.size", "15 x 0.7", "0.5906 in x 0.02756 in"),
            ("sun.clock", "0 h", "0 h"),
            ("sun.latitude", "54.61 deg", "54.61 deg"),
            ("circuit.check-valve-k", "2.5", "2.5"),
            ("sun.sky-model", "perez-1990", "perez-1990"),
            ("tap.mains-monthly", "10 C, 20 C", "50 F, 68 F"),
        ] {
            assert_eq!(in_units(place, metric, Units::Us), us, "{place}");
            assert_eq!(in_units(place, metric, Units::Metric), metric, "{place}");
        }
    }
}
