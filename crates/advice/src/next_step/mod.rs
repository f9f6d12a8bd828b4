//! What one practical step of each value would be worth in a year.

mod curve;
mod steps;

use std::sync::atomic::{AtomicUsize, Ordering};

use design::{Edit, EditValue};
use rayon::prelude::*;

use crate::{AdviceError, GoOn, OneYear, Progress, Subject};

pub use curve::spared_at;
pub use steps::{Step, steps};

/// What all steps of a design are worth.
#[derive(Clone, Debug, PartialEq)]
pub struct Worth {
    /// Each value's step, in the order of the heat; of two ways the better.
    pub steps: Vec<StepWorth>,
    /// Values whose step no design can take, each with what the reader says.
    pub refused: Vec<(String, String)>,
    /// What a year of a build that is in truth the same may differ by \[kWh\]: a pump's start hangs on
    /// tenths of a kelvin. A step worth less is worth none.
    pub tolerance_kwh: f64,
}

/// What one step is worth.
#[derive(Clone, Debug, PartialEq)]
pub struct StepWorth {
    /// The step.
    pub step: Step,
    /// Spared heat more a year \[kWh\]; negative where less.
    pub spared_kwh: f64,
}

impl StepWorth {
    /// True where the figure cannot be told from none.
    pub fn is_none(&self, tolerance_kwh: f64) -> bool {
        self.spared_kwh.abs() < tolerance_kwh
    }
}

/// A length of pipe is changed by these shares to see what a year differs by that is the same.
const TREMORS: [f64; 6] = [-0.9e-4, -0.6e-4, -0.3e-4, 0.3e-4, 0.6e-4, 0.9e-4];

/// Computes what each step is worth: one year for each way a step may go, in the weather of `base`.
///
/// The years share what is imposed on them wherever a step leaves it alone.
///
/// # Errors
/// A year that cannot be computed; a caller that asked to stop.
pub fn worth(subject: &Subject, base: &OneYear, progress: &Progress) -> Result<Worth, AdviceError> {
    let steps = steps(subject);
    let done = AtomicUsize::new(0);
    let all = steps.len();
    let spared = |edits: &[Edit]| -> Result<f64, AdviceError> {
        let year = subject.year_beside(base, subject.changed(edits)?)?;
        Ok(year.spared_kwh() - base.spared_kwh())
    };
    let told = |answer: Result<f64, AdviceError>| {
        let done = done.fetch_add(1, Ordering::Relaxed) + 1;
        match progress(done, all) {
            GoOn::Yes => answer,
            GoOn::No => Err(AdviceError::Stopped),
        }
    };
    let tolerance_kwh = tolerance(subject, base, &|_, _| progress(0, all))?;
    let answers: Vec<Result<f64, AdviceError>> =
        steps.par_iter().map(|step| told(spared(&step.edits))).collect();
    let mut worth = Worth { steps: Vec::new(), refused: Vec::new(), tolerance_kwh };
    for (step, answer) in steps.into_iter().zip(answers) {
        match answer {
            Ok(spared_kwh) => worth.better_of(StepWorth { step, spared_kwh }),
            Err(AdviceError::NoBuild { says, .. }) => worth.refused.push((step.place, says)),
            Err(error) => return Err(error),
        }
    }
    let taken = |place: &str| worth.steps.iter().any(|worth| worth.step.place == place);
    let refused = std::mem::take(&mut worth.refused);
    worth.refused = refused.into_iter().filter(|(place, _)| !taken(place)).collect();
    Ok(worth)
}

impl Worth {
    /// Keeps the better of the two ways that one value may be stepped.
    fn better_of(&mut self, new: StepWorth) {
        match self.steps.iter_mut().find(|old| old.step.place == new.step.place) {
            Some(old) if old.spared_kwh < new.spared_kwh => *old = new,
            Some(_) => {}
            None => self.steps.push(new),
        }
    }
}

/// What years may differ by that are in truth the same \[kWh\]: builds that part by less than a
/// millimetre of pipe, two standard deviations of a difference.
///
/// # Errors
/// A year that cannot be computed; a caller that asked to stop.
pub fn tolerance(
    subject: &Subject,
    base: &OneYear,
    progress: &Progress,
) -> Result<f64, AdviceError> {
    let trembled: Vec<f64> = tremors(subject)
        .par_iter()
        .map(|edits| {
            let year = subject.year_beside(base, subject.changed(edits)?)?;
            match progress(0, TREMORS.len()) {
                GoOn::Yes => Ok(year.spared_kwh() - base.spared_kwh()),
                GoOn::No => Err(AdviceError::Stopped),
            }
        })
        .collect::<Result<_, AdviceError>>()?;
    Ok(tolerance_kwh(&trembled))
}

/// Two standard deviations of the difference of two years that are in truth the same; a twentieth of a
/// kilowatt-hour at least, for the change of length is worth something too.
fn tolerance_kwh(trembled: &[f64]) -> f64 {
    let count = trembled.len().max(1) as f64;
    let mean = trembled.iter().sum::<f64>() / count;
    let variance = trembled.iter().map(|kwh| (kwh - mean).powi(2)).sum::<f64>() / count;
    // Both years of a difference tremble.
    (2.0 * std::f64::consts::SQRT_2 * variance.sqrt()).max(0.05)
}

/// Builds that are the same but for less than a millimetre of pipe.
fn tremors(subject: &Subject) -> Vec<Vec<Edit>> {
    let length_m = subject.build.circuit.flow_pipe[0].length_m;
    TREMORS
        .iter()
        .map(|share| {
            let value = EditValue::Text(format!("{} m", length_m * (1.0 + share)));
            vec![Edit { place: "circuit.flow-pipe.length".to_owned(), value }]
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Given years that differ by 0.1 kWh either way: twice the square root of two times that (two years,
    /// two standard deviations; by hand). Years that do not differ at all: a twentieth.
    #[test]
    fn tolerance_is_of_two_years() {
        let kwh = tolerance_kwh(&[0.1, -0.1, 0.1, -0.1]);
        assert!((kwh - 0.282_842_712).abs() < 1e-8, "{kwh}");
        assert_eq!(tolerance_kwh(&[0.0; 4]), 0.05);
    }
}
