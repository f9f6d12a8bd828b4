//! The rows of temperatures beside the section, or under it on a phone, joined to their layers.

use super::Width;
use super::box_section::{Facts, Levels, Part, Place, Worry};
use crate::drawing::{Anchor, Drawing};
use crate::measure::broken;
use crate::pen::{at, px};
use crate::role::Role;
use crate::warmth::level;
use crate::words::{degrees, set};

/// Where the section ends and its faces lie.
pub(super) struct Anchors<'a> {
    pub levels: &'a Levels,
    pub right: f64,
    /// Where the rim's insulation begins.
    pub inner_right: f64,
}

impl Anchors<'_> {
    /// How far a leader runs into the section.
    fn end(&self, place: Place) -> f64 {
        match place {
            Place::Rim => 0.5 * (self.right + self.inner_right),
            _ => self.inner_right - 12.0,
        }
    }

    /// Height of a part's face; `None` outside the section.
    fn height(&self, place: Place) -> Option<f64> {
        match place {
            Place::CoverInside(cover) => self.levels.covers.get(cover).map(|faces| faces.0),
            Place::CoverOutside(cover) => self.levels.covers.get(cover).map(|faces| faces.1),
            Place::Sheet => Some(self.levels.sheet + 1.5),
            Place::Back(layer) => self.levels.back.get(layer).copied(),
            Place::Rim => Some(0.5 * (self.levels.sheet + self.levels.bottom)),
            Place::Pipe => None,
        }
    }
}

/// Draws them; returns how far down they reach, in pixels.
pub(super) fn rows(drawing: &mut Drawing, facts: &Facts, width: Width, anchors: &Anchors) -> f64 {
    let mut parts: Vec<(&Part, Option<f64>)> =
        facts.parts.iter().map(|part| (part, anchors.height(part.place))).collect();
    // From above downwards, so that no leaders cross; what lies outside comes last.
    parts.sort_by(|one, other| one.1.unwrap_or(f64::MAX).total_cmp(&other.1.unwrap_or(f64::MAX)));
    let temperatures = facts.parts.iter().flat_map(|part| [Some(part.idle_c), part.in_use_c]);
    let ends =
        temperatures.flatten().fold((f64::MAX, f64::MIN), |ends, c| (ends.0.min(c), ends.1.max(c)));
    let columns = match width {
        Width::Page => {
            Columns { name: 636.0, end: 1040.0, step: 28.0, first: anchors.levels.top + 6.0 }
        }
        Width::Phone => {
            Columns { name: 44.0, end: 358.0, step: 46.0, first: anchors.levels.bottom + 86.0 }
        }
    };
    heads(drawing, width, &columns);
    let mut y = columns.first;
    let mut letters = Letters::default();
    for (part, height) in &parts {
        match (width, height) {
            (Width::Page, Some(height)) => {
                let end = anchors.end(part.place);
                drawing.leader(&[
                    at(columns.name - 8.0, y - 5.0),
                    at(columns.name - 26.0, y - 5.0),
                    at(anchors.right + 12.0, *height),
                    at(end, *height),
                ]);
            }
            (Width::Phone, Some(height)) => letters.mark(drawing, anchors, *height, y),
            (_, None) => {}
        }
        row(drawing, facts, width, &columns, part, y, ends);
        y += columns.step;
    }
    let lines = broken(&set(&facts.conditions), Role::Quiet, px(columns.end - 16.0));
    let start = y.max(anchors.levels.bottom + 40.0) + 6.0;
    drawing.lines(Role::Quiet, Anchor::Start, at(16.0, start), 20.0, &lines);
    start + 20.0 * (lines.len() as f64 - 1.0)
}

struct Columns {
    name: f64,
    end: f64,
    step: f64,
    first: f64,
}

impl Columns {
    /// Ends of the three columns of figures.
    fn figures(&self, width: Width) -> [f64; 3] {
        match width {
            Width::Page => [self.end - 176.0, self.end - 110.0, self.end - 50.0],
            Width::Phone => [self.end - 192.0, self.end - 124.0, self.end - 52.0],
        }
    }
}

