//! The air's year by the hour from its monthly means.

use super::{DAYS, Months, Stream};
use crate::climate::{HOURS_PER_YEAR, MONTH_STARTS_DAY, month_of_day, monthly_means};

/// Spread of a day's mean air about the time of year, as a share of the difference between warmest and
/// coldest month: the farther from the sea, the more of both. Judgement: 0.11 to 0.20 in six real years.
const SPELL_SHARE: f64 = 0.15;

/// How much of a day's departure the next one keeps. Judgement: 0.6 to 0.8 in six real years.
const SPELL_KEPT: f64 = 0.7;

/// Least daily swing, warmest less coldest hour \[K\]: a dull windy day. Judgement.
const LEAST_SWING_K: f64 = 1.5;

/// Air and dew point of a year by the hour, both at mid-hour.
pub(super) struct YearOfAir {
    pub(super) air_k: Vec<f64>,
    pub(super) dew_point_k: Vec<f64>,
}

/// Air along a smooth curve that keeps each month's mean, with spells and a daily swing.
///
/// `T(h) = Tday + A (0.4632 cos(t - 3.805) + 0.0984 cos(2t - 0.360) + 0.0168 cos(3t - 0.822) +
/// 0.0138 cos(4t - 3.513))`, `t = 2 pi (h - 1)/24` from 1 in the sun's first hour, `A = 25.8 K - 5.21`
/// of each day's clearness `K`. Erbs, Klein and Beckman 1983 made `A` for the month's mean day; that a
/// clear day swings more than a dull one by the same rule is ours. Dew point: the day's coldest air,
/// as over land with rain enough (Kimball, Running and Nemani 1997).
pub(super) fn year_of_air(
    months: &Months,
    clearness: &[f64],
    clock_ahead_h: f64,
    seed: u32,
) -> YearOfAir {
    let curve = smooth_curve(&months.air_k);
    let range =
        |fold: fn(f64, f64) -> f64| months.air_k.iter().copied().reduce(fold).unwrap_or(0.0);
    let spells = spells(SPELL_SHARE * (range(f64::max) - range(f64::min)), seed);
    let swings_k = swings(months, clearness);
    let behind_h = months.longitude.degrees() / 15.0 - clock_ahead_h;
    let mut air_k = Vec::with_capacity(HOURS_PER_YEAR);
    for hour in 0..HOURS_PER_YEAR {
        let day = hour / 24;
        let solar_time_h = (hour % 24) as f64 + 0.5 + behind_h;
        let swing_k = swings_k[day];
        // Between one day's mean and the next the air does not jump at midnight.
        let along = (hour % 24) as f64 / 24.0 - 0.5;
        let (before, after) =
            if along < 0.0 { ((day + DAYS - 1) % DAYS, day) } else { (day, (day + 1) % DAYS) };
        let share = if along < 0.0 { along + 1.0 } else { along };
        let mean_k = |day: usize| curve[day] + spells[day];
        let mean_k = mean_k(before) + share * (mean_k(after) - mean_k(before));
        air_k.push(mean_k + swing_k * swing_shape(solar_time_h));
    }
    keep_months(&mut air_k, &months.air_k);
    let dew_point_k = (0..HOURS_PER_YEAR)
        .map(|hour| {
            let day = hour / 24 * 24;
            air_k[day..day + 24].iter().copied().fold(f64::INFINITY, f64::min)
        })
        .collect();
    YearOfAir { air_k, dew_point_k }
}

/// Each day's swing \[K\]: by its clearness, and to the month's mean where that is known.
fn swings(months: &Months, clearness: &[f64]) -> Vec<f64> {
    let mut swings_k: Vec<f64> =
        clearness.iter().map(|k| (25.8 * k - 5.21).max(LEAST_SWING_K)).collect();
    for (month, known_k) in months.swing_k.iter().flatten().enumerate() {
        let days = MONTH_STARTS_DAY[month]..MONTH_STARTS_DAY[month + 1];
        let mean_k = swings_k[days.clone()].iter().sum::<f64>() / days.len() as f64;
        swings_k[days].iter_mut().for_each(|swing_k| *swing_k *= known_k / mean_k);
    }
    swings_k
}

