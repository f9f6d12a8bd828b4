//! Energies tallied where they cross, by month; and the proof that they add up.

use crate::plant::Plant;
use crate::state::{Flows, State};
use physics::tap::Heater;

/// What a month, or a year, brought.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Tally {
    /// Circuit and store in steps through which the fluid flowed.
    pub moving: Flows,
    /// The same while it rested: the sun too weak, or the hour wrong, for the pump. What pipes and
    /// store lost in standing is here whatever held the pump.
    pub resting: Flows,
    /// The panels while a limit kept the pump from running: the store full, or the panel too hot.
    pub barred: Flows,
    /// Let go by the overheat discharge, above the temperature of the cold that refilled it \[J\].
    pub dumped_j: f64,
    /// Carried out of the store by drawn water, above its mains temperature \[J\].
    pub tap_heat_j: f64,
    /// Carried out of the store by what else it feeds, above the temperature of the cold that
    /// refilled it \[J\].
    pub other_heat_j: f64,
    /// What brings all drawn water from mains to delivery temperature \[J\].
    pub need_heat_j: f64,
    /// What the heater gave \[J\].
    pub topup_heat_j: f64,
    /// What an instantaneous heater would not give, its water being warmer than it lets in \[J\].
    pub unmet_heat_j: f64,
    /// Standing loss of the cylinder downstream \[J\].
    pub heater_loss_j: f64,
    /// What drawn water carried past the heater, above its mains temperature \[J\].
    pub delivered_j: f64,
    /// Electricity of the pump \[J\].
    pub pump_j: f64,
    /// Time the pump ran \[s\].
    pub pump_s: f64,
    /// Time it ran against frost alone \[s\].
    pub frost_s: f64,
    /// Times it started.
    pub pump_starts: u32,
    /// Time the fluid ran forwards by its own weight \[s\].
    pub gravity_s: f64,
    /// Heat it brought to the store meanwhile \[J\].
    pub gravity_heat_j: f64,
    /// Time it ran backwards \[s\].
    pub reverse_s: f64,
    /// Heat it took out of the store meanwhile \[J\].
    pub reverse_heat_j: f64,
    /// Water let go by the overheat discharge \[m3\].
    pub dumped_m3: f64,
    /// Water drawn \[m3\].
    pub drawn_m3: f64,
    /// Water taken by what else the store feeds \[m3\].
    pub other_m3: f64,
    /// Hottest the sheet got \[K\].
    pub plate_max_k: f64,
    /// Hottest the fluid outside the panels got \[K\].
    pub circuit_max_k: f64,
    /// Hottest the store's water got \[K\].
    pub store_max_k: f64,
    /// Hottest water that was drawn past the heater \[K\].
    pub tap_max_k: f64,
    /// Mean temperature of the store, summed over time \[K s\].
    pub store_k_s: f64,
    /// Time covered \[s\].
    pub span_s: f64,
    /// Time the store's mean stood from 20 to 45 C, where bacteria grow \[s\].
    pub store_warm_s: f64,
    /// Time the water at the cold taps' outlet stood above 20 C \[s\].
    pub cold_tap_above_20_c_s: f64,
    /// The same above 25 C \[s\].
    pub cold_tap_above_25_c_s: f64,
}

impl Tally {
    /// Adds another span's tally.
    pub fn add(&mut self, other: &Tally) {
        self.moving.add(&other.moving);
        self.resting.add(&other.resting);
        self.barred.add(&other.barred);
        self.dumped_j += other.dumped_j;
        self.tap_heat_j += other.tap_heat_j;
        self.other_heat_j += other.other_heat_j;
        self.need_heat_j += other.need_heat_j;
        self.topup_heat_j += other.topup_heat_j;
        self.unmet_heat_j += other.unmet_heat_j;
        self.heater_loss_j += other.heater_loss_j;
        self.delivered_j += other.delivered_j;
        self.pump_j += other.pump_j;
        self.pump_s += other.pump_s;
        self.frost_s += other.frost_s;
        self.pump_starts += other.pump_starts;
        self.gravity_s += other.gravity_s;
        self.gravity_heat_j += other.gravity_heat_j;
        self.reverse_s += other.reverse_s;
        self.reverse_heat_j += other.reverse_heat_j;
        self.dumped_m3 += other.dumped_m3;
        self.drawn_m3 += other.drawn_m3;
        self.other_m3 += other.other_m3;
        self.plate_max_k = self.plate_max_k.max(other.plate_max_k);
        self.circuit_max_k = self.circuit_max_k.max(other.circuit_max_k);
        self.store_max_k = self.store_max_k.max(other.store_max_k);
        self.tap_max_k = self.tap_max_k.max(other.tap_max_k);
        self.store_k_s += other.store_k_s;
        self.span_s += other.span_s;
        self.store_warm_s += other.store_warm_s;
        self.cold_tap_above_20_c_s += other.cold_tap_above_20_c_s;
        self.cold_tap_above_25_c_s += other.cold_tap_above_25_c_s;
    }

