//! What stands beside the section of the store, and the figures in its water.

use super::Width;
use super::box_section::{Layer, length};
use super::cistern::{BEARER_M, Facts, LidFit, Plan, VALVE_M, WARNING_M};
use super::cistern_parts::last_cut;
use super::cistern_words::{coil_words, tenth};
use super::room::apart;
use crate::drawing::{Anchor, Area, Drawing, Point};
use crate::measure::{broken, length_mm};
use crate::pen::{at, px};
use crate::role::Role;
use crate::words::degrees;

/// One thing named beside the section.
struct Named {
    /// Where its leader ends.
    from: Point,
    /// Whether a pipe runs out of the wall there.
    is: Kind,
    words: String,
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Kind {
    Pipe,
    Part,
}

/// Draws what is named: beside the section on a page, under letters on a phone. Returns how far down
/// it reaches, in pixels.
pub(super) fn labels(drawing: &mut Drawing, facts: &Facts, plan: &Plan, width: Width) -> f64 {
    let mut named = named(facts, plan);
    named.sort_by(|one, other| one.from.y_mm.total_cmp(&other.from.y_mm));
    let end = plan.deck_right.max(plan.outer_right) + 12.0;
    for one in named.iter().filter(|one| one.is == Kind::Pipe) {
        let y = one.from.y_mm / px(1.0);
        drawing.line(Role::Pipe, &[at(plan.right, y), at(plan.outer_right + 10.0, y)]);
    }
    let leader_from = |one: &Named| match one.is {
        Kind::Pipe => Point { x_mm: px(plan.outer_right + 10.0), y_mm: one.from.y_mm },
        Kind::Part => one.from,
    };
    match width {
        Width::Page => {
            let x = end + 26.0;
            let room_mm = drawing.width_mm - px(x + 4.0);
            let lines: Vec<Vec<String>> =
                named.iter().map(|one| broken(&one.words, Role::Label, room_mm)).collect();
            let wanted: Vec<f64> = named.iter().map(|one| one.from.y_mm / px(1.0)).collect();
            let needs: Vec<f64> =
                lines.iter().map(|lines| 20.0 * lines.len() as f64 + 3.0).collect();
            let lowest = plan.deck_bottom + 60.0;
            let heights = apart(&wanted, &needs, [plan.lid_top.min(plan.rim) + 4.0, lowest]);
            for ((one, lines), y) in named.iter().zip(&lines).zip(&heights) {
                let from = leader_from(one);
                let points = [at(x - 6.0, *y), Point { x_mm: px(end), y_mm: from.y_mm }, from];
                if one.is == Kind::Part {
                    drawing.leader(&points);
                } else {
                    drawing.line(Role::Leader, &points);
                }
                drawing.lines(Role::Label, Anchor::Start, at(x, y + 5.5), 20.0, lines);
            }
            heights.last().zip(needs.last()).map_or(0.0, |(y, need)| y + need + 16.0)
        }
        Width::Phone => {
            let x = drawing.width_mm / px(1.0) - 14.0;
            let wanted: Vec<f64> = named.iter().map(|one| one.from.y_mm / px(1.0)).collect();
            let heights = apart(
                &wanted,
                &vec![22.0; named.len()],
                [plan.lid_top + 4.0, plan.deck_bottom + 60.0],
            );
            for (place, (one, y)) in named.iter().zip(&heights).enumerate() {
                let from = leader_from(one);
                let bend = Point {
                    x_mm: px(plan.deck_right.max(plan.outer_right) + 3.0),
                    y_mm: from.y_mm,
                };
                let points = [at(x - 9.5, *y), bend, from];
                if one.is == Kind::Part {
                    drawing.leader(&points);
                } else {
                    drawing.line(Role::Leader, &points);
                }
                ring(drawing, x, *y, place);
            }
            let mut y = heights.last().map_or(0.0, |y| y + 40.0);
            let under = plan.deck_bottom + BEARER_M[1] * plan.scale;
            y = y.max(under + 66.0);
            let room_mm = drawing.width_mm - px(56.0);
            for (place, one) in named.iter().enumerate() {
                ring(drawing, 22.0, y - 5.0, place);
                let lines = broken(&one.words, Role::Label, room_mm);
                drawing.lines(Role::Label, Anchor::Start, at(42.0, y), 20.0, &lines);
                y += 20.0 * lines.len() as f64 + 4.0;
            }
            y + 8.0
        }
    }
}

/// A letter in a ring.
pub(super) fn ring(drawing: &mut Drawing, x: f64, y: f64, place: usize) {
    drawing.circle(Role::Ring, at(x, y), 9.5);
    let letter = char::from(b'a' + (place % 26) as u8).to_string();
    drawing.text(Role::Label, Anchor::Middle, at(x, y + 5.0), letter);
}

/// Everything that has a name, and where it is.
fn named(facts: &Facts, plan: &Plan) -> Vec<Named> {
    let pipe = |height_m: f64, words: String| Named {
        from: at(plan.right, plan.y(height_m)),
        is: Kind::Pipe,
        words,
    };
    let part = |x: f64, y: f64, words: String| Named { from: at(x, y), is: Kind::Part, words };
    let depth_m = facts.water.depth_m;
    let cold = match facts.cold_c {
        Some(c) => format!("cold water in, {}", degrees(c, facts.units)),
        None => "cold water in".to_owned(),
    };
    let mut all =
        vec![pipe(depth_m + VALVE_M, cold), pipe(depth_m + WARNING_M, "warning pipe".to_owned())];
    if let Some(c) = facts.discharge_c {
        let words = format!("overheat discharge, opens at {}", degrees(c, facts.units));
        all.push(pipe((depth_m - 0.04).max(0.8 * depth_m), words));
    }
    let deck_middle = 0.5 * (plan.deck + plan.deck_bottom);
    all.push(part(plan.deck_right - 6.0, deck_middle, "platform".to_owned()));
    let lid = 0.5 * (plan.lid_top + plan.rim);
    let side = plan.outer_right - 10.0;
    match facts.lid_fit {
        LidFit::Open => all.push(part(plan.right - 4.0, plan.rim, "no lid".to_owned())),
        fit => {
            let gap = if fit == LidFit::Gap { ", with a gap" } else { "" };
            let words = format!("lid: {}{gap}", listed(facts.lid, facts));
            all.push(part(side.max(plan.right - 10.0), lid, words));
        }
    }
    if !facts.wall.is_empty() {
        let y = plan.y(0.62 * depth_m);
        let words = format!("jacket: {}", listed(facts.wall, facts));
        all.push(part(0.5 * (plan.right + plan.outer_right), y, words));
    }
    if let Some(at) = last_cut(facts, plan) {
        all.push(Named { from: at, is: Kind::Part, words: format!("coil: {}", coil_words(facts)) });
    }
    // Pipes at one height are one hole with one name.
    let mut holes: Vec<(f64, Vec<&str>)> = Vec::new();
    for outlet in facts.outlets {
        match holes.iter_mut().find(|hole| (hole.0 - outlet.height_m).abs() < 0.01) {
            Some(hole) => hole.1.push(&outlet.name),
            None => holes.push((outlet.height_m, vec![&outlet.name])),
        }
    }
    all.extend(holes.into_iter().map(|(height_m, names)| pipe(height_m, names.join(", "))));
    all
}

/// Layers in words.
fn listed(layers: &[Layer], facts: &Facts) -> String {
    if layers.is_empty() {
        return "bare".to_owned();
    }
    let each: Vec<String> = layers
        .iter()
        .map(|layer| format!("{} {}", layer.name, length(layer.thickness_m, facts.units)))
        .collect();
    each.join(" and ")
}

/// Temperatures of the layers on plates in the water, or beside it where the store is slender.
pub(super) fn layer_figures(drawing: &mut Drawing, facts: &Facts, plan: &Plan) {
    const APART: f64 = 25.0;
    let count = facts.layers_c.len();
    let high = facts.water.depth_m / count.max(1) as f64 * plan.scale;
    let every = (APART / high).ceil().max(1.0) as usize;
    // From above, so that the top always has its figure; the bottom's goes before its neighbour's.
    let mut shown: Vec<usize> = (0..count).rev().step_by(every).collect();
    if count > 1 && shown.last() != Some(&0) {
        if shown.len() > 1 && shown.last().is_some_and(|&last| last < every) {
            shown.pop();
        }
        shown.push(0);
    }
    // The page may set figures with the letter of their scale.
    let figure = |&layer: &usize| {
        let words = format!("{}C", tenth(facts.layers_c[layer], facts.units));
        length_mm(&words, Role::Value) / px(1.0)
    };
    let wide = shown.iter().map(figure).fold(0.0, f64::max) + 8.0;
    let inner = plan.right - plan.left;
    let coil = facts.coil.turn_m.map_or(0.0, |turn_m| (turn_m * plan.scale).min(inner));
    let middle = if plan.is_slender() {
        plan.outer_left - 8.0 - 0.5 * wide
    } else if coil > wide + 24.0 || facts.coil.turn_m.is_none() && inner > 4.0 * wide {
        0.5 * (plan.left + plan.right)
    } else {
        plan.left + 0.5 * wide + 5.0
    };
    for layer in shown {
        let y = plan.y(facts.water.depth_m * (layer as f64 + 0.5) / count as f64);
        let corner = at(middle - 0.5 * wide, y - 11.0);
        let area = Area { corner, width_mm: px(wide), height_mm: px(22.0) };
        drawing.add(Role::Plate, crate::drawing::Form::Area(area));
        let words = tenth(facts.layers_c[layer], facts.units);
        drawing.text(Role::Value, Anchor::Middle, at(middle, y + 5.5), words);
        drawing.named(format!("store.layer.{layer}.c"));
    }
}
