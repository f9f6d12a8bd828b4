//! One step of panels, pipes, coil and store together, the pump running.
//!
//! Two stages of an L-stable implicit rule (the second-order singly diagonal one of Alexander
//! 1977, `gamma = 1 - 1/sqrt(2)`). Within a stage the whole loop is straight in one unknown, the
//! temperature of the fluid that leaves the coil: following the fluid once round writes every
//! node as `fixed + slope * unknown`, the end closes the ring, and a second look fills the nodes.
//! What crosses between stations is tallied from the very terms that moved the nodes, so energy is
//! kept to rounding whatever the step.

use crate::mix;
use crate::plant::{PipeRun, Plant};
use crate::state::{Flows, State};
use crate::step_store::water_rates_k_s;
use crate::weather::Hour;

/// Alexander's gamma.
pub(crate) const GAMMA: f64 = 1.0 - std::f64::consts::FRAC_1_SQRT_2;

/// A number that hangs on the unknown of the ring: `fixed + slope * unknown`.
#[derive(Clone, Copy, Debug, Default)]
struct Straight {
    fixed: f64,
    slope: f64,
}

impl Straight {
    fn at(self, unknown: f64) -> f64 {
        self.fixed + self.slope * unknown
    }

    /// `share` of the way from here to `other`.
    fn towards(self, other: Straight, share: f64) -> Straight {
        Straight {
            fixed: self.fixed + share * (other.fixed - self.fixed),
            slope: self.slope + share * (other.slope - self.slope),
        }
    }
}

/// Layers that move as one through a step.
#[derive(Clone, Copy, Debug, Default)]
struct Block {
    layers: usize,
    capacity_j_k: f64,
    loss_w_k: f64,
    /// Conduction from neighbouring blocks, as of the step's start \[W\].
    conduction_w: f64,
    /// Share of the way the stream comes towards the water in passing, 0 without coil.
    effectiveness: f64,
    /// What vapour carries off, `fixed + growth * temperature`; top block only.
    evaporation_w: f64,
    evaporation_w_k: f64,
}

/// Room the steps work in, made once for a year.
#[derive(Clone, Debug, Default)]
pub(crate) struct Bench {
    pub groups: Vec<(f64, usize)>,
    pub ends: Vec<usize>,
    pub rate_k_s: Vec<f64>,
    blocks: Vec<Block>,
    /// Blocks on the coil's way, in the order of the fluid.
    way: Vec<usize>,
    node: Vec<Straight>,
    /// Share of the way the stream comes towards the plate, by kind of segment.
    shares: Vec<f64>,
    /// What of the stream's distance from the water is left after each layer of the coil.
    left: Vec<f64>,
    /// Conductances of the segments in this stage: to the empty cover's temperature, to the air.
    drains_w_k: Vec<(f64, f64)>,
    /// Nodes a stage starts from.
    base: Vec<f64>,
    /// Nodes as last answered.
    last: Vec<f64>,
    /// Fluid leaving the panels, as last answered \[K\].
    panel_out_k: f64,
}

/// What does not change within a step.
struct Step<'a> {
    plant: &'a Plant,
    hour: &'a Hour,
    absorbed_w_m2: f64,
    rate_w_k: f64,
}

