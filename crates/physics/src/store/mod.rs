//! The fourth station: the pre-warmed cistern, its coil, its lid, and the loft around it.

pub mod cistern;
pub mod coil;
pub mod convection;
pub mod cooling;
pub mod error;
pub mod fins;
mod parts;
pub mod scale;

pub use error::StoreError;
pub use fins::Fins;
pub use parts::{Coil, CoilDirection, Feed, FeedKind, Loft, OverheatDischarge, Store};
