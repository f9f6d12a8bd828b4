//! A slow, plain right-hand side of the same nodes, written apart from the engine: each stream and
//! each loss by itself, nothing straightened, nothing grouped.

use physics::tap::{Heater, Inlet};
use year::forcing::HourForcing;
use year::plant::PipeRun;
use year::{Hour, Plant, State};

/// What is imposed in one moment.
#[derive(Clone, Copy)]
pub struct Moment {
    pub absorbed_w_m2: f64,
    pub moving: Moving,
    pub drawn_m3_s: f64,
    pub discharged_m3_s: f64,
    /// What else the store feeds takes, and from which layer.
    pub fed_m3_s: f64,
    pub fed_from: usize,
}

/// What moves the fluid.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Moving {
    Nothing,
    Pump,
    /// So much \[kg/s\], negative backwards.
    Weight(f64),
}

/// Powers at the interfaces \[W\], in the order of the heat.
#[derive(Clone, Copy, Debug, Default)]
pub struct Powers {
    pub absorbed: f64,
    pub cover_loss: f64,
    pub back_loss: f64,
    pub panel_heat: f64,
    pub circuit_loss: f64,
    pub coil_heat: f64,
    pub store_loss: f64,
    pub evaporation: f64,
    pub dumped: f64,
    pub tap_heat: f64,
    pub other_heat: f64,
}

/// How many there are.
pub const POWERS: usize = 11;

impl Powers {
    pub fn list(&self) -> [f64; POWERS] {
        [
            self.absorbed,
            self.cover_loss,
            self.back_loss,
            self.panel_heat,
            self.circuit_loss,
            self.coil_heat,
            self.store_loss,
            self.evaporation,
            self.dumped,
            self.tap_heat,
            self.other_heat,
        ]
    }
}

/// All nodes in a row: sheets, hot pipe, cool pipe, layers from below.
pub fn row(state: &State) -> Vec<f64> {
    [&state.plate_k[..], &state.flow_pipe_k, &state.return_pipe_k, &state.layer_k].concat()
}

/// Where each kind of node begins in the row.
struct Starts {
    flow: usize,
    cool: usize,
    water: usize,
}

impl Starts {
    fn of(plant: &Plant) -> Starts {
        let flow = plant.segments.len();
        let cool = flow + plant.flow_pipe.nodes;
        Starts { flow, cool, water: cool + plant.return_pipe.nodes }
    }
}

/// How fast every node warms \[K/s\], and what crosses the interfaces.
pub fn rates(
    plant: &Plant,
    hour: &Hour,
    mains_k: f64,
    moment: &Moment,
    nodes: &[f64],
    warming: &mut [f64],
) -> Powers {
    let at = Starts::of(plant);
    let mut gain = vec![0.0; nodes.len()];
    let mut powers = Powers::default();

    for (i, segment) in plant.segments.iter().enumerate() {
        let light = moment.absorbed_w_m2 * segment.area_m2;
        let hour_loss = hour.loss(segment.kind);
        let loss = hour_loss.flux_w_m2(nodes[i]) * segment.area_m2;
        let back_w_m2_k = hour_loss.conductances(nodes[i]).rest_w_m2_k;
        let back = back_w_m2_k * (nodes[i] - hour.air_k) * segment.area_m2;
        gain[i] += light - loss;
        powers.absorbed += light;
        powers.cover_loss += loss - back;
        powers.back_loss += back;
    }
    if !plant.segments.is_empty() {
        for (run, first, around) in [
            (&plant.flow_pipe, at.flow, hour.flow_around_k),
            (&plant.return_pipe, at.cool, hour.return_around_k),
        ] {
            for i in first..first + run.nodes {
                let loss = run.loss_w_k * (nodes[i] - around);
                gain[i] -= loss;
                powers.circuit_loss += loss;
            }
        }
    }
    for layer in 0..plant.store.layers {
        let i = at.water + layer;
        let loss = plant.store.loss_w_k[layer] * (nodes[i] - hour.loft_k);
        gain[i] -= loss;
        powers.store_loss += loss;
        if layer + 1 < plant.store.layers {
            let up = plant.store.conduction_w_k * (nodes[i] - nodes[i + 1]);
            gain[i] -= up;
            gain[i + 1] += up;
        }
    }
    let top = nodes.len() - 1;
    let vapour = plant.store.evaporation_w(nodes[top], hour.loft_k, hour.dew_point_k);
    gain[top] -= vapour;
    powers.evaporation = vapour;

    if moment.moving != Moving::Nothing {
        circulate(plant, nodes, moment.moving, &mut gain, &mut powers);
    }
    let drawn_m3_s =
        moment.drawn_m3_s * from_store(plant, mains_k, nodes[at.water + plant.store.outlet]);
    if drawn_m3_s > 0.0 {
        powers.tap_heat = pass(
            plant,
            mains_k,
            drawn_m3_s,
            plant.store.outlet,
            &nodes[at.water..],
            &mut gain[at.water..],
        );
    }
    if moment.fed_m3_s > 0.0 {
        powers.other_heat = pass(
            plant,
            mains_k,
            moment.fed_m3_s,
            moment.fed_from,
            &nodes[at.water..],
            &mut gain[at.water..],
        );
    }
    if moment.discharged_m3_s > 0.0 {
        let highest = plant.store.layers - 1;
        powers.dumped = pass(
            plant,
            mains_k,
            moment.discharged_m3_s,
            highest,
            &nodes[at.water..],
            &mut gain[at.water..],
        );
    }

    for (i, segment) in plant.segments.iter().enumerate() {
        warming[i] = gain[i] / segment.capacity_j_k;
    }
    let pipe = |run: &PipeRun, first: usize, warming: &mut [f64]| {
        for i in first..first + run.nodes {
            warming[i] = gain[i] / run.capacity_j_k;
        }
    };
    pipe(&plant.flow_pipe, at.flow, warming);
    pipe(&plant.return_pipe, at.cool, warming);
    for layer in 0..plant.store.layers {
        warming[at.water + layer] = gain[at.water + layer] / plant.store.layer_j_k;
    }
    powers
}

