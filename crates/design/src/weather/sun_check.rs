//! Whether a file's light agrees with the sun of the place and the hours it states.

use physics::Climate;
use physics::climate::{HOURS_PER_YEAR, MONTH_STARTS_DAY, Stamp};
use physics::sun::{DiurnalCosine, Instant, almanac, hour_angle};

use super::report::{Report, Told};

/// Light with the sun well below the horizon, as a share of the year's: above the first the file is
/// doubtful, above the second its stamps or its place are wrong. Sound files stay below 0.1 %.
const DOUBTFUL_NIGHT_SHARE: f64 = 0.01;
const WRONG_NIGHT_SHARE: f64 = 0.05;

/// Cosine of the zenith angle three degrees below the horizon: less is no twilight.
const NIGHT_COS_ZENITH: f64 = -0.052;

/// How far the best-fitting stamp may stand from the assumed one \[h\].
const STAMP_MARGIN_H: f64 = 0.3;

/// Latitude from which summer and winter tell the hemispheres apart \[deg\].
const SEASONS_FROM_DEG: f64 = 20.0;

pub(super) fn compare_with_sun(climate: &Climate, report: &mut Report) {
    compare_sums(climate, report);
    compare_dew(climate, report);
    compare_seasons(climate, report);
    if report.has_fault() {
        return;
    }
    let Some(hours) = Hour::all(climate) else { return };
    compare_nights(climate, &hours, report);
    if !report.has_fault() {
        compare_columns(climate, &hours, report);
        compare_stamps(climate, &hours, report);
    }
}

/// A year on the level brings 500 (the high Arctic, the cloudiest coasts) to 2500 kWh/m2 (the high
/// deserts of Chile); beyond these with room to spare the column is in another unit, or another
/// column. Common practice.
const YEAR_KWH_M2: std::ops::RangeInclusive<f64> = 350.0..=2800.0;

fn compare_sums(climate: &Climate, report: &mut Report) {
    let year_kwh_m2 = climate.global_w_m2.iter().sum::<f64>() / 1000.0;
    if YEAR_KWH_M2.contains(&year_kwh_m2) {
        return;
    }
    let (least, most) = (YEAR_KWH_M2.start(), YEAR_KWH_M2.end());
    report.fault(Told {
        code: "weather-light-sum",
        line: 1,
        found: format!("{year_kwh_m2:.0} kWh/m2 a year on the level"),
        expected: format!("{least:.0} to {most:.0} kWh/m2"),
        says: "No place on earth gets so much or so little light in a year.".to_owned(),
        hint: "The light may be in kW/m2 or in another unit, or stand in another column."
            .to_owned(),
    });
}

/// Hours in which the dew point may stand above the air by rounding and by haste of instruments.
const DEW_ABOVE_SHARE: f64 = 0.02;

fn compare_dew(climate: &Climate, report: &mut Report) {
    let above =
        climate.air_k.iter().zip(&climate.dew_point_k).filter(|(air, dew)| **dew > **air + 1.0);
    let share = above.count() as f64 / HOURS_PER_YEAR as f64;
    if share > DEW_ABOVE_SHARE {
        report.warning(Told {
            code: "weather-dew-above-air",
            line: 1,
            found: format!("{:.0} % of the hours", share * 100.0),
            expected: "a dew point no higher than the air".to_owned(),
            says: "The dew point stands above the air.".to_owned(),
            hint: "The two columns may be exchanged.".to_owned(),
        });
    }
}

/// How far global may part from diffuse and beam, as a share of the year's global. Measured on the six
/// sample files: 0.17, 0.22, 0.24, 0.24 (PVGIS), 0.52 and 0.14 % (TMY3 and its EPW), all of it
/// rounding and the hour's curve; two columns exchanged part by tens of parts in a hundred.
const COLUMNS_SHARE: f64 = 0.1;

/// Global must be diffuse and the beam's part on the level, whatever the sky.
fn compare_columns(climate: &Climate, hours: &[Hour], report: &mut Report) {
    let share = columns_apart(climate, hours);
    if share > COLUMNS_SHARE {
        report.warning(Told {
            code: "weather-columns-disagree",
            line: 1,
            found: format!("global {:.0} % apart from diffuse and beam", share * 100.0),
            expected: format!("less than {:.0} %", COLUMNS_SHARE * 100.0),
            says: "Global light is not what diffuse light and beam make together.".to_owned(),
            hint: "Two columns of light may be exchanged, or a stamp or the place be wrong."
                .to_owned(),
        });
    }
}

