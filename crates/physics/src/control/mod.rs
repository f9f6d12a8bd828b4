//! Beside the stations: the controller and its probes.

mod decide;
mod parts;
mod probe;

pub use decide::{Memory, Reading, decide};
pub use parts::{
    ClockSpan, Control, Differential, FrostAction, PanelProbePlace, PanelStop, Probe, Rule,
    StoreLimit, StoreProbePlace, Thermostat,
};
pub use probe::{lag_share, wall_probe_k};
