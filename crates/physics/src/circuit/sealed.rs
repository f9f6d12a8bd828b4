//! How the pressure in a shut, full pipe answers to warmth.

use super::error::CircuitError;
use crate::matter::pressed::PressedWater;

/// What a pipe is made of, as far as it yields and grows.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PipeMaterial {
    /// Young's modulus \[Pa\].
    pub elasticity_pa: f64,
    /// Poisson's ratio.
    pub poisson: f64,
    /// Linear expansion \[1/K\].
    pub expansion_1_k: f64,
}

impl PipeMaterial {
    /// Copper: 120 GPa, 0.34, 16.8e-6 1/K (handbook values).
    pub const COPPER: PipeMaterial =
        PipeMaterial { elasticity_pa: 120e9, poisson: 0.34, expansion_1_k: 16.8e-6 };

    /// Crosslinked polyethylene: 600 MPa, 0.45, 150e-6 1/K; the modulus parts several-fold by
    /// grade, time and warmth.
    pub const CROSSLINKED_POLYETHYLENE: PipeMaterial =
        PipeMaterial { elasticity_pa: 600e6, poisson: 0.45, expansion_1_k: 150e-6 };
}

/// A pipe shut at both ends, free to stretch.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ShutPipe {
    /// Outside diameter \[m\].
    pub outside_m: f64,
    /// Thickness of the wall \[m\].
    pub wall_m: f64,
    /// What it is made of.
    pub material: PipeMaterial,
}

/// What fills it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Filling {
    /// The water, see [`pressed_water`](crate::matter::pressed::pressed_water).
    pub water: PressedWater,
    /// Share of the contents that is trapped air, 0 to 0.5.
    pub air_share: f64,
    /// Pressure at which that share was air, absolute \[Pa\].
    pub pressure_pa: f64,
    /// Temperature of all of it, absolute \[K\].
    pub temperature_k: f64,
}

/// How pipe and filling answer.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SealedAnswer {
    /// What the filling grows more than the pipe, relative \[1/K\].
    pub net_expansion_1_k: f64,
    /// What filling and pipe give way, relative to the contents \[1/Pa\].
    pub compliance_1_pa: f64,
    /// Rise of the pressure for each kelvin \[Pa/K\]; negative where the pipe outgrows the filling,
    /// as plastic does cold.
    pub rise_pa_k: f64,
}

/// How the pressure in a shut, full pipe answers to warmth.
///
/// ```text
/// dp/dT = [(1 - s) beta + s/T - 3 alpha] / [(1 - s) kappa + s/p + c]
/// c = (d/(t E)) (5/4 - nu)
/// ```
///
/// s share of air, beta and kappa of water, alpha, E, nu of the pipe, d its bore, t its wall.
///
/// - `pipe`: copper 15 mm by 0.7 mm, say.
/// - `filling`: water near the trial's temperature; air share 0 only after long venting.
///
/// # Valid range
/// Small changes about the state given; walls thinner than a tenth of the bore for c (thicker
/// plastic yields a little less than said). Bore, wall, modulus more than 0, Poisson's ratio 0 to
/// 0.5, air 0 to 0.5; a [`CircuitError`] outside. A loop water-locked so rises past any relief valve
/// that is shut off from it, in one kelvin's warming.
///
/// # Source
/// Balance of volumes; thin-walled pipe with closed ends, free to stretch, as pipeline trials
/// reckon it.
///
/// # Checked
/// D-13 and D-15 to 1e-4; D-21 (a field report's pipe) to 1 %.
///
/// # Example
/// ```
/// use physics::circuit::sealed::{Filling, PipeMaterial, ShutPipe, sealed};
/// use physics::matter::pressed::pressed_water;
/// let pipe = ShutPipe { outside_m: 0.015, wall_m: 0.0007, material: PipeMaterial::COPPER };
/// let filling = Filling {
///     water: pressed_water(293.15, 6e5).unwrap(),
///     air_share: 0.0,
///     pressure_pa: 6e5,
///     temperature_k: 293.15,
/// };
/// assert!((sealed(&pipe, &filling).unwrap().rise_pa_k - 2.59e5).abs() < 1e3);
/// ```
pub fn sealed(pipe: &ShutPipe, filling: &Filling) -> Result<SealedAnswer, CircuitError> {
    let pipe_1_pa = pipe_compliance_1_pa(pipe)?;
    let share = filling.air_share;
    CircuitError::unless((0.0..=0.5).contains(&share), "the share of air", share, "0 to 0.5")?;
    let must = "more than 0";
    let pressure_pa = filling.pressure_pa;
    let good = pressure_pa > 0.0 && pressure_pa.is_finite();
    CircuitError::unless(good, "the pressure in Pa", pressure_pa, must)?;
    let temperature_k = filling.temperature_k;
    let good = temperature_k > 0.0 && temperature_k.is_finite();
    CircuitError::unless(good, "the temperature in K", temperature_k, must)?;
    check_water(&filling.water)?;
    let net_expansion_1_k = (1.0 - share) * filling.water.expansion_1_k + share / temperature_k
        - 3.0 * pipe.material.expansion_1_k;
    let compliance_1_pa =
        (1.0 - share) * filling.water.compressibility_1_pa + share / pressure_pa + pipe_1_pa;
    let rise_pa_k = net_expansion_1_k / compliance_1_pa;
    Ok(SealedAnswer { net_expansion_1_k, compliance_1_pa, rise_pa_k })
}

