//! Draw profiles, and how cold the cold water is.

use serde::Deserialize;
use std::sync::OnceLock;

/// One load profile.
#[derive(Clone, Debug, Deserialize)]
pub struct Profile {
    /// Its name: 3XS to XXL.
    pub name: String,
    /// Useful energy of the day as the law prints it \[kWh\].
    pub q_ref_kwh: f64,
    /// How many draws the law prints.
    pub draws_count: usize,
    /// The draws in their order.
    pub draws: Vec<ProfileDraw>,
}

impl Profile {
    /// Useful energy of the day, its draws added up \[J\].
    pub fn energy_j(&self) -> f64 {
        3.6e6 * self.draws.iter().map(|draw| draw.q_kwh).sum::<f64>()
    }
}

/// One draw of a profile.
#[derive(Clone, Debug, Deserialize)]
pub struct ProfileDraw {
    /// When it starts, `07:05`.
    pub time: String,
    /// Useful energy, from cold water of 10 C \[kWh\].
    pub q_kwh: f64,
    /// Useful flow \[l/min\].
    pub flow_l_min: f64,
    /// The water counts once it is as warm as this \[C\].
    pub tm_c: f64,
    /// Temperature the draw must reach \[C\].
    pub tp_c: Option<f64>,
}

/// Cold water that the profiles' energies count from \[K\] (the usual test inlet, from memory).
pub const PROFILE_COLD_K: f64 = 283.15;

/// A year of cold water.
#[derive(Clone, Debug, Deserialize)]
pub struct ColdWater {
    /// Its name in design files.
    pub id: String,
    /// Its name in words.
    pub name: String,
    /// Monthly means, January first \[C\].
    pub c: [f64; 12],
    /// How far that is to be trusted.
    pub certainty: String,
    /// Where it comes from.
    pub source: String,
}

/// When a household draws its hot water, through the year and the day.
#[derive(Clone, Debug, Default, Deserialize)]
pub struct Household {
    /// Share by month, January first.
    pub month_factor: [f64; 12],
    /// Where the factors come from.
    pub source: String,
    /// How far they are to be trusted.
    pub certainty: String,
    /// Where the pattern of the day comes from.
    pub pattern_source: String,
    /// How far the pattern is to be trusted.
    pub pattern_certainty: String,
    /// The draws of a day.
    #[serde(default)]
    pub draw: Vec<HouseholdDraw>,
}

/// One draw of a household's day.
#[derive(Clone, Debug, Default, Deserialize)]
pub struct HouseholdDraw {
    /// When it starts, `07:15`.
    pub time: String,
    /// How long it runs \[min\].
    pub minutes: u16,
    /// Share of the day's water.
    pub share: f64,
}

#[derive(Default, Deserialize)]
struct Profiles {
    #[serde(default)]
    profile: Vec<Profile>,
}

#[derive(Default, Deserialize)]
struct Years {
    #[serde(default)]
    year: Vec<ColdWater>,
}

/// Every load profile, the smallest first.
pub fn profiles() -> &'static [Profile] {
    static FILE: OnceLock<Profiles> = OnceLock::new();
    &FILE
        .get_or_init(|| super::embedded(include_str!("../../../../catalogue/draw-profiles.toml")))
        .profile
}

/// The load profile of that name.
pub fn profile(name: &str) -> Option<&'static Profile> {
    profiles().iter().find(|profile| profile.name == name)
}

/// The household rule.
pub fn household() -> &'static Household {
    static FILE: OnceLock<Household> = OnceLock::new();
    FILE.get_or_init(|| super::embedded(include_str!("../../../../catalogue/household.toml")))
}

/// The year of cold water of that name.
pub fn cold_water(id: &str) -> Option<&'static ColdWater> {
    static FILE: OnceLock<Years> = OnceLock::new();
    FILE.get_or_init(|| super::embedded(include_str!("../../../../catalogue/cold-water.toml")))
        .year
        .iter()
        .find(|year| year.id == id)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Given the reference energies and numbers of draws printed in regulation (EU) 812/2013,
    /// Annex VII, Table 3, each profile's draws add up to them; tolerance 1e-9 kWh, rounding only.
    #[test]
    fn profiles_add_up_to_the_printed_energy() {
        let printed = [
            ("3XS", 0.345, 23),
            ("XXS", 2.1, 20),
            ("XS", 2.1, 3),
            ("S", 2.1, 11),
            ("M", 5.845, 23),
            ("L", 11.655, 24),
            ("XL", 19.07, 30),
            ("XXL", 24.53, 30),
        ];
        for (name, kwh, count) in printed {
            let profile = profile(name).expect("listed");
            let sum = profile.energy_j() / 3.6e6;
            assert!((sum - kwh).abs() < 1e-9, "{name}: {sum}");
            assert_eq!(profile.q_ref_kwh, kwh);
            assert_eq!((profile.draws.len(), profile.draws_count), (count, count), "{name}");
        }
        assert_eq!(profiles().len(), printed.len());
    }

    /// The day's shares add up to the whole, and the months' factors to SAP's mean of 0.998 or so
    /// (twelve factors from 0.90 to 1.10): rounding only.
    #[test]
    fn the_household_draws_all_its_water() {
        let household = household();
        let shares: f64 = household.draw.iter().map(|draw| draw.share).sum();
        assert!((shares - 1.0).abs() < 1e-9, "{shares}");
        assert!(
            household.draw.iter().all(|draw| crate::value::minute_of_day(&draw.time).is_some())
        );
        let mean: f64 = household.month_factor.iter().sum::<f64>() / 12.0;
        assert!((mean - 1.0).abs() < 1e-9, "{mean}");
    }

    /// Both years of cold water are read, and a header tank is the warmer (SAP 10.2 Table J1).
    #[test]
    fn cold_water_is_read() {
        let mains = cold_water("uk-mains").expect("listed");
        let tank = cold_water("uk-header-tank").expect("listed");
        assert!(mains.c.iter().zip(&tank.c).all(|(mains, tank)| tank > mains));
    }
}
