//! The sample job book is read without a fault, and means what it says.

mod flat;

use crate::flat::flat_climate;
use design::{Origin, Problem, Reading, read_design};
use physics::panel::{Join, TubePattern};
use std::path::PathBuf;

const SAMPLES: [&str; 9] = [
    "first-panel",
    "larger-tubes",
    "pair-better-back",
    "southern-harp",
    "thermostat-shed",
    "bought-selective",
    "radiator-pair",
    "gravity-lean-to",
    "missed-seams",
];

fn sample(name: &str) -> Reading {
    let path = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join(format!("../../samples/{name}.toml"));
    let bytes = std::fs::read(&path).expect("the sample stands");
    read_design(&format!("{name}.toml"), &bytes)
}

fn told(problems: &[Problem]) -> String {
    problems
        .iter()
        .map(|p| {
            format!(
                "{}:{}:{} {} {}: {} ({})\n",
                p.file, p.span.line, p.span.column, p.code, p.place, p.says, p.hint
            )
        })
        .collect()
}

/// Every sample: no fault, no warning, and the weather it names stands beside it. A note may stand: two
/// coils are shorter than a rule of thumb asks, and the year reckons with what they are.
#[test]
fn samples_are_read() {
    for name in SAMPLES {
        let reading = sample(name);
        let noted = reading.problems.iter().all(|problem| problem.code == "coil-small");
        assert!(reading.is_ok() && noted, "{}", told(&reading.problems));
        let design = reading.design.expect("a design");
        let weather =
            format!("{}/../../samples/{}", env!("CARGO_MANIFEST_DIR"), design.weather.name());
        assert!(std::path::Path::new(&weather).is_file(), "{weather}");
        assert!(!design.title.is_empty() && !design.story.is_empty());
    }
}

/// Given the first panel as written, its build in SI: converted by hand.
#[test]
fn the_first_panel_means_what_it_says() {
    let design = sample("first-panel").design.expect("a design");
    let climate = flat_climate(54.605, -5.929, None);
    let build = design.at(&climate, "first-panel.toml").build;
    assert!((build.sun.plane.tilt.degrees() - 35.0).abs() < 1e-9);
    assert!((build.sun.plane.facing.degrees() - 180.0).abs() < 1e-9);
    assert_eq!(build.sun.place.clock_ahead_h, 0.0);
    let panel = build.panel.panels[0].built().expect("made at home");
    let tubes = panel.tubes().expect("tubes on a sheet");
    assert!((panel.sheet.area_m2() - 0.72).abs() < 1e-12);
    assert!((tubes.tube.bore_m - 0.0068).abs() < 1e-12);
    assert_eq!(tubes.pattern, TubePattern::Serpentine { legs: 6, leg_length_m: 1.1 });
    assert_eq!(panel.back.len(), 2);
    // Perimeter 3.6 m, depth 25 + 8 + 25 + 9 mm.
    assert!((panel.edge.area_m2 - 3.6 * 0.067).abs() < 1e-12);
    let limit = build.control.store_limit.expect("a limit");
    assert!((limit.limit_k - 333.15).abs() < 1e-9);
    assert!((build.circuit.pump.as_ref().expect("a pump").curve[1].flow_m3_s - 5e-5).abs() < 1e-12);
    assert_eq!(build.tap.holidays[0].first, 200);
    // SAP 2012: two people draw 86 litres a day.
    let day_m3: f64 = build.tap.draws.iter().map(|draw| draw.volume_m3).sum();
    assert!((day_m3 - 0.086).abs() < 1e-12);
    // Square plan of 115 l over 450 mm: four sides of its root.
    assert!((build.store.perimeter_m - 4.0 * (0.115f64 / 0.45).sqrt()).abs() < 1e-12);
}

/// The pair is two panels side by side; the harp stands in the other hemisphere.
#[test]
fn the_others_mean_what_they_say() {
    let pair = sample("pair-better-back").design.expect("a design");
    let build = pair.at(&flat_climate(54.605, -5.929, None), "pair.toml").build;
    assert_eq!(build.panel.join, Join::Parallel(vec![Join::One(0), Join::One(1)]));
    let harp = sample("southern-harp").design.expect("a design");
    let build = harp.at(&flat_climate(-38.32, -71.96, Some(240.0)), "harp.toml").build;
    assert!(build.sun.place.latitude.degrees() < 0.0);
    assert_eq!(build.sun.place.clock_ahead_h, -4.0);
    assert_eq!(build.sun.place.elevation_m, 240.0);
    let panel = build.panel.panels[0].built().expect("made at home");
    assert!((panel.sheet.width_m - 1.016).abs() < 1e-12);
    let tubes = panel.tubes().expect("tubes on a sheet");
    assert!(matches!(tubes.pattern, TubePattern::Harp { risers: 8, .. }));
    assert_eq!(harp.stock.expect("stock").tubes[0].count, 6);
}

/// The missed seams are stretches of a harp's risers, counted from 0; the words stand for what the
/// catalogue of bonds says.
#[test]
fn the_missed_seams_lie_where_they_were_missed() {
    let design = sample("missed-seams").design.expect("a design");
    let build = design.at(&flat_climate(52.5, 13.4, None), "missed-seams.toml").build;
    let panel = build.panel.panels[0].built().expect("made at home");
    let tubes = panel.tubes().expect("tubes on a sheet");
    let laid: Vec<(usize, f64, f64, f64)> = tubes
        .stretches
        .iter()
        .map(|one| (one.tube, one.from_m, one.to_m, one.bond_w_m_k))
        .collect();
    assert_eq!(
        laid,
        [(2, 0.4, 1.1, 0.5), (5, 1.55, 1.9, 0.5), (7, 0.2, 0.23, 0.5), (4, 0.0, 0.6, 5.0)]
    );
    assert_eq!(tubes.bond_w_m_k, 100.0);
}

