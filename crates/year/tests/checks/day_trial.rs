//! The daily form of ISO 9459-2, fitted to days that the engine marches: a cistern full of cold water at
//! dawn, nothing drawn while the sun shines, all of it drawn in the evening.

use year::forcing::{DrawMinute, HourForcing};
use year::{Forcing, Plant, Recorder, Upset, march_days};

use crate::houses::{House, sample};
use crate::page::{Row, holds};
use crate::support::thermal;

const MINUTES_PER_DAY: usize = 1440;
/// Minutes from six hours before the sun's noon to six hours after.
const SUNLIT_MIN: usize = 720;
/// Rate of the evening's draw \[m3 each minute\]: ten litres, as the standard draws (from memory).
const DRAW_M3: f64 = 0.010;
/// Volumes drawn in the evening, as the standard draws (from memory).
const DRAWN_VOLUMES: f64 = 3.0;
/// Sun of the days that the standard wants \[MJ/m2\] (from memory; the note of UK-12).
const SUN_MJ_M2: std::ops::RangeInclusive<f64> = 8.0..=25.0;

/// What a day of the trial gives.
#[derive(Clone, Copy, Debug)]
struct Day {
    sun_mj_m2: f64,
    air_over_mains_k: f64,
    /// Mean of the sun's brightness over the day's light, not over its time \[kW/m2\].
    brightness_kw_m2: f64,
    heat_mj: f64,
}

impl Day {
    /// What stands beside a1, a2 and a3 in `Q = a1 H + a2 (air - mains) + a3`.
    fn known(&self) -> [f64; 3] {
        [self.sun_mj_m2, self.air_over_mains_k, 1.0]
    }

    /// The same, and how bright the sun was.
    fn known_with_brightness(&self) -> [f64; 4] {
        let [sun_mj_m2, air_over_mains_k, one] = self.known();
        [sun_mj_m2, air_over_mains_k, one, self.brightness_kw_m2]
    }
}

/// UK-12: six made-up days give back the three coefficients they were made with.
#[test]
fn uk_12_the_fit_gives_back_what_it_was_made_with() {
    let case = thermal("UK-12");
    let [sun, air, heat] =
        ["h_mj_m2", "ta_minus_tmain_k", "q_mj"].map(|name| case.given_list(name));
    let days: Vec<Day> = (0..heat.len())
        .map(|at| Day {
            sun_mj_m2: sun[at],
            air_over_mains_k: air[at],
            brightness_kw_m2: f64::NAN,
            heat_mj: heat[at],
        })
        .collect();
    let [a1_m2, a2_mj_k, a3_mj] = fitted(&days, Day::known);
    case.check("a1_m2", a1_m2);
    case.check("a2_mj_k", a2_mj_k);
    case.check("a3_mj", a3_mj);
}

/// Given every day of the year with the sun that the standard wants: the line through them, its scatter,
/// the scatter that is left once the sun's brightness is known too, and what the line makes of all the
/// year's days, held as the page tells it. By the first law a1 lies under the panel's area times the
/// share of the light that it takes up; air warmer than the mains must help.
#[test]
fn days_lie_along_a_line() {
    let rows =
        ["first-panel", "pair-better-back", "radiator-pair", "bought-selective"].map(|name| {
            let house = sample(&format!("{name}.toml"));
            let forcing = house.forcing();
            let year = days(&house, &forcing);
            let wanted: Vec<Day> =
                year.iter().copied().filter(|day| SUN_MJ_M2.contains(&day.sun_mj_m2)).collect();
            let line = fitted(&wanted, Day::known);
            let bright = fitted(&wanted, Day::known_with_brightness);
            let area_m2 = house.build.panel.area_m2();
            let absorbed: f64 =
                forcing.light.absorbed_w_m2.iter().map(|&flux| f64::from(flux) / 60_000.0).sum();
            let taken = absorbed / forcing.light.plane_kwh_m2.iter().sum::<f64>();
            let [a1_m2, a2_mj_k, a3_mj] = line;
            assert!(a1_m2 > 0.0 && a1_m2 < area_m2 * taken, "{name}: {line:?}, {taken}");
            assert!(a2_mj_k > 0.0, "{name}: {line:?}");
            let sum_mj = |of: &dyn Fn(&Day) -> f64| year.iter().map(of).sum::<f64>();
            let by_line_mj = sum_mj(&|day| dot(line, day.known()).max(0.0));
            let figures = [
                area_m2,
                wanted.len() as f64,
                a1_m2,
                a2_mj_k,
                a3_mj,
                wanted.iter().map(|day| day.heat_mj).sum::<f64>() / wanted.len() as f64,
                scatter_mj(&wanted, |day| dot(line, day.known())),
                scatter_mj(&wanted, |day| dot(bright, day.known_with_brightness())),
                100.0 * (by_line_mj / sum_mj(&|day| day.heat_mj) - 1.0),
            ];
            Row::of(name, &figures)
        });
    holds("Days of a year along one line", &rows);
}

