//! The sky on the equator's side, as a panorama in degrees: the sun's ways, and what hides it.

use super::Width;
use super::frame::{Names, below, caption, paper};
use super::room::{Room, around};
use crate::drawing::{Anchor, Drawing, Point};
use crate::hatch::Hatch;
use crate::pen::{at, between, px};
use crate::role::Role;
use crate::table::Table;
use crate::words::whole;

/// What the picture shows.
#[derive(Clone, Debug)]
pub struct Facts<'a> {
    /// The build's title.
    pub title: &'a str,
    /// Where the onlooker looks: to the equator.
    pub looks: Looks,
    /// The sun's ways, the highest first.
    pub days: &'a [Day],
    /// The far horizon, from one side to the other all round; empty for a free view.
    pub horizon: &'a [Sight],
    /// What hides the sun from nearby.
    pub near: &'a [Near],
    /// Where the panel faces and how steep it lies, in words.
    pub panel_words: &'a str,
}

/// Where the onlooker looks.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Looks {
    /// From the northern half of the globe.
    South,
    /// From the southern.
    North,
}

impl Looks {
    fn azimuth_deg(self) -> f64 {
        match self {
            Looks::South => 180.0,
            Looks::North => 0.0,
        }
    }

    fn word(self) -> &'static str {
        match self {
            Looks::South => "southern",
            Looks::North => "northern",
        }
    }
}

/// A direction: where the sun or a thing is seen.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sight {
    /// Clockwise from true north \[deg\].
    pub azimuth_deg: f64,
    /// Over the level \[deg\].
    pub height_deg: f64,
}

/// The sun's way on one day.
#[derive(Clone, Debug, PartialEq)]
pub struct Day {
    /// Its name.
    pub name: String,
    /// The whole way, every few minutes of the day.
    pub way: Vec<Sight>,
    /// Where the sun stands at each hour, 0 to 23, by the household's clock.
    pub hours: Vec<Sight>,
}

/// Something near that hides the sun.
#[derive(Clone, Debug, PartialEq)]
pub struct Near {
    /// Its name on the drawing.
    pub name: String,
    /// When it hides how much, for the table.
    pub words: String,
    /// Outline of where it does.
    pub outline: Vec<Sight>,
}

/// How many places round a thing are still at it.
const CLOSE: usize = 16;

/// The panorama on the paper, in pixels.
struct Plan {
    left: f64,
    right: f64,
    top: f64,
    bottom: f64,
    /// Pixels for a degree, both ways.
    scale: f64,
    looks_deg: f64,
    /// Half of what is seen \[deg\].
    half_deg: f64,
}

impl Plan {
    /// Degrees to the right of where one looks, -180 to 180.
    fn beside_deg(&self, azimuth_deg: f64) -> f64 {
        (azimuth_deg - self.looks_deg + 180.0).rem_euclid(360.0) - 180.0
    }

    fn at(&self, beside_deg: f64, height_deg: f64) -> Point {
        let middle = 0.5 * (self.left + self.right);
        at(middle + beside_deg * self.scale, self.bottom - height_deg * self.scale)
    }

    /// A sight, kept within the panorama's sides.
    fn within(&self, sight: &Sight) -> Point {
        let beside_deg = self.beside_deg(sight.azimuth_deg).clamp(-self.half_deg, self.half_deg);
        self.at(beside_deg, sight.height_deg.max(0.0))
    }

    /// Whether a sight is seen over the level.
    fn sees(&self, sight: &Sight) -> bool {
        sight.height_deg > 0.5 && self.beside_deg(sight.azimuth_deg).abs() <= self.half_deg
    }

    /// The pieces of a way that are seen: those under the level and behind the onlooker are left out.
    fn pieces(&self, way: &[Sight]) -> Vec<Vec<Point>> {
        let mut pieces: Vec<Vec<Point>> = Vec::new();
        let mut piece: Vec<Point> = Vec::new();
        for pair in way.windows(2) {
            let [from, to] = [&pair[0], &pair[1]]
                .map(|sight| (self.beside_deg(sight.azimuth_deg), sight.height_deg));
            // A way behind the onlooker leaves at one side and comes back at the other.
            let part = if (from.0 - to.0).abs() > 180.0 { None } else { self.clipped(from, to) };
            match part {
                Some((first, last)) => {
                    if piece.is_empty() {
                        piece.push(self.at(first.0, first.1));
                    }
                    piece.push(self.at(last.0, last.1));
                    if last != to {
                        pieces.push(std::mem::take(&mut piece));
                    }
                }
                None if piece.is_empty() => {}
                None => pieces.push(std::mem::take(&mut piece)),
            }
        }
        if piece.len() > 1 {
            pieces.push(piece);
        }
        pieces
    }

