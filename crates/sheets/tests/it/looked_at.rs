//! Pictures as they were last looked at: their shapes to a tenth of a millimetre.

use design::quantity::Units;
use sheets::pictures::Width;
use sheets::{Drawing, style, svg};

use crate::{course, facts};

/// A drawing's own lines with every number to a tenth, so that rounding elsewhere changes nothing.
fn normalised(drawing: &Drawing) -> String {
    let text = svg::inline(drawing);
    let mut out = String::with_capacity(text.len());
    let mut number = String::new();
    for letter in text.chars().chain(['\n']) {
        if letter.is_ascii_digit() || letter == '.' {
            number.push(letter);
            continue;
        }
        // A full stop by itself is none.
        match number.parse::<f64>() {
            Ok(value) if number.contains('.') => out.push_str(&format!("{value:.1}")),
            _ => out.push_str(&number),
        }
        number.clear();
        out.push(letter);
    }
    out
}

#[test]
fn the_heat_section_of_an_ordinary_year() {
    let section = facts::section_of(&facts::ORDINARY, 948.0);
    insta::assert_snapshot!(normalised(&facts::heat_section(&section, Width::Page)));
    insta::assert_snapshot!(normalised(&facts::heat_section(&section, Width::Phone)));
}

#[test]
fn the_box_cut_across_its_tubes() {
    insta::assert_snapshot!(normalised(&facts::box_of(Width::Page, Units::Metric)));
    insta::assert_snapshot!(normalised(&facts::box_of(Width::Phone, Units::Us)));
}

#[test]
fn temperatures_over_some_hours() {
    insta::assert_snapshot!(normalised(&course::course_of(0, Width::Page, Units::Metric)));
    insta::assert_snapshot!(normalised(&course::course_of(1, Width::Phone, Units::Us)));
}

#[test]
fn the_graphs() {
    insta::assert_snapshot!(normalised(&facts::efficiency_of(Width::Page, Units::Metric)));
    insta::assert_snapshot!(normalised(&facts::pump_of(Width::Phone, Units::Us)));
    insta::assert_snapshot!(normalised(&facts::months_of(Units::Metric)));
}

#[test]
fn how_every_role_looks() {
    insta::assert_snapshot!(style::css(&style::all_roles()));
}
