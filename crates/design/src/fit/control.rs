//! A controller that can never start, never stops, or does both at once: said in words.

use super::{Misfit, metric, report};
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
    ];
    for misfit in misfits.into_iter().flatten() {
        report(desk, values, misfit);
    }
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
