//! `year`: bands, next steps, another build, and places without a weather file.

use serde_json::Value;

use crate::json::{assert_follows, document, schema};
use crate::program::{run, samples};

fn number(value: &Value) -> f64 {
    value.as_f64().expect("a number")
}

/// Given a sample with everything asked, the document keeps its schema; every figure of the year has a band
/// and spared heat lies within its own; makers come greatest first and make one whole; steps come best
/// first; the difference from the other build is that of the two years, and lies within its band.
#[test]
fn bands_steps_and_another_build() {
    let arguments =
        ["year", "pair-better-back.toml", "--next", "--beside", "first-panel.toml", "--json"];
    let document = document(&arguments, 0);
    assert_follows(&schema("year"), &document);
    let year = &document["year"];
    for (key, value) in year.as_object().expect("keys") {
        if value.is_number() {
            let band = &document["bands"][key];
            assert!(number(&band["low"]) <= number(&band["high"]), "{key}: {band}");
        }
    }
    let (band, spared) = (&document["band"], number(&year["spared_heat_kwh"]));
    assert!(number(&band["low"]) < spared && spared < number(&band["high"]), "{band}");
    assert_eq!(band["chance"], 0.8);
    let shares: Vec<f64> = band["makers"]
        .as_array()
        .expect("makers")
        .iter()
        .map(|maker| number(&maker["share"]))
        .collect();
    assert_eq!(shares.len(), 7);
    assert!(shares.is_sorted_by(|one, other| one >= other), "{shares:?}");
    assert!((shares.iter().sum::<f64>() - 1.0).abs() < 1e-9, "{shares:?}");
    let weather = &band["weather_alone"];
    let width = |band: &Value| number(&band["high"]) - number(&band["low"]);
    assert!(width(weather) < width(band));
    assert!(number(&band["narrowing"]["narrower_by"]) > 0.0);
    let worth: Vec<f64> = document["next"]["steps"]
        .as_array()
        .expect("steps")
        .iter()
        .map(|step| number(&step["spared_kwh"]))
        .collect();
    assert!(worth.len() >= 25, "{} steps", worth.len());
    assert!(worth.is_sorted_by(|one, other| one >= other), "{worth:?}");
    let beside = &document["beside"];
    let difference = number(&beside["difference_kwh"]);
    assert!((spared - number(&beside["spared_kwh"]) - difference).abs() < 1e-9);
    let band = &beside["band"];
    assert!(number(&band["low"]) < difference && difference < number(&band["high"]), "{beside}");
    assert_eq!(beside["none"], false);
}

/// Given a build beside itself: no difference, and a band of nothing, since both take the same draws of the
/// unknowns (the same table twice).
#[test]
fn a_build_does_not_differ_from_itself() {
    let arguments = ["year", "first-panel.toml", "--beside", "first-panel.toml", "--json"];
    let beside = &document(&arguments, 0)["beside"];
    assert_eq!(number(&beside["difference_kwh"]), 0.0);
    assert_eq!(beside["none"], true);
    for end in ["low", "middle", "high"] {
        assert_eq!(number(&beside["band"][end]), 0.0, "{beside}");
    }
}

/// Given a build with a pump beside one without, whose figures are other ones: a difference within its band.
/// Given one of another climate: a difference, no band, and the other weather named.
#[test]
fn unlike_builds_stand_beside_each_other() {
    let arguments = ["year", "first-panel.toml", "--beside", "gravity-lean-to.toml", "--json"];
    let beside = &document(&arguments, 0)["beside"];
    let (difference, band) = (number(&beside["difference_kwh"]), &beside["band"]);
    assert!(number(&band["low"]) < difference && difference < number(&band["high"]), "{beside}");
    let arguments = ["year", "larger-tubes.toml", "--beside", "bought-selective.toml", "--json"];
    let beside = &document(&arguments, 0)["beside"];
    assert!(beside["band"].is_null(), "{beside}");
    assert!(beside["other_climate"].as_str().expect("named").contains("berlin"), "{beside}");
}

/// Given clouds by the minute, which `check` calls computable: a year, with its panel left idle in the
/// strongest minute.
#[test]
fn minute_clouds_have_a_year() {
    let sample = std::fs::read_to_string(samples().join("thermostat-shed.toml")).expect("a sample");
    let clouded = sample
        .replacen("[sun]", "[sun]\nclouds = \"minutes\"", 1)
        .replace("weather = \"weather/", &format!("weather = \"{}/weather/", samples().display()));
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("clouded.toml");
    std::fs::write(&path, clouded).expect("written");
    let year = document(&["year", path.to_str().expect("text"), "--no-band", "--json"], 0);
    assert_eq!(year["clouds"], "minutes");
    assert!(number(&year["stagnation"]["extreme_c"]) < 200.0);
}