/// Global less diffuse and beam on the level, signs left out, over the year's global.
fn columns_apart(climate: &Climate, hours: &[Hour]) -> f64 {
    /// Closer to the horizon a quarter of an hour decides.
    const HIGH_COS_ZENITH: f64 = 0.15;
    let mut apart_w_m2 = 0.0;
    let mut global_w_m2 = 0.0;
    for (row, hour) in hours.iter().enumerate() {
        let cos_zenith = hour.cos_zenith_after(turn(0.0));
        if cos_zenith > HIGH_COS_ZENITH {
            let made_w_m2 = climate.diffuse_w_m2[row] + climate.beam_normal_w_m2[row] * cos_zenith;
            apart_w_m2 += (climate.global_w_m2[row] - made_w_m2).abs();
            global_w_m2 += climate.global_w_m2[row];
        }
    }
    apart_w_m2 / global_w_m2.max(1.0)
}

#[cfg(test)]
pub(super) fn columns_share(climate: &Climate) -> f64 {
    columns_apart(climate, &Hour::all(climate).unwrap_or_default())
}

/// The sun in a row's hour: its zenith cosine through the day, and cosine and sine of the hour angle
/// at the instant or the middle of the hour.
struct Hour {
    zenith: DiurnalCosine,
    cos_w: f64,
    sin_w: f64,
}

impl Hour {
    fn all(climate: &Climate) -> Option<Vec<Hour>> {
        let middle_h = match climate.stamp {
            Stamp::HourMean => 0.5,
            Stamp::Instant { offset_h } => offset_h,
        };
        (0..HOURS_PER_YEAR)
            .map(|row| {
                let hour = row as f64 + middle_h - climate.clock_ahead_h;
                let days = Instant { year: 2021, month: 1, day: 1, hour }.days_since_j2000();
                let slow = almanac(days).ok()?;
                let w = hour_angle(&slow, climate.longitude, days);
                let zenith = DiurnalCosine::zenith(climate.latitude, slow.declination);
                Some(Hour { zenith, cos_w: w.cos(), sin_w: w.sin() })
            })
            .collect()
    }

    /// Cosine of the zenith angle some hours later.
    fn cos_zenith_after(&self, turn: (f64, f64)) -> f64 {
        let (cos_turn, sin_turn) = turn;
        self.zenith.at(
            self.cos_w * cos_turn - self.sin_w * sin_turn,
            self.sin_w * cos_turn + self.cos_w * sin_turn,
        )
    }
}

/// Cosine and sine of the earth's turn in some hours.
fn turn(hours: f64) -> (f64, f64) {
    let angle_rad = hours * std::f64::consts::TAU / 24.0;
    (angle_rad.cos(), angle_rad.sin())
}

/// Mean of a column over May to July, and over November to January.
fn mid_year_and_turn(column: &[f64]) -> (f64, f64) {
    let month_sum = |month: usize| -> f64 {
        column[MONTH_STARTS_DAY[month] * 24..MONTH_STARTS_DAY[month + 1] * 24].iter().sum()
    };
    // Both are 92 days.
    let hours = 92.0 * 24.0;
    (
        (4..7).map(month_sum).sum::<f64>() / hours,
        [10, 11, 0].map(month_sum).iter().sum::<f64>() / hours,
    )
}

/// Summer must be where the latitude says. In monsoon countries the light of midsummer may fall
/// below winter's, so only light and warmth together are a fault.
fn compare_seasons(climate: &Climate, report: &mut Report) {
    let latitude_deg = climate.latitude.degrees();
    if latitude_deg.abs() <= SEASONS_FROM_DEG {
        return;
    }
    let (light_mid, light_turn) = mid_year_and_turn(&climate.global_w_m2);
    let (air_mid, air_turn) = mid_year_and_turn(&climate.air_k);
    let wrong_way = |mid: f64, turn: f64| if latitude_deg > 0.0 { mid < turn } else { mid > turn };
    let told = Told {
        code: "weather-hemisphere",
        line: 1,
        found: format!(
            "latitude {latitude_deg:.2} deg; May to July {light_mid:.0} W/m2 and {:.1} C, November \
             to January {light_turn:.0} W/m2 and {:.1} C",
            air_mid - physics::ZERO_CELSIUS_K,
            air_turn - physics::ZERO_CELSIUS_K,
        ),
        expected: "summer in May to July north of the equator, in November to January south of it"
            .to_owned(),
        says: "The file's seasons contradict its latitude.".to_owned(),
        hint: "Look at the sign of the latitude; south is negative.".to_owned(),
    };
    match (wrong_way(light_mid, light_turn), wrong_way(air_mid, air_turn)) {
        (true, true) => report.fault(told),
        (true, false) => report.warning(told),
        (false, _) => {}
    }
}

