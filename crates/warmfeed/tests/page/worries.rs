//! What can go wrong, beside the stations, as a browser without a script has it.

use std::time::{Duration, Instant};

use crate::support::Served;

/// It has stop worries whose remedies are computed.
const BUILD: &str = "missed-seams";

/// The sheet, once what can go wrong is worked out for the build as it stands.
fn worked_out(served: &Served) -> String {
    let end = Instant::now() + Duration::from_secs(300);
    loop {
        let page = served.get(&format!("/builds/{BUILD}")).text();
        if page.contains("id=\"not-looked-at\"") && !page.contains("still of the build as it was") {
            return page;
        }
        assert!(Instant::now() < end, "what can go wrong never came");
        std::thread::sleep(Duration::from_millis(500));
    }
}

/// The value of a hidden field of a form.
fn field(form: &str, name: &str) -> String {
    let (_, after) = form.split_once(&format!("name=\"{name}\" value=\"")).expect("a field");
    after.split('"').next().expect("its end").to_owned()
}

/// Given a sample: every station has its notes; each stop stands at the head too and leads to a place that
/// is on the sheet; a remedy is a form that needs no script. Pressed, it changes the file; the notes say that
/// they are still of the build as it was, and of those no remedy can be tried.
#[test]
fn a_remedy_is_a_change_like_any_other() {
    let served = Served::start();
    let page = worked_out(&served);
    assert_eq!(page.matches("<h3>What can go wrong</h3>").count(), 5);
    let links: Vec<&str> = page.split(" aria-label=\"See what helps").collect();
    assert!(links.len() > 1, "no stop at the head");
    for link in &links[..links.len() - 1] {
        let (_, target) = link.rsplit_once("href=\"#").expect("a link");
        let target = target.split('"').next().expect("its end");
        assert!(page.contains(&format!("id=\"{target}\"")), "{target}");
    }
    let (_, after) = page.split_once("/remedy\">").expect("a remedy to try");
    let form = after.split("</form>").next().expect("its end");
    let fields = ["worry", "of", "remedy"].map(|name| (name, field(form, name)));
    let fields: Vec<(&str, &str)> =
        fields.iter().map(|(name, value)| (*name, &value[..])).collect();
    let path = served.book.join(format!("{BUILD}.toml"));
    let before = std::fs::read_to_string(&path).expect("the file");
    assert_eq!(served.post(&format!("/builds/{BUILD}/remedy"), &fields).status, 303);
    assert_ne!(std::fs::read_to_string(&path).expect("the file"), before);
    let page = served.get(&format!("/builds/{BUILD}")).text();
    assert!(page.contains("What you changed") && page.contains("still of the build as it was"));
    assert!(!page.contains("/remedy\">"), "a remedy of a build that is no more");
    assert_eq!(served.post(&format!("/builds/{BUILD}/remedy"), &fields).status, 409);
    worked_out(&served);
}
