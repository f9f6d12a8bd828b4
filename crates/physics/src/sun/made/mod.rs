//! An hourly year made from twelve monthly means, where a place has no weather file.

mod air;
mod days;
mod hours;
mod other_years;
mod transitions;
mod winds;

use super::almanac::{Almanac, Instant, almanac};
use super::day::{day_above_air_j_m2, sunset};
use super::error::{Range, SunError};
use super::split::{daily_diffuse_share_erbs_1982, diffuse_share_erbs_1982};
use crate::climate::{DesignExtremes, HOURS_PER_YEAR, MONTH_STARTS_DAY, Stamp};
use crate::{Angle, Climate};

pub use days::month_of_clearness;
pub use hours::{DaySky, HourAbove, hours_of_clearness};
pub use other_years::{Departure, departure, other_year, years_of};

/// Days in the year.
const DAYS: usize = HOURS_PER_YEAR / 24;

/// The year whose sun is used: an ordinary one in the middle of the leap-year round.
const SUN_YEAR: i32 = 2021;

/// What is known of a place by the month, January first.
#[derive(Clone, Debug, PartialEq)]
pub struct Months {
    /// Where the figures come from, in a few words.
    pub origin: String,
    /// Latitude, north positive.
    pub latitude: Angle,
    /// Longitude, east positive.
    pub longitude: Angle,
    /// Height above the sea \[m\]; `None` where nobody says.
    pub elevation_m: Option<f64>,
    /// Mean daily irradiation of the level ground \[J/m2\].
    pub daily_j_m2: [f64; 12],
    /// Mean air \[K\].
    pub air_k: [f64; 12],
    /// Mean of the day's warmest hour less its coldest \[K\]; `None` where nobody says: then by the
    /// clearness.
    pub swing_k: Option<[f64; 12]>,
    /// Mean wind 10 m above open ground \[m/s\].
    pub wind_m_s: [f64; 12],
}

/// Highest monthly clearness that is taken: the clearest months on earth have some 0.8 (common practice).
pub const HIGHEST_CLEARNESS: f64 = 0.83;

/// Days with less above the air than this are dark: the polar night \[J/m2\].
const DARK_J_M2: f64 = 1e5;

/// Makes a year by the hour from twelve monthly means.
///
/// Each month's clearness is spread over its days (Aguiar, Collares-Pereira and Conde 1988), each day's over
/// its hours (Aguiar and Collares-Pereira 1992), each hour's light told apart by Erbs and others 1982.
/// Air runs along a smooth curve that keeps the means, with a daily swing that grows with clearness
/// (Erbs, Klein and Beckman 1983) and spells of cold and warm; wind comes and goes about its mean.
/// Dew point: the day's coldest air. Every month's light, air and wind have the given means exactly.
///
/// * `months`: the twelve means and the place.
/// * `seed`: which days and hours are drawn; the same seed makes the same year to the last bit.
///
/// Returns hours that are means, in the standard time of the longitude. It holds no extremes.
///
/// # Valid range
/// Monthly light up to 0.83 of that above the air, air 220 to 320 K, wind 0 to 25 m/s; outside, an
/// error. Made for latitudes with day and night; months of polar night are dark.
/// # Source
/// As named, each at its function.
/// # Checked
/// Against six real years: persistence and spread of daily clearness, and what two builds spare.
pub fn made_year(months: &Months, seed: u32) -> Result<Climate, SunError> {
    months.check()?;
    let clock_ahead_h = (months.longitude.degrees() / 15.0).round() + 0.0;
    let suns = suns(months.longitude)?;
    let clearness = days::year_of_clearness(months, &suns, seed)?;
    let mut global_w_m2 = vec![0.0; HOURS_PER_YEAR];
    let mut diffuse_w_m2 = vec![0.0; HOURS_PER_YEAR];
    let mut beam_normal_w_m2 = vec![0.0; HOURS_PER_YEAR];
    for (day, sun) in suns.iter().enumerate() {
        let above = HourAbove::of_day(months, sun, clock_ahead_h);
        let sky = DaySky { clearness: clearness[day], day, seed };
        let hours = hours_of_clearness(&sky, &above);
        let diffuse = diffuse_by_hour(sky.clearness, sunset(months.latitude, sun), &hours, &above);
        for (hour, above) in above.iter().enumerate() {
            let at = 24 * day + hour;
            global_w_m2[at] = hours[hour] * above.level_w_m2;
            diffuse_w_m2[at] = diffuse[hour];
            beam_normal_w_m2[at] = above.beam_facing_w_m2(global_w_m2[at] - diffuse[hour]);
        }
    }
    let air = air::year_of_air(months, &clearness, clock_ahead_h, seed);
    Ok(Climate {
        origin: format!("{}, made by the hour, seed {seed}", months.origin),
        latitude: months.latitude,
        longitude: months.longitude,
        elevation_m: months.elevation_m,
        clock_ahead_h,
        stamp: Stamp::HourMean,
        reading_offset_h: 0.5,
        global_w_m2,
        beam_normal_w_m2,
        diffuse_w_m2,
        air_k: air.air_k,
        dew_point_k: air.dew_point_k,
        wind_m_s: winds::year_of_wind(&months.wind_m_s, seed),
        sky_infrared_w_m2: None,
        extremes: DesignExtremes::default(),
    })
}

