//! Still water around a horizontal tube.

use super::error::StoreError;
use crate::GRAVITY_M_S2;
use crate::matter::fluid::{Fluid, properties_held, water_expansion_1_k};

/// Which relation gives the film of still water around a tube.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum StillWater {
    /// Churchill and Chu 1975, horizontal cylinder, every regime: the default.
    ChurchillChu1975,
    /// Churchill and Chu 1975, their form for laminar boundary layers only.
    ChurchillChuLaminar1975,
    /// Morgan 1975, horizontal cylinder.
    Morgan1975,
    /// Xin and Ebadian 1996, a helix with upright axis.
    XinEbadian1996,
    /// Farrington and Bingham 1986, smooth coils in solar stores; 1.6 to 1.9 times the others.
    FarringtonBingham1986,
}

/// Nusselt number on the outside diameter of a horizontal tube in still fluid.
///
/// - `relation`: see [`StillWater`].
/// - `rayleigh`: g beta |dT| D^3/(nu alpha), on the outside diameter, 0 or more.
/// - `prandtl`: at the film's mean temperature; water 2 to 13.
///
/// # Valid range
/// Rayleigh 0 to 1e12, positive Prandtl; a [`StoreError`] outside. Where a power law would fall
/// below 0.36, the limit of Churchill and Chu for a tube no warmer than its surroundings, that
/// stands. For the coils at hand (Ra 1e5 to 1e7) published relations part by a factor of two;
/// turns in the plume of lower ones get less than any of them says.
///
/// # Checked
/// See each relation's own function.
pub fn nusselt_still(relation: StillWater, rayleigh: f64, prandtl: f64) -> Result<f64, StoreError> {
    let good = (0.0..=1e12).contains(&rayleigh);
    StoreError::unless(good, "the Rayleigh number", rayleigh, "0 to 1e12")?;
    let good = prandtl > 0.0 && prandtl.is_finite();
    StoreError::unless(good, "the Prandtl number", prandtl, "more than 0")?;
    const LEAST: f64 = 0.36;
    Ok(match relation {
        StillWater::ChurchillChu1975 => nusselt_churchill_chu_1975(rayleigh, prandtl),
        StillWater::ChurchillChuLaminar1975 => {
            nusselt_churchill_chu_laminar_1975(rayleigh, prandtl)
        }
        StillWater::Morgan1975 => nusselt_morgan_1975(rayleigh).max(LEAST),
        StillWater::XinEbadian1996 => nusselt_xin_ebadian_1996(rayleigh).max(LEAST),
        StillWater::FarringtonBingham1986 => nusselt_farrington_bingham_1986(rayleigh).max(LEAST),
    })
}

/// Film \[W/(m2 K)\] of still water on the outside of a horizontal tube.
///
/// ```text
/// h = Nu k/D,   Ra = g |beta| |Tw - T| D^3/(nu alpha)      all at (Tw + T)/2
/// ```
///
/// The sign of the difference does not matter, and at none the film is finite. Near 4 C, where
/// water hardly grows, it falls to the conduction limit.
///
/// - `outside_m`: outside diameter of the tube \[m\].
/// - `wall_k`, `water_k`: absolute \[K\]; their mean is held to 0 to 110 C for the properties.
pub fn still_water_film_w_m2_k(
    relation: StillWater,
    outside_m: f64,
    (wall_k, water_k): (f64, f64),
) -> Result<f64, StoreError> {
    let film_k = (0.5 * (wall_k + water_k)).clamp(273.15, 383.15);
    let water = properties_held(Fluid::Water, film_k)?;
    let growth = water_expansion_1_k(film_k)?.abs() * (wall_k - water_k).abs();
    let kinematic_m2_s = water.viscosity_pa_s / water.density_kg_m3;
    let diffusivity_m2_s = water.conductivity_w_m_k / water.volume_heat_j_m3_k();
    let rayleigh = GRAVITY_M_S2 * growth * outside_m.powi(3) / (kinematic_m2_s * diffusivity_m2_s);
    let nusselt = nusselt_still(relation, rayleigh, water.prandtl())?;
    Ok(nusselt * water.conductivity_w_m_k / outside_m)
}

