//! Answers of the server that are no sheets.

use axum::http::StatusCode;
use axum::response::{IntoResponse, Redirect, Response};
use maud::{DOCTYPE, Markup, html};

/// A request that is not taken, said plainly: what is, and what to do.
pub fn refused(status: StatusCode, says: &str, mend: &str) -> Response {
    (status, plain(says, mend)).into_response()
}

fn plain(says: &str, mend: &str) -> Markup {
    let words = html! {
        h1 { (says) }
        p { (mend) }
        p { a href="/" { "To the builds" } }
    };
    bare("warmfeed", &[], words)
}

/// A page without masthead, for who is not let in or went astray.
pub fn bare(title: &str, modules: &[&str], words: Markup) -> Markup {
    html! {
        (DOCTYPE)
        html lang="en" {
            head {
                meta charset="utf-8";
                meta name="viewport" content="width=device-width,initial-scale=1";
                title { (title) }
                link rel="icon" href="/assets/icon.svg";
                link rel="stylesheet" href="/assets/page.css";
                @for module in modules { script type="module" src={ "/assets/" (module) } {} }
            }
            body { main class="plain" { (words) } }
        }
    }
}

/// Work that may take a while, away from the threads that serve; a fault in it is told and takes
/// nothing else down.
pub async fn worked(work: impl FnOnce() -> Response + Send + 'static) -> Response {
    tokio::task::spawn_blocking(work).await.unwrap_or_else(|_| {
        refused(
            StatusCode::INTERNAL_SERVER_ERROR,
            "A fault of the program itself: this could not be done.",
            "Nothing of yours is lost: builds are kept in their files. What was asked, and the lines in the terminal, help whoever mends it.",
        )
    })
}

/// After a change: the sheet itself.
pub fn back_to(path: &str) -> Response {
    Redirect::to(path).into_response()
}

/// What could not be done, with its reason.
pub fn not_done(error: &anyhow::Error) -> Response {
    refused(
        StatusCode::CONFLICT,
        &format!("{error:#}."),
        "Go back and look at the build as it is now.",
    )
}

/// There is no such thing.
pub fn not_here() -> Response {
    refused(
        StatusCode::NOT_FOUND,
        "There is no such sheet in this job book.",
        "It may have been renamed, or lie in the bin.",
    )
}
