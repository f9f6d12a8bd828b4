//! A day's clearness spread over its hours.

use super::{Months, Stream};
use crate::sun::almanac::Almanac;
use crate::sun::day::sunset;
use crate::{Angle, chance::Lot};

/// What one hour of the standard clock would get above the air.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct HourAbove {
    /// Mean on the level \[W/m2\].
    pub level_w_m2: f64,
    /// Facing the sun \[W/m2\].
    pub facing_w_m2: f64,
    /// Mean height of the sun while it is up, as the sine.
    pub sine: f64,
    /// Share of the hour with the sun up.
    pub up: f64,
    /// Sun's hour at the middle of the part with the sun up, 12 at noon.
    pub solar_time_h: f64,
}

impl HourAbove {
    /// The 24 hours of a day.
    pub(super) fn of_day(months: &Months, sun: &Almanac, clock_ahead_h: f64) -> [HourAbove; 24] {
        let (sin_p, cos_p) = (months.latitude.sin(), months.latitude.cos());
        let (sin_d, cos_d) = (sun.declination.sin(), sun.declination.cos());
        let (fixed, swing) = (sin_p * sin_d, cos_p * cos_d);
        let sunset_rad = sunset(months.latitude, sun).radians();
        let behind_h =
            months.longitude.degrees() / 15.0 - clock_ahead_h + sun.equation_of_time_min / 60.0;
        std::array::from_fn(|hour| {
            let angle = |clock_h: f64| Angle::from_degrees(15.0 * (clock_h + behind_h - 12.0));
            let (from, to) = (angle(hour as f64).radians(), angle(hour as f64 + 1.0).radians());
            let whole_rad = to - from;
            // The sun's day may run past the clock's midnight, and under the midnight sun an hour may
            // hold the end of one of its days and the beginning of the next.
            let turn = std::f64::consts::TAU;
            let mut all = HourAbove::default();
            for shift in [-turn, 0.0, turn] {
                let (a, b) = ((from + shift).max(-sunset_rad), (to + shift).min(sunset_rad));
                if b <= a {
                    continue;
                }
                let up = (b - a) / whole_rad;
                let sine = (fixed * (b - a) + swing * (b.sin() - a.sin())) / (b - a);
                all = HourAbove {
                    level_w_m2: all.level_w_m2 + sun.extraterrestrial_normal_w_m2 * up * sine,
                    facing_w_m2: sun.extraterrestrial_normal_w_m2,
                    sine: (all.sine * all.up + sine * up) / (all.up + up),
                    up: all.up + up,
                    solar_time_h: 12.0 + 0.5 * (a + b) * 12.0 / std::f64::consts::PI,
                };
            }
            // Rounding at the very moment of sunrise.
            HourAbove { level_w_m2: all.level_w_m2.max(0.0), sine: all.sine.max(0.0), ..all }
        })
    }

    /// Beam that faces the sun, mean of the hour, from its part on the level; never more than above the
    /// air.
    pub(super) fn beam_facing_w_m2(&self, beam_level_w_m2: f64) -> f64 {
        if self.sine <= 0.0 {
            return 0.0;
        }
        (beam_level_w_m2 / self.sine).min(self.facing_w_m2 * self.up)
    }
}

/// A day whose hours are drawn.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DaySky {
    /// The day's clearness, 0 to 0.9.
    pub clearness: f64,
    /// Day of the year, 0 to 364: its own stream of numbers.
    pub day: usize,
    /// Which numbers are drawn.
    pub seed: u32,
}

/// An hour is drawn anew so often before it is held to its bounds.
const REDRAWN: usize = 50;

/// Scaling a day to its sum: rounds until what bounded hours refuse has found its place.
const SCALED: usize = 200;

/// No hour is clearer. Low over the horizon the drawn shape and a clear day's sum can ask for more.
const CLEAREST: f64 = 0.9;

