//! Where everything stands in the elevation: heights are the build's, sideways there is only order.

use super::house::{Facts, Holding, PumpPlace};
use super::house_pipes::Pipes;
use crate::drawing::{Area, Point};
use crate::pen::{at, between, px};

/// Rim over the water and the lid's own thickness, where only the outline counts \[m\].
const OVER_WATER_M: f64 = 0.10;

/// The floor under the store's base: deck and bearers \[m\].
pub(super) const FLOOR_M: f64 = 0.09;

/// Thickness of a panel's box as drawn \[m\].
const BOX_M: f64 = 0.09;

/// A header tank as drawn: wide, and how far it reaches under and over its cold level \[m\].
const TANK_M: [f64; 3] = [0.32, 0.16, 0.10];

/// A roof between these slopes carries its panel; one flatter or steeper stands on a frame.
const ROOF_DEG: std::ops::Range<f64> = 12.0..66.0;

/// A panel that begins lower than this under the store's base lies on no roof over the store \[m\].
const LOWEST_ON_ROOF_M: f64 = -0.4;

/// Most that a roof is drawn above panel and store \[m\].
const RIDGE_M: f64 = 1.2;

/// What carries the panel.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Carrier {
    /// The roof over the store: eaves, ridge and the end of the other slope.
    Roof([Point; 3]),
    /// A frame: its legs, each from above to the ground.
    Frame(Vec<[Point; 2]>),
}

/// Everything's place on the paper.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Plan {
    /// Pixels for a metre.
    pub scale: f64,
    /// Height over the store's base of the lowest thing: the axis counts from it \[m\].
    pub lowest_m: f64,
    /// Highest thing \[m\].
    pub top_m: f64,
    pub left: f64,
    pub right: f64,
    zero: f64,
    /// The panel's corners: lower and upper end on its carrier, then upper and lower outside.
    pub panel: [Point; 4],
    pub carrier: Carrier,
    /// Shell of the store, water in it, and its jacket.
    pub shell: Area,
    pub water: Area,
    pub jacket: Area,
    pub tank: Option<Area>,
    /// The circuit's pipes in the order of the flow.
    pub flow: Vec<Point>,
    pub back: Vec<Point>,
    pub pump: Option<Point>,
    pub valve: (Point, Point),
    pub joint: Point,
    pub feed: Vec<Point>,
    pub vessel: Option<Point>,
    pub highest: Point,
    /// The pipe to the heater.
    pub outlet: Vec<Point>,
    /// Between panel and store, where the ground or floor under the panel ends.
    pub wall: f64,
}

impl Plan {
    /// Height on the paper of something so far over the store's base.
    pub(super) fn y(&self, height_m: f64) -> f64 {
        self.zero - height_m * self.scale
    }
}

/// Metres sideways, from the panel's lower end.
struct Across {
    /// Run of the panel.
    panel_m: f64,
    /// Outer left and right of the store's jacket.
    store_m: (f64, f64),
    /// Leftmost and rightmost of all.
    ends_m: (f64, f64),
    /// The roof's ridge: sideways and height.
    ridge_m: Option<(f64, f64)>,
}

/// Run of the panel to its rise.
fn run_m(facts: &Facts) -> f64 {
    let rise_m = (facts.panel.top_m - facts.panel.bottom_m).max(0.0);
    let tangent = facts.panel.tilt_deg.to_radians().tan();
    if facts.panel.tilt_deg > 89.0 {
        0.0
    } else if tangent < 0.05 {
        facts.panel.length_m
    } else {
        rise_m / tangent
    }
}

fn store_top_m(facts: &Facts) -> f64 {
    facts.store.depth_m + OVER_WATER_M + facts.store.lid_m
}