    /// The part of a straight piece that is seen.
    fn clipped(&self, from: (f64, f64), to: (f64, f64)) -> Option<((f64, f64), (f64, f64))> {
        let (mut first, mut last) = (0.0_f64, 1.0_f64);
        let bounds = [
            (from.1, to.1 - from.1),
            (self.half_deg - from.0, from.0 - to.0),
            (self.half_deg + from.0, to.0 - from.0),
        ];
        for (start, slope) in bounds {
            // start + share * slope must not be negative.
            if slope == 0.0 {
                if start < 0.0 {
                    return None;
                }
                continue;
            }
            let share = -start / slope;
            if slope > 0.0 { first = first.max(share) } else { last = last.min(share) }
        }
        let along = |share: f64| {
            if share >= 1.0 {
                to
            } else {
                (from.0 + share * (to.0 - from.0), from.1 + share * (to.1 - from.1))
            }
        };
        (first < last).then(|| (along(first), along(last)))
    }
}

/// Draws it.
pub fn draw(facts: &Facts, width: Width) -> Drawing {
    let name = Names { page: "sky", phone: "sky-narrow" }.of(width);
    let (wide, left) = match width {
        Width::Page => (707.0, 44.0),
        Width::Phone => (358.0, 38.0),
    };
    let title = format!("The {} sky: {}", facts.looks.word(), facts.title);
    let mut drawing = paper(name, title, wide, table(facts));
    let words = format!(
        "The {} sky, the sun\u{2019}s height in degrees; what stands in its way is hatched",
        facts.looks.word()
    );
    let head = caption(&mut drawing, 10.0, &words);
    let plan = plan(facts, left, wide - 12.0, head + 32.0);
    ground(&mut drawing, &plan, width);
    let mut room = Room::of(between(at(left, head + 10.0), at(wide - 2.0, plan.bottom)));
    let things = things(&mut drawing, facts, &plan, &mut room);
    for day in facts.days {
        for piece in plan.pieces(&day.way) {
            drawing.line(Role::SunPath, &piece);
            room.take_line(&piece, if width == Width::Page { 2.0 } else { 0.5 });
        }
    }
    let dot = if width == Width::Page { 4.0 } else { 2.6 };
    for day in facts.days {
        for sight in day.hours.iter().filter(|sight| plan.sees(sight)) {
            let middle = plan.within(sight);
            drawing.circle(Role::Sun, middle, dot);
            room.take_line(&[middle, middle], dot);
        }
    }
    skyline(&mut drawing, facts, &plan);
    day_names(&mut drawing, facts, &plan, &mut room);
    for (words, thing) in things {
        room.name(&mut drawing, Role::Label, &words, thing, 4.0);
    }
    hour_names(&mut drawing, facts, &plan, &mut room, width);
    let told = describe(facts, &plan);
    let end = below(&mut drawing, 10.0, plan.bottom + 56.0, &told);
    drawing.description = told;
    drawing.height_mm = px(end + 16.0);
    drawing
}

/// As much of the sky as the sun takes, at one scale both ways.
fn plan(facts: &Facts, left: f64, right: f64, top: f64) -> Plan {
    let mut plan = Plan {
        left,
        right,
        top,
        bottom: top,
        scale: 1.0,
        looks_deg: facts.looks.azimuth_deg(),
        half_deg: 180.0,
    };
    let up = || facts.days.iter().flat_map(|day| &day.way).filter(|sight| sight.height_deg > 0.0);
    let furthest_deg =
        up().map(|sight| plan.beside_deg(sight.azimuth_deg).abs()).fold(0.0, f64::max);
    plan.half_deg = ((furthest_deg + 3.0) / 5.0).ceil() * 5.0;
    plan.half_deg = plan.half_deg.clamp(105.0, 135.0);
    let seen = up().filter(|sight| plan.sees(sight));
    let highest_deg = seen.chain(facts.horizon).map(|sight| sight.height_deg).fold(30.0, f64::max);
    plan.scale = (right - left) / (2.0 * plan.half_deg);
    plan.bottom = top + plan.scale * (highest_deg + 4.0).min(90.0);
    plan
}

