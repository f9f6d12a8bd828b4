//! The circuit in elevation: every part at its height, to scale, over the lowest of them.

use design::quantity::{Kind, Units, in_unit};

use super::Width;
use super::cistern_labels::ring;
use super::frame::{Names, below, caption, paper};
use super::house_plan::{Carrier, FLOOR_M, Plan, plan};
use super::room::{Room, around};
use crate::drawing::{Anchor, Area, Drawing, Form, Point};
use crate::graph::Axis;
use crate::hatch::Material;
use crate::pen::{at, between, px};
use crate::role::Role;
use crate::table::Table;
use crate::words::decimal;

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

fn unit(units: Units) -> &'static str {
    match units {
        Units::Metric => "metres",
        Units::Us => "feet",
    }
}

/// Metres or feet.
fn reader_m(metres: f64, units: Units) -> f64 {
    match units {
        Units::Metric => metres,
        Units::Us => metres / 0.3048,
    }
}

fn height_words(metres: f64, units: Units) -> String {
    let mark = match units {
        Units::Metric => "m",
        Units::Us => "ft",
    };
    format!("{}\u{a0}{mark}", decimal(reader_m(metres, units), 2))
}

fn bar_words(gauge_pa: f64, units: Units) -> String {
    match units {
        Units::Metric => format!("{}\u{a0}bar", decimal(gauge_pa / 1e5, 2)),
        Units::Us => {
            let psi = in_unit(Kind::Pressure, gauge_pa, "psi").unwrap_or(f64::NAN);
            format!("{}\u{a0}psi", decimal(psi, 1))
        }
    }
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

/// Roof or frame, with the floor under the store and the ground under all.
fn carrier(drawing: &mut Drawing, plan: &Plan, room: &mut Room) {
    let floor = plan.y(-FLOOR_M);
    let ground = plan.y(plan.lowest_m - FLOOR_M);
    let mut line = |role: Role, points: &[Point]| {
        drawing.line(role, points);
        room.take_line(points, 3.0);
    };
    match &plan.carrier {
        Carrier::Roof(points) => {
            line(Role::Cut, points);
            line(Role::InView, &[at(plan.left, floor), at(plan.right, floor)]);
        }
        Carrier::Frame(legs) => {
            for leg in legs {
                line(Role::InView, leg);
            }
            if ground > floor + 12.0 {
                line(Role::InView, &[at(plan.wall, floor), at(plan.right, floor)]);
                line(Role::Hidden, &[at(plan.wall, floor), at(plan.wall, ground)]);
                line(Role::InView, &[at(plan.left, ground), at(plan.right, ground)]);
            } else {
                line(Role::InView, &[at(plan.left, ground), at(plan.right, ground)]);
            }
        }
    }
}

fn store(drawing: &mut Drawing, facts: &Facts, plan: &Plan, room: &mut Room) {
    let corner = |area: &Area, x: f64, y: f64| Point {
        x_mm: area.corner.x_mm + x * area.width_mm,
        y_mm: area.corner.y_mm + y * area.height_mm,
    };
    let around = |area: &Area| {
        [(0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0), (0.0, 0.0)]
            .map(|(x, y)| corner(area, x, y))
    };
    // Its platform, on the floor.
    let base = plan.jacket.bottom_mm();
    let floor_mm = px(plan.y(-FLOOR_M));
    for part in [0.12, 0.5, 0.88] {
        let x_mm = plan.jacket.corner.x_mm + part * plan.jacket.width_mm;
        drawing.line(Role::InView, &[Point { x_mm, y_mm: base }, Point { x_mm, y_mm: floor_mm }]);
    }
    drawing.add(Role::Ground, Form::Area(plan.jacket));
    drawing.add(Role::Water, Form::Area(plan.water));
    drawing.named("store.water");
    if facts.store.wall_m > 0.0 || facts.store.lid_m > 0.0 {
        drawing.line(Role::Leader, &around(&plan.jacket));
    }
    let shell = &plan.shell;
    drawing.line(
        Role::Cut,
        &[(0.0, 0.0), (0.0, 1.0), (1.0, 1.0), (1.0, 0.0)].map(|(x, y)| corner(shell, x, y)),
    );
    room.take(between(plan.jacket.corner, Point { x_mm: plan.jacket.right_mm(), y_mm: floor_mm }));
}

fn pipes(drawing: &mut Drawing, facts: &Facts, plan: &Plan, room: &mut Room) {
    let mut line = |role: Role, points: &[Point], beside: f64| {
        drawing.line(role, points);
        room.take_line(points, beside);
    };
    // The coil: to and fro in the water, between its heights.
    let (left_mm, right_mm) = (plan.shell.corner.x_mm, plan.shell.right_mm());
    let (top, bottom) = (plan.y(facts.coil.top_m), plan.y(facts.coil.bottom_m));
    let turns = 5;
    let mut coil = vec![Point { x_mm: left_mm, y_mm: px(top) }];
    for turn in 0..=turns {
        let y_mm = px(top + (bottom - top) * f64::from(turn) / f64::from(turns));
        let near_mm = left_mm + 0.2 * (right_mm - left_mm);
        let far_mm = left_mm + 0.8 * (right_mm - left_mm);
        let ends = if turn % 2 == 0 { [near_mm, far_mm] } else { [far_mm, near_mm] };
        coil.extend(ends.map(|x_mm| Point { x_mm, y_mm }));
    }
    coil.push(Point { x_mm: left_mm, y_mm: px(bottom) });
    line(Role::Vent, &coil, 0.0);
    if !plan.feed.is_empty() {
        line(Role::FeedPipe, &plan.feed, 3.0);
    }
    line(Role::ReturnPipe, &plan.back, 4.0);
    line(Role::FlowPipe, &plan.flow, 4.0);
    line(Role::Vent, &plan.outlet, 4.0);
    if facts.air_vent == AirVent::Fitted {
        let top = Point { x_mm: plan.highest.x_mm, y_mm: plan.highest.y_mm - px(11.0) };
        line(Role::Vent, &[plan.highest, top], 3.0);
        drawing.circle(Role::Ring, top, 2.6);
    }
    drawing.outline(Role::Material(Material::Metal), &plan.panel);
    room.take_line(&[plan.panel[0], plan.panel[1]], 8.0);
    room.take_line(&[plan.panel[3], plan.panel[2]], 4.0);
    if facts.check_valve != CheckValve::None {
        valve(drawing, plan.valve);
        room.take_line(&[plan.valve.0, plan.valve.1], 7.0);
    }
    if let Some(tank) = plan.tank {
        let level_mm = match facts.holding {
            Holding::Tank { level_m } => px(plan.y(level_m)),
            Holding::Vessel { .. } => tank.corner.y_mm,
        };
        drawing.area(
            Role::Water,
            Point { x_mm: tank.corner.x_mm, y_mm: level_mm },
            Point { x_mm: tank.right_mm(), y_mm: tank.bottom_mm() },
        );
        let (top, bottom) = (tank.corner.y_mm, tank.bottom_mm());
        let sides = [
            (tank.corner.x_mm, top),
            (tank.corner.x_mm, bottom),
            (tank.right_mm(), bottom),
            (tank.right_mm(), top),
        ];
        drawing.line(Role::InView, &sides.map(|(x_mm, y_mm)| Point { x_mm, y_mm }));
        room.take(tank);
    }
    if let Some(vessel) = plan.vessel {
        drawing.circle(Role::Ring, vessel, 11.0);
        drawing.line(
            Role::Vent,
            &[
                Point { x_mm: vessel.x_mm - px(11.0), y_mm: vessel.y_mm },
                Point { x_mm: vessel.x_mm + px(11.0), y_mm: vessel.y_mm },
            ],
        );
        room.take_line(&[vessel, vessel], 12.0);
    }
    if let Some(pump) = plan.pump {
        drawing.circle(Role::Ring, pump, 7.5);
        drawing.named("circuit.pump");
        room.take_line(&[pump, pump], 8.0);
    }
}

/// A check valve: a bar that the fluid lifts one way, from the first point to the second.
fn valve(drawing: &mut Drawing, (from, to): (Point, Point)) {
    let sign = (to.x_mm - from.x_mm).signum();
    let (y, half) = (from.y_mm, px(5.5));
    drawing.outline(
        Role::Arrow,
        &[
            Point { x_mm: from.x_mm - sign * px(1.0), y_mm: y - half },
            Point { x_mm: from.x_mm - sign * px(1.0), y_mm: y + half },
            Point { x_mm: to.x_mm, y_mm: y },
        ],
    );
    drawing.line(
        Role::InView,
        &[Point { x_mm: to.x_mm, y_mm: y - half }, Point { x_mm: to.x_mm, y_mm: y + half }],
    );
}

/// Names at their things; where there is no room, a letter. Returns what the letters stand for.
fn names(drawing: &mut Drawing, facts: &Facts, plan: &Plan, room: &mut Room) -> Vec<String> {
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

fn mark(facts: &Facts, height: Height) -> &'static str {
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
                let words = format!("vessel {}", super::cistern::volume(volume_m3, facts.units));
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

/// The pressures that matter: least and greatest while it runs, and the panels' outlet, which boils first.
fn told(facts: &Facts) -> Vec<String> {
    let least =
        facts.pressures.iter().min_by(|one, other| one.running_pa.total_cmp(&other.running_pa));
    let most =
        facts.pressures.iter().max_by(|one, other| one.running_pa.total_cmp(&other.running_pa));
    let outlet = facts.pressures.iter().find(|pressure| pressure.point == "panel outlet");
    let mut shown: Vec<&Pressure> = Vec::new();
    for pressure in [least, outlet, most].into_iter().flatten() {
        if !shown.iter().any(|other| other.point == pressure.point) {
            shown.push(pressure);
        }
    }
    let mut lines: Vec<String> = Vec::new();
    if !shown.is_empty() {
        lines.push("Pressure on a gauge, standing and running:".to_owned());
    }
    for pressure in shown {
        lines.push(format!(
            "{}: {}, {}",
            pressure.point,
            bar_words(pressure.resting_pa, facts.units),
            bar_words(pressure.running_pa, facts.units)
        ));
    }
    if !facts.assumed.is_empty() {
        lines.push("* height assumed: the design does not give it".to_owned());
    }
    lines
}

fn describe(facts: &Facts, plan: &Plan) -> String {
    let over = |height_m: f64| height_words(height_m - plan.lowest_m, facts.units);
    format!(
        "Over the lowest part: the panel from {} to {}, the store\u{2019}s base at {}, the highest \
         point of the circuit at {}. Flow pipe brown and broad, return pipe blue and narrow.",
        over(facts.panel.bottom_m),
        over(facts.panel.top_m),
        over(0.0),
        over(facts.highest_m)
    )
}

fn table(facts: &Facts) -> Table {
    let mut table = Table::new(
        "Heights and pressures of the circuit",
        &["what", "over the store\u{2019}s base", "standing", "running"],
    );
    let note = |height| match mark(facts, height) {
        "" => "",
        _ => " (assumed)",
    };
    let mut height = |what: &str, note: &str, metres: f64| {
        table.row([
            format!("{what}{note}"),
            height_words(metres, facts.units),
            String::new(),
            String::new(),
        ]);
    };
    height("panel, lower end", note(Height::PanelBottom), facts.panel.bottom_m);
    height("panel, upper end", "", facts.panel.top_m);
    height("highest point", note(Height::Highest), facts.highest_m);
    if let Holding::Tank { level_m } = facts.holding {
        height("header tank, cold level", note(Height::Level), level_m);
    }
    if let Some(pump) = facts.pump {
        height("pump", note(Height::Pump), pump.height_m);
    }
    height("coil, highest turn", "", facts.coil.top_m);
    height("coil, lowest turn", "", facts.coil.bottom_m);
    height("store\u{2019}s outlet", "", facts.outlet_m);
    for pressure in facts.pressures {
        table.row([
            format!("pressure, {}", pressure.point),
            height_words(pressure.height_m, facts.units),
            bar_words(pressure.resting_pa, facts.units),
            bar_words(pressure.running_pa, facts.units),
        ]);
    }
    table
}
