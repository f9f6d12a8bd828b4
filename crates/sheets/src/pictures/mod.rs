//! The pictures of a build, each from figures that come in.

mod box_rows;
pub mod box_section;
pub mod cistern;
mod cistern_labels;
mod cistern_parts;
mod cistern_words;
pub mod column;
mod contour;
pub mod course;
pub mod day;
pub mod draws;
pub mod efficiency;
mod frame;
pub mod heat_section;
pub mod house;
mod house_names;
mod house_parts;
mod house_pipes;
mod house_plan;
mod house_words;
pub mod loft;
pub mod months;
pub mod plate;
pub mod pump;
mod room;
pub mod rule;
mod scale;
mod section_foot;
mod section_layout;
pub mod sky;
pub mod strip;
pub mod year_map;

pub use section_layout::Width;

/// What moves the fluid, where a picture's words hang on it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Mover {
    /// A pump.
    Pump,
    /// The fluid's own weight.
    Weight,
}
