//! Section of the box across its tubes, to scale, with what each layer goes through and stands.

use design::quantity::Units;

use super::Width;
use super::box_rows::{Anchors, rows};
use super::frame::{Names, caption, paper};
use crate::drawing::{Anchor, Drawing, Form, Point};
use crate::hatch::Material;
use crate::measure::length_mm;
use crate::pen::{at, px};
use crate::role::Role;
use crate::table::Table;
use crate::words::{decimal, degrees};

/// What the picture shows; lengths in metres, as a build has them.
#[derive(Clone, Debug)]
pub struct Facts<'a> {
    /// The build's title.
    pub title: &'a str,
    /// Covers from the sheet outwards.
    pub covers: Vec<Cover>,
    /// Width of the sheet.
    pub sheet_width_m: f64,
    /// Tubes across which the section runs.
    pub tubes: Option<Tubes>,
    /// Insulation behind the sheet, from the sheet outwards.
    pub back: Vec<Layer>,
    /// Insulation at the rim.
    pub edge: Layer,
    /// From the sheet's rim to that insulation.
    pub rim_gap_m: f64,
    /// Parts with what they go through, in any order.
    pub parts: Vec<Part>,
    /// What "in use" means, and what "idle" does.
    pub conditions: String,
    /// The reader's units.
    pub units: Units,
}

/// A cover and the gap beneath it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cover {
    /// Its thickness.
    pub thickness_m: f64,
    /// The air under it.
    pub gap_m: f64,
    /// What it is.
    pub material: Material,
}

/// A layer of insulation or board.
#[derive(Clone, Debug, PartialEq)]
pub struct Layer {
    /// Its thickness.
    pub thickness_m: f64,
    /// What it is.
    pub material: Material,
    /// Its name.
    pub name: String,
}

/// Tubes under the sheet.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tubes {
    /// Outside diameter.
    pub outside_m: f64,
    /// Middle to middle.
    pub spacing_m: f64,
    /// How many are cut.
    pub count: usize,
}

/// A part that has to stand the heat.
#[derive(Clone, Debug, PartialEq)]
pub struct Part {
    /// Its name.
    pub name: String,
    /// Its material.
    pub material: String,
    /// Where it sits.
    pub place: Place,
    /// In use \[C\]; `None` where that is not reckoned.
    pub in_use_c: Option<f64>,
    /// Left idle in the strongest sun \[C\].
    pub idle_c: f64,
    /// What it stands year after year \[C\].
    pub years_c: f64,
    /// What it stands for hours \[C\].
    pub hours_c: f64,
    /// How much that matters.
    pub worry: Worry,
}

/// Where a part sits in the section.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Place {
    /// Inner face of a cover, from the sheet outwards.
    CoverInside(usize),
    /// Outer face.
    CoverOutside(usize),
    /// On the sheet.
    Sheet,
    /// Inner face of a layer behind it.
    Back(usize),
    /// At the rim.
    Rim,
    /// Outside the section.
    Pipe,
}

/// The three kinds of worry.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Worry {
    /// Not to be built so.
    Stop,
    /// To be looked after.
    Mind,
    /// Looked at and small.
    Quiet,
}

impl Worry {
    pub(super) fn word(self) -> &'static str {
        match self {
            Worry::Stop => "Stop",
            Worry::Mind => "Mind",
            Worry::Quiet => "",
        }
    }
}

