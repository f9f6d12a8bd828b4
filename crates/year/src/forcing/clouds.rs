//! Clouds that pass within the hour, drawn by lot; the hour's beam stays what it was.

use physics::chance::Lot;
use physics::sun::{SunError, clear_beam_meinel_1976_w_m2};

use super::hour_sun::HourSun;
use super::shape::{Level, MINUTES};

/// How the size of clouds is spread: the number of chords of a length goes with this power of it.
const CHORD_POWER: f64 = -1.66;

/// The shortest chord that counts \[m\]: where the measured power law begins.
const SHORTEST_CHORD_M: f64 = 100.0;

/// Clouds drift faster than the wind at 10 m: the seventh-root rule to 1000 m, `100^(1/7)`.
const ALOFT_FACTOR: f64 = 1.931;

/// Clouds never quite stand still \[m/s\]. Common practice; calm hours would else keep one cloud.
const SLOWEST_M_S: f64 = 2.0;

/// Shares of sunny time beyond which an hour is taken as wholly clear or wholly grey.
const BROKEN: std::ops::RangeInclusive<f64> = 0.02..=0.98;

/// What the place and the hour say of its clouds.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct CloudHour {
    /// Height above the sea \[m\].
    pub(super) elevation_m: f64,
    /// Wind at 10 m \[m/s\].
    pub(super) wind_m_s: f64,
    /// The same seed draws the same clouds.
    pub(super) seed: u32,
}

/// How the beam of an hour comes minute by minute: numbers that multiply its smooth beam, and leave
/// the hour's beam on the level what it was.
///
/// The sun is either out or behind a cloud (a sky of two states, Morf 1998). It is out for the share of
/// the hour that its beam is of a clear sky's; clouds pass with chords spread by the power -1.66 from
/// 100 m up to what drifts by in an hour (Wood and Field 2011), at the speed of the wind aloft; gaps
/// between them are spread exponentially. What the lot has drawn is then brought to the hour's own
/// share: too much sun is hazier sun, too little shines through thinner clouds, so no minute has more
/// than a clear sky's.
///
/// Diffuse light stays smooth, since the models that put it on a plane are fitted to hours; so does the
/// shining of a cloud's rim, which for seconds adds a tenth or two to a clear sky's beam.
///
/// # Errors
/// A height that the clear sky's relation does not reach.
///
/// # Source
/// H. Morf 1998, The stochastic two-state solar irradiance model, Solar Energy 62:101; R. Wood and
/// P. R. Field 2011, The distribution of cloud horizontal sizes, J. Climate 24:4800 (both from memory;
/// the power law drives the minutes of Bright and others 2015, Solar Energy 115:229, too).
pub(super) fn minute_beam(
    sun: &HourSun,
    smooth: &[Level; MINUTES],
    hour: &CloudHour,
) -> Result<CloudMinutes, SunError> {
    let (mut beam_w_m2, mut clear_w_m2) = ([0.0; MINUTES], 0.0);
    let mut clear_normal_w_m2 = [0.0; MINUTES];
    for minute in 0..MINUTES {
        let height = sun.cos_zenith[minute].max(0.0);
        beam_w_m2[minute] = smooth[minute].beam_normal_w_m2 * height;
        if height > 0.0 {
            let above_w_m2 = sun.extraterrestrial_normal_w_m2;
            clear_normal_w_m2[minute] =
                clear_beam_meinel_1976_w_m2(above_w_m2, height, hour.elevation_m)?;
            clear_w_m2 += height * clear_normal_w_m2[minute];
        }
    }
    let sum_w_m2: f64 = beam_w_m2.iter().sum();
    let sunny_share = sum_w_m2 / clear_w_m2;
    // Also where there is no beam at all, or no sun.
    if !BROKEN.contains(&sunny_share) {
        return Ok(CloudMinutes::SMOOTH);
    }
    let drawn = sunny_minutes(sunny_share, hour, &mut Lot::of(hour.seed, sun.file_hour));
    let came_w_m2: f64 = drawn.iter().zip(&beam_w_m2).map(|(out, beam)| out * beam).sum();
    let drawn_share = came_w_m2 / sum_w_m2;
    let by = if drawn_share >= sunny_share {
        drawn.map(|out| out / drawn_share)
    } else {
        let thin = (sunny_share - drawn_share) / (1.0 - drawn_share);
        drawn.map(|out| (out + thin * (1.0 - out)) / sunny_share)
    };
    // Beside the horizon the smooth beam does not follow a clear sky's within the hour, and a share of it
    // would outshine the sun: such an hour stays smooth.
    let outshines = (0..MINUTES).any(|minute| {
        by[minute] * smooth[minute].beam_normal_w_m2 > OUTSHINES * clear_normal_w_m2[minute]
    });
    Ok(if outshines { CloudMinutes::SMOOTH } else { CloudMinutes { beam: by, sunny_share } })
}

