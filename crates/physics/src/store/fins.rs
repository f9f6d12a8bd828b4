//! Round fins on the coil's tube: how much of their surface counts, and what the water between
//! them takes.

use std::f64::consts::PI;

use super::convection::{StillWater, still_water_film_w_m2_k};
use super::error::StoreError;
use crate::GRAVITY_M_S2;
use crate::matter::fluid::{Fluid, properties_held, water_expansion_1_k};

/// Round fins of even thickness, square to the tube's axis.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fins {
    /// Diameter over the fins \[m\].
    pub outside_m: f64,
    /// Thickness of one \[m\].
    pub thickness_m: f64,
    /// From one to the next, middle to middle \[m\].
    pub pitch_m: f64,
    /// Conductivity of their metal \[W/(m K)\].
    pub conductivity_w_m_k: f64,
}

impl Fins {
    /// Surface of the fins, tips too, for a metre of tube \[m2/m\].
    ///
    /// `root_m`: outside diameter of the tube they stand on \[m\].
    pub fn surface_m(&self, root_m: f64) -> f64 {
        let faces_m2 = PI / 2.0 * (self.outside_m.powi(2) - root_m.powi(2));
        (faces_m2 + PI * self.outside_m * self.thickness_m) / self.pitch_m
    }

    /// Bare tube between the fins, for a metre of tube \[m2/m\].
    pub fn bare_m(&self, root_m: f64) -> f64 {
        PI * root_m * (1.0 - self.thickness_m / self.pitch_m)
    }

    /// Clear water between two of them \[m\].
    pub fn gap_m(&self) -> f64 {
        self.pitch_m - self.thickness_m
    }
}

/// Conductance from a finned tube's wall to still water, for a metre of tube \[W/(m K)\].
///
/// ```text
/// K = h (A_bare + eta A_fin)      h: nusselt_bar_cohen_rohsenow_1984, eta: fin_efficiency_schmidt_1949
/// ```
///
/// Fins on a level tube stand upright, so the water between two of them rises as between upright
/// plates; the plates' height is the diameter over the fins, for fin and bare tube alike. That
/// height is a judgement: a round fin's mean chord is 0.79 of it, the way round the tube 1.57. Where
/// the water between them hardly moves, fins and water together pass what a plain tube as thick as
/// the fins are wide would, by Churchill and Chu 1975: never less than that.
///
/// - `fins`: the fins. `root_m`: outside diameter of the tube they stand on \[m\].
/// - `wall_k`, `water_k`: absolute \[K\]; their mean is held to 0 to 110 C for the properties.
///
/// # Valid range
/// Positive measures, fins wider than the tube, thinner than their pitch; a [`StoreError`] outside.
/// Fins under the tube's own plume, or furred up, get less.
///
/// # Checked
/// Fin efficiency against the exact solution; the film between its two limits; the whole between a
/// plain tube as thick and all its surface at the plain tube's film. No measured coil stands behind
/// it: take it to a quarter.
pub fn finned_w_m_k(
    fins: &Fins,
    root_m: f64,
    (wall_k, water_k): (f64, f64),
) -> Result<f64, StoreError> {
    check(fins, root_m)?;
    let film_k = (0.5 * (wall_k + water_k)).clamp(273.15, 383.15);
    let water = properties_held(Fluid::Water, film_k)?;
    let growth = water_expansion_1_k(film_k)?.abs() * (wall_k - water_k).abs();
    let kinematic_m2_s = water.viscosity_pa_s / water.density_kg_m3;
    let diffusivity_m2_s = water.conductivity_w_m_k / water.volume_heat_j_m3_k();
    let gap_m = fins.gap_m();
    let rayleigh = GRAVITY_M_S2 * growth * gap_m.powi(3) / (kinematic_m2_s * diffusivity_m2_s);
    let nusselt = nusselt_bar_cohen_rohsenow_1984(rayleigh * gap_m / fins.outside_m);
    let film_w_m2_k = nusselt * water.conductivity_w_m_k / gap_m;
    let share = fin_efficiency_schmidt_1949(fins, root_m, film_w_m2_k);
    let finned_w_m_k = film_w_m2_k * (fins.bare_m(root_m) + share * fins.surface_m(root_m));
    let thick = StillWater::ChurchillChu1975;
    let thick_w_m2_k = still_water_film_w_m2_k(thick, fins.outside_m, (wall_k, water_k))?;
    Ok(finned_w_m_k.max(thick_w_m2_k * PI * fins.outside_m))
}

