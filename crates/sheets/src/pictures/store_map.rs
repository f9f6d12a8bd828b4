//! The store through the year: a map of day against hour.

use design::quantity::Units;

use super::Width;
use super::frame::{Names, below, caption, paper};
use super::scale::scale;
use crate::drawing::{Anchor, Area, Drawing, Form};
use crate::pen::{at, px};
use crate::role::Role;
use crate::table::Table;
use crate::warmth::level;
use crate::words::{MONTH_LETTERS, MONTHS, degrees};

/// What the picture shows.
#[derive(Clone, Debug)]
pub struct Facts<'a> {
    /// The build's title.
    pub title: &'a str,
    /// Top of the store, mean of every hour of the year \[C\].
    pub store_top_c: &'a [f64],
    /// First day of every month, from 0, and the day after the last.
    pub month_starts: &'a [usize],
    /// Coldest, mean and hottest hour of every month \[C\].
    pub months_c: &'a [[f64; 3]],
    /// The reader's units.
    pub units: Units,
}

/// How far a day's cells lie under the next day's, so that no ground shows between them, in pixels.
const LAP: f64 = 0.5;
/// Steps of the scale that are told apart on the map.
const STEP: u8 = 8;

/// Draws it.
pub fn draw(facts: &Facts, width: Width) -> Drawing {
    let name = Names { page: "store-year", phone: "store-year-narrow" }.of(width);
    let (wide, day, hour, gap) = match width {
        Width::Page => (1056.0, 2.5, 11.0, 5.0),
        Width::Phone => (374.0, 0.78, 9.0, 2.0),
    };
    let title = format!("The store through the year: {}", facts.title);
    let mut drawing = paper(name, title, wide, table(facts));
    let words = "Top of the store, hour by hour: days to the right, the hours of each day upwards";
    let top = caption(&mut drawing, 16.0, words) + 20.0;
    let left = 52.0;
    let (lowest, highest) = ends(facts);
    let bottom = top + 24.0 * hour;
    let mut cells: Vec<Vec<Area>> = vec![Vec::new(); 256];
    for (month, ends) in facts.month_starts.windows(2).enumerate() {
        for at_day in ends[0]..ends[1] {
            let x = left + day * at_day as f64 + gap * month as f64;
            let hours = &facts.store_top_c[at_day * 24..(at_day + 1) * 24];
            for (from, to, warmth) in runs(hours, lowest, highest) {
                cells[usize::from(warmth)].push(crate::pen::between(
                    at(x, bottom - hour * to as f64),
                    at(x + day + LAP, bottom - hour * from as f64),
                ));
            }
        }
    }
    for (warmth, cells) in cells.into_iter().enumerate().filter(|(_, cells)| !cells.is_empty()) {
        drawing.add(Role::Warmth(warmth as u8), Form::Cells(cells));
    }
    for six in 0..=4 {
        let y = bottom - hour * 6.0 * f64::from(six);
        drawing.line(Role::Leader, &[at(left - 6.0, y), at(left - 1.0, y)]);
        drawing.text(Role::Quiet, Anchor::End, at(left - 9.0, y + 5.5), (6 * six).to_string());
    }
    for (month, ends) in facts.month_starts.windows(2).enumerate() {
        let middle = left + 0.5 * day * (ends[0] + ends[1]) as f64 + gap * month as f64;
        let words = if width == Width::Page { MONTHS[month] } else { MONTH_LETTERS[month] };
        drawing.text(Role::Label, Anchor::Middle, at(middle, bottom + 20.0), words);
    }
    let foot = scale(
        &mut drawing,
        at(left, bottom + 46.0),
        wide.min(560.0) - 80.0,
        [lowest, highest],
        facts.units,
    );
    drawing.description = describe(facts);
    let words = describe(facts);
    let end = below(&mut drawing, 16.0, foot + 34.0, &words);
    drawing.height_mm = px(end + 18.0);
    drawing
}

/// The picture's own ends, rounded outwards to whole degrees.
fn ends(facts: &Facts) -> (f64, f64) {
    let low = facts.store_top_c.iter().copied().fold(f64::MAX, f64::min).floor();
    let high = facts.store_top_c.iter().copied().fold(f64::MIN, f64::max).ceil();
    (low, high)
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
    let most = facts.months_c.iter().map(|month| month[2]).fold(f64::MIN, f64::max);
    let least = facts.months_c.iter().map(|month| month[0]).fold(f64::MAX, f64::min);
    format!(
        "The hour means of the store’s top run from {} to {}. Lighter is hotter.",
        degrees(least, facts.units),
        degrees(most, facts.units)
    )
}

fn table(facts: &Facts) -> Table {
    let mut table = Table::new(
        "Top of the store, hour means by month",
        &["month", "coldest hour", "mean", "hottest hour"],
    );
    for (month, values) in facts.months_c.iter().enumerate() {
        let cells = values.iter().map(|&c| degrees(c, facts.units));
        table.row([MONTHS[month].to_owned()].into_iter().chain(cells));
    }
    table
}

#[cfg(test)]
mod tests {
    use super::runs;

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
}