    /// Circuit and store, whatever the fluid did.
    pub fn flows(&self) -> Flows {
        let mut flows = self.moving;
        flows.add(&self.resting);
        flows.add(&self.barred);
        flows
    }

    /// Books a span in which the fluid ran by its own weight, and the heat it passed through the coil.
    pub(crate) fn book_drift(&mut self, flow_kg_s: f64, coil_heat_j: f64, span_s: f64) {
        if flow_kg_s > 0.0 {
            self.gravity_s += span_s;
            self.gravity_heat_j += coil_heat_j;
        } else {
            self.reverse_s += span_s;
            self.reverse_heat_j -= coil_heat_j;
        }
    }

    /// Mean temperature of the store over the span \[K\].
    pub fn store_mean_k(&self) -> f64 {
        self.store_k_s / self.span_s
    }
}

/// A year's tallies by month, and the heat stored at its start and end.
#[derive(Clone, Debug, PartialEq)]
pub struct Ledger {
    /// January first.
    pub months: [Tally; 12],
    /// As the year began.
    pub start: Stored,
    /// As it ended.
    pub end: Stored,
}

impl Ledger {
    /// The whole year.
    pub fn year(&self) -> Tally {
        let mut year = Tally::default();
        for month in &self.months {
            year.add(month);
        }
        year
    }

    /// Holds what is stored against what crossed, station by station.
    pub fn balance(&self) -> Balance {
        balance(&self.year(), &self.start, &self.end)
    }
}

/// Heat in each station above absolute zero \[J\], taken from the nodes' temperatures.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Stored {
    /// Sheets with tubes and contents.
    pub panel_j: f64,
    /// Pipes with contents.
    pub circuit_j: f64,
    /// Water of the store.
    pub store_j: f64,
    /// Water of the cylinder downstream.
    pub heater_j: f64,
}

impl Stored {
    /// What a state holds in a plant.
    pub fn of(plant: &Plant, state: &State) -> Stored {
        let pipe_j = |run: &crate::plant::PipeRun, nodes_k: &[f64]| {
            run.capacity_j_k * nodes_k.iter().sum::<f64>()
        };
        let cylinder_j_k = match plant.heater {
            Heater::Cylinder { volume_m3, .. } => volume_m3 * plant.store.volume_heat_j_m3_k,
            Heater::Instantaneous(_) => 0.0,
        };
        Stored {
            panel_j: plant
                .segments
                .iter()
                .zip(&state.plate_k)
                .map(|(segment, plate_k)| segment.capacity_j_k * plate_k)
                .sum(),
            circuit_j: pipe_j(&plant.flow_pipe, &state.flow_pipe_k)
                + pipe_j(&plant.return_pipe, &state.return_pipe_k)
                + plant
                    .links
                    .iter()
                    .zip(&state.link_pipe_k)
                    .map(|(link, link_k)| link.capacity_j_k * link_k)
                    .sum::<f64>(),
            store_j: plant.store.layer_j_k * state.layer_k.iter().sum::<f64>(),
            heater_j: cylinder_j_k * state.cylinder_k,
        }
    }
}

/// How far stored heat and crossed heat disagree.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Balance {
    /// Sum of the stations' disagreements, each without its sign \[J\].
    pub residual_j: f64,
    /// That sum over the panel heat, or over one kilowatt-hour where that is more.
    pub residual_share: f64,
}

/// One kilowatt-hour \[J\].
pub const KWH_J: f64 = 3.6e6;

/// Change of stored heat less the flows tallied where they cross, each station by itself: a flow
/// between two stations stands in both, so no error can hide by leaving one and entering the next.
pub fn balance(year: &Tally, start: &Stored, end: &Stored) -> Balance {
    let flows = &year.flows();
    let panel_j = flows.absorbed_j
        - flows.panel_loss_j()
        - flows.panel_heat_j
        - (end.panel_j - start.panel_j);
    let circuit_j = flows.panel_heat_j
        - flows.circuit_loss_j
        - flows.coil_heat_j
        - (end.circuit_j - start.circuit_j);
    let store_j = flows.coil_heat_j
        - flows.store_loss_j
        - flows.evaporation_j
        - year.dumped_j
        - year.tap_heat_j
        - year.other_heat_j
        - (end.store_j - start.store_j);
    let heater_j = year.tap_heat_j + year.topup_heat_j
        - year.heater_loss_j
        - year.delivered_j
        - (end.heater_j - start.heater_j);
    let residual_j = panel_j.abs() + circuit_j.abs() + store_j.abs() + heater_j.abs();
    Balance { residual_j, residual_share: residual_j / flows.panel_heat_j.max(KWH_J) }
}
