//! What a format's reader found, and how it becomes a climate.

use physics::climate::{DesignExtremes, Stamp};
use physics::sun::dew_point_alduchov_1996;
use physics::{Angle, Climate, ZERO_CELSIUS_K};

use super::calendar::{self, Label};
use super::columns::{Column, Quantity};
use super::report::{Report, Tally, Told};

/// The place a file names, already checked.
#[derive(Clone, Copy)]
pub(super) struct Place {
    pub(super) latitude_deg: f64,
    pub(super) longitude_deg: f64,
    pub(super) elevation_m: Option<f64>,
    pub(super) clock_ahead_h: f64,
}

/// A weather file laid open: place, stamps, rows, and where each quantity stands in a row.
pub(super) struct Sheet<'a> {
    /// Where the data come from.
    pub(super) origin: &'static str,
    pub(super) place: Place,
    pub(super) stamp: Stamp,
    /// What the header says of the air over many years.
    pub(super) extremes: DesignExtremes,
    /// Hours after a row's number at which air, wind and dew hold.
    pub(super) reading_offset_h: f64,
    /// Data lines with their numbers, counted from 1.
    pub(super) rows: Vec<(usize, &'a str)>,
    pub(super) columns: Vec<(Quantity, usize)>,
    /// The hour a row's fields speak of.
    pub(super) label: fn(&[&str]) -> Option<Label>,
    /// The format's code for a missing value.
    pub(super) missing: fn(Quantity, f64) -> bool,
}

impl Sheet<'_> {
    /// Reads all rows; none where a fault was told.
    pub(super) fn into_climate(self, report: &mut Report) -> Option<Climate> {
        let order = calendar::order(&self.labels(report)?, report)?;
        let mut columns: Vec<(Column, usize)> =
            self.columns.iter().map(|&(quantity, at)| (Column::new(quantity), at)).collect();
        for &row in &order {
            let (line, text) = self.rows[row];
            let fields: Vec<&str> = text.split(',').collect();
            for ((column, at), &(quantity, _)) in columns.iter_mut().zip(&self.columns) {
                let field = fields.get(*at).copied().unwrap_or_default();
                column.push(line, field, |value| (self.missing)(quantity, value));
            }
        }
        let mut take = |wanted: Quantity| {
            let at = self.columns.iter().position(|&(quantity, _)| quantity == wanted)?;
            Some(std::mem::replace(&mut columns[at].0, Column::new(wanted)))
        };
        let (global, beam, diffuse) =
            (take(Quantity::Global), take(Quantity::Beam), take(Quantity::Diffuse));
        let (air, wind) = (take(Quantity::Air), take(Quantity::Wind));
        let (dew, humidity) = (take(Quantity::DewPoint), take(Quantity::Humidity));
        let infrared = take(Quantity::Infrared).filter(|column| !column.is_empty());

        // Every column is finished before the first missing one ends the reading, so that all
        // faults are told at once.
        let global_w_m2 = global.and_then(|column| column.finish(report));
        let beam_normal_w_m2 = beam.and_then(|column| column.finish(report));
        let diffuse_w_m2 = diffuse.and_then(|column| column.finish(report));
        let air_k = air.and_then(|column| column.finish(report)).map(kelvin);
        let wind_m_s = wind.and_then(|column| column.finish(report));
        let sky_infrared_w_m2 = infrared.map(|column| column.finish(report));
        let dew_point_k = match (dew.filter(|column| !column.is_empty()), humidity) {
            (Some(dew), _) => dew.finish(report).map(kelvin),
            (None, Some(humidity)) => {
                let humidity = humidity.finish(report);
                dew_points(air_k.as_deref()?, &humidity?)
            }
            (None, None) => None,
        };
        Some(Climate {
            origin: self.origin.to_owned(),
            latitude: Angle::from_degrees(self.place.latitude_deg),
            longitude: Angle::from_degrees(self.place.longitude_deg),
            elevation_m: self.place.elevation_m,
            clock_ahead_h: self.place.clock_ahead_h,
            stamp: self.stamp,
            reading_offset_h: self.reading_offset_h,
            global_w_m2: global_w_m2?,
            beam_normal_w_m2: beam_normal_w_m2?,
            diffuse_w_m2: diffuse_w_m2?,
            air_k: air_k?,
            dew_point_k: dew_point_k?,
            wind_m_s: wind_m_s?,
            sky_infrared_w_m2: match sky_infrared_w_m2 {
                Some(read) => Some(read?),
                None => None,
            },
            extremes: self.extremes,
        })
    }

    /// The label of every row, or none where a row has no label or too few fields.
    fn labels(&self, report: &mut Report) -> Option<Vec<(usize, Label)>> {
        let least = self.columns.iter().map(|&(_, at)| at + 1).max().unwrap_or(1);
        let mut broken = Tally::default();
        let labels: Vec<(usize, Label)> = self
            .rows
            .iter()
            .filter_map(|&(line, text)| {
                let fields: Vec<&str> = text.split(',').collect();
                let label = (self.label)(&fields).filter(|_| fields.len() >= least);
                if label.is_none() {
                    broken.add(line, text);
                }
                Some((line, label?))
            })
            .collect();
        if broken.count == 0 {
            return Some(labels);
        }
        report.fault(Told {
            code: "weather-broken-row",
            line: broken.first_line,
            found: broken.first_found.clone(),
            expected: format!("a date, an hour and at least {least} fields"),
            says: format!("{} cannot be read.", broken.counted("row")),
            hint: "The download may have broken off, or the file was edited.".to_owned(),
        });
        None
    }
}

