//! How long hot water may touch skin before it burns.

use super::error::TapError;
use crate::ZERO_CELSIUS_K;

/// What water of one temperature does to an adult's skin.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Scald {
    /// Below 44 C: no burn was seen in six hours.
    NoneSeen,
    /// 44 to 45 C: burns after longer than this.
    After(BurnTimes),
    /// 45 to 68.3 C: burns after about this.
    About(BurnTimes),
    /// Hotter: burns sooner than this.
    Within(BurnTimes),
}

impl Scald {
    /// The times, whatever they mean; `None` where no burn was seen.
    pub fn times(&self) -> Option<BurnTimes> {
        match *self {
            Scald::NoneSeen => None,
            Scald::After(times) | Scald::About(times) | Scald::Within(times) => Some(times),
        }
    }
}

/// Times of touch until the skin is burnt.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BurnTimes {
    /// Until blisters, a burn of the second degree \[s\].
    pub second_degree_s: f64,
    /// Until the whole skin is dead, a burn of the third degree \[s\].
    pub third_degree_s: f64,
}

impl BurnTimes {
    /// The times of a child: thinner skin burns in half an adult's (after Feldman, seen in a medical
    /// reckoner). The old are often put beside children (common practice).
    pub fn of_a_child(&self) -> BurnTimes {
        BurnTimes {
            second_degree_s: CHILD_TIME_FACTOR * self.second_degree_s,
            third_degree_s: CHILD_TIME_FACTOR * self.third_degree_s,
        }
    }
}

/// Time in which water burns an adult's bare skin.
///
/// Straight lines between the logarithms of printed times.
///
/// - `water_k`: temperature of the water on the skin, absolute \[K\].
///
/// # Valid range
/// 0 to 100 C; a [`TapError`] outside. Times between 45 and 68.3 C; a bound beside them, see
/// [`Scald`]. They are means over adults' skin: some burn in half of them, and nobody is to take
/// one as a time to stay in such water.
///
/// # Source
/// Moritz and Henriques, Am. J. Pathology 23 (1947) 695, as a chart at 45 to 60 C (seen on a valve
/// seller's page); 1 s at 155 F from the burn chart of the pipe trade (from memory). Blisters above
/// 60 C at the share of 60 C, three fifths: a judgement.
///
/// # Checked
/// The pipe trade's figures at 145 and 150 F (3 and 1.5 s, from memory) to their rounding, though its
/// 10 s at 135 F lie a quarter under ours; times that about halve by the kelvin from 45 to 51 C, as the authors say; a child's 30 s at 54 C
/// (Feldman) within a fifth.
///
/// # Example
/// ```
/// use physics::tap::scald::{Scald, scald};
/// let Scald::About(times) = scald(333.15).unwrap() else { panic!() };
/// assert!((times.second_degree_s - 3.0).abs() < 1e-9);
/// assert_eq!(scald(313.15), Ok(Scald::NoneSeen));
/// ```
pub fn scald(water_k: f64) -> Result<Scald, TapError> {
    let water_c = water_k - ZERO_CELSIUS_K;
    let good = (0.0..=100.0).contains(&water_c);
    TapError::unless(good, "the water's temperature in C", water_c, "0 to 100")?;
    let (first, last) = (CHART[0], CHART[CHART.len() - 1]);
    Ok(if water_c < LOWEST_BURN_C {
        Scald::NoneSeen
    } else if water_c < first.0 {
        Scald::After(times_at(first.0))
    } else if water_c <= last.0 {
        Scald::About(times_at(water_c))
    } else {
        Scald::Within(times_at(last.0))
    })
}

/// A child's times over an adult's.
const CHILD_TIME_FACTOR: f64 = 0.5;

/// The lowest temperature that burnt at all, after more than six hours (same authors).
const LOWEST_BURN_C: f64 = 44.0;

/// Temperature [C], blisters [s], whole skin [s].
const CHART: [(f64, f64, f64); 8] = [
    (45.0, 2.0 * 3600.0, 3.0 * 3600.0),
    (47.0, 20.0 * 60.0, 45.0 * 60.0),
    (48.0, 15.0 * 60.0, 20.0 * 60.0),
    (49.0, 8.0 * 60.0, 10.0 * 60.0),
    (51.0, 2.0 * 60.0, 4.2 * 60.0),
    (55.0, 17.0, 30.0),
    (60.0, 3.0, 5.0),
    (68.3, 0.6, 1.0),
];

