//! Temperatures over some hours, with the limits that they are not to pass.

use design::quantity::Units;

use super::Width;
use super::frame::{caption, paper, wide_of};
use crate::drawing::{Anchor, Drawing, Point};
use crate::graph::{Axis, Graph};
use crate::measure::{broken, length_mm};
use crate::pen::{at, px};
use crate::role::Role;
use crate::table::Table;
use crate::words::{decimal, degree_mark, degrees, reader_degrees, whole};

/// What the picture shows.
#[derive(Clone, Debug)]
pub struct Facts<'a> {
    /// Which of a page's courses it is: each needs a name of its own.
    pub number: usize,
    /// What it shows.
    pub title: String,
    /// The midnight from which the hours count: `16 June`.
    pub begins: String,
    /// From one value to the next \[min\].
    pub step_min: usize,
    /// What runs: its name, and its temperature step by step \[C\].
    pub lines: Vec<(&'a str, Vec<f64>)>,
    /// What is not to be passed: its name, and its temperature \[C\].
    pub limits: Vec<(&'a str, f64)>,
    /// The reader's units.
    pub units: Units,
}

/// Names of a page's courses, for a page and for a phone; those beyond share the last.
const NAMES: [[&str; 2]; 16] = [
    ["course-1", "course-1-narrow"],
    ["course-2", "course-2-narrow"],
    ["course-3", "course-3-narrow"],
    ["course-4", "course-4-narrow"],
    ["course-5", "course-5-narrow"],
    ["course-6", "course-6-narrow"],
    ["course-7", "course-7-narrow"],
    ["course-8", "course-8-narrow"],
    ["course-9", "course-9-narrow"],
    ["course-10", "course-10-narrow"],
    ["course-11", "course-11-narrow"],
    ["course-12", "course-12-narrow"],
    ["course-13", "course-13-narrow"],
    ["course-14", "course-14-narrow"],
    ["course-15", "course-15-narrow"],
    ["course-16", "course-16-narrow"],
];

/// How lines differ; more than four would not be told apart.
const LINES: [Role; 4] = [Role::CurveMain, Role::CurveDashed, Role::CurveDotted, Role::CurveThin];

/// Height of a line of words beside the graph \[px\].
const WORDS_PX: f64 = 20.0;
/// From the graph to the words beside it \[px\].
const LEADER_PX: f64 = 18.0;

/// Draws it.
pub fn draw(facts: &Facts, width: Width) -> Drawing {
    let [page, phone] = NAMES[facts.number.min(NAMES.len() - 1)];
    let (name, longest_px) = match width {
        Width::Page => (page, 168.0),
        Width::Phone => (phone, 104.0),
    };
    let wide = wide_of(width);
    let mut drawing = paper(name, facts.title.clone(), wide, table(facts));
    let words = format!(
        "{}. Across: hours from {} at midnight. Up: {}",
        facts.title,
        facts.begins,
        degree_mark(facts.units)
    );
    let head = caption(&mut drawing, 16.0, &words);
    let names = names(facts, longest_px);
    let beside_px = names.iter().fold(0.0, |most, name| f64::max(most, name.wide_px));
    let high = names.iter().map(Name::high_px).sum::<f64>() + 20.0;
    let (top, across) = (head + 22.0, hours(facts, width));
    let graph = Graph {
        left: 52.0,
        top,
        right: wide - 12.0 - LEADER_PX - beside_px,
        bottom: top + f64::max(240.0, high),
        across,
        up: degrees_axis(facts),
    };
    graph.ground(&mut drawing);
    for (_, celsius) in &facts.limits {
        let level = reader_degrees(*celsius, facts.units);
        let ends = [graph.across.low, graph.across.high].map(|hour| graph.place(hour, level));
        drawing.line(Role::Dimension, &ends);
    }
    for (place, (_, values_c)) in facts.lines.iter().enumerate().rev() {
        let pairs: Vec<(f64, f64)> = values_c
            .iter()
            .enumerate()
            .map(|(step, &c)| (hour_of(facts, step), reader_degrees(c, facts.units)))
            .collect();
        graph.curve(&mut drawing, line_role(place), &pairs);
    }
    graph.frame(&mut drawing);
    put_beside(&mut drawing, &graph, names);
    drawing.description = describe(facts);
    drawing.height_mm = px(graph.bottom + 40.0);
    drawing
}

fn line_role(place: usize) -> Role {
    LINES[place.min(LINES.len() - 1)]
}

fn hour_of(facts: &Facts, step: usize) -> f64 {
    (step * facts.step_min) as f64 / 60.0
}

fn steps(facts: &Facts) -> usize {
    facts.lines.iter().map(|(_, values)| values.len()).max().unwrap_or(0)
}

/// Every whole day or part of one, as many as stand apart.
fn hours(facts: &Facts, width: Width) -> Axis {
    let high = hour_of(facts, steps(facts).saturating_sub(1)).ceil().max(1.0);
    let most = match width {
        Width::Page => 9.0,
        Width::Phone => 5.0,
    };
    let between = [1.0, 2.0, 3.0, 6.0, 12.0, 24.0, 48.0, 96.0, 168.0, 336.0]
        .into_iter()
        .find(|between| high / between <= most)
        .unwrap_or(730.0);
    let count = (high / between).floor() as usize;
    let ticks = (0..=count).map(|tick| tick as f64 * between).map(|hour| (hour, whole(hour)));
    Axis { low: 0.0, high, ticks: ticks.collect() }
}

/// All temperatures, limits among them.
fn degrees_axis(facts: &Facts) -> Axis {
    let lines = facts.lines.iter().flat_map(|(_, values)| values.iter().copied());
    let all = lines.chain(facts.limits.iter().map(|&(_, celsius)| celsius));
    let (low, high) = all.fold((f64::MAX, f64::MIN), |(low, high), c| (low.min(c), high.max(c)));
    let room = 0.04 * (high - low).max(1.0);
    let ends = [low - room, high + room].map(|c| reader_degrees(c, facts.units));
    Axis::round(ends[0], ends[1])
}

/// Least and most of a line \[C\].
fn reach(values_c: &[f64]) -> (f64, f64) {
    let ends = (f64::MAX, f64::MIN);
    values_c.iter().fold(ends, |(low, high), &c| (low.min(c), high.max(c)))
}

/// What a line or limit is called, beside its end.
struct Name {
    role: Role,
    lines: Vec<String>,
    wide_px: f64,
    /// Where the line ends, in the axis' own degrees.
    level: f64,
}

impl Name {
    fn high_px(&self) -> f64 {
        WORDS_PX * self.lines.len() as f64
    }
}

/// From the highest to the lowest.
fn names(facts: &Facts, longest_px: f64) -> Vec<Name> {
    let name = |role: Role, words: String, celsius: f64| {
        let lines = broken(&words, role, px(longest_px));
        let long = |line: &String| length_mm(line, role) / px(1.0);
        let wide_px = lines.iter().map(long).fold(0.0, f64::max);
        Name { role, lines, wide_px, level: reader_degrees(celsius, facts.units) }
    };
    let of_lines = facts.lines.iter().filter_map(|(words, values)| {
        let (low, high) = reach(values);
        let ends = format!(
            "{words}, {}\u{a0}to\u{a0}{}",
            whole(reader_degrees(low, facts.units)),
            degrees(high, facts.units)
        );
        values.last().map(|&last| name(Role::Label, ends, last))
    });
    let of_limits = facts.limits.iter().map(|&(words, celsius)| {
        name(Role::Value, format!("{} {words}", degrees(celsius, facts.units)), celsius)
    });
    let mut all: Vec<Name> = of_limits.chain(of_lines).collect();
    all.sort_by(|one, other| other.level.total_cmp(&one.level));
    all
}

/// The names under each other, each as near to its line's end as the others let it.
fn put_beside(drawing: &mut Drawing, graph: &Graph, names: Vec<Name>) {
    let gap = 4.0;
    let end_px = |name: &Name| graph.place(graph.across.high, name.level).y_mm / px(1.0);
    let mut tops: Vec<f64> = Vec::new();
    let mut free = graph.top - 8.0;
    for name in &names {
        let top = f64::max(free, end_px(name) - 0.5 * name.high_px());
        free = top + name.high_px() + gap;
        tops.push(top);
    }
    // What came to stand below the graph pushes those over it up again.
    let mut floor = graph.bottom + 8.0;
    for (top, name) in tops.iter_mut().zip(&names).rev() {
        *top = top.min(floor - name.high_px());
        floor = *top - gap;
    }
    let left = graph.right + LEADER_PX;
    for (top, name) in tops.into_iter().zip(names) {
        let end = Point { x_mm: px(graph.right), y_mm: px(end_px(&name)) };
        let middle = top + 0.5 * name.high_px();
        drawing.line(Role::Leader, &[end, at(left - 3.0, middle)]);
        drawing.lines(name.role, Anchor::Start, at(left, top + 15.0), WORDS_PX, &name.lines);
    }
}

fn describe(facts: &Facts) -> String {
    let mut told: Vec<String> = facts
        .lines
        .iter()
        .map(|(name, values)| {
            let (low, high) = reach(values);
            format!(
                "{name} between {} and {}",
                degrees(low, facts.units),
                degrees(high, facts.units)
            )
        })
        .collect();
    let limits =
        facts.limits.iter().map(|&(name, c)| format!("{name}: {}", degrees(c, facts.units)));
    told.extend(limits);
    format!("From {} at midnight: {}.", facts.begins, told.join("; "))
}

/// At most so many rows.
const ROWS: f64 = 49.0;

fn table(facts: &Facts) -> Table {
    let limits: Vec<String> = facts
        .limits
        .iter()
        .map(|&(name, c)| format!("{name} {}", degrees(c, facts.units)))
        .collect();
    let limits =
        if limits.is_empty() { String::new() } else { format!("; limits: {}", limits.join(", ")) };
    let mark = degree_mark(facts.units);
    let mut heads = vec!["hour".to_owned()];
    heads.extend(facts.lines.iter().map(|(name, _)| format!("{name}, {mark}")));
    let heads: Vec<&str> = heads.iter().map(String::as_str).collect();
    let mut table = Table::new(format!("From {} at midnight{limits}", facts.begins), &heads);
    let long_h = hour_of(facts, steps(facts));
    let every_h = [1.0, 2.0, 3.0, 6.0, 12.0, 24.0]
        .into_iter()
        .find(|every| long_h / every <= ROWS)
        .unwrap_or(48.0);
    let every = ((every_h * 60.0) as usize / facts.step_min.max(1)).max(1);
    for step in (0..steps(facts)).step_by(every) {
        let cell = |values: &Vec<f64>| {
            values.get(step).map_or(String::new(), |&c| decimal(reader_degrees(c, facts.units), 1))
        };
        let hour = std::iter::once(decimal(hour_of(facts, step), 0));
        table.row(hour.chain(facts.lines.iter().map(|(_, values)| cell(values))));
    }
    table
}
