//! `new`: what it makes, and what it never overwrites.

use crate::program::run;

/// Given an empty place, a job book whose first build computes, and a design file that checks
/// without a fault.
#[test]
fn what_it_makes_can_be_computed() {
    let folder = tempfile::tempdir().unwrap();
    let book = folder.path().join("book");
    let made = run(&["new", book.to_str().unwrap()]);
    assert_eq!(made.status, 0, "{}", made.talk);
    let year = run(&["year", book.join("first-panel.toml").to_str().unwrap(), "--no-band"]);
    assert_eq!(year.status, 0, "{}", year.talk);
    let file = folder.path().join("mine.toml");
    assert_eq!(run(&["new", file.to_str().unwrap()]).status, 0);
    let check = run(&["check", file.to_str().unwrap()]);
    assert_eq!(check.status, 0, "{}", check.talk);
    assert!(check.out.contains("This build can be computed"), "{}", check.out);
}

/// Given something there already, nothing is touched.
#[test]
fn it_never_overwrites() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("mine.toml");
    std::fs::write(&file, "mine").unwrap();
    let refused = run(&["new", file.to_str().unwrap()]);
    assert_eq!(refused.status, 3);
    assert!(refused.talk.contains("nothing was changed"), "{}", refused.talk);
    assert_eq!(std::fs::read_to_string(&file).unwrap(), "mine");
}

/// Given a name with a blank, the next command is one a shell takes as it stands; given a name that is
/// neither a design file's nor a folder's, nothing is made and it says what would be.
#[test]
fn names_are_told_as_they_must_be_typed() {
    let folder = tempfile::tempdir().unwrap();
    let book = folder.path().join("my panel");
    let made = run(&["new", book.to_str().unwrap()]);
    assert_eq!(made.status, 0, "{}", made.talk);
    if cfg!(unix) {
        let next = format!("warmfeed year '{}/first-panel.toml'", book.display());
        assert!(made.out.contains(&next), "{}", made.out);
    }
    let odd = folder.path().join("x.txt");
    let refused = run(&["new", odd.to_str().unwrap()]);
    assert_eq!(refused.status, 2);
    assert!(refused.talk.contains("hint") && refused.talk.contains("x.toml"), "{}", refused.talk);
    assert!(!odd.exists());
}
