//! The efficiency curve, with the points it was fitted to.

use design::quantity::Units;

use super::Width;
use super::frame::{Names, below, caption, paper, wide_of};
use crate::drawing::{Anchor, Drawing};
use crate::graph::{Axis, Graph};
use crate::measure::length_mm;
use crate::pen::{at, px};
use crate::role::Role;
use crate::table::Table;
use crate::words::{decimal, whole};

/// What the picture shows.
#[derive(Clone, Debug)]
pub struct Facts<'a> {
    /// The build's title.
    pub title: &'a str,
    /// The curve: fluid above air \[K\] and share of the sun gained.
    pub curve: Vec<(f64, f64)>,
    /// The points it was fitted to.
    pub points: Vec<(f64, f64)>,
    /// The sun of both \[W/m2\].
    pub sun_w_m2: f64,
    /// Area it is referred to, in words.
    pub area: String,
    /// Sun, air, wind and fluid of the test.
    pub conditions: &'a str,
    /// The reader's units.
    pub units: Units,
}

/// Draws it.
pub fn draw(facts: &Facts, width: Width) -> Drawing {
    let (unit, times) = match facts.units {
        Units::Metric => ("K", 1.0),
        Units::Us => ("F\u{b0}", 1.8),
    };
    let name = Names { page: "efficiency", phone: "efficiency-narrow" }.of(width);
    let wide = wide_of(width);
    let mut drawing =
        paper(name, format!("Efficiency curve: {}", facts.title), wide, table(facts, unit, times));
    let head = caption(
        &mut drawing,
        16.0,
        &format!(
            "Share of the sun gained, of {}, by how far the fluid is above the air",
            facts.area
        ),
    );
    let across: Vec<(f64, f64)> =
        facts.curve.iter().map(|&(rise, share)| (rise * times, share)).collect();
    let furthest = across.iter().map(|pair| pair.0).fold(0.0, f64::max);
    let graph = Graph {
        left: 56.0,
        top: head + 22.0,
        right: wide - 24.0,
        bottom: head + 282.0,
        across: Axis::round(0.0, furthest),
        up: Axis::round(0.0, across.first().map_or(1.0, |pair| pair.1.max(0.1))),
    };
    graph.ground(&mut drawing);
    graph.curve(&mut drawing, Role::CurveMain, &across);
    for &(rise, share) in &facts.points {
        drawing.circle(Role::Mark, graph.place(rise * times, share), 4.5);
    }
    graph.frame(&mut drawing);
    if let Some(&(_, share)) = across.first() {
        let words = format!("{} with no rise", decimal(share, 2));
        let from = graph.place(0.0, share);
        let long_mm = length_mm(&words, Role::Value);
        let x_mm = from.x_mm + px(36.0);
        let place = crate::drawing::Point { x_mm, y_mm: from.y_mm + px(4.0) };
        drawing.area(
            Role::Ground,
            crate::drawing::Point { x_mm: x_mm - px(4.0), y_mm: place.y_mm - px(14.0) },
            crate::drawing::Point { x_mm: x_mm + long_mm + px(4.0), y_mm: place.y_mm + px(5.0) },
        );
        drawing.text(Role::Value, Anchor::Start, place, words);
    }
    let axis = format!("fluid above air, {unit}, in sun of {} W/m\u{b2}", whole(facts.sun_w_m2));
    drawing.text(Role::Quiet, Anchor::End, at(wide - 24.0, graph.bottom + 42.0), axis);
    let end = below(&mut drawing, 16.0, graph.bottom + 72.0, facts.conditions);
    drawing.description = format!(
        "The curve falls from {} with fluid as warm as the air to nothing at about {} {unit} above it.",
        decimal(across.first().map_or(0.0, |pair| pair.1), 2),
        whole(furthest)
    );
    drawing.height_mm = px(end + 20.0);
    drawing
}

fn table(facts: &Facts, unit: &str, times: f64) -> Table {
    let rise = format!("fluid above air, {unit}");
    let mut table = Table::new(
        format!("Efficiency of {} in sun of {} W/m\u{b2}", facts.area, whole(facts.sun_w_m2)),
        &[&rise, "share of the sun gained", "from"],
    );
    for &(rise, share) in &facts.curve {
        table.row([decimal(rise * times, 0), decimal(share, 3), "the fitted curve".to_owned()]);
    }
    for &(rise, share) in &facts.points {
        table.row([decimal(rise * times, 1), decimal(share, 3), "a point reckoned".to_owned()]);
    }
    table
}
