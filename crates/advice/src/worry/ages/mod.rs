//! It ages: metals beside each other, scale, cover and paint by year, dew under the cover.

pub(in crate::worry) mod dew;
pub(in crate::worry) mod light;
pub(in crate::worry) mod metals;
pub(in crate::worry) mod scale;

use design::{Edit, EditValue};

use super::case::Case;
use crate::AdviceError;

/// Years after which it is told what is lost.
const YEARS: [u32; 3] = [1, 5, 10];

/// Heat no longer spared in a year with some values changed \[kWh\].
fn lost_kwh(case: &Case, edits: &[Edit]) -> Result<f64, AdviceError> {
    let build = case.subject.changed(edits)?;
    let year = case.subject.year_beside(case.year, build)?;
    Ok(case.year.spared_kwh() - year.spared_kwh())
}

/// The same for each of [`YEARS`], side by side.
fn lost_by_year(
    case: &Case,
    edits: impl Fn(u32) -> Result<Vec<Edit>, AdviceError> + Sync,
) -> Result<[f64; 3], AdviceError> {
    let [one, five, ten] = YEARS;
    let lost = |years: u32| lost_kwh(case, &edits(years)?);
    let (first, (second, third)) =
        rayon::join(|| lost(one), || rayon::join(|| lost(five), || lost(ten)));
    Ok([first?, second?, third?])
}

/// A share of what the build spares as it stands; nothing of nothing.
fn of_spared(case: &Case, kwh: f64) -> f64 {
    let spared_kwh = case.year.spared_kwh();
    if spared_kwh > 0.0 { kwh / spared_kwh } else { 0.0 }
}

/// An edit that writes a number.
fn number(place: &str, value: f64) -> Edit {
    Edit { place: place.to_owned(), value: EditValue::Number(value) }
}
