//! Section through the store, to scale: its water coloured by temperature, its coil, its jacket.

use design::quantity::Units;

use super::Width;
use super::box_section::{Layer, length};
use super::cistern_labels::{labels, layer_figures};
use super::frame::{Names, below, caption, paper};
use super::scale::scale;
use crate::drawing::{Anchor, Drawing, Point};
use crate::hatch::Material;
use crate::pen::{at, px};
use crate::role::Role;
use crate::table::Table;
use crate::warmth::level;
use crate::words::{decimal, degree_mark, reader_degrees};

/// What the picture shows; lengths in metres, heights over the store's base.
#[derive(Clone, Debug)]
pub struct Facts<'a> {
    /// The build's title.
    pub title: &'a str,
    /// The water.
    pub water: Water,
    /// Temperature of each layer of it, the lowest first \[C\].
    pub layers_c: &'a [f64],
    /// Ends of the heat scale, held while a day plays \[C\].
    pub ends_c: [f64; 2],
    /// When it is so, in words.
    pub moment: &'a str,
    /// Jacket of the wall, from the water outwards.
    pub wall: &'a [Layer],
    /// What lies under the base, from the water outwards.
    pub base: &'a [Layer],
    /// The lid, from the water outwards.
    pub lid: &'a [Layer],
    /// How close the lid lies.
    pub lid_fit: LidFit,
    /// The coil.
    pub coil: Coil,
    /// Where cold water enters.
    pub inlet_m: f64,
    /// The cold water \[C\]; `None` where that is not told.
    pub cold_c: Option<f64>,
    /// Pipes that leave, by name and height.
    pub outlets: &'a [Outlet],
    /// Where the overheat discharge opens \[C\]; `None` without one.
    pub discharge_c: Option<f64>,
    /// The reader's units.
    pub units: Units,
}

/// The water in the store.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Water {
    /// Its volume \[m3\].
    pub volume_m3: f64,
    /// Its depth.
    pub depth_m: f64,
    /// Its width: the diameter of a round store, the side of a square one.
    pub across_m: f64,
}

/// The coil in it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Coil {
    /// Outside of its tube.
    pub outside_m: f64,
    /// Over its fins; `None` for a plain tube.
    pub fins_m: Option<f64>,
    /// Its length in the water.
    pub length_m: f64,
    /// Its lowest turn.
    pub bottom_m: f64,
    /// Its highest.
    pub top_m: f64,
    /// Middle to middle of a turn; `None` for straight legs.
    pub turn_m: Option<f64>,
}

/// A pipe that leaves the store.
#[derive(Clone, Debug, PartialEq)]
pub struct Outlet {
    /// Where it leads.
    pub name: String,
    /// How high it leaves.
    pub height_m: f64,
}

/// How close the lid lies.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LidFit {
    /// It lets no vapour by.
    Close,
    /// There is a gap.
    Gap,
    /// There is none.
    Open,
}

/// Rim over the water, where a design says nothing of it (common practice).
pub(super) const RIM_M: f64 = 0.10;
/// Warning pipe over the water: its lower edge 25 mm, its middle a bore of 19 mm more.
pub(super) const WARNING_M: f64 = 0.035;
/// Ball valve over the water (common practice).
pub(super) const VALVE_M: f64 = 0.075;
/// How far a platform reaches beyond a cistern on all sides (Approved Document G).
const OVERHANG_M: f64 = 0.150;
/// Deck where the design names none (common practice).
const DECK_M: f64 = 0.018;
/// Bearers under it, wide and high (common practice).
pub(super) const BEARER_M: [f64; 2] = [0.047, 0.072];

/// Where the section lies on the paper: heights and places in pixels, and pixels for a metre.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Plan {
    pub scale: f64,
    /// Inner faces of the wall.
    pub left: f64,
    pub right: f64,
    /// Outer faces of the jacket.
    pub outer_left: f64,
    pub outer_right: f64,
    /// Ends of the platform.
    pub deck_left: f64,
    pub deck_right: f64,
    pub lid_top: f64,
    pub rim: f64,
    pub base: f64,
    pub deck: f64,
    pub deck_bottom: f64,
}

impl Plan {
    /// Height of something so far over the base.
    pub(super) fn y(&self, height_m: f64) -> f64 {
        self.base - height_m * self.scale
    }
}

