//! The plate picture: the sheet to scale, coloured by its temperature, with its isotherms.

use design::quantity::{Kind, Units, in_unit};

use super::contour::contours;
use super::frame::{below, caption, paper};
use super::scale::scale;
use crate::drawing::{Anchor, Area, Drawing, Form, Point};
use crate::measure::length_mm;
use crate::pen::{at, px};
use crate::role::Role;
use crate::table::Table;
use crate::warmth::level;
use crate::words::{decimal, degree_mark, degrees, reader_degrees};

/// What the picture shows.
#[derive(Clone, Debug)]
pub struct Facts<'a> {
    /// The build's title.
    pub title: &'a str,
    /// Width of the sheet \[m\].
    pub width_m: f64,
    /// Length up the slope \[m\].
    pub length_m: f64,
    /// Cells across.
    pub columns: usize,
    /// Temperature of each cell, row by row from the lower left as the sun sees it \[C\].
    pub sheet_c: Vec<f64>,
    /// Course of each tube, leg by leg: places across and up \[m\].
    pub tubes: Vec<Vec<[(f64, f64); 2]>>,
    /// The hottest place, across and up \[m\].
    pub hottest_m: (f64, f64),
    /// The coldest place.
    pub coldest_m: (f64, f64),
    /// Fluid entering \[C\].
    pub inlet_c: f64,
    /// Fluid leaving, all tubes mixed \[C\].
    pub outlet_c: f64,
    /// Sun, air and flow.
    pub conditions: String,
    /// The reader's units.
    pub units: Units,
}

/// Kelvin from one isotherm to the next.
const EVERY_K: f64 = 3.0;
/// How far cells lie under their neighbours, so that no ground shows between them, in pixels.
const LAP: f64 = 0.4;
/// Cells drawn across, at most: finer is below a pixel.
const ACROSS: usize = 110;

/// The sheet on the paper, in pixels.
struct Place {
    left: f64,
    top: f64,
    right: f64,
    bottom: f64,
}

impl Place {
    fn at(&self, facts: &Facts, (across_m, up_m): (f64, f64)) -> Point {
        at(
            self.left + across_m / facts.width_m * (self.right - self.left),
            self.bottom - up_m / facts.length_m * (self.bottom - self.top),
        )
    }
}

/// Draws it.
pub fn draw(facts: &Facts) -> Drawing {
    const WIDE: f64 = 374.0;
    let mut drawing = paper("plate", format!("Plate picture: {}", facts.title), WIDE, table(facts));
    let words = format!(
        "The sheet to scale, from the sun’s side; lines of one temperature every {}",
        match facts.units {
            Units::Metric => format!("{EVERY_K:.0} K"),
            Units::Us => {
                let every_f = in_unit(Kind::Difference, EVERY_K, "F diff").unwrap_or(f64::NAN);
                format!("{every_f:.1} F\u{b0}")
            }
        }
    );
    let head = caption(&mut drawing, 16.0, &words);
    // So that neither side outgrows the paper, and callouts have their room to the right.
    let wide = 216.0_f64.min(430.0 * facts.width_m / facts.length_m);
    let (left, top) = (22.0, head + 22.0);
    let place = Place {
        left,
        top,
        right: left + wide,
        bottom: top + wide * facts.length_m / facts.width_m,
    };
    let field = Field::of(facts);
    let (lowest, highest) = field.ends();
    cells(&mut drawing, &place, &field, lowest, highest);
    isotherms(&mut drawing, facts, &place, &field, lowest, highest);
    for leg in facts.tubes.iter().flatten() {
        drawing.line(Role::Route, &leg.map(|end| place.at(facts, end)));
    }
    drawing.line(
        Role::Cut,
        &[
            at(place.left, place.top),
            at(place.right, place.top),
            at(place.right, place.bottom),
            at(place.left, place.bottom),
            at(place.left, place.top),
        ],
    );
    callouts(&mut drawing, facts, &place);
    let bar = scale_bar(&mut drawing, facts, &place);
    let foot =
        scale(&mut drawing, at(place.left, bar + 22.0), 270.0, [lowest, highest], facts.units);
    let end = below(&mut drawing, 16.0, foot + 32.0, &facts.conditions);
    drawing.description = describe(facts);
    drawing.height_mm = px(end + 18.0);
    drawing
}

/// The temperatures as they are drawn: means of neighbouring cells where these are too fine.
struct Field {
    columns: usize,
    rows: usize,
    c: Vec<f64>,
}

impl Field {
    fn of(facts: &Facts) -> Field {
        let rows = facts.sheet_c.len() / facts.columns.max(1);
        let by = facts.columns.div_ceil(ACROSS).max(1);
        let (columns, down) = (facts.columns.div_ceil(by), rows.div_ceil(by));
        let mut c = Vec::with_capacity(columns * down);
        for row in 0..down {
            for column in 0..columns {
                let (mut sum, mut count) = (0.0, 0.0);
                for y in row * by..((row + 1) * by).min(rows) {
                    for x in column * by..((column + 1) * by).min(facts.columns) {
                        sum += facts.sheet_c[y * facts.columns + x];
                        count += 1.0;
                    }
                }
                c.push(sum / count);
            }
        }
        Field { columns, rows: down, c }
    }

