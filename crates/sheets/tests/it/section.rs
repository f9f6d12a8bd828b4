//! The laws of the heat section.

use sheets::drawing::{Drawing, Form, Point};
use sheets::hatch::Hatch;
use sheets::pictures::heat_section::{self, HeaterKind, PanelMade};
use sheets::pictures::{Width, column};
use sheets::role::Role;
use year::section::HeatSection;

use crate::facts::{ORDINARY, heat_section, poor, section_of};

/// The foot as a line of a list shows it.
pub fn small_column(section: &HeatSection) -> Drawing {
    column::small(&heat_section::Facts {
        title: "Two panels on a slate roof",
        section,
        panel: PanelMade::AtHome,
        heater: HeaterKind::Cylinder,
    })
}

/// Outlines of one role.
fn outlines(drawing: &Drawing, wanted: impl Fn(Role) -> bool) -> Vec<&Vec<Point>> {
    drawing
        .shapes
        .iter()
        .filter_map(|shape| match &shape.form {
            Form::Outline(points) if wanted(shape.role) => Some(points),
            _ => None,
        })
        .collect()
}

/// Width of an outline at a height, by where its sides cross it; for shapes with one stretch at every
/// height.
fn width_at_mm(points: &[Point], y_mm: f64) -> f64 {
    let mut crossed: Vec<f64> = Vec::new();
    for place in 0..points.len() {
        let (from, to) = (points[place], points[(place + 1) % points.len()]);
        if (from.y_mm - y_mm) * (to.y_mm - y_mm) < 0.0 {
            let share = (y_mm - from.y_mm) / (to.y_mm - from.y_mm);
            crossed.push(from.x_mm + share * (to.x_mm - from.x_mm));
        }
    }
    crossed.sort_by(f64::total_cmp);
    if crossed.len() < 2 { 0.0 } else { crossed[crossed.len() - 1] - crossed[0] }
}

fn sections() -> Vec<(HeatSection, Drawing)> {
    let mut all = Vec::new();
    for section in [section_of(&ORDINARY, 948.0), poor()] {
        for width in [Width::Page, Width::Phone] {
            all.push((section.clone(), heat_section(&section, width)));
        }
    }
    all
}

/// Given an ordinary year and a poor one, at every height the strata begun so far and what is left of
/// the heat make up the column, whose width never changes and whose right side is one straight line.
#[test]
fn the_column_holds_its_width_at_every_height() {
    for (_, drawing) in sections() {
        let column = outlines(&drawing, |role| role == Role::Column)[0];
        let [heat] = outlines(&drawing, |role| role == Role::Heat)[..] else { panic!("one heat") };
        let strata = outlines(&drawing, |role| matches!(role, Role::Stratum(_)));
        let (top, foot) = (column[0].y_mm, column[2].y_mm);
        let right = column[1].x_mm;
        assert_eq!(column[2].x_mm, right);
        assert!(heat.iter().all(|point| point.x_mm <= right + 1e-9));
        for step in 0..400 {
            let y_mm = top + (foot - top) * (f64::from(step) + 0.5) / 400.0;
            let column_mm = width_at_mm(column, y_mm);
            let parts_mm = width_at_mm(heat, y_mm)
                + strata.iter().map(|points| width_at_mm(points, y_mm)).sum::<f64>();
            assert!((parts_mm - column_mm).abs() < 1e-6, "{} at {y_mm}", drawing.name);
        }
    }
}

/// Given the same: a stratum is as wide at the foot as its share of the sun (definition of the scale),
/// its left side runs straight down, and wedges follow in the order of the heat from left to right.
#[test]
fn strata_are_as_wide_as_what_they_lose() {
    for (section, drawing) in sections() {
        let column = outlines(&drawing, |role| role == Role::Column)[0];
        let wide_mm = column[1].x_mm - column[0].x_mm;
        let strata = outlines(&drawing, |role| matches!(role, Role::Stratum(_)));
        let mut before = (f64::MIN, f64::MIN);
        for points in &strata {
            let [tip, _, right, left] = points[..] else { panic!("a wedge and its run") };
            assert_eq!(tip.x_mm, left.x_mm);
            assert!(tip.x_mm >= before.0 && tip.y_mm > before.1, "{}", drawing.name);
            before = (right.x_mm - 1e-9, tip.y_mm);
        }
        for stratum in &section.strata {
            let share = stratum.year_j / section.sun_j;
            if share < 0.01 {
                continue;
            }
            let close = |points: &&&Vec<Point>| {
                let width_mm = points[2].x_mm - points[3].x_mm;
                (width_mm / wide_mm - share).abs() < 1e-9
            };
            assert!(strata.iter().any(|points| close(&points)), "{:?}", stratum.loss);
        }
    }
}