fn across(facts: &Facts, pipes_m: f64) -> Across {
    let panel_m = run_m(facts);
    let wide_m = facts.store.across_m + 2.0 * facts.store.wall_m;
    let tangent = facts.panel.tilt_deg.to_radians().tan();
    let on_roof =
        ROOF_DEG.contains(&facts.panel.tilt_deg) && facts.panel.bottom_m >= LOWEST_ON_ROOF_M;
    let roof_m = |x_m: f64| facts.panel.bottom_m + x_m * tangent;
    let mut store_m = panel_m + pipes_m;
    if !on_roof {
        let ends_m = (-0.25, store_m + wide_m + 0.3);
        return Across { panel_m, store_m: (store_m, store_m + wide_m), ends_m, ridge_m: None };
    }
    // The store's near corner has to stand under the slope.
    let needs_m = store_top_m(facts) + 0.12;
    store_m = store_m.max((needs_m - facts.panel.bottom_m) / tangent);
    let far_m = store_m + wide_m;
    let most_m = facts.panel.top_m.max(store_top_m(facts)) + RIDGE_M;
    let tank_m = match facts.holding {
        Holding::Tank { level_m } => level_m + TANK_M[2] + 0.25,
        Holding::Vessel { .. } => facts.highest_m + 0.2,
    };
    let wanted_m = tank_m.max(facts.panel.top_m + 0.2).min(most_m);
    let mut ridge_m = ((wanted_m - facts.panel.bottom_m) / tangent).max(0.5 * (store_m + far_m));
    // Its far corner under the other.
    while roof_m(ridge_m) - (far_m - ridge_m) * tangent < needs_m && ridge_m < far_m {
        ridge_m += 0.05;
    }
    let eaves_m = ((facts.panel.bottom_m + FLOOR_M) / tangent).clamp(0.15, 1.0);
    Across {
        panel_m,
        store_m: (store_m, far_m),
        ends_m: (-eaves_m, far_m.max(ridge_m) + 0.3),
        ridge_m: Some((ridge_m, roof_m(ridge_m))),
    }
}

/// Lays everything out between two sides, from a height downwards.
pub(super) fn plan(facts: &Facts, left: f64, right: f64, top: f64, most_high: f64) -> Plan {
    // Pipes need pixels, not metres: the scale hangs on them and they on the scale.
    let mut scale = 100.0;
    let mut sides = across(facts, 0.6);
    let (lowest_m, _) = heights(facts, &sides);
    let mut top_m = 0.0;
    for _ in 0..12 {
        sides = across(facts, pipes_px(facts) / scale);
        top_m = heights(facts, &sides).1;
        let wide_m = sides.ends_m.1 - sides.ends_m.0;
        let fits = ((right - left) / wide_m).min(most_high / (top_m - lowest_m + FLOOR_M + 0.05));
        scale = fits.min(150.0);
    }
    let zero = top + top_m * scale;
    let x = |across_m: f64| left + (across_m - sides.ends_m.0) * scale;
    let y = |height_m: f64| zero - height_m * scale;
    let place = |across_m: f64, height_m: f64| at(x(across_m), y(height_m));
    let rise_m = facts.panel.top_m - facts.panel.bottom_m;
    let (low, high) = (place(0.0, facts.panel.bottom_m), place(sides.panel_m, facts.panel.top_m));
    let long_m = rise_m.hypot(sides.panel_m).max(1e-6);
    let thick = (BOX_M * scale).clamp(6.0, 12.0);
    let off =
        Point { x_mm: -px(thick) * rise_m / long_m, y_mm: -px(thick) * sides.panel_m / long_m };
    let moved = |from: Point| Point { x_mm: from.x_mm + off.x_mm, y_mm: from.y_mm + off.y_mm };
    let shell = between(
        place(sides.store_m.0 + facts.store.wall_m, facts.store.depth_m + OVER_WATER_M),
        place(sides.store_m.1 - facts.store.wall_m, 0.0),
    );
    let jacket = between(place(sides.store_m.0, store_top_m(facts)), place(sides.store_m.1, 0.0));
    let water = Area {
        corner: Point { x_mm: shell.corner.x_mm, y_mm: px(y(facts.store.depth_m)) },
        width_mm: shell.width_mm,
        height_mm: px(facts.store.depth_m * scale),
    };
    let store_left = x(sides.store_m.0);
    let wall = store_left - 7.0;
    let pipes = Pipes::of(facts, &y, high, low, store_left, shell.corner.x_mm / px(1.0));
    let tank = tank(facts, &sides, &x, &y, &jacket, right);
    let vessel = matches!(facts.holding, Holding::Vessel { .. })
        .then(|| Point { x_mm: pipes.joint.x_mm - px(2.0), y_mm: pipes.joint.y_mm - px(26.0) });
    let feed = match (&tank, vessel) {
        (Some(tank), _) => {
            let bottom =
                Point { x_mm: tank.corner.x_mm + 0.5 * tank.width_mm, y_mm: tank.bottom_mm() };
            let level_mm = bottom.y_mm + px(9.0);
            vec![
                bottom,
                Point { x_mm: bottom.x_mm, y_mm: level_mm },
                Point { x_mm: pipes.joint.x_mm, y_mm: level_mm },
                pipes.joint,
            ]
        }
        (None, Some(vessel)) => vec![vessel, pipes.joint],
        (None, None) => Vec::new(),
    };
    let out = at(x(sides.store_m.1), y(facts.outlet_m));
    let right_of = out.x_mm + px(14.0);
    let outlet = vec![
        Point { x_mm: shell.right_mm(), y_mm: out.y_mm },
        Point { x_mm: right_of, y_mm: out.y_mm },
        Point { x_mm: right_of, y_mm: px(y(-FLOOR_M.min(-lowest_m + FLOOR_M)) + 14.0) },
    ];
    Plan {
        scale,
        lowest_m,
        top_m,
        left,
        right,
        zero,
        panel: [low, high, moved(high), moved(low)],
        carrier: carrier(facts, &sides, &place, lowest_m),
        shell,
        water,
        jacket,
        tank,
        flow: pipes.flow,
        back: pipes.back,
        pump: pipes.pump,
        valve: pipes.valve,
        joint: pipes.joint,
        feed,
        vessel,
        highest: pipes.highest,
        outlet,
        wall,
    }
}

