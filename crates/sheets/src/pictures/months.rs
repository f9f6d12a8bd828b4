//! The year by months, set like an almanac: twelve columns drawn and in figures.

use design::quantity::Units;

use super::Mover;
use super::frame::paper;
use crate::drawing::{Anchor, Drawing};
use crate::hatch::Hatch;
use crate::pen::{at, px};
use crate::role::Role;
use crate::table::Table;
use crate::words::{MONTHS, degree_mark, reader_degrees, whole};

use super::heat_section::swatch_edge;

/// One month, or the year.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Month {
    /// Heater's work without a panel \[kWh\].
    pub twin_kwh: f64,
    /// Spared \[kWh\].
    pub spared_kwh: f64,
    /// Spared over the heater's work without a panel.
    pub share: f64,
    /// Hottest the store got \[C\].
    pub store_max_c: f64,
    /// Time the fluid was moved towards the store \[h\].
    pub running_hours: f64,
    /// Time it ran backwards by its own weight \[h\].
    pub backwards_hours: f64,
    /// What a pump used \[kWh\].
    pub pump_kwh: f64,
}

/// What the picture shows.
#[derive(Clone, Debug)]
pub struct Facts<'a> {
    /// The build's title.
    pub title: &'a str,
    /// January first.
    pub months: &'a [Month],
    /// The whole year.
    pub year: Month,
    /// What moves the fluid.
    pub mover: Mover,
    /// The reader's units.
    pub units: Units,
}

/// From the middle of one month's column to the next.
const STEP: f64 = 60.0;
const FIRST: f64 = 258.0;
const YEAR: f64 = 1020.0;

/// Draws it.
pub fn draw(facts: &Facts) -> Drawing {
    let title = format!("The year by months: {}", facts.title);
    let mut drawing = paper("months", title, 1056.0, table(facts));
    let middle = |month: usize| FIRST + STEP * month as f64;
    for (month, name) in MONTHS.iter().enumerate() {
        drawing.text(Role::Value, Anchor::Middle, at(middle(month), 34.0), *name);
    }
    drawing.text(Role::Value, Anchor::End, at(YEAR, 34.0), "year");
    bars(&mut drawing, facts, middle);
    let mut y = 240.0;
    for (head, role, cells) in figures(facts) {
        drawing.line(Role::Rule, &[at(16.0, y - 22.0), at(1040.0, y - 22.0)]);
        drawing.text(Role::Label, Anchor::Start, at(16.0, y), head);
        for (place, cell) in cells.into_iter().enumerate() {
            let is_year = place == 12;
            let x = if is_year { YEAR } else { middle(place) + 18.0 };
            let role = if is_year { Role::Value } else { role };
            drawing.text(role, Anchor::End, at(x, y), cell);
        }
        y += 34.0;
    }
    drawing.description = format!(
        "Without a panel the heater gives {} kWh in the year; the panel spares it {} of them, most in {}.",
        whole(facts.year.twin_kwh),
        whole(facts.year.spared_kwh),
        best(facts)
    );
    drawing.height_mm = px(y);
    drawing
}

fn best(facts: &Facts) -> &'static str {
    let most = facts.months.iter().map(|month| month.spared_kwh).fold(f64::MIN, f64::max);
    let place = facts.months.iter().position(|month| month.spared_kwh == most).unwrap_or(0);
    MONTHS[place.min(11)]
}

/// A column as high as the heater's work without a panel, what is spared filled from below.
fn bars(drawing: &mut Drawing, facts: &Facts, middle: impl Fn(usize) -> f64) {
    const FOOT: f64 = 200.0;
    const HIGH: f64 = 146.0;
    let most = facts.months.iter().map(|month| month.twin_kwh).fold(1e-9, f64::max);
    for (place, month) in facts.months.iter().enumerate() {
        let (left, right) = (middle(place) - 19.0, middle(place) + 19.0);
        let high = |kwh: f64| FOOT - HIGH * kwh.max(0.0) / most;
        let (top, filled) = (high(month.twin_kwh), high(month.spared_kwh.min(month.twin_kwh)));
        drawing.area(Role::Stratum(Hatch::Bought), at(left, top), at(right, filled));
        drawing.area(Role::Heat, at(left, filled), at(right, FOOT));
        swatch_edge(drawing, at(left, top), at(right, FOOT));
        drawing.line(Role::Boundary, &[at(left, filled), at(right, filled)]);
    }
    drawing.line(Role::Frame, &[at(230.0, FOOT), at(middle(11) + 28.0, FOOT)]);
    for (role, y, words) in [
        (Role::Stratum(Hatch::Bought), 96.0, "heater’s work, still bought"),
        (Role::Heat, 130.0, "spared by the panel"),
    ] {
        drawing.area(role, at(16.0, y - 14.0), at(44.0, y + 4.0));
        swatch_edge(drawing, at(16.0, y - 14.0), at(44.0, y + 4.0));
        drawing.text(Role::Label, Anchor::Start, at(52.0, y), words);
    }
}

type Row = (String, Role, Vec<String>);
/// What a row shows of a month.
type Cell = fn(&Month) -> f64;

fn figures(facts: &Facts) -> Vec<Row> {
    let all: Vec<Month> = facts.months.iter().chain([&facts.year]).copied().collect();
    let row = |head: String, role: Role, cell: Cell| -> Row {
        (head, role, all.iter().map(|month| whole(cell(month))).collect())
    };
    let hottest = all.iter().map(|month| whole(reader_degrees(month.store_max_c, facts.units)));
    let mut rows = vec![
        row("without a panel, kWh".to_owned(), Role::Label, |month| month.twin_kwh),
        row("spared, kWh".to_owned(), Role::Value, |month| month.spared_kwh),
        row("parts in 100".to_owned(), Role::Label, |month| 100.0 * month.share),
        (format!("hottest store, {}", degree_mark(facts.units)), Role::Label, hottest.collect()),
    ];
    let last: [(&str, Cell); 2] = match facts.mover {
        Mover::Pump => [
            ("pump running, hours", |month| month.running_hours),
            ("pump’s electricity, kWh", |month| month.pump_kwh),
        ],
        Mover::Weight => [
            ("fluid running, hours", |month| month.running_hours),
            ("running backwards, hours", |month| month.backwards_hours),
        ],
    };
    rows.extend(last.map(|(head, cell)| row(head.to_owned(), Role::Label, cell)));
    rows
}

fn table(facts: &Facts) -> Table {
    let mut heads = vec!["what"];
    heads.extend(MONTHS);
    heads.push("year");
    let mut table = Table::new("The year by months", &heads);
    for (head, _, cells) in figures(facts) {
        table.row([head].into_iter().chain(cells));
    }
    table
}