/// Draws it.
pub fn draw(facts: &Facts, width: Width) -> Drawing {
    let name = Names { page: "cistern", phone: "cistern-narrow" }.of(width);
    let (wide, left, right) = match width {
        Width::Page => (707.0, 84.0, 500.0),
        Width::Phone => (358.0, 12.0, 318.0),
    };
    let title = format!("Section through the cistern: {}", facts.title);
    let mut drawing = paper(name, title, wide, table(facts));
    let (scale_px_m, one_to) = scale_of(facts, right - left);
    let words = format!("Section through the cistern, {}, 1 to {one_to}", facts.moment);
    let head = caption(&mut drawing, 12.0, &words);
    let plan = plan(facts, scale_px_m, 0.5 * (left + right), head + 26.0);
    water(&mut drawing, facts, &plan);
    coil(&mut drawing, facts, &plan);
    jacket(&mut drawing, facts, &plan);
    platform(&mut drawing, facts, &plan);
    valve(&mut drawing, facts, &plan);
    dimensions(&mut drawing, facts, &plan, width);
    let foot = labels(&mut drawing, facts, &plan, width);
    layer_figures(&mut drawing, facts, &plan);
    let under = (plan.deck_bottom + BEARER_M[1] * plan.scale + 52.0).max(foot);
    let long = (wide - 100.0).min(360.0);
    let foot = scale(&mut drawing, at(34.0, under), long, facts.ends_c, facts.units);
    let end = below(&mut drawing, 12.0, foot + 30.0, ASSUMED);
    drawing.description = describe(facts);
    drawing.height_mm = px(end + 16.0);
    drawing
}

const ASSUMED: &str = "Rim, ball valve, warning pipe, bearers and the platform\u{2019}s overhang stand \
    where they usually do: the design does not give them.";

/// Layers under the base that are the platform's deck: a board that comes last.
fn deck_layers(facts: &Facts) -> (usize, f64) {
    match facts.base.last() {
        Some(layer) if matches!(layer.material, Material::Plywood | Material::Timber) => {
            (facts.base.len() - 1, layer.thickness_m)
        }
        _ => (facts.base.len(), DECK_M),
    }
}

fn thick_m(layers: &[Layer]) -> f64 {
    layers.iter().map(|layer| layer.thickness_m).sum()
}

/// The largest plain scale at which the section fits.
fn scale_of(facts: &Facts, wide: f64) -> (f64, u32) {
    let beside_m = thick_m(facts.wall).max(OVERHANG_M);
    let wide_m = facts.water.across_m + 2.0 * beside_m;
    let high_m = facts.water.depth_m + RIM_M + thick_m(facts.lid) + thick_m(facts.base) + DECK_M;
    let whole = 96.0 / 0.0254;
    for one_to in [2, 3, 4, 5, 6, 8, 10, 12, 15, 20, 25, 30, 40, 50] {
        let scale = whole / f64::from(one_to);
        if wide_m * scale <= wide && high_m * scale <= 420.0 {
            return (scale, one_to);
        }
    }
    (whole / 100.0, 100)
}

fn plan(facts: &Facts, scale: f64, middle: f64, top: f64) -> Plan {
    let half = 0.5 * facts.water.across_m * scale;
    let wall = thick_m(facts.wall) * scale;
    let rim = top + thick_m(facts.lid) * scale;
    let base = rim + (facts.water.depth_m + RIM_M) * scale;
    let (under, deck_m) = deck_layers(facts);
    let deck = base + thick_m(&facts.base[..under]) * scale;
    let reach = (thick_m(facts.wall).max(OVERHANG_M)) * scale;
    Plan {
        scale,
        left: middle - half,
        right: middle + half,
        outer_left: middle - half - wall,
        outer_right: middle + half + wall,
        deck_left: middle - half - reach,
        deck_right: middle + half + reach,
        lid_top: top,
        rim,
        base,
        deck,
        deck_bottom: deck + (deck_m * scale).max(3.0),
    }
}

