//! One step of panels, pipes, coil and store together, the fluid running.
//!
//! Two stages of an L-stable implicit rule (the second-order singly diagonal one of Alexander
//! 1977, `gamma = 1 - 1/sqrt(2)`). Within a stage the whole loop is straight in one unknown, the
//! temperature of the fluid that leaves the coil: following the fluid once round writes every
//! node as `fixed + slope * unknown`, the end closes the ring, and a second look fills the nodes.
//! What crosses between stations is tallied from the very terms that moved the nodes, so energy is
//! kept to rounding whatever the step.

use crate::mix;
use crate::plant::{Direction, PipeRun, Plant};
use crate::state::{Flows, State};
use crate::step_bank::{PipeStage, through_bank};
use crate::step_store::water_rates_k_s;
use crate::straight::Straight;
use crate::weather::Hour;

/// Alexander's gamma.
pub(crate) const GAMMA: f64 = 1.0 - std::f64::consts::FRAC_1_SQRT_2;

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
    pub node: Vec<Straight>,
    /// Streams through the panels.
    pub streams: Vec<Straight>,
    /// Share of the way the stream comes towards the plate, by kind of segment.
    pub effectiveness: Vec<f64>,
    /// Parts of the flow that turns of the way name.
    pub shares: Vec<f64>,
    /// What of the stream's distance from the water is left after each layer of the coil.
    left: Vec<f64>,
    /// Conductances of the segments in this stage: to the empty cover's temperature, to the air.
    pub drains_w_k: Vec<(f64, f64)>,
    /// Nodes a stage starts from.
    pub base_k: Vec<f64>,
    /// Nodes as last answered.
    pub last_k: Vec<f64>,
    /// What the fluid gains in all panels \[W\].
    pub gained_w: Straight,
    /// Fluid leaving the panels, as last answered \[K\].
    panel_out_k: f64,
}

/// What does not change within a step.
pub(crate) struct Step<'a> {
    pub plant: &'a Plant,
    pub hour: &'a Hour,
    pub absorbed_w_m2: f64,
    moved: Moved,
    pub rate_w_k: f64,
    pub direction: Direction,
}

/// What moves the fluid through a step.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Drive {
    /// The pump.
    Pump,
    /// Its own weight: so much \[kg/s\], negative backwards and never 0.
    Weight(f64),
}

/// Moves panels, pipes and store by `step_s` with the fluid running; returns what crossed.
///
/// `absorbed_w_m2`: light taken up through the step. The store must be in order (no layer warmer
/// than the one above); it is left in order.
pub(crate) fn run_step(
    plant: &Plant,
    hour: &Hour,
    absorbed_w_m2: f64,
    (step_s, drive): (f64, Drive),
    state: &mut State,
    bench: &mut Bench,
) -> (Flows, Moved) {
    let Some((moved, rate_w_k)) = ready_flow(plant, drive, state, bench) else {
        return Default::default();
    };
    let direction = if moved.flow_kg_s < 0.0 { Direction::Backwards } else { Direction::Forwards };
    let mut step = Step { plant, hour, absorbed_w_m2, moved, rate_w_k, direction };
    form_blocks(&step, drive, state, bench);
    gather(state, bench);
    let pace_1_s = 1.0 / (GAMMA * step_s);
    let flows_first = stage(&step, pace_1_s, bench);
    for (base, answered) in bench.base_k.iter_mut().zip(&bench.last_k) {
        *base += (1.0 - GAMMA) / GAMMA * (answered - *base);
    }
    let flows_second = stage(&step, pace_1_s, bench);
    scatter(state, bench);
    mix::settle(&mut state.layer_k, &mut bench.groups);
    let mut flows = flows_first.times((1.0 - GAMMA) * step_s);
    flows.add(&flows_second.times(GAMMA * step_s));
    step.moved.panel_out_k = bench.panel_out_k;
    (flows, step.moved)
}

/// Finds how much flows and how it divides, and what it carries \[W/K\]; `None` where nothing can.
fn ready_flow(
    plant: &Plant,
    drive: Drive,
    state: &State,
    bench: &mut Bench,
) -> Option<(Moved, f64)> {
    bench.effectiveness.clear();
    bench.shares.clear();
    let (flow_kg_s, rate_w_k) = match drive {
        Drive::Pump => {
            let loop_k = loop_mean_k(state);
            let flow = plant.flow.as_ref()?;
            bench.effectiveness.extend(flow.effectiveness.iter().map(|line| line.at(loop_k)));
            bench.shares.extend(flow.shares.iter().map(|line| line.at(loop_k)));
            (flow.flow_kg_s.at(loop_k), flow.rate_w_k.at(loop_k))
        }
        Drive::Weight(flow_kg_s) => {
            let gravity = plant.gravity.as_ref()?;
            let loop_k = pipes_mean_k(state);
            bench.effectiveness.extend(gravity.effectiveness(flow_kg_s, loop_k));
            bench.shares.extend(gravity.shares(flow_kg_s, loop_k));
            (flow_kg_s, gravity.rate_w_k(flow_kg_s, loop_k))
        }
    };
    Some((Moved { flow_kg_s, panel_out_k: 0.0 }, rate_w_k))
}

