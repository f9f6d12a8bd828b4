//! The fluid running by its own weight while no pump moves it.

use physics::circuit::gravity::{Column, drive_pa};

use crate::plant::{Direction, GravityTable, Plant};
use crate::state::State;
use crate::step_circuit::{Drive, coil_ends_k, coil_ua_w_m_k, coil_water_k, loop_mean_k};

/// Flow that weights drive round as the nodes stand \[kg/s\], negative backwards.
///
/// `before_kg_s`: the flow a moment ago, by which the coil's fluid is as warm as what runs in or as
/// the water around it; 0 for fluid that stood.
pub(crate) fn drift_kg_s(
    plant: &Plant,
    gravity: &GravityTable,
    state: &State,
    before_kg_s: f64,
) -> f64 {
    let column = |rise_m: f64, fluid_k: f64| Column {
        rise_m,
        density_kg_m3: gravity.density_kg_m3.at(fluid_k),
    };
    let pipes = |rises_m: &[f64], nodes_k: &[f64]| {
        drive_pa(rises_m.iter().zip(nodes_k).map(|(&rise_m, &node_k)| column(rise_m, node_k)))
    };
    let rises = &gravity.rises;
    let sheets = plant.segments.iter().zip(&state.plate_k);
    let drive_pa = pipes(&rises.return_pipe_m, &state.return_pipe_k)
        + pipes(&rises.flow_pipe_m, &state.flow_pipe_k)
        + drive_pa(sheets.map(|(segment, &plate_k)| column(segment.rise_m, plate_k)))
        + coil_drive_pa(plant, gravity, state, before_kg_s);
    gravity.flow_kg_s(drive_pa, loop_mean_k(state))
}

/// What the coil's fluid drives \[Pa\]: layer by layer between where it comes from and the water.
fn coil_drive_pa(plant: &Plant, gravity: &GravityTable, state: &State, before_kg_s: f64) -> f64 {
    let coil = &plant.coil;
    let whole_m: f64 = coil.way.iter().map(|&layer| coil.length_m[layer]).sum();
    let rise_m = |layer: usize| gravity.rises.coil_m * coil.length_m[layer] / whole_m;
    if before_kg_s == 0.0 {
        let columns = coil.way.iter().map(|&layer| Column {
            rise_m: rise_m(layer),
            density_kg_m3: gravity.density_kg_m3.at(state.layer_k[layer]),
        });
        return drive_pa(columns);
    }
    let direction = if before_kg_s < 0.0 { Direction::Backwards } else { Direction::Forwards };
    let (in_k, out_k) = coil_ends_k(state, direction);
    let loop_k = loop_mean_k(state);
    let ua_w_m_k = coil_ua_w_m_k(
        plant,
        Drive::Weight(before_kg_s),
        0.5 * (in_k + out_k),
        coil_water_k(plant, state),
    );
    let per_m = ua_w_m_k / gravity.rate_w_k(before_kg_s, loop_k);
    let mut stream_k = in_k;
    let mut weigh = |layer: usize| {
        let water_k = state.layer_k[layer];
        let units = per_m * coil.length_m[layer];
        let left = (-units).exp();
        let mean_k = water_k + (stream_k - water_k) * (1.0 - left) / units;
        stream_k = water_k + (stream_k - water_k) * left;
        drive_pa([Column {
            rise_m: rise_m(layer),
            density_kg_m3: gravity.density_kg_m3.at(mean_k),
        }])
    };
    match direction {
        Direction::Forwards => coil.way.iter().map(|&layer| weigh(layer)).sum(),
        Direction::Backwards => coil.way.iter().rev().map(|&layer| weigh(layer)).sum(),
    }
}