/// A minute with so many times a clear sky's beam is none that clouds make. Judgement: the clear sky's
/// relation itself is known to a tenth.
const OUTSHINES: f64 = 1.1;

/// What clouds make of an hour's smooth light.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct CloudMinutes {
    /// What each minute's beam is multiplied by.
    beam: [f64; MINUTES],
    /// Share of the hour with the sun out.
    sunny_share: f64,
}

impl CloudMinutes {
    /// No clouds by the minute.
    pub(super) const SMOOTH: CloudMinutes = CloudMinutes { beam: [1.0; MINUTES], sunny_share: 1.0 };

    /// What a minute's beam is multiplied by.
    pub(super) fn beam(&self, minute: usize) -> f64 {
        self.beam[minute]
    }

    /// What a minute's bright sky round the sun is multiplied by. As much of it as the hour is sunny comes
    /// and goes with the beam; the rest is thin cloud lit from behind, which stays.
    pub(super) fn bright_sky(&self, minute: usize) -> f64 {
        1.0 + self.sunny_share * (self.beam[minute] - 1.0)
    }
}

/// How much of each minute the sun is out, 0 to 1.
fn sunny_minutes(sunny_share: f64, hour: &CloudHour, lot: &mut Lot) -> [f64; MINUTES] {
    let drift_m_min = 60.0 * (ALOFT_FACTOR * hour.wind_m_s).max(SLOWEST_M_S);
    let chords = Chords { longest_m: (drift_m_min * MINUTES as f64).max(2.0 * SHORTEST_CHORD_M) };
    let gap_min = chords.mean_m() / drift_m_min * sunny_share / (1.0 - sunny_share);
    let mut minutes = [0.0; MINUTES];
    let mut is_out = lot.even() < sunny_share;
    // The hour begins somewhere in a spell: long clouds are met more often, and in their midst.
    let mut cloud_m = chords.draw_m(CHORD_POWER + 1.0, lot) * lot.even();
    let mut now_min = 0.0;
    while now_min < MINUTES as f64 {
        let spell_min = if is_out { -gap_min * lot.even().ln() } else { cloud_m / drift_m_min };
        if !is_out || now_min == 0.0 {
            cloud_m = chords.draw_m(CHORD_POWER, lot);
        }
        let end_min = (now_min + spell_min).min(MINUTES as f64);
        if is_out {
            for (minute, out) in minutes.iter_mut().enumerate() {
                let (from, to) = (now_min.max(minute as f64), end_min.min(minute as f64 + 1.0));
                *out += (to - from).max(0.0);
            }
        }
        now_min = end_min;
        is_out = !is_out;
    }
    minutes.map(|out: f64| out.min(1.0))
}

/// The chords of clouds, by a power law between two ends.
struct Chords {
    longest_m: f64,
}

impl Chords {
    /// The integral of `x^power` from the shortest to the longest.
    fn integral(&self, power: f64) -> f64 {
        let more = power + 1.0;
        (self.longest_m.powf(more) - SHORTEST_CHORD_M.powf(more)) / more
    }

