//! The foot of the heat section: every stratum ends on a ruled line with its kilowatt-hours and name,
//! and what is spared, the loft's own and bought bracket the need.

use year::ledger::KWH_J;

use super::heat_section::{Facts, HeaterKind, swatch_edge};
use super::section_layout::{Layout, Stratum, Width};
use crate::drawing::{Anchor, Drawing};
use crate::hatch::Hatch;
use crate::measure::{broken, length_mm};
use crate::pen::{at, px};
use crate::role::Role;
use crate::words::{kwh, whole};

/// Height of the blocks beside the foot.
const BLOCK: f64 = 190.0;
/// From row to row.
const ROW: f64 = 31.0;

/// Draws it; returns how far down the picture reaches, in pixels.
pub(super) fn foot(drawing: &mut Drawing, layout: &Layout, facts: &Facts) -> f64 {
    let y = layout.foot;
    let blocks = Blocks::of(layout, facts);
    blocks.draw(drawing, layout);
    let (from, to) = match layout.width {
        Width::Page => (56.0, 1000.0),
        Width::Phone => (16.0, 304.0),
    };
    drawing.line(Role::FootThick, &[at(from, y), at(to, y)]);
    drawing.line(Role::FootThin, &[at(from, y + 5.0), at(to, y + 5.0)]);
    match layout.width {
        Width::Page => {
            let rows = page_rows(drawing, layout);
            let bracket = blocks.bracket(drawing, layout, facts);
            let right = explanation(drawing, layout, facts, bracket + 44.0);
            let sum = sum(drawing, facts, at(56.0, rows + 14.0).y_mm / px(1.0), 56.0, 216.0);
            right.max(sum) + 24.0
        }
        Width::Phone => {
            let rows = phone_rows(drawing, layout, facts);
            let need = need_words(facts);
            let lines = broken(&need, Role::Value, px(288.0));
            drawing.lines(Role::Value, Anchor::Start, at(16.0, rows + 30.0), 21.0, &lines);
            let below = rows + 30.0 + 21.0 * lines.len() as f64;
            sum(drawing, facts, below + 10.0, 16.0, 288.0) + 20.0
        }
    }
}

/// Rows to the left of the leaders, the leftmost stratum first, so that no leaders cross.
fn page_rows(drawing: &mut Drawing, layout: &Layout) -> f64 {
    let strata: Vec<&Stratum> = layout.strata().collect();
    let spread = spread(layout, &strata);
    let mut y = layout.foot + 40.0;
    for (stratum, x) in strata.iter().zip(&spread) {
        let middle = stratum.left + 0.5 * stratum.width;
        let name_end = 148.0 + length_mm(stratum.name, Role::Label) / px(1.0) + 6.0;
        drawing.line(
            Role::Leader,
            &[
                at(middle, layout.foot + 5.0),
                at(*x, layout.foot + 16.0),
                at(*x, y - 5.0),
                at(name_end.max(286.0).min(x - 2.0), y - 5.0),
            ],
        );
        drawing.circle(Role::Dot, at(middle, layout.foot + 5.0), 2.6);
        drawing.text(Role::Value, Anchor::End, at(96.0, y), whole(stratum.kwh));
        drawing.area(Role::Stratum(stratum.hatch), at(108.0, y - 14.0), at(136.0, y + 4.0));
        swatch_edge(drawing, at(108.0, y - 14.0), at(136.0, y + 4.0));
        drawing.text(Role::Label, Anchor::Start, at(148.0, y), stratum.name);
        y += ROW;
    }
    drawing.line(Role::Rule, &[at(56.0, y - 16.0), at(286.0, y - 16.0)]);
    y
}

/// Where the leaders drop: at each stratum's middle, pushed left until they stand 7 pixels apart, or
/// less where there are too many of them for the column.
fn spread(layout: &Layout, strata: &[&Stratum]) -> Vec<f64> {
    const APART: f64 = 7.0;
    let last = strata.last().map_or(0.0, |stratum| stratum.left + 0.5 * stratum.width);
    let apart = APART.min((last - layout.left + 4.0) / strata.len().max(1) as f64);
    let mut x: Vec<f64> = strata.iter().map(|stratum| stratum.left + 0.5 * stratum.width).collect();
    for place in (0..x.len().saturating_sub(1)).rev() {
        x[place] = x[place].min(x[place + 1] - apart);
    }
    x
}

