//! Monthly climates of places and of the United Kingdom's regions.

use physics::sun::made::Months;
use physics::{Angle, ZERO_CELSIUS_K};
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
    /// Mean of the day's warmest less its coldest hour \[K\]; `None` where the hourly file was not at hand.
    pub swing_k: Option<[f64; 12]>,
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
    /// Its name in design files.
    pub key: String,
    /// Its name.
    pub name: String,
    /// Latitude \[degrees\].
    pub latitude_deg: f64,
    /// Longitude of its middle, east positive \[degrees\].
    pub longitude_deg: f64,
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

/// A place or region with its means, as a year is made from them.
#[derive(Clone, Debug, PartialEq)]
pub struct Spot {
    /// Its name in design files.
    pub key: &'static str,
    /// Its name in words.
    pub name: &'static str,
    /// What is known of it by the month.
    pub months: Months,
}

/// Every place and region that a year can be made of.
pub fn spots() -> impl Iterator<Item = Spot> {
    places().iter().map(Spot::of_place).chain(uk_regions().iter().map(Spot::of_region))
}

/// The place or region of that name: its key, its name in words, or either in other letters.
pub fn spot(name: &str) -> Option<Spot> {
    let wanted = name.trim().to_lowercase();
    spots().find(|spot| spot.key == wanted || spot.name.to_lowercase() == wanted)
}

/// The place or region nearest to a point, and how far off it is \[m\].
///
/// The country's average is no place, and is left out.
pub fn nearest_spot(latitude: Angle, longitude: Angle) -> Option<(Spot, f64)> {
    spots()
        .filter(|spot| spot.key != "uk-average")
        .map(|spot| {
            let there = (spot.months.latitude, spot.months.longitude);
            let away_m = great_circle_m((latitude, longitude), there);
            (spot, away_m)
        })
        .min_by(|one, other| one.1.total_cmp(&other.1))
}

/// Distance along the globe between two points, each latitude and longitude \[m\]: the haversine form on
/// a sphere of 6371 km.
fn great_circle_m(one: (Angle, Angle), other: (Angle, Angle)) -> f64 {
    let half = |a: Angle, b: Angle| (0.5 * (a.radians() - b.radians())).sin().powi(2);
    let across = one.0.cos() * other.0.cos() * half(one.1, other.1);
    2.0 * 6.371e6 * (half(one.0, other.0) + across).clamp(0.0, 1.0).sqrt().asin()
}

/// Joules in a kilowatt-hour.
const KWH_J: f64 = 3.6e6;

impl Spot {
    fn of_place(place: &'static Place) -> Spot {
        let origin = format!("monthly means of {} ({})", place.name, place.source);
        Spot {
            key: &place.id,
            name: &place.name,
            months: Months {
                origin,
                latitude: Angle::from_degrees(place.latitude_deg),
                longitude: Angle::from_degrees(place.longitude_deg),
                elevation_m: place.elevation_m,
                daily_j_m2: place.ghi_kwh_m2_day.map(|kwh| kwh * KWH_J),
                air_k: place.t_air_c.map(|air_c| air_c + ZERO_CELSIUS_K),
                swing_k: place.swing_k,
                wind_m_s: place.wind_m_s,
            },
        }
    }

    fn of_region(region: &'static Region) -> Spot {
        Spot {
            key: &region.key,
            name: &region.name,
            months: Months {
                origin: format!("monthly means of {} (SAP 2012, Appendix U)", region.name),
                latitude: Angle::from_degrees(region.latitude_deg),
                longitude: Angle::from_degrees(region.longitude_deg),
                elevation_m: Some(region.height_m),
                daily_j_m2: region.irradiance_w_m2.map(|w_m2| w_m2 * 86_400.0),
                air_k: region.t_external_c.map(|air_c| air_c + ZERO_CELSIUS_K),
                swing_k: None,
                wind_m_s: region.wind_m_s,
            },
        }
    }
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

    /// Keys are single, and a year can be made of every place and region (the generator refuses months
    /// with more light than any place has).
    #[test]
    fn a_year_can_be_made_of_every_spot() {
        let mut keys: Vec<&str> = spots().map(|spot| spot.key).collect();
        assert!(keys.len() >= 49, "{}", keys.len());
        keys.sort_unstable();
        let all = keys.len();
        keys.dedup();
        assert_eq!(all, keys.len());
        for spot in spots() {
            let made = physics::sun::made::made_year(&spot.months, 1);
            assert!(made.is_ok(), "{}: {:?}", spot.key, made.err());
        }
    }

    /// Given London (51.5074 N, 0.1278 W) and Paris (48.8566 N, 2.3522 E): 343.6 km apart, as any route
    /// calculator on a sphere says; within 0.3 km. The nearest to the middle of Belfast is Belfast.
    #[test]
    fn the_nearest_is_near() {
        let at = |lat, lon| (Angle::from_degrees(lat), Angle::from_degrees(lon));
        let apart_m = great_circle_m(at(51.5074, -0.1278), at(48.8566, 2.3522));
        assert!((apart_m - 343.6e3).abs() < 300.0, "{apart_m}");
        let (latitude, longitude) = at(54.597, -5.93);
        let (spot, away_m) = nearest_spot(latitude, longitude).expect("some");
        assert_eq!(spot.key, "belfast");
        assert!(away_m < 2_000.0, "{away_m}");
        assert!(spot_named("Northern Ireland") && spot_named("east pennines"));
    }

    fn spot_named(name: &str) -> bool {
        spot(name).is_some()
    }
}
