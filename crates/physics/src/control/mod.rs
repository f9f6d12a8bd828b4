//! Beside the stations: the controller and its probes.

mod parts;

pub use parts::{Control, Differential, Probe};
