//! What is said of the answers, and the layout that may be built, drawn.

use design::quantity::Units;
use maud::{Markup, PreEscaped, html};
use sheets::pictures::Mover;
use sheets::pictures::loft::{self, ColdCistern, Given};
use sheets::svg;

use super::answers::{Answers, Drive};
use super::layout::{From, Height, Layout, Store};
use super::verdict::{Matters, Said, has_stop, verdict};

/// Draws it.
pub fn told(answers: &Answers, units: Units) -> Markup {
    let said = verdict(answers, units);
    let layout = Layout::of(answers);
    let is_stopped = has_stop(&said);
    let says = spoken(&said);
    html! {
        div id="verdict" class="told" data-says=(says) {
            h2 { (headline(&said, layout.as_ref())) }
            @for one in said.iter().filter(|one| one.kind == Matters::Stop) { (one_said(one)) }
            @if let Some(layout) = &layout {
                (drawing(layout, units, is_stopped))
            }
            @for one in said.iter().filter(|one| one.kind == Matters::Mind) { (one_said(one)) }
            @if said.iter().any(|one| one.kind == Matters::Quiet) {
                details id="quiet" {
                    summary { "Looked at, and as it should be: " (said.iter().filter(|one| one.kind == Matters::Quiet).count()) }
                    @for one in said.iter().filter(|one| one.kind == Matters::Quiet) { (one_said(one)) }
                }
            }
            p class="quiet" {
                "These rules are British where they name a law, and nobody has seen your house. Your water supplier, building control and the licensed trades say what holds where you live; ask them before you cut."
            }
        }
    }
}

fn headline(said: &[Said], layout: Option<&Layout>) -> &'static str {
    let is_unlooked = said
        .iter()
        .filter(|one| one.kind == Matters::Stop)
        .all(|one| one.code == "cistern-not-looked-at");
    match (has_stop(said), layout) {
        (true, Some(_)) if is_unlooked => "Look first what the cistern feeds",
        (_, None) => "Nothing may be built at these heights",
        (true, Some(_)) => "Not to be built as it stands",
        (false, Some(_)) => "No stop worry was found in what was asked here",
    }
}

/// One sentence for who cannot see the sheet change.
fn spoken(said: &[Said]) -> String {
    let count = |kind| said.iter().filter(|one| one.kind == kind).count();
    let (stops, minds) = (count(Matters::Stop), count(Matters::Mind));
    format!("{stops} stop {}, {minds} to mind.", if stops == 1 { "worry" } else { "worries" })
}

fn one_said(said: &Said) -> Markup {
    let (class, word) = match said.kind {
        Matters::Stop => ("is-stop", "Stop"),
        Matters::Mind => ("is-mind", "Mind"),
        Matters::Quiet => ("is-quiet", "Quiet"),
    };
    html! {
        div class={ "said " (class) } id={ "said-" (said.code) } {
            p { (mark(said.kind)) b { (word) ": " } (said.says) "." }
            p { (said.mend) }
            p class="quiet source" { (said.source) "." }
        }
    }
}

/// A shape of its own for each kind: a filled square with a cross, an open diamond with a stroke, a ring.
fn mark(kind: Matters) -> Markup {
    html! {
        svg class="mark-of" viewBox="0 0 16 16" aria-hidden="true" focusable="false" {
            @match kind {
                Matters::Stop => {
                    path class="mark-full" d="M1 1H15V15H1Z" {}
                    path class="mark-cross" d="M4 4L12 12M12 4L4 12" {}
                },
                Matters::Mind => path class="mark-open" d="M8 1L15 8L8 15L1 8ZM8 5V9.5" {},
                Matters::Quiet => circle class="mark-open" cx="8" cy="8" r="6" {},
            }
        }
    }
}

/// The layout that may be built: where it differs from what was asked for, and where everything stands.
fn drawing(layout: &Layout, units: Units, is_stopped: bool) -> Markup {
    let picture = loft::draw(&facts(layout, units));
    html! {
        div class="may" {
            @if is_stopped {
                h3 { "What is drawn and made instead" }
                ul {
                    @for departs in &layout.departs { li { (departs) } }
                }
            } @else {
                h3 { "What is drawn and made" }
            }
            figure class="picture" {
                div class="drawn" { (PreEscaped(svg::on_page(&picture))) }
                details id="loft-table" {
                    summary { "As a table" }
                    div class="facts" { (PreEscaped(picture.table.html())) }
                }
            }
        }
    }
}

fn facts(layout: &Layout, units: Units) -> loft::Facts {
    let height = |height: Height| loft::Height {
        over_m: height.over_m,
        given: match height.from {
            From::Answer => Given::Answered,
            From::Assumed => Given::Assumed,
            From::Moved => Given::Moved,
        },
    };
    loft::Facts {
        panel_bottom: height(layout.at.panel_bottom),
        panel_top: height(layout.at.panel_top),
        store_base: height(layout.at.store_base),
        store_depth_m: layout.depth_m(),
        store_words: match layout.store {
            Store::Cistern => "cistern with coil, base".to_owned(),
            Store::Own => "vessel of its own, base".to_owned(),
        },
        cold: match layout.store {
            Store::Cistern => ColdCistern::None,
            Store::Own => ColdCistern::Beside,
        },
        header: height(layout.at.header),
        tap: height(layout.at.tap),
        mover: match layout.drive {
            Drive::Pump => Mover::Pump,
            Drive::Gravity => Mover::Weight,
        },
        units,
    }
}