fn compare_nights(climate: &Climate, hours: &[Hour], report: &mut Report) {
    // A mean of an hour holds light if the sun is up at either end.
    let ends = match climate.stamp {
        Stamp::HourMean => [turn(-0.5), turn(0.5)],
        Stamp::Instant { .. } => [turn(0.0), turn(0.0)],
    };
    let mut night_w_m2 = 0.0;
    for (hour, global_w_m2) in hours.iter().zip(&climate.global_w_m2) {
        if ends.iter().all(|&end| hour.cos_zenith_after(end) < NIGHT_COS_ZENITH) {
            night_w_m2 += global_w_m2;
        }
    }
    let share = night_w_m2 / climate.global_w_m2.iter().sum::<f64>().max(1.0);
    if share < DOUBTFUL_NIGHT_SHARE {
        return;
    }
    let told = Told {
        code: "weather-light-at-night",
        line: 1,
        found: format!("{:.1} % of the year's light with the sun below the horizon", share * 100.0),
        expected: format!("less than {:.0} %", DOUBTFUL_NIGHT_SHARE * 100.0),
        says: "The file's light comes at hours when its place has night.".to_owned(),
        hint: "Look at the longitude's sign (east is positive), the clock ahead of UTC, and the stamps."
            .to_owned(),
    };
    if share > WRONG_NIGHT_SHARE { report.fault(told) } else { report.warning(told) }
}

/// Fits `GHI - DHI = DNI cos(zenith)` over shifts of the stamp, and warns where another stamp than
/// the assumed one fits clearly better.
fn compare_stamps(climate: &Climate, hours: &[Hour], report: &mut Report) {
    let Some(shift_h) = best_shift_h(climate, hours) else { return };
    if shift_h.abs() <= STAMP_MARGIN_H {
        return;
    }
    let way = if shift_h > 0.0 { "later" } else { "earlier" };
    report.warning(Told {
        code: "weather-stamp-contradicts-sun",
        line: 1,
        found: format!("beam and diffuse that fit a sun {:.2} h {way}", shift_h.abs()),
        expected: format!("at most {STAMP_MARGIN_H} h from the stamp assumed"),
        says:
            "The light's stamps do not agree with the sun: east and west may be mixed up by them."
                .to_owned(),
        hint: "Look at the longitude, the clock ahead of UTC, and the time offset in the header."
            .to_owned(),
    });
}

/// The shift of the stamp that fits best \[h\], from -2 to 2 by 0.05; none where the beam is too
/// seldom or the file's three columns do not belong together at any shift.
fn best_shift_h(climate: &Climate, hours: &[Hour]) -> Option<f64> {
    /// Fewer sunny hours than a fortnight of them say nothing.
    const LEAST_HOURS: usize = 150;
    let sunny: Vec<(&Hour, f64, f64)> = hours
        .iter()
        .enumerate()
        .filter(|&(row, hour)| {
            climate.beam_normal_w_m2[row] > 100.0 && hour.cos_zenith_after(turn(0.0)) > 0.1
        })
        .map(|(row, hour)| {
            let level_w_m2 = climate.global_w_m2[row] - climate.diffuse_w_m2[row];
            (hour, climate.beam_normal_w_m2[row], level_w_m2)
        })
        .collect();
    if sunny.len() < LEAST_HOURS {
        return None;
    }
    let misfit = |step: i32| -> f64 {
        let turn = turn(f64::from(step) * 0.05);
        let square = |&(hour, beam_w_m2, level_w_m2): &(&Hour, f64, f64)| {
            (level_w_m2 - beam_w_m2 * hour.cos_zenith_after(turn)).powi(2)
        };
        sunny.iter().map(square).sum()
    };
    let best = (-40..=40).map(|step| (misfit(step), step)).min_by(|a, b| a.0.total_cmp(&b.0))?;
    let scale: f64 = sunny.iter().map(|&(_, _, level_w_m2)| level_w_m2.powi(2)).sum();
    // A misfit of a third of the light itself: the columns do not belong together.
    (best.0 < 0.1 * scale).then_some(f64::from(best.1) * 0.05)
}

#[cfg(test)]
pub(super) fn fitted_shift_h(climate: &Climate) -> Option<f64> {
    best_shift_h(climate, &Hour::all(climate)?)
}

/// Irradiation above the air on the level, by day of the year \[Wh/m2\], summed over the rows.
#[cfg(test)]
pub(super) fn day_sums_above_air(climate: &Climate) -> Vec<f64> {
    let hours = Hour::all(climate).unwrap_or_default();
    hours
        .chunks(24)
        .map(|day| {
            day.iter()
                .map(|hour| {
                    physics::sun::SOLAR_CONSTANT_W_M2 * hour.cos_zenith_after(turn(0.0)).max(0.0)
                })
                .sum()
        })
        .collect()
}
