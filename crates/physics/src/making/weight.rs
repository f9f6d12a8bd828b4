//! What a panel weighs, and what its weight puts on a roof.

use super::error::MakingError;
use crate::GRAVITY_M_S2;

/// Mass of one square metre of a flat piece \[kg/m2\].
///
/// ```text
/// m = rho t
/// ```
///
/// - `thickness_m`: \[m\], 0 or more.
/// - `density_kg_m3`: \[kg/m3\]; copper 8940, glass 2500, plywood 600, mineral wool 40.
///
/// # Valid range
/// As stated; a [`MakingError`] outside.
///
/// # Source
/// Definition of density.
///
/// # Checked
/// E-13 (three metals) to 0.5 %.
pub fn plate_kg_m2(thickness_m: f64, density_kg_m3: f64) -> Result<f64, MakingError> {
    MakingError::not_negative("the thickness in m", thickness_m)?;
    MakingError::positive("the density in kg/m3", density_kg_m3)?;
    Ok(density_kg_m3 * thickness_m)
}

/// Weight of a mass spread over an area \[N/m2\]: a characteristic permanent load, along the slope.
///
/// ```text
/// g = m g0/A
/// ```
///
/// - `mass_kg`: the panel, filled \[kg\].
/// - `area_m2`: what it lies on, measured along the slope \[m2\].
///
/// # Valid range
/// Mass 0 or more, area more than 0; a [`MakingError`] outside. No partial factor is in it.
///
/// # Source
/// Standard gravity.
///
/// # Checked
/// F-01 (a filled panel of 2 m2, part by part) to 0.1 %.
///
/// # Example
/// ```
/// let load_n_m2 = physics::making::weight::dead_load_n_m2(60.0, 2.0).unwrap();
/// assert!((load_n_m2 - 294.2).abs() < 0.1);
/// ```
pub fn dead_load_n_m2(mass_kg: f64, area_m2: f64) -> Result<f64, MakingError> {
    MakingError::not_negative("the mass in kg", mass_kg)?;
    MakingError::positive("the area in m2", area_m2)?;
    Ok(mass_kg * GRAVITY_M_S2 / area_m2)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Given: numbers that mean nothing. Expected: errors.
    #[test]
    fn refuses_nonsense() {
        assert!(plate_kg_m2(-0.001, 8940.0).is_err());
        assert!(plate_kg_m2(0.001, 0.0).is_err());
        assert!(dead_load_n_m2(f64::NAN, 2.0).is_err());
        assert!(dead_load_n_m2(60.0, 0.0).is_err());
    }
}
