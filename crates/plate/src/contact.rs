//! Where the tubes touch the sheet, cell by cell, and how well.

use physics::panel::route::{Leg, Place, Stretch};

use super::error::{PlateError, within};
use super::grid::Cells;
use super::question::Question;

/// Bond along one tube: pieces in the order of the flow, without gaps.
pub type Bonds = Vec<Bond>;

/// A piece of a tube with one bond all along.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bond {
    /// Where it begins, along the tube from its inlet \[m\].
    pub from_m: f64,
    /// Where it ends \[m\].
    pub to_m: f64,
    /// Conductance from sheet to tube wall per metre \[W/(m K)\]; infinite for a perfect one.
    pub bond_w_m_k: f64,
}

/// Bond along a tube of some length, its stretches laid over the rest's bond.
///
/// # Valid range
/// Stretches of that tube (`tube`, counted from 0) in any order, each of some length, none beyond
/// the tube or on another; else an error that says where.
pub fn bonds_along(
    tube: usize,
    length_m: f64,
    bond_w_m_k: f64,
    stretches: &[Stretch],
) -> Result<Bonds, PlateError> {
    let mut own: Vec<&Stretch> = stretches.iter().filter(|one| one.tube == tube).collect();
    own.sort_by(|one, other| one.from_m.total_cmp(&other.from_m));
    let mut bonds = Vec::new();
    let mut until_m = 0.0;
    for stretch in own {
        within("start of a stretch along its tube [m]", stretch.from_m, 0.0..=1e4)?;
        within("length of a stretch [m]", stretch.to_m - stretch.from_m, 1e-6..=1e4)?;
        within("bond of a stretch [W/(m K)]", stretch.bond_w_m_k, 0.0..=f64::INFINITY)?;
        if stretch.to_m > length_m + 1e-9 {
            return Err(PlateError::Beyond { tube, to_m: stretch.to_m, length_m });
        }
        if stretch.from_m < until_m - 1e-9 {
            return Err(PlateError::Overlap { tube, from_m: stretch.from_m, until_m });
        }
        if stretch.from_m > until_m {
            bonds.push(Bond { from_m: until_m, to_m: stretch.from_m, bond_w_m_k });
        }
        until_m = stretch.to_m.min(length_m);
        let bond_w_m_k = stretch.bond_w_m_k;
        bonds.push(Bond { from_m: stretch.from_m, to_m: until_m, bond_w_m_k });
    }
    if until_m < length_m {
        bonds.push(Bond { from_m: until_m, to_m: length_m, bond_w_m_k });
    }
    Ok(bonds)
}

/// A piece of tube over one row or column of cells.
#[derive(Clone, Debug)]
pub(crate) struct Piece {
    /// Where it begins along its tube \[m\].
    pub from_m: f64,
    /// Where it ends \[m\].
    pub to_m: f64,
    /// Its middle.
    pub place: Place,
    /// Conductance of the bond per metre \[W/(m K)\].
    pub bond_w_m_k: f64,
    /// Resistance per metre from the cells it touches to the strip under the tube, where the strip
    /// lies between their middles \[m K/W\].
    pub spread_m_k_w: f64,
    /// Cells it takes its heat from and their shares, 1 together.
    pub touched: Vec<(usize, f64)>,
}

/// A strip of sheet under a tube, within one row or column of cells.
///
/// In the fin-and-tube chain the tube keeps a strip of its own width at one temperature, and only
/// the sheet beside it resists. So the strip shortens the way between the middles of the cells it
/// lies on: across the tube, not along it.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Strip {
    /// Whether it lies across a row (tube rather upright) or a column (rather level).
    pub across_row: bool,
    /// Which row or column.
    pub line: usize,
    /// Share of the row's height or the column's width that the piece passes.
    pub covered: f64,
    /// From where \[m\].
    pub from_m: f64,
    /// To where \[m\].
    pub to_m: f64,
}

/// All pieces of one tube in the order of the flow, and their strips.
pub(crate) fn pieces(
    question: &Question,
    cells: &Cells,
    pipe: usize,
) -> Result<(Vec<Piece>, Vec<Strip>), PlateError> {
    let tube = &question.route.pipes[pipe];
    let length_m = tube.length_m();
    let bonds = bonds_along(pipe, length_m, question.bond_w_m_k, &question.stretches)?;
    let (mut pieces, mut strips) = (Vec::new(), Vec::new());
    let mut before_m = 0.0;
    for leg in &tube.legs {
        let walk = Walk::of(question, cells, leg, before_m);
        for ends_m in walk.cuts_m(&bonds).windows(2) {
            let (from_m, to_m) = (ends_m[0], ends_m[1]);
            if to_m - from_m <= 1e-12 {
                continue;
            }
            let middle_m = 0.5 * (from_m + to_m);
            let bond = bonds.iter().find(|bond| middle_m < bond.to_m).or(bonds.last());
            let bond_w_m_k = bond.map_or(question.bond_w_m_k, |bond| bond.bond_w_m_k);
            let (piece, strip) = walk.piece(from_m, to_m, bond_w_m_k);
            if bond_w_m_k > 0.0 {
                strips.push(strip);
            }
            pieces.push(piece);
        }
        before_m += leg.length_m();
    }
    Ok((pieces, strips))
}

