//! What people read on a terminal. A view formats; it computes nothing.

mod assumed;
mod cautions;
mod circuit;
mod panel;
mod plate;
mod problems;
mod rulers;
mod sum;
mod sure;
mod table;
mod text;
mod worry;
mod year;

use design::quantity::Units;

pub use assumed::assumed;
pub use cautions::{cautions, short_caution};
pub use panel::{panel, stops};
pub use problems::problems;
pub use sum::{sum, sum_help, sums_list};
pub use sure::sure;
pub use worry::worry;
pub use year::{year, year_head};

/// What a page is written on: whose units, and how many columns.
#[derive(Clone, Copy, Debug)]
pub struct Paper {
    units: Units,
    width: usize,
}

impl Paper {
    /// As wide as the terminal.
    pub fn of(units: Units) -> Paper {
        Paper { units, width: crate::print::width() }
    }

    /// Columns for running words, which are hard to follow in long lines.
    fn prose_width(self) -> usize {
        self.width.min(98)
    }
}
