//! The pump's curve crossing the curve of all it drives, warm and cold.

use design::quantity::{Kind, Units, in_unit};

use super::Width;
use super::frame::{Names, below, caption, paper, wide_of};
use crate::drawing::{Anchor, Drawing, Point};
use crate::graph::{Axis, Graph};
use crate::measure::length_mm;
use crate::pen::{at, px};
use crate::role::Role;
use crate::table::Table;
use crate::words::{decimal, degrees};

/// What the picture shows; flows in l/min, heads in metres of the fluid.
#[derive(Clone, Debug)]
pub struct Facts<'a> {
    /// The build's title.
    pub title: &'a str,
    /// The pump's curve, flow and head.
    pub pump: Vec<(f64, f64)>,
    /// What the round costs, warm.
    pub warm: Round,
    /// What it costs, cold.
    pub cold: Round,
    /// The reader's units.
    pub units: Units,
}

/// The round at one temperature of its fluid.
#[derive(Clone, Debug)]
pub struct Round {
    /// Temperature \[C\].
    pub fluid_c: f64,
    /// Flow and head lost.
    pub curve: Vec<(f64, f64)>,
    /// Where it meets the pump's curve.
    pub point: (f64, f64),
}

/// The reader's measures of flow and head.
struct Measures {
    flow: &'static str,
    head: &'static str,
    flow_times: f64,
    head_times: f64,
}

fn measures(units: Units) -> Measures {
    match units {
        Units::Metric => Measures { flow: "l/min", head: "m", flow_times: 1.0, head_times: 1.0 },
        Units::Us => Measures {
            flow: "US gal/min",
            head: "ft of head",
            flow_times: in_unit(Kind::Flow, 1.0 / 60e3, "US gal/min").unwrap_or(f64::NAN),
            head_times: in_unit(Kind::Head, 1.0, "ft").unwrap_or(f64::NAN),
        },
    }
}

/// Draws it.
pub fn draw(facts: &Facts, width: Width) -> Drawing {
    let own = measures(facts.units);
    let turned = |pairs: &[(f64, f64)]| -> Vec<(f64, f64)> {
        pairs.iter().map(|&(flow, head)| (flow * own.flow_times, head * own.head_times)).collect()
    };
    let (pump, warm, cold) =
        (turned(&facts.pump), turned(&facts.warm.curve), turned(&facts.cold.curve));
    let points = turned(&[facts.warm.point, facts.cold.point]);
    let name = Names { page: "pump", phone: "pump-narrow" }.of(width);
    let wide = wide_of(width);
    let mut drawing =
        paper(name, format!("Pump against its round: {}", facts.title), wide, table(facts, &own));
    let words = format!("Pump against pipes, panels and coil, head in {}", own.head);
    let head = caption(&mut drawing, 16.0, &words);
    let most = |pairs: &[(f64, f64)], pick: fn(&(f64, f64)) -> f64| {
        pairs.iter().map(pick).fold(0.0, f64::max)
    };
    let reach = (2.2 * points[0].0).min(most(&pump, |pair| pair.0)).max(1.15 * points[0].0);
    let graph = Graph {
        left: 56.0,
        top: head + 22.0,
        right: wide - 24.0,
        bottom: head + 282.0,
        across: Axis::round(0.0, reach),
        up: Axis::round(0.0, 1.05 * most(&pump, |pair| pair.1)),
    };
    graph.ground(&mut drawing);
    graph.curve(&mut drawing, Role::CurveMain, &pump);
    graph.curve(&mut drawing, Role::CurveThin, &warm);
    graph.curve(&mut drawing, Role::CurveDashed, &cold);
    let foot = graph.place(points[0].0, graph.up.low);
    drawing.line(Role::CurveDotted, &[graph.place(points[0].0, points[0].1), foot]);
    for &(flow, head) in &points {
        drawing.circle(Role::Mark, graph.place(flow, head), 5.0);
    }
    graph.frame(&mut drawing);
    name_lines(&mut drawing, &graph, facts, &Lines { pump: &pump, points: &points });
    let words = format!("flow, {}", own.flow);
    drawing.text(Role::Quiet, Anchor::End, at(wide - 24.0, graph.bottom + 42.0), words);
    let sentence = format!(
        "Warm, at {}, it moves {} {}; cold, at {}, {} {}.",
        degrees(facts.warm.fluid_c, facts.units),
        decimal(points[0].0, 2),
        own.flow,
        degrees(facts.cold.fluid_c, facts.units),
        decimal(points[1].0, 2),
        own.flow
    );
    let end = below(&mut drawing, 16.0, graph.bottom + 72.0, &sentence);
    drawing.description = sentence;
    drawing.height_mm = px(end + 20.0);
    drawing
}

