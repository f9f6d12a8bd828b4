//! One day of a computed year, for playing: its graph, and what stands at each minute.

use std::collections::BTreeMap;
use std::sync::Arc;

use axum::Json;
use axum::extract::{Path, State};
use axum::http::HeaderMap;
use axum::response::{IntoResponse, Response};
use design::quantity::Units;
use maud::Markup;
use physics::ZERO_CELSIUS_K;
use physics::climate::MONTH_STARTS_DAY;
use physics::panel::stagnation::Spot;
use serde::Serialize;
use sheets::pictures::Mover;
use sheets::svg;
use sheets::warmth::level;
use sheets::words::{decimal, degree_mark, degrees, reader_degrees, whole};
use year::Channel;
use year::heat_of_parts::spots_of_day;
use year::section::typical_day;

use super::House;
use super::answer::{not_here, worked};
use super::reader::Reader;
use super::reckoned::Reckoned;
use super::year::picture;
use crate::pictures::{StoreAt, cistern_picture, date, mover, strip_picture};

const MINUTES: usize = 1440;
const DAYS: usize = 365;

/// What the browser plays.
#[derive(Serialize)]
struct DayWire {
    day: usize,
    date: String,
    /// The day's graph, for a page and for a phone.
    strip: [String; 2],
    /// Shares of the graph's width where the day begins and ends, for a page and for a phone.
    ends: [[f64; 2]; 2],
    /// The cistern on that day's own scale.
    cistern: Option<String>,
    /// What stands at every minute, in words.
    words: Vec<String>,
    /// Figures by the name of the part of a drawing that shows them.
    texts: BTreeMap<String, Vec<String>>,
    /// Places on the heat scale likewise, 0 to 255.
    levels: BTreeMap<String, Vec<u8>>,
    /// Parts that run, likewise.
    runs: BTreeMap<String, Vec<bool>>,
    /// The minute to begin with: the store's hottest.
    minute: usize,
}

/// Answers with a day.
pub async fn day(
    State(house): State<Arc<House>>,
    Path((name, day)): Path<(String, usize)>,
    headers: HeaderMap,
) -> Response {
    let units = Reader::of(&headers).units;
    worked(move || {
        let shown = house.desk(&name).and_then(|desk| desk.look().shown);
        match shown.filter(|_| day < DAYS).and_then(|shown| day_wire(&shown, day, units)) {
            Some(wire) => Json(wire).into_response(),
            None => not_here(),
        }
    })
    .await
}

/// Days that stand for others, with what they are called: a summer's, a winter's, the hottest sheet's.
pub struct NamedDays {
    /// Typical of summer.
    pub summer: Option<usize>,
    /// Typical of winter.
    pub winter: Option<usize>,
    /// On which the sheet is hottest.
    pub worst: Option<usize>,
}

/// Finds them.
pub fn named_days(shown: &Reckoned) -> NamedDays {
    let is_north = shown.loaded.build.sun.place.latitude.degrees() >= 0.0;
    let (mid_year, year_end) = ([5, 6], [11, 0]);
    let (summer, winter) = if is_north { (mid_year, year_end) } else { (year_end, mid_year) };
    let typical =
        |months: &[usize; 2]| typical_day(&shown.base.forcing, months).map(|(day, _)| day);
    let worst = shown.recorder().series(Channel::Plate).and_then(|sheet_k| {
        let hottest = |day: &[f32]| day.iter().copied().fold(f32::MIN, f32::max);
        let days: Vec<f32> = sheet_k.chunks(MINUTES).map(hottest).collect();
        (0..days.len()).max_by(|&one, &other| days[one].total_cmp(&days[other]))
    });
    NamedDays { summer: typical(&summer), winter: typical(&winter), worst }
}

