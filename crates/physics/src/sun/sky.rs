//! How cold the sky is: what a panel's cover and a roof radiate to.

use super::error::{Range, SunError};
use super::parts::SkyTemperature;
use crate::{STEFAN_BOLTZMANN_W_M2_K4, ZERO_CELSIUS_K};

/// What the sky's temperature can be reckoned from.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SkyAir {
    /// Air temperature \[K\].
    pub air_k: f64,
    /// Dew point \[K\].
    pub dew_point_k: f64,
    /// Hours since the sun's midnight \[h\], 0 to 24.
    pub after_midnight_h: f64,
    /// How clouded the sky is, 0 to 1; see [`cloud_crawford_duchon_1999`].
    pub cloud: f64,
    /// Infrared from the sky on the horizontal \[W/m2\], where the weather file has it.
    pub infrared_w_m2: Option<f64>,
}

/// The temperature of a black sky that would radiate as the real one does \[K\].
///
/// * `source`: the file's infrared (falls to Berdahl and Martin where there is none), Berdahl and
///   Martin 1984 with cloud, or Swinbank 1963.
/// * `sky`: air, dew point, hour, cloud, infrared.
///
/// Returns kelvin; usually 5 to 25 K under the air, under a low cloud close to it.
///
/// # Valid range
/// Air 200 to 340 K, dew point 200 to 320 K, cloud 0 to 1, infrared 50 to 700 W/m2; outside, an error.
/// # Source
/// Front door for [`sky_from_infrared`], [`sky_berdahl_martin_1984`] and [`sky_swinbank_1963`].
/// # Checked
/// See those.
pub fn sky_temperature(source: SkyTemperature, sky: &SkyAir) -> Result<f64, SunError> {
    match (source, sky.infrared_w_m2) {
        (SkyTemperature::FromFile, Some(infrared_w_m2)) => sky_from_infrared(infrared_w_m2),
        (SkyTemperature::FromFile, None) | (SkyTemperature::BerdahlMartin1984, _) => {
            sky_berdahl_martin_1984(sky)
        }
        (SkyTemperature::Swinbank1963, _) => sky_swinbank_1963(sky.air_k),
    }
}

const AIR: Range = Range { quantity: "air temperature [K]", lowest: 200.0, highest: 340.0 };
const DEW_POINT: Range = Range { quantity: "dew point [K]", lowest: 200.0, highest: 320.0 };
const INFRARED: Range = Range { quantity: "sky infrared [W/m2]", lowest: 50.0, highest: 700.0 };
const CLOUD: Range = Range { quantity: "cloud share", lowest: 0.0, highest: 1.0 };
const HOUR: Range = Range { quantity: "hours after midnight [h]", lowest: 0.0, highest: 24.0 };

/// Sky temperature from the infrared that arrives \[K\].
///
/// `Ts = (IR/sigma)^(1/4)`.
///
/// * `infrared_w_m2`: on the horizontal \[W/m2\]; 200 on a clear winter night, 400 on a dull warm one.
///
/// # Valid range
/// 50 to 700 W/m2; outside, an error.
/// # Source
/// Stefan and Boltzmann's law.
/// # Checked
/// A black body of 20 C radiates 418.7 W/m2 (handbook tables of black-body emission): within 0.1 K.
pub fn sky_from_infrared(infrared_w_m2: f64) -> Result<f64, SunError> {
    Ok((INFRARED.check(infrared_w_m2)? / STEFAN_BOLTZMANN_W_M2_K4).sqrt().sqrt())
}

/// Emissivity of the sky from dew point, hour and cloud.
///
/// Clear: `e0 = 0.711 + 0.56 (Td/100) + 0.73 (Td/100)^2 + 0.013 cos(15 t)`, Td in C, t in hours
/// after midnight. Clouded: `e = e0 + (1 - e0) n`, `n` from
/// [`cloud_crawford_duchon_1999`].
///
/// * `sky`: dew point, hour and cloud are used.
///
/// Returns 0.6 to 1.
///
/// # Valid range
/// The source's clear-sky fit spans dew points of -20 to 30 C; outside, it is extended, and the
/// result is held to 0.5 to 1.
/// # Source
/// Berdahl and Martin 1984, Solar Energy 32:663 (as in Duffie and Beckman eq. 3.9.2; from memory);
/// cloud term: Crawford and Duchon 1999, J. Appl. Meteorol. 38:474, eq. 20 (from memory), whose cloud is
/// reckoned from sunlight, which every weather file carries, and not from an observer's eye.
/// # Checked
/// Against the sky infrared of weather files, in the tests of the weather readers: the year's mean sky
/// within 2.5 K of four reanalysis years, 5 K under a station year's model at 1829 m.
pub fn sky_emissivity_berdahl_martin_1984(sky: &SkyAir) -> Result<f64, SunError> {
    let dew = (DEW_POINT.check(sky.dew_point_k)? - ZERO_CELSIUS_K) / 100.0;
    let turn = HOUR.check(sky.after_midnight_h)? * std::f64::consts::TAU / 24.0;
    let clear = 0.711 + dew * (0.56 + 0.73 * dew) + 0.013 * turn.cos();
    Ok((clear + (1.0 - clear) * CLOUD.check(sky.cloud)?).clamp(0.5, 1.0))
}

