//! Making: metal on the bench, and the panel on its roof.
//!
//! Loads follow the European codes that the functions name. Each function says whether what it
//! gives is characteristic or design; local code and a licensed engineer decide.

pub mod error;
pub mod joints;
pub mod pane;
pub mod screw;
pub mod sheet;
pub mod snow;
pub mod stretch;
pub mod tube;
pub mod weight;
pub mod wind;

pub use error::MakingError;
