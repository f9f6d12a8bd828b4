//! The second station: cover, air gap, absorber sheet, tubes, insulation, box.

mod parts;

pub use parts::{
    Bank, BoxAir, Cover, DiffuseAngle, Edge, HarpConnection, Join, Layer, Panel, Sheet, Tube,
    TubePattern, Tubes,
};
