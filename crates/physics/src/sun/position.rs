//! Where the sun stands at a place and an instant.

use super::almanac::{almanac, hour_angle};
use super::error::{Range, SunError};
use super::incidence::DiurnalCosine;
use crate::Angle;

/// The sun seen from the earth's surface instead of its centre stands lower by this times the sine
/// of the zenith angle \[rad\]: 8.794 arc seconds, the sun's parallax at mean distance.
const PARALLAX_RAD: f64 = 8.794 / 3_600.0 * (std::f64::consts::PI / 180.0);

/// A place on the globe.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Coordinates {
    /// North positive, -90 to 90 degrees.
    pub latitude: Angle,
    /// East positive, -180 to 180 degrees.
    pub longitude: Angle,
}

/// Where the sun stands.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SunPosition {
    /// Compass direction, clockwise from true north (east is 90 degrees), 0 up to 360 degrees.
    pub azimuth: Angle,
    /// Angle from the vertical to the sun's centre, without refraction; above 90 degrees it is night.
    pub zenith: Angle,
    /// The same as the eye sees it through the air.
    pub apparent_zenith: Angle,
}

/// Azimuth and zenith angle of the sun at a place and an instant.
///
/// `cos(zenith) = sin(latitude) sin(declination) + cos(latitude) cos(declination) cos(w)`; the
/// zenith angle from all three components of the sun's direction, so that it is as exact overhead
/// as it is low.
///
/// * `place`: latitude and longitude.
/// * `days_since_j2000_utc`: days since 2000 January 1, 12 h UTC; see [`super::Instant`].
///
/// Returns the true angles, and the zenith angle lifted by the refraction of 1013 hPa and 12 C.
///
/// # Valid range
/// Latitude -90 to 90, longitude -180 to 360 degrees; outside, an error. Years as in [`almanac`].
/// At the poles the azimuth is that of the limit along the given meridian.
/// # Source
/// Spherical astronomy; the slow part as in [`almanac`], refraction as in [`refraction`].
/// # Checked
/// Against 40 rows of `reference/sun-vectors.csv` and against SPA (Reda and Andreas 2004) of
/// `solar-positioning` over 1990 to 2060 at all latitudes: zenith, and azimuth times the sine of
/// the zenith, within 0.02 degrees; apparent zenith within 0.02 degrees above 0.5 degrees altitude.
/// # Example
/// ```
/// use physics::Angle;
/// use physics::sun::{Coordinates, Instant, sun_position};
///
/// let belfast =
///     Coordinates { latitude: Angle::from_degrees(54.605), longitude: Angle::from_degrees(-5.929) };
/// let noon = Instant { year: 2023, month: 6, day: 21, hour: 12.0 + 25.0 / 60.0 };
/// let sun = sun_position(&belfast, noon.days_since_j2000())?;
/// assert!((sun.zenith.degrees() - 31.168).abs() < 0.02);
/// # Ok::<(), physics::sun::SunError>(())
/// ```
pub fn sun_position(
    place: &Coordinates,
    days_since_j2000_utc: f64,
) -> Result<SunPosition, SunError> {
    const LATITUDE: Range = Range { quantity: "latitude [deg]", lowest: -90.0, highest: 90.0 };
    const LONGITUDE: Range = Range { quantity: "longitude [deg]", lowest: -180.0, highest: 360.0 };
    LATITUDE.check(place.latitude.degrees())?;
    LONGITUDE.check(place.longitude.degrees())?;
    let slow = almanac(days_since_j2000_utc)?;
    let w = hour_angle(&slow, place.longitude, days_since_j2000_utc).radians();
    let (cos_w, sin_w) = (w.cos(), w.sin());
    let up = DiurnalCosine::zenith(place.latitude, slow.declination).at(cos_w, sin_w);
    let (sin_lat, cos_lat) = (place.latitude.sin(), place.latitude.cos());
    let (sin_dec, cos_dec) = (slow.declination.sin(), slow.declination.cos());
    let north = cos_lat * sin_dec - sin_lat * cos_dec * cos_w;
    let east = -cos_dec * sin_w;
    let level = north.hypot(east);

    let centre_rad = level.atan2(up);
    let zenith = Angle::from_radians(centre_rad + PARALLAX_RAD * centre_rad.sin());
    let altitude = Angle::from_degrees(90.0 - zenith.degrees());
    let lifted = refraction(altitude, &Air::STANDARD)?;
    let azimuth_rad = east.atan2(north).rem_euclid(std::f64::consts::TAU);
    Ok(SunPosition {
        // A hair west of north wraps to a full turn in floating point: that is north.
        azimuth: Angle::from_radians(if azimuth_rad < std::f64::consts::TAU {
            azimuth_rad
        } else {
            0.0
        }),
        zenith,
        apparent_zenith: Angle::from_radians(zenith.radians() - lifted.radians()),
    })
}

/// The air that bends the sun's light.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Air {
    /// Pressure at the place \[Pa\].
    pub pressure_pa: f64,
    /// Temperature \[K\].
    pub air_k: f64,
}

impl Air {
    /// Sea level, 12 C: what the reference rows use.
    pub const STANDARD: Air = Air { pressure_pa: 101_325.0, air_k: 285.15 };
}

/// How much the air lifts the sun.
///
/// `R = P/1010 283/T 1.02/(60 tan(h + 10.3/(h + 5.11)))` in degrees, P in hPa, T in K, h the true
/// altitude in degrees.
///
/// * `altitude`: the sun's true altitude above the horizon.
/// * `air`: pressure and temperature at the place.
///
/// Returns the lift, never negative; zero once the sun's upper edge is below the horizon (true
/// altitude under -0.83337 degrees), as the source has it.
///
/// # Valid range
/// Altitude -90 to 90 degrees, pressure 0 to 120 kPa, 150 to 350 K; outside, an error.
/// # Source
/// Saemundsson 1986 as used by Reda and Andreas 2004, eq. 42.
/// # Checked
/// With [`sun_position`] against `reference/sun-vectors.csv`.
pub fn refraction(altitude: Angle, air: &Air) -> Result<Angle, SunError> {
    const ALTITUDE: Range = Range { quantity: "altitude [deg]", lowest: -90.0, highest: 90.1 };
    const PRESSURE: Range = Range { quantity: "pressure [Pa]", lowest: 0.0, highest: 120_000.0 };
    const AIR: Range = Range { quantity: "air temperature [K]", lowest: 150.0, highest: 350.0 };
    let altitude_deg = ALTITUDE.check(altitude.degrees())?;
    let pressure_hpa = PRESSURE.check(air.pressure_pa)? / 100.0;
    let air_k = AIR.check(air.air_k)?;
    // Refraction at the horizon and half the sun's width: 0.5667 + 0.26667 degrees.
    if altitude_deg < -0.833_37 {
        return Ok(Angle::ZERO);
    }
    let bent = Angle::from_degrees(altitude_deg + 10.3 / (altitude_deg + 5.11));
    let lift_deg = pressure_hpa / 1_010.0 * (283.0 / air_k) * 1.02 / (60.0 * bent.tan());
    Ok(Angle::from_degrees(lift_deg.max(0.0)))
}
