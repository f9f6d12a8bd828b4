//! Water and antifreeze: how heavy, how warm to carry, how thick, and where it freezes and boils.

use std::fmt;

pub use super::water::{saturation_k, saturation_pressure_pa, water_expansion_1_k};

use super::melinder::{self, Mixture, Strength, freezing_melinder_2010, melinder_2010};
use super::water::water;
use crate::ZERO_CELSIUS_K;

/// What runs in the circuit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Fluid {
    /// Plain water.
    Water,
    /// Propylene glycol in water.
    PropyleneGlycol {
        /// Share of glycol by mass, 0 to 0.6.
        mass_share: f64,
    },
    /// Ethylene glycol in water (poison).
    EthyleneGlycol {
        /// Share of glycol by mass, 0 to 0.6.
        mass_share: f64,
    },
}

/// A kind of glycol.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Glycol {
    /// Propylene glycol.
    Propylene,
    /// Ethylene glycol (poison).
    Ethylene,
}

/// A fluid at one temperature, near atmospheric pressure.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FluidProperties {
    /// Density \[kg/m3\].
    pub density_kg_m3: f64,
    /// Heat capacity at constant pressure \[J/(kg K)\].
    pub heat_capacity_j_kg_k: f64,
    /// Conductivity \[W/(m K)\].
    pub conductivity_w_m_k: f64,
    /// Dynamic viscosity \[Pa s\].
    pub viscosity_pa_s: f64,
}

impl FluidProperties {
    /// Prandtl number: viscosity times heat capacity over conductivity.
    pub fn prandtl(&self) -> f64 {
        self.viscosity_pa_s * self.heat_capacity_j_kg_k / self.conductivity_w_m_k
    }

    /// Heat that one cubic metre takes up for one kelvin \[J/(m3 K)\].
    pub fn volume_heat_j_m3_k(&self) -> f64 {
        self.density_kg_m3 * self.heat_capacity_j_kg_k
    }
}

/// Density, heat capacity, conductivity and viscosity of a fluid at a temperature.
///
/// Water: density by Kell 1975, heat capacity by Popiel and Wojtkowiak 1998, conductivity and
/// viscosity by IAPWS SR6-08. Glycols: the polynomials of Melinder 2010.
///
/// - `fluid`: what runs; a mixture's share by mass is 0 to 0.6.
/// - `temperature_k`: absolute \[K\].
///
/// # Valid range
/// From freezing to 110 C for water and 100 C for mixtures. Colder is
/// [`FluidError::Frozen`], hotter [`FluidError::TooHot`]; [`properties_held`] holds the range's
/// end instead.
///
/// # Source
/// As named above; the coefficients stand in `water.rs` and `melinder.rs`.
///
/// # Checked
/// Against all property rows of `reference/fluid-vectors.csv`: mixtures to 1e-5, water (2 bar) to
/// 1e-4 in density, 2e-4 in viscosity and conductivity, 1e-3 in heat capacity. Data sets for the
/// same mixtures differ by far more; see the module `melinder`.
///
/// # Example
/// ```
/// use physics::matter::fluid::{Fluid, properties};
/// let water = properties(Fluid::Water, 333.15).unwrap();
/// assert!((water.density_kg_m3 - 983.2).abs() < 0.1);
/// assert!(properties(Fluid::Water, 270.0).is_err());
/// ```
pub fn properties(fluid: Fluid, temperature_k: f64) -> Result<FluidProperties, FluidError> {
    check_range(fluid, temperature_k)?;
    Ok(evaluate(fluid, temperature_k))
}

