//! `panel --plate`: the sheet drawn to scale, and what its seams cost.

use serde_json::Value;

use crate::json::{assert_follows, document, schema};
use crate::program::run;

fn number(value: &Value, key: &str) -> f64 {
    value.get(key).and_then(Value::as_f64).unwrap_or_else(|| panic!("no {key} in {value}"))
}

/// Given the sample of missed seams. Expected: the document follows its schema and holds the
/// contract's keys; heat taken up is gained or lost (by its own figures, to a tenth of a watt); the
/// picture's heat and the chain's, which goes by the even bond, differ by less than 1 %; the
/// hottest place lies within half a spacing of a missed seam; three centimetres of seam cost next
/// to nothing, and longer missed seams cost more than shorter ones.
#[test]
fn missed_seams_are_found_and_priced() {
    let document = document(&["panel", "missed-seams.toml", "--plate", "--json"], 0);
    assert_follows(&schema("panel"), &document);
    let plate = &document["plate"];
    let out_w = ["useful_w", "top_loss_w", "back_loss_w", "rim_loss_w"]
        .iter()
        .map(|key| number(plate, key))
        .sum::<f64>();
    assert!((out_w - number(plate, "absorbed_w")).abs() < 0.1, "{plate}");
    assert!((number(plate, "useful_w") / number(plate, "chain_useful_w") - 1.0).abs() < 0.01);
    assert!(number(plate, "useful_tolerance_w") < 0.01 * number(plate, "useful_w"));
    assert!(number(plate, "hottest_spot_c") > number(plate, "coldest_spot_c") + 10.0);
    // Riser 6 of eight every 125 mm on a sheet of a metre: 687.5 mm from the left.
    let hottest = &plate["hottest_spot"];
    assert!((number(hottest, "across_mm") - 687.5).abs() <= 62.5, "{hottest}");
    assert!((1550.0..=1900.0).contains(&number(hottest, "up_mm")), "{hottest}");
    let stretches = plate["stretches"].as_array().expect("stretches");
    assert_eq!(stretches.len(), 4);
    for stretch in stretches {
        assert!(number(stretch, "cost_tolerance_w") > 0.0 && number(stretch, "cost_w") > 0.0);
        assert!(number(stretch, "cost_tolerance_kwh") > 0.0, "{stretch}");
    }
    let cost = |at: usize, key: &str| number(&stretches[at], key);
    for key in ["cost_w", "cost_kwh"] {
        assert!(cost(0, key) > cost(1, key) && cost(1, key) > cost(2, key), "{key}: {plate}");
    }
    assert!(cost(2, "cost_w") < 0.001 * number(plate, "useful_w"));
    let even = number(plate, "even_bond_w_m_k");
    assert!(even > 5.0 && even < 100.0, "{even}");
}

/// Given the sample of missed seams, and the same with a single bond. Expected: the year of the first
/// says by which bond it goes and spares less; it is the year of a build with that bond written, to
/// 0.01 %.
#[test]
fn the_year_goes_by_the_even_bond() {
    let folder = tempfile::tempdir().expect("a folder");
    let samples = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("../../samples");
    let text = std::fs::read_to_string(samples.join("missed-seams.toml")).expect("the sample");
    let text = text.replace("weather/", &format!("{}/weather/", samples.display()));
    let (head, rest) = text.split_once("# Where no solder ran.").expect("its stretches");
    let (_, tail) = rest.split_once("[[panel.back]]").expect("what follows them");
    let with_bond = |bond: &str| {
        let path = folder.path().join("even.toml");
        let whole = format!("{head}[[panel.back]]{tail}").replace("\"soldered\"", bond);
        std::fs::write(&path, whole).expect("written");
        let year = document(&["year", &path.display().to_string(), "--json", "--no-band"], 0);
        year["year"]["spared_heat_kwh"].as_f64().expect("a number")
    };
    let missed = document(&["year", "missed-seams.toml", "--json", "--no-band"], 0);
    let note = missed["problems"]
        .as_array()
        .and_then(|problems| problems.iter().find(|problem| problem["code"] == "even-bond"))
        .expect("a note");
    assert_eq!(note["severity"], "note");
    let bond = note["expected"].as_str().expect("the bond");
    let spared_kwh = missed["year"]["spared_heat_kwh"].as_f64().expect("a number");
    let even_kwh = with_bond(&format!("\"{bond}\""));
    assert!((spared_kwh / even_kwh - 1.0).abs() < 1e-4, "{spared_kwh} against {even_kwh}");
    assert!(with_bond("\"soldered\"") > spared_kwh + 1.0);
}

/// Given a serpentine without stretches. Expected: a picture that agrees with the chain within 1 %,
/// though the rim loses at the rim; one tube; no table of stretches on the page. Given a bought
/// panel and a radiator. Expected: refused in words, for neither has a tube on a sheet.
#[test]
fn a_sheet_without_faults_is_drawn_too() {
    let drawn = document(&["panel", "first-panel.toml", "--plate", "--json"], 0);
    let plate = &drawn["plate"];
    let off = number(plate, "useful_w") / number(plate, "chain_useful_w") - 1.0;
    assert!(off.abs() < 0.01, "{off}");
    assert_eq!(plate["tubes"].as_array().map(Vec::len), Some(1));
    let page = run(&["panel", "first-panel.toml", "--plate"]).out;
    assert!(page.contains("Hottest") && !page.contains("Stretch"), "{page}");
    for build in ["bought-selective.toml", "radiator-pair.toml"] {
        let refused = run(&["panel", build, "--plate"]);
        assert_eq!(refused.status, 3, "{}", refused.talk);
        assert!(refused.talk.contains("sheet"), "{}", refused.talk);
    }
}
