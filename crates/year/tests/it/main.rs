//! Whole years of the sample builds, held against marches written apart from the engine, against
//! the laws, and against what has been measured.

// Figures that a closing report quotes are printed where a test is asked to show its output.
#![allow(clippy::print_stdout)]

mod again;
mod balance;
mod control;
mod draw_day;
mod houses;
mod laws;
mod made_year;
mod networks;
mod nine_weeks;
mod plain_twin;
mod plausible;
mod seconds;
mod section;
mod store_and_tap;
mod tables;
mod upsets;
