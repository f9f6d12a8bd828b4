//! Sunlight through the covers and into the sheet.

use super::certificate::modifier;
use super::{Built, Cover, DiffuseAngle, Modifier, Panel};
use crate::Angle;

/// A panel's optics, ready to say what share of the light it takes up.
#[derive(Clone, Debug, PartialEq)]
pub struct Optics {
    beam: BeamLight,
    /// Share of the sky's diffuse light that is taken up.
    pub sky: f64,
    /// Share of the light from the ground that is taken up.
    pub ground: f64,
}

#[derive(Clone, Debug, PartialEq)]
enum BeamLight {
    /// Through covers into a sheet.
    Covered { covers: Vec<Cover>, sheet_absorptance: f64, diffuse_reflectance: f64 },
    /// As a certificate states it.
    Certified { eta0: f64, modifier: Modifier },
}

/// Optics of a panel at a tilt.
///
/// Of a panel made at home: what its sheet takes up behind its covers, sky and ground light
/// counted at the angles that [`DiffuseAngle`] says. Of a bought one: `eta0` by its certificate's
/// modifier, which is what the fluid gets without a rise above ambient. Beam is asked of the
/// answer, minute by minute, by [`Optics::beam`].
///
/// The sheet's absorptance, 0.9 to 0.97 matt black, is taken as the same from every direction. Matt
/// paint takes up less of slanting light (Duffie and Beckman 2006, section 4.11), and so this is
/// on the high side: against the certified panel of OP-07 by 0.02 at 40 and 0.03 at 50 degrees.
///
/// # Valid range
/// Any [`Cover`] with an index of at least 1, an absorptance of 0 to 1. A cover's numbers that mean nothing never give more light:
/// where no refracted ray exists the surface reflects everything.
///
/// # Source
/// Duffie and Beckman 2006, chapter 5; ISO 9806:2017 for bought panels.
///
/// # Checked
/// Through its parts: OP-01, OP-03, OP-04, OP-06, OP-07; the effective angles against the integral
/// over sky and ground, within 0.02.
pub fn optics(panel: &Panel, tilt: Angle) -> Optics {
    match panel {
        Panel::Built(built) => covered(built, tilt),
        Panel::Bought(bought) => Optics {
            beam: BeamLight::Certified {
                eta0: bought.curve.eta0,
                modifier: bought.modifier.clone(),
            },
            sky: bought.curve.eta0 * bought.diffuse_modifier,
            ground: bought.curve.eta0 * bought.diffuse_modifier,
        },
    }
}

fn covered(built: &Built, tilt: Angle) -> Optics {
    let angles = match built.diffuse_angle {
        DiffuseAngle::BrandemuehlBeckman1980 => effective_angles_brandemuehl_beckman_1980(tilt),
        DiffuseAngle::SixtyDegrees => EffectiveAngles { sky: SIXTY, ground: SIXTY },
    };
    let (covers, sheet) = (&built.covers, built.sheet.absorptance);
    Optics {
        beam: BeamLight::Covered {
            covers: covers.clone(),
            sheet_absorptance: sheet,
            diffuse_reflectance: inside_reflectance(covers),
        },
        sky: transmittance_absorptance(covers, sheet, angles.sky),
        ground: transmittance_absorptance(covers, sheet, angles.ground),
    }
}

impl Optics {
    /// Share of beam light that is taken up, given the cosine of its angle of incidence.
    ///
    /// Zero from behind (a cosine of zero or less).
    pub fn beam(&self, cos_incidence: f64) -> f64 {
        if cos_incidence.is_nan() || cos_incidence <= 0.0 {
            return 0.0;
        }
        match &self.beam {
            BeamLight::Covered { covers, sheet_absorptance, diffuse_reflectance } => {
                let passed = through(covers, cos_incidence.min(1.0)).transmittance;
                with_reflection(passed, *sheet_absorptance, *diffuse_reflectance)
            }
            BeamLight::Certified { eta0, modifier: by_angle } => {
                eta0 * modifier(by_angle, cos_incidence.min(1.0))
            }
        }
    }
}

