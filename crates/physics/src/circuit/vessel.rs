//! Room for the fluid's growth: a sealed vessel, or a header tank.

use super::error::CircuitError;
use crate::matter::fluid::{Fluid, growth};

/// What a sealed vessel has to be sized for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct VesselNeed {
    /// All the fluid in the circuit, cold \[m3\].
    pub contents_m3: f64,
    /// Growth from cold to hot over the cold volume; see [`growth`].
    pub growth_share: f64,
    /// What steam may push out: the panels' contents and the pipe that steam can reach \[m3\]; 0
    /// where nothing boils.
    pub steam_m3: f64,
    /// Gauge pressure of the column from the vessel up to the highest point \[Pa\].
    pub column_pa: f64,
    /// What is held over that when cold, so that no air is drawn in at the top \[Pa\]: 0.3 to
    /// 0.5 bar, see [`PRECHARGE_MARGIN_PA`].
    pub margin_pa: f64,
    /// Gauge pressure at which the relief valve opens \[Pa\].
    pub relief_pa: f64,
}

/// A sealed vessel and its pressures, as a gauge shows them.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Vessel {
    /// What the fluid grows by \[m3\].
    pub growth_m3: f64,
    /// Fluid held back for leaks and air let out \[m3\].
    pub reserve_m3: f64,
    /// Gas pressure before any fluid is let in \[Pa\].
    pub precharge_pa: f64,
    /// Pressure when hot \[Pa\], below the relief valve's.
    pub end_pa: f64,
    /// Least volume of the vessel \[m3\].
    pub vessel_m3: f64,
}

/// Margin over the column when cold \[Pa\]: 0.5 bar, German practice for circuits that may boil
/// (from memory).
pub const PRECHARGE_MARGIN_PA: f64 = 0.5e5;

/// Least volume of a sealed vessel and its pressures.
///
/// ```text
/// V = (Ve + Vr + Vsteam) (pe + 1 bar)/(pe - p0)       pressures as a gauge shows them
/// Vr = max(0.5 % of the contents, 3 l)
/// p0 = column + margin
/// pe = relief - 0.5 bar up to 5 bar, 0.9 relief above
/// ```
///
/// - `need`: contents, growth, steam, column, margin, relief valve.
///
/// Returns the least volume that is enough; the next larger vessel sold is taken.
///
/// # Valid range
/// Positive contents, nothing negative, and a relief valve that opens above the pre-charge by more
/// than its own margin: a [`CircuitError`] outside.
///
/// # Source
/// The form of EN 12828's annex, with the steam term and the margins of German practice (VDI 6002,
/// the days of EN 12977): common practice, from memory. The standard itself was not at hand.
///
/// # Checked
/// D-02 and D-04 to 1e-6.
///
/// # Example
/// ```
/// use physics::circuit::vessel::{PRECHARGE_MARGIN_PA, VesselNeed, vessel};
/// let need = VesselNeed {
///     contents_m3: 0.020,
///     growth_share: 0.0625,
///     steam_m3: 0.0025,
///     column_pa: 0.6e5,
///     margin_pa: PRECHARGE_MARGIN_PA,
///     relief_pa: 3e5,
/// };
/// assert!((vessel(&need).unwrap().vessel_m3 - 0.0169).abs() < 0.0001);
/// ```
pub fn vessel(need: &VesselNeed) -> Result<Vessel, CircuitError> {
    let good = need.contents_m3 > 0.0 && need.contents_m3.is_finite();
    CircuitError::unless(good, "the contents in m3", need.contents_m3, "more than 0")?;
    for (what, value) in [
        ("the growth", need.growth_share),
        ("the steam in m3", need.steam_m3),
        ("the column in Pa", need.column_pa),
        ("the margin in Pa", need.margin_pa),
    ] {
        CircuitError::unless(value >= 0.0 && value.is_finite(), what, value, "0 or more")?;
    }
    let precharge_pa = need.column_pa + need.margin_pa;
    let end_pa = end_pressure_pa(need.relief_pa);
    if !(end_pa > precharge_pa && end_pa.is_finite()) {
        return Err(CircuitError::ReliefTooLow { relief_pa: need.relief_pa, precharge_pa });
    }
    let growth_m3 = need.contents_m3 * need.growth_share;
    let reserve_m3 = (LEAST_RESERVE * need.contents_m3).max(LEAST_RESERVE_M3);
    let vessel_m3 = (growth_m3 + reserve_m3 + need.steam_m3) * (end_pa + RULE_ATMOSPHERE_PA)
        / (end_pa - precharge_pa);
    Ok(Vessel { growth_m3, reserve_m3, precharge_pa, end_pa, vessel_m3 })
}

/// Share of the contents held in reserve, and the least of it \[m3\].
const LEAST_RESERVE: f64 = 0.005;
const LEAST_RESERVE_M3: f64 = 0.003;

/// The rule takes one bar for an atmosphere \[Pa\].
const RULE_ATMOSPHERE_PA: f64 = 1e5;

/// Pressure a vessel may reach below a relief valve \[Pa\], both as a gauge shows them.
fn end_pressure_pa(relief_pa: f64) -> f64 {
    if relief_pa <= 5e5 { relief_pa - 0.5e5 } else { 0.9 * relief_pa }
}

/// A sealed circuit at the moment it was filled.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SealedFill {
    /// What runs.
    pub fluid: Fluid,
    /// All the fluid, the vessel's own part included \[m3\].
    pub fluid_m3: f64,
    /// Gas in the vessel \[m3\].
    pub gas_m3: f64,
    /// Absolute pressure \[Pa\].
    pub pressure_pa: f64,
    /// Temperature of fluid and gas, absolute \[K\].
    pub fill_k: f64,
}

