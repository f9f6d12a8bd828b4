//! What must fit along the tube: a route that stays on the sheet and never meets itself, stretches
//! that lie on their tube one after the other.

use super::super::{Misfit, length, report};
use crate::problem::Severity;
use crate::resolve::stretches;
use crate::values::Values;
use crate::walk::Desk;
use physics::panel::Sheet;
use physics::panel::route::{Pipe, Place, crossing, leaving};

pub(super) fn check(desk: &mut Desk, values: &Values) {
    let routes = [strips_at_will(values), off_the_sheet(values), on_itself(values)];
    for misfit in routes.into_iter().flatten() {
        report(desk, values, misfit);
    }
    for at in 0..values.members("panel.tubes.stretch") {
        let misfit = no_such_riser(values, at).or_else(|| off_the_tube(values, at));
        if let Some(misfit) = misfit {
            report(desk, values, misfit);
        }
    }
    for misfit in overlaps(values) {
        report(desk, values, misfit);
    }
}

fn strips_at_will(values: &Values) -> Option<Misfit> {
    values.places("panel.tubes.route")?;
    (values.word("panel.kind")? == "fins").then(|| Misfit {
        code: "strips-at-will",
        severity: Severity::Fault,
        place: "panel.tubes.pattern".to_owned(),
        found: "pattern = \"route\" and kind = \"fins\"".to_owned(),
        expected: "\"serpentine\" or \"harp\" beside strips".to_owned(),
        says:
            "The tube is laid at will, and strips of their own lie on straight tubes side by side"
                .to_owned(),
        hint: "write pattern = \"serpentine\" or \"harp\", or kind = \"sheet-and-tube\"",
    })
}

/// A place in words.
fn at(place: &Place) -> String {
    format!("{} to the right, {} up", length(place.across_m), length(place.up_m))
}

fn off_the_sheet(values: &Values) -> Option<Misfit> {
    let points = values.places("panel.tubes.route")?;
    let (length_m, width_m) = (values.si("panel.sheet.length")?, values.si("panel.sheet.width")?);
    // Of the sheet only its sides matter here.
    let sheet = Sheet {
        length_m,
        width_m,
        thickness_m: 0.0,
        conductivity_w_m_k: 0.0,
        density_kg_m3: 0.0,
        heat_capacity_j_kg_k: 0.0,
        absorptance: 0.0,
        emittance: 0.0,
    };
    let left = leaving(points, &sheet)?;
    let sides = format!("{} wide and {} long", length(width_m), length(length_m));
    let target = points.get(left.leg + 1).copied().unwrap_or(left.place);
    Some(Misfit {
        code: "route-off-sheet",
        severity: Severity::Fault,
        place: "panel.tubes.route".to_owned(),
        found: format!("leg {} to {}", left.leg + 1, at(&target)),
        expected: format!("places on a sheet {sides}"),
        says: format!(
            "Leg {} of the tube's route leaves the sheet, which is {sides}, at {}",
            left.leg + 1,
            at(&left.place)
        ),
        hint: "places count from the lower left corner as the sun sees the sheet: first to the right, then up",
    })
}

fn on_itself(values: &Values) -> Option<Misfit> {
    let met = crossing(values.places("panel.tubes.route")?)?;
    Some(Misfit {
        code: "route-meets-itself",
        severity: Severity::Fault,
        place: "panel.tubes.route".to_owned(),
        found: format!("legs {} and {}", met.earlier + 1, met.later + 1),
        expected: "a tube that never meets itself".to_owned(),
        says: format!(
            "Leg {} of the tube's route meets leg {} at {}",
            met.later + 1,
            met.earlier + 1,
            at(&met.place)
        ),
        hint: "lead the later leg round the earlier one; one tube cannot pass through another on a sheet",
    })
}

