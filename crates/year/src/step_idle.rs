//! Panels and pipes while nothing flows.

use crate::plant::{Conductances, HourLoss, PipeRun, Plant};
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
        let pace_w_m2_k = segment.capacity_j_k / (GAMMA * step_s * segment.area_m2);
        let start_k = *plate_k;
        let mut near = loss.conductances(start_k);
        let first_k = solve(pace_w_m2_k, start_k, absorbed_w_m2, loss, near);
        let first = lost(first_k, loss, near);
        if (first_k - start_k).abs() > SAME_K {
            near = loss.conductances(first_k);
        }
        let base_k = start_k + (1.0 - GAMMA) / GAMMA * (first_k - start_k);
        let second_k = solve(pace_w_m2_k, base_k, absorbed_w_m2, loss, near);
        let second = lost(second_k, loss, near);
        let over_step_j = |first_w_m2: f64, second_w_m2: f64| {
            ((1.0 - GAMMA) * first_w_m2 + GAMMA * second_w_m2) * segment.area_m2 * step_s
        };
        *plate_k = second_k;
        flows.cover_loss_j += over_step_j(first.cover_w_m2, second.cover_w_m2);
        flows.back_loss_j += over_step_j(first.back_w_m2, second.back_w_m2);
        flows.absorbed_j += absorbed_w_m2 * segment.area_m2 * step_s;
    }
    flows
}

/// Within so little the conductances are the same: a thousandth of them at most \[K\].
const SAME_K: f64 = 0.5;

/// One implicit stage of a square metre of sheet \[K\].
fn solve(
    pace_w_m2_k: f64,
    base_k: f64,
    absorbed_w_m2: f64,
    loss: &HourLoss,
    near: Conductances,
) -> f64 {
    let Conductances { top_w_m2_k, rest_w_m2_k } = near;
    let kept_w_m2 = absorbed_w_m2 - loss.to_sky_w_m2;
    (pace_w_m2_k * base_k + kept_w_m2 + top_w_m2_k * loss.empty_k + rest_w_m2_k * loss.air_k)
        / (pace_w_m2_k + top_w_m2_k + rest_w_m2_k)
}

/// What a square metre of sheet loses, by face.
struct Lost {
    cover_w_m2: f64,
    back_w_m2: f64,
}

fn lost(plate_k: f64, loss: &HourLoss, near: Conductances) -> Lost {
    Lost {
        cover_w_m2: loss.to_sky_w_m2 + near.top_w_m2_k * (plate_k - loss.empty_k),
        back_w_m2: near.rest_w_m2_k * (plate_k - loss.air_k),
    }
}

/// Lets the standing pipes cool for `step_s`, each node by its own exact exponential; returns the
/// heat they lost \[J\].
pub(crate) fn idle_pipes(plant: &Plant, hour: &Hour, step_s: f64, state: &mut State) -> f64 {
    let mut lost_j =
        cool(&plant.return_pipe, hour.return_around_k, step_s, &mut state.return_pipe_k)
            + cool(&plant.flow_pipe, hour.flow_around_k, step_s, &mut state.flow_pipe_k);
    for (place, link) in plant.links.iter().enumerate() {
        let node = &mut state.link_pipe_k[place..=place];
        lost_j += cool(link, hour.link_around_k[place], step_s, node);
    }
    lost_j
}

fn cool(run: &PipeRun, around_k: f64, step_s: f64, nodes_k: &mut [f64]) -> f64 {
    let gone = 1.0 - run.left_after(step_s);
    let mut lost_j = 0.0;
    for node_k in nodes_k {
        let fall_k = gone * (*node_k - around_k);
        *node_k -= fall_k;
        lost_j += run.capacity_j_k * fall_k;
    }
    lost_j
}
