//! Columns of a weather file: missing values, impossible values, gaps.

use super::report::{Report, Tally, Told, counted};

/// Longest run of missing values that is bridged \[h\]. Common practice: a straight line over a
/// quarter of a day still keeps the day's shape; over a night and a day it invents one.
const LONGEST_GAP_H: usize = 6;

/// Below this an irradiance is a fault of the instrument's zero, not of the file \[W/m2\]. Common
/// practice: thermal offsets of pyranometers reach a few W/m2 at night.
const LOWEST_OFFSET_W_M2: f64 = -5.0;

/// Months of different years are glued with a smooth joint, which may leave the wind a hair below
/// calm (seen in files: -0.1 m/s).
const LOWEST_WIND_M_S: f64 = -0.5;

/// What a column holds.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Quantity {
    Global,
    Beam,
    Diffuse,
    Air,
    DewPoint,
    Humidity,
    Wind,
    Infrared,
}

impl Quantity {
    pub(super) fn words(self) -> &'static str {
        match self {
            Quantity::Global => "global irradiance",
            Quantity::Beam => "beam irradiance",
            Quantity::Diffuse => "diffuse irradiance",
            Quantity::Air => "air temperature",
            Quantity::DewPoint => "dew point",
            Quantity::Humidity => "relative humidity",
            Quantity::Wind => "wind speed",
            Quantity::Infrared => "sky infrared",
        }
    }

    /// The unit files carry it in.
    fn unit(self) -> &'static str {
        match self {
            Quantity::Global | Quantity::Beam | Quantity::Diffuse | Quantity::Infrared => "W/m2",
            Quantity::Air | Quantity::DewPoint => "C",
            Quantity::Humidity => "%",
            Quantity::Wind => "m/s",
        }
    }

    /// Values between this and zero are zero.
    fn lowest_offset(self) -> f64 {
        match self {
            Quantity::Global | Quantity::Beam | Quantity::Diffuse => LOWEST_OFFSET_W_M2,
            Quantity::Wind => LOWEST_WIND_M_S,
            _ => 0.0,
        }
    }

    /// What the earth's surface has seen, with a margin (from memory: records of -89 and 57 C, gusts
    /// apart 90 m/s, cloud-edge irradiance of 1400 W/m2 in hourly data). Humidity may be reported a
    /// little above saturation.
    fn possible(self) -> std::ops::RangeInclusive<f64> {
        match self {
            Quantity::Global => 0.0..=1_500.0,
            Quantity::Beam => 0.0..=1_400.0,
            Quantity::Diffuse => 0.0..=1_200.0,
            Quantity::Air => -90.0..=60.0,
            Quantity::DewPoint => -99.0..=45.0,
            Quantity::Humidity => 0.0..=110.0,
            Quantity::Wind => 0.0..=90.0,
            Quantity::Infrared => 50.0..=700.0,
        }
    }
}

/// A column as read: one value a row, in the file's unit, `None` where it is missing.
pub(super) struct Column {
    quantity: Quantity,
    values: Vec<Option<f64>>,
    lines: Vec<usize>,
    not_numbers: Tally,
    impossible: Tally,
    offsets: Tally,
}

impl Column {
    pub(super) fn new(quantity: Quantity) -> Self {
        Column {
            quantity,
            values: Vec::new(),
            lines: Vec::new(),
            not_numbers: Tally::default(),
            impossible: Tally::default(),
            offsets: Tally::default(),
        }
    }

    /// Takes the next row's field; `missing` tells the format's code for no value.
    pub(super) fn push(&mut self, line: usize, text: &str, missing: impl Fn(f64) -> bool) {
        let text = text.trim();
        self.lines.push(line);
        let value = match super::text::number(text) {
            None if text.is_empty() || text.eq_ignore_ascii_case("nan") => None,
            None => {
                self.not_numbers.add(line, text);
                None
            }
            Some(value) if missing(value) => None,
            Some(value) => self.possible_value(line, text, value),
        };
        self.values.push(value);
    }

    fn possible_value(&mut self, line: usize, text: &str, value: f64) -> Option<f64> {
        if value == 0.0 {
            // Nought with a minus is nought.
            return Some(0.0);
        }
        if value < 0.0 && value > self.quantity.lowest_offset() {
            self.offsets.add(line, text);
            return Some(0.0);
        }
        if !self.quantity.possible().contains(&value) {
            self.impossible.add(line, text);
            return None;
        }
        Some(value)
    }

    pub(super) fn is_empty(&self) -> bool {
        self.values.iter().all(Option::is_none)
            && self.not_numbers.count + self.impossible.count == 0
    }

