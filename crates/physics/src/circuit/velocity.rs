//! How fast the fluid runs in each tube: fast enough to carry air, slow enough for the tube.

use super::bank::{panel_flows_kg_s, passage_flow};
use super::error::CircuitError;
use super::network::Medium;
use super::parts::Circuit;
use crate::GRAVITY_M_S2;
use crate::ZERO_CELSIUS_K;
use crate::panel::Bank;
use crate::store::Coil;

/// One tube of the circuit and what runs in it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TubeSpeed {
    /// Which tube.
    pub place: TubePlace,
    /// Its bore \[m\].
    pub bore_m: f64,
    /// Mean velocity \[m/s\].
    pub velocity_m_s: f64,
    /// Reynolds number on the bore.
    pub reynolds: f64,
}

/// Where a tube lies.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TubePlace {
    /// A stretch of the return pipe, counted from the coil.
    ReturnPipe(usize),
    /// The tube, the mean riser or a port of a panel, by its place in the bank.
    Panel(usize),
    /// A stretch of the flow pipe, counted from the panels.
    FlowPipe(usize),
    /// The coil.
    Coil,
}

/// Velocity in every tube of a circuit, in the order of the flow from the coil.
///
/// - `flow_kg_s`: round the circuit \[kg/s\], 0 or more.
/// - `medium`: the fluid at its temperature.
///
/// # Valid range
/// As [`panel_flows_kg_s`].
pub fn tube_speeds(
    circuit: &Circuit,
    panels: &Bank,
    coil: &Coil,
    (flow_kg_s, medium): (f64, &Medium),
) -> Result<Vec<TubeSpeed>, CircuitError> {
    let speed = |place, bore_m: f64, flow_kg_s: f64| {
        let section_m2 = std::f64::consts::FRAC_PI_4 * bore_m * bore_m;
        let flux_kg_s_m2 = flow_kg_s / section_m2;
        TubeSpeed {
            place,
            bore_m,
            velocity_m_s: flux_kg_s_m2 / medium.fluid.density_kg_m3,
            reynolds: flux_kg_s_m2 * bore_m / medium.fluid.viscosity_pa_s,
        }
    };
    let mut speeds = Vec::new();
    for (at, pipe) in circuit.return_pipe.iter().enumerate() {
        speeds.push(speed(TubePlace::ReturnPipe(at), pipe.tube.bore_m, flow_kg_s));
    }
    let flows_kg_s = panel_flows_kg_s(panels, flow_kg_s, medium)?;
    for (at, (panel, panel_kg_s)) in panels.panels.iter().zip(flows_kg_s).enumerate() {
        let (bore_m, tube_kg_s) = passage_flow(panel, panel_kg_s);
        speeds.push(speed(TubePlace::Panel(at), bore_m, tube_kg_s));
    }
    for (at, pipe) in circuit.flow_pipe.iter().enumerate() {
        speeds.push(speed(TubePlace::FlowPipe(at), pipe.tube.bore_m, flow_kg_s));
    }
    speeds.push(speed(TubePlace::Coil, coil.tube.bore_m, flow_kg_s));
    Ok(speeds)
}

/// Whether water running down takes air along.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum AirCarry {
    /// A pocket of air rises against the flow and stays at the top.
    Left,
    /// Faster than a pocket rises, slower than practice asks.
    Doubtful,
    /// As fast as practice asks for dependable carrying.
    Carried,
}

/// Velocity from which solar texts count on air being carried down \[m/s\] (B-AV-04, seen).
pub const CARRY_SOLAR_M_S: f64 = 0.4;

/// The same by heating texts \[m/s\], 2 ft/s (B-AV-04, seen).
pub const CARRY_HEATING_M_S: f64 = 0.6;

