//! A year as a map of day against hour: each day a column, each hour a row.

use design::quantity::Units;

use super::frame::{Names, below, caption, paper};
use super::scale::bar;
use super::{Mover, Width};
use crate::drawing::{Anchor, Area, Drawing, Form};
use crate::pen::{at, px};
use crate::role::Role;
use crate::table::Table;
use crate::warmth::level;
use crate::words::{MONTH_LETTERS, MONTHS, degree_mark, degrees, reader_degrees, whole};

/// What the picture shows.
#[derive(Clone, Debug)]
pub struct Facts<'a> {
    /// The build's title.
    pub title: &'a str,
    /// What is mapped.
    pub shown: Shown,
    /// Its mean in every hour of the year: \[C\], \[W/m2\], or minutes in the hour.
    pub hours: &'a [f64],
    /// First day of every month, from 0, and the day after the last.
    pub month_starts: &'a [usize],
    /// Least, mean and greatest hour of every month.
    pub months: &'a [[f64; 3]],
    /// The reader's units.
    pub units: Units,
}

/// What is mapped.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Shown {
    /// Top of the store \[C\].
    StoreTop,
    /// Fluid leaving the panel, or the sheet there while it rests \[C\].
    PanelOut,
    /// Light taken up by the sheet \[W/m2\].
    Absorbed,
    /// Minutes of the hour in which the fluid is moved.
    Running(Mover),
}

impl Shown {
    fn names(self) -> Names {
        match self {
            Shown::StoreTop => Names { page: "store-year", phone: "store-year-narrow" },
            Shown::PanelOut => Names { page: "panel-year", phone: "panel-year-narrow" },
            Shown::Absorbed => Names { page: "light-year", phone: "light-year-narrow" },
            Shown::Running(_) => Names { page: "running-year", phone: "running-year-narrow" },
        }
    }

    /// Its name in a sentence.
    fn words(self) -> &'static str {
        match self {
            Shown::StoreTop => "the store\u{2019}s top",
            Shown::PanelOut => "the panel\u{2019}s outlet",
            Shown::Absorbed => "the light into the sheet",
            Shown::Running(Mover::Pump) => "the pump\u{2019}s running",
            Shown::Running(Mover::Weight) => "the fluid\u{2019}s moving",
        }
    }

    fn is_warm(self) -> bool {
        matches!(self, Shown::StoreTop | Shown::PanelOut)
    }

    /// A figure of it with its unit.
    fn figure(self, value: f64, units: Units) -> String {
        match self {
            Shown::StoreTop | Shown::PanelOut => degrees(value, units),
            Shown::Absorbed => format!("{}\u{a0}W/m\u{b2}", whole(value)),
            Shown::Running(_) => format!("{}\u{a0}min", whole(value)),
        }
    }

    /// Ends of the map's scale: whole degrees outwards, or from nothing to a round figure.
    fn ends(self, hours: &[f64]) -> [f64; 2] {
        let low = hours.iter().copied().fold(f64::MAX, f64::min);
        let high = hours.iter().copied().fold(f64::MIN, f64::max);
        match self {
            Shown::StoreTop | Shown::PanelOut => [low.floor(), high.ceil()],
            Shown::Absorbed => [0.0, (high / 100.0).ceil().max(1.0) * 100.0],
            Shown::Running(_) => [0.0, 60.0],
        }
    }
}

/// How far a day's cells lie under the next day's, so that no ground shows between them, in pixels.
const LAP: f64 = 0.5;
/// Steps of the scale that are told apart on the map.
const STEP: u8 = 8;
/// Where the first day begins, in pixels.
const LEFT: f64 = 52.0;

/// Sizes of the map, in pixels.
struct Sizes {
    wide: f64,
    /// Width of a day.
    day: f64,
    /// Height of an hour.
    hour: f64,
    /// Between two months.
    gap: f64,
}

impl Sizes {
    fn of(width: Width) -> Sizes {
        match width {
            Width::Page => Sizes { wide: 1056.0, day: 2.5, hour: 11.0, gap: 5.0 },
            Width::Phone => Sizes { wide: 374.0, day: 0.78, hour: 9.0, gap: 2.0 },
        }
    }

    fn left_of(&self, day: usize, month: usize) -> f64 {
        LEFT + self.day * day as f64 + self.gap * month as f64
    }
}

/// Left side of every day's column, and the right side of the last \[mm\]: a place between two of them
/// lies in that day, or in the gap behind it.
pub fn day_sides_mm(width: Width, month_starts: &[usize]) -> Vec<f64> {
    let sizes = Sizes::of(width);
    let mut sides: Vec<f64> = Vec::new();
    for (month, ends) in month_starts.windows(2).enumerate() {
        sides.extend((ends[0]..ends[1]).map(|day| px(sizes.left_of(day, month))));
    }
    if let Some(&last) = sides.last() {
        sides.push(last + px(sizes.day));
    }
    sides
}

