//! The questions, all on one sheet, each with what is wrong in it beside it.

use std::collections::BTreeMap;

use design::catalogue::materials::{Group, material, names};
use design::catalogue::{climates, tubes};
use design::quantity::Units;
use maud::{Markup, html};

use super::answers::{Mistake, tube_word};
use super::layout::Layout;

/// What stands in the fields.
pub struct Fields<'a> {
    /// As typed.
    pub typed: &'a BTreeMap<String, String>,
    /// What cannot be used.
    pub mistakes: &'a [Mistake],
    /// The reader's units.
    pub units: Units,
}

impl Fields<'_> {
    fn word(&self, field: &str) -> &str {
        self.typed.get(field).map_or("", String::as_str)
    }

    fn mistake(&self, field: &str) -> Option<&Mistake> {
        self.mistakes.iter().find(|mistake| mistake.field == field)
    }

    fn says(&self, field: &str) -> Markup {
        html! {
            div id={ "says-" (field) } class="says" {
                @if let Some(mistake) = self.mistake(field) { p class="problem fault" { (mistake.says) } }
            }
        }
    }

    fn line(&self, field: &str, label: &str, hint: &str) -> Markup {
        let invalid = self.mistake(field).map(|_| "true");
        html! {
            div class="key" {
                label for=(field) { (label) }
                input id=(field) name=(field) value=(self.word(field)) autocomplete="off" spellcheck="false"
                    aria-describedby={ (field) "-hint says-" (field) } aria-invalid=[invalid];
                p id={ (field) "-hint" } class="quiet" { (hint) }
                (self.says(field))
            }
        }
    }

    fn tick(&self, field: &str, label: &str) -> Markup {
        html! {
            label class="tick" {
                input type="checkbox" name=(field) value="yes" checked[!self.word(field).is_empty()];
                span { (label) }
            }
        }
    }

    fn one_of(&self, field: &str, first: &str, choices: &[(&str, &str)]) -> Markup {
        let chosen = if self.word(field).is_empty() { first } else { self.word(field) };
        html! {
            @for (value, label) in choices {
                label class="tick" {
                    input type="radio" name=(field) value=(value) checked[*value == chosen];
                    span { (label) }
                }
            }
        }
    }

    fn choice(&self, field: &str, label: &str, none: &str, choices: &[(String, String)]) -> Markup {
        html! {
            div class="key" {
                label for=(field) { (label) }
                select id=(field) name=(field) {
                    option value="" selected[self.word(field).is_empty()] { (none) }
                    @for (value, words) in choices {
                        option value=(value) selected[value == self.word(field)] { (words) }
                    }
                }
            }
        }
    }
}

/// All questions.
pub fn questions(fields: &Fields) -> Markup {
    html! {
        fieldset {
            legend { "What does the cistern feed?" }
            p class="quiet" { "Follow every pipe that leaves it, and tick all that are true." }
            (fields.tick("feeds-only", "Only the hot-water cylinder"))
            (fields.tick("feeds-cold-taps", "Cold taps"))
            (fields.tick("feeds-shower", "A shower or a mixer"))
            (fields.tick("feeds-wc", "A WC or the garden"))
        }
        fieldset {
            legend { "What heats the water after it?" }
            (fields.one_of("heater", "", &[
                ("hot-cylinder", "A cylinder, all of it kept at 60 °C or more by immersion heater or boiler"),
                ("cool-cylinder", "A cylinder kept cooler, or heated at its top only"),
                ("combi-warm", "A combination boiler that takes warm water"),
                ("combi-cold", "A combination boiler that takes cold water only"),
                ("instantaneous", "An instantaneous electric heater, or an electric shower"),
                ("", "I do not know yet"),
            ]))
        }
        (stands(fields))
        fieldset {
            legend { "Who uses the water?" }
            (fields.line("people", "People in the house", "A whole number."))
            (fields.tick("tender", "Infants, old or ill people among them"))
        }
        (at_hand(fields))
    }
}

