//! Hot and cold water at a mixing valve.

use super::error::TapError;

/// What runs into a mixing valve, and what is to come out of it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Mixing {
    /// Hot water, absolute \[K\].
    pub hot_k: f64,
    /// Cold water, absolute \[K\]. Behind a warmed cistern it may be warm itself.
    pub cold_k: f64,
    /// What is wanted, absolute \[K\]; a bath about 317, a shower 314.
    pub wanted_k: f64,
}

/// Share of the mixed water that is hot water, by mass: 0 to 1.
///
/// ```text
/// s = (Tw - Tc)/(Th - Tc)
/// ```
///
/// # Valid range
/// Hot above cold, wanted between them; a [`TapError`] outside, which a store too cool, or cold
/// water too warm, will meet. Heat capacity is taken as even, which is 0.1 % of the share off
/// between 10 and 60 C.
///
/// # Source
/// Balance of heat; the test codes for heat-pump water heaters turn drawn water into water of 40 C
/// by the same rule (EN 16147, from memory).
///
/// # Checked
/// Enthalpies of a steam table, to 0.2 % of the share.
///
/// # Example
/// ```
/// use physics::tap::mix::{Mixing, hot_share};
/// let share = hot_share(&Mixing { hot_k: 333.15, cold_k: 283.15, wanted_k: 313.15 }).unwrap();
/// assert!((share - 0.6).abs() < 1e-12);
/// ```
pub fn hot_share(mixing: &Mixing) -> Result<f64, TapError> {
    let Mixing { hot_k, cold_k, wanted_k } = *mixing;
    let what = "hot water over cold in K";
    let difference_k = hot_k - cold_k;
    let good = difference_k > 0.0 && difference_k.is_finite();
    TapError::unless(good, what, difference_k, "more than 0")?;
    let what = "the wanted temperature in K";
    let good = wanted_k >= cold_k && wanted_k <= hot_k;
    TapError::unless(good, what, wanted_k, "between cold and hot")?;
    Ok((wanted_k - cold_k) / difference_k)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::ZERO_CELSIUS_K;

    fn share(hot_c: f64, cold_c: f64, wanted_c: f64) -> Result<f64, TapError> {
        let [hot_k, cold_k, wanted_k] = [hot_c, cold_c, wanted_c].map(|c| c + ZERO_CELSIUS_K);
        hot_share(&Mixing { hot_k, cold_k, wanted_k })
    }

    /// Enthalpy of saturated water at 10, 40, 41, 60 and 80 C: 42.02, 167.53, 171.71, 251.18 and
    /// 335.01 kJ/kg (steam tables, from memory). Heat is kept exactly in them: 0.2 %, for the heat
    /// capacity that we take as even.
    #[test]
    fn as_a_steam_table_mixes() {
        for ((hot_c, hot), (cold_c, cold), (wanted_c, wanted)) in [
            ((60.0, 251.18), (10.0, 42.02), (40.0, 167.53)),
            ((80.0, 335.01), (10.0, 42.02), (41.0, 171.71)),
            ((80.0, 335.01), (40.0, 167.53), (60.0, 251.18)),
        ] {
            let expected = (wanted - cold) / (hot - cold);
            let got = share(hot_c, cold_c, wanted_c).unwrap();
            assert!((got / expected - 1.0).abs() < 2e-3, "{hot_c}/{cold_c}: {got} {expected}");
        }
    }

    /// Given: ends, and what no valve can give. Expected: all cold, all hot, errors.
    #[test]
    fn the_ends_and_what_cannot_be() {
        assert_eq!(share(60.0, 10.0, 10.0), Ok(0.0));
        assert_eq!(share(60.0, 10.0, 60.0), Ok(1.0));
        assert!(share(35.0, 10.0, 41.0).is_err(), "the store is too cool");
        assert!(share(60.0, 45.0, 41.0).is_err(), "the cold is too warm");
        assert!(share(10.0, 10.0, 10.0).is_err());
        assert!(share(60.0, 10.0, f64::NAN).is_err());
    }
}
