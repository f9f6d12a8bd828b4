//! What can be wrong with a circuit, with the numbers that failed.

use std::fmt;

use crate::matter::fluid::FluidError;

/// What is wrong with a pipe, a pump or the round they make.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum CircuitError {
    /// The fluid has no properties there.
    Fluid(FluidError),
    /// A number that no pipe or flow can have.
    Impossible {
        /// Which number.
        what: &'static str,
        /// Its value.
        value: f64,
        /// What it must be.
        must: &'static str,
    },
    /// The pump has no head to give.
    NoFlow {
        /// Head at no flow \[m\].
        shutoff_head_m: f64,
    },
    /// More flow than the pump's curve was measured for.
    BeyondCurve {
        /// Flow the round would take along the curve's last line \[m3/s\].
        flow_m3_s: f64,
        /// Flow of the curve's last point \[m3/s\].
        last_m3_s: f64,
    },
    /// A relief valve that opens before a sealed vessel has taken anything up.
    ReliefTooLow {
        /// Where it opens, as a gauge shows it \[Pa\].
        relief_pa: f64,
        /// The vessel's pressure before any fluid is let in, as a gauge shows it \[Pa\].
        precharge_pa: f64,
    },
    /// A search for a balance did not end.
    NoBalance {
        /// What was to be balanced.
        what: &'static str,
        /// What was still missing when the search was given up, in that quantity's unit.
        missing: f64,
    },
}

impl CircuitError {
    /// Passes `value` where `holds`, else says what it must be.
    pub(crate) fn unless(
        holds: bool,
        what: &'static str,
        value: f64,
        must: &'static str,
    ) -> Result<f64, CircuitError> {
        if holds { Ok(value) } else { Err(CircuitError::Impossible { what, value, must }) }
    }
}

impl From<FluidError> for CircuitError {
    fn from(error: FluidError) -> Self {
        CircuitError::Fluid(error)
    }
}

impl fmt::Display for CircuitError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            CircuitError::Fluid(error) => error.fmt(f),
            CircuitError::Impossible { what, value, must } => {
                write!(f, "{what} is {value}; it must be {must}")
            }
            CircuitError::NoFlow { shutoff_head_m } => write!(
                f,
                "the pump gives {shutoff_head_m} m of head at no flow, so nothing runs; it must be \
                 more than 0"
            ),
            CircuitError::BeyondCurve { flow_m3_s, last_m3_s } => write!(
                f,
                "the round would take {:.2} l/min and the pump's curve ends at {:.2} l/min; it must \
                 reach as far as the flow",
                flow_m3_s * 60e3,
                last_m3_s * 60e3
            ),
            CircuitError::ReliefTooLow { relief_pa, precharge_pa } => write!(
                f,
                "the relief valve opens at {:.2} bar on the gauge and the vessel is charged to \
                 {:.2} bar; the valve must open well above that",
                relief_pa / 1e5,
                precharge_pa / 1e5
            ),
            CircuitError::NoBalance { what, missing } => {
                write!(f, "no balance of {what} was found; {missing:e} is missing")
            }
        }
    }
}

impl std::error::Error for CircuitError {}
