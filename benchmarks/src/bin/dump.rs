//! Writes the plant, forcing and start state of some days as JSON for the peers, with what the
//! engine itself makes of those days and how long it takes for them.

// A tool of the workshop: what it prints is its result.
#![allow(clippy::print_stdout)]

use std::time::{Duration, Instant};

use serde_json::{Value, json};
use year::plant::PipeRun;
use year::{Forcing, Hour, Plant, Recorder, Tally, Upset, march_days, start_state};

/// Day of the year on which the dumped days begin: 1 June.
const FIRST_DAY: usize = 151;
/// Days dumped.
const DAYS: usize = 30;
/// Times the engine is timed; the shortest counts.
const REPEATS: usize = 9;

fn main() {
    let house = benchmarks::house();
    let forcing = begun_later(&house.forcing, FIRST_DAY);
    let plant = Plant::compile(&house.build).expect("the sample compiles");
    let days = |days: usize| {
        march_days(&plant, &forcing, &Upset::none(), &mut Recorder::none(), days)
            .expect("the sample computes")
    };
    let timed = |count: usize| -> Duration {
        (0..REPEATS)
            .map(|_| {
                let start = Instant::now();
                let done = days(count);
                assert_eq!(done.tallies.len(), count);
                start.elapsed()
            })
            .min()
            .expect("repeated at least once")
    };
    // The run-in before the first day is in both and goes out in the difference.
    let engine_s = timed(DAYS + 1).saturating_sub(timed(1)).as_secs_f64();
    let energies: Vec<Value> = days(DAYS).tallies.iter().map(energies_j).collect();
    let dump = json!({
        "plant": plant_json(&plant),
        "start": start_json(&plant, &forcing),
        "hours": (0..DAYS * 24).map(|hour| hour_json(&plant, &forcing, hour)).collect::<Vec<_>>(),
        "absorbed_w_m2": forcing.light.absorbed_w_m2[..DAYS * 1440],
        "draws": forcing
            .draws
            .iter()
            .filter(|draw| (draw.minute as usize) < DAYS * 1440)
            .map(|draw| json!([draw.minute, draw.volume_m3]))
            .collect::<Vec<_>>(),
        "engine_energies_j": energies,
        "engine_s": engine_s,
    });
    println!("{dump}");
}

/// The same forcing, its year beginning so many days later.
fn begun_later(forcing: &Forcing, days: usize) -> Forcing {
    let mut later = forcing.clone();
    later.light.absorbed_w_m2.rotate_left(days * 1440);
    later.light.plane_w_m2.rotate_left(days * 24);
    later.hours.rotate_left(days * 24);
    let year = year::MINUTES_PER_YEAR as u32;
    let shift = (days * 1440) as u32;
    for draw in &mut later.draws {
        draw.minute = (draw.minute + year - shift) % year;
    }
    later.draws.sort_by_key(|draw| draw.minute);
    later
}

fn energies_j(day: &Tally) -> Value {
    json!([
        day.flows().panel_loss_j(),
        day.flows().panel_heat_j,
        day.flows().circuit_loss_j,
        day.flows().coil_heat_j,
        day.flows().store_loss_j,
        day.tap_heat_j,
        day.topup_heat_j,
        day.pump_s
    ])
}

fn plant_json(plant: &Plant) -> Value {
    let flow = plant.flow.as_ref().expect("a pumped build");
    let pipe = |run: &PipeRun| json!([run.nodes, run.capacity_j_k, run.loss_w_k]);
    // A kelvin between nodes, as the engine's own tables have it or finer.
    let loop_k = |node: usize| 243.15 + node as f64;
    let fluid_k = |node: usize| 263.15 + 5.0 * node as f64;
    let root = |node: usize| -3.2 + 0.2 * node as f64;
    let store = &plant.store;
    let physics::control::Rule::Differential(rule) = &plant.control.rule else {
        panic!("the sample compares two probes");
    };
    let control = &plant.control;
    let limit = control.store_limit.expect("the sample has a limit");
    let physics::tap::Heater::Cylinder { volume_m3, loss_w_k, room_k } = plant.heater else {
        panic!("the sample has a cylinder");
    };
    json!({
        "segments": plant.segments.iter().map(|s| json!([s.area_m2, s.capacity_j_k])).collect::<Vec<_>>(),
        "rate_w_k": (0..181).map(|node| flow.rate_w_k.at(loop_k(node))).collect::<Vec<_>>(),
        "share": (0..181).map(|node| flow.effectiveness[0].at(loop_k(node))).collect::<Vec<_>>(),
        "flow_pipe": pipe(&plant.flow_pipe),
        "return_pipe": pipe(&plant.return_pipe),
        "coil_ua_w_m_k": (0..29)
            .map(|row| {
                (0..33)
                    .map(|column| {
                        let root: f64 = root(column);
                        let water_k = fluid_k(row) - root.signum() * root.powi(4);
                        plant.coil.ua_w_m_k(fluid_k(row), water_k)
                    })
                    .collect::<Vec<_>>()
            })
            .collect::<Vec<_>>(),
        "coil_length_m": plant.coil.length_m,
        "coil_way": plant.coil.way,
        "layer_j_k": store.layer_j_k,
        "layer_m3": store.layer_m3,
        "volume_heat_j_m3_k": store.volume_heat_j_m3_k,
        "store_loss_w_k": store.loss_w_k,
        "conduction_w_k": store.conduction_w_k,
        "inlet": store.inlet,
        "outlet": store.outlet,
        "probe": store.probe,
        "entrained_per_layer": store.entrained_per_layer,
        "cylinder": [volume_m3, loss_w_k, room_k],
        "delivery_k": plant.delivery_k,
        "control": [
            rule.on_difference_k, rule.off_difference_k, control.min_on_s,
            control.min_off_s, limit.limit_k, limit.reset_difference_k, rule.panel_limit_k,
            plant.control.panel_probe.offset_k, plant.control.panel_probe.lag_s,
            plant.control.store_probe.offset_k, plant.control.store_probe.lag_s
        ],
    })
}

fn start_json(plant: &Plant, forcing: &Forcing) -> Value {
    let state = start_state(plant, forcing).expect("the sample computes");
    let memory = &state.control;
    json!({
        "return_pipe_k": state.return_pipe_k,
        "plate_k": state.plate_k,
        "flow_pipe_k": state.flow_pipe_k,
        "layer_k": state.layer_k,
        "cylinder_k": state.cylinder_k,
        "control": [
            f64::from(u8::from(memory.running)),
            memory.since_switch_s.min(1e9),
            f64::from(u8::from(memory.store_full)),
            memory.panel_probe_k,
            memory.store_probe_k
        ],
    })
}

/// An hour's air, and its losses at plates from 80 K under to 260 K over the empty cover.
fn hour_json(plant: &Plant, forcing: &Forcing, hour: usize) -> Value {
    let mut weather = Hour::room(plant);
    weather.fill(plant, &forcing.hours[hour]).expect("the sample's weather");
    let loss = weather.loss(0);
    let at = |node: usize| loss.conductances(loss.empty_k - 80.0 + 2.5 * node as f64);
    json!({
        "air": [weather.air_k, weather.loft_k, weather.mains_k, loss.empty_k,
                weather.flow_around_k, weather.return_around_k],
        "top_w_m2_k": (0..137).map(|node| at(node).top_w_m2_k).collect::<Vec<_>>(),
        "rest_w_m2_k": (0..137).map(|node| at(node).rest_w_m2_k).collect::<Vec<_>>(),
    })
}
