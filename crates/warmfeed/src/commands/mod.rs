//! One file a command. Each returns its exit status.

mod check;
mod load;
mod new;
mod open;
mod panel;
mod plate;
mod schema;
pub mod series;
mod sum;
mod sure;
mod worry;
mod year;

pub use load::{Disk, Loaded, Said, Source, load};
pub use panel::panel_told;
pub use sure::{WEATHER_YEARS, figures, subject};

use anyhow::Error;
use design::problem::{Problem, Severity, Span};

use crate::arguments::{Arguments, Command};
use crate::wire::{FailedWire, ProblemWire};
use crate::{interrupt, print};

/// All went well.
pub const DONE: i32 = 0;
/// An input is unreadable or wrong.
pub const WRONG_INPUT: i32 = 1;
/// The command line is wrong.
pub const WRONG_USAGE: i32 = 2;
/// The computation could not be completed, or its result not written.
pub const NOT_COMPLETED: i32 = 3;

/// Runs what was asked for.
pub fn run(arguments: &Arguments) -> i32 {
    match &arguments.command {
        None => open::run_sample(),
        Some(Command::Open(asked)) => open::run(asked),
        Some(Command::New(asked)) => new::run(asked),
        Some(Command::Check(asked)) => check::run(asked),
        Some(Command::Panel(asked)) => panel::run(asked),
        Some(Command::Year(asked)) => year::run(asked),
        Some(Command::Worry(asked)) => worry::run(asked),
        Some(Command::Sum(asked)) => sum::run(asked),
        Some(Command::Schema(asked)) => schema::run(asked),
    }
}

/// The JSON document of a command that could not do its work.
pub fn failed_json(problems: &[Problem]) -> String {
    json(&FailedWire { problems: problems.iter().map(ProblemWire::from).collect() })
}

/// One JSON document, ending in a line break.
fn json(wire: &impl serde::Serialize) -> String {
    let mut text =
        serde_json::to_string_pretty(wire).expect("wire types hold nothing that JSON cannot write");
    text.push('\n');
    text
}

/// Tells an error that is no fault of an input file; returns the status.
fn not_completed(error: &Error, as_json: bool) -> i32 {
    let status = if interrupt::asked() { interrupt::STATUS } else { NOT_COMPLETED };
    let says = chain(error);
    if as_json {
        let problem = Problem {
            code: "not-completed",
            severity: Severity::Fault,
            file: String::new(),
            span: Span::default(),
            place: String::new(),
            found: String::new(),
            expected: String::new(),
            says: says.clone(),
            hint: String::new(),
        };
        drop(print::out(&failed_json(&[problem])));
    }
    print::talk(&format!("fault: {says}"));
    status
}

/// An error with its causes, in one sentence.
fn chain(error: &Error) -> String {
    error.chain().map(ToString::to_string).collect::<Vec<_>>().join(": ")
}
