//! Hours too dim for anything to start: taken in long strides.

use physics::control::{PanelProbePlace, Rule};

use crate::plant::Plant;
use crate::state::State;
use crate::weather::Hour;

/// Slack kept against the panel starting the pump \[K\].
const SLACK_K: f64 = 0.1;

/// True where the controller cannot call for the pump in an hour, whatever is drawn.
///
/// `brightest_w_m2`: most light taken up in any minute of the hour. `hour_of_day`: 0 to 23. By
/// temperature the pump starts only where the panel's probe passes a bound: upwards the one at
/// which the rule calls, with the store as cold as it can get (its coldest layer, its probe, the
/// mains or the loft); downwards that of the frost action.
pub(crate) fn cannot_start(
    plant: &Plant,
    hour: &Hour,
    brightest_w_m2: f64,
    hour_of_day: usize,
    state: &State,
) -> bool {
    if plant.segments.is_empty() {
        return true;
    }
    if state.control.running || state.discharging {
        return false;
    }
    let control = &plant.control;
    let uncalled = match &control.rule {
        Rule::Differential(rule) => {
            let coldest_k =
                state.layer_k.iter().copied().fold(hour.mains_k.min(hour.loft_k), f64::min);
            let starting_k = coldest_k.min(state.control.store_probe_k)
                + control.store_probe.offset_k
                + rule.on_difference_k;
            stays_below(plant, hour, brightest_w_m2, starting_k, state)
        }
        Rule::Thermostat(rule) => stays_below(plant, hour, brightest_w_m2, rule.on_k, state),
        Rule::Timer(spans) => {
            let first = hour_of_day as u16 * 60;
            !(first..first + 60).any(|minute| spans.iter().any(|span| span.holds(minute)))
        }
    };
    uncalled && control.frost.is_none_or(|frost| stays_above(plant, hour, frost.below_k, state))
}

/// True where the panel's probe cannot come to show `bound_k` from below while the pump rests.
///
/// A sheet below a temperature, which would lose more there than the light brings, cannot pass it.
/// A pipe stays between where it stands and its air.
fn stays_below(
    plant: &Plant,
    hour: &Hour,
    brightest_w_m2: f64,
    bound_k: f64,
    state: &State,
) -> bool {
    let felt_k = bound_k - plant.control.panel_probe.offset_k - SLACK_K;
    state.control.panel_probe_k < felt_k
        && match plant.control.panel_probe_place {
            PanelProbePlace::Outlet | PanelProbePlace::Inlet | PanelProbePlace::Sheet => {
                state.plate_max_k() < felt_k
                    && (0..plant.kinds.len())
                        .all(|kind| hour.loss(kind).flux_w_m2(felt_k) > brightest_w_m2)
            }
            PanelProbePlace::FlowPipe { distance_m } => {
                let node_k = state.flow_pipe_k[plant.flow_pipe.node_at(distance_m)];
                node_k.max(hour.flow_around_k) < felt_k
            }
            PanelProbePlace::OpenAir => hour.air_k < felt_k,
        }
}

/// The same from above: a sheet above a temperature at which even in the dark it would lose nothing
/// cannot fall to it.
fn stays_above(plant: &Plant, hour: &Hour, bound_k: f64, state: &State) -> bool {
    let felt_k = bound_k - plant.control.panel_probe.offset_k + SLACK_K;
    state.control.panel_probe_k > felt_k
        && match plant.control.panel_probe_place {
            PanelProbePlace::Outlet | PanelProbePlace::Inlet | PanelProbePlace::Sheet => {
                state.plate_k.iter().all(|&plate_k| plate_k > felt_k)
                    && (0..plant.kinds.len()).all(|kind| hour.loss(kind).flux_w_m2(felt_k) < 0.0)
            }
            PanelProbePlace::FlowPipe { distance_m } => {
                let node_k = state.flow_pipe_k[plant.flow_pipe.node_at(distance_m)];
                node_k.min(hour.flow_around_k) > felt_k
            }
            PanelProbePlace::OpenAir => hour.air_k > felt_k,
        }
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
