//! Nothing outside the job book is read or written, however the path is written.

use crate::support::{BUILD, Served};

/// What must never be told.
const SECRET: &str = "title = \"the neighbour's\"";

/// Given a design file beside the book and paths that lead to it, plain and encoded, once and twice, none
/// is answered with it.
#[test]
fn no_path_leads_out_of_the_book() {
    let served = Served::start();
    let outside = served.book.parent().unwrap().join("other.toml");
    std::fs::write(&outside, SECRET).unwrap();
    std::fs::create_dir(served.book.join("sub")).unwrap();
    std::fs::write(served.book.join("sub/inner.toml"), SECRET).unwrap();
    for name in [
        "../other",
        "..%2fother",
        "..%2Fother",
        "%2e%2e/other",
        "%2e%2e%2fother",
        "%252e%252e%252fother",
        "..%5cother",
        "..%c0%afother",
        "sub%2finner",
        "sub/inner",
        ".%00/other",
        "other%00",
        "%2f..%2fother",
        "....//other",
        "..;/other",
    ] {
        for path in [
            format!("/builds/{name}"),
            format!("/builds/{name}.toml"),
            format!("/builds/{name}/series"),
            format!("/builds/{name}/column/store-top"),
            format!("/builds/{BUILD}/{name}"),
            format!("/bin/{name}/back"),
            format!("/assets/{name}.toml"),
            format!("/{name}.toml"),
        ] {
            let answer = served.get(&path);
            assert!(answer.status >= 400, "{path}: {}", answer.head);
            assert!(!answer.text().contains("neighbour"), "{path}");
        }
    }
    for path in [
        "/assets/../Cargo.toml",
        "/assets/..%2fCargo.toml",
        "/assets/%2e%2e/Cargo.toml",
        "/assets/..%2f..%2f..%2fCargo.toml",
        "/assets//etc/passwd",
        "/assets/%2fetc%2fpasswd",
        "/assets/vendor/../../Cargo.toml",
        "/assets/",
        "/assets/vendor",
    ] {
        let answer = served.get(path);
        assert!(answer.status >= 400, "{path}: {}", answer.head);
        assert!(!answer.text().contains("[package]") && !answer.text().contains("root:"), "{path}");
    }
    assert_eq!(served.get("/assets/icon.svg").status, 200);
}

/// Given names for copies and renamed builds that lead elsewhere or are none, nothing appears anywhere
/// and the build stays; given a name, the copy is there.
#[test]
fn no_name_writes_outside_the_book() {
    let served = Served::start();
    let listed = |folder: &std::path::Path| {
        let mut names: Vec<_> =
            std::fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().file_name()).collect();
        names.sort();
        names
    };
    let above = served.book.parent().unwrap().to_path_buf();
    let (inside, outside) = (listed(&served.book), listed(&above));
    let absolute = above.join("evil").display().to_string();
    let long = "x".repeat(300);
    for name in [
        "../evil", "..", ".", "", "sub/evil", "..\\evil", "evil\0", ".evil", "ev\nil", &absolute,
        &long,
    ] {
        for change in ["copy", "rename"] {
            let answer =
                served.post(&format!("/builds/{BUILD}/{change}"), &[("to", name), ("name", name)]);
            assert!((400..500).contains(&answer.status) || answer.status == 303, "{}", answer.head);
            assert_eq!(listed(&served.book), inside, "{change} to {name:?}");
            assert_eq!(listed(&above), outside, "{change} to {name:?}");
        }
    }
    let copied =
        served.post(&format!("/builds/{BUILD}/copy"), &[("to", "my copy"), ("name", "my copy")]);
    assert_eq!(copied.status, 303, "{}", copied.text());
    assert!(served.book.join("my copy.toml").exists());
}

/// Given a link in the book that leads out of it, its target is neither told nor changed.
#[cfg(unix)]
#[test]
fn a_link_does_not_lead_out() {
    let served = Served::start();
    let outside = served.book.parent().unwrap().join("other.toml");
    std::fs::write(&outside, SECRET).unwrap();
    std::os::unix::fs::symlink(&outside, served.book.join("linked.toml")).unwrap();
    let answer = served.get("/builds/linked");
    assert!(!answer.text().contains("neighbour"), "{}", answer.text());
    drop(served.post("/builds/linked/edit", &[("place", "sun.tilt"), ("value", "40 deg")]));
    assert_eq!(std::fs::read_to_string(&outside).unwrap(), SECRET);
}
