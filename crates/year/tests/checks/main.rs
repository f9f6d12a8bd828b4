//! Whole years beside other people's whole methods, and beside themselves by other relations. Each
//! check holds a table of `docs/method/checks.md`, so that the page cannot say what is no longer so.

mod correlation;
mod day_trial;
mod houses;
mod label;
mod measured;
mod other_relations;
mod page;
// Read by more tests than these, which use a part of it.
#[allow(dead_code)]
#[path = "../../../physics/tests/reference/support.rs"]
mod support;
