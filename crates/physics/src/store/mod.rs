//! The fourth station: the pre-warmed cistern, its coil, its lid, and the loft around it.

mod parts;

pub use parts::{Coil, CoilDirection, Loft, OverheatDischarge, Store};
