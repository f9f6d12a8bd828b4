//! The circuit as `year` gives it.

use crate::program::{Run, run, samples};
use serde_json::Value;

/// The first sample with more at its end, through a year.
fn year_with(end: &str) -> (Run, Value) {
    let folder = tempfile::tempdir().unwrap();
    let text = std::fs::read_to_string(samples().join("first-panel.toml")).unwrap();
    let weather = format!("weather = \"{}/weather/", samples().display());
    let text = text.replacen("weather = \"weather/", &weather, 1);
    let path = folder.path().join("build.toml");
    std::fs::write(&path, format!("{text}\n{end}\n")).unwrap();
    let run = run(&["year", path.to_str().unwrap(), "--json", "--no-band"]);
    let document = serde_json::from_str(&run.out).expect("one JSON document");
    (run, document)
}

fn number(value: &Value) -> f64 {
    value.as_f64().unwrap_or_else(|| panic!("{value} is no number"))
}

/// Given a sealed vessel of 18 l filled to 1.2 bar at the pump, level with the store's base, and an
/// outlet of the panels 1.19 m higher: at rest the gauge differs by a column of 1.19 m of fluid,
/// 0.12 bar (rho g h with 1020 kg/m3; 2 % for its warmth), and every pressure is above the air's.
/// What the pump adds is lost on the way round, so its head is the difference it makes.
#[test]
fn a_sealed_circuit_holds_its_pressures() {
    let (run, document) = year_with(
        "[circuit.filling]\nkind = \"sealed\"\nvessel = \"18 l\"\npressure = \"1.2 bar\"",
    );
    assert_eq!(run.status, 0, "{}", run.talk);
    let circuit = &document["circuit"];
    let at = |point: &str, key: &str| {
        let points = circuit["points"].as_array().expect("points");
        number(&points.iter().find(|one| one["point"] == point).expect(point)[key])
    };
    let column_bar = at("pump inlet", "resting_bar") - at("panel outlet", "resting_bar");
    let column_m = at("panel outlet", "height_m") - at("pump inlet", "height_m");
    assert!((column_m - (0.5 + 1.2 * 35f64.to_radians().sin())).abs() < 1e-9, "{column_m}");
    assert!((column_bar / (1020.0 * 9.80665 * column_m / 1e5) - 1.0).abs() < 0.02, "{column_bar}");
    assert!(at("pump inlet", "resting_bar") > 1.2, "warm fluid presses the gas");
    assert!(at("highest point", "running_bar") > 0.0);
    let added_bar = at("pump outlet", "running_bar") - at("pump inlet", "running_bar");
    assert!((added_bar * 1e5 / number(&circuit["drop_pa"]) - 1.0).abs() < 1e-6, "{added_bar}");
    let electricity = &circuit["electricity"];
    let year = &document["year"];
    let net_kwh = number(&year["spared_heat_kwh"]) - number(&year["pump_kwh"]);
    assert!((number(&electricity["net_kwh"]) - net_kwh).abs() < 1e-9);
}

/// Given a vessel that the fluid outgrows: the year's heat stands, the circuit is left out, and why
/// is said beside the warning that the vessel is small.
#[test]
fn a_circuit_that_cannot_be_looked_over_is_said() {
    let (run, document) = year_with(
        "[circuit.filling]\nkind = \"sealed\"\nvessel = \"0.5 l\"\ncharge = \"0.1 bar\"\npressure = \"8 bar\"",
    );
    assert_eq!(run.status, 0, "{}", run.talk);
    assert!(document["circuit"].is_null());
    let codes: Vec<&str> = document["problems"]
        .as_array()
        .expect("problems")
        .iter()
        .map(|problem| problem["code"].as_str().expect("a code"))
        .collect();
    assert!(codes.contains(&"vessel-small"), "{codes:?}");
    assert!(codes.contains(&"circuit-not-looked-over"), "{codes:?}");
    assert!(run.talk.contains("circuit-not-looked-over"), "{}", run.talk);
    assert!(number(&document["year"]["spared_heat_kwh"]) > 0.0);
}
