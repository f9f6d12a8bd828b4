//! Clear and dull days: a month's mean clearness spread over its days.

use super::transitions::{CLASSES, Class, STATES};
use super::{Months, Stream, above_by_day};
use crate::chance::Lot;
use crate::climate::MONTH_STARTS_DAY;
use crate::sun::almanac::Almanac;
use crate::sun::error::SunError;

/// Daily clearness of one month from its mean, which it keeps exactly.
///
/// Of the library's ten matrices the one for the month's mean leads from yesterday's state to today's;
/// inside a state clearness is even. What the month so drawn misses its mean by is then made good by one
/// exponent `c` for all its days, `u -> u^c`, `u` the place between the class's lowest and highest day.
///
/// * `mean`: the month's light over that above the air, 0 to 0.83.
/// * `above_j_m2`: irradiation above the air of each of its days \[J/m2\].
/// * `yesterday`: clearness of the day before; the last day's on return.
/// * `lot`: the numbers drawn.
///
/// Returns a clearness a day; the days' light adds up to the month's.
///
/// # Valid range
/// A mean outside what a class's days can make (0.03 to 0.86) is made by days all alike.
/// # Source
/// Aguiar, Collares-Pereira and Conde 1988, Solar Energy 40(3):269. The exponent is ours: the authors
/// draw again until the mean fits.
/// # Checked
/// Means exactly; persistence and spread against six real years.
pub fn month_of_clearness(
    mean: f64,
    above_j_m2: &[f64],
    yesterday: &mut f64,
    lot: &mut Lot,
) -> Vec<f64> {
    let total_j_m2: f64 = above_j_m2.iter().sum();
    if total_j_m2 <= 0.0 || mean <= 0.0 {
        return vec![0.0; above_j_m2.len()];
    }
    let class = class_of(mean);
    let span = class.highest - class.lowest;
    let drawn: Vec<f64> = above_j_m2
        .iter()
        .map(|_| {
            *yesterday = class.lowest + span * next_place(class, *yesterday, lot);
            (*yesterday - class.lowest) / span
        })
        .collect();
    let days = |exponent: f64| -> Vec<f64> {
        drawn.iter().map(|place| class.lowest + span * place.powf(exponent)).collect()
    };
    let mean_of = |days: &[f64]| {
        days.iter().zip(above_j_m2).map(|(day, above)| day * above).sum::<f64>() / total_j_m2
    };
    let (mut brighter, mut darker): (f64, f64) = (0.02, 50.0);
    let mut days = if (mean_of(&days(darker))..=mean_of(&days(brighter))).contains(&mean) {
        for _ in 0..60 {
            let middle = (brighter * darker).sqrt();
            if mean_of(&days(middle)) < mean { darker = middle } else { brighter = middle }
        }
        days((brighter * darker).sqrt())
    } else {
        vec![mean; above_j_m2.len()]
    };
    // What the halving leaves, spread evenly: the mean is then exact to the last digits.
    let scale = mean / mean_of(&days);
    days.iter_mut().for_each(|day| *day *= scale);
    days
}

fn class_of(mean: f64) -> &'static Class {
    CLASSES.iter().find(|class| mean <= class.highest_mean).unwrap_or(&CLASSES[STATES - 1])
}

/// Where between its lowest and highest day the class's next one lies, 0 to 1.
fn next_place(class: &Class, yesterday: f64, lot: &mut Lot) -> f64 {
    let place = (yesterday - class.lowest) / (class.highest - class.lowest);
    let row = &class.matrix[((place * STATES as f64) as usize).min(STATES - 1)];
    let total: f64 = row.iter().map(|&entry| f64::from(entry)).sum();
    let mut left = lot.even() * total;
    for (state, &entry) in row.iter().enumerate() {
        let entry = f64::from(entry);
        if left < entry {
            return (state as f64 + left / entry) / STATES as f64;
        }
        left -= entry;
    }
    1.0
}

/// Daily clearness of the year; each month begins where the one before ended.
pub(super) fn year_of_clearness(
    months: &Months,
    suns: &[Almanac],
    seed: u32,
) -> Result<Vec<f64>, SunError> {
    let above_j_m2 = above_by_day(months.latitude, suns);
    let mut lot = Stream::Days.lot(seed, 0);
    let means = months.clearness()?;
    let mut yesterday = means[11];
    let mut year = Vec::with_capacity(suns.len());
    for (month, mean) in means.into_iter().enumerate() {
        let days = MONTH_STARTS_DAY[month]..MONTH_STARTS_DAY[month + 1];
        year.extend(month_of_clearness(mean, &above_j_m2[days], &mut yesterday, &mut lot));
    }
    Ok(year)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Given means from the darkest month to the clearest and days of uneven length: the days' light is
    /// the month's to the last digits, and every day lies between nothing and the clearest on earth.
    #[test]
    fn a_month_keeps_its_mean() {
        let above: Vec<f64> = (0..30).map(|day| 10e6 + 0.3e6 * f64::from(day)).collect();
        let total: f64 = above.iter().sum();
        let mut lot = Lot::of(4, 4);
        let mut yesterday = 0.5;
        for percent in [2, 4, 10, 25, 40, 55, 70, 80] {
            let mean = f64::from(percent) / 100.0;
            let days = month_of_clearness(mean, &above, &mut yesterday, &mut lot);
            let light: f64 = days.iter().zip(&above).map(|(day, above)| day * above).sum();
            assert!((light / total / mean - 1.0).abs() < 1e-12, "{mean}: {}", light / total);
            assert!(days.iter().all(|day| (0.0..0.9).contains(day)), "{mean}: {days:?}");
        }
    }

    /// A month without light above the air has none below it, and one whose mean is nothing neither.
    #[test]
    fn polar_night_is_dark() {
        let mut yesterday = 0.5;
        let unlit = month_of_clearness(0.0, &[1e7; 31], &mut yesterday, &mut Lot::of(1, 1));
        assert_eq!(unlit, [0.0; 31]);
        let days = month_of_clearness(0.3, &[0.0; 31], &mut yesterday, &mut Lot::of(1, 1));
        assert_eq!(days, [0.0; 31]);
    }
}
