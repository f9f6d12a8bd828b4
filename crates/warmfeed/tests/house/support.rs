//! Finds and parses the repository's files.

use std::path::{Path, PathBuf};

/// The repository's root.
pub fn root() -> PathBuf {
    PathBuf::from(concat!(env!("CARGO_MANIFEST_DIR"), "/../..")).canonicalize().unwrap()
}

/// All files under a folder of the repository, by path from the root, in order. What tools make
/// (`target`, `out`, caches) and what git keeps for itself is left out.
pub fn files_under(folder: &str) -> Vec<String> {
    let mut found = Vec::new();
    collect(&root().join(folder), &mut found);
    let mut names: Vec<String> = found
        .iter()
        .map(|path| path.strip_prefix(root()).unwrap().to_str().unwrap().to_owned())
        .collect();
    names.sort();
    names
}

/// A folder that is not there holds no file.
fn collect(folder: &Path, found: &mut Vec<PathBuf>) {
    const MADE: [&str; 6] = ["target", "out", ".git", "node_modules", "__pycache__", "fuzz-corpus"];
    if !folder.exists() {
        return;
    }
    for entry in std::fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        let name = path.file_name().unwrap().to_str().unwrap();
        if path.is_dir() {
            if !MADE.contains(&name) {
                collect(&path, found);
            }
        } else {
            found.push(path);
        }
    }
}

/// Files under a folder whose names end in one of these.
pub fn files_ending(folder: &str, endings: &[&str]) -> Vec<String> {
    let mut files = files_under(folder);
    files.retain(|name| endings.iter().any(|ending| name.ends_with(ending)));
    files
}

/// The text of a file named from the root.
pub fn read(name: &str) -> String {
    std::fs::read_to_string(root().join(name)).unwrap_or_else(|error| panic!("{name}: {error}"))
}

/// The parsed Rust sources under a folder, each with its name from the root.
pub fn parsed(folder: &str) -> Vec<(String, syn::File)> {
    let sources: Vec<_> = files_ending(folder, &[".rs"])
        .into_iter()
        .map(|name| {
            let file = syn::parse_file(&read(&name)).unwrap_or_else(|e| panic!("{name}: {e}"));
            (name, file)
        })
        .collect();
    assert!(!sources.is_empty(), "no Rust source under {folder}: the rule would hold of nothing");
    sources
}

/// Whether an item stands under `#[cfg(test)]`.
pub fn is_test_only(attributes: &[syn::Attribute]) -> bool {
    attributes.iter().any(|attribute| {
        attribute.path().is_ident("cfg")
            && attribute.parse_args::<syn::Path>().is_ok_and(|path| path.is_ident("test"))
    })
}

/// The entries of a list kept beside these tests: `name: reason`, `#` begins a comment.
pub fn list(text: &str) -> Vec<(&str, &str)> {
    text.lines()
        .filter(|line| !line.trim().is_empty() && !line.starts_with('#'))
        .map(|line| {
            let (name, reason) = line
                .split_once(':')
                .unwrap_or_else(|| panic!("`{line}` is not of the form `name: reason`"));
            assert!(!reason.trim().is_empty(), "`{name}` stands in the list without a reason");
            (name.trim(), reason.trim())
        })
        .collect()
}

/// Fails with every fault on its own line.
#[track_caller]
pub fn none(rule: &str, faults: &[String]) {
    assert!(faults.is_empty(), "{rule}\n  {}\n", faults.join("\n  "));
}