/// Draws it.
pub fn draw(facts: &Facts, width: Width) -> Drawing {
    let name = Names { page: "box-section", phone: "box-section-narrow" }.of(width);
    let (wide, left, right) = match width {
        Width::Page => (1056.0, 84.0, 590.0),
        Width::Phone => (374.0, 84.0, 366.0),
    };
    let title = format!("Section of the panel across its tubes: {}", facts.title);
    let mut drawing = paper(name, title, wide, table(facts));
    let (scale, one_to) = scale_of(facts, right - left);
    let words =
        format!("Section across the tubes, 1 to {one_to}; the sheet is drawn thicker than it is");
    let head = caption(&mut drawing, 16.0, &words);
    let plan = Plan { left, right, top: head + 30.0, scale };
    let levels = section(&mut drawing, facts, &plan);
    let anchors = Anchors {
        levels: &levels,
        right,
        inner_right: right - (facts.edge.thickness_m * scale).max(4.0),
    };
    let foot = rows(&mut drawing, facts, width, &anchors);
    drawing.description = describe(facts);
    drawing.height_mm = px(foot + 18.0);
    drawing
}

fn describe(facts: &Facts) -> String {
    let mut text = String::from("From the cover inwards.");
    for part in &facts.parts {
        text.push_str(&format!(
            " {}: idle {}, stands {} for years{}.",
            part.name,
            degrees(part.idle_c, facts.units),
            degrees(part.years_c, facts.units),
            match part.worry {
                Worry::Stop => ": a stop",
                Worry::Mind => ": mind it",
                Worry::Quiet => "",
            }
        ));
    }
    text
}

fn table(facts: &Facts) -> Table {
    let mut table = Table::new(
        format!("What the panel’s parts go through and stand ({})", facts.conditions),
        &["part", "material", "in use", "idle", "stands for hours", "stands for years", "worry"],
    );
    for part in &facts.parts {
        table.row([
            part.name.clone(),
            part.material.clone(),
            part.in_use_c.map_or("not reckoned".to_owned(), |c| degrees(c, facts.units)),
            degrees(part.idle_c, facts.units),
            degrees(part.hours_c, facts.units),
            degrees(part.years_c, facts.units),
            part.worry.word().to_owned(),
        ]);
    }
    table
}

/// Where the section lies on the paper, in pixels, and pixels for a metre.
struct Plan {
    left: f64,
    right: f64,
    top: f64,
    scale: f64,
}

/// Heights of the layers' faces, in pixels, and whether a cover is there.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Levels {
    /// Inner and outer face of each cover, from the sheet outwards.
    pub covers: Vec<(f64, f64)>,
    pub sheet: f64,
    /// Inner face of each layer behind the sheet.
    pub back: Vec<f64>,
    pub bottom: f64,
    pub top: f64,
}

/// Where the drawing is broken, as a share of its width.
const BREAK_AT: f64 = 0.66;

/// From the sheet's rim to its first tube.
fn first_m(facts: &Facts, tubes: &Tubes) -> f64 {
    0.5 * (facts.sheet_width_m - tubes.spacing_m * (tubes.count as f64 - 1.0)).max(0.0)
}

/// The largest plain scale at which the section fits.
fn scale_of(facts: &Facts, wide: f64) -> (f64, u32) {
    let deep_m: f64 = facts.covers.iter().map(|cover| cover.thickness_m + cover.gap_m).sum::<f64>()
        + facts.back.iter().map(|layer| layer.thickness_m).sum::<f64>();
    // Two tubes and their pitch have to fit in front of the break.
    let before_m = facts.edge.thickness_m
        + facts.rim_gap_m
        + facts.tubes.map_or(0.1, |tubes| tubes.spacing_m + first_m(facts, &tubes));
    let whole = 96.0 / 0.0254;
    for one_to in [1, 2, 3, 4, 5, 8, 10, 20] {
        let scale = whole / f64::from(one_to);
        if deep_m * scale <= 320.0 && before_m * scale + 34.0 <= BREAK_AT * wide {
            return (scale, one_to);
        }
    }
    (whole / 50.0, 50)
}

