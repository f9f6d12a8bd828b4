//! The store's parts as they are cut: water, coil, jacket, platform, ball valve.

use super::Width;
use super::box_section::length;
use super::cistern::{BEARER_M, Facts, LidFit, OVERHANG_M, Plan, VALVE_M, deck_layers};
use crate::drawing::{Anchor, Drawing, Point};
use crate::hatch::Material;
use crate::pen::at;
use crate::role::Role;
use crate::warmth::level;

/// Layers of water, each of the colour of its temperature, and the water's level.
pub(super) fn water(drawing: &mut Drawing, facts: &Facts, plan: &Plan) {
    drawing.area(
        Role::Material(Material::Air),
        at(plan.left, plan.rim),
        at(plan.right, plan.y(facts.water.depth_m)),
    );
    let count = facts.layers_c.len().max(1) as f64;
    for (layer, &c) in facts.layers_c.iter().enumerate() {
        let height = |place: f64| plan.y(facts.water.depth_m * place / count);
        let (from, to) = (layer as f64, layer as f64 + 1.0);
        let warmth = Role::Warmth(level(c, facts.ends_c[0], facts.ends_c[1]));
        drawing.area(warmth, at(plan.left, height(to)), at(plan.right, height(from)));
        drawing.named(format!("store.layer.{layer}"));
    }
    let surface = plan.y(facts.water.depth_m);
    drawing.line(Role::Leader, &[at(plan.left, surface), at(plan.right, surface)]);
}

/// Places of the coil's cut tubes, in metres from the middle and over the base.
fn cuts(facts: &Facts) -> Vec<(f64, f64)> {
    let coil = &facts.coil;
    let over_m = coil.fins_m.unwrap_or(coil.outside_m);
    let rise_m = (coil.top_m - coil.bottom_m).max(0.0);
    let mut places = Vec::new();
    match coil.turn_m {
        Some(turn_m) => {
            let turns = coil.length_m / (std::f64::consts::PI * turn_m);
            // Turns that have no room above each other lie within each other.
            let rings = ((turns * over_m) / (rise_m + over_m)).ceil().max(1.0);
            let halves = (2.0 * turns).round().max(1.0) as usize;
            let a_ring = (halves as f64 / rings).ceil().max(1.0);
            for half in 0..halves {
                let ring = (half as f64 / a_ring).floor();
                let up = (half as f64 - ring * a_ring) / (a_ring - 1.0).max(1.0);
                let from_m = 0.5 * turn_m - ring * 1.15 * over_m;
                let side = if half % 2 == 0 { -1.0 } else { 1.0 };
                places.push((side * from_m, coil.bottom_m + up * rise_m));
            }
        }
        None => {
            let across_m = facts.water.across_m - 0.08;
            let legs = (coil.length_m / across_m.max(0.05)).round().clamp(1.0, 400.0);
            let rows = (rise_m / (2.5 * over_m)).floor().max(0.0) + 1.0;
            let a_row = (legs / rows).ceil();
            for leg in 0..legs as usize {
                let row = (leg as f64 / a_row).floor();
                let along = (leg as f64 - row * a_row + 0.5) / a_row - 0.5;
                let up = if rows > 1.0 { row / (rows - 1.0) } else { 0.0 };
                places.push((along * across_m, coil.bottom_m + up * rise_m));
            }
        }
    }
    places
}

pub(super) fn coil(drawing: &mut Drawing, facts: &Facts, plan: &Plan) {
    let middle = 0.5 * (plan.left + plan.right);
    let radius = (0.5 * facts.coil.outside_m * plan.scale).max(2.5);
    let over = facts.coil.fins_m.map(|fins_m| (0.5 * fins_m * plan.scale).max(radius + 1.5));
    let reach = 0.5 * (plan.right - plan.left) - over.unwrap_or(radius);
    for (from_m, up_m) in cuts(facts) {
        let x = middle + (from_m * plan.scale).clamp(-reach, reach);
        let place = at(x, plan.y(up_m));
        if let Some(over) = over {
            drawing.circle(Role::Ring, place, over);
        }
        drawing.circle(Role::CutTube, place, radius);
        drawing.circle(Role::Bore, place, (radius - 1.4).max(1.0));
    }
}

