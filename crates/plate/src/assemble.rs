//! How well neighbouring cells are joined.

use super::contact::Strip;
use super::grid::Cells;
use super::question::Question;

/// Conductance from each cell to its neighbours \[W/K\]: symmetric, for each pair stands once.
#[derive(Clone, Debug)]
pub(crate) struct Stencil {
    /// To the right; 0 in the last column and across a cut.
    pub right_w_k: Vec<f64>,
    /// Upwards; 0 in the uppermost row.
    pub up_w_k: Vec<f64>,
}

/// Share of its way that the sheet under a tube still resists: next to nothing, for the tube keeps
/// it at one temperature.
const LEAST_WAY: f64 = 1e-2;

impl Stencil {
    /// The sheet's own conductances, shortened across the strips under the tubes.
    ///
    /// `k d h/w` across and `k d w/h` up for cells of `w` by `h`; where a strip takes a share of the
    /// way between two middles, only the rest of the way resists.
    pub(crate) fn of(question: &Question, cells: &Cells, strips: &[Strip]) -> Stencil {
        let sheet_w_k = question.sheet.conductivity_w_m_k * question.sheet.thickness_m;
        let (wide_m, tall_m) = (cells.width_m, cells.height_m);
        let mut right_w_k = vec![sheet_w_k * tall_m / wide_m; cells.count()];
        let mut up_w_k = vec![sheet_w_k * wide_m / tall_m; cells.count()];
        for strip in strips {
            let (side_m, base_w_k) = if strip.across_row {
                (wide_m, sheet_w_k * tall_m / wide_m)
            } else {
                (tall_m, sheet_w_k * wide_m / tall_m)
            };
            let count = if strip.across_row { cells.columns } else { cells.rows };
            let first = (strip.from_m / side_m - 0.5).floor().max(0.0) as usize;
            for side in first..count.saturating_sub(1) {
                let middle_m = (side as f64 + 0.5) * side_m;
                if middle_m >= strip.to_m {
                    break;
                }
                let lain_m = (middle_m + side_m).min(strip.to_m) - middle_m.max(strip.from_m);
                let way = (1.0 - lain_m.max(0.0) / side_m).max(LEAST_WAY);
                let more_w_k = base_w_k * strip.covered * (1.0 / way - 1.0);
                if strip.across_row {
                    right_w_k[cells.at(side, strip.line)] += more_w_k;
                } else {
                    up_w_k[cells.at(strip.line, side)] += more_w_k;
                }
            }
        }
        for row in 0..cells.rows {
            right_w_k[cells.at(cells.columns - 1, row)] = 0.0;
            for &cut_m in &question.route.cuts_m {
                // Between the two cells whose common edge is nearest.
                let edge = (cut_m / wide_m).round() as usize;
                if edge >= 1 && edge < cells.columns {
                    right_w_k[cells.at(edge - 1, row)] = 0.0;
                }
            }
        }
        for column in 0..cells.columns {
            up_w_k[cells.at(column, cells.rows - 1)] = 0.0;
        }
        Stencil { right_w_k, up_w_k }
    }

    /// Sum of a cell's conductances to its neighbours \[W/K\].
    pub(crate) fn around_w_k(&self, cells: &Cells, cell: usize) -> f64 {
        let mut sum_w_k = self.right_w_k[cell] + self.up_w_k[cell];
        if !cell.is_multiple_of(cells.columns) {
            sum_w_k += self.right_w_k[cell - 1];
        }
        if cell >= cells.columns {
            sum_w_k += self.up_w_k[cell - cells.columns];
        }
        sum_w_k
    }

    /// Heat that neighbours bring to each cell \[W\], added to `heat_w`.
    pub(crate) fn add_led_w(&self, cells: &Cells, sheet_k: &[f64], heat_w: &mut [f64]) {
        let count = cells.count();
        for cell in 0..count {
            let right_w_k = self.right_w_k[cell];
            if right_w_k > 0.0 {
                let led_w = right_w_k * (sheet_k[cell + 1] - sheet_k[cell]);
                heat_w[cell] += led_w;
                heat_w[cell + 1] -= led_w;
            }
            let up_w_k = self.up_w_k[cell];
            if up_w_k > 0.0 {
                let led_w = up_w_k * (sheet_k[cell + cells.columns] - sheet_k[cell]);
                heat_w[cell] += led_w;
                heat_w[cell + cells.columns] -= led_w;
            }
        }
    }
}

/// Metres of the sheet's rim that each cell lies on.
pub(crate) fn rim_of_cells_m(cells: &Cells) -> Vec<f64> {
    let mut rim_m = vec![0.0; cells.count()];
    for row in 0..cells.rows {
        rim_m[cells.at(0, row)] += cells.height_m;
        rim_m[cells.at(cells.columns - 1, row)] += cells.height_m;
    }
    for column in 0..cells.columns {
        rim_m[cells.at(column, 0)] += cells.width_m;
        rim_m[cells.at(column, cells.rows - 1)] += cells.width_m;
    }
    rim_m
}
