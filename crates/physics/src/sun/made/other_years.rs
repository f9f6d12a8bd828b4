//! Other years of a place: brighter and duller, warmer and colder than its typical one.

use super::hours::HourAbove;
use super::{HIGHEST_CLEARNESS, Months, Stream, suns};
use crate::Climate;
use crate::climate::{HOURS_PER_YEAR, Stamp, month_of_day, monthly_means};
use crate::sun::error::SunError;
use crate::sun::split::diffuse_share_erbs_1982;

/// How a year departs from the typical one, January first.
#[derive(Clone, Debug, PartialEq)]
pub struct Departure {
    /// Each month's light over that of the typical year.
    pub light_share: [f64; 12],
    /// Each month's air above the typical year's \[K\]; negative for a colder one.
    pub warmer_k: [f64; 12],
}

/// Spread of a month's light from year to year, of a month whose sky is always clouded. With the rule
/// below a year's sum spreads by 1.5 to 4.5 %, least in bright climates; Ineichen (2011, 30 stations, 10 to
/// 30 years each) found 2 to 6 %. The monthly figure itself is a judgement.
const DULLEST_SPREAD: f64 = 0.25;

/// A month so clear every year has nothing left to vary.
const CLEAREST: f64 = 0.85;

/// Draws how a year departs.
///
/// Light: months by themselves, normal, spread `0.25 (1 - K/0.85)` of their mean, `K` the month's
/// clearness. Air: spread `1.45 - 0.029 Ta + 0.0664 s`, `Ta` the month's air in C and `s` the spread of
/// the twelve monthly means.
///
/// * `months`: what the place has by the month.
/// * `year`: which year; the same number, the same departure.
///
/// # Source
/// Air: Erbs, Klein and Beckman 1983 (from memory). Light: judgement, see above.
/// # Checked
/// The spread of a year's light, against Ineichen's 2 to 6 %.
/// # Errors
/// A place that is not on the globe.
pub fn departure(months: &Months, year: u32) -> Result<Departure, SunError> {
    let clearness = months.clearness()?;
    let mean_k = months.air_k.iter().sum::<f64>() / 12.0;
    let yearly_k =
        (months.air_k.iter().map(|air_k| (air_k - mean_k).powi(2)).sum::<f64>() / 12.0).sqrt();
    let mut lot = Stream::Years.lot(year, 0);
    let light_share = clearness.map(|clearness| {
        let spread = DULLEST_SPREAD * (1.0 - clearness / CLEAREST).max(0.0);
        // Held to what a month can be: neither dark nor clearer than any.
        let most = if clearness > 0.0 { HIGHEST_CLEARNESS / clearness } else { 1.0 };
        (1.0 + spread * lot.normal()).clamp(0.3, most.max(0.3))
    });
    let warmer_k = months.air_k.map(|air_k| {
        let air_c = air_k - crate::ZERO_CELSIUS_K;
        (1.45 - 0.029 * air_c + 0.0664 * yearly_k).max(0.5) * lot.normal()
    });
    Ok(Departure { light_share, warmer_k })
}

/// Departures that stand for a place's years: as many as wanted, evenly through the spread of a year's
/// light.
///
/// Ten times as many years are drawn and ranked by their light; the middle one of each ten is taken.
///
/// * `count`: how many, 1 or more.
/// * `seed`: which are drawn.
///
/// # Errors
/// As [`departure`].
pub fn years_of(months: &Months, count: u32, seed: u32) -> Result<Vec<Departure>, SunError> {
    const DRAWN_FOR_ONE: u32 = 10;
    let mut drawn = (0..DRAWN_FOR_ONE * count)
        .map(|year| departure(months, seed.wrapping_mul(1_000_003).wrapping_add(year)))
        .collect::<Result<Vec<_>, _>>()?;
    let light = |departure: &Departure| -> f64 {
        departure.light_share.iter().zip(months.daily_j_m2).map(|(share, day)| share * day).sum()
    };
    drawn.sort_by(|one, other| light(one).total_cmp(&light(other)));
    Ok(drawn.into_iter().skip(DRAWN_FOR_ONE as usize / 2).step_by(DRAWN_FOR_ONE as usize).collect())
}

impl Months {
    /// The same place in another year.
    pub fn departed(&self, departure: &Departure) -> Months {
        let mut months = self.clone();
        for month in 0..12 {
            months.daily_j_m2[month] *= departure.light_share[month];
            months.air_k[month] += departure.warmer_k[month];
        }
        months
    }
}

