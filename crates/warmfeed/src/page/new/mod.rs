//! A new build: questions on one sheet, what stands against the layout, the one that may be built drawn
//! with its heights, and the design file made from it.

mod answers;
mod form;
mod layout;
mod told;
mod verdict;
mod write;

use std::collections::BTreeMap;
use std::path::Path;
use std::sync::Arc;

use anyhow::{Context, Result};
use axum::extract::State;
use axum::http::{HeaderMap, StatusCode};
use axum::response::Response;
use maud::html;

use super::House;
use super::answer::{back_to, worked};
use super::guard::Posted;
use super::reader::Reader;
use super::shell::{Sheet, Word, address, sheet};
use crate::{files, sample};
use answers::{Answers, Mistake};
use layout::Layout;

/// The questions, nothing answered.
pub async fn show(State(house): State<Arc<House>>, headers: HeaderMap) -> Response {
    let reader = Reader::of(&headers);
    worked(move || {
        let mut typed = BTreeMap::new();
        let first = "my-panel".to_owned();
        let name = if house.book.holds(&first) { house.book.proposed(&first) } else { first };
        typed.insert("name".to_owned(), name);
        drawn(&house, &reader, &typed, &[])
    })
    .await
}

/// The answers looked at; or, where the button says so, the build made.
pub async fn make(State(house): State<Arc<House>>, headers: HeaderMap, posted: Posted) -> Response {
    let reader = Reader::of(&headers);
    worked(move || {
        if posted.field("do") != "make" {
            return drawn(&house, &reader, &posted.0, &[]);
        }
        let (answers, mistakes) = answers::read(&posted.0, reader.units);
        let made = if mistakes.is_empty() { made(&house, &answers, &posted) } else { Ok(None) };
        match made {
            Ok(Some(name)) => back_to(&address(&name)),
            Ok(None) => refused(&house, &reader, &posted, &[]),
            Err(error) => {
                let is_tube = error.is::<write::ShortTube>();
                let field = if is_tube { "tube-length" } else { "name" };
                let says = format!("{}.", design::value::capital(&format!("{error:#}")));
                refused(&house, &reader, &posted, &[Mistake { field, says }])
            }
        }
    })
    .await
}

fn refused(house: &House, reader: &Reader, posted: &Posted, more: &[Mistake]) -> Response {
    let mut answer = drawn(house, reader, &posted.0, more);
    *answer.status_mut() = StatusCode::CONFLICT;
    answer
}

/// Makes the build of the layout that may be built; its name. `None` where no layout may.
fn made(house: &House, answers: &Answers, posted: &Posted) -> Result<Option<String>> {
    let Some(layout) = Layout::of(answers) else { return Ok(None) };
    let name = posted.field("name").trim();
    let title = design::value::capital(&name.replace(['-', '_'], " "));
    let text = write::design_text(&title, answers, &layout)?;
    house.book.add(name, &text)?;
    if answers.place.is_none() {
        with_weather(&house.book.folder)?;
    }
    Ok(Some(name.to_owned()))
}

/// The weather that the starter names, beside the builds.
fn with_weather(folder: &Path) -> Result<()> {
    let path = folder.join(sample::STARTER_WEATHER);
    if files::exists(&path) {
        return Ok(());
    }
    if let Some(above) = path.parent() {
        files::make_folder(above)?;
    }
    let bytes = sample::bytes(sample::STARTER_WEATHER).context("the starter’s weather")?;
    files::write_whole(&path, |writer| Ok(writer.write_all(bytes)?))
}

fn drawn(
    house: &House,
    reader: &Reader,
    typed: &BTreeMap<String, String>,
    more: &[Mistake],
) -> Response {
    let (answers, mut mistakes) = answers::read(typed, reader.units);
    mistakes.extend_from_slice(more);
    let fields = form::Fields { typed, mistakes: &mistakes, units: reader.units };
    let main = html! {
        h1 { "A new build" }
        p class="opening" { "Begin with the house, not with the panel: what the cistern feeds decides what may be built." }
        form class="new" id="new" method="post" action="/new" {
            input type="hidden" name="token" value=(house.token);
            div class="questions" { (form::questions(&fields)) }
            div class="verdict" {
                button name="do" value="look" class="look" { "Look at these answers" }
                (told::told(&answers, reader.units))
                (form::name(&fields, Layout::of(&answers).as_ref()))
            }
        }
    };
    let of = Sheet {
        title: "A new build",
        word: Word::New,
        build: None,
        path: "/new",
        styles: &["lists.css"],
        modules: &["new.js"],
        main,
    };
    sheet(house, reader, of)
}