/// A leg on its way over the cells.
struct Walk<'a> {
    leg: &'a Leg,
    before_m: f64,
    length_m: f64,
    /// Whether the leg is rather upright, so that it goes from row to row.
    by_rows: bool,
    /// Along its way: where it starts and how far it gets, cells and their size.
    start_m: f64,
    reach_m: f64,
    lines: usize,
    line_m: f64,
    /// Across its way: cells and their size.
    side_cells: usize,
    side_m: f64,
    /// Width of the strip under the tube, measured along a row or column \[m\].
    strip_m: f64,
    sheet_w_k: f64,
    cells: &'a Cells,
}

impl<'a> Walk<'a> {
    fn of(question: &Question, cells: &'a Cells, leg: &'a Leg, before_m: f64) -> Walk<'a> {
        let right_m = leg.to.across_m - leg.from.across_m;
        let up_m = leg.to.up_m - leg.from.up_m;
        let length_m = leg.length_m();
        let by_rows = up_m.abs() >= right_m.abs();
        let (start_m, reach_m) =
            if by_rows { (leg.from.up_m, up_m) } else { (leg.from.across_m, right_m) };
        let along = (cells.rows, cells.height_m);
        let across = (cells.columns, cells.width_m);
        let ((lines, line_m), (side_cells, side_m)) =
            if by_rows { (along, across) } else { (across, along) };
        Walk {
            leg,
            before_m,
            length_m,
            by_rows,
            start_m,
            reach_m,
            lines,
            line_m,
            side_cells,
            side_m,
            strip_m: question.tube.outside_m * length_m / reach_m.abs(),
            sheet_w_k: question.sheet.conductivity_w_m_k * question.sheet.thickness_m,
            cells,
        }
    }

    /// Where the leg passes from line to line, or from bond to bond: positions along the tube.
    fn cuts_m(&self, bonds: &[Bond]) -> Vec<f64> {
        let (from_m, to_m) = (self.before_m, self.before_m + self.length_m);
        let mut cuts_m = vec![from_m, to_m];
        for line in 1..self.lines {
            let share = (line as f64 * self.line_m - self.start_m) / self.reach_m;
            if share > 0.0 && share < 1.0 {
                cuts_m.push(from_m + share * self.length_m);
            }
        }
        let inside = |at_m: &f64| *at_m > from_m && *at_m < to_m;
        cuts_m.extend(bonds.iter().map(|bond| bond.from_m).filter(inside));
        cuts_m.sort_by(f64::total_cmp);
        cuts_m
    }

    fn piece(&self, from_m: f64, to_m: f64, bond_w_m_k: f64) -> (Piece, Strip) {
        let share = (0.5 * (from_m + to_m) - self.before_m) / self.length_m;
        let place = self.leg.from.towards(&self.leg.to, share);
        let (along_m, beside_m) =
            if self.by_rows { (place.up_m, place.across_m) } else { (place.across_m, place.up_m) };
        let line = ((along_m / self.line_m).max(0.0) as usize).min(self.lines - 1);
        let side_m = self.side_cells as f64 * self.side_m;
        let strip_from_m = (beside_m - 0.5 * self.strip_m).max(0.0);
        let strip_to_m = (beside_m + 0.5 * self.strip_m).min(side_m);
        let (touched, spread_m_k_w) = self.touched(line, strip_from_m, strip_to_m);
        let covered = (to_m - from_m) * self.reach_m.abs() / self.length_m / self.line_m;
        let strip = Strip {
            across_row: self.by_rows,
            line,
            covered,
            from_m: strip_from_m,
            to_m: strip_to_m,
        };
        (Piece { from_m, to_m, place, bond_w_m_k, spread_m_k_w, touched }, strip)
    }

    /// Cells whose middles lie on the strip, alike; where none does, the two beside it, the nearer
    /// one more.
    fn touched(&self, line: usize, from_m: f64, to_m: f64) -> (Vec<(usize, f64)>, f64) {
        let cell = |side: usize| {
            if self.by_rows { self.cells.at(side, line) } else { self.cells.at(line, side) }
        };
        let middle_m = |side: usize| (side as f64 + 0.5) * self.side_m;
        let slack_m = 1e-9 * self.side_m;
        let first = ((from_m - slack_m) / self.side_m - 0.5).ceil().max(0.0) as usize;
        let last = ((to_m + slack_m) / self.side_m - 0.5).floor();
        if last >= first as f64 {
            let last = (last as usize).min(self.side_cells - 1);
            let share = 1.0 / (last + 1 - first) as f64;
            return ((first..=last).map(|side| (cell(side), share)).collect(), 0.0);
        }
        // Strip between two middles, or between the outermost one and the rim.
        if first == 0 || first >= self.side_cells {
            let only = first.min(self.side_cells - 1);
            let way_m = (middle_m(only) - to_m).abs().min((middle_m(only) - from_m).abs());
            return (vec![(cell(only), 1.0)], way_m / self.sheet_w_k);
        }
        let near_m = (from_m - middle_m(first - 1)).max(0.0);
        let far_m = (middle_m(first) - to_m).max(0.0);
        let both_m = near_m + far_m;
        let shares = [(cell(first - 1), far_m / both_m), (cell(first), near_m / both_m)];
        (shares.to_vec(), near_m * far_m / both_m / self.sheet_w_k)
    }
}
