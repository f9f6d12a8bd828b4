//! A recorded channel thinned for a screen: the least and the most of every few minutes, so that no
//! peak is lost however far one stands off, and means over steps for the table beside it.

use year::{Channel, MINUTES_PER_YEAR};

/// A stretch of the year, in minutes from its start, the end not in it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Stretch {
    /// The first minute.
    pub from: usize,
    /// The minute after the last.
    pub to: usize,
}

/// The shortest stretch that is shown: an hour.
pub const SHORTEST: usize = 60;

/// Widths of a bucket, in minutes. Each divides the day, so that a bucket stands where it stood when
/// one moves along, and nothing flickers.
const WIDTHS: [usize; 13] = [1, 2, 3, 5, 10, 15, 30, 60, 120, 180, 360, 720, 1440];

impl Stretch {
    /// The whole year.
    pub const YEAR: Stretch = Stretch { from: 0, to: MINUTES_PER_YEAR };

    /// A stretch inside the year and at least an hour long, whatever is asked for.
    pub fn within(from: i64, to: i64) -> Stretch {
        let year = MINUTES_PER_YEAR as i64;
        let length = to.saturating_sub(from).clamp(SHORTEST as i64, year);
        let from = from.clamp(0, year - length);
        Stretch { from: from as usize, to: (from + length) as usize }
    }

    /// How many minutes it holds.
    pub fn minutes(self) -> usize {
        self.to - self.from
    }

    /// The minute in its middle.
    pub fn middle(self) -> usize {
        self.from + self.minutes() / 2
    }

    /// The narrowest bucket that shows it in no more than so many.
    pub fn bucket_minutes(self, most_buckets: usize) -> usize {
        let fits = |width: &usize| self.minutes().div_ceil(*width) <= most_buckets;
        WIDTHS.into_iter().find(fits).unwrap_or(WIDTHS[WIDTHS.len() - 1])
    }

    /// The stretch widened to whole buckets.
    fn whole_buckets(self, bucket_minutes: usize) -> Stretch {
        Stretch {
            from: self.from / bucket_minutes * bucket_minutes,
            to: (self.to.div_ceil(bucket_minutes) * bucket_minutes).min(MINUTES_PER_YEAR),
        }
    }
}

/// A series over a stretch: every minute where a bucket is one, else two values a bucket, its least and
/// its most.
///
/// `series`: a value for each minute of the year.
pub fn thinned(series: &[f32], stretch: Stretch, bucket_minutes: usize) -> Vec<f32> {
    let whole = stretch.whole_buckets(bucket_minutes);
    let minutes = &series[whole.from..whole.to];
    if bucket_minutes == 1 {
        return minutes.to_vec();
    }
    minutes.chunks(bucket_minutes).flat_map(least_and_most).collect()
}

/// The minutes at which the buckets of [`thinned`] begin.
pub fn places(stretch: Stretch, bucket_minutes: usize) -> Vec<f32> {
    let whole = stretch.whole_buckets(bucket_minutes);
    (whole.from..whole.to).step_by(bucket_minutes).map(|minute| minute as f32).collect()
}

/// The bytes of a column as the page fetches it: 32-bit floats, little end first.
pub fn bytes(values: &[f32]) -> Vec<u8> {
    values.iter().flat_map(|value| value.to_le_bytes()).collect()
}

/// The mean of some minutes of a channel; of water, the sum.
pub fn summed_up(channel: Channel, minutes: &[f32]) -> f64 {
    let sum: f64 = minutes.iter().map(|&value| f64::from(value)).sum();
    match channel {
        Channel::Draw | Channel::Discharge => sum,
        _ => sum / minutes.len() as f64,
    }
}

