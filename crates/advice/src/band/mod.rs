//! How sure the figures of a year are: bands in which eight cases of ten lie.

mod cases;
mod draws;
mod table;
mod told;

pub use draws::by_draws;
pub use table::{Question, Table};
pub use told::{Narrowing, Share, Told};

/// How likely a figure lies within its band.
pub const CHANCE: f64 = 0.8;

/// A band of one figure.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Band {
    /// One case in ten lies below.
    pub low: f64,
    /// As many lie below as above.
    pub middle: f64,
    /// One case in ten lies above.
    pub high: f64,
}

impl Band {
    /// The band of some cases, all equally likely; of none, all nought.
    pub fn of(mut cases: Vec<f64>) -> Band {
        cases.sort_by(f64::total_cmp);
        let tail = 0.5 * (1.0 - CHANCE);
        Band {
            low: quantile(&cases, tail),
            middle: quantile(&cases, 0.5),
            high: quantile(&cases, 1.0 - tail),
        }
    }

    /// From its low to its high end.
    pub fn width(&self) -> f64 {
        self.high - self.low
    }
}

/// The figure that a share of sorted cases stays below, straight between cases.
fn quantile(sorted: &[f64], share: f64) -> f64 {
    let Some(last) = sorted.len().checked_sub(1) else { return 0.0 };
    let at = (share * sorted.len() as f64 - 0.5).clamp(0.0, last as f64);
    let below = at as usize;
    let above = (below + 1).min(last);
    sorted[below] + at.fract() * (sorted[above] - sorted[below])
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Given the numbers 0.5 to 99.5 in any order: a tenth lies below 10, half below 50, nine tenths below
    /// 90 (by the definition of a quantile).
    #[test]
    fn a_band_holds_eight_in_ten() {
        let cases: Vec<f64> = (0..100).map(|at| f64::from(at * 37 % 100) + 0.5).collect();
        let band = Band::of(cases);
        for (got, want) in [(band.low, 10.0), (band.middle, 50.0), (band.high, 90.0)] {
            assert!((got - want).abs() < 1e-9, "{band:?}");
        }
    }
}