/// Diffuse on the level by hour \[W/m2\]: shaped as the hourly relation has it, scaled to the day's.
fn diffuse_by_hour(
    clearness: f64,
    sunset: Angle,
    hours: &[f64; 24],
    above: &[HourAbove; 24],
) -> [f64; 24] {
    let global: [f64; 24] = std::array::from_fn(|hour| hours[hour] * above[hour].level_w_m2);
    let mut diffuse: [f64; 24] =
        std::array::from_fn(|hour| global[hour] * diffuse_share_erbs_1982(hours[hour]));
    let wanted = global.iter().sum::<f64>() * daily_diffuse_share_erbs_1982(clearness, sunset);
    // An hour cannot be more diffuse than it is bright: what one refuses the others take.
    for _ in 0..20 {
        let is: f64 = diffuse.iter().sum();
        if is <= 0.0 || (is / wanted - 1.0).abs() < 1e-9 {
            break;
        }
        for (diffuse, global) in diffuse.iter_mut().zip(global) {
            *diffuse = (*diffuse * wanted / is).min(global);
        }
    }
    diffuse
}

impl Months {
    /// Mean clearness by month: light over that above the air; 0 in the polar night.
    ///
    /// # Errors
    /// A place that is not on the globe.
    pub fn clearness(&self) -> Result<[f64; 12], SunError> {
        let suns = suns(self.longitude)?;
        let above = above_by_day(self.latitude, &suns);
        Ok(std::array::from_fn(|month| {
            let days = MONTH_STARTS_DAY[month]..MONTH_STARTS_DAY[month + 1];
            let mean = above[days.clone()].iter().sum::<f64>() / days.len() as f64;
            if mean < DARK_J_M2 { 0.0 } else { self.daily_j_m2[month] / mean }
        }))
    }

    fn check(&self) -> Result<(), SunError> {
        let within = |quantity, values: &[f64], lowest, highest| {
            let range = Range { quantity, lowest, highest };
            values.iter().try_for_each(|&value| range.check(value).map(drop))
        };
        within("latitude [deg]", &[self.latitude.degrees()], -90.0, 90.0)?;
        within("longitude [deg]", &[self.longitude.degrees()], -180.0, 180.0)?;
        within("air [K]", &self.air_k, 220.0, 320.0)?;
        within("daily swing [K]", self.swing_k.as_ref().map_or(&[][..], |swing| swing), 0.0, 40.0)?;
        within("wind [m/s]", &self.wind_m_s, 0.0, 25.0)?;
        within("monthly clearness", &self.clearness()?, 0.0, HIGHEST_CLEARNESS)
    }
}

/// The sun at noon of each day.
fn suns(longitude: Angle) -> Result<Vec<Almanac>, SunError> {
    let noon_utc_h = 12.0 - longitude.degrees() / 15.0;
    let first = Instant { year: SUN_YEAR, month: 1, day: 1, hour: noon_utc_h }.days_since_j2000();
    (0..DAYS).map(|day| almanac(first + day as f64)).collect()
}

/// Irradiation of the level above the air by day \[J/m2\]; nothing in the polar night.
fn above_by_day(latitude: Angle, suns: &[Almanac]) -> Vec<f64> {
    suns.iter()
        .map(|sun| {
            let above_j_m2 = day_above_air_j_m2(latitude, sun);
            if above_j_m2 < DARK_J_M2 { 0.0 } else { above_j_m2 }
        })
        .collect()
}

/// Streams of numbers by lot that must not meet: one for each thing drawn.
#[derive(Clone, Copy)]
enum Stream {
    Days = 0x10_0000,
    Hours = 0x20_0000,
    Air = 0x30_0000,
    Wind = 0x40_0000,
    Years = 0x50_0000,
}

impl Stream {
    fn lot(self, seed: u32, place: usize) -> crate::chance::Lot {
        crate::chance::Lot::of(seed, self as usize + place)
    }
}
