//! Another site that the same browser shows can send requests here. It gets nothing and changes nothing.

use crate::support::{BUILD, FORM, Served, form};

/// Given a host that is not this program, as a name that was bent to this address has it, nothing of
/// the book is told; given no host, neither.
#[test]
fn a_forged_host_is_refused() {
    let served = Served::start();
    let port = served.host.split(':').nth(1).unwrap();
    assert_eq!(served.get("/about").status, 200);
    let local = format!("Host: localhost:{port}");
    assert_eq!(served.ask(&["GET /about HTTP/1.1", &local], "").status, 200);
    for host in [
        "example.org".to_owned(),
        format!("example.org:{port}"),
        format!("127.0.0.1.example.org:{port}"),
        format!("127.0.0.1:{port}@example.org"),
        "127.0.0.1".to_owned(),
        format!("[::1]:{port}"),
        String::new(),
    ] {
        for path in ["/", "/about", "/builds", "/events", "/assets/page.css"] {
            let line = format!("Host: {host}");
            let answer = served.ask(&[&format!("GET {path} HTTP/1.1"), &line], "");
            assert!((400..500).contains(&answer.status), "{host} {path}: {}", answer.head);
            let text = answer.text();
            assert!(!text.contains("token") && !text.contains(BUILD), "{host} {path}: {text}");
        }
    }
    let nameless = served.ask(&["GET /about HTTP/1.0"], "");
    assert!((400..500).contains(&nameless.status), "{}", nameless.head);
}

/// Given a change from another origin, with the right token even, the file stays as it was; given the
/// page's own origin, it changes.
#[test]
fn a_change_from_another_site_is_refused() {
    let served = Served::start();
    let before = served.file();
    let token = served.token();
    let body = form(&[("token", &token), ("place", "sun.tilt"), ("value", "40 deg")]);
    let path = format!("POST /builds/{BUILD}/edit HTTP/1.1");
    let host = format!("Host: {}", served.host);
    let port = served.host.split(':').nth(1).unwrap();
    for origin in [
        "http://example.org".to_owned(),
        format!("http://example.org:{port}"),
        format!("https://{}", served.host),
        "http://127.0.0.1".to_owned(),
        "http://127.0.0.1:1".to_owned(),
        format!("http://{}.example.org", served.host),
        "null".to_owned(),
        String::new(),
    ] {
        let line = format!("Origin: {origin}");
        let answer = served.ask(&[&path, &host, FORM, &line], &body);
        assert_eq!(answer.status, 403, "{origin}: {}", answer.head);
        assert_eq!(served.file(), before, "{origin}");
    }
    let own = format!("Origin: http://{}", served.host);
    let answer = served.ask(&[&path, &host, FORM, &own], &body);
    assert_eq!(answer.status, 303, "{}", answer.text());
    assert_eq!(served.file(), before.replace("tilt = \"35 deg\"", "tilt = \"40 deg\""));
}

/// Given a change without this run's token, or with a wrong one, or with the token elsewhere than in the
/// body, nothing is written, renamed or thrown away.
#[test]
fn a_change_without_the_token_is_refused() {
    let served = Served::start();
    let before = served.file();
    let token = served.token();
    let wrong = token.chars().rev().collect::<String>();
    let host = format!("Host: {}", served.host);
    for (change, fields) in [
        ("edit", vec![("place", "sun.tilt"), ("value", "40 deg")]),
        ("copy", vec![("to", "taken")]),
        ("rename", vec![("to", "taken")]),
        ("bin", vec![]),
        ("undo", vec![]),
    ] {
        for sent in [None, Some(""), Some("0"), Some(&wrong[..])] {
            let mut fields = fields.clone();
            fields.extend(sent.map(|token| ("token", token)));
            let path = format!("POST /builds/{BUILD}/{change}?token={token} HTTP/1.1");
            let answer = served.ask(&[&path, &host, FORM], &form(&fields));
            assert_eq!(answer.status, 403, "{change} {sent:?}: {}", answer.head);
        }
    }
    assert_eq!(served.file(), before);
    assert!(!served.book.join("taken.toml").exists() && !served.book.join("bin").exists());
    // A change is never made by looking.
    for change in ["edit", "undo", "bin", "rename"] {
        let path =
            format!("/builds/{BUILD}/{change}?token={token}&place=sun.tilt&value=40+deg&to=taken");
        assert_eq!(served.get(&path).status / 100, 4, "{change}");
    }
    assert_eq!(served.file(), before);
}

/// Given any answer, a refusal too, it forbids what is not this page's own: the policy word for word,
/// since each part of it was chosen.
#[test]
fn every_answer_has_its_policy() {
    let served = Served::start();
    let policy = "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; \
                  font-src 'self'; connect-src 'self'; form-action 'self'; base-uri 'none'; \
                  frame-ancestors 'none'";
    for path in ["/about", "/builds", "/assets/page.css", "/no-such-sheet", "/builds/no-such-build"]
    {
        let answer = served.get(path);
        assert_eq!(answer.header("content-security-policy"), Some(policy), "{path}");
        assert_eq!(answer.header("x-content-type-options"), Some("nosniff"), "{path}");
        assert_eq!(answer.header("referrer-policy"), Some("same-origin"), "{path}");
        assert!(answer.header("access-control-allow-origin").is_none(), "{path}");
        let text = answer.text();
        for inline in [" style=\"", "<style", " onclick=", " onload=", "javascript:"] {
            let page = answer.header("content-type").is_some_and(|kind| kind.contains("html"));
            assert!(!page || !text.contains(inline), "{path} holds {inline}");
        }
    }
}