/// What a pipe's contents grow by when pressure swells it, relative \[1/Pa\].
///
/// ```text
/// c = (d/(t E)) (5/4 - nu)
/// ```
///
/// # Valid range
/// As [`sealed`].
///
/// # Source
/// Thin-walled pipe with closed ends, free to stretch.
///
/// # Checked
/// With [`sealed`]; and D-16, which prints that of 15 mm copper, to 1e-9.
pub fn pipe_compliance_1_pa(pipe: &ShutPipe) -> Result<f64, CircuitError> {
    let good = pipe.wall_m > 0.0 && pipe.wall_m.is_finite();
    CircuitError::unless(good, "the wall in m", pipe.wall_m, "more than 0")?;
    let bore_m = pipe.outside_m - 2.0 * pipe.wall_m;
    let good = bore_m > 0.0 && bore_m.is_finite();
    CircuitError::unless(good, "the bore in m", bore_m, "more than 0")?;
    let PipeMaterial { elasticity_pa, poisson, expansion_1_k } = pipe.material;
    let good = elasticity_pa > 0.0 && elasticity_pa.is_finite();
    CircuitError::unless(good, "the elasticity in Pa", elasticity_pa, "more than 0")?;
    CircuitError::unless((0.0..=0.5).contains(&poisson), "Poisson's ratio", poisson, "0 to 0.5")?;
    CircuitError::unless(expansion_1_k.is_finite(), "the expansion", expansion_1_k, "a number")?;
    Ok(bore_m / (pipe.wall_m * elasticity_pa) * (1.25 - poisson))
}

/// Passes water that can be pressed.
pub(super) fn check_water(water: &PressedWater) -> Result<(), CircuitError> {
    let expansion = water.expansion_1_k;
    CircuitError::unless(expansion.is_finite(), "the water's expansion", expansion, "a number")?;
    let give = water.compressibility_1_pa;
    let good = give > 0.0 && give.is_finite();
    CircuitError::unless(good, "the water's compressibility in 1/Pa", give, "more than 0")?;
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::ZERO_CELSIUS_K;
    use crate::matter::pressed::pressed_water;

    const COPPER: ShutPipe =
        ShutPipe { outside_m: 0.015, wall_m: 0.0007, material: PipeMaterial::COPPER };

    fn filled(celsius: f64, air_share: f64) -> Filling {
        let (temperature_k, pressure_pa) = (celsius + ZERO_CELSIUS_K, 6e5);
        let water = pressed_water(temperature_k, pressure_pa).unwrap();
        Filling { water, air_share, pressure_pa, temperature_k }
    }

    /// Laws: where copper grows as fast as water the pressure stays (near 7 C, as the reference's
    /// survey has it: between 6 and 8); a little air takes nearly all of the rise away; all but
    /// air, the pressure follows Charles (p/T, less the pipe's own growth: 1 %).
    #[test]
    fn laws_of_a_shut_pipe() {
        let rise = |celsius, air| sealed(&COPPER, &filled(celsius, air)).unwrap().rise_pa_k;
        assert!(rise(6.0, 0.0) < 0.0 && rise(8.0, 0.0) > 0.0);
        assert!(rise(20.0, 0.02) < 0.05 * rise(20.0, 0.0));
        let charles_pa_k = 6e5 / 293.15;
        let half = rise(20.0, 0.5);
        assert!((half / charles_pa_k - 1.0).abs() < 0.05, "{half} {charles_pa_k}");
    }

    /// Given: what is no pipe and no filling. Expected: errors.
    #[test]
    fn refuses_nonsense() {
        let filling = filled(20.0, 0.0);
        let soft = PipeMaterial { elasticity_pa: 0.0, ..PipeMaterial::COPPER };
        assert!(sealed(&ShutPipe { material: soft, ..COPPER }, &filling).is_err());
        assert!(sealed(&ShutPipe { wall_m: 0.0075, ..COPPER }, &filling).is_err());
        assert!(sealed(&COPPER, &Filling { air_share: 0.6, ..filling }).is_err());
        assert!(sealed(&COPPER, &Filling { pressure_pa: 0.0, ..filling }).is_err());
        assert!(sealed(&COPPER, &Filling { temperature_k: f64::NAN, ..filling }).is_err());
        let rigid = PressedWater { compressibility_1_pa: 0.0, ..filling.water };
        assert!(sealed(&COPPER, &Filling { water: rigid, ..filling }).is_err());
    }
}