/// A year of hours in another year: each month's clearness is bent to the wanted light, what is diffuse
/// moves with it, air and dew point are moved, the sky's warmth goes with the air.
///
/// `k -> k_top (k/k_top)^c`, one `c` a month; diffuse share plus the change that Erbs and others 1982 give.
///
/// # Errors
/// A place that is not on the globe.
pub fn other_year(climate: &Climate, departure: &Departure) -> Result<Climate, SunError> {
    let hours = hours_above(climate)?;
    let mut other = climate.clone();
    for month in 0..12 {
        bend_month(&mut other, &hours, month, departure.light_share[month]);
    }
    for hour in 0..HOURS_PER_YEAR {
        let warmer_k = departure.warmer_k[month_of_day(hour / 24)];
        if let Some(infrared) = &mut other.sky_infrared_w_m2 {
            infrared[hour] *= (1.0 + warmer_k / climate.air_k[hour]).powi(4);
        }
        other.air_k[hour] += warmer_k;
        other.dew_point_k[hour] += warmer_k;
    }
    Ok(other)
}

/// Clearness of the brightest hours: cloud edges lift an hour no higher.
const TOP: f64 = 0.9;

/// An hour with less above the air is too low to be bent by its clearness \[W/m2\].
const LOW_W_M2: f64 = 30.0;

fn bend_month(climate: &mut Climate, hours: &[HourAbove], month: usize, wanted: f64) {
    let rows: Vec<usize> =
        (0..HOURS_PER_YEAR).filter(|hour| month_of_day(hour / 24) == month).collect();
    let before: f64 = rows.iter().map(|&row| climate.global_w_m2[row]).sum();
    if before <= 0.0 {
        return;
    }
    let bent = |row: usize, exponent: f64| -> f64 {
        let (global, above) = (climate.global_w_m2[row], hours[row].level_w_m2);
        let clearness = global / above;
        if above < LOW_W_M2 || clearness >= TOP {
            return global;
        }
        above * TOP * (clearness / TOP).powf(exponent)
    };
    let light = |exponent: f64| rows.iter().map(|&row| bent(row, exponent)).sum::<f64>() / before;
    let (mut brighter, mut darker): (f64, f64) = (0.05, 20.0);
    for _ in 0..40 {
        let middle = (brighter * darker).sqrt();
        if light(middle) < wanted { darker = middle } else { brighter = middle }
    }
    let exponent = (brighter * darker).sqrt();
    let bent: Vec<f64> = rows.iter().map(|&row| bent(row, exponent)).collect();
    for (&row, global) in rows.iter().zip(bent) {
        put_global(climate, &hours[row], row, global);
    }
}

/// Puts another global irradiance into a row, its diffuse share moved by the change of clearness.
fn put_global(climate: &mut Climate, above: &HourAbove, row: usize, global_w_m2: f64) {
    let was_w_m2 = climate.global_w_m2[row];
    if was_w_m2 <= 0.0 || above.level_w_m2 <= 0.0 {
        return;
    }
    let share = climate.diffuse_w_m2[row] / was_w_m2;
    let clearness = |global: f64| diffuse_share_erbs_1982(global / above.level_w_m2);
    let moved = clearness(global_w_m2) - clearness(was_w_m2);
    let diffuse_w_m2 = global_w_m2 * (share + moved).clamp(0.05, 1.0);
    let (beam_was, beam_is) = (was_w_m2 - climate.diffuse_w_m2[row], global_w_m2 - diffuse_w_m2);
    climate.beam_normal_w_m2[row] = if beam_was > 1.0 {
        (climate.beam_normal_w_m2[row] * beam_is / beam_was).clamp(0.0, above.facing_w_m2)
    } else {
        above.beam_facing_w_m2(beam_is.max(0.0))
    };
    climate.global_w_m2[row] = global_w_m2;
    climate.diffuse_w_m2[row] = diffuse_w_m2;
}

/// What each row of a climate would have above the air: the mean of its hour, or of the hour about its
/// instant.
fn hours_above(climate: &Climate) -> Result<Vec<HourAbove>, SunError> {
    let months = Months::of(climate);
    let begins_h = match climate.stamp {
        Stamp::HourMean => 0.0,
        Stamp::Instant { offset_h } => offset_h - 0.5,
    };
    Ok(suns(climate.longitude)?
        .iter()
        .flat_map(|sun| HourAbove::of_day(&months, sun, climate.clock_ahead_h - begins_h))
        .collect())
}

