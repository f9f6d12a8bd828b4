//! The heat scale with its figures, as it stands under a picture.

use design::quantity::Units;

use crate::drawing::{Anchor, Drawing, Point};
use crate::graph::Axis;
use crate::pen::px;
use crate::role::Role;
use crate::words::{degree_mark, reader_degrees};

/// Draws the scale of temperatures from a corner, so long in pixels; returns how far down it reaches,
/// in pixels.
pub(super) fn scale(
    drawing: &mut Drawing,
    corner: Point,
    long: f64,
    ends_c: [f64; 2],
    units: Units,
) -> f64 {
    let own = ends_c.map(|end_c| reader_degrees(end_c, units));
    bar(drawing, corner, long, own, ["\u{b0}", degree_mark(units)])
}

/// The same of anything: ends in the reader's measure, what stands behind each figure, and the unit.
pub(super) fn bar(
    drawing: &mut Drawing,
    corner: Point,
    long: f64,
    own: [f64; 2],
    [mark, unit]: [&str; 2],
) -> f64 {
    const STEPS: u8 = 32;
    let step_mm = px(long) / f64::from(STEPS);
    for step in 0..STEPS {
        let x_mm = corner.x_mm + step_mm * f64::from(step);
        let from = Point { x_mm, y_mm: corner.y_mm };
        let to = Point { x_mm: x_mm + step_mm, y_mm: corner.y_mm + px(14.0) };
        drawing.area(Role::Warmth(8 * step + 4), from, to);
    }
    let end_mm = corner.x_mm + px(long);
    let below_mm = corner.y_mm + px(14.0);
    let round = Axis::fine(own[0], own[1]);
    for (value, words) in round.ticks.iter().filter(|tick| (own[0]..=own[1]).contains(&tick.0)) {
        let share = (value - own[0]) / (own[1] - own[0]).max(1e-9);
        let x_mm = corner.x_mm + share * px(long);
        drawing.line(
            Role::Leader,
            &[Point { x_mm, y_mm: below_mm }, Point { x_mm, y_mm: below_mm + px(4.0) }],
        );
        let at = Point { x_mm, y_mm: below_mm + px(20.0) };
        drawing.text(Role::Quiet, Anchor::Middle, at, format!("{words}{mark}"));
    }
    let behind = Point { x_mm: end_mm + px(8.0), y_mm: below_mm - px(1.0) };
    drawing.text(Role::Quiet, Anchor::Start, behind, unit);
    drawing.line(
        Role::Boundary,
        &[
            corner,
            Point { x_mm: end_mm, y_mm: corner.y_mm },
            Point { x_mm: end_mm, y_mm: below_mm },
            Point { x_mm: corner.x_mm, y_mm: below_mm },
            corner,
        ],
    );
    (below_mm + px(20.0)) / px(1.0)
}
