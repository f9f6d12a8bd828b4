//! What a build says of its household.

/// The tap's part of a build.
#[derive(Clone, Debug, PartialEq)]
pub struct Tap {
    /// The draws of a day, in any order; empty for a household that draws nothing.
    pub draws: Vec<Draw>,
    /// Share of those draws by month, January first; 1 for a plain month.
    pub month_factor: [f64; 12],
    /// Which day of the week 1 January is.
    pub first_weekday: Weekday,
    /// Days without any draw.
    pub holidays: Vec<DaySpan>,
    /// Temperature at which hot water is wanted \[K\].
    pub delivery_k: f64,
    /// Temperature of the cold water that refills the store.
    pub mains: Mains,
    /// What tops up after the store.
    pub heater: Heater,
}

/// One draw of a day.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Draw {
    /// Minute of the day at which it starts, 0 to 1439, standard time.
    pub start_min: u16,
    /// How long it runs \[min\], 1 or more; it may run past midnight.
    pub minutes: u16,
    /// Water through store and heater in all \[m3\].
    pub volume_m3: f64,
    /// Days on which it is drawn.
    pub days: DrawDays,
}

/// Days of the week on which a draw is drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum DrawDays {
    /// All seven.
    Every,
    /// Monday to Friday.
    Weekdays,
    /// Saturday and Sunday.
    Weekend,
}

impl DrawDays {
    /// Whether it is drawn on a day of the week.
    pub fn holds(self, day: Weekday) -> bool {
        let weekend = matches!(day, Weekday::Saturday | Weekday::Sunday);
        match self {
            DrawDays::Every => true,
            DrawDays::Weekdays => !weekend,
            DrawDays::Weekend => weekend,
        }
    }
}

/// A day of the week.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Weekday {
    /// The first day of the working week.
    Monday,
    /// The second.
    Tuesday,
    /// The third.
    Wednesday,
    /// The fourth.
    Thursday,
    /// The fifth.
    Friday,
    /// The first of the weekend.
    Saturday,
    /// The second of the weekend.
    Sunday,
}

impl Weekday {
    /// Monday first.
    pub const ALL: [Weekday; 7] = [
        Weekday::Monday,
        Weekday::Tuesday,
        Weekday::Wednesday,
        Weekday::Thursday,
        Weekday::Friday,
        Weekday::Saturday,
        Weekday::Sunday,
    ];

    /// The day of the week so many days later.
    pub fn after(self, days: usize) -> Weekday {
        Weekday::ALL[(self as usize + days) % 7]
    }
}

/// Days from one to another, both counted, in a year of 365 (0 is 1 January).
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct DaySpan {
    /// First day.
    pub first: u16,
    /// Last day; before `first` where the span runs over New Year.
    pub last: u16,
}

impl DaySpan {
    /// Whether a day (0 to 364) lies in it.
    pub fn holds(&self, day: usize) -> bool {
        let (first, last) = (usize::from(self.first), usize::from(self.last));
        if first <= last { (first..=last).contains(&day) } else { day >= first || day <= last }
    }
}

/// How cold the cold water is through the year.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Mains {
    /// Twelve monthly means \[K\], January first, joined by straight lines through mid-months.
    Monthly([f64; 12]),
    /// A sinusoid through the year.
    Sinusoid {
        /// Mean of the year \[K\].
        mean_k: f64,
        /// Half the difference between warmest and coldest day \[K\].
        swing_k: f64,
        /// Coldest day of the year, 0 to 364.
        coldest_day: f64,
    },
    /// Burch and Christensen 2007, from the climate's own air.
    FromClimate,
}

/// What tops up after the store.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Heater {
    /// A cylinder kept at the delivery temperature.
    Cylinder {
        /// Water in it \[m3\].
        volume_m3: f64,
        /// Standing loss \[W/K\].
        loss_w_k: f64,
        /// Air around it \[K\].
        room_k: f64,
    },
    /// Heats what passes, when it passes.
    Instantaneous(Inlet),
}

/// How warm the water may be that enters an instantaneous heater.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Inlet {
    /// As it comes.
    Any,
    /// A mixing valve before the heater tempers the store's water with mains: where it is too warm,
    /// less of it is drawn.
    Tempered {
        /// Highest temperature let in \[K\].
        highest_k: f64,
    },
    /// No valve: above its limit the heater stays off, and the water passes as it is.
    LockedOut {
        /// Temperature above which it stays off \[K\].
        highest_k: f64,
    },
}

impl Inlet {
    /// Share of a draw that comes out of the store, the rest being mains.
    ///
    /// ```text
    /// s = (limit - mains)/(store - mains)      where the store is warmer than the limit
    /// ```
    ///
    /// `store_k`, `mains_k`: absolute \[K\]. Returns 0 to 1; 1 without a valve, 0 with one where the
    /// mains itself is as warm as the limit.
    pub fn store_share(&self, store_k: f64, mains_k: f64) -> f64 {
        match *self {
            Inlet::Tempered { highest_k } if store_k > highest_k => {
                ((highest_k - mains_k) / (store_k - mains_k)).clamp(0.0, 1.0)
            }
            _ => 1.0,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::{DrawDays, Inlet, Weekday};

    /// Given 45 C store, 10 C mains and a limit of 25 C, three sevenths of the water are the store's
    /// (by hand); below the limit, or without a valve, all of it.
    #[test]
    fn a_valve_tempers_by_the_mixing_rule() {
        let valve = Inlet::Tempered { highest_k: 298.15 };
        assert!((valve.store_share(318.15, 283.15) - 15.0 / 35.0).abs() < 1e-12);
        assert_eq!(valve.store_share(298.0, 283.15), 1.0);
        assert_eq!(valve.store_share(318.15, 299.0), 0.0);
        assert_eq!(Inlet::LockedOut { highest_k: 298.15 }.store_share(318.15, 283.15), 1.0);
    }

    /// Given a year that begins on a Friday, its second day is a Saturday and its fourth a Monday.
    #[test]
    fn the_week_goes_round() {
        assert_eq!(Weekday::Friday.after(1), Weekday::Saturday);
        assert_eq!(Weekday::Friday.after(3), Weekday::Monday);
        let weekend = (0..365).filter(|&day| DrawDays::Weekend.holds(Weekday::Friday.after(day)));
        // 52 whole weeks and the year's last day, a Friday again.
        assert_eq!(weekend.count(), 104);
    }
}
