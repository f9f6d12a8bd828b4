//! Section through the store, to scale: its water coloured by temperature, its coil, its jacket.

use design::quantity::Units;

use super::Width;
use super::box_section::Layer;
use super::cistern_labels::{labels, layer_figures};
use super::cistern_parts::{coil, dimensions, jacket, platform, valve, water};
use super::cistern_words::{describe, table};
use super::frame::{Names, below, caption, paper};
use super::scale::scale;
use crate::drawing::Drawing;
use crate::hatch::Material;
use crate::pen::{at, px};

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
pub(super) const OVERHANG_M: f64 = 0.150;

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
    /// Whether the water is too narrow to carry its figures: then they stand at its left.
    pub(super) fn is_slender(&self) -> bool {
        self.right - self.left < 110.0
    }

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
pub(super) fn deck_layers(facts: &Facts) -> (usize, f64) {
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
