//! The five stations: beside each piece of the column its drawings and its numbers.

use advice::worry;
use maud::{Markup, PreEscaped, html};
use sheets::page::Picture;
use sheets::pictures::Width;
use sheets::pictures::column::{Column, draw};
use sheets::svg::{self, Tiles};

use super::super::numbers::Numbers;
use super::super::shell::address;
use super::notes::notes;
use super::picture;
use crate::pictures::section_facts;

/// One station of the page.
struct Station {
    id: &'static str,
    /// As worries know it.
    of: worry::Station,
    name: &'static str,
    says: &'static str,
    /// Tables of the design file whose values belong here.
    tables: &'static [&'static str],
    /// Its pictures, the first open, by their names.
    pictures: &'static [&'static str],
}

const STATIONS: [Station; 5] = [
    Station {
        id: "sun",
        of: worry::Station::Sun,
        name: "Sun",
        says: "Across is heat, down its path. What is lost stays at the left to the foot; each thread is a month.",
        tables: &["sun"],
        pictures: &["sky", "light-year"],
    },
    Station {
        id: "panel",
        of: worry::Station::Panel,
        name: "Panel",
        says: "Light turns to heat in the sheet, and the fluid takes it.",
        tables: &["panel"],
        pictures: &["box-section", "plate", "efficiency", "panel-year"],
    },
    Station {
        id: "circuit",
        of: worry::Station::Circuit,
        name: "Circuit",
        says: "Up the flow pipe, through the coil, back to the panel; the controller says when.",
        tables: &["circuit", "control"],
        pictures: &["house", "pump", "running-year"],
    },
    Station {
        id: "store",
        of: worry::Station::Store,
        name: "Store",
        says: "The cistern holds the heat until someone draws.",
        tables: &["store"],
        pictures: &["cistern", "store-year"],
    },
    Station {
        id: "tap",
        of: worry::Station::Tap,
        name: "Tap",
        says: "What the heater need not give.",
        tables: &["tap"],
        pictures: &["draws", "day-summer", "day-winter"],
    },
];

/// Drawings that come when they are asked for: a year of hours is long.
const BY_ITSELF: [&str; 7] = [
    "light-year",
    "efficiency",
    "panel-year",
    "running-year",
    "store-year",
    "day-summer",
    "day-winter",
];

/// A drawing's title without the build's own, which stands at the head of the sheet.
pub fn short_title<'a>(title: &'a str, build: &str) -> &'a str {
    title.strip_suffix(build).map_or(title, |title| title.trim_end_matches([':', ' ']))
}

/// Draws them.
pub fn stations(numbers: &Numbers, pictures: &[Picture]) -> Markup {
    let shown = numbers.shown;
    let facts = section_facts(&shown.loaded, &shown.section);
    let former = numbers.state.former.as_ref().map(|former| &former.section);
    // The scale is the former year's while a change lies on the slip: it does not jump under the hand.
    let column = |width: Width| {
        let scale = numbers.state.former.as_ref().map(|former| {
            let facts = section_facts(&former.loaded, &former.section);
            draw(&facts, width, None, None).scale_px_kwh
        });
        draw(&facts, width, former, scale)
    };
    let (wide, narrow) = (column(Width::Page), column(Width::Phone));
    html! {
        @for (place, station) in STATIONS.iter().enumerate() {
            (drawn(station, place, numbers, (&wide, &narrow), pictures))
        }
        section id="foot" class="core-foot" data-part="" aria-label="Where the year’s sun went" {
            div class="at-wide" { (PreEscaped(svg::strip(&wide.drawing, wide.foot, Tiles::Shared))) }
            div class="at-narrow" { (PreEscaped(svg::strip(&narrow.drawing, narrow.foot, Tiles::Shared))) }
            details id="t-column" data-keep="" {
                summary { "As a table: where the year’s sun went" }
                div class="facts" tabindex="0" role="group" aria-label="Table: where the year’s sun went" { (PreEscaped(wide.drawing.table.html())) }
            }
        }
    }
}

fn drawn(
    station: &Station,
    place: usize,
    numbers: &Numbers,
    (wide, narrow): (&Column, &Column),
    pictures: &[Picture],
) -> Markup {
    let tiles = if place == 0 { Tiles::Own } else { Tiles::Shared };
    let pieces = narrow.stations[place];
    let strip = |strip, tiles| PreEscaped(svg::strip(&narrow.drawing, strip, tiles));
    html! {
        section id=(station.id) class="stage" data-part="" data-station=(place + 1) aria-labelledby={ (station.id) "-name" } tabindex="-1" {
            div class="core at-wide" {
                (PreEscaped(svg::strip(&wide.drawing, wide.stations[place].whole, tiles)))
            }
            header class="stage-head" {
                div class="rail at-narrow" { (strip(pieces.whole, tiles)) }
                h2 id={ (station.id) "-name" } { (station.name) }
                p class="says" { (station.says) }
            }
            @if pieces.wedges.height_mm > 0.0 {
                div class="wedges at-narrow" { (strip(pieces.wedges, Tiles::Shared)) }
            }
            div class="stage-body" {
                div class="rail at-narrow" { (strip(pieces.behind, Tiles::Shared)) }
                div class="beside" {
                    (drawings(&station.pictures[..1], station, pictures, numbers))
                    (numbers.of(station.tables, station.id))
                    (notes(numbers, station.of))
                    (drawings(&station.pictures[1..], station, pictures, numbers))
                }
            }
        }
    }
}

/// Some of the station's drawings; while they are drawn anew, those of the build as it was.
fn drawings(names: &[&str], station: &Station, pictures: &[Picture], numbers: &Numbers) -> Markup {
    let named = |name: &str| pictures.iter().find(|picture| picture.wide.name == name);
    html! {
        @if numbers.late.are_former && names.contains(&station.pictures[0]) {
            p class="quiet" {
                @if pictures.is_empty() { "The drawings are being made." }
                @else { "The drawings still show the build as it was." }
            }
        }
        @for name in names {
            @if let Some(found) = named(name) {
                @if !BY_ITSELF.contains(name) { (picture(found)) } @else {
                    details class="more later" id={ "d-" (name) } data-keep="" data-src={ (address(numbers.build)) "/picture/" (name) } data-number=(numbers.shown.number) {
                        summary { (short_title(&found.wide.title, &numbers.shown.loaded.design.title)) }
                        p { a href={ (address(numbers.build)) "/picture/" (name) } { "The drawing by itself" } }
                    }
                }
            }
        }
    }
}