/// Mean of the circuit, half panels and half pipes.
fn loop_k(nodes: &[f64], at: &Starts) -> f64 {
    let mean = |row: &[f64]| row.iter().sum::<f64>() / row.len() as f64;
    mean(&nodes[..at.flow]) / 2.0
        + mean(&nodes[at.flow..at.cool]) / 4.0
        + mean(&nodes[at.cool..at.water]) / 4.0
}

/// Mean of the pipes.
fn pipes_k(nodes: &[f64], at: &Starts) -> f64 {
    let mean = |row: &[f64]| row.iter().sum::<f64>() / row.len() as f64;
    0.5 * (mean(&nodes[at.flow..at.cool]) + mean(&nodes[at.cool..at.water]))
}

/// The fluid once round from the coil's inlet: coil, cool pipe, panels, hot pipe; or the other way.
fn circulate(plant: &Plant, nodes: &[f64], moving: Moving, gain: &mut [f64], powers: &mut Powers) {
    let at = Starts::of(plant);
    let (flow, rate, towards_plate) = match moving {
        Moving::Weight(flow) => {
            let gravity = plant.gravity.as_ref().expect("a circuit that weight can move");
            let loop_k = pipes_k(nodes, &at);
            let shares: Vec<f64> = gravity.effectiveness(flow, loop_k).collect();
            (flow, gravity.rate_w_k(flow, loop_k), shares)
        }
        _ => {
            let pump = plant.flow.as_ref().expect("a flowing circuit has a flow");
            let loop_k = loop_k(nodes, &at);
            let shares = pump.effectiveness.iter().map(|line| line.at(loop_k)).collect();
            (pump.flow_kg_s.at(loop_k), pump.rate_w_k.at(loop_k), shares)
        }
    };
    let mut pass = |range: std::ops::Range<usize>, stream: &mut f64| {
        let order: Vec<usize> = if flow > 0.0 { range.collect() } else { range.rev().collect() };
        for i in order {
            gain[i] += rate * (*stream - nodes[i]);
            *stream = nodes[i];
        }
    };
    let into_coil = if flow > 0.0 { nodes[at.cool - 1] } else { nodes[at.cool] };
    let after = through_coil(plant, nodes, (moving, rate, flow > 0.0), into_coil);
    let coil_heat: f64 = after.given.iter().map(|(_, given)| given).sum();
    let mut stream = after.stream;
    let (first, last) = if flow > 0.0 {
        (at.cool..at.water, at.flow..at.cool)
    } else {
        (at.flow..at.cool, at.cool..at.water)
    };
    pass(first, &mut stream);
    let into_panels = stream;
    let panels: Vec<usize> =
        if flow > 0.0 { (0..at.flow).collect() } else { (0..at.flow).rev().collect() };
    let mut plates = Vec::new();
    for i in panels {
        let share = towards_plate[plant.segments[i].answers_as];
        let beyond = stream + share * (nodes[i] - stream);
        plates.push((i, rate * (beyond - stream)));
        stream = beyond;
    }
    powers.panel_heat = rate * (stream - into_panels);
    pass(last, &mut stream);
    for (i, taken) in plates {
        gain[i] -= taken;
    }
    for (layer, given) in after.given {
        gain[at.water + layer] += given;
    }
    powers.coil_heat += coil_heat;
}