/// As [`properties`], but a temperature outside the range is moved to the range's nearer end.
///
/// For tables that must reach from a frozen night to a dry, hot panel: below freezing it gives
/// the fluid as it is about to freeze, above 110 C (water) or 100 C (mixtures) as it is there.
/// What is held is wrong in proportion to how far it is held: water's density at 150 C is 3.6 %
/// less than at 110 C, its viscosity 28 % less. Whoever reports a state must use [`properties`].
///
/// # Valid range
/// Any finite temperature; a share outside 0 to 0.6 is a [`FluidError`].
pub fn properties_held(fluid: Fluid, temperature_k: f64) -> Result<FluidProperties, FluidError> {
    if !temperature_k.is_finite() {
        return Err(FluidError::NotFinite { temperature_k });
    }
    let freezing_k = freezing_k(fluid)?;
    Ok(evaluate(fluid, temperature_k.clamp(freezing_k, highest_k(fluid))))
}

/// Temperature at which the first ice forms \[K\].
///
/// Water: 0 C. Mixtures: Melinder 2010, freezing column without its terms in temperature.
///
/// # Valid range
/// Shares by mass of 0 to 0.6; a [`FluidError`] outside.
///
/// # Source
/// Melinder 2010, as `melinder.rs` has it.
///
/// # Checked
/// Against A-F-01 to 0.05 K, the freezing rows of `reference/fluid-vectors.csv` to 0.01 K, and
/// A-F-03 (a handbook's table by volume) to 1 K. Keep 3 K in hand: data sets differ by as much
/// as 2.7 K at 50 % ethylene glycol.
///
/// # Example
/// ```
/// use physics::matter::fluid::{Fluid, freezing_k};
/// let third = Fluid::PropyleneGlycol { mass_share: 0.3 };
/// assert!((freezing_k(third).unwrap() - 260.36).abs() < 0.05);
/// ```
pub fn freezing_k(fluid: Fluid) -> Result<f64, FluidError> {
    match mixture(fluid)? {
        None => Ok(ZERO_CELSIUS_K),
        Some((mixture, mass_share)) => Ok(freezing_melinder_2010(mixture, mass_share)),
    }
}

/// Temperature at which a fluid boils under a pressure \[K\].
///
/// ```text
/// y p_sat(T) = p        y: share of water by number of molecules
/// ```
///
/// - `pressure_pa`: absolute \[Pa\].
///
/// # Valid range
/// Pressures over the saturation line, see [`saturation_k`]; shares 0 to 0.6. A screening value:
/// real mixtures depart a little from the ideal law.
///
/// # Source
/// Raoult's law, the glycol taken as giving no vapour; molar masses 76.09, 62.07 and 18.015.
///
/// # Checked
/// Against A-B-01 to 0.1 K and D-08 (water below a header tank) to 0.05 K.
pub fn boiling_k(fluid: Fluid, pressure_pa: f64) -> Result<f64, FluidError> {
    mixture(fluid)?;
    saturation_k(pressure_pa / molecules_of_water_share(fluid))
}

/// Pressure of a fluid's own vapour at a temperature \[Pa\], absolute: the inverse of
/// [`boiling_k`].
///
/// ```text
/// p = y p_sat(T)        y: share of water by number of molecules
/// ```
///
/// - `temperature_k`: absolute \[K\].
///
/// # Valid range
/// That of [`saturation_pressure_pa`]; shares 0 to 0.6.
///
/// # Source
/// As [`boiling_k`].
///
/// # Checked
/// By A-B-01, through [`boiling_k`].
pub fn vapour_pressure_pa(fluid: Fluid, temperature_k: f64) -> Result<f64, FluidError> {
    mixture(fluid)?;
    Ok(molecules_of_water_share(fluid) * saturation_pressure_pa(temperature_k)?)
}

/// Share of water by number of molecules.
fn molecules_of_water_share(fluid: Fluid) -> f64 {
    const WATER_KG_KMOL: f64 = 18.015;
    match fluid {
        Fluid::Water => 1.0,
        Fluid::PropyleneGlycol { mass_share } => water_share(mass_share, 76.09 / WATER_KG_KMOL),
        Fluid::EthyleneGlycol { mass_share } => water_share(mass_share, 62.07 / WATER_KG_KMOL),
    }
}