fn stands(fields: &Fields) -> Markup {
    let [_, hint, _] = hints(fields.units);
    html! {
        fieldset {
            legend { "Where does everything stand?" }
            p class="quiet" { "Heights over one level that you choose, the ground floor for instance; under it with a minus." }
            div class="keys-in-rows" {
                (fields.line("panel-bottom", "Panel, lower edge", hint))
                (fields.line("panel-top", "Panel, upper edge", hint))
                (fields.line("store-base", "Base of the cistern or store", hint))
                (fields.line("header-tank", "Water in the circuit’s header tank", hint))
                (fields.line("hot-tap", "Highest hot tap or shower head", hint))
            }
            p { "What shall move the fluid?" }
            (fields.one_of("drive", "pump", &[
                ("pump", "A pump"),
                ("gravity", "Its own weight: the store stands over the panel"),
            ]))
            div class="keys-in-rows" {
                (fields.choice("place", "Place, for the sun", "not said: the starter’s Berlin", &places()))
                (fields.line("tilt", "Slope of the panel", "Degrees from the level; 35 where nothing stands."))
                (fields.line("facing", "Looks to", "A compass word, or degrees from north; south where nothing stands."))
            }
        }
    }
}

fn at_hand(fields: &Fields) -> Markup {
    let [small, large, volume] = hints(fields.units);
    let sizes: Vec<(String, String)> = tubes::sizes()
        .iter()
        .map(|size| {
            (tube_word(size), format!("{} mm outside, wall {} mm", size.outside_mm, size.wall_mm))
        })
        .collect();
    let covers: Vec<(String, String)> = names(Group::Glazing)
        .into_iter()
        .map(|name| {
            let words = material(name).map_or(name.to_owned(), |material| material.name.clone());
            (name.to_owned(), words)
        })
        .collect();
    html! {
        fieldset {
            legend { "What is at hand?" }
            p class="quiet" { "Leave empty what is not there yet: it begins as a guess, marked as one." }
            div class="keys-in-rows" {
                (fields.line("sheet-length", "Copper sheet, length", small))
                (fields.line("sheet-width", "Copper sheet, width", small))
                (fields.choice("tube-size", "Copper tube", "not there yet", &sizes))
                (fields.line("tube-length", "Copper tube, length", large))
                (fields.choice("cover", "Cover", "not there yet", &covers))
                (fields.line("pane-length", "Cover, length", small))
                (fields.line("pane-width", "Cover, width", small))
                (fields.line("cistern", "Cistern or vessel, water in it", volume))
            }
        }
    }
}

/// In which unit a bare figure counts: of small things, of heights and lengths, of water.
fn hints(units: Units) -> [&'static str; 3] {
    match units {
        Units::Metric => [
            "In millimetres, unless a unit stands with it.",
            "In metres, unless a unit stands with it.",
            "In litres, unless a unit stands with it.",
        ],
        Units::Us => [
            "In inches, unless a unit stands with it.",
            "In feet, unless a unit stands with it.",
            "In US gallons, unless a unit stands with it.",
        ],
    }
}

fn places() -> Vec<(String, String)> {
    let mut all: Vec<(String, String)> =
        climates::spots().map(|spot| (spot.key.to_owned(), spot.name.to_owned())).collect();
    all.sort_by_key(|(_, name)| name.to_lowercase());
    all
}

/// The name, and the button that makes the build.
pub fn name(fields: &Fields, layout: Option<&Layout>) -> Markup {
    html! {
        div id="make" class="make" {
            @if let Some(layout) = layout {
                (fields.line("name", "Name of the build", "Letters, digits, blanks, - and _."))
                button class="main" name="do" value="make" {
                    @if layout.departs.is_empty() { "Make this build" } @else { "Make the build that is drawn" }
                }
                @if !layout.departs.is_empty() {
                    p class="quiet" { "It is not the layout you asked for, but the one drawn above." }
                }
            } @else {
                input type="hidden" name="name" value=(fields.word("name"));
                p { "Nothing is made for these heights." }
                (fields.says("name"))
            }
        }
    }
}
