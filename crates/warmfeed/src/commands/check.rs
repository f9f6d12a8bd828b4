//! `check`: what is wrong or doubtful, and what is assumed.

use super::load::{Disk, Loaded, Said, load};
use super::{DONE, WRONG_INPUT, json, not_completed};
use crate::arguments::Check;
use crate::print;
use crate::view::{self, Paper};
use crate::wire::{AssumedWire, CheckWire, ProblemWire};

/// Runs it.
pub fn run(asked: &Check) -> i32 {
    let loaded = load(&asked.build, &Disk);
    let said = match &loaded {
        Ok(loaded) => &loaded.said,
        Err(said) => said,
    };
    let text = if asked.json {
        json(&CheckWire {
            ok: loaded.is_ok(),
            problems: said.problems.iter().map(ProblemWire::from).collect(),
            assumed: loaded.as_ref().map(|loaded| assumed(&loaded.origins)).unwrap_or_default(),
        })
    } else {
        said.tell();
        words(loaded.as_ref(), Paper::of(asked.units.into()))
    };
    let printed = if asked.json { print::out(&text) } else { print::page(&text) };
    match printed {
        Err(error) => not_completed(&error, false),
        Ok(()) if loaded.is_ok() => DONE,
        Ok(()) => WRONG_INPUT,
    }
}

/// What was assumed, for output.
pub fn assumed(origins: &design::Origins) -> Vec<AssumedWire> {
    origins
        .assumed()
        .into_iter()
        .map(|value| AssumedWire { place: value.place, value: value.value, origin: value.origin })
        .collect()
}

fn words(loaded: Result<&Loaded, &Said>, paper: Paper) -> String {
    match loaded {
        Ok(loaded) => {
            let said = match loaded.said.problems.len() {
                0 => "nothing else to look at".to_owned(),
                1 => "one thing to look at, told above".to_owned(),
                many => format!("{many} things to look at, told above"),
            };
            format!(
                "This build can be computed; {said}.\n\n{}\n{}",
                view::assumed(&loaded.origins, paper),
                view::cautions(paper)
            )
        }
        Err(said) => {
            let faults = said.problems.iter().filter(|problem| problem.is_fault()).count();
            format!("This build cannot be computed yet: {faults} to mend.\n")
        }
    }
}