/// Wall, lid and what lies under the base, each layer hatched as what it is.
pub(super) fn jacket(drawing: &mut Drawing, facts: &Facts, plan: &Plan) {
    let mut beside = 0.0;
    for layer in facts.wall {
        let thick = layer.thickness_m * plan.scale;
        let role = Role::Material(layer.material);
        let (near, far) = (beside, beside + thick);
        drawing.area(role, at(plan.left - far, plan.rim), at(plan.left - near, plan.base));
        drawing.area(role, at(plan.right + near, plan.rim), at(plan.right + far, plan.base));
        beside = far;
    }
    let mut over = plan.rim;
    for layer in facts.lid.iter().filter(|_| facts.lid_fit != LidFit::Open) {
        let thick = layer.thickness_m * plan.scale;
        drawing.area(
            Role::Material(layer.material),
            at(plan.outer_left, over - thick),
            at(plan.outer_right, over),
        );
        over -= thick;
    }
    let (under, _) = deck_layers(facts);
    let mut y = plan.base;
    for layer in &facts.base[..under] {
        let thick = layer.thickness_m * plan.scale;
        drawing.area(
            Role::Material(layer.material),
            at(plan.outer_left, y),
            at(plan.outer_right, y + thick),
        );
        y += thick;
    }
    let (left, right) = (plan.left, plan.right);
    drawing.line(
        Role::Cut,
        &[at(left, plan.rim), at(left, plan.base), at(right, plan.base), at(right, plan.rim)],
    );
    match facts.lid_fit {
        LidFit::Close => {
            drawing.line(Role::InView, &[at(left, plan.rim), at(right, plan.rim)]);
        }
        LidFit::Gap => {
            drawing.line(Role::CurveDashed, &[at(left, plan.rim), at(right, plan.rim)]);
        }
        LidFit::Open => {}
    }
}

/// The deck with its overhang, on three bearers.
pub(super) fn platform(drawing: &mut Drawing, facts: &Facts, plan: &Plan) {
    let material = match facts.base.last() {
        Some(layer) if deck_layers(facts).0 < facts.base.len() => layer.material,
        _ => Material::Plywood,
    };
    let [wide, high] = BEARER_M.map(|m| m * plan.scale);
    let (left, right) = (plan.deck_left, plan.deck_right);
    let under = plan.deck_bottom;
    for middle in
        [left + 0.12 * (right - left), 0.5 * (left + right), right - 0.12 * (right - left)]
    {
        drawing.area(
            Role::Material(Material::Timber),
            at(middle - 0.5 * wide, under),
            at(middle + 0.5 * wide, under + high),
        );
    }
    drawing.area(Role::Material(material), at(left, plan.deck), at(right, under));
}

/// The ball valve: its pipe through the wall, its arm, its float on the water.
pub(super) fn valve(drawing: &mut Drawing, facts: &Facts, plan: &Plan) {
    let y = plan.y(facts.water.depth_m + VALVE_M);
    let surface = plan.y(facts.water.depth_m);
    let inner = plan.right - plan.left;
    let float = at(plan.right - (0.3 * inner).min(0.25 * plan.scale), surface);
    let seat = at(plan.right - 6.0, y);
    drawing.line(Role::InView, &[at(plan.right, y), seat, float]);
    drawing.circle(Role::Ring, float, (0.045 * plan.scale).min(0.07 * inner).max(4.0));
    drawing.named("store.ball-valve");
    if facts.inlet_m < facts.water.depth_m - 0.02 {
        let x = plan.right - 9.0;
        drawing.line(Role::InView, &[at(x, y), at(x, plan.y(facts.inlet_m))]);
    }
}

/// Depth of the water at the left, and the platform's overhang.
pub(super) fn dimensions(drawing: &mut Drawing, facts: &Facts, plan: &Plan, width: Width) {
    let down = plan.deck_bottom + BEARER_M[1] * plan.scale + 12.0;
    let reach = OVERHANG_M * plan.scale;
    if plan.deck_right - plan.right <= reach + 0.5 {
        for x in [plan.right, plan.deck_right] {
            drawing.line(Role::Leader, &[at(x, plan.deck_bottom + 2.0), at(x, down + 4.0)]);
        }
        drawing.dimension(at(plan.right, down), at(plan.deck_right, down));
        let words = format!("{} all round", length(OVERHANG_M, facts.units));
        drawing.text(Role::Label, Anchor::End, at(plan.deck_right, down + 20.0), words);
    }
    if width == Width::Page {
        let figures = if plan.is_slender() { 76.0 } else { 0.0 };
        let x = plan.deck_left.min(plan.outer_left) - 12.0 - figures;
        let (top, bottom) = (plan.y(facts.water.depth_m), plan.base);
        drawing.dimension(at(x, top), at(x, bottom));
        let middle = 0.5 * (top + bottom) + 5.5;
        let words = length(facts.water.depth_m, facts.units);
        drawing.text(Role::Label, Anchor::End, at(x - 8.0, middle), words);
    }
}

/// Where the rightmost tube of the coil is cut, for its leader.
pub(super) fn last_cut(facts: &Facts, plan: &Plan) -> Option<Point> {
    let middle = 0.5 * (plan.left + plan.right);
    let reach = 0.5 * (plan.right - plan.left) - 4.0;
    let mut cuts = cuts(facts);
    cuts.sort_by(|one, other| one.0.total_cmp(&other.0).then(one.1.total_cmp(&other.1)));
    let (most_m, _) = *cuts.last()?;
    let outermost: Vec<(f64, f64)> =
        cuts.into_iter().filter(|cut| (cut.0 - most_m).abs() < 1e-9).collect();
    let (from_m, up_m) = outermost[outermost.len() / 2];
    Some(at(middle + (from_m * plan.scale).min(reach), plan.y(up_m)))
}
