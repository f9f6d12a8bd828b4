//! Every reference case is either tested or listed as not used yet, with the reason.

use crate::support::{files_ending, none, read};
use std::collections::{BTreeMap, BTreeSet};
use toml::{Table, Value};

const LIST: &str = "reference/not-used.toml";

#[test]
fn every_reference_case_is_tested_or_listed() {
    let cases = cases();
    assert!(cases.len() > 150, "{} cases were found", cases.len());
    let listed = listed();
    // Only Rust sources count: the referees recompute the references, they do not test our code.
    let sources: String = files_ending("crates", &[".rs"])
        .iter()
        .filter(|name| !name.starts_with("crates/warmfeed/tests/house/"))
        .map(|name| read(name))
        .collect();
    let used: BTreeSet<&str> = cases
        .keys()
        .map(String::as_str)
        .filter(|id| sources.contains(&format!("\"{id}\"")))
        .collect();
    let mut faults = Vec::new();
    for (id, file) in &cases {
        match (used.contains(id.as_str()), listed.contains_key(id)) {
            (false, false) => faults.push(format!("{id} of {file} is neither tested nor listed")),
            (true, true) => faults.push(format!("{id} is tested: take it out of {LIST}")),
            _ => {}
        }
    }
    for id in listed.keys().filter(|id| !cases.contains_key(*id)) {
        faults.push(format!("{LIST} lists {id}, which no reference file has"));
    }
    none("reference cases", &faults);
}

/// Ids of the cases in the reference files, each with its file.
fn cases() -> BTreeMap<String, String> {
    let mut found = BTreeMap::new();
    for name in files_ending("reference", &[".toml"]) {
        if name == LIST {
            continue;
        }
        let table: Table = read(&name).parse().unwrap_or_else(|error| panic!("{name}: {error}"));
        for key in ["case", "check"] {
            for case in table.get(key).and_then(Value::as_array).into_iter().flatten() {
                let id = case["id"].as_str().unwrap_or_else(|| panic!("{name}: a case has no id"));
                let twice = found.insert(id.to_owned(), name.clone());
                assert!(twice.is_none(), "{name}: {id} stands in two places");
            }
        }
    }
    found
}

/// Ids listed as not used, each with its reason; every entry must give one, and a station.
fn listed() -> BTreeMap<String, String> {
    let table: Table = read(LIST).parse().unwrap();
    let mut found = BTreeMap::new();
    for entry in table["not_used"].as_array().unwrap() {
        let text = |key: &str| {
            let text = entry.get(key).and_then(Value::as_str).unwrap_or_default();
            assert!(!text.is_empty(), "{LIST}: an entry without `{key}`: {entry}");
            text.to_owned()
        };
        text("belongs_to");
        for id in entry["ids"].as_array().unwrap() {
            let id = id.as_str().unwrap().to_owned();
            assert!(found.insert(id.clone(), text("reason")).is_none(), "{LIST}: {id} twice");
        }
    }
    found
}
