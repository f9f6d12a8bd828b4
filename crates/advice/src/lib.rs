//! What a year means: how sure its figures are, and what one practical step would bring.
//!
//! Everything here edits a design, resolves it anew and runs the same year. Nothing here reads a file,
//! a clock or the environment; the same design, climate and seed give the same answer to the last bit.

pub mod band;
mod error;
pub mod idle;
pub mod next_step;
mod subject;
pub mod unknowns;
mod weather_years;
pub mod worry;

pub use error::AdviceError;
pub use subject::{OneYear, Subject};
pub use weather_years::WeatherYears;

/// Told after each year that is done, how many are done of how many; answers whether to go on.
pub type Progress<'a> = dyn Fn(usize, usize) -> GoOn + Sync + 'a;

/// Whether work that may be stopped goes on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum GoOn {
    /// It does.
    Yes,
    /// It stops; what was begun is dropped.
    No,
}

/// Figures of a year that are to be told with a band, always the same ones in the same order.
pub type Figures<'a> = dyn Fn(&OneYear) -> Vec<f64> + Sync + 'a;
