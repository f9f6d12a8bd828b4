//! Hours too dim for anything to start: taken in long strides.

use crate::plant::Plant;
use crate::state::State;
use crate::weather::Hour;

/// Slack kept against the panel starting the pump \[K\].
const SLACK_K: f64 = 0.1;

/// True where the controller cannot call for the pump in an hour, whatever is drawn.
///
/// `brightest_w_m2`: most light taken up in any minute of the hour. To start the pump the sheet
/// would have to pass the temperature that does so with the store as cold as it can get: its coldest
/// layer, its probe, the mains or the loft. A sheet below that temperature, which would lose more
/// there than the light brings, cannot pass it.
pub(crate) fn cannot_start(plant: &Plant, hour: &Hour, brightest_w_m2: f64, state: &State) -> bool {
    if plant.segments.is_empty() {
        return true;
    }
    if state.control.running || state.discharging {
        return false;
    }
    let control = &plant.control;
    let coldest_k = state.layer_k.iter().copied().fold(hour.mains_k.min(hour.loft_k), f64::min);
    let starting_k = coldest_k.min(state.control.store_probe_k)
        + control.store_probe.offset_k
        + control.rule.on_difference_k
        - control.panel_probe.offset_k
        - SLACK_K;
    state.plate_max_k().max(state.control.panel_probe_k) < starting_k
        && (0..plant.kinds.len()).all(|kind| hour.loss(kind).flux_w_m2(starting_k) > brightest_w_m2)
}

/// True where the overheat discharge cannot open in an hour in which the pump does not run:
/// the store cools.
pub(crate) fn cannot_discharge(plant: &Plant, hour: &Hour, state: &State) -> bool {
    match &plant.overheat {
        None => true,
        Some(valve) => {
            let top_k = state.layer_k[plant.store.layers - 1].max(hour.loft_k).max(hour.mains_k);
            !state.discharging && top_k < valve.open_k - SLACK_K
        }
    }
}