/// Given the same: every stratum is named where it begins and at the foot, once each beside its hatch,
/// and no two strata share a hatch.
#[test]
fn every_stratum_is_named_twice() {
    for (_, drawing) in sections() {
        let strata: Vec<Hatch> = drawing
            .shapes
            .iter()
            .filter_map(|shape| match (&shape.role, &shape.form) {
                (Role::Stratum(hatch), Form::Outline(_)) => Some(*hatch),
                _ => None,
            })
            .collect();
        assert!(strata.len() >= 8);
        for hatch in &strata {
            let swatches = drawing
                .shapes
                .iter()
                .filter(|shape| shape.role == Role::Stratum(*hatch))
                .filter(|shape| matches!(shape.form, Form::Area(_)))
                .count();
            assert_eq!(swatches, 2, "{}: {hatch:?}", drawing.name);
            assert_eq!(strata.iter().filter(|other| *other == hatch).count(), 1);
        }
    }
}

/// Given the same: the table's losses and what is spared add up to its sun, row by row as whole
/// kilowatt-hours, within half a kilowatt-hour for each rounded figure.
#[test]
fn the_table_adds_up_to_the_years_sun() {
    for (section, drawing) in sections() {
        let figure = |cell: &str| -> f64 {
            cell.replace('\u{a0}', "").replace('\u{2212}', "-").parse().expect("a figure")
        };
        let rows = &drawing.table.rows;
        let losses = 1..=section.strata.len() + 1;
        for column in 1..=13 {
            let sun = figure(&rows[0][column]);
            let parts: f64 = rows[losses.clone()].iter().map(|row| figure(&row[column])).sum();
            let allowed = 0.5 * (losses.clone().count() + 1) as f64;
            assert!((parts - sun).abs() <= allowed, "column {column}: {parts} of {sun}");
        }
        assert_eq!(rows.len(), section.strata.len() + 5);
    }
}

/// Given a panel that lost heat to a store colder than its twin's (a gain among the losses), the column
/// still closes and no stratum closes on itself.
#[test]
fn a_gain_among_the_losses_is_set_against_the_one_before_it() {
    let mut lost = ORDINARY.to_vec();
    for entry in &mut lost {
        if entry.0 == year::section::Loss::Held {
            entry.1 = -20.0;
        }
    }
    let section = section_of(&lost, 948.0);
    let drawing = heat_section(&section, Width::Page);
    let column = outlines(&drawing, |role| role == Role::Column)[0];
    let strata = outlines(&drawing, |role| matches!(role, Role::Stratum(_)));
    assert!(strata.iter().all(|points| points[2].x_mm > points[3].x_mm));
    let heat = outlines(&drawing, |role| role == Role::Heat)[0];
    let y_mm = column[2].y_mm - 1.0;
    let parts_mm = width_at_mm(heat, y_mm)
        + strata.iter().map(|points| width_at_mm(points, y_mm)).sum::<f64>();
    assert!((parts_mm - (column[1].x_mm - column[0].x_mm)).abs() < 1e-6);
    assert!(drawing.table.rows.iter().any(|row| row[1] == "\u{2212}20"));
}

/// Given an ordinary year, the small foot's strata and heat are as wide as their share of the sun
/// (definition of the drawing), lie side by side from left to right, and end at the column's right side.
#[test]
fn the_small_foot_has_the_columns_proportions() {
    let section = section_of(&ORDINARY, 948.0);
    let drawing = small_column(&section);
    let column = outlines(&drawing, |role| role == Role::Column)[0];
    let [heat] = outlines(&drawing, |role| role == Role::Heat)[..] else { panic!("one heat") };
    let wide_mm = column[1].x_mm - column[0].x_mm;
    let strata = outlines(&drawing, |role| matches!(role, Role::Stratum(_)));
    let lost: Vec<f64> = section
        .strata
        .iter()
        .map(|stratum| stratum.year_j)
        .filter(|&lost_j| lost_j > 0.0)
        .collect();
    assert_eq!(strata.len(), lost.len());
    let mut x_mm = column[0].x_mm;
    for (points, lost_j) in strata.iter().zip(lost) {
        assert!((points[0].x_mm - x_mm).abs() < 1e-9);
        x_mm = points[1].x_mm;
        assert!((x_mm - points[0].x_mm - wide_mm * lost_j / section.sun_j).abs() < 1e-9);
    }
    assert!((heat[0].x_mm - x_mm).abs() < 1e-9 && (heat[1].x_mm - column[1].x_mm).abs() < 1e-9);
    assert!(
        (heat[1].x_mm - heat[0].x_mm - wide_mm * section.spared_j / section.sun_j).abs() < 1e-9
    );
}

/// Given every hatch that has a tile, the tiles for a whole page hold each once, under the name that the
/// small drawings refer to.
#[test]
fn the_tiles_of_a_page_serve_every_small_foot() {
    let tiles = sheets::svg::all_tiles(sheets::pictures::column::SMALL, 0.62);
    for hatch in Hatch::ALL.into_iter().filter(|hatch| hatch.tile().is_some()) {
        let id = format!("id=\"small-{}\"", hatch.class());
        assert_eq!(tiles.matches(&id).count(), 1, "{id}");
    }
}