    fn mean_m(&self) -> f64 {
        self.integral(CHORD_POWER + 1.0) / self.integral(CHORD_POWER)
    }

    /// A chord whose frequency goes with the power of its length.
    fn draw_m(&self, power: f64, lot: &mut Lot) -> f64 {
        let more = power + 1.0;
        let (short, long) = (SHORTEST_CHORD_M.powf(more), self.longest_m.powf(more));
        (short + lot.even() * (long - short)).powf(1.0 / more)
    }
}

#[cfg(test)]
mod tests {
    use physics::sun::{DiurnalCosine, PanelDirection, SOLAR_CONSTANT_W_M2, almanac, hour_angle};

    use super::super::hour_sun::days_since_j2000;
    use super::*;

    fn hour_of(file_hour: usize) -> HourSun {
        HourSun {
            file_hour,
            extraterrestrial_normal_w_m2: SOLAR_CONSTANT_W_M2,
            cos_zenith: std::array::from_fn(|minute| 0.4 + 0.003 * minute as f64),
            direction: [PanelDirection::STRAIGHT; MINUTES],
            behind_horizon: [false; MINUTES],
        }
    }

    fn smooth(beam_normal_w_m2: f64) -> [Level; MINUTES] {
        let level = Level { global_w_m2: 0.0, diffuse_w_m2: 120.0, beam_normal_w_m2 };
        [level; MINUTES]
    }

    const CLOUDS: CloudHour = CloudHour { elevation_m: 100.0, wind_m_s: 4.0, seed: 1 };

    fn level_beam_w_m2(sun: &HourSun, beam_normal_w_m2: f64, by: &[f64; MINUTES]) -> f64 {
        sun.cos_zenith.iter().zip(by).map(|(cos, by)| by * cos * beam_normal_w_m2).sum()
    }

    /// Given hours of beam weak and strong, thousands of lots: each keeps its beam to the last
    /// digits, and no minute has more than a clear sky's (within the 3 % by which its own minutes part
    /// from the hour's mean).
    #[test]
    fn each_hour_keeps_its_beam() {
        for file_hour in 0..2_000 {
            let sun = hour_of(file_hour);
            for beam_normal_w_m2 in [40.0, 300.0, 600.0] {
                let by =
                    minute_beam(&sun, &smooth(beam_normal_w_m2), &CLOUDS).expect("in range").beam;
                let kept = level_beam_w_m2(&sun, beam_normal_w_m2, &by)
                    / level_beam_w_m2(&sun, beam_normal_w_m2, &[1.0; MINUTES]);
                assert!((kept - 1.0).abs() < 1e-12, "{file_hour} {beam_normal_w_m2}: {kept}");
                let clear_w_m2 =
                    clear_beam_meinel_1976_w_m2(SOLAR_CONSTANT_W_M2, 0.577, 100.0).expect("sound");
                let most = by.iter().fold(0.0_f64, |most, &by| most.max(by)) * beam_normal_w_m2;
                assert!(most < 1.03 * clear_w_m2, "{most} over {clear_w_m2}");
                assert!(by.iter().all(|&by| by >= 0.0));
            }
        }
    }

    /// A cloudless hour, an hour without beam and a night are left as they are.
    #[test]
    fn clear_and_grey_hours_stay_smooth() {
        let sun = hour_of(9);
        for beam_normal_w_m2 in [0.0, 900.0] {
            let by = minute_beam(&sun, &smooth(beam_normal_w_m2), &CLOUDS).expect("in range");
            assert_eq!(by, CloudMinutes::SMOOTH);
        }
        let night = HourSun { cos_zenith: [-0.2; MINUTES], ..hour_of(0) };
        let by = minute_beam(&night, &smooth(0.0), &CLOUDS).expect("in range");
        assert_eq!(by, CloudMinutes::SMOOTH);
    }