/// Draws it.
pub fn draw(facts: &Facts, width: Width) -> Drawing {
    let name = facts.shown.names().of(width);
    let sizes = Sizes::of(width);
    let words = facts.shown.words();
    let title = format!("{} through the year: {}", capital(words), facts.title);
    let mut drawing = paper(name, title, sizes.wide, table(facts));
    let head = format!(
        "{}, hour by hour: days to the right, the hours of each day upwards",
        capital(words)
    );
    let top = caption(&mut drawing, 16.0, &head) + 20.0;
    let [lowest, highest] = facts.shown.ends(facts.hours);
    let bottom = top + 24.0 * sizes.hour;
    let mut cells: Vec<Vec<Area>> = vec![Vec::new(); 256];
    for (month, ends) in facts.month_starts.windows(2).enumerate() {
        for at_day in ends[0]..ends[1] {
            let x = sizes.left_of(at_day, month);
            let hours = &facts.hours[at_day * 24..(at_day + 1) * 24];
            for (from, to, warmth) in runs(hours, lowest, highest) {
                cells[usize::from(warmth)].push(crate::pen::between(
                    at(x, bottom - sizes.hour * to as f64),
                    at(x + sizes.day + LAP, bottom - sizes.hour * from as f64),
                ));
            }
        }
    }
    for (warmth, cells) in cells.into_iter().enumerate().filter(|(_, cells)| !cells.is_empty()) {
        drawing.add(Role::Warmth(warmth as u8), Form::Cells(cells));
    }
    for six in 0..=4 {
        let y = bottom - sizes.hour * 6.0 * f64::from(six);
        drawing.line(Role::Leader, &[at(LEFT - 6.0, y), at(LEFT - 1.0, y)]);
        drawing.text(Role::Quiet, Anchor::End, at(LEFT - 9.0, y + 5.5), (6 * six).to_string());
    }
    for (month, ends) in facts.month_starts.windows(2).enumerate() {
        let middle = 0.5 * (sizes.left_of(ends[0], month) + sizes.left_of(ends[1], month));
        let words = if width == Width::Page { MONTHS[month] } else { MONTH_LETTERS[month] };
        drawing.text(Role::Label, Anchor::Middle, at(middle, bottom + 20.0), words);
    }
    let (own, marks) = match facts.shown {
        shown if shown.is_warm() => (
            [lowest, highest].map(|end_c| reader_degrees(end_c, facts.units)),
            ["\u{b0}", degree_mark(facts.units)],
        ),
        Shown::Absorbed => ([lowest, highest], ["", "W/m\u{b2}"]),
        _ => ([lowest, highest], ["", "min"]),
    };
    let long = sizes.wide.min(560.0) - 110.0;
    let foot = bar(&mut drawing, at(LEFT, bottom + 46.0), long, own, marks);
    drawing.description = describe(facts);
    let words = describe(facts);
    let end = below(&mut drawing, 16.0, foot + 34.0, &words);
    drawing.height_mm = px(end + 18.0);
    drawing
}

/// A sentence's first letter.
fn capital(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map_or(String::new(), |first| first.to_uppercase().chain(letters).collect())
}

/// Hours of a day that show the same step of the scale, as one: from, to, step.
fn runs(hours: &[f64], lowest: f64, highest: f64) -> Vec<(usize, usize, u8)> {
    let step =
        |c: f64| (level(c, lowest, highest) / STEP).saturating_mul(STEP).saturating_add(STEP / 2);
    let mut runs: Vec<(usize, usize, u8)> = Vec::new();
    for (hour, &c) in hours.iter().enumerate() {
        match runs.last_mut() {
            Some(run) if run.2 == step(c) => run.1 = hour + 1,
            _ => runs.push((hour, hour + 1, step(c))),
        }
    }
    runs
}

fn describe(facts: &Facts) -> String {
    let most = facts.months.iter().map(|month| month[2]).fold(f64::MIN, f64::max);
    let least = facts.months.iter().map(|month| month[0]).fold(f64::MAX, f64::min);
    format!(
        "Hour by hour {} lies between {} and {}. Lighter is {}.",
        facts.shown.words(),
        facts.shown.figure(least, facts.units),
        facts.shown.figure(most, facts.units),
        if facts.shown.is_warm() { "hotter" } else { "more" }
    )
}

fn table(facts: &Facts) -> Table {
    let (least, most) = match facts.shown.is_warm() {
        true => ("coldest hour", "hottest hour"),
        false => ("least in an hour", "most in an hour"),
    };
    let mut table = Table::new(
        format!("{}, hour means by month", capital(facts.shown.words())),
        &["month", least, "mean", most],
    );
    for (month, values) in facts.months.iter().enumerate() {
        let cells = values.iter().map(|&value| facts.shown.figure(value, facts.units));
        table.row([MONTHS[month].to_owned()].into_iter().chain(cells));
    }
    table
}

#[cfg(test)]
mod tests {
    use super::{day_sides_mm, runs};
    use crate::pictures::Width;

    /// Given a day, its runs cover every hour once, in order, and part where the step changes.
    #[test]
    fn a_days_runs_cover_it_once() {
        let hours: Vec<f64> = (0..24).map(|hour| 20.0 + f64::from(hour % 12) * 3.0).collect();
        let found = runs(&hours, 20.0, 60.0);
        let mut next = 0;
        for (from, to, _) in &found {
            assert_eq!(*from, next);
            next = *to;
        }
        assert_eq!(next, 24);
        assert!(found.windows(2).all(|pair| pair[0].2 != pair[1].2));
        assert_eq!(runs(&[20.0; 24], 20.0, 60.0).len(), 1);
    }

    /// Given a year of 365 days in twelve months, every day has its column, in order; eleven gaps
    /// part the months.
    #[test]
    fn every_day_has_its_column() {
        let starts = [0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334, 365];
        for width in [Width::Page, Width::Phone] {
            let sides = day_sides_mm(width, &starts);
            assert_eq!(sides.len(), 366);
            let steps: Vec<f64> = sides.windows(2).map(|pair| pair[1] - pair[0]).collect();
            let day_mm = steps[0];
            assert!(day_mm > 0.0 && steps.iter().all(|step| *step >= day_mm - 1e-9));
            assert_eq!(steps.iter().filter(|step| **step > day_mm + 1e-9).count(), 11);
        }
    }
}
