//! Hours in which nothing can start: taken in long strides.

use crate::plant::Plant;
use crate::state::State;
use crate::weather::Hour;

/// Slack kept against the panel starting the pump \[K\].
const SLACK_K: f64 = 0.1;

/// True where the controller cannot call for the pump in an unlit hour, whatever is drawn.
///
/// An unlit sheet only drifts towards sky and air, so it can be no warmer than the warmest of
/// itself, its probe, air and empty cover; the store can be no colder than its coldest layer, its
/// probe and the mains.
pub(crate) fn cannot_start(plant: &Plant, hour: &Hour, state: &State) -> bool {
    if plant.segments.is_empty() {
        return true;
    }
    if state.control.running || state.discharging {
        return false;
    }
    let control = &plant.control;
    let memory = &state.control;
    let panel_k = state.plate_max_k().max(memory.panel_probe_k).max(hour.unlit_max_k());
    let coldest_k = state.layer_k.iter().copied().fold(hour.mains_k, f64::min);
    let store_k = coldest_k.min(memory.store_probe_k).min(hour.loft_k);
    let seen_k = panel_k + control.panel_probe.offset_k - (store_k + control.store_probe.offset_k);
    seen_k < control.rule.on_difference_k - SLACK_K
}

/// True where the overheat discharge cannot open in an hour without sun: the store cools.
pub(crate) fn cannot_discharge(plant: &Plant, hour: &Hour, state: &State) -> bool {
    match &plant.overheat {
        None => true,
        Some(valve) => {
            let top_k = state.layer_k[plant.store.layers - 1].max(hour.loft_k).max(hour.mains_k);
            !state.discharging && top_k < valve.open_k - SLACK_K
        }
    }
}
