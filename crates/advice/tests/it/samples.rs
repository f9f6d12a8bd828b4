//! The sample builds, as every test here takes them.

use std::path::Path;

use advice::Subject;

/// A sample build as a subject.
pub fn subject(name: &str) -> Subject {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../samples");
    let bytes =
        std::fs::read(folder.join(name)).expect("the sample job book is part of the repository");
    let reading = design::read_design(name, &bytes);
    let design = reading.design.unwrap_or_else(|| panic!("{name}: {:?}", reading.problems));
    let weather = std::fs::read(folder.join(design.weather.name())).expect("its weather too");
    let climate = design::weather::read_weather(design.weather.name(), &weather).0.expect("sound");
    Subject::new(reading.written.expect("text"), design, climate, None)
}
