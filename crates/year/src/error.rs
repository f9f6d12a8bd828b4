//! Why a year could not be computed.

use thiserror::Error;

/// What stood in the way of computing a year, with the numbers that failed.
#[derive(Clone, Debug, Error, PartialEq)]
pub enum YearError {
    /// The panels are joined in a way this program does not reckon yet.
    #[error("panels joined side by side must be alike: panel {first} and panel {second} differ")]
    UnlikePanels {
        /// Place of the one in the bank.
        first: usize,
        /// Place of the other.
        second: usize,
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
