//! A pressure trial: what a tight loop would show after a change of temperature, and what is gone.

use super::error::CircuitError;
use super::sealed::check_water;
use crate::matter::fluid::saturation_pressure_pa;
use crate::matter::pressed::PressedWater;

/// A loop shut and under pressure.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PressureTrial {
    /// Water in it at the first reading \[m3\].
    pub water_m3: f64,
    /// Trapped air at the first reading's pressure \[m3\].
    pub air_m3: f64,
    /// Water at the mean of both readings' temperatures.
    pub water: PressedWater,
    /// Linear expansion of the pipe \[1/K\]; copper 16.8e-6.
    pub pipe_expansion_1_k: f64,
    /// What the pipe's contents grow by under pressure \[1/Pa\]; see
    /// [`pipe_compliance_1_pa`](super::sealed::pipe_compliance_1_pa).
    pub pipe_compliance_1_pa: f64,
    /// The first reading.
    pub start: Reading,
}

/// A gauge and a thermometer read together.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Reading {
    /// Absolute pressure \[Pa\]: what the gauge shows and the air's own.
    pub pressure_pa: f64,
    /// Temperature of the loop, absolute \[K\].
    pub temperature_k: f64,
}

/// Pressure that a tight loop would have at another temperature \[Pa\], absolute.
///
/// ```text
/// Vw (1 + beta dT - kappa dp) + Va (p1/p2) (T2/T1) = (Vw + Va) (1 + 3 alpha dT + c dp)
/// ```
///
/// - `trial`: the loop and its first reading.
/// - `end_k`: its temperature at the second reading, absolute \[K\].
///
/// # Valid range
/// Positive volumes (air may be 0), temperatures from 0 C, changes of some ten kelvin: the
/// constants are those of the mean. A [`CircuitError`] outside, and one where the loop would pull
/// its water to vapour: no air-free loop keeps its pressure over a cool night. Half a kelvin of
/// doubt is worth more than 1 bar in an air-free copper loop at 20 C.
///
/// # Source
/// Balance of volumes, the air an ideal gas.
///
/// # Checked
/// D-16, D-18, and D-19's tight pressure, to 1e-5 and 1e-4, with the constants they state. Those are
/// of 15 C, also where the mean is 18.5 or 22.5 C; water's expansion there is a quarter to a half
/// more, which in D-19 makes 1.3 ml of its 10.5: take the mean's own.
///
/// # Example
/// ```
/// use physics::circuit::pressure_trial::{PressureTrial, Reading, tight_pressure_pa};
/// use physics::matter::pressed::PressedWater;
/// let trial = PressureTrial {
///     water_m3: 0.010,
///     air_m3: 0.0002,
///     water: PressedWater { expansion_1_k: 1.518e-4, compressibility_1_pa: 4.667e-10 },
///     pipe_expansion_1_k: 16.8e-6,
///     pipe_compliance_1_pa: 1.47e-10,
///     start: Reading { pressure_pa: 7e5, temperature_k: 293.15 },
/// };
/// let tight_pa = tight_pressure_pa(&trial, 290.15).unwrap();
/// assert!((tight_pa - 6.83e5).abs() < 2e3);
/// ```
pub fn tight_pressure_pa(trial: &PressureTrial, end_k: f64) -> Result<f64, CircuitError> {
    check(trial, end_k)?;
    let warming_k = end_k - trial.start.temperature_k;
    let start_pa = trial.start.pressure_pa;
    let whole_m3 = trial.water_m3 + trial.air_m3;
    // The balance times p2 is a p2^2 - b p2 - c = 0 with a and c not negative: one root is positive.
    let a =
        trial.water_m3 * trial.water.compressibility_1_pa + whole_m3 * trial.pipe_compliance_1_pa;
    let b = trial.water_m3 * trial.water.expansion_1_k * warming_k
        - whole_m3 * 3.0 * trial.pipe_expansion_1_k * warming_k
        + a * start_pa
        - trial.air_m3;
    let c = trial.air_m3 * start_pa * end_k / trial.start.temperature_k;
    let root = (b * b + 4.0 * a * c).sqrt();
    // Each form keeps its figures where the others would lose them; without air the root is b/a,
    // which may be negative.
    let tight_pa = if b >= 0.0 {
        (b + root) / (2.0 * a)
    } else if c > 0.0 {
        2.0 * c / (root - b)
    } else {
        b / a
    };
    let vapour_pa = saturation_pressure_pa(end_k)?;
    let must = "over the water's vapour pressure: without air this loop pulls a vacuum";
    let what = "the pressure in Pa that a tight loop would fall to";
    CircuitError::unless(tight_pa > vapour_pa, what, tight_pa, must)
}

