//! What this program is, its cautions and licences; and the pairing of a device.

use std::sync::Arc;

use axum::extract::State;
use axum::http::HeaderMap;
use axum::response::{IntoResponse, Response};
use maud::html;

use super::House;
use super::answer::{bare, not_here};
use super::reader::Reader;
use super::shell::{Sheet, Word, sheet};
use crate::view::{self, Paper};

/// The sheet.
pub async fn show(State(house): State<Arc<House>>, headers: HeaderMap) -> Response {
    let reader = Reader::of(&headers);
    let main = html! {
        h1 { "About" }
        p class="says" {
            "warmfeed reckons what a solar water heating of your own making would do in a year, minute by minute, on this computer. It needs no network and sends nothing."
        }
        h2 { "Cautions" }
        p { (view::cautions(Paper::of(reader.units)).trim()) }
        h2 { "Where things are kept" }
        p { "This job book is the folder " code { (house.book.folder.display()) } ". Each build is one text file in it that any editor reads; the bin is the folder " code { "bin" } " inside." }
        h2 { "Type" }
        p { "Words are set in Literata, figures in Source Sans 3, both under the SIL Open Font License 1.1. "
            a href="/assets/vendor/licences.txt" { "The licences of all that is built in" } "." }
        form method="post" action="/reading" {
            input type="hidden" name="token" value=(house.token);
            input type="hidden" name="back" value="/about";
            h2 { "Keys of one letter" }
            @if reader.has_keys {
                p { "Keys 1 to 5, u, r and ? do something while no field has the focus." }
                button name="keys" value="off" { "Switch them off" }
            } @else {
                p { "They are switched off." }
                button name="keys" value="on" { "Switch them on" }
            }
        }
    };
    sheet(
        &house,
        &reader,
        Sheet {
            title: "About",
            word: Word::About,
            build: None,
            path: "/about",
            styles: &[],
            modules: &[],
            main,
        },
    )
}

/// Where a device types the code.
pub async fn pair(State(house): State<Arc<House>>) -> Response {
    if house.pairing.is_none() {
        return not_here();
    }
    pairing("")
}

/// The sheet for the code, with what was wrong with the last one.
pub fn pairing(says: &str) -> Response {
    let words = html! {
        h1 { "Pair this device" }
        p { "Type the eight digits that stand in the terminal where warmfeed runs." }
        @if !says.is_empty() { p class="fault" role="alert" { (says) } }
        form #pair method="post" action="/pair" {
            label for="code" { "Code" }
            input #code name="code" inputmode="numeric" autocomplete="one-time-code" required;
            button { "Pair" }
        }
    };
    bare("Pairing \u{b7} warmfeed", &["pair.js"], words).into_response()
}