/// How the fluid moved in a step.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(crate) struct Moved {
    /// Round the circuit \[kg/s\]; negative backwards.
    pub flow_kg_s: f64,
    /// Leaving the panels at the step's end, at whichever end \[K\].
    pub panel_out_k: f64,
}

/// Mean of the pipes \[K\]. Flow and films of a circuit that weight moves are taken at it: the fluid
/// creeps through sheets that are hotter by ten kelvin and more.
pub(crate) fn pipes_mean_k(state: &State) -> f64 {
    let mean = |nodes: &[f64]| nodes.iter().sum::<f64>() / nodes.len() as f64;
    0.5 * (mean(&state.flow_pipe_k) + mean(&state.return_pipe_k))
}

/// Mean of the circuit: half panels, half pipes \[K\]. A pump's flow and its films are taken at it.
pub(crate) fn loop_mean_k(state: &State) -> f64 {
    let mean = |nodes: &[f64]| nodes.iter().sum::<f64>() / nodes.len() as f64;
    0.5 * mean(&state.plate_k) + 0.25 * (mean(&state.flow_pipe_k) + mean(&state.return_pipe_k))
}

/// Groups the layers that will move as one, and readies what the stages need of them.
fn form_blocks(step: &Step, drive: Drive, state: &State, bench: &mut Bench) {
    let plant = step.plant;
    let store = &plant.store;
    let (coil_in_k, coil_out_k) = coil_ends_k(state, step.direction);
    let water_k = coil_water_k(plant, state);
    let ua_w_m_k = coil_ua_w_m_k(plant, drive, 0.5 * (coil_in_k + coil_out_k), water_k);
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
    let mut pass = |layer: usize| {
        let given_k = (1.0 - bench.left[layer]) * (stream_k - state.layer_k[layer]);
        bench.rate_k_s[layer] += step.rate_w_k * given_k / store.layer_j_k;
        stream_k -= given_k;
    };
    match step.direction {
        Direction::Forwards => plant.coil.way.iter().for_each(|&layer| pass(layer)),
        Direction::Backwards => plant.coil.way.iter().rev().for_each(|&layer| pass(layer)),
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
    if plant.coil.runs_down() == (step.direction == Direction::Forwards) {
        bench.way.extend((0..bench.blocks.len()).rev().filter(with_coil));
    } else {
        bench.way.extend((0..bench.blocks.len()).filter(with_coil));
    }
}

/// Pipes' ends at the coil, its inlet's first \[K\].
pub(crate) fn coil_ends_k(state: &State, direction: Direction) -> (f64, f64) {
    let ends_k = (state.flow_pipe_k[state.flow_pipe_k.len() - 1], state.return_pipe_k[0]);
    match direction {
        Direction::Forwards => ends_k,
        Direction::Backwards => (ends_k.1, ends_k.0),
    }
}

/// How well a metre of the coil passes heat \[W/(m K)\].
pub(crate) fn coil_ua_w_m_k(plant: &Plant, drive: Drive, fluid_k: f64, water_k: f64) -> f64 {
    match (drive, &plant.gravity) {
        (Drive::Weight(flow_kg_s), Some(gravity)) => {
            gravity.coil_ua_w_m_k(flow_kg_s, fluid_k, water_k)
        }
        _ => plant.coil.ua_w_m_k(fluid_k, water_k),
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

/// All nodes in one row: return pipe, panels, pipes between them, flow pipe, blocks.
fn gather(state: &State, bench: &mut Bench) {
    bench.base_k.clear();
    bench.base_k.extend_from_slice(&state.return_pipe_k);
    bench.base_k.extend_from_slice(&state.plate_k);
    bench.base_k.extend_from_slice(&state.link_pipe_k);
    bench.base_k.extend_from_slice(&state.flow_pipe_k);
    let mut first = 0;
    for block in &bench.blocks {
        let layers = &state.layer_k[first..first + block.layers];
        bench.base_k.push(layers.iter().sum::<f64>() / block.layers as f64);
        first += block.layers;
    }
    bench.last_k.clear();
    bench.last_k.extend_from_slice(&bench.base_k);
    bench.node.clear();
    bench.node.resize(bench.base_k.len(), Straight::default());
    bench.drains_w_k.resize(state.plate_k.len(), (0.0, 0.0));
}

fn scatter(state: &mut State, bench: &Bench) {
    let mut from = 0;
    let State { return_pipe_k, plate_k, link_pipe_k, flow_pipe_k, .. } = state;
    for part in [return_pipe_k, plate_k, link_pipe_k, flow_pipe_k] {
        let nodes = part.len();
        part.copy_from_slice(&bench.last_k[from..from + nodes]);
        from += nodes;
    }
    let mut first = 0;
    for (block, &temperature_k) in bench.blocks.iter().zip(&bench.last_k[from..]) {
        state.layer_k[first..first + block.layers].fill(temperature_k);
        first += block.layers;
    }
}

/// Solves one stage from `bench.base_k` at the temperatures guessed in `bench.last_k`, leaves the
/// answer there, and returns the powers \[W\] that moved it, in the fields of [`Flows`].
fn stage(step: &Step, pace_1_s: f64, bench: &mut Bench) -> Flows {
    let plant = step.plant;
    let rate_w_k = step.rate_w_k;
    let mut powers = Flows::default();
    let panels = plant.return_pipe.nodes;
    let links = panels + plant.segments.len();
    let flow_nodes = links + plant.links.len();
    let node = flow_nodes + plant.flow_pipe.nodes;

    // Once round, with the fluid, from the coil's outlet.
    let from_coil = Straight { fixed: 0.0, slope: 1.0 };
    let cool = PipeStage {
        run: &plant.return_pipe,
        around_k: step.hour.return_around_k,
        rate_w_k,
        pace_1_s,
    };
    let hot =
        PipeStage { run: &plant.flow_pipe, around_k: step.hour.flow_around_k, rate_w_k, pace_1_s };
    let (panels_out, coil_in) = match step.direction {
        Direction::Forwards => {
            let panels_in = cool.through(from_coil, 0..panels, bench);
            let panels_out = through_bank(step, pace_1_s, panels_in, bench);
            (panels_out, hot.through(panels_out, flow_nodes..node, bench))
        }
        Direction::Backwards => {
            let panels_in = hot.through(from_coil, (flow_nodes..node).rev(), bench);
            let panels_out = through_bank(step, pace_1_s, panels_in, bench);
            (panels_out, cool.through(panels_out, (0..panels).rev(), bench))
        }
    };
    let mut stream = coil_in;
    for &place in &bench.way {
        let block = &bench.blocks[place];
        let pace_w_k = block.capacity_j_k * pace_1_s;
        let pull_w_k = rate_w_k * block.effectiveness;
        let (gains_w, holds_w_k) = block_terms(block, step, bench.base_k[node + place], pace_w_k);
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
    for at in 0..node {
        bench.last_k[at] = bench.node[at].at(coil_out_k);
    }
    for (place, segment) in plant.segments.iter().enumerate() {
        let loss = step.hour.loss(segment.kind);
        let plate_k = bench.last_k[panels + place];
        powers.absorbed_j += step.absorbed_w_m2 * segment.area_m2;
        let (top_w_k, rest_w_k) = bench.drains_w_k[place];
        powers.cover_loss_j +=
            loss.to_sky_w_m2 * segment.area_m2 + top_w_k * (plate_k - loss.empty_k);
        powers.back_loss_j += rest_w_k * (plate_k - loss.air_k);
    }
    powers.panel_heat_j = bench.gained_w.at(coil_out_k);
    let lost_w = |run: &PipeRun, around_k: f64, nodes_k: &[f64]| {
        run.loss_w_k * nodes_k.iter().map(|node_k| node_k - around_k).sum::<f64>()
    };
    powers.circuit_loss_j =
        lost_w(&plant.return_pipe, step.hour.return_around_k, &bench.last_k[..panels])
            + lost_w(&plant.flow_pipe, step.hour.flow_around_k, &bench.last_k[flow_nodes..node]);
    for (place, link) in plant.links.iter().enumerate() {
        let link_k = &bench.last_k[links + place..=links + place];
        powers.circuit_loss_j += lost_w(link, step.hour.link_around_k[place], link_k);
    }
    powers.coil_heat_j = rate_w_k * (coil_in.at(coil_out_k) - coil_out_k);
    for (place, block) in bench.blocks.iter().enumerate() {
        let at = node + place;
        let start_k = bench.base_k[at];
        let water_k = if block.effectiveness > 0.0 {
            bench.node[at].at(coil_out_k)
        } else {
            let pace_w_k = block.capacity_j_k * pace_1_s;
            let (gains_w, holds_w_k) = block_terms(block, step, start_k, pace_w_k);
            gains_w / holds_w_k
        };
        bench.last_k[at] = water_k;
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

#[cfg(test)]
mod tests {
    use super::{Bench, Drive, run_step};
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
        let weather = read(design.weather.name());
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
            link_pipe_k: Vec::new(),
            layer_k: vec![water_k; plant.store.layers],
            cylinder_k: plant.delivery_k,
            control: Memory::at_rest(fluid_k),
            discharging: false,
        };
        let (flows, _) =
            run_step(plant, &hour, 0.0, (60.0, Drive::Pump), &mut state, &mut Bench::default());
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