/// Times between two rows of the chart; the caller keeps the range.
fn times_at(water_c: f64) -> BurnTimes {
    let above = CHART.iter().position(|row| water_c <= row.0).unwrap_or(CHART.len() - 1).max(1);
    let (cooler, hotter) = (CHART[above - 1], CHART[above]);
    let share = (water_c - cooler.0) / (hotter.0 - cooler.0);
    let between = |from: f64, to: f64| from * (to / from).powf(share);
    BurnTimes {
        second_degree_s: between(cooler.1, hotter.1),
        third_degree_s: between(cooler.2, hotter.2),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn about(water_c: f64) -> BurnTimes {
        match scald(water_c + ZERO_CELSIUS_K).unwrap() {
            Scald::About(times) => times,
            other => panic!("{water_c} C: {other:?}"),
        }
    }

    /// Given: the rows of the chart. Expected: its own times, to rounding.
    #[test]
    fn the_chart_s_own_rows() {
        for (water_c, blisters_s, whole_s) in CHART {
            // The last row's 68.3 C comes back from kelvin a rounding hotter.
            let times = scald(water_c + ZERO_CELSIUS_K).unwrap().times().unwrap();
            assert!((times.second_degree_s / blisters_s - 1.0).abs() < 1e-9, "{water_c} C");
            assert!((times.third_degree_s / whole_s - 1.0).abs() < 1e-9, "{water_c} C");
        }
    }

    /// The pipe trade's burn chart (from memory), none of whose rows here is a row of ours: whole
    /// skin in 3 s at 145 F and 1.5 s at 150 F. It goes by half seconds: a quarter of one. (Its
    /// 10 s at 135 F lie a quarter under our line from 55 to 60 C: charts part by that much.)
    #[test]
    fn as_the_pipe_trade_has_it() {
        for (fahrenheit, expected_s) in [(145.0, 3.0), (150.0, 1.5)] {
            let got_s = about((fahrenheit - 32.0) / 1.8).third_degree_s;
            assert!((got_s - expected_s).abs() < 0.25, "{fahrenheit} F: {got_s}");
        }
    }

    /// Moritz and Henriques: from 44 to 51 C the time about halves with each kelvin. Over our six
    /// kelvin: a mean factor between 1.7 and 2.3.
    #[test]
    fn a_kelvin_halves_the_time() {
        let fall = (about(45.0).third_degree_s / about(51.0).third_degree_s).powf(1.0 / 6.0);
        assert!((1.7..2.3).contains(&fall), "{fall}");
        let fall = (about(45.0).second_degree_s / about(51.0).second_degree_s).powf(1.0 / 6.0);
        assert!((1.7..2.3).contains(&fall), "{fall}");
    }

    /// Feldman (seen in a medical reckoner): a child's whole skin is burnt at 54 C in about 30 s.
    /// Another hand's figure, itself rounded: a fifth.
    #[test]
    fn a_child_burns_as_was_seen() {
        let got_s = about(54.0).of_a_child().third_degree_s;
        assert!((got_s / 30.0 - 1.0).abs() < 0.2, "{got_s}");
    }

    /// Laws: hotter never takes longer, whole skin never sooner than blisters, and each kind of
    /// answer where it belongs.
    #[test]
    fn hotter_is_sooner() {
        let mut last = BurnTimes { second_degree_s: f64::INFINITY, third_degree_s: f64::INFINITY };
        for tenth in 440..=1000 {
            let water_c = f64::from(tenth) / 10.0;
            let times = scald(water_c + ZERO_CELSIUS_K).unwrap().times().unwrap();
            assert!(times.second_degree_s <= last.second_degree_s, "{water_c} C");
            assert!(times.third_degree_s <= last.third_degree_s, "{water_c} C");
            assert!(times.second_degree_s < times.third_degree_s, "{water_c} C");
            last = times;
        }
        assert!(matches!(scald(317.5), Ok(Scald::After(_))));
        assert!(matches!(scald(353.15), Ok(Scald::Within(_))));
        assert!(scald(f64::NAN).is_err() && scald(380.0).is_err() && scald(270.0).is_err());
    }
}
