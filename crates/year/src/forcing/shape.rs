//! The light of a weather row, shared out over minutes.

use physics::Climate;
use physics::climate::HOURS_PER_YEAR;

use super::hour_sun::HourSun;

/// Minutes in an hour.
pub(super) const MINUTES: usize = 60;

/// Diffuse light begins before the sun is up: its share of a minute goes with the sun's height above
/// 2.3 degrees under the horizon, the middle of civil twilight's brighter half. Common practice; it
/// moves a few watts in the hours of sunrise and sunset and nothing else.
const TWILIGHT_COS_ZENITH: f64 = 0.04;

/// A clearness reckoned with a lower sun than this (2 degrees) is the quotient of two small numbers;
/// the next one in the same day stands for it. Any value from 0.02 to 0.05 gives the same year within
/// 0.1 %, since the day's sum is kept.
const LOWEST_COS_ZENITH: f64 = 0.035;

/// Light on the level in one minute.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(super) struct Level {
    pub(super) global_w_m2: f64,
    pub(super) diffuse_w_m2: f64,
    pub(super) beam_normal_w_m2: f64,
}

impl Level {
    /// Beam held to what comes from above the air; diffuse is what it leaves of global.
    fn of(global_w_m2: f64, beam_normal_w_m2: f64, sun: &HourSun, minute: usize) -> Level {
        let beam_normal_w_m2 = beam_normal_w_m2.min(sun.extraterrestrial_normal_w_m2);
        let beam_level_w_m2 = beam_normal_w_m2 * sun.cos_zenith[minute].max(0.0);
        let diffuse_w_m2 = (global_w_m2 - beam_level_w_m2).max(0.0);
        Level { global_w_m2, diffuse_w_m2, beam_normal_w_m2 }
    }
}

/// The light of one row of a weather file.
#[derive(Clone, Copy)]
pub(super) struct Row {
    global_w_m2: f64,
    diffuse_w_m2: f64,
    beam_normal_w_m2: f64,
}

impl Row {
    pub(super) fn of(climate: &Climate, row: usize) -> Row {
        Row {
            global_w_m2: climate.global_w_m2[row],
            diffuse_w_m2: climate.diffuse_w_m2[row],
            beam_normal_w_m2: climate.beam_normal_w_m2[row],
        }
    }
}

/// The minutes of an hour that a row gives the mean of.
///
/// Global energy is kept exactly. Beam is what global leaves over diffuse, and so diffuse is kept too,
/// except where the beam would outshine what comes from above the air, or, in the hours of sunrise and
/// sunset, the beam the file itself states: the surplus is diffuse then.
pub(super) fn hour_mean(row: Row, sun: &HourSun) -> [Level; MINUTES] {
    let Row { global_w_m2, diffuse_w_m2, beam_normal_w_m2: stated_w_m2 } = row;
    if global_w_m2 <= 0.0 {
        return [Level::default(); MINUTES];
    }
    let heights = sun.cos_zenith.map(|cosine| cosine.max(0.0));
    let height_sum: f64 = heights.iter().sum();
    let minutes_up = heights.iter().filter(|&&height| height > 0.0).count() as f64;
    let per_minute = MINUTES as f64;

    let beam_level_w_m2 = (global_w_m2 - diffuse_w_m2).max(0.0);
    let beam_normal_w_m2 = if height_sum > 0.0 {
        let stated = stated_w_m2 * per_minute / minutes_up;
        let ceiling = if minutes_up < per_minute { stated } else { f64::INFINITY };
        (beam_level_w_m2 * per_minute / height_sum)
            .min(ceiling)
            .min(sun.extraterrestrial_normal_w_m2)
    } else {
        0.0
    };
    let diffuse_w_m2 = global_w_m2 - beam_normal_w_m2 * height_sum / per_minute;

    let mut weights = sun.cos_zenith.map(|cosine| (cosine + TWILIGHT_COS_ZENITH).max(0.0));
    let mut weight_sum: f64 = weights.iter().sum();
    if weight_sum <= 0.0 {
        // Light in the file with the sun far down: spread evenly, since energy is not to be lost.
        weights = [1.0; MINUTES];
        weight_sum = per_minute;
    }
    std::array::from_fn(|minute| {
        let diffuse_w_m2 = diffuse_w_m2 * per_minute * weights[minute] / weight_sum;
        Level {
            global_w_m2: diffuse_w_m2 + beam_normal_w_m2 * heights[minute],
            diffuse_w_m2,
            beam_normal_w_m2: if heights[minute] > 0.0 { beam_normal_w_m2 } else { 0.0 },
        }
    })
}

