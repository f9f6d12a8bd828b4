//! Weather files that public services give out: reading, and telling what is wrong with them.
//!
//! Each format's reader finds the place, the meaning of a row's stamp and where the columns stand
//! (a sheet); what follows is the same for all: calendar, missing values, gaps, and whether
//! the light agrees with the sun.

mod calendar;
mod columns;
mod epw;
mod pvgis;
mod report;
mod sheet;
mod sun_check;
mod text;
mod tmy3;

use physics::Climate;

use crate::problem::Problem;
use report::{Report, Told};

/// Reads a year of hourly weather: EPW, TMY3 CSV or PVGIS TMY CSV, told apart by their content.
///
/// * `name`: the file as the user named it; it stands in every problem.
/// * `bytes`: what the file holds.
///
/// Returns the climate, or none where a problem is a fault, and all problems found.
pub fn read_weather(name: &str, bytes: &[u8]) -> (Option<Climate>, Vec<Problem>) {
    let mut report = Report::new(name);
    let climate = text::decode(bytes, &mut report)
        .and_then(|text| read_text(&text, &mut report))
        .filter(|_| !report.has_fault());
    (climate, report.into_problems())
}

fn read_text(text: &str, report: &mut Report) -> Option<Climate> {
    let lines: Vec<&str> = text.lines().collect();
    let sheet = if epw::is_epw(&lines) {
        epw::read(&lines, report)
    } else if tmy3::is_tmy3(&lines) {
        tmy3::read(&lines, report)
    } else if pvgis::is_pvgis(&lines) {
        pvgis::read(&lines, report)
    } else {
        report.fault(Told {
            code: "unknown-weather-format",
            line: 1,
            found: text::shown(lines.first().unwrap_or(&"")),
            expected:
                "EPW (first line LOCATION,...), TMY3 CSV (second line Date (MM/DD/YYYY),...) \
                       or PVGIS TMY CSV (first line Latitude (decimal degrees): ...)"
                    .to_owned(),
            says: "This is none of the weather formats read here, or its header is missing."
                .to_owned(),
            hint: "Fetch the file anew from the weather service, and do not edit its first lines."
                .to_owned(),
        });
        None
    }?;
    let climate = sheet.into_climate(report)?;
    sun_check::compare_with_sun(&climate, report);
    Some(climate)
}

#[cfg(test)]
mod tests;
