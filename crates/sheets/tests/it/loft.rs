//! The house before anything is designed: heights to scale.

use design::quantity::Units;
use sheets::drawing::{Drawing, Form};
use sheets::pictures::{Mover, loft};
use sheets::role::Role;

/// Heights of a house: over a loft, beside a low shed, with everything at one height.
pub fn lofts() -> Vec<Drawing> {
    let given = |over_m| loft::Height { over_m, given: loft::Given::Answered };
    let assumed = |over_m| loft::Height { over_m, given: loft::Given::Assumed };
    let of = |heights: [f64; 5], cold, mover, units| {
        loft::draw(&loft::Facts {
            panel_bottom: given(heights[0]),
            panel_top: given(heights[1]),
            store_base: assumed(heights[2]),
            store_depth_m: 0.45,
            store_words: "pre-warmed cistern, base at".to_owned(),
            cold,
            header: loft::Height { over_m: heights[3], given: loft::Given::Moved },
            tap: given(heights[4]),
            mover,
            units,
        })
    };
    use loft::ColdCistern::{Beside, None};
    vec![
        of([5.7, 6.4, 5.2, 6.9, 1.0], Beside, Mover::Pump, Units::Metric),
        of([-2.2, -1.1, 2.4, 3.3, 0.9], None, Mover::Weight, Units::Us),
        of([5.2, 5.3, 5.2, 5.4, 5.1], Beside, Mover::Pump, Units::Metric),
    ]
}

/// Upper and lower ends of a role's lines, in millimetres from the paper's top.
fn reach(drawing: &Drawing, role: Role) -> (f64, f64) {
    let mut all: Vec<f64> = Vec::new();
    for shape in drawing.shapes.iter().filter(|shape| shape.role == role) {
        if let Form::Line(points) = &shape.form {
            all.extend(points.iter().map(|point| point.y_mm));
        }
    }
    all.sort_by(f64::total_cmp);
    (all[0], all[all.len() - 1])
}

/// Given a panel from 5.7 to 6.4 m and a tap at 1.0 m over a level at 0: the flow pipe runs from the
/// panel's top down to the tap, the level's line lies under the tap, and both by one scale (definition of
/// the drawing).
#[test]
fn heights_are_to_scale() {
    let drawing = &lofts()[0];
    let (highest, _) = reach(drawing, Role::FlowPipe);
    let level = drawing
        .shapes
        .iter()
        .find_map(|shape| match (&shape.role, &shape.form) {
            (Role::Cut, Form::Line(points)) => Some(points[0].y_mm),
            _ => None,
        })
        .expect("a level");
    let base = drawing
        .shapes
        .iter()
        .find_map(|shape| match (&shape.role, &shape.form) {
            (Role::Cut, Form::Line(points)) if points.len() == 4 => Some(points[1].y_mm),
            _ => None,
        })
        .expect("a store");
    // 6.4 m and 5.2 m over the level.
    assert!(((level - highest) / 6.4 - (level - base) / 5.2).abs() < 1e-6);
}

/// Given heights that nobody answered and one that stands elsewhere, their marks and a line for each.
#[test]
fn what_is_assumed_or_moved_says_so() {
    let drawing = &lofts()[0];
    let words: Vec<&str> = drawing
        .shapes
        .iter()
        .filter_map(|shape| match &shape.form {
            Form::Text(text) => Some(text.words.as_str()),
            _ => None,
        })
        .collect();
    assert!(words.iter().any(|words| words.starts_with("* not answered")));
    assert!(words.iter().any(|words| words.ends_with('\u{2020}')));
}
