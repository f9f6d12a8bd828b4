//! Which crate may know which.

use crate::support::{none, root};
use cargo_metadata::{DependencyKind, MetadataCommand};

/// Each room and the rooms it may lean on. Nothing else is allowed, and a new crate needs a line.
const MAY_KNOW: [(&str, &[&str]); 9] = [
    ("physics", &[]),
    ("plate", &["physics"]),
    ("design", &["physics"]),
    ("year", &["physics"]),
    ("advice", &["physics", "plate", "design", "year"]),
    ("trials", &["physics", "plate", "design", "year"]),
    ("sheets", &["physics", "plate", "design", "year", "advice", "trials"]),
    ("warmfeed", &["physics", "plate", "design", "year", "advice", "trials", "sheets"]),
    ("benchmarks", &["physics", "plate", "design", "year", "advice"]),
];

/// Tests may build their subject from a design file: the one arrow that tests alone may draw.
const TESTS_MAY_KNOW: [(&str, &str); 1] = [("year", "design")];

#[test]
fn arrows_between_crates_point_one_way() {
    let metadata = MetadataCommand::new().current_dir(root()).no_deps().exec().unwrap();
    let rooms: Vec<&str> = metadata.packages.iter().map(|package| package.name.as_str()).collect();
    assert!(rooms.contains(&"physics") && rooms.contains(&"warmfeed"), "{rooms:?}");
    let mut faults = Vec::new();
    for package in &metadata.packages {
        let name = package.name.as_str();
        let Some((_, allowed)) = MAY_KNOW.iter().find(|(room, _)| *room == name) else {
            faults.push(format!("{name} has no line in the table of arrows"));
            continue;
        };
        for dependency in &package.dependencies {
            let other = dependency.name.as_str();
            let for_tests = dependency.kind == DependencyKind::Development
                && TESTS_MAY_KNOW.contains(&(name, other));
            if rooms.contains(&other) && !allowed.contains(&other) && !for_tests {
                faults.push(format!("{name} -> {other} ({:?})", dependency.kind));
            }
        }
    }
    none("arrows that no room may draw", &faults);
}

#[test]
fn physics_leans_on_nothing() {
    let metadata = MetadataCommand::new().current_dir(root()).no_deps().exec().unwrap();
    let physics = metadata.packages.iter().find(|package| package.name == "physics").unwrap();
    let leans: Vec<String> = physics
        .dependencies
        .iter()
        .filter(|dependency| dependency.kind != DependencyKind::Development)
        .map(|dependency| dependency.name.clone())
        .collect();
    none("physics may have dependencies in tests only", &leans);
}
