//! Bands by whole years in which everything is unknown at once.

use std::sync::atomic::{AtomicUsize, Ordering};

use physics::Climate;
use rayon::prelude::*;
use sobol_burley::sample;

use super::Band;
use super::table::Question;
use crate::unknowns::Changes;
use crate::{AdviceError, GoOn};

/// The bands of all figures from so many years, each with every unknown and the weather drawn anew:
/// quasi-random points (Sobol's, scrambled), so that 400 years tell what thousands by plain lot would.
///
/// Slower than a table, and free of its assumption that departures add up.
///
/// `years`: how many, 16 and more; `seed`: which.
///
/// # Errors
/// A changed design that cannot be built or computed; a caller that asked to stop.
pub fn by_draws(asked: Question, years: u32, seed: u32) -> Result<Vec<Band>, AdviceError> {
    let subject = asked.subject;
    let climates: Vec<Climate> = (0..asked.weather.len())
        .into_par_iter()
        .map(|year| asked.weather.climate(subject, year))
        .collect::<Result<_, _>>()?;
    let done = AtomicUsize::new(0);
    let answers: Vec<Vec<f64>> = (0..years)
        .into_par_iter()
        .map(|year| {
            let share = |dimension: usize| {
                f64::from(sample(year, dimension as u32, seed)).clamp(1e-6, 1.0 - 1e-6)
            };
            let mut changes = Changes::default();
            for (dimension, unknown) in asked.unknowns.iter().enumerate() {
                unknown.lever.put(unknown.at(share(dimension)), &mut changes);
            }
            let build = subject.with(&changes)?;
            let which = (share(asked.unknowns.len()) * climates.len() as f64) as usize;
            let climate = climates.get(which).unwrap_or(&subject.climate);
            let figures = (asked.figures)(&subject.year_in(&build, &changes.weather(climate))?);
            let done = done.fetch_add(1, Ordering::Relaxed) + 1;
            match (asked.progress)(done, years as usize) {
                GoOn::Yes => Ok(figures),
                GoOn::No => Err(AdviceError::Stopped),
            }
        })
        .collect::<Result<_, AdviceError>>()?;
    let figures = answers.first().map_or(0, Vec::len);
    Ok((0..figures)
        .map(|figure| Band::of(answers.iter().map(|answer| answer[figure]).collect()))
        .collect())
}