/// Draws the section and returns the heights of its faces.
fn section(drawing: &mut Drawing, facts: &Facts, plan: &Plan) -> Levels {
    let edge = (facts.edge.thickness_m * plan.scale).max(4.0);
    let (inner_left, inner_right) = (plan.left + edge, plan.right - edge);
    let mut levels = Levels { top: plan.top, ..Levels::default() };
    let mut y = plan.top;
    for cover in facts.covers.iter().rev() {
        let thick = (cover.thickness_m * plan.scale).max(3.0);
        layer(drawing, cover.material, at(plan.left, y), at(plan.right, y + thick));
        let gap = cover.gap_m * plan.scale;
        layer(drawing, Material::Air, at(inner_left, y + thick), at(inner_right, y + thick + gap));
        levels.covers.push((y + thick, y));
        measure(drawing, facts, plan, cover.gap_m, y + thick);
        y += thick + gap;
    }
    levels.covers.reverse();
    levels.sheet = y;
    let walls_top = levels.covers.last().map_or(y, |faces| faces.0);
    let mut below = y + 3.0;
    for one in &facts.back {
        let thick = (one.thickness_m * plan.scale).max(3.0);
        layer(drawing, one.material, at(inner_left, below), at(inner_right, below + thick));
        levels.back.push(below);
        measure(drawing, facts, plan, one.thickness_m, below);
        below += thick;
    }
    levels.bottom = below;
    for (from, to) in [(plan.left, inner_left), (inner_right, plan.right)] {
        layer(drawing, facts.edge.material, at(from, walls_top), at(to, below));
    }
    let gap = facts.rim_gap_m * plan.scale;
    let (sheet_left, sheet_right) = (inner_left + gap, inner_right - gap);
    tubes(drawing, facts, plan, &levels, sheet_left, sheet_right);
    drawing.area(
        Role::Material(Material::Metal),
        at(sheet_left, levels.sheet),
        at(sheet_right, levels.sheet + 3.0),
    );
    drawing.line(
        Role::Cut,
        &[
            at(plan.left, walls_top),
            at(plan.left, below),
            at(plan.right, below),
            at(plan.right, walls_top),
        ],
    );
    breaks(drawing, plan, &levels);
    names(drawing, facts, plan, &levels);
    levels
}

fn layer(drawing: &mut Drawing, material: Material, from: Point, to: Point) {
    drawing.area(Role::Material(material), from, to);
}

/// A thickness in the left margin, where the layer is deep enough to carry it.
fn measure(drawing: &mut Drawing, facts: &Facts, plan: &Plan, thick_m: f64, top: f64) {
    let high = thick_m * plan.scale;
    if high < 18.0 {
        return;
    }
    let (x, bottom) = (plan.left - 12.0, top + high);
    drawing.dimension(at(x, top), at(x, bottom));
    let middle = 0.5 * (top + bottom) + 5.5;
    drawing.text(Role::Label, Anchor::End, at(x - 8.0, middle), length(thick_m, facts.units));
}

/// A length as the reader has it: millimetres, or inches to a sixteenth.
pub(super) fn length(metres: f64, units: Units) -> String {
    match units {
        Units::Metric => format!("{}\u{a0}mm", decimal(metres * 1000.0, 0)),
        Units::Us => {
            let sixteenths = (metres / 0.0254 * 16.0).round() as i64;
            let (whole, mut rest, mut of) = (sixteenths / 16, sixteenths % 16, 16);
            while rest > 0 && rest % 2 == 0 {
                (rest, of) = (rest / 2, of / 2);
            }
            match (whole, rest) {
                (whole, 0) => format!("{whole}\u{a0}in"),
                (0, rest) => format!("{rest}/{of}\u{a0}in"),
                (whole, rest) => format!("{whole}\u{a0}{rest}/{of}\u{a0}in"),
            }
        }
    }
}

