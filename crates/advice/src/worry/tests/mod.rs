//! Worries of the sample builds, held against hand calculations, published figures and laws.

mod electric;
mod frosty;
mod hot;
mod right;
mod roof;
mod watery;
mod wear;

use std::path::Path;
use std::sync::OnceLock;

use design::quantity::Units;
use design::{Edit, EditValue};
use year::Recorder;

use super::{CHANNELS, Case, Finding, Look, Setting};
use crate::{AdviceError, OneYear, Subject};

/// A sample with its year, as looks take it.
struct Sample {
    subject: Subject,
    year: OneYear,
    minutes: Recorder,
}

impl Sample {
    fn of(name: &str) -> Sample {
        let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../samples");
        let bytes = std::fs::read(folder.join(name)).expect("part of the repository");
        let reading = design::read_design(name, &bytes);
        let design = reading.design.unwrap_or_else(|| panic!("{name}: {:?}", reading.problems));
        let weather = std::fs::read(folder.join(design.weather.name())).expect("its weather too");
        let climate = design::weather::read_weather(design.weather.name(), &weather).0;
        Sample::with(Subject::new(
            reading.written.expect("text"),
            design,
            climate.expect("sound"),
            None,
        ))
    }

    fn with(subject: Subject) -> Sample {
        let mut minutes = Recorder::of(&CHANNELS);
        let year = subject.recorded(&mut minutes).expect("a sample computes");
        Sample { subject, year, minutes }
    }

    /// The same with some values written otherwise.
    fn written(&self, values: &[(&str, &str)]) -> Sample {
        let edits: Vec<Edit> = values.iter().map(|(place, value)| edit(place, value)).collect();
        let subject = self.subject.edited(&edits).unwrap_or_else(|error| panic!("{error}"));
        let mut minutes = Recorder::of(&CHANNELS);
        let build = subject.build.clone();
        let year = subject.recorded_beside(&self.year, build, &mut minutes).expect("it computes");
        Sample { subject, year, minutes }
    }

    fn case(&self) -> Case<'_> {
        Case::of(&self.subject, &self.year, &self.minutes)
    }

    fn look(&self, look: Look) -> Vec<Finding> {
        look(&self.case()).expect("a look at a sample")
    }

    /// The finding of that name.
    fn found(&self, look: Look, code: &str) -> Finding {
        let found = self.look(look).into_iter().find(|finding| finding.code == code);
        found.unwrap_or_else(|| panic!("no {code}"))
    }
}

fn edit(place: &str, value: &str) -> Edit {
    let value = match value {
        "" => EditValue::Remove,
        text if text.parse::<i64>().is_ok() => EditValue::Whole(text.parse().expect("whole")),
        text => EditValue::Text(text.to_owned()),
    };
    Edit { place: place.to_owned(), value }
}

/// What a figure of that name came to, in SI.
fn figure_si(finding: &Finding, what: &str) -> f64 {
    let figure = finding.figures.iter().find(|figure| figure.what == what);
    figure.unwrap_or_else(|| panic!("{}: no {what}", finding.code)).computed_si
}

fn plain(finding: &Finding) -> String {
    finding.says.told(Units::Metric, Setting::Plain)
}

/// The first panel, computed once.
fn first_panel() -> &'static Sample {
    static SAMPLE: OnceLock<Sample> = OnceLock::new();
    SAMPLE.get_or_init(|| Sample::of("first-panel.toml"))
}

/// The harp, which boils.
fn harp() -> &'static Sample {
    static SAMPLE: OnceLock<Sample> = OnceLock::new();
    SAMPLE.get_or_init(|| Sample::of("southern-harp.toml"))
}

/// Given a remedy of a stop, tried: the same look on the edited design is quiet, and its year is the
/// edited design's own (computed once more from its text).
#[test]
fn a_remedy_is_the_same_look_at_the_edited_design() -> Result<(), AdviceError> {
    let sample = first_panel();
    let look: Look = super::too_hot::look;
    let rim = sample.look(look).into_iter().find(|finding| finding.of == "rim").expect("a rim");
    assert_eq!(rim.kind, super::Kind::Stop);
    let tried = super::remedy::tried(&sample.case(), look, rim, &|| Ok(()))?;
    let Some(super::Tried::Worked { kind, figure, spared_kwh }) = &tried.remedies[0].tried else {
        panic!("{:?}", tried.remedies);
    };
    assert_eq!(*kind, Some(super::Kind::Quiet));
    let wool = sample.written(&[("panel.edge.material", "mineral-wool")]);
    let again = wool.look(look).into_iter().find(|finding| finding.of == "rim").expect("a rim");
    assert_eq!(figure.as_ref(), again.figures.first());
    let more_kwh = wool.year.spared_kwh() - sample.year.spared_kwh();
    assert!((spared_kwh - more_kwh).abs() < 1e-9, "{spared_kwh} {more_kwh}");
    Ok(())
}

/// Every sample, looked at from every side: each finding says something, names who says so, has a first
/// figure beyond its limit where it is a stop for a limit, and none is told twice.
#[test]
fn every_sample_is_looked_at() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../samples");
    for entry in std::fs::read_dir(folder).expect("samples") {
        let name = entry.expect("a file").file_name().into_string().expect("plain letters");
        if !name.ends_with(".toml") {
            continue;
        }
        let sample = Sample::of(&name);
        let mut told: Vec<(&str, String)> = Vec::new();
        for &look in super::LOOKS {
            for finding in sample.look(look) {
                let of = format!("{name}: {}{}", finding.code, finding.of);
                assert!(!finding.says.is_empty() && !finding.source.is_empty(), "{of}");
                let words = plain(&finding);
                assert!(!words.contains("NaN") && !words.contains("inf"), "{of}: {words}");
                assert!(!words.ends_with('.'), "{of}: {words}");
                assert!(!told.contains(&(finding.code, finding.of.clone())), "{of} is told twice");
                if finding.kind == super::Kind::Stop {
                    let first = finding.figures.first().expect("a stop has its number");
                    let margin_si = first.margin_si().unwrap_or(-1.0);
                    assert!(margin_si < 0.0 || finding.code == "heater-kills", "{of}: {words}");
                    assert!(!finding.mend.is_empty(), "{of}");
                }
                told.push((finding.code, finding.of));
            }
        }
        assert!(told.len() > 20, "{name}: {}", told.len());
    }
}
