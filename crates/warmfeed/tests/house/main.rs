//! The rules of the house, read from the sources themselves: what `CONTRIBUTING.md` asks for in
//! words, these tests ask for in deeds.

mod arrows;
mod docs_shape;
mod hashes;
mod licences;
mod names;
mod purity;
mod references;
mod sizes;
mod support;
mod vendored;
mod words;
