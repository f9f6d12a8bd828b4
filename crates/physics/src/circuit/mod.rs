//! The third station: pipes, pump, valve and fluid between panel and coil.

pub mod error;
pub mod film;
pub mod friction;
mod parts;
pub mod pipe;

pub use error::CircuitError;
pub use parts::{CheckValve, Circuit, CurvePoint, Pipe, Pump};