    fn ends(&self) -> (f64, f64) {
        let low = self.c.iter().copied().fold(f64::MAX, f64::min).floor();
        let high = self.c.iter().copied().fold(f64::MIN, f64::max).ceil();
        (low, high)
    }
}

fn cells(drawing: &mut Drawing, place: &Place, field: &Field, lowest: f64, highest: f64) {
    let wide = (place.right - place.left) / field.columns as f64;
    let high = (place.bottom - place.top) / field.rows as f64;
    let mut by_level: Vec<Vec<Area>> = vec![Vec::new(); 256];
    for row in 0..field.rows {
        let warmth =
            |column: usize| level(field.c[row * field.columns + column], lowest, highest) | 3;
        let mut column = 0;
        while column < field.columns {
            let from = column;
            while column < field.columns && warmth(column) == warmth(from) {
                column += 1;
            }
            let bottom = place.bottom - high * row as f64;
            by_level[usize::from(warmth(from))].push(crate::pen::between(
                at(place.left + wide * from as f64, bottom - high - LAP),
                at(place.left + wide * column as f64 + LAP, bottom),
            ));
        }
    }
    for (warmth, cells) in by_level.into_iter().enumerate().filter(|(_, cells)| !cells.is_empty()) {
        drawing.add(Role::Warmth(warmth as u8), Form::Cells(cells));
    }
}

fn isotherms(
    drawing: &mut Drawing,
    facts: &Facts,
    place: &Place,
    field: &Field,
    lowest: f64,
    highest: f64,
) {
    let middle = 0.5 * (lowest + highest);
    let mut at_c = (lowest / EVERY_K).ceil() * EVERY_K;
    while at_c <= highest {
        let role = if at_c < middle { Role::IsothermOnDark } else { Role::IsothermOnLight };
        for line in contours(&field.c, field.columns, at_c) {
            let points: Vec<Point> = line
                .iter()
                .map(|&(column, row)| {
                    let across_m = (column + 0.5) / field.columns as f64 * facts.width_m;
                    let up_m = (row + 0.5) / field.rows as f64 * facts.length_m;
                    place.at(facts, (across_m, up_m))
                })
                .collect();
            drawing.line(role, &points);
        }
        at_c += EVERY_K;
    }
}

/// Hottest spot, outlet and inlet in figures to the right, kept apart.
fn callouts(drawing: &mut Drawing, facts: &Facts, place: &Place) {
    let first =
        facts.tubes.first().and_then(|tube| tube.first()).map(|leg| place.at(facts, leg[0]));
    let last = facts.tubes.last().and_then(|tube| tube.last()).map(|leg| place.at(facts, leg[1]));
    let figure = |c: f64| format!("{}\u{b0}", decimal(reader_degrees(c, facts.units), 1));
    let hottest_c = facts.sheet_c.iter().copied().fold(f64::MIN, f64::max);
    let mut marks = vec![(place.at(facts, facts.hottest_m), "hottest", figure(hottest_c))];
    if let Some(inlet) = first {
        marks.push((inlet, "in", figure(facts.inlet_c)));
    }
    if let Some(outlet) = last {
        marks.push((outlet, "out", figure(facts.outlet_c)));
    }
    // Far enough apart, and all beside the sheet.
    const APART: f64 = 48.0;
    let x = place.right + 30.0;
    let mut best: Option<(f64, Vec<f64>, Vec<Mark>)> = None;
    for order in orders(marks) {
        let heights = heights(&order, place, APART);
        let crossed = crossings(&order, &heights, x - 16.0);
        let strayed: f64 = order
            .iter()
            .zip(&heights)
            .map(|(mark, height)| (mark.0.y_mm / px(1.0) - height).abs())
            .sum();
        let cost = 1e6 * crossed as f64 + strayed;
        if best.as_ref().is_none_or(|(least, ..)| cost < *least) {
            best = Some((cost, heights, order));
        }
    }
    let Some((_, heights, marks)) = best else { return };
    for (y, (from, words, figures)) in heights.into_iter().zip(marks) {
        drawing.leader(&[at(x - 4.0, y), at(x - 16.0, y), from]);
        let long_mm = length_mm(&figures, Role::Value);
        drawing.text(Role::Value, Anchor::Start, at(x, y + 5.5), figures);
        drawing.named(match words {
            "in" => "panel.inlet.c",
            "out" => "panel.outlet.c",
            _ => "panel.hottest.c",
        });
        let behind = Point { x_mm: px(x) + long_mm + px(6.0), y_mm: px(y + 5.5) };
        drawing.text(Role::Quiet, Anchor::Start, behind, words);
    }
}