fn heads(drawing: &mut Drawing, width: Width, columns: &Columns) {
    let y = columns.first - 30.0;
    for (x, words) in columns.figures(width).into_iter().zip(["in use", "idle", "stands"]) {
        drawing.text(Role::Quiet, Anchor::End, at(x, y), words);
        if words == "in use" {
            // While a day plays the column tells of its minute.
            drawing.named("panel.moment");
        }
    }
    drawing.line(Role::Rule, &[at(columns.name, y + 7.0), at(columns.end, y + 7.0)]);
}

fn row(
    drawing: &mut Drawing,
    facts: &Facts,
    width: Width,
    columns: &Columns,
    part: &Part,
    y: f64,
    ends: (f64, f64),
) {
    // On a phone the name stands over its figures.
    let figures = if width == Width::Page { y } else { y + 20.0 };
    drawing.text(Role::Label, Anchor::Start, at(columns.name, y), part.name.clone());
    let [in_use, idle, stands] = columns.figures(width);
    let live = live_name(part.place);
    let chip = |drawing: &mut Drawing, x: f64, c: f64| {
        let warmth = Role::Warmth(level(c, ends.0, ends.1) & !7);
        drawing.area(warmth, at(x - 58.0, figures - 12.0), at(x - 46.0, figures));
    };
    if let Some(c) = part.in_use_c {
        chip(drawing, in_use, c);
        drawing.named(live.clone());
        drawing.text(Role::Label, Anchor::End, at(in_use, figures), degrees(c, facts.units));
        drawing.named(format!("{live}.c"));
    }
    chip(drawing, idle, part.idle_c);
    let loud = if part.worry == Worry::Stop { Role::StopWords } else { Role::Value };
    drawing.text(loud, Anchor::End, at(idle, figures), degrees(part.idle_c, facts.units));
    drawing.text(Role::Label, Anchor::End, at(stands, figures), degrees(part.years_c, facts.units));
    let word = part.worry.word();
    if !word.is_empty() {
        let role = if part.worry == Worry::Stop { Role::StopWords } else { Role::Value };
        drawing.text(role, Anchor::End, at(columns.end, figures), word);
    }
}

/// Under what name the page finds a part's temperature while a day plays; parts at one place share it.
fn live_name(place: Place) -> String {
    match place {
        Place::CoverInside(cover) => format!("panel.cover.{cover}.inside"),
        Place::CoverOutside(cover) => format!("panel.cover.{cover}.outside"),
        Place::Sheet => "panel.sheet".to_owned(),
        Place::Back(layer) => format!("panel.back.{layer}"),
        Place::Rim => "panel.rim".to_owned(),
        Place::Pipe => "panel.pipe".to_owned(),
    }
}

/// Letters in rings, where there is no room for leaders: one for each height.
#[derive(Default)]
struct Letters {
    /// Height of the face, and of its ring.
    met: Vec<(f64, f64)>,
}

impl Letters {
    fn mark(&mut self, drawing: &mut Drawing, anchors: &Anchors, height: f64, y: f64) {
        const RING: f64 = 9.5;
        let known = self.met.iter().position(|(met, _)| (met - height).abs() < 0.5);
        let place = known.unwrap_or_else(|| {
            let free =
                self.met.last().map_or(height, |(_, ring)| height.max(ring + 2.0 * RING + 2.0));
            self.met.push((height, free));
            let x = anchors.right - 24.0;
            drawing.line(Role::Leader, &[at(x, free), at(x - 26.0, height)]);
            drawing.circle(Role::Dot, at(x - 26.0, height), 2.4);
            ring(drawing, x, free, self.met.len() - 1);
            self.met.len() - 1
        });
        ring(drawing, 27.0, y - 5.0, place);
    }
}

fn ring(drawing: &mut Drawing, x: f64, y: f64, place: usize) {
    drawing.circle(Role::Ring, at(x, y), 9.5);
    let letter = char::from(b'a' + (place % 26) as u8).to_string();
    drawing.text(Role::Label, Anchor::Middle, at(x, y + 5.0), letter);
}