/// Efficiency of a round fin of even thickness.
///
/// ```text
/// eta = tanh(m r f)/(m r f),   f = (R/r - 1)(1 + 0.35 ln(R/r)),   m = sqrt(2 h/(k t))
/// ```
///
/// R is the fin's radius and half its thickness, so that the tip counts.
///
/// - `fins`: the fins. `root_m`: diameter they stand on \[m\].
/// - `film_w_m2_k`: film on both faces \[W/(m2 K)\]; water 200 to 1000.
///
/// # Valid range
/// R/r up to 2.7: within 2 % of the exact solution there, for low fins (R/r of 1.5) within 0.5 %. No
/// film gives 1.
///
/// # Source
/// Schmidt, Refrigerating Engineering 57 (1949) 351; from memory.
///
/// # Checked
/// Against the exact solution (Gardner 1945, with Bessel functions) of the fin's equation,
/// integrated: to 0.5 % for low fins, to 2 % up to R/r of 2.7.
pub fn fin_efficiency_schmidt_1949(fins: &Fins, root_m: f64, film_w_m2_k: f64) -> f64 {
    let radius_share = (fins.outside_m + fins.thickness_m) / root_m;
    let reach = (radius_share - 1.0) * (1.0 + 0.35 * radius_share.ln());
    let decay_1_m = (2.0 * film_w_m2_k / (fins.conductivity_w_m_k * fins.thickness_m)).sqrt();
    let length = decay_1_m * 0.5 * root_m * reach;
    if length > 0.0 { length.tanh() / length } else { 1.0 }
}

/// Nusselt number of the water between two upright plates, on their clear distance.
///
/// ```text
/// Nu = [576/Ra'^2 + 2.873/Ra'^(1/2)]^(-1/2),   Ra' = Ra s/L
/// ```
///
/// `elenbaas`: Ra', the Rayleigh number on the clear distance times that distance over the plates'
/// height, 0 or more. The film counts with plates over water as it enters between them.
///
/// # Valid range
/// Laminar, both plates equally warm; any Ra'. Narrow gaps choke (Ra'/24); wide ones are plates
/// alone, 0.59 Ra^(1/4), which is that of water better than that of air.
///
/// # Source
/// Bar-Cohen and Rohsenow, J. Heat Transfer 106 (1984) 116; from memory.
///
/// # Checked
/// Both limits to 1 %; its two constants against those of Elenbaas 1942 by those limits.
pub fn nusselt_bar_cohen_rohsenow_1984(elenbaas: f64) -> f64 {
    if elenbaas > 0.0 {
        (576.0 / elenbaas.powi(2) + 2.873 / elenbaas.sqrt()).powf(-0.5)
    } else {
        0.0
    }
}

