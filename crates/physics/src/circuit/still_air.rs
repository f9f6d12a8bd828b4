//! A bare pipe in still air.

use super::error::CircuitError;
use crate::matter::air::air_properties;
use crate::store::convection::nusselt_churchill_chu_1975;
use crate::{GRAVITY_M_S2, STEFAN_BOLTZMANN_W_M2_K4};

/// A bare, level pipe in still air, among walls as warm as the air.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BarePipe {
    /// Outside diameter \[m\].
    pub outside_m: f64,
    /// Long-wave emittance of its surface, 0 to 1.
    pub emittance: f64,
    /// Its surface, absolute \[K\].
    pub surface_k: f64,
    /// The air, absolute \[K\].
    pub air_k: f64,
}

/// Film of a bare pipe in still air, by convection and by radiation \[W/(m2 K)\].
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BareFilm {
    /// By convection.
    pub convection_w_m2_k: f64,
    /// By radiation.
    pub radiation_w_m2_k: f64,
}

impl BareFilm {
    /// Both together \[W/(m2 K)\].
    pub fn whole_w_m2_k(&self) -> f64 {
        self.convection_w_m2_k + self.radiation_w_m2_k
    }
}

/// Emittance of weathered pipe, copper or painted: between bright metal's 0.05 and paint's 0.95
/// (judgement).
pub const WEATHERED_EMITTANCE: f64 = 0.6;

/// Film on the outside of a bare, level pipe in still air.
///
/// ```text
/// h = Nu k/D,   Nu by Churchill and Chu 1975,   Ra = g |dT| D^3/(Tf nu alpha)
/// hr = e sigma (Ts^2 + Ta^2)(Ts + Ta)
/// ```
///
/// Air at the film's mean temperature. Upright pipes differ by a tenth or two.
///
/// - `pipe`: diameter, emittance, temperatures.
///
/// # Valid range
/// Positive diameter, an emittance of 0 to 1, 150 to 700 K: a [`CircuitError`] outside.
///
/// # Source
/// Churchill and Chu 1975, as [`nusselt_churchill_chu_1975`]; grey radiation to surroundings that
/// are much larger.
///
/// # Checked
/// ST-13, a published example: Rayleigh and Nusselt number and film to 1.5 %.
pub fn bare_film(pipe: &BarePipe) -> Result<BareFilm, CircuitError> {
    let good = pipe.outside_m > 0.0 && pipe.outside_m.is_finite();
    CircuitError::unless(good, "the outside in m", pipe.outside_m, "more than 0")?;
    let good = (0.0..=1.0).contains(&pipe.emittance);
    CircuitError::unless(good, "the emittance", pipe.emittance, "0 to 1")?;
    for (what, value) in [("the surface in K", pipe.surface_k), ("the air in K", pipe.air_k)] {
        CircuitError::unless((150.0..=700.0).contains(&value), what, value, "150 to 700")?;
    }
    let film_k = 0.5 * (pipe.surface_k + pipe.air_k);
    let air = air_properties(film_k);
    let rayleigh = GRAVITY_M_S2 * (pipe.surface_k - pipe.air_k).abs() * pipe.outside_m.powi(3)
        / (film_k * air.kinematic_viscosity_m2_s * air.diffusivity_m2_s);
    let nusselt = nusselt_churchill_chu_1975(rayleigh, air.prandtl);
    let (surface_k, air_k) = (pipe.surface_k, pipe.air_k);
    Ok(BareFilm {
        convection_w_m2_k: nusselt * air.conductivity_w_m_k / pipe.outside_m,
        radiation_w_m2_k: pipe.emittance
            * STEFAN_BOLTZMANN_W_M2_K4
            * (surface_k * surface_k + air_k * air_k)
            * (surface_k + air_k),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A thin pipe has more film than a thick one, a hot one more than a warm one, a bright one
    /// less than a dull one; what is no pipe is said.
    #[test]
    fn the_film_keeps_the_laws() {
        let pipe = BarePipe { outside_m: 0.015, emittance: 0.6, surface_k: 323.15, air_k: 293.15 };
        let film = |pipe: &BarePipe| bare_film(pipe).unwrap().whole_w_m2_k();
        assert!(film(&BarePipe { outside_m: 0.028, ..pipe }) < film(&pipe));
        assert!(film(&BarePipe { surface_k: 353.15, ..pipe }) > film(&pipe));
        assert!(film(&BarePipe { emittance: 0.05, ..pipe }) < film(&pipe));
        assert!(bare_film(&BarePipe { outside_m: 0.0, ..pipe }).is_err());
        assert!(bare_film(&BarePipe { emittance: 1.1, ..pipe }).is_err());
        assert!(bare_film(&BarePipe { surface_k: f64::NAN, ..pipe }).is_err());
    }
}