/// Another seed draws other years; drawn years come near the table's band (within half its width: so few
/// are drawn here, the close comparison stands with the room itself). That one seed gives the same page
/// twice is held by the page without a command.
#[test]
fn seeds_and_draws() {
    let first = document(&["year", "bought-selective.toml", "--json", "--seed", "2"], 0);
    let drawn = document(&["year", "bought-selective.toml", "--json", "--draws", "32"], 0);
    assert!(drawn["band"]["weather_alone"]["low"] != first["band"]["weather_alone"]["low"]);
    assert_eq!((&drawn["band"]["way"], &drawn["band"]["years"]), (&"drawn".into(), &32.into()));
    let [low, high] = ["low", "high"].map(|end| number(&first["band"][end]));
    for (end, want) in [("low", low), ("high", high)] {
        let got = number(&drawn["band"][end]);
        assert!((got - want).abs() < 0.5 * (high - low), "{end}: {got} for {want}");
    }
}

/// What cannot be asked is a wrong command line; another build that is not there is a wrong input, named.
#[test]
fn wrong_wishes_are_told() {
    assert_eq!(run(&["year", "first-panel.toml", "--draws", "3"]).status, 2);
    assert_eq!(run(&["year", "first-panel.toml", "--draws", "99", "--no-band"]).status, 2);
    assert_eq!(run(&["year", "first-panel.toml", "--seed", "cloudy"]).status, 2);
    let missing = run(&["year", "first-panel.toml", "--beside", "nobody.toml", "--json"]);
    assert_eq!(missing.status, 1);
    assert!(missing.out.contains("nobody.toml"), "{}", missing.out);
}

/// Given a place by name, the nearest, and twelve means of one's own in the place of a weather file: a
/// year each, said to be made from months; the nearest with its distance; another seed, another year with
/// the same light to four figures.
#[test]
fn any_place_has_a_year() {
    let file = "weather = \"weather/pvgis-tmy_belfast_54.605_-5.929.csv\"";
    let sample =
        std::fs::read_to_string(samples().join("pair-better-back.toml")).expect("a sample");
    assert!(sample.contains(file));
    let folder = tempfile::tempdir().expect("a folder");
    let year = |name: &str, sun: &str, months: &str| {
        let text =
            sample.replace(file, sun).replacen("[panel]\n", &format!("{months}\n[panel]\n"), 1);
        let path = folder.path().join(format!("{name}.toml"));
        std::fs::write(&path, text).expect("written");
        document(&["year", path.to_str().expect("text"), "--json", "--no-band"], 0)
    };
    let at = "latitude = \"53.8 deg\"\nlongitude = \"-1.55 deg\"\n";
    let named = year("named", "place = \"East Pennines\"", "");
    assert_eq!(named["climate"]["kind"], "monthly");
    assert_eq!(named["climate"]["name"], "East Pennines");
    let nearest = year("nearest", &format!("place = \"nearest\"\n{at}"), "");
    assert!(nearest["problems"].to_string().contains("East Pennines, 34 km away"));
    let own = year(
        "own",
        at,
        "[sun.months]\n\
         light = \"0.6, 1.2, 2.2, 3.6, 4.5, 4.8, 4.6, 3.8, 2.7, 1.6, 0.8, 0.5 kWh/(m2 day)\"\n\
         air = \"4, 4.5, 6, 8.5, 11.5, 14.5, 16.5, 16.3, 13.8, 10.4, 6.8, 4.2 C\"\n",
    );
    let light = |document: &Value| number(&document["year"]["horizontal_irradiation_kwh_m2"]);
    // 31, 28, ... days of the twelve means, by hand: 942.4 kWh/m2.
    assert!((light(&own) - 942.4).abs() < 0.5, "{}", light(&own));
    let other = year("seeded", "place = \"East Pennines\"\nseed = 7", "");
    assert!((light(&other) / light(&named) - 1.0).abs() < 1e-4);
    assert!(other["year"]["spared_heat_kwh"] != named["year"]["spared_heat_kwh"]);
}
