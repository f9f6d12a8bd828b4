//! Graphs: a box with an outline, few light grid lines, lines named at the line.

use crate::drawing::{Anchor, Drawing, Point};
use crate::pen::at;
use crate::role::Role;

/// One axis of a graph.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Axis {
    pub low: f64,
    pub high: f64,
    /// Where grid lines run, and what stands there.
    pub ticks: Vec<(f64, String)>,
}

impl Axis {
    /// From nought, or below it, to a round number above a value, with four or five grid lines.
    pub(crate) fn round(low: f64, high: f64) -> Axis {
        let span = (high - low).max(1e-9);
        Axis::of(low, high, span / 4.0)
    }

    /// The same with about so many lines more: for a scale that stands alone.
    pub(crate) fn fine(low: f64, high: f64) -> Axis {
        Axis::of(low, high, (high - low).max(1e-9) / 6.5)
    }

    fn of(low: f64, high: f64, rough: f64) -> Axis {
        let power = 10_f64.powf(rough.log10().floor());
        let step = [1.0, 2.0, 2.5, 5.0, 10.0]
            .into_iter()
            .map(|lead| lead * power)
            .find(|step| *step >= rough * 0.999)
            .unwrap_or(10.0 * power);
        let (first, last) = ((low / step).floor() as i64, (high / step - 1e-9).ceil() as i64);
        let decimals = (0..4).find(|&places| is_whole(step * 10_f64.powi(places))).unwrap_or(3);
        let ticks = (first..=last)
            .map(|count| {
                let value = count as f64 * step;
                (value, crate::words::decimal(value, decimals as usize))
            })
            .collect();
        Axis { low: first as f64 * step, high: last as f64 * step, ticks }
    }

    /// The hours of a day.
    pub(crate) fn hours() -> Axis {
        let ticks = (0..=4).map(|six| (f64::from(6 * six), (6 * six).to_string())).collect();
        Axis { low: 0.0, high: 24.0, ticks }
    }

    fn share(&self, value: f64) -> f64 {
        (value - self.low) / (self.high - self.low)
    }
}

fn is_whole(value: f64) -> bool {
    (value - value.round()).abs() < 1e-6
}

/// The box of a graph, in pixels.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Graph {
    pub left: f64,
    pub top: f64,
    pub right: f64,
    pub bottom: f64,
    pub across: Axis,
    pub up: Axis,
}

impl Graph {
    /// Where a pair of values stands.
    pub(crate) fn place(&self, across: f64, up: f64) -> Point {
        at(
            self.left + self.across.share(across) * (self.right - self.left),
            self.bottom - self.up.share(up) * (self.bottom - self.top),
        )
    }

    /// Ground, grid and figures.
    pub(crate) fn ground(&self, drawing: &mut Drawing) {
        drawing.area(Role::Ground, at(self.left, self.top), at(self.right, self.bottom));
        for (value, words) in &self.across.ticks {
            let foot = self.place(*value, self.up.low);
            drawing.line(Role::Grid, &[foot, self.place(*value, self.up.high)]);
            let below = Point { x_mm: foot.x_mm, y_mm: at(0.0, self.bottom + 22.0).y_mm };
            drawing.text(Role::Quiet, Anchor::Middle, below, words.clone());
        }
        for (value, words) in &self.up.ticks {
            let side = self.place(self.across.low, *value);
            drawing.line(Role::Grid, &[side, self.place(self.across.high, *value)]);
            let beside =
                Point { x_mm: at(self.left - 7.0, 0.0).x_mm, y_mm: side.y_mm + at(0.0, 5.5).y_mm };
            drawing.text(Role::Quiet, Anchor::End, beside, words.clone());
        }
    }

    /// The outline, over what was drawn.
    pub(crate) fn frame(&self, drawing: &mut Drawing) {
        let (left, top, right, bottom) = (self.left, self.top, self.right, self.bottom);
        drawing.line(
            Role::Frame,
            &[at(left, top), at(right, top), at(right, bottom), at(left, bottom), at(left, top)],
        );
    }

    /// A line through pairs of values, cut off where it leaves the box above or below.
    pub(crate) fn curve(&self, drawing: &mut Drawing, role: Role, pairs: &[(f64, f64)]) {
        for piece in self.within(pairs) {
            let points: Vec<Point> = piece.iter().map(|&(x, y)| self.place(x, y)).collect();
            drawing.line(role, &points);
        }
    }

    /// The pieces of a line that lie in the box.
    fn within(&self, pairs: &[(f64, f64)]) -> Vec<Vec<(f64, f64)>> {
        let (low, high) = (self.up.low, self.up.high);
        let inside = |(x, y): (f64, f64)| {
            (low..=high).contains(&y) && (self.across.low..=self.across.high).contains(&x)
        };
        let mut pieces = Vec::new();
        let mut piece: Vec<(f64, f64)> = Vec::new();
        for (place, &pair) in pairs.iter().enumerate() {
            if inside(pair) {
                if piece.is_empty() && place > 0 {
                    piece.push(crossing(pair, pairs[place - 1], low, high));
                }
                piece.push(pair);
            } else if let Some(&last) = piece.last() {
                piece.push(crossing(last, pair, low, high));
                pieces.push(std::mem::take(&mut piece));
            }
        }
        if piece.len() > 1 {
            pieces.push(piece);
        }
        pieces
    }
}

/// Where the way from a pair inside to one outside meets the bound it leaves by.
fn crossing(inside: (f64, f64), outside: (f64, f64), low: f64, high: f64) -> (f64, f64) {
    let bound = outside.1.clamp(low, high);
    if outside.1 == bound || outside.1 == inside.1 {
        return inside;
    }
    let share = (bound - inside.1) / (outside.1 - inside.1);
    (inside.0 + share * (outside.0 - inside.0), bound)
}

#[cfg(test)]
mod tests {
    use super::{Axis, Graph};

    /// Given ends, an axis covers them in round steps, with four to six lines.
    #[test]
    fn axes_are_round_and_cover() {
        for (low, high) in [(0.0, 0.83), (0.0, 1230.0), (-3.0, 47.0), (0.0, 2.0)] {
            let axis = Axis::round(low, high);
            assert!(axis.low <= low && axis.high >= high, "{axis:?}");
            assert!((4..=7).contains(&axis.ticks.len()), "{axis:?}");
        }
        assert_eq!(Axis::round(0.0, 2.0).ticks[1].1, "0.5");
    }

    /// A line that rises out of the box ends on its upper side, and one that comes back begins there.
    #[test]
    fn curves_end_at_the_box() {
        let axis = |high| Axis { low: 0.0, high, ticks: Vec::new() };
        let (left, top, right, bottom) = (0.0, 0.0, 100.0, 100.0);
        let graph = Graph { left, top, right, bottom, across: axis(4.0), up: axis(10.0) };
        let pieces = graph.within(&[(0.0, 0.0), (1.0, 5.0), (2.0, 15.0), (3.0, 15.0), (4.0, 5.0)]);
        assert_eq!(
            pieces,
            [vec![(0.0, 0.0), (1.0, 5.0), (1.5, 10.0)], vec![(3.5, 10.0), (4.0, 5.0)]]
        );
    }
}