/// How much a fluid's volume grows from cold to hot, relative to the cold volume.
///
/// ```text
/// e = rho(cold)/rho(hot) - 1
/// ```
///
/// - `cold_k`, `hot_k`: absolute \[K\]; positive growth where hot is the hotter.
///
/// # Valid range
/// That of [`properties`] at both temperatures.
///
/// # Checked
/// Against A-W-04 to 1 %, A-X-01 and D-01 to 2 %, and the expansion rows of
/// `reference/fluid-vectors.csv`.
pub fn growth(fluid: Fluid, cold_k: f64, hot_k: f64) -> Result<f64, FluidError> {
    Ok(properties(fluid, cold_k)?.density_kg_m3 / properties(fluid, hot_k)?.density_kg_m3 - 1.0)
}

/// Share of glycol by mass from its share by volume, measured before mixing at 20 C.
///
/// ```text
/// w = phi rho_g / (phi rho_g + (1 - phi) rho_w)
/// ```
///
/// Densities at 20 C: propylene glycol 1036.1, ethylene glycol 1113.2 (from memory), water 998.2.
///
/// # Valid range
/// Shares of 0 to 1; a [`FluidError`] outside.
///
/// # Checked
/// Against A-V-01 to 1e-4.
pub fn mass_share_from_volume_share(kind: Glycol, volume_share: f64) -> Result<f64, FluidError> {
    if !(0.0..=1.0).contains(&volume_share) {
        return Err(FluidError::VolumeShareOutside { volume_share });
    }
    let glycol = match kind {
        Glycol::Propylene => volume_share * 1036.1,
        Glycol::Ethylene => volume_share * 1113.2,
    };
    Ok(glycol / (glycol + (1.0 - volume_share) * 998.2))
}

/// What is wrong with a fluid's temperature, strength or pressure.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum FluidError {
    /// Colder than it freezes.
    Frozen {
        /// What was asked for \[K\].
        temperature_k: f64,
        /// Where this fluid freezes \[K\].
        freezing_k: f64,
    },
    /// Hotter than the data reach.
    TooHot {
        /// What was asked for \[K\].
        temperature_k: f64,
        /// Where the data end \[K\].
        highest_k: f64,
    },
    /// No number at all.
    NotFinite {
        /// What was asked for \[K\].
        temperature_k: f64,
    },
    /// A share by mass that the data do not hold.
    MassShareOutside {
        /// What was asked for; the data hold 0 to 0.6.
        mass_share: f64,
    },
    /// A share by volume that is none.
    VolumeShareOutside {
        /// What was asked for; 0 to 1 is possible.
        volume_share: f64,
    },
    /// Off the saturation line.
    TemperatureOutside {
        /// What was asked for \[K\].
        temperature_k: f64,
        /// Where the line begins \[K\].
        lowest_k: f64,
        /// Where it ends \[K\].
        highest_k: f64,
    },
    /// Water that a pressure lets boil, or that is pressed harder than the data reach.
    NotLiquid {
        /// What was asked for \[Pa\].
        pressure_pa: f64,
        /// Below which it boils at its temperature \[Pa\].
        lowest_pa: f64,
        /// Where the data end \[Pa\].
        highest_pa: f64,
    },
    /// Off the saturation line.
    PressureOutside {
        /// What was asked for \[Pa\].
        pressure_pa: f64,
        /// Where the line begins \[Pa\].
        lowest_pa: f64,
        /// Where it ends \[Pa\].
        highest_pa: f64,
    },
}

