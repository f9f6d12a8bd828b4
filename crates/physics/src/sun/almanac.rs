//! The slow part of the sun's path: what changes by the day, not by the minute.

use super::error::{Range, SunError};
use crate::Angle;

/// Total solar irradiance at one astronomical unit \[W/m2\] (Kopp and Lean 2011).
pub const SOLAR_CONSTANT_W_M2: f64 = 1361.0;

/// How far dynamical time runs ahead of UTC \[s\]: 57 s in 1990, 69 s in 2020. The sun moves less
/// than a thousandth of a degree against the stars in that time, so one value serves.
const DYNAMICAL_AHEAD_S: f64 = 67.0;

/// An instant of the civil calendar in UTC.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Instant {
    /// Year of the Gregorian calendar, 1900 to 2100.
    pub year: i32,
    /// Month, 1 to 12.
    pub month: u32,
    /// Day of the month, 1 to 31.
    pub day: u32,
    /// Hour of the day with its fraction; may pass 24 or fall below 0.
    pub hour: f64,
}

impl Instant {
    /// Days since the epoch J2000.0, which is 2000 January 1 at 12 h, in UTC.
    ///
    /// `N = 367 y - 7 (y + (m + 9)/12)/4 + 275 m/9 + d - 730531.5 + h/24`, divisions by whole numbers.
    ///
    /// # Valid range
    /// Years 1901 to 2099, where every fourth year is a leap year.
    /// # Source
    /// The Julian day of the civil calendar as almanacs give it (from memory).
    /// # Checked
    /// Against the Julian days of `solar-positioning`, to a millionth of a day.
    pub fn days_since_j2000(self) -> f64 {
        let (year, month, day) = (i64::from(self.year), i64::from(self.month), i64::from(self.day));
        let whole = 367 * year - 7 * (year + (month + 9) / 12) / 4 + 275 * month / 9 + day;
        whole as f64 - 730_531.5 + self.hour / 24.0
    }
}

/// What the sun does slowly: good for an hour as it stands.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Almanac {
    /// The sun's angle north of the equator.
    pub declination: Angle,
    /// How much solar time runs ahead of mean solar time \[min\], -14 to 17.
    pub equation_of_time_min: f64,
    /// Distance of the sun, in mean distances, 0.983 to 1.017.
    pub distance: f64,
    /// Irradiance on a plane that faces the sun, above the air \[W/m2\], 1316 to 1408.
    pub extraterrestrial_normal_w_m2: f64,
}

/// The sun's declination, the equation of time and the distance of the sun at an instant.
///
/// With `T` in centuries of 36525 days: mean longitude `L = 280.46646 + 36000.76983 T + 0.0003032 T2`,
/// mean anomaly `M = 357.52911 + 35999.05029 T - 0.0001537 T2`, equation of the centre
/// `C = (1.914602 - 0.004817 T) sin M + (0.019993 - 0.000101 T) sin 2M + 0.000289 sin 3M`, node
/// `W = 125.04 - 1934.136 T`, apparent longitude `l = L + C - 0.00569 - 0.00478 sin W`, obliquity
/// `e = 23.439291 - 0.0130042 T + 0.00256 cos W`; then `sin(declination) = sin e sin l`,
/// `tan(right ascension) = cos e tan l` and
/// `E = L - 0.0057183 - right ascension - 0.00478 sin W cos e`.
///
/// * `days_since_j2000_utc`: days since 2000 January 1, 12 h UTC; see [`Instant`].
///
/// Returns the slow quantities; declination is positive north, the equation of time positive where
/// the sun is early. They change by at most 0.017 degrees and 0.02 minutes an hour, so a march by
/// the minute asks once an hour.
///
/// # Valid range
/// Meant for 1950 to 2100; outside, the error grows slowly. A day that is no finite number gives
/// an error.
/// # Source
/// J. Meeus, Astronomical Algorithms, 2nd ed. 1998, chapters 25 (low accuracy) and 28 (from memory).
/// # Checked
/// Against SPA (Reda and Andreas 2004) of `solar-positioning`, 60 000 instants from 1990 to 2060:
/// declination within 0.004 degrees, the sun's place within 0.009 degrees.
pub fn almanac(days_since_j2000_utc: f64) -> Result<Almanac, SunError> {
    const DAYS: Range =
        Range { quantity: "days since 2000", lowest: -100_000.0, highest: 100_000.0 };
    let days = DAYS.check(days_since_j2000_utc)? + DYNAMICAL_AHEAD_S / 86_400.0;
    let t = days / 36_525.0;
    let mean_longitude_deg = 280.466_46 + t * (36_000.769_83 + t * 0.000_303_2);
    let anomaly = Angle::from_degrees(357.529_11 + t * (35_999.050_29 - t * 0.000_153_7)).radians();
    let centre_deg = (1.914_602 - 0.004_817 * t) * anomaly.sin()
        + (0.019_993 - 0.000_101 * t) * (2.0 * anomaly).sin()
        + 0.000_289 * (3.0 * anomaly).sin();
    let node = Angle::from_degrees(125.04 - 1_934.136 * t);
    let nutation_deg = -0.004_78 * node.sin();
    let longitude = Angle::from_degrees(mean_longitude_deg + centre_deg - 0.005_69 + nutation_deg);
    let obliquity = Angle::from_degrees(23.439_291 - 0.013_004_2 * t + 0.002_56 * node.cos());
    let right_ascension_deg =
        (obliquity.cos() * longitude.sin()).atan2(longitude.cos()).to_degrees();
    let equation_deg =
        mean_longitude_deg - 0.005_718_3 - right_ascension_deg + nutation_deg * obliquity.cos();

    let eccentricity = 0.016_708_634 - 0.000_042_037 * t;
    let true_anomaly = anomaly + centre_deg.to_radians();
    let distance = 1.000_001_018 * (1.0 - eccentricity * eccentricity)
        / (1.0 + eccentricity * true_anomaly.cos());
    Ok(Almanac {
        declination: Angle::from_radians((obliquity.sin() * longitude.sin()).asin()),
        // Four minutes a degree, from the half turn nearest to zero.
        equation_of_time_min: 4.0 * (equation_deg - 360.0 * (equation_deg / 360.0).round()),
        distance,
        extraterrestrial_normal_w_m2: SOLAR_CONSTANT_W_M2 / (distance * distance),
    })
}

/// The sun's hour angle: zero when it stands in the meridian, positive after, from -pi to pi.
///
/// `w = 15 (UTC - 12) + longitude + E/4` in degrees.
///
/// * `almanac`: the slow quantities of the hour.
/// * `longitude`: east positive.
/// * `days_since_j2000_utc`: days since 2000 January 1, 12 h UTC.
///
/// # Valid range
/// Any finite day and longitude; what is no finite number gives NaN, and [`almanac`] has refused it.
/// # Source
/// The definition of solar time.
/// # Checked
/// With [`super::sun_position`], which uses it.
pub fn hour_angle(almanac: &Almanac, longitude: Angle, days_since_j2000_utc: f64) -> Angle {
    let turns =
        days_since_j2000_utc + longitude.degrees() / 360.0 + almanac.equation_of_time_min / 1_440.0;
    Angle::from_degrees(360.0 * (turns - turns.round()))
}
