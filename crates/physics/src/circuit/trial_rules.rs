//! How hard and how long a pipe is tried, by the rules of the trade.

use super::error::CircuitError;

/// Whose rule says how hard.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TrialRule {
    /// The water regulations of the United Kingdom: one and a half times the greatest working
    /// pressure.
    UnitedKingdom,
    /// EN 806-4: 1.1 times the greatest design pressure, itself one and a half times the greatest
    /// working pressure.
    En806,
}

/// Pressure to try at, over that of the air \[Pa\].
///
/// ```text
/// 1.5 MOP,   or   1.1 MDP with MDP = 1.5 MOP
/// ```
///
/// - `rule`: whose.
/// - `working_pa`: greatest working pressure MOP, over that of the air \[Pa\].
///
/// # Valid range
/// A positive number; a [`CircuitError`] outside.
///
/// # Source
/// The British water industry's interpretation I35 and EN 806-4 as its pages quote it (seen).
///
/// # Checked
/// D-11 to 1e-9.
///
/// # Example
/// ```
/// use physics::circuit::trial_rules::{TrialRule, trial_pressure_pa};
/// let trial_pa = trial_pressure_pa(TrialRule::UnitedKingdom, 2e5).unwrap();
/// assert!((trial_pa - 3e5).abs() < 1e-6);
/// ```
pub fn trial_pressure_pa(rule: TrialRule, working_pa: f64) -> Result<f64, CircuitError> {
    let good = working_pa > 0.0 && working_pa.is_finite();
    CircuitError::unless(good, "the working pressure in Pa", working_pa, "more than 0")?;
    let design_pa = 1.5 * working_pa;
    Ok(match rule {
        TrialRule::UnitedKingdom => design_pa,
        TrialRule::En806 => 1.1 * design_pa,
    })
}

/// The three ways of EN 806-4 to watch a pipe under pressure.
///
/// The standard's text was not at hand: figures from memory, to be met in the standard before a
/// signature hangs on them. Air and water must lie within 10 K of each other first.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Procedure {
    /// A: metal, and whatever does not give.
    A,
    /// B: plastic, a short way.
    B,
    /// C: plastic, the long way.
    C,
}

/// One wait of a procedure.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Wait {
    /// How long \[s\].
    pub time_s: f64,
    /// At which share of the trial's pressure.
    pub pressure_share: f64,
    /// How far it may fall meanwhile \[Pa\]; `None` where it is pumped up again, or only noted.
    pub allowed_drop_pa: Option<f64>,
}

impl Procedure {
    /// Its waits in their order.
    pub fn waits(self) -> &'static [Wait] {
        const fn wait(minutes: f64, pressure_share: f64, allowed_drop_pa: Option<f64>) -> Wait {
            Wait { time_s: 60.0 * minutes, pressure_share, allowed_drop_pa }
        }
        const A: [Wait; 1] = [wait(10.0, 1.0, Some(0.0))];
        const B: [Wait; 2] = [wait(30.0, 1.0, None), wait(30.0, 0.5, Some(0.0))];
        const C: [Wait; 3] =
            [wait(30.0, 1.0, None), wait(30.0, 1.0, Some(0.6e5)), wait(120.0, 1.0, Some(0.2e5))];
        match self {
            Procedure::A => &A,
            Procedure::B => &B,
            Procedure::C => &C,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Given: pressures that are none. Expected: errors.
    #[test]
    fn refuses_nonsense() {
        assert!(trial_pressure_pa(TrialRule::En806, 0.0).is_err());
        assert!(trial_pressure_pa(TrialRule::En806, f64::NAN).is_err());
    }
}
