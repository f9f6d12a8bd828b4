//! `sum`: every worked example through the program, and what it says of bad input.

use serde_json::Value;

use crate::json::{assert_follows, document, schema};
use crate::program::run;

/// A place in a case's `expected` table: `ut`, `nusselt[4]`; in the hydraulics file the number
/// stands beside its unit.
fn expected(case: &toml::Value, place: &str) -> Option<f64> {
    let (name, at) = match place.split_once('[') {
        Some((name, at)) => (name, Some(at.trim_end_matches(']').parse::<usize>().ok()?)),
        None => (place, None),
    };
    let found = case.get("expected")?.get(name)?;
    let found = match at {
        Some(at) => found.as_array()?.get(at)?,
        None => found.get("value").unwrap_or(found),
    };
    found.as_float().or_else(|| found.as_integer().map(|whole| whole as f64))
}

/// The cases of the reference files.
fn cases() -> Vec<toml::Value> {
    let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("../../reference");
    ["thermal-checks.toml", "hydraulics-checks.toml"]
        .iter()
        .flat_map(|name| {
            let text = std::fs::read_to_string(folder.join(name)).unwrap();
            let table: toml::Table = text.parse().unwrap();
            let list = table.get("case").or_else(|| table.get("check")).unwrap();
            list.as_array().unwrap().clone()
        })
        .collect()
}

/// Given every worked example of every sum, the program's answer is what the example's source says,
/// as near as it says; and where that is a reference case, the figure is the case's own.
#[test]
fn every_worked_example_holds() {
    let (list, cases) = (document(&["sum", "--json"], 0), cases());
    let schema = schema("sum");
    let mut checked = 0;
    for sum in list["sums"].as_array().unwrap() {
        let name = sum["sum"].as_str().unwrap();
        for example in sum["examples"].as_array().unwrap() {
            let given = example["given"].as_object().unwrap();
            let words: Vec<String> =
                given.iter().map(|(k, v)| format!("{k}={}", v.as_str().unwrap())).collect();
            let mut line = vec!["sum", name, "--json"];
            line.extend(words.iter().map(String::as_str));
            let answer = document(&line, 0);
            assert_follows(&schema, &answer);
            for expected_answer in example["expected"].as_array().unwrap() {
                let key = expected_answer["key"].as_str().unwrap();
                let (value, within) =
                    (number(&expected_answer["value"]), number(&expected_answer["within"]));
                let got = number(&answer["answers"][key]);
                assert!((got - value).abs() <= within, "{name} {words:?}: {key} {got} for {value}");
                if let Some(id) = expected_answer["case"].as_str() {
                    let case = cases.iter().find(|case| case["id"].as_str() == Some(id));
                    let case = case.unwrap_or_else(|| panic!("{name}: no case {id}"));
                    let place = expected_answer["place"].as_str().unwrap();
                    assert_eq!(expected(case, place), Some(value), "{name}: {id} {place}");
                }
                checked += 1;
            }
        }
    }
    assert!(checked > 60, "{checked} answers were checked");
}

fn number(value: &Value) -> f64 {
    value.as_f64().unwrap_or_else(|| panic!("{value} is no number"))
}

/// Given the list, a sum's page and answers in US units, this is how they read; figures are pinned
/// by the examples.
#[test]
fn sums_read_like_this() {
    insta::assert_snapshot!("sums", run(&["sum"]).out);
    assert_eq!(run(&["sum", "--help"]).out, run(&["sum"]).out);
    insta::assert_snapshot!("sum_help", run(&["sum", "top-loss", "--help"]).out);
    let us = run(&[
        "sum",
        "pipe",
        "--units",
        "us",
        "bore=1/2 in",
        "length=30 ft",
        "flow=2 gpm",
        "fluid=water",
        "temperature=120 F",
    ]);
    insta::assert_snapshot!("sum_us", us.out);
    insta::assert_snapshot!("sum_scald", run(&["sum", "scald", "temperature=70 C"]).out);
}

/// Given the list as a document, it follows its schema.
#[test]
fn the_list_follows_its_schema() {
    assert_follows(&schema("sums"), &document(&["sum", "--json"], 0));
}

const FIN: &str =
    "spacing=150 mm;outside=10 mm;thickness=0.5 mm;conductivity=385 W/m K;loss=8 W/m2 K";

