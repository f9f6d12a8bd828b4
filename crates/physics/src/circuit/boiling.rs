//! Where the fluid boils below a header tank, and how high its vent must rise.

use super::error::CircuitError;
use super::pipe::static_pa;
use crate::matter::fluid::{Fluid, boiling_k, properties};

/// Density is taken at this temperature for the column above \[K\]: a feed pipe stands cool.
const COLUMN_K: f64 = 293.15;

/// A fluid about to boil.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Boil {
    /// Absolute pressure there \[Pa\].
    pub pressure_pa: f64,
    /// Where it boils, absolute \[K\].
    pub boils_k: f64,
}

/// Where a fluid boils under an open column.
///
/// ```text
/// p = p_air(altitude) + rho g h,   y p_sat(T) = p
/// ```
///
/// - `fluid`: water or a mixture; see [`boiling_k`].
/// - `head_m`: height of the open water level over the point, 0 or more; below 0 the point lies
///   above the level and its pressure under that of the air.
/// - `altitude_m`: of the place, for the pressure of its air.
///
/// # Valid range
/// Altitudes of -500 to 11000 m, and a pressure above that of water about to freeze: a
/// [`CircuitError`] outside.
///
/// # Source
/// Hydrostatics, the standard atmosphere, and the saturation line.
///
/// # Checked
/// D-08 to 0.05 K, D-10 to 0.1 K.
///
/// # Example
/// ```
/// use physics::circuit::boiling::boil_below;
/// use physics::matter::fluid::Fluid;
/// let boil = boil_below(Fluid::Water, 2.0, 0.0).unwrap();
/// assert!((boil.boils_k - 378.15).abs() < 0.05);
/// ```
pub fn boil_below(fluid: Fluid, head_m: f64, altitude_m: f64) -> Result<Boil, CircuitError> {
    CircuitError::unless(head_m.is_finite(), "the head in m", head_m, "a number")?;
    let density_kg_m3 = properties(fluid, COLUMN_K)?.density_kg_m3;
    boil_at(fluid, atmosphere_pa(altitude_m)? + static_pa(density_kg_m3, head_m))
}

/// Where a fluid boils under an absolute pressure \[Pa\].
///
/// # Valid range
/// That of [`boiling_k`].
pub fn boil_at(fluid: Fluid, pressure_pa: f64) -> Result<Boil, CircuitError> {
    Ok(Boil { pressure_pa, boils_k: boiling_k(fluid, pressure_pa)? })
}

/// Pressure of the air at an altitude \[Pa\].
///
/// ```text
/// p = 101325 (1 - 2.25577e-5 z)^5.25588
/// ```
///
/// - `altitude_m`: above the sea \[m\].
///
/// # Valid range
/// -500 to 11000 m, where the formula's layer ends; a [`CircuitError`] outside. Weather moves it
/// by 3 %.
///
/// # Source
/// International standard atmosphere.
///
/// # Checked
/// D-10 to its 0.1.
pub fn atmosphere_pa(altitude_m: f64) -> Result<f64, CircuitError> {
    let good = (-500.0..=11_000.0).contains(&altitude_m);
    CircuitError::unless(good, "the altitude in m", altitude_m, "-500 to 11000")?;
    Ok(101_325.0 * (1.0 - 2.25577e-5 * altitude_m).powf(5.25588))
}

/// Height an open vent must rise above the header tank's water level \[m\].
///
/// ```text
/// h = 0.04 H + 0.15 + pump
/// ```
///
/// - `head_m`: H, from the circuit's lowest point to the water level \[m\].
/// - `pump_head_m`: what the pump adds where it pushes up the vent's leg \[m\]; 0 where the feed
///   joins so that it does not.
///
/// # Source
/// United Kingdom, guidance to the water regulations, G20.3.
///
/// # Valid range
/// Head and pump not negative; a [`CircuitError`] outside.
///
/// # Checked
/// D-05 and D-07 to 1e-9.
pub fn open_vent_m(head_m: f64, pump_head_m: f64) -> Result<f64, CircuitError> {
    for (what, value) in [("the head in m", head_m), ("the pump's head in m", pump_head_m)] {
        CircuitError::unless(value >= 0.0 && value.is_finite(), what, value, "0 or more")?;
    }
    Ok(0.04 * head_m + 0.15 + pump_head_m)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// U.S. Standard Atmosphere 1976, table I: 89874.6, 70108.5 and 54019.9 Pa at 1000, 3000 and
    /// 5000 m (from memory). Tolerance 0.01 %: the formula's constants are rounded.
    #[test]
    fn the_atmosphere_meets_the_table() {
        for (altitude_m, expected_pa) in [(1e3, 89874.6), (3e3, 70108.5), (5e3, 54019.9)] {
            let got_pa = atmosphere_pa(altitude_m).unwrap();
            assert!((got_pa / expected_pa - 1.0).abs() < 1e-4, "{altitude_m} m: {got_pa}");
        }
    }

    #[test]
    fn what_cannot_be_is_said() {
        assert!(atmosphere_pa(f64::NAN).is_err());
        assert!(atmosphere_pa(20e3).is_err());
        assert!(boil_below(Fluid::Water, -11.0, 0.0).is_err(), "no pressure is left up there");
        assert!(boil_below(Fluid::Water, f64::INFINITY, 0.0).is_err());
        assert!(open_vent_m(-1.0, 0.0).is_err());
    }
}