/// On a phone leaders turn right, the heat first: the rightmost has the top row.
fn phone_rows(drawing: &mut Drawing, layout: &Layout, facts: &Facts) -> f64 {
    let strata: Vec<&Stratum> = layout.strata().collect();
    let spread = spread(layout, &strata);
    let mut y = layout.foot + 40.0;
    let heat = 0.5 * (layout.heat_left() + layout.right);
    row(drawing, Role::Heat, y, facts.section.spared_j / KWH_J, "spared to the heater");
    let last = spread.last().copied().unwrap_or(layout.left);
    let heat = heat.max(last + 5.0);
    drawing
        .line(Role::Leader, &[at(heat, layout.foot + 5.0), at(heat, y - 5.0), at(110.0, y - 5.0)]);
    drawing.circle(Role::Dot, at(heat, layout.foot + 5.0), 2.6);
    for (stratum, x) in strata.iter().zip(&spread).rev() {
        y += ROW;
        let middle = stratum.left + 0.5 * stratum.width;
        drawing.line(
            Role::Leader,
            &[
                at(middle, layout.foot + 5.0),
                at(*x, layout.foot + 16.0),
                at(*x, y - 5.0),
                at(110.0, y - 5.0),
            ],
        );
        drawing.circle(Role::Dot, at(middle, layout.foot + 5.0), 2.2);
        row(drawing, Role::Stratum(stratum.hatch), y, stratum.kwh, stratum.name);
    }
    y
}

fn row(drawing: &mut Drawing, role: Role, y: f64, kwh: f64, name: &str) {
    drawing.area(role, at(112.0, y - 14.0), at(140.0, y + 4.0));
    swatch_edge(drawing, at(112.0, y - 14.0), at(140.0, y + 4.0));
    drawing.text(Role::Value, Anchor::End, at(196.0, y), whole(kwh));
    drawing.text(Role::Label, Anchor::Start, at(206.0, y), name);
}

/// The last row: that all is accounted for.
fn sum(drawing: &mut Drawing, facts: &Facts, y: f64, left: f64, wide: f64) -> f64 {
    let (sun_kwh, spared_kwh) = (facts.section.sun_j / KWH_J, facts.section.spared_j / KWH_J);
    let text = format!(
        "{} lost on the way; with {} spared, {}: the whole year’s sun is accounted for.",
        kwh(sun_kwh.round() - spared_kwh.round()),
        whole(spared_kwh),
        whole(sun_kwh)
    );
    let lines = broken(&text, Role::Label, px(wide));
    drawing.lines(Role::Label, Anchor::Start, at(left, y + 10.0), 20.0, &lines);
    y + 10.0 + 20.0 * lines.len() as f64
}

/// What stands beside the heat's foot at the same scale.
struct Blocks {
    loft_kwh: f64,
    bought_kwh: f64,
    loft: (f64, f64),
    /// Ends of the bought block, and whether a length is left out of it.
    bought: (f64, f64),
    is_broken: bool,
}

impl Blocks {
    fn of(layout: &Layout, facts: &Facts) -> Blocks {
        let section = facts.section;
        let (loft_kwh, bought_kwh) = (section.loft_j / KWH_J, section.bought_j / KWH_J);
        let from = layout.right;
        let middle = from + loft_kwh.max(0.0) * layout.scale;
        let end = middle + bought_kwh.max(0.0) * layout.scale;
        let most = match layout.width {
            Width::Page => 984.0,
            Width::Phone => 300.0,
        };
        let is_broken = end > most;
        Blocks {
            loft_kwh,
            bought_kwh,
            loft: (from, middle.min(most)),
            bought: (middle.min(most), end.min(most)),
            is_broken,
        }
    }

    fn draw(&self, drawing: &mut Drawing, layout: &Layout) {
        let (top, foot) = (layout.foot - BLOCK, layout.foot);
        if self.bought.1 > self.bought.0 {
            let role = Role::Stratum(Hatch::Bought);
            drawing.area(role, at(self.bought.0, top), at(self.bought.1, foot));
            swatch_edge(drawing, at(self.bought.0, top), at(self.bought.1, foot));
        }
        if self.is_broken {
            self.break_lines(drawing, top, foot);
        }
        if self.loft_kwh >= 0.5 {
            let role = Role::Stratum(Hatch::Loft);
            drawing.area(role, at(self.loft.0, top), at(self.loft.1, foot));
            swatch_edge(drawing, at(self.loft.0, top), at(self.loft.1, foot));
        }
        self.labels(drawing, layout, top);
    }