    /// The column without holes, or none where a fault was told.
    pub(super) fn finish(self, report: &mut Report) -> Option<Vec<f64>> {
        let Column { quantity, values, lines, not_numbers, impossible, offsets } = self;
        let words = quantity.words();
        let mut usable = true;
        if not_numbers.count > 0 {
            usable = false;
            report.fault(Told {
                code: "weather-not-a-number",
                line: not_numbers.first_line,
                found: not_numbers.first_found.clone(),
                expected: format!("{words} in {}", quantity.unit()),
                says: format!(
                    "{} of {words} cannot be read as a number.",
                    not_numbers.counted("value")
                ),
                hint: "Fetch the file anew, or leave the field empty: up to six hours are bridged."
                    .to_owned(),
            });
        }
        if impossible.count > 0 {
            usable = false;
            let possible = quantity.possible();
            let (unit, least, most) = (quantity.unit(), possible.start(), possible.end());
            report.fault(Told {
                code: "weather-impossible-value",
                line: impossible.first_line,
                found: format!("{} {unit}", impossible.first_found),
                expected: format!("{least} to {most} {unit}"),
                says: format!("{} of {words} cannot be.", impossible.counted("value")),
                hint: "The column may be another quantity or in another unit.".to_owned(),
            });
        }
        if offsets.count > 0 {
            report.note(Told {
                code: "weather-negative-zeroed",
                line: offsets.first_line,
                found: format!("{} {}", offsets.first_found, quantity.unit()),
                expected: "0 or more".to_owned(),
                says: format!(
                    "{} of {words} a hair below zero taken as zero.",
                    offsets.counted("value")
                ),
                hint: "Nothing need be done: an instrument's zero wanders so far.".to_owned(),
            });
        }
        if !usable {
            return None;
        }
        bridge_gaps(quantity, &values, &lines, report)
    }
}

/// Bridges runs of missing values with straight lines; the year's end joins its beginning.
fn bridge_gaps(
    quantity: Quantity,
    values: &[Option<f64>],
    lines: &[usize],
    report: &mut Report,
) -> Option<Vec<f64>> {
    let words = quantity.words();
    let rows = values.len();
    let Some(first_known) = values.iter().position(Option::is_some) else {
        report.fault(Told {
            code: "weather-column-empty",
            line: lines.first().copied().unwrap_or(0),
            found: "no value at all".to_owned(),
            expected: format!("{words} in {}", quantity.unit()),
            says: format!("The file carries no {words}."),
            hint: "Choose all columns when you fetch the file, or take another station.".to_owned(),
        });
        return None;
    };
    let mut whole = vec![0.0; rows];
    let (mut longest, mut longest_line, mut missing) = (0, 0, Tally::default());
    let mut last_known = (first_known, values[first_known].unwrap_or_default());
    // Once round the year, from a known value to the same one.
    for step in 0..=rows {
        let row = (first_known + step) % rows;
        let Some(value) = values[row] else { continue };
        let (from, from_value) = last_known;
        let gap = (first_known + step) - from;
        for inside in 1..gap {
            let hole = (from + inside) % rows;
            whole[hole] = from_value + (value - from_value) * inside as f64 / gap as f64;
        }
        if gap > 1 {
            let hole_line = lines[(from + 1) % rows];
            missing.count += gap - 1;
            missing.first_line =
                if missing.first_line == 0 { hole_line } else { missing.first_line.min(hole_line) };
            if gap - 1 > longest {
                (longest, longest_line) = (gap - 1, hole_line);
            }
        }
        whole[row] = value;
        last_known = (first_known + step, value);
    }
    if longest > LONGEST_GAP_H {
        report.fault(Told {
            code: "weather-long-gap",
            line: longest_line,
            found: format!("{} without {words}", counted(longest, "hour")),
            expected: format!("at most {LONGEST_GAP_H} hours in a row"),
            says: format!("{words} is missing for too long to be bridged."),
            hint: "Use another year or another station.".to_owned(),
        });
        return None;
    }
    if missing.count > 0 {
        report.warning(Told {
            code: "weather-gap-bridged",
            line: missing.first_line,
            found: format!("{} without {words}", missing.counted("hour")),
            expected: format!("{words} in {}", quantity.unit()),
            says: format!(
                "{} of {words} missing; bridged with straight lines.",
                missing.counted("hour")
            ),
            hint: "Look whether these hours matter to you; another year may be whole.".to_owned(),
        });
    }
    Some(whole)
}
