//! The sheets that list: builds, sums, and a new build, as a browser without a script has them.

use std::time::{Duration, Instant};

use crate::support::Served;

/// Given nine builds: the list answers before their years are worked out, and brings each year later.
#[test]
fn the_list_does_not_wait_for_the_years() {
    let served = Served::start();
    let first = served.get("/builds").text();
    assert_eq!(first.matches("class=\"build-year\"").count(), 9);
    assert!(first.contains("Being worked out"));
    let end = Instant::now() + Duration::from_secs(300);
    loop {
        let page = served.get("/builds").text();
        if !page.contains("Being worked out") {
            assert_eq!(page.matches("class=\"small-column\"").count(), 9);
            assert_eq!(page.matches("in every 100").count(), 9);
            return;
        }
        assert!(Instant::now() < end, "the years never came");
        std::thread::sleep(Duration::from_millis(500));
    }
}

/// Given a name that is taken: nothing is copied, what was typed stays in its field, and why not stands
/// beside it. Given a free one: the copy is there. Thrown away it lies in the bin, and comes back.
#[test]
fn names_that_do_not_fit_are_told_beside_their_field() {
    let served = Served::start();
    let taken = served.post("/builds/first-panel/copy", &[("to", "radiator-pair")]);
    assert_eq!(taken.status, 409);
    let page = taken.text();
    assert!(
        page.contains("value=\"radiator-pair\"")
            && page.contains("There is a build `radiator-pair` already")
    );
    assert!(page.contains("aria-invalid=\"true\""));
    let none = served.post("/builds/first-panel/rename", &[("to", "../away")]);
    assert_eq!(none.status, 409);
    assert!(none.text().contains("value=\"../away\""));
    assert_eq!(served.post("/builds/first-panel/copy", &[("to", "first-panel-2")]).status, 303);
    assert!(served.book.join("first-panel-2.toml").exists());
    assert_eq!(served.post("/builds/first-panel-2/bin", &[]).status, 303);
    assert!(!served.book.join("first-panel-2.toml").exists());
    assert!(served.get("/builds").text().contains("/bin/first%2Dpanel%2D2/back"));
    assert_eq!(served.post("/bin/first%2Dpanel%2D2/back", &[]).status, 303);
    assert!(served.book.join("first-panel-2.toml").exists());
}

/// Given a sum with values in the address, its answer; given a value that does not fit, the fault beside
/// its field, with what was typed.
#[test]
fn a_sum_stands_in_its_address() {
    let served = Served::start();
    let list = served.get("/sums").text();
    for sum in ["/sums/fin", "/sums/tube", "/sums/scald"] {
        assert!(list.contains(&format!("href=\"{sum}\"")), "{sum}");
    }
    // 15 mm outside, wall 0.7 mm: a bore of 13.6 mm, by subtraction.
    let page = served.get("/sums/tube?outside=15+mm&wall=0.7+mm").text();
    assert!(page.contains("13.6"), "{page}");
    let page = served.get("/sums/tube?outside=15+mm&wall=3+l").text();
    assert!(page.contains("value=\"3 l\"") && page.contains("role=\"alert\""));
    assert_eq!(served.get("/sums/no-such").status, 404);
}

/// Given a cistern that feeds cold taps too: it is said, with its number; the build that is made is
/// another, and its sheet says so. Given a name that is taken, what was typed stays.
#[test]
fn a_new_build_begins_with_the_loft() {
    let served = Served::start();
    let empty = served.get("/new").text();
    assert!(empty.contains("Nobody said yet what the cistern feeds"));
    let answers = [
        ("feeds-cold-taps", "yes"),
        ("heater", "hot-cylinder"),
        ("store-base", "5.2"),
        ("panel-bottom", "5.7"),
        ("people", "3"),
        ("cistern", "100"),
        ("place", "thames"),
        ("name", "our loft"),
    ];
    let looked = served.post("/new", &[&answers[..], &[("do", "look")]].concat());
    assert_eq!(looked.status, 200);
    let page = looked.text();
    assert!(page.contains("id=\"said-cold-taps\"") && page.contains("25\u{a0}°C"), "{page}");
    assert!(page.contains("Make the build that is drawn") && page.contains("value=\"5.7\""));
    assert!(!served.book.join("our loft.toml").exists());
    let made = served.post("/new", &[&answers[..], &[("do", "make")]].concat());
    assert_eq!(made.status, 303, "{}", made.text());
    assert_eq!(made.header("location"), Some("/builds/our%20loft"));
    let text = std::fs::read_to_string(served.book.join("our loft.toml")).expect("a design file");
    assert!(text.contains("title = \"Our loft\"") && text.contains("place = \"thames\""), "{text}");
    let again = served.post("/new", &[&answers[..], &[("do", "make")]].concat());
    assert_eq!(again.status, 409);
    assert!(again.text().contains("There is a build `our loft` already"));
    let wrong = served.post("/new", &[("people", "many"), ("do", "make"), ("name", "x")]);
    assert_eq!(wrong.status, 409);
    assert!(wrong.text().contains("A whole number from 1 to 30"));
    assert!(!served.book.join("x.toml").exists());
}
