//! It loses at night: fluid that runs backwards by its own weight.

use design::quantity::Kind as Measure;
use physics::circuit::CheckValve;
use year::ledger::KWH_J;

use super::case::{Case, writing};
use super::finding::{About, Certainty, Figure, Finding, Kind, Limit, Station};
use super::words::{kwh, lasting, percent, words};
use crate::{AdviceError, OneYear};

/// Heat lost backwards above this share of what the build spares is worth a valve (judgement).
const WORTH_A_VALVE: f64 = 0.02;
const MEANS: &str = "The American certification rules for solar water heaters ask for a means against reverse flow (6.1.1.5)";

/// What runs back as built; behind a valve, what a stuck one would let pass.
pub(super) fn look(case: &Case) -> Result<Vec<Finding>, AdviceError> {
    let build = &case.year.build;
    if build.panel.panels.is_empty() {
        return Ok(Vec::new());
    }
    Ok(vec![match build.circuit.check_valve {
        CheckValve::None => as_built(case),
        CheckValve::Fitted { .. } | CheckValve::Flap { .. } => stuck(case)?,
    }])
}

fn backwards_kwh(year: &OneYear) -> f64 {
    year.result.build.year().reverse_heat_j / KWH_J
}

fn figures(lost_kwh: f64, spared_kwh: f64) -> Vec<Figure> {
    let limit = Limit::at_most(
        WORTH_A_VALVE * spared_kwh.max(0.0) * KWH_J,
        "a fiftieth of the spared heat",
        Certainty::Judgement,
    );
    vec![Figure::against("heat carried backwards a year", Measure::Energy, lost_kwh * KWH_J, limit)]
}

fn as_built(case: &Case) -> Finding {
    let tally = case.year.result.build.year();
    let (lost_kwh, spared_kwh) = (backwards_kwh(case.year), case.year.spared_kwh());
    let kind =
        if lost_kwh > WORTH_A_VALVE * spared_kwh.max(0.0) { Kind::Mind } else { Kind::Quiet };
    let says = words!(
        "Without a check valve the fluid runs backwards for {} of the year and carries {} from the store to the cold panel",
        lasting(tally.reverse_s),
        kwh(lost_kwh)
    );
    let valve = if case.year.build.circuit.pump.is_some() { "fitted" } else { "flap" };
    Finding::new(About::Night, "runs-backwards", Station::Circuit, kind, says)
        .at("circuit.check-valve")
        .mend(words!("Fit a check valve with its arrow along the flow, a light flap where the fluid’s own weight drives it; three hours after dusk both pipes must be cold"))
        .figures(figures(lost_kwh, spared_kwh))
        .remedies(vec![writing(words!("Fit a check valve"), "circuit.check-valve", valve)])
        .source(MEANS, Certainty::Seen)
}

/// The year with the valve gone: what dirt under its seat would cost.
fn stuck(case: &Case) -> Result<Finding, AdviceError> {
    let mut build = case.year.build.clone();
    build.circuit.check_valve = CheckValve::None;
    let year = case.subject.year_beside(case.year, build)?;
    let (lost_kwh, spared_kwh) = (backwards_kwh(&year), case.year.spared_kwh());
    let less_kwh = spared_kwh - year.spared_kwh();
    let says = words!(
        "Should the check valve stick open, the fluid carries {} a year backwards to the cold panel, and the build spares {} less, {} of what it spares",
        kwh(lost_kwh),
        kwh(less_kwh),
        percent(less_kwh / spared_kwh.max(f64::MIN_POSITIVE))
    );
    // A part that fails, and the build survives it: told, not held against the build.
    Ok(Finding::new(About::Night, "valve-stuck-open", Station::Circuit, Kind::Quiet, says)
        .at("circuit.check-valve")
        .mend(words!("Feel both pipes three hours after dusk: a panel that stays warmer than the air on a clear night is being fed"))
        .figures(figures(lost_kwh, spared_kwh))
        .source(MEANS, Certainty::Seen))
}
