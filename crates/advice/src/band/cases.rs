//! Cases read from a table: each unknown somewhere, each year some year.

use sobol_burley::sample;

use super::table::{Row, Table};
use crate::unknowns::{Reach, Unknown};

/// How many cases a band is read from.
const COUNT: u32 = 4096;

/// Where every unknown, and the weather, lies in every case: a share of all cases has less of it.
pub(super) struct Cases {
    /// By row, the weather last; each with a share a case.
    shares: Vec<Vec<f64>>,
}

impl Cases {
    /// Quasi-random cases for so many unknowns and the weather.
    pub(super) fn of(rows: usize, seed: u32) -> Cases {
        let share = |row: usize, case: u32| {
            f64::from(sample(case, row as u32, seed)).clamp(1e-6, 1.0 - 1e-6)
        };
        let shares = (0..=rows).map(|row| (0..COUNT).map(|case| share(row, case)).collect());
        Cases { shares: shares.collect() }
    }
}

/// A table with its rows in an order that another table's rows may have too.
pub(super) struct Together<'a> {
    table: &'a Table,
    /// Every unknown of both, with its row where the table has one.
    rows: Vec<(&'a Unknown, Option<&'a Row>)>,
}

impl<'a> Together<'a> {
    /// A table's rows in an order that both tables agree on.
    pub(super) fn of(table: &'a Table, beside: Option<&'a Table>) -> Together<'a> {
        let theirs = beside.map_or(&[][..], |beside| &beside.rows);
        let mut all: Vec<&Unknown> =
            table.rows.iter().chain(theirs).map(|row| &row.unknown).collect();
        all.sort_by(|one, other| one.place.cmp(&other.place));
        all.dedup_by(|one, other| one.place == other.place);
        let rows = all
            .into_iter()
            .map(|unknown| {
                let own = table.rows.iter().find(|row| row.unknown.place == unknown.place);
                (unknown, own)
            })
            .collect();
        Together { table, rows }
    }

    /// How many unknowns.
    pub(super) fn rows(&self) -> usize {
        self.rows.len()
    }

    /// How many figures.
    pub(super) fn figures(&self) -> usize {
        self.table.middle.len()
    }

    /// The unknowns.
    pub(super) fn unknowns(&self) -> impl Iterator<Item = &'a Unknown> {
        self.rows.iter().map(|(unknown, _)| *unknown)
    }

    /// A figure in every case, some rows left at their middles; the row after the last is the weather.
    pub(super) fn figure(
        &self,
        figure: usize,
        cases: &Cases,
        left_out: &dyn Fn(usize) -> bool,
    ) -> Vec<f64> {
        let middle = self.table.middle[figure];
        let way = if self.is_positive(figure) { Way::Factors } else { Way::Sums };
        let mut all = vec![middle; COUNT as usize];
        for (row, shares) in cases.shares.iter().enumerate() {
            if left_out(row) {
                continue;
            }
            for (case, &share) in all.iter_mut().zip(shares) {
                let departed = match self.rows.get(row) {
                    Some((_, Some(row))) => row.departure(share, figure, (middle, way)),
                    Some((_, None)) => continue,
                    None => self.weather(share, figure, (middle, way)),
                };
                *case = way.joined(*case, departed);
            }
        }
        all
    }

    /// True where a figure is positive wherever it was computed.
    fn is_positive(&self, figure: usize) -> bool {
        let rows = self.table.rows.iter().flat_map(|row| &row.nodes).chain(&self.table.weather);
        self.table.middle[figure] > 0.0 && rows.clone().all(|node| node[figure] > 0.0)
    }

    /// One of the years: between two that are neighbours in their light nothing lies that has their air.
    fn weather(&self, share: f64, figure: usize, (middle, way): (f64, Way)) -> f64 {
        let years = &self.table.weather;
        let year = years.get((share * years.len() as f64) as usize);
        year.map_or(0.0, |year| way.departure(year[figure], middle))
    }
}

/// How departures of several unknowns come together.
#[derive(Clone, Copy)]
enum Way {
    /// By factors, kept as logarithms.
    Factors,
    /// By differences.
    Sums,
}

impl Way {
    fn departure(self, figure: f64, middle: f64) -> f64 {
        match self {
            Way::Factors => (figure / middle).ln(),
            Way::Sums => figure - middle,
        }
    }

    fn joined(self, figure: f64, departure: f64) -> f64 {
        match self {
            Way::Factors => figure * departure.exp(),
            Way::Sums => figure + departure,
        }
    }
}

impl Row {
    /// What the unknown does to a figure where a share of all cases has less of it.
    fn departure(&self, share: f64, figure: usize, (middle, way): (f64, Way)) -> f64 {
        let node = |at: usize| way.departure(self.nodes[at][figure], middle);
        match &self.unknown.reach {
            Reach::Figure { .. } => {
                let z = self.unknown.tenths(share);
                z.abs() * node(usize::from(z > 0.0))
            }
            Reach::Words(words) => {
                let word = self.unknown.at(share);
                words.iter().position(|chance| chance.word as f64 == word).map_or(0.0, node)
            }
        }
    }
}
