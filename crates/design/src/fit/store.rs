//! What must fit in the store: heights within the water, the coil within the store.

use super::{Misfit, length, metric, report};
use crate::problem::Severity;
use crate::quantity::Kind;
use crate::values::Values;
use crate::walk::Desk;
use std::f64::consts::PI;

/// Whatever must lie in the water.
const HEIGHTS: [(&str, &str); 5] = [
    ("store.inlet-height", "The cold water's inlet"),
    ("store.outlet-height", "The outlet to the tap"),
    ("store.coil.bottom-height", "The coil's lowest turn"),
    ("store.coil.top-height", "The coil's highest turn"),
    ("control.store-probe-height", "The store's probe"),
];

pub(super) fn check(desk: &mut Desk, values: &Values) {
    for (place, what) in HEIGHTS {
        if let Some(misfit) = above_water(values, place, what) {
            report(desk, values, misfit);
        }
    }
    let misfits = [
        upside_down(values),
        wide_turns(values),
        crowded_coil(values),
        discharge(values),
        early_discharge(values),
    ];
    for misfit in misfits.into_iter().flatten() {
        report(desk, values, misfit);
    }
}

fn above_water(values: &Values, place: &str, what: &str) -> Option<Misfit> {
    let height_m = values.si(place)?;
    let depth_m = values.si("store.water-depth")?;
    (height_m > depth_m + 1e-9).then(|| Misfit {
        code: "above-water",
        severity: Severity::Fault,
        place: place.to_owned(),
        found: length(height_m),
        expected: format!("at most {}", length(depth_m)),
        says: format!("{what} is at {}, above water {} deep", length(height_m), length(depth_m)),
        hint: "heights count from the base of the store upwards",
    })
}

fn upside_down(values: &Values) -> Option<Misfit> {
    let (low_m, high_m) =
        (values.si("store.coil.bottom-height")?, values.si("store.coil.top-height")?);
    (low_m > high_m).then(|| Misfit {
        code: "coil-upside-down",
        severity: Severity::Fault,
        place: "store.coil.bottom-height".to_owned(),
        found: length(low_m),
        expected: format!("at most {}", length(high_m)),
        says: format!(
            "The coil's lowest turn is at {}, above its highest at {}",
            length(low_m),
            length(high_m)
        ),
        hint: "change the two over",
    })
}

/// Width of the store seen from above \[m\].
fn width_m(values: &Values) -> Option<f64> {
    let plan_m2 = values.si("store.volume")? / values.si("store.water-depth")?;
    Some(match values.word("store.shape")? {
        "round" => (4.0 * plan_m2 / PI).sqrt(),
        _ => plan_m2.sqrt(),
    })
}

fn turn_m(values: &Values) -> Option<f64> {
    values.si("store.coil.turn-diameter").filter(|turn_m| *turn_m < 1e5)
}

fn wide_turns(values: &Values) -> Option<Misfit> {
    let turn_m = turn_m(values)?;
    let across_m = turn_m + values.si("store.coil.outside")?;
    let width_m = width_m(values)?;
    (across_m > width_m).then(|| Misfit {
        code: "coil-too-wide",
        severity: Severity::Fault,
        place: "store.coil.turn-diameter".to_owned(),
        found: length(across_m),
        expected: format!("less than {}", length(width_m)),
        says: format!("The coil is {} across and the store {} inside", length(across_m), length(width_m)),
        hint: "bend narrower turns, or check volume and water-depth: their quotient is the store's plan",
    })
}

/// Turns laid tube on tube must find room between the lowest and the highest.
fn crowded_coil(values: &Values) -> Option<Misfit> {
    let turn_m = turn_m(values)?;
    let outside_m = values.si("store.coil.outside")?;
    if upside_down(values).is_some() {
        return None;
    }
    let room_m =
        values.si("store.coil.top-height")? - values.si("store.coil.bottom-height")? + outside_m;
    let turns = values.si("store.coil.length")? / (PI * turn_m);
    let height_m = turns * outside_m;
    (height_m > room_m * 1.05 + outside_m).then(|| Misfit {
        code: "coil-crowded",
        severity: Severity::Warning,
        place: "store.coil.length".to_owned(),
        found: format!("{turns:.1} turns, {} high laid tube on tube", length(height_m)),
        expected: format!("at most {} of height", length(room_m)),
        says: format!("{turns:.1} turns laid tube on tube are {} high, and the coil's heights leave {}", length(height_m), length(room_m)),
        hint: "a coil of one helix needs a shorter tube, wider turns, or more height; two helices inside each other may be meant",
    })
}

fn discharge(values: &Values) -> Option<Misfit> {
    let (open_k, close_k) = (values.si("store.overheat.open")?, values.si("store.overheat.close")?);
    let (open, close) = (metric(Kind::Temperature, open_k), metric(Kind::Temperature, close_k));
    (close_k >= open_k).then(|| Misfit {
        code: "discharge-never-shuts",
        severity: Severity::Fault,
        place: "store.overheat.close".to_owned(),
        found: close.clone(),
        expected: format!("below {open}"),
        says: format!(
            "The overheat valve opens at {open} and would shut at {close}, which is no cooler"
        ),
        hint: "let it shut a few kelvin below where it opens",
    })
}

fn early_discharge(values: &Values) -> Option<Misfit> {
    let (open_k, limit_k) = (values.si("store.overheat.open")?, values.si("control.store-limit")?);
    let (open, limit) = (metric(Kind::Temperature, open_k), metric(Kind::Temperature, limit_k));
    (open_k < limit_k).then(|| Misfit {
        code: "discharge-before-limit",
        severity: Severity::Warning,
        place: "store.overheat.open".to_owned(),
        found: open.clone(),
        expected: format!("above {limit}"),
        says: format!(
            "Hot water runs to waste from {open}, while the controller goes on heating to {limit}"
        ),
        hint: "open above control.store-limit, or lower that limit",
    })
}
