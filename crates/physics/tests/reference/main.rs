//! Published and independently computed answers, station by station.

mod support;
