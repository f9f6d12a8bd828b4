//! Where things stand in the house, before anything is designed: panel, store, header tank, cylinder and
//! the highest hot tap over one level. Heights are to scale, sideways there is only order.

use design::quantity::{Kind, Units, show};

use super::frame::{below, caption, paper};
use crate::drawing::{Anchor, Drawing, Point};
use crate::measure::broken;
use crate::pen::{at, px};
use crate::role::Role;
use crate::table::Table;

/// What the picture shows; heights over one level that the builder chose.
#[derive(Clone, Debug)]
pub struct Facts {
    /// The panel's lower edge.
    pub panel_bottom: Height,
    /// Its upper edge.
    pub panel_top: Height,
    /// The store's base.
    pub store_base: Height,
    /// Depth of the store's water \[m\].
    pub store_depth_m: f64,
    /// What the store is, in words.
    pub store_words: String,
    /// A cistern beside it that stays cold.
    pub cold: ColdCistern,
    /// Water in the circuit's header tank.
    pub header: Height,
    /// The highest hot tap.
    pub tap: Height,
    /// Whether a pump moves the fluid.
    pub mover: super::Mover,
    /// The reader's units.
    pub units: Units,
}

/// A height.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Height {
    /// Over the builder's own level \[m\].
    pub over_m: f64,
    /// Whether anyone gave it.
    pub given: Given,
}

/// Whether anyone gave a height.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Given {
    /// The builder did.
    Answered,
    /// Nobody did.
    Assumed,
    /// The builder did, and it stands elsewhere here.
    Moved,
}

/// A cistern that stays cold.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ColdCistern {
    /// It stands beside the store.
    Beside,
    /// There is none beside the store.
    None,
}

const WIDE: f64 = 440.0;
/// Height of the drawing proper, in pixels.
const HIGH: f64 = 320.0;
/// Where the words begin.
const WORDS: f64 = 262.0;
/// A cylinder of the common size \[m\].
const CYLINDER_M: f64 = 0.9;

struct Scale {
    foot: f64,
    lowest_m: f64,
    px_m: f64,
}

impl Scale {
    fn y(&self, over_m: f64) -> f64 {
        self.foot - (over_m - self.lowest_m) * self.px_m
    }
}

/// Draws it.
pub fn draw(facts: &Facts) -> Drawing {
    let mut drawing = paper("loft", "Where everything stands".to_owned(), WIDE, table(facts));
    drawing.description = describe(facts);
    let unit = if facts.units == Units::Us { "feet" } else { "metres" };
    let words =
        format!("Heights in {unit} over your own level, to scale; sideways only the order counts");
    let head = caption(&mut drawing, 10.0, &words);
    let scale = scale(facts, head + 26.0);
    ground(&mut drawing, &scale);
    let pipes = things(&mut drawing, facts, &scale);
    names(&mut drawing, facts, &scale, &pipes);
    let mut foot = scale.foot + 40.0;
    for line in notes(facts) {
        foot = below(&mut drawing, 10.0, foot, &line) + 24.0;
    }
    drawing.height_mm = px(foot);
    drawing
}

fn scale(facts: &Facts, top: f64) -> Scale {
    let store_top_m = facts.store_base.over_m + facts.store_depth_m + 0.1;
    let all = [
        0.0,
        facts.panel_bottom.over_m,
        facts.panel_top.over_m,
        facts.store_base.over_m,
        store_top_m,
        facts.header.over_m + 0.1,
        facts.tap.over_m,
    ];
    let lowest_m = all.iter().copied().fold(f64::MAX, f64::min);
    let most_m = all.iter().copied().fold(f64::MIN, f64::max);
    Scale { foot: top + HIGH, lowest_m, px_m: HIGH / (most_m - lowest_m).max(0.5) }
}

/// The builder's level.
fn ground(drawing: &mut Drawing, scale: &Scale) {
    let y = scale.y(0.0);
    drawing.line(Role::Cut, &[at(8.0, y), at(WORDS - 14.0, y)]);
}

/// Where leaders begin.
struct Ends {
    panel_bottom: Point,
    panel_top: Point,
    store: Point,
    cold: Point,
    header: Point,
    cylinder: Point,
    tap: Point,
}

fn open_box(drawing: &mut Drawing, role: Role, (left, right): (f64, f64), (top, foot): (f64, f64)) {
    drawing.line(role, &[at(left, top), at(left, foot), at(right, foot), at(right, top)]);
}

