//! A new build.
use super::answer::not_here;
use axum::response::Response;
pub async fn show() -> Response {
    not_here()
}
pub async fn make() -> Response {
    not_here()
}
