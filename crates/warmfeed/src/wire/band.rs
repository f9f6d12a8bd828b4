//! How sure a year is, what one step would bring, and how two builds differ, as JSON.

use std::collections::BTreeMap;

use advice::band::{Band, CHANCE, Told};
use advice::next_step::Worth;
use schemars::JsonSchema;
use serde::Serialize;

use super::MonthWire;

/// A figure's band: one case in ten lies below `low`, one above `high`.
#[derive(Clone, Copy, Debug, JsonSchema, Serialize)]
pub struct RangeWire {
    /// One case in ten lies below.
    pub low: f64,
    /// As many lie below as above.
    pub middle: f64,
    /// One case in ten lies above.
    pub high: f64,
}

impl From<Band> for RangeWire {
    fn from(band: Band) -> Self {
        RangeWire { low: band.low, middle: band.middle, high: band.high }
    }
}

/// The band of spared heat, in kilowatt-hours, and who makes it.
#[derive(Clone, Debug, JsonSchema, Serialize)]
pub struct BandWire {
    /// One case in ten lies below.
    pub low: f64,
    /// As many lie below as above.
    pub middle: f64,
    /// One case in ten lies above.
    pub high: f64,
    /// How likely the figure lies within.
    pub chance: f64,
    /// Who makes it wide, the greatest first.
    pub makers: Vec<MakerWire>,
    /// The band were only the weather unknown: so many years in ten lie within, for one and the same
    /// build and household.
    pub weather_alone: RangeWire,
    /// The measurement that would narrow it most; null where nothing can be measured.
    pub narrowing: Option<NarrowingWire>,
    /// `one-by-one`: each unknown moved by itself and put together; `drawn`: whole years in which
    /// everything is unknown at once.
    pub way: String,
    /// Years computed for it beside the year as it stands.
    pub years: usize,
}

/// One maker of a band.
#[derive(Clone, Debug, JsonSchema, Serialize)]
pub struct MakerWire {
    /// What it is.
    pub name: String,
    /// Part of the variance, 0 to 1; all parts make 1.
    pub share: f64,
}

/// What a measurement would do to the band.
#[derive(Clone, Debug, JsonSchema, Serialize)]
pub struct NarrowingWire {
    /// What is not known: a place in the design file, or its name.
    #[serde(rename = "where")]
    pub place: String,
    /// How it is measured.
    pub how: String,
    /// The band that would be left were it exactly what is reckoned with.
    pub low: f64,
    /// Its upper end.
    pub high: f64,
    /// Part of the band's width that would go.
    pub narrower_by: f64,
}

/// What one practical step of each value would be worth.
#[derive(Clone, Debug, JsonSchema, Serialize)]
pub struct NextWire {
    /// A step worth less than this is worth none.
    pub tolerance_kwh: f64,
    /// Each step, the one that brings most first.
    pub steps: Vec<StepWire>,
    /// Values whose step no design can take, and why.
    pub refused: Vec<RefusedWire>,
}

/// One step.
#[derive(Clone, Debug, JsonSchema, Serialize)]
pub struct StepWire {
    /// The value's place, or what the step is called.
    #[serde(rename = "where")]
    pub place: String,
    /// How it stands.
    pub from: String,
    /// How it would stand.
    pub to: String,
    /// Spared heat more a year; negative where less.
    pub spared_kwh: f64,
    /// True where that cannot be told from none.
    pub none: bool,
}

/// A step that no design can take.
#[derive(Clone, Debug, JsonSchema, Serialize)]
pub struct RefusedWire {
    /// The value's place.
    #[serde(rename = "where")]
    pub place: String,
    /// Why.
    pub says: String,
}

/// This build against another, in the same years and with the same unknowns.
#[derive(Clone, Debug, JsonSchema, Serialize)]
pub struct BesideWire {
    /// The other build's title.
    pub title: String,
    /// Its file.
    pub build: String,
    /// Spared heat of the other build.
    pub spared_kwh: f64,
    /// What this build spares more; negative where less.
    pub difference_kwh: f64,
    /// The other build's weather where it is another than this one's; null where both have the same.
    pub other_climate: Option<String>,
    /// The difference's own band; null where bands were not asked for, and between two climates.
    pub band: Option<RangeWire>,
    /// Less than this cannot be told from none.
    pub tolerance_kwh: f64,
    /// True where the difference cannot be told from none.
    pub none: bool,
}

/// The figures of a year that have bands, by their keys; spared heat first.
pub fn figures(year: &MonthWire) -> Vec<(String, f64)> {
    const FIRST: &str = "spared_heat_kwh";
    let value = serde_json::to_value(year).unwrap_or_default();
    let mut all: Vec<(String, f64)> = value
        .as_object()
        .into_iter()
        .flatten()
        .filter_map(|(key, value)| Some((key.clone(), value.as_f64()?)))
        .collect();
    all.sort_by_key(|(key, _)| key != FIRST);
    all
}

/// The band of spared heat from what a table tells.
pub fn band(told: &Told, drawn: Option<Band>, years: usize) -> BandWire {
    let Band { low, middle, high } = drawn.unwrap_or(told.bands[0]);
    BandWire {
        low,
        middle,
        high,
        chance: CHANCE,
        makers: told
            .makers
            .iter()
            .map(|share| MakerWire { name: share.maker.words().to_owned(), share: share.share })
            .collect(),
        weather_alone: told.weather_alone.into(),
        narrowing: told.narrowing.as_ref().map(|narrowing| NarrowingWire {
            place: narrowing.place.clone(),
            how: narrowing.how.to_owned(),
            low: narrowing.left.low,
            high: narrowing.left.high,
            narrower_by: narrowing.narrower_by,
        }),
        way: if drawn.is_some() { "drawn" } else { "one-by-one" }.to_owned(),
        years,
    }
}

/// Bands by the keys of the year.
pub fn bands(keys: &[String], bands: &[Band]) -> BTreeMap<String, RangeWire> {
    keys.iter().cloned().zip(bands.iter().map(|&band| band.into())).collect()
}

impl From<&Worth> for NextWire {
    fn from(worth: &Worth) -> Self {
        let mut steps: Vec<StepWire> = worth
            .steps
            .iter()
            .map(|step| StepWire {
                place: step.step.place.clone(),
                from: step.step.from.clone(),
                to: step.step.to.clone(),
                spared_kwh: step.spared_kwh,
                none: step.is_none(worth.tolerance_kwh),
            })
            .collect();
        steps.sort_by(|one, other| other.spared_kwh.total_cmp(&one.spared_kwh));
        let refused = worth
            .refused
            .iter()
            .map(|(place, says)| RefusedWire { place: place.clone(), says: says.clone() });
        NextWire { tolerance_kwh: worth.tolerance_kwh, steps, refused: refused.collect() }
    }
}
