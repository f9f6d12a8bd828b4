//! A build's coefficients made ready for the minute loop.

mod circuit;
mod coil;
mod loss;
mod panels;
mod store;
mod table;

pub use circuit::{FlowTable, PipeRun};
pub use coil::CoilTable;
pub use loss::{Conductances, HourLoss, HourWeather, PanelLoss};
pub use panels::{PanelKind, SEGMENTS_PER_PANEL, Segment};
pub use store::{StorePlant, Vapour};
pub use table::{Line, Sheet};

use physics::Build;
use physics::control::{Control, StoreProbePlace};
use physics::store::{Loft, OverheatDischarge};
use physics::tap::Heater;

use crate::YearError;

/// A build compiled: networks flattened to segments in flow order, relations to tables, parts to
/// conductances and capacities.
///
/// The bank is compiled in the direction of the pump. A twin's plant has no segments and no flow.
#[derive(Clone, Debug)]
pub struct Plant {
    /// Panels that differ, each once.
    pub kinds: Vec<PanelKind>,
    /// The way of the fluid through the panels.
    pub segments: Vec<Segment>,
    /// What the pump moves, by the circuit's temperature; `None` for a twin.
    pub flow: Option<FlowTable>,
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
    /// Panels joined in a way that is not reckoned; a circuit without flow; a relation asked
    /// beyond its range.
    pub fn compile(build: &Build) -> Result<Plant, YearError> {
        let probe_height_m = match build.control.store_probe_place {
            StoreProbePlace::Water { height_m } | StoreProbePlace::Wall { height_m } => height_m,
            StoreProbePlace::LoftAir => 0.0,
        };
        let store = StorePlant::of(&build.store, probe_height_m)?;
        let (kinds, segments) = panels::compile(build)?;
        let flow =
            if segments.is_empty() { None } else { Some(FlowTable::of(build, &kinds, &segments)?) };
        let coil_contents_m3 = build.store.coil.tube.contents_m2() * build.store.coil.length_m;
        Ok(Plant {
            flow_pipe: PipeRun::of(&build.circuit.flow_pipe, build, coil_contents_m3 / 2.0)?,
            return_pipe: PipeRun::of(&build.circuit.return_pipe, build, coil_contents_m3 / 2.0)?,
            coil: CoilTable::of(build, flow.as_ref(), &store)?,
            kinds,
            segments,
            flow,
            store,
            loft: build.store.loft,
            overheat: build.store.overheat,
            heater: build.tap.heater,
            delivery_k: build.tap.delivery_k,
            control: build.control.clone(),
        })
    }

    /// Empties the panels: their heat capacity is that of their dry parts from now on.
    ///
    /// # Errors
    /// A panel whose capacity cannot be reckoned.
    pub fn drain(&mut self) -> Result<(), YearError> {
        panels::drain(&self.kinds, &mut self.segments)
    }
}
