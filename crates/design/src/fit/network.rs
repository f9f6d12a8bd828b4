//! Panels joined by branches, and circuits without a pump: what cannot be, and what hardly runs.

use super::{Misfit, length, report};
use crate::problem::Severity;
use crate::values::Values;
use crate::walk::Desk;

pub(super) fn check(desk: &mut Desk, values: &Values) {
    for member in 0..values.members("panel.branch") {
        if let Some(misfit) = leads_nowhere(values, member) {
            report(desk, values, misfit);
        }
    }
    let misfits =
        [miscounted(values), lonely_link(values), shut_by_spring(values), store_below(values)];
    for misfit in misfits.into_iter().flatten() {
        report(desk, values, misfit);
    }
}

/// A branch is panels, a pipe, or both.
fn leads_nowhere(values: &Values, member: usize) -> Option<Misfit> {
    let at = format!("panel.branch[{member}]");
    let place = format!("{at}.panels");
    let empty = values.count(&place)? == 0 && values.word(&format!("{at}.pipe"))? == "none";
    empty.then(|| Misfit {
        code: "branch-nowhere",
        severity: Severity::Fault,
        place,
        found: "0 panels, pipe \"none\"".to_owned(),
        expected: "a panel or more, or a pipe of its own".to_owned(),
        says: format!("Branch {} has no panel and no pipe: it leads nowhere", member + 1),
        hint: "give it its panels; for a bypass write pipe = \"own\" with its size, length and valve",
    })
}

/// Every panel stands in one branch.
fn miscounted(values: &Values) -> Option<Misfit> {
    let members = values.members("panel.branch");
    if values.word("panel.joined")? != "branches" || members == 0 {
        return None;
    }
    let counts = (0..members).map(|at| values.count(&format!("panel.branch[{at}].panels")));
    let inside: u32 = counts.collect::<Option<Vec<_>>>()?.iter().sum();
    let count = values.count("panel.count")?;
    (inside != count).then(|| Misfit {
        code: "branches-miscount",
        severity: Severity::Fault,
        place: "panel.count".to_owned(),
        found: count.to_string(),
        expected: format!("{inside}, as many as the branches have"),
        says: format!(
            "The branches have {inside} panels between them, and panel.count says {count}"
        ),
        hint: "count the panels of all branches, or take the odd one into a branch",
    })
}

/// A pipe between panels needs two to lie between.
fn lonely_link(values: &Values) -> Option<Misfit> {
    values.table("panel.link")?;
    let count = values.count("panel.count")?;
    (count == 1 && values.word("panel.joined")? != "branches").then(|| Misfit {
        code: "link-of-one",
        severity: Severity::Fault,
        place: "panel.link".to_owned(),
        found: "1 panel".to_owned(),
        expected: "2 panels or more".to_owned(),
        says: "[panel.link] is the pipe from one panel to the next, and there is one panel"
            .to_owned(),
        hint: "take the table out, or count the panels again",
    })
}

/// What a fluid weighs does not open a valve that a spring holds.
fn shut_by_spring(values: &Values) -> Option<Misfit> {
    let gravity = values.word("circuit.drive")? == "gravity";
    (gravity && values.word("circuit.check-valve")? == "fitted").then(|| Misfit {
        code: "valve-stops-gravity",
        severity: Severity::Fault,
        place: "circuit.check-valve".to_owned(),
        found: "fitted".to_owned(),
        expected: "\"flap\" or \"none\", since circuit.drive is \"gravity\"".to_owned(),
        says: "The circuit has no pump, and its check valve is held shut by a spring: the fluid's own weight gives a few centimetres of head, which opens none"
            .to_owned(),
        hint: "take a light flap for check-valve, or none where the store stands well over the panel",
    })
}

/// Hot fluid rises: the store belongs over the panel.
fn store_below(values: &Values) -> Option<Misfit> {
    if values.word("circuit.drive")? != "gravity" {
        return None;
    }
    let middle_m = |low: &str, high: &str| Some(0.5 * (values.si(low)? + values.si(high)?));
    let coil_m = middle_m("store.coil.bottom-height", "store.coil.top-height")?;
    let panel_m = middle_m("circuit.heights.panel-bottom", "circuit.heights.panel-top")?;
    (coil_m <= panel_m).then(|| Misfit {
        code: "store-below-panel",
        severity: Severity::Warning,
        place: "circuit.heights.panel-bottom".to_owned(),
        found: format!("the panel's middle at {}", length(panel_m)),
        expected: format!("below {}, the middle of the coil", length(coil_m)),
        says: format!(
            "Without a pump hot fluid must rise from panel to store, and the panel's middle lies at {} over the store's base, the coil's at {}: little will run by day, and at night the store may heat the panel",
            length(panel_m),
            length(coil_m)
        ),
        hint: "heights count from the store's base: a panel below it has a height below 0; else fit a pump",
    })
}