fn kelvin(mut celsius: Vec<f64>) -> Vec<f64> {
    celsius.iter_mut().for_each(|value| *value += ZERO_CELSIUS_K);
    celsius
}

fn dew_points(air_k: &[f64], humidity_percent: &[f64]) -> Option<Vec<f64>> {
    let both = air_k.iter().zip(humidity_percent);
    // Readings a little above saturation are saturation; very cold air is held at the relation's end.
    both.map(|(&air_k, &percent)| {
        dew_point_alduchov_1996(air_k.max(203.0), (percent / 100.0).clamp(0.0, 1.0)).ok()
    })
    .collect()
}

/// A place a header states, or none with faults that name what is wrong.
pub(super) struct Stated<'a> {
    /// Line of the header it stands in.
    pub(super) line: usize,
    pub(super) latitude: Option<&'a str>,
    pub(super) longitude: Option<&'a str>,
    pub(super) elevation: Option<&'a str>,
    /// `Some("0")` where the format is in UTC.
    pub(super) clock: Option<&'a str>,
}

impl Stated<'_> {
    pub(super) fn check(self, report: &mut Report) -> Option<Place> {
        let line = self.line;
        let mut take = |what: &'static str, text: Option<&str>, least: f64, most: f64| {
            let value = text.and_then(super::text::number);
            if let Some(value) = value
                && (least..=most).contains(&value)
            {
                return Some(value);
            }
            report.fault(Told {
                code: "weather-place",
                line,
                found: super::text::shown(text.unwrap_or("nothing")),
                expected: format!("{what} from {least} to {most}"),
                says: format!("The header does not state a {what} that can be."),
                hint: "Write the place in degrees with a point, south and west with a minus; hours east of UTC are positive.".to_owned(),
            });
            None
        };
        let latitude_deg = take("latitude in degrees", self.latitude, -90.0, 90.0);
        let longitude_deg = take("longitude in degrees", self.longitude, -180.0, 180.0);
        let clock_ahead_h = take("clock ahead of UTC in hours", self.clock, -12.0, 14.0);
        Some(Place {
            latitude_deg: latitude_deg?,
            longitude_deg: longitude_deg?,
            clock_ahead_h: clock_ahead_h?,
            // -999 and its like mean unknown; the lowest shore on earth lies at -430 m.
            elevation_m: self
                .elevation
                .and_then(super::text::number)
                .filter(|elevation_m| (-450.0..=9_000.0).contains(elevation_m)),
        })
    }
}