/// Moves panels, pipes and store by `step_s` with the pump running; returns what crossed.
///
/// `absorbed_w_m2`: light taken up through the step. The store must be in order (no layer warmer
/// than the one above); it is left in order.
pub(crate) fn run_step(
    plant: &Plant,
    hour: &Hour,
    absorbed_w_m2: f64,
    step_s: f64,
    state: &mut State,
    bench: &mut Bench,
) -> (Flows, Moved) {
    let Some(flow) = &plant.flow else { return Default::default() };
    let loop_k = loop_mean_k(state);
    let rate_w_k = flow.rate_w_k.at(loop_k);
    let step = Step { plant, hour, absorbed_w_m2, rate_w_k };
    bench.shares.clear();
    bench.shares.extend(flow.effectiveness.iter().map(|line| line.at(loop_k)));
    form_blocks(&step, state, bench);
    gather(state, bench);
    let pace_1_s = 1.0 / (GAMMA * step_s);
    let flows_first = stage(&step, pace_1_s, bench);
    for (base, answered) in bench.base.iter_mut().zip(&bench.last) {
        *base += (1.0 - GAMMA) / GAMMA * (answered - *base);
    }
    let flows_second = stage(&step, pace_1_s, bench);
    scatter(state, bench);
    mix::settle(&mut state.layer_k, &mut bench.groups);
    let mut flows = flows_first.times((1.0 - GAMMA) * step_s);
    flows.add(&flows_second.times(GAMMA * step_s));
    (flows, Moved { flow_kg_s: flow.flow_kg_s.at(loop_k), panel_out_k: bench.panel_out_k })
}

/// How the fluid moved in a step.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(crate) struct Moved {
    /// Round the circuit \[kg/s\].
    pub flow_kg_s: f64,
    /// Leaving the panels at the step's end \[K\].
    pub panel_out_k: f64,
}

/// Mean of the circuit: half panels, half pipes \[K\]. Flow and films are taken at it.
pub(crate) fn loop_mean_k(state: &State) -> f64 {
    let mean = |nodes: &[f64]| nodes.iter().sum::<f64>() / nodes.len() as f64;
    0.5 * mean(&state.plate_k) + 0.25 * (mean(&state.flow_pipe_k) + mean(&state.return_pipe_k))
}

/// Groups the layers that will move as one, and readies what the stages need of them.
fn form_blocks(step: &Step, state: &State, bench: &mut Bench) {
    let plant = step.plant;
    let store = &plant.store;
    let coil_in_k = state.flow_pipe_k[state.flow_pipe_k.len() - 1];
    let water_k = coil_water_k(plant, state);
    let ua_w_m_k = plant.coil.ua_w_m_k(0.5 * (coil_in_k + state.return_pipe_k[0]), water_k);
    water_rates_k_s(plant, step.hour, &state.layer_k, &mut bench.rate_k_s);
    // Most layers hold the same length of coil: its exponential is taken once.
    let mut last = (0.0, 1.0);
    bench.left.clear();
    bench.left.extend(plant.coil.length_m.iter().map(|&length_m| {
        if length_m != last.0 {
            last = (length_m, (-ua_w_m_k * length_m / step.rate_w_k).exp());
        }
        last.1
    }));
    let mut stream_k = coil_in_k;
    for &layer in &plant.coil.way {
        let given_k = (1.0 - bench.left[layer]) * (stream_k - state.layer_k[layer]);
        bench.rate_k_s[layer] += step.rate_w_k * given_k / store.layer_j_k;
        stream_k -= given_k;
    }
    mix::group(&state.layer_k, &bench.rate_k_s, &mut bench.groups, &mut bench.ends);
    bench.blocks.clear();
    let mut first = 0;
    for &end in &bench.ends {
        let layers = end - first;
        let mut block = Block {
            layers,
            capacity_j_k: store.layer_j_k * layers as f64,
            loss_w_k: store.loss_w_k[first..end].iter().sum(),
            ..Block::default()
        };
        block.effectiveness = 1.0 - bench.left[first..end].iter().product::<f64>();
        if first > 0 {
            block.conduction_w +=
                store.conduction_w_k * (state.layer_k[first - 1] - state.layer_k[first]);
        }
        if end < store.layers {
            block.conduction_w +=
                store.conduction_w_k * (state.layer_k[end] - state.layer_k[end - 1]);
        } else {
            let vapour =
                store.evaporation(state.layer_k[end - 1], step.hour.loft_k, step.hour.dew_point_k);
            block.evaporation_w = vapour.fixed_w;
            block.evaporation_w_k = vapour.growth_w_k;
        }
        bench.blocks.push(block);
        first = end;
    }
    bench.way.clear();
    let with_coil = |block: &usize| bench.blocks[*block].effectiveness > 0.0;
    if plant.coil.runs_down() {
        bench.way.extend((0..bench.blocks.len()).rev().filter(with_coil));
    } else {
        bench.way.extend((0..bench.blocks.len()).filter(with_coil));
    }
}

