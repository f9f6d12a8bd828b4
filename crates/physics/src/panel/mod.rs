//! The second station: cover, air gap, absorber sheet, tubes, insulation, box.
//!
//! Heat leaves upwards by [`top_loss`] (with [`gap`]).

pub mod array;
pub mod back;
pub mod curve;
mod error;
pub mod fin;
pub mod gap;
pub mod klein;
pub mod optics;
mod parts;
mod solve;
pub mod stagnation;
pub mod top_loss;

pub use error::PanelError;
pub use parts::{
    Bank, BoxAir, Cover, DiffuseAngle, Edge, HarpConnection, Join, Layer, Panel, Sheet, Tube,
    TubePattern, Tubes,
};
