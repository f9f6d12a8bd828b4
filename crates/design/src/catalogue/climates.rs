//! Monthly climates of places and of the United Kingdom's regions.

use serde::Deserialize;
use std::sync::OnceLock;

/// A place's monthly climate.
#[derive(Clone, Debug, Deserialize)]
pub struct Place {
    /// Its name in design files and commands.
    pub id: String,
    /// Its name in words.
    pub name: String,
    /// Country, and part of it where that matters.
    pub country: String,
    /// Latitude, north positive \[degrees\].
    pub latitude_deg: f64,
    /// Longitude, east positive \[degrees\].
    pub longitude_deg: f64,
    /// Height above the sea \[m\].
    pub elevation_m: Option<f64>,
    /// Mean daily irradiation on the horizontal, January first \[kWh/(m2 day)\].
    pub ghi_kwh_m2_day: [f64; 12],
    /// Mean air temperature \[C\].
    pub t_air_c: [f64; 12],
    /// Mean wind 10 m above ground \[m/s\].
    pub wind_m_s: [f64; 12],
    /// Yearly irradiation on the horizontal as computed from the hourly file \[kWh/m2\].
    pub annual_ghi_kwh_m2: f64,
    /// Mean air temperature of the hourly year \[C\].
    pub annual_mean_t_air_c: f64,
    /// How far this is to be trusted.
    pub certainty: String,
    /// Where it comes from.
    pub source: String,
}

/// A region of the United Kingdom.
#[derive(Clone, Debug, Deserialize)]
pub struct Region {
    /// Its number in SAP Appendix U; 0 is the country's average.
    pub id: u32,
    /// Its name.
    pub name: String,
    /// Latitude \[degrees\].
    pub latitude_deg: f64,
    /// Typical height above the sea \[m\].
    pub height_m: f64,
    /// Mean air at that height, January first \[C\].
    pub t_external_c: [f64; 12],
    /// Open-site mean wind \[m/s\].
    pub wind_m_s: [f64; 12],
    /// Mean irradiance on the horizontal over day and night \[W/m2\].
    pub irradiance_w_m2: [f64; 12],
}

#[derive(Default, Deserialize)]
struct Places {
    #[serde(default)]
    place: Vec<Place>,
}

#[derive(Default, Deserialize)]
struct Regions {
    #[serde(default)]
    region: Vec<Region>,
}

/// Every place.
pub fn places() -> &'static [Place] {
    static FILE: OnceLock<Places> = OnceLock::new();
    &FILE.get_or_init(|| super::embedded(include_str!("../../../../catalogue/places.toml"))).place
}

/// The place of that name.
pub fn place(id: &str) -> Option<&'static Place> {
    places().iter().find(|place| place.id == id)
}

/// Every region of the United Kingdom, its average first.
pub fn uk_regions() -> &'static [Region] {
    static FILE: OnceLock<Regions> = OnceLock::new();
    &FILE
        .get_or_init(|| super::embedded(include_str!("../../../../catalogue/uk-climate.toml")))
        .region
}

#[cfg(test)]
mod tests {
    use super::*;

    const DAYS: [f64; 12] = [31., 28., 31., 30., 31., 30., 31., 31., 30., 31., 30., 31.];

    /// Each place's months add up to the year computed apart from the hourly file: within 0.5 %,
    /// the months are rounded to three decimals.
    #[test]
    fn months_of_places_add_up() {
        assert!(places().len() >= 27, "{} places", places().len());
        for place in places() {
            let sum: f64 =
                place.ghi_kwh_m2_day.iter().zip(DAYS).map(|(day, days)| day * days).sum();
            let off = (sum / place.annual_ghi_kwh_m2 - 1.0).abs();
            assert!(off < 0.005, "{}: {sum} is not {}", place.id, place.annual_ghi_kwh_m2);
        }
    }

    /// Given SAP's yearly horizontal irradiation, 1019 kWh/m2 for Thames and 933 for Northern
    /// Ireland (SAP 2012 Appendix U by its own method): within 1 kWh/m2.
    #[test]
    fn regions_have_their_year() {
        assert_eq!(uk_regions().len(), 22);
        for (name, kwh) in [("Thames", 1019.0), ("Northern Ireland", 933.0)] {
            let region = uk_regions().iter().find(|region| region.name == name).expect("listed");
            let sum: f64 =
                region.irradiance_w_m2.iter().zip(DAYS).map(|(w, days)| w * days * 0.024).sum();
            assert!((sum - kwh).abs() < 1.0, "{name}: {sum}");
        }
    }
}
