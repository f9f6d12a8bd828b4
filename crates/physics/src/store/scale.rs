//! Scale on a coil: what a crust of lime does to the heat through its wall.

use super::error::StoreError;
use crate::panel::Tube;

/// Conductivity of lime scale \[W/(m K)\]: 1 (from memory; handbooks give 0.6 to 2.3 with its
/// pores).
pub const SCALE_W_M_K: f64 = 1.0;

/// Conductivity of a tube's wall that passes as little heat as the wall with scale on it
/// \[W/(m K)\].
///
/// ```text
/// ln(Do/Di)/k = ln(Do/Di)/kw + ln((Do + 2 s)/Do)/ks
/// ```
///
/// - `tube`: the coil's tube, clean.
/// - `scale_m`: thickness s on its outside \[m\]; a millimetre or two after years in hard water.
///
/// # Valid range
/// Thickness of 0 or more, a wall that conducts and has a thickness; a [`StoreError`] outside. The
/// crust's larger outside, which gives off a little more, is left out; on a finned tube scale sits
/// on the fins too and fills the spaces between them, which costs more than this.
///
/// # Source
/// Conduction through two cylinders, one around the other.
///
/// # Checked
/// A thin crust against `s/ks` on the tube's outside, by hand.
///
/// # Example
/// ```
/// use physics::panel::Tube;
/// use physics::store::scale::scaled_w_m_k;
/// let tube = Tube {
///     outside_m: 0.01,
///     bore_m: 0.0088,
///     conductivity_w_m_k: 340.0,
///     density_kg_m3: 8940.0,
///     heat_capacity_j_kg_k: 385.0,
///     roughness_m: 1.5e-6,
/// };
/// assert!((scaled_w_m_k(&tube, 0.001).unwrap() - 0.7).abs() < 0.01);
/// ```
pub fn scaled_w_m_k(tube: &Tube, scale_m: f64) -> Result<f64, StoreError> {
    let is_thickness = scale_m >= 0.0 && scale_m.is_finite();
    StoreError::unless(is_thickness, "the scale's thickness in m", scale_m, "0 or more")?;
    let wall_w_m_k = tube.conductivity_w_m_k;
    let conducts = wall_w_m_k > 0.0 && wall_w_m_k.is_finite();
    StoreError::unless(conducts, "the wall's conductivity in W/(m K)", wall_w_m_k, "more than 0")?;
    let is_wall = tube.bore_m > 0.0 && tube.outside_m > tube.bore_m;
    StoreError::unless(is_wall, "the tube's bore in m", tube.bore_m, "less than its outside")?;
    let wall = (tube.outside_m / tube.bore_m).ln();
    let scale = (1.0 + 2.0 * scale_m / tube.outside_m).ln();
    Ok(wall / (wall / wall_w_m_k + scale / SCALE_W_M_K))
}

#[cfg(test)]
mod tests {
    use super::*;

    const TUBE: Tube = Tube {
        outside_m: 0.015,
        bore_m: 0.0136,
        conductivity_w_m_k: 340.0,
        density_kg_m3: 8940.0,
        heat_capacity_j_kg_k: 385.0,
        roughness_m: 1.5e-6,
    };

    /// Given: 0.1 mm on 15 x 0.7 tube. Expected: the wall's own resistance and that of a flat crust,
    /// 1e-4 m2 K/W on the outside, together; by hand, to 1 %, what the crust's curve is worth.
    #[test]
    fn a_thin_crust_is_a_flat_one() {
        let area_m2 = std::f64::consts::PI * TUBE.outside_m;
        let across = |conductivity_w_m_k: f64| {
            (TUBE.outside_m / TUBE.bore_m).ln() / (2.0 * std::f64::consts::PI * conductivity_w_m_k)
        };
        let added = across(scaled_w_m_k(&TUBE, 1e-4).unwrap()) - across(340.0);
        assert!((added * area_m2 - 1e-4).abs() < 1e-6, "{}", added * area_m2);
        assert!((scaled_w_m_k(&TUBE, 0.0).unwrap() - 340.0).abs() < 1e-9);
    }

    /// Given: what is no crust or no tube. Expected: errors.
    #[test]
    fn refuses_nonsense() {
        assert!(scaled_w_m_k(&TUBE, -1e-3).is_err());
        assert!(scaled_w_m_k(&Tube { bore_m: 0.015, ..TUBE }, 1e-3).is_err());
        assert!(scaled_w_m_k(&Tube { conductivity_w_m_k: 0.0, ..TUBE }, 1e-3).is_err());
    }
}
