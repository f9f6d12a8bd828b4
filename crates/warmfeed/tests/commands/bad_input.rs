//! Nonsense in, clear words out: the file, the line, what was found, what must be, how to mend it.

use std::path::PathBuf;

use crate::program::{run, samples};

/// A folder with a sample's design and weather, one of them changed.
struct Changed {
    folder: tempfile::TempDir,
}

const WEATHER: &str = "pvgis-tmy_belfast_54.605_-5.929.csv";

impl Changed {
    fn new() -> Self {
        let folder = tempfile::tempdir().unwrap();
        std::fs::create_dir(folder.path().join("weather")).unwrap();
        let changed = Changed { folder };
        changed.weather(|text| text);
        changed.design(|text| text);
        changed
    }

    fn path(&self) -> PathBuf {
        self.folder.path().join("build.toml")
    }

    fn design(&self, change: impl Fn(String) -> String) {
        let text = std::fs::read_to_string(samples().join("first-panel.toml")).unwrap();
        std::fs::write(self.path(), change(text)).unwrap();
    }

    fn weather(&self, change: impl Fn(String) -> String) {
        let text = std::fs::read_to_string(samples().join("weather").join(WEATHER)).unwrap();
        std::fs::write(self.folder.path().join("weather").join(WEATHER), change(text)).unwrap();
    }

    /// Runs the year; returns the status and all that was said, the folder's own name left out.
    fn year(&self) -> (i32, String) {
        let run = run(&["year", self.path().to_str().unwrap(), "--no-band"]);
        let here = self.folder.path().to_str().unwrap().to_owned();
        (run.status, format!("{}{}", run.talk, run.out).replace(&here, "HERE"))
    }

    fn replaced(from: &str, to: &str) -> (i32, String) {
        let changed = Changed::new();
        changed.design(|text| {
            assert!(text.contains(from), "the sample no longer holds `{from}`");
            text.replacen(from, to, 1)
        });
        changed.year()
    }
}

fn assert_faults(result: (i32, String), words: &[&str]) {
    let (status, said) = result;
    assert_eq!(status, 1, "{said}");
    for word in words {
        assert!(said.contains(word), "`{word}` is missing in:\n{said}");
    }
}

/// Given design files that are empty, binary or huge, each is named with what it is.
#[test]
fn files_that_are_no_design() {
    let changed = Changed::new();
    changed.design(|_| String::new());
    assert_faults(changed.year(), &["build.toml", "hint"]);
    std::fs::write(changed.path(), b"\x7fELF\x00\x01\x02\xff\xfe").unwrap();
    assert_faults(changed.year(), &["build.toml"]);
    let huge = std::fs::File::create(changed.path()).unwrap();
    huge.set_len(200 << 20).unwrap();
    assert_faults(changed.year(), &["build.toml", "bytes"]);
}

/// Given weather that is empty, binary, huge, a row short, with a negative irradiance, from the
/// other hemisphere: each fault names the weather file.
#[test]
fn weather_that_cannot_be_right() {
    let changed = Changed::new();
    let weather = changed.folder.path().join("weather").join(WEATHER);
    changed.weather(|_| String::new());
    assert_faults(changed.year(), &[WEATHER]);
    std::fs::write(&weather, [0u8, 159, 146, 150]).unwrap();
    assert_faults(changed.year(), &[WEATHER]);
    std::fs::File::create(&weather).unwrap().set_len(200 << 20).unwrap();
    assert_faults(changed.year(), &[WEATHER, "bytes"]);
    changed.weather(|text| {
        let (at, _) = text.match_indices("20131231:2300").next().unwrap();
        let end = text[at..].find('\n').unwrap();
        format!("{}{}", &text[..at], &text[at + end + 1..])
    });
    assert_faults(changed.year(), &[WEATHER, "8759"]);
    changed.weather(|text| {
        let line = text.lines().find(|line| line.starts_with("20070515:1200")).unwrap().to_owned();
        let mut fields: Vec<&str> = line.split(',').collect();
        fields[3] = "-120.0";
        text.replace(&line, &fields.join(","))
    });
    assert_faults(changed.year(), &[WEATHER, "-120", "line"]);
    changed.weather(|text| text.replace("degrees): 54.605", "degrees): -54.605"));
    assert_faults(changed.year(), &[WEATHER, "hemisphere"]);
    std::fs::remove_file(&weather).unwrap();
    assert_faults(changed.year(), &["sun.weather", "build.toml"]);
}

