//! Pictures: one drawing model in millimetres, from which SVG files and a page of pictures are made.
//!
//! A picture is a [`Drawing`]: shapes with [`Role`]s and, beside them, the [`Table`] of facts it
//! stands for. Roles know neither colour nor line width; [`svg`] and [`style`] give them one, by
//! daylight, at night and in grey. Nothing is computed here that is not about paper: what a picture
//! shows comes in as figures.

pub mod drawing;
mod graph;
pub mod hatch;
mod measure;
pub mod page;
pub mod pen;
pub mod pictures;
pub mod role;
pub mod style;
pub mod svg;
pub mod table;
pub mod warmth;
pub mod words;
pub mod worry_sheet;

pub use drawing::Drawing;
pub use role::Role;
pub use table::Table;
