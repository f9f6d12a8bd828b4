//! Files of the page, inside the program.

use std::sync::OnceLock;

use axum::extract::Path;
use axum::http::StatusCode;
use axum::http::header::{CACHE_CONTROL, CONTENT_TYPE};
use axum::response::{IntoResponse, Response};
use rust_embed::RustEmbed;
use sheets::role::Role;
use sheets::style;

#[derive(RustEmbed)]
#[folder = "assets/"]
struct Assets;

/// One file.
pub async fn asset(Path(path): Path<String>) -> Response {
    match Assets::get(&path) {
        Some(file) => (
            [
                (CONTENT_TYPE, file.metadata.mimetype().to_owned()),
                (CACHE_CONTROL, "no-cache".to_owned()),
            ],
            file.data.into_owned(),
        )
            .into_response(),
        None => StatusCode::NOT_FOUND.into_response(),
    }
}

/// How pictures look, every level of warmth among it.
pub async fn pictures_css() -> Response {
    static CSS: OnceLock<String> = OnceLock::new();
    let css = CSS.get_or_init(|| {
        let mut roles = style::all_roles();
        roles.extend((0..=u8::MAX).map(Role::Warmth));
        style::css(&roles)
    });
    ([(CONTENT_TYPE, "text/css; charset=utf-8"), (CACHE_CONTROL, "no-cache")], css.as_str())
        .into_response()
}
