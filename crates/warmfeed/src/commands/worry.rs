//! `worry`: what can go wrong with a build, computed.

use advice::GoOn;
use advice::worry::{CHANNELS, Finding, worries};
use anyhow::Result;
use year::Recorder;

use super::check::assumed;
use super::load::{Disk, Loaded, load};
use super::sure::subject;
use super::{DONE, WRONG_INPUT, failed_json, json, not_completed};
use crate::arguments::WorryAsked;
use crate::pictures::worries_on_paper;
use crate::progress::Progress;
use crate::view::{self, Paper};
use crate::wire::{ProblemWire, worry};
use crate::{files, interrupt, print};

/// The document to print.
const PAPER: &str = "worries.html";

/// Runs it. A grave worry is an answer, not a failure.
pub fn run(asked: &WorryAsked) -> i32 {
    let loaded = match load(&asked.build, &Disk) {
        Ok(loaded) => loaded,
        Err(said) => {
            said.tell();
            if asked.json {
                // A closed pipe is no error, and the status tells the rest.
                drop(print::out(&failed_json(&said.problems)));
            }
            return WRONG_INPUT;
        }
    };
    loaded.said.tell();
    match told(&loaded, asked) {
        Ok(()) => DONE,
        Err(error) => not_completed(&error, asked.json),
    }
}

fn told(loaded: &Loaded, asked: &WorryAsked) -> Result<()> {
    let paper = Paper::of(asked.units.into());
    if !asked.json {
        // At once, so that a slow machine does not look dead.
        print::page(&view::year_head(&loaded.design.title, &loaded.design.story, paper))?;
    }
    let findings = found(loaded)?;
    if let Some(folder) = &asked.out {
        let text = worries_on_paper(loaded, &findings, asked.units.into());
        files::make_folder(folder)?;
        files::write_whole(&folder.join(PAPER), |writer| Ok(writer.write_all(text.as_bytes())?))?;
        print::talk(&format!("Wrote {PAPER} in `{}`.", folder.display()));
    }
    if asked.json {
        let problems = loaded.said.problems.iter().map(ProblemWire::from).collect();
        let assumed = assumed(&loaded.origins);
        return print::out(&json(&worry(&loaded.design.title, &findings, assumed, problems)));
    }
    print::page(&view::worry(&findings, paper))
}

fn found(loaded: &Loaded) -> Result<Vec<Finding>> {
    let progress = Progress::of(2);
    progress.step("the year as it stands");
    let subject = subject(loaded);
    let mut minutes = Recorder::of(&CHANNELS);
    let base = subject.recorded(&mut minutes)?;
    interrupt::check()?;
    progress.step("what can go wrong");
    let counted = |done, all| {
        progress.count("what can go wrong, and what would help", done, all);
        if interrupt::asked() { GoOn::No } else { GoOn::Yes }
    };
    Ok(worries(&subject, &base, &minutes, &counted)?)
}
