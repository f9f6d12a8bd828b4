//! The design file and what it draws on: reading, checking, resolving, writing back.
//!
//! [`read_design`] turns a file's bytes into a [`Design`] and a list of problems; every parameter
//! is declared once, in [`parameters`]; [`catalogue`] holds what the trade knows.

pub mod catalogue;
mod fill;
mod fit;
pub mod origin;
pub mod parameters;
pub mod problem;
pub mod quantity;
mod read;
mod resolve;
mod schema;
mod syntax;
mod template;
pub mod value;
pub mod values;
mod walk;
pub mod weather;
mod written;

pub use origin::{Assumed, Origin, Origins};
pub use problem::{Problem, Severity, Span};
pub use read::{LARGEST_BYTES, Reading, read_design};
pub use resolve::{
    CoverWear, Design, FROST_IN_HAND_K, Facts, Hardness, Heats, HotPart, MadeWeather, MixingValve,
    Mount, MountedOn, Piece, Sited, Stock, Weather, WeatherFile, Winter, WrittenPlace,
};
pub use schema::json_schema;
pub use template::template;
pub use written::{Edit, EditFault, EditValue, Written};

/// The months by name, January first.
pub const MONTHS: [&str; 12] = [
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
];
