//! What the parts are made of: fluids, air.

pub mod fluid;
