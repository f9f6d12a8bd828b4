//! A sample build with changed lines, put at a made-up climate.

use super::Sited;
use crate::read_design;
use physics::climate::{DesignExtremes, HOURS_PER_YEAR, Stamp};
use physics::{Angle, Climate, ZERO_CELSIUS_K};

/// The first sample with lines exchanged, at a climate; it must read without a fault.
pub(super) fn sited(changes: &[(&str, &str)], climate: &Climate) -> Sited {
    let mut text = include_str!("../../../../samples/first-panel.toml").to_owned();
    for (line, instead) in changes {
        assert!(text.contains(line), "{line}");
        text = text.replacen(line, instead, 1);
    }
    let reading = read_design("a.toml", text.as_bytes());
    assert!(reading.is_ok(), "{:?}", reading.problems);
    reading.design.expect("read without a fault").at(climate, "a.toml")
}

/// Air of so many degrees in every hour of the year but one, which is colder.
pub(super) fn with_one_cold_hour(air_c: f64, coldest_c: f64) -> Climate {
    let hours = |value: f64| vec![value; HOURS_PER_YEAR];
    let mut air_k = hours(air_c + ZERO_CELSIUS_K);
    air_k[500] = coldest_c + ZERO_CELSIUS_K;
    Climate {
        origin: String::new(),
        latitude: Angle::from_degrees(54.605),
        longitude: Angle::from_degrees(-5.929),
        elevation_m: None,
        clock_ahead_h: 0.0,
        stamp: Stamp::HourMean,
        reading_offset_h: 0.0,
        global_w_m2: hours(100.0),
        beam_normal_w_m2: hours(0.0),
        diffuse_w_m2: hours(100.0),
        air_k,
        dew_point_k: hours(ZERO_CELSIUS_K),
        wind_m_s: hours(3.0),
        sky_infrared_w_m2: None,
        extremes: DesignExtremes::default(),
    }
}
