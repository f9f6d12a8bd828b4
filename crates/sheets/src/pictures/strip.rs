//! The day strip: one day in a band, under which the page lays its handle.

use design::quantity::{Kind, Units, in_unit};

use super::frame::{Names, paper};
use super::{Mover, Width};
use crate::drawing::{Anchor, Drawing, Form, Point};
use crate::graph::{Axis, Graph};
use crate::measure::length_mm;
use crate::pen::{at, between, px};
use crate::role::Role;
use crate::table::Table;
use crate::words::{decimal, degree_mark, degrees, reader_degrees, whole};

/// What the picture shows.
#[derive(Clone, Debug)]
pub struct Facts<'a> {
    /// The build's title.
    pub title: &'a str,
    /// The day in words.
    pub date: &'a str,
    /// Light taken up by the sheet, by the minute \[W/m2\].
    pub absorbed_w_m2: &'a [f32],
    /// Top of the store, by the minute \[C\].
    pub store_top_c: &'a [f64],
    /// What moves the fluid.
    pub mover: Mover,
    /// Whether it was moved, by the minute.
    pub running: &'a [bool],
    /// Water drawn, by the minute \[l\].
    pub drawn_l: &'a [f32],
    /// The reader's units.
    pub units: Units,
}

/// Where minute 0 of the day stands and where its last ends \[mm\]: the page lays its handle between.
pub fn ends_mm(width: Width) -> [f64; 2] {
    let (left, right) = sides(width);
    [px(left), px(right)]
}

fn sides(width: Width) -> (f64, f64) {
    match width {
        Width::Page => (64.0, 880.0),
        Width::Phone => (52.0, 336.0),
    }
}

/// Minutes from one point of the curves to the next.
const EVERY_MIN: usize = 5;

/// Draws it.
pub fn draw(facts: &Facts, width: Width) -> Drawing {
    let name = Names { page: "strip", phone: "strip-narrow" }.of(width);
    let wide = match width {
        Width::Page => 900.0,
        Width::Phone => 358.0,
    };
    let (left, right) = sides(width);
    let title = format!("{}, minute by minute: {}", facts.date, facts.title);
    let mut drawing = paper(name, title, wide, table(facts));
    let most = f64::from(facts.absorbed_w_m2.iter().copied().fold(0.0, f32::max));
    // One scale for every day, so that a dull day looks dull; a brighter one than that sets its own.
    let light = Graph {
        left,
        top: 3.0,
        right,
        bottom: 46.0,
        across: Axis::hours(),
        up: Axis { low: 0.0, high: most.max(900.0), ticks: Vec::new() },
    };
    suns(&mut drawing, facts, &light, width);
    bars(&mut drawing, facts, &light, width);
    hours(&mut drawing, &light, width);
    drawing.description = describe(facts);
    drawing.height_mm = px(100.0);
    drawing
}

/// The sun as an area, the store's top as a line between the day's own whole degrees.
fn suns(drawing: &mut Drawing, facts: &Facts, light: &Graph, width: Width) {
    let mut area = vec![light.place(0.0, 0.0)];
    for (place, minutes) in facts.absorbed_w_m2.chunks(EVERY_MIN).enumerate() {
        let mean = minutes.iter().map(|&w_m2| f64::from(w_m2)).sum::<f64>() / minutes.len() as f64;
        let minute = (place * EVERY_MIN) as f64 + 0.5 * EVERY_MIN as f64;
        area.push(light.place(minute / 60.0, mean));
    }
    area.push(light.place(24.0, 0.0));
    drawing.outline(Role::Sun, &area);
    let [low, high] = ends(facts);
    let warm = Graph { up: Axis { low, high, ticks: Vec::new() }, ..light.clone() };
    let store: Vec<(f64, f64)> = facts
        .store_top_c
        .iter()
        .enumerate()
        .step_by(EVERY_MIN)
        .map(|(minute, &c)| (minute as f64 / 60.0, c))
        .collect();
    warm.curve(drawing, Role::CurveMain, &store);
    // The day is dark before five: there the line has its name, on the side that it leaves free.
    let first = store.first().map_or(0.5, |pair| (pair.1 - low) / (high - low));
    let words = match width {
        Width::Page => format!(
            "store, top, {} to {}",
            whole(reader_degrees(low, facts.units)),
            degrees(high, facts.units)
        ),
        Width::Phone => "store".to_owned(),
    };
    let y = if first > 0.5 { light.bottom - 5.0 } else { light.top + 13.0 };
    let long = length_mm(&words, Role::Label) / px(1.0);
    drawing.area(
        Role::Ground,
        at(light.left + 1.0, y - 13.0),
        at(light.left + 7.0 + long, y + 4.0),
    );
    drawing.text(Role::Label, Anchor::Start, at(light.left + 4.0, y), words);
}

/// The day's coldest and hottest store top, to whole degrees outwards, two at least apart \[C\].
fn ends(facts: &Facts) -> [f64; 2] {
    let low = facts.store_top_c.iter().copied().fold(f64::MAX, f64::min).floor();
    let high = facts.store_top_c.iter().copied().fold(f64::MIN, f64::max).ceil();
    [low, high.max(low + 2.0)]
}