/// Root of the mean square of what a prediction misses.
fn scatter_mj(days: &[Day], predicted_mj: impl Fn(&Day) -> f64) -> f64 {
    let squares = days.iter().map(|day| (day.heat_mj - predicted_mj(day)).powi(2));
    (squares.sum::<f64>() / days.len() as f64).sqrt()
}

fn dot<const N: usize>(factors: [f64; N], known: [f64; N]) -> f64 {
    factors.iter().zip(known).map(|(factor, known)| factor * known).sum()
}

/// Least squares: the factors with which what is known of the days comes nearest to their heat, by the
/// normal equations, eliminated.
fn fitted<const N: usize>(days: &[Day], known: impl Fn(&Day) -> [f64; N]) -> [f64; N] {
    let (mut left, mut right) = ([[0.0; N]; N], [0.0; N]);
    for day in days {
        let known = known(day);
        for row in 0..N {
            right[row] += known[row] * day.heat_mj;
            for column in 0..N {
                left[row][column] += known[row] * known[column];
            }
        }
    }
    for pivot in 0..N {
        let equation = left[pivot];
        for other in (0..N).filter(|other| *other != pivot) {
            let factor = left[other][pivot] / equation[pivot];
            for column in 0..N {
                left[other][column] -= factor * equation[column];
            }
            right[other] -= factor * right[pivot];
        }
    }
    std::array::from_fn(|place| right[place] / left[place][place])
}

/// The trial on every day of the year.
fn days(house: &House, forcing: &Forcing) -> Vec<Day> {
    let plant = Plant::compile(&house.build).expect("the samples compile");
    let place = &house.build.sun.place;
    let noon_h = 12.0 - (place.longitude.degrees() / 15.0 - place.clock_ahead_h);
    // Hours of weather stay whole: the day begins at the full hour nearest to six before noon.
    let dawn_h = (noon_h - 6.0).round() as usize;
    (0..365).map(|day| trial(house, &plant, forcing, 24 * day + dawn_h)).collect()
}

/// One day's trial, from an hour of the year on.
fn trial(house: &House, plant: &Plant, forcing: &Forcing, first_hour: usize) -> Day {
    let mut forcing = begun_at(forcing, first_hour);
    let volume_m3 = house.build.store.volume_m3;
    // Before dawn ten volumes of mains water make the store cold throughout; the run-in ends with them.
    let last_hour = year::MINUTES_PER_YEAR - 60..year::MINUTES_PER_YEAR;
    let cold = last_hour.map(|minute| (minute, 10.0 * volume_m3 / 60.0));
    let minutes = (DRAWN_VOLUMES * volume_m3 / DRAW_M3).ceil() as usize;
    let evening = (SUNLIT_MIN..SUNLIT_MIN + minutes)
        .map(|minute| (minute, DRAWN_VOLUMES * volume_m3 / minutes as f64));
    forcing.draws = evening
        .chain(cold)
        .map(|(minute, volume_m3)| DrawMinute { minute: minute as u32, volume_m3 })
        .collect();
    forcing.feeds.clear();
    // In the evening the panels are covered.
    forcing.light.absorbed_w_m2[SUNLIT_MIN..MINUTES_PER_DAY].fill(0.0);
    let marched = march_days(plant, &forcing, &Upset::none(), &mut Recorder::none(), 1)
        .expect("the samples compute");
    let hours = &forcing.hours[..SUNLIT_MIN / 60];
    let mean_k =
        |of: fn(&HourForcing) -> f64| hours.iter().map(of).sum::<f64>() / hours.len() as f64;
    let light = forcing.light.plane_w_m2[..SUNLIT_MIN / 60].iter().map(|&flux| f64::from(flux));
    let sum_w_m2: f64 = light.clone().sum();
    let squares: f64 = light.map(|flux_w_m2| flux_w_m2.powi(2)).sum();
    Day {
        sun_mj_m2: sum_w_m2 * 3600.0 / 1e6,
        air_over_mains_k: mean_k(|hour| hour.air_k) - mean_k(|hour| hour.mains_k),
        brightness_kw_m2: squares / sum_w_m2.max(f64::MIN_POSITIVE) / 1000.0,
        heat_mj: marched.tallies[0].tap_heat_j / 1e6,
    }
}

/// A year that begins at another hour.
fn begun_at(forcing: &Forcing, hour: usize) -> Forcing {
    let mut forcing = forcing.clone();
    let hour = hour % forcing.hours.len();
    forcing.light.absorbed_w_m2.rotate_left(hour * 60);
    forcing.light.plane_w_m2.rotate_left(hour);
    forcing.hours.rotate_left(hour);
    forcing
}
