//! Where every node stands, and what crosses between stations in one step.

use physics::control::Memory;

/// Temperatures of all nodes and the controller's memory: everything that carries over a step.
#[derive(Clone, Debug, PartialEq)]
pub struct State {
    /// Sheet with its tubes and their contents, segment by segment in the order of the flow \[K\].
    pub plate_k: Vec<f64>,
    /// Hot pipe from panels to coil, node by node in the order of the flow \[K\].
    pub flow_pipe_k: Vec<f64>,
    /// Cool pipe from coil to panels, node by node in the order of the flow \[K\].
    pub return_pipe_k: Vec<f64>,
    /// Pipes between the panels and past them \[K\].
    pub link_pipe_k: Vec<f64>,
    /// Store water, bottom layer first \[K\].
    pub layer_k: Vec<f64>,
    /// Water in the cylinder downstream \[K\]; unused by an instantaneous heater.
    pub cylinder_k: f64,
    /// What the controller remembers.
    pub control: Memory,
    /// True while the overheat discharge runs.
    pub discharging: bool,
}

impl State {
    /// Takes over another state of the same plant, in the room it has.
    pub(crate) fn copy_from(&mut self, other: &State) {
        self.plate_k.clone_from(&other.plate_k);
        self.flow_pipe_k.clone_from(&other.flow_pipe_k);
        self.return_pipe_k.clone_from(&other.return_pipe_k);
        self.link_pipe_k.clone_from(&other.link_pipe_k);
        self.layer_k.clone_from(&other.layer_k);
        self.cylinder_k = other.cylinder_k;
        self.control = other.control;
        self.discharging = other.discharging;
    }

    /// Every pipe's nodes.
    pub(crate) fn pipes_k(&self) -> impl Iterator<Item = f64> {
        self.flow_pipe_k.iter().chain(&self.return_pipe_k).chain(&self.link_pipe_k).copied()
    }

    /// Mean temperature of the store's water \[K\].
    pub fn store_mean_k(&self) -> f64 {
        self.layer_k.iter().sum::<f64>() / self.layer_k.len() as f64
    }

    /// Hottest segment of the sheet \[K\]; absolute zero where there is no panel.
    pub fn plate_max_k(&self) -> f64 {
        self.plate_k.iter().copied().fold(0.0, f64::max)
    }
}

/// Energies that crossed the interfaces in one step of the circuit and store \[J\].
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Flows {
    /// Light taken up by the sheets.
    pub absorbed_j: f64,
    /// From sheets through the covers to air and sky; of a bought panel, whose curve does not tell
    /// its faces apart, all it loses.
    pub cover_loss_j: f64,
    /// From sheets through back, edges and joints.
    pub back_loss_j: f64,
    /// Fluid's gain between the panels' ports.
    pub panel_heat_j: f64,
    /// From pipes to loft and outdoors.
    pub circuit_loss_j: f64,
    /// From fluid to store water.
    pub coil_heat_j: f64,
    /// From store water through wall, base and lid to the loft.
    pub store_loss_j: f64,
    /// Carried off by vapour at the lid.
    pub evaporation_j: f64,
}

impl Flows {
    /// From sheets to the surroundings, all faces together \[J\].
    pub fn panel_loss_j(&self) -> f64 {
        self.cover_loss_j + self.back_loss_j
    }

    /// Adds another step's energies.
    pub fn add(&mut self, other: &Flows) {
        self.absorbed_j += other.absorbed_j;
        self.cover_loss_j += other.cover_loss_j;
        self.back_loss_j += other.back_loss_j;
        self.panel_heat_j += other.panel_heat_j;
        self.circuit_loss_j += other.circuit_loss_j;
        self.coil_heat_j += other.coil_heat_j;
        self.store_loss_j += other.store_loss_j;
        self.evaporation_j += other.evaporation_j;
    }

    /// The same energies times a factor: a stage's share of a step.
    pub(crate) fn times(&self, factor: f64) -> Flows {
        Flows {
            absorbed_j: self.absorbed_j * factor,
            cover_loss_j: self.cover_loss_j * factor,
            back_loss_j: self.back_loss_j * factor,
            panel_heat_j: self.panel_heat_j * factor,
            circuit_loss_j: self.circuit_loss_j * factor,
            coil_heat_j: self.coil_heat_j * factor,
            store_loss_j: self.store_loss_j * factor,
            evaporation_j: self.evaporation_j * factor,
        }
    }
}
