//! JSON output: one document, always, and as its schema and the contract say.

use serde_json::Value;

use crate::program::run;

const BUILDS: [&str; 9] = [
    "first-panel.toml",
    "larger-tubes.toml",
    "pair-better-back.toml",
    "southern-harp.toml",
    "thermostat-shed.toml",
    "bought-selective.toml",
    "radiator-pair.toml",
    "missed-seams.toml",
    "gravity-lean-to.toml",
];

pub fn document(arguments: &[&str], status: i32) -> Value {
    let run = run(arguments);
    assert_eq!(run.status, status, "{}", run.talk);
    serde_json::from_str(&run.out).unwrap_or_else(|error| panic!("{error} in {}", run.out))
}

/// The schema of a document, as the program itself gives it.
pub fn schema(name: &str) -> Value {
    document(&["schema", name], 0)
}

pub fn assert_follows(schema: &Value, document: &Value) {
    let validator = jsonschema::validator_for(schema).expect("a sound schema");
    let errors: Vec<String> = validator.iter_errors(document).map(|e| e.to_string()).collect();
    assert!(errors.is_empty(), "{errors:#?}");
}

/// Given each sample, the year's document follows its schema, holds the contract's keys, and what
/// it says of itself adds up: twin less build is spared, months make the year.
#[test]
fn the_year_follows_schema_and_contract() {
    let schema = schema("year");
    for build in BUILDS {
        let document = document(&["year", build, "--json", "--no-band"], 0);
        assert_follows(&schema, &document);
        let year = &document["year"];
        for key in [
            "horizontal_irradiation_kwh_m2",
            "plane_irradiation_kwh_m2",
            "plane_irradiation_kwh",
            "absorbed_kwh",
            "panel_loss_kwh",
            "panel_heat_kwh",
            "circuit_loss_kwh",
            "coil_heat_kwh",
            "store_loss_kwh",
            "evaporation_kwh",
            "dumped_kwh",
            "tap_heat_kwh",
            "twin_tap_heat_kwh",
            "need_heat_kwh",
            "topup_heat_kwh",
            "heater_loss_kwh",
            "twin_topup_heat_kwh",
            "spared_heat_kwh",
            "share",
            "pump_kwh",
            "pump_hours",
            "pump_starts",
            "gravity_hours",
            "gravity_heat_kwh",
            "reverse_hours",
            "reverse_heat_kwh",
            "plate_max_c",
            "circuit_max_c",
            "store_max_c",
            "store_mean_c",
            "hours_store_20_45_c",
            "dumped_l",
            "drawn_l",
        ] {
            assert!(year[key].is_number(), "{build}: {key} is {}", year[key]);
        }
        let number = |key: &str| year[key].as_f64().unwrap();
        let spared = number("twin_topup_heat_kwh") - number("topup_heat_kwh");
        assert!((number("spared_heat_kwh") - spared).abs() < 1e-9);
        assert!((number("share") - spared / number("twin_topup_heat_kwh")).abs() < 1e-12);
        // The sheet keeps nothing over a year but what it holds at its ends.
        let taken_kwh = number("panel_loss_kwh") + number("panel_heat_kwh");
        assert!((number("absorbed_kwh") - taken_kwh).abs() < 0.5, "{build}");
        // A circuit without a pump has no runs to take a mean of.
        if build.starts_with("gravity") {
            assert_eq!((number("pump_starts"), year["pump_run_min"].is_null()), (0.0, true));
            assert!(number("gravity_hours") > 1000.0, "{build}");
        } else {
            let run_min = number("pump_hours") * 60.0 / number("pump_starts");
            assert!((number("pump_run_min") - run_min).abs() < 1e-9, "{build}");
        }
        let months = document["months"].as_array().unwrap();
        assert_eq!(months.len(), 12);
        for key in ["spared_heat_kwh", "panel_heat_kwh", "drawn_l", "plane_irradiation_kwh_m2"] {
            let sum: f64 = months.iter().map(|month| month[key].as_f64().unwrap()).sum();
            assert!((sum / number(key) - 1.0).abs() < 1e-9, "{build}: {key}");
        }
        assert!(document["balance"]["residual_share"].as_f64().unwrap() < 1e-9);
        assert_eq!(document["climate"]["kind"], "hourly");
        assert!(!document["assumed"].as_array().unwrap().is_empty());
    }
}

/// Given a sound build and a broken one, `check` says so in one document that follows its schema.
#[test]
fn check_follows_its_schema_in_good_and_bad() {
    let schema = schema("check");
    let good = document(&["check", "first-panel.toml", "--json"], 0);
    assert_follows(&schema, &good);
    assert_eq!(good["ok"], true);
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("bad.toml");
    std::fs::write(&path, "title = \"x\"\n[sun]\ntilt = 35\n").unwrap();
    let bad = document(&["check", path.to_str().unwrap(), "--json"], 1);
    assert_follows(&schema, &bad);
    assert_eq!(bad["ok"], false);
    let problem = &bad["problems"][0];
    for key in ["code", "severity", "file", "where", "found", "expected", "says", "hint"] {
        assert!(problem[key].is_string(), "{key}");
    }
}

/// Given a file that is not there, or a command line that is wrong, still exactly one document with
/// problems, and the contract's status.
#[test]
fn failure_is_one_document_too() {
    let schema = schema("failed");
    for (arguments, status) in [
        (&["year", "no-such-file.toml", "--json"][..], 1),
        (&["year", "--json"][..], 2),
        (&["year", "first-panel.toml", "--json", "--units", "furlongs", "--no-band"][..], 2),
    ] {
        let document = document(arguments, status);
        assert_follows(&schema, &document);
        assert!(!document["problems"].as_array().unwrap().is_empty(), "{arguments:?}");
    }
}

/// Given each sample design file turned into JSON, it follows the design file's own schema as the
/// program prints it.
#[test]
fn samples_follow_the_design_schema() {
    let schema = schema("design");
    for build in BUILDS {
        let text = std::fs::read_to_string(crate::program::samples().join(build)).unwrap();
        let table: toml::Table = toml::from_str(&text).unwrap();
        assert_follows(&schema, &serde_json::to_value(table).unwrap());
    }
}