/// What the sky was like at a row's instant: clearness, and the diffuse share of global.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Sky {
    clearness: f64,
    diffuse_share: f64,
}

impl Sky {
    /// The sky at a row's instant; none with the sun down or too low to tell.
    ///
    /// `above_w_m2` is the irradiance above the air that faces the sun.
    pub(super) fn at_instant(row: Row, cos_zenith: f64, above_w_m2: f64) -> Option<Sky> {
        if cos_zenith < LOWEST_COS_ZENITH {
            return None;
        }
        let share = row.diffuse_w_m2 / row.global_w_m2;
        Some(Sky {
            clearness: row.global_w_m2 / (above_w_m2 * cos_zenith),
            diffuse_share: if share.is_finite() { share.min(1.0) } else { 1.0 },
        })
    }

    fn between(self, later: Sky, share: f64) -> Sky {
        let mix = |a: f64, b: f64| a + (b - a) * share;
        Sky {
            clearness: mix(self.clearness, later.clearness),
            diffuse_share: mix(self.diffuse_share, later.diffuse_share),
        }
    }
}

/// The minutes of a file's hour between rows that are instants.
///
/// Clearness and diffuse share run straight from instant to instant; before the day's first and after
/// its last they are held. Where no instant near tells the sky, the rows' light itself runs straight
/// and is all diffuse.
pub(super) fn between_instants(
    climate: &Climate,
    skies: &[Option<Sky>],
    offset_h: f64,
    sun: &HourSun,
) -> [Level; MINUTES] {
    // The instant before the hour's first minute, and the minute's way from it to the next.
    let before = (sun.file_hour as f64 - offset_h).floor();
    let first_share = sun.file_hour as f64 - offset_h - before;
    let first = (before as i64).rem_euclid(HOURS_PER_YEAR as i64) as usize;
    let rows = [first, first + 1, first + 2].map(|row| row % HOURS_PER_YEAR);
    std::array::from_fn(|minute| {
        let passed = first_share + (minute as f64 + 0.5) / MINUTES as f64;
        let (earlier, later, share) = if passed < 1.0 {
            (rows[0], rows[1], passed)
        } else {
            (rows[1], rows[2], passed - 1.0)
        };
        let sky = match (skies[earlier], skies[later]) {
            (Some(a), Some(b)) => a.between(b, share),
            (Some(held), None) | (None, Some(held)) => held,
            (None, None) => {
                let (a, b) = (climate.global_w_m2[earlier], climate.global_w_m2[later]);
                let diffuse_w_m2 = a + (b - a) * share;
                return Level { global_w_m2: diffuse_w_m2, diffuse_w_m2, beam_normal_w_m2: 0.0 };
            }
        };
        let height = sun.cos_zenith[minute];
        if height <= 0.0 {
            return Level::default();
        }
        let global_w_m2 = sky.clearness * sun.extraterrestrial_normal_w_m2 * height;
        let beam_level_w_m2 = global_w_m2 * (1.0 - sky.diffuse_share);
        Level::of(global_w_m2, beam_level_w_m2 / height, sun, minute)
    })
}

