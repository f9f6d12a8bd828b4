//! The plate picture: the absorber sheet to scale, with the temperature of every place on it.
//!
//! Heat is led along the sheet in both directions, the sun falls on it, every place loses by its
//! own temperature, and the tube takes heat where it lies, through its bond there, into fluid that
//! warms on its way. [`picture`] answers a [`Question`]; [`Question::of_panel`] asks it of a panel
//! of a build. No file, clock, environment or output is known here.

mod assemble;
mod contact;
mod error;
mod fluid;
mod grid;
mod iterate;
mod krylov;
mod losses;
mod matrix;
mod order;
mod picture;
mod question;
mod stretches;

pub use contact::{Bond, Bonds, bonds_along};
pub use error::PlateError;
pub use grid::Grid;
pub use losses::Losses;
pub use picture::{Picture, Spot, Station, picture};
pub use question::{Absorbed, FluidInTubes, Inflow, Question};
pub use stretches::{StretchCost, Study, even_bond_w_m_k, study};
