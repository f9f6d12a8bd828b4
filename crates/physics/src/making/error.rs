//! What can be wrong with a piece of work, with the number that failed.

use std::fmt;

/// A number that no piece, load or fixing can have, or that its code does not cover.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MakingError {
    /// Which number.
    pub what: &'static str,
    /// Its value.
    pub value: f64,
    /// What it must be.
    pub must: &'static str,
}

impl MakingError {
    /// Passes `value` where `holds`, else says what it must be.
    pub(super) fn unless(
        holds: bool,
        what: &'static str,
        value: f64,
        must: &'static str,
    ) -> Result<f64, MakingError> {
        if holds { Ok(value) } else { Err(MakingError { what, value, must }) }
    }

    /// Passes a finite number more than 0.
    pub(super) fn positive(what: &'static str, value: f64) -> Result<f64, MakingError> {
        Self::unless(value > 0.0 && value.is_finite(), what, value, "more than 0")
    }

    /// Passes a finite number of 0 or more.
    pub(super) fn not_negative(what: &'static str, value: f64) -> Result<f64, MakingError> {
        Self::unless(value >= 0.0 && value.is_finite(), what, value, "0 or more")
    }

    /// Passes a number that is one.
    pub(super) fn finite(what: &'static str, value: f64) -> Result<f64, MakingError> {
        Self::unless(value.is_finite(), what, value, "a number")
    }
}

impl fmt::Display for MakingError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let MakingError { what, value, must } = self;
        write!(f, "{what} is {value}; it must be {must}")
    }
}

impl std::error::Error for MakingError {}
