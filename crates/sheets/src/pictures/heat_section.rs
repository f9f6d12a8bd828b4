//! The heat section: a column as wide as the year's sun, a stratum for each loss, what is left in
//! amber.

use year::ledger::KWH_J;
use year::section::{HeatSection, Loss};

use super::section_foot::foot;
use super::section_layout::{Layout, Station, Stratum, SunPlate, Width, names};
use crate::drawing::{Anchor, Drawing, Point};
use crate::measure::{broken, length_mm};
use crate::pen::{at, px};
use crate::role::Role;
use crate::table::Table;
use crate::words::{MONTH_LETTERS, MONTHS, kwh, whole};

/// What the picture shows.
#[derive(Clone, Debug)]
pub struct Facts<'a> {
    /// The build's title.
    pub title: &'a str,
    /// The year told apart.
    pub section: &'a HeatSection,
    /// Whether the panel's faces can be told apart.
    pub panel: PanelMade,
    /// What keeps the hot water hot besides.
    pub heater: HeaterKind,
}

/// How a panel came about.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PanelMade {
    /// At home, part by part.
    AtHome,
    /// Bought, known by its certificate.
    Bought,
}

/// What tops the water up.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum HeaterKind {
    /// A cylinder, which loses heat by standing.
    Cylinder,
    /// A heater that holds no water.
    Instantaneous,
}

/// Draws it.
pub fn draw(facts: &Facts, width: Width) -> Drawing {
    let section = facts.section;
    let layout = Layout::of(section, width, facts.panel == PanelMade::Bought);
    let mut drawing = Drawing {
        name: match width {
            Width::Page => "heat-section",
            Width::Phone => "heat-section-narrow",
        },
        title: format!("Heat section of the year: {}", facts.title),
        description: description(section, facts.panel),
        width_mm: px(layout.paper),
        height_mm: 0.0,
        hatch_scale: if width == Width::Page { 1.0 } else { 0.62 },
        shapes: Vec::new(),
        table: table(section, facts.panel),
    };
    head(&mut drawing, facts, &layout);
    strata_and_heat(&mut drawing, &layout);
    let mut taken = Vec::new();
    for station in &layout.stations {
        station_words(&mut drawing, &layout, station);
        for stratum in &station.strata {
            taken.push(label(&mut drawing, &layout, stratum));
        }
    }
    upright_plates(&mut drawing, &layout, &taken);
    plates(&mut drawing, &layout, section);
    drawing.height_mm = px(foot(&mut drawing, &layout, facts));
    drawing
}

pub(super) fn description(section: &HeatSection, panel: PanelMade) -> String {
    let mut text = format!(
        "A column as wide as the year's sun, {}. A stratum begins where heat is lost and runs down to the foot; what is left is spared to the heater: {}.",
        kwh(section.sun_j / KWH_J),
        kwh(section.spared_j / KWH_J)
    );
    for stratum in section.strata.iter().filter(|stratum| stratum.year_j >= 0.5 * KWH_J) {
        let (_, words) = names(stratum.loss, panel == PanelMade::Bought);
        text.push_str(&format!(" {}: {}.", words, kwh(stratum.year_j / KWH_J)));
    }
    text
}

/// The year's figures and the months'; the strata of the table make up the sun without remainder.
pub(super) fn table(section: &HeatSection, panel: PanelMade) -> Table {
    let mut heads = vec!["kWh", "year"];
    heads.extend(MONTHS);
    let mut table = Table::new("The year’s sun on the panels, and where it went", &heads);
    let mut row = |name: &str, year_j: f64, months_j: Option<[f64; 12]>| {
        let months = months_j.map_or(vec![String::new(); 12], |months_j| {
            months_j.iter().map(|&month_j| whole(month_j / KWH_J)).collect()
        });
        let year = whole(year_j / KWH_J);
        table.row([name.to_owned(), year].into_iter().chain(months));
    };
    row("the year’s sun", section.sun_j, Some(section.sun_months_j));
    for stratum in &section.strata {
        let (_, words) = names(stratum.loss, panel == PanelMade::Bought);
        row(words, stratum.year_j, Some(stratum.months_j));
    }
    row("spared to the heater", section.spared_j, Some(section.spared_months_j));
    row("the loft’s own warmth", section.loft_j, None);
    row("still bought", section.bought_j, None);
    row("all the heat behind the hot water", section.need_j(), None);
    table
}

