//! Chance that comes out the same on every machine: numbers by lot, and the normal distribution.

mod lot;
mod normal;

pub use lot::Lot;
pub use normal::{normal_quantile, normal_share};
