//! Lines of one value through a field of cells: marching squares.

use std::collections::HashMap;

/// An edge between two neighbouring cell middles: the lower left one, and whether it runs upwards.
type Edge = (usize, usize, bool);

/// Lines along which a field has a value, as places in columns and rows of cell middles; each is open
/// between two rims, or ends where it began.
///
/// `field`: row by row; `columns`: how many there are in a row. In a square whose corners lie crosswise
/// the mean decides which two are joined.
pub(super) fn contours(field: &[f64], columns: usize, value: f64) -> Vec<Vec<(f64, f64)>> {
    let rows = field.len() / columns.max(1);
    let mut next: HashMap<Edge, Vec<Edge>> = HashMap::new();
    let mut order: Vec<Edge> = Vec::new();
    for row in 0..rows.saturating_sub(1) {
        for column in 0..columns.saturating_sub(1) {
            for (one, other) in crossings(field, columns, column, row, value) {
                for (from, to) in [(one, other), (other, one)] {
                    let known = next.entry(from).or_default();
                    if known.is_empty() {
                        order.push(from);
                    }
                    known.push(to);
                }
            }
        }
    }
    let mut lines = Vec::new();
    // Open lines first, from their ends; what is left then runs in rings.
    let ends: Vec<Edge> = order.iter().copied().filter(|edge| next[edge].len() == 1).collect();
    for start in ends.into_iter().chain(order) {
        let line = walk(&mut next, start);
        if line.len() > 1 {
            let place = |&edge: &Edge| crossing_place(field, columns, edge, value);
            lines.push(line.iter().map(place).collect());
        }
    }
    lines
}

/// Follows a line from an edge, taking away what has been walked.
fn walk(next: &mut HashMap<Edge, Vec<Edge>>, start: Edge) -> Vec<Edge> {
    let mut line = vec![start];
    let mut here = start;
    while let Some(to) = next.get_mut(&here).and_then(Vec::pop) {
        if let Some(back) = next.get_mut(&to)
            && let Some(place) = back.iter().position(|&edge| edge == here)
        {
            back.swap_remove(place);
        }
        line.push(to);
        here = to;
    }
    line
}

/// Pairs of edges of a square that the line joins.
fn crossings(
    field: &[f64],
    columns: usize,
    column: usize,
    row: usize,
    value: f64,
) -> Vec<(Edge, Edge)> {
    let at = |column: usize, row: usize| field[row * columns + column];
    let corners =
        [at(column, row), at(column + 1, row), at(column + 1, row + 1), at(column, row + 1)];
    let above = corners.map(|corner| corner >= value);
    let edges: [Edge; 4] = [
        (column, row, false),
        (column + 1, row, true),
        (column, row + 1, false),
        (column, row, true),
    ];
    let crossed: Vec<Edge> = (0..4)
        .filter(|&side| above[side] != above[(side + 1) % 4])
        .map(|side| edges[side])
        .collect();
    match crossed.len() {
        2 => vec![(crossed[0], crossed[1])],
        4 => {
            let mean = corners.iter().sum::<f64>() / 4.0;
            // The corners that lie as the middle does are joined through it.
            if (mean >= value) == above[0] {
                vec![(edges[0], edges[1]), (edges[2], edges[3])]
            } else {
                vec![(edges[3], edges[0]), (edges[1], edges[2])]
            }
        }
        _ => Vec::new(),
    }
}

/// Where an edge has the value.
fn crossing_place(field: &[f64], columns: usize, edge: Edge, value: f64) -> (f64, f64) {
    let (column, row, upwards) = edge;
    let from = field[row * columns + column];
    let to = if upwards {
        field[(row + 1) * columns + column]
    } else {
        field[row * columns + column + 1]
    };
    let share = if to == from { 0.5 } else { ((value - from) / (to - from)).clamp(0.0, 1.0) };
    if upwards { (column as f64, row as f64 + share) } else { (column as f64 + share, row as f64) }
}

#[cfg(test)]
mod tests {
    use super::contours;

    /// Given a slope that rises to the right by 1 a column: the line of 2.5 runs upright through
    /// column 2.5, from rim to rim. Definition of a contour.
    #[test]
    fn a_slopes_line_is_straight() {
        let field: Vec<f64> = (0..30).map(|cell| f64::from(cell % 6)).collect();
        let lines = contours(&field, 6, 2.5);
        assert_eq!(lines.len(), 1);
        assert!(lines[0].iter().all(|&(column, _)| column == 2.5));
        assert_eq!(lines[0].len(), 5);
    }

    /// Given a cone, a line is one ring at its distance from the tip, within a tenth of a cell.
    #[test]
    fn a_cones_line_is_a_ring() {
        let (columns, middle) = (21, 10.0);
        let field: Vec<f64> = (0..columns * columns)
            .map(|cell| {
                let (x, y) = ((cell % columns) as f64 - middle, (cell / columns) as f64 - middle);
                x.hypot(y)
            })
            .collect();
        let lines = contours(&field, columns, 6.3);
        assert_eq!(lines.len(), 1);
        assert_eq!(lines[0].first(), lines[0].last());
        for &(column, row) in &lines[0] {
            let distance = (column - middle).hypot(row - middle);
            assert!((distance - 6.3).abs() < 0.1, "{distance}");
        }
    }
}