/// Given the first panel with its tube laid at will over four places. Expected: a route through
/// them, its spacing the sheet's area over its length (by hand: 0.72 m2 over 1.0 + 0.4 + 1.0 m), and
/// no word on legs or spacing.
#[test]
fn a_tube_may_be_laid_at_will() {
    let path = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../../samples/first-panel.toml");
    let text = std::fs::read_to_string(path).expect("the sample stands");
    let text = text
        .replacen("pattern = \"serpentine\"", "pattern = \"route\"", 1)
        .replacen("spacing = \"95 mm\"\n", "", 1)
        .replacen("legs = 6\n", "", 1)
        .replacen(
            "leg-length = \"1.1 m\"",
            "route = [[\"10 cm\", \"10 cm\"], [\"10 cm\", \"1.1 m\"], [\"0.5 m\", \"1100 mm\"], [\"0.5 m\", \"0.1 m\"]]",
            1,
        );
    let reading = read_design("route.toml", text.as_bytes());
    assert!(reading.problems.iter().all(|problem| !problem.is_fault()), "{:?}", reading.problems);
    let design = reading.design.expect("a design");
    let build = design.at(&flat_climate(54.605, -5.929, None), "route.toml").build;
    let tubes = build.panel.panels[0].built().and_then(|built| built.tubes()).expect("tubes");
    let TubePattern::Route { points } = &tubes.pattern else { panic!("{:?}", tubes.pattern) };
    assert_eq!(points.len(), 4);
    assert!((tubes.length_m() - 2.4).abs() < 1e-12);
    assert!((tubes.spacing_m - 0.72 / 2.4).abs() < 1e-12);
}

/// Given the first panel (tilt 35 deg, facing south) at places of both hemispheres, at the tropics and
/// at the equator, and turned round: a warning that names latitude and facing exactly where the noon
/// sun stands behind the panel. South of 23.5 S the noon sun is always in the north (astronomy).
#[test]
fn a_panel_with_its_back_to_the_noon_sun_is_warned_of() {
    let path = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../../samples/first-panel.toml");
    let text = std::fs::read_to_string(path).expect("the sample stands");
    let warning = |facing: &str, tilt: &str, latitude_deg: f64| {
        let text = text
            .replacen("facing = \"south\"", &format!("facing = \"{facing}\""), 1)
            .replacen("tilt = \"35 deg\"", &format!("tilt = \"{tilt}\""), 1);
        let design = read_design("x.toml", text.as_bytes()).design.expect("a design");
        let problems = design.at(&flat_climate(latitude_deg, 0.0, None), "x.toml").problems;
        problems.into_iter().find(|problem| problem.code == "noon-sun-behind")
    };
    let told = warning("south", "35 deg", -38.32).expect("told");
    assert_eq!(told.severity, design::Severity::Warning);
    assert!(told.says.contains("-38.32 deg") && told.says.contains("180 deg"), "{told:?}");
    assert!(told.span.line > 0 && !told.hint.is_empty(), "{told:?}");
    assert!(warning("north", "35 deg", 54.6).is_some());
    for (facing, tilt, latitude_deg) in [
        ("south", "35 deg", 54.6),
        ("north", "35 deg", -38.3),
        ("east", "35 deg", 54.6),
        ("west", "35 deg", -38.3),
        ("north", "35 deg", 20.0),
        ("north", "0 deg", 54.6),
    ] {
        assert_eq!(warning(facing, tilt, latitude_deg), None, "{facing} {tilt} {latitude_deg}");
    }
}

/// Given nobody in the house, what is said of the draws is that there are none, and no rule for people.
#[test]
fn an_empty_house_draws_nothing_and_says_so() {
    let path = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../../samples/first-panel.toml");
    let text = std::fs::read_to_string(path).expect("the sample stands");
    let text = text.replacen("people = 2", "people = 0", 1);
    let design = read_design("x.toml", text.as_bytes()).design.expect("a design");
    let traced = design.origins.at("tap.draw").expect("noted");
    assert_eq!(traced.value, "none");
    assert!(!traced.origin.sentence().contains("25 N"), "{traced:?}");
}

/// No default is used in silence: every assumption has a value and an origin that says more than
/// its kind, and unknowns keep their spread.
#[test]
fn every_assumption_has_its_origin() {
    for name in SAMPLES {
        let design = sample(name).design.expect("a design");
        let assumed = design.origins.assumed();
        assert!(assumed.iter().any(|one| one.place == "store.coil.roughness"));
        for one in &assumed {
            assert!(!one.value.is_empty() && one.origin.len() > 20, "{name}: {one:?}");
        }
    }
    let harp = sample("southern-harp").design.expect("a design");
    // What is simply not there is said too, and what two people stand for.
    let value = |name: &str, place: &str| {
        let origins = sample(name).design.expect("a design").origins;
        origins.at(place).map(|traced| traced.value.clone())
    };
    assert_eq!(value("southern-harp", "store.overheat").as_deref(), Some("none"));
    assert_eq!(value("first-panel", "tap.draw").as_deref(), Some("86 l a day in 8 draws"));
    let bond = harp.origins.at("panel.tubes.bond").expect("noted");
    assert!(
        matches!(&bond.origin, Origin::Unknown { low, high, .. } if low == "5 W/m K" && high == "100 W/m K")
    );
}
