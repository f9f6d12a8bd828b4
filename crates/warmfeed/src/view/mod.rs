//! What people read on a terminal. A view formats; it computes nothing.

mod assumed;
mod problems;
mod sum;
mod table;
mod text;
mod year;

pub use assumed::assumed;
pub use problems::problems;
pub use sum::{sum, sum_help, sums_list};
pub use year::{CAUTIONS, year, year_head};