struct Lines<'a> {
    pump: &'a [(f64, f64)],
    points: &'a [(f64, f64)],
}

/// Names at the lines, on bare ground: the pump's at its start, the round's in free space below.
fn name_lines(drawing: &mut Drawing, graph: &Graph, facts: &Facts, lines: &Lines) {
    if let Some(&(flow, head)) = lines.pump.first() {
        let from = graph.place(flow, head);
        let down_mm = if from.y_mm < px(graph.top + 24.0) { px(22.0) } else { -px(8.0) };
        let place = Point { x_mm: from.x_mm + px(10.0), y_mm: from.y_mm + down_mm };
        on_ground(drawing, Role::Value, place, "pump");
    }
    let rows = [
        (Role::CurveThin, format!("round, {}", degrees(facts.warm.fluid_c, facts.units))),
        (Role::CurveDashed, format!("round, {}", degrees(facts.cold.fluid_c, facts.units))),
    ];
    let point = graph.place(lines.points[0].0, lines.points[0].1);
    // Below the working point to the right the ground is free: the round's curves rise past it.
    let left_mm = (point.x_mm + px(18.0)).min(px(graph.right - 158.0));
    let first_mm = px(graph.bottom - 40.0);
    for (place, (role, words)) in rows.into_iter().enumerate() {
        let y_mm = first_mm + px(24.0) * place as f64;
        let swatch = [
            Point { x_mm: left_mm, y_mm: y_mm - px(5.0) },
            Point { x_mm: left_mm + px(28.0), y_mm: y_mm - px(5.0) },
        ];
        let words_at = Point { x_mm: left_mm + px(36.0), y_mm };
        on_ground(drawing, Role::Label, words_at, &words);
        drawing.line(role, &swatch);
    }
}

fn on_ground(drawing: &mut Drawing, role: Role, place: Point, words: &str) {
    let long_mm = length_mm(words, role);
    drawing.area(
        Role::Ground,
        Point { x_mm: place.x_mm - px(3.0), y_mm: place.y_mm - px(14.0) },
        Point { x_mm: place.x_mm + long_mm + px(3.0), y_mm: place.y_mm + px(5.0) },
    );
    drawing.text(role, Anchor::Start, place, words);
}

fn table(facts: &Facts, own: &Measures) -> Table {
    let (flow, head) = (format!("flow, {}", own.flow), format!("head, {}", own.head));
    let mut table = Table::new("Pump and round", &["what", &flow, &head]);
    let mut rows = |what: &str, pairs: &[(f64, f64)]| {
        for &(flow, head) in pairs {
            let cells = [decimal(flow * own.flow_times, 2), decimal(head * own.head_times, 2)];
            table.row([what.to_owned()].into_iter().chain(cells));
        }
    };
    let at = |round: &Round| degrees(round.fluid_c, facts.units);
    rows(&format!("where they agree, {}", at(&facts.warm)), &[facts.warm.point]);
    rows(&format!("where they agree, {}", at(&facts.cold)), &[facts.cold.point]);
    rows("pump", &facts.pump);
    rows(&format!("round, {}", at(&facts.warm)), &facts.warm.curve);
    rows(&format!("round, {}", at(&facts.cold)), &facts.cold.curve);
    table
}
