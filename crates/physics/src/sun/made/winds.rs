//! Wind by the hour from its monthly means.

use super::Stream;
use crate::chance::normal_share;
use crate::climate::{HOURS_PER_YEAR, MONTH_STARTS_DAY};

/// How much of an hour's departure the next one keeps. Common practice for hourly wind: 0.8 to 0.95.
const KEPT: f64 = 0.9;

/// Wind that comes and goes: an autoregressive normal number, turned into Weibull's distribution.
///
/// `v = (-ln(1 - normal share(x)))^(1/k)`, scaled to the month's mean; `k = 0.94 sqrt(mean)` after Justus
/// and others 1978, 1 to 3.
pub(super) fn year_of_wind(means_m_s: &[f64; 12], seed: u32) -> Vec<f64> {
    let mut lot = Stream::Wind.lot(seed, 0);
    let fresh = (1.0 - KEPT * KEPT).sqrt();
    let mut departure = lot.normal();
    let mut wind_m_s = Vec::with_capacity(HOURS_PER_YEAR);
    for (month, &mean_m_s) in means_m_s.iter().enumerate() {
        let shape = (0.94 * mean_m_s.sqrt()).clamp(1.0, 3.0);
        let hours = 24 * (MONTH_STARTS_DAY[month + 1] - MONTH_STARTS_DAY[month]);
        let drawn: Vec<f64> = (0..hours)
            .map(|_| {
                departure = KEPT * departure + fresh * lot.normal();
                let calmer = normal_share(departure).clamp(1e-6, 1.0 - 1e-6);
                (-(1.0 - calmer).ln()).powf(1.0 / shape)
            })
            .collect();
        let scale = mean_m_s * hours as f64 / drawn.iter().sum::<f64>();
        wind_m_s.extend(drawn.into_iter().map(|wind| wind * scale));
    }
    wind_m_s
}
