//! What the trade knows, as data with sources: materials, tubes, antifreeze, climates, draws, cold water.
//!
//! The data are the text files in `catalogue/` at the project's root, carried in the program.
//! Each value keeps its source and its certainty.

pub mod climates;
pub mod draws;
pub mod fittings;
pub mod fluids;
pub mod materials;
pub mod tubes;

/// One value of the catalogue with where it comes from.
#[derive(Clone, Debug, PartialEq)]
pub struct Known {
    /// The value reckoned with, in SI.
    pub middle: f64,
    /// The least value met, in SI; the same as the middle where no spread is known.
    pub low: f64,
    /// The greatest value met, in SI.
    pub high: f64,
    /// Where it comes from.
    pub source: String,
    /// How far that is to be trusted: `seen` or `from memory`, or how it was computed.
    pub certainty: &'static str,
}

/// Reads one of the data files that the program carries.
///
/// A file that cannot be read is a fault of the program, which the tests of each reader find.
fn embedded<T: serde::de::DeserializeOwned + Default>(text: &str) -> T {
    toml::from_str(text).unwrap_or_default()
}
