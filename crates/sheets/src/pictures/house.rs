//! The circuit in elevation: every part at its height, to scale, over the lowest of them.

use design::quantity::Units;

use super::Width;
use super::cistern_labels::ring;
use super::frame::{Names, below, caption, paper};
use super::house_names::names;
use super::house_parts::{carrier, pipes, store};
use super::house_plan::{FLOOR_M, Plan, plan};
use super::house_words::{describe, reader_m, table, told, unit};
use super::room::Room;
use crate::drawing::{Anchor, Drawing};
use crate::graph::Axis;
use crate::pen::{at, between, px};
use crate::role::Role;

/// What the picture shows; heights in metres over the store's base, as a build has them.
#[derive(Clone, Debug)]
pub struct Facts<'a> {
    /// The build's title.
    pub title: &'a str,
    /// The panels, seen from the side.
    pub panel: Panel,
    /// The highest point of the circuit.
    pub highest_m: f64,
    /// The pump; `None` where the fluid's own weight moves it.
    pub pump: Option<Pump>,
    /// What keeps the fluid from running backwards.
    pub check_valve: CheckValve,
    /// What takes up the fluid's growth.
    pub holding: Holding,
    /// Where that joins.
    pub joint: Joint,
    /// Whether air can leave at the highest point.
    pub air_vent: AirVent,
    /// The store.
    pub store: Store,
    /// The coil in it.
    pub coil: Coil,
    /// Where its water leaves.
    pub outlet_m: f64,
    /// Where that leads.
    pub outlet_words: &'a str,
    /// Pressures at the circuit's points; none where they were not reckoned.
    pub pressures: &'a [Pressure],
    /// Which heights the design does not give.
    pub assumed: &'a [Height],
    /// The reader's units.
    pub units: Units,
}

/// The panels, seen from the side.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Panel {
    /// How many, side by side.
    pub count: usize,
    /// Where the circuit enters them.
    pub bottom_m: f64,
    /// Where it leaves them.
    pub top_m: f64,
    /// Length up the slope.
    pub length_m: f64,
    /// Slope from the level \[deg\].
    pub tilt_deg: f64,
}

/// The pump.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pump {
    /// How high it stands.
    pub height_m: f64,
    /// Where in the round.
    pub place: PumpPlace,
}

/// Where in the round the pump stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PumpPlace {
    /// In the return pipe, beside the store.
    AfterCoil,
    /// In the return pipe, beside the panels.
    BeforePanel,
    /// In the flow pipe, beside the panels.
    AfterPanel,
    /// In the flow pipe, beside the store.
    BeforeCoil,
}

/// What keeps the fluid from running backwards.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CheckValve {
    /// Nothing.
    None,
    /// A valve held shut by a spring.
    Fitted,
    /// A light flap.
    Flap,
}

/// What takes up the fluid's growth.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Holding {
    /// A header tank, open to the air.
    Tank {
        /// Its cold water level.
        level_m: f64,
    },
    /// A sealed vessel.
    Vessel {
        /// Its volume \[m3\].
        volume_m3: f64,
    },
}

/// Where that joins.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Joint {
    /// At the pump's inlet.
    PumpInlet,
    /// At the pump's outlet.
    PumpOutlet,
    /// At the panels' outlet.
    PanelOutlet,
}

/// Whether air can leave at the highest point.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum AirVent {
    /// A cock, a vent or an open pipe.
    Fitted,
    /// Nothing.
    None,
}

/// The store, seen from the side.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Store {
    /// Depth of its water.
    pub depth_m: f64,
    /// Its width.
    pub across_m: f64,
    /// Thickness of its jacket.
    pub wall_m: f64,
    /// Thickness of its lid.
    pub lid_m: f64,
}

/// The coil.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Coil {
    /// Its lowest turn.
    pub bottom_m: f64,
    /// Its highest.
    pub top_m: f64,
    /// Which way the fluid runs through it.
    pub flow: Flow,
}

/// Which way the fluid runs through the coil.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Flow {
    /// In at the top.
    Down,
    /// In at the bottom.
    Up,
}

/// Pressure at a point of the circuit, as a gauge shows it.
#[derive(Clone, Debug, PartialEq)]
pub struct Pressure {
    /// Which point.
    pub point: String,
    /// Its height.
    pub height_m: f64,
    /// While the fluid runs \[Pa\].
    pub running_pa: f64,
    /// While it stands \[Pa\].
    pub resting_pa: f64,
}

/// A height that a design may leave out.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Height {
    /// The panels' lower end.
    PanelBottom,
    /// The pump.
    Pump,
    /// The highest point.
    Highest,
    /// The header tank's level.
    Level,
}

/// Draws it.
pub fn draw(facts: &Facts, width: Width) -> Drawing {
    let name = Names { page: "house", phone: "house-narrow" }.of(width);
    let wide = match width {
        Width::Page => 345.0,
        Width::Phone => 358.0,
    };
    let title = format!("The circuit in elevation: {}", facts.title);
    let mut drawing = paper(name, title, wide, table(facts));
    let words = format!(
        "Heights over the lowest part, in {}, to scale; sideways only the order counts",
        unit(facts.units)
    );
    let head = caption(&mut drawing, 10.0, &words);
    let plan = plan(facts, 50.0, wide - 22.0, head + 30.0, 330.0);
    let bottom = plan.y(plan.lowest_m - FLOOR_M);
    axis(&mut drawing, facts, &plan);
    let paper_area = between(at(44.0, head + 8.0), at(wide - 4.0, bottom + 34.0));
    let mut room = Room::of(paper_area);
    carrier(&mut drawing, &plan, &mut room);
    store(&mut drawing, facts, &plan, &mut room);
    pipes(&mut drawing, facts, &plan, &mut room);
    let listed = names(&mut drawing, facts, &plan, &mut room);
    let mut foot = bottom + 44.0;
    for (place, words) in listed.iter().enumerate() {
        ring(&mut drawing, 20.0, foot + 6.0, place);
        drawing.text(Role::Label, Anchor::Start, at(38.0, foot + 11.5), words.clone());
        foot += 24.0;
    }
    for line in told(facts) {
        foot = below(&mut drawing, 10.0, foot + 12.0, &line) + 8.0;
    }
    drawing.description = describe(facts, &plan);
    drawing.height_mm = px(foot + 12.0);
    drawing
}

/// Heights over the lowest thing, at the left.
fn axis(drawing: &mut Drawing, facts: &Facts, plan: &Plan) {
    let high = reader_m(plan.top_m - plan.lowest_m, facts.units);
    let ticks = Axis::round(0.0, high).ticks;
    let x = 40.0;
    let y = |value: f64| {
        let metres = value / reader_m(1.0, facts.units);
        plan.y(plan.lowest_m + metres)
    };
    let shown: Vec<_> = ticks.iter().filter(|tick| tick.0 <= high + 1e-9).collect();
    let last = shown.last().map_or(0.0, |tick| tick.0);
    drawing.line(Role::InView, &[at(x, y(0.0)), at(x, y(last))]);
    for (value, words) in shown {
        drawing.line(Role::Leader, &[at(x - 5.0, y(*value)), at(x, y(*value))]);
        drawing.text(Role::Quiet, Anchor::End, at(x - 8.0, y(*value) + 5.5), words.clone());
    }
}
