//! One day: sun, store and panel by the hour, when the fluid ran, what was drawn.

use design::quantity::{Kind, Units, in_unit};

use super::frame::{below, caption, paper, wide_of};
use super::{Mover, Width};
use crate::drawing::{Anchor, Drawing, Point};
use crate::graph::{Axis, Graph};
use crate::measure::length_mm;
use crate::pen::{at, px};
use crate::role::Role;
use crate::table::Table;
use crate::words::{decimal, degree_mark, degrees, reader_degrees, whole};

/// What the picture shows.
#[derive(Clone, Debug)]
pub struct Facts<'a> {
    /// The build's title.
    pub title: &'a str,
    /// Which day of the two.
    pub season: Season,
    /// The day in words, and by what rule it was chosen.
    pub date: String,
    /// Rule by which it was chosen.
    pub rule: String,
    /// Light taken up by the sheet, by the minute \[W/m2\].
    pub absorbed_w_m2: &'a [f32],
    /// Top of the store, by the minute \[C\].
    pub store_top_c: Vec<f64>,
    /// Fluid leaving the panel, or the sheet there while it rests, by the minute \[C\].
    pub panel_out_c: Vec<f64>,
    /// What moves the fluid.
    pub mover: Mover,
    /// Whether it was moved, by the minute.
    pub running: Vec<bool>,
    /// Water drawn, by the hour \[l\].
    pub drawn_l: &'a [f64],
    /// The reader's units.
    pub units: Units,
}

/// Which of the two typical days.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Season {
    /// Of summer.
    Summer,
    /// Of winter.
    Winter,
}

/// Draws it.
pub fn draw(facts: &Facts, width: Width) -> Drawing {
    let name = match (facts.season, width) {
        (Season::Summer, Width::Page) => "day-summer",
        (Season::Summer, Width::Phone) => "day-summer-narrow",
        (Season::Winter, Width::Page) => "day-winter",
        (Season::Winter, Width::Phone) => "day-winter-narrow",
    };
    let season = match facts.season {
        Season::Summer => "summer",
        Season::Winter => "winter",
    };
    let wide = wide_of(width);
    let title = format!("A typical {season} day: {}", facts.title);
    let mut drawing = paper(name, title, wide, table(facts));
    let words = format!(
        "{}: light into the sheet, W/m\u{b2}, left; temperatures, {}, right",
        facts.date,
        degree_mark(facts.units)
    );
    let head = caption(&mut drawing, 16.0, &words);
    let graph = suns(&mut drawing, facts, wide, head + 22.0);
    let bar = running_bar(&mut drawing, facts, &graph, graph.bottom + 34.0);
    let foot = draws(&mut drawing, facts, wide, bar + 22.0);
    let end = below(&mut drawing, 16.0, foot + 70.0, &facts.rule);
    drawing.description = describe(facts);
    drawing.height_mm = px(end + 18.0);
    drawing
}

fn describe(facts: &Facts) -> String {
    let hottest = |values: &[f64]| values.iter().copied().fold(f64::MIN, f64::max);
    format!(
        "{}. The store's top reaches {}; the panel's outlet {}; the {} runs {} minutes; {} l are drawn.",
        facts.date,
        degrees(hottest(&facts.store_top_c), facts.units),
        degrees(hottest(&facts.panel_out_c), facts.units),
        what_runs(facts.mover),
        facts.running.iter().filter(|&&runs| runs).count(),
        whole(facts.drawn_l.iter().sum())
    )
}

/// Light as an area, temperatures as lines with their own figures at the right.
fn suns(drawing: &mut Drawing, facts: &Facts, wide: f64, top: f64) -> Graph {
    let most = f64::from(facts.absorbed_w_m2.iter().copied().fold(0.0, f32::max));
    let light = Graph {
        left: 56.0,
        top,
        right: wide - 52.0,
        bottom: top + 210.0,
        across: Axis::hours(),
        up: Axis::round(0.0, most.max(100.0)),
    };
    light.ground(drawing);
    let mut area = vec![light.place(0.0, 0.0)];
    for (place, minutes) in facts.absorbed_w_m2.chunks(5).enumerate() {
        let mean = minutes.iter().map(|&w_m2| f64::from(w_m2)).sum::<f64>() / minutes.len() as f64;
        area.push(light.place((place as f64 * 5.0 + 2.5) / 60.0, mean));
    }
    area.push(light.place(24.0, 0.0));
    drawing.outline(Role::Sun, &area);
    let turn = |values: &[f64]| -> Vec<(f64, f64)> {
        values
            .iter()
            .enumerate()
            .step_by(5)
            .map(|(minute, &c)| (minute as f64 / 60.0, reader_degrees(c, facts.units)))
            .collect()
    };
    let (store, panel) = (turn(&facts.store_top_c), turn(&facts.panel_out_c));
    let ends = |pick: fn(f64, f64) -> f64, start: f64| {
        store.iter().chain(&panel).map(|pair| pair.1).fold(start, pick)
    };
    let warmth =
        Graph { up: Axis::round(ends(f64::min, 0.0), ends(f64::max, 1.0)), ..light.clone() };
    for (value, words) in &warmth.up.ticks {
        let side = warmth.place(24.0, *value);
        let beside = Point { x_mm: side.x_mm + px(7.0), y_mm: side.y_mm + px(5.5) };
        drawing.text(Role::Quiet, Anchor::Start, beside, words.clone());
    }
    warmth.curve(drawing, Role::CurveDashed, &panel);
    warmth.curve(drawing, Role::CurveMain, &store);
    light.frame(drawing);
    // Names in the free corners, each with a piece of its line.
    let mut y = top + 18.0;
    for (role, words) in [(Role::CurveMain, "store, top"), (Role::CurveDashed, "panel’s outlet")]
    {
        let left = light.left + 8.0;
        let long = length_mm(words, Role::Label) / px(1.0);
        drawing.area(Role::Ground, at(left - 3.0, y - 14.0), at(left + 40.0 + long, y + 5.0));
        drawing.line(role, &[at(left, y - 5.0), at(left + 26.0, y - 5.0)]);
        drawing.text(Role::Label, Anchor::Start, at(left + 34.0, y), words);
        y += 21.0;
    }
    light
}

