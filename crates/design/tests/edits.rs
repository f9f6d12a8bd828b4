//! Edits of a design file's text, and texts that were spoilt at random.

use design::{Edit, EditValue, Written, read_design};
use proptest::prelude::*;

fn sample(name: &str) -> String {
    let path = format!("{}/../../samples/{name}.toml", env!("CARGO_MANIFEST_DIR"));
    std::fs::read_to_string(path).expect("the sample stands")
}

fn edit(place: &str, value: EditValue) -> Edit {
    Edit { place: place.to_owned(), value }
}

fn text(value: &str) -> EditValue {
    EditValue::Text(value.to_owned())
}

/// Given edits of a value, of a list's member, of a key not there yet, of a table not there yet,
/// and of a removal: the text differs in those lines only, and reads as edited.
#[test]
fn edits_keep_comments_and_order() {
    let before = sample("first-panel");
    let written = Written::parse("x.toml", &before).expect("TOML");
    let after = written
        .edited(&[
            edit("panel.gap", text("30 mm")),
            edit("panel.back[1].thickness", text("12 mm")),
            edit("panel.tubes.legs", EditValue::Whole(5)),
            edit("sun.albedo", EditValue::Number(0.25)),
            edit("sun.latitude", text("54 deg")),
            edit("control.panel-probe.lag", text("30 s")),
            edit("store.lid-gap", EditValue::Remove),
        ])
        .expect("edited")
        .text;
    let kept: Vec<&str> = after.lines().collect();
    let gone: Vec<&str> = before.lines().filter(|line| !kept.contains(line)).collect();
    assert_eq!(
        gone,
        [
            "albedo = 0.2",
            "gap = \"25 mm\"",
            "legs = 6",
            "thickness = \"9 mm\"",
            "lid-gap = \"close\""
        ]
    );
    assert!(after.starts_with("# A first panel"));
    let design = read_design("x.toml", after.as_bytes());
    assert!(design.is_ok(), "{:?}", design.problems);
    let origins = design.design.expect("a design").origins;
    let value = |place: &str| origins.at(place).map(|traced| traced.value.clone());
    assert_eq!(value("panel.gap").as_deref(), Some("30 mm"));
    assert_eq!(value("panel.back[1].thickness").as_deref(), Some("12 mm"));
    assert_eq!(value("control.panel-probe.lag").as_deref(), Some("30 s"));
    assert_eq!(value("sun.latitude").as_deref(), Some("54 deg"));
}

/// Places that cannot be reached are refused, and nothing is changed.
#[test]
fn edits_that_lead_nowhere_are_refused() {
    let written = Written::parse("x.toml", &sample("first-panel")).expect("TOML");
    assert!(written.edited(&[edit("panel.back[7].thickness", text("1 mm"))]).is_err());
    assert!(written.edited(&[edit("title.sub", text("1 mm"))]).is_err());
    assert!(written.edited(&[edit("nothing[0].sub", text("1 mm"))]).is_err());
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(300))]

    /// Whatever bytes are changed, cut out or put in: reading ends, and a design that is given is
    /// given without a fault.
    #[test]
    fn spoilt_samples_never_bring_the_reader_down(
        changes in proptest::collection::vec((0usize..4000, any::<u8>(), 0usize..40, 0u8..3), 1..6),
        harp: bool,
    ) {
        let mut bytes = sample(if harp { "southern-harp" } else { "first-panel" }).into_bytes();
        for (at, byte, span, how) in changes {
            let at = at % bytes.len();
            let end = (at + span).min(bytes.len());
            match how {
                0 => bytes[at] = byte,
                1 => { bytes.drain(at..end); }
                _ => bytes.insert(at, byte),
            }
            if bytes.is_empty() {
                bytes.push(b'#');
            }
        }
        let reading = read_design("x.toml", &bytes);
        let faults = reading.problems.iter().any(|problem| problem.is_fault());
        prop_assert_eq!(reading.design.is_some(), !faults);
        for problem in &reading.problems {
            prop_assert!(problem.span.end <= bytes.len());
        }
    }

    /// A number of any size in place of a value is told or taken, and never brings the reader down.
    #[test]
    fn any_number_is_told_or_taken(value in any::<f64>(), at in 0usize..6) {
        let lines = ["tilt = \"35 deg\"", "gap = \"25 mm\"", "legs = 6", "volume = \"115 l\"", "on = \"7 K\"", "albedo = 0.2"];
        let (key, unit) = [("tilt", " deg"), ("gap", " mm"), ("legs", ""), ("volume", " l"), ("on", " K"), ("albedo", "")][at];
        let written = if unit.is_empty() { format!("{key} = {value:?}") } else { format!("{key} = \"{value}{unit}\"") };
        let text = sample("first-panel").replacen(lines[at], &written, 1);
        let reading = read_design("x.toml", text.as_bytes());
        prop_assert_eq!(reading.design.is_some(), !reading.problems.iter().any(|p| p.is_fault()));
    }
}