/// Layers of water, each of the colour of its temperature, and the water's level.
fn water(drawing: &mut Drawing, facts: &Facts, plan: &Plan) {
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

fn coil(drawing: &mut Drawing, facts: &Facts, plan: &Plan) {
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
fn jacket(drawing: &mut Drawing, facts: &Facts, plan: &Plan) {
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
fn platform(drawing: &mut Drawing, facts: &Facts, plan: &Plan) {
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
fn valve(drawing: &mut Drawing, facts: &Facts, plan: &Plan) {
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
fn dimensions(drawing: &mut Drawing, facts: &Facts, plan: &Plan, width: Width) {
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
        let x = plan.deck_left.min(plan.outer_left) - 12.0;
        let (top, bottom) = (plan.y(facts.water.depth_m), plan.base);
        drawing.dimension(at(x, top), at(x, bottom));
        let middle = 0.5 * (top + bottom) + 5.5;
        let words = length(facts.water.depth_m, facts.units);
        drawing.text(Role::Label, Anchor::End, at(x - 8.0, middle), words);
    }
}

/// Litres, or the reader's gallons.
pub(super) fn volume(m3: f64, units: Units) -> String {
    match units {
        Units::Metric => format!("{}\u{a0}l", decimal(m3 * 1e3, 0)),
        Units::Us => {
            let gallons = design::quantity::in_unit(design::quantity::Kind::Volume, m3, "US gal");
            format!("{}\u{a0}US\u{a0}gal", decimal(gallons.unwrap_or(f64::NAN), 1))
        }
    }
}

/// A temperature to a tenth, without the letter of its scale.
pub(super) fn tenth(c: f64, units: Units) -> String {
    format!("{}\u{b0}", decimal(reader_degrees(c, units), 1))
}

fn describe(facts: &Facts) -> String {
    let hottest = facts.layers_c.iter().copied().fold(f64::MIN, f64::max);
    let coldest = facts.layers_c.iter().copied().fold(f64::MAX, f64::min);
    let mark = degree_mark(facts.units);
    format!(
        "{} of water, {} deep, {} at its coldest layer and {}{} at its hottest, {}.",
        volume(facts.water.volume_m3, facts.units),
        length(facts.water.depth_m, facts.units),
        tenth(coldest, facts.units),
        tenth(hottest, facts.units),
        mark.trim_start_matches('\u{b0}'),
        facts.moment
    )
}

fn table(facts: &Facts) -> Table {
    let units = facts.units;
    let mut table = Table::new(
        format!("The cistern, {}", facts.moment),
        &["what", "height over the base", "value"],
    );
    let count = facts.layers_c.len().max(1) as f64;
    for (layer, &c) in facts.layers_c.iter().enumerate().rev() {
        let height = |place: f64| length(facts.water.depth_m * place / count, units);
        table.row([
            format!("water, layer {} of {}", layer + 1, facts.layers_c.len()),
            format!("{} to {}", height(layer as f64), height(layer as f64 + 1.0)),
            format!("{} {}", decimal(reader_degrees(c, units), 1), degree_mark(units)),
        ]);
    }
    table.row([
        "water".to_owned(),
        length(facts.water.depth_m, units),
        volume(facts.water.volume_m3, units),
    ]);
    let coil = &facts.coil;
    table.row([
        match coil.turn_m {
            Some(turn_m) => format!("coil, turns of {}", length(turn_m, units)),
            None => "coil, straight legs".to_owned(),
        },
        format!("{} to {}", length(coil.bottom_m, units), length(coil.top_m, units)),
        coil_words(facts),
    ]);
    table.row([
        "cold water in".to_owned(),
        length(facts.inlet_m, units),
        facts.cold_c.map_or(String::new(), |c| tenth(c, units)),
    ]);
    for outlet in facts.outlets {
        table.row([outlet.name.clone(), length(outlet.height_m, units), String::new()]);
    }
    for (what, layers) in [("wall", facts.wall), ("under the base", facts.base), ("lid", facts.lid)]
    {
        for layer in layers {
            let name = format!("{what}: {}", layer.name);
            table.row([name, String::new(), length(layer.thickness_m, units)]);
        }
    }
    table
}

/// The coil in a few words.
pub(super) fn coil_words(facts: &Facts) -> String {
    let coil = &facts.coil;
    let long = match facts.units {
        Units::Metric => format!("{}\u{a0}m", decimal(coil.length_m, 1)),
        Units::Us => format!("{}\u{a0}ft", decimal(coil.length_m / 0.3048, 1)),
    };
    format!("{long} of {}", length(coil.outside_m, facts.units))
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
