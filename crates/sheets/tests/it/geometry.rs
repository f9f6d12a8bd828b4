//! What must hold on every paper: words stand on it, apart from each other, and leaders never cross.

use sheets::drawing::{Area, Drawing, Form, Point, Text};
use sheets::role::Role;

use crate::facts;

fn texts(drawing: &Drawing) -> Vec<(Role, &Text)> {
    drawing
        .shapes
        .iter()
        .filter_map(|shape| match &shape.form {
            Form::Text(text) => Some((shape.role, text)),
            _ => None,
        })
        .collect()
}

/// Given every picture, wide and narrow, in both units: all words lie inside its paper, by the widths
/// of a face that is no narrower than ours.
#[test]
fn words_stay_on_the_paper() {
    for drawing in facts::all() {
        for (role, text) in texts(&drawing) {
            let room = text.room(role);
            let inside = room.corner.x_mm >= 0.0
                && room.corner.y_mm >= 0.0
                && room.right_mm() <= drawing.width_mm
                && room.bottom_mm() <= drawing.height_mm;
            assert!(inside, "{}: {:?} at {room:?}", drawing.name, text.words);
        }
    }
}

/// Given the same, no two words lie on each other.
#[test]
fn words_do_not_meet() {
    for drawing in facts::all() {
        let texts = texts(&drawing);
        for (place, (role, text)) in texts.iter().enumerate() {
            let room = text.room(*role);
            for (other_role, other) in &texts[place + 1..] {
                let meets = room.meets(&other.room(*other_role));
                assert!(!meets, "{}: {:?} on {:?}", drawing.name, text.words, other.words);
            }
        }
    }
}

/// Given the same, no two leaders cross: each straight piece of one against each of the others.
#[test]
fn leaders_never_cross() {
    for drawing in facts::all() {
        let leaders: Vec<&Vec<Point>> = drawing
            .shapes
            .iter()
            .filter_map(|shape| match (&shape.role, &shape.form) {
                (Role::Leader, Form::Line(points)) => Some(points),
                _ => None,
            })
            .collect();
        for (place, one) in leaders.iter().enumerate() {
            for other in &leaders[place + 1..] {
                for a in one.windows(2) {
                    for b in other.windows(2) {
                        assert!(!cross(a, b), "{}: {a:?} and {b:?}", drawing.name);
                    }
                }
            }
        }
    }
}

/// Whether two straight pieces cross within both.
fn cross(a: &[Point], b: &[Point]) -> bool {
    let side = |line: &[Point], at: Point| {
        let (from, to) = (line[0], line[1]);
        (to.x_mm - from.x_mm) * (at.y_mm - from.y_mm)
            - (to.y_mm - from.y_mm) * (at.x_mm - from.x_mm)
    };
    side(a, b[0]) * side(a, b[1]) < -1e-9 && side(b, a[0]) * side(b, a[1]) < -1e-9
}

/// The crossing this file looks for is a crossing: two diagonals cross, two sides do not.
#[test]
fn a_crossing_is_seen() {
    let at = |x_mm: f64, y_mm: f64| Point { x_mm, y_mm };
    assert!(cross(&[at(0.0, 0.0), at(2.0, 2.0)], &[at(0.0, 2.0), at(2.0, 0.0)]));
    assert!(!cross(&[at(0.0, 0.0), at(2.0, 0.0)], &[at(0.0, 2.0), at(2.0, 2.0)]));
    let room = |x_mm: f64| Area { corner: at(x_mm, 0.0), width_mm: 2.0, height_mm: 1.0 };
    assert!(room(0.0).meets(&room(1.0)) && !room(0.0).meets(&room(2.0)));
}

/// Given every picture, every cell of a map lies on the paper, and every leader and dimension too.
#[test]
fn nothing_leaves_the_paper() {
    for drawing in facts::all() {
        let inside = |at: &Point| {
            (-1e-6..=drawing.width_mm + 1e-6).contains(&at.x_mm)
                && (-1e-6..=drawing.height_mm + 1e-6).contains(&at.y_mm)
        };
        for shape in &drawing.shapes {
            let points = match &shape.form {
                Form::Line(points) | Form::Outline(points) => points.clone(),
                Form::Area(area) => vec![area.corner, corner(area)],
                Form::Cells(cells) => {
                    cells.iter().flat_map(|cell| [cell.corner, corner(cell)]).collect()
                }
                Form::Circle { middle, .. } => vec![*middle],
                Form::Text(text) => vec![text.at],
            };
            assert!(points.iter().all(inside), "{}: {:?}", drawing.name, shape);
        }
    }
}

fn corner(area: &Area) -> Point {
    Point { x_mm: area.right_mm(), y_mm: area.bottom_mm() }
}
