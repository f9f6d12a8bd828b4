//! Every dependency may be passed on under a licence we keep to. `deny.toml` says the same to the
//! usual tool; this asks it of `Cargo.lock` without one.

use crate::support::{none, read, root};
use cargo_metadata::MetadataCommand;

/// Licences that ask no more than to be named or passed along.
const ALLOWED: [&str; 9] = [
    "Apache-2.0",
    "Apache-2.0 WITH LLVM-exception",
    "BSD-2-Clause",
    "BSD-3-Clause",
    "MIT",
    "MIT-0",
    "Unicode-3.0",
    "Unlicense",
    "Zlib",
];

#[test]
fn every_dependency_has_an_allowed_licence() {
    let metadata = MetadataCommand::new()
        .current_dir(root())
        .other_options(["--locked".to_owned()])
        .exec()
        .unwrap();
    assert!(metadata.packages.len() > 50, "{} packages", metadata.packages.len());
    let faults: Vec<String> = metadata
        .packages
        .iter()
        .filter_map(|package| match &package.license {
            None => Some(format!("{} states no licence", package.name)),
            Some(licence) if allows(licence) => None,
            Some(licence) => Some(format!("{}: {licence}", package.name)),
        })
        .collect();
    none("dependencies whose licence is not in the list", &faults);
}

#[test]
fn deny_toml_allows_the_same_licences() {
    let deny: toml::Table = read("deny.toml").parse().unwrap();
    let mut there: Vec<&str> = deny["licenses"]["allow"]
        .as_array()
        .unwrap()
        .iter()
        .map(|licence| licence.as_str().unwrap())
        .collect();
    there.sort_unstable();
    assert_eq!(there, ALLOWED);
}

/// Whether an SPDX expression can be met with allowed licences alone. `A/B` is the old way to
/// write `A OR B`.
fn allows(expression: &str) -> bool {
    let spaced = expression.replace('/', " OR ").replace('(', " ( ").replace(')', " ) ");
    let words: Vec<&str> = spaced.split_whitespace().collect();
    let mut at = 0;
    let verdict = either(&words, &mut at);
    assert_eq!(at, words.len(), "`{expression}` was not understood");
    verdict
}

fn either(words: &[&str], at: &mut usize) -> bool {
    let mut verdict = both(words, at);
    while words.get(*at) == Some(&"OR") {
        *at += 1;
        // Read on whatever the verdict: the words must be consumed.
        verdict |= both(words, at);
    }
    verdict
}

fn both(words: &[&str], at: &mut usize) -> bool {
    let mut verdict = one(words, at);
    while words.get(*at) == Some(&"AND") {
        *at += 1;
        verdict &= one(words, at);
    }
    verdict
}

fn one(words: &[&str], at: &mut usize) -> bool {
    let word = words[*at];
    *at += 1;
    if word == "(" {
        let verdict = either(words, at);
        assert_eq!(words[*at], ")");
        *at += 1;
        return verdict;
    }
    if words.get(*at) == Some(&"WITH") {
        let exception = words[*at + 1];
        *at += 2;
        return ALLOWED.contains(&format!("{word} WITH {exception}").as_str());
    }
    ALLOWED.contains(&word)
}

#[test]
fn expressions_are_read_as_spdx_means_them() {
    assert!(allows("MIT"));
    assert!(allows("GPL-3.0-only OR MIT"));
    assert!(allows("Unlicense/MIT"));
    assert!(allows("(GPL-3.0-only OR Apache-2.0) AND Unicode-3.0"));
    assert!(allows("Apache-2.0 WITH LLVM-exception"));
    assert!(!allows("GPL-3.0-only"));
    assert!(!allows("MIT AND GPL-3.0-only"));
    // AND binds tighter than OR (SPDX specification, annex on expressions).
    assert!(allows("MIT OR GPL-3.0-only AND LGPL-3.0-only"));
    assert!(!allows("GPL-2.0-only WITH Classpath-exception-2.0"));
}
