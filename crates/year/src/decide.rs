//! What the controller sees and does at the start of a minute.

use physics::control::{
    PanelProbePlace, Reading, StoreProbePlace, decide, lag_share, wall_probe_k,
};

use crate::plant::{Plant, SEGMENTS_PER_PANEL};
use crate::state::State;
use crate::upset::Misreading;
use crate::weather::Hour;

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

    /// Probes that have had time enough.
    pub const SETTLED: ProbeShares = ProbeShares { panel: 1.0, store: 1.0 };
}

/// What the probes lie in at one moment, beside the state.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Around<'a> {
    pub hour: &'a Hour,
    /// Fluid at the panels' outlet while it flows, else the sheet there \[K\].
    pub panel_out_k: f64,
    /// The fluid flows.
    pub flow: Flow,
    /// Time for which the pipes have cooled since their nodes were last stepped \[s\].
    pub pipes_stood_s: f64,
}

/// Whether the fluid flows.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Flow {
    Moving,
    Backwards,
    Resting,
}

impl Flow {
    /// What a flow round the circuit is \[kg/s\].
    pub fn of(flow_kg_s: f64) -> Flow {
        if flow_kg_s > 0.0 {
            Flow::Moving
        } else if flow_kg_s < 0.0 {
            Flow::Backwards
        } else {
            Flow::Resting
        }
    }
}

/// Lets the probes follow what they lie in.
pub(crate) fn follow_probes(
    plant: &Plant,
    shares: ProbeShares,
    around: &Around,
    state: &mut State,
) {
    let panel_k = at_panel_probe_k(plant, around, state);
    let store_k = at_store_probe_k(plant, around.hour, state);
    let memory = &mut state.control;
    memory.panel_probe_k += shares.panel * (panel_k - memory.panel_probe_k);
    memory.store_probe_k += shares.store * (store_k - memory.store_probe_k);
}

/// What the panel's probe lies in \[K\]. In a twin, which has no panel, nobody asks.
fn at_panel_probe_k(plant: &Plant, around: &Around, state: &State) -> f64 {
    let sheets_k = &state.plate_k;
    if sheets_k.is_empty() {
        return around.panel_out_k;
    }
    match plant.control.panel_probe_place {
        PanelProbePlace::Outlet => around.panel_out_k,
        PanelProbePlace::Inlet => match around.flow {
            Flow::Moving => state.return_pipe_k[state.return_pipe_k.len() - 1],
            Flow::Backwards | Flow::Resting => sheets_k[0],
        },
        PanelProbePlace::Sheet => {
            let last_k = &sheets_k[sheets_k.len() - SEGMENTS_PER_PANEL..];
            last_k.iter().sum::<f64>() / SEGMENTS_PER_PANEL as f64
        }
        PanelProbePlace::FlowPipe { distance_m } => {
            let pipe = &plant.flow_pipe;
            let around_k = around.hour.flow_around_k;
            let node_k = state.flow_pipe_k[pipe.node_at(distance_m)];
            around_k + pipe.left_after(around.pipes_stood_s) * (node_k - around_k)
        }
        PanelProbePlace::OpenAir => around.hour.air_k,
    }
}

/// What the store's probe lies in \[K\].
fn at_store_probe_k(plant: &Plant, hour: &Hour, state: &State) -> f64 {
    let water_k = state.layer_k[plant.store.probe];
    match plant.control.store_probe_place {
        StoreProbePlace::Water { .. } => water_k,
        StoreProbePlace::Wall { .. } => wall_probe_k(water_k, hour.loft_k, plant.store.wall_w_m2_k),
        StoreProbePlace::LoftAir => hour.loft_k,
    }
}

/// Decides on the pump; returns true where it starts now.
///
/// `misreading`: what upsets do to the readings.
pub(crate) fn decide_pump(
    plant: &Plant,
    misreading: Misreading,
    minute_of_day: u16,
    state: &mut State,
) -> bool {
    let control = &plant.control;
    let memory = &mut state.control;
    let mut reading = Reading {
        panel_k: memory.panel_probe_k + control.panel_probe.offset_k + misreading.panel_offset_k,
        store_k: memory.store_probe_k + control.store_probe.offset_k,
        minute: minute_of_day,
    };
    if misreading.swapped {
        std::mem::swap(&mut reading.panel_k, &mut reading.store_k);
    }
    let rested = !memory.running;
    *memory = decide(control, memory, reading);
    memory.running && rested
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
