//! Pictures held against the laws they are drawn by, and against how they were last looked at.

mod cistern;
mod course;
mod facts;
mod file;
mod geometry;
mod house;
mod loft;
mod looked_at;
mod playing;
mod section;
mod sky;
