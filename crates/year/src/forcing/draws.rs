//! The household's draws by the minute.

use physics::climate::month_of_day;
use physics::store::{Feed, Store};
use physics::tap::Tap;

/// Water drawn in one minute.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DrawMinute {
    /// Minute of the year, 0 to 525 599.
    pub minute: u32,
    /// Water drawn in it, evenly \[m3\].
    pub volume_m3: f64,
}

const MINUTES_PER_DAY: usize = 1440;

/// A year's draws, in order, one entry a minute; draws that overlap are added.
///
/// A draw past midnight on 31 December runs on into 1 January, as the year is taken as a ring.
pub fn draw_minutes(tap: &Tap) -> Vec<DrawMinute> {
    let mut volume_m3 = vec![0.0; crate::MINUTES_PER_YEAR];
    for day in 0..365 {
        if tap.holidays.iter().any(|span| span.holds(day)) {
            continue;
        }
        let factor = tap.month_factor[month_of_day(day)];
        let weekday = tap.first_weekday.after(day);
        for draw in tap.draws.iter().filter(|draw| draw.days.holds(weekday)) {
            let minutes = usize::from(draw.minutes.max(1));
            let each_m3 = draw.volume_m3 * factor / minutes as f64;
            let first = day * MINUTES_PER_DAY + usize::from(draw.start_min);
            for minute in first..first + minutes {
                volume_m3[minute % crate::MINUTES_PER_YEAR] += each_m3;
            }
        }
    }
    volume_m3
        .into_iter()
        .enumerate()
        .filter(|&(_, volume_m3)| volume_m3 > 0.0)
        .map(|(minute, volume_m3)| DrawMinute { minute: minute as u32, volume_m3 })
        .collect()
}

/// Water that something else the store feeds takes in one minute.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FeedMinute {
    /// Minute of the year, 0 to 525 599.
    pub minute: u32,
    /// Place of what takes it in [`Store::feeds`].
    pub feed: usize,
    /// Water taken in it, evenly \[m3\].
    pub volume_m3: f64,
}

/// How far the draws of a feed stand apart \[min\].
const FEED_EVERY_MIN: usize = 15;

/// A year of what else a store feeds, in order of time.
///
/// What a feed takes in a day is spread over its hours, a minute's draw every quarter of an hour.
/// On the household's holidays nothing is taken. Hours over midnight run on into the next day, and
/// from the last day into the first.
pub fn feed_minutes(store: &Store, tap: &Tap) -> Vec<FeedMinute> {
    let mut minutes = Vec::new();
    for day in 0..365 {
        if tap.holidays.iter().any(|span| span.holds(day)) {
            continue;
        }
        for (feed, what) in store.feeds.iter().enumerate() {
            let draws = (long_min(what) / FEED_EVERY_MIN).max(1);
            let first = day * MINUTES_PER_DAY + usize::from(what.hours.from_min);
            minutes.extend((0..draws).map(|draw| FeedMinute {
                minute: ((first + draw * FEED_EVERY_MIN) % crate::MINUTES_PER_YEAR) as u32,
                feed,
                volume_m3: what.day_m3 / draws as f64,
            }));
        }
    }
    minutes.retain(|minute| minute.volume_m3 > 0.0);
    minutes.sort_by_key(|minute| (minute.minute, minute.feed));
    minutes
}

/// Length of a feed's hours \[min\].
fn long_min(feed: &Feed) -> usize {
    let (from, to) = (usize::from(feed.hours.from_min), usize::from(feed.hours.to_min));
    (to + MINUTES_PER_DAY - from) % MINUTES_PER_DAY
}

#[cfg(test)]
mod tests {
    use super::draw_minutes;
    use physics::ZERO_CELSIUS_K;
    use physics::tap::{DaySpan, Draw, DrawDays, Heater, Inlet, Mains, Tap, Weekday};

    fn tap(draws: Vec<Draw>, holidays: Vec<DaySpan>) -> Tap {
        Tap {
            draws,
            month_factor: [1.0; 12],
            first_weekday: Weekday::Monday,
            holidays,
            delivery_k: ZERO_CELSIUS_K + 55.0,
            mains: Mains::Monthly([ZERO_CELSIUS_K + 10.0; 12]),
            heater: Heater::Instantaneous(Inlet::Any),
        }
    }

    /// Given 50 l over 10 minutes each day, 5 l a minute from the stated minute, 365 times:
    /// counted by hand.
    #[test]
    fn a_draw_spreads_over_its_minutes_each_day() {
        let draw = Draw { start_min: 420, minutes: 10, volume_m3: 0.05, days: DrawDays::Every };
        let minutes = draw_minutes(&tap(vec![draw], Vec::new()));
        assert_eq!(minutes.len(), 3650);
        assert_eq!(minutes[0].minute, 420);
        assert!((minutes[0].volume_m3 - 0.005).abs() < 1e-15);
        let total_m3: f64 = minutes.iter().map(|draw| draw.volume_m3).sum();
        assert!((total_m3 - 18.25).abs() < 1e-9);
    }

    /// Given a holiday over New Year (27 December to 5 January: 10 days), those draws are missing
    /// and nothing else.
    #[test]
    fn a_holiday_over_new_year_takes_its_days_out() {
        let draw = Draw { start_min: 0, minutes: 1, volume_m3: 0.01, days: DrawDays::Every };
        let span = DaySpan { first: 360, last: 4 };
        let minutes = draw_minutes(&tap(vec![draw], vec![span]));
        assert_eq!(minutes.len(), 355);
        assert_eq!(minutes[0].minute, 5 * 1440);
    }

    /// Given a draw that starts five minutes before midnight, it goes on into the next day, from
    /// the last day into the first.
    #[test]
    fn a_draw_runs_past_midnight() {
        let draw = Draw { start_min: 1435, minutes: 10, volume_m3: 0.01, days: DrawDays::Every };
        let minutes = draw_minutes(&tap(vec![draw], Vec::new()));
        assert_eq!(minutes.len(), 3650);
        assert_eq!(minutes[0].minute, 0);
    }

    /// Given a weekend draw in a year that begins on a Monday, 104 days have it: 52 Saturdays and
    /// Sundays; a weekday draw stands on the other 261.
    #[test]
    fn a_draw_keeps_its_days() {
        let draw = |days| Draw { start_min: 600, minutes: 1, volume_m3: 0.01, days };
        let days = |kind| draw_minutes(&tap(vec![draw(kind)], Vec::new()));
        assert_eq!(days(DrawDays::Weekend).len(), 104);
        assert_eq!(days(DrawDays::Weekdays).len(), 261);
        assert_eq!(days(DrawDays::Weekend)[0].minute, 5 * 1440 + 600);
    }
}
