//! The fluid running by its own weight while no pump moves it.

use physics::circuit::gravity::{Column, drive_pa};

use crate::plant::{Direction, GravityTable, Plant, Turn};
use crate::state::State;
use crate::step_circuit::{Drive, coil_ends_k, coil_ua_w_m_k, coil_water_k, pipes_mean_k};
use crate::straight::{Straight, mixed};

/// Room to follow the fluid in, made once for a year.
#[derive(Clone, Debug, Default)]
pub(crate) struct DriftBench {
    streams_k: Vec<f64>,
    effectiveness: Vec<f64>,
    shares: Vec<f64>,
}

/// Flow that weights drive round as the nodes stand \[kg/s\], negative backwards.
///
/// `before_kg_s`: the flow a moment ago. By it the fluid in panels and coil is as warm as what runs in
/// or as what lies around it; 0 for fluid that stood and is as warm as that.
pub(crate) fn drift_kg_s(
    plant: &Plant,
    gravity: &GravityTable,
    state: &State,
    before_kg_s: f64,
    bench: &mut DriftBench,
) -> f64 {
    let loop_k = pipes_mean_k(state);
    let weigh = |rise_m: f64, fluid_k: f64| {
        drive_pa([Column { rise_m, density_kg_m3: gravity.density_kg_m3.at(fluid_k) }])
    };
    let pipes = |rises_m: &[f64], nodes_k: &[f64]| -> f64 {
        rises_m.iter().zip(nodes_k).map(|(&rise_m, &node_k)| weigh(rise_m, node_k)).sum()
    };
    let mut driven_pa = pipes(&gravity.rises.return_pipe_m, &state.return_pipe_k)
        + pipes(&gravity.rises.flow_pipe_m, &state.flow_pipe_k);
    if before_kg_s == 0.0 {
        for (segment, &plate_k) in plant.segments.iter().zip(&state.plate_k) {
            driven_pa += weigh(segment.rise_m, plate_k);
        }
        for &layer in &plant.coil.way {
            driven_pa += weigh(coil_rise_m(plant, gravity, layer), state.layer_k[layer]);
        }
    } else {
        let moving = Moving { plant, gravity, state, before_kg_s, loop_k };
        moving.through_panels(bench, |rise_m, fluid_k| driven_pa += weigh(rise_m, fluid_k));
        moving.through_coil(|rise_m, fluid_k| driven_pa += weigh(rise_m, fluid_k));
    }
    gravity.flow_kg_s(driven_pa, loop_k)
}

/// How far the coil rises in a layer along the flow \[m\].
fn coil_rise_m(plant: &Plant, gravity: &GravityTable, layer: usize) -> f64 {
    let length_m = &plant.coil.length_m;
    let whole_m: f64 = plant.coil.way.iter().map(|&layer| length_m[layer]).sum();
    gravity.rises.coil_m * length_m[layer] / whole_m
}

/// What is left of a stream's distance from a plate, on the mean along it, where `share` of it is gone at
/// its end: `share/-ln(1 - share)`, as a stream that comes towards one temperature runs. Creeping fluid
/// is as warm as the plate, and so on the mean is what leaves it past its mean.
fn mean_left(share: f64) -> f64 {
    if share < 1e-6 {
        1.0
    } else if share < 1.0 - 1e-12 {
        share / -(-share).ln_1p()
    } else {
        0.0
    }
}

/// Fluid on its way round.
struct Moving<'a> {
    plant: &'a Plant,
    gravity: &'a GravityTable,
    state: &'a State,
    before_kg_s: f64,
    loop_k: f64,
}

impl Moving<'_> {
    fn direction(&self) -> Direction {
        if self.before_kg_s < 0.0 { Direction::Backwards } else { Direction::Forwards }
    }

    /// Gives `seen` the rise of each segment and the fluid's mean temperature in it.
    fn through_panels(&self, bench: &mut DriftBench, mut seen: impl FnMut(f64, f64)) {
        let (plant, state) = (self.plant, self.state);
        let DriftBench { streams_k, effectiveness, shares } = bench;
        effectiveness.clear();
        effectiveness.extend(self.gravity.effectiveness(self.before_kg_s, self.loop_k));
        shares.clear();
        shares.extend(self.gravity.shares(self.before_kg_s, self.loop_k));
        let (way, into_k) = match self.direction() {
            Direction::Forwards => {
                (&plant.forwards, state.return_pipe_k[state.return_pipe_k.len() - 1])
            }
            Direction::Backwards => (&plant.backwards, state.flow_pipe_k[0]),
        };
        streams_k.clear();
        streams_k.resize(way.streams, into_k);
        for turn in &way.turns {
            match turn {
                Turn::Sheet { segment, stream, .. } => {
                    let place = &plant.segments[*segment];
                    let (plate_k, before_k) = (state.plate_k[*segment], streams_k[*stream]);
                    let share = effectiveness[place.answers_as];
                    streams_k[*stream] = before_k + share * (plate_k - before_k);
                    seen(place.rise_m, plate_k + mean_left(share) * (before_k - plate_k));
                }
                Turn::Pipe { pipe, stream, .. } => streams_k[*stream] = state.link_pipe_k[*pipe],
                Turn::Divide { from, to } => streams_k[*to] = streams_k[*from],
                Turn::Meet { streams, into } => {
                    let parts = streams
                        .iter()
                        .map(|&(stream, share)| (Straight::of(streams_k[stream]), shares[share]));
                    streams_k[*into] = mixed(parts).fixed;
                }
            }
        }
    }

    /// Gives `seen` the rise of the coil in each layer and the fluid's mean temperature there.
    fn through_coil(&self, mut seen: impl FnMut(f64, f64)) {
        let (plant, state) = (self.plant, self.state);
        let coil = &plant.coil;
        let (in_k, out_k) = coil_ends_k(state, self.direction());
        let ua_w_m_k = coil_ua_w_m_k(
            plant,
            Drive::Weight(self.before_kg_s),
            0.5 * (in_k + out_k),
            coil_water_k(plant, state),
        );
        let per_m = ua_w_m_k / self.gravity.rate_w_k(self.before_kg_s, self.loop_k);
        let mut stream_k = in_k;
        let mut pass = |layer: usize| {
            let water_k = state.layer_k[layer];
            let units = per_m * coil.length_m[layer];
            let left = (-units).exp();
            let mean_k = water_k + (stream_k - water_k) * (1.0 - left) / units;
            stream_k = water_k + (stream_k - water_k) * left;
            seen(coil_rise_m(plant, self.gravity, layer), mean_k);
        };
        match self.direction() {
            Direction::Forwards => coil.way.iter().for_each(|&layer| pass(layer)),
            Direction::Backwards => coil.way.iter().rev().for_each(|&layer| pass(layer)),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::mean_left;

    /// Given a stream that loses a tenth, then nearly all of its distance. Expected: the mean of an
    /// exponential over its length, summed here in a thousand steps.
    #[test]
    fn the_mean_of_a_stream_is_that_of_its_exponential() {
        for share in [0.1, 0.632, 0.99] {
            let decay: f64 = -(1.0_f64 - share).ln();
            let sum: f64 =
                (0..1000).map(|step| (-decay * (f64::from(step) + 0.5) / 1000.0).exp()).sum();
            assert!((mean_left(share) - sum / 1000.0).abs() < 1e-5, "{share}");
        }
        assert_eq!((mean_left(0.0), mean_left(1.0), mean_left(1.7)), (1.0, 0.0, 0.0));
    }
}
