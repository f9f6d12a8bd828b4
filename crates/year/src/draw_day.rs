//! What a household draws on a weekday, hour by hour, and what the sun had put into it.

use physics::Build;
use physics::tap::DrawDays;

use crate::{Channel, Forcing, Plant, Recorder, Upset, YearError, march};

/// A mean weekday of the year's draws.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DrawDay {
    /// Water drawn in each hour \[m3\].
    pub drawn_m3: [f64; 24],
    /// Share of the heat which that water needs that the sun had put into it, 0 to 1; 0 where nothing
    /// is drawn.
    pub sun_share: [f64; 24],
}

/// The mean over a year's weekdays, holidays left out, of what is drawn in each hour, and of the heat
/// that the store gave it beyond what the twin's store, warmed by the loft alone, would have given. No
/// more than a draw needs is counted: `sum(min(build, need) - min(twin, need))/sum(need)`.
///
/// * `recorder`: of the build's own year, holding [`Channel::DrawHeat`].
///
/// Returns `None` where that was not recorded or no weekday has a draw.
///
/// # Errors
/// Where the twin's year cannot be marched.
pub fn draw_day(
    build: &Build,
    forcing: &Forcing,
    recorder: &Recorder,
) -> Result<Option<DrawDay>, YearError> {
    let Some(heat_j) = recorder.series(Channel::DrawHeat) else { return Ok(None) };
    let plant = Plant::compile(&build.twin())?;
    let mut of_twin = Recorder::of(&[Channel::DrawHeat]);
    march(&plant, forcing, &Upset::none(), &mut of_twin)?;
    let Some(twin_j) = of_twin.series(Channel::DrawHeat) else { return Ok(None) };
    let tap = &build.tap;
    let counts = |day: usize| {
        DrawDays::Weekdays.holds(tap.first_weekday.after(day))
            && !tap.holidays.iter().any(|span| span.holds(day))
    };
    let days = (0..365).filter(|&day| counts(day)).count().max(1) as f64;
    let (mut drawn_m3, mut sun_j, mut need_j) = ([0.0; 24], [0.0; 24], [0.0; 24]);
    for draw in &forcing.draws {
        let minute = draw.minute as usize;
        if !counts(minute / 1440) {
            continue;
        }
        let hour = minute % 1440 / 60;
        let rise_k = (tap.delivery_k - forcing.hours[minute / 60].mains_k).max(0.0);
        let needs_j = draw.volume_m3 * plant.store.volume_heat_j_m3_k * rise_k;
        let given = |series: &[f32]| f64::from(series[minute]).clamp(0.0, needs_j);
        drawn_m3[hour] += draw.volume_m3 / days;
        need_j[hour] += needs_j;
        sun_j[hour] += given(heat_j) - given(twin_j);
    }
    if drawn_m3.iter().all(|&volume_m3| volume_m3 == 0.0) {
        return Ok(None);
    }
    let sun_share = std::array::from_fn(|hour| match need_j[hour] {
        0.0 => 0.0,
        whole_j => (sun_j[hour] / whole_j).clamp(0.0, 1.0),
    });
    Ok(Some(DrawDay { drawn_m3, sun_share }))
}