/// A stretch names a riser where there are risers, and one that is there.
fn no_such_riser(values: &Values, stretch: usize) -> Option<Misfit> {
    let place = format!("panel.tubes.stretch[{stretch}].riser");
    let riser = values.count(&place);
    let risers = values.count("panel.tubes.risers");
    let (found, expected, says, hint) = match (values.word("panel.tubes.pattern")?, riser) {
        ("harp", None) => (
            "no riser".to_owned(),
            "riser = 1 or another".to_owned(),
            "The tubes are a harp, and the stretch does not say on which riser it lies".to_owned(),
            "count the risers from 1, the first next to the inlet",
        ),
        ("harp", Some(riser)) => {
            let risers = risers.filter(|&risers| riser > risers)?;
            (
                riser.to_string(),
                format!("from 1 to {risers}"),
                format!("The stretch lies on riser {riser}, and the harp has {risers}"),
                "count the risers from 1, the first next to the inlet",
            )
        }
        (word, Some(riser)) => (
            riser.to_string(),
            "no riser, or pattern = \"harp\"".to_owned(),
            format!("The stretch names riser {riser}, and the tubes are a {word} of one tube"),
            "take the line out: positions count along the one tube",
        ),
        _ => return None,
    };
    Some(Misfit {
        code: "stretch-riser",
        severity: Severity::Fault,
        place: if riser.is_some() { place } else { format!("panel.tubes.stretch[{stretch}]") },
        found,
        expected,
        says,
        hint,
    })
}

/// Length of one tube \[m\].
fn tube_m(values: &Values) -> Option<f64> {
    match values.word("panel.tubes.pattern")? {
        "harp" => values.si("panel.tubes.riser-length"),
        "route" => Some(Pipe::through(values.places("panel.tubes.route")?).length_m()),
        _ => {
            let legs = f64::from(values.count("panel.tubes.legs")?);
            Some(legs * values.si("panel.tubes.leg-length")?)
        }
    }
}

fn off_the_tube(values: &Values, stretch: usize) -> Option<Misfit> {
    let si = |key: &str| values.si(&format!("panel.tubes.stretch[{stretch}].{key}"));
    let (from_m, to_m, tube_m) = (si("from")?, si("to")?, tube_m(values)?);
    let (code, expected, says, hint) = if to_m <= from_m {
        (
            "stretch-backwards",
            format!("more than {}", length(from_m)),
            format!(
                "The stretch begins at {} of the tube and ends at {}",
                length(from_m),
                length(to_m)
            ),
            "positions count from the tube's inlet; `from` is the smaller one",
        )
    } else if to_m > tube_m + 1e-9 {
        (
            "stretch-beyond-tube",
            format!("at most {}", length(tube_m)),
            format!(
                "The stretch ends at {} of a tube that is {} long on the sheet",
                length(to_m),
                length(tube_m)
            ),
            "positions count along the tube from its inlet, bends of a serpentine not counted",
        )
    } else {
        return None;
    };
    Some(Misfit {
        code,
        severity: Severity::Fault,
        place: format!("panel.tubes.stretch[{stretch}].to"),
        found: length(to_m),
        expected,
        says,
        hint,
    })
}

fn overlaps(values: &Values) -> Vec<Misfit> {
    let Some(all) = stretches(values) else { return Vec::new() };
    let mut order: Vec<usize> = (0..all.len()).collect();
    order.sort_by(|&one, &other| {
        let (one, other) = (&all[one], &all[other]);
        one.tube.cmp(&other.tube).then(one.from_m.total_cmp(&other.from_m))
    });
    let mut misfits = Vec::new();
    for pair in order.windows(2) {
        let (before, after) = (&all[pair[0]], &all[pair[1]]);
        if before.tube != after.tube || after.from_m >= before.to_m - 1e-9 {
            continue;
        }
        misfits.push(Misfit {
            code: "stretches-overlap",
            severity: Severity::Fault,
            place: format!("panel.tubes.stretch[{}].from", pair[1]),
            found: length(after.from_m),
            expected: format!("{} or more", length(before.to_m)),
            says: format!(
                "The stretch begins at {} of the tube, where another that ends at {} still lies",
                length(after.from_m),
                length(before.to_m)
            ),
            hint: "a place has one bond: let one stretch end where the next begins",
        });
    }
    misfits
}