fn things(drawing: &mut Drawing, facts: &Facts, scale: &Scale) -> Ends {
    let y = |over_m: f64| scale.y(over_m);
    let (bottom, top) = (y(facts.panel_bottom.over_m), y(facts.panel_top.over_m));
    let base = y(facts.store_base.over_m);
    let depth = (facts.store_depth_m * scale.px_m).max(14.0);
    let (store_left, store_right) = (112.0, 154.0);
    let (flow_y, back_y) = (base - 0.6 * depth, base - 0.2 * depth);
    // The store: its floor, its water, its walls.
    drawing.line(
        Role::InView,
        &[at(store_left - 12.0, base + 4.0), at(store_right + 12.0, base + 4.0)],
    );
    drawing.area(Role::Water, at(store_left, base - depth), at(store_right, base));
    open_box(drawing, Role::Cut, (store_left, store_right), (base - depth - 6.0, base));
    if facts.cold == ColdCistern::Beside {
        drawing.area(
            Role::Ground,
            at(store_right + 8.0, base - depth),
            at(store_right + 34.0, base),
        );
        open_box(
            drawing,
            Role::InView,
            (store_right + 8.0, store_right + 34.0),
            (base - depth - 6.0, base),
        );
    }
    // The circuit.
    let highest = top.min(flow_y);
    drawing.line(
        Role::FlowPipe,
        &[
            at(64.0, top),
            at(64.0, highest),
            at(92.0, highest),
            at(92.0, flow_y),
            at(store_left + 8.0, flow_y),
        ],
    );
    drawing.line(
        Role::ReturnPipe,
        &[
            at(store_left + 8.0, back_y),
            at(80.0, back_y),
            at(80.0, bottom + 8.0),
            at(26.0, bottom + 8.0),
            at(26.0, bottom),
        ],
    );
    drawing.line(
        Role::Vent,
        &[
            at(store_left + 8.0, flow_y),
            at(store_right - 8.0, 0.5 * (flow_y + back_y)),
            at(store_left + 8.0, back_y),
        ],
    );
    drawing.outline(
        Role::Material(crate::hatch::Material::Metal),
        &[at(22.0, bottom), at(64.0, top), at(58.0, top - 5.0), at(16.0, bottom - 5.0)],
    );
    if facts.mover == super::Mover::Pump {
        drawing.circle(Role::Ring, at(80.0, back_y), 6.0);
    }
    // Its header tank.
    let level = y(facts.header.over_m);
    drawing.line(Role::FeedPipe, &[at(102.0, level + 10.0), at(102.0, back_y), at(80.0, back_y)]);
    drawing.area(Role::Water, at(92.0, level), at(114.0, level + 10.0));
    open_box(drawing, Role::InView, (92.0, 114.0), (level - 6.0, level + 10.0));
    // Cylinder and tap.
    let tap = y(facts.tap.over_m);
    let foot_m = cylinder_foot_m(facts);
    let (foot, shoulder) = (y(foot_m), y(foot_m + CYLINDER_M));
    drawing.area(Role::Ground, at(188.0, shoulder), at(208.0, foot));
    drawing.line(
        Role::Vent,
        &[
            at(store_right, base - 4.0),
            at(180.0, base - 4.0),
            at(180.0, foot - 4.0),
            at(188.0, foot - 4.0),
        ],
    );
    drawing.outline(
        Role::Cut,
        &[at(188.0, shoulder), at(208.0, shoulder), at(208.0, foot), at(188.0, foot)],
    );
    drawing.line(
        Role::FlowPipe,
        &[
            at(198.0, shoulder),
            at(198.0, shoulder - 10.0),
            at(226.0, shoulder - 10.0),
            at(226.0, tap),
            at(236.0, tap),
            at(236.0, tap + 6.0),
        ],
    );
    Ends {
        panel_bottom: at(24.0, bottom),
        panel_top: at(64.0, top),
        store: at(store_right, base),
        cold: at(store_right + 34.0, base - 0.5 * depth),
        header: at(114.0, level),
        cylinder: at(208.0, 0.5 * (foot + shoulder)),
        tap: at(238.0, tap),
    }
}

/// A cylinder's foot: under the store by more than its own height where there is room, on the level or
/// over it else \[m\].
fn cylinder_foot_m(facts: &Facts) -> f64 {
    let under_m = facts.store_base.over_m - CYLINDER_M - 0.4;
    (facts.tap.over_m - 0.5 * CYLINDER_M).max(0.0).min(under_m)
}