/// A line apart at `;`, what it comes to, and words that must be said, the problem's code first.
/// Where keys are missing besides, the line itself is wrong: status 2.
const BAD: &[(&str, i32, &[&str])] = &[
    ("coler", 2, &["unknown-sum", "did you mean `cover`?"]),
    ("toploss", 2, &["unknown-sum", "did you mean `top-loss`?"]),
    ("zzz", 2, &["unknown-sum", "lists them all"]),
    ("tube", 2, &["missing-key", "`outside`: a length", "`wall`"]),
    ("tube;outside=15 mm", 2, &["missing-key", "`wall`"]),
    ("tube;outside=15;wall=0.7 mm", 1, &["no-unit", "mm, cm, m, in, ft"]),
    ("tube;outside=15 C;wall=0.7 mm", 1, &["wrong-unit", "measures a temperature"]),
    ("tube;outside=15 furlongs;wall=0.7 mm", 1, &["unknown-unit", "furlongs"]),
    ("tube;outside=;wall=0.7 mm", 1, &["not-a-quantity", "nothing is written"]),
    ("tube;outside=wide;wall=0.7 mm", 1, &["not-a-quantity"]),
    ("tube;outside=1e999 mm;wall=0.7 mm", 1, &["not-finite"]),
    ("tube;outside=1,500 mm;wall=0.7 mm", 1, &["ambiguous-comma"]),
    ("tube;outside=15 mm;wall=0.7 mm;outside=16 mm", 2, &["key-twice", "outside"]),
    ("tube;outsid=15 mm;wall=0.7 mm", 2, &["unknown-key", "did you mean `outside`?"]),
    ("tube;bogus=1;outside=15 mm;wall=0.7 mm", 2, &["unknown-key", "outside, wall, material"]),
    ("tube;15 mm;wall=0.7 mm", 2, &["not-key-value", "key=value"]),
    ("tube;=15 mm;wall=0.7 mm", 2, &["unknown-key"]),
    ("tube;outside=15 mm;wall=9 mm", 1, &["out-of-range", "half the outside"]),
    ("tube;outside=5 m;wall=1 mm", 1, &["out-of-range", "0.1 mm to 2 m"]),
    ("tube;outside=-15 mm;wall=0.7 mm", 1, &["out-of-range"]),
    (
        "tube;outside=15 mm;wall=0.7 mm;material=coper",
        1,
        &["unknown-word", "did you mean `copper`?"],
    ),
    ("harp;connection=same;flow=1 l/min", 2, &["unknown-word", "same-side"]),
    ("harp;risers=8.5", 2, &["not-a-count"]),
    ("harp;risers=-1", 2, &["not-a-count"]),
    ("pipe;flow=5 mm", 2, &["wrong-unit", "a flow"]),
    ("pipe;flow=5 gal/min", 2, &["ambiguous-unit"]),
    ("sun;latitude=54 deg;longitude=0 deg;time=2024-02-29", 1, &["not-a-time", "clock time"]),
    ("sun;latitude=54 deg;longitude=0 deg;time=2024-02-29T10:17:00", 1, &["not-a-time", "UTC"]),
    ("sun;latitude=54 deg;longitude=0 deg;time=2023-02-29T10:17:00Z", 1, &["not-a-time"]),
    ("sun;latitude=54 deg;longitude=0 deg;time=1850-02-28T10:17:00Z", 1, &["out-of-range", "1850"]),
    ("sun;latitude=91 deg;longitude=0 deg;time=2024-02-29T10:17:00Z", 1, &["out-of-range"]),
    ("fluid;fluid=water;share_mass=30 %;temperature=20 C", 1, &["keys-clash", "no antifreeze"]),
    ("fluid;fluid=propylene-glycol;temperature=20 C", 2, &["missing-key", "share_mass"]),
    (
        "fluid;fluid=propylene-glycol;share_mass=0.3;share_volume=0.3;temperature=20 C",
        1,
        &["keys-clash", "twice"],
    ),
    ("fluid;fluid=water;temperature=-5 C", 1, &["out-of-range", "freezes at 0.0 C"]),
    ("fluid;fluid=water;temperature=105 C;pressure=0 bar", 1, &["keys-clash", "boils at 100.0 C"]),
    ("fluid;fluid=water;temperature=20 K", 1, &["wrong-unit", "how warm"]),
    ("gap;tilt=45 deg", 2, &["missing-key", "rayleigh"]),
    ("gap;tilt=45 deg;hot=70 C", 2, &["missing-key", "gap"]),
    ("gap;tilt=45 deg;rayleigh=1e4;hot=70 C", 1, &["keys-clash", "leave one of them out"]),
    ("boil", 2, &["missing-key", "pressure"]),
    ("boil;head=1 m;pressure=1 bar", 1, &["keys-clash"]),
    ("boil;pressure=1 bar;altitude=500 m", 1, &["keys-clash", "bar abs"]),
    ("stretch;material=copper;length=1 m;warming=100 C", 1, &["wrong-unit", "K"]),
    ("mix;hot=40 C;cold=50 C;wanted=45 C", 1, &["out-of-range", "hot water over cold"]),
    ("screw;diameter=8 mm;embedded=20 mm;timber_density=350 kg/m3", 1, &["keys-clash", "six"]),
    (
        "wind;basic_speed=24 m/s;height=8 m;terrain=2;area=2 m2",
        2,
        &["missing-key", "net_coefficient"],
    ),
    ("wind;basic_speed=24 m/s;height=8 m;terrain=5", 1, &["unknown-word", "0, 1, 2, 3, 4"]),
    ("sky;ambient=10 C;dew_point=12 C", 1, &["keys-clash", "dew point"]),
    (
        "vessel;contents=20 l;growth_percent=6;steam=0 l;head_pressure=3 bar;relief=3 bar",
        1,
        &["out-of-range"],
    ),
    ("month;mains=10 C", 2, &["missing-key", "frul"]),
    (
        "dry-heat;measured_plate=110 C;measured_ambient=50 C;measured_irradiance=400 W/m2",
        1,
        &["out-of-range", "500 W/m2"],
    ),
    (
        "dry-heat;measured_plate=10 C;measured_ambient=50 C;measured_irradiance=900 W/m2",
        1,
        &["out-of-range", "plate over air"],
    ),
    ("sealed;outside=15 mm;wall=0.7 mm;temperature=20 C;trapped_air=60 %", 1, &["out-of-range"]),
];

