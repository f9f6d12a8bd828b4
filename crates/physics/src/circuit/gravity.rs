//! What the fluid's own weight drives round a build's circuit.

use super::error::CircuitError;
use super::friction::FrictionMethod;
use super::network::{Medium, Path};
use super::parts::Circuit;
use crate::GRAVITY_M_S2;
use crate::ZERO_CELSIUS_K;
use crate::balance::crossing;
use crate::matter::fluid::{FluidProperties, properties_held};
use crate::panel::Bank;
use crate::store::{Coil, CoilDirection};

/// A part of the round, filled with fluid of one density.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Column {
    /// How far it rises along the flow \[m\]; negative where it falls.
    pub rise_m: f64,
    /// Density of what stands in it \[kg/m3\].
    pub density_kg_m3: f64,
}

/// Pressure with which unlike weights drive a closed round along the flow \[Pa\]; negative drives it
/// backwards.
///
/// ```text
/// p = - g sum(rho_i dz_i)
/// ```
///
/// - `columns`: all the way round; their rises come to nothing.
///
/// # Source
/// Hydrostatics; Close, Solar Energy 6 (1962) 33, for a solar circuit.
///
/// # Checked
/// Through [`super::thermosiphon::thermosiphon`] by B-TS-01 and B-TS-03.
pub fn drive_pa(columns: impl IntoIterator<Item = Column>) -> f64 {
    let weigh = |column: Column| column.rise_m * column.density_kg_m3;
    -GRAVITY_M_S2 * columns.into_iter().map(weigh).sum::<f64>()
}

/// How far each part of a build's round rises along the flow.
#[derive(Clone, Debug, PartialEq)]
pub struct Rises {
    /// Return pipe, in as many equal lengths as were asked for \[m\].
    pub return_pipe_m: Vec<f64>,
    /// Panels, from where the circuit enters them to where it leaves \[m\].
    pub panel_m: f64,
    /// Flow pipe, in as many equal lengths as were asked for \[m\].
    pub flow_pipe_m: Vec<f64>,
    /// Coil, from its inlet to its outlet \[m\]; negative where it runs down.
    pub coil_m: f64,
}

/// Rises of a build's round.
///
/// The flow pipe goes over the circuit's highest point; both pipes climb and fall evenly along their
/// length.
///
/// - `nodes`: lengths each pipe is cut into, 1 or more.
pub fn rises(circuit: &Circuit, coil: &Coil, nodes: usize) -> Rises {
    let layout = &circuit.layout;
    let (coil_in_m, coil_out_m) = match coil.direction {
        CoilDirection::Down => (coil.top_height_m, coil.bottom_height_m),
        CoilDirection::Up => (coil.bottom_height_m, coil.top_height_m),
    };
    let over_m = layout.highest_m.max(layout.panel_top_m).max(coil_in_m);
    Rises {
        return_pipe_m: pieces_m(&[coil_out_m, layout.panel_bottom_m], nodes),
        panel_m: layout.panel_top_m - layout.panel_bottom_m,
        flow_pipe_m: pieces_m(&[layout.panel_top_m, over_m, coil_in_m], nodes),
        coil_m: coil_out_m - coil_in_m,
    }
}

/// Rise of each of `nodes` equal pieces of a way that passes `heights_m` at an even slope.
fn pieces_m(heights_m: &[f64], nodes: usize) -> Vec<f64> {
    let climbed_m: f64 = heights_m.windows(2).map(|pair| (pair[1] - pair[0]).abs()).sum();
    let height_at_m = |share: f64| {
        let mut left_m = share * climbed_m;
        for pair in heights_m.windows(2) {
            let leg_m = pair[1] - pair[0];
            if left_m <= leg_m.abs() {
                return pair[0] + left_m.copysign(leg_m);
            }
            left_m -= leg_m.abs();
        }
        heights_m[heights_m.len() - 1]
    };
    let ends_m: Vec<f64> =
        (0..=nodes).map(|node| height_at_m(node as f64 / nodes as f64)).collect();
    ends_m.windows(2).map(|pair| pair[1] - pair[0]).collect()
}

/// Useful heat of a square metre of panel by which a circuit without a pump is looked over \[W/m2\].
///
/// A bright hour's: judgement.
pub const BRIGHT_HEAT_W_M2: f64 = 500.0;

/// Return pipe of a circuit without a pump as it is looked over, absolute \[K\]: 30 C, as B-TS-01.
pub const BRIGHT_COLD_K: f64 = ZERO_CELSIUS_K + 30.0;

/// Steady flow of a circuit by its own weight.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct GravityFlow {
    /// Flow \[kg/s\], 0 or more; 0 where the heat drives none.
    pub flow_kg_s: f64,
    /// Flow pipe over return pipe \[K\].
    pub rise_k: f64,
    /// What the weights drive, and friction takes up \[Pa\].
    pub drive_pa: f64,
}

