//! In which order the cells are eliminated.

use super::grid::Cells;

/// Nested dissection: both halves of the sheet first, the line of cells between them last, and so
/// on within each half. Keeps the factor of a grid of cells thin.
///
/// # Source
/// George, SIAM J. Numer. Anal. 10 (1973) 345.
pub(crate) fn dissection(cells: &Cells) -> Vec<u32> {
    let mut order = Vec::with_capacity(cells.count());
    dissect(cells, Block { left: 0, right: cells.columns, low: 0, high: cells.rows }, &mut order);
    order
}

/// Columns from `left` to before `right`, rows from `low` to before `high`.
#[derive(Clone, Copy)]
struct Block {
    left: usize,
    right: usize,
    low: usize,
    high: usize,
}

fn dissect(cells: &Cells, block: Block, order: &mut Vec<u32>) {
    let Block { left, right, low, high } = block;
    let (wide, tall) = (right - left, high - low);
    if wide.max(tall) < 3 {
        let all = (low..high).flat_map(|row| (left..right).map(move |column| (column, row)));
        order.extend(all.map(|(column, row)| cells.at(column, row) as u32));
    } else if wide >= tall {
        let middle = left + wide / 2;
        dissect(cells, Block { right: middle, ..block }, order);
        dissect(cells, Block { left: middle + 1, ..block }, order);
        order.extend((low..high).map(|row| cells.at(middle, row) as u32));
    } else {
        let middle = low + tall / 2;
        dissect(cells, Block { high: middle, ..block }, order);
        dissect(cells, Block { low: middle + 1, ..block }, order);
        order.extend((left..right).map(|column| cells.at(column, middle) as u32));
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Given: grids of many shapes. Expected: every cell once.
    #[test]
    fn every_cell_comes_once() {
        for (columns, rows) in [(1, 1), (1, 9), (2, 2), (7, 5), (40, 3), (33, 64)] {
            let cells = Cells { columns, rows, width_m: 0.01, height_m: 0.01 };
            let mut order = dissection(&cells);
            order.sort_unstable();
            let all: Vec<u32> = (0..cells.count() as u32).collect();
            assert_eq!(order, all);
        }
    }
}
