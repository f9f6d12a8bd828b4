//! Air, sky, wind, loft and mains by the hour of the household's clock.

use physics::climate::HOURS_PER_YEAR;
use physics::store::cistern::loft_k;
use physics::sun::{
    Instant, PANEL_HEIGHT_M, SkyAir, almanac, cloud_crawford_duchon_1999, day_above_air_j_m2,
    shelter_factor, sky_temperature, wind_film_w_m2_k,
};
use physics::tap::mains::{AirYear, mains_k};
use physics::{Build, Climate, ZERO_CELSIUS_K};

use crate::YearError;

/// What holds through one hour.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HourForcing {
    /// Air outdoors \[K\].
    pub air_k: f64,
    /// Sky as the cover radiates to it \[K\].
    pub sky_k: f64,
    /// Film from cover to air \[W/(m2 K)\].
    pub wind_film_w_m2_k: f64,
    /// Air in the loft \[K\].
    pub loft_k: f64,
    /// Cold water that refills the store \[K\].
    pub mains_k: f64,
    /// Dew point of the loft's air \[K\]: that of outdoors.
    pub dew_point_k: f64,
}

/// Water in a main that flows is not colder \[K\].
const COLDEST_MAINS_K: f64 = ZERO_CELSIUS_K + 0.5;

/// Makes the hours of a year from a climate's readings.
///
/// Readings are taken at the middle of each hour of the household's clock, by straight lines
/// between the file's. `plane_w_m2`: irradiance in the panel's plane, by the hour, 8760 values; it
/// warms the loft.
///
/// # Errors
/// Readings beyond what the relations cover, named with their number.
pub fn hour_forcing(
    build: &Build,
    climate: &Climate,
    plane_w_m2: &[f32],
) -> Result<Vec<HourForcing>, YearError> {
    let weather = |error: physics::sun::SunError| YearError::Weather(error.to_string());
    let reach = shelter_factor(build.sun.shelter, PANEL_HEIGHT_M).map_err(weather)?;
    let reader = Reader::of(build, climate);
    let clouds = day_clouds(build, climate)?;
    let year = AirYear::of(climate);
    (0..HOURS_PER_YEAR)
        .map(|hour| {
            let air_k = reader.at(&climate.air_k, hour);
            let dew_point_k = reader.at(&climate.dew_point_k, hour);
            let sky_k = sky_temperature(
                build.sun.sky_temperature,
                &SkyAir {
                    air_k,
                    dew_point_k,
                    after_midnight_h: reader.solar_hour(build, hour),
                    cloud: clouds[hour / 24],
                    infrared_w_m2: climate
                        .sky_infrared_w_m2
                        .as_ref()
                        .map(|infrared| reader.at(infrared, hour)),
                },
            )
            .map_err(weather)?;
            let wind_m_s = reach * reader.at(&climate.wind_m_s, hour);
            Ok(HourForcing {
                air_k,
                sky_k,
                wind_film_w_m2_k: wind_film_w_m2_k(build.sun.wind_film, wind_m_s)
                    .map_err(weather)?,
                loft_k: loft_k(&build.store.loft, air_k, f64::from(plane_w_m2[hour])),
                mains_k: mains_k(&build.tap.mains, hour as f64 / 24.0, &year)
                    .map_err(|error| YearError::Weather(error.to_string()))?
                    .max(COLDEST_MAINS_K),
                dew_point_k,
            })
        })
        .collect()
}

/// Reads a file's columns on the household's clock.
struct Reader {
    /// Rows ahead of the household's hour, at its middle.
    ahead: f64,
}

impl Reader {
    fn of(build: &Build, climate: &Climate) -> Reader {
        let shift_h = climate.clock_ahead_h - build.sun.place.clock_ahead_h;
        Reader { ahead: shift_h + 0.5 - climate.reading_offset_h }
    }

    /// A column at the middle of an hour, the year taken as a ring.
    fn at(&self, column: &[f64], hour: usize) -> f64 {
        let row = (hour as f64 + self.ahead).rem_euclid(column.len() as f64);
        let before = row as usize % column.len();
        let after = (before + 1) % column.len();
        column[before] + row.fract() * (column[after] - column[before])
    }

    /// Hours since the sun's midnight, to a quarter of an hour.
    fn solar_hour(&self, build: &Build, hour: usize) -> f64 {
        let place = &build.sun.place;
        let behind_h = place.longitude.degrees() / 15.0 - place.clock_ahead_h;
        ((hour % 24) as f64 + 0.5 + behind_h).rem_euclid(24.0)
    }
}

/// Cloud of each day, from its light against that above the air.
fn day_clouds(build: &Build, climate: &Climate) -> Result<Vec<f64>, YearError> {
    let noon = Instant { year: 2021, month: 1, day: 1, hour: 12.0 }.days_since_j2000();
    (0..HOURS_PER_YEAR / 24)
        .map(|day| {
            let almanac = almanac(noon + day as f64)
                .map_err(|error| YearError::Weather(error.to_string()))?;
            let above_j_m2 = day_above_air_j_m2(build.sun.place.latitude, &almanac);
            let below_j_m2: f64 =
                climate.global_w_m2[day * 24..(day + 1) * 24].iter().sum::<f64>() * 3600.0;
            // In the polar night there is no light to tell by: a half-covered sky.
            if above_j_m2 > 1e5 {
                let clearness = (below_j_m2 / above_j_m2).min(1.0);
                cloud_crawford_duchon_1999(clearness, build.sun.place.elevation_m)
                    .map_err(|error| YearError::Weather(error.to_string()))
            } else {
                Ok(0.5)
            }
        })
        .collect()
}