/// Given a pump without a curve, a pipe of no length and a harp with one riser, the place is named.
#[test]
fn parts_that_are_not_there() {
    let changed = Changed::new();
    changed.design(|text| {
        let first = text.find("[[circuit.pump.curve]]").unwrap();
        let last = text.find("[store]").unwrap();
        format!("{}{}", &text[..first], &text[last..])
    });
    assert_faults(changed.year(), &["circuit.pump", "curve", "hint"]);
    assert_faults(
        Changed::replaced("length = \"6 m\"", "length = \"0 m\""),
        &["circuit.flow-pipe.length", "0 m"],
    );
    let changed = Changed::new();
    changed.design(|text| {
        text.replace("pattern = \"serpentine\"", "pattern = \"harp\"\nheader-size = \"15 x 0.7\"")
            .replace("legs = 6\nleg-length", "risers = 1\nriser-length")
    });
    assert_faults(changed.year(), &["panel.tubes", "1"]);
}

/// Given a controller that can never start, or never stops, words say so.
#[test]
fn controllers_that_cannot_work() {
    assert_faults(Changed::replaced("off = \"3 K\"", "off = \"9 K\""), &["control", "9 K"]);
    assert_faults(
        Changed::replaced("off = \"3 K\"", "off = \"-15 K\""),
        &["control.off", "can never stop", "hint"],
    );
    assert_faults(
        Changed::replaced("store-limit = \"60 C\"", "store-limit = \"5 C\""),
        &["control.store-limit", "can never start", "hint"],
    );
    // A stop at nought comes late, but it comes: a warning, and a year.
    let (status, said) = Changed::replaced("off = \"3 K\"", "off = \"0 K\"");
    assert_eq!(status, 0, "{said}");
    assert!(said.contains("stops-late"), "{said}");
}

/// Given a flat and an upright panel, a place at 70 N, and a household that draws nothing: each is
/// a correct, finite year.
#[test]
fn unusual_builds_compute() {
    for (from, to) in [
        ("tilt = \"35 deg\"", "tilt = \"0 deg\""),
        ("tilt = \"35 deg\"", "tilt = \"90 deg\""),
        ("tilt = \"35 deg\"", "tilt = \"35 deg\"\nlatitude = \"70 deg\""),
        ("holidays = [[\"07-20\", \"08-02\"]]", "holidays = [[\"01-01\", \"12-31\"]]"),
    ] {
        let changed = Changed::new();
        changed.design(|text| text.replacen(from, to, 1));
        let run = run(&["year", changed.path().to_str().unwrap(), "--json", "--no-band"]);
        assert_eq!(run.status, 0, "{to}: {}", run.talk);
        let document: serde_json::Value = serde_json::from_str(&run.out).unwrap();
        assert!(document["balance"]["residual_share"].as_f64().unwrap() < 1e-9, "{to}");
        assert!(document["year"]["spared_heat_kwh"].as_f64().unwrap().is_finite(), "{to}");
    }
}

/// Given 29 February in a file of 8784 rows, the day is left out with a note that counts it.
#[test]
fn the_twenty_ninth_of_february_is_left_out() {
    let changed = Changed::new();
    changed.weather(|text| {
        let day: String = text
            .lines()
            .filter(|line| line.starts_with("20110228:"))
            .map(|line| format!("{}\n", line.replacen("20110228", "20120229", 1)))
            .collect();
        let first_of_march = text.find("20130301:0000").unwrap();
        format!("{}{}{}", &text[..first_of_march], day, &text[first_of_march..])
    });
    let (status, said) = changed.year();
    assert_eq!(status, 0, "{said}");
    assert!(said.contains("29 February") && said.contains("24"), "{said}");
}