/// The sentence at the top, how to read the column, the months over it.
fn head(drawing: &mut Drawing, facts: &Facts, layout: &Layout) {
    let section = facts.section;
    let (left, wide) = match layout.width {
        Width::Page => (56.0, 900.0),
        Width::Phone => (16.0, 358.0),
    };
    let answer =
        format!("In this year the build spares the heater {}.", kwh(section.spared_j / KWH_J));
    let title = broken(&answer, Role::Station, px(wide));
    drawing.lines(Role::Station, Anchor::Start, at(left, 50.0), 40.0, &title);
    let below = 50.0 + 40.0 * (title.len() as f64 - 1.0);
    let says = "Across is heat, down is its path; a stratum begins where heat is lost and lies there to \
                the foot. The threads in the heat are its months.";
    let lines = broken(says, Role::Caption, px(wide));
    drawing.lines(Role::Caption, Anchor::Start, at(left, below + 34.0), 21.0, &lines);
    months(drawing, layout);
}

pub(super) fn months(drawing: &mut Drawing, layout: &Layout) {
    let wide = layout.right - layout.left;
    let mut x = layout.left;
    let letters: Vec<usize> = match layout.width {
        Width::Page => (0..12).collect(),
        Width::Phone => vec![0, 3, 6, 9],
    };
    for (month, letter) in MONTH_LETTERS.into_iter().enumerate() {
        let thread = layout.sun_shares[month] * wide;
        if letters.contains(&month) {
            let even = layout.left + wide * (month as f64 + 0.5) / 12.0;
            let middle = x + 0.5 * thread;
            drawing.text(Role::Label, Anchor::Middle, at(even, layout.top - 20.0), letter);
            drawing
                .line(Role::Leader, &[at(even, layout.top - 15.0), at(middle, layout.top - 1.0)]);
        }
        x += thread;
    }
}

/// Strata, heat with its threads, edges.
pub(super) fn strata_and_heat(drawing: &mut Drawing, layout: &Layout) {
    let (foot, wedge, right) = (layout.foot, layout.wedge, layout.right);
    let mut edge = vec![at(layout.left, layout.top)];
    for stratum in layout.strata() {
        edge.push(at(stratum.left, stratum.top));
        edge.push(at(stratum.left + stratum.width, stratum.top + wedge));
    }
    edge.push(at(layout.heat_left(), foot));
    let mut heat = edge.clone();
    heat.extend([at(right, foot), at(right, layout.top)]);
    drawing.outline(Role::Heat, &heat);
    threads(drawing, layout);
    for stratum in layout.strata() {
        let Stratum { left, width, top, .. } = *stratum;
        drawing.outline(
            Role::Stratum(stratum.hatch),
            &[at(left, top), at(left + width, top + wedge), at(left + width, foot), at(left, foot)],
        );
    }
    for stratum in layout.strata().skip(1) {
        drawing.line(Role::Boundary, &[at(stratum.left, stratum.top), at(stratum.left, foot)]);
    }
    drawing.line(Role::HeatEdge, &edge);
    drawing.outline(
        Role::Column,
        &[
            at(layout.left, layout.top),
            at(right, layout.top),
            at(right, foot),
            at(layout.left, foot),
        ],
    );
}

