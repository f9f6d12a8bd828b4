//! The second station: cover, air gap, absorber sheet, tubes, insulation, box.
//!
//! Heat leaves upwards by [`top_loss`] (with [`gap`]).

mod error;
pub mod gap;
pub mod klein;
mod parts;
mod solve;
pub mod stagnation;
pub mod top_loss;

pub use error::PanelError;
pub use parts::{
    Bank, BoxAir, Cover, DiffuseAngle, Edge, HarpConnection, Join, Layer, Panel, Sheet, Tube,
    TubePattern, Tubes,
};
