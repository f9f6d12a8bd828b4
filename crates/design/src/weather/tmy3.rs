//! TMY3 CSV: one line of place, one of column names, then rows in local standard time.

use physics::climate::{DesignExtremes, Stamp};

use super::calendar::Label;
use super::columns::Quantity;
use super::report::{Report, Told};
use super::sheet::{Sheet, Stated};
use super::text::{fields, shown};

/// The names the format gives its columns.
const NAMES: [(Quantity, &str); 7] = [
    (Quantity::Global, "GHI (W/m^2)"),
    (Quantity::Beam, "DNI (W/m^2)"),
    (Quantity::Diffuse, "DHI (W/m^2)"),
    (Quantity::Air, "Dry-bulb (C)"),
    (Quantity::DewPoint, "Dew-point (C)"),
    (Quantity::Humidity, "RHum (%)"),
    (Quantity::Wind, "Wspd (m/s)"),
];

pub(super) fn is_tmy3(lines: &[&str]) -> bool {
    lines.iter().take(2).any(|line| line.starts_with("Date (MM/DD/YYYY)"))
}

pub(super) fn read<'a>(lines: &[&'a str], report: &mut Report) -> Option<Sheet<'a>> {
    if lines[0].starts_with("Date (MM/DD/YYYY)") {
        report.fault(Told {
            code: "weather-header",
            line: 1,
            found: shown(lines[0]),
            expected: "number, name, state, clock, latitude, longitude, elevation".to_owned(),
            says: "The first line, which names the place, is missing.".to_owned(),
            hint: "Fetch the file anew from the weather service.".to_owned(),
        });
        return None;
    }
    let station = fields(lines[0]);
    let place = Stated {
        line: 1,
        clock: station.get(3).copied(),
        latitude: station.get(4).copied(),
        longitude: station.get(5).copied(),
        elevation: station.get(6).copied(),
    }
    .check(report);
    let names = fields(lines[1]);
    let mut columns = Vec::new();
    for (quantity, name) in NAMES {
        let Some(at) = names.iter().position(|found| *found == name) else {
            report.fault(missing_column(2, quantity, name));
            continue;
        };
        columns.push((quantity, at));
    }
    (columns.len() == NAMES.len()).then_some(())?;
    Some(Sheet {
        origin: "typical year TMY3 (NREL, NSRDB)",
        place: place?,
        // The format's manual: light is the sum of the hour that ends at the stamp, other elements
        // are read at the stamp.
        stamp: Stamp::HourMean,
        extremes: DesignExtremes::default(),
        reading_offset_h: 1.0,
        rows: lines
            .iter()
            .enumerate()
            .skip(2)
            .filter(|(_, line)| !line.trim().is_empty())
            .map(|(at, &line)| (at + 1, line))
            .collect(),
        columns,
        label,
        missing,
    })
}

/// The fault of a column that a header does not name.
pub(super) fn missing_column(line: usize, quantity: Quantity, name: &str) -> Told {
    Told {
        code: "weather-column-missing",
        line,
        found: format!("no column {name}"),
        expected: format!("a column {name}"),
        says: format!("The file carries no {}.", quantity.words()),
        hint: "Choose all columns when you fetch the file.".to_owned(),
    }
}

/// `01/31/2002` and `01:00` to `24:00`, the hour's end.
fn label(fields: &[&str]) -> Option<Label> {
    let (date, time) = (fields.first()?, fields.get(1)?);
    let mut date = date.trim().split('/');
    let month = date.next()?.parse().ok()?;
    let day = date.next()?.parse().ok()?;
    let hour: usize = time.trim().strip_suffix(":00")?.parse().ok()?;
    Some(Label { month, day, hour: hour.checked_sub(1).filter(|&hour| hour < 24)? })
}

fn missing(_: Quantity, value: f64) -> bool {
    value <= -9_900.0
}