/// Given lines that are wrong, the contract's status, the code of the problem, and what mends it;
/// as a document too.
#[test]
fn what_is_wrong_is_said() {
    let failed = schema("failed");
    for (line, status, words) in BAD {
        let mut arguments = vec!["sum"];
        arguments.extend(line.split(';'));
        let told = run(&arguments);
        assert_eq!(told.status, *status, "{line}: {}", told.talk);
        assert!(told.out.is_empty(), "{line}: {}", told.out);
        for word in *words {
            assert!(told.talk.contains(word), "{line}: `{word}` is missing in\n{}", told.talk);
        }
        arguments.push("--json");
        let document = document(&arguments, *status);
        assert_follows(&failed, &document);
        let problems = document["problems"].as_array().unwrap();
        let code = |problem: &Value| problem["code"].as_str() == Some(words[0]);
        assert!(problems.iter().any(code), "{line}: {problems:?}");
    }
}

/// Given a sound line, what was assumed is told beside what was given.
#[test]
fn what_is_assumed_is_told() {
    let mut line = vec!["sum", "fin", "--json"];
    line.extend(FIN.split(';'));
    assert_eq!(document(&line, 0)["assumed"], Value::Array(Vec::new()));
    let tube = document(&["sum", "tube", "outside=15 mm", "wall=0.7 mm", "--json"], 0);
    assert_eq!(tube["assumed"][0]["where"], "material");
    assert_eq!(tube["given"]["material"], "copper");
}

/// Given cautions where people get hurt, they stand beside the answer and in the document.
#[test]
fn cautions_stand_where_people_get_hurt() {
    let list = document(&["sum", "--json"], 0);
    let names: Vec<&str> =
        list["sums"].as_array().unwrap().iter().map(|sum| sum["sum"].as_str().unwrap()).collect();
    for name in ["scald", "boil", "vessel", "wind", "snow", "screw"] {
        assert!(names.contains(&name));
        let page = run(&["sum", name, "--help"]).out;
        assert!(page.contains("\nCaution   "), "{name}: {page}");
    }
    for name in names {
        let page = run(&["sum", name, "--help"]).out.to_lowercase();
        assert!(!page.contains("safe"), "{name}");
    }
}
