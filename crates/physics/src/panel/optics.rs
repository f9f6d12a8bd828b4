//! Sunlight through the cover and into the sheet.

use super::{Cover, DiffuseAngle};
use crate::Angle;

/// A cover over a sheet, ready to say what share of the light the sheet takes up.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Optics {
    cover: Cover,
    sheet_absorptance: f64,
    diffuse_reflectance: f64,
    /// Share of the sky's diffuse light that the sheet takes up.
    pub sky: f64,
    /// Share of the light from the ground that the sheet takes up.
    pub ground: f64,
}

/// Optics of one cover over a sheet at a tilt.
///
/// Sky and ground light count at the angles that the cover's [`DiffuseAngle`] says; beam is
/// asked of the answer, minute by minute, by [`Optics::beam`].
///
/// `sheet_absorptance`: 0.9 to 0.97 matt black. It is taken as the same from every direction. Matt
/// paint takes up less of slanting light (Duffie and Beckman 2006, section 4.11), and so this is
/// on the high side: against the certified panel of OP-07 by 0.02 at 40 and 0.03 at 50 degrees.
///
/// # Valid range
/// Any [`Cover`] with an index of at least 1, an absorptance of 0 to 1. A cover's numbers that mean nothing never give more light:
/// where no refracted ray exists the surface reflects everything.
///
/// # Source
/// Duffie and Beckman 2006, chapter 5.
///
/// # Checked
/// Through its parts: OP-01, OP-03, OP-04, OP-06; the effective angles against the integral over
/// sky and ground, within 0.02.
///
/// # Example
/// ```
/// use physics::{Angle, panel::{Cover, DiffuseAngle, optics::optics}};
/// let glass = Cover {
///     index: 1.526, extinction_1_m: 16.0, thickness_m: 0.004, emittance: 0.88,
///     density_kg_m3: 2500.0, heat_capacity_j_kg_k: 750.0,
///     diffuse_angle: DiffuseAngle::BrandemuehlBeckman1980,
/// };
/// let optics = optics(&glass, 0.95, Angle::from_degrees(40.0));
/// assert!(optics.beam(1.0) > optics.sky && optics.sky > optics.ground);
/// ```
pub fn optics(cover: &Cover, sheet_absorptance: f64, tilt: Angle) -> Optics {
    let angles = match cover.diffuse_angle {
        DiffuseAngle::BrandemuehlBeckman1980 => effective_angles_brandemuehl_beckman_1980(tilt),
        DiffuseAngle::SixtyDegrees => EffectiveAngles { sky: SIXTY, ground: SIXTY },
    };
    Optics {
        cover: *cover,
        sheet_absorptance,
        diffuse_reflectance: transmission(cover, SIXTY).reflectance,
        sky: transmittance_absorptance(cover, sheet_absorptance, angles.sky),
        ground: transmittance_absorptance(cover, sheet_absorptance, angles.ground),
    }
}

impl Optics {
    /// Share of beam light that the sheet takes up, given the cosine of its angle of incidence.
    ///
    /// Zero from behind (a cosine of zero or less).
    pub fn beam(&self, cos_incidence: f64) -> f64 {
        if cos_incidence > 0.0 {
            let passed = through(&self.cover, cos_incidence.min(1.0)).transmittance;
            with_reflection(passed, self.sheet_absorptance, self.diffuse_reflectance)
        } else {
            0.0
        }
    }
}

/// Share of light at one angle that a sheet behind a cover takes up.
///
/// `(tau alpha) = tau alpha / (1 - (1 - alpha) rho_d)`: what the sheet throws back, the cover's
/// inner side throws on to it again, and so on; `rho_d` is the cover's reflectance for diffuse
/// light, its [`transmission`] at 60 degrees.
///
/// # Valid range
/// As [`optics`].
///
/// # Source
/// Duffie and Beckman 2006, eq. 5.5.1.
///
/// # Checked
/// OP-06 (tau 0.84, alpha 0.90, rho 0.16: 0.768) within 0.002; `rho_d` of clear glass 0.16.
pub fn transmittance_absorptance(cover: &Cover, sheet_absorptance: f64, incidence: Angle) -> f64 {
    let passed = transmission(cover, incidence).transmittance;
    with_reflection(passed, sheet_absorptance, transmission(cover, SIXTY).reflectance)
}