/// Sky, heights and compass.
fn ground(drawing: &mut Drawing, plan: &Plan, width: Width) {
    drawing.area(Role::Ground, at(plan.left, plan.top), at(plan.right, plan.bottom));
    let mut height_deg = 0.0;
    while plan.bottom - height_deg * plan.scale >= plan.top {
        let y = plan.bottom - height_deg * plan.scale;
        if height_deg > 0.0 {
            drawing.line(Role::Grid, &[at(plan.left, y), at(plan.right, y)]);
        }
        let words = format!("{}\u{b0}", whole(height_deg));
        drawing.text(Role::Quiet, Anchor::End, at(plan.left - 5.0, y + 5.5), words);
        height_deg += 20.0;
    }
    const WORDS: [(&str, &str); 8] = [
        ("north", "N"),
        ("north-east", "NE"),
        ("east", "E"),
        ("south-east", "SE"),
        ("south", "S"),
        ("south-west", "SW"),
        ("west", "W"),
        ("north-west", "NW"),
    ];
    for (place, (long, short)) in WORDS.into_iter().enumerate() {
        let beside_deg = plan.beside_deg(45.0 * place as f64);
        if beside_deg.abs() > plan.half_deg - 4.0 {
            continue;
        }
        let foot = plan.at(beside_deg, 0.0);
        let below = |by: f64| Point { x_mm: foot.x_mm, y_mm: foot.y_mm + px(by) };
        drawing.line(Role::Leader, &[foot, below(6.0)]);
        let words = if width == Width::Page { long } else { short };
        let half_mm = 0.5 * crate::measure::length_mm(words, Role::Quiet);
        let x_mm = foot.x_mm.clamp(half_mm, drawing.width_mm - half_mm - px(1.0));
        let at = Point { x_mm, y_mm: below(23.0).y_mm };
        drawing.text(Role::Quiet, Anchor::Middle, at, words);
    }
}

/// What hides the sun: hatched. Returns the names with their places.
fn things(
    drawing: &mut Drawing,
    facts: &Facts,
    plan: &Plan,
    room: &mut Room,
) -> Vec<(String, Point)> {
    let mut named = Vec::new();
    for near in facts.near {
        let points: Vec<Point> = near.outline.iter().map(|sight| plan.within(sight)).collect();
        if points.len() < 3 || !near.outline.iter().any(|sight| plan.sees(sight)) {
            continue;
        }
        drawing.outline(Role::Stratum(Hatch::NearThings), &points);
        drawing.outline(Role::Boundary, &points);
        room.take_line(&points, 2.0);
        let top = points.iter().copied().min_by(|one, other| one.y_mm.total_cmp(&other.y_mm));
        named.extend(top.map(|top| (near.name.clone(), top)));
    }
    let skyline = line_of(facts, plan);
    if let Some(&top) = skyline.iter().min_by(|one, other| one.y_mm.total_cmp(&other.y_mm)) {
        room.take_line(&skyline, 2.0);
        named.push(("horizon".to_owned(), top));
    }
    named
}

/// The far horizon from side to side; empty for a free view.
fn line_of(facts: &Facts, plan: &Plan) -> Vec<Point> {
    let mut seen: Vec<(f64, f64)> = facts
        .horizon
        .iter()
        .map(|sight| (plan.beside_deg(sight.azimuth_deg), sight.height_deg))
        .filter(|(beside_deg, _)| beside_deg.abs() <= plan.half_deg)
        .collect();
    seen.sort_by(|one, other| one.0.total_cmp(&other.0));
    seen.iter().map(|&(beside_deg, height_deg)| plan.at(beside_deg, height_deg.max(0.0))).collect()
}

/// The far horizon, hatched over the sun's ways, and the level.
fn skyline(drawing: &mut Drawing, facts: &Facts, plan: &Plan) {
    let line = line_of(facts, plan);
    if let (Some(first), Some(last)) = (line.first(), line.last()) {
        let mut outline = line.clone();
        outline.push(Point { x_mm: last.x_mm, y_mm: px(plan.bottom) });
        outline.push(Point { x_mm: first.x_mm, y_mm: px(plan.bottom) });
        drawing.outline(Role::Stratum(Hatch::NearThings), &outline);
        drawing.line(Role::InView, &line);
    }
    drawing.line(Role::Cut, &[at(plan.left, plan.bottom), at(plan.right, plan.bottom)]);
}

