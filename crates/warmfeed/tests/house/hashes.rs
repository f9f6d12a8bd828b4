//! The weather files are, byte for byte, what their publishers wrote.

use crate::support::{files_under, none, read, root};
use sha2::{Digest, Sha256};
use std::collections::BTreeMap;

#[test]
fn weather_files_are_untouched() {
    let sums = read("samples/weather/SHA256SUMS");
    let listed: BTreeMap<&str, &str> = sums
        .lines()
        .map(|line| {
            let (sum, name) = line.split_once("  ").expect("two blanks between sum and name");
            (name, sum)
        })
        .collect();
    let mut faults = Vec::new();
    for path in files_under("samples/weather") {
        let name = path.strip_prefix("samples/weather/").unwrap();
        if name == "SHA256SUMS" || name.ends_with(".md") {
            continue;
        }
        let bytes = std::fs::read(root().join(&path)).unwrap();
        let sum: String = Sha256::digest(&bytes).iter().map(|byte| format!("{byte:02x}")).collect();
        match listed.get(name) {
            None => faults.push(format!("{name} is not in SHA256SUMS")),
            Some(expected) if *expected != sum => faults.push(format!("{name} was changed: {sum}")),
            Some(_) => {}
        }
    }
    for name in listed.keys() {
        if !root().join("samples/weather").join(name).exists() {
            faults.push(format!("{name} is in SHA256SUMS but not in the folder"));
        }
    }
    none("weather files against their sums", &faults);
    assert!(listed.len() >= 6, "{} files listed", listed.len());
}
