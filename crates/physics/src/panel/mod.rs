//! The second station: cover, air gap, absorber sheet, tubes, insulation, box.
//!
//! Light comes in through [`optics`]; heat leaves by [`glazing`] (with [`gap`]) and [`back`];
//! the sheet hands the rest to the tubes by [`chain`], which chooses between [`fin`] (harp) and
//! [`serpentine`]; a bought panel is known by its [`certificate`] and [`curve`]. Where nothing takes the heat, [`stagnation`] says how hot the sheet gets.

pub mod array;
pub mod back;
pub mod capacity;
pub mod certificate;
pub mod chain;
pub mod curve;
pub mod dry_heat;
mod error;
pub mod fin;
pub mod gap;
pub mod glazing;
pub mod klein;
pub mod mass;
mod matrix;
pub mod month;
pub mod optics;
mod parts;
pub mod route;
#[cfg(test)]
mod samples;
pub mod serpentine;
mod solve;
pub mod stagnation;
pub mod standard_test;
pub mod top_loss;
pub mod walls;

pub use error::PanelError;
pub use parts::{
    Bank, Bought, BoxAir, BoxWalls, Built, Cover, DiffuseAngle, Edge, Fins, HarpConnection, Hollow,
    Join, Layer, Modifier, ModifierPoint, Panel, Passage, Rungs, Sheet, Tube, TubePattern, Tubes,
};
