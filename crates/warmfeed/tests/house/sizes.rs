//! A file has one subject; one that has grown past this length has to say why.

use crate::support::{files_ending, list, none, read};

const LONGEST: usize = 600;
const ALLOWED: &str = include_str!("long-files.txt");

#[test]
fn long_files_have_a_reason() {
    let allowed = list(ALLOWED);
    let mut faults = Vec::new();
    let mut files = files_ending("", &[".rs", ".js", ".py"]);
    // What others wrote is theirs to divide.
    files.retain(|name| !name.contains("/vendor/"));
    assert!(files.len() > 20, "{} files", files.len());
    for name in &files {
        let lines = read(name).lines().count();
        let listed = allowed.iter().any(|(long, _)| long == name);
        match (lines > LONGEST, listed) {
            (true, false) => faults.push(format!("{name} has {lines} lines")),
            (false, true) => faults.push(format!("{name} has only {lines}: take it off the list")),
            _ => {}
        }
    }
    for (name, _) in &allowed {
        if !files.iter().any(|file| file == name) {
            faults.push(format!("{name} is on the list but not in the house"));
        }
    }
    none(&format!("files above {LONGEST} lines: divide them, or list why not"), &faults);
}