/// The multiple reflection between sheet and cover.
///
/// `tau alpha / (1 - (1 - alpha) rho_d)`, see [`transmittance_absorptance`].
///
/// # Valid range
/// Shares of 0 to 1.
///
/// # Source
/// Duffie and Beckman 2006, eq. 5.5.1.
///
/// # Checked
/// OP-06 within 0.002.
pub fn with_reflection(transmittance: f64, absorptance: f64, diffuse_reflectance: f64) -> f64 {
    transmittance * absorptance / (1.0 - (1.0 - absorptance) * diffuse_reflectance)
}

/// Where light goes that falls on a cover; the three shares add up to one.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Transmission {
    /// Share that passes.
    pub transmittance: f64,
    /// Share that is thrown back.
    pub reflectance: f64,
    /// Share that stays in the pane as heat.
    pub absorptance: f64,
}

/// Transmission of a single cover at an angle of incidence.
///
/// For each polarisation, with `r` from [`fresnel`] and `ta = exp(-K L / cos t2)`:
/// `tau = ta (1 - r)^2 / (1 - (r ta)^2)`, `rho = r (1 + ta tau)`,
/// `alpha = (1 - ta)(1 - r)/(1 - r ta)`; then the mean of both.
///
/// # Valid range
/// 0 to 90 degrees; at 90 and beyond everything is thrown back. See [`optics`].
///
/// # Source
/// Duffie and Beckman 2006, eq. 5.3.1 to 5.3.3.
///
/// # Checked
/// OP-03 (their example 5.3.1) within 0.002, OP-04 within 0.001, ceilings of OP-09.
pub fn transmission(cover: &Cover, incidence: Angle) -> Transmission {
    through(cover, incidence.cos())
}

fn through(cover: &Cover, cos_incidence: f64) -> Transmission {
    let path = cover.extinction_1_m.max(0.0) * cover.thickness_m.max(0.0);
    let surface = fresnel(cover.index, cos_incidence);
    let passed = (-path / surface.cos_refraction).exp();
    let [one, other] = [surface.perpendicular, surface.parallel].map(|r| {
        // Grazing light on a pane that absorbs nothing: 0/0, and nothing passes.
        let lost = 1.0 - r * passed;
        if lost <= 0.0 {
            return Transmission { transmittance: 0.0, reflectance: 1.0, absorptance: 0.0 };
        }
        let transmittance = passed * (1.0 - r).powi(2) / (1.0 - (r * passed).powi(2));
        Transmission {
            transmittance,
            reflectance: r * (1.0 + passed * transmittance),
            absorptance: (1.0 - passed) * (1.0 - r) / lost,
        }
    });
    Transmission {
        transmittance: 0.5 * (one.transmittance + other.transmittance),
        reflectance: 0.5 * (one.reflectance + other.reflectance),
        absorptance: 0.5 * (one.absorptance + other.absorptance),
    }
}

/// Reflectance of one surface for both polarisations.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Surface {
    /// Light that swings across the plane of incidence.
    pub perpendicular: f64,
    /// Light that swings in the plane of incidence.
    pub parallel: f64,
    /// Cosine of the refracted ray's angle inside the pane.
    pub cos_refraction: f64,
}

impl Surface {
    /// Reflectance for natural light: the mean of both.
    pub fn unpolarised(&self) -> f64 {
        0.5 * (self.perpendicular + self.parallel)
    }
}

