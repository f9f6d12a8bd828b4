//! Slips over the sheet: what was changed and what it brought, a file that another program changed.

use maud::{Markup, html};
use sheets::words::{kwh, whole};

use super::super::House;
use super::super::desk::State;
use super::super::reckoned::{Late, Reckoned};
use super::super::shell::address;
use design::parameters::parameter_at;

/// All slips of a build.
pub fn slips(
    house: &House,
    name: &str,
    state: &State,
    (shown, late): (&Reckoned, &Late),
) -> Markup {
    html! {
        (tools(house, name, state))
        (outside(house, name, state))
        (changed(house, name, state, (shown, late)))
    }
}

/// Undo, redo, and where it is kept.
fn tools(house: &House, name: &str, state: &State) -> Markup {
    let (undo, redo) = state.history.lengths();
    let button = |change: &str, words: &str, count: usize| {
        html! {
            form class="live" method="post" action={ (address(name)) "/" (change) } {
                input type="hidden" name="token" value=(house.token);
                button data-key=(&change[..1]) disabled[count == 0] { (words) @if count > 0 { " (" (count) ")" } }
            }
        }
    };
    html! {
        div id="tools" class="tools" data-part="" {
            @if house.is_sample {
                p class="sample" { "This is a sample. Change anything; nothing of yours is touched." }
            }
            (button("undo", "Undo", undo))
            (button("redo", "Redo", redo))
            @if let Some(at) = &state.kept_at { p class="quiet" { "kept " (at) } }
        }
    }
}

/// The slip of what was changed.
fn changed(house: &House, name: &str, state: &State, (shown, late): (&Reckoned, &Late)) -> Markup {
    let more_kwh = state.former.as_ref().map(|former| shown.spared_kwh() - former.spared_kwh());
    let tolerance_kwh = late.next.as_ref().map(|worth| worth.tolerance_kwh);
    html! {
        div id="slip" data-part="" {
            @if let (Some(former), Some(more_kwh)) = (&state.former, more_kwh) {
                aside class="slip" aria-label="What you changed" {
                    h2 { @if state.changes.len() == 1 { "You changed one thing." } @else { "You changed " (state.changes.len()) " things." } }
                    ul {
                        @for change in &state.changes {
                            li {
                                (help(&change.place)) ": "
                                @if change.from.is_empty() { "now " b { (change.to) } }
                                @else if change.to.is_empty() { (change.from) ", now left out" }
                                @else { (change.from) " to " b { (change.to) } }
                            }
                        }
                    }
                    p class="brought" {
                        b { (difference(more_kwh, tolerance_kwh)) }
                        " " (whole(shown.spared_kwh())) ", was " (kwh(former.spared_kwh()))
                        ". The dotted lines are the section as it was."
                    }
                    div class="row" {
                        form class="live" method="post" action={ (address(name)) "/keep" } {
                            input type="hidden" name="token" value=(house.token);
                            button class="main" { "Keep" }
                        }
                        form class="live" method="post" action={ (address(name)) "/put-back" } {
                            input type="hidden" name="token" value=(house.token);
                            button { "Put back" }
                        }
                    }
                }
            }
        }
    }
}

fn help(place: &str) -> String {
    parameter_at(place)
        .map_or(place.to_owned(), |parameter| parameter.help.trim_end_matches('.').to_owned())
}

/// The difference in words.
fn difference(more_kwh: f64, tolerance_kwh: Option<f64>) -> String {
    if tolerance_kwh.is_some_and(|tolerance_kwh| more_kwh.abs() < tolerance_kwh) {
        return "No difference worth having.".to_owned();
    }
    let digits = if more_kwh.abs() < 9.95 {
        format!("{:.1}\u{a0}kWh", more_kwh.abs())
    } else {
        kwh(more_kwh.abs())
    };
    format!("{digits} a year {} spared.", if more_kwh < 0.0 { "less" } else { "more" })
}

/// The file as another program left it, beside this page's: which shall stand is asked.
pub fn outside(house: &House, name: &str, state: &State) -> Markup {
    html! {
        div id="outside" data-part="" {
            @if let Some(theirs) = &state.outside {
                aside class="slip outside" role="alert" aria-label="The file was changed" {
                    h2 { "Another program changed this build’s file." }
                    p { "Nothing was overwritten. Only the lines that differ are shown; which shall stand?" }
                    div class="both" {
                        div { h3 { "On this page" } pre tabindex="0" { (only(&state.text, theirs)) } }
                        div { h3 { "In the file now" } pre tabindex="0" { (only(theirs, &state.text)) } }
                    }
                    div class="row" {
                        form class="live" method="post" action={ (address(name)) "/take-outside" } {
                            input type="hidden" name="token" value=(house.token);
                            button class="main" { "Take the file as it is now" }
                        }
                        form class="live" method="post" action={ (address(name)) "/write-mine" } {
                            input type="hidden" name="token" value=(house.token);
                            button { "Write this page’s over it" }
                        }
                    }
                    p class="quiet" { "Either way the other can be had back with Undo." }
                }
            }
        }
    }
}

/// The lines of one text that the other does not have in the same order, with their numbers.
fn only(one: &str, other: &str) -> String {
    let (one, other): (Vec<&str>, Vec<&str>) = (one.lines().collect(), other.lines().collect());
    let same_start = one.iter().zip(&other).take_while(|(one, other)| one == other).count();
    let same_end = one[same_start..]
        .iter()
        .rev()
        .zip(other[same_start..].iter().rev())
        .take_while(|(one, other)| one == other)
        .count();
    let differing = &one[same_start..one.len() - same_end];
    if differing.is_empty() {
        return "(nothing stands here)".to_owned();
    }
    differing
        .iter()
        .enumerate()
        .map(|(place, line)| format!("{:>4}  {line}", same_start + place + 1))
        .collect::<Vec<_>>()
        .join("\n")
}

#[cfg(test)]
mod tests {
    use super::only;

    /// Given two texts that differ in one line and by one added, those lines alone; by hand.
    #[test]
    fn only_what_differs_is_shown() {
        assert_eq!(only("a\nb\nc", "a\nx\nc"), "   2  b");
        assert_eq!(only("a\nc", "a\nb\nc"), "(nothing stands here)");
        assert_eq!(only("a\nb\nc", "a\nc"), "   2  b");
    }
}
