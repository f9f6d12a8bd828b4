//! It leaks: a drip a second, or a joint that lets go.

use design::quantity::Kind as Measure;
use physics::GRAVITY_M_S2;
use physics::circuit::Holding;
use physics::circuit::boiling::atmosphere_pa;
use physics::circuit::survey::contents;

use super::case::Case;
use super::finding::{About, Certainty, Figure, Finding, Kind, Station};
use super::words::{Value, lasting, of, words};
use crate::AdviceError;

/// A drop of water \[m3\]: twenty to the millilitre (common practice).
const DROP_M3: f64 = 0.05e-6;
/// What a torn pipe's mouth lets through of the ideal jet (usual coefficient, from memory).
const JET_SHARE: f64 = 0.6;

/// A drip a second, and a joint that lets go: how long the circuit's reserve lasts.
pub(super) fn look(case: &Case) -> Result<Vec<Finding>, AdviceError> {
    let build = &case.year.build;
    if build.panel.panels.is_empty() {
        return Ok(Vec::new());
    }
    let reserve_m3 = reserve_m3(case)?;
    let drip_m3_s = DROP_M3;
    let until: Value = match reserve_m3 {
        Some(reserve_m3) => words!(
            "the reserve of {} is gone after {}, then air stands in the panel’s top and the pump moves nothing",
            of(Measure::Volume, reserve_m3),
            lasting(reserve_m3 / drip_m3_s)
        )
        .into(),
        None => words!("nobody said what the header tank holds: each litre lasts {}", lasting(1e-3 / drip_m3_s)).into(),
    };
    let place = match build.circuit.layout.holding {
        Holding::HeaderTank { .. } => "circuit.filling.holds",
        Holding::Vessel { .. } => "circuit.filling.pressure",
    };
    let drip = Finding::new(
        About::Leaks,
        "drip",
        Station::Circuit,
        Kind::Quiet,
        words!("A drip a second is {} a day: {}", of(Measure::Volume, 86_400.0 * drip_m3_s), until),
    )
    .at(place)
    .mend(words!("Mark the cold level or the gauge’s pressure with its date, look each month, and lay a tray with a drain under joints in the loft; a header tank of antifreeze is filled by hand, never by a ball valve"))
    .figures(vec![
        Figure::told("lost a day", Measure::Volume, 86_400.0 * drip_m3_s),
        Figure::told(
            "until the reserve is gone",
            Measure::Time,
            reserve_m3.map_or(f64::INFINITY, |reserve_m3| reserve_m3 / drip_m3_s),
        ),
    ])
    .source("Twenty drops to the millilitre", Certainty::CommonPractice);
    Ok(vec![drip, let_go(case)])
}

/// Fluid that may be lost before air comes into the panel \[m3\]; `None` where nobody said.
fn reserve_m3(case: &Case) -> Result<Option<f64>, AdviceError> {
    Ok(match case.year.build.circuit.layout.holding {
        Holding::HeaderTank { .. } => case.subject.design.facts.header_holds_m3,
        Holding::Vessel { volume_m3, precharge_pa, fill_pa, .. } => {
            let air_pa = atmosphere_pa(case.altitude_m()).map_err(AdviceError::circuit)?;
            Some(volume_m3 * (1.0 - (air_pa + precharge_pa) / (air_pa + fill_pa)))
        }
    })
}

/// A joint at the store's foot lets go: the whole column runs out.
fn let_go(case: &Case) -> Finding {
    let build = &case.year.build;
    let tube = &build.circuit.flow_pipe[0].tube;
    let head_m = match build.circuit.layout.holding {
        Holding::HeaderTank { level_m, .. } => level_m,
        Holding::Vessel { fill_pa, .. } => fill_pa / (1000.0 * GRAVITY_M_S2),
    };
    let flow_m3_s = jet_m3_s(tube.bore_m, head_m.max(0.0));
    let held_m3 = contents(&build.circuit, &build.panel, &build.store.coil).whole_m3();
    let says = words!(
        "A joint of the flow pipe that lets go at the store’s foot throws {} out at first; the circuit’s {} is on the loft’s floor in {}, hot by day. Nothing stops it but what is shut by hand, and the panel stands dry",
        of(Measure::Flow, flow_m3_s),
        of(Measure::Volume, held_m3),
        lasting(held_m3 / flow_m3_s.max(1e-9))
    );
    Finding::new(About::Leaks, "joint-lets-go", Station::Circuit, Kind::Quiet, says)
        .at("circuit.flow-pipe")
        .mend(words!("Two clips on every hose, metal for the first metres, joints in sight; a tray with a drain; cover the panel until it is mended, filled and cold"))
        .figures(vec![Figure::told("thrown out at first", Measure::Flow, flow_m3_s)])
        .source("Torricelli’s law, coefficient 0.6", Certainty::FromMemory)
}

/// Flow out of a torn pipe \[m3/s\]: `Q = C A sqrt(2 g h)` (Torricelli).
fn jet_m3_s(bore_m: f64, head_m: f64) -> f64 {
    let area_m2 = std::f64::consts::FRAC_PI_4 * bore_m * bore_m;
    JET_SHARE * area_m2 * (2.0 * GRAVITY_M_S2 * head_m).sqrt()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Given a bore of 13.6 mm under 2 m of water: 0.6 times 145.3 mm2 times 6.263 m/s are 0.546 l/s
    /// (Torricelli, by hand).
    #[test]
    fn a_torn_pipe_runs_by_torricelli() {
        let flow_m3_s = jet_m3_s(0.0136, 2.0);
        assert!((flow_m3_s * 1e3 - 0.5459).abs() < 1e-3, "{flow_m3_s}");
    }

    /// Given twenty drops to the millilitre, a drip a second is 4.32 l a day (by hand).
    #[test]
    fn a_drip_a_second_is_four_litres_a_day() {
        assert!((86_400.0 * DROP_M3 - 4.32e-3).abs() < 1e-12);
    }
}
