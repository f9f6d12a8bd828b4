//! `panel`: as its schema and the contract say, and as its own figures add up.

use serde_json::Value;

use crate::json::{assert_follows, document, schema};
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

fn number(value: &Value, pointer: &str) -> f64 {
    value.pointer(pointer).and_then(Value::as_f64).unwrap_or_else(|| panic!("no {pointer}"))
}

/// Given each sample, the document follows its schema and holds the contract's keys; the points lie
/// on the curve within 0.005, as a fit of three figures through six points of a smooth curve does;
/// a part hotter than it stands for hours is a stop, one cooler than it stands for years is quiet,
/// and with the pump running no part is longer above its limit than with it dead.
#[test]
fn the_panel_follows_schema_and_contract() {
    let schema = schema("panel");
    for build in BUILDS {
        let document = document(&["panel", build, "--json"], 0);
        assert_follows(&schema, &document);
        let eta0 = number(&document, "/efficiency/eta0");
        let a1 = number(&document, "/efficiency/a1_w_m2_k");
        let a2 = number(&document, "/efficiency/a2_w_m2_k2");
        for point in document["points"].as_array().expect("points") {
            let rise_k = number(point, "/reduced_temperature_m2k_w") * 1000.0;
            let by_curve = eta0 - (a1 + a2 * rise_k) * rise_k / 1000.0;
            let off = (number(point, "/efficiency") - by_curve).abs();
            assert!(off < 0.005, "{build} at {rise_k} K: off by {off}");
        }
        for part in document["stagnation"]["parts"].as_array().expect("parts") {
            let hottest_c = number(part, "/standard_c").max(number(part, "/extreme_c"));
            // A short limit holds for hours, not days; nearer than 5 K to a limit is not far from it.
            let in_service = number(part, "/hours_above_running") > 24.0;
            let expected = if hottest_c > number(part, "/short_limit_c") || in_service {
                "stop"
            } else if hottest_c > number(part, "/limit_c") - 5.0 {
                "mind"
            } else {
                "quiet"
            };
            assert_eq!(part["kind"], expected, "{build}: {part}");
            let running = number(part, "/hours_above_running");
            assert!(running <= number(part, "/hours_above_pump_dead") + 1e-9, "{build}: {part}");
        }
        for key in ["/flow/l_min", "/flow/pressure_drop_pa", "/flow/head_m", "/mass/contents_l"] {
            assert!(number(&document, key) > 0.0, "{build}: {key}");
        }
    }
}

/// Given the bought panel, whose certificate is that of an open data sheet (reference cases SY-06
/// and ST-01: eta0 0.729, a1 3.51, a2 0.017, six powers at 1000 W/m2, 189 C idle). Expected: its
/// tested curve gives the six printed powers within 1 W/m2, their rounding and the fluid's mean; and
/// idle it is as hot as it states.
#[test]
fn a_certificate_is_found_again() {
    let document = document(&["panel", "bought-selective.toml", "--json"], 0);
    let eta0 = number(&document, "/efficiency/eta0");
    let a1 = number(&document, "/efficiency/a1_w_m2_k");
    let a2 = number(&document, "/efficiency/a2_w_m2_k2");
    for (rise_k, printed_w_m2) in
        [(0.0, 729.0), (10.0, 692.0), (30.0, 608.0), (50.0, 511.0), (70.0, 400.0), (83.0, 321.0)]
    {
        let power_w_m2 = 1000.0 * eta0 - (a1 + a2 * rise_k) * rise_k;
        assert!((power_w_m2 - printed_w_m2).abs() < 1.0, "{rise_k} K: {power_w_m2}");
    }
    assert!((number(&document, "/stagnation/standard_c") - 189.0).abs() < 1e-6);
}

/// Given panels known by their dimensions alone, predicted blind. Expected: black paint under one
/// pane, made at home, has an intercept of 0.60 to 0.75 and a slope of 5.5 to 9 W/(m2 K) by its own
/// area (reference case UK-10's note, from memory); the slope of a measured prototype of that kind
/// was 4.25 to 4.69 (UK-10, seen). Ours are on gross area, which is up to a sixth larger.
#[test]
fn home_made_panels_are_as_the_trade_finds_them() {
    for build in ["first-panel.toml", "pair-better-back.toml", "radiator-pair.toml"] {
        let document = document(&["panel", build, "--json"], 0);
        let eta0 = number(&document, "/efficiency/eta0");
        let slope_w_m2_k = number(&document, "/efficiency/a1_w_m2_k")
            + 30.0 * number(&document, "/efficiency/a2_w_m2_k2");
        assert!((0.60 / 1.17..=0.75).contains(&eta0), "{build}: {eta0}");
        assert!((4.25..=9.0).contains(&slope_w_m2_k), "{build}: {slope_w_m2_k}");
    }
}

/// Given one build, in metric and in US units. Expected: the heat stands before the curve, and no
/// metric temperature or mass in the US page's rows.
#[test]
fn heat_comes_first_in_either_units() {
    let metric = run(&["panel", "southern-harp.toml"]).out;
    let heat = metric.find("Left idle in the sun").expect("the table");
    assert!(heat < metric.find("Tested, it would give").expect("the curve"));
    assert!(metric.contains("Stop: tube joints"));
    let us = run(&["panel", "southern-harp.toml", "--units", "us"]).out;
    assert!(us.contains(" lb dry") && us.contains(" gpm through one panel"));
    assert!(!us.contains(" kg") && !us.contains(" l/min"));
}
