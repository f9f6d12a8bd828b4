//! The same years by other relations of the sky, the wind and the sky's warmth: what the choice moves.

use physics::sun::{SkyModel, SkyTemperature, Sun, WindFilm};
use year::{Forcing, Plant, Recorder, Upset, march, spared_heat_j};

use crate::houses::{House, PLACES, at_place, sample};
use crate::page::{Row, holds};

const SAMPLES: [&str; 9] = [
    "first-panel",
    "larger-tubes",
    "pair-better-back",
    "southern-harp",
    "thermostat-shed",
    "bought-selective",
    "radiator-pair",
    "missed-seams",
    "gravity-lean-to",
];

/// Given the nine samples: spared heat by the relations they do not take, over that by Perez 1990,
/// Watmuff 1977 and the file's own sky, held as the page tells it.
#[test]
fn samples_by_other_relations() {
    let mut rows = Vec::new();
    for name in SAMPLES {
        let mut house = sample(&format!("{name}.toml"));
        // So that every sample is held against the same; the orchard's harp takes McAdams.
        house.build.sun.wind_film = WindFilm::Watmuff1977;
        rows.push(Row::of(name, &against(&house, &CHANGES)));
    }
    holds("Samples by other relations", &rows);
}

/// Given one build, the radiator pair, facing the equator in six climates: light on its plane and spared
/// heat by the two simpler skies over those by Perez 1990, held as the page tells it.
#[test]
fn six_climates_by_other_skies() {
    let text = std::fs::read_to_string(crate::houses::samples().join("radiator-pair.toml"))
        .expect("a sample");
    let rows = PLACES.map(|(place, _)| {
        let mut house = at_place(&text, place);
        if house.build.sun.place.latitude.degrees() < 0.0 {
            house.build.sun.plane.facing = physics::Angle::ZERO;
        }
        let light = |model: SkyModel| {
            let mut sun = house.build.sun.clone();
            sun.sky_model = model;
            let build = physics::Build { sun, ..house.build.clone() };
            let forcing = Forcing::of(&build, &house.climate).expect("it computes");
            forcing.light.plane_kwh_m2.iter().sum::<f64>()
        };
        let perez = light(SkyModel::Perez1990);
        let lit = [SkyModel::HayDavies1980, SkyModel::Isotropic]
            .map(|model| 100.0 * (light(model) / perez - 1.0));
        let spared = against(&house, &CHANGES[..2]);
        Row::of(place, &[perez, lit[0], lit[1], spared[0], spared[1], spared[2]])
    });
    holds("Six climates by other skies", &rows);
}

/// What is changed of the sun.
type Change = fn(&mut Sun);

/// In the order of the page's columns.
const CHANGES: [Change; 6] = [
    |sun| sun.sky_model = SkyModel::HayDavies1980,
    |sun| sun.sky_model = SkyModel::Isotropic,
    |sun| sun.wind_film = WindFilm::McAdams1954,
    |sun| sun.wind_film = WindFilm::Mitchell1976 { house_length_m: 8.0 },
    |sun| sun.sky_temperature = SkyTemperature::BerdahlMartin1984,
    |sun| sun.sky_temperature = SkyTemperature::Swinbank1963,
];

/// Spared heat as the house stands \[kWh\], then by how many percent each change moves it.
fn against(house: &House, changes: &[Change]) -> Vec<f64> {
    // Neither plant hangs on what is changed here: the weather's part is the forcing's.
    let plants = [&house.build, &house.build.twin()]
        .map(|build| Plant::compile(build).expect("the samples compile"));
    let spared_kwh = |change: Option<&Change>| {
        let mut build = house.build.clone();
        if let Some(change) = change {
            change(&mut build.sun);
        }
        let forcing = Forcing::of(&build, &house.climate).expect("the samples compute");
        let [year, twin] = plants.each_ref().map(|plant| {
            let marched = march(plant, &forcing, &Upset::none(), &mut Recorder::none());
            marched.expect("the samples compute").0.year()
        });
        spared_heat_j(&year, &twin) / year::ledger::KWH_J
    };
    let usual_kwh = spared_kwh(None);
    let moved = changes.iter().map(|change| 100.0 * (spared_kwh(Some(change)) / usual_kwh - 1.0));
    std::iter::once(usual_kwh).chain(moved).collect()
}