fn least_and_most(bucket: &[f32]) -> [f32; 2] {
    bucket.iter().fold([f32::INFINITY, f32::NEG_INFINITY], |[least, most], value| {
        [least.min(*value), most.max(*value)]
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    /// Given a year with one hot and one cold minute, both stand in the year thinned to 900 buckets,
    /// in their own bucket and no other.
    #[test]
    fn no_peak_is_lost() {
        let mut series = vec![20.0_f32; MINUTES_PER_YEAR];
        series[100_003] = 90.0;
        series[100_001] = -5.0;
        let bucket = Stretch::YEAR.bucket_minutes(900);
        assert_eq!(bucket, 720);
        let thin = thinned(&series, Stretch::YEAR, bucket);
        assert_eq!(thin.len(), 2 * 730);
        assert_eq!(places(Stretch::YEAR, bucket).len(), 730);
        let hit = 100_001 / 720;
        assert_eq!(thin[2 * hit..2 * hit + 2], [-5.0, 90.0]);
        assert_eq!(thin.iter().filter(|value| **value != 20.0).count(), 2);
    }

    /// Given an hour, each of its minutes is there as recorded.
    #[test]
    fn an_hour_is_shown_whole() {
        let series: Vec<f32> = (0..MINUTES_PER_YEAR).map(|minute| minute as f32).collect();
        let hour = Stretch::within(600, 660);
        assert_eq!(hour.bucket_minutes(900), 1);
        assert_eq!(thinned(&series, hour, 1), series[600..660]);
        assert_eq!(places(hour, 1), series[600..660]);
    }

    /// Given values that four bytes hold, the bytes are the format's own (IEEE 754: 1.0 is 3F800000).
    #[test]
    fn bytes_are_little_end_first() {
        assert_eq!(bytes(&[1.0, -2.0]), [0, 0, 0x80, 0x3f, 0, 0, 0, 0xc0]);
    }

    /// Given an hour of water, its sum; of warmth, its mean.
    #[test]
    fn water_is_summed_and_warmth_averaged() {
        let minutes = [1.0_f32; 60];
        assert_eq!(summed_up(Channel::Draw, &minutes), 60.0);
        assert_eq!(summed_up(Channel::StoreTop, &minutes), 1.0);
    }

    proptest! {
        /// Whatever is asked for, the stretch lies in the year, is an hour at least, and as long as
        /// asked for where that can be.
        #[test]
        fn a_stretch_lies_in_the_year(from in any::<i64>(), to in any::<i64>()) {
            let stretch = Stretch::within(from, to);
            prop_assert!(stretch.minutes() >= SHORTEST && stretch.to <= MINUTES_PER_YEAR);
            if let Some(length) = to.checked_sub(from)
                && (60..=525_600).contains(&length)
            {
                prop_assert_eq!(stretch.minutes() as i64, length);
            }
        }

        /// Whatever the stretch and the screen, thinning keeps the least and the most of what it
        /// covers, invents no value, and gives each bucket its place.
        #[test]
        fn thinning_keeps_the_ends(from in 0_i64..525_540, length in 60_i64..40_000, most in 50_usize..2000) {
            let series: Vec<f32> =
                (0..MINUTES_PER_YEAR).map(|minute| ((minute * 7919) % 10_007) as f32).collect();
            let stretch = Stretch::within(from, from + length);
            let bucket = stretch.bucket_minutes(most);
            prop_assert!(stretch.minutes().div_ceil(bucket) <= most || bucket == 1440);
            let thin = thinned(&series, stretch, bucket);
            let places = places(stretch, bucket);
            prop_assert_eq!(thin.len(), if bucket == 1 { places.len() } else { 2 * places.len() });
            prop_assert!(places[0] <= stretch.from as f32 && places.is_sorted());
            let shown = &series[stretch.from..stretch.to];
            let most_of = |values: &[f32]| values.iter().copied().fold(f32::MIN, f32::max);
            let least_of = |values: &[f32]| values.iter().copied().fold(f32::MAX, f32::min);
            prop_assert!(most_of(&thin) >= most_of(shown) && least_of(&thin) <= least_of(shown));
            prop_assert!(thin.iter().all(|value| *value < 10_007.0 && value.fract() == 0.0));
        }
    }
}
