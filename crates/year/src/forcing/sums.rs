//! The light of a year as it is summed up, minute by minute.

use physics::Climate;
use physics::climate::{HOURS_PER_YEAR, month_of_day};
use physics::sun::{Light, PlaneLight, Slope, Sun, SunError, sky_on_plane};

use super::OpticsTable;
use super::hour_sun::MinuteSun;
use super::light::MinuteLight;
use super::shading::Shading;
use super::shape::{Level, MINUTES};
use crate::MINUTES_PER_YEAR;

/// What the panel brings to every minute.
pub(super) struct PanelSun<'a> {
    sun: &'a Sun,
    optics: &'a OpticsTable,
    shading: Shading<'a>,
    slope: Slope,
    /// Minutes that the household's clock runs ahead of the file's.
    ahead_min: i64,
}

impl<'a> PanelSun<'a> {
    pub(super) fn of(
        climate: &Climate,
        sun: &'a Sun,
        optics: &'a OpticsTable,
    ) -> Result<Self, SunError> {
        let ahead_h = sun.place.clock_ahead_h - climate.clock_ahead_h;
        // From 12 h behind UTC to 14 h ahead of it.
        if !(-26.0..=26.0).contains(&ahead_h) {
            return Err(SunError::OutOfRange {
                quantity: "household's clock ahead of the weather's [h]",
                value: ahead_h,
                lowest: -26.0,
                highest: 26.0,
            });
        }
        let ahead_min = (ahead_h * MINUTES as f64).round() as i64;
        let (shading, slope) = (Shading::of(sun), Slope::of(sun.plane.tilt));
        Ok(PanelSun { sun, optics, shading, slope, ahead_min })
    }

    /// The household's minute of the year at which an hour of the file begins.
    pub(super) fn household_minute(&self, file_hour: usize) -> usize {
        let minute = (file_hour * MINUTES) as i64 + self.ahead_min;
        minute.rem_euclid(MINUTES_PER_YEAR as i64) as usize
    }
}

/// The year as it is summed up.
pub(super) struct Sums {
    absorbed_w_m2: Vec<f32>,
    plane_w_m2: Vec<f64>,
    /// By hour of the household \[W/m2\].
    global_w_m2: Vec<f64>,
    open_plane_kwh_m2: [f64; 12],
    walls_kwh_m2: [f64; 12],
}

impl Sums {
    pub(super) fn new() -> Self {
        Sums {
            absorbed_w_m2: vec![0.0; MINUTES_PER_YEAR],
            plane_w_m2: vec![0.0; HOURS_PER_YEAR],
            global_w_m2: vec![0.0; HOURS_PER_YEAR],
            open_plane_kwh_m2: [0.0; 12],
            walls_kwh_m2: [0.0; 12],
        }
    }

    #[inline]
    pub(super) fn add(
        &mut self,
        at: usize,
        panel: &PanelSun,
        minute: &MinuteSun,
        level: &Level,
        (beam_factor, bright_factor): (f64, f64),
    ) {
        /// Kilowatt-hours in a watt for a minute.
        const KWH_W_MIN: f64 = 1.0 / 60_000.0;
        let household_hour = at / MINUTES;
        let month = month_of_day(household_hour / 24);
        let optics = panel.optics;
        let cos_incidence = minute.direction.cos_incidence;
        let smooth = sky_on_plane(
            panel.sun.sky_model,
            &Light {
                global_w_m2: level.global_w_m2,
                diffuse_w_m2: level.diffuse_w_m2,
                beam_normal_w_m2: level.beam_normal_w_m2,
                extraterrestrial_normal_w_m2: minute.extraterrestrial_normal_w_m2,
                cos_zenith: minute.cos_zenith,
                cos_incidence,
                slope: panel.slope,
                albedo: panel.sun.albedo[month],
            },
        );
        // A cloud takes some of the bright sky round the sun with it.
        let light = PlaneLight {
            beam_w_m2: smooth.beam_w_m2 * beam_factor,
            circumsolar_w_m2: smooth.circumsolar_w_m2 * bright_factor,
            ..smooth
        };
        self.open_plane_kwh_m2[month] += light.total_w_m2() * KWH_W_MIN;
        let light = panel.shading.leave(light, at, minute.behind_horizon);
        let lit = optics.lit_share(&minute.direction);
        self.walls_kwh_m2[month] += optics.on_walls_w_m2(lit, &light) * KWH_W_MIN;
        let absorbed_w_m2 =
            lit * optics.beam(cos_incidence) * (light.beam_w_m2 + light.circumsolar_w_m2)
                + optics.sky() * light.isotropic_w_m2
                + optics.band() * light.horizon_w_m2
                + optics.ground() * light.ground_w_m2;
        // A darker horizon may take a little more than a steep plane's sky brings; a sheet does not
        // shine.
        self.absorbed_w_m2[at] = absorbed_w_m2.max(0.0) as f32;
        self.plane_w_m2[household_hour] += light.total_w_m2() / MINUTES as f64;
        self.global_w_m2[household_hour] += level.global_w_m2 / MINUTES as f64;
    }

    pub(super) fn finish(self) -> MinuteLight {
        let months = |hours: &[f64]| {
            let mut sums_kwh_m2 = [0.0; 12];
            for (hour, flux_w_m2) in hours.iter().enumerate() {
                sums_kwh_m2[month_of_day(hour / 24)] += flux_w_m2 / 1_000.0;
            }
            sums_kwh_m2
        };
        MinuteLight {
            horizontal_kwh_m2: months(&self.global_w_m2),
            plane_kwh_m2: months(&self.plane_w_m2),
            open_plane_kwh_m2: self.open_plane_kwh_m2,
            walls_kwh_m2: self.walls_kwh_m2,
            plane_w_m2: self.plane_w_m2.iter().map(|&flux_w_m2| flux_w_m2 as f32).collect(),
            absorbed_w_m2: self.absorbed_w_m2,
        }
    }
}
