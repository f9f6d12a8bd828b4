//! A year of a build, minute by minute.

pub mod forcing;