/// Churchill and Chu's relation for a long horizontal cylinder, every regime.
///
/// ```text
/// Nu = {0.60 + 0.387 Ra^(1/6) / [1 + (0.559/Pr)^(9/16)]^(8/27)}^2
/// ```
///
/// # Valid range
/// Ra 1e-5 to 1e12.
///
/// # Source
/// Churchill and Chu, Int. J. Heat Mass Transfer 18 (1975) 1049.
///
/// # Checked
/// ST-09 (worked example, surface to 0.4 K), ST-14 to 1 %, C-01, C-03, C-05 to 1 %.
pub fn nusselt_churchill_chu_1975(rayleigh: f64, prandtl: f64) -> f64 {
    let divisor = (1.0 + (0.559 / prandtl).powf(9.0 / 16.0)).powf(8.0 / 27.0);
    (0.60 + 0.387 * rayleigh.powf(1.0 / 6.0) / divisor).powi(2)
}

/// Churchill and Chu's relation for laminar boundary layers.
///
/// ```text
/// Nu = 0.36 + 0.518 Ra^(1/4) / [1 + (0.559/Pr)^(9/16)]^(4/9)
/// ```
///
/// # Valid range
/// Ra 1e-6 to 1e9.
///
/// # Source
/// Churchill and Chu 1975.
///
/// # Checked
/// ST-11 (worked example) to 0.002.
pub fn nusselt_churchill_chu_laminar_1975(rayleigh: f64, prandtl: f64) -> f64 {
    let divisor = (1.0 + (0.559 / prandtl).powf(9.0 / 16.0)).powf(4.0 / 9.0);
    0.36 + 0.518 * rayleigh.powf(0.25) / divisor
}

/// Morgan's power laws for a horizontal cylinder.
///
/// ```text
/// Nu = B Ra^n     B, n by decades of Ra
/// ```
///
/// # Valid range
/// Ra 1e-10 to 1e12.
///
/// # Source
/// Morgan, Advances in Heat Transfer 11 (1975) 199; coefficients from memory.
///
/// # Checked
/// ST-14 to 1 %.
pub fn nusselt_morgan_1975(rayleigh: f64) -> f64 {
    let (factor, power): (f64, f64) = match rayleigh {
        ra if ra < 1e-2 => (0.675, 0.058),
        ra if ra < 1e2 => (1.02, 0.148),
        ra if ra < 1e4 => (0.850, 0.188),
        ra if ra < 1e7 => (0.480, 0.250),
        _ => (0.125, 0.333),
    };
    factor * rayleigh.powf(power)
}

/// Xin and Ebadian's relation for a helix with upright axis, on the tube's diameter.
///
/// ```text
/// Nu = 0.290 Ra^0.293
/// ```
///
/// # Valid range
/// Measured in air and water for Ra 4e3 to 1e5; used beyond.
///
/// # Source
/// Xin and Ebadian, 1996, as case C-11 states it.
///
/// # Checked
/// C-11 to 1 %.
pub fn nusselt_xin_ebadian_1996(rayleigh: f64) -> f64 {
    0.290 * rayleigh.powf(0.293)
}

/// Farrington and Bingham's rule for smooth coils in solar stores.
///
/// ```text
/// Nu = 0.9 Ra^0.25
/// ```
///
/// # Valid range
/// The report's own range is not at hand; ST-14 checks at 1.3e6, amid the coils of house stores. The
/// front door allows Rayleigh 0 to 1e12.
///
/// # Source
/// Farrington and Bingham, SERI/TR-252-2848 (1986), from memory.
///
/// # Checked
/// ST-14 to 1 %.
pub fn nusselt_farrington_bingham_1986(rayleigh: f64) -> f64 {
    0.9 * rayleigh.powf(0.25)
}
