//! All pictures on one page, each with its table under it; nothing is fetched.

use crate::drawing::Drawing;
use crate::style;
use crate::svg::{escaped, inline, roles};

/// A picture of the page: one drawing, or one for a page and one for a phone.
#[derive(Clone, Debug)]
pub struct Picture {
    /// For a page.
    pub wide: Drawing,
    /// For a phone, where the wide one would not do.
    pub narrow: Option<Drawing>,
}

/// The page.
pub fn page(title: &str, pictures: &[Picture]) -> String {
    let mut roles_met = style::all_roles();
    for drawing in
        pictures.iter().flat_map(|picture| [&picture.wide].into_iter().chain(&picture.narrow))
    {
        for role in roles(drawing) {
            if !roles_met.contains(&role) {
                roles_met.push(role);
            }
        }
    }
    let mut text = format!(
        "<!doctype html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n\
         <meta name=\"viewport\" content=\"width=device-width,initial-scale=1\">\n\
         <title>{0}</title>\n<style>\n{1}{2}</style>\n</head>\n<body>\n<main>\n<h1>{0}</h1>\n",
        escaped(title),
        style::css(&roles_met),
        style::page_css(),
    );
    for picture in pictures {
        text.push_str(&figure(picture));
    }
    text.push_str("</main>\n</body>\n</html>\n");
    text
}

fn figure(picture: &Picture) -> String {
    let drawing = &picture.wide;
    let class = if picture.narrow.is_some() { " class=\"on-page\"" } else { "" };
    let mut text = format!("<figure>\n<div{class} tabindex=\"0\">\n{}</div>\n", inline(drawing));
    if let Some(narrow) = &picture.narrow {
        text.push_str(&format!("<div class=\"on-phone\">\n{}</div>\n", inline(narrow)));
    }
    text.push_str(&format!(
        "<figcaption>{}</figcaption>\n<details open>\n<summary>As a table</summary>\n\
         <div class=\"facts\" tabindex=\"0\">\n{}</div>\n</details>\n</figure>\n",
        escaped(&drawing.title),
        drawing.table.html()
    ));
    text
}