/// Tubes from both rims inwards as far as the break, and the pitch between the first two.
fn tubes(
    drawing: &mut Drawing,
    facts: &Facts,
    plan: &Plan,
    levels: &Levels,
    sheet_left: f64,
    sheet_right: f64,
) {
    let Some(tubes) = facts.tubes else { return };
    let pitch = tubes.spacing_m * plan.scale;
    let radius = 0.5 * tubes.outside_m * plan.scale;
    let first = first_m(facts, &tubes) * plan.scale;
    let y = levels.sheet + 3.0 + radius;
    let gap = break_at(plan);
    let mut shown = Vec::new();
    for place in 0..tubes.count {
        let x = sheet_left + first + pitch * place as f64;
        if x + radius < gap.0 - 14.0 {
            shown.push(x);
        }
    }
    let left_ones = shown.len();
    for place in 0..tubes.count.saturating_sub(left_ones) {
        let x = sheet_right - first - pitch * place as f64;
        if x - radius > gap.1 + 14.0 {
            shown.push(x);
        }
    }
    for &x in &shown {
        drawing.add(
            Role::Material(Material::Metal),
            Form::Circle { middle: at(x, y), radius_mm: px(radius.max(2.5)) },
        );
        drawing.circle(Role::Bore, at(x, y), (radius - 2.2).max(1.0));
    }
    if left_ones >= 2 && levels.sheet - levels.top > 34.0 {
        let up = levels.sheet - 16.0;
        drawing.dimension(at(shown[0], up), at(shown[1], up));
        let words = length(tubes.spacing_m, facts.units);
        on_plate(drawing, at(0.5 * (shown[0] + shown[1]), up + 5.5), &words);
    }
}

/// Words on a small ground, their middle at a place.
fn on_plate(drawing: &mut Drawing, middle: Point, words: &str) {
    let half_mm = 0.5 * length_mm(words, Role::Label) + px(4.0);
    let from = Point { x_mm: middle.x_mm - half_mm, y_mm: middle.y_mm - px(15.0) };
    let to = Point { x_mm: middle.x_mm + half_mm, y_mm: middle.y_mm + px(5.0) };
    drawing.area(Role::Ground, from, to);
    drawing.text(Role::Label, Anchor::Middle, middle, words);
}

/// Where the drawing leaves a length out.
fn break_at(plan: &Plan) -> (f64, f64) {
    let middle = plan.left + BREAK_AT * (plan.right - plan.left);
    (middle - 8.0, middle + 8.0)
}

/// A pair of break lines with a zigzag across the whole section.
fn breaks(drawing: &mut Drawing, plan: &Plan, levels: &Levels) {
    let gap = break_at(plan);
    let (top, bottom) = (levels.top - 8.0, levels.bottom + 8.0);
    let middle = 0.5 * (top + bottom);
    let zigzag = |x: f64| {
        [
            at(x, top),
            at(x, middle - 12.0),
            at(x + 6.0, middle - 4.0),
            at(x - 6.0, middle + 4.0),
            at(x, middle + 12.0),
            at(x, bottom),
        ]
    };
    let (one, other) = (zigzag(gap.0), zigzag(gap.1));
    let between: Vec<Point> = one.iter().chain(other.iter().rev()).copied().collect();
    drawing.outline(Role::Blank, &between);
    drawing.line(Role::InView, &one);
    drawing.line(Role::InView, &other);
}

/// Names of layers deep enough to carry them, on plates to the left of the break.
fn names(drawing: &mut Drawing, facts: &Facts, plan: &Plan, levels: &Levels) {
    let x = plan.left + 0.33 * (plan.right - plan.left);
    for (layer, &top) in facts.back.iter().zip(&levels.back) {
        let high = layer.thickness_m * plan.scale;
        let tube = facts.tubes.map_or(0.0, |tubes| tubes.outside_m * plan.scale);
        // The tubes take the upper part of the first layer.
        let top = if top == levels.back[0] { top + tube } else { top };
        let left_high = levels.back[0] + high - top;
        let free = if top == levels.back[0] + tube { left_high } else { high };
        if free >= 22.0 {
            on_plate(drawing, at(x, top + 0.5 * free + 5.5), &layer.name);
        }
    }
}
