//! Which request is answered by whom.

use std::convert::Infallible;
use std::sync::Arc;

use axum::Router;
use axum::extract::{DefaultBodyLimit, Path, State};
use axum::http::header::{LOCATION, SET_COOKIE};
use axum::http::{HeaderMap, StatusCode};
use axum::middleware::from_fn_with_state;
use axum::response::sse::{Event, KeepAlive, Sse};
use axum::response::{IntoResponse, Redirect, Response};
use axum::routing::{get, post};
use tokio_stream::StreamExt;
use tokio_stream::wrappers::BroadcastStream;

use super::answer::{back_to, not_done, not_here, worked};
use super::desk::Desk;
use super::guard::{LONGEST_BODY, PAIRED, Posted, guard};
use super::pairing::Tried;
use super::reader::{Look, Reader};
use super::shell::address;
use super::{House, about, assets, builds, day, new, rule, series, sums, year};

/// The whole server.
pub fn routes(house: Arc<House>) -> Router {
    Router::new()
        .route("/", get(first))
        .route("/builds", get(builds::show))
        .route("/builds/{name}", get(year::show))
        .route("/builds/{name}/day/{day}", get(day::day))
        .route("/builds/{name}/rule/{place}", get(rule::show_rule))
        .route("/builds/{name}/picture/{picture}", get(year::one_picture))
        .route("/builds/{name}/series", get(series::show))
        .route("/builds/{name}/column/{channel}", get(series::column))
        .route("/builds/{name}/{change}", post(change))
        .route("/bin/{name}/back", post(builds::take_back))
        .route("/new", get(new::show).post(new::make))
        .route("/sums", get(sums::list))
        .route("/sums/{name}", get(sums::show))
        .route("/reading", post(reading))
        .route("/about", get(about::show))
        .route("/pair", get(about::pair).post(pair))
        .route("/events", get(events))
        .route("/pictures.css", get(assets::pictures_css))
        .route("/assets/{*path}", get(assets::asset))
        .fallback(|| async { not_here() })
        .layer(DefaultBodyLimit::max(LONGEST_BODY))
        .layer(from_fn_with_state(Arc::clone(&house), guard))
        .with_state(house)
}

/// The first build, or the list where there is none.
async fn first(State(house): State<Arc<House>>) -> Response {
    let builds = house.book.builds().unwrap_or_default();
    let first = house.first.as_ref().filter(|first| builds.contains(first)).or(builds.first());
    back_to(&first.map_or("/builds".to_owned(), |name| address(name)))
}

/// A change to a build: the form says what, the answer is the build's sheet.
async fn change(
    State(house): State<Arc<House>>,
    Path((name, change)): Path<(String, String)>,
    headers: HeaderMap,
    posted: Posted,
) -> Response {
    let reader = Reader::of(&headers);
    worked(move || {
        if let Some(answer) = builds::changed(&house, &reader, (&name, &change), &posted) {
            return answer;
        }
        let Some(desk) = house.desk(&name) else { return not_here() };
        match made(&desk, &change, &posted) {
            Some(Ok(())) => back_to(&format!("{}{}", address(&name), anchor(&posted))),
            Some(Err(error)) => not_done(&error),
            None => not_here(),
        }
    })
    .await
}

/// Where on the sheet the person was.
fn anchor(posted: &Posted) -> String {
    match posted.field("at") {
        at if !at.is_empty()
            && at.chars().all(|sign| sign.is_ascii_alphanumeric() || sign == '-') =>
        {
            format!("#{at}")
        }
        _ => String::new(),
    }
}

fn made(desk: &Arc<Desk>, change: &str, posted: &Posted) -> Option<anyhow::Result<()>> {
    Some(match change {
        "edit" => desk.edit(posted.field("place"), posted.field("value")),
        "step" => desk.take_step(posted.field("step")),
        "remedy" => {
            desk.take_remedy(posted.field("worry"), posted.field("of"), posted.field("remedy"))
        }
        "undo" => desk.undo(),
        "redo" => desk.redo(),
        "put-back" => desk.put_back(),
        "write-mine" => desk.write_mine(),
        "keep" => {
            desk.keep();
            Ok(())
        }
        "forget" => {
            desk.forget();
            Ok(())
        }
        "take-outside" => {
            desk.take_outside();
            Ok(())
        }
        _ => return None,
    })
}

/// Keeps how the person reads, in the browser.
async fn reading(headers: HeaderMap, posted: Posted) -> Response {
    let now = Reader::of(&headers);
    let mut answer = Response::builder().status(StatusCode::SEE_OTHER);
    for (name, known) in [
        ("units", ["metric", "us", ""]),
        ("look", ["day", "night", "system"]),
        ("type", ["usual", "larger", ""]),
        ("keys", ["on", "off", ""]),
    ] {
        let mut value = posted.field(name);
        if value.is_empty() || !known.contains(&value) {
            continue;
        }
        // Pressed again, day or night goes back to what the system has.
        let same =
            matches!((value, now.look), ("day", Some(Look::Day)) | ("night", Some(Look::Night)));
        if same {
            value = "system";
        }
        let cookie = format!("{name}={value}; Path=/; Max-Age=31536000; SameSite=Strict");
        answer = answer.header(SET_COOKIE, cookie);
    }
    let back = posted.field("back");
    let back = if back.starts_with('/') && !back.starts_with("//") { back } else { "/" };
    answer.header(LOCATION, back).body(axum::body::Body::empty()).unwrap_or_else(|_| back_to("/"))
}

/// A device on the local network shows the terminal's code.
async fn pair(
    State(house): State<Arc<House>>,
    posted: axum::extract::Form<Vec<(String, String)>>,
) -> Response {
    let Some(pairing) = &house.pairing else { return not_here() };
    let code = posted.0.iter().find(|(name, _)| name == "code").map_or("", |(_, code)| code);
    match pairing.try_code(code) {
        Tried::Right(kept) => {
            let cookie = format!("{PAIRED}={kept}; Path=/; HttpOnly; SameSite=Strict");
            ([(SET_COOKIE, cookie)], Redirect::to("/")).into_response()
        }
        Tried::Wrong => {
            about::pairing("That is not the code. It stands in the terminal that serves this page.")
        }
        Tried::Pause => about::pairing("Too many wrong codes. Wait a minute, then try again."),
    }
}

/// What changes, as it changes.
async fn events(
    State(house): State<Arc<House>>,
) -> Sse<impl tokio_stream::Stream<Item = Result<Event, Infallible>>> {
    let stream = BroadcastStream::new(house.news.listen()).map(|item| {
        Ok(match item {
            Ok(item) => Event::default().event("changed").data(
                serde_json::json!({ "build": item.build, "version": item.version }).to_string(),
            ),
            // So much was missed that the window had better look for itself.
            Err(_) => Event::default().event("changed").data("{}"),
        })
    });
    Sse::new(stream).keep_alive(KeepAlive::default())
}
