//! Snow on a pitched roof, as EN 1991-1-3 reckons it.

use super::error::MakingError;
use crate::Angle;

/// Whether snow can slide off a roof.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Sliding {
    /// Nothing stops it.
    Free,
    /// A guard, a parapet or the panel's own frame holds it back.
    Held,
}

/// A roof under snow.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SnowRoof {
    /// Characteristic load on the ground, from the country's map and the altitude \[N/m2\];
    /// lowland Britain 400 to 800.
    pub ground_n_m2: f64,
    /// Slope of the roof.
    pub pitch: Angle,
    /// Whether it slides.
    pub sliding: Sliding,
    /// Ce; 1 for usual surroundings, 0.8 windswept, 1.2 sheltered.
    pub exposure_factor: f64,
    /// Ct; 1 unless the roof loses much heat.
    pub thermal_factor: f64,
}

/// Characteristic snow load on a roof, for each square metre of plan \[N/m2\].
///
/// ```text
/// s = mu1 Ce Ct sk
/// ```
///
/// - `roof`: ground load sk, pitch, whether snow slides, Ce, Ct.
///
/// # Valid range
/// Single slopes of 0 to 90 degrees, undrifted: valleys, walls above and unlike roofs side by side
/// gather more. Ground load 0 or more, factors more than 0; a [`MakingError`] outside.
/// Characteristic: no partial factor is in it. A screening; the national annex and a licensed
/// engineer decide.
///
/// # Source
/// EN 1991-1-3:2003, eq. 5.1 and table 5.2.
///
/// # Checked
/// F-08 and F-09 to 1e-6.
///
/// # Example
/// ```
/// use physics::Angle;
/// use physics::making::snow::{Sliding, SnowRoof, roof_snow_n_m2};
/// let roof = SnowRoof {
///     ground_n_m2: 750.0,
///     pitch: Angle::from_degrees(40.0),
///     sliding: Sliding::Free,
///     exposure_factor: 1.0,
///     thermal_factor: 1.0,
/// };
/// assert!((roof_snow_n_m2(&roof).unwrap() - 400.0).abs() < 0.01);
/// ```
pub fn roof_snow_n_m2(roof: &SnowRoof) -> Result<f64, MakingError> {
    MakingError::not_negative("the snow on the ground in N/m2", roof.ground_n_m2)?;
    MakingError::positive("the exposure factor", roof.exposure_factor)?;
    MakingError::positive("the thermal factor", roof.thermal_factor)?;
    let shape = shape_factor(roof.pitch, roof.sliding)?;
    Ok(shape * roof.exposure_factor * roof.thermal_factor * roof.ground_n_m2)
}

/// Shape coefficient mu1 of a slope: which part of the ground's snow its plan bears.
///
/// ```text
/// mu1 = 0.8                  up to 30 degrees
/// mu1 = 0.8 (60 - a)/30      from 30 to 60
/// mu1 = 0                    steeper
/// ```
///
/// Where snow is held, never less than 0.8.
///
/// # Valid range
/// 0 to 90 degrees; a [`MakingError`] outside.
///
/// # Source
/// EN 1991-1-3:2003, table 5.2 and clause 5.3.3 (held snow).
///
/// # Checked
/// F-08 and F-09 to 1e-6.
pub fn shape_factor(pitch: Angle, sliding: Sliding) -> Result<f64, MakingError> {
    // Ninety degrees in radians and back is a hair off.
    let pitch_deg = pitch.degrees();
    let good = (-1e-9..=90.0 + 1e-9).contains(&pitch_deg);
    MakingError::unless(good, "the roof's pitch in degrees", pitch_deg, "0 to 90")?;
    Ok(match sliding {
        Sliding::Held => 0.8,
        Sliding::Free => (0.8 * (60.0 - pitch_deg) / 30.0).clamp(0.0, 0.8),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Given: the table's corners. Expected: its values (exact to rounding), the middle half-way,
    /// held snow 0.8 on any slope.
    #[test]
    fn the_table_s_corners() {
        for (pitch_deg, expected) in
            [(0.0, 0.8), (30.0, 0.8), (45.0, 0.4), (60.0, 0.0), (90.0, 0.0)]
        {
            let pitch = Angle::from_degrees(pitch_deg);
            assert!((shape_factor(pitch, Sliding::Free).unwrap() - expected).abs() < 1e-12);
            assert_eq!(shape_factor(pitch, Sliding::Held), Ok(0.8));
        }
        for pitch_deg in [-1.0, 91.0, f64::NAN] {
            assert!(shape_factor(Angle::from_degrees(pitch_deg), Sliding::Held).is_err());
        }
    }
}
