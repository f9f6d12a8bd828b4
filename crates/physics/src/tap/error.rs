//! What can be wrong with a household, with the numbers that failed.

use std::fmt;

use crate::matter::fluid::FluidError;

/// What is wrong with a household's water.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum TapError {
    /// Water has no properties there.
    Fluid(FluidError),
    /// A number that no household can have.
    Impossible {
        /// Which number.
        what: &'static str,
        /// Its value.
        value: f64,
        /// What it must be.
        must: &'static str,
    },
}

impl TapError {
    /// Passes where `holds`, else says what `value` must be.
    pub(super) fn unless(
        holds: bool,
        what: &'static str,
        value: f64,
        must: &'static str,
    ) -> Result<(), TapError> {
        if holds { Ok(()) } else { Err(TapError::Impossible { what, value, must }) }
    }
}

impl From<FluidError> for TapError {
    fn from(error: FluidError) -> Self {
        TapError::Fluid(error)
    }
}

impl fmt::Display for TapError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            TapError::Fluid(error) => error.fmt(f),
            TapError::Impossible { what, value, must } => {
                write!(f, "{what} is {value}; it must be {must}")
            }
        }
    }
}

impl std::error::Error for TapError {}