/// Lines between the months. In narrow heat only those between the seasons.
fn threads(drawing: &mut Drawing, layout: &Layout) {
    const NARROW: f64 = 60.0;
    let mut levels = vec![(layout.top, layout.left, layout.sun_shares)];
    for stratum in layout.strata() {
        let (_, left, shares) = levels[levels.len() - 1];
        levels.push((stratum.top, left, shares));
        let behind = stratum.left + stratum.width;
        levels.push((stratum.top + layout.wedge, behind, stratum.month_shares));
    }
    let (_, left, shares) = levels[levels.len() - 1];
    levels.push((layout.foot, left, shares));
    let narrow = |left: f64| layout.width == Width::Phone || layout.right - left < NARROW;
    for month in 0..11 {
        let is_season = month % 3 == 1;
        let mut line: Vec<Point> = Vec::new();
        for &(y, left, shares) in &levels {
            if narrow(left) && !is_season {
                break;
            }
            let share: f64 = shares[..=month].iter().sum();
            line.push(at(left + share * (layout.right - left), y));
        }
        if line.len() > 1 {
            drawing.line(Role::Seam, &line);
        }
    }
}

fn station_words(drawing: &mut Drawing, layout: &Layout, station: &Station) {
    let y = station.top;
    match layout.width {
        Width::Page => {
            drawing.line(Role::Frame, &[at(56.0, y), at(layout.left - 1.0, y)]);
            drawing.line(Role::Frame, &[at(layout.right + 1.0, y), at(1000.0, y)]);
            drawing.text(Role::Station, Anchor::Start, at(56.0, y + 40.0), station.name);
            let lines = broken(station.says, Role::Lead, px(216.0));
            drawing.lines(Role::Lead, Anchor::Start, at(56.0, y + 70.0), 25.0, &lines);
            if station.name == "Sun" && layout.bar_kwh > 0.0 {
                let long = layout.bar_kwh * layout.scale;
                let down = y + 62.0 + 25.0 * lines.len() as f64 + 12.0;
                drawing.dimension(at(56.0, down), at(56.0 + long, down));
                drawing.text(
                    Role::Label,
                    Anchor::Start,
                    at(56.0 + long + 10.0, down + 5.0),
                    format!("is {}", kwh(layout.bar_kwh)),
                );
            }
        }
        Width::Phone => {
            drawing.line(Role::Frame, &[at(layout.right + 1.0, y), at(374.0, y)]);
            drawing.text(Role::Station, Anchor::Start, at(112.0, y + 38.0), station.name);
            let lines = broken(station.says, Role::Lead, px(262.0));
            drawing.lines(Role::Lead, Anchor::Start, at(112.0, y + 64.0), 24.0, &lines);
        }
    }
}

/// A loss's number, words and swatch, with a level leader to the wedge's tip. Returns the leader's
/// height.
pub(super) fn label(drawing: &mut Drawing, layout: &Layout, stratum: &Stratum) -> f64 {
    let y = stratum.top;
    match layout.width {
        Width::Page => {
            drawing.area(Role::Stratum(stratum.hatch), at(240.0, y - 9.0), at(268.0, y + 9.0));
            swatch_edge(drawing, at(240.0, y - 9.0), at(268.0, y + 9.0));
            drawing.text(Role::LossNumber, Anchor::End, at(226.0, y + 8.0), whole(stratum.kwh));
            let lines = broken(stratum.words, Role::Quiet, px(176.0));
            drawing.lines(Role::Quiet, Anchor::End, at(226.0, y + 30.0), 19.0, &lines);
            drawing.leader(&[at(268.0, y), at(stratum.left, y)]);
        }
        Width::Phone => {
            drawing.area(Role::Stratum(stratum.hatch), at(112.0, y - 9.0), at(140.0, y + 9.0));
            swatch_edge(drawing, at(112.0, y - 9.0), at(140.0, y + 9.0));
            drawing.text(Role::LossNumber, Anchor::Start, at(150.0, y + 8.0), whole(stratum.kwh));
            let lines = broken(stratum.words, Role::Quiet, px(154.0));
            drawing.lines(Role::Quiet, Anchor::Start, at(150.0, y + 30.0), 19.0, &lines);
            drawing.leader(&[at(112.0, y), at(stratum.left, y)]);
        }
    }
    y
}

pub(super) fn swatch_edge(drawing: &mut Drawing, from: Point, to: Point) {
    let corners = [
        from,
        Point { x_mm: to.x_mm, y_mm: from.y_mm },
        to,
        Point { x_mm: from.x_mm, y_mm: to.y_mm },
        from,
    ];
    drawing.line(Role::Boundary, &corners);
}

