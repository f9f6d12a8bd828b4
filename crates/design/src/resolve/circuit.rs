//! The circuit of a build.

use super::parts::tube;
use crate::values::Values;
use physics::circuit::{CheckValve, Circuit, CurvePoint, Pipe, Pump};
use physics::matter::fluid::{Fluid, Glycol, mass_share_from_volume_share};

/// The circuit with its pipes and pump.
pub(super) fn circuit(values: &Values) -> Option<Circuit> {
    let points = 0..values.members("circuit.pump.curve");
    let curve: Option<Vec<CurvePoint>> = points
        .map(|at| {
            Some(CurvePoint {
                flow_m3_s: values.si(&format!("circuit.pump.curve[{at}].flow"))?,
                head_m: values.si(&format!("circuit.pump.curve[{at}].head"))?,
            })
        })
        .collect();
    Some(Circuit {
        fluid: fluid(values)?,
        flow_pipe: pipe(values, "circuit.flow-pipe")?,
        return_pipe: pipe(values, "circuit.return-pipe")?,
        pump: Pump { curve: curve?, power_w: values.si("circuit.pump.power")? },
        check_valve: match values.word("circuit.check-valve")? {
            "fitted" => CheckValve::Fitted { open_loss: values.si("circuit.check-valve-k")? },
            _ => CheckValve::None,
        },
    })
}

fn fluid(values: &Values) -> Option<Fluid> {
    let share = |glycol| match values.si("circuit.share-by-mass") {
        Some(share) => Some(share),
        None => mass_share_from_volume_share(glycol, values.si("circuit.share-by-volume")?).ok(),
    };
    match values.word("circuit.fluid")? {
        "propylene-glycol" => {
            Some(Fluid::PropyleneGlycol { mass_share: share(Glycol::Propylene)? })
        }
        "ethylene-glycol" => Some(Fluid::EthyleneGlycol { mass_share: share(Glycol::Ethylene)? }),
        _ => Some(Fluid::Water),
    }
}

fn pipe(values: &Values, at: &str) -> Option<Pipe> {
    let si = |key: &str| values.si(&format!("{at}.{key}"));
    Some(Pipe {
        tube: tube(values, at)?,
        length_m: si("length")?,
        fittings_loss: si("fittings-k")?,
        lagging_m: si("lagging")?,
        lagging_conductivity_w_m_k: si("lagging-conductivity")?,
        outdoor_share: si("outdoor-share")?,
    })
}
