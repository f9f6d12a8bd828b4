//! The day strip at the window's foot: which day, where in it, play and step.

use maud::{Markup, html};

use super::super::day::{months, named_days};
use super::super::reckoned::Reckoned;
use super::super::shell::address;

/// Draws it; the browser brings the day itself.
pub fn strip(name: &str, shown: &Reckoned) -> Markup {
    let days = named_days(shown);
    let start = days.summer.unwrap_or(171);
    let named = [
        ("Typical summer", days.summer),
        ("Typical winter", days.winter),
        ("Hottest sheet", days.worst),
    ];
    html! {
        section id="strip" class="strip" aria-label="A day played" data-days={ (address(name)) "/day/" } data-day=(start) {
            div class="strip-which" {
                p class="strip-date" { b #strip-date { "A day" } }
                details id="strip-days" {
                  summary { "Other days" }
                  div class="row" {
                    @for (words, day) in named {
                        @if let Some(day) = day { button type="button" data-go=(day) { (words) } }
                    }
                    button type="button" id="day-before" { "Day before" }
                    button type="button" id="day-after" { "Day after" }
                    label { span class="unseen" { "Month" }
                        select id="strip-month" {
                            @for (first, month, long) in months() { option value=(first) data-long=(long) { (month) } }
                        }
                    }
                    label { span class="unseen" { "Day of the month" }
                        input id="strip-dom" type="number" min="1" max="31" value="1" inputmode="numeric";
                    }
                  }
                }
            }
            div class="strip-graph" {
                div class="at-wide" id="strip-wide" {}
                div class="at-narrow" id="strip-narrow" {}
                input id="strip-at" type="range" min="0" max="1439" value="720" step="1" aria-label="Minute of the day";
            }
            div class="strip-state" {
                p #strip-words role="status" { "The day is being fetched." }
                div class="row" {
                    button type="button" id="strip-play" class="main" { "Play the day" }
                    button type="button" data-by="-60" aria-label="\u{2212}1 h, one hour back" { "\u{2212}1 h" }
                    button type="button" data-by="-1" aria-label="\u{2212}1 min, one minute back" { "\u{2212}1 min" }
                    button type="button" data-by="1" aria-label="+1 min, one minute on" { "+1 min" }
                    button type="button" data-by="60" aria-label="+1 h, one hour on" { "+1 h" }
                    label { span class="unseen" { "Speed" }
                        select id="strip-speed" {
                            option value="1" { "full speed" }
                            option value="0.5" { "half speed" }
                            option value="0.25" { "quarter speed" }
                        }
                    }
                }
            }
        }
    }
}
