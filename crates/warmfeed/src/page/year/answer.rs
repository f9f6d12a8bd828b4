//! The answer as a sentence, with how sure it is, and what stands against the build.

use advice::worry::{Kind, NOT_LOOKED_AT, Setting};
use maud::{Markup, html};
use sheets::words::{kwh, whole};

use super::super::desk::State;
use super::super::numbers::Numbers;
use super::super::reckoned::{Late, Reckoned};
use super::notes::stop_lines;
use crate::worry_words::{Ear, stops_counted};

/// Draws it.
pub fn answer(numbers: &Numbers) -> Markup {
    let Numbers { state, shown, late, .. } = *numbers;
    let ear = Ear { units: numbers.reader.units, setting: Setting::Typeset };
    let of_hundred = 100.0 * shown.year.share;
    let design = &shown.loaded.design;
    html! {
        div id="answer" class="answer" data-part="" data-version=(state.version)
            data-computed=(shown.number) data-says=(spoken(state, shown)) data-stops=[stops_spoken(late)] {
            p class="build-title" { (design.title) ". " span class="quiet" { (design.story) } }
            h1 {
                "In this year’s weather the build spares the heater "
                span class="figure" { (kwh(shown.spared_kwh())) }
                ": " (parts(of_hundred)) " in every 100."
            }
            div class="sure" { (sure(late)) }
            div class="stops" { (stops(late, ear)) (problems(state)) }
        }
    }
}

fn parts(of_hundred: f64) -> String {
    if of_hundred.round() == 1.0 {
        "1 part".to_owned()
    } else {
        format!("{} parts", whole(of_hundred))
    }
}

/// One sentence for who cannot see the page change.
fn spoken(state: &State, shown: &Reckoned) -> String {
    let mut says = format!("{} kilowatt-hours", whole(shown.spared_kwh()));
    if let Some(former) = &state.former {
        let more = shown.spared_kwh() - former.spared_kwh();
        let word = if more < 0.0 { "less" } else { "more" };
        says.push_str(&format!(", {:.1} {word} than before", more.abs()));
    }
    says.push('.');
    if state.refused.is_some() {
        says = "That was not taken. The reason stands under the field.".to_owned();
    }
    says
}

/// The band, or how far it is worked out.
fn sure(late: &Late) -> Markup {
    html! {
        @if let Some(band) = &late.band {
            p {
                "Eight chances in ten that it lies between " b { (whole(band.low)) } " and " b { (kwh(band.high)) }
                ", and as likely above " (whole(band.middle)) " as below. Weather alone: 8 years in 10 between "
                (whole(band.weather_alone.low)) " and " (whole(band.weather_alone.high))
                "; the rest moves every year alike."
            }
            @if let Some(maker) = band.makers.first() {
                p { "Most of the doubt: " (maker.name) "."
                    @if let Some(narrowing) = &band.narrowing {
                        " Measured, " (narrowing.place) " would narrow it most: " (narrowing.how) "."
                    }
                }
            }
        }
        @if let Some((words, done, all)) = late.working {
            p class="working" {
                "Still being worked out: " (words)
                @if all > 0 { ", " (done) " of " (all) }
                "."
                span class="twelve" role="progressbar" aria-label=(words) aria-valuemin="0" aria-valuemax="12" aria-valuenow=(twelfths(done, all)) {
                    @for part in 0..12 { i class=(if part < twelfths(done, all) { "done" } else { "" }) {} }
                }
            }
        }
        @if late.band.is_none() && late.working.is_none() && late.failed.is_empty() {
            p class="working" { "How sure that is will be worked out next." }
        }
        @for failed in &late.failed { p class="problem warning" { (failed) } }
    }
}

fn twelfths(done: usize, all: usize) -> usize {
    (12 * done).checked_div(all).unwrap_or(0)
}

/// How many stop worries there are, for who cannot see them come; `None` until that is worked out.
fn stops_spoken(late: &Late) -> Option<String> {
    let found = late.worries.as_ref().filter(|_| !late.worries_are_former)?;
    Some(format!("{}.", stops_counted(found)))
}

/// The stop worries, and what was not looked at.
fn stops(late: &Late, ear: Ear) -> Markup {
    let Some(found) = &late.worries else {
        return html! { p class="working" { "What can go wrong is not worked out yet." } };
    };
    let stops = found.iter().filter(|finding| finding.kind == Kind::Stop).count();
    html! {
        @if late.worries_are_former {
            p class="quiet" { "What can go wrong is being worked out anew; this is still of the build as it was." }
        }
        (stop_lines(found, ear))
        @if stops == 0 { p { (stops_counted(found)) "." } }
        details id="not-looked-at" data-keep="" {
            summary { "What is not looked at" }
            p { (NOT_LOOKED_AT) "." }
        }
    }
}

/// Problems of the text as it stands that belong to no field of the page.
fn problems(state: &State) -> Markup {
    let faults = state.problems.iter().filter(|problem| problem.is_fault()).count();
    html! {
        @if let Some(failed) = &state.failed {
            div class="problem fault" role="alert" { p { b { "Not computed: " } (failed) } }
        }
        @if faults > 0 || state.failed.is_some() {
            p class="quiet" {
                "The rest of the page still shows the last build that could be worked out"
                @if let Some(shown) = &state.shown { ", from " (shown.at) }
                "."
            }
        }
        @if !state.problems.is_empty() {
            details id="all-problems" data-keep="" open[faults > 0] {
                summary { (state.problems.len()) @if state.problems.len() == 1 { " remark" } @else { " remarks" } " on the design file" }
                @for problem in &state.problems { (super::told(problem)) }
            }
        }
    }
}
