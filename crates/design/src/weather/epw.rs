//! EPW: eight header lines, then 35 fields a row in local standard time.
//!
//! Fields as the format's own data dictionary numbers them (from memory), from 1: 2 month, 3 day,
//! 4 hour 1 to 24, 7 dry bulb, 8 dew point, 9 relative humidity, 13 sky infrared, 14 global, 15 beam
//! normal, 16 diffuse, 22 wind speed.

use physics::ZERO_CELSIUS_K;
use physics::climate::{DesignExtremes, Stamp};

use super::calendar::Label;
use super::columns::Quantity;
use super::report::{Report, Told};
use super::sheet::{Sheet, Stated};
use super::text::{fields, number, shown};

/// How long after the hour of its label the satellite saw the light \[h\] in the EPW flavour of the
/// PVGIS service; fitted on its files from `GHI - DHI = DNI cos(zenith)`.
const SATELLITE_AFTER_LABEL_H: f64 = 0.15;

pub(super) fn is_epw(lines: &[&str]) -> bool {
    lines.first().is_some_and(|line| fields(line)[0].eq_ignore_ascii_case("LOCATION"))
}

pub(super) fn read<'a>(lines: &[&'a str], report: &mut Report) -> Option<Sheet<'a>> {
    let location = fields(lines.first()?);
    let place = Stated {
        line: 1,
        latitude: location.get(6).copied(),
        longitude: location.get(7).copied(),
        clock: location.get(8).copied(),
        elevation: location.get(9).copied(),
    }
    .check(report);
    let periods = lines.iter().position(|line| keyword(line, "DATA PERIODS"));
    let Some(periods) = periods else {
        report.fault(Told {
            code: "weather-header",
            line: lines.len().min(8),
            found: "no line DATA PERIODS".to_owned(),
            expected: "eight header lines, the last DATA PERIODS".to_owned(),
            says: "The header of the EPW file is not whole.".to_owned(),
            hint: "Fetch the file anew from the weather service, and do not edit its first lines."
                .to_owned(),
        });
        return None;
    };
    let per_hour = fields(lines[periods]).get(2).copied().unwrap_or_default().to_owned();
    if per_hour != "1" {
        report.fault(Told {
            code: "weather-not-hourly",
            line: periods + 1,
            found: format!("{} records an hour", shown(&per_hour)),
            expected: "1 record an hour".to_owned(),
            says: "The file is not hourly.".to_owned(),
            hint: "Fetch the hourly file of this place.".to_owned(),
        });
        return None;
    }
    let of_instants = lines[..periods].iter().any(|line| names_satellite_service(line));
    if of_instants {
        report.note(Told {
            code: "weather-instants",
            line: 1,
            found: "an EPW of the PVGIS service".to_owned(),
            expected: "means of the hour before, as other EPW files hold".to_owned(),
            says: format!(
                "Its rows are instants {SATELLITE_AFTER_LABEL_H} h after their label, not means \
                 of the hour before."
            ),
            hint: "Nothing need be done: the sun is reckoned at those instants.".to_owned(),
        });
    }
    Some(Sheet {
        origin: if of_instants {
            "typical year in EPW form from PVGIS (European Union)"
        } else {
            "typical year in EPW form"
        },
        place: place?,
        stamp: if of_instants {
            // Row r carries the label r + 1.
            Stamp::Instant { offset_h: 1.0 + SATELLITE_AFTER_LABEL_H }
        } else {
            Stamp::HourMean
        },
        extremes: header_extremes(&lines[..periods]),
        reading_offset_h: 1.0,
        rows: lines
            .iter()
            .enumerate()
            .skip(periods + 1)
            .filter(|(_, line)| !line.trim().is_empty())
            .map(|(at, &line)| (at + 1, line))
            .collect(),
        columns: vec![
            (Quantity::Air, 6),
            (Quantity::DewPoint, 7),
            (Quantity::Humidity, 8),
            (Quantity::Infrared, 12),
            (Quantity::Global, 13),
            (Quantity::Beam, 14),
            (Quantity::Diffuse, 15),
            (Quantity::Wind, 21),
        ],
        label,
        missing,
    })
}

/// Coldest and hottest air of twenty years, from the header's line of design conditions.
///
/// After the word `Extremes` stand three winds, a wet bulb, then pairs of the year's lowest and highest
/// air: mean, spread, and what is met once in 5, 10, 20 and 50 years (order from memory; the pairs of
/// real files fall and rise as they must). A line that is otherwise is passed over.
fn header_extremes(header: &[&str]) -> DesignExtremes {
    /// Fields from the word on.
    const MEAN: usize = 5;
    const ONCE_IN_20_YEARS: usize = 13;
    let read = || {
        let line = header.iter().find(|line| keyword(line, "DESIGN CONDITIONS"))?;
        let fields = fields(line);
        let word = fields.iter().position(|field| field.eq_ignore_ascii_case("Extremes"))?;
        let celsius = |at: usize| number(fields.get(word + at)?);
        let (mean_low_c, mean_high_c) = (celsius(MEAN)?, celsius(MEAN + 1)?);
        let (low_c, high_c) = (celsius(ONCE_IN_20_YEARS)?, celsius(ONCE_IN_20_YEARS + 1)?);
        let sound = -80.0 < low_c && low_c < mean_low_c && mean_low_c < mean_high_c;
        (sound && mean_high_c < high_c && high_c < 65.0).then_some((low_c, high_c))
    };
    match read() {
        Some((low_c, high_c)) => DesignExtremes {
            coldest_air_k: Some(low_c + ZERO_CELSIUS_K),
            hottest_air_k: Some(high_c + ZERO_CELSIUS_K),
        },
        None => DesignExtremes::default(),
    }
}

fn keyword(line: &str, word: &str) -> bool {
    fields(line)[0].eq_ignore_ascii_case(word)
}

/// The service writes `ECMWF/ERA` as its source, or its own name, into the header.
fn names_satellite_service(line: &str) -> bool {
    (keyword(line, "LOCATION") || line.starts_with("COMMENTS"))
        && (line.contains("ECMWF") || line.contains("PVGIS"))
}

fn label(fields: &[&str]) -> Option<Label> {
    let whole = |at: usize| fields.get(at)?.trim().parse::<usize>().ok();
    let hour = whole(3)?;
    Some(Label {
        month: whole(1)?,
        day: whole(2)?,
        hour: hour.checked_sub(1).filter(|&hour| hour < 24)?,
    })
}

fn missing(quantity: Quantity, value: f64) -> bool {
    match quantity {
        Quantity::Air | Quantity::DewPoint => value == 99.9,
        Quantity::Humidity | Quantity::Wind => value == 999.0,
        Quantity::Infrared => value >= 9_999.0 || value == 0.0,
        Quantity::Global | Quantity::Beam | Quantity::Diffuse => value >= 9_999.0,
    }
}