/// Reflection where light enters a pane from air.
///
/// With `c1`, `c2` the cosines of the rays outside and inside, `sin t1 = n sin t2`:
/// `r_perp = [(c1 - n c2)/(c1 + n c2)]^2`, `r_par = [(n c1 - c2)/(n c1 + c2)]^2`. (The same as
/// `sin^2/sin^2` and `tan^2/tan^2` in the books, without their 0/0 at normal incidence.)
///
/// `index`: of the pane, 1.34 to 1.64. `cos_incidence`: of the angle to the pane's normal.
///
/// # Valid range
/// Index 1 and more. From behind, grazing, or where no refracted ray exists: all is reflected.
///
/// # Source
/// Fresnel; Duffie and Beckman 2006, eq. 5.1.1 to 5.1.4.
///
/// # Checked
/// OP-01 (their example 5.1.1) within 0.0006.
pub fn fresnel(index: f64, cos_incidence: f64) -> Surface {
    let sine = (1.0 - cos_incidence * cos_incidence).max(0.0).sqrt() / index;
    if cos_incidence > 0.0 && sine < 1.0 && index > 0.0 {
        let cos_refraction = (1.0 - sine * sine).sqrt();
        let across = index * cos_refraction;
        let along = index * cos_incidence;
        Surface {
            perpendicular: ((cos_incidence - across) / (cos_incidence + across)).powi(2),
            parallel: ((along - cos_refraction) / (along + cos_refraction)).powi(2),
            cos_refraction,
        }
    } else {
        Surface { perpendicular: 1.0, parallel: 1.0, cos_refraction: 1.0 }
    }
}

/// Angles at which light from everywhere passes as a beam would.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct EffectiveAngles {
    /// For the sky's diffuse light.
    pub sky: Angle,
    /// For light from the ground.
    pub ground: Angle,
}

/// Effective angles of incidence of sky and ground light by the tilt `b` in degrees.
///
/// Sky `59.68 - 0.1388 b + 0.001497 b^2`, ground `90 - 0.5788 b + 0.002693 b^2`.
///
/// # Valid range
/// 0 to 90 degrees; beyond, the nearer end. A level panel sees no ground: 90 degrees, nothing
/// passes.
///
/// # Source
/// Brandemuehl and Beckman, Solar Energy 24 (1980) 511; Duffie and Beckman 2006, eq. 5.4.1 and
/// 5.4.2 (coefficients from memory, the ground's and the sky's slopes seen restated).
///
/// # Checked
/// The integral of a pane's transmittance over the sky and the ground it sees, all equally
/// bright, within 0.02 from 0 to 90 degrees.
pub fn effective_angles_brandemuehl_beckman_1980(tilt: Angle) -> EffectiveAngles {
    let b = tilt.degrees().clamp(0.0, 90.0);
    EffectiveAngles {
        sky: Angle::from_degrees(59.68 - 0.1388 * b + 0.001497 * b * b),
        ground: Angle::from_degrees(90.0 - 0.5788 * b + 0.002693 * b * b),
    }
}

/// Incidence angle modifier by one coefficient: `1 - b0 (1/cos - 1)`, never below zero.
///
/// `b0`: 0.10 for one cover of glass. For comparing with test reports; the panel itself is
/// reckoned by [`optics`].
///
/// # Valid range
/// Any angle; zero where the formula would be negative (beyond about 85 degrees) and from behind.
///
/// # Source
/// Souka and Safwat, Solar Energy 10 (1966) 170.
///
/// # Checked
/// OP-07 (a certified flat plate): within 0.011 to 70 degrees, 0.03 at 80, zero at 90.
pub fn modifier_souka_safwat_1966(b0: f64, cos_incidence: f64) -> f64 {
    if cos_incidence > 0.0 { (1.0 - b0 * (1.0 / cos_incidence - 1.0)).max(0.0) } else { 0.0 }
}

