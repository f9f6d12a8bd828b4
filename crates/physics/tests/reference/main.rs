//! Published and independently computed answers, station by station.

mod matter;
mod sun;
mod support;