/// Water that has left a loop between two readings \[m3\]; negative where more is in it, or where it
/// holds more air than was said.
///
/// ```text
/// lost = Vw (1 + beta dT - kappa dp) + Va (p1/p2) (T2/T1) - (Vw + Va) (1 + 3 alpha dT + c dp)
/// ```
///
/// - `trial`: the loop and its first reading.
/// - `end`: the second reading.
///
/// # Valid range
/// As [`tight_pressure_pa`].
///
/// # Source
/// Balance of volumes, the air an ideal gas.
///
/// # Checked
/// D-19 to 1e-4.
pub fn lost_m3(trial: &PressureTrial, end: &Reading) -> Result<f64, CircuitError> {
    check(trial, end.temperature_k)?;
    let must = "more than 0";
    let good = end.pressure_pa > 0.0 && end.pressure_pa.is_finite();
    CircuitError::unless(good, "the second pressure in Pa", end.pressure_pa, must)?;
    let warming_k = end.temperature_k - trial.start.temperature_k;
    let more_pa = end.pressure_pa - trial.start.pressure_pa;
    // Changes only, so that litres do not drown the millilitres looked for.
    let water_m3 = trial.water_m3
        * (trial.water.expansion_1_k * warming_k - trial.water.compressibility_1_pa * more_pa);
    let air_m3 = trial.air_m3
        * (trial.start.pressure_pa / end.pressure_pa * end.temperature_k
            / trial.start.temperature_k
            - 1.0);
    let pipe_m3 = (trial.water_m3 + trial.air_m3)
        * (3.0 * trial.pipe_expansion_1_k * warming_k + trial.pipe_compliance_1_pa * more_pa);
    Ok(water_m3 + air_m3 - pipe_m3)
}

fn check(trial: &PressureTrial, end_k: f64) -> Result<(), CircuitError> {
    let must = "more than 0";
    let good = trial.water_m3 > 0.0 && trial.water_m3.is_finite();
    CircuitError::unless(good, "the water in m3", trial.water_m3, must)?;
    let good = trial.air_m3 >= 0.0 && trial.air_m3.is_finite();
    CircuitError::unless(good, "the trapped air in m3", trial.air_m3, "0 or more")?;
    check_water(&trial.water)?;
    let growth = trial.pipe_expansion_1_k;
    CircuitError::unless(growth.is_finite(), "the pipe's expansion in 1/K", growth, "a number")?;
    let give = trial.pipe_compliance_1_pa;
    let good = give >= 0.0 && give.is_finite();
    CircuitError::unless(good, "the pipe's compliance in 1/Pa", give, "0 or more")?;
    let start_pa = trial.start.pressure_pa;
    let good = start_pa > 0.0 && start_pa.is_finite();
    CircuitError::unless(good, "the first pressure in Pa", start_pa, must)?;
    for kelvin in [trial.start.temperature_k, end_k] {
        let good = (crate::ZERO_CELSIUS_K..=crate::ZERO_CELSIUS_K + 110.0).contains(&kelvin);
        CircuitError::unless(good, "the loop's temperature in K", kelvin, "273.15 to 383.15")?;
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn loop_with(air_m3: f64) -> PressureTrial {
        PressureTrial {
            water_m3: 0.010,
            air_m3,
            water: PressedWater { expansion_1_k: 1.5e-4, compressibility_1_pa: 4.67e-10 },
            pipe_expansion_1_k: 16.8e-6,
            pipe_compliance_1_pa: 1.47e-10,
            start: Reading { pressure_pa: 7e5, temperature_k: 293.15 },
        }
    }

    /// Laws: with nothing changed nothing is gone and the pressure stays (1e-9 of it); at the tight
    /// pressure nothing is gone, at less something is; with hardly any air the answer is that of
    /// none (1e-6 of the change for a billionth of the water).
    #[test]
    fn laws_of_a_tight_loop() {
        for air_m3 in [0.0, 2e-5, 5e-4] {
            let trial = loop_with(air_m3);
            let same_pa = tight_pressure_pa(&trial, 293.15).unwrap();
            assert!((same_pa / 7e5 - 1.0).abs() < 1e-9, "{air_m3}: {same_pa}");
            let tight_pa = tight_pressure_pa(&trial, 292.0).unwrap();
            let end = Reading { pressure_pa: tight_pa, temperature_k: 292.0 };
            assert!(lost_m3(&trial, &end).unwrap().abs() < 1e-15, "{air_m3}");
            let less = Reading { pressure_pa: 0.9 * tight_pa, ..end };
            assert!(lost_m3(&trial, &less).unwrap() > 0.0);
        }
        let none_pa = tight_pressure_pa(&loop_with(0.0), 294.15).unwrap();
        let hardly_pa = tight_pressure_pa(&loop_with(1e-11), 294.15).unwrap();
        assert!(
            (hardly_pa - none_pa).abs() < 1e-5 * (none_pa - 7e5).abs(),
            "{hardly_pa} {none_pa}"
        );
    }

    /// Given: an air-free loop ten kelvin cooler, and numbers that mean nothing. Expected: errors.
    #[test]
    fn a_vacuum_and_nonsense_are_said() {
        let error = tight_pressure_pa(&loop_with(0.0), 283.15).unwrap_err();
        assert!(error.to_string().contains("vacuum"), "{error}");
        assert!(tight_pressure_pa(&loop_with(-1.0), 292.0).is_err());
        assert!(tight_pressure_pa(&loop_with(0.0), 263.15).is_err());
        assert!(tight_pressure_pa(&loop_with(0.0), f64::NAN).is_err());
        let gone = Reading { pressure_pa: 0.0, temperature_k: 292.0 };
        assert!(lost_m3(&loop_with(0.0), &gone).is_err());
    }
}
