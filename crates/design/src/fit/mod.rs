//! Parts that do not fit together, each of which may be right by itself.

mod circuit;
mod control;
mod network;
mod panel;
mod round;
mod store;
mod sun;
mod tap;

use crate::problem::{Problem, Severity};
use crate::quantity::{Kind, Units, show};
use crate::values::Values;
use crate::walk::Desk;

/// Looks at every pair of parts that must fit. Values that could not be read are passed over.
pub(crate) fn check(desk: &mut Desk, values: &Values) {
    sun::check(desk, values);
    panel::check(desk, values);
    network::check(desk, values);
    circuit::check(desk, values);
    store::check(desk, values);
    tap::check(desk, values);
    control::check(desk, values);
    round::check(desk, values);
}

/// What does not fit.
struct Misfit {
    code: &'static str,
    severity: Severity,
    place: String,
    found: String,
    expected: String,
    says: String,
    hint: &'static str,
}

fn report(desk: &mut Desk, values: &Values, misfit: Misfit) {
    if values.is_told(&misfit.place) {
        return;
    }
    let span = values.span(&misfit.place);
    let problem = Problem {
        severity: misfit.severity,
        found: misfit.found,
        expected: misfit.expected,
        says: misfit.says,
        hint: misfit.hint.to_owned(),
        ..desk.fault(misfit.code, &misfit.place, span)
    };
    desk.problems.push(problem);
}

fn metric(kind: Kind, si: f64) -> String {
    show(kind, si, Units::Metric)
}
fn length(si: f64) -> String {
    metric(Kind::Length, si)
}
