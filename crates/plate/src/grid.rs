//! The cells a sheet is cut into.

use physics::panel::Sheet;

use super::error::{PlateError, within};

/// Most cells a picture may have: a second or two of time and half a gigabyte.
pub const MOST_CELLS: usize = 1_000_000;

/// How finely a sheet is cut: cells side by side, counted from the lower left.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Grid {
    /// Cells across the sheet, along the eaves.
    pub columns: usize,
    /// Cells up the slope.
    pub rows: usize,
}

impl Grid {
    /// Cells of about some size \[m\], as near to square as whole numbers allow.
    ///
    /// # Valid range
    /// Sheets of 1 mm to 100 m with at most a million cells; else an error.
    pub fn of(sheet: &Sheet, cell_m: f64) -> Result<Grid, PlateError> {
        within("size of a cell [m]", cell_m, 1e-5..=10.0)?;
        let count = |name, side_m: f64| -> Result<usize, PlateError> {
            let side_m = within(name, side_m, 1e-3..=100.0)?;
            Ok(((side_m / cell_m).round() as usize).max(1))
        };
        let grid = Grid {
            columns: count("width of the sheet [m]", sheet.width_m)?,
            rows: count("length of the sheet [m]", sheet.length_m)?,
        };
        grid.check()?;
        Ok(grid)
    }

    /// Number of cells.
    pub fn cells(&self) -> usize {
        self.columns * self.rows
    }

    /// A grid with cells twice as large each way, for asking what the cells' size does.
    pub fn halved(&self) -> Grid {
        Grid { columns: self.columns.div_ceil(2), rows: self.rows.div_ceil(2) }
    }

    /// As fine or finer, with whole cells to each of so many strips, on cells twice as large too.
    pub(crate) fn for_strips(self, strips: usize) -> Grid {
        if strips <= 1 {
            return self;
        }
        Grid { columns: self.columns.next_multiple_of(2 * strips), ..self }
    }

    pub(crate) fn check(&self) -> Result<(), PlateError> {
        let cells = self.columns as f64 * self.rows as f64;
        within("number of cells", cells, 1.0..=MOST_CELLS as f64).map(|_| ())
    }
}

/// A grid laid on a sheet.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Cells {
    pub columns: usize,
    pub rows: usize,
    pub width_m: f64,
    pub height_m: f64,
}

impl Cells {
    pub(crate) fn of(grid: Grid, sheet: &Sheet) -> Cells {
        Cells {
            columns: grid.columns,
            rows: grid.rows,
            width_m: sheet.width_m / grid.columns as f64,
            height_m: sheet.length_m / grid.rows as f64,
        }
    }

    pub(crate) fn count(&self) -> usize {
        self.columns * self.rows
    }

    pub(crate) fn area_m2(&self) -> f64 {
        self.width_m * self.height_m
    }

    /// Place of a cell in a list, row by row from the lower left.
    pub(crate) fn at(&self, column: usize, row: usize) -> usize {
        row * self.columns + column
    }
}
