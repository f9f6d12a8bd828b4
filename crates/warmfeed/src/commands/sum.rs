//! `sum`: one quick calculation, or the list of all.

use super::{DONE, NOT_COMPLETED, WRONG_INPUT, WRONG_USAGE, failed_json, json, not_completed};
use crate::arguments::Sum;
use crate::sums::{Refusal, RefusedAs, ask, known};
use crate::wire::{SumWire, SumsWire};
use crate::{print, view};

/// Runs it.
pub fn run(asked: &Sum) -> i32 {
    let units = asked.units.into();
    let text = match &asked.name {
        None if asked.json && !asked.help => Ok(json(&SumsWire::all())),
        None => Ok(view::sums_list()),
        Some(name) if asked.help => match known(name) {
            Ok(sum) => Ok(view::sum_help(sum, units)),
            Err(refusal) => Err(refusal),
        },
        Some(name) => match ask(name, &asked.given) {
            Ok(answered) if asked.json => Ok(json(&SumWire::from(&answered))),
            Ok(answered) => Ok(view::sum(&answered, units)),
            Err(refusal) => Err(refusal),
        },
    };
    match text {
        Ok(text) => {
            let printed = if asked.json { print::out(&text) } else { print::page(&text) };
            match printed {
                Ok(()) => DONE,
                Err(error) => not_completed(&error, false),
            }
        }
        Err(refusal) => refused(&refusal, asked.json),
    }
}

/// Tells what is wrong; returns the status.
fn refused(refusal: &Refusal, as_json: bool) -> i32 {
    if as_json {
        // A closed pipe is no error, and the status tells the rest.
        drop(print::out(&failed_json(&refusal.problems)));
    }
    print::talk(view::problems(&refusal.problems, Some(&refusal.line)).trim_end());
    match refusal.refused_as {
        RefusedAs::Usage => WRONG_USAGE,
        RefusedAs::Input => WRONG_INPUT,
        RefusedAs::NotCompleted => NOT_COMPLETED,
    }
}