/// Share of light at one angle that a sheet behind covers takes up.
///
/// `(tau alpha) = tau alpha / (1 - (1 - alpha) rho_d)`: what the sheet throws back, the covers'
/// inner side throws on to it again, and so on; `rho_d` is that side's reflectance for diffuse
/// light, taken at 60 degrees.
///
/// `covers`: from the sheet outwards; none for a bare sheet.
///
/// # Valid range
/// As [`optics`].
///
/// # Source
/// Duffie and Beckman 2006, eq. 5.5.1.
///
/// # Checked
/// OP-06 (tau 0.84, alpha 0.90, rho 0.16: 0.768) within 0.002; `rho_d` of clear glass 0.16, of two
/// panes 0.24.
pub fn transmittance_absorptance(
    covers: &[Cover],
    sheet_absorptance: f64,
    incidence: Angle,
) -> f64 {
    let passed = through(covers, incidence.cos()).transmittance;
    with_reflection(passed, sheet_absorptance, inside_reflectance(covers))
}

/// Share of diffuse light from below that covers throw back, taken at 60 degrees.
///
/// # Valid range
/// As [`optics`].
///
/// # Source
/// Duffie and Beckman 2006, section 5.5.
///
/// # Checked
/// Clear glass: 0.16 for one pane, 0.24 for two, within their last digit.
pub fn inside_reflectance(covers: &[Cover]) -> f64 {
    let both = polarised(covers, SIXTY.cos());
    0.5 * (both[0].thrown_in + both[1].thrown_in)
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

/// Transmission of covers, from outside, at an angle of incidence.
///
/// For each polarisation, one wall with `r` from [`fresnel`] and `ta = exp(-K L / cos t2)`:
/// `tau = ta (1 - r)^2 / (1 - (r ta)^2)`, `rho = r (1 + ta tau)`; walls and covers behind one
/// another throw light to and fro, `tau = tau1 tau2/(1 - rho1 rho2)`,
/// `rho = rho1 + tau1^2 rho2/(1 - rho1 rho2)`; then the mean of both. What neither passes nor comes
/// back is kept as heat.
///
/// `covers`: from the sheet outwards.
///
/// # Valid range
/// 0 to 90 degrees; at 90 and beyond everything is thrown back. See [`optics`].
///
/// # Source
/// Duffie and Beckman 2006, eq. 5.1.7 and 5.3.1 to 5.3.3 (one cover); Stokes 1862 as section 5.1
/// gives it for plates behind one another.
///
/// # Checked
/// OP-03 (their example 5.3.1) within 0.002, OP-04 within 0.001, ceilings of OP-09; `n` panes that
/// absorb nothing against `(1 - r)/(1 + (2n - 1) r)` (their eq. 5.1.8).
pub fn transmission(covers: &[Cover], incidence: Angle) -> Transmission {
    through(covers, incidence.cos())
}

fn through(covers: &[Cover], cos_incidence: f64) -> Transmission {
    let [one, other] = polarised(covers, cos_incidence);
    let transmittance = 0.5 * (one.passed + other.passed);
    let reflectance = 0.5 * (one.thrown_out + other.thrown_out);
    Transmission { transmittance, reflectance, absorptance: 1.0 - transmittance - reflectance }
}

/// Sunlight each cover keeps as heat, as a share of what falls on the outermost.
///
/// From the sheet outwards, like `covers`. What the sheet throws back is not followed: some
/// hundredths of what is kept.
///
/// # Valid range
/// As [`transmission`].
///
/// # Source
/// As [`transmission`], the light between the covers followed to and fro.
///
/// # Checked
/// Adds up to the stack's absorptance.
pub fn kept_by_covers(covers: &[Cover], incidence: Angle) -> Vec<f64> {
    let cos_incidence = incidence.cos();
    let mut kept = vec![0.0; covers.len()];
    for polarisation in 0..2 {
        let slab = |covers: &[Cover]| polarised(covers, cos_incidence)[polarisation];
        for (at, share) in kept.iter_mut().enumerate() {
            // Light coming down on this cover and up on it, with all the others in place.
            let (above, here, below) =
                (slab(&covers[at + 1..]), slab(&covers[at..=at]), slab(&covers[..at]));
            let with_below = here.over(below);
            let down = above.passed / (1.0 - above.thrown_in * with_below.thrown_out);
            let up =
                down * here.passed * below.thrown_out / (1.0 - here.thrown_in * below.thrown_out);
            *share += 0.5 * (down + up) * (1.0 - here.passed - here.thrown_out);
        }
    }
    kept
}

/// Extinction \[1/m\] at which a cover passes so much of the light that falls straight on it.
///
/// Inverts [`transmission`] at no angle. `None` where even a clear cover passes less.
///
/// # Valid range
/// Transmittance above 0; `cover`'s own extinction is not looked at.
///
/// # Source
/// As [`transmission`].
///
/// # Checked
/// Puts the transmittance back to 1e-9.
pub fn extinction_1_m(cover: &Cover, transmittance: f64) -> Option<f64> {
    let passes = |extinction_1_m: f64| {
        transmission(&[Cover { extinction_1_m, ..*cover }], Angle::ZERO).transmittance
    };
    if !(transmittance > 0.0 && transmittance <= passes(0.0) && cover.thickness_m > 0.0) {
        return None;
    }
    let (mut low, mut high) = (0.0, 50.0 / cover.thickness_m);
    for _ in 0..200 {
        let middle = 0.5 * (low + high);
        if passes(middle) > transmittance { low = middle } else { high = middle }
    }
    Some(0.5 * (low + high))
}

/// A slab of one or many walls for one polarisation.
#[derive(Clone, Copy, Debug)]
struct Slab {
    passed: f64,
    /// Of light from outside.
    thrown_out: f64,
    /// Of light from inside.
    thrown_in: f64,
}

impl Slab {
    /// Nothing at all: all light passes.
    const NONE: Slab = Slab { passed: 1.0, thrown_out: 0.0, thrown_in: 0.0 };

    /// This slab outside, another inside it.
    fn over(self, inner: Slab) -> Slab {
        let round = 1.0 - self.thrown_in * inner.thrown_out;
        if round <= 0.0 {
            // Two mirrors: nothing passes, and each throws back its own.
            return Slab { passed: 0.0, thrown_out: self.thrown_out, thrown_in: inner.thrown_in };
        }
        Slab {
            passed: self.passed * inner.passed / round,
            thrown_out: self.thrown_out + self.passed * self.passed * inner.thrown_out / round,
            thrown_in: inner.thrown_in + inner.passed * inner.passed * self.thrown_in / round,
        }
    }
}

/// The covers for either polarisation.
fn polarised(covers: &[Cover], cos_incidence: f64) -> [Slab; 2] {
    let mut both = [Slab::NONE; 2];
    for cover in covers {
        for (stack, wall) in both.iter_mut().zip(wall(cover, cos_incidence)) {
            let mut slab = wall;
            for _ in 1..cover.walls.max(1) {
                slab = slab.over(wall);
            }
            slab.passed *= cover.clean_share;
            *stack = slab.over(*stack);
        }
    }
    both
}

/// One wall of a cover for either polarisation.
fn wall(cover: &Cover, cos_incidence: f64) -> [Slab; 2] {
    let path = cover.extinction_1_m.max(0.0) * cover.thickness_m.max(0.0);
    let surface = fresnel(cover.index, cos_incidence);
    let left = (-path / surface.cos_refraction).exp();
    [surface.perpendicular, surface.parallel].map(|r| {
        // Grazing light on a pane that absorbs nothing: 0/0, and nothing passes.
        if 1.0 - r * left <= 0.0 {
            return Slab { passed: 0.0, thrown_out: 1.0, thrown_in: 1.0 };
        }
        let passed = left * (1.0 - r).powi(2) / (1.0 - (r * left).powi(2));
        let thrown = r * (1.0 + left * passed);
        Slab { passed, thrown_out: thrown, thrown_in: thrown }
    })
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
        Cover { extinction_1_m, thickness_m, ..super::super::samples::glass() }
    }

    /// Given: clear glass, one pane and two. Expected: diffuse reflectance 0.16 and 0.24, Duffie
    /// and Beckman section 5.5. Tolerance 0.005, their last digit.
    #[test]
    fn diffuse_reflectance_of_clear_glass() {
        let clear = glass(0.0, 0.004);
        for (covers, expected) in [(vec![clear], 0.16), (vec![clear, clear], 0.24)] {
            let reflectance = inside_reflectance(&covers);
            assert!((reflectance - expected).abs() < 0.005, "{reflectance} is not {expected}");
        }
    }

    /// Given: one to four panes that absorb nothing, straight and at 60 degrees. Expected:
    /// `(1 - r)/(1 + (2n - 1) r)` for either polarisation, Duffie and Beckman eq. 5.1.8; their
    /// figure 5.1.3 gives 0.85 for two panes straight on (0.01). To 1e-12.
    #[test]
    fn clear_panes_behind_one_another() {
        for cos_incidence in [1.0, 0.5] {
            let surface = fresnel(1.526, cos_incidence);
            for panes in 1..=4_u32 {
                let count = 2.0 * f64::from(panes) - 1.0;
                let by_hand = [surface.perpendicular, surface.parallel]
                    .map(|r| 0.5 * (1.0 - r) / (1.0 + count * r))
                    .iter()
                    .sum::<f64>();
                let covers = vec![glass(0.0, 0.004); panes as usize];
                assert!((through(&covers, cos_incidence).transmittance - by_hand).abs() < 1e-12);
                let walls = Cover { walls: panes, ..glass(0.0, 0.004) };
                assert!((through(&[walls], cos_incidence).transmittance - by_hand).abs() < 1e-12);
            }
        }
        let two = transmission(&[glass(0.0, 0.004); 2], Angle::ZERO).transmittance;
        assert!((two - 0.85).abs() < 0.01, "{two}");
    }

    /// Given: a twin-wall sheet said to pass 0.79. Expected: the extinction found passes that
    /// again, to 1e-9; more than a clear one passes cannot be had.
    #[test]
    fn an_extinction_for_a_stated_transmittance() {
        let twin = Cover { walls: 2, index: 1.59, ..glass(0.0, 0.0005) };
        let extinction_1_m = extinction_1_m(&twin, 0.79).unwrap();
        let passed = transmission(&[Cover { extinction_1_m, ..twin }], Angle::ZERO).transmittance;
        assert!((passed - 0.79).abs() < 1e-9);
        assert_eq!(super::extinction_1_m(&twin, 0.95), None);
        assert_eq!(super::extinction_1_m(&twin, f64::NAN), None);
    }

    /// Given: a cover from which dirt takes a tenth. Expected: a tenth less passes (exact), and
    /// what does not pass stays in it.
    #[test]
    fn dirt_takes_its_share() {
        let dirty = Cover { clean_share: 0.9, ..glass(16.0, 0.004) };
        let (clean, soiled) = (
            transmission(&[glass(16.0, 0.004)], Angle::from_degrees(30.0)),
            transmission(&[dirty], Angle::from_degrees(30.0)),
        );
        assert!((soiled.transmittance - 0.9 * clean.transmittance).abs() < 1e-12);
        assert_eq!(soiled.reflectance, clean.reflectance);
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
            let by_angle = transmission(&[cover], angles.sky).transmittance;
            assert!((sky - by_angle).abs() < 0.02, "sky at {degrees}: {sky}, {by_angle}");
            if degrees > 20.0 {
                let by_angle = transmission(&[cover], angles.ground).transmittance;
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
            let transmittance = through(&[*cover], polar.cos()).transmittance;
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
        let mut panel = super::super::samples::harp();
        panel.diffuse_angle = DiffuseAngle::SixtyDegrees;
        let optics = covered(&panel, Angle::from_degrees(35.0));
        assert_eq!(optics.sky, optics.ground);
        assert!((optics.sky - optics.beam(0.5)).abs() < 1e-12);
    }

    /// Given: a bare sheet. Expected: it takes up its absorptance of everything (exact).
    #[test]
    fn a_bare_sheet_takes_up_its_absorptance() {
        let mut panel = super::super::samples::harp();
        panel.covers.clear();
        let optics = covered(&panel, Angle::from_degrees(35.0));
        assert_eq!((optics.sky, optics.ground, optics.beam(0.2)), (0.95, 0.95, 0.95));
    }

    /// Given: light from behind, and an index that means nothing. Expected: no light, no
    /// not-a-number.
    #[test]
    fn no_light_from_nonsense() {
        let sound = covered(&super::super::samples::harp(), Angle::from_degrees(35.0));
        assert_eq!(sound.beam(-0.3), 0.0);
        assert_eq!(sound.beam(f64::NAN), 0.0);
        for index in [0.0, -1.0, f64::NAN] {
            let cover = Cover { index, ..glass(16.0, 0.004) };
            assert_eq!(transmission(&[cover], Angle::ZERO).transmittance, 0.0);
        }
        let grazing = transmission(&[glass(0.0, 0.004)], Angle::from_degrees(90.0));
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
            let stack = [Cover { walls: 2, ..cover }, cover];
            let light = transmission(&stack, Angle::from_degrees(degrees));
            let kept: f64 = kept_by_covers(&stack, Angle::from_degrees(degrees)).iter().sum();
            prop_assert!((light.absorptance - kept).abs() < 1e-9, "{kept}");
            for share in [light.transmittance, light.reflectance, light.absorptance] {
                prop_assert!((-1e-12..=1.0 + 1e-12).contains(&share));
            }
        }
    }
}
