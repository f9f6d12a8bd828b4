//! The third station: pipes, pump, valve and fluid between panel and coil.

mod parts;

pub use parts::{CheckValve, Circuit, CurvePoint, Pipe, Pump};
