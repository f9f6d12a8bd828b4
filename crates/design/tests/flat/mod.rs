//! Weather without weather, for tests that only want a place.

/// A year of one and the same hour, at a place.
pub fn flat_climate(
    latitude_deg: f64,
    longitude_deg: f64,
    elevation_m: Option<f64>,
) -> physics::Climate {
    let hours = |value: f64| vec![value; physics::climate::HOURS_PER_YEAR];
    physics::Climate {
        origin: String::new(),
        latitude: physics::Angle::from_degrees(latitude_deg),
        longitude: physics::Angle::from_degrees(longitude_deg),
        elevation_m,
        clock_ahead_h: 0.0,
        stamp: physics::climate::Stamp::HourMean,
        reading_offset_h: 0.0,
        global_w_m2: hours(100.0),
        beam_normal_w_m2: hours(0.0),
        diffuse_w_m2: hours(100.0),
        air_k: hours(283.15),
        dew_point_k: hours(278.15),
        wind_m_s: hours(3.0),
        sky_infrared_w_m2: None,
        extremes: Default::default(),
    }
}