/// Each day's name at its way's highest seen point.
fn day_names(drawing: &mut Drawing, facts: &Facts, plan: &Plan, room: &mut Room) {
    for day in facts.days {
        let seen = day.way.iter().filter(|sight| plan.sees(sight));
        let Some(top) = seen.max_by(|one, other| one.height_deg.total_cmp(&other.height_deg))
        else {
            continue;
        };
        let top = plan.within(top);
        let (x, y) = (top.x_mm / px(1.0), top.y_mm / px(1.0));
        // The closer the better: above it, below it, or beside.
        let mut places: Vec<(Anchor, Point)> =
            [-9.0, -10.5, 22.0].map(|down| (Anchor::Middle, at(x, y + down))).to_vec();
        places.extend(around(x, y, 12.0).into_iter().take(CLOSE));
        let short = day.name.replace("December", "Dec").replace("June", "Jun");
        if !room.words(drawing, Role::Value, &day.name, &places) {
            room.words(drawing, Role::Value, &short, &places);
        }
    }
}

/// Some hours at the middle way's dots, where there is room.
fn hour_names(drawing: &mut Drawing, facts: &Facts, plan: &Plan, room: &mut Room, width: Width) {
    let Some(day) = facts.days.get(facts.days.len() / 2) else { return };
    let every = if width == Width::Page { 2 } else { 3 };
    for (hour, sight) in day.hours.iter().enumerate() {
        if hour % every != 0 || !plan.sees(sight) {
            continue;
        }
        let dot = plan.within(sight);
        let (x, y) = (dot.x_mm / px(1.0), dot.y_mm / px(1.0));
        let places = [
            (Anchor::Middle, at(x, y + 22.0)),
            (Anchor::Start, at(x + 5.0, y + 20.0)),
            (Anchor::End, at(x - 5.0, y + 20.0)),
            (Anchor::Start, at(x + 9.0, y + 5.0)),
            (Anchor::End, at(x - 9.0, y + 5.0)),
        ];
        room.words(drawing, Role::Quiet, &format!("{hour}\u{a0}h"), &places);
    }
}

/// Noon heights, and what the panorama cannot show.
fn describe(facts: &Facts, plan: &Plan) -> String {
    let mut told = String::new();
    for day in facts.days {
        let top = day.way.iter().max_by(|one, other| one.height_deg.total_cmp(&other.height_deg));
        let Some(top) = top else { continue };
        told.push_str(&if top.height_deg <= 0.0 {
            format!("On {} the sun does not rise. ", day_word(&day.name))
        } else if plan.beside_deg(top.azimuth_deg).abs() > 90.0 {
            format!(
                "On {} it passes behind the onlooker, {}\u{b0} high. ",
                day_word(&day.name),
                whole(top.height_deg)
            )
        } else {
            format!("On {} it reaches {}\u{b0}. ", day_word(&day.name), whole(top.height_deg))
        });
    }
    format!("{told}{}", facts.panel_words)
}

fn day_word(name: &str) -> String {
    if name.starts_with(|letter: char| letter.is_ascii_digit()) {
        name.to_owned()
    } else {
        format!("the {name}")
    }
}

fn table(facts: &Facts) -> Table {
    let mut heads = vec!["hour of the clock"];
    heads.extend(facts.days.iter().map(|day| day.name.as_str()));
    let mut table =
        Table::new("Where the sun stands: its height, and its direction from north", &heads);
    for hour in 0..24 {
        let cell = |day: &Day| match day.hours.get(hour) {
            Some(sight) if sight.height_deg > 0.0 => {
                format!("{}\u{b0} at {}\u{b0}", whole(sight.height_deg), whole(sight.azimuth_deg))
            }
            _ => String::new(),
        };
        let cells: Vec<String> = facts.days.iter().map(cell).collect();
        if cells.iter().any(|cell| !cell.is_empty()) {
            table.row([hour.to_string()].into_iter().chain(cells));
        }
    }
    for near in facts.near {
        let blank = facts.days.iter().skip(1).map(|_| String::new());
        table.row([near.name.clone(), near.words.clone()].into_iter().chain(blank));
    }
    table
}