/// Number and name upright on every wide stratum, clear of the leaders that cross it.
pub(super) fn upright_plates(drawing: &mut Drawing, layout: &Layout, leaders: &[f64]) {
    const EVERY: f64 = 700.0;
    if layout.width == Width::Phone {
        return;
    }
    for stratum in layout.strata().filter(|stratum| stratum.width >= 60.0) {
        let words = format!("{} {}", whole(stratum.kwh), stratum.name);
        let long = length_mm(&words, Role::Label) / px(1.0) + 16.0;
        let x = stratum.left + 0.5 * stratum.width;
        let mut middle = stratum.top + layout.wedge + 60.0 + 0.5 * long;
        while middle + 0.5 * long < layout.foot - 10.0 {
            let (low, high) = (middle - 0.5 * long - 8.0, middle + 0.5 * long + 8.0);
            if leaders.iter().any(|&y| (low..high).contains(&y)) {
                middle += 10.0;
                continue;
            }
            drawing.area(
                Role::Plate,
                at(x - 13.0, middle - 0.5 * long),
                at(x + 13.0, middle + 0.5 * long),
            );
            drawing.upright(Role::Label, Anchor::Middle, at(x + 5.5, middle), words.clone());
            middle += EVERY;
        }
    }
}

/// What goes on, on plates inside the straight edge.
pub(super) fn plates(drawing: &mut Drawing, layout: &Layout, section: &HeatSection) {
    let y = match layout.width {
        Width::Page => layout.top + 26.0,
        Width::Phone => layout.top + 104.0,
    };
    if layout.sun_plate == SunPlate::Stands {
        plate(drawing, layout, y, layout.left, section.sun_j / KWH_J, "the year’s sun");
    }
    let mut last = None;
    for station in &layout.stations {
        for stratum in &station.strata {
            if stratum.loss == Some(Loss::ThrownBack) {
                let y = stratum.top + layout.wedge + below_words(layout);
                plate_after(drawing, layout, stratum, y, "into the sheet");
            }
            last = Some(stratum);
        }
        let words = match station.name {
            "Sun" => "on the panels",
            "Panel" => "leaves the panel",
            "Circuit" => "into the store",
            _ => continue,
        };
        if let Some(stratum) = station.strata.last() {
            let y = stratum.top + layout.wedge + below_words(layout);
            plate_after(drawing, layout, stratum, y, words);
        }
    }
    let left = last.map_or(layout.left, |stratum| stratum.left + stratum.width);
    let y = match layout.width {
        Width::Page => layout.foot - 300.0,
        Width::Phone => layout.foot - 310.0,
    };
    plate(drawing, layout, y, left, section.spared_j / KWH_J, "spared");
}

/// From a wedge's end to its plate: on a phone the loss's words reach further down than the wedge.
fn below_words(layout: &Layout) -> f64 {
    match layout.width {
        Width::Page => 8.0,
        Width::Phone => 20.0,
    }
}

fn plate_after(drawing: &mut Drawing, layout: &Layout, stratum: &Stratum, y: f64, words: &str) {
    plate(drawing, layout, y, stratum.left + stratum.width, stratum.after_kwh, words);
}

/// One plate: inside the heat, or over the straight edge where the heat is too narrow; never over the
/// strata.
fn plate(drawing: &mut Drawing, layout: &Layout, y: f64, heat_left: f64, value: f64, words: &str) {
    let number = kwh(value);
    let long = length_mm(&number, Role::PlateNumber).max(length_mm(words, Role::PlateWords))
        / px(1.0)
        + 18.0;
    let inside = layout.right - 10.0 - long > heat_left + 8.0;
    let (from, to) = if inside {
        (layout.right - 10.0 - long, layout.right - 10.0)
    } else {
        (layout.right - 6.0, layout.right - 6.0 + long)
    };
    drawing.area(Role::Plate, at(from, y), at(to, y + 52.0));
    drawing.text(Role::PlateNumber, Anchor::End, at(to - 9.0, y + 23.0), number);
    drawing.text(Role::PlateWords, Anchor::End, at(to - 9.0, y + 43.0), words);
}
