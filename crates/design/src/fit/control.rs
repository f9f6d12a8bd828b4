//! A controller that can never start, never stops, or does both at once: said in words.

use super::{Misfit, length, metric, report};
use crate::problem::Severity;
use crate::quantity::Kind;
use crate::values::Values;
use crate::walk::Desk;

/// The coldest store a controller is judged by \[K\]: 5 C, a cistern in winter.
const COLD_STORE_K: f64 = 278.15;

pub(super) fn check(desk: &mut Desk, values: &Values) {
    let misfits = [
        hunts(values),
        never_stops(values),
        locked_out(values),
        full_from_the_start(values),
        narrow_limits(values),
        thermostat_hunts(values),
        thermostat_stays_on(values),
        beyond_pipe(values),
    ];
    let more = [without_hours(values)]
        .into_iter()
        .chain((0..values.members("control.hours")).map(|at| empty_hours(values, at)));
    let misfits = misfits.into_iter().chain(more).chain(unheeded(values).map(Some));
    for misfit in misfits.chain(odd_places(values).map(Some)).flatten().collect::<Vec<_>>() {
        report(desk, values, misfit);
    }
}

/// What is written for a probe, or a clock, that nothing asks.
fn unheeded(values: &Values) -> impl Iterator<Item = Misfit> {
    let rule = values.word("control.rule").unwrap_or_default().to_owned();
    let stands = |place: &str| values.is_written(place) || values.table(place).is_some();
    let mut idle: Vec<(&'static str, String)> = Vec::new();
    let store = !matches!(rule.as_str(), "thermostat" | "timer")
        || values.entry("control.store-limit").is_some();
    if !store {
        let why = format!("a {rule} without control.store-limit asks no probe in the store");
        for place in ["control.store-probe", "control.store-probe-height", "control.store-reset"] {
            idle.push((place, why.clone()));
        }
    } else if values.word("control.store-probe.place") == Some("loft-air") {
        let why = "control.store-probe.place is \"loft-air\"".to_owned();
        idle.push(("control.store-probe-height", why));
    }
    if rule == "timer" && !stands("control.frost") && !stands("control.panel-stop") {
        let why = "a timer without control.frost or control.panel-stop asks no probe".to_owned();
        idle.push(("control.panel-probe", why));
    }
    if !rule.is_empty() && rule != "timer" {
        idle.push(("control.hours", format!("control.rule is \"{rule}\", not \"timer\"")));
    }
    let idle: Vec<Misfit> = idle
        .into_iter()
        .filter(|(place, _)| stands(place))
        .map(|(place, why)| Misfit {
            code: "not-used",
            severity: Severity::Fault,
            place: place.to_owned(),
            found: place.to_owned(),
            expected: "nothing that no part of the controller asks".to_owned(),
            says: format!("{place} means nothing here: {why}"),
            hint: "take it out, or write what asks it",
        })
        .collect();
    idle.into_iter()
}

/// Probes where they see something else than what they are there for.
fn odd_places(values: &Values) -> impl Iterator<Item = Misfit> {
    let warning = |place: &'static str, found: &'static str, says: &str| Misfit {
        code: "probe-place",
        severity: Severity::Warning,
        place: place.to_owned(),
        found: found.to_owned(),
        expected: "a place that feels what it is to tell".to_owned(),
        says: says.to_owned(),
        hint: "the panel's probe belongs on the outlet stub inside the box, the store's in the water at the coil's height; the year shows what this place costs",
    };
    let panel = "control.panel-probe.place";
    let store = "control.store-probe.place";
    [
        match values.word(panel) {
            Some("inlet") => Some(warning(panel, "inlet", "A probe at the inlet feels the water that comes back, not what the panel gives: the pump stops early")),
            Some("flow-pipe") => Some(warning(panel, "flow-pipe", "A probe on the pipe feels nothing of the panel until fluid moves, so the pump seldom starts")),
            Some("open-air") => Some(warning(panel, "open-air", "A probe in open air never feels the panel: the pump goes by the weather")),
            _ => None,
        },
        match values.word(store) {
            Some("loft-air") => Some(warning(store, "loft-air", "A probe in the loft's air never feels the water: no limit of the store holds")),
            _ => None,
        },
    ]
    .into_iter()
    .flatten()
}

fn without_hours(values: &Values) -> Option<Misfit> {
    (values.word("control.rule")? == "timer" && values.members("control.hours") == 0).then(|| {
        Misfit {
            code: "missing-hours",
            severity: Severity::Fault,
            place: "control.rule".to_owned(),
            found: "a timer without hours".to_owned(),
            expected: "[[control.hours]] with from and to".to_owned(),
            says: "The pump can never start: control.rule is \"timer\" and no [[control.hours]] are written".to_owned(),
            hint: "write [[control.hours]] with from = \"10:00\" and to = \"16:00\"",
        }
    })
}

fn empty_hours(values: &Values, at: usize) -> Option<Misfit> {
    let place = |key: &str| format!("control.hours[{at}].{key}");
    let (from, to) = (values.minute(&place("from"))?, values.minute(&place("to"))?);
    let clock = format!("{:02}:{:02}", from / 60, from % 60);
    (from == to).then(|| Misfit {
        code: "empty-hours",
        severity: Severity::Fault,
        place: place("to"),
        found: clock.clone(),
        expected: format!("another time than {clock}"),
        says: format!("These hours begin and end at {clock}, so they hold no minute"),
        hint: "write two different times; for the whole day 00:00 to 12:00 and 12:00 to 00:00",
    })
}

fn thermostat_hunts(values: &Values) -> Option<Misfit> {
    let (on_k, off_k) =
        (values.si("control.on-temperature")?, values.si("control.off-temperature")?);
    let (on, off) = (metric(Kind::Temperature, on_k), metric(Kind::Temperature, off_k));
    (off_k >= on_k).then(|| Misfit {
        code: "stops-as-it-starts",
        severity: Severity::Fault,
        place: "control.off-temperature".to_owned(),
        found: off.clone(),
        expected: format!("below {on}"),
        says: format!(
            "The pump starts at {on} and stops at {off}: it would stop as soon as it starts"
        ),
        hint: "let it stop some 5 K below where it starts",
    })
}

/// A night that is warmer than this is common in summer \[K\]: 20 C.
const WARM_NIGHT_K: f64 = 293.15;

fn thermostat_stays_on(values: &Values) -> Option<Misfit> {
    let off_k = values.si("control.off-temperature")?;
    let off = metric(Kind::Temperature, off_k);
    let night = metric(Kind::Temperature, WARM_NIGHT_K);
    (off_k < WARM_NIGHT_K).then(|| Misfit {
        code: "stops-late",
        severity: Severity::Warning,
        place: "control.off-temperature".to_owned(),
        found: off.clone(),
        expected: format!("above {night}"),
        says: format!("The thermostat stops the pump below {off}: on a warm night it pumps the store's heat out through the panel"),
        hint: "let it stop above the warmth the store usually has",
    })
}

fn beyond_pipe(values: &Values) -> Option<Misfit> {
    let distance_m = values.si("control.panel-probe.distance")?;
    let pipe_m = values.si("circuit.flow-pipe.length")?;
    (distance_m > pipe_m).then(|| Misfit {
        code: "beyond-pipe",
        severity: Severity::Fault,
        place: "control.panel-probe.distance".to_owned(),
        found: length(distance_m),
        expected: format!("at most {}", length(pipe_m)),
        says: format!(
            "The probe sits {} along a flow pipe of {}",
            length(distance_m),
            length(pipe_m)
        ),
        hint: "distance counts from the panel along the flow pipe",
    })
}

fn hunts(values: &Values) -> Option<Misfit> {
    let (on_k, off_k) = (values.si("control.on")?, values.si("control.off")?);
    let (on, off) = (metric(Kind::Difference, on_k), metric(Kind::Difference, off_k));
    (off_k >= on_k).then(|| Misfit {
        code: "stops-as-it-starts",
        severity: Severity::Fault,
        place: "control.off".to_owned(),
        found: off.clone(),
        expected: format!("less than {on}"),
        says: format!(
            "The pump starts at {on} and stops at {off}: it would stop as soon as it starts"
        ),
        hint: "let it stop at a third to a half of the difference at which it starts",
    })
}

/// A panel that is pumped through on a cold night comes back this much colder than the store, and
/// hardly more \[K\]: a stop that asks for more never comes.
const COLDEST_RETURN_K: f64 = -3.0;

/// While the pump runs the panel is held near the store's temperature: a difference of zero or less,
/// as the probes see it, comes only when heat is being lost, and one far below zero never.
fn never_stops(values: &Values) -> Option<Misfit> {
    let off_k = values.si("control.off")?;
    let error_k =
        values.si("control.panel-probe.offset")? - values.si("control.store-probe.offset")?;
    let (off, error) = (metric(Kind::Difference, off_k), metric(Kind::Difference, error_k));
    let why = if error_k == 0.0 {
        format!("it stops at a difference of {off}")
    } else {
        format!(
            "it stops at a difference of {off}, and the probes show {error} where there is none"
        )
    };
    let left_k = off_k - error_k;
    let never = left_k <= COLDEST_RETURN_K;
    (left_k <= 0.0).then(|| Misfit {
        code: if never { "never-stops" } else { "stops-late" },
        severity: if never { Severity::Fault } else { Severity::Warning },
        place: "control.off".to_owned(),
        found: off,
        expected: "more than the probes' error, and more than 0 K".to_owned(),
        says: if never {
            format!(
                "The pump can never stop: {why}, and while it runs it holds the panel near the store"
            )
        } else {
            format!("The pump stops only when the panel takes heat out of the store: {why}")
        },
        hint: "write a difference of 2 K or more above the probes' error",
    })
}

fn locked_out(values: &Values) -> Option<Misfit> {
    let (on_k, limit_k) = (values.si("control.on")?, values.si("control.panel-limit")?);
    let (on, limit) = (metric(Kind::Difference, on_k), metric(Kind::Temperature, limit_k));
    (COLD_STORE_K + on_k > limit_k).then(|| Misfit {
        code: "never-starts",
        severity: Severity::Fault,
        place: "control.panel-limit".to_owned(),
        found: limit.clone(),
        expected: format!("well above a cold store and {on}"),
        says: format!("The pump can never start: even above a store of 5 C the panel must be {on} warmer, and it may not start above {limit}"),
        hint: "raise panel-limit to some 95 C, or lower `on`",
    })
}

fn full_from_the_start(values: &Values) -> Option<Misfit> {
    let limit_k = values.si("control.store-limit")?;
    let limit = metric(Kind::Temperature, limit_k);
    (limit_k <= COLD_STORE_K).then(|| Misfit {
        code: "never-starts",
        severity: Severity::Fault,
        place: "control.store-limit".to_owned(),
        found: limit.clone(),
        expected: "above the cold water that fills the store".to_owned(),
        says: format!("The pump can never start: it stops when the store is at {limit}, and the cold water that fills it is warmer"),
        hint: "a usual limit is 60 C",
    })
}

fn narrow_limits(values: &Values) -> Option<Misfit> {
    let (store_k, panel_k) = (values.si("control.store-limit")?, values.si("control.panel-limit")?);
    let on_k = values.si("control.on")?;
    let (store, panel) = (metric(Kind::Temperature, store_k), metric(Kind::Temperature, panel_k));
    (store_k > COLD_STORE_K && COLD_STORE_K + on_k <= panel_k && store_k + on_k > panel_k).then(|| Misfit {
        code: "panel-limit-low",
        severity: Severity::Warning,
        place: "control.panel-limit".to_owned(),
        found: panel.clone(),
        expected: format!("above {store} and the difference at which the pump starts"),
        says: format!("The pump may not start above {panel}, so the store never comes near its own limit of {store}"),
        hint: "raise panel-limit, or lower store-limit",
    })
}
