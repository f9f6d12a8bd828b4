//! A table put together: bands, who makes them wide, and which measurement would narrow them most.

use super::Band;
use super::cases::{Cases, Together};
use super::table::Table;
use crate::unknowns::{Maker, Unknown};

/// What a table tells.
#[derive(Clone, Debug, PartialEq)]
pub struct Told {
    /// The band of each figure, in their order.
    pub bands: Vec<Band>,
    /// Who makes the first figure's band wide, the greatest first; shares of its variance.
    pub makers: Vec<Share>,
    /// The first figure's band were only the weather unknown.
    pub weather_alone: Band,
    /// The measurement that would narrow the first figure's band most; `None` where nothing can be measured.
    pub narrowing: Option<Narrowing>,
}

/// How much of a band one maker makes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Share {
    /// Who.
    pub maker: Maker,
    /// Part of the variance, 0 to 1.
    pub share: f64,
}

/// What a measurement would do.
#[derive(Clone, Debug, PartialEq)]
pub struct Narrowing {
    /// What is not known.
    pub place: String,
    /// How it is measured.
    pub how: &'static str,
    /// The band that would be left, were it exactly what is reckoned with.
    pub left: Band,
    /// Part of the band's width that would go, 0 to 1.
    pub narrower_by: f64,
}

impl Table {
    /// Puts the table together: unknowns depart each by itself, figures that are always positive by
    /// factors that multiply, others by differences that add up.
    ///
    /// Where several unknowns did more or less together than that, a table would not see it;
    /// [`super::by_draws`] does, and a test holds the two against each other.
    ///
    /// `seed`: which cases are drawn.
    pub fn told(&self, seed: u32) -> Told {
        told(&Together::of(self, None), None, seed)
    }

    /// What this build has more than another: both are moved alike where they share an unknown, and have
    /// the same weather.
    ///
    /// `seed`: which cases are drawn.
    pub fn told_against(&self, other: &Table, seed: u32) -> Told {
        let there = Together::of(other, Some(self));
        told(&Together::of(self, Some(other)), Some(&there), seed)
    }
}

/// What one table tells, or the first of two less the second.
fn told(first: &Together, second: Option<&Together>, seed: u32) -> Told {
    let cases = Cases::of(first.rows(), seed);
    let less = |figure: usize, left_out: &dyn Fn(usize) -> bool| -> Vec<f64> {
        let mut all = first.figure(figure, &cases, left_out);
        if let Some(other) = second {
            let theirs = other.figure(figure, &cases, left_out);
            all.iter_mut().zip(theirs).for_each(|(case, other)| *case -= other);
        }
        all
    };
    // Two builds may have other figures (one without a pump has no runs); the first is always shared.
    let figures = if second.is_some() { 1 } else { first.figures() };
    let bands: Vec<Band> = (0..figures).map(|figure| Band::of(less(figure, &|_| false))).collect();
    let weather = first.rows();
    // Each row alone: all others stay at their middles.
    let alone = |row: usize| less(0, &|other| other != row);
    Told {
        makers: makers(first.unknowns(), &(0..=weather).map(alone).collect::<Vec<_>>()),
        weather_alone: Band::of(alone(weather)),
        narrowing: first
            .unknowns()
            .enumerate()
            .filter_map(|(row, unknown)| {
                let left = Band::of(less(0, &|other| other == row));
                let width = bands.first()?.width().max(f64::MIN_POSITIVE);
                Some(Narrowing {
                    place: unknown.place.clone(),
                    how: unknown.measure?,
                    left,
                    narrower_by: 1.0 - left.width() / width,
                })
            })
            .max_by(|one, other| one.narrower_by.total_cmp(&other.narrower_by)),
        bands,
    }
}

/// `alone`: the first figure's cases with each unknown by itself, the weather last.
fn makers<'a>(unknowns: impl Iterator<Item = &'a Unknown>, alone: &[Vec<f64>]) -> Vec<Share> {
    let whose = unknowns.map(|unknown| unknown.maker).chain([Maker::Weather]);
    let variances: Vec<(Maker, f64)> =
        whose.zip(alone).map(|(maker, cases)| (maker, variance(cases))).collect();
    let all: f64 = variances.iter().map(|(_, variance)| variance).sum();
    let mut shares: Vec<Share> = Maker::ALL
        .into_iter()
        .map(|maker| {
            let own = variances.iter().filter(|(whose, _)| *whose == maker);
            let own: f64 = own.map(|(_, variance)| variance).sum();
            Share { maker, share: if all > 0.0 { own / all } else { 0.0 } }
        })
        .collect();
    shares.sort_by(|one, other| other.share.total_cmp(&one.share));
    shares
}

fn variance(numbers: &[f64]) -> f64 {
    let count = numbers.len().max(1) as f64;
    let mean = numbers.iter().sum::<f64>() / count;
    numbers.iter().map(|number| (number - mean).powi(2)).sum::<f64>() / count
}
