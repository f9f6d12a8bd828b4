//! The sample job book inside the program.

use std::path::Path;

use anyhow::{Context, Result};

use crate::commands::Source;

/// The build computed where no command is given.
pub const FIRST_BUILD: &str = "first-panel.toml";

/// The weather the starter design names, from the design's own folder.
pub const STARTER_WEATHER: &str = "weather/pvgis-tmy_berlin_52.496_13.414.csv";

macro_rules! job_book {
    ($($name:literal),* $(,)?) => {
        [$(($name, include_bytes!(concat!("../../../samples/", $name)).as_slice())),*]
    };
}

static FILES: [(&str, &[u8]); 13] = job_book![
    "first-panel.toml",
    "larger-tubes.toml",
    "pair-better-back.toml",
    "southern-harp.toml",
    "thermostat-shed.toml",
    "bought-selective.toml",
    "radiator-pair.toml",
    "missed-seams.toml",
    "gravity-lean-to.toml",
    "weather/README.md",
    "weather/pvgis-tmy_belfast_54.605_-5.929.csv",
    "weather/pvgis-tmy_berlin_52.496_13.414.csv",
    "weather/pvgis-tmy_villarrica-chile_-38.320_-71.960.csv",
];

/// Every file of the job book, by its path inside it.
pub fn files() -> impl Iterator<Item = (&'static str, &'static [u8])> {
    FILES.iter().copied()
}

/// The builds among them.
pub fn builds() -> impl Iterator<Item = &'static str> {
    files().map(|(name, _)| name).filter(|name| name.ends_with(".toml"))
}

/// One file of it.
pub fn bytes(name: &str) -> Option<&'static [u8]> {
    files().find(|(have, _)| *have == name).map(|(_, bytes)| bytes)
}

/// The job book as a place to read designs from.
pub struct JobBook;

impl Source for JobBook {
    fn bytes(&self, path: &Path) -> Result<Vec<u8>> {
        path.to_str()
            .and_then(bytes)
            .map(<[u8]>::to_vec)
            .with_context(|| format!("the sample job book holds no `{}`", path.display()))
    }
}
