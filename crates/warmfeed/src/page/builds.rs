//! The builds of the job book as a list, and what is done with a whole build.

use std::sync::Arc;

use axum::extract::{Path, State};
use axum::http::HeaderMap;
use axum::response::Response;
use maud::html;

use super::House;
use super::answer::{back_to, not_done, worked};
use super::guard::Posted;
use super::reader::Reader;
use super::shell::{Sheet, Word, address, sheet};

/// The list.
pub async fn show(State(house): State<Arc<House>>, headers: HeaderMap) -> Response {
    let reader = Reader::of(&headers);
    worked(move || {
        let builds = match house.book.builds() {
            Ok(builds) => builds,
            Err(error) => return not_done(&error),
        };
        let main = html! {
            h1 { "Builds" }
            ul { @for name in &builds { li { a href=(address(name)) { (name) } } } }
        };
        let of = Sheet {
            title: "Builds",
            word: Word::Builds,
            build: None,
            path: "/builds",
            modules: &[],
            main,
        };
        sheet(&house, &reader, of)
    })
    .await
}

/// What is done with a whole build; `None` for a change inside it.
pub fn changed(house: &House, name: &str, change: &str, posted: &Posted) -> Option<Response> {
    let to = posted.field("to").trim();
    Some(match change {
        "copy" => match house.book.copy(name, to) {
            Ok(()) => back_to(&address(to)),
            Err(error) => not_done(&error),
        },
        "rename" => match house.book.rename(name, to) {
            Ok(()) => {
                house.close(name);
                back_to("/builds")
            }
            Err(error) => not_done(&error),
        },
        "bin" => match house.book.throw_away(name) {
            Ok(_) => {
                house.close(name);
                back_to("/builds")
            }
            Err(error) => not_done(&error),
        },
        _ => return None,
    })
}

/// Takes a build out of the bin.
pub async fn take_back(
    State(house): State<Arc<House>>,
    Path(name): Path<String>,
    _posted: Posted,
) -> Response {
    worked(move || match house.book.take_back(&name) {
        Ok(_) => back_to("/builds"),
        Err(error) => not_done(&error),
    })
    .await
}
