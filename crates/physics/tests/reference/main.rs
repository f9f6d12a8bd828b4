//! Published and independently computed answers, station by station.

mod circuit;
mod expansion;
mod making;
mod matter;
mod month;
mod panel;
mod plumbing;
mod sealed;
mod store;
mod sun;
mod support;
mod tap;
mod thermosiphon;
