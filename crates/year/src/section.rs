//! The year's sun told apart: what each loss took, and what was spared in the end.

use physics::climate::month_of_day;

use crate::forcing::Forcing;
use crate::ledger::{KWH_J, Tally};
use crate::result::{YearResult, spared_heat_j};

/// Where heat is lost, in the order of the heat's path.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Loss {
    /// Light stopped by horizon, near shade and the box's own walls.
    NearThings,
    /// Light thrown back by, or kept in, glass and paint.
    ThrownBack,
    /// Through the cover while the fluid flowed; of a bought panel, through all faces.
    Cover,
    /// Through back and edges while the fluid flowed.
    Back,
    /// By the panel while the fluid rested: the sun too weak for the pump.
    TooWeak,
    /// By the panel while a limit kept the pump from running.
    Barred,
    /// By the pipes while the fluid flowed.
    PipesRunning,
    /// By the pipes while it stood.
    PipesStanding,
    /// Through the store's walls, base and lid, beyond what the twin's store lost.
    StoreWalls,
    /// Carried off by vapour, beyond the twin's.
    Vapour,
    /// Let go by the overheat discharge.
    Dumped,
    /// Carried out by what else the store feeds, beyond the twin's.
    OtherFeeds,
    /// Carried out of the store by drawn water without sparing the heater anything: hotter than asked
    /// for, or kept warm in a cylinder.
    PastNeed,
    /// Held in panel, pipes and store as the span ended; negative where they were left colder.
    Held,
}

impl Loss {
    /// Every loss, in order.
    pub const ALL: [Loss; 14] = [
        Loss::NearThings,
        Loss::ThrownBack,
        Loss::Cover,
        Loss::Back,
        Loss::TooWeak,
        Loss::Barred,
        Loss::PipesRunning,
        Loss::PipesStanding,
        Loss::StoreWalls,
        Loss::Vapour,
        Loss::Dumped,
        Loss::OtherFeeds,
        Loss::PastNeed,
        Loss::Held,
    ];
}

/// One loss of the year, and of its months.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stratum {
    /// Which.
    pub loss: Loss,
    /// In the year \[J\]; negative where heat came in instead.
    pub year_j: f64,
    /// By month \[J\].
    pub months_j: [f64; 12],
}

/// The year's sun on all sheets, divided without remainder: `sun = sum of the strata + spared`.
#[derive(Clone, Debug, PartialEq)]
pub struct HeatSection {
    /// Sun on all sheets under a free sky \[J\].
    pub sun_j: f64,
    /// By month \[J\].
    pub sun_months_j: [f64; 12],
    /// Every loss, in the order of [`Loss::ALL`].
    pub strata: Vec<Stratum>,
    /// Spared to the heater \[J\].
    pub spared_j: f64,
    /// By month \[J\].
    pub spared_months_j: [f64; 12],
    /// What the twin's draws bring of the loft's own warmth \[J\].
    pub loft_j: f64,
    /// What the build's heater still gives, and would have to give for water too warm for it \[J\].
    pub bought_j: f64,
}

impl HeatSection {
    /// Divides a year's sun.
    ///
    /// `area_m2`: of all sheets, as the forcing's light counts.
    pub fn of(result: &YearResult, forcing: &Forcing, area_m2: f64) -> HeatSection {
        let light = &forcing.light;
        let sun_months_j = light.open_plane_kwh_m2.map(|kwh_m2| kwh_m2 * area_m2 * KWH_J);
        let months: Vec<[f64; Loss::ALL.len()]> = (0..12)
            .map(|month| {
                let sun = Sun {
                    open_j: sun_months_j[month],
                    left_j: (light.plane_kwh_m2[month] - light.walls_kwh_m2[month])
                        * area_m2
                        * KWH_J,
                };
                losses_j(&sun, &result.build.months[month], &result.twin.months[month])
            })
            .collect();
        let spared_months_j = std::array::from_fn(|month| {
            spared_heat_j(&result.build.months[month], &result.twin.months[month])
        });
        let strata = Loss::ALL
            .iter()
            .enumerate()
            .map(|(place, &loss)| {
                let months_j = std::array::from_fn(|month| months[month][place]);
                Stratum { loss, year_j: months_j.iter().sum(), months_j }
            })
            .collect();
        let (build, twin) = (result.build.year(), result.twin.year());
        HeatSection {
            sun_j: sun_months_j.iter().sum(),
            sun_months_j,
            strata,
            spared_j: spared_months_j.iter().sum(),
            spared_months_j,
            loft_j: twin.tap_heat_j,
            bought_j: build.topup_heat_j + build.unmet_heat_j - twin.unmet_heat_j,
        }
    }

    /// A loss of the year \[J\].
    pub fn lost_j(&self, loss: Loss) -> f64 {
        self.strata.iter().filter(|stratum| stratum.loss == loss).map(|at| at.year_j).sum()
    }

