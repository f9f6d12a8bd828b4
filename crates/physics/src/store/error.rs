//! What can be wrong with a store, with the numbers that failed.

use std::fmt;

use crate::circuit::CircuitError;
use crate::matter::fluid::FluidError;

/// What is wrong with a store or its coil.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum StoreError {
    /// The fluid has no properties there.
    Fluid(FluidError),
    /// The flow in the coil's tube.
    Circuit(CircuitError),
    /// A number that no store can have.
    Impossible {
        /// Which number.
        what: &'static str,
        /// Its value.
        value: f64,
        /// What it must be.
        must: &'static str,
    },
    /// The coil's wall found no temperature at which it takes and gives the same heat.
    NoWallBalance {
        /// Fluid less water \[K\].
        difference_k: f64,
    },
}

impl StoreError {
    /// Passes where `holds`, else says what `value` must be.
    pub(super) fn unless(
        holds: bool,
        what: &'static str,
        value: f64,
        must: &'static str,
    ) -> Result<(), StoreError> {
        if holds { Ok(()) } else { Err(StoreError::Impossible { what, value, must }) }
    }
}

impl From<FluidError> for StoreError {
    fn from(error: FluidError) -> Self {
        StoreError::Fluid(error)
    }
}

impl From<CircuitError> for StoreError {
    fn from(error: CircuitError) -> Self {
        StoreError::Circuit(error)
    }
}

impl fmt::Display for StoreError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            StoreError::Fluid(error) => error.fmt(f),
            StoreError::Circuit(error) => error.fmt(f),
            StoreError::Impossible { what, value, must } => {
                write!(f, "{what} is {value}; it must be {must}")
            }
            StoreError::NoWallBalance { difference_k } => write!(
                f,
                "the coil's wall found no temperature between fluid and water, {difference_k} K \
                 apart"
            ),
        }
    }
}

impl std::error::Error for StoreError {}
