//! The third station: pipes, pump, valve and fluid between panel and coil.

pub mod bank;
pub mod boiling;
pub mod error;
pub mod film;
pub mod friction;
pub mod gravity;
pub mod harp;
pub mod jet;
pub mod network;
mod parts;
pub mod pipe;
pub mod pressure;
pub mod pressure_trial;
pub mod pump;
pub mod scrap_pump;
pub mod sealed;
pub mod still_air;
pub mod survey;
pub mod thermosiphon;
pub mod trial_rules;
pub mod velocity;
pub mod vessel;

pub use error::CircuitError;
pub use parts::{CheckValve, Circuit, CurvePoint, Holding, Joint, Layout, Pipe, Pump, PumpPlace};
