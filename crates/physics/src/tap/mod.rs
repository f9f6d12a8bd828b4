//! The fifth station: the household's draws, its mains, and the heater that tops up.

mod parts;

pub use parts::{DaySpan, Draw, Heater, Mains, Tap};
