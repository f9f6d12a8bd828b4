//! How a store left alone cools.

use super::error::StoreError;
use crate::ZERO_CELSIUS_K;
use crate::circuit::pipe::outlet_k;
use crate::matter::fluid::{Fluid, FluidError, properties};

/// A store that nobody heats or draws from, all of one temperature.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cooling {
    /// Heat it holds for each kelvin \[J/K\]; see [`water_capacity_j_k`].
    pub capacity_j_k: f64,
    /// What it loses for each kelvin over its surroundings \[W/K\]; a jacketed cistern 2 to 5.
    pub loss_w_k: f64,
    /// Where it begins, absolute \[K\].
    pub start_k: f64,
    /// Air around it, absolute \[K\].
    pub surroundings_k: f64,
}

/// Temperature of the store after a time \[K\], absolute.
///
/// ```text
/// T = Ts + (T0 - Ts) exp(-UA t/C)
/// ```
///
/// - `store`: capacity C, loss UA, start T0, surroundings Ts.
/// - `time_s`: t \[s\].
///
/// A store cooler than its surroundings warms by the same law. A layered store loses a little
/// more, for its warm layers lie where the lid is.
///
/// # Valid range
/// Capacity more than 0; loss and time 0 or more; a [`StoreError`] outside, and one that it has
/// frozen where it would fall below 0 C. No vapour leaves: an ill-fitting lid costs more.
///
/// # Source
/// Newton's law of cooling, exact for one even temperature.
///
/// # Checked
/// ST-04 to 0.005 K.
///
/// # Example
/// ```
/// use physics::store::cooling::{Cooling, cooled_k, water_capacity_j_k};
/// let cistern = Cooling {
///     capacity_j_k: water_capacity_j_k(0.2, 333.15).unwrap(),
///     loss_w_k: 2.0,
///     start_k: 333.15,
///     surroundings_k: 283.15,
/// };
/// assert!((cooled_k(&cistern, 24.0 * 3600.0).unwrap() - 323.7).abs() < 0.1);
/// ```
pub fn cooled_k(store: &Cooling, time_s: f64) -> Result<f64, StoreError> {
    let good = store.capacity_j_k > 0.0 && store.capacity_j_k.is_finite();
    StoreError::unless(good, "the store's capacity in J/K", store.capacity_j_k, "more than 0")?;
    let good = store.loss_w_k >= 0.0 && store.loss_w_k.is_finite();
    StoreError::unless(good, "the store's loss in W/K", store.loss_w_k, "0 or more")?;
    let good = time_s >= 0.0 && time_s.is_finite();
    StoreError::unless(good, "the time in s", time_s, "0 or more")?;
    for (what, kelvin) in [
        ("the store's temperature in K", store.start_k),
        ("the surroundings' temperature in K", store.surroundings_k),
    ] {
        StoreError::unless(kelvin > 0.0 && kelvin.is_finite(), what, kelvin, "more than 0")?;
    }
    let gone = store.loss_w_k * time_s / store.capacity_j_k;
    let temperature_k = outlet_k(store.start_k, store.surroundings_k, gone);
    if temperature_k < ZERO_CELSIUS_K {
        return Err(FluidError::Frozen { temperature_k, freezing_k: ZERO_CELSIUS_K }.into());
    }
    Ok(temperature_k)
}

/// Heat that a store of water takes up for one kelvin \[J/K\].
///
/// ```text
/// C = V rho cp
/// ```
///
/// - `volume_m3`: as it stands at `water_k` \[m3\], 0 or more.
/// - `water_k`: absolute \[K\]. From 10 to 90 C the heat capacity of what is in there moves by 1 %.
///
/// # Valid range
/// 0 to 110 C; a [`StoreError`] outside.
///
/// # Checked
/// The steam tables' 4.19 kJ/(kg K) and 988.0 kg/m3 at 50 C (from memory), to 0.3 %.
pub fn water_capacity_j_k(volume_m3: f64, water_k: f64) -> Result<f64, StoreError> {
    let good = volume_m3 >= 0.0 && volume_m3.is_finite();
    StoreError::unless(good, "the store's volume in m3", volume_m3, "0 or more")?;
    Ok(volume_m3 * properties(Fluid::Water, water_k)?.volume_heat_j_m3_k())
}

#[cfg(test)]
mod tests {
    use super::*;

    const JACKETED: Cooling =
        Cooling { capacity_j_k: 836e3, loss_w_k: 2.0, start_k: 333.15, surroundings_k: 283.15 };

    /// Steam tables at 50 C (from memory): 988.0 kg/m3, 4.18 kJ/(kg K), printed to three figures.
    #[test]
    fn water_holds_what_the_tables_say() {
        let got_j_k = water_capacity_j_k(0.2, 323.15).unwrap();
        assert!((got_j_k / (0.2 * 988.0 * 4180.0) - 1.0).abs() < 3e-3, "{got_j_k}");
        assert!(water_capacity_j_k(0.2, 260.0).is_err());
        assert!(water_capacity_j_k(-0.2, 300.0).is_err());
    }

    /// Laws: two hours are an hour twice; a cool store warms; no loss, no change.
    #[test]
    fn time_adds_up() {
        let after_k = cooled_k(&JACKETED, 7200.0).unwrap();
        let half_k = cooled_k(&JACKETED, 3600.0).unwrap();
        let again_k = cooled_k(&Cooling { start_k: half_k, ..JACKETED }, 3600.0).unwrap();
        assert!((after_k - again_k).abs() < 1e-9);
        let cool = Cooling { start_k: 278.15, ..JACKETED };
        let warmed_k = cooled_k(&cool, 86400.0).unwrap();
        assert!(warmed_k > 278.15 && warmed_k < 283.15);
        assert_eq!(cooled_k(&Cooling { loss_w_k: 0.0, ..JACKETED }, 1e9), Ok(333.15));
    }

    /// Given: frost, and nonsense. Expected: errors that say so.
    #[test]
    fn frost_and_nonsense() {
        let frost = Cooling { surroundings_k: 263.15, start_k: 278.15, ..JACKETED };
        let error = cooled_k(&frost, 30.0 * 86400.0).unwrap_err();
        assert!(matches!(error, StoreError::Fluid(FluidError::Frozen { .. })), "{error}");
        assert!(cooled_k(&Cooling { capacity_j_k: 0.0, ..JACKETED }, 1.0).is_err());
        assert!(cooled_k(&Cooling { start_k: f64::NAN, ..JACKETED }, 1.0).is_err());
        assert!(cooled_k(&JACKETED, -1.0).is_err());
    }
}