fn check(fins: &Fins, root_m: f64) -> Result<(), StoreError> {
    let good = fins.outside_m > root_m && fins.outside_m.is_finite();
    let must = "more than the tube's outside";
    StoreError::unless(good, "the diameter over the fins in m", fins.outside_m, must)?;
    let good = fins.thickness_m > 0.0 && fins.thickness_m < fins.pitch_m;
    let must = "more than 0, under the pitch";
    StoreError::unless(good, "the fins' thickness in m", fins.thickness_m, must)?;
    StoreError::unless(fins.pitch_m.is_finite(), "the fins' pitch in m", fins.pitch_m, "finite")?;
    let conductivity = fins.conductivity_w_m_k;
    let good = conductivity > 0.0 && conductivity.is_finite();
    StoreError::unless(good, "the fins' conductivity", conductivity, "more than 0")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::ZERO_CELSIUS_K as C;

    /// Copper tube of 15 mm with rolled fins of 22 mm, eleven to the inch.
    const FINS: Fins =
        Fins { outside_m: 0.022, thickness_m: 0.0004, pitch_m: 0.0023, conductivity_w_m_k: 340.0 };

    /// Given fins and film, the exact efficiency is that of Gardner 1945, here integrated: the fin's
    /// equation (r T')' = m2 r T shot from an insulated tip inwards in 20 000 steps. Beside each stands
    /// that solution by a library's Bessel functions (mpmath 1.3), and how far a fit of one line may
    /// be from it: half a percent for low fins, 2 % for wide ones.
    #[test]
    fn the_efficiency_is_nearly_the_exact_one() {
        for (outside_m, thickness_m, film_w_m2_k, library, allowed) in [
            (0.022, 0.0004, 500.0, 0.960766, 0.005),
            (0.022, 0.0004, 900.0, 0.931857, 0.005),
            (0.035, 0.0003, 500.0, 0.671537, 0.02),
            (0.040, 0.0003, 900.0, 0.427663, 0.02),
        ] {
            let fins = Fins { outside_m, thickness_m, ..FINS };
            let (root_m, tip_m) = (0.0075, 0.5 * (outside_m + thickness_m));
            let m2_1_m2 = 2.0 * film_w_m2_k / (fins.conductivity_w_m_k * thickness_m);
            let steps = 20_000;
            let step_m = (tip_m - root_m) / f64::from(steps);
            // Excess, and radius times its slope, from the tip: flux 0.
            let (mut excess, mut flux) = (1.0, 0.0);
            for step in 0..steps {
                let radius_m = tip_m - step_m * (f64::from(step) + 0.5);
                let mid = excess + 0.5 * step_m * flux / (radius_m + 0.5 * step_m);
                flux += step_m * m2_1_m2 * radius_m * mid;
                excess += step_m * flux / radius_m;
            }
            let exact = flux / (excess * m2_1_m2 * 0.5 * (tip_m.powi(2) - root_m.powi(2)));
            let got = fin_efficiency_schmidt_1949(&fins, 2.0 * root_m, film_w_m2_k);
            assert!((exact / library - 1.0_f64).abs() < 1e-3, "{exact} against {library}");
            assert!((got / exact - 1.0).abs() < allowed, "{got} against {exact}");
        }
    }

    /// Given narrow and wide gaps, the limits Ra'/24 (fully developed flow between plates) and
    /// 0.59 Ra^(1/4) (a plate alone, McAdams) to 1 %.
    #[test]
    fn the_gap_has_its_two_limits() {
        assert!((nusselt_bar_cohen_rohsenow_1984(0.1) / (0.1 / 24.0) - 1.0).abs() < 0.01);
        let wide = nusselt_bar_cohen_rohsenow_1984(1e6);
        assert!((wide / (0.59 * 1e6_f64.powf(0.25)) - 1.0).abs() < 0.01, "{wide}");
        assert_eq!(nusselt_bar_cohen_rohsenow_1984(0.0), 0.0);
    }

    /// Given a finned tube 10 K warmer than water of 40 C, a metre passes more than a plain tube as
    /// thick as its fins are wide, and less than all its surface at the bare tube's film; given one
    /// a hundredth of a kelvin warmer, whose water is choked, what that thick tube passes.
    #[test]
    fn fins_are_worth_something_and_not_all_their_surface() {
        let finned = finned_w_m_k(&FINS, 0.015, (C + 50.0, C + 40.0)).unwrap();
        let plain = |outside_m, wall_k| {
            let relation = StillWater::ChurchillChu1975;
            still_water_film_w_m2_k(relation, outside_m, (wall_k, C + 40.0)).unwrap()
        };
        let thick = plain(0.022, C + 50.0) * PI * 0.022;
        let all = plain(0.015, C + 50.0) * (FINS.surface_m(0.015) + FINS.bare_m(0.015));
        assert!((thick..all).contains(&finned), "{finned} of {thick} to {all} W/(m K)");
        let choked = finned_w_m_k(&FINS, 0.015, (C + 40.01, C + 40.0)).unwrap();
        assert_eq!(choked, plain(0.022, C + 40.01) * PI * 0.022);
    }

    /// Given fins no wider than the tube, or thicker than their pitch, a sentence and no number.
    #[test]
    fn bad_fins_are_told() {
        let at = |fins: &Fins| finned_w_m_k(fins, 0.015, (C + 50.0, C + 40.0)).is_err();
        assert!(at(&Fins { outside_m: 0.015, ..FINS }));
        assert!(at(&Fins { thickness_m: 0.003, ..FINS }));
        assert!(at(&Fins { conductivity_w_m_k: f64::NAN, ..FINS }));
    }
}
