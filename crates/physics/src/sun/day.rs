//! What a whole day would bring above the air.

use super::almanac::Almanac;
use crate::Angle;

/// Hour angle at which the sun sets on the level.
///
/// `cos ws = -tan p tan d`.
///
/// * `latitude`: north positive.
/// * `almanac`: the sun of that day.
///
/// Returns 0 in the polar night and 180 degrees under the midnight sun.
///
/// # Valid range
/// Latitudes short of the poles by a thousandth of a degree.
/// # Source
/// Duffie and Beckman, Solar Engineering of Thermal Processes, eq. 1.6.10.
/// # Checked
/// Through [`day_above_air_j_m2`].
pub fn sunset(latitude: Angle, almanac: &Almanac) -> Angle {
    let declination = almanac.declination;
    let cosine = -(latitude.sin() * declination.sin()) / (latitude.cos() * declination.cos());
    Angle::from_radians(cosine.clamp(-1.0, 1.0).acos())
}

/// Irradiation of a horizontal plane above the air over one day \[J/m2\].
///
/// `H0 = 86400 Gon / pi (cos p cos d sin ws + ws sin p sin d)`, `cos ws = -tan p tan d`.
///
/// * `latitude`: north positive.
/// * `almanac`: the sun at noon of that day.
///
/// Returns 0 in the polar night.
///
/// # Valid range
/// Latitudes short of the poles by a thousandth of a degree; the sunset hour angle is held to 0 in
/// the polar night and to 180 degrees under the midnight sun.
/// # Source
/// Duffie and Beckman, Solar Engineering of Thermal Processes, eq. 1.10.3.
/// # Checked
/// Example of the same book, 43 N on 15 April: 33.8 MJ/m2 (recalled).
/// # Example
/// ```
/// use physics::Angle;
/// use physics::sun::{Instant, almanac, day_above_air_j_m2};
/// let noon = Instant { year: 2021, month: 4, day: 15, hour: 18.0 }.days_since_j2000();
/// let day_j_m2 = day_above_air_j_m2(Angle::from_degrees(43.0), &almanac(noon).unwrap());
/// assert!((day_j_m2 / 33.8e6 - 1.0).abs() < 0.01);
/// ```
pub fn day_above_air_j_m2(latitude: Angle, almanac: &Almanac) -> f64 {
    let (sin_p, cos_p) = (latitude.sin(), latitude.cos());
    let (sin_d, cos_d) = (almanac.declination.sin(), almanac.declination.cos());
    let sunset = sunset(latitude, almanac).radians();
    86_400.0 * almanac.extraterrestrial_normal_w_m2 / std::f64::consts::PI
        * (cos_p * cos_d * sunset.sin() + sunset * sin_p * sin_d)
}

#[cfg(test)]
mod tests {
    use super::day_above_air_j_m2;
    use crate::Angle;
    use crate::sun::{Almanac, Instant, almanac};

    /// Given 43 N on Klein's recommended days with the table's own sun (Cooper's declination, 1367
    /// W/m2 by the cosine of the year), the monthly means of a worked table (Duffie and Beckman,
    /// Madison, recomputed there, MJ/m2): to its rounding of half a hundredth.
    #[test]
    fn days_above_the_air_at_43_north() {
        let days: [f64; 12] =
            [17.0, 47.0, 75.0, 105.0, 135.0, 162.0, 198.0, 228.0, 258.0, 288.0, 318.0, 344.0];
        let table_mj_m2 =
            [13.36, 18.80, 26.03, 33.77, 39.42, 41.78, 40.55, 35.92, 28.79, 20.90, 14.62, 11.91];
        for (day, expected) in days.into_iter().zip(table_mj_m2) {
            let cooper = 23.45 * (360.0 * (284.0 + day) / 365.0).to_radians().sin();
            let normal_w_m2 = 1367.0 * (1.0 + 0.033 * (360.0 * day / 365.0).to_radians().cos());
            let sun = Almanac {
                declination: Angle::from_degrees(cooper),
                extraterrestrial_normal_w_m2: normal_w_m2,
                ..almanac(0.0).unwrap()
            };
            let found = day_above_air_j_m2(Angle::from_degrees(43.0), &sun) / 1e6;
            assert!((found - expected).abs() < 0.0051, "day {day}: {found} against {expected}");
        }
    }

    /// Given 70 N at midwinter, nothing; at midsummer, the sun all day: the horizontal part of the
    /// constant term alone, `86400 Gon sin p sin d`.
    #[test]
    fn polar_night_and_midnight_sun() {
        let latitude = Angle::from_degrees(70.0);
        let at = |month, day| {
            almanac(Instant { year: 2021, month, day, hour: 12.0 }.days_since_j2000()).unwrap()
        };
        assert_eq!(day_above_air_j_m2(latitude, &at(12, 21)), 0.0);
        let summer = at(6, 21);
        let by_hand = 86_400.0
            * summer.extraterrestrial_normal_w_m2
            * latitude.sin()
            * summer.declination.sin();
        assert!((day_above_air_j_m2(latitude, &summer) / by_hand - 1.0).abs() < 1e-12);
    }
}
