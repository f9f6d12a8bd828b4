//! The builds of the job book as a list, and what is done with a whole build.

mod list;

use std::sync::Arc;

use axum::extract::{Path, State};
use axum::http::{HeaderMap, StatusCode};
use axum::response::Response;

use super::House;
use super::answer::{back_to, not_done, worked};
use super::guard::Posted;
use super::reader::Reader;
use super::shell::address;

/// A name that was typed and not taken.
pub struct Refused {
    /// The build it was typed for.
    build: String,
    /// What was to be done.
    change: &'static str,
    /// The name.
    typed: String,
    /// Why not.
    says: String,
}

/// The list.
pub async fn show(State(house): State<Arc<House>>, headers: HeaderMap) -> Response {
    let reader = Reader::of(&headers);
    worked(move || list::list(&house, &reader, None)).await
}

/// What is done with a whole build; `None` for a change inside it.
pub fn changed(
    house: &Arc<House>,
    reader: &Reader,
    (name, change): (&str, &str),
    posted: &Posted,
) -> Option<Response> {
    let to = posted.field("to").trim();
    let refused = |change, error: anyhow::Error| {
        let refused = Refused {
            build: name.to_owned(),
            change,
            typed: to.to_owned(),
            says: format!("{error:#}."),
        };
        let mut answer = list::list(house, reader, Some(&refused));
        *answer.status_mut() = StatusCode::CONFLICT;
        answer
    };
    Some(match change {
        "copy" => match house.book.copy(name, to) {
            Ok(()) => back_to(&address(to)),
            Err(error) => refused("copy", error),
        },
        "rename" => match house.book.rename(name, to) {
            Ok(()) => {
                house.close(name);
                back_to(&format!("/builds#{}", list::id(to)))
            }
            Err(error) => refused("rename", error),
        },
        "bin" => match house.book.throw_away(name) {
            Ok(_) => {
                house.close(name);
                back_to("/builds#bin")
            }
            Err(error) => refused("bin", error),
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
        Ok(back) => back_to(&format!("/builds#{}", list::id(&back))),
        Err(error) => not_done(&error),
    })
    .await
}
