//! A value on a rule, and over it what the year would spare at each place of it.

use super::frame::{caption, paper};
use crate::drawing::{Anchor, Drawing};
use crate::graph::{Axis, Graph};
use crate::hatch::Material;
use crate::pen::{at, px};
use crate::role::Role;
use crate::table::Table;
use crate::words::{decimal, kwh};

/// What the picture shows.
#[derive(Clone, Debug)]
pub struct Facts<'a> {
    /// What the value is.
    pub value: &'a str,
    /// Its unit; empty for a plain number.
    pub unit: &'a str,
    /// Values in that unit, rising, with the heat spared at each \[kWh\]; `None` where no build can have it.
    pub curve: &'a [(f64, Option<f64>)],
    /// The value as it stands, and the heat spared.
    pub now: (f64, f64),
}

const WIDE: f64 = 374.0;

/// Draws it.
pub fn draw(facts: &Facts) -> Drawing {
    let title = format!("What other values would bring: {}", facts.value);
    let mut drawing = paper("rule", title, WIDE, table(facts));
    let spared: Vec<f64> =
        facts.curve.iter().filter_map(|pair| pair.1).chain([facts.now.1]).collect();
    let (least, most) =
        spared.iter().fold((f64::MAX, f64::MIN), |(low, high), &kwh| (low.min(kwh), high.max(kwh)));
    let head =
        caption(&mut drawing, 16.0, "Heat spared in the year, kWh, everything else as it is");
    let ends = |values: &mut dyn Iterator<Item = f64>| {
        values.fold((f64::MAX, f64::MIN), |(low, high), at| (low.min(at), high.max(at)))
    };
    let (from, to) = ends(&mut facts.curve.iter().map(|pair| pair.0));
    let graph = Graph {
        left: 56.0,
        top: head + 20.0,
        right: WIDE - 20.0,
        bottom: head + 190.0,
        across: Axis { low: from, high: to, ticks: Vec::new() },
        // A flat curve shall look flat: two kilowatt-hours at least from bottom to top.
        up: Axis::round(
            least.min(0.5 * (least + most) - 1.0),
            most.max(0.5 * (least + most) + 1.0),
        ),
    };
    graph.ground(&mut drawing);
    for piece in facts.curve.split(|pair| pair.1.is_none()) {
        let pairs: Vec<(f64, f64)> =
            piece.iter().filter_map(|&(value, kwh)| Some((value, kwh?))).collect();
        graph.curve(&mut drawing, Role::CurveMain, &pairs);
    }
    graph.frame(&mut drawing);
    rule(&mut drawing, &graph, (from, to));
    let now = graph.place(facts.now.0, facts.now.1);
    drawing.line(Role::CurveDotted, &[now, graph.place(facts.now.0, graph.up.low)]);
    drawing.circle(Role::Mark, now, 6.0);
    let foot = graph.bottom + 64.0;
    let words = format!("now {} {}: {}", decimal_of(facts.now.0), facts.unit, kwh(facts.now.1));
    drawing.text(Role::Value, Anchor::Start, at(56.0, foot), words.replace("  ", " "));
    drawing.text(Role::Quiet, Anchor::End, at(WIDE - 20.0, foot), facts.unit);
    drawing.description = format!(
        "From {} to {} {} the year spares between {} and {}.",
        decimal_of(from),
        decimal_of(to),
        facts.unit,
        kwh(least),
        kwh(most)
    );
    drawing.height_mm = px(foot + 16.0);
    drawing
}

/// The rule under the curve: wood, with a mark at each round value.
fn rule(drawing: &mut Drawing, graph: &Graph, (from, to): (f64, f64)) {
    drawing.area(
        Role::Material(Material::Plywood),
        at(graph.left, graph.bottom),
        at(graph.right, graph.bottom + 34.0),
    );
    let marks = Axis::fine(from, to);
    for (value, words) in marks.ticks.iter().filter(|(value, _)| (from..=to).contains(value)) {
        let top = graph.place(*value, graph.up.low);
        let end = crate::drawing::Point { x_mm: top.x_mm, y_mm: top.y_mm + px(9.0) };
        drawing.line(Role::InView, &[top, end]);
        let below = crate::drawing::Point { x_mm: top.x_mm, y_mm: top.y_mm + px(27.0) };
        let long_mm = crate::measure::length_mm(words, Role::Value);
        let middle_mm =
            below.x_mm.clamp(px(graph.left) + 0.5 * long_mm, px(graph.right) - 0.5 * long_mm);
        drawing.area(
            Role::Blank,
            crate::drawing::Point {
                x_mm: middle_mm - 0.5 * long_mm - px(2.0),
                y_mm: below.y_mm - px(14.0),
            },
            crate::drawing::Point {
                x_mm: middle_mm + 0.5 * long_mm + px(2.0),
                y_mm: below.y_mm + px(4.0),
            },
        );
        let at = crate::drawing::Point { x_mm: middle_mm, y_mm: below.y_mm };
        drawing.text(Role::Value, Anchor::Middle, at, words.clone());
    }
}

fn decimal_of(value: f64) -> String {
    let text = decimal(value, 3);
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}

fn table(facts: &Facts) -> Table {
    let unit = if facts.unit.is_empty() { "value".to_owned() } else { facts.unit.to_owned() };
    let mut table = Table::new(facts.value, &[&unit, "spared, kWh a year"]);
    for &(value, kwh) in facts.curve {
        let words = kwh.map_or("cannot be built".to_owned(), |kwh| decimal(kwh, 1));
        table.row([decimal_of(value), words]);
    }
    table
}
