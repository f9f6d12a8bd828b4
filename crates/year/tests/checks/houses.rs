//! Builds with their climates, as the checks take them.

use std::path::{Path, PathBuf};

use design::Design;
use physics::{Build, Climate};
use year::Forcing;

/// The weather of the job book, by the names that the page's tables use.
pub const PLACES: [(&str, &str); 6] = [
    ("Belfast", "pvgis-tmy_belfast_54.605_-5.929.csv"),
    ("Berlin", "pvgis-tmy_berlin_52.496_13.414.csv"),
    ("Sicily", "pvgis-tmy_sicily_37.116_14.561.epw"),
    ("Villarrica", "pvgis-tmy_villarrica-chile_-38.320_-71.960.csv"),
    ("Phoenix", "nrel-tmy3_phoenix-az_722780.csv"),
    ("Golden", "nrel-tmy3_golden-co_724666.epw"),
];

/// A build and the weather it stands in.
pub struct House {
    pub build: Build,
    pub climate: Climate,
}

impl House {
    /// What its year imposes on it.
    pub fn forcing(&self) -> Forcing {
        Forcing::of(&self.build, &self.climate).expect("the checks' houses can be computed")
    }
}

/// A sample build in its own weather.
pub fn sample(name: &str) -> House {
    let design = read(name, &std::fs::read(samples().join(name)).expect("a sample"));
    let climate = climate(&samples().join(design.weather.name()));
    House { build: design.at(&climate, name).build, climate }
}

/// A design of this folder's, by its text, at a place of [`PLACES`].
pub fn at_place(text: &str, place: &str) -> House {
    let (_, file) = PLACES.iter().find(|(name, _)| *name == place).expect("a place of the list");
    let climate = climate(&samples().join("weather").join(file));
    let build = read("the check's own design", text.as_bytes())
        .at(&climate, "the check's own design")
        .build;
    House { build, climate }
}

/// A design by its bytes.
pub fn read(name: &str, bytes: &[u8]) -> Design {
    let reading = design::read_design(name, bytes);
    reading.design.unwrap_or_else(|| panic!("{name}: {:?}", reading.problems))
}

fn climate(path: &Path) -> Climate {
    let name = path.display().to_string();
    let bytes = std::fs::read(path).unwrap_or_else(|error| panic!("{name}: {error}"));
    let (climate, problems) = design::weather::read_weather(&name, &bytes);
    climate.unwrap_or_else(|| panic!("{name}: {problems:?}"))
}

/// The folder of the sample job book.
pub fn samples() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../../samples")
}
