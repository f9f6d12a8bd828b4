//! A weekday's draws by the hour, the part of their heat that the sun gave filled.

use design::quantity::{Kind, Units, in_unit};

use super::Width;
use super::frame::{Names, below, caption, paper};
use crate::drawing::{Anchor, Drawing};
use crate::graph::{Axis, Graph};
use crate::hatch::Hatch;
use crate::pen::{at, px};
use crate::role::Role;
use crate::table::Table;
use crate::words::{decimal, whole};

/// What the picture shows.
#[derive(Clone, Debug)]
pub struct Facts<'a> {
    /// The build's title.
    pub title: &'a str,
    /// Water drawn in each hour of a weekday \[l\].
    pub drawn_l: [f64; 24],
    /// Share of each hour's heat that the sun gave, 0 to 1.
    pub sun_share: [f64; 24],
    /// The reader's units.
    pub units: Units,
}

/// Draws it.
pub fn draw(facts: &Facts, width: Width) -> Drawing {
    let name = Names { page: "draws", phone: "draws-narrow" }.of(width);
    let wide = match width {
        Width::Page => 345.0,
        Width::Phone => 358.0,
    };
    let (unit, times) = measure(facts.units);
    let title = format!("A weekday\u{2019}s draws: {}", facts.title);
    let mut drawing = paper(name, title, wide, table(facts));
    let words = format!("A weekday\u{2019}s draws, {unit} by the hour");
    let head = caption(&mut drawing, 10.0, &words);
    let most = facts.drawn_l.iter().copied().fold(0.0, f64::max) * times;
    let graph = Graph {
        left: 48.0,
        top: head + 20.0,
        right: wide - 16.0,
        bottom: head + 190.0,
        across: Axis::hours(),
        up: Axis::round(0.0, most.max(1.0)),
    };
    graph.ground(&mut drawing);
    for hour in (0..24).filter(|&hour| facts.drawn_l[hour] > 0.0) {
        let drawn = facts.drawn_l[hour] * times;
        let side = |past: f64, up: f64| graph.place(hour as f64 + past, up);
        let sun = drawn * facts.sun_share[hour].clamp(0.0, 1.0);
        let (foot, top) = (side(0.1, 0.0), side(0.9, drawn));
        drawing.area(Role::Stratum(Hatch::Bought), side(0.1, sun), top);
        if sun > 0.0 {
            drawing.area(Role::Heat, foot, side(0.9, sun));
            drawing.line(Role::Boundary, &[side(0.1, sun), side(0.9, sun)]);
        }
        let corners = [foot, side(0.1, drawn), top, side(0.9, 0.0)];
        drawing.line(Role::Boundary, &corners);
    }
    graph.frame(&mut drawing);
    let words = "hour of the day";
    drawing.text(Role::Quiet, Anchor::End, at(graph.right, graph.bottom + 42.0), words);
    let key = graph.bottom + 62.0;
    for (x, role, words) in
        [(10.0, Role::Heat, "from the sun"), (150.0, Role::Stratum(Hatch::Bought), "other heat")]
    {
        drawing.area(role, at(x, key), at(x + 28.0, key + 16.0));
        let corners = [(0.0, 0.0), (28.0, 0.0), (28.0, 16.0), (0.0, 16.0), (0.0, 0.0)];
        drawing.line(Role::Boundary, &corners.map(|(dx, dy)| at(x + dx, key + dy)));
        drawing.text(Role::Label, Anchor::Start, at(x + 36.0, key + 13.5), words);
    }
    let told = describe(facts);
    let end = below(&mut drawing, 10.0, key + 42.0, &told);
    drawing.description = told;
    drawing.height_mm = px(end + 16.0);
    drawing
}

/// The reader's measure of water, and how many of it make a litre.
fn measure(units: Units) -> (&'static str, f64) {
    match units {
        Units::Metric => ("litres", 1.0),
        Units::Us => ("US gallons", in_unit(Kind::Volume, 1e-3, "US gal").unwrap_or(f64::NAN)),
    }
}

fn describe(facts: &Facts) -> String {
    let (unit, times) = measure(facts.units);
    format!(
        "{} {unit} on a mean weekday of the year. The filled part of each bar is the part of its heat that \
         the sun gave.",
        whole(facts.drawn_l.iter().sum::<f64>() * times)
    )
}

fn table(facts: &Facts) -> Table {
    let (unit, times) = measure(facts.units);
    let mut table = Table::new(
        "A mean weekday\u{2019}s draws",
        &["hour from", &format!("drawn, {unit}"), "from the sun, parts in 100"],
    );
    for hour in (0..24).filter(|&hour| facts.drawn_l[hour] > 0.0) {
        table.row([
            hour.to_string(),
            decimal(facts.drawn_l[hour] * times, 1),
            whole(100.0 * facts.sun_share[hour]),
        ]);
    }
    table
}
