//! Where the sun stands through an hour of a weather file.

use physics::Climate;
use physics::sun::{
    Direction, DiurnalCosine, Instant, PanelAxes, PanelDirection, Sun, SunError, almanac,
    hour_angle,
};

use super::shape::MINUTES;

/// The year whose sun is used: an ordinary one in the middle of the leap-year round, so that the sun
/// stands as it does in the mean of the years a typical year is glued from.
const SUN_YEAR: i32 = 2021;

/// The sun through the sixty minutes of one hour of the file.
pub(super) struct HourSun {
    /// Hours since the file's own 1 January 00:00.
    pub(super) file_hour: usize,
    pub(super) extraterrestrial_normal_w_m2: f64,
    /// At the middle of each minute.
    pub(super) cos_zenith: [f64; MINUTES],
    /// As the panel sees it.
    pub(super) direction: [PanelDirection; MINUTES],
    /// Whether the far horizon stands before the sun.
    pub(super) behind_horizon: [bool; MINUTES],
}

impl HourSun {
    pub(super) fn of(climate: &Climate, sun: &Sun, file_hour: usize) -> Result<Self, SunError> {
        let slow = almanac(days_since_j2000(climate, file_hour as f64 + 0.5))?;
        let zenith = DiurnalCosine::zenith(climate.latitude, slow.declination);
        let axes = PanelAxes::of(&sun.plane);
        let along = |axis| DiurnalCosine::with(axis, climate.latitude, slow.declination);
        let (across, up_slope, normal) =
            (along(&axes.across), along(&axes.up_slope), along(&axes.normal));
        let first_h = file_hour as f64 + 0.5 / MINUTES as f64;
        let w = hour_angle(&slow, climate.longitude, days_since_j2000(climate, first_h));
        let (mut cos_w, mut sin_w) = (w.cos(), w.sin());
        let minute_turn_rad = std::f64::consts::TAU / (24.0 * MINUTES as f64);
        let (cos_turn, sin_turn) = (minute_turn_rad.cos(), minute_turn_rad.sin());
        let mut cos_zenith = [0.0; MINUTES];
        let mut direction = [PanelDirection::STRAIGHT; MINUTES];
        let mut behind_horizon = [false; MINUTES];
        let east = along(&Direction { east: 1.0, north: 0.0, up: 0.0 });
        let north = along(&Direction { east: 0.0, north: 1.0, up: 0.0 });
        let open = sun.horizon.is_open();
        for minute in 0..MINUTES {
            cos_zenith[minute] = zenith.at(cos_w, sin_w);
            direction[minute] = PanelDirection {
                across: across.at(cos_w, sin_w),
                up_slope: up_slope.at(cos_w, sin_w),
                cos_incidence: normal.at(cos_w, sin_w),
            };
            behind_horizon[minute] = !open
                && sun.horizon.hides(&Direction {
                    east: east.at(cos_w, sin_w),
                    north: north.at(cos_w, sin_w),
                    up: cos_zenith[minute],
                });
            (cos_w, sin_w) =
                (cos_w * cos_turn - sin_w * sin_turn, sin_w * cos_turn + cos_w * sin_turn);
        }
        let extraterrestrial_normal_w_m2 = slow.extraterrestrial_normal_w_m2;
        Ok(HourSun {
            file_hour,
            extraterrestrial_normal_w_m2,
            cos_zenith,
            direction,
            behind_horizon,
        })
    }

    pub(super) fn minute(&self, minute: usize) -> MinuteSun {
        MinuteSun {
            extraterrestrial_normal_w_m2: self.extraterrestrial_normal_w_m2,
            cos_zenith: self.cos_zenith[minute],
            direction: self.direction[minute],
            behind_horizon: self.behind_horizon[minute],
        }
    }
}

/// The sun at the middle of one minute.
pub(super) struct MinuteSun {
    pub(super) extraterrestrial_normal_w_m2: f64,
    pub(super) cos_zenith: f64,
    /// Of the sun, as the panel sees it.
    pub(super) direction: PanelDirection,
    pub(super) behind_horizon: bool,
}

/// Days since J2000 of an hour of the file's clock.
pub(super) fn days_since_j2000(climate: &Climate, file_hour: f64) -> f64 {
    let hour = file_hour - climate.clock_ahead_h;
    Instant { year: SUN_YEAR, month: 1, day: 1, hour }.days_since_j2000()
}
