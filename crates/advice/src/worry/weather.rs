//! Spells of bad weather: days of the year's own, made as hot or as cold as the place is reckoned to be.

use std::ops::Range;

use physics::climate::HOURS_PER_YEAR;
use physics::panel::stagnation::STILL_WIND_FILM_W_M2_K;
use physics::store::cistern::loft_k;
use physics::sun::sky_swinbank_1963;
use year::{Forcing, YearError};

use super::case::Case;
use crate::AdviceError;

/// Days of a year, and what is imposed in them.
pub struct Spell {
    /// The days, within 0 to 365.
    pub days: Range<usize>,
    /// The whole year's forcing, those days changed.
    pub forcing: Forcing,
}

const DAYS_PER_YEAR: usize = HOURS_PER_YEAR / 24;

/// The brightest day on the panel, with the hottest air the place is reckoned with, no wind, and a sky
/// as warm as the air; the day after it is the same year's own, in the same air.
///
/// `days`: how many, 1 or 2.
pub fn extreme_day(case: &Case, days: usize) -> Spell {
    let forcing = &case.year.forcing;
    let light_of = |day: usize| -> f64 {
        let minutes = &forcing.light.absorbed_w_m2[day * 1440..(day + 1) * 1440];
        minutes.iter().map(|&flux| f64::from(flux)).sum()
    };
    let last = DAYS_PER_YEAR - days;
    let brightest = (0..=last).max_by(|&one, &other| light_of(one).total_cmp(&light_of(other)));
    let first = brightest.unwrap_or(0);
    let days = first..first + days;
    let mut forcing = forcing.clone();
    let hottest_k = case.year.build.sun.extremes.hottest_spell.air_k;
    warm_to(case, &mut forcing, days.clone(), hottest_k);
    for hour in &mut forcing.hours[hours(&days)] {
        hour.sky_k = hour.air_k;
        hour.wind_film_w_m2_k = STILL_WIND_FILM_W_M2_K;
    }
    Spell { days, forcing }
}

/// The days in a row with the most light on the panel, as the year has them.
pub fn bright_days(case: &Case, days: usize) -> Range<usize> {
    let light = &case.year.forcing.light.absorbed_w_m2;
    let daily: Vec<f64> = light
        .chunks(1440)
        .map(|minutes| minutes.iter().map(|&flux| f64::from(flux)).sum())
        .collect();
    let sum = |first: usize| daily[first..first + days].iter().sum::<f64>();
    let first = (0..=DAYS_PER_YEAR - days)
        .max_by(|&one, &other| sum(one).total_cmp(&sum(other)))
        .unwrap_or(0);
    first..first + days
}

/// The coldest night of the year with the day before it, made as cold as the place is reckoned to get,
/// under a clear sky and without wind.
///
/// # Errors
/// Air colder than the relation of the sky covers.
pub fn design_night(case: &Case) -> Result<Spell, AdviceError> {
    let forcing = &case.year.forcing;
    let coldest = (0..HOURS_PER_YEAR)
        .min_by(|&one, &other| forcing.hours[one].air_k.total_cmp(&forcing.hours[other].air_k));
    // Two days: the night as a rule begins on the one and ends on the other.
    let first = (coldest.unwrap_or(0) / 24).saturating_sub(1).min(DAYS_PER_YEAR - 2);
    let days = first..first + 2;
    let mut forcing = forcing.clone();
    let coldest_k = case.year.build.sun.extremes.coldest_night.air_k;
    cool_to(case, &mut forcing, days.clone(), coldest_k);
    for hour in &mut forcing.hours[hours(&days)] {
        hour.sky_k = sky_swinbank_1963(hour.air_k)
            .map_err(|error| YearError::Weather(error.to_string()))?
            .min(hour.air_k);
        hour.wind_film_w_m2_k = STILL_WIND_FILM_W_M2_K;
    }
    Ok(Spell { days, forcing })
}

/// Hours of some days.
pub fn hours(days: &Range<usize>) -> Range<usize> {
    24 * days.start..24 * days.end
}

/// Minutes of some days.
pub fn minutes(days: &Range<usize>) -> Range<usize> {
    1440 * days.start..1440 * days.end
}

fn warm_to(case: &Case, forcing: &mut Forcing, days: Range<usize>, hottest_k: f64) {
    let own_k = air_k(forcing, &days).fold(f64::NEG_INFINITY, f64::max);
    shift(case, forcing, days, (hottest_k - own_k).max(0.0));
}

fn cool_to(case: &Case, forcing: &mut Forcing, days: Range<usize>, coldest_k: f64) {
    let own_k = air_k(forcing, &days).fold(f64::INFINITY, f64::min);
    shift(case, forcing, days, (coldest_k - own_k).min(0.0));
}

fn air_k(forcing: &Forcing, days: &Range<usize>) -> impl Iterator<Item = f64> {
    forcing.hours[hours(days)].iter().map(|hour| hour.air_k)
}

/// Makes the air of some days warmer or cooler, and the loft with it.
fn shift(case: &Case, forcing: &mut Forcing, days: Range<usize>, by_k: f64) {
    let loft = &case.year.build.store.loft;
    for hour in hours(&days) {
        let plane_w_m2 = f64::from(forcing.light.plane_w_m2[hour]);
        let now = &mut forcing.hours[hour];
        now.air_k += by_k;
        now.dew_point_k = now.dew_point_k.min(now.air_k);
        now.loft_k = loft_k(loft, now.air_k, plane_w_m2);
    }
}
