//! The laws of the sky's panorama.

use sheets::drawing::{Drawing, Form, Point};
use sheets::hatch::Hatch;
use sheets::pictures::Width;
use sheets::role::Role;

use crate::facts::{sky_of, ways};

fn dots(drawing: &Drawing) -> Vec<Point> {
    drawing
        .shapes
        .iter()
        .filter_map(|shape| match (shape.role, &shape.form) {
            (Role::Sun, Form::Circle { middle, .. }) => Some(*middle),
            _ => None,
        })
        .collect()
}

fn paths(drawing: &Drawing) -> Vec<&Vec<Point>> {
    drawing
        .shapes
        .iter()
        .filter_map(|shape| match (shape.role, &shape.form) {
            (Role::SunPath, Form::Line(points)) => Some(points),
            _ => None,
        })
        .collect()
}

/// Given 54.6 degrees north: the level line, and heights by the drawing's own scale of degrees, which
/// the compass gives sideways. Noon on 21 June stands at 90 - 54.6 + 23.44 = 58.84 degrees, at the
/// equinox at 35.4 (definition of latitude and declination), right over the south; degrees are as
/// long upwards as sideways.
#[test]
fn noon_stands_at_its_height_over_the_south() {
    for width in [Width::Page, Width::Phone] {
        let drawing = sky_of(54.6, width, true);
        let level = drawing.shapes.iter().find_map(|shape| match (shape.role, &shape.form) {
            (Role::Cut, Form::Line(points)) => Some(points.clone()),
            _ => None,
        });
        let level = level.expect("the level");
        let middle_mm = 0.5 * (level[0].x_mm + level[1].x_mm);
        let place = |words: [&str; 2]| {
            drawing.shapes.iter().find_map(|shape| match &shape.form {
                Form::Text(text) if words.contains(&text.words.as_str()) => Some(text.at.x_mm),
                _ => None,
            })
        };
        let (east, west) = (place(["east", "E"]).unwrap(), place(["west", "W"]).unwrap());
        assert!((0.5 * (east + west) - middle_mm).abs() < 1e-6 && east < west);
        let mm_a_deg = (west - east) / 180.0;
        for noon_deg in [90.0 - 54.6 + 23.44, 90.0 - 54.6, 90.0 - 54.6 - 23.44] {
            let found = dots(&drawing).into_iter().any(|dot| {
                let height_deg = (level[0].y_mm - dot.y_mm) / mm_a_deg;
                (dot.x_mm - middle_mm).abs() < 1e-6 && (height_deg - noon_deg).abs() < 1e-6
            });
            assert!(found, "no dot at {noon_deg}");
        }
    }
}

/// Given a southern place, one looks north: the morning sun, in the east, stands at the right.
#[test]
fn southern_places_look_north() {
    let drawing = sky_of(-38.3, Width::Page, true);
    let place = |word: &str| {
        drawing.shapes.iter().find_map(|shape| match &shape.form {
            Form::Text(text) if text.words == word => Some(text.at.x_mm),
            _ => None,
        })
    };
    assert!(place("west") < place("north") && place("north") < place("east"));
    assert!(place("south").is_none() && drawing.title.contains("northern"));
}

/// Given places from the Arctic to the south: every dot has its path, no path leaves the sky, none
/// jumps from side to side, and a sun that passes behind the onlooker is told of.
#[test]
fn paths_keep_to_the_sky_and_what_is_behind_is_told() {
    for latitude_deg in [70.0, 54.6, 37.0, 20.0, 10.0, 1.0, -5.0, -23.44, -38.3] {
        let drawing = sky_of(latitude_deg, Width::Page, true);
        let sky = drawing.shapes.iter().find_map(|shape| match (shape.role, &shape.form) {
            (Role::Ground, Form::Area(area)) => Some(*area),
            _ => None,
        });
        let sky = sky.expect("a sky");
        let points = paths(&drawing).into_iter().flatten();
        for point in points.clone() {
            assert!(point.x_mm >= sky.corner.x_mm - 1e-6 && point.x_mm <= sky.right_mm() + 1e-6);
            assert!(point.y_mm >= sky.corner.y_mm - 1e-6 && point.y_mm <= sky.bottom_mm() + 1e-6);
        }
        for pair in paths(&drawing).iter().flat_map(|path| path.windows(2)) {
            // Four minutes of the sun are at most 60 degrees sideways where it passes 1 degree from
            // overhead; half the sky would be the jump.
            assert!((pair[1].x_mm - pair[0].x_mm).abs() < 0.5 * sky.width_mm, "{latitude_deg}");
        }
        for dot in dots(&drawing) {
            let near =
                points.clone().any(|at| (at.x_mm - dot.x_mm).hypot(at.y_mm - dot.y_mm) < 0.1);
            assert!(near, "a dot without its way at {latitude_deg}");
        }
        // Behind the onlooker at noon where the declination passes the latitude.
        let behind = [23.44, 0.0, -23.44]
            .iter()
            .filter(
                |&&dec| if latitude_deg > 0.0 { dec > latitude_deg } else { dec < latitude_deg },
            )
            .count();
        assert_eq!(drawing.description.matches("behind the onlooker").count(), behind);
    }
}

/// Given a horizon and a near thing, both are hatched as what stands in the sun's way; a free view has
/// no such hatch. Given the Arctic, the day without a sun is told of.
#[test]
fn what_hides_the_sun_is_hatched() {
    let hatched = |drawing: &Drawing| {
        let near = |shape: &&sheets::drawing::Shape| shape.role == Role::Stratum(Hatch::NearThings);
        drawing.shapes.iter().filter(near).count()
    };
    assert_eq!(hatched(&sky_of(54.6, Width::Page, false)), 2);
    assert_eq!(hatched(&sky_of(54.6, Width::Page, true)), 0);
    assert!(
        sky_of(70.0, Width::Page, true).description.contains("21 December the sun does not rise")
    );
}

/// Given the same, the table has for every hour what the dots show.
#[test]
fn the_table_tells_the_hours() {
    let drawing = sky_of(54.6, Width::Page, true);
    let days = ways(54.6);
    let noon = drawing.table.rows.iter().find(|row| row[0] == "12").expect("noon");
    assert_eq!(noon[1], "59\u{b0} at 180\u{b0}");
    assert_eq!(noon.len(), days.len() + 1);
}