/// What the coil gives each layer, and how warm the stream leaves it.
struct Coil {
    given: Vec<(usize, f64)>,
    stream: f64,
    /// Mean temperature of the fluid in each layer's part, in the order of the way.
    within: Vec<(usize, f64)>,
}

fn through_coil(
    plant: &Plant,
    nodes: &[f64],
    (moving, rate, forwards): (Moving, f64, bool),
    into: f64,
) -> Coil {
    let at = Starts::of(plant);
    let water = &nodes[at.water..];
    let length: f64 = plant.coil.length_m.iter().sum();
    let around = plant.coil.length_m.iter().zip(water).map(|(m, k)| m * k).sum::<f64>() / length;
    let mean = 0.5 * (nodes[at.cool - 1] + nodes[at.cool]);
    let ua = match moving {
        Moving::Weight(flow) => {
            let gravity = plant.gravity.as_ref().expect("a circuit that weight can move");
            gravity.coil_ua_w_m_k(flow, mean, around)
        }
        _ => plant.coil.ua_w_m_k(mean, around),
    };
    let mut coil = Coil { given: Vec::new(), stream: into, within: Vec::new() };
    let mut way = plant.coil.way.clone();
    if !forwards {
        way.reverse();
    }
    for layer in way {
        let units = ua * plant.coil.length_m[layer] / rate;
        let over = coil.stream - water[layer];
        let after = water[layer] + over * (-units).exp();
        coil.within.push((layer, water[layer] + over * (1.0 - (-units).exp()) / units));
        coil.given.push((layer, rate * (coil.stream - after)));
        coil.stream = after;
    }
    coil
}

/// Fluid in each segment: as warm as the plate where it stood, else on its way towards it. The houses held
/// here have one panel.
fn within_panels(plant: &Plant, nodes: &[f64], before: f64) -> Vec<(usize, f64)> {
    let at = Starts::of(plant);
    if before == 0.0 {
        return (0..at.flow).map(|i| (i, nodes[i])).collect();
    }
    let gravity = plant.gravity.as_ref().expect("a circuit that weight can move");
    let share: Vec<f64> = gravity.effectiveness(before, pipes_k(nodes, &at)).collect();
    let (order, mut stream): (Vec<usize>, f64) = if before > 0.0 {
        ((0..at.flow).collect(), nodes[at.water - 1])
    } else {
        ((0..at.flow).rev().collect(), nodes[at.flow])
    };
    let mut within = Vec::new();
    for i in order {
        let towards = share[plant.segments[i].answers_as];
        let after = stream + towards * (nodes[i] - stream);
        // The logarithmic mean of its distance from the plate; none where it comes all the way or past.
        let (first, last) = (stream - nodes[i], after - nodes[i]);
        let mean = if towards >= 1.0 {
            0.0
        } else if first == last {
            first
        } else {
            (first - last) / (first / last).ln()
        };
        within.push((i, nodes[i] + mean));
        stream = after;
    }
    within
}