/// The daily swing's shape: mean 0, some 1 from coldest to warmest.
fn swing_shape(solar_time_h: f64) -> f64 {
    // The relation counts whole hours from 1; the middle of the first hour is half past midnight.
    let t = std::f64::consts::TAU * (solar_time_h - 0.5) / 24.0;
    0.4632 * (t - 3.805).cos()
        + 0.0984 * (2.0 * t - 0.360).cos()
        + 0.0168 * (3.0 * t - 0.822).cos()
        + 0.0138 * (4.0 * t - 3.513).cos()
}

/// A value a day: straight lines through mid-months, whose knots are set so that every month's mean
/// stays (lines through the means themselves lower summers and raise winters).
fn smooth_curve(means: &[f64; 12]) -> Vec<f64> {
    let mut knots = *means;
    for _ in 0..60 {
        let curve = joined(&knots);
        for (month, knot) in knots.iter_mut().enumerate() {
            let days = MONTH_STARTS_DAY[month]..MONTH_STARTS_DAY[month + 1];
            let mean = curve[days.clone()].iter().sum::<f64>() / days.len() as f64;
            *knot += means[month] - mean;
        }
    }
    joined(&knots)
}

fn joined(knots: &[f64; 12]) -> Vec<f64> {
    let middle =
        |month: usize| 0.5 * (MONTH_STARTS_DAY[month] + MONTH_STARTS_DAY[month + 1]) as f64;
    (0..DAYS)
        .map(|day| {
            let at = day as f64 + 0.5;
            let month = month_of_day(day);
            let (before, after) = if at < middle(month) {
                ((month + 11) % 12, month)
            } else {
                (month, (month + 1) % 12)
            };
            let year = DAYS as f64;
            let span = (middle(after) - middle(before)).rem_euclid(year);
            let share = (at - middle(before)).rem_euclid(year) / span;
            knots[before] + share * (knots[after] - knots[before])
        })
        .collect()
}

/// Cold and warm spells: each day's departure from the time of year \[K\].
fn spells(spread_k: f64, seed: u32) -> Vec<f64> {
    let mut lot = Stream::Air.lot(seed, 0);
    let fresh_k = spread_k * (1.0 - SPELL_KEPT * SPELL_KEPT).sqrt();
    let mut spell_k = spread_k * lot.normal();
    (0..DAYS)
        .map(|_| {
            spell_k = SPELL_KEPT * spell_k + fresh_k * lot.normal();
            spell_k
        })
        .collect()
}

/// Moves each month to its mean, along a curve as smooth as the means' own: whole months moved by
/// themselves would step at their seams.
fn keep_months(hours: &mut [f64], means: &[f64; 12]) {
    let are = monthly_means(hours);
    let missing = smooth_curve(&std::array::from_fn(|month| means[month] - are[month]));
    for (hour, value) in hours.iter_mut().enumerate() {
        *value += missing[hour / 24];
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Given twelve means of air: the joined curve has them (the reason for its knots), and stays within
    /// two kelvin of the means at mid-month.
    #[test]
    fn the_curve_keeps_the_means() {
        let means = [4.3, 4.9, 6.5, 8.9, 11.7, 14.6, 16.6, 16.4, 14.1, 10.6, 7.1, 4.2];
        let curve = smooth_curve(&means);
        for (month, want) in means.into_iter().enumerate() {
            let days = MONTH_STARTS_DAY[month]..MONTH_STARTS_DAY[month + 1];
            let mean = curve[days.clone()].iter().sum::<f64>() / days.len() as f64;
            assert!((mean - want).abs() < 1e-6, "month {month}: {mean} for {want}");
            assert!((curve[days.start + 14] - want).abs() < 2.0);
        }
    }

    /// The swing's shape has no mean over its day; from the fifth to the fifteenth hour it rises by 0.971
    /// of the swing (the printed formula, by hand: 0.525 and -0.446); and it is warmest between 14 and 16
    /// o'clock, as handbooks describe it.
    #[test]
    fn the_swing_swings_about_nothing() {
        let hours: Vec<f64> = (0..240).map(|at| swing_shape(0.1 * f64::from(at))).collect();
        let mean = hours.iter().sum::<f64>() / 240.0;
        let warmest = hours.iter().copied().fold(f64::MIN, f64::max);
        let at = hours.iter().position(|&x| x == warmest).unwrap() as f64 / 10.0;
        assert!(mean.abs() < 1e-9, "{mean}");
        let rise = swing_shape(14.5) - swing_shape(4.5);
        assert!((rise - 0.971).abs() < 0.001, "{rise}");
        assert!((14.0..=16.0).contains(&at), "{at}");
    }
}
