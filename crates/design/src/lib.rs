//! The design file and what it draws on: reading, checking, resolving, writing back.

pub mod problem;
pub mod quantity;
pub mod weather;