/// Mean of the water around the coil, by its length in each layer \[K\].
pub(crate) fn coil_water_k(plant: &Plant, state: &State) -> f64 {
    let mut sum = 0.0;
    let mut length_m = 0.0;
    for &layer in &plant.coil.way {
        sum += plant.coil.length_m[layer] * state.layer_k[layer];
        length_m += plant.coil.length_m[layer];
    }
    sum / length_m
}

/// All nodes in one row: return pipe, panels, flow pipe, blocks.
fn gather(state: &State, bench: &mut Bench) {
    bench.base.clear();
    bench.base.extend_from_slice(&state.return_pipe_k);
    bench.base.extend_from_slice(&state.plate_k);
    bench.base.extend_from_slice(&state.flow_pipe_k);
    let mut first = 0;
    for block in &bench.blocks {
        let layers = &state.layer_k[first..first + block.layers];
        bench.base.push(layers.iter().sum::<f64>() / block.layers as f64);
        first += block.layers;
    }
    bench.last.clear();
    bench.last.extend_from_slice(&bench.base);
    bench.node.clear();
    bench.node.resize(bench.base.len(), Straight::default());
    bench.drains_w_k.resize(state.plate_k.len(), (0.0, 0.0));
}

fn scatter(state: &mut State, bench: &Bench) {
    let mut from = 0;
    for part in [&mut state.return_pipe_k, &mut state.plate_k, &mut state.flow_pipe_k] {
        let nodes = part.len();
        part.copy_from_slice(&bench.last[from..from + nodes]);
        from += nodes;
    }
    let mut first = 0;
    for (block, &temperature_k) in bench.blocks.iter().zip(&bench.last[from..]) {
        state.layer_k[first..first + block.layers].fill(temperature_k);
        first += block.layers;
    }
}

