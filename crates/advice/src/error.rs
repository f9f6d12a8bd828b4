//! What can stand in the way of an answer.

use design::EditFault;
use physics::sun::SunError;
use year::YearError;

/// Why no answer could be given.
#[derive(Clone, Debug, thiserror::Error)]
pub enum AdviceError {
    /// A place of the design cannot be changed.
    #[error("the design cannot be changed: {0}")]
    Edit(#[from] EditFault),
    /// The changed design is none that can be built.
    #[error("with {change}, {says}")]
    NoBuild {
        /// What was changed.
        change: String,
        /// What the reader says of it.
        says: String,
    },
    /// A year could not be computed.
    #[error(transparent)]
    Year(#[from] YearError),
    /// Another year's weather could not be made.
    #[error("another year's weather cannot be made: {0}")]
    Weather(#[from] SunError),
    /// The caller asked to stop.
    #[error("stopped")]
    Stopped,
}

impl AdviceError {
    /// A relation of the circuit that was asked beyond its range.
    pub(crate) fn circuit(error: impl std::fmt::Display) -> AdviceError {
        AdviceError::Year(YearError::Circuit(error.to_string()))
    }

    /// A relation of the panel that was asked beyond its range.
    pub(crate) fn panel(error: impl std::fmt::Display) -> AdviceError {
        AdviceError::Year(YearError::Panel(error.to_string()))
    }
}
