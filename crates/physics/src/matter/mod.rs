//! What the parts are made of: fluids, air.

pub mod air;
pub mod fluid;
mod melinder;
pub mod pressed;
mod water;
