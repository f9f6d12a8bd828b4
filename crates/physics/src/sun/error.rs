//! What the sun's functions answer when a number is not one they can work with.

use std::fmt;

/// A number the sun's relations cannot be used with.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum SunError {
    /// A quantity is not a number, or lies outside the range its relation holds for.
    OutOfRange {
        /// What it is, with its unit, for instance `latitude [deg]`.
        quantity: &'static str,
        /// What was given.
        value: f64,
        /// Lowest value that is taken.
        lowest: f64,
        /// Highest value that is taken.
        highest: f64,
    },
}

impl fmt::Display for SunError {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        let SunError::OutOfRange { quantity, value, lowest, highest } = self;
        write!(out, "{quantity} is {value}; it must lie between {lowest} and {highest}")
    }
}

impl std::error::Error for SunError {}

/// A quantity with the range its relation holds for.
#[derive(Clone, Copy)]
pub(super) struct Range {
    pub(super) quantity: &'static str,
    pub(super) lowest: f64,
    pub(super) highest: f64,
}

impl Range {
    /// The value itself where it lies in the range; NaN never does.
    pub(super) fn check(self, value: f64) -> Result<f64, SunError> {
        let Range { quantity, lowest, highest } = self;
        if (lowest..=highest).contains(&value) {
            Ok(value)
        } else {
            Err(SunError::OutOfRange { quantity, value, lowest, highest })
        }
    }
}
