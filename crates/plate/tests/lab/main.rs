//! The plate picture as a lab book: what is given, what is expected and from where.

#[path = "../../../physics/tests/reference/support.rs"]
#[allow(dead_code)]
mod support;

mod chain;
mod laws;
mod made_up;
mod samples;
mod seams;
mod serpentine;
