//! From a measured dry plate to the standard's stagnation temperature.

use super::error::{PanelError, TEMPERATURES_K, within};
use super::stagnation::{STANDARD_AIR_K, STANDARD_SUN_W_M2};

/// A dry panel left in steady sun, as it was measured.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DryTest {
    /// The plate's hottest place, absolute \[K\].
    pub plate_k: f64,
    /// Air in the shade, absolute \[K\].
    pub ambient_k: f64,
    /// Sunlight on the panel's plane \[W/m2\].
    pub irradiance_w_m2: f64,
}

/// Temperature that the plate would take in 1000 W/m2 and air of 30 C \[K\], absolute.
///
/// ```text
/// T = 30 C + (1000 W/m2/G) (Tp - Ta)
/// ```
///
/// - `test`: plate, air, sunlight after an hour's steady sun without wind.
///
/// # Valid range
/// Sunlight of 500 to 1400 W/m2, plate over air; a [`PanelError`] outside. The standard asks for
/// sunlight within a tenth of 1000: losses grow faster than the plate's excess, so that weaker sun
/// and colder air make the answer too hot (12 K from 700 W/m2 and 20 C), much stronger sun too cool
/// (8 K from 1400).
///
/// # Source
/// ISO 9806:2017, standard stagnation temperature (form from memory).
///
/// # Checked
/// The plate's own balance, [`idle_sheet_k`](super::stagnation::idle_sheet_k), for black and
/// selective plates in air of 20 C: from 900 to 1100 W/m2 the rule is 0 to 6.2 K too hot.
///
/// # Example
/// ```
/// use physics::panel::dry_heat::{DryTest, dry_heat_k};
/// let test = DryTest { plate_k: 383.15, ambient_k: 293.15, irradiance_w_m2: 900.0 };
/// assert!((dry_heat_k(&test).unwrap() - 403.15).abs() < 1e-9);
/// ```
pub fn dry_heat_k(test: &DryTest) -> Result<f64, PanelError> {
    let plate_k = within("plate [K]", test.plate_k, TEMPERATURES_K)?;
    let ambient_k = within("air [K]", test.ambient_k, TEMPERATURES_K)?;
    let excess_k = within("plate over air [K]", plate_k - ambient_k, 0.0..=500.0)?;
    let sun_w_m2 = within("sunlight [W/m2]", test.irradiance_w_m2, 500.0..=1400.0)?;
    Ok(STANDARD_AIR_K + STANDARD_SUN_W_M2 / sun_w_m2 * excess_k)
}

#[cfg(test)]
mod tests {
    use super::super::glazing::{Glazing, Outdoors};
    use super::super::stagnation::{LightKept, idle_sheet_k};
    use super::*;
    use crate::Angle;

    /// A single-glazed plate in sun and air, its balance solved.
    fn solved_k(sun_w_m2: f64, ambient_k: f64, plate_emittance: f64) -> f64 {
        let tilt = Angle::from_degrees(45.0);
        let glazing = Glazing::of(&[super::super::samples::glass()], plate_emittance, tilt);
        let around = Outdoors { ambient_k, sky_k: ambient_k - 10.0, wind_film_w_m2_k: 7.0 };
        let light = LightKept { sheet_w_m2: 0.84 * sun_w_m2, covers_w_m2: vec![] };
        idle_sheet_k(&glazing.unwrap(), &around, &light, |_| Ok(1.0)).unwrap()
    }

    fn off_k(sun_w_m2: f64, plate_emittance: f64) -> f64 {
        let (ambient_k, standard_k) = (293.15, solved_k(1000.0, 303.15, plate_emittance));
        let plate_k = solved_k(sun_w_m2, ambient_k, plate_emittance);
        dry_heat_k(&DryTest { plate_k, ambient_k, irradiance_w_m2: sun_w_m2 }).unwrap() - standard_k
    }

    /// From the standard's window of sunlight and air of 20 C. The rule takes the loss as straight;
    /// the plate's own balance says how far that leads: hot by up to a sixteenth of the excess of
    /// 102 to 164 K, of which the ten kelvin of colder air make half. Further off in weaker sun.
    #[test]
    fn a_little_hot_in_the_standard_s_window() {
        for plate_emittance in [0.95, 0.10] {
            let excess_k = solved_k(1000.0, 303.15, plate_emittance) - 303.15;
            for sun_w_m2 in [900.0, 1000.0, 1100.0] {
                let off_k = off_k(sun_w_m2, plate_emittance);
                let most_k = excess_k / 16.0;
                assert!((0.0..most_k).contains(&off_k), "{plate_emittance}, {sun_w_m2}: {off_k}");
            }
            assert!(off_k(700.0, plate_emittance) > off_k(900.0, plate_emittance));
            assert!(off_k(1400.0, plate_emittance) < 0.0);
        }
    }

    /// Given: a standard day. Expected: what was measured (exact). And nonsense: errors.
    #[test]
    fn a_standard_day_and_nonsense() {
        let day = DryTest { plate_k: 400.0, ambient_k: 303.15, irradiance_w_m2: 1000.0 };
        assert!((dry_heat_k(&day).unwrap() - 400.0).abs() < 1e-12);
        assert!(dry_heat_k(&DryTest { irradiance_w_m2: 300.0, ..day }).is_err());
        assert!(dry_heat_k(&DryTest { plate_k: 290.0, ..day }).is_err());
        assert!(dry_heat_k(&DryTest { ambient_k: f64::NAN, ..day }).is_err());
    }
}