/// Scales a day's light so that it brings what the day's rows say, an instant standing for its hour:
/// what runs straight between instants bends away from them near sunrise and sunset.
///
/// * `day`: the lit hours of a day.
/// * `day_wh_m2`: the sum of the day's rows.
pub(super) fn keep_day(day: &mut [(HourSun, [Level; MINUTES])], day_wh_m2: f64) {
    let minutes = day.iter().flat_map(|(_, minutes)| minutes);
    let shaped_wh_m2 = minutes.map(|level| level.global_w_m2).sum::<f64>() / MINUTES as f64;
    if shaped_wh_m2 <= 0.0 {
        return;
    }
    let scale = day_wh_m2 / shaped_wh_m2;
    for (sun, minutes) in day {
        for (minute, level) in minutes.iter_mut().enumerate() {
            let beam_normal_w_m2 = level.beam_normal_w_m2 * scale;
            *level = Level::of(level.global_w_m2 * scale, beam_normal_w_m2, sun, minute);
        }
    }
}

#[cfg(test)]
mod tests {
    use physics::sun::{PanelDirection, SOLAR_CONSTANT_W_M2};

    use super::*;

    /// An hour whose sun climbs by even steps of the cosine.
    fn climbing(from: f64, to: f64) -> HourSun {
        let step = (to - from) / MINUTES as f64;
        HourSun {
            file_hour: 0,
            extraterrestrial_normal_w_m2: SOLAR_CONSTANT_W_M2,
            cos_zenith: std::array::from_fn(|minute| from + step * (minute as f64 + 0.5)),
            direction: [PanelDirection::STRAIGHT; MINUTES],
            behind_horizon: [false; MINUTES],
        }
    }

    fn row(global_w_m2: f64, diffuse_w_m2: f64, beam_normal_w_m2: f64) -> Row {
        Row { global_w_m2, diffuse_w_m2, beam_normal_w_m2 }
    }

    fn mean(minutes: &[Level], of: impl Fn(&Level) -> f64) -> f64 {
        minutes.iter().map(of).sum::<f64>() / MINUTES as f64
    }

    /// Given an hour with the sun up: the minutes bring its global and its diffuse exactly, and the
    /// beam is the same in every minute: conservation, and clearness held.
    #[test]
    fn a_sunny_hour_keeps_global_and_diffuse() {
        let minutes = hour_mean(row(400.0, 120.0, 700.0), &climbing(0.3, 0.5));
        assert!((mean(&minutes, |level| level.global_w_m2) - 400.0).abs() < 1e-9);
        assert!((mean(&minutes, |level| level.diffuse_w_m2) - 120.0).abs() < 1e-9);
        // 280 W/m2 over a mean cosine of 0.4.
        assert!(minutes.iter().all(|level| (level.beam_normal_w_m2 - 700.0).abs() < 1e-9));
    }

    /// Given an hour of sunrise with more beam than the file itself states for it: global exactly, the
    /// beam held to the stated one over the minutes with sun, no beam before it.
    #[test]
    fn sunrise_does_not_outshine_the_file() {
        let minutes = hour_mean(row(20.0, 5.0, 100.0), &climbing(-0.15, 0.05));
        assert!((mean(&minutes, |level| level.global_w_m2) - 20.0).abs() < 1e-9);
        assert!((mean(&minutes, |level| level.beam_normal_w_m2) - 100.0).abs() < 1e-9);
        assert_eq!(minutes[44].beam_normal_w_m2, 0.0);
        assert!(minutes[46].beam_normal_w_m2 > 0.0);
    }

    /// Given more beam than comes from above the air: held to that, and the surplus is diffuse.
    #[test]
    fn no_beam_outshines_the_sun() {
        let minutes = hour_mean(row(900.0, 0.0, 900.0), &climbing(0.4, 0.5));
        assert!(minutes.iter().all(|level| level.beam_normal_w_m2 <= SOLAR_CONSTANT_W_M2));
        assert!((mean(&minutes, |level| level.global_w_m2) - 900.0).abs() < 1e-9);
        assert!(mean(&minutes, |level| level.diffuse_w_m2) > 280.0);
    }

    /// Given light in an hour of night: all of it, evenly, and diffuse.
    #[test]
    fn light_at_night_is_spread_as_diffuse() {
        let minutes = hour_mean(row(6.0, 2.0, 40.0), &climbing(-0.5, -0.3));
        let even = Level { global_w_m2: 6.0, diffuse_w_m2: 6.0, beam_normal_w_m2: 0.0 };
        assert!(minutes.iter().all(|level| *level == even));
    }
}