/// What a downward velocity does with air in a tube.
///
/// Below [`bubble_rise_m_s`] air is left, from [`CARRY_SOLAR_M_S`] it is carried.
///
/// - `velocity_m_s`: downwards, 0 or more.
///
/// # Valid range
/// As [`bubble_rise_m_s`].
pub fn air_carry(bore_m: f64, velocity_m_s: f64) -> Result<AirCarry, CircuitError> {
    Ok(if velocity_m_s < bubble_rise_m_s(bore_m)? {
        AirCarry::Left
    } else if velocity_m_s < CARRY_SOLAR_M_S {
        AirCarry::Doubtful
    } else {
        AirCarry::Carried
    })
}

/// Velocity at which a long bubble rises in an upright tube of still water \[m/s\].
///
/// ```text
/// v = 0.345 sqrt(g D)
/// ```
///
/// - `bore_m`: D.
///
/// # Valid range
/// A positive bore. The limit of low surface tension: in tubes under 15 mm the bubble is slower,
/// and in 5 mm it sticks, so the answer errs upwards.
///
/// # Source
/// Dumitrescu 1943; Davies and Taylor 1950.
///
/// # Checked
/// B-AV-01 and B-AV-03 to 1e-5.
pub fn bubble_rise_m_s(bore_m: f64) -> Result<f64, CircuitError> {
    let good = bore_m > 0.0 && bore_m.is_finite();
    CircuitError::unless(good, "the bore in m", bore_m, "more than 0")?;
    Ok(0.345 * (GRAVITY_M_S2 * bore_m).sqrt())
}

/// Whose limit copper is held to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CopperRule {
    /// North American handbook: 2.4 m/s cold, 1.5 to 60 C, 0.9 above; its least is 0.6.
    American,
    /// British code of practice (BS 6700): 3.0 m/s to 50 C, 2.5 at 70, 2.0 at 90.
    British,
}

/// Above this copper pipe is heard \[m/s\] (trade association's publication 150, seen).
pub const COPPER_NOISE_M_S: f64 = 1.5;

/// Above this it wears at bends \[m/s\] (the same).
pub const COPPER_EROSION_M_S: f64 = 2.5;

/// Below this dirt settles \[m/s\] (the same).
pub const COPPER_SLUDGE_M_S: f64 = 0.5;

/// Greatest velocity a rule lets copper tube have \[m/s\].
///
/// Stepwise by the American rule (cold is up to 25 C, a judgement: the handbook does not say);
/// straight lines between the British rule's four temperatures.
///
/// - `temperature_k`: of the fluid, absolute \[K\].
///
/// # Source
/// Copper tube handbook and UFC 3-440-01; BS 6700, both as quoted by public pages.
///
/// # Valid range
/// Any temperature: beyond the tables their ends hold.
///
/// # Checked
/// B-VM-01 to its 3 %, B-VM-02 to 1e-9.
pub fn copper_limit_m_s(rule: CopperRule, temperature_k: f64) -> f64 {
    let celsius_k = temperature_k - ZERO_CELSIUS_K;
    match rule {
        CopperRule::American if celsius_k <= 25.0 => 2.4,
        CopperRule::American if celsius_k <= 60.0 => 1.5,
        CopperRule::American => 0.9,
        CopperRule::British if celsius_k <= 50.0 => 3.0,
        CopperRule::British => (3.0 - (celsius_k - 50.0) * 0.025).max(2.0),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Air is left, doubtful and carried in turn as the flow quickens; a wider tube wants more.
    #[test]
    fn faster_water_carries_more_air() {
        assert_eq!(air_carry(0.0136, 0.1), Ok(AirCarry::Left));
        assert_eq!(air_carry(0.0136, 0.2), Ok(AirCarry::Doubtful));
        assert_eq!(air_carry(0.0136, 0.4), Ok(AirCarry::Carried));
        assert!(bubble_rise_m_s(0.02).unwrap() > bubble_rise_m_s(0.01).unwrap());
        assert!(bubble_rise_m_s(f64::NAN).is_err());
    }
}