/// When the fluid was moved, and what was drawn.
fn bars(drawing: &mut Drawing, facts: &Facts, light: &Graph, width: Width) {
    let x = |minute: usize| light.left + (light.right - light.left) * minute as f64 / 1440.0;
    let (pump, draws) = (light.bottom + 14.0, light.bottom + 30.0);
    let word = match facts.mover {
        Mover::Pump => "pump",
        Mover::Weight => "flow",
    };
    let tight = if width == Width::Page { 7.0 } else { 4.0 };
    drawing.text(Role::Quiet, Anchor::End, at(light.left - tight, pump), word);
    drawing.text(Role::Quiet, Anchor::End, at(light.left - tight, draws), "draws");
    let mut runs = Vec::new();
    let mut minute = 0;
    while minute < facts.running.len() {
        let from = minute;
        while minute < facts.running.len() && facts.running[minute] == facts.running[from] {
            minute += 1;
        }
        if facts.running[from] {
            runs.push(between(at(x(from), pump - 9.0), at(x(minute), pump)));
        }
    }
    drawing.line(Role::Rule, &[at(light.left, pump), at(light.right, pump)]);
    if !runs.is_empty() {
        drawing.add(Role::Sun, Form::Cells(runs));
    }
    let quarter = |minutes: &[f32]| minutes.iter().map(|&litres| f64::from(litres)).sum::<f64>();
    let most = facts.drawn_l.chunks(15).map(quarter).fold(0.0, f64::max);
    let cells: Vec<_> = facts
        .drawn_l
        .chunks(15)
        .enumerate()
        .filter(|(_, minutes)| quarter(minutes) > 0.0)
        .map(|(place, minutes)| {
            let high = (12.0 * quarter(minutes) / most).max(1.5);
            let from = at(x(15 * place), draws - high);
            between(from, at(x(15 * place + 15).max(x(15 * place) + 2.0), draws))
        })
        .collect();
    drawing.line(Role::Rule, &[at(light.left, draws), at(light.right, draws)]);
    if !cells.is_empty() {
        drawing.add(Role::Water, Form::Cells(cells));
    }
}

/// Ticks of the clock under all.
fn hours(drawing: &mut Drawing, light: &Graph, width: Width) {
    let every = if width == Width::Page { 2 } else { 6 };
    let y = light.bottom + 31.0;
    for hour in (0..=24).step_by(every) {
        let foot = Point { x_mm: light.place(f64::from(hour), 0.0).x_mm, y_mm: px(y) };
        let below = Point { y_mm: px(y + 4.0), ..foot };
        drawing.line(Role::Leader, &[foot, below]);
        let words = format!("{hour}:00");
        let at = Point { y_mm: px(y + 18.0), ..foot };
        let half_mm = 0.5 * length_mm(&words, Role::Quiet);
        let x_mm = at.x_mm.min(drawing.width_mm - half_mm - px(1.0));
        drawing.text(Role::Quiet, Anchor::Middle, Point { x_mm, ..at }, words);
    }
}

fn running_minutes(facts: &Facts) -> usize {
    facts.running.iter().filter(|&&runs| runs).count()
}

fn describe(facts: &Facts) -> String {
    let hottest = facts.store_top_c.iter().copied().fold(f64::MIN, f64::max);
    format!(
        "{}. The store\u{2019}s top reaches {}; the {} for {} minutes.",
        facts.date,
        degrees(hottest, facts.units),
        match facts.mover {
            Mover::Pump => "pump runs",
            Mover::Weight => "fluid moves",
        },
        running_minutes(facts)
    )
}

fn table(facts: &Facts) -> Table {
    let (unit, times) = match facts.units {
        Units::Metric => ("l", 1.0),
        Units::Us => ("US gal", in_unit(Kind::Volume, 1e-3, "US gal").unwrap_or(f64::NAN)),
    };
    let runs = match facts.mover {
        Mover::Pump => "pump, min",
        Mover::Weight => "fluid moving, min",
    };
    let mut table = Table::new(
        format!("{}, hour by hour", facts.date),
        &[
            "hour from",
            "light into the sheet, W/m\u{b2}",
            &format!("store\u{2019}s top, {}", degree_mark(facts.units)),
            runs,
            &format!("drawn, {unit}"),
        ],
    );
    for hour in 0..24 {
        let minutes = hour * 60..(hour + 1) * 60;
        let light = facts.absorbed_w_m2[minutes.clone()].iter().map(|&w_m2| f64::from(w_m2));
        let store = facts.store_top_c[minutes.clone()].iter().sum::<f64>() / 60.0;
        let drawn = facts.drawn_l[minutes.clone()].iter().map(|&litres| f64::from(litres));
        table.row([
            hour.to_string(),
            whole(light.sum::<f64>() / 60.0),
            decimal(reader_degrees(store, facts.units), 1),
            facts.running[minutes].iter().filter(|&&runs| runs).count().to_string(),
            decimal(drawn.sum::<f64>() * times, 1),
        ]);
    }
    table
}