/// Solves one stage from `bench.base` at the temperatures guessed in `bench.last`, leaves the
/// answer there, and returns the powers \[W\] that moved it, in the fields of [`Flows`].
fn stage(step: &Step, pace_1_s: f64, bench: &mut Bench) -> Flows {
    let plant = step.plant;
    let flow = plant.flow.as_ref().expect("a plant with segments has a flow");
    let rate_w_k = step.rate_w_k;
    let mut powers = Flows::default();

    // Once round, with the fluid, from the coil's outlet.
    let mut stream = Straight { fixed: 0.0, slope: 1.0 };
    let mut node = 0;
    stream = through_pipe(
        &plant.return_pipe,
        step.hour.return_around_k,
        stream,
        rate_w_k,
        pace_1_s,
        node,
        bench,
    );
    node += plant.return_pipe.nodes;
    let panels = node;
    let panels_in = stream;
    for (place, segment) in plant.segments.iter().enumerate() {
        let loss = step.hour.loss(segment.kind);
        let conductances = loss.conductances(bench.last[node]);
        let top_w_k = conductances.top_w_m2_k * segment.area_m2;
        let rest_w_k = conductances.rest_w_m2_k * segment.area_m2;
        let share = bench.shares[flow.effectiveness_of[place]];
        let pace_w_k = segment.capacity_j_k * pace_1_s;
        let pull_w_k = rate_w_k * share;
        let over = 1.0 / (pace_w_k + top_w_k + rest_w_k + pull_w_k);
        let gains_w = pace_w_k * bench.base[node]
            + (step.absorbed_w_m2 - loss.to_sky_w_m2) * segment.area_m2
            + top_w_k * loss.empty_k
            + rest_w_k * loss.air_k;
        let plate = Straight {
            fixed: (gains_w + pull_w_k * stream.fixed) * over,
            slope: pull_w_k * stream.slope * over,
        };
        bench.node[node] = plate;
        stream = stream.towards(plate, share);
        bench.drains_w_k[place] = (top_w_k, rest_w_k);
        node += 1;
    }
    let panels_out = stream;
    let flow_nodes = node;
    stream = through_pipe(
        &plant.flow_pipe,
        step.hour.flow_around_k,
        stream,
        rate_w_k,
        pace_1_s,
        node,
        bench,
    );
    node += plant.flow_pipe.nodes;
    let coil_in = stream;
    for &place in &bench.way {
        let block = &bench.blocks[place];
        let pace_w_k = block.capacity_j_k * pace_1_s;
        let pull_w_k = rate_w_k * block.effectiveness;
        let (gains_w, holds_w_k) = block_terms(block, step, bench.base[node + place], pace_w_k);
        let over = 1.0 / (holds_w_k + pull_w_k);
        let water = Straight {
            fixed: (gains_w + pull_w_k * stream.fixed) * over,
            slope: pull_w_k * stream.slope * over,
        };
        bench.node[node + place] = water;
        stream = stream.towards(water, block.effectiveness);
    }
    // The ring closes: what leaves the coil is the unknown itself.
    let coil_out_k = stream.fixed / (1.0 - stream.slope);

    bench.panel_out_k = panels_out.at(coil_out_k);

    // Fill the nodes and tally what moved them.
    for at in 0..flow_nodes + plant.flow_pipe.nodes {
        bench.last[at] = bench.node[at].at(coil_out_k);
    }
    for (place, segment) in plant.segments.iter().enumerate() {
        let loss = step.hour.loss(segment.kind);
        let plate_k = bench.last[panels + place];
        powers.absorbed_j += step.absorbed_w_m2 * segment.area_m2;
        let (top_w_k, rest_w_k) = bench.drains_w_k[place];
        powers.cover_loss_j +=
            loss.to_sky_w_m2 * segment.area_m2 + top_w_k * (plate_k - loss.empty_k);
        powers.back_loss_j += rest_w_k * (plate_k - loss.air_k);
    }
    powers.panel_heat_j = rate_w_k * (panels_out.at(coil_out_k) - panels_in.at(coil_out_k));
    let lost_w = |run: &PipeRun, around_k: f64, nodes_k: &[f64]| {
        run.loss_w_k * nodes_k.iter().map(|node_k| node_k - around_k).sum::<f64>()
    };
    powers.circuit_loss_j =
        lost_w(&plant.return_pipe, step.hour.return_around_k, &bench.last[..panels])
            + lost_w(&plant.flow_pipe, step.hour.flow_around_k, &bench.last[flow_nodes..node]);
    powers.coil_heat_j = rate_w_k * (coil_in.at(coil_out_k) - coil_out_k);
    for (place, block) in bench.blocks.iter().enumerate() {
        let at = node + place;
        let start_k = bench.base[at];
        let water_k = if block.effectiveness > 0.0 {
            bench.node[at].at(coil_out_k)
        } else {
            let pace_w_k = block.capacity_j_k * pace_1_s;
            let (gains_w, holds_w_k) = block_terms(block, step, start_k, pace_w_k);
            gains_w / holds_w_k
        };
        bench.last[at] = water_k;
        powers.store_loss_j += block.loss_w_k * (water_k - step.hour.loft_k);
        powers.evaporation_j += block.evaporation_w + block.evaporation_w_k * water_k;
    }
    powers
}

/// A block's gains beside the coil, and what holds it \[W\], \[W/K\].
fn block_terms(block: &Block, step: &Step, start_k: f64, pace_w_k: f64) -> (f64, f64) {
    (
        pace_w_k * start_k + block.loss_w_k * step.hour.loft_k + block.conduction_w
            - block.evaporation_w,
        pace_w_k + block.loss_w_k + block.evaporation_w_k,
    )
}