impl Months {
    /// The monthly means of a year of hours.
    pub fn of(climate: &Climate) -> Months {
        let light_w_m2 = monthly_means(&climate.global_w_m2);
        Months {
            origin: climate.origin.clone(),
            latitude: climate.latitude,
            longitude: climate.longitude,
            elevation_m: climate.elevation_m,
            daily_j_m2: light_w_m2.map(|w_m2| w_m2 * 86_400.0),
            air_k: monthly_means(&climate.air_k),
            swing_k: None,
            wind_m_s: monthly_means(&climate.wind_m_s),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Angle;

    /// Monthly means of a dull and of a bright place (UK average of SAP 2012; a desert at 33 N).
    fn places() -> [Months; 2] {
        let place = |latitude_deg: f64, w_m2: [f64; 12], air_c: [f64; 12]| Months {
            origin: String::new(),
            latitude: Angle::from_degrees(latitude_deg),
            longitude: Angle::ZERO,
            elevation_m: None,
            daily_j_m2: w_m2.map(|w_m2| w_m2 * 86_400.0),
            air_k: air_c.map(|air_c| air_c + crate::ZERO_CELSIUS_K),
            swing_k: None,
            wind_m_s: [4.0; 12],
        };
        [
            place(
                53.5,
                [26., 54., 96., 150., 192., 200., 189., 157., 115., 66., 33., 21.],
                [4.3, 4.9, 6.5, 8.9, 11.7, 14.6, 16.6, 16.4, 14.1, 10.6, 7.1, 4.2],
            ),
            place(
                33.4,
                [130., 168., 226., 288., 328., 342., 312., 288., 255., 200., 150., 122.],
                [13., 15., 18., 22., 27., 32., 34., 34., 31., 24., 17., 12.],
            ),
        ]
    }

    /// Given 400 years of two places: a year's light spreads by 2 to 6 % of its mean in the dull place and by
    /// 1 to 3 % in the bright one, less than in the dull one (Ineichen 2011: 30 stations, 10 to 30 years; from
    /// memory), about the typical year's, within a quarter of that.
    #[test]
    fn years_spread_as_stations_found() {
        let spreads = places().map(|months| {
            let typical: f64 = months.daily_j_m2.iter().sum();
            let shares: Vec<f64> = (0..400)
                .map(|year| {
                    let departed = months.departed(&departure(&months, year).unwrap());
                    departed.daily_j_m2.iter().sum::<f64>() / typical - 1.0
                })
                .collect();
            let mean = shares.iter().sum::<f64>() / 400.0;
            let spread = (shares.iter().map(|x| (x - mean).powi(2)).sum::<f64>() / 400.0).sqrt();
            assert!(mean.abs() < 0.25 * spread, "{mean} of {spread}");
            spread
        });
        assert!((0.02..0.06).contains(&spreads[0]), "{spreads:?}");
        assert!((0.01..0.03).contains(&spreads[1]), "{spreads:?}");
        assert!(spreads[1] < spreads[0]);
    }

    /// Years that stand for a place come in the order of their light, as many as asked for, the same for the
    /// same seed.
    #[test]
    fn years_stand_in_order() {
        let [months, _] = places();
        let years = years_of(&months, 24, 5).unwrap();
        assert_eq!(years.len(), 24);
        let light = |year: &Departure| months.departed(year).daily_j_m2.iter().sum::<f64>();
        assert!(years.iter().map(light).is_sorted());
        assert_eq!(years, years_of(&months, 24, 5).unwrap());
    }

    /// Given a made year bent to another: each month has the wanted light (0.5 %, what its low hours and its
    /// brightest, which are not bent, leave) and the wanted air, to rounding; no hour is darker than nothing
    /// or brighter than the sun; diffuse is no more than all.
    #[test]
    fn a_year_is_bent_to_the_wanted_months() {
        for months in places() {
            let climate = super::super::made_year(&months, 3).unwrap();
            let departure = departure(&months, 11).unwrap();
            let other = other_year(&climate, &departure).unwrap();
            let (was, is) = (Months::of(&climate), Months::of(&other));
            for month in 0..12 {
                let share = is.daily_j_m2[month] / was.daily_j_m2[month];
                let want = departure.light_share[month];
                assert!((share - want).abs() < 0.005, "month {month}: {share} for {want}");
                let warmer_k = is.air_k[month] - was.air_k[month];
                assert!((warmer_k - departure.warmer_k[month]).abs() < 1e-9);
            }
            for hour in 0..HOURS_PER_YEAR {
                let (global, diffuse) = (other.global_w_m2[hour], other.diffuse_w_m2[hour]);
                assert!((0.0..1400.0).contains(&global) && diffuse <= global + 1e-9);
                assert!((0.0..=1420.0).contains(&other.beam_normal_w_m2[hour]));
            }
        }
    }
}
