//! Panels and pipes while nothing flows.

use crate::plant::{PipeRun, Plant};
use crate::state::{Flows, State};
use crate::step_circuit::GAMMA;
use crate::weather::Hour;

/// Moves the sheets by `step_s` with the pump standing; returns light taken up and losses.
///
/// Segments of a panel see the same light and weather and do not exchange heat; each takes two
/// stages of the implicit rule of [`crate::step_circuit`].
pub(crate) fn idle_panels(
    plant: &Plant,
    hour: &Hour,
    absorbed_w_m2: f64,
    step_s: f64,
    state: &mut State,
) -> Flows {
    let mut flows = Flows::default();
    for (segment, plate_k) in plant.segments.iter().zip(&mut state.plate_k) {
        let loss = hour.loss(segment.kind);
        let pace_w_k = segment.capacity_j_k / (GAMMA * step_s);
        let light_w = absorbed_w_m2 * segment.area_m2;
        let mut lost_w = |base_k: f64, near_k: f64, share: f64| {
            let conductances = loss.conductances(near_k);
            let top_w_k = conductances.top_w_m2_k * segment.area_m2;
            let rest_w_k = conductances.rest_w_m2_k * segment.area_m2;
            let solved_k =
                (pace_w_k * base_k + light_w + top_w_k * loss.empty_k + rest_w_k * loss.air_k)
                    / (pace_w_k + top_w_k + rest_w_k);
            flows.panel_loss_j += share
                * step_s
                * (top_w_k * (solved_k - loss.empty_k) + rest_w_k * (solved_k - loss.air_k));
            solved_k
        };
        let start_k = *plate_k;
        let first_k = lost_w(start_k, start_k, 1.0 - GAMMA);
        let base_k = start_k + (1.0 - GAMMA) / GAMMA * (first_k - start_k);
        *plate_k = lost_w(base_k, first_k, GAMMA);
        flows.absorbed_j += light_w * step_s;
    }
    flows
}

/// Lets the standing pipes cool for `step_s`, each node by its own exact exponential; returns the
/// heat they lost \[J\].
pub(crate) fn idle_pipes(plant: &Plant, hour: &Hour, step_s: f64, state: &mut State) -> f64 {
    cool(&plant.return_pipe, hour.return_around_k, step_s, &mut state.return_pipe_k)
        + cool(&plant.flow_pipe, hour.flow_around_k, step_s, &mut state.flow_pipe_k)
}

fn cool(run: &PipeRun, around_k: f64, step_s: f64, nodes_k: &mut [f64]) -> f64 {
    let gone = 1.0 - (-run.loss_w_k * step_s / run.capacity_j_k).exp();
    let mut lost_j = 0.0;
    for node_k in nodes_k {
        let fall_k = gone * (*node_k - around_k);
        *node_k -= fall_k;
        lost_j += run.capacity_j_k * fall_k;
    }
    lost_j
}
