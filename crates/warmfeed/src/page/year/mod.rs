//! The year of a build: the answer, the heat section station by station with its drawings and numbers,
//! the months.

mod answer;
mod notes;
mod slips;
mod station;
mod strip;

use std::sync::Arc;
use std::sync::atomic::Ordering;

use axum::extract::{Path, State as Held};
use axum::http::HeaderMap;
use axum::response::Response;
use design::quantity::Units;
use maud::{Markup, PreEscaped, html};
use physics::climate::MONTH_STARTS_DAY;
use sheets::Drawing;
use sheets::page::Picture;
use sheets::pen::px;
use sheets::pictures::Width;
use sheets::pictures::year_map::day_sides_mm;
use sheets::svg;

use super::House;
use super::answer::{not_here, worked};
use super::desk::State;
use super::late::US_IS_READ;
use super::numbers::{Numbers, told};
use super::reader::Reader;
use super::reckoned::Reckoned;
use super::shell::{Sheet, Word, address, sheet};

/// Width of the field beside the column, in pixels.
const BESIDE_PX: f64 = 614.0;

/// The sheet.
pub async fn show(
    Held(house): Held<Arc<House>>,
    Path(name): Path<String>,
    headers: HeaderMap,
) -> Response {
    let reader = Reader::of(&headers);
    worked(move || {
        let Some(desk) = house.desk(&name) else { return not_here() };
        let state = desk.look();
        let path = address(&name);
        let main = match state.shown.clone() {
            Some(shown) => whole(&house, &reader, &name, &state, &shown),
            None => never(&house, &name, &state),
        };
        let title = state.shown.as_ref().map_or(name.as_str(), |shown| &shown.loaded.design.title);
        let of = Sheet {
            title,
            word: Word::Year,
            build: Some(&name),
            path: &path,
            styles: &["notes.css"],
            modules: &["day.js"],
            main,
        };
        sheet(&house, &reader, of)
    })
    .await
}

/// One drawing by itself, for who opens it.
pub async fn one_picture(
    Held(house): Held<Arc<House>>,
    Path((name, wanted)): Path<(String, String)>,
    headers: HeaderMap,
) -> Response {
    let reader = Reader::of(&headers);
    worked(move || {
        let Some(shown) = house.desk(&name).and_then(|desk| desk.look().shown) else {
            return not_here();
        };
        let pictures = shown.pictures(reader.units);
        let Some(found) = pictures.iter().find(|picture| picture.wide.name == wanted) else {
            return not_here();
        };
        let path = format!("{}/picture/{wanted}", address(&name));
        let main = html! {
            p { a href=(address(&name)) { "Back to the year" } }
            h1 { (found.wide.title) }
            (picture(found))
        };
        let of = Sheet {
            title: &found.wide.title,
            word: Word::None,
            build: Some(&name),
            path: &path,
            modules: &[],
            styles: &[],
            main,
        };
        sheet(&house, &reader, of)
    })
    .await
}

/// A build whose year was never computed: what stands in the way, and its text.
fn never(house: &House, name: &str, state: &State) -> Markup {
    html! {
        div id="answer" data-part="" {
            h1 { "This build cannot be computed as it stands" }
            @if let Some(failed) = &state.failed { p class="problem fault" role="alert" { (failed) } }
            @for problem in &state.problems { (told(problem)) }
            p { "Mend it in the design file with any editor: this sheet follows by itself." }
            details { summary { "The design file" } pre class="file" tabindex="0" { (state.text) } }
        }
        (slips::outside(house, name, state))
    }
}

fn whole(house: &House, reader: &Reader, name: &str, state: &State, shown: &Reckoned) -> Markup {
    if reader.units == Units::Us {
        US_IS_READ.store(true, Ordering::Relaxed);
    }
    let pictures = shown.pictures(reader.units);
    let late = shown.late();
    let numbers = Numbers { build: name, token: &house.token, reader, state, shown, late: &late };
    html! {
        (slips::slips(house, name, state, (shown, &late)))
        (answer::answer(&numbers))
        (station::stations(&numbers, &pictures))
        section id="months" data-part="" aria-label="The year by months" {
            h2 { "The year by months" }
            (picture_named(&pictures, "months"))
        }
        (strip::strip(name, shown))
    }
}

/// A picture of that name, where there is one.
fn picture_named(pictures: &[Picture], name: &str) -> Markup {
    html! {
        @if let Some(found) = pictures.iter().find(|picture| picture.wide.name == name) {
            (picture(found))
        }
    }
}

/// Where the days of a map of the year begin, in ten-thousandths of its width: a press there chooses the
/// day.
fn sides(drawing: &Drawing, width: Width) -> Option<String> {
    if !drawing.name.trim_end_matches("-narrow").ends_with("-year") {
        return None;
    }
    let sides = day_sides_mm(width, &MONTH_STARTS_DAY);
    let shares = sides.iter().map(|x_mm| format!("{:.0}", 1e4 * x_mm / drawing.width_mm));
    Some(shares.collect::<Vec<_>>().join(" "))
}

/// A picture with its facts as a table.
pub fn picture(picture: &Picture) -> Markup {
    let id = picture.wide.name;
    // What is broader than the field beside the column would stand there in too small a type.
    let narrow_alone = picture.narrow.as_ref().filter(|_| picture.wide.width_mm > px(BESIDE_PX));
    html! {
        figure class="picture" id={ "p-" (id) } data-sides=[sides(&picture.wide, Width::Page)]
            data-narrow=[picture.narrow.as_ref().and_then(|narrow| sides(narrow, Width::Phone))] {
            @if let Some(narrow) = narrow_alone {
                div class="drawn" data-narrow="" tabindex="0" role="group" aria-label=(picture.wide.title) { (PreEscaped(svg::on_page(narrow))) }
            } @else {
                div class=(if picture.narrow.is_some() { "at-wide" } else { "drawn" }) tabindex="0" role="group" aria-label=(picture.wide.title) {
                    (PreEscaped(svg::on_page(&picture.wide)))
                }
                @if let Some(narrow) = &picture.narrow {
                    div class="at-narrow" { (PreEscaped(svg::on_page(narrow))) }
                }
            }
            details id={ "t-" (id) } data-keep="" {
                summary { "As a table" span class="unseen" { ": " (picture.wide.title) } }
                div class="facts" tabindex="0" role="group" aria-label={ "Table: " (picture.wide.title) } { (PreEscaped(picture.wide.table.html())) }
            }
        }
    }
}
