//! What must fit in the circuit: the pump's curve, the antifreeze, the valve.

use super::{Misfit, metric, report};
use crate::problem::Severity;
use crate::quantity::Kind;
use crate::values::Values;
use crate::walk::Desk;

pub(super) fn check(desk: &mut Desk, values: &Values) {
    let misfits = [curve(values), strength(values), poison(values), backward(values)];
    for misfit in misfits.into_iter().flatten() {
        report(desk, values, misfit);
    }
}

/// Flow must rise and head must fall from point to point.
fn curve(values: &Values) -> Option<Misfit> {
    let place = |at: usize, key: &str| format!("circuit.pump.curve[{at}].{key}");
    let point = |at: usize| Some((values.si(&place(at, "flow"))?, values.si(&place(at, "head"))?));
    for at in 1..values.members("circuit.pump.curve") {
        let ((flow, head), (next_flow, next_head)) = (point(at - 1)?, point(at)?);
        if next_flow <= flow || next_head >= head {
            let key = if next_flow <= flow { "flow" } else { "head" };
            let (flow, head) = (metric(Kind::Flow, flow), metric(Kind::Head, head));
            let (next_flow, next_head) =
                (metric(Kind::Flow, next_flow), metric(Kind::Head, next_head));
            return Some(Misfit {
                code: "pump-curve-not-falling",
                severity: Severity::Fault,
                place: place(at, key),
                found: format!("{head} at {flow}, then {next_head} at {next_flow}"),
                expected: "more flow and less head from point to point".to_owned(),
                says: format!(
                    "The pump's curve goes from {head} at {flow} to {next_head} at {next_flow}"
                ),
                hint: "list the points by rising flow; the head falls along the curve",
            });
        }
    }
    None
}

/// A mixture has one strength.
fn strength(values: &Values) -> Option<Misfit> {
    let fluid = values.word("circuit.fluid").filter(|fluid| *fluid != "water")?;
    let volume = values.entry("circuit.share-by-volume").is_some();
    let mass = values.entry("circuit.share-by-mass").is_some();
    if volume != mass {
        return None;
    }
    let (code, place, says) = if volume {
        (
            "two-shares",
            "circuit.share-by-mass",
            "The antifreeze's share stands twice, by volume and by mass".to_owned(),
        )
    } else {
        (
            "missing-key",
            "circuit.share-by-volume",
            format!("How much {fluid} is in the mixture is not said"),
        )
    };
    Some(Misfit {
        code,
        severity: Severity::Fault,
        place: place.to_owned(),
        found: if volume { "both".to_owned() } else { String::new() },
        expected: "share-by-volume or share-by-mass".to_owned(),
        says,
        hint: "write one of them, for instance share-by-volume = \"40 %\"",
    })
}

fn poison(values: &Values) -> Option<Misfit> {
    (values.word("circuit.fluid")? == "ethylene-glycol").then(|| Misfit {
        code: "poison",
        severity: Severity::Warning,
        place: "circuit.fluid".to_owned(),
        found: "ethylene-glycol".to_owned(),
        expected: "propylene-glycol or water next to tap water".to_owned(),
        says: "Ethylene glycol is a poison, and the coil's single wall parts it from tap water"
            .to_owned(),
        hint: "use propylene-glycol",
    })
}

fn backward(values: &Values) -> Option<Misfit> {
    (values.word("circuit.check-valve")? == "none").then(|| Misfit {
        code: "backward-flow",
        severity: Severity::Warning,
        place: "circuit.check-valve".to_owned(),
        found: "none".to_owned(),
        expected: "\"fitted\" or \"flap\"".to_owned(),
        says: "Without a check valve warm fluid runs backwards at night wherever its weight lets it, and cools the store; the year counts what that takes".to_owned(),
        hint: "fit one: with a pump write check-valve = \"fitted\", without \"flap\"",
    })
}
