//! Why a year could not be computed.

use thiserror::Error;

/// What stood in the way of computing a year, with the numbers that failed.
#[derive(Clone, Debug, Error, PartialEq)]
pub enum YearError {
    /// The join names something the bank does not have.
    #[error("the panels' join names {what} {place}, counted from 0, and there are {count}")]
    UnknownPlace {
        /// Panel or pipe.
        what: &'static str,
        /// The place it names.
        place: usize,
        /// How many there are.
        count: usize,
    },
    /// A relation of the sun, the sky or the wind was asked beyond its range.
    #[error("sun and weather: {0}")]
    Weather(String),
    /// The circuit gives no flow.
    #[error("the circuit: {0}")]
    Circuit(String),
    /// A panel relation was asked beyond its range.
    #[error("the panel: {0}")]
    Panel(String),
    /// The store could not be reckoned.
    #[error("the store: {0}")]
    Store(String),
    /// The coil could not be reckoned.
    #[error("the coil: {0}")]
    Coil(String),
    /// A temperature left the range the tables cover.
    #[error("minute {minute}: a node stands at {node_k} K, which cannot be right")]
    Runaway {
        /// Minute of the year.
        minute: usize,
        /// The node's temperature \[K\].
        node_k: f64,
    },
    /// The forcing does not fit: wrong length.
    #[error("the forcing holds {found} minutes of absorbed light, {expected} are needed")]
    ForcingLength {
        /// Minutes found.
        found: usize,
        /// Minutes needed.
        expected: usize,
    },
}