/// Sixty degrees: the angle of the diffuse reflectance, and the plain rule for diffuse light.
const SIXTY: Angle = Angle::from_degrees(60.0);

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;
    use std::f64::consts::{FRAC_PI_2, TAU};

    fn glass(extinction_1_m: f64, thickness_m: f64) -> Cover {
        Cover {
            index: 1.526,
            extinction_1_m,
            thickness_m,
            emittance: 0.88,
            density_kg_m3: 2500.0,
            heat_capacity_j_kg_k: 750.0,
            diffuse_angle: DiffuseAngle::BrandemuehlBeckman1980,
        }
    }

    /// Given: clear glass. Expected: diffuse reflectance 0.16, Duffie and Beckman section 5.5.
    /// Tolerance 0.005, its last digit.
    #[test]
    fn diffuse_reflectance_of_clear_glass() {
        let reflectance = transmission(&glass(0.0, 0.004), SIXTY).reflectance;
        assert!((reflectance - 0.16).abs() < 0.005, "{reflectance}");
    }

    /// Given: a pane under an evenly bright sky over an evenly bright ground. Expected: the
    /// transmittance at the effective angle is that of the whole, integrated here over the half
    /// sphere. Tolerance 0.02, the scatter the authors show in their figure between covers.
    #[test]
    fn effective_angles_stand_for_the_integral() {
        let cover = glass(16.0, 0.00325);
        for degrees in [0.0, 30.0, 45.0, 60.0, 90.0] {
            let tilt = Angle::from_degrees(degrees);
            let angles = effective_angles_brandemuehl_beckman_1980(tilt);
            let [sky, ground] = integrals(&cover, tilt);
            let by_angle = transmission(&cover, angles.sky).transmittance;
            assert!((sky - by_angle).abs() < 0.02, "sky at {degrees}: {sky}, {by_angle}");
            if degrees > 20.0 {
                let by_angle = transmission(&cover, angles.ground).transmittance;
                assert!((ground - by_angle).abs() < 0.02, "ground {degrees}: {ground}, {by_angle}");
            }
        }
    }

    /// Transmittance for all light from above the horizon, and for all from below it.
    fn integrals(cover: &Cover, tilt: Angle) -> [f64; 2] {
        let (rings, spokes) = (400, 720);
        let mut passed = [0.0; 2];
        let mut fallen = [0.0; 2];
        for ring in 0..rings {
            let polar = (f64::from(ring) + 0.5) / f64::from(rings) * FRAC_PI_2;
            let weight = polar.sin() * polar.cos();
            let transmittance = through(cover, polar.cos()).transmittance;
            for spoke in 0..spokes {
                let around = (f64::from(spoke) + 0.5) / f64::from(spokes) * TAU;
                let height = polar.cos() * tilt.cos() + polar.sin() * around.cos() * tilt.sin();
                let half = usize::from(height < 0.0);
                passed[half] += weight * transmittance;
                fallen[half] += weight;
            }
        }
        [passed[0] / fallen[0], passed[1] / fallen[1]]
    }

    /// Given: the same sheet by both diffuse rules. Expected: sixty degrees for sky and ground.
    #[test]
    fn sixty_degrees_serves_both() {
        let cover = Cover { diffuse_angle: DiffuseAngle::SixtyDegrees, ..glass(16.0, 0.004) };
        let optics = optics(&cover, 0.95, Angle::from_degrees(35.0));
        assert_eq!(optics.sky, optics.ground);
        assert!((optics.sky - optics.beam(0.5)).abs() < 1e-12);
    }

    /// Given: light from behind, and an index that means nothing. Expected: no light, no
    /// not-a-number.
    #[test]
    fn no_light_from_nonsense() {
        let sound = optics(&glass(16.0, 0.004), 0.95, Angle::from_degrees(35.0));
        assert_eq!(sound.beam(-0.3), 0.0);
        assert_eq!(sound.beam(f64::NAN), 0.0);
        for index in [0.0, -1.0, f64::NAN] {
            let cover = Cover { index, ..glass(16.0, 0.004) };
            assert_eq!(transmission(&cover, Angle::ZERO).transmittance, 0.0);
        }
        let grazing = transmission(&glass(0.0, 0.004), Angle::from_degrees(90.0));
        assert!(grazing.transmittance < 1e-12);
    }

    proptest! {
        /// Light is passed, thrown back or kept; nothing else.
        #[test]
        fn nothing_is_lost(
            index in 1.0..2.0_f64,
            extinction_1_m in 0.0..60.0_f64,
            thickness_m in 0.0..0.01_f64,
            degrees in 0.0..90.0_f64,
        ) {
            let cover = Cover { index, ..glass(extinction_1_m, thickness_m) };
            let light = transmission(&cover, Angle::from_degrees(degrees));
            let sum = light.transmittance + light.reflectance + light.absorptance;
            prop_assert!((sum - 1.0).abs() < 1e-12);
            for share in [light.transmittance, light.reflectance, light.absorptance] {
                prop_assert!((0.0..=1.0).contains(&share));
            }
        }
    }
}
