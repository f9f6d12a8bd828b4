//! Water under pressure: how much it grows with warmth and gives way to force.

use super::fluid::{FluidError, saturation_pressure_pa, water_expansion_1_k};
use crate::ZERO_CELSIUS_K;

/// What a shut vessel asks of its water.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PressedWater {
    /// Growth of the volume at constant pressure, relative \[1/K\].
    pub expansion_1_k: f64,
    /// Loss of the volume at constant temperature, relative \[1/Pa\].
    pub compressibility_1_pa: f64,
}

/// Expansion and compressibility of liquid water at a temperature and pressure.
///
/// ```text
/// kappa = kappa0/(1 + 6 kappa0 (p - 1 atm)),   beta = beta0 - (d kappa0/d t)(p - 1 atm)
/// ```
///
/// kappa0 and beta0 are those at 1 atm, both by Kell 1975; the second line is Maxwell's relation.
///
/// - `temperature_k`: absolute \[K\].
/// - `pressure_pa`: absolute \[Pa\]; a trial 4e5 to 1e6.
///
/// # Valid range
/// 0 to 110 C, from the pressure at which water boils to 50 bar; a [`FluidError`] outside.
///
/// # Source
/// Kell, J. Chem. Eng. Data 20 (1975) 97 (compressibility's coefficients from memory); the 6 is
/// the growth of water's stiffness with pressure (Murnaghan's form, from memory).
///
/// # Checked
/// CoolProp 8.0.0 (IAPWS-95) from 1 to 105 C and 1 to 30 bar: compressibility to 0.2 %, expansion to
/// 0.1 % and 2.5e-7 1/K. D-13's two figures at 20 C, for the 6 bar its referee takes, to 0.1 %.
///
/// # Example
/// ```
/// let water = physics::matter::pressed::pressed_water(293.15, 6e5).unwrap();
/// assert!((water.compressibility_1_pa - 4.58e-10).abs() < 1e-12);
/// ```
pub fn pressed_water(temperature_k: f64, pressure_pa: f64) -> Result<PressedWater, FluidError> {
    const ONE_ATM_PA: f64 = 101_325.0;
    const HIGHEST_PA: f64 = 5e6;
    const STIFFENING: f64 = 6.0;
    let expansion_1_k = water_expansion_1_k(temperature_k)?;
    let lowest_pa = saturation_pressure_pa(temperature_k)?;
    if !(lowest_pa..=HIGHEST_PA).contains(&pressure_pa) {
        return Err(FluidError::NotLiquid { pressure_pa, lowest_pa, highest_pa: HIGHEST_PA });
    }
    let (at_one_1_pa, slope_1_pa_k) = compressibility_kell_1975(temperature_k - ZERO_CELSIUS_K);
    let more_pa = pressure_pa - ONE_ATM_PA;
    Ok(PressedWater {
        expansion_1_k: expansion_1_k - slope_1_pa_k * more_pa,
        compressibility_1_pa: at_one_1_pa / (1.0 + STIFFENING * at_one_1_pa * more_pa),
    })
}

/// Compressibility at 1 atm [1/Pa] and its slope with temperature [1/(Pa K)], at t in C:
/// kappa = 1e-11 (c0 + c1 t + .. + c5 t^5)/(1 + d t).
fn compressibility_kell_1975(t: f64) -> (f64, f64) {
    const OVER: [f64; 6] =
        [50.88496, 0.6163813, 1.459187e-3, 20.08438e-6, -58.47727e-9, 410.4110e-12];
    const UNDER: f64 = 19.67348e-3;
    let (mut over, mut slope) = (0.0, 0.0);
    for c in OVER.iter().rev() {
        slope = slope * t + over;
        over = over * t + c;
    }
    let under = 1.0 + UNDER * t;
    (1e-11 * over / under, 1e-11 * (slope - UNDER * over / under) / under)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Given: liquid water. Expected: CoolProp 8.0.0 (IAPWS-95): C, Pa, expansion 1/K,
    /// compressibility 1/Pa. Tolerance: compressibility 0.2 %, since one stiffening stands for all
    /// temperatures; expansion 0.1 % and 2.5e-7 1/K, the error of a slope of Kell's density.
    #[test]
    fn agrees_with_a_reference_equation() {
        let table = [
            (1.0, 1.5e5, -4.96848e-5, 5.05018e-10),
            (1.0, 3.0e6, -3.93157e-5, 5.00978e-10),
            (20.0, 1.5e5, 2.06878e-4, 4.58855e-10),
            (20.0, 6.0e5, 2.07542e-4, 4.58323e-10),
            (20.0, 3.0e6, 2.11062e-4, 4.55503e-10),
            (45.0, 6.0e5, 4.22669e-4, 4.40942e-10),
            (70.0, 1.5e5, 5.83915e-4, 4.51601e-10),
            (70.0, 3.0e6, 5.81588e-4, 4.47888e-10),
            (105.0, 1.5e5, 7.77316e-4, 4.99229e-10),
            (105.0, 3.0e6, 7.71982e-4, 4.94276e-10),
        ];
        for (celsius, pressure_pa, expansion_1_k, compressibility_1_pa) in table {
            let got = pressed_water(celsius + ZERO_CELSIUS_K, pressure_pa).unwrap();
            let off_1_k: f64 = got.expansion_1_k - expansion_1_k;
            assert!(off_1_k.abs() < 1e-3 * expansion_1_k.abs() + 2.5e-7, "{celsius} C: {got:?}");
            let ratio = got.compressibility_1_pa / compressibility_1_pa;
            assert!((ratio - 1.0).abs() < 2e-3, "{celsius} C: {got:?}");
        }
    }

    /// The analytic slope against a central difference over 0.02 K.
    #[test]
    fn the_slope_is_the_slope() {
        for t in [0.5, 20.0, 46.0, 100.0] {
            let (below, above) =
                (compressibility_kell_1975(t - 0.01).0, compressibility_kell_1975(t + 0.01).0);
            let expected = (above - below) / 0.02;
            let got = compressibility_kell_1975(t).1;
            assert!((got - expected).abs() < 1e-17, "{t}: {got} against {expected}");
        }
    }

    /// Given: water that boils, presses too hard, or freezes. Expected: errors with the limits.
    #[test]
    fn what_is_no_liquid_is_said() {
        let boils = pressed_water(373.15, 90_000.0);
        assert!(
            matches!(boils, Err(FluidError::NotLiquid { lowest_pa, .. })
            if (lowest_pa / 101_418.0 - 1.0).abs() < 1e-3),
            "{boils:?}"
        );
        assert!(pressed_water(293.15, 6e6).is_err());
        assert!(pressed_water(272.0, 1e5).is_err());
        assert!(pressed_water(293.15, f64::NAN).is_err());
    }
}