/// Room in pixels for the pipes between panel and store.
fn pipes_px(facts: &Facts) -> f64 {
    match facts.pump.map(|pump| pump.place) {
        Some(PumpPlace::BeforeCoil | PumpPlace::AfterPanel) => 132.0,
        Some(_) => 102.0,
        None => 90.0,
    }
}

/// Lowest and highest of all that is drawn \[m\].
fn heights(facts: &Facts, sides: &Across) -> (f64, f64) {
    let mut lowest_m = facts.panel.bottom_m.min(0.0);
    let mut top_m = facts.panel.top_m.max(facts.highest_m).max(store_top_m(facts)) + 0.1;
    if let Some(pump) = facts.pump {
        lowest_m = lowest_m.min(pump.height_m);
        top_m = top_m.max(pump.height_m + 0.1);
    }
    if let Holding::Tank { level_m } = facts.holding {
        lowest_m = lowest_m.min(level_m - TANK_M[1]);
        top_m = top_m.max(level_m + TANK_M[2]);
    }
    if let Some((_, ridge_m)) = sides.ridge_m {
        top_m = top_m.max(ridge_m);
    }
    (lowest_m, top_m)
}

/// The header tank over the store, or beside it where it would stand in it.
fn tank(
    facts: &Facts,
    sides: &Across,
    x: &dyn Fn(f64) -> f64,
    y: &dyn Fn(f64) -> f64,
    jacket: &Area,
    right: f64,
) -> Option<Area> {
    let Holding::Tank { level_m } = facts.holding else { return None };
    let [_, under_m, over_m] = TANK_M;
    let wide = (x(TANK_M[0]) - x(0.0)).clamp(16.0, 44.0);
    let mut middle = match sides.ridge_m {
        Some((ridge_m, _)) => x(ridge_m.clamp(sides.store_m.0, sides.store_m.1)),
        None => x(0.5 * (sides.store_m.0 + sides.store_m.1)),
    };
    let bottom = y(level_m - under_m).max(y(level_m) + 8.0);
    let top = y(level_m + over_m).min(y(level_m) - 6.0);
    if px(bottom + 14.0) > jacket.corner.y_mm {
        middle = (jacket.right_mm() / px(1.0) + 34.0 + 0.5 * wide).min(right - 0.5 * wide);
    }
    Some(between(at(middle - 0.5 * wide, top), at(middle + 0.5 * wide, bottom)))
}

fn carrier(
    facts: &Facts,
    sides: &Across,
    place: &dyn Fn(f64, f64) -> Point,
    lowest_m: f64,
) -> Carrier {
    let tangent = facts.panel.tilt_deg.to_radians().tan();
    match sides.ridge_m {
        Some((across_m, height_m)) => {
            let end_m = sides.ends_m.1;
            Carrier::Roof([
                place(sides.ends_m.0, facts.panel.bottom_m + sides.ends_m.0 * tangent),
                place(across_m, height_m),
                place(end_m, height_m - (end_m - across_m) * tangent),
            ])
        }
        None => {
            let ground_m = lowest_m - FLOOR_M;
            let on = |part: f64| {
                let height_m =
                    facts.panel.bottom_m + part * (facts.panel.top_m - facts.panel.bottom_m);
                [place(part * sides.panel_m, height_m), place(part * sides.panel_m, ground_m)]
            };
            Carrier::Frame(vec![on(0.04), on(0.96)])
        }
    }
}