/// Flow by weight as the nodes stand: the pressure of every part of the round, from height to height,
/// and what it drives. `before` is the flow a moment ago.
pub fn drift(plant: &Plant, nodes: &[f64], before: f64) -> f64 {
    const G: f64 = 9.806_65;
    let gravity = plant.gravity.as_ref().expect("a circuit that weight can move");
    let at = Starts::of(plant);
    let density = |k: f64| gravity.density_kg_m3.at(k);
    let mut pressure = 0.0;
    for (i, k) in within_panels(plant, nodes, before) {
        pressure -= G * plant.segments[i].rise_m * density(k);
    }
    for (i, rise) in gravity.rises.flow_pipe_m.iter().enumerate() {
        pressure -= G * rise * density(nodes[at.flow + i]);
    }
    for (i, rise) in gravity.rises.return_pipe_m.iter().enumerate() {
        pressure -= G * rise * density(nodes[at.cool + i]);
    }
    let length: f64 = plant.coil.length_m.iter().sum();
    let within = if before == 0.0 {
        plant.coil.way.iter().map(|&layer| (layer, nodes[at.water + layer])).collect()
    } else {
        let rate = gravity.rate_w_k(before, pipes_k(nodes, &at));
        let into = if before > 0.0 { nodes[at.cool - 1] } else { nodes[at.cool] };
        through_coil(plant, nodes, (Moving::Weight(before), rate, before > 0.0), into).within
    };
    for (layer, k) in within {
        pressure -= G * gravity.rises.coil_m * plant.coil.length_m[layer] / length * density(k);
    }
    gravity.flow_kg_s(pressure, pipes_k(nodes, &at))
}

/// What part of a draw a mixing valve before the heater takes from the store.
fn from_store(plant: &Plant, mains_k: f64, store_k: f64) -> f64 {
    match plant.heater {
        Heater::Instantaneous(Inlet::Tempered { highest_k }) if store_k > highest_k => {
            // Store water and mains, mixed, stand at the limit.
            let mains_part = (store_k - highest_k) / (store_k - mains_k);
            1.0 - mains_part.min(1.0)
        }
        _ => 1.0,
    }
}

/// Cold in at the inlet, as much out of a layer; every parcel that moves is written down as going
/// from one place to another. Returns the power carried out above the mains.
fn pass(
    plant: &Plant,
    mains_k: f64,
    m3_s: f64,
    out: usize,
    water: &[f64],
    gain: &mut [f64],
) -> f64 {
    let store = &plant.store;
    let heat = m3_s * store.volume_heat_j_m3_k;
    // What goes into each layer less what leaves it, the plume's own moves alone.
    let mut surplus = vec![0.0; water.len()];
    let mut layer = store.inlet;
    let (mut plume, mut plume_k) = (1.0, mains_k);
    while layer > 0 && plume_k < water[layer - 1] {
        let taken = store.entrained_per_layer;
        plume_k = (plume_k * plume + water[layer] * taken) / (plume + taken);
        plume += taken;
        surplus[layer] -= taken;
        gain[layer] -= heat * taken * water[layer];
        layer -= 1;
    }
    surplus[layer] += plume;
    gain[layer] += heat * plume * plume_k;
    surplus[out] -= 1.0;
    gain[out] -= heat * water[out];
    // Each face passes on what the layers below have too much.
    let mut up = 0.0;
    for face in 0..water.len() - 1 {
        up += surplus[face];
        let carried = heat * up * if up > 0.0 { water[face] } else { water[face + 1] };
        gain[face] -= carried;
        gain[face + 1] += carried;
    }
    heat * (water[out] - mains_k)
}

/// Water warmer than that above it mixes with it, pair by pair, until none is.
pub fn mix(plant: &Plant, nodes: &mut [f64]) {
    let first = nodes.len() - plant.store.layers;
    let water = &mut nodes[first..];
    // Groups as (sum, number), joined from below until each is cooler than the next.
    let mut groups: Vec<(f64, f64)> = Vec::new();
    for &k in water.iter() {
        groups.push((k, 1.0));
        while groups.len() > 1 {
            let (upper, lower) = (groups[groups.len() - 1], groups[groups.len() - 2]);
            if lower.0 / lower.1 <= upper.0 / upper.1 {
                break;
            }
            groups.pop();
            groups.pop();
            groups.push((lower.0 + upper.0, lower.1 + upper.1));
        }
    }
    let mut layer = 0;
    for (sum, number) in groups {
        for _ in 0..number as usize {
            water[layer] = sum / number;
            layer += 1;
        }
    }
}

/// The hour's weather as both marches take it.
pub fn hour_of(plant: &Plant, forcing: &HourForcing) -> Hour {
    let mut hour = Hour::room(plant);
    hour.fill(plant, forcing).expect("the samples' weather lies within the relations");
    hour
}
