//! How cold the cold water is through the year.

use std::f64::consts::TAU;

use super::error::TapError;
use super::parts::Mains;
use crate::ZERO_CELSIUS_K;
use crate::climate::{Climate, MONTH_STARTS_DAY, monthly_means};

/// Temperature of the mains on a day of the year \[K\], absolute.
///
/// - `mains`: monthly means joined by straight lines through mid-months, a sinusoid, or
///   [`mains_burch_christensen_2007`].
/// - `day`: days since 1 January 0:00, broken days too; other years' days are brought back.
/// - `air`: the place's air; used only where the mains follow it.
///
/// Straight lines through mid-months make the warmest month a little colder than its mean and the
/// coldest a little warmer, 0.3 K and less in a temperate place.
///
/// # Valid range
/// Finite numbers; a [`TapError`] outside. Never below 0 C: mains lie below the frost.
///
/// # Checked
/// Against the tables and figures that [`mains_burch_christensen_2007`] names, and by law:
/// monthly mains meet each mean in mid-month.
///
/// # Example
/// ```
/// use physics::tap::Mains;
/// use physics::tap::mains::{AirYear, mains_k};
/// let air = AirYear { mean_k: 284.2, monthly_range_k: 12.8, latitude: physics::Angle::from_degrees(51.6) };
/// let february_k = mains_k(&Mains::FromClimate, 46.0, &air).unwrap();
/// let august_k = mains_k(&Mains::FromClimate, 227.0, &air).unwrap();
/// assert!(august_k - february_k > 5.0);
/// ```
pub fn mains_k(mains: &Mains, day: f64, air: &AirYear) -> Result<f64, TapError> {
    TapError::unless(day.is_finite(), "the day of the year", day, "a number")?;
    let day = day.rem_euclid(365.0);
    let water_k = match mains {
        Mains::Monthly(means_k) => through_mid_months(means_k, day),
        Mains::Sinusoid { mean_k, swing_k, coldest_day } => {
            mean_k - swing_k * (TAU * (day - coldest_day) / 365.0).cos()
        }
        Mains::FromClimate => mains_burch_christensen_2007(day, air),
    };
    let what = "the mains temperature in K";
    TapError::unless(water_k.is_finite(), what, water_k, "a number")?;
    Ok(water_k.max(ZERO_CELSIUS_K))
}

/// What a year of air says about the mains.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct AirYear {
    /// Mean of the year, absolute \[K\].
    pub mean_k: f64,
    /// Warmest month's mean less the coldest's \[K\].
    pub monthly_range_k: f64,
    /// Latitude, north positive.
    pub latitude: crate::Angle,
}

impl AirYear {
    /// From a year of weather. An empty column gives no numbers, which [`mains_k`] refuses.
    pub fn of(climate: &Climate) -> AirYear {
        let means = monthly_means(&climate.air_k);
        let warmest = means.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        let coldest = means.iter().copied().fold(f64::INFINITY, f64::min);
        AirYear {
            mean_k: climate.air_k.iter().sum::<f64>() / climate.air_k.len() as f64,
            monthly_range_k: warmest - coldest,
            latitude: climate.latitude,
        }
    }
}

/// Burch and Christensen's mains temperature from the air's year \[K\].
///
/// ```text
/// Tm = (Ta + 6) + R (dT/2) sin(0.986 (n - 15 - lag) - 90)        degrees and Fahrenheit
/// R = 0.4 + 0.01 (Ta - 44),   lag = 35 - (Ta - 44)
/// ```
///
/// South of the equator + 90 in place of - 90.
///
/// - `day`: days since 1 January 0:00; the source's n is 1 at noon of 1 January.
/// - `air`: mean Ta, range of monthly means dT, hemisphere.
///
/// # Valid range
/// Made for towns of the United States. It follows the air: in a mild winter it is warmer than
/// measured mains of the United Kingdom by 3 K.
///
/// # Source
/// Burch and Christensen, Towards development of an algorithm for mains water temperature, 2007;
/// seen in a public building model.
///
/// # Checked
/// Twelve figures for the Thames valley's air, computed apart, to the 0.01 K they are printed to.
pub fn mains_burch_christensen_2007(day: f64, air: &AirYear) -> f64 {
    let number = day + 0.5;
    let mean_f = (air.mean_k - ZERO_CELSIUS_K) * 1.8 + 32.0;
    let range_f = air.monthly_range_k * 1.8;
    let ratio = 0.4 + 0.01 * (mean_f - 44.0);
    let lag = 35.0 - (mean_f - 44.0);
    let turn = if air.latitude.radians() < 0.0 { 90.0 } else { -90.0 };
    let angle: f64 = 0.986 * (number - 15.0 - lag) + turn;
    let water_f = mean_f + 6.0 + ratio * range_f / 2.0 * angle.to_radians().sin();
    (water_f - 32.0) / 1.8 + ZERO_CELSIUS_K
}

/// Monthly means joined by straight lines through mid-months, December's to January's.
fn through_mid_months(means_k: &[f64; 12], day: f64) -> f64 {
    let middle =
        |month: usize| 0.5 * (MONTH_STARTS_DAY[month] as f64 + MONTH_STARTS_DAY[month + 1] as f64);
    let after = (0..12).find(|&month| day < middle(month)).unwrap_or(0);
    let before = (after + 11) % 12;
    let run = (middle(after) - middle(before)).rem_euclid(365.0);
    let gone = (day - middle(before)).rem_euclid(365.0);
    means_k[before] + (means_k[after] - means_k[before]) * gone / run
}
