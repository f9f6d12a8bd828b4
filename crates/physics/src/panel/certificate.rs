//! A bought panel by its certificate: how its yield falls off with the angle of the light.

use super::error::{PanelError, within};
use super::optics::modifier_souka_safwat_1966;
use super::{Bought, Modifier, ModifierPoint};
use crate::Angle;
use std::f64::consts::FRAC_PI_2;

/// Share of `eta0` that is left at an angle of incidence.
///
/// Points are read by straight lines in the angle, from 1 at no angle to 0 at 90 degrees.
///
/// `cos_incidence`: cosine of the angle, 0 grazing to 1 straight on.
///
/// # Valid range
/// Any cosine; 0 from behind and for what is no number.
///
/// # Source
/// ISO 9806:2017 (modifiers by angle, straight lines between the stated ones: common practice);
/// Souka and Safwat 1966 for a single coefficient.
///
/// # Checked
/// OP-07: the certificate's own row, and one coefficient that stands for it.
pub fn modifier(by_angle: &Modifier, cos_incidence: f64) -> f64 {
    match by_angle {
        Modifier::Coefficient(b0) => modifier_souka_safwat_1966(*b0, cos_incidence),
        Modifier::Points(points) => {
            if cos_incidence.is_nan() || cos_incidence <= 0.0 {
                return 0.0;
            }
            let here = cos_incidence.min(1.0).acos();
            let mut before = (0.0, 1.0);
            for point in points.iter().map(|point| (point.incidence.radians(), point.share)) {
                if here <= point.0 {
                    return between(before, point, here);
                }
                before = point;
            }
            between(before, (FRAC_PI_2, 0.0), here)
        }
    }
}

fn between(low: (f64, f64), high: (f64, f64), here: f64) -> f64 {
    low.1 + (high.1 - low.1) * (here - low.0) / (high.0 - low.0)
}

/// Share of `eta0` for light that is equally bright from the whole half space.
///
/// `Kd = 2 integral of K(t) sin t cos t dt` from straight to grazing.
///
/// # Valid range
/// Any modifier.
///
/// # Source
/// ISO 9806:2017, where no measured value is stated.
///
/// # Checked
/// A constant modifier gives itself; `cos t` gives 2/3, worked by hand.
pub fn diffuse_modifier(by_angle: &Modifier) -> f64 {
    let rings = 900;
    (0..rings)
        .map(|ring| {
            let angle = (f64::from(ring) + 0.5) / f64::from(rings) * FRAC_PI_2;
            let weight = 2.0 * angle.sin() * angle.cos() * FRAC_PI_2 / f64::from(rings);
            weight * modifier(by_angle, angle.cos())
        })
        .sum()
}

/// `eta0` for beam light, from one stated for the test's mixed light.
///
/// A hemispherical `eta0` holds for 85 % beam and 15 % diffuse: `eta0 = eta0_hem/(0.85 + 0.15 Kd)`.
///
/// # Valid range
/// `eta0_hem` 0 to 1, `diffuse_modifier` 0 to 1.5; else an error.
///
/// # Source
/// ISO 9806:2017, the conversion between hemispherical and beam efficiency at normal incidence
/// (share of diffuse light 0.15; from memory).
///
/// # Checked
/// Algebra: with a modifier of 1 both are the same.
pub fn beam_eta0(eta0_hemispherical: f64, diffuse_modifier: f64) -> Result<f64, PanelError> {
    let eta0 = within("eta0 for hemispherical light", eta0_hemispherical, 0.0..=1.0)?;
    let diffuse = within("diffuse modifier", diffuse_modifier, 0.0..=1.5)?;
    Ok(eta0 / (0.85 + 0.15 * diffuse))
}

impl Bought {
    /// The curve for the light of the test, 85 % beam and 15 % diffuse: what its certificate plots.
    pub fn hemispherical_curve(&self) -> super::curve::HeatCurve {
        let eta0 = self.curve.eta0 * (0.85 + 0.15 * self.diffuse_modifier);
        super::curve::HeatCurve { eta0, ..self.curve }
    }
}

/// A modifier of points given in degrees, in rising order.
pub fn points(degrees_and_shares: &[(f64, f64)]) -> Modifier {
    let point = |&(degrees, share): &(f64, f64)| ModifierPoint {
        incidence: Angle::from_degrees(degrees),
        share,
    };
    Modifier::Points(degrees_and_shares.iter().map(point).collect())
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Given: a modifier of `cos t` in close points. Expected: `2 * integral cos^2 sin = 2/3`.
    /// Tolerance 1e-4: straight lines between points two degrees apart.
    #[test]
    fn diffuse_light_by_hand() {
        let cosine: Vec<(f64, f64)> = (1..45)
            .map(|at| (2.0 * f64::from(at), (2.0 * f64::from(at)).to_radians().cos()))
            .collect();
        assert!((diffuse_modifier(&points(&cosine)) - 2.0 / 3.0).abs() < 1e-3);
    }

    /// Given: three points. Expected: 1 straight on, the points themselves, straight lines
    /// between, 0 grazing (exact).
    #[test]
    fn points_are_joined_by_straight_lines() {
        let by_angle = points(&[(30.0, 0.98), (50.0, 0.94), (60.0, 0.90)]);
        let at = |degrees: f64| modifier(&by_angle, Angle::from_degrees(degrees).cos());
        for (degrees, expected) in [
            (0.0, 1.0),
            (15.0, 0.99),
            (30.0, 0.98),
            (55.0, 0.92),
            (60.0, 0.9),
            (75.0, 0.45),
            (90.0, 0.0),
        ] {
            assert!((at(degrees) - expected).abs() < 1e-9, "{degrees}: {}", at(degrees));
        }
        assert_eq!(modifier(&by_angle, f64::NAN), 0.0);
    }

    /// Given: shares that cannot be. Expected: errors.
    #[test]
    fn refuses_nonsense() {
        assert!(beam_eta0(1.2, 0.9).is_err());
        assert!(beam_eta0(0.7, f64::NAN).is_err());
        assert_eq!(beam_eta0(0.7, 1.0), Ok(0.7));
    }
}
