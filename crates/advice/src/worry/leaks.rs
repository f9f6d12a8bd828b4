//! It leaks: a drip a second, or a joint that lets go.

use design::quantity::Kind as Measure;
use physics::circuit::Holding;
use physics::circuit::boiling::atmosphere_pa;
use physics::circuit::jet::jet_m3_s;
use physics::circuit::pipe::static_pa;
use physics::circuit::survey::contents;
use physics::making::joints::{Solder, rated_pa};
use physics::{Build, GRAVITY_M_S2};

use super::case::{Case, writing};
use super::finding::{About, Certainty, Figure, Finding, Kind, Limit, Station};
use super::words::{Value, lasting, of, warm, words};
use crate::AdviceError;
use crate::idle::idle;

/// A drop of water \[m3\]: twenty to the millilitre (common practice).
const DROP_M3: f64 = 0.05e-6;

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
    .figures(
        std::iter::once(Figure::told("lost a day", Measure::Volume, 86_400.0 * drip_m3_s))
            .chain(reserve_m3.map(|reserve_m3| {
                let lasts_s = reserve_m3 / drip_m3_s;
                Figure::told("until the reserve is gone", Measure::Time, lasts_s)
            }))
            .collect(),
    )
    .source("Twenty drops to the millilitre", Certainty::CommonPractice);
    Ok(vec![drip, let_go(case)?])
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
fn let_go(case: &Case) -> Result<Finding, AdviceError> {
    let build = &case.year.build;
    let tube = &build.circuit.flow_pipe[0].tube;
    let head_m = match build.circuit.layout.holding {
        Holding::HeaderTank { level_m, .. } => level_m,
        Holding::Vessel { fill_pa, .. } => fill_pa / (1000.0 * GRAVITY_M_S2),
    };
    let over_pa = static_pa(1000.0, head_m.max(0.0));
    let flow_m3_s = jet_m3_s(tube.bore_m, over_pa, 1000.0).map_err(AdviceError::circuit)?;
    let held_m3 = contents(&build.circuit, &build.panel, &build.store.coil).whole_m3();
    let says = words!(
        "A joint of the flow pipe that lets go at the store’s foot throws {} out at first; the circuit’s {} is on the loft’s floor in {}, hot by day. Nothing stops it but what is shut by hand, and the panel stands dry",
        of(Measure::Flow, flow_m3_s),
        of(Measure::Volume, held_m3),
        lasting(held_m3 / flow_m3_s.max(1e-9))
    );
    Ok(Finding::new(About::Leaks, "joint-lets-go", Station::Circuit, Kind::Quiet, says)
        .at("circuit.flow-pipe")
        .mend(words!("Two clips on every hose, metal for the first metres, joints in sight; a tray with a drain; cover the panel until it is mended, filled and cold"))
        .figures(vec![Figure::told("thrown out at first", Measure::Flow, flow_m3_s)])
        .source("Torricelli’s law, coefficient 0.6", Certainty::FromMemory))
}

/// Pressure on the panel's soldered joints against what they are rated for as hot as they get.
pub(super) fn joints(case: &Case) -> Result<Vec<Finding>, AdviceError> {
    let (design, build) = (&case.subject.design, &case.year.build);
    let solder = match design.material("panel.tubes.joints").map(|joints| joints.id.as_str()) {
        Some("tin-lead-solder") => Solder::TinLead,
        Some("tin-copper-solder") => Solder::LeadFree,
        _ => return Ok(Vec::new()),
    };
    let Some(tubes) = case.panel().and_then(|panel| panel.built()).and_then(|built| built.tubes())
    else {
        return Ok(Vec::new());
    };
    let Some(found) = idle(design, build, &case.year.forcing)? else { return Ok(Vec::new()) };
    let hot_k = found.extreme_k.max(found.standard_k);
    let gauge_pa = most_gauge_pa(build);
    // A tube wider than the ratings go has none.
    let rated_pa = rated_pa(solder, tubes.tube.outside_m, hot_k).unwrap_or(None);
    let pressure = of(Measure::Pressure, gauge_pa);
    let source = "Pressure ratings of soldered joints by temperature: copper tube handbook (tin-lead), EN 1254-1 (lead-free, from memory)";
    let (kind, says, figure) = match rated_pa {
        Some(rated_pa) => (
            if gauge_pa > rated_pa { Kind::Stop } else { Kind::Quiet },
            words!(
                "Left idle the panel’s joints come to {} under {} at most; they are rated for {} there",
                warm(hot_k),
                pressure,
                of(Measure::Pressure, rated_pa)
            ),
            Figure::against(
                "pressure on hot joints",
                Measure::Pressure,
                gauge_pa,
                Limit::at_most(rated_pa, source, Certainty::Seen),
            ),
        ),
        None => (
            Kind::Mind,
            words!(
                "Left idle the panel’s joints come to {} under {}; soft solder is rated to {} and creeps above",
                warm(hot_k),
                pressure,
                warm(solder.rated_to_k())
            ),
            Figure::against(
                "joints, idle in full sun",
                Measure::Temperature,
                hot_k,
                Limit::at_most(solder.rated_to_k(), source, Certainty::Seen),
            ),
        ),
    };
    Ok(vec![
        Finding::new(About::Leaks, "joints-under-pressure", Station::Panel, kind, says)
            .at("panel.tubes.joints")
            .mend(words!(
                "Braze what carries pressure on the sheet, or bend one tube without a joint"
            ))
            .figures(vec![figure])
            .remedies(vec![writing(
                words!("Braze the joints"),
                "panel.tubes.joints",
                "silver-braze",
            )])
            .source(source, Certainty::Seen),
    ])
}

/// Most that may stand on the panel's joints, as a gauge shows it \[Pa\].
fn most_gauge_pa(build: &Build) -> f64 {
    let layout = &build.circuit.layout;
    match layout.holding {
        Holding::HeaderTank { level_m, .. } => {
            static_pa(1000.0, (level_m - layout.panel_bottom_m).max(0.0))
        }
        Holding::Vessel { relief_pa, .. } => relief_pa,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Given twenty drops to the millilitre, a drip a second is 4.32 l a day (by hand).
    #[test]
    fn a_drip_a_second_is_four_litres_a_day() {
        assert!((86_400.0 * DROP_M3 - 4.32e-3).abs() < 1e-12);
    }
}
