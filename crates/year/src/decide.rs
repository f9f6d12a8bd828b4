//! What the controller sees and does at the start of a minute.

use physics::control::{Reading, decide, lag_share};

use crate::plant::Plant;
use crate::state::State;

/// Length of a minute \[s\]: the controller decides once in it.
pub(crate) const MINUTE_S: f64 = 60.0;

/// Shares by which the probes follow the truth in one minute.
#[derive(Clone, Copy, Debug)]
pub(crate) struct ProbeShares {
    panel: f64,
    store: f64,
}

impl ProbeShares {
    pub fn of(plant: &Plant) -> Self {
        ProbeShares {
            panel: lag_share(MINUTE_S, plant.control.panel_probe.lag_s),
            store: lag_share(MINUTE_S, plant.control.store_probe.lag_s),
        }
    }
}

/// Lets the probes follow for the minute that has passed.
pub(crate) fn follow_probes(
    plant: &Plant,
    shares: ProbeShares,
    panel_out_k: f64,
    state: &mut State,
) {
    let store_k = state.layer_k[plant.store.probe];
    let memory = &mut state.control;
    memory.panel_probe_k += shares.panel * (panel_out_k - memory.panel_probe_k);
    memory.store_probe_k += shares.store * (store_k - memory.store_probe_k);
}

/// Decides on the pump; returns true where it starts now.
///
/// `panel_offset_k`: what upsets add to the panel probe's own offset.
pub(crate) fn decide_pump(plant: &Plant, panel_offset_k: f64, state: &mut State) -> bool {
    let control = &plant.control;
    let memory = &mut state.control;
    let reading = Reading {
        panel_k: memory.panel_probe_k + control.panel_probe.offset_k + panel_offset_k,
        store_k: memory.store_probe_k + control.store_probe.offset_k,
    };
    let (running, store_full) = decide(&control.rule, memory, reading);
    let starts = running && !memory.running;
    if running != memory.running {
        memory.since_switch_s = 0.0;
    }
    memory.running = running;
    memory.store_full = store_full;
    starts
}

/// Opens or shuts the overheat discharge by the store's top.
pub(crate) fn decide_discharge(plant: &Plant, state: &mut State) {
    let Some(valve) = &plant.overheat else { return };
    let top_k = state.layer_k[plant.store.layers - 1];
    if state.discharging {
        state.discharging = top_k > valve.close_k;
    } else {
        state.discharging = top_k >= valve.open_k;
    }
}