fn day_wire(shown: &Reckoned, day: usize, units: Units) -> Option<DayWire> {
    let recorder = shown.recorder();
    let span = day * MINUTES..(day + 1) * MINUTES;
    let series = |channel| recorder.series(channel)?.get(span.clone());
    let read = |k: f32| reader_degrees(f64::from(k) - ZERO_CELSIUS_K, units);
    let mark = degree_mark(units);
    let text = |k: f32| format!("{}{mark}", decimal(read(k), 1));
    let mut texts = BTreeMap::new();
    let mut levels = BTreeMap::new();
    let mut runs = BTreeMap::new();
    panel_texts(shown, (day, series(Channel::Plate)?), units, &mut texts);
    let at = StoreAt::hottest_of(&recorder, &shown.base.forcing, day);
    if let Some(at) = &at {
        for layer in 0..at.layers_c.len() {
            let layer_k = series(Channel::StoreLayer(layer as u8))?;
            texts.insert(
                format!("store.layer.{layer}.c"),
                layer_k.iter().map(|&k| text(k)).collect(),
            );
            let warmth =
                |&k: &f32| level(f64::from(k) - ZERO_CELSIUS_K, at.ends_c[0], at.ends_c[1]);
            levels.insert(format!("store.layer.{layer}"), layer_k.iter().map(warmth).collect());
        }
    }
    let moves = match mover(&shown.loaded) {
        Mover::Pump => Channel::Pump,
        Mover::Weight => Channel::Flow,
    };
    let running: Vec<bool> = series(moves)?.iter().map(|&runs| runs > 0.0).collect();
    let words = (0..MINUTES)
        .map(|minute| {
            let value = |channel| series(channel).map_or(0.0, |all| f64::from(all[minute]));
            let top = text(value(Channel::StoreTop) as f32);
            let bottom = text(value(Channel::StoreBottom) as f32);
            format!(
                "{:02}:{:02}. Light into the sheet {}\u{a0}W/m\u{b2}; {}; store {top} at the top, {bottom} below{}.",
                minute / 60,
                minute % 60,
                whole(value(Channel::Absorbed)),
                if running[minute] {
                    format!("fluid moving, {}\u{a0}W to the store", whole(value(Channel::CoilHeat)))
                } else {
                    "fluid at rest".to_owned()
                },
                if value(Channel::Draw) > 0.0 { "; water drawn" } else { "" },
            )
        })
        .collect();
    runs.insert("circuit.pump".to_owned(), running);
    let strip = strip_picture(&shown.loaded, &recorder, day, units)?;
    let narrow = strip.narrow.as_ref().unwrap_or(&strip.wide);
    let top = series(Channel::StoreTop)?;
    Some(DayWire {
        day,
        date: date(day),
        ends: [
            shares(&strip.wide, sheets::pictures::Width::Page),
            shares(narrow, sheets::pictures::Width::Phone),
        ],
        strip: [svg::on_page(&strip.wide), svg::on_page(narrow)],
        cistern: at.map(|at| {
            let drawn: Markup = picture(&cistern_picture(&shown.loaded, &at, units));
            drawn.into_string()
        }),
        words,
        texts,
        levels,
        runs,
        minute: (0..MINUTES).max_by(|&one, &other| top[one].total_cmp(&top[other]))?,
    })
}

/// The panel's parts by the names that the box section gives them, and the minute over their column.
fn panel_texts(
    shown: &Reckoned,
    day: (usize, &[f32]),
    units: Units,
    texts: &mut BTreeMap<String, Vec<String>>,
) {
    let build = &shown.base.build;
    let mut named = vec![("panel.sheet".to_owned(), Spot::Sheet)];
    if let Some(built) = build.panel.panels.first().and_then(|panel| panel.built()) {
        for cover in 0..built.covers.len() {
            named.push((format!("panel.cover.{cover}.inside"), Spot::CoverInside(cover)));
            named.push((format!("panel.cover.{cover}.outside"), Spot::CoverOutside(cover)));
        }
        named.extend(
            (0..built.back.len()).map(|layer| (format!("panel.back.{layer}"), Spot::Back(layer))),
        );
        named.push(("panel.rim".to_owned(), Spot::Rim));
    }
    let spots: Vec<Spot> = named.iter().map(|&(_, spot)| spot).collect();
    let along_m = shown.loaded.design.outlet_metal_m;
    // Weather beyond the relations leaves the drawing as it is: the year itself does not hang on it.
    let found = spots_of_day(build, &shown.base.forcing, day, &spots, along_m);
    let Ok(found) = found else { return };
    for ((name, _), series_k) in named.into_iter().zip(found) {
        let text = |k: f64| degrees(k - ZERO_CELSIUS_K, units);
        texts.insert(format!("{name}.c"), series_k.into_iter().map(text).collect());
    }
    let moments = (0..MINUTES).map(|minute| format!("{:02}:{:02}", minute / 60, minute % 60));
    texts.insert("panel.moment".to_owned(), moments.collect());
}

fn shares(drawing: &sheets::Drawing, width: sheets::pictures::Width) -> [f64; 2] {
    sheets::pictures::strip::ends_mm(width).map(|x_mm| x_mm / drawing.width_mm)
}

/// The months with their days, for choosing one.
pub fn months() -> impl Iterator<Item = (usize, &'static str, usize)> {
    (0..12).map(|month| {
        let first = MONTH_STARTS_DAY[month];
        (first, design::MONTHS[month], MONTH_STARTS_DAY[month + 1] - first)
    })
}
