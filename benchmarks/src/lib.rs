//! The house every benchmark takes: the sample of two panels, with its weather.

use std::path::{Path, PathBuf};

use advice::Subject;
use physics::{Build, Climate};
use year::Forcing;

/// The build that is timed.
pub const BUILD: &str = "pair-better-back.toml";

/// A build with its weather file and what was made of both.
pub struct House {
    /// The build.
    pub build: Build,
    /// Its climate.
    pub climate: Climate,
    /// Its forcing.
    pub forcing: Forcing,
    /// The weather file's name and bytes.
    pub weather: (String, Vec<u8>),
}

/// Reads the sample of two panels.
///
/// # Panics
/// Where the sample job book of this repository cannot be read: there is nothing to time then.
pub fn house() -> House {
    house_of(BUILD)
}

/// Reads any sample.
///
/// # Panics
/// As [`house`].
pub fn house_of(name: &str) -> House {
    let bytes = std::fs::read(samples().join(name)).expect("the sample build");
    let design = design::read_design(name, &bytes).design.expect("the sample reads");
    let weather = design.weather.name().to_owned();
    let bytes = std::fs::read(samples().join(&weather)).expect("its weather");
    let climate = design::weather::read_weather(&weather, &bytes).0.expect("its weather reads");
    let build = design.at(&climate, name).build;
    let forcing = Forcing::of(&build, &climate).expect("the sample computes");
    House { build, climate, forcing, weather: (weather, bytes) }
}

/// A sample as bands and next steps take it.
///
/// # Panics
/// As [`house`].
pub fn subject_of(name: &str) -> Subject {
    let bytes = std::fs::read(samples().join(name)).expect("the sample build");
    let reading = design::read_design(name, &bytes);
    let written = reading.written.expect("the sample is text");
    Subject::new(written, reading.design.expect("the sample reads"), house_of(name).climate, None)
}

/// The folder of the sample job book.
pub fn samples() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../samples")
}
