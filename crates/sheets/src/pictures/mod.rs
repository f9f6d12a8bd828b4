//! The pictures of a build, each from figures that come in.

pub mod heat_section;

pub use section_layout::Width;
mod section_foot;
mod section_layout;
