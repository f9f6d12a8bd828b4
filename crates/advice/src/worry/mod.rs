//! What can go wrong with a build: each worry a spell or a year run by the same engine with something
//! upset, or a check with numbers.

mod ages;
mod away;
mod bacteria;
mod boils;
mod case;
mod controller;
mod finding;
mod frost;
mod hot_panel;
mod leaks;
mod lets_go;
mod moves;
mod night;
mod not_looked_at;
mod poison;
mod remedy;
mod scald;
#[cfg(test)]
mod tests;
mod too_hot;
mod weather;
mod words;
mod work;

use std::sync::atomic::{AtomicUsize, Ordering};

use rayon::prelude::*;
use year::Recorder;

use crate::{AdviceError, GoOn, OneYear, Progress, Subject};

pub(crate) use boils::boils_k;
pub use case::{CHANNELS, Case, Depth};
pub use finding::{
    About, Bad, Certainty, Course, Figure, Finding, Kind, Limit, Remedy, Station, Tried,
};
pub use not_looked_at::NOT_LOOKED_AT;
pub use words::{Setting, Value, Words};

/// One look at a build: a few findings of one kind, computed together, so that a remedy is tried by the
/// same look.
pub(crate) type Look = fn(&Case) -> Result<Vec<Finding>, AdviceError>;

/// Every look, those that march years first, so that cores end together; findings are sorted.
const LOOKS: &[Look] = &[
    night::look,
    ages::light::paint,
    ages::light::cover,
    ages::scale::look,
    controller::fallen,
    controller::stuck_on,
    too_hot::look,
    ages::light::dirt,
    controller::hunts,
    controller::misread,
    controller::swapped,
    controller::wide,
    boils::look,
    boils::cooks,
    hot_panel::filled,
    hot_panel::started,
    away::hot,
    away::limit_fails,
    away::discharge,
    away::loft,
    away::board,
    frost::night,
    frost::thinned,
    controller::electricity,
    bacteria::feeds,
    bacteria::kills,
    bacteria::grows,
    scald::look,
    poison::pinhole,
    poison::papers,
    leaks::look,
    leaks::joints,
    lets_go::wind::look,
    lets_go::weight::dead,
    lets_go::weight::snow,
    lets_go::lifting::hands,
    lets_go::lifting::covering,
    moves::stretch::look,
    moves::pane::edge,
    moves::pane::bow,
    ages::metals::look,
    ages::dew::look,
    work::bench::look,
    work::aloft::look,
];

/// All worries of a build, the worst first; remedies of those that are stop or mind are tried.
///
/// - `subject`: the build.
/// - `base`: its year as it stands.
/// - `minutes`: that year's [`CHANNELS`] by the minute.
///
/// # Errors
/// A year or spell that cannot be computed; a caller that asked to stop.
pub fn worries(
    subject: &Subject,
    base: &OneYear,
    minutes: &Recorder,
    progress: &Progress,
) -> Result<Vec<Finding>, AdviceError> {
    let case = Case::of(subject, base, minutes);
    let (done, all) = (AtomicUsize::new(0), AtomicUsize::new(LOOKS.len()));
    let told = || {
        let done = done.fetch_add(1, Ordering::Relaxed) + 1;
        match progress(done, all.load(Ordering::Relaxed)) {
            GoOn::Yes => Ok(()),
            GoOn::No => Err(AdviceError::Stopped),
        }
    };
    let looked = |look: Look| -> Result<(Look, Vec<Finding>), AdviceError> {
        let found = look(&case)?;
        told()?;
        Ok((look, found))
    };
    let looked: Vec<(Look, Vec<Finding>)> =
        LOOKS.par_iter().map(|&look| looked(look)).collect::<Result<_, AdviceError>>()?;
    let tries = looked.iter().flat_map(|(_, found)| found).map(|one| one.remedies.len()).sum();
    all.fetch_add(tries, Ordering::Relaxed);
    let mut findings: Vec<Finding> = looked
        .into_par_iter()
        .flat_map_iter(|(look, found)| found.into_iter().map(move |one| (look, one)))
        .map(|(look, finding)| remedy::tried(&case, look, finding, &told))
        .collect::<Result<_, AdviceError>>()?;
    findings.sort_by_key(|finding| (finding.kind, finding.station, finding.about));
    Ok(findings)
}