/// Clearness of a day's hours, whose light adds up to the day's.
///
/// `k_h = km + s y_h`, `km = l + e exp(-q/sin h)`, `l = -0.19 + 1.12 K + 0.24 exp(-8 K)`,
/// `e = 0.32 - 1.6 (K - 0.5)^2`, `q = 0.19 + 2.27 K^2 - 2.51 K^3`; `s = A exp(B (1 - sin h))`,
/// `A = 0.14 exp(-20 (K - 0.35)^2)`, `B = 3 (K - 0.45)^2 + 16 K^5`;
/// `y_h = f y_(h-1) + r`, `f = 0.38 + 0.06 cos(7.4 K - 2.5)`, `r` normal with variance `1 - f^2`. An hour
/// below 0 or above `0.88 cos(pi (t - 12)/30)` is drawn again. Then all hours are scaled to the day's.
///
/// * `sky`: the day.
/// * `above`: what each of its hours would get above the air.
///
/// Returns 24 values; 0 while the sun is down.
///
/// # Valid range
/// Daily clearness 0 to 0.9. A dull hour's bound is the clear sky's, so that the scaling may lift an
/// hour a little over it.
/// # Source
/// Aguiar and Collares-Pereira 1992, Solar Energy 49:167 (coefficients as printed in a public library).
/// # Checked
/// The day's sum exactly; with the rest of a made year by what builds spare in it.
pub fn hours_of_clearness(sky: &DaySky, above: &[HourAbove; 24]) -> [f64; 24] {
    let mut lot = Stream::Hours.lot(sky.seed, sky.day);
    let mut hours = [0.0; 24];
    let mut departure = lot.normal();
    let day = DayOfHours::of(sky.clearness);
    for (hour, above) in hours.iter_mut().zip(above).filter(|(_, above)| above.level_w_m2 > 0.0) {
        *hour = day.hour(above, &mut departure, &mut lot);
    }
    let light = |hours: &[f64; 24]| -> f64 {
        hours.iter().zip(above).map(|(clearness, above)| clearness * above.level_w_m2).sum()
    };
    let wanted = sky.clearness * above.iter().map(|above| above.level_w_m2).sum::<f64>();
    // What an hour at its bound cannot take, the others do.
    for _ in 0..SCALED {
        let is = light(&hours);
        if is <= 0.0 || (is / wanted - 1.0).abs() < 1e-12 {
            break;
        }
        for clearness in &mut hours {
            *clearness = (*clearness * wanted / is).min(CLEAREST);
        }
    }
    hours
}

/// What the relation takes from the day as a whole.
struct DayOfHours {
    low: f64,
    rise: f64,
    bend: f64,
    spread: f64,
    spread_growth: f64,
    persistence: f64,
}

impl DayOfHours {
    fn of(k: f64) -> DayOfHours {
        DayOfHours {
            low: -0.19 + 1.12 * k + 0.24 * (-8.0 * k).exp(),
            rise: 0.32 - 1.6 * (k - 0.5) * (k - 0.5),
            bend: 0.19 + 2.27 * k * k - 2.51 * k * k * k,
            spread: 0.14 * (-20.0 * (k - 0.35) * (k - 0.35)).exp(),
            spread_growth: 3.0 * (k - 0.45) * (k - 0.45) + 16.0 * k.powi(5),
            persistence: 0.38 + 0.06 * (7.4 * k - 2.5).cos(),
        }
    }

    fn hour(&self, above: &HourAbove, departure: &mut f64, lot: &mut Lot) -> f64 {
        let mean = self.low + self.rise * (-self.bend / above.sine.max(0.01)).exp();
        let spread = self.spread * (self.spread_growth * (1.0 - above.sine)).exp();
        let clearest = 0.88 * (std::f64::consts::PI * (above.solar_time_h - 12.0) / 30.0).cos();
        let fresh = (1.0 - self.persistence * self.persistence).sqrt();
        let before = *departure;
        for _ in 0..REDRAWN {
            *departure = self.persistence * before + fresh * lot.normal();
            let clearness = mean + spread * *departure;
            if (0.0..=clearest.max(0.0)).contains(&clearness) {
                return clearness;
            }
        }
        *departure = 0.0;
        mean.clamp(0.0, clearest.max(0.0))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sun::{Instant, almanac, day_above_air_j_m2};

    fn place(latitude_deg: f64) -> Months {
        Months {
            origin: String::new(),
            latitude: Angle::from_degrees(latitude_deg),
            longitude: Angle::from_degrees(-4.0),
            elevation_m: None,
            daily_j_m2: [0.0; 12],
            air_k: [280.0; 12],
            swing_k: None,
            wind_m_s: [4.0; 12],
        }
    }

    /// Given latitudes from the tropics to the midnight sun: a day's hours above the air add up to the
    /// closed sum of the day (Duffie and Beckman, eq. 1.10.3), and so do the drawn hours' to the day's
    /// clearness. To rounding.
    #[test]
    fn hours_add_up_to_the_day() {
        for latitude_deg in [-38.0, 0.0, 30.0, 54.6, 66.0, 70.0] {
            for day in [0, 80, 172, 300] {
                let noon = Instant { year: 2021, month: 1, day: 1, hour: 12.3 };
                let sun = almanac(noon.days_since_j2000() + day as f64).unwrap();
                let months = place(latitude_deg);
                let above = HourAbove::of_day(&months, &sun, 0.0);
                let whole = day_above_air_j_m2(months.latitude, &sun);
                let sum: f64 = above.iter().map(|hour| hour.level_w_m2 * 3600.0).sum();
                assert!((sum - whole).abs() <= 1e-9 * whole.max(1.0), "{latitude_deg} {day}");
                for clearness in [0.06, 0.3, 0.55, 0.78] {
                    let hours = hours_of_clearness(&DaySky { clearness, day, seed: 1 }, &above);
                    let light: f64 =
                        hours.iter().zip(&above).map(|(k, above)| k * above.level_w_m2).sum();
                    assert!((light * 3600.0 - clearness * whole).abs() <= 1e-9 * whole.max(1.0));
                    assert!(hours.iter().all(|k| (0.0..1.0).contains(k)), "{hours:?}");
                }
            }
        }
    }
}
