//! A year of weather by the hour, and what each row means in time.

/// Hours in the year the program marches: 29 February is never part of it.
pub const HOURS_PER_YEAR: usize = 8760;

/// Days before each month in a year of 365 days, with the year's end as a thirteenth entry.
pub const MONTH_STARTS_DAY: [usize; 13] =
    [0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334, 365];

/// The month (0 January to 11 December) of a day of a 365-day year (0 to 364).
pub fn month_of_day(day: usize) -> usize {
    MONTH_STARTS_DAY[1..12].partition_point(|&start| start <= day)
}

/// Means by month of a column of hours from 1 January 00:00 on, in its own unit.
///
/// A month without an hour has no mean: it is no number.
pub fn monthly_means(column: &[f64]) -> [f64; 12] {
    let (mut sums, mut counts) = ([0.0; 12], [0.0; 12]);
    for (hour, value) in column.iter().enumerate() {
        let month = month_of_day(hour / 24);
        sums[month] += value;
        counts[month] += 1.0;
    }
    std::array::from_fn(|month| sums[month] / counts[month])
}

/// What the irradiance in a row stands for.
///
/// Row `r` counts from 0 at the file's own 1 January 00:00, in the file's own clock.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Stamp {
    /// The mean over the hour from `r` to `r + 1`.
    HourMean,
    /// The value at the instant `r + offset_h`.
    Instant {
        /// Hours after the row's number at which the value holds.
        offset_h: f64,
    },
}

/// Hourly weather columns of one year at one place, as read, in SI.
///
/// Every column has [`HOURS_PER_YEAR`] rows. Row 0 is the file's own first hour of 1 January.
#[derive(Clone, Debug, PartialEq)]
pub struct Climate {
    /// Where the data come from, in a few words: format, and who gives it out.
    pub origin: String,
    /// Latitude, north positive.
    pub latitude: crate::Angle,
    /// Longitude, east positive.
    pub longitude: crate::Angle,
    /// Height above the sea \[m\]; `None` where the file does not say.
    pub elevation_m: Option<f64>,
    /// The file's clock ahead of UTC \[h\]: 0 for UTC files, the zone for local standard time.
    pub clock_ahead_h: f64,
    /// What a row's irradiance means.
    pub stamp: Stamp,
    /// When a row's air, wind and dew readings hold, in hours after the row's number.
    pub reading_offset_h: f64,
    /// Global irradiance on the horizontal \[W/m2\], 0 to 1500.
    pub global_w_m2: Vec<f64>,
    /// Beam irradiance on a plane facing the sun \[W/m2\], 0 to 1400.
    pub beam_normal_w_m2: Vec<f64>,
    /// Diffuse irradiance on the horizontal \[W/m2\], 0 to 1000.
    pub diffuse_w_m2: Vec<f64>,
    /// Air temperature \[K\].
    pub air_k: Vec<f64>,
    /// Dew point \[K\].
    pub dew_point_k: Vec<f64>,
    /// Wind speed 10 m above open ground \[m/s\].
    pub wind_m_s: Vec<f64>,
    /// Infrared from the sky on the horizontal \[W/m2\]; `None` where the file carries none.
    pub sky_infrared_w_m2: Option<Vec<f64>>,
    /// Coldest night and hottest spell, where the file's header states them beside its typical year.
    pub extremes: DesignExtremes,
}

/// Extremes of the air over many years, each only where a weather file states it.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct DesignExtremes {
    /// Coldest air to be reckoned with \[K\].
    pub coldest_air_k: Option<f64>,
    /// Hottest air to be reckoned with \[K\].
    pub hottest_air_k: Option<f64>,
}