fn what_runs(mover: Mover) -> &'static str {
    match mover {
        Mover::Pump => "pump",
        Mover::Weight => "fluid",
    }
}

/// A bar where the fluid was moved; returns how far down it reaches.
fn running_bar(drawing: &mut Drawing, facts: &Facts, graph: &Graph, top: f64) -> f64 {
    let x = |minute: usize| {
        graph.left + (graph.right - graph.left) * minute as f64 / facts.running.len().max(1) as f64
    };
    drawing.text(
        Role::Quiet,
        Anchor::End,
        at(graph.left - 7.0, top + 12.0),
        what_runs(facts.mover),
    );
    let mut minute = 0;
    let mut cells = Vec::new();
    while minute < facts.running.len() {
        if !facts.running[minute] {
            minute += 1;
            continue;
        }
        let from = minute;
        while minute < facts.running.len() && facts.running[minute] {
            minute += 1;
        }
        cells.push(crate::pen::between(at(x(from), top + 2.0), at(x(minute), top + 12.0)));
    }
    drawing.line(Role::Rule, &[at(graph.left, top + 12.0), at(graph.right, top + 12.0)]);
    if !cells.is_empty() {
        drawing.add(Role::Dot, crate::drawing::Form::Cells(cells));
    }
    top + 14.0
}

/// Draws by the hour; returns how far down the box reaches.
fn draws(drawing: &mut Drawing, facts: &Facts, wide: f64, top: f64) -> f64 {
    let times = match facts.units {
        Units::Metric => 1.0,
        Units::Us => in_unit(Kind::Volume, 1e-3, "US gal").unwrap_or(f64::NAN),
    };
    let most = facts.drawn_l.iter().copied().fold(0.0, f64::max) * times;
    let graph = Graph {
        left: 56.0,
        top,
        right: wide - 52.0,
        bottom: top + 90.0,
        across: Axis::hours(),
        up: Axis::round(0.0, most.max(1.0)),
    };
    graph.ground(drawing);
    for (hour, &litres) in facts.drawn_l.iter().enumerate().filter(|(_, litres)| **litres > 0.0) {
        let from = graph.place(hour as f64 + 0.12, 0.0);
        drawing.area(Role::Water, from, graph.place(hour as f64 + 0.88, litres * times));
    }
    graph.frame(drawing);
    let unit = match facts.units {
        Units::Metric => "litres",
        Units::Us => "US gallons",
    };
    let words = format!("drawn, {unit} each hour; hour of the day");
    drawing.text(Role::Quiet, Anchor::End, at(wide - 52.0, graph.bottom + 40.0), words);
    graph.bottom
}

fn table(facts: &Facts) -> Table {
    let mark = degree_mark(facts.units);
    let (store, panel) = (format!("store’s top, {mark}"), format!("panel’s outlet, {mark}"));
    let runs = format!("{}, min", what_runs(facts.mover));
    let mut table = Table::new(
        format!("{}, hour by hour", facts.date),
        &["hour from", "light into the sheet, W/m\u{b2}", &store, &panel, &runs, "drawn, l"],
    );
    for hour in 0..24 {
        let minutes = hour * 60..(hour + 1) * 60;
        let mean = |values: &[f64]| {
            let part = &values[minutes.clone()];
            reader_degrees(part.iter().sum::<f64>() / part.len() as f64, facts.units)
        };
        let light = facts.absorbed_w_m2[minutes.clone()].iter().map(|&w_m2| f64::from(w_m2));
        table.row([
            hour.to_string(),
            whole(light.sum::<f64>() / 60.0),
            decimal(mean(&facts.store_top_c), 1),
            decimal(mean(&facts.panel_out_c), 1),
            facts.running[minutes.clone()].iter().filter(|&&runs| runs).count().to_string(),
            decimal(facts.drawn_l[hour], 1),
        ]);
    }
    table
}