fn through_pipe(
    run: &PipeRun,
    around_k: f64,
    mut stream: Straight,
    rate_w_k: f64,
    pace_1_s: f64,
    first: usize,
    bench: &mut Bench,
) -> Straight {
    let pace_w_k = run.capacity_j_k * pace_1_s;
    let over = 1.0 / (pace_w_k + rate_w_k + run.loss_w_k);
    for at in first..first + run.nodes {
        stream = Straight {
            fixed: (pace_w_k * bench.base[at] + run.loss_w_k * around_k + rate_w_k * stream.fixed)
                * over,
            slope: rate_w_k * stream.slope * over,
        };
        bench.node[at] = stream;
    }
    stream
}

#[cfg(test)]
mod tests {
    use super::{Bench, run_step};
    use crate::forcing::HourForcing;
    use crate::weather::Hour;
    use crate::{Flows, Plant, State};
    use physics::ZERO_CELSIUS_K as C;
    use physics::control::Memory;

    fn plant() -> Plant {
        let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/../../samples/");
        let read = |name: &str| std::fs::read(format!("{folder}{name}")).expect("a sample");
        let design = design::read_design("first-panel.toml", &read("first-panel.toml"))
            .design
            .expect("it reads");
        let weather = read(&design.weather.path);
        let climate = design::weather::read_weather("weather", &weather).0.expect("it reads");
        Plant::compile(&design.at(&climate, "first-panel.toml").build).expect("it compiles")
    }

    /// One minute of flow in the dark: fluid at one temperature, water at another, air at 10 C.
    fn minute(plant: &Plant, fluid_k: f64, water_k: f64) -> (Flows, State) {
        let mut hour = Hour::room(plant);
        hour.fill(
            plant,
            &HourForcing {
                air_k: C + 10.0,
                sky_k: C + 5.0,
                wind_film_w_m2_k: 10.0,
                loft_k: C + 12.0,
                mains_k: C + 10.0,
                dew_point_k: C + 5.0,
            },
        )
        .expect("mild weather");
        let mut state = State {
            plate_k: vec![fluid_k; plant.segments.len()],
            flow_pipe_k: vec![fluid_k; plant.flow_pipe.nodes],
            return_pipe_k: vec![fluid_k; plant.return_pipe.nodes],
            layer_k: vec![water_k; plant.store.layers],
            cylinder_k: plant.delivery_k,
            control: Memory::at_rest(fluid_k),
            discharging: false,
        };
        let (flows, _) = run_step(plant, &hour, 0.0, 60.0, &mut state, &mut Bench::default());
        (flows, state)
    }

    /// Given fluid warmer than the water, then colder, then as warm: coil heat has the sign of fluid
    /// less water, and each temperature moves towards the other.
    #[test]
    fn coil_heat_has_the_sign_of_fluid_less_water() {
        let plant = plant();
        let (warm, after) = minute(&plant, C + 60.0, C + 20.0);
        assert!(warm.coil_heat_j > 0.0 && after.store_mean_k() > C + 20.0);
        let (cold, after) = minute(&plant, C + 15.0, C + 50.0);
        assert!(cold.coil_heat_j < 0.0 && after.store_mean_k() < C + 50.0);
        let (same, _) = minute(&plant, C + 30.0, C + 30.0);
        assert!(same.coil_heat_j.abs() < 0.01 * warm.coil_heat_j);
    }

    /// Given a step of any length, a minute or an hour, heat is kept to rounding: what the sheets
    /// lose in the dark goes through cover and ports, no more and no less.
    #[test]
    fn one_step_keeps_heat() {
        let plant = plant();
        let (flows, after) = minute(&plant, C + 60.0, C + 20.0);
        let stored_j: f64 = plant
            .segments
            .iter()
            .zip(&after.plate_k)
            .map(|(segment, plate_k)| segment.capacity_j_k * (plate_k - (C + 60.0)))
            .sum();
        assert!((stored_j + flows.panel_loss_j() + flows.panel_heat_j).abs() < 1e-6);
    }
}
