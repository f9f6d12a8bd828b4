//! A build's coefficients made ready for the minute loop.

mod circuit;
mod coil;
mod gravity;
mod loss;
mod network;
mod panels;
mod store;
mod table;

pub use circuit::{FlowTable, PipeRun};
pub use coil::{CoilFilms, CoilTable};
pub use gravity::{GravityTable, LEAST_FLOW_KG_S};
pub use loss::{Conductances, HourLoss, HourWeather, PanelLoss};
pub use network::{Direction, Turn, WHOLE, Way};
pub use panels::{PanelKind, SEGMENTS_PER_PANEL, Segment};
pub use store::{StorePlant, Vapour};
pub use table::{Line, Sheet};

use physics::Build;
use physics::circuit::gravity::rises;
use physics::control::{Control, StoreProbePlace};
use physics::panel::{Bank, Panel};
use physics::store::{Loft, OverheatDischarge};
use physics::tap::Heater;

use self::circuit::NODES_PER_PIPE;
use self::network::Network;
use crate::YearError;

/// A build compiled: networks flattened to segments in flow order, relations to tables, parts to
/// conductances and capacities.
///
/// A twin's plant has no segments and no flow.
#[derive(Clone, Debug)]
pub struct Plant {
    /// Panels that differ, each once.
    pub kinds: Vec<PanelKind>,
    /// Segments of panel, in the order in which the pump's flow comes to them.
    pub segments: Vec<Segment>,
    /// Pipes between the panels and past them.
    pub links: Vec<PipeRun>,
    /// The way of the fluid through panels and links with the pump.
    pub forwards: Way,
    /// The same against it.
    pub backwards: Way,
    /// What the pump moves, by the circuit's temperature; `None` for a twin, and without a pump.
    pub flow: Option<FlowTable>,
    /// What the fluid's own weight moves while no pump does; `None` for a twin, and behind a valve
    /// that a spring holds shut.
    pub gravity: Option<GravityTable>,
    /// Hot pipe from panels to coil.
    pub flow_pipe: PipeRun,
    /// Cool pipe from coil to panels.
    pub return_pipe: PipeRun,
    /// The coil in its layers.
    pub coil: CoilTable,
    /// The cistern in its layers.
    pub store: StorePlant,
    /// The loft's answer to weather.
    pub loft: Loft,
    /// The overheat discharge, where there is one.
    pub overheat: Option<OverheatDischarge>,
    /// What tops up.
    pub heater: Heater,
    /// Temperature at which hot water is wanted \[K\].
    pub delivery_k: f64,
    /// The controller.
    pub control: Control,
}

impl Plant {
    /// Compiles a build.
    ///
    /// # Errors
    /// A join that names what is not there; a circuit without flow; a relation asked beyond its
    /// range.
    pub fn compile(build: &Build) -> Result<Plant, YearError> {
        let store = StorePlant::of(&build.store, probe_height_m(build))?;
        let network = Network::of(&build.panel)?;
        let rises = rises(&build.circuit, &build.store.coil, NODES_PER_PIPE);
        let (kinds, segments) = panels::compile(build, &network, rises.panel_m)?;
        let links = network.links.iter().map(|link| PipeRun::of_link(link, build));
        let links = links.collect::<Result<_, _>>()?;
        let flow = match &build.circuit.pump {
            Some(pump) if !segments.is_empty() => {
                Some(FlowTable::of(build, pump, &kinds, &segments)?)
            }
            _ => None,
        };
        let gravity = match segments.is_empty() {
            true => None,
            false => GravityTable::of(build, rises, &kinds, &segments)?,
        };
        let coil_contents_m3 = build.store.coil.tube.contents_m2() * build.store.coil.length_m;
        Ok(Plant {
            flow_pipe: PipeRun::of(&build.circuit.flow_pipe, build, coil_contents_m3 / 2.0)?,
            return_pipe: PipeRun::of(&build.circuit.return_pipe, build, coil_contents_m3 / 2.0)?,
            coil: CoilTable::of(build, flow.as_ref(), &store)?,
            forwards: network.way(Direction::Forwards),
            backwards: network.way(Direction::Backwards),
            kinds,
            segments,
            links,
            flow,
            gravity,
            store,
            loft: build.store.loft,
            overheat: build.store.overheat,
            heater: build.tap.heater,
            delivery_k: build.tap.delivery_k,
            control: build.control.clone(),
        })
    }

    /// The plant of a changed build: what the change leaves alone is taken over, to the last bit what
    /// [`Plant::compile`] would make.
    ///
    /// `was`: the build that this plant was compiled for.
    ///
    /// # Errors
    /// As [`Plant::compile`].
    pub fn again(&self, was: &Build, now: &Build) -> Result<Plant, YearError> {
        let same = was.circuit == now.circuit
            && was.store == now.store
            && was.sun.plane == now.sun.plane
            && without_light(&was.panel) == without_light(&now.panel);
        if !same {
            return Plant::compile(now);
        }
        let mut plant = Plant {
            store: StorePlant::of(&now.store, probe_height_m(now))?,
            heater: now.tap.heater,
            delivery_k: now.tap.delivery_k,
            control: now.control.clone(),
            ..self.clone()
        };
        let panels = was.panel.panels.iter().zip(&now.panel.panels);
        for (old, new) in panels {
            for kind in plant.kinds.iter_mut().filter(|kind| kind.panel == *old) {
                kind.panel = new.clone();
            }
        }
        Ok(plant)
    }

    /// Empties the panels: their heat capacity is that of their dry parts from now on, and nothing runs
    /// by its own weight.
    ///
    /// # Errors
    /// A panel whose capacity cannot be reckoned.
    pub fn drain(&mut self) -> Result<(), YearError> {
        self.gravity = None;
        panels::drain(&self.kinds, &mut self.segments)
    }
}

fn probe_height_m(build: &Build) -> f64 {
    match build.control.store_probe_place {
        StoreProbePlace::Water { height_m } | StoreProbePlace::Wall { height_m } => height_m,
        StoreProbePlace::LoftAir => 0.0,
    }
}

/// A bank without what matters to its light alone: that is the forcing's.
fn without_light(bank: &Bank) -> Bank {
    let mut bank = bank.clone();
    for built in bank.panels.iter_mut().filter_map(Panel::built_mut) {
        built.sheet.absorptance = 0.0;
        for cover in &mut built.covers {
            cover.clean_share = 1.0;
        }
    }
    bank
}