/// A place, its name and its figure.
type Mark = (Point, &'static str, String);

/// Every order of a few marks.
fn orders(marks: Vec<Mark>) -> Vec<Vec<Mark>> {
    if marks.len() < 2 {
        return vec![marks];
    }
    let mut all = Vec::new();
    for first in 0..marks.len() {
        let mut rest = marks.clone();
        let mark = rest.remove(first);
        for mut order in orders(rest) {
            order.insert(0, mark.clone());
            all.push(order);
        }
    }
    all
}

/// Heights of the words in an order: near their places, far enough apart, and beside the sheet.
fn heights(order: &[Mark], place: &Place, apart: f64) -> Vec<f64> {
    let mut heights: Vec<f64> =
        order.iter().map(|mark| (mark.0.y_mm / px(1.0)).max(place.top + 12.0)).collect();
    for mark in 1..heights.len() {
        heights[mark] = heights[mark].max(heights[mark - 1] + apart);
    }
    let mut most = place.bottom - 6.0;
    for height in heights.iter_mut().rev() {
        *height = height.min(most);
        most = *height - apart;
    }
    heights
}

/// How many pairs of leaders cross.
fn crossings(order: &[Mark], heights: &[f64], x: f64) -> usize {
    let ends: Vec<(Point, Point)> =
        order.iter().zip(heights).map(|(mark, &height)| (at(x, height), mark.0)).collect();
    (0..ends.len())
        .flat_map(|one| (one + 1..ends.len()).map(move |other| (one, other)))
        .filter(|&(one, other)| cross(ends[one], ends[other]))
        .count()
}

/// Whether two straight pieces cross.
pub(crate) fn cross(one: (Point, Point), other: (Point, Point)) -> bool {
    let side = |(from, to): (Point, Point), at: Point| {
        (to.x_mm - from.x_mm) * (at.y_mm - from.y_mm)
            - (to.y_mm - from.y_mm) * (at.x_mm - from.x_mm)
    };
    side(one, other.0) * side(one, other.1) < 0.0 && side(other, one.0) * side(other, one.1) < 0.0
}

/// A bar of a round length under the sheet; returns how far down it reaches.
fn scale_bar(drawing: &mut Drawing, facts: &Facts, place: &Place) -> f64 {
    let px_per_m = (place.right - place.left) / facts.width_m;
    let (metres, words) = match facts.units {
        Units::Metric => [(0.5, "500\u{a0}mm"), (0.2, "200\u{a0}mm"), (0.1, "100\u{a0}mm")],
        Units::Us => [(0.6096, "2\u{a0}ft"), (0.3048, "1\u{a0}ft"), (0.1524, "6\u{a0}in")],
    }
    .into_iter()
    .find(|(metres, _)| *metres <= 0.8 * facts.width_m)
    .unwrap_or((0.1, "100\u{a0}mm"));
    let y = place.bottom + 20.0;
    drawing.dimension(at(place.left, y), at(place.left + metres * px_per_m, y));
    let x = place.left + metres * px_per_m + 10.0;
    drawing.text(Role::Label, Anchor::Start, at(x, y + 5.5), words);
    y + 6.0
}

fn describe(facts: &Facts) -> String {
    let hottest_c = facts.sheet_c.iter().copied().fold(f64::MIN, f64::max);
    let coldest_c = facts.sheet_c.iter().copied().fold(f64::MAX, f64::min);
    format!(
        "The sheet from {} at its coldest to {} at its hottest place; fluid enters at {} and leaves at {}.",
        degrees(coldest_c, facts.units),
        degrees(hottest_c, facts.units),
        degrees(facts.inlet_c, facts.units),
        degrees(facts.outlet_c, facts.units)
    )
}

fn table(facts: &Facts) -> Table {
    let place = |(across_m, up_m): (f64, f64)| match facts.units {
        Units::Metric => format!(
            "{}\u{a0}mm from the left, {}\u{a0}mm up",
            decimal(across_m * 1000.0, 0),
            decimal(up_m * 1000.0, 0)
        ),
        Units::Us => format!(
            "{}\u{a0}in from the left, {}\u{a0}in up",
            decimal(across_m / 0.0254, 1),
            decimal(up_m / 0.0254, 1)
        ),
    };
    let figure = |c: f64| decimal(reader_degrees(c, facts.units), 1);
    let hottest_c = facts.sheet_c.iter().copied().fold(f64::MIN, f64::max);
    let coldest_c = facts.sheet_c.iter().copied().fold(f64::MAX, f64::min);
    let mut table = Table::new(
        format!("The sheet: {}", facts.conditions),
        &["what", degree_mark(facts.units), "where, from the sun’s side"],
    );
    table.row(["hottest place".to_owned(), figure(hottest_c), place(facts.hottest_m)]);
    table.row(["coldest place".to_owned(), figure(coldest_c), place(facts.coldest_m)]);
    let ends = [
        (
            "fluid in",
            facts.inlet_c,
            facts.tubes.first().and_then(|tube| tube.first()).map(|leg| leg[0]),
        ),
        (
            "fluid out",
            facts.outlet_c,
            facts.tubes.last().and_then(|tube| tube.last()).map(|leg| leg[1]),
        ),
    ];
    for (what, c, at) in ends {
        table.row([what.to_owned(), figure(c), at.map_or(String::new(), place)]);
    }
    table
}
