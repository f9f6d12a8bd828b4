//! The sums: one quick calculation each, with its formula and source.
//!
//! Each is declared once, in a table by station: its keys, its answers, what it rests on, and a
//! worked example. Reading what was typed, help, the list, the documents and the tests all come
//! from these tables. A sum reckons nothing of its own: it calls the functions that the year calls.
//! Nothing here prints.

mod ask;
mod circuit;
mod fault;
mod fluids;
mod given;
mod line;
mod making;
mod matter;
mod panel;
mod panel_whole;
mod pressure;
mod store;
mod sun;
mod table;
mod tap;
#[cfg(test)]
mod tests;

pub use ask::{Asked, Refusal, RefusedAs, ask, example_line, known};
pub use table::{Answer, Example, Form, Key, Measure, Need, Note, Station, Sum};

/// Every sum, along the heat's path.
pub fn sums() -> impl Iterator<Item = &'static Sum> {
    [
        sun::SUMS,
        panel::SUMS,
        panel_whole::SUMS,
        circuit::SUMS,
        pressure::SUMS,
        store::SUMS,
        tap::SUMS,
        matter::SUMS,
        making::SUMS,
    ]
    .into_iter()
    .flatten()
}

/// The sum of that name.
pub fn sum(name: &str) -> Option<&'static Sum> {
    sums().find(|sum| sum.name == name)
}
