//! The built program, as a user starts it: what it prints, what it returns, what it leaves behind.

mod bad_input;
mod bracket;
mod circuit;
mod json;
mod new;
#[path = "../../../year/tests/checks/page.rs"]
mod page;
mod panel;
mod pictures;
mod pinned;
mod plate;
mod program;
mod series;
mod sum;
mod sure;
mod words;
mod worry;
