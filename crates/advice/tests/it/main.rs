//! Bands and next steps of the sample builds.

// Figures that a closing report quotes are printed where a test is asked to show its output.
#![allow(clippy::print_stdout)]

mod bands;
mod next_steps;
mod samples;
