//! Pictures of days and years: bars as long as what they stand for, and what the page plays by.

use design::quantity::Units;
use sheets::drawing::{Drawing, Form};
use sheets::pictures::year_map::{Shown, day_sides_mm};
use sheets::pictures::{Mover, Width, strip};
use sheets::role::Role;
use sheets::{hatch::Hatch, style};

use crate::facts::{box_of, draws_of, map_of, plate_of, strip_of};

/// Areas of a role.
fn areas(drawing: &Drawing, role: Role) -> Vec<sheets::drawing::Area> {
    drawing
        .shapes
        .iter()
        .filter_map(|shape| match &shape.form {
            Form::Area(area) if shape.role == role => Some(*area),
            _ => None,
        })
        .collect()
}

/// Given hours with shares of a half, 46, 30 and 100 parts in 100: the filled part of each bar is that
/// part of it, and the bars are as high as their litres.
#[test]
fn the_suns_part_of_a_bar_is_its_share() {
    let drawing = draws_of(Width::Page, Units::Metric);
    // The last of each is the key under the graph.
    let (sun, other) = (areas(&drawing, Role::Heat), areas(&drawing, Role::Stratum(Hatch::Bought)));
    let heights: Vec<(f64, f64)> = sun
        .iter()
        .zip(&other)
        .take(4)
        .map(|(sun, other)| (sun.height_mm, sun.height_mm + other.height_mm))
        .collect();
    let mm_a_litre = heights[1].1 / 26.0;
    for ((sun_mm, whole_mm), (litres, share)) in
        heights.iter().zip([(4.0, 0.5), (26.0, 0.46), (6.0, 0.3), (10.0, 1.0)])
    {
        assert!((whole_mm - litres * mm_a_litre).abs() < 1e-9);
        assert!((sun_mm / whole_mm - share).abs() < 1e-9);
    }
}

/// Given a day whose pump runs while more than 300 of 700 W/m2 come in: its bar lies between the ends
/// that the page is told, at its minutes; by hand, `sin = 3/7` at 25.377 degrees of the day, so from
/// 7:41.5 to 16:18.5: the first whole minute above is 462, the last 978, which ends at 979.
#[test]
fn the_strip_lies_between_the_ends_it_tells() {
    for width in [Width::Page, Width::Phone] {
        let drawing = strip_of(width, Units::Metric, true);
        let [left_mm, right_mm] = strip::ends_mm(width);
        let runs: Vec<_> = drawing
            .shapes
            .iter()
            .filter_map(|shape| match &shape.form {
                Form::Cells(cells) if shape.role == Role::Sun => Some(cells.clone()),
                _ => None,
            })
            .flatten()
            .collect();
        let [run] = runs[..] else { panic!("one run") };
        let minute = |x_mm: f64| 1440.0 * (x_mm - left_mm) / (right_mm - left_mm);
        assert!((minute(run.corner.x_mm) - 462.0).abs() < 1e-6);
        assert!((minute(run.right_mm()) - 979.0).abs() < 1e-6);
    }
}

/// Given any map, its cells lie in the columns of days that the page is told, from the first day to the
/// last.
#[test]
fn every_cell_of_a_map_lies_in_its_day() {
    let starts = physics::climate::MONTH_STARTS_DAY;
    for shown in [Shown::StoreTop, Shown::Absorbed, Shown::Running(Mover::Pump)] {
        for width in [Width::Page, Width::Phone] {
            let sides = day_sides_mm(width, &starts);
            let drawing = map_of(shown, width, Units::Metric);
            let mut met = vec![false; 365];
            for shape in &drawing.shapes {
                let Form::Cells(cells) = &shape.form else { continue };
                for cell in cells {
                    let day = sides.partition_point(|&side| side <= cell.corner.x_mm + 1e-9) - 1;
                    assert!((sides[day] - cell.corner.x_mm).abs() < 1e-9);
                    met[day] = true;
                }
            }
            assert!(met.iter().all(|&met| met), "{}", drawing.name);
        }
    }
}

/// Given the panel's pictures, what a day changes has a name; and the style has every level of warmth,
/// so that any of them can be set.
#[test]
fn the_panels_figures_can_be_played() {
    let has = |drawing: &Drawing, name: &str| {
        drawing.shapes.iter().any(|shape| shape.live.as_deref() == Some(name))
    };
    let section = box_of(Width::Page, Units::Metric);
    for name in ["panel.sheet.c", "panel.sheet", "panel.cover.0.inside.c", "panel.back.1.c"] {
        assert!(has(&section, name), "{name}");
    }
    let plate = plate_of(Units::Metric);
    for name in ["panel.inlet.c", "panel.outlet.c", "panel.hottest.c"] {
        assert!(has(&plate, name), "{name}");
    }
    let css = style::css(&style::warmth_roles());
    assert!((0..=255).all(|level| css.contains(&format!(".w{level}{{fill:#"))));
}
