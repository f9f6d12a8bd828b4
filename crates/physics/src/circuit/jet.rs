//! What a hole in a wall under pressure lets through.

use super::error::CircuitError;

/// Share of the ideal jet that a sharp-edged hole lets through: its vein is narrower than the hole.
const VEIN_SHARE: f64 = 0.6;

/// Flow through a round hole \[m3/s\].
///
/// ```text
/// Q = 0.6 A sqrt(2 dp/rho)
/// ```
///
/// - `hole_m`: its diameter \[m\]; 0.0005 for a pinhole, a pipe's bore where the pipe is torn.
/// - `over_pa`: pressure on one side above that on the other \[Pa\], 0 or more.
/// - `density_kg_m3`: of what runs; 1000 for water.
///
/// # Valid range
/// A thin wall or a mouth, and a flow that is turbulent; finite numbers, density above 0: a
/// [`CircuitError`] outside.
///
/// # Source
/// Torricelli's law with the usual coefficient of a sharp edge (from memory).
///
/// # Checked
/// By hand to 0.1 %.
///
/// # Example
/// ```
/// let flow_m3_s = physics::circuit::jet::jet_m3_s(0.0005, 1e4, 1000.0).unwrap();
/// assert!((flow_m3_s - 0.527e-6).abs() < 1e-9);
/// ```
pub fn jet_m3_s(hole_m: f64, over_pa: f64, density_kg_m3: f64) -> Result<f64, CircuitError> {
    for (what, value) in [("the hole in m", hole_m), ("the pressure in Pa", over_pa)] {
        CircuitError::unless(value >= 0.0 && value.is_finite(), what, value, "0 or more")?;
    }
    let good = density_kg_m3 > 0.0 && density_kg_m3.is_finite();
    CircuitError::unless(good, "the density in kg/m3", density_kg_m3, "more than 0")?;
    let area_m2 = std::f64::consts::FRAC_PI_4 * hole_m * hole_m;
    Ok(VEIN_SHARE * area_m2 * (2.0 * over_pa / density_kg_m3).sqrt())
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Given 0.1 bar over a hole of 0.5 mm in water: 0.6 times 0.1963 mm2 times the square root of
    /// 2 x 10000/1000, 4.47 m/s, are 0.527 ml/s. A bore of 13.6 mm under two metres, 19 613 Pa: 0.6 times
    /// 145.3 mm2 times 6.263 m/s are 0.546 l/s (Torricelli, by hand, to the figures printed).
    #[test]
    fn a_hole_leaks_by_torricelli() {
        let pinhole = jet_m3_s(0.0005, 1e4, 1000.0).unwrap();
        assert!((pinhole * 1e6 - 0.5269).abs() < 1e-3, "{pinhole}");
        let torn = jet_m3_s(0.0136, 19_613.3, 1000.0).unwrap();
        assert!((torn * 1e3 - 0.5459).abs() < 1e-3, "{torn}");
        assert_eq!(jet_m3_s(0.0005, 0.0, 1000.0), Ok(0.0));
    }

    #[test]
    fn what_cannot_be_is_said() {
        assert!(jet_m3_s(-0.001, 1e4, 1000.0).is_err());
        assert!(jet_m3_s(0.001, f64::NAN, 1000.0).is_err());
        assert!(jet_m3_s(0.001, 1e4, 0.0).is_err());
    }
}
