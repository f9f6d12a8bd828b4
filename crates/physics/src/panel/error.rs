//! What a panel's physics refuses.

use std::fmt;

/// A number that a formula cannot answer, with the number.
#[derive(Clone, Debug, PartialEq)]
pub enum PanelError {
    /// A quantity outside the range in which its formula stands.
    OutOfRange {
        /// Which quantity, in words with its unit.
        quantity: &'static str,
        /// What was given.
        value: f64,
        /// Lowest value that can be answered.
        low: f64,
        /// Highest value that can be answered.
        high: f64,
    },
    /// A balance that was not found within the bracket.
    NoBalance {
        /// Which balance.
        balance: &'static str,
        /// Lower end of the bracket.
        low: f64,
        /// Upper end of the bracket.
        high: f64,
    },
    /// Risers among which a flow could not be divided.
    UnevenFlow {
        /// Through the whole panel \[kg/s\].
        flow_kg_s: f64,
    },
    /// Linear equations that have no single answer.
    Singular {
        /// Number of unknowns.
        unknowns: usize,
    },
}

impl fmt::Display for PanelError {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            PanelError::OutOfRange { quantity, value, low, high } => {
                write!(out, "{quantity} is {value}; it must lie between {low} and {high}")
            }
            PanelError::NoBalance { balance, low, high } => {
                write!(out, "{balance} finds no balance between {low} and {high}")
            }
            PanelError::UnevenFlow { flow_kg_s } => {
                write!(out, "{flow_kg_s} kg/s finds no way to divide among the risers")
            }
            PanelError::Singular { unknowns } => {
                write!(out, "{unknowns} coupled equations have no single answer")
            }
        }
    }
}

impl std::error::Error for PanelError {}

/// Passes a value that lies in a closed range; what is not a number lies in none.
pub(crate) fn within(
    quantity: &'static str,
    value: f64,
    range: std::ops::RangeInclusive<f64>,
) -> Result<f64, PanelError> {
    if range.contains(&value) {
        Ok(value)
    } else {
        let (low, high) = range.into_inner();
        Err(PanelError::OutOfRange { quantity, value, low, high })
    }
}

/// Absolute temperatures of anything about a panel \[K\]: coldest night to beyond any stagnation.
pub(crate) const TEMPERATURES_K: std::ops::RangeInclusive<f64> = 100.0..=1000.0;

#[cfg(test)]
mod tests {
    use super::*;

    /// Given: a value outside, and one that is no number. Expected: an error that carries it.
    #[test]
    fn refuses_what_lies_outside() {
        let error = within("gap [m]", -0.1, 0.001..=1.0).unwrap_err();
        assert_eq!(error.to_string(), "gap [m] is -0.1; it must lie between 0.001 and 1");
        assert!(within("gap [m]", f64::NAN, 0.001..=1.0).is_err());
        assert_eq!(within("gap [m]", 0.025, 0.001..=1.0), Ok(0.025));
    }
}
