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
        short_fins(values),
        crowded_fins(values),
    ];
    let feeds = (0..values.members("store.feed"))
        .flat_map(|at| [high_feed(values, at), empty_feed(values, at), risky_feed(values, at)]);
    for misfit in misfits.into_iter().chain(feeds).flatten() {
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
    let outside_m =
        values.si("store.coil.fins.outside").or_else(|| values.si("store.coil.outside"))?;
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

fn short_fins(values: &Values) -> Option<Misfit> {
    let (fins_m, tube_m) =
        (values.si("store.coil.fins.outside")?, values.si("store.coil.outside")?);
    (fins_m <= tube_m).then(|| Misfit {
        code: "no-fins",
        severity: Severity::Fault,
        place: "store.coil.fins.outside".to_owned(),
        found: length(fins_m),
        expected: format!("more than the tube's {}", length(tube_m)),
        says: format!(
            "The fins are {} across and the tube they stand on {}",
            length(fins_m),
            length(tube_m)
        ),
        hint: "outside is the diameter over the fins; the coil's own outside is the tube's below them",
    })
}

fn crowded_fins(values: &Values) -> Option<Misfit> {
    let (thick_m, pitch_m) =
        (values.si("store.coil.fins.thickness")?, values.si("store.coil.fins.pitch")?);
    (thick_m >= pitch_m).then(|| Misfit {
        code: "fins-touch",
        severity: Severity::Fault,
        place: "store.coil.fins.pitch".to_owned(),
        found: length(pitch_m),
        expected: format!("more than a fin's {}", length(thick_m)),
        says: format!(
            "Fins {} thick stand {} apart, so no water is between them",
            length(thick_m),
            length(pitch_m)
        ),
        hint: "pitch counts from the middle of a fin to the middle of the next",
    })
}

fn high_feed(values: &Values, at: usize) -> Option<Misfit> {
    above_water(values, &format!("store.feed[{at}].outlet-height"), "An outlet")
}

fn empty_feed(values: &Values, at: usize) -> Option<Misfit> {
    let place = |key: &str| format!("store.feed[{at}].{key}");
    let (from, to) = (values.minute(&place("from"))?, values.minute(&place("to"))?);
    let clock = format!("{:02}:{:02}", from / 60, from % 60);
    (from == to).then(|| Misfit {
        code: "empty-hours",
        severity: Severity::Fault,
        place: place("to"),
        found: clock.clone(),
        expected: format!("another time than {clock}"),
        says: format!("These hours begin and end at {clock}, so they hold no minute"),
        hint: "write two different times",
    })
}

/// Warmed water where it must be cold, or where it becomes spray.
fn risky_feed(values: &Values, at: usize) -> Option<Misfit> {
    let place = format!("store.feed[{at}].what");
    let (found, expected, says, hint) = match values.word(&place)? {
        "cold-taps" => (
            "cold-taps",
            "cold taps on the mains or on a cistern of their own",
            "Cold taps on a warmed cistern break the limit for cold water of 25 C (20 C in Scotland and Northern Ireland), and bacteria breed in it",
            "move the cold taps to the mains or to a second cistern; the year counts the hours above the limit",
        ),
        "garden" => (
            "garden",
            "a hose on the mains or a rain butt",
            "A hose on a warmed cistern makes spray of water in which bacteria breed",
            "water the garden from the mains or a rain butt",
        ),
        _ => return None,
    };
    Some(Misfit {
        code: "warmed-cold-water",
        severity: Severity::Warning,
        place,
        found: found.to_owned(),
        expected: expected.to_owned(),
        says: says.to_owned(),
        hint,
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
