//! What the plate picture refuses.

use std::fmt;
use std::ops::RangeInclusive;

use physics::circuit::CircuitError;
use physics::matter::fluid::FluidError;
use physics::panel::PanelError;

/// A picture that cannot be reckoned, with the numbers.
#[derive(Clone, Debug, PartialEq)]
pub enum PlateError {
    /// A quantity outside the range in which the picture stands.
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
    /// Lists that belong together and are not equally long.
    Lengths {
        /// Which lists.
        what: &'static str,
        /// How many there are.
        found: usize,
        /// How many there must be.
        expected: usize,
    },
    /// Two stretches of one tube that lie on each other.
    Overlap {
        /// The tube, counted from 0.
        tube: usize,
        /// Where the later one begins \[m\].
        from_m: f64,
        /// Where the earlier one ends \[m\].
        until_m: f64,
    },
    /// A stretch that reaches beyond its tube.
    Beyond {
        /// The tube, counted from 0.
        tube: usize,
        /// Where the stretch ends \[m\].
        to_m: f64,
        /// How long the tube is \[m\].
        length_m: f64,
    },
    /// Temperatures that did not come to rest.
    NotStill {
        /// Rounds that were made.
        rounds: usize,
        /// Heat that all cells together are still short of \[W\].
        short_w: f64,
        /// Heat at which they would have been at rest \[W\].
        wanted_w: f64,
    },
    /// Equations without a single answer: nothing takes heat from the sheet.
    NoAnswer {
        /// Number of cells.
        cells: usize,
    },
    /// No even bond gives what was asked for.
    NoEvenBond {
        /// Useful heat that it should give \[W\].
        useful_w: f64,
        /// Least that an even bond gives \[W\].
        least_w: f64,
        /// Most that it gives \[W\].
        most_w: f64,
    },
    /// The panel's formulas refuse.
    Panel(PanelError),
    /// The circuit's formulas refuse.
    Circuit(CircuitError),
    /// The fluid's properties refuse.
    Fluid(FluidError),
}

impl fmt::Display for PlateError {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            PlateError::OutOfRange { quantity, value, low, high } => {
                write!(out, "{quantity} is {value}; it must lie between {low} and {high}")
            }
            PlateError::Lengths { what, found, expected } => {
                write!(out, "{what}: {found} given, {expected} needed")
            }
            PlateError::Overlap { tube, from_m, until_m } => write!(
                out,
                "on tube {tube} a stretch begins at {from_m} m, before the one ahead of it ends at {until_m} m"
            ),
            PlateError::Beyond { tube, to_m, length_m } => {
                write!(out, "a stretch ends at {to_m} m of tube {tube}, which is {length_m} m long")
            }
            PlateError::NotStill { rounds, short_w, wanted_w } => write!(
                out,
                "the sheet's temperatures do not come to rest: after {rounds} rounds its cells are short of {short_w} W together, and {wanted_w} is asked"
            ),
            PlateError::NoAnswer { cells } => {
                write!(
                    out,
                    "{cells} cells have no single answer: nothing takes heat from the sheet"
                )
            }
            PlateError::NoEvenBond { useful_w, least_w, most_w } => write!(
                out,
                "no even bond gives {useful_w} W; they give from {least_w} to {most_w} W"
            ),
            PlateError::Panel(error) => error.fmt(out),
            PlateError::Circuit(error) => error.fmt(out),
            PlateError::Fluid(error) => error.fmt(out),
        }
    }
}

impl std::error::Error for PlateError {}

impl From<PanelError> for PlateError {
    fn from(error: PanelError) -> Self {
        PlateError::Panel(error)
    }
}

impl From<CircuitError> for PlateError {
    fn from(error: CircuitError) -> Self {
        PlateError::Circuit(error)
    }
}

impl From<FluidError> for PlateError {
    fn from(error: FluidError) -> Self {
        PlateError::Fluid(error)
    }
}

/// Passes a value that lies in a closed range; what is not a number lies in none.
pub(crate) fn within(
    quantity: &'static str,
    value: f64,
    range: RangeInclusive<f64>,
) -> Result<f64, PlateError> {
    if range.contains(&value) {
        Ok(value)
    } else {
        let (low, high) = range.into_inner();
        Err(PlateError::OutOfRange { quantity, value, low, high })
    }
}