/// A round by the temperature of its parts.
#[derive(Clone, Debug, PartialEq)]
pub struct Legs {
    /// The cold one.
    pub return_pipe: Path,
    /// Panels and coil, where it warms and cools.
    pub between: Path,
    /// The hot one.
    pub flow_pipe: Path,
}

/// Steady flow that a heat keeps up in a build's circuit, its pipes lagged.
///
/// Return pipe cold, flow pipe hot, panels and coil at the mean, in weight and in friction.
///
/// - `legs`: what the circuit loses its pressure in.
/// - `heat_w`: carried from panels to store, more than 0.
/// - `cold_k`: of the return pipe, absolute \[K\].
///
/// # Valid range
/// That of the fluid's data, held at their ends. Where the store lies so low that hot fluid would
/// have to be driven down, there is no such flow: it is 0, at a rise as great as the data reach.
///
/// # Source
/// As [`super::thermosiphon::thermosiphon`], with the build's own heights.
///
/// # Checked
/// Against [`super::thermosiphon::thermosiphon`] on one circuit, to 1e-6.
pub fn gravity_flow(
    circuit: &Circuit,
    coil: &Coil,
    legs: &Legs,
    heat_w: f64,
    cold_k: f64,
) -> Result<GravityFlow, CircuitError> {
    CircuitError::unless(heat_w > 0.0, "the heat in W", heat_w, "more than 0")?;
    let rises = rises(circuit, coil, 1);
    let fluid_at = |temperature_k: f64| -> Result<FluidProperties, CircuitError> {
        Ok(properties_held(circuit.fluid, temperature_k)?)
    };
    let cold = fluid_at(cold_k)?;
    let at = |rise_k: f64| -> Result<(GravityFlow, f64), CircuitError> {
        let mean = fluid_at(cold_k + 0.5 * rise_k)?;
        let hot = fluid_at(cold_k + rise_k)?;
        let flow_kg_s = heat_w / (mean.heat_capacity_j_kg_k * rise_k);
        let drive_pa = drive_pa([
            Column { rise_m: rises.return_pipe_m[0], density_kg_m3: cold.density_kg_m3 },
            Column { rise_m: rises.panel_m, density_kg_m3: mean.density_kg_m3 },
            Column { rise_m: rises.flow_pipe_m[0], density_kg_m3: hot.density_kg_m3 },
            Column { rise_m: rises.coil_m, density_kg_m3: mean.density_kg_m3 },
        ]);
        let drop_pa = |leg: &Path, fluid: FluidProperties| {
            leg.drop_pa(flow_kg_s, &Medium { fluid, method: FrictionMethod::Churchill1977 })
        };
        let friction_pa = drop_pa(&legs.return_pipe, cold)?
            + drop_pa(&legs.between, mean)?
            + drop_pa(&legs.flow_pipe, hot)?;
        Ok((GravityFlow { flow_kg_s, rise_k, drive_pa }, drive_pa - friction_pa))
    };
    // Beyond this the fluid's data end in every mixture; no circuit in use is as hot.
    let most_k = (HOTTEST_K - cold_k).max(1.0);
    let (hottest, left_pa) = at(most_k)?;
    if left_pa <= 0.0 {
        return Ok(GravityFlow { flow_kg_s: 0.0, ..hottest });
    }
    let none = |_, missing| CircuitError::NoBalance { what: "weight and friction", missing };
    let rise_k = crossing((0.001, most_k), none, |rise_k| Ok(at(rise_k)?.1))?;
    Ok(at(rise_k)?.0)
}

const HOTTEST_K: f64 = ZERO_CELSIUS_K + 120.0;

/// The heat by which a bank without a pump is looked over \[W\]: [`BRIGHT_HEAT_W_M2`].
pub fn bright_heat_w(panels: &Bank) -> f64 {
    BRIGHT_HEAT_W_M2 * panels.area_m2()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Given: a pipe from 1 m over 3 m to 2 m, in three pieces. Expected: by hand, a metre of climb
    /// or fall each.
    #[test]
    fn a_pipe_climbs_and_falls_evenly() {
        let rises = pieces_m(&[1.0, 3.0, 2.0], 3);
        for (got, want) in rises.iter().zip([1.0, 1.0, -1.0]) {
            assert!((got - want).abs() < 1e-12, "{rises:?}");
        }
        assert_eq!(pieces_m(&[2.0, 2.0], 2), [0.0, 0.0]);
    }

    /// Given: a U-tube, a metre of water at 1000 and 990 kg/m3. Expected: 10 x 9.80665 Pa by hand,
    /// towards the light side. The same all round: nothing.
    #[test]
    fn the_heavier_leg_drives() {
        let legs = |down, up| {
            [
                Column { rise_m: -1.0, density_kg_m3: down },
                Column { rise_m: 1.0, density_kg_m3: up },
            ]
        };
        assert!((drive_pa(legs(1000.0, 990.0)) - 98.0665).abs() < 1e-9);
        assert_eq!(drive_pa(legs(1000.0, 1000.0)), 0.0);
    }
}
