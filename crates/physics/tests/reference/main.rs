//! Published and independently computed answers, station by station.

mod circuit;
mod matter;
mod panel;
mod sun;
mod support;
