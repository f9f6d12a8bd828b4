//! `worry`: what can go wrong, as words and as a document.

use serde_json::Value;

use crate::json::{assert_follows, document, schema};
use crate::program::run;

/// How much a kind matters, the gravest first.
fn weight(kind: &Value) -> usize {
    let kinds = ["stop", "mind", "quiet"];
    kinds.iter().position(|known| kind == known).unwrap_or_else(|| panic!("{kind}"))
}

fn number(value: &Value) -> f64 {
    value.as_f64().unwrap_or_else(|| panic!("{value} is no number"))
}

/// Given two samples and a build without a panel, each document follows its schema; the worst stands first;
/// what is quiet has no remedy and every other a number with its limit; a margin is what its number and
/// limit part by, below nought where the number is on the bad side; a remedy names what it changes.
#[test]
fn the_document_follows_its_schema_and_says_margins() {
    let schema = schema("worry");
    for build in ["first-panel.toml", "missed-seams.toml"] {
        let document = document(&["worry", build, "--json"], 0);
        assert_follows(&schema, &document);
        let findings = document["findings"].as_array().expect("findings");
        assert!(findings.len() > 5, "{build}: {}", findings.len());
        let weights: Vec<usize> = findings.iter().map(|one| weight(&one["kind"])).collect();
        assert!(weights.is_sorted(), "{build}: {weights:?}");
        for finding in findings {
            let remedies = finding["remedies"].as_array().expect("remedies");
            if finding["kind"] == "quiet" {
                assert!(remedies.is_empty(), "{finding}");
            }
            for remedy in remedies {
                assert!(remedy["edits"][0]["where"].is_string(), "{remedy}");
                let tried = &remedy["tried"];
                assert!(tried["spared_kwh"].is_number() || tried["refused"].is_string(), "{tried}");
            }
            for figure in finding["figures"].as_array().expect("figures") {
                if figure["limit"].is_null() {
                    assert!(figure["margin"].is_null(), "{figure}");
                    continue;
                }
                let over = number(&figure["value"]) - number(&figure["limit"]);
                let beyond = if figure["bad"] == "above" { over } else { -over };
                assert!((number(&figure["margin"]) + beyond).abs() < 1e-9, "{figure}");
                assert!(!figure["source"].as_str().expect("a source").is_empty(), "{figure}");
            }
        }
        assert!(document["not_looked_at"].as_str().expect("said").starts_with("Not looked at"));
    }
}

/// Given a sample whose tube joints are of soft solder, a stop worry is an answer: how many there are stands at the head, the first
/// follows, its kind's
/// word before all, with what to do, what that came to, and the source; the last words are what was not
/// looked at. Brazing is enough there (silver solder stands more than stagnation gives), so the remedy
/// leaves it quiet.
#[test]
fn a_grave_worry_is_told_and_the_status_is_done() {
    let told = run(&["worry", "missed-seams.toml"]);
    assert_eq!(told.status, 0, "{}", told.talk);
    let mut parts = told.out.split("\n\n").skip(1);
    let counted = parts.next().expect("how many stand against it");
    assert!(counted.ends_with("stop worries stand against it."), "{counted}");
    let body = parts.next().expect("a first worry");
    assert!(body.starts_with("Stop   Panel: At the tube joints"), "{body}");
    for words in [
        "Do: Take another material",
        "at most 121 C",
        "Tried: Braze the joints",
        "then quiet",
        "Source: ",
    ] {
        assert!(body.contains(words), "{words} in {body}");
    }
    assert!(told.out.trim_end().ends_with("anything that the design file does not say."));
    let quiet: Vec<&str> = told.out.lines().filter(|line| line.starts_with("Quiet")).collect();
    assert!(quiet.len() > 3, "{}", told.out);
}

/// Given a folder, a document to print: nothing in it is fetched or run, each worry that is no quiet one
/// stands there with its word, sources once at the foot, and on the paper that readers of US units have.
#[test]
fn the_document_to_print_is_whole_in_itself() {
    let folder = tempfile::tempdir().expect("a folder");
    for (units, paper) in [("metric", "size:A4"), ("us", "size:letter")] {
        let out = folder.path().join(units);
        let words = ["worry", "missed-seams.toml", "--units", units, "--out"];
        let told = run(&[&words[..], &[out.to_str().expect("text")]].concat());
        assert_eq!(told.status, 0, "{}", told.talk);
        let text = std::fs::read_to_string(out.join("worries.html")).expect("the document");
        assert!(text.contains(paper));
        for foreign in ["http://", "https://", "src=", "url(", "<script", "@import"] {
            let found = text.replace("http://www.w3.org/2000/svg", "");
            assert!(!found.contains(foreign), "{foreign}");
        }
        let loud = told
            .out
            .lines()
            .filter(|line| ["Stop ", "Mind "].iter().any(|word| line.starts_with(word)));
        assert_eq!(text.matches("class=\"worry\"").count(), loud.count());
        assert!(text.contains("<h2>Sources</h2>"));
    }
}

/// Given US units, no temperature is told in degrees Celsius and none of the differences in kelvin; what a
/// source says stays as it says it.
#[test]
fn us_units_hold_throughout() {
    let out = run(&["worry", "missed-seams.toml", "--units", "us"]).out;
    // A paragraph under a worry begins seven columns in, and goes on nine columns in.
    let mut is_source = false;
    let ours: Vec<&str> = out
        .lines()
        .filter(|line| {
            is_source =
                line.starts_with("       Source:") || is_source && line.starts_with("         ");
            !is_source
        })
        .collect();
    let ours = ours.join("\n");
    let words: Vec<&str> = ours.split([' ', ',', ';', ':', '.', '\n']).collect();
    let is_metric = |two: &[&str]| {
        two[0].parse::<f64>().is_ok() && ["C", "K", "mm", "l", "m"].contains(&two[1])
    };
    assert_eq!(words.windows(2).find(|two| is_metric(two)), None);
    assert!(out.contains("at most 250 F"), "{out}");
}

/// Given a file that is not there, one document with its problem and the status of a wrong input.
#[test]
fn a_missing_file_is_a_wrong_input() {
    let document = document(&["worry", "nobody.toml", "--json"], 1);
    assert_follows(&schema("failed"), &document);
    assert_eq!(run(&["worry"]).status, 2);
}
