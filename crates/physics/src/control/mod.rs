//! Beside the stations: the controller and its probes.

mod differential;
mod parts;
mod probe;

pub use differential::{Memory, Reading, decide};
pub use parts::{Control, Differential, Probe};
pub use probe::lag_share;
