//! Who may ask what: the host's name, the origin of a change, its token, and the pairing of a phone.
//!
//! A page that some other site shows in the same browser can send requests to this computer too. It
//! cannot name this program as its host, nor as its origin, nor know the token.

use std::collections::BTreeMap;
use std::net::SocketAddr;
use std::sync::Arc;

use axum::body::Body;
use axum::extract::{ConnectInfo, FromRequest, Request, State};
use axum::http::header::{
    CACHE_CONTROL, CONTENT_SECURITY_POLICY, COOKIE, HOST, ORIGIN, REFERRER_POLICY,
    X_CONTENT_TYPE_OPTIONS, X_FRAME_OPTIONS,
};
use axum::http::{HeaderMap, HeaderName, HeaderValue, Method, StatusCode};
use axum::middleware::Next;
use axum::response::{IntoResponse, Redirect, Response};

use super::House;
use super::answer::refused;

/// The longest body that is read \[bytes\]: a design file is a few thousand.
pub const LONGEST_BODY: usize = 1 << 20;

/// What a page may load and do: nothing from elsewhere, no code or style but our own files.
const POLICY: &str = "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; \
                      font-src 'self'; connect-src 'self'; form-action 'self'; base-uri 'none'; \
                      frame-ancestors 'none'";

/// The cookie of a paired device.
pub const PAIRED: &str = "warmfeed-paired";

/// Lets a request through, or says why not; every answer gets its headers.
pub async fn guard(
    State(house): State<Arc<House>>,
    ConnectInfo(peer): ConnectInfo<SocketAddr>,
    request: Request,
    next: Next,
) -> Response {
    let mut answer = match look_at(&house, peer, &request) {
        Ok(()) => next.run(request).await,
        Err(answer) => *answer,
    };
    let headers = answer.headers_mut();
    let mut set = |name: HeaderName, value: &'static str| {
        headers.entry(name).or_insert(HeaderValue::from_static(value));
    };
    set(CONTENT_SECURITY_POLICY, POLICY);
    set(X_CONTENT_TYPE_OPTIONS, "nosniff");
    set(X_FRAME_OPTIONS, "DENY");
    // Without any referrer a browser would call the origin of the page's own forms `null`.
    set(REFERRER_POLICY, "same-origin");
    set(CACHE_CONTROL, "no-store");
    set(HeaderName::from_static("cross-origin-resource-policy"), "same-origin");
    set(HeaderName::from_static("cross-origin-opener-policy"), "same-origin");
    answer
}

fn look_at(house: &House, peer: SocketAddr, request: &Request) -> Result<(), Box<Response>> {
    let headers = request.headers();
    let host = text(headers, HOST);
    if !host.is_some_and(|host| house.hosts.iter().any(|known| known == host)) {
        return Err(Box::new(refused(
            StatusCode::MISDIRECTED_REQUEST,
            "This request names a host that is not this program.",
            "Open the address that the terminal shows.",
        )));
    }
    if !matches!(*request.method(), Method::GET | Method::HEAD) {
        let own = |origin: &str| {
            origin
                .strip_prefix("http://")
                .is_some_and(|origin| house.hosts.iter().any(|known| known == origin))
        };
        let from_here = match text(headers, ORIGIN) {
            Some(origin) => own(origin),
            // Browsers send an origin with every change; a script of one's own may leave it out, and
            // is asked for the token.
            None => !headers.contains_key(ORIGIN),
        };
        if !from_here {
            return Err(Box::new(refused(
                StatusCode::FORBIDDEN,
                "This change comes from another site; nothing was changed.",
                "Make it on the page itself.",
            )));
        }
    }
    if !peer.ip().to_canonical().is_loopback() {
        return paired(house, request);
    }
    Ok(())
}

/// Devices on the local network show their pairing first.
fn paired(house: &House, request: &Request) -> Result<(), Box<Response>> {
    let path = request.uri().path();
    if path == "/pair" || path.starts_with("/assets/") {
        return Ok(());
    }
    let shown = cookie(request.headers(), PAIRED);
    let known = house.pairing.as_ref();
    if known.zip(shown).is_some_and(|(pairing, shown)| pairing.knows(shown)) {
        return Ok(());
    }
    Err(Box::new(Redirect::to("/pair").into_response()))
}

fn text(headers: &HeaderMap, name: HeaderName) -> Option<&str> {
    headers.get(name).and_then(|value| value.to_str().ok())
}

/// A cookie's value.
pub fn cookie<'a>(headers: &'a HeaderMap, name: &str) -> Option<&'a str> {
    headers
        .get_all(COOKIE)
        .iter()
        .filter_map(|value| value.to_str().ok())
        .flat_map(|all| all.split(';'))
        .find_map(|one| one.trim().strip_prefix(name)?.strip_prefix('='))
}

/// Fields of a form that brought the token.
pub struct Posted(pub BTreeMap<String, String>);

impl Posted {
    /// A field; empty where it was not sent.
    pub fn field(&self, name: &str) -> &str {
        self.0.get(name).map_or("", String::as_str)
    }
}

impl FromRequest<Arc<House>> for Posted {
    type Rejection = Response;

    async fn from_request(request: Request<Body>, house: &Arc<House>) -> Result<Posted, Response> {
        let bytes =
            axum::body::to_bytes(request.into_body(), LONGEST_BODY).await.map_err(|_| {
                refused(
                    StatusCode::PAYLOAD_TOO_LARGE,
                    "More was sent than any form of this page holds; nothing was changed.",
                    "Go back and try again.",
                )
            })?;
        let fields: BTreeMap<String, String> =
            form_urlencoded::parse(&bytes).into_owned().collect();
        let token = fields.get("token").map_or("", String::as_str);
        if !same(token.as_bytes(), house.token.as_bytes()) {
            return Err(refused(
                StatusCode::FORBIDDEN,
                "This change does not bring this run's token; nothing was changed.",
                "The program was started anew since the page was loaded: load the page again.",
            ));
        }
        Ok(Posted(fields))
    }
}

/// Compares without telling by the time it takes how much agrees.
pub fn same(one: &[u8], other: &[u8]) -> bool {
    one.len() == other.len()
        && one.iter().zip(other).fold(0, |differ, (one, other)| differ | (one ^ other)) == 0
}

/// A word that nobody can guess.
pub fn secret() -> Result<String, getrandom::Error> {
    let mut bytes = [0_u8; 16];
    getrandom::fill(&mut bytes)?;
    Ok(bytes.iter().map(|byte| format!("{byte:02x}")).collect())
}

#[cfg(test)]
mod tests {
    use super::{cookie, same};
    use axum::http::{HeaderMap, HeaderValue};

    /// Given several cookies in one header, the one asked for and no other that begins alike.
    #[test]
    fn a_cookie_is_found_by_its_whole_name() {
        let mut headers = HeaderMap::new();
        headers.insert("cookie", HeaderValue::from_static("unitsx=1; units=us; look=dark"));
        assert_eq!(cookie(&headers, "units"), Some("us"));
        assert_eq!(cookie(&headers, "unit"), None);
    }

    #[test]
    fn tokens_agree_as_a_whole() {
        assert!(same(b"abc", b"abc"));
        assert!(!same(b"abc", b"abd") && !same(b"abc", b"ab") && !same(b"", b"a"));
    }
}
