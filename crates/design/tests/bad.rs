//! A corpus of bad design files: beside each bad line stands the problem that must be told.
//!
//! `# expect: CODE PLACE` at a line's end asks for a problem of that code and place on that line.
//! Each file's faults are all expected: nothing more may be told.

use design::{LARGEST_BYTES, Problem, Severity, read_design};
use std::path::PathBuf;

fn folder() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("tests/bad")
}

/// The problems a file asks for: line, code, place.
fn expected(text: &str) -> Vec<(usize, String, String)> {
    let lines = text.lines().enumerate();
    lines
        .filter_map(|(at, line)| {
            let (_, asked) = line.split_once("# expect: ")?;
            let (code, place) = asked.trim().split_once(' ').unwrap_or((asked.trim(), ""));
            Some((at + 1, code.to_owned(), place.to_owned()))
        })
        .collect()
}

#[test]
fn bad_files_are_told_as_they_ask() {
    let mut files = 0;
    let mut faults = Vec::new();
    for entry in std::fs::read_dir(folder()).expect("the corpus stands") {
        let path = entry.expect("an entry").path();
        let name = path.file_name().expect("a name").to_string_lossy().into_owned();
        let text = std::fs::read_to_string(&path).expect("text");
        let mut asked = expected(&text);
        assert!(!asked.is_empty(), "{name} asks for nothing");
        let mut told: Vec<(usize, String, String)> = read_design(&name, text.as_bytes())
            .problems
            .iter()
            .map(|p| (p.span.line, p.code.to_owned(), p.place.clone()))
            .collect();
        asked.sort();
        told.sort();
        if asked != told {
            faults.push(format!("{name}\n  asked {asked:?}\n  told  {told:?}"));
        }
        files += 1;
    }
    assert!(files >= 15, "{files} files");
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

/// A problem helps: it says what is, and how to mend it, in words.
#[test]
fn every_problem_has_a_sentence_and_a_hint() {
    for entry in std::fs::read_dir(folder()).expect("the corpus stands") {
        let path = entry.expect("an entry").path();
        let bytes = std::fs::read(&path).expect("readable");
        for problem in read_design("x.toml", &bytes).problems {
            assert!(problem.says.len() > 15, "{problem:?}");
            assert!(problem.hint.len() > 10, "{problem:?}");
            assert!(!problem.expected.is_empty(), "{problem:?}");
        }
    }
}

fn only(bytes: &[u8]) -> Problem {
    let reading = read_design("x.toml", bytes);
    assert!(reading.design.is_none());
    assert_eq!(reading.problems.len(), 1, "{:?}", reading.problems);
    reading.problems[0].clone()
}

/// Files that are no design at all: each one problem, at once.
#[test]
fn what_is_no_design_is_said_at_once() {
    assert_eq!(only(b"").code, "empty-file");
    assert_eq!(only(b" \n\n").code, "empty-file");
    assert!(only(b"").hint.contains("warmfeed new"));
    let binary = only(b"title = \"a\"\n\xff\xd8\xff\xe0");
    assert_eq!((binary.code, binary.span.start, binary.span.line), ("not-text", 12, 2));
    assert!(binary.found.contains("offset 12"));
    assert_eq!(only(b"PK\x03\x04\x00\x00").code, "not-text");
    assert_eq!(only(&vec![b'#'; LARGEST_BYTES + 1]).code, "too-large");
    assert_eq!(only(&vec![b'a'; 200 << 20]).code, "too-large");
}

/// Given files of a megabyte that are nothing but keys, draws, brackets, dots or words, reading
/// ends with a few problems; that it ends soon shows in how long the test takes.
#[test]
fn long_nonsense_is_given_up_on() {
    let draws =
        "[[tap.draw]]\ntime = \"07:00\"\nlasts = \"1 min\"\nvolume = \"1 l\"\n".repeat(15_000);
    let keys: String = (0..80_000).map(|at| format!("k{at} = 1\n")).collect();
    let texts = [
        draws,
        keys,
        format!("a = {}", "[".repeat(1 << 20)),
        "a.".repeat(1 << 19),
        "x y z\n".repeat(150_000),
    ];
    let codes = ["too-many", "given-up", "syntax", "syntax", "syntax"];
    for (text, code) in texts.iter().zip(codes) {
        let problems = read_design("x.toml", text.as_bytes()).problems;
        assert!(problems.iter().any(|problem| problem.code == code), "{code}");
        assert!(problems.len() <= 201, "{} problems", problems.len());
    }
}

/// A comment alone is a file, with everything missing.
#[test]
fn a_file_of_comments_lacks_its_tables() {
    let problems = read_design("x.toml", b"# nothing yet\n").problems;
    for place in ["sun", "panel", "circuit", "store", "tap"] {
        assert!(problems.iter().any(|p| p.code == "missing-table" && p.place == place), "{place}");
    }
    assert!(problems.iter().any(|p| p.code == "missing-key" && p.place == "title"));
}

/// What is unusual but legal is read: a flat panel and an upright one, 70 degrees north, a
/// household that draws nothing, a bare store, an unmixed one.
#[test]
fn what_is_unusual_is_legal() {
    let path = folder().join("../../../../samples/first-panel.toml");
    let base = std::fs::read_to_string(path).expect("the sample stands");
    let changes: [&[(&str, &str)]; 8] = [
        &[("tilt = \"35 deg\"", "tilt = \"0 deg\"")],
        &[("tilt = \"35 deg\"", "tilt = \"90 deg\"")],
        &[("tilt = \"35 deg\"", "tilt = \"35 deg\"\nlatitude = \"70 deg\"")],
        &[("people = 2", "people = 0")],
        &[("people = 2", "draw = []")],
        &[("people = 2", "profile = \"3XS\"")],
        &[("volume = \"115 l\"", "volume = \"115 l\"\nlayers = 1")],
        &[("albedo = 0.2", "albedo = \"unknown\"")],
    ];
    for change in changes {
        let mut text = base.clone();
        for (line, instead) in change {
            assert!(text.contains(line), "{line}");
            text = text.replacen(line, instead, 1);
        }
        let reading = read_design("x.toml", text.as_bytes());
        let faults: Vec<&Problem> =
            reading.problems.iter().filter(|p| p.severity != Severity::Note).collect();
        assert!(reading.is_ok() && faults.is_empty(), "{change:?}: {faults:?}");
    }
}

fn with(from: &str, to: &str) -> Vec<Problem> {
    let path = folder().join("../../../../samples/first-panel.toml");
    let base = std::fs::read_to_string(path).expect("the sample stands");
    assert!(base.contains(from), "{from}");
    read_design("x.toml", base.replacen(from, to, 1).as_bytes()).problems
}

/// Hints say what can be done: double brackets for a list's member; a share to be measured and not
/// left out; a bond by its own name; a heading as it is written; sentences that hold for one and many.
#[test]
fn hints_can_be_followed() {
    let says = |problems: &[Problem]| problems[0].says.clone();
    let hint = |problems: &[Problem]| problems[0].hint.clone();
    let single = with(
        "[[panel.back]]\nmaterial = \"mineral-wool\"\nthickness = \"25 mm\"\n\n[[panel.back]]",
        "[panel.back]",
    );
    assert_eq!(single.len(), 1, "{single:?}");
    assert!(hint(&single).contains("[[panel.back]]"), "{single:?}");
    let share = with("share-by-volume = \"35 %\"", "share-by-volume = \"unknown\"");
    assert!(hint(&share).contains("measure"), "{share:?}");
    assert!(!hint(&share).contains("leave"), "{share:?}");
    let bond = with("bond = \"soldered\"", "bond = \"12 mm\"");
    assert!(says(&bond).contains("bond's conductance"), "{bond:?}");
    let list = with("legs = 6", "legs = [6, 7]");
    assert_eq!(says(&list), "Here stands a list of 2 values; what must stand here: a whole number");
    let inside = with("[[panel.back]]\nmaterial", "[[panel.back]]\ncolour = 3\nmaterial");
    assert!(says(&inside).ends_with("in [[panel.back]]"), "{inside:?}");
    let syntax = with("tilt = \"35 deg\"", "tilt = 35 deg");
    assert_eq!(says(&syntax), "The value stands without quotes");
    assert_eq!(hint(&syntax), "text and quantities stand in quotes: tilt = \"35 deg\"");
}
