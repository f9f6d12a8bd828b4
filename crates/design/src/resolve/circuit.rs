//! The circuit of a build.

use super::parts::tube;
use crate::catalogue::fittings;
use crate::values::Values;
use physics::circuit::pipe::Run;
use physics::circuit::scrap_pump::{BucketTest, curve_of_two, shut_head_m};
use physics::circuit::{
    CheckValve, Circuit, CircuitError, CurvePoint, Holding, Joint, Layout, Pipe, Pump, PumpPlace,
};
use physics::matter::fluid::{Fluid, Glycol, mass_share_from_volume_share, properties};

/// The circuit with its pipes and pump.
pub(crate) fn circuit(values: &Values) -> Option<Circuit> {
    Some(Circuit {
        fluid: fluid(values)?,
        flow_pipe: stretches(values, "circuit.flow-pipe")?,
        return_pipe: stretches(values, "circuit.return-pipe")?,
        pump: match values.word("circuit.drive")? {
            "gravity" => None,
            _ => Some(Pump { curve: curve(values)?, power_w: values.si("circuit.pump.power")? }),
        },
        check_valve: match values.word("circuit.check-valve")? {
            "fitted" => CheckValve::Fitted { open_loss: values.si("circuit.check-valve-k")? },
            "flap" => CheckValve::Flap { open_loss: values.si("circuit.check-valve-k")? },
            _ => CheckValve::None,
        },
        layout: layout(values)?,
    })
}

fn curve(values: &Values) -> Option<Vec<CurvePoint>> {
    if let Some(measured) = measured(values) {
        return measured.ok();
    }
    (0..values.members("circuit.pump.curve"))
        .map(|at| {
            Some(CurvePoint {
                flow_m3_s: values.si(&format!("circuit.pump.curve[{at}].flow"))?,
                head_m: values.si(&format!("circuit.pump.curve[{at}].head"))?,
            })
        })
        .collect()
}

/// Temperature of the water in a trial with a bucket \[K\].
const BUCKET_K: f64 = 288.15;

/// The curve of a pump that was measured by gauge and bucket; `None` where none was.
pub(crate) fn measured(values: &Values) -> Option<Result<Vec<CurvePoint>, CircuitError>> {
    let at = |key: &str| values.si(&format!("circuit.pump.measured.{key}"));
    values.table("circuit.pump.measured")?;
    let water = properties(Fluid::Water, BUCKET_K).ok()?;
    let head_m = match (at("shut-head"), at("shut-pressure")) {
        (Some(head_m), _) => head_m,
        (None, Some(gauge_pa)) => shut_head_m(gauge_pa, water.density_kg_m3, 0.0),
        (None, None) => return None,
    };
    let bucket = BucketTest {
        flow_m3_s: at("flow")?,
        lift_m: at("lift")?,
        hose: Run {
            bore_m: at("hose-bore")?,
            length_m: at("hose-length")?,
            // A hose's lining, as the catalogue's named hoses have it.
            roughness_m: 7e-6,
            fittings_loss: 0.0,
        },
        water,
    };
    Some(curve_of_two(head_m, &bucket))
}

fn layout(values: &Values) -> Option<Layout> {
    let height_m = |key: &str| values.si(&format!("circuit.heights.{key}"));
    let filling = |key: &str| values.si(&format!("circuit.filling.{key}"));
    Some(Layout {
        panel_bottom_m: height_m("panel-bottom")?,
        panel_top_m: height_m("panel-top")?,
        highest_m: height_m("highest")?,
        // Neither is asked for where no pump is.
        pump_m: height_m("pump").unwrap_or(0.0),
        pump_place: match values.word("circuit.pump.place") {
            Some("before-panel") => PumpPlace::BeforePanel,
            Some("after-panel") => PumpPlace::AfterPanel,
            Some("before-coil") => PumpPlace::BeforeCoil,
            _ => PumpPlace::AfterCoil,
        },
        joint: match values.word("circuit.filling.joins") {
            Some("pump-outlet") => Joint::PumpOutlet,
            Some("panel-outlet") => Joint::PanelOutlet,
            _ => Joint::PumpInlet,
        },
        holding: match values.word("circuit.filling.kind")? {
            "sealed" => Holding::Vessel {
                volume_m3: filling("vessel")?,
                precharge_pa: filling("charge")?,
                fill_pa: filling("pressure")?,
                relief_pa: filling("relief")?,
            },
            _ => Holding::HeaderTank { level_m: filling("water-level")?, room_m3: filling("room") },
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

/// A pipe's stretches in the order of the flow.
fn stretches(values: &Values, at: &str) -> Option<Vec<Pipe>> {
    let mut first = pipe(values, at)?;
    for member in 0..values.members(&format!("{at}.fitting")) {
        let key = |key: &str| format!("{at}.fitting[{member}].{key}");
        let one = fittings::fitting(values.word(&key("kind"))?)?.loss(first.tube.bore_m)?;
        first.fittings_loss += one * f64::from(values.count(&key("count"))?);
    }
    let then = format!("{at}.then");
    std::iter::once(Some(first))
        .chain((0..values.members(&then)).map(|member| pipe(values, &format!("{then}[{member}]"))))
        .collect()
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
