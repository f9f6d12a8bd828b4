//! The heat section taken apart by station, so that each station's numbers and drawings can stand beside
//! its piece of the column however long they are: the column is drawn far too long, and each station
//! shows a strip of it.

use year::section::HeatSection;

use super::frame::paper;
use super::heat_section::{
    Facts, PanelMade, description, label, months, plates, strata_and_heat, table, upright_plates,
};
use super::section_foot::foot;
use super::section_layout::{Layout, Room, SunPlate, Width, hatch};
use crate::drawing::{Drawing, Strip};
use crate::pen::{at, px};
use crate::role::Role;

/// The column with the strips that the stations show.
#[derive(Clone, Debug)]
pub struct Column {
    /// All of it.
    pub drawing: Drawing,
    /// Sun to tap.
    pub stations: [Pieces; 5],
    /// The ruled line with the blocks above it and the rows below.
    pub foot: Strip,
    /// Pixels for a kilowatt-hour.
    pub scale_px_kwh: f64,
}

/// A station's strips.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pieces {
    /// From its top, longer than any text beside it.
    pub whole: Strip,
    /// The wedges with their words, no longer than they are.
    pub wedges: Strip,
    /// Behind them, longer than any text beside it.
    pub behind: Strip,
}

/// Longer than anything that stands beside a station, in pixels.
const FAR: f64 = 9000.0;

/// Draws it.
///
/// `former`: another year whose boundaries are dotted where they moved. `scale_px_kwh`: pixels for a
/// kilowatt-hour, so that it does not jump from one edit to the next; `None` for what suits the sun.
pub fn draw(
    facts: &Facts,
    width: Width,
    former: Option<&HeatSection>,
    scale_px_kwh: Option<f64>,
) -> Column {
    let is_bought = facts.panel == PanelMade::Bought;
    let (heads, head) = match width {
        Width::Page => ([190.0, 170.0, 190.0, 170.0, 150.0], 0.0),
        Width::Phone => ([FAR; 5], FAR),
    };
    let room = Room {
        heads,
        least: [head + FAR; 5],
        tail: FAR,
        scale: scale_px_kwh,
        sun_plate: match width {
            Width::Page => SunPlate::Stands,
            Width::Phone => SunPlate::LeftOut,
        },
    };
    let layout = Layout::in_room(facts.section, width, is_bought, &room);
    let mut drawing = Drawing {
        name: match width {
            Width::Page => "column",
            Width::Phone => "column-narrow",
        },
        title: format!("Heat section of the year: {}", facts.title),
        description: description(facts.section, facts.panel),
        width_mm: px(match width {
            Width::Page => 1000.0,
            Width::Phone => 320.0,
        }),
        height_mm: 0.0,
        hatch_scale: if width == Width::Page { 1.0 } else { 0.62 },
        shapes: Vec::new(),
        table: table(facts.section, facts.panel),
    };
    months(&mut drawing, &layout);
    strata_and_heat(&mut drawing, &layout);
    if let Some(former) = former {
        ghost(&mut drawing, &layout, &Layout::in_room(former, width, is_bought, &room));
    }
    let mut leaders = Vec::new();
    for stratum in layout.strata() {
        leaders.push(label(&mut drawing, &layout, stratum));
    }
    upright_plates(&mut drawing, &layout, &leaders);
    plates(&mut drawing, &layout, facts.section);
    let end = foot(&mut drawing, &layout, facts);
    drawing.height_mm = px(end);
    Column {
        stations: std::array::from_fn(|place| pieces(&layout, place)),
        foot: strip(layout.foot - 310.0, end),
        scale_px_kwh: layout.scale,
        drawing,
    }
}

