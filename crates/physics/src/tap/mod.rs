//! The fifth station: the household's draws, its mains, and the heater that tops up.

pub mod error;
pub mod household;
pub mod mains;
mod parts;

pub use error::TapError;
pub use parts::{DaySpan, Draw, DrawDays, Heater, Inlet, Mains, Tap, Weekday};
