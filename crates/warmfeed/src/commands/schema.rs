//! `schema`: what documents and design files look like, for other programs.

use schemars::schema_for;

use super::{DONE, json, not_completed};
use crate::arguments::{Schema, SchemaWord};
use crate::print;
use crate::wire::{CheckWire, FailedWire, PanelWire, SumWire, SumsWire, WorryWire, YearWire};

/// Runs it.
pub fn run(asked: &Schema) -> i32 {
    let text = match asked.of {
        SchemaWord::Design => json(&design::json_schema()),
        SchemaWord::Check => json(&schema_for!(CheckWire)),
        SchemaWord::Panel => json(&schema_for!(PanelWire)),
        SchemaWord::Year => json(&schema_for!(YearWire)),
        SchemaWord::Worry => json(&schema_for!(WorryWire)),
        SchemaWord::Sum => json(&schema_for!(SumWire)),
        SchemaWord::Sums => json(&schema_for!(SumsWire)),
        SchemaWord::Failed => json(&schema_for!(FailedWire)),
    };
    match print::out(&text) {
        Ok(()) => DONE,
        Err(error) => not_completed(&error, false),
    }
}
