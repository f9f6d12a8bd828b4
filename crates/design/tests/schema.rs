//! The JSON Schema against the sample job book, by a general-purpose validator.

use design::{json_schema, read_design, template};
use serde_json::Value;

fn as_json(text: &str) -> Value {
    let table: toml::Table = toml::from_str(text).expect("TOML");
    serde_json::to_value(table).expect("plain values")
}

fn sample(name: &str) -> String {
    let path = format!("{}/../../samples/{name}.toml", env!("CARGO_MANIFEST_DIR"));
    std::fs::read_to_string(path).expect("the sample stands")
}

/// The schema is one, and every sample and the template hold to it.
#[test]
fn samples_hold_to_the_schema() {
    let schema = json_schema();
    jsonschema::meta::validate(&schema).expect("a schema");
    let validator = jsonschema::validator_for(&schema).expect("compiles");
    let mut texts: Vec<String> = [
        "first-panel",
        "larger-tubes",
        "pair-better-back",
        "southern-harp",
        "thermostat-shed",
        "bought-selective",
        "radiator-pair",
        "gravity-lean-to",
        "missed-seams",
    ]
    .map(sample)
    .into();
    texts.push(template());
    for text in texts {
        let faults: Vec<String> = validator
            .iter_errors(&as_json(&text))
            .map(|fault| format!("{}: {fault}", fault.instance_path()))
            .collect();
        assert!(faults.is_empty(), "{faults:#?}");
    }
}

/// Given a line of the first panel spoilt, the schema refuses the file, as reading does.
#[test]
fn spoilt_samples_do_not_hold() {
    let validator = jsonschema::validator_for(&json_schema()).expect("compiles");
    let spoilt = [
        ("tilt = \"35 deg\"", "tilt = 35"),
        ("tilt = \"35 deg\"", "tilt = \"35 C\""),
        ("gap = \"25 mm\"", "gapp = \"25 mm\""),
        ("gap = \"25 mm\"", "gap = \"25 mm2\""),
        ("material = \"acrylic\"", "material = \"acrylick\""),
        ("legs = 6", "legs = \"six\""),
        ("coating = \"blackboard-paint\"\n", ""),
        ("on = \"7 K\"", "on = \"7 C\""),
        ("volume = \"115 l\"", "volume = \"25 gal\""),
        ("[tap.heater]\nkind = \"cylinder\"", "[tap.heater]"),
    ];
    for (line, instead) in spoilt {
        let text = sample("first-panel").replacen(line, instead, 1);
        assert_ne!(text, sample("first-panel"), "{line} stands in the sample");
        assert!(!validator.is_valid(&as_json(&text)), "{instead}: the schema lets it by");
        assert!(!read_design("x.toml", text.as_bytes()).is_ok(), "{instead}: reading lets it by");
    }
}
