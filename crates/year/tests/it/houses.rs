//! The sample builds with their weather, as every test here takes them.

use std::path::{Path, PathBuf};

use physics::{Build, Climate};
use year::Forcing;

/// The five builds of the sample job book.
pub const BUILDS: [&str; 7] = [
    "first-panel.toml",
    "larger-tubes.toml",
    "pair-better-back.toml",
    "southern-harp.toml",
    "thermostat-shed.toml",
    "bought-selective.toml",
    "radiator-pair.toml",
];

/// A build, its climate and its forcing.
pub struct House {
    pub build: Build,
    pub climate: Climate,
    pub forcing: Forcing,
}

/// Reads a sample build.
pub fn house(name: &str) -> House {
    let path = samples().join(name);
    let bytes = std::fs::read(&path).expect("the sample job book is part of the repository");
    let reading = design::read_design(name, &bytes);
    let design = reading.design.unwrap_or_else(|| panic!("{name}: {:?}", reading.problems));
    let weather = std::fs::read(samples().join(design.weather.name())).expect("its weather too");
    let (climate, problems) = design::weather::read_weather(design.weather.name(), &weather);
    let climate = climate.unwrap_or_else(|| panic!("{name}: {problems:?}"));
    let build = design.at(&climate, name).build;
    let forcing = Forcing::of(&build, &climate).expect("the samples can be computed");
    House { build, climate, forcing }
}

/// The folder of the sample job book.
pub fn samples() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../../samples")
}
