//! Every unknown moved by itself, and other years by themselves: what a band is put together from.

use std::borrow::Cow;
use std::sync::atomic::{AtomicUsize, Ordering};

use physics::Climate;
use rayon::prelude::*;

use crate::unknowns::{Changes, Reach, Unknown};
use crate::{AdviceError, Figures, GoOn, OneYear, Progress, Subject, WeatherYears};

/// What is asked.
#[derive(Clone, Copy)]
pub struct Question<'a> {
    /// Of which design.
    pub subject: &'a Subject,
    /// What is not known of it.
    pub unknowns: &'a [Unknown],
    /// Which years stand for its weather.
    pub weather: &'a WeatherYears,
    /// Which figures are to have bands; the first is the one that makers are told of.
    pub figures: &'a Figures<'a>,
    /// Told after each year.
    pub progress: &'a Progress<'a>,
}

/// The figures as they stand, with each unknown moved, and in other years.
#[derive(Clone, Debug)]
pub struct Table {
    pub(super) middle: Vec<f64>,
    pub(super) rows: Vec<Row>,
    pub(super) weather: Vec<Vec<f64>>,
}

/// One unknown moved by itself.
#[derive(Clone, Debug)]
pub(super) struct Row {
    pub(super) unknown: Unknown,
    /// Figures where it is low and where it is high; or for each of its words.
    pub(super) nodes: Vec<Vec<f64>>,
}

/// One year of the table.
#[derive(Clone, Copy)]
enum Case {
    Moved { unknown: usize, figure: f64 },
    Weather(usize),
}

impl Table {
    /// Years computed for it beside the one as it stands.
    pub fn years(&self) -> usize {
        self.rows.iter().map(|row| row.nodes.len()).sum::<usize>() + self.weather.len()
    }

    /// Least and greatest value that a figure came to in any year of the table.
    pub fn computed(&self, figure: usize) -> (f64, f64) {
        let years = self.rows.iter().flat_map(|row| &row.nodes).chain(&self.weather);
        years
            .map(|year| year[figure])
            .fold((self.middle[figure], self.middle[figure]), |(least, most), value| {
                (least.min(value), most.max(value))
            })
    }

    /// Computes a table: one year as it stands, two for each unknown, one for each other year.
    ///
    /// `base`: the year as it stands.
    ///
    /// # Errors
    /// A changed design that cannot be built or computed; a caller that asked to stop.
    pub fn of(asked: Question, base: &OneYear) -> Result<Table, AdviceError> {
        let mut cases: Vec<Case> = Vec::new();
        for (unknown, of) in asked.unknowns.iter().enumerate() {
            let moved = figures_of(of).into_iter();
            cases.extend(moved.map(|figure| Case::Moved { unknown, figure }));
        }
        cases.extend((0..asked.weather.len()).map(Case::Weather));
        let done = AtomicUsize::new(0);
        let answers: Vec<Vec<f64>> = cases
            .par_iter()
            .map(|&case| {
                let year = one(asked, base, case)?;
                let figures = (asked.figures)(&year);
                let done = done.fetch_add(1, Ordering::Relaxed) + 1;
                match (asked.progress)(done, cases.len()) {
                    GoOn::Yes => Ok(figures),
                    GoOn::No => Err(AdviceError::Stopped),
                }
            })
            .collect::<Result<_, AdviceError>>()?;
        let mut answers = answers.into_iter();
        let rows = asked
            .unknowns
            .iter()
            .map(|unknown| Row {
                unknown: unknown.clone(),
                nodes: answers.by_ref().take(figures_of(unknown).len()).collect(),
            })
            .collect();
        Ok(Table { middle: (asked.figures)(base), rows, weather: answers.collect() })
    }
}

/// The figures at which an unknown is computed.
fn figures_of(unknown: &Unknown) -> Vec<f64> {
    match &unknown.reach {
        Reach::Figure { low, high, .. } => vec![*low, *high],
        Reach::Words(words) => words.iter().map(|word| word.word as f64).collect(),
    }
}

fn one(asked: Question, base: &OneYear, case: Case) -> Result<OneYear, AdviceError> {
    let subject = asked.subject;
    match case {
        Case::Moved { unknown, figure } => {
            let mut changes = Changes::default();
            asked.unknowns[unknown].lever.put(figure, &mut changes);
            let build = subject.with(&changes)?;
            match changes.weather(&subject.climate) {
                Cow::Borrowed(_) => subject.year_beside(base, build),
                Cow::Owned(climate) => subject.year_in(&build, &climate),
            }
        }
        Case::Weather(year) => {
            let climate: Climate = asked.weather.climate(subject, year)?;
            subject.year_in(&subject.build, &climate)
        }
    }
}