    /// The same seed draws the same clouds, another seed or another hour others.
    #[test]
    fn the_same_seed_draws_the_same_clouds() {
        let by = |file_hour, seed| {
            let clouds = CloudHour { seed, ..CLOUDS };
            minute_beam(&hour_of(file_hour), &smooth(400.0), &clouds).expect("in range")
        };
        assert_eq!(by(12, 5), by(12, 5));
        assert!(by(12, 5) != by(12, 6) && by(12, 5) != by(13, 5));
    }

    /// Given many broken hours: as much sun is drawn as wanted, within 0.02 (three standard errors of
    /// 4000 hours), and most minutes are either sunny or not, as minute records of
    /// broken skies are: more than two thirds lie in the outer fifths (two-humped clearness, Suehrcke
    /// and McCormick 1988, Solar Energy 40:413, from memory).
    #[test]
    fn broken_hours_have_two_humps() {
        let (mut sunny, mut outer, count) = (0.0, 0, 4_000);
        for file_hour in 0..count {
            let minutes = sunny_minutes(0.5, &CLOUDS, &mut Lot::of(3, file_hour));
            sunny += minutes.iter().sum::<f64>() / MINUTES as f64;
            outer += minutes.iter().filter(|&&out| !(0.2..=0.8).contains(&out)).count();
        }
        let share = sunny / count as f64;
        assert!((share - 0.5).abs() < 0.02, "{share}");
        let outer = outer as f64 / (count * MINUTES) as f64;
        assert!(outer > 2.0 / 3.0, "{outer}");
    }

    /// Chords drawn: their mean is the integral's within 5 % (a long tail), and the share above a
    /// kilometre is the power law's within 0.01.
    #[test]
    fn chords_follow_their_power() {
        let chords = Chords { longest_m: 20_000.0 };
        let mut lot = Lot::of(1, 1);
        let drawn: Vec<f64> = (0..100_000).map(|_| chords.draw_m(CHORD_POWER, &mut lot)).collect();
        let mean = drawn.iter().sum::<f64>() / 1e5;
        assert!((mean / chords.mean_m() - 1.0).abs() < 0.05, "{mean}");
        let long = drawn.iter().filter(|&&chord_m| chord_m > 1_000.0).count() as f64 / 1e5;
        let want = (1_000.0_f64.powf(-0.66) - 20_000.0_f64.powf(-0.66))
            / (100.0_f64.powf(-0.66) - 20_000.0_f64.powf(-0.66));
        assert!((long - want).abs() < 0.01, "{long} for {want}");
    }

    /// Given two real years of hourly means: the upper twentieth of their beams, with the sun above 30
    /// degrees, begins within 10 % of the clear sky's: what the relation claims.
    #[test]
    fn the_clear_beam_is_that_of_clear_hours() {
        for name in ["nrel-tmy3_golden-co_724666.epw", "nrel-tmy3_phoenix-az_722780.csv"] {
            let path = format!("{}/../../samples/weather/{name}", env!("CARGO_MANIFEST_DIR"));
            let bytes = std::fs::read(path).expect("the file is there");
            let climate = design::weather::read_weather(name, &bytes).0.expect("a sound file");
            let elevation_m = climate.elevation_m.expect("stated");
            let mut shares: Vec<f64> = (0..physics::climate::HOURS_PER_YEAR)
                .filter_map(|row| {
                    let days = days_since_j2000(&climate, row as f64 + 0.5);
                    let slow = almanac(days).expect("sound");
                    let w = hour_angle(&slow, climate.longitude, days);
                    let height =
                        DiurnalCosine::zenith(climate.latitude, slow.declination).at_hour_angle(w);
                    let clear_w_m2 = clear_beam_meinel_1976_w_m2(
                        slow.extraterrestrial_normal_w_m2,
                        height,
                        elevation_m,
                    );
                    (height > 0.5)
                        .then(|| climate.beam_normal_w_m2[row] / clear_w_m2.expect("sound"))
                })
                .collect();
            shares.sort_by(f64::total_cmp);
            let upper = shares[shares.len() * 19 / 20];
            assert!((upper - 1.0).abs() < 0.1, "{name}: {upper}");
        }
    }
}
