//! Published and independently computed answers, station by station.

mod matter;
mod panel;
mod sun;
mod support;