/// Sky temperature from air, dew point, hour and cloud \[K\].
///
/// `Ts = Ta e^(1/4)`.
///
/// * `sky`: see [`SkyAir`]; infrared is not used.
///
/// # Valid range
/// As [`sky_emissivity_berdahl_martin_1984`]; air 200 to 340 K, outside an error.
/// # Source
/// Berdahl and Martin 1984, Solar Energy 32:663.
/// # Checked
/// See [`sky_emissivity_berdahl_martin_1984`].
pub fn sky_berdahl_martin_1984(sky: &SkyAir) -> Result<f64, SunError> {
    let air_k = AIR.check(sky.air_k)?;
    Ok(air_k * sky_emissivity_berdahl_martin_1984(sky)?.sqrt().sqrt())
}

/// Clear-sky temperature from the air alone \[K\].
///
/// `Ts = 0.0552 Ta^1.5`.
///
/// * `air_k`: air temperature \[K\].
///
/// # Valid range
/// Clear sky; air 200 to 340 K, outside an error.
/// # Source
/// Swinbank 1963, Q. J. R. Meteorol. Soc. 89:339.
/// # Checked
/// Case NC-05: within 0.05 K.
pub fn sky_swinbank_1963(air_k: f64) -> Result<f64, SunError> {
    Ok(0.0552 * AIR.check(air_k)?.powf(1.5))
}

/// How clouded a day's sky is, from the light it lets through.
///
/// `n = 1 - G/Gclear`, the clear day's light `Gclear = (0.75 + 2e-5 z) G0`.
///
/// * `day_clearness`: a day's global irradiation over that above the air, 0 to 0.8.
/// * `elevation_m`: height above the sea \[m\], usually 0 to 2000.
///
/// Returns 0 (clear) to 1.
///
/// # Valid range
/// Elevation -500 to 6000 m, clearness 0 to 2; outside, an error. Without sun (polar night) there is no
/// clearness: the caller must take a cloud of its own.
/// # Source
/// Crawford and Duchon 1999, J. Appl. Meteorol. 38:474, eq. 19; clear day: FAO Irrigation and Drainage
/// Paper 56 (1998), eq. 37 (both from memory).
/// # Checked
/// See [`sky_emissivity_berdahl_martin_1984`].
pub fn cloud_crawford_duchon_1999(day_clearness: f64, elevation_m: f64) -> Result<f64, SunError> {
    const CLEARNESS: Range = Range { quantity: "day's clearness", lowest: 0.0, highest: 2.0 };
    const ELEVATION: Range = Range { quantity: "elevation [m]", lowest: -500.0, highest: 6_000.0 };
    let clear = 0.75 + 2e-5 * ELEVATION.check(elevation_m)?;
    Ok((1.0 - CLEARNESS.check(day_clearness)? / clear).clamp(0.0, 1.0))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Given 418.7 W/m2: a black body of 20 C (handbook tables of black-body emission, four figures).
    #[test]
    fn infrared_of_a_black_body_gives_its_temperature() {
        let sky_k = sky_from_infrared(418.7).expect("in range");
        assert!((sky_k - 293.15).abs() < 0.02, "{sky_k}");
    }

    /// A clear day by FAO paper 56 (clearness 0.75 at the sea, 0.79 at 2000 m) has no cloud, a day
    /// without light is covered.
    #[test]
    fn cloud_runs_from_a_clear_to_a_covered_day() {
        let cloud = |clearness, elevation_m| {
            cloud_crawford_duchon_1999(clearness, elevation_m).expect("in range")
        };
        assert_eq!((cloud(0.75, 0.0), cloud(0.79, 2_000.0), cloud(0.0, 0.0)), (0.0, 0.0, 1.0));
        assert!(cloud_crawford_duchon_1999(f64::NAN, 0.0).is_err());
    }

    /// Without infrared the file's own sky falls to Berdahl and Martin; with it, to the file.
    #[test]
    fn the_front_door_falls_to_berdahl_and_martin() {
        let mut sky = SkyAir {
            air_k: 288.15,
            dew_point_k: 281.15,
            after_midnight_h: 0.0,
            cloud: 0.0,
            infrared_w_m2: None,
        };
        let without = sky_temperature(SkyTemperature::FromFile, &sky).expect("in range");
        assert_eq!(without, sky_berdahl_martin_1984(&sky).expect("in range"));
        sky.infrared_w_m2 = Some(418.7);
        assert!(sky_temperature(SkyTemperature::FromFile, &sky).expect("in range") > without);
    }
}