    fn labels(&self, drawing: &mut Drawing, layout: &Layout, top: f64) {
        let (loft_words, bought_words) = match layout.width {
            Width::Page => {
                ("the loft’s own warmth, not counted as sun", "still bought: what the heater gives")
            }
            Width::Phone => ("the loft’s own warmth", "still bought"),
        };
        if self.loft_kwh >= 0.5 {
            let x = 0.5 * (self.loft.0 + self.loft.1);
            let start = x + 12.0;
            drawing
                .line(Role::Leader, &[at(x, top), at(x, top - 46.0), at(start - 2.0, top - 46.0)]);
            let words = format!("{} {loft_words}", whole(self.loft_kwh));
            drawing.text(Role::Quiet, Anchor::Start, at(start + 2.0, top - 41.0), words);
        }
        let number = whole(self.bought_kwh);
        let long = length_mm(&number, Role::LossNumber) / px(1.0);
        let x = self.bought.0.max(0.5 * (self.loft.0 + self.loft.1) + 8.0) + 6.0;
        drawing.text(Role::LossNumber, Anchor::Start, at(x, top - 10.0), number);
        drawing.text(Role::Quiet, Anchor::Start, at(x + long + 8.0, top - 10.0), bought_words);
    }

    /// A pair of lines with a zigzag: the true length stands in the words.
    fn break_lines(&self, drawing: &mut Drawing, top: f64, foot: f64) {
        let x = self.bought.1 - 40.0;
        let mid = 0.5 * (top + foot);
        let zigzag = |x: f64| {
            [
                at(x, top - 8.0),
                at(x, mid - 12.0),
                at(x + 7.0, mid - 4.0),
                at(x - 7.0, mid + 4.0),
                at(x, mid + 12.0),
                at(x, foot - 1.0),
            ]
        };
        let (one, other) = (zigzag(x), zigzag(x + 14.0));
        let between: Vec<_> = one.iter().chain(other.iter().rev()).copied().collect();
        drawing.outline(Role::Ground, &between);
        drawing.line(Role::InView, &one);
        drawing.line(Role::InView, &other);
    }

    /// The bracket under heat and blocks says the need; returns how far down it reaches.
    fn bracket(&self, drawing: &mut Drawing, layout: &Layout, facts: &Facts) -> f64 {
        let y = layout.foot + 34.0;
        let (from, to) = (layout.heat_left() + 12.0, self.bought.1.max(layout.right));
        let spared = format!("{} spared", whole(facts.section.spared_j / KWH_J));
        let long = length_mm(&spared, Role::Value) / px(1.0);
        drawing.text(Role::Value, Anchor::Start, at(from + 4.0, y), spared);
        let bought = format!("{} bought", whole(self.bought_kwh));
        let x = (self.bought.0 + 6.0).max(from + long + 26.0);
        drawing.text(Role::Value, Anchor::Start, at(x, y), bought);
        drawing.line(
            Role::InView,
            &[at(from, y + 10.0), at(from, y + 20.0), at(to, y + 20.0), at(to, y + 10.0)],
        );
        let wide = 1000.0 - from;
        let lines = broken(&need_words(facts), Role::PlateNumber, px(wide));
        drawing.lines(Role::PlateNumber, Anchor::Start, at(from, y + 46.0), 26.0, &lines);
        y + 46.0 + 26.0 * (lines.len() as f64 - 1.0)
    }
}

fn need_words(facts: &Facts) -> String {
    let what = match facts.heater {
        HeaterKind::Cylinder => {
            "all the heat in the hot water you draw, and what its cylinder loses"
        }
        HeaterKind::Instantaneous => "all the heat in the hot water you draw",
    };
    format!("{}: {what}", kwh(facts.section.need_j() / KWH_J))
}

/// How spared is counted.
fn explanation(drawing: &mut Drawing, layout: &Layout, facts: &Facts, y: f64) -> f64 {
    let section = facts.section;
    let text = format!(
        "Spared is what the heater would give in the same house without a panel, {}, less the {} still \
         bought. The loft {} the cold water in both houses by {}, so that is {}; the cistern’s losses \
         are counted against that house too.",
        whole((section.spared_j + section.bought_j) / KWH_J),
        whole(section.bought_j / KWH_J),
        if section.loft_j < 0.0 { "cools" } else { "warms" },
        whole(section.loft_j.abs() / KWH_J),
        if section.loft_j < 0.0 { "not held against the sun" } else { "not sold as sun" },
    );
    let left = layout.heat_left() + 12.0;
    let wide = (1000.0 - left).min(520.0);
    let lines = broken(&text, Role::Quiet, px(wide));
    drawing.lines(Role::Quiet, Anchor::Start, at(left, y), 22.0, &lines);
    y + 22.0 * lines.len() as f64
}
