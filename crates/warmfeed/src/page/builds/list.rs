//! The list: each build with its year in short, and what may be done with it.

use std::sync::Arc;

use axum::response::Response;
use maud::{Markup, PreEscaped, html};
use sheets::pictures::column::{SMALL, SMALL_HATCHES};
use sheets::svg::{self, Tiles};
use sheets::words::{kwh, whole};

use super::super::House;
use super::super::answer::not_done;
use super::super::overview::{self, Figures, Told, Year};
use super::super::reader::Reader;
use super::super::shell::{Sheet, Word, address, sheet};
use super::Refused;
use sheets::drawing::Strip;

/// Draws it; `refused`: a name that was just typed and not taken.
pub fn list(house: &Arc<House>, reader: &Reader, refused: Option<&Refused>) -> Response {
    let builds = match house.book.builds() {
        Ok(builds) => builds,
        Err(error) => return not_done(&error),
    };
    let main = html! {
        h1 { "Builds" }
        (PreEscaped(svg::all_tiles(SMALL, SMALL_HATCHES)))
        @if house.is_sample {
            p class="sample" { "This is a sample. Change anything; nothing of yours is touched." }
        }
        @if builds.is_empty() { (empty()) } @else {
            p class="opening" {
                "Each strip is that build’s year of sun, from the first loss at the left to what is spared at the right, in amber."
            }
        }
        ul class="builds" data-follows="/builds" {
            @for name in &builds {
                @if let Some(told) = overview::told(house, name) {
                    (build(house, name, &told, refused.filter(|refused| refused.build == *name)))
                }
            }
        }
        p { a class="button main" href="/new" { "New build" } }
        (bin(house))
    };
    let of = Sheet {
        title: "Builds",
        word: Word::Builds,
        build: None,
        path: "/builds",
        modules: &[],
        styles: &["lists.css"],
        main,
    };
    sheet(house, reader, of)
}

fn empty() -> Markup {
    html! {
        p class="opening" {
            "An empty job book. Start with the sheet or the cistern, whichever you already have. Every other number begins as a guess, marked as one."
        }
    }
}

/// A build's place in the document.
pub fn id(name: &str) -> String {
    let mut id = "b-".to_owned();
    for byte in name.bytes() {
        if byte.is_ascii_alphanumeric() {
            id.push(char::from(byte));
        } else {
            id.push_str(&format!("-{byte:02x}"));
        }
    }
    id
}

fn build(house: &House, name: &str, told: &Told, refused: Option<&Refused>) -> Markup {
    let id = id(name);
    html! {
        li id=(id) {
            div id={ (id) "-year" } data-part="" class="build-year" {
                h2 { a href=(address(name)) { (told.title) } }
                p class="quiet file-name" { (name) ".toml" }
                (year(&told.year))
            }
            div class="build-work" {
                (copy(house, name, &id, refused))
                (rename(house, name, &id, refused))
                (throw_away(house, name, &id, refused))
            }
        }
    }
}

fn year(year: &Year) -> Markup {
    html! {
        @match year {
            Year::BeingWorkedOut => p class="working" { "Being worked out." },
            Year::None(says) => p class="problem fault" { b { "Not computed: " } (says) },
            Year::Done(figures) => (done(figures)),
        }
    }
}

fn done(figures: &Figures) -> Markup {
    let of_hundred = 100.0 * figures.share;
    html! {
        p class="spares" {
            b { (kwh(figures.spared_kwh)) } " spared, " (whole(of_hundred)) " in every 100"
        }
        @if let Some(column) = &figures.column {
            div class="small-column" role="img" aria-label=(column.description) {
                (PreEscaped(svg::strip(column, Strip { top_mm: 0.0, height_mm: column.height_mm }, Tiles::Shared)))
            }
        }
    }
}

fn copy(house: &House, name: &str, id: &str, refused: Option<&Refused>) -> Markup {
    let here = refused.filter(|refused| refused.change == "copy");
    let proposed = here.map_or_else(|| house.book.proposed(name), |refused| refused.typed.clone());
    html! {
        details open[here.is_some()] {
            summary { "Copy" span class="unseen" { " " (name) } }
            (naming(house, name, "copy", &format!("{id}-copy"), ("Name of the copy", &proposed, "Copy it and look at the copy"), here))
        }
    }
}

fn rename(house: &House, name: &str, id: &str, refused: Option<&Refused>) -> Markup {
    let here = refused.filter(|refused| refused.change == "rename");
    let typed = here.map_or(name, |refused| refused.typed.as_str());
    html! {
        details open[here.is_some()] {
            summary { "Rename" span class="unseen" { " " (name) } }
            (naming(house, name, "rename", &format!("{id}-rename"), ("New name", typed, "Rename it"), here))
        }
    }
}

/// A form with a name in it; why the last one was not taken stands under it.
fn naming(
    house: &House,
    name: &str,
    change: &str,
    id: &str,
    (label, value, button): (&str, &str, &str),
    refused: Option<&Refused>,
) -> Markup {
    html! {
        form class="naming" method="post" action={ (address(name)) "/" (change) } {
            input type="hidden" name="token" value=(house.token);
            label for=(id) { (label) }
            input id=(id) name="to" value=(value) autocomplete="off" spellcheck="false" required maxlength="80"
                aria-invalid=[refused.map(|_| "true")] aria-describedby=[refused.map(|_| format!("{id}-says"))]
                autofocus[refused.is_some()];
            button { (button) }
            @if let Some(refused) = refused {
                p id={ (id) "-says" } class="problem fault" role="alert" { (capital(&refused.says)) }
            }
        }
    }
}

fn throw_away(house: &House, name: &str, id: &str, refused: Option<&Refused>) -> Markup {
    let here = refused.filter(|refused| refused.change == "bin");
    html! {
        details open[here.is_some()] {
            summary { "Move to the bin" span class="unseen" { ": " (name) } }
            form class="naming" method="post" action={ (address(name)) "/bin" } aria-describedby={ (id) "-bin" } {
                input type="hidden" name="token" value=(house.token);
                p id={ (id) "-bin" } { "It stays in the book’s bin, and can be taken back from there." }
                button { "Move " (name) " to the bin" }
                @if let Some(refused) = here { p class="problem fault" role="alert" { (capital(&refused.says)) } }
            }
        }
    }
}

fn bin(house: &House) -> Markup {
    let thrown = house.book.thrown_away();
    html! {
        section id="bin" class="bin" aria-labelledby="bin-head" tabindex="-1" {
            @if !thrown.is_empty() {
                h2 id="bin-head" { "In the bin" }
                ul {
                    @for name in &thrown {
                        li {
                            span { (name) }
                            form method="post" action={ "/bin" (address(name).trim_start_matches("/builds")) "/back" } {
                                input type="hidden" name="token" value=(house.token);
                                button { "Take back" span class="unseen" { " " (name) } }
                            }
                        }
                    }
                }
            }
        }
    }
}

fn capital(text: &str) -> String {
    design::value::capital(text)
}

#[cfg(test)]
mod tests {
    use super::id;

    /// Given names that differ only in signs that no document name may hold, different places.
    #[test]
    fn a_build_has_a_place_of_its_own() {
        assert_eq!(id("first-panel"), "b-first-2dpanel");
        assert_ne!(id("a b"), id("a-b"));
        assert!(id("été 1").bytes().all(|byte| byte.is_ascii_alphanumeric() || byte == b'-'));
    }
}
