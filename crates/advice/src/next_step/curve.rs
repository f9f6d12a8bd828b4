//! What a year would spare at other values of one place.

use design::{Edit, EditValue};
use rayon::prelude::*;

use crate::{AdviceError, GoOn, OneYear, Progress, Subject};

/// Heat spared with each of some values at a place \[kWh\], in the weather of `base`; `None` for a value
/// that no design can have.
///
/// # Errors
/// A year that cannot be computed; a caller that asked to stop.
pub fn spared_at(
    subject: &Subject,
    base: &OneYear,
    place: &str,
    values: &[EditValue],
    progress: &Progress,
) -> Result<Vec<Option<f64>>, AdviceError> {
    values
        .par_iter()
        .map(|value| {
            let edit = Edit { place: place.to_owned(), value: value.clone() };
            let build = match subject.changed(&[edit]) {
                Ok(build) => build,
                Err(AdviceError::NoBuild { .. }) => return Ok(None),
                Err(error) => return Err(error),
            };
            match progress(0, values.len()) {
                GoOn::Yes => Ok(Some(subject.year_beside(base, build)?.spared_kwh())),
                GoOn::No => Err(AdviceError::Stopped),
            }
        })
        .collect()
}