/// A sealed circuit at other temperatures.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SealedState {
    /// What the fluid has grown by \[m3\]; negative where it has shrunk.
    pub growth_m3: f64,
    /// Absolute pressure \[Pa\].
    pub pressure_pa: f64,
}

/// Pressure of a sealed circuit once fluid and gas have other temperatures.
///
/// ```text
/// p2 = p1 (V1/V2) (T2/T1)        V2 = V1 - growth of the fluid
/// ```
///
/// The pipes are taken as rigid.
///
/// - `fill`: the circuit when it was filled.
/// - `fluid_k`: mean temperature of the fluid, absolute \[K\].
/// - `gas_k`: temperature of the vessel's gas, absolute \[K\]; the vessel hangs in the cool.
///
/// # Valid range
/// That of [`growth`]; a fluid that grows by more than the gas leaves room for is a
/// [`CircuitError`].
///
/// # Source
/// The gas law of an ideal gas.
///
/// # Checked
/// D-22 to 0.2 %.
pub fn sealed_state(
    fill: &SealedFill,
    fluid_k: f64,
    gas_k: f64,
) -> Result<SealedState, CircuitError> {
    let must = "more than 0";
    for (what, value) in [
        ("the fluid in m3", fill.fluid_m3),
        ("the gas in m3", fill.gas_m3),
        ("the pressure in Pa", fill.pressure_pa),
        ("the gas's temperature in K", gas_k),
    ] {
        CircuitError::unless(value > 0.0 && value.is_finite(), what, value, must)?;
    }
    let growth_m3 = fill.fluid_m3 * growth(fill.fluid, fill.fill_k, fluid_k)?;
    let left_m3 = fill.gas_m3 - growth_m3;
    CircuitError::unless(left_m3 > 0.0, "the gas left in m3", left_m3, must)?;
    let pressure_pa = fill.pressure_pa * fill.gas_m3 / left_m3 * gas_k / fill.fill_k;
    Ok(SealedState { growth_m3, pressure_pa })
}

/// Least volume between the cold and the hot water level of a header tank \[m3\].
///
/// ```text
/// V = growth contents + Vsteam
/// ```
///
/// - `growth_share`: growth from cold to hot over the cold volume; see [`growth`].
/// - `contents_m3`: all the fluid in the circuit, cold \[m3\].
/// - `steam_m3`: what steam may push up the feed pipe \[m3\].
///
/// # Source
/// What grows must find room: a balance of volumes. Codes ask 4 % of the contents between cold
/// level and overflow (common practice, from memory), which is water from 4 to 100 C.
///
/// # Valid range
/// Any finite numbers.
pub fn header_tank_m3(growth_share: f64, contents_m3: f64, steam_m3: f64) -> f64 {
    growth_share * contents_m3 + steam_m3
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        /// Laws: more of anything to be held, a higher column or a lower relief valve wants a
        /// larger vessel; the pre-charge lies under the end.
        #[test]
        fn a_vessel_keeps_the_laws(
            contents_m3 in 0.002f64..0.2,
            growth_share in 0.0f64..0.1,
            steam_m3 in 0.0f64..0.02,
            column_pa in 0.0f64..1e5,
            relief_pa in 2.5e5f64..8e5,
        ) {
            let margin_pa = PRECHARGE_MARGIN_PA;
            let need =
                VesselNeed { contents_m3, growth_share, steam_m3, column_pa, margin_pa, relief_pa };
            let now = vessel(&need).unwrap();
            prop_assert!(now.precharge_pa < now.end_pa && now.end_pa < relief_pa);
            for larger in [
                VesselNeed { contents_m3: 1.5 * contents_m3, growth_share: growth_share + 0.01, ..need },
                VesselNeed { steam_m3: steam_m3 + 1e-3, ..need },
                VesselNeed { column_pa: column_pa + 1e4, ..need },
                VesselNeed { relief_pa: relief_pa - 0.4e5, ..need },
            ] {
                prop_assert!(vessel(&larger).unwrap().vessel_m3 > now.vessel_m3);
            }
        }
    }

    #[test]
    fn what_cannot_be_is_said() {
        let need = VesselNeed {
            contents_m3: 0.02,
            growth_share: 0.05,
            steam_m3: 0.0,
            column_pa: 1e5,
            margin_pa: 0.5e5,
            relief_pa: 3e5,
        };
        let low = VesselNeed { relief_pa: 2e5, ..need };
        assert!(matches!(vessel(&low), Err(CircuitError::ReliefTooLow { .. })));
        assert!(vessel(&VesselNeed { contents_m3: 0.0, ..need }).is_err());
        assert!(vessel(&VesselNeed { steam_m3: f64::NAN, ..need }).is_err());
        assert!(vessel(&VesselNeed { relief_pa: f64::NAN, ..need }).is_err());
        let fill = SealedFill {
            fluid: Fluid::Water,
            fluid_m3: 0.02,
            gas_m3: 1e-4,
            pressure_pa: 2e5,
            fill_k: 293.15,
        };
        assert!(sealed_state(&fill, 363.15, 293.15).is_err(), "0.7 l do not go into 0.1 l");
        assert!(sealed_state(&SealedFill { gas_m3: 0.0, ..fill }, 303.15, 293.15).is_err());
    }
}