impl fmt::Display for FluidError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let celsius = |kelvin: f64| kelvin - ZERO_CELSIUS_K;
        match *self {
            FluidError::Frozen { temperature_k, freezing_k } => write!(
                f,
                "the fluid is at {:.1} C and freezes at {:.1} C",
                celsius(temperature_k),
                celsius(freezing_k)
            ),
            FluidError::TooHot { temperature_k, highest_k } => write!(
                f,
                "the fluid is at {:.1} C; its data end at {:.1} C",
                celsius(temperature_k),
                celsius(highest_k)
            ),
            FluidError::NotFinite { temperature_k } => {
                write!(f, "the fluid's temperature is {temperature_k} K, which is no temperature")
            }
            FluidError::MassShareOutside { mass_share } => {
                write!(f, "the glycol's share by mass is {mass_share}; it must be 0 to 0.6")
            }
            FluidError::VolumeShareOutside { volume_share } => {
                write!(f, "the glycol's share by volume is {volume_share}; it must be 0 to 1")
            }
            FluidError::TemperatureOutside { temperature_k, lowest_k, highest_k } => write!(
                f,
                "water has no saturation pressure at {:.1} C; the line runs from {:.1} to {:.1} C",
                celsius(temperature_k),
                celsius(lowest_k),
                celsius(highest_k)
            ),
            FluidError::NotLiquid { pressure_pa, lowest_pa, highest_pa } => write!(
                f,
                "the water is under {pressure_pa} Pa; it boils below {lowest_pa:.0} Pa, and its data \
                 end at {highest_pa} Pa"
            ),
            FluidError::PressureOutside { pressure_pa, lowest_pa, highest_pa } => write!(
                f,
                "water has no boiling point at {pressure_pa} Pa; the line runs from {lowest_pa} to \
                 {highest_pa} Pa"
            ),
        }
    }
}

impl std::error::Error for FluidError {}

/// Says what is wrong with a temperature or share, if anything.
pub(super) fn check_range(fluid: Fluid, temperature_k: f64) -> Result<(), FluidError> {
    let (freezing_k, highest_k) = (freezing_k(fluid)?, highest_k(fluid));
    if !temperature_k.is_finite() {
        Err(FluidError::NotFinite { temperature_k })
    } else if temperature_k < freezing_k {
        Err(FluidError::Frozen { temperature_k, freezing_k })
    } else if temperature_k > highest_k {
        Err(FluidError::TooHot { temperature_k, highest_k })
    } else {
        Ok(())
    }
}

/// Where the data end \[K\].
pub(crate) fn highest_k(fluid: Fluid) -> f64 {
    match fluid {
        Fluid::Water => ZERO_CELSIUS_K + 110.0,
        Fluid::PropyleneGlycol { .. } | Fluid::EthyleneGlycol { .. } => ZERO_CELSIUS_K + 100.0,
    }
}

/// The properties at a temperature and share already found good.
fn evaluate(fluid: Fluid, temperature_k: f64) -> FluidProperties {
    let (mixture, mass_share) = match fluid {
        Fluid::Water => return water(temperature_k),
        Fluid::PropyleneGlycol { mass_share } => (&melinder::PROPYLENE, mass_share),
        Fluid::EthyleneGlycol { mass_share } => (&melinder::ETHYLENE, mass_share),
    };
    let of = |coefficients: &[f64; 18]| {
        melinder_2010(mixture, coefficients, Strength { mass_share, temperature_k })
    };
    FluidProperties {
        density_kg_m3: of(&mixture.density_kg_m3),
        heat_capacity_j_kg_k: of(&mixture.heat_capacity_j_kg_k),
        conductivity_w_m_k: of(&mixture.conductivity_w_m_k),
        viscosity_pa_s: of(&mixture.log_viscosity_mpa_s).exp() / 1000.0,
    }
}

/// The mixture's coefficients and its checked share; `None` for plain water.
fn mixture(fluid: Fluid) -> Result<Option<(&'static Mixture, f64)>, FluidError> {
    let (mixture, mass_share) = match fluid {
        Fluid::Water => return Ok(None),
        Fluid::PropyleneGlycol { mass_share } => (&melinder::PROPYLENE, mass_share),
        Fluid::EthyleneGlycol { mass_share } => (&melinder::ETHYLENE, mass_share),
    };
    if (0.0..=0.6).contains(&mass_share) {
        Ok(Some((mixture, mass_share)))
    } else {
        Err(FluidError::MassShareOutside { mass_share })
    }
}

/// Share of water by number of molecules; `heavier`: how many times a glycol molecule outweighs it.
fn water_share(mass_share: f64, heavier: f64) -> f64 {
    let water = 1.0 - mass_share;
    water / (water + mass_share / heavier)
}
