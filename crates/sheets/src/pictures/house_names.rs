//! Names at the parts of the house; where there is no room, letters.

use super::cistern_labels::ring;
use super::cistern_words::volume;
use super::house::{AirVent, CheckValve, Facts, Height, Holding};
use super::house_plan::Plan;
use super::room::{Room, around};
use crate::drawing::{Anchor, Drawing, Point};
use crate::pen::{at, between, px};
use crate::role::Role;

/// Names at their things; where there is no room, a letter. Returns what the letters stand for.
pub(super) fn names(
    drawing: &mut Drawing,
    facts: &Facts,
    plan: &Plan,
    room: &mut Room,
) -> Vec<String> {
    let mut listed = Vec::new();
    for (words, point, near) in named(facts, plan) {
        if !room.name(drawing, Role::Label, &words, point, near) {
            letter(drawing, room, point, near, listed.len());
            listed.push(words);
        }
    }
    // Colour and breadth tell the pipes too: they are named where there is room.
    for (words, pipe) in [("flow", &plan.flow), ("return", &plan.back)] {
        let longest = pipe.windows(2).max_by(|one, other| span(one).total_cmp(&span(other)));
        if let Some(pair) = longest {
            room.name(drawing, Role::Label, words, middle(pair[0], pair[1]), 8.0);
        }
    }
    listed
}

/// A letter in a ring as near to a thing as there is room.
fn letter(drawing: &mut Drawing, room: &mut Room, thing: Point, near: f64, place: usize) {
    let (x, y) = (thing.x_mm / px(1.0), thing.y_mm / px(1.0));
    let ring_at = |(anchor, at): (Anchor, Point)| {
        let shift = match anchor {
            Anchor::Start => 9.5,
            Anchor::Middle => 0.0,
            Anchor::End => -9.5,
        };
        (at.x_mm / px(1.0) + shift, at.y_mm / px(1.0) - 5.0)
    };
    let area = |(x, y): (f64, f64)| between(at(x - 10.0, y - 10.0), at(x + 10.0, y + 10.0));
    let free =
        around(x, y, near).into_iter().map(ring_at).find(|&middle| room.is_free(&area(middle)));
    let middle = free.unwrap_or((x, y));
    room.take(area(middle));
    ring(drawing, middle.0, middle.1, place);
}

fn middle(from: Point, to: Point) -> Point {
    Point { x_mm: 0.5 * (from.x_mm + to.x_mm), y_mm: 0.5 * (from.y_mm + to.y_mm) }
}

pub(super) fn mark(facts: &Facts, height: Height) -> &'static str {
    if facts.assumed.contains(&height) { "*" } else { "" }
}

/// What is named: words, where, and how far the words stand off.
fn named(facts: &Facts, plan: &Plan) -> Vec<(String, Point, f64)> {
    let panels = if facts.panel.count > 1 {
        format!("{} panels", facts.panel.count)
    } else {
        "panel".to_owned()
    };
    let mut all = Vec::new();
    if let Some(&end) = plan.outlet.last() {
        all.push((facts.outlet_words.to_owned(), end, 2.0));
    }
    all.push((
        format!("{panels}{}", mark(facts, Height::PanelBottom)),
        middle(plan.panel[2], plan.panel[3]),
        9.0,
    ));
    let store = Point {
        x_mm: plan.jacket.corner.x_mm + 0.5 * plan.jacket.width_mm,
        y_mm: plan.jacket.corner.y_mm,
    };
    all.push(("cistern".to_owned(), store, 6.0));
    match facts.holding {
        Holding::Tank { .. } => {
            if let Some(tank) = plan.tank {
                let at = Point {
                    x_mm: tank.corner.x_mm + 0.5 * tank.width_mm,
                    y_mm: tank.corner.y_mm + 0.5 * tank.height_mm,
                };
                let off = 0.5 * tank.width_mm / px(1.0) + 5.0;
                all.push((format!("header tank{}", mark(facts, Height::Level)), at, off));
            }
        }
        Holding::Vessel { volume_m3 } => {
            if let Some(vessel) = plan.vessel {
                let words = format!("vessel {}", volume(volume_m3, facts.units));
                all.push((words, vessel, 15.0));
            }
        }
    }
    if let Some(pump) = plan.pump {
        all.push((format!("pump{}", mark(facts, Height::Pump)), pump, 12.0));
    }
    match facts.check_valve {
        CheckValve::None => {}
        CheckValve::Fitted => all.push(("check valve".to_owned(), plan.valve.0, 10.0)),
        CheckValve::Flap => all.push(("flap".to_owned(), plan.valve.0, 10.0)),
    }
    if facts.air_vent == AirVent::Fitted {
        let top = Point { x_mm: plan.highest.x_mm, y_mm: plan.highest.y_mm - px(11.0) };
        all.push((format!("air vent{}", mark(facts, Height::Highest)), top, 7.0));
    }
    all
}

fn span(pair: &[Point]) -> f64 {
    (pair[1].x_mm - pair[0].x_mm).hypot(pair[1].y_mm - pair[0].y_mm)
}
