//! Dew point from humidity.

use super::error::{Range, SunError};
use crate::ZERO_CELSIUS_K;

/// Dew point from air temperature and relative humidity \[K\].
///
/// `g = ln(RH) + 17.625 t/(243.04 + t)`, `Td = 243.04 g/(17.625 - g)`, both in C.
///
/// * `air_k`: air temperature \[K\].
/// * `relative_humidity`: share of saturation over water, 0 to 1.
///
/// Returns the dew point over water, not above the air temperature.
///
/// # Valid range
/// Air 203 to 343 K, humidity 0 to 1; outside, an error. Air drier than 1 % is taken as 1 %: the dew
/// point of perfectly dry air does not exist.
/// # Source
/// Magnus form with the coefficients of Alduchov and Eskridge 1996, J. Appl. Meteorol. 35:601, eq. 21
/// (from memory); they state 0.4 % in vapour pressure from -40 to 50 C.
/// # Checked
/// Psychrometric chart at sea level (handbook figures): within 0.1 K; dew points of a weather file
/// that carries both, in the tests of the weather readers.
pub fn dew_point_alduchov_1996(air_k: f64, relative_humidity: f64) -> Result<f64, SunError> {
    const AIR: Range = Range { quantity: "air temperature [K]", lowest: 203.0, highest: 343.0 };
    const HUMIDITY: Range = Range { quantity: "relative humidity", lowest: 0.0, highest: 1.0 };
    let air_c = AIR.check(air_k)? - ZERO_CELSIUS_K;
    let share = HUMIDITY.check(relative_humidity)?.max(0.01);
    let g = share.ln() + 17.625 * air_c / (243.04 + air_c);
    Ok(ZERO_CELSIUS_K + 243.04 * g / (17.625 - g))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Given points of the psychrometric chart at sea level (handbook figures, from memory, printed
    /// to 0.1 K): 20 C at 50 % has 9.3 C, 25 C at 60 % has 16.7 C, 30 C at 80 % has 26.2 C.
    #[test]
    fn dew_points_are_those_of_the_chart() {
        for (air_c, share, dew_c) in [(20.0, 0.5, 9.3), (25.0, 0.6, 16.7), (30.0, 0.8, 26.2)] {
            let dew_k = dew_point_alduchov_1996(air_c + ZERO_CELSIUS_K, share).expect("in range");
            assert!((dew_k - ZERO_CELSIUS_K - dew_c).abs() < 0.1, "{air_c} C: {dew_k}");
        }
    }

    /// Saturated air is at its dew point: definition.
    #[test]
    fn saturated_air_is_at_its_dew_point() {
        let dew_k = dew_point_alduchov_1996(278.0, 1.0).expect("in range");
        assert!((dew_k - 278.0).abs() < 1e-9);
    }
}
