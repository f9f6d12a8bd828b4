//! A bought panel from its certificate.

use crate::values::Values;
use physics::matter::fluid::{Fluid, properties_held};
use physics::panel::certificate::{beam_eta0, diffuse_modifier};
use physics::panel::curve::HeatCurve;
use physics::panel::{Bought, Modifier, ModifierPoint};
use physics::{Angle, ZERO_CELSIUS_K};

/// The panel; `None` where its certificate lacks what it must state.
pub(super) fn bought(values: &Values) -> Option<Bought> {
    let si = |key: &str| values.si(&format!("panel.certificate.{key}"));
    let modifier = modifier(values)?;
    let diffuse = si("diffuse-modifier").unwrap_or_else(|| diffuse_modifier(&modifier));
    let eta0 = match values.word("panel.certificate.eta0-light")? {
        "beam" => si("eta0")?,
        _ => beam_eta0(si("eta0")?, diffuse).ok()?,
    };
    let port_bore_m = si("port")?;
    Some(Bought {
        area_m2: si("area")?,
        curve: HeatCurve { eta0, a1_w_m2_k: si("a1")?, a2_w_m2_k2: si("a2")? },
        modifier,
        diffuse_modifier: diffuse,
        capacity_j_m2_k: si("capacity")?,
        contents_m3: si("contents")?,
        port_bore_m,
        port_loss: port_loss(si("drop")?, si("drop-flow")?, port_bore_m)?,
        idle_k: si("idle"),
    })
}

fn modifier(values: &Values) -> Option<Modifier> {
    let members = values.members("panel.certificate.modifier");
    if members == 0 {
        return Some(Modifier::Coefficient(values.si("panel.certificate.b0")?));
    }
    let point = |at: usize| {
        let si = |key: &str| values.si(&format!("panel.certificate.modifier[{at}].{key}"));
        Some(ModifierPoint { incidence: Angle::from_radians(si("angle")?), share: si("share")? })
    };
    Some(Modifier::Points((0..members).map(point).collect::<Option<_>>()?))
}

/// Loss figure on the velocity in a port that costs so much at that flow of water, as the tests are
/// run \[Pa, m3/s, m\].
fn port_loss(drop_pa: f64, flow_m3_s: f64, bore_m: f64) -> Option<f64> {
    let water = properties_held(Fluid::Water, ZERO_CELSIUS_K + 20.0).ok()?;
    let velocity_m_s = flow_m3_s / (std::f64::consts::FRAC_PI_4 * bore_m * bore_m);
    Some(drop_pa / (0.5 * water.density_kg_m3 * velocity_m_s * velocity_m_s))
}
