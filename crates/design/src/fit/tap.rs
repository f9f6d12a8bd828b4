//! What must fit in the household: one way of saying what it draws.

use super::{Misfit, report};
use crate::problem::Severity;
use crate::values::Values;
use crate::walk::Desk;

pub(super) fn check(desk: &mut Desk, values: &Values) {
    if let Some(misfit) = demand(values) {
        report(desk, values, misfit);
    }
}

fn demand(values: &Values) -> Option<Misfit> {
    values.table("tap")?;
    let written = [
        ("people", values.entry("tap.people").is_some()),
        ("profile", values.entry("tap.profile").is_some()),
        ("draw", values.has_list("tap.draw")),
    ];
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
