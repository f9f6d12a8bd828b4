//! After the store: what the heater gives, draw by draw.

use physics::tap::{Heater, Inlet};

use crate::ledger::Tally;
use crate::plant::Plant;

/// Water that came to the heater in one minute.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Drawn {
    /// How much \[m3\].
    pub volume_m3: f64,
    /// How warm it came, on the mean, tempered where a valve does so \[K\].
    pub inlet_k: f64,
    /// How warm the mains is \[K\].
    pub mains_k: f64,
}

/// Tops up one minute's draw, books it, and returns the cylinder's new temperature \[K\].
///
/// An instantaneous heater gives what is missing and never takes: water warmer than wanted is
/// delivered as it is, and what it is too warm counts for nothing. One that stays off above its
/// highest inlet delivers the water as it came, and books what is missing as unmet. A cylinder takes the water in,
/// gives as much of its own mix out, and is brought back to the wanted temperature where it fell
/// below.
pub(crate) fn top_up(plant: &Plant, drawn: &Drawn, cylinder_k: f64, tally: &mut Tally) -> f64 {
    let heat_j_k = drawn.volume_m3 * plant.store.volume_heat_j_m3_k;
    let wanted_k = plant.delivery_k;
    tally.drawn_m3 += drawn.volume_m3;
    tally.need_heat_j += heat_j_k * (wanted_k - drawn.mains_k).max(0.0);
    match plant.heater {
        Heater::Instantaneous(inlet) => {
            let missing_j = heat_j_k * (wanted_k - drawn.inlet_k).max(0.0);
            let given_j = match inlet {
                Inlet::LockedOut { highest_k } if drawn.inlet_k > highest_k => {
                    tally.unmet_heat_j += missing_j;
                    0.0
                }
                _ => missing_j,
            };
            tally.topup_heat_j += given_j;
            tally.delivered_j += heat_j_k * (drawn.inlet_k - drawn.mains_k) + given_j;
            let given_k = if heat_j_k > 0.0 { given_j / heat_j_k } else { 0.0 };
            tally.tap_max_k = tally.tap_max_k.max(drawn.inlet_k + given_k);
            cylinder_k
        }
        Heater::Cylinder { volume_m3, .. } => {
            let capacity_j_k = volume_m3 * plant.store.volume_heat_j_m3_k;
            let share = 1.0 - (-drawn.volume_m3 / volume_m3).exp();
            let mixed_k = cylinder_k + share * (drawn.inlet_k - cylinder_k);
            // What came in less what stayed is what went out.
            let out_j =
                heat_j_k * (drawn.inlet_k - drawn.mains_k) - capacity_j_k * (mixed_k - cylinder_k);
            tally.delivered_j += out_j;
            // The first litre comes as the cylinder stood, the last as it is mixed.
            tally.tap_max_k = tally.tap_max_k.max(cylinder_k).max(mixed_k);
            tally.topup_heat_j += capacity_j_k * (wanted_k - mixed_k).max(0.0);
            mixed_k.max(wanted_k)
        }
    }
}

/// Lets the heater stand for `step_s`, books loss and what makes it good, and returns the
/// cylinder's new temperature \[K\].
pub(crate) fn stand(plant: &Plant, step_s: f64, cylinder_k: f64, tally: &mut Tally) -> f64 {
    let Heater::Cylinder { volume_m3, loss_w_k, room_k } = plant.heater else {
        return cylinder_k;
    };
    let capacity_j_k = volume_m3 * plant.store.volume_heat_j_m3_k;
    let fallen_k = room_k + (cylinder_k - room_k) * (-loss_w_k * step_s / capacity_j_k).exp();
    if fallen_k >= plant.delivery_k {
        tally.heater_loss_j += capacity_j_k * (cylinder_k - fallen_k);
        return fallen_k;
    }
    // Down to the wanted temperature by itself, held there for the rest of the step.
    let above_k = plant.delivery_k - room_k;
    let falling_s = if cylinder_k > plant.delivery_k && loss_w_k > 0.0 {
        capacity_j_k / loss_w_k * ((cylinder_k - room_k) / above_k).ln()
    } else {
        0.0
    };
    let held_j = loss_w_k * above_k * (step_s - falling_s);
    tally.heater_loss_j += capacity_j_k * (cylinder_k - plant.delivery_k) + held_j;
    tally.topup_heat_j += held_j;
    plant.delivery_k
}
