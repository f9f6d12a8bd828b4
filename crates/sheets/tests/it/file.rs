//! What a file of a drawing must be: sound XML, closed in itself, read by everyone.

use sheets::page::{Picture, page};
use sheets::pictures::Width;
use sheets::svg;

use crate::facts;

const HOSTILE: &str = "</title><script>alert('x\"y')</script> & \u{0}\u{7}<!-- ]]> \u{202e}";

/// Given every picture: its file is XML, an image with a name and a description, its text stays text,
/// and nothing in it refers to anything outside.
#[test]
fn files_are_sound_and_closed_in_themselves() {
    for drawing in facts::all() {
        let text = svg::file(&drawing);
        let document = roxmltree::Document::parse(&text).expect("XML");
        let root = document.root_element();
        assert_eq!(root.attribute("role"), Some("img"), "{}", drawing.name);
        let ids: Vec<&str> =
            root.attribute("aria-labelledby").expect("a name").split(' ').collect();
        for (id, want) in ids.iter().zip([&drawing.title, &drawing.description]) {
            let node = document.descendants().find(|node| node.attribute("id") == Some(id));
            assert_eq!(node.and_then(|node| node.text()), Some(want.as_str()), "{}", drawing.name);
            assert!(want.len() > 10);
        }
        for node in document.descendants() {
            for attribute in node.attributes() {
                assert!(attribute.name() != "href", "{}", drawing.name);
                if attribute.value().contains("url(") {
                    let id = attribute.value().trim_start_matches("url(#").trim_end_matches(')');
                    let known = document.descendants().any(|node| node.attribute("id") == Some(id));
                    assert!(known, "{}: {id}", drawing.name);
                }
            }
        }
        let style = text.split("<style>").nth(1).and_then(|rest| rest.split("</style>").next());
        let style = style.expect("its own style");
        assert!(!style.contains("url(") && !style.contains("@import"), "{}", drawing.name);
        let words = document.descendants().filter(|node| node.has_tag_name("text")).count();
        // The small column of a list bears none: the row that it stands in has them.
        let bare = drawing.name == sheets::pictures::column::SMALL;
        assert_eq!(words > 3, !bare, "{}", drawing.name);
    }
}

/// Given a title that would break out of its place: files and page still are what they were, and the
/// title is read as it was written, less the letters that no file may hold.
#[test]
fn a_hostile_title_stays_a_title() {
    let mut drawing = facts::efficiency_of(Width::Page, design::quantity::Units::Metric);
    drawing.title = HOSTILE.to_owned();
    drawing.description = HOSTILE.to_owned();
    drawing.table.rows.push(vec![HOSTILE.to_owned(); 3]);
    let text = svg::file(&drawing);
    let document = roxmltree::Document::parse(&text).expect("XML");
    let title = document.descendants().find(|node| node.has_tag_name("title")).expect("a title");
    assert_eq!(title.text(), Some(HOSTILE.replace(['\u{0}', '\u{7}'], "").as_str()));
    let whole = page(HOSTILE, &[Picture { wide: drawing, narrow: None }]);
    assert!(!whole.contains("<script") && !whole.contains("<!--"));
}

/// Given all pictures on a page: each stands there with its table, whose rows are as long as its heads,
/// and the page refers to nothing outside.
#[test]
fn the_page_holds_every_picture_and_its_table() {
    let pictures: Vec<Picture> = facts::small_ones(Width::Page, design::quantity::Units::Metric)
        .into_iter()
        .map(|wide| Picture { wide, narrow: None })
        .collect();
    let text = page("A build", &pictures);
    for picture in &pictures {
        let table = &picture.wide.table;
        assert!(!table.rows.is_empty(), "{}", picture.wide.name);
        assert!(table.rows.iter().all(|row| row.len() == table.heads.len()), "{table:?}");
        assert!(text.contains(&table.html()), "{}", picture.wide.name);
        assert!(text.contains(&format!("id=\"{}-title\"", picture.wide.name)));
    }
    for outside in ["http://", "https://", "src=", "href=", "@import"] {
        let met = text.replace("http://www.w3.org/2000/svg", "");
        assert!(!met.contains(outside), "{outside}");
    }
}