/// The foot so small that it fits into a line of a list: the year's sun from its first loss at the left to
/// what is spared at the right, without words. All such drawings share one name, so that they share tiles
/// too.
pub fn small(facts: &Facts) -> Drawing {
    const WIDE: f64 = 240.0;
    let (left, right, top, foot) = (1.5, WIDE - 1.5, 1.5, 50.0);
    let title = format!("Where the year\u{2019}s sun went: {}", facts.title);
    let mut drawing = paper(SMALL, title, WIDE, table(facts.section, facts.panel));
    drawing.description = description(facts.section, facts.panel);
    drawing.hatch_scale = SMALL_HATCHES;
    drawing.height_mm = px(60.0);
    let (parts_j, spared_j) = facts.section.widths_j();
    let whole_j: f64 = parts_j.iter().sum::<f64>() + spared_j;
    drawing.line(Role::FootThick, &[at(0.0, foot + 3.0), at(WIDE, foot + 3.0)]);
    drawing.line(Role::FootThin, &[at(0.0, foot + 8.0), at(WIDE, foot + 8.0)]);
    if whole_j <= 0.0 {
        return drawing;
    }
    let scale = (right - left) / whole_j;
    let upright = |from: f64, to: f64| [at(from, top), at(to, top), at(to, foot), at(from, foot)];
    let mut x = left;
    let mut boundaries = Vec::new();
    for (stratum, part_j) in facts.section.strata.iter().zip(parts_j) {
        if part_j <= 0.0 {
            continue;
        }
        let end = x + part_j * scale;
        drawing.outline(Role::Stratum(hatch(stratum.loss)), &upright(x, end));
        boundaries.push(end);
        x = end;
    }
    drawing.outline(Role::Heat, &upright(x, right));
    boundaries.pop();
    for boundary in boundaries {
        drawing.line(Role::Boundary, &[at(boundary, top), at(boundary, foot)]);
    }
    drawing.line(Role::HeatEdge, &[at(x, top), at(x, foot)]);
    drawing.outline(Role::Column, &upright(left, right));
    drawing
}

/// The one name of the small ones.
pub const SMALL: &str = "small";

/// Size of their hatches.
pub const SMALL_HATCHES: f64 = 0.62;

fn strip(from: f64, to: f64) -> Strip {
    Strip { top_mm: px(from), height_mm: px(to - from) }
}

/// Room above the column for the months' letters.
const LETTERS: f64 = 44.0;

fn pieces(layout: &Layout, place: usize) -> Pieces {
    let station = &layout.stations[place];
    let top = if place == 0 { station.top - LETTERS } else { station.top };
    let next = layout.stations.get(place + 1).map_or(layout.foot - 310.0, |next| next.top);
    let first = station.strata.first().map_or(top, |stratum| stratum.top - 16.0);
    let last = station
        .strata
        .last()
        .map_or(first, |stratum| stratum.top + layout.wedge + if place == 4 { 20.0 } else { 82.0 });
    Pieces { whole: strip(top, next), wedges: strip(first, last), behind: strip(last, next) }
}

/// Boundaries that moved, as they were; those that lie close together are drawn as one.
fn ghost(drawing: &mut Drawing, now: &Layout, was: &Layout) {
    const MOVED: f64 = 0.75;
    const CLOSE: f64 = 3.0;
    let edges = |layout: &Layout| -> Vec<(f64, f64, f64)> {
        layout
            .strata()
            .map(|stratum| (stratum.top, stratum.left, stratum.left + stratum.width))
            .collect()
    };
    let present: Vec<f64> = edges(now).into_iter().map(|(_, _, right)| right).collect();
    let mut drawn: Vec<f64> = Vec::new();
    for (top, left, right) in edges(was) {
        let stands = present.iter().any(|at| (at - right).abs() < MOVED);
        if stands || drawn.iter().any(|at| (at - right).abs() < CLOSE) {
            continue;
        }
        drawn.push(right);
        let points = [at(left, top), at(right, top + was.wedge), at(right, was.foot)];
        drawing.line(Role::GhostGround, &points);
        drawing.line(Role::Ghost, &points);
    }
}
