//! Which weather a design is reckoned with: a file's, or a year made from monthly means.

use crate::catalogue::climates::{Spot, nearest_spot, spot};
use crate::problem::Span;
use crate::values::Values;
use physics::Angle;
use physics::sun::made::Months;

/// The weather a design names.
#[derive(Clone, Debug, PartialEq)]
pub enum Weather {
    /// A file of hours.
    File(WeatherFile),
    /// Twelve monthly means from which hours are made.
    Made(Box<MadeWeather>),
}

/// The weather file a design names.
#[derive(Clone, Debug, PartialEq)]
pub struct WeatherFile {
    /// The path as written; it counts from the design file's folder.
    pub path: String,
    /// Where it is written.
    pub span: Span,
}

/// Monthly means a design names or holds.
#[derive(Clone, Debug, PartialEq)]
pub struct MadeWeather {
    /// What they are called.
    pub name: String,
    /// The means.
    pub months: Months,
    /// Which days and hours are drawn.
    pub seed: u32,
    /// Where they are named or written.
    pub span: Span,
}

impl Weather {
    /// The weather file; `None` where the year is made from monthly means.
    pub fn file(&self) -> Option<&WeatherFile> {
        match self {
            Weather::File(file) => Some(file),
            Weather::Made(_) => None,
        }
    }

    /// What the weather is called: the file's path as written, or the place.
    pub fn name(&self) -> &str {
        match self {
            Weather::File(file) => &file.path,
            Weather::Made(made) => &made.name,
        }
    }

    /// What it is, in a sentence.
    pub(super) fn words(&self) -> &'static str {
        match self {
            Weather::File(_) => "the weather file",
            Weather::Made(_) => "the place of the monthly means",
        }
    }
}

/// The word for the catalogue's nearest place.
pub(crate) const NEAREST: &str = "nearest";

/// True for the word that asks for the nearest place, in whatever letters.
pub(crate) fn asks_nearest(name: &str) -> bool {
    name.trim().eq_ignore_ascii_case(NEAREST)
}

/// The catalogue's place that a design names, with its distance where the nearest was asked for \[m\].
pub(crate) fn named_spot(values: &Values) -> Option<(Spot, Option<f64>)> {
    let name = values.word("sun.place")?;
    if asks_nearest(name) {
        let (latitude, longitude) = written_point(values)?;
        return nearest_spot(latitude, longitude).map(|(spot, away_m)| (spot, Some(away_m)));
    }
    spot(name).map(|spot| (spot, None))
}

/// Latitude and longitude as written.
pub(crate) fn written_point(values: &Values) -> Option<(Angle, Angle)> {
    let angle = |place| values.si(place).map(Angle::from_radians);
    Some((angle("sun.latitude")?, angle("sun.longitude")?))
}

/// The builder's own twelve means.
pub(crate) fn own_months(values: &Values) -> Option<Months> {
    let (latitude, longitude) = written_point(values)?;
    Some(Months {
        origin: "monthly means of the design file".to_owned(),
        latitude,
        longitude,
        elevation_m: values.si("sun.elevation"),
        daily_j_m2: values.months("sun.months.light")?.map(|w_m2| w_m2 * 86_400.0),
        air_k: values.months("sun.months.air")?,
        swing_k: values.months("sun.months.swing"),
        wind_m_s: values.months("sun.months.wind")?,
    })
}

/// The weather of whole values.
pub(super) fn weather(values: &Values) -> Option<Weather> {
    if let Some(path) = values.word("sun.weather") {
        let span = values.span("sun.weather");
        return Some(Weather::File(WeatherFile { path: path.to_owned(), span }));
    }
    let seed = values.count("sun.seed")?;
    let made = match named_spot(values) {
        Some((spot, _)) => MadeWeather {
            name: spot.name.to_owned(),
            months: spot.months,
            seed,
            span: values.span("sun.place"),
        },
        None => MadeWeather {
            name: "own monthly means".to_owned(),
            months: own_months(values)?,
            seed,
            span: values.span("sun.months.light"),
        },
    };
    Some(Weather::Made(Box::new(made)))
}