    /// All the heat behind the hot water: spared, the loft's own and bought \[J\].
    pub fn need_j(&self) -> f64 {
        self.spared_j + self.loft_j + self.bought_j
    }

    /// Parts from 0 upwards that still make up the whole sun, for a picture: the strata in order and
    /// what is spared. Where heat came in instead of being lost, it is set against the losses before
    /// it, the nearest first.
    pub fn widths_j(&self) -> (Vec<f64>, f64) {
        let mut parts: Vec<f64> = self.strata.iter().map(|stratum| stratum.year_j).collect();
        parts.push(self.spared_j);
        settle(&mut parts);
        let spared_j = parts.pop().unwrap_or_default();
        (parts, spared_j)
    }

    /// What each month still holds after the first `losses` strata, as shares of the whole; months that
    /// are down to nothing, or below, hold nothing.
    pub fn month_shares(&self, losses: usize) -> [f64; 12] {
        let mut left_j = self.sun_months_j;
        for stratum in &self.strata[..losses] {
            for (left, lost) in left_j.iter_mut().zip(stratum.months_j) {
                *left -= lost;
            }
        }
        let left_j = left_j.map(|left| left.max(0.0));
        let whole_j: f64 = left_j.iter().sum();
        if whole_j > 0.0 { left_j.map(|left| left / whole_j) } else { [1.0 / 12.0; 12] }
    }
}

/// Sun of a span on all sheets.
struct Sun {
    /// Under a free sky \[J\].
    open_j: f64,
    /// What horizon, near shade and walls leave \[J\].
    left_j: f64,
}

/// The losses of a span in the order of [`Loss::ALL`]; the last is what the others leave.
fn losses_j(sun: &Sun, build: &Tally, twin: &Tally) -> [f64; Loss::ALL.len()] {
    let (all, twins) = (build.flows(), twin.flows());
    let spared_j = spared_heat_j(build, twin);
    let mut losses_j = [
        sun.open_j - sun.left_j,
        sun.left_j - all.absorbed_j,
        build.moving.cover_loss_j,
        build.moving.back_loss_j,
        build.resting.panel_loss_j(),
        build.barred.panel_loss_j(),
        build.moving.circuit_loss_j,
        build.resting.circuit_loss_j,
        all.store_loss_j - twins.store_loss_j,
        all.evaporation_j - twins.evaporation_j,
        build.dumped_j - twin.dumped_j,
        build.other_heat_j - twin.other_heat_j,
        build.tap_heat_j - twin.tap_heat_j - spared_j,
        0.0,
    ];
    losses_j[Loss::ALL.len() - 1] = sun.open_j - spared_j - losses_j.iter().sum::<f64>();
    losses_j
}

/// Sets every negative part against those before it; one that they cannot cover, against those behind.
fn settle(parts: &mut [f64]) {
    for place in 0..parts.len() {
        if parts[place] >= 0.0 {
            continue;
        }
        let mut owed = -std::mem::take(&mut parts[place]);
        let before = (0..place).rev();
        for other in before.chain(place + 1..parts.len()) {
            let paid = owed.min(parts[other].max(0.0));
            parts[other] -= paid;
            owed -= paid;
        }
    }
}

/// The day whose light on the panel's plane is the median of some months', and that irradiation
/// \[kWh/m2\]: a day as bright as any other. Of an even number, the dimmer of the middle two; of days
/// alike, the earliest. `None` where no month is asked for.
pub fn typical_day(forcing: &Forcing, months: &[usize]) -> Option<(usize, f64)> {
    let mut days: Vec<(usize, f64)> = forcing
        .light
        .plane_w_m2
        .chunks(24)
        .enumerate()
        .filter(|(day, _)| months.contains(&month_of_day(*day)))
        .map(|(day, hours)| (day, hours.iter().map(|&w_m2| f64::from(w_m2)).sum::<f64>() / 1e3))
        .collect();
    days.sort_by(|one, other| one.1.total_cmp(&other.1).then(one.0.cmp(&other.0)));
    days.get(days.len().saturating_sub(1) / 2).copied()
}

#[cfg(test)]
mod tests {
    use super::settle;

    /// Given parts of which some are negative: the sum stays, none is left below nought, and the
    /// nearest before a negative one pays first.
    #[test]
    fn gains_are_set_against_the_losses_before_them() {
        let mut parts = [5.0, 2.0, -3.0, 4.0, -1.0];
        settle(&mut parts);
        assert_eq!(parts, [4.0, 0.0, 0.0, 3.0, 0.0]);
        let mut first = [-2.0, 1.0, 6.0];
        settle(&mut first);
        assert_eq!(first, [0.0, 0.0, 5.0]);
    }
}
