//! What must fit in the household: one way of saying what it draws.

use super::{Misfit, metric, report};
use crate::problem::Severity;
use crate::quantity::Kind;
use crate::values::Values;
use crate::walk::Desk;

pub(super) fn check(desk: &mut Desk, values: &Values) {
    let misfits = [demand(values), weekend_alone(values), idle_valve(values), locked_out(values)];
    for misfit in misfits.into_iter().flatten() {
        report(desk, values, misfit);
    }
}

/// A weekend's profile is that of days that have a profile already.
fn weekend_alone(values: &Values) -> Option<Misfit> {
    let weekend = values.word("tap.weekend-profile")?.to_owned();
    values.entry("tap.profile").is_none().then(|| Misfit {
        code: "not-used",
        severity: Severity::Fault,
        place: "tap.weekend-profile".to_owned(),
        found: weekend,
        expected: "tap.profile beside it".to_owned(),
        says: "tap.weekend-profile means nothing without tap.profile".to_owned(),
        hint: "write the weekdays' profile too, or [[tap.draw]] tables with days = \"weekend\"",
    })
}

fn idle_valve(values: &Values) -> Option<Misfit> {
    (values.is_written("tap.heater.inlet-valve")
        && values.word("tap.heater.kind")? == "instantaneous"
        && values.entry("tap.heater.highest-inlet").is_none())
    .then(|| Misfit {
        code: "not-used",
        severity: Severity::Fault,
        place: "tap.heater.inlet-valve".to_owned(),
        found: values.word("tap.heater.inlet-valve").unwrap_or_default().to_owned(),
        expected: "tap.heater.highest-inlet beside it".to_owned(),
        says: "tap.heater.inlet-valve means nothing without tap.heater.highest-inlet".to_owned(),
        hint: "write the heater's highest inlet temperature, for instance highest-inlet = \"25 C\"",
    })
}

/// A heater that stays off on warm water leaves it lukewarm.
fn locked_out(values: &Values) -> Option<Misfit> {
    let highest_k = values.si("tap.heater.highest-inlet")?;
    let highest = metric(Kind::Temperature, highest_k);
    (values.word("tap.heater.inlet-valve")? == "none").then(|| Misfit {
        code: "stays-off",
        severity: Severity::Warning,
        place: "tap.heater.inlet-valve".to_owned(),
        found: "none".to_owned(),
        expected: "tempering".to_owned(),
        says: format!("The heater stays off where the store's water is above {highest}: what comes is lukewarm, and bacteria in it are not killed"),
        hint: "fit a mixing valve before the heater, set to its highest inlet",
    })
}

fn demand(values: &Values) -> Option<Misfit> {
    values.table("tap")?;
    let written = [
        ("people", values.entry("tap.people").is_some()),
        ("profile", values.entry("tap.profile").is_some()),
        ("draw", values.has_list("tap.draw")),
    ];
    // A misspelt one of the three is told already.
    let is_told = |key: &str| values.is_told(&format!("tap.{key}"));
    if ["people", "profile", "draw"].into_iter().any(is_told) {
        return None;
    }
    let names: Vec<&str> =
        written.iter().filter(|(_, stands)| *stands).map(|(name, _)| *name).collect();
    let (code, place, says) = match names.as_slice() {
        [_] => return None,
        [] => (
            "missing-demand",
            "tap.people",
            "Nothing says how much hot water the household draws".to_owned(),
        ),
        [.., last] => {
            let place = if *last == "draw" { "tap.draw" } else { "tap.profile" };
            (
                "two-demands",
                place,
                format!(
                    "The household's draws are said in {} ways: {}",
                    names.len(),
                    names.join(", ")
                ),
            )
        }
    };
    Some(Misfit {
        code,
        severity: Severity::Fault,
        place: place.to_owned(),
        found: names.join(", "),
        expected: "one of people, profile, [[tap.draw]]".to_owned(),
        says,
        hint: "write one of: people = 2, profile = \"M\", or [[tap.draw]] tables; draw = [] for a house that draws nothing",
    })
}
