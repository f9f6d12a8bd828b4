//! What a year came to.

use crate::ledger::{Balance, Ledger, Tally};

/// A year of a build beside its twin.
#[derive(Clone, Debug, PartialEq)]
pub struct YearResult {
    /// The build's own year.
    pub build: Ledger,
    /// The same house, cistern, loft and draws without a panel.
    pub twin: Ledger,
    /// What happened that a person should hear of, in order of time.
    pub events: Vec<Event>,
}

impl YearResult {
    /// Heat the heater need not give: twin less build \[J\].
    pub fn spared_heat_j(&self) -> f64 {
        spared_heat_j(&self.build.year(), &self.twin.year())
    }

    /// Spared heat over what the twin's heater gives; 0 where that is nothing.
    pub fn share(&self) -> f64 {
        share(&self.build.year(), &self.twin.year())
    }

    /// How far the build's stored and crossed heat disagree.
    pub fn balance(&self) -> Balance {
        self.build.balance()
    }
}

/// Twin's top-up less the build's over one span \[J\]; heat that a heater refused to give, its water
/// being too warm for it, is not spared.
pub fn spared_heat_j(build: &Tally, twin: &Tally) -> f64 {
    twin.topup_heat_j - build.topup_heat_j - (build.unmet_heat_j - twin.unmet_heat_j)
}

/// Spared heat over the twin's top-up in one span; 0 where the twin's heater gives nothing.
pub fn share(build: &Tally, twin: &Tally) -> f64 {
    if twin.topup_heat_j > 0.0 { spared_heat_j(build, twin) / twin.topup_heat_j } else { 0.0 }
}

/// Something that happened for the first time in the year.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Event {
    /// Minute of the year.
    pub minute: usize,
    /// What happened.
    pub kind: EventKind,
}

/// What can happen.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum EventKind {
    /// The pump ran for the first time.
    PumpStarted,
    /// The store came to its limit for the first time.
    StoreFull,
    /// The panel came to the temperature that stops the pump for the first time.
    PanelTooHot,
    /// The frost action called for the pump for the first time.
    FrostCalled,
    /// The overheat discharge opened for the first time.
    Discharged,
    /// Fluid outside the panels passed 100 C for the first time.
    CircuitAbove100C,
    /// The store's top passed 60 C for the first time.
    StoreAbove60C,
}
