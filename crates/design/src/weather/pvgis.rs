//! PVGIS TMY CSV: place line by line, the years of the months, then rows in UTC, then a legend.
//!
//! Older headers have no line for the elevation's neighbour, the time offset; line ends are either
//! kind.

use physics::climate::{DesignExtremes, Stamp};

use super::calendar::Label;
use super::columns::Quantity;
use super::report::{Report, Told};
use super::sheet::{Sheet, Stated};
use super::text::{fields, number, shown};
use super::tmy3::missing_column;

/// How long after its stamp the satellite saw the light \[h\], where the header does not say: 0.18 is
/// printed in headers that do, and 0.2 fits `GHI - DHI = DNI cos(zenith)` best on files that do not.
const USUAL_OFFSET_H: f64 = 0.2;

/// The names the format gives its columns.
const NAMES: [(Quantity, &str); 7] = [
    (Quantity::Air, "T2m"),
    (Quantity::Humidity, "RH"),
    (Quantity::Global, "G(h)"),
    (Quantity::Beam, "Gb(n)"),
    (Quantity::Diffuse, "Gd(h)"),
    (Quantity::Infrared, "IR(h)"),
    (Quantity::Wind, "WS10m"),
];

pub(super) fn is_pvgis(lines: &[&str]) -> bool {
    lines.iter().take(40).any(|line| line.starts_with("time(UTC)"))
        || lines.first().is_some_and(|line| line.starts_with("Latitude (decimal degrees)"))
}

pub(super) fn read<'a>(lines: &[&'a str], report: &mut Report) -> Option<Sheet<'a>> {
    let Some(names_at) = lines.iter().position(|line| line.starts_with("time(UTC)")) else {
        report.fault(Told {
            code: "weather-header",
            line: lines.len().min(17),
            found: "no line time(UTC),...".to_owned(),
            expected: "a line of column names that begins with time(UTC)".to_owned(),
            says: "The line that names the columns is missing.".to_owned(),
            hint: "Fetch the file anew from the weather service.".to_owned(),
        });
        return None;
    };
    let header = &lines[..names_at];
    let stated = |what: &str| {
        header
            .iter()
            .position(|line| line.starts_with(what))
            .and_then(|at| header[at].split_once(':').map(|(_, value)| (at + 1, value.trim())))
    };
    let place = Stated {
        line: stated("Latitude").map_or(1, |(line, _)| line),
        latitude: stated("Latitude").map(|(_, value)| value),
        longitude: stated("Longitude").map(|(_, value)| value),
        elevation: stated("Elevation").map(|(_, value)| value),
        clock: Some("0"),
    }
    .check(report);
    let offset_h = offset(stated("Irradiance Time Offset"), report);

    let names = fields(lines[names_at]);
    let mut columns = Vec::new();
    for (quantity, name) in NAMES {
        match names.iter().position(|found| *found == name) {
            Some(at) => columns.push((quantity, at)),
            // Without infrared the sky is reckoned from the dew point.
            None if quantity == Quantity::Infrared => {}
            None => report.fault(missing_column(names_at + 1, quantity, name)),
        }
    }
    let last = lines.iter().rposition(|line| label(&fields(line)).is_some()).unwrap_or(names_at);
    Some(Sheet {
        origin: "typical year from PVGIS (European Union)",
        place: place?,
        stamp: Stamp::Instant { offset_h: offset_h? },
        extremes: DesignExtremes::default(),
        reading_offset_h: 0.0,
        // Whatever stands between the first row and the last must be a row; the legend follows.
        rows: (names_at + 1..=last).map(|at| (at + 1, lines[at])).collect(),
        columns,
        label,
        missing,
    })
}

/// The header's time offset; the usual one where it is unknown or not stated.
fn offset(stated: Option<(usize, &str)>, report: &mut Report) -> Option<f64> {
    let value = stated.map(|(line, text)| (line, text, number(text)));
    let (line, found) = match value {
        Some((_, _, Some(offset_h))) if (-1.0..=1.0).contains(&offset_h) => return Some(offset_h),
        Some((line, text, Some(offset_h))) if offset_h <= -99.0 => (line, text.to_owned()),
        None => (0, "no time offset".to_owned()),
        Some((line, text, _)) => {
            report.fault(Told {
                code: "weather-header",
                line,
                found: shown(text),
                expected: "-1 to 1 h, or -999 for unknown".to_owned(),
                says: "The header's time offset of the light cannot be.".to_owned(),
                hint: "Fetch the file anew from the weather service, or write -999 for unknown."
                    .to_owned(),
            });
            return None;
        }
    };
    report.note(Told {
        code: "weather-offset-assumed",
        line,
        found,
        expected: "the light's time offset in hours".to_owned(),
        says: format!("The light is taken as seen {USUAL_OFFSET_H} h after its stamp."),
        hint: "Where the service tells the offset, write it in the header; a tenth of an hour is small.".to_owned(),
    });
    Some(USUAL_OFFSET_H)
}

/// `20090131:2300`, in UTC.
fn label(fields: &[&str]) -> Option<Label> {
    let (date, time) = fields.first()?.trim().split_once(':')?;
    let part = |text: &str, from: usize| text.get(from..from + 2)?.parse().ok();
    (date.len() == 8 && time.len() == 4).then_some(())?;
    Some(Label {
        month: part(date, 4)?,
        day: part(date, 6)?,
        hour: part(time, 0).filter(|&hour| hour < 24)?,
    })
}

fn missing(_: Quantity, value: f64) -> bool {
    value <= -999.0
}
