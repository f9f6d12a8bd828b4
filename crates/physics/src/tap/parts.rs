//! What a build says of its household.

/// The tap's part of a build.
#[derive(Clone, Debug, PartialEq)]
pub struct Tap {
    /// The draws of a day, in any order; empty for a household that draws nothing.
    pub draws: Vec<Draw>,
    /// Share of those draws by month, January first; 1 for a plain month.
    pub month_factor: [f64; 12],
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
}

/// Days from one to another, both counted, in a year of 365 (0 is 1 January).
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct DaySpan {
    /// First day.
    pub first: u16,
    /// Last day; before `first` where the span runs over New Year.
    pub last: u16,
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
    Instantaneous,
}
