//! What must fit in the panel: tubes on the sheet, walls in tubes.

mod covers;
mod kinds;
mod route;

use super::{Misfit, length, report};
use crate::problem::Severity;
use crate::values::Values;
use crate::walk::Desk;

/// Every tube of a design file but those of branches.
const TUBES: [&str; 6] = [
    "panel.tubes",
    "panel.tubes.header",
    "panel.link",
    "circuit.flow-pipe",
    "circuit.return-pipe",
    "store.coil",
];

pub(super) fn check(desk: &mut Desk, values: &Values) {
    let branches = (0..values.members("panel.branch")).map(|at| format!("panel.branch[{at}]"));
    for at in TUBES.map(str::to_owned).into_iter().chain(branches) {
        if let Some(misfit) = thick_wall(values, &at) {
            report(desk, values, misfit);
        }
    }
    let misfits = [close_tubes(values), wide_pattern(values), narrow_header(values)];
    for misfit in misfits.into_iter().flatten() {
        report(desk, values, misfit);
    }
    kinds::check(desk, values);
    route::check(desk, values);
    covers::check(desk, values);
}

fn thick_wall(values: &Values, at: &str) -> Option<Misfit> {
    let outside_m = values.si(&format!("{at}.outside"))?;
    let wall_m = values.si(&format!("{at}.wall"))?;
    (2.0 * wall_m >= outside_m).then(|| Misfit {
        code: "no-bore",
        severity: Severity::Fault,
        place: format!("{at}.wall"),
        found: length(wall_m),
        expected: format!("less than half of {}", length(outside_m)),
        says: format!(
            "A wall of {} leaves no bore in a tube of {} outside",
            length(wall_m),
            length(outside_m)
        ),
        hint: "outside is the whole diameter, wall the thickness of the metal: 15 mm and 0.7 mm",
    })
}

fn close_tubes(values: &Values) -> Option<Misfit> {
    let spacing_m = values.si("panel.tubes.spacing")?;
    let outside_m = values.si("panel.tubes.outside")?;
    (spacing_m < outside_m).then(|| Misfit {
        code: "tubes-overlap",
        severity: Severity::Fault,
        place: "panel.tubes.spacing".to_owned(),
        found: length(spacing_m),
        expected: format!("{} or more", length(outside_m)),
        says: format!(
            "Tubes of {} lie {} apart, so they overlap",
            length(outside_m),
            length(spacing_m)
        ),
        hint: "spacing counts from the middle of a tube to the middle of its neighbour",
    })
}

/// The pattern must lie on the sheet, along it or across it.
fn wide_pattern(values: &Values) -> Option<Misfit> {
    let (word, count, run) = match values.word("panel.tubes.pattern")? {
        "harp" => ("risers", "panel.tubes.risers", "panel.tubes.riser-length"),
        _ => ("legs", "panel.tubes.legs", "panel.tubes.leg-length"),
    };
    let number = values.count(count)?;
    let run_m = values.si(run)?;
    let across_m = f64::from(number.saturating_sub(1)) * values.si("panel.tubes.spacing")?
        + values.si("panel.tubes.outside")?;
    let (long_m, wide_m) = (values.si("panel.sheet.length")?, values.si("panel.sheet.width")?);
    let on = |along_m: f64, beside_m: f64| run_m <= along_m + 1e-9 && across_m <= beside_m + 1e-9;
    if on(long_m, wide_m) || on(wide_m, long_m) {
        return None;
    }
    let too_long = run_m > long_m.max(wide_m);
    Some(Misfit {
        code: "tubes-off-sheet",
        severity: Severity::Fault,
        place: if too_long { run.to_owned() } else { "panel.tubes.spacing".to_owned() },
        found: format!("{number} {word} of {} take {} across", length(run_m), length(across_m)),
        expected: format!(
            "a pattern that lies on a sheet of {} by {}",
            length(long_m),
            length(wide_m)
        ),
        says: format!(
            "{number} {word} of {} take {} across, and the sheet is {} by {}",
            length(run_m),
            length(across_m),
            length(long_m),
            length(wide_m)
        ),
        hint: "take fewer or shorter ones, a smaller spacing, or a larger sheet",
    })
}

fn narrow_header(values: &Values) -> Option<Misfit> {
    if values.word("panel.tubes.pattern")? != "harp" {
        return None;
    }
    let bore_m = |at: &str| {
        Some(values.si(&format!("{at}.outside"))? - 2.0 * values.si(&format!("{at}.wall"))?)
    };
    let (header_m, riser_m) = (bore_m("panel.tubes.header")?, bore_m("panel.tubes")?);
    (header_m < riser_m).then(|| Misfit {
        code: "narrow-header",
        severity: Severity::Warning,
        place: "panel.tubes.header.outside".to_owned(),
        found: format!("{} bore", length(header_m)),
        expected: format!("more than the risers' {}", length(riser_m)),
        says: format!(
            "The headers' bore of {} is less than the risers' {}",
            length(header_m),
            length(riser_m)
        ),
        hint: "headers are wider than risers, or the flow divides very unevenly",
    })
}
