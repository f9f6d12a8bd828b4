//! Parts that several stations share: tubes and layers.

use crate::values::Values;
use physics::panel::{Layer, Tube};

/// The tube whose keys stand in a table.
pub(super) fn tube(values: &Values, at: &str) -> Option<Tube> {
    let si = |key: &str| values.si(&format!("{at}.{key}"));
    let outside_m = si("outside")?;
    Some(Tube {
        outside_m,
        bore_m: outside_m - 2.0 * si("wall")?,
        conductivity_w_m_k: si("conductivity")?,
        density_kg_m3: si("density")?,
        heat_capacity_j_kg_k: si("heat-capacity")?,
        roughness_m: si("roughness")?,
    })
}

/// The layer whose keys stand in a table.
pub(super) fn layer(values: &Values, at: &str) -> Option<Layer> {
    let si = |key: &str| values.si(&format!("{at}.{key}"));
    Some(Layer {
        thickness_m: si("thickness")?,
        conductivity_w_m_k: si("conductivity")?,
        conductivity_growth_1_k: si("conductivity-growth")?,
        density_kg_m3: si("density")?,
        heat_capacity_j_kg_k: si("heat-capacity")?,
    })
}

/// The layers of a list, in its order.
pub(super) fn layers(values: &Values, list: &str) -> Option<Vec<Layer>> {
    (0..values.members(list)).map(|at| layer(values, &format!("{list}[{at}]"))).collect()
}
