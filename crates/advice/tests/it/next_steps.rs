//! Next steps.

use advice::GoOn;
use advice::next_step::worth;
use design::{Edit, EditValue};

use crate::samples::subject;

/// Given a sample: each step's worth is what the two years differ by when they are made from nothing, with
/// their own forcing and twin (three steps, one of each kind of what is shared); steps of things that make
/// heat are worth more than nothing, by the sign that physics gives them.
#[test]
fn a_step_is_worth_what_its_year_says() {
    let subject = subject("first-panel.toml");
    let base = subject.year().expect("runs");
    let worth = worth(&subject, &base, &|_, _| GoOn::Yes).expect("runs");
    assert!(worth.steps.len() >= 25, "{} values", worth.steps.len());
    assert!(worth.refused.is_empty(), "{:?}", worth.refused);
    assert!(worth.tolerance_kwh < 1.0, "{}", worth.tolerance_kwh);
    let of = |place: &str| {
        worth.steps.iter().find(|step| step.step.place == place).expect("a step of that value")
    };
    for place in ["sun.tilt", "store.wall[0].thickness", "control.on", "panel.count"] {
        let step = of(place);
        let build = subject.changed(&step.step.edits).expect("a build");
        let year = subject.year_in(&build, &subject.climate).expect("runs");
        let apart = year.spared_kwh() - base.spared_kwh();
        assert!((apart - step.spared_kwh).abs() < 1e-9, "{place}: {apart} {}", step.spared_kwh);
    }
    for place in ["panel.count", "panel.sheet.coating", "circuit lagging", "store.lid[0].thickness"]
    {
        assert!(of(place).spared_kwh > worth.tolerance_kwh, "{place}");
    }
}

/// An edit that the reader refuses is an error with the reader's words; it is no panic and no build.
#[test]
fn a_refused_design_says_why() {
    let subject = subject("first-panel.toml");
    let edit = Edit { place: "panel.gap".to_owned(), value: EditValue::Text("3 km".to_owned()) };
    let error = subject.changed(&[edit]).expect_err("no gap of three kilometres");
    assert!(error.to_string().contains("panel.gap 3 km"), "{error}");
}

/// A caller that asks to stop is heard after one step.
#[test]
fn work_stops_when_asked() {
    let subject = subject("first-panel.toml");
    let base = subject.year().expect("runs");
    assert!(worth(&subject, &base, &|_, _| GoOn::No).is_err());
}
