//! The year of a build: the answer, the heat section station by station with its drawings and numbers,
//! the months.

mod answer;
mod slips;
mod station;

use std::sync::Arc;

use axum::extract::{Path, State as Held};
use axum::http::HeaderMap;
use axum::response::Response;
use maud::{Markup, PreEscaped, html};
use sheets::page::Picture;
use sheets::pen::px;
use sheets::svg;

use super::House;
use super::answer::{not_here, worked};
use super::desk::State;
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
            modules: &["day.js"],
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
    // Drawn before what was found out late is looked at: drawing notes itself there too.
    let year = shown.year_pictures(reader.units);
    let panel = shown.panel_pictures(reader.units);
    let late = shown.late();
    let numbers = Numbers { build: name, token: &house.token, reader, state, shown, late: &late };
    html! {
        (slips::slips(house, name, state, (shown, &late)))
        (answer::answer(state, shown, &late))
        (station::stations(&numbers, &year, panel.as_deref()))
        section id="months" data-part="" aria-label="The year by months" {
            h2 { "The year by months" }
            (picture_named(&year, "months"))
        }
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

/// A picture with its facts as a table.
fn picture(picture: &Picture) -> Markup {
    let id = picture.wide.name;
    // What is broader than the field beside the column would stand there in too small a type.
    let narrow_alone = picture.narrow.as_ref().filter(|_| picture.wide.width_mm > px(BESIDE_PX));
    html! {
        figure class="picture" id={ "p-" (id) } {
            @if let Some(narrow) = narrow_alone {
                div class="drawn" tabindex="0" role="group" aria-label=(picture.wide.title) { (PreEscaped(svg::on_page(narrow))) }
            } @else {
                div class=(if picture.narrow.is_some() { "at-wide" } else { "drawn" }) tabindex="0" role="group" aria-label=(picture.wide.title) {
                    (PreEscaped(svg::on_page(&picture.wide)))
                }
                @if let Some(narrow) = &picture.narrow {
                    div class="at-narrow" { (PreEscaped(svg::on_page(narrow))) }
                }
            }
            details id={ "t-" (id) } data-keep="" {
                summary { "As a table: " (picture.wide.title) }
                div class="facts" tabindex="0" role="group" aria-label={ "Table: " (picture.wide.title) } { (PreEscaped(picture.wide.table.html())) }
            }
        }
    }
}
