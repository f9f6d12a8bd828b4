//! The fifth station: the household's draws, its mains, and the heater that tops up.

pub mod error;
pub mod household;
pub mod mains;
pub mod mix;
mod parts;
pub mod scald;

pub use error::TapError;
pub use parts::{DaySpan, Draw, DrawDays, Heater, Inlet, Mains, Tap, Weekday};