/// Words at the right, each with a leader to its thing, in the order of the heights so that none cross.
fn names(drawing: &mut Drawing, facts: &Facts, scale: &Scale, ends: &Ends) {
    let mut all = vec![
        (ends.header, with_height("header tank", facts.header, facts.units)),
        (ends.panel_top, with_height("panel, top", facts.panel_top, facts.units)),
        (ends.panel_bottom, with_height("panel, foot", facts.panel_bottom, facts.units)),
        (ends.store, with_height(&facts.store_words, facts.store_base, facts.units)),
        (ends.cylinder, "cylinder".to_owned()),
        (ends.tap, with_height("hot tap", facts.tap, facts.units)),
        (at(WORDS - 14.0, scale.y(0.0)), "your level".to_owned()),
    ];
    if facts.cold == ColdCistern::Beside {
        all.push((ends.cold, "cold cistern, as it is".to_owned()));
    }
    all.sort_by(|one, other| one.0.y_mm.total_cmp(&other.0.y_mm));
    let wide_mm = px(WIDE - 4.0 - WORDS);
    let blocks: Vec<Vec<String>> =
        all.iter().map(|(_, words)| broken(words, Role::Label, wide_mm)).collect();
    let mut places: Vec<f64> = all.iter().map(|(end, _)| end.y_mm / px(1.0)).collect();
    spread(&mut places, &blocks, (scale.foot - HIGH - 6.0, scale.foot + 16.0));
    for ((end, _), (block, place)) in all.iter().zip(blocks.iter().zip(places)) {
        let elbow = Point { x_mm: px(WORDS - 12.0), y_mm: end.y_mm };
        drawing.line(Role::Leader, &[*end, elbow, at(WORDS - 3.0, place)]);
        drawing.lines(Role::Label, Anchor::Start, at(WORDS, place + 5.0), STEP, block);
    }
}

/// From line to line, in pixels.
const STEP: f64 = 19.0;

/// Moves blocks of words apart, downwards first, then up again where they would leave the paper.
fn spread(places: &mut [f64], blocks: &[Vec<String>], (top, foot): (f64, f64)) {
    let high = |block: &Vec<String>| STEP * block.len() as f64 + 3.0;
    let mut next = top;
    for (place, block) in places.iter_mut().zip(blocks) {
        *place = place.max(next);
        next = *place + high(block);
    }
    let mut last = foot;
    for (place, block) in places.iter_mut().zip(blocks).rev() {
        *place = place.min(last - high(block) + STEP);
        last = *place - STEP;
    }
}

fn with_height(what: &str, height: Height, units: Units) -> String {
    let mark = match height.given {
        Given::Answered => "",
        Given::Assumed => "*",
        Given::Moved => "\u{2020}",
    };
    format!("{what} {}{mark}", over(height, units))
}

fn over(height: Height, units: Units) -> String {
    let text = match units {
        Units::Metric => format!("{:.2} m", height.over_m),
        Units::Us => format!("{:.1} ft", height.over_m / 0.3048),
    };
    text.replace('-', "\u{2212}").replace(' ', "\u{a0}")
}

fn all_heights(facts: &Facts) -> [(&'static str, Height); 5] {
    [
        ("panel, upper edge", facts.panel_top),
        ("panel, lower edge", facts.panel_bottom),
        ("store\u{2019}s base", facts.store_base),
        ("header tank, water", facts.header),
        ("highest hot tap", facts.tap),
    ]
}

fn notes(facts: &Facts) -> Vec<String> {
    let has = |given| all_heights(facts).iter().any(|(_, height)| height.given == given);
    let mut notes = Vec::new();
    if has(Given::Assumed) {
        notes.push("* not answered: assumed".to_owned());
    }
    if has(Given::Moved) {
        notes.push("\u{2020} not where you answered: see what stands against it".to_owned());
    }
    notes
}

fn describe(facts: &Facts) -> String {
    let mut text =
        String::from("Panel, store, header tank, cylinder and hot tap at their heights.");
    for (what, height) in all_heights(facts) {
        text.push_str(&format!(" {what} {}.", over(height, facts.units)));
    }
    let depth = show(Kind::Length, facts.store_depth_m, facts.units);
    text.push_str(&format!(" The store\u{2019}s water is {depth} deep."));
    text
}

fn table(facts: &Facts) -> Table {
    let mut table = Table::new("Heights over your own level", &["what", "height", ""]);
    for (what, height) in all_heights(facts) {
        let note = match height.given {
            Given::Answered => "",
            Given::Assumed => "assumed",
            Given::Moved => "moved",
        };
        table.row([what.to_owned(), over(height, facts.units), note.to_owned()]);
    }
    table
}
