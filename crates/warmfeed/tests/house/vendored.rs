//! Files of others inside the program are what their makers published, and each is credited.

use crate::support::{files_under, none, read, root};
use sha2::{Digest, Sha256};
use std::collections::BTreeMap;

const FOLDER: &str = "crates/warmfeed/assets/vendor";
/// Licences under which a file may be built in and passed on.
const ALLOWED: [&str; 2] = ["MIT", "OFL-1.1"];

#[test]
fn vendored_files_are_untouched_and_credited() {
    let list: toml::Table = read(&format!("{FOLDER}/vendor.toml")).parse().unwrap();
    let notice = read("NOTICE");
    let mut faults = Vec::new();
    let mut listed = BTreeMap::new();
    for package in list["package"].as_array().unwrap() {
        let text = |key: &str| package[key].as_str().unwrap();
        let (folder, version) = (text("folder"), text("version"));
        if !folder.ends_with(&format!("-{version}")) {
            faults.push(format!("{folder} does not end in its version, {version}"));
        }
        if !ALLOWED.contains(&text("licence")) {
            faults.push(format!("{folder}: {} is not a licence we take", text("licence")));
        }
        if !notice.contains(folder) {
            faults.push(format!("{folder} is not credited in NOTICE"));
        }
        let sums = package["sha256"].as_table().unwrap();
        if !sums.contains_key("LICENSE") {
            faults.push(format!("{folder} stands without its licence's text"));
        }
        for (file, sum) in sums {
            listed.insert(format!("{FOLDER}/{folder}/{file}"), sum.as_str().unwrap().to_owned());
        }
    }
    let there = files_under(FOLDER);
    let ours = [format!("{FOLDER}/vendor.toml"), format!("{FOLDER}/licences.txt")];
    for path in there.iter().filter(|path| !ours.contains(path)) {
        let bytes = std::fs::read(root().join(path)).unwrap();
        let sum: String = Sha256::digest(&bytes).iter().map(|byte| format!("{byte:02x}")).collect();
        match listed.remove(path) {
            None => faults.push(format!("{path} is not in vendor.toml")),
            Some(expected) if expected != sum => faults.push(format!("{path} was changed: {sum}")),
            Some(_) => {}
        }
    }
    faults.extend(listed.keys().map(|path| format!("{path} is listed but not there")));
    // The page shows all licences as one text.
    let shown = read(&ours[1]);
    for path in there.iter().filter(|path| path.ends_with("/LICENSE")) {
        if !shown.contains(read(path).replace("\r\n", "\n").trim()) {
            faults.push(format!("{path} is not in licences.txt word for word"));
        }
    }
    none("files of others against vendor.toml", &faults);
    assert!(there.len() > 10, "{} files", there.len());
}
