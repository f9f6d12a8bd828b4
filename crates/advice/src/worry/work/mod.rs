//! People at work on it: short cautions, each with its number, shown where the hands are.

pub(in crate::worry) mod aloft;
pub(in crate::worry) mod bench;

use super::finding::{About, Certainty, Finding, Kind, Station};
use super::words::Words;

/// Who says so, and how far that is to be trusted.
struct Said(&'static str, Certainty);

/// A caution at a place of the design file.
fn caution(code: &'static str, station: Station, place: &str, says: Words, said: Said) -> Finding {
    Finding::new(About::Work, code, station, Kind::Mind, says).at(place).source(said.0, said.1)
}

/// The same, where the common care of the trade will do.
fn quiet(caution: Finding) -> Finding {
    Finding { kind: Kind::Quiet, ..caution }
}
