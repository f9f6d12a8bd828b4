//! The second station: cover, air gap, absorber sheet, tubes, insulation, box.
//!
//! Light comes in through [`optics`]; heat leaves by [`top_loss`] (with [`gap`]) and [`back`];
//! the sheet hands the rest to the tubes by [`chain`], which chooses between [`fin`] (harp) and
//! [`serpentine`]. Where nothing takes the heat, [`stagnation`] says how hot the sheet gets.

pub mod array;
pub mod back;
pub mod capacity;
pub mod chain;
pub mod curve;
pub mod dry_heat;
mod error;
pub mod fin;
pub mod gap;
pub mod klein;
mod matrix;
pub mod month;
pub mod optics;
mod parts;
#[cfg(test)]
mod samples;
pub mod serpentine;
mod solve;
pub mod stagnation;
pub mod top_loss;

pub use error::PanelError;
pub use parts::{
    Bank, BoxAir, Cover, DiffuseAngle, Edge, HarpConnection, Join, Layer, Panel, Sheet, Tube,
    TubePattern, Tubes,
};
