//! What every sheet of the page shares: masthead, how one reads, the region that speaks.

use axum::response::{IntoResponse, Response};
use design::quantity::Units;
use maud::{DOCTYPE, Markup, html};

use super::House;
use super::reader::{Look, Reader};

/// The sheets of the masthead.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Word {
    /// One build's year.
    Year,
    /// Its series.
    Series,
    /// All builds.
    Builds,
    /// A new one.
    New,
    /// The sums.
    Sums,
    /// What this is.
    About,
    /// None of them.
    None,
}

/// One sheet.
pub struct Sheet<'a> {
    /// What it is called.
    pub title: &'a str,
    /// Which word of the masthead it belongs to.
    pub word: Word,
    /// The build it is of.
    pub build: Option<&'a str>,
    /// Its own address, for coming back to.
    pub path: &'a str,
    /// Styles it needs beside the page's own.
    pub styles: &'a [&'a str],
    /// Modules it needs beside the page's own.
    pub modules: &'a [&'a str],
    /// What stands on it.
    pub main: Markup,
}

/// Draws it.
pub fn sheet(house: &House, reader: &Reader, sheet: Sheet) -> Response {
    html! {
        (DOCTYPE)
        html lang="en" class=(reader.classes()) data-keys=(if reader.has_keys { "on" } else { "off" })
            data-units=(if reader.units == Units::Us { "us" } else { "metric" }) {
            head {
                meta charset="utf-8";
                meta name="viewport" content="width=device-width,initial-scale=1";
                meta name="color-scheme" content="light dark";
                title { (sheet.title) " \u{b7} warmfeed" }
                link rel="icon" href="/assets/icon.svg" type="image/svg+xml";
                link rel="stylesheet" href="/assets/page.css";
                link rel="stylesheet" href="/pictures.css";
                @for style in sheet.styles { link rel="stylesheet" href={ "/assets/" (style) }; }
                script type="module" src="/assets/page.js" {}
                @for module in sheet.modules {
                    script type="module" src={ "/assets/" (module) } {}
                }
            }
            body data-build=[sheet.build] {
                a class="skip" href="#main" { "To the sheet" }
                (masthead(house, reader, &sheet))
                p #speaks class="unseen" role="status" aria-live="polite" {}
                main #main tabindex="-1" { (sheet.main) }
                (foot())
                dialog #keys aria-label="Keys" {
                    h2 { "Keys" }
                    dl class="keys" {
                        dt { "1 to 5" } dd { "Sun, Panel, Circuit, Store, Tap" }
                        dt { "u, r" } dd { "Undo, redo" }
                        dt { "Arrow up, arrow down" } dd { "In a number: one step; with Shift a tenth of it" }
                        dt { "Enter, Escape" } dd { "In a number: keep it, put it back" }
                        dt { "Left, right" } dd { "On the day: one minute; Page Up and Page Down one hour" }
                        dt { "Blank" } dd { "On the day: play or pause" }
                        dt { "?" } dd { "This list" }
                    }
                    form method="dialog" { button { "Close" } }
                }
            }
        }
    }
    .into_response()
}

fn masthead(house: &House, reader: &Reader, sheet: &Sheet) -> Markup {
    let of_build = |end: &str| sheet.build.map(|build| format!("{}{end}", address(build)));
    let words = [
        (Word::Year, "The year", of_build("")),
        (Word::Series, "Series", of_build("/series")),
        (Word::Builds, "Builds", Some("/builds".to_owned())),
        (Word::New, "New build", Some("/new".to_owned())),
        (Word::Sums, "Sums", Some("/sums".to_owned())),
    ];
    html! {
        header class="masthead" {
            p class="name" { a href="/" { "warmfeed" } }
            nav aria-label="Sheets" {
                ul {
                    @for (word, name, target) in words {
                        @if let Some(target) = target {
                            li {
                                a href=(target) aria-current=[(word == sheet.word).then_some("page")] { (name) }
                            }
                        }
                    }
                }
            }
            (reading(house, reader, sheet.path))
        }
    }
}

/// Units, day or night, larger type: buttons that work without a script too.
fn reading(house: &House, reader: &Reader, path: &str) -> Markup {
    let pressed = |is: bool| if is { "true" } else { "false" };
    html! {
        form class="reading" method="post" action="/reading" aria-label="How you read" {
            input type="hidden" name="token" value=(house.token);
            input type="hidden" name="back" value=(path);
            span class="group" role="group" aria-label="Units" {
                button name="units" value="metric" aria-pressed=(pressed(reader.units == Units::Metric)) { "mm, °C" }
                button name="units" value="us" aria-pressed=(pressed(reader.units == Units::Us)) { "in, °F" }
            }
            span class="group" role="group" aria-label="Day or night" {
                button name="look" value="day" aria-pressed=(pressed(reader.look == Some(Look::Day))) { "Day" }
                button name="look" value="night" aria-pressed=(pressed(reader.look == Some(Look::Night))) { "Night" }
            }
            button name="type" value=(if reader.is_larger { "usual" } else { "larger" })
                aria-pressed=(pressed(reader.is_larger)) { "Larger type" }
        }
    }
}

fn foot() -> Markup {
    html! {
        footer class="foot" {
            p {
                "Computed on this computer; nothing leaves it. Wiring, gas, drinking water and work on the roof are for licensed trades, and local codes decide what may be built. "
                a href="/about" { "About, cautions, licences" }
            }
        }
    }
}

/// The address of a build's sheet.
pub fn address(build: &str) -> String {
    let name = percent_encoding::utf8_percent_encode(build, percent_encoding::NON_ALPHANUMERIC);
    format!("/builds/{name}")
}
