//! What must fit in the sun's station.

use super::{Misfit, metric, report};
use crate::problem::Severity;
use crate::quantity::Kind;
use crate::values::Values;
use crate::walk::Desk;

pub(super) fn check(desk: &mut Desk, values: &Values) {
    if let Some(misfit) = crossed_extremes(values) {
        report(desk, values, misfit);
    }
}

/// A hottest spell that is colder than the coldest night.
fn crossed_extremes(values: &Values) -> Option<Misfit> {
    let cold_k = values.si("sun.extremes.coldest-night")?;
    let hot_k = values.si("sun.extremes.hottest-spell")?;
    let (cold, hot) = (metric(Kind::Temperature, cold_k), metric(Kind::Temperature, hot_k));
    (hot_k <= cold_k).then(|| Misfit {
        code: "extremes-crossed",
        severity: Severity::Fault,
        place: "sun.extremes.hottest-spell".to_owned(),
        found: hot.clone(),
        expected: format!("above {cold}"),
        says: format!("The hottest spell has {hot}, and the coldest night {cold}"),
        hint: "exchange the two, or look at their signs and units",
    })
}
