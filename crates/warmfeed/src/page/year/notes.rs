//! What can go wrong, beside the station where it belongs: the kind's word and shape first, the rest in
//! place when it is opened.

use advice::worry::{Finding, Kind, Remedy, Setting, Station, Tried};
use design::parameters::parameter_at;
use design::value::capital;
use maud::{Markup, html};
use sheets::page::Picture;

use super::super::numbers::{Numbers, field_id};
use super::super::shell::address;
use super::picture;
use crate::pictures::course_pictures;
use crate::worry_words::{Ear, kind_word, sources};

/// Quiet notes that stand open; the others fold.
const QUIET_SHOWN: usize = 2;

/// The notes of one station.
pub fn notes(numbers: &Numbers, station: Station) -> Markup {
    let late = numbers.late;
    let ear = Ear { units: numbers.reader.units, setting: Setting::Typeset };
    let Some(findings) = &late.worries else {
        return html! {
            div class="notes" {
                h3 { "What can go wrong" }
                p class="quiet" { "What can go wrong here is not worked out yet." }
            }
        };
    };
    let pictures = course_pictures(findings, ear.units);
    // They come by kind, the worst first.
    let here: Vec<Note> = findings
        .iter()
        .zip(&pictures)
        .filter(|(finding, _)| finding.station == station)
        .map(|(finding, picture)| Note { numbers, ear, finding, picture: picture.as_ref() })
        .collect();
    let quiet = here.iter().filter(|note| note.finding.kind == Kind::Quiet);
    let (shown, folded): (Vec<&Note>, Vec<&Note>) = {
        let loud = here.iter().filter(|note| note.finding.kind != Kind::Quiet);
        (loud.chain(quiet.clone().take(QUIET_SHOWN)).collect(), quiet.skip(QUIET_SHOWN).collect())
    };
    html! {
        div class="notes" {
            h3 { "What can go wrong" }
            @if late.worries_are_former {
                p class="quiet" { "These are still of the build as it was; they are being worked out anew." }
            }
            @if here.is_empty() { p class="quiet" { "Nothing computed here belongs to this station." } }
            @for note in shown { (note.drawn()) }
            @if !folded.is_empty() {
                details class="more" id={ "w-more-" (station as usize) } data-keep="" {
                    summary { (folded.len()) " more that " @if folded.len() == 1 { "is" } @else { "are" } " quiet" }
                    @for note in folded { (note.drawn()) }
                }
            }
        }
    }
}

/// The stop worries in one line each, for the head of the sheet; each leads to its note.
pub fn stop_lines(findings: &[Finding], ear: Ear) -> Markup {
    html! {
        @for finding in findings.iter().filter(|finding| finding.kind == Kind::Stop) {
            p class="stop-line" {
                (mark(finding.kind))
                b { (kind_word(finding.kind)) ": " }
                (first_and_rest(&ear.hears(&finding.says)).0) " "
                a href={ "#" (id(finding)) "-in" } aria-label={ "See what helps: " (title(finding)) } { "See what helps" }
            }
        }
    }
}

/// A note's name in the document.
fn id(finding: &Finding) -> String {
    let mut id = format!("w-{}", finding.code);
    if !finding.of.is_empty() {
        id.push('-');
        id.extend(
            finding.of.chars().map(|sign| if sign.is_ascii_alphanumeric() { sign } else { '-' }),
        );
    }
    id
}

/// What a note is of, in a few words.
fn title(finding: &Finding) -> String {
    let code = finding.code.replace('-', " ");
    if finding.of.is_empty() { code } else { format!("{code}, {}", finding.of) }
}

/// A sentence's first part, and what follows it.
fn first_and_rest(says: &str) -> (String, Option<String>) {
    match says.split_once(". ") {
        Some((first, rest)) => (format!("{first}."), Some(format!("{rest}."))),
        None => (format!("{says}."), None),
    }
}

/// The shape of a kind: a filled square with a cross, an open diamond with a stroke, an open ring.
fn mark(kind: Kind) -> Markup {
    html! {
        svg class={ "worry-mark is-" (kind_word(kind).to_lowercase()) } viewBox="0 0 16 16" width="1rem" height="1rem" aria-hidden="true" focusable="false" {
            @match kind {
                Kind::Stop => { rect class="filled" x="1" y="1" width="14" height="14" {} path class="cross" d="M4.5 4.5 11.5 11.5M11.5 4.5 4.5 11.5" {} }
                Kind::Mind => { path d="M8 1 15 8 8 15 1 8Z" {} path d="M8 4.6V11.4" {} }
                Kind::Quiet => { circle cx="8" cy="8" r="6" {} }
            }
        }
    }
}

/// One worry as it is drawn.
struct Note<'a> {
    numbers: &'a Numbers<'a>,
    ear: Ear,
    finding: &'a Finding,
    picture: Option<&'a Picture>,
}

impl Note<'_> {
    fn drawn(&self) -> Markup {
        let Note { ear, finding, .. } = self;
        let (first, rest) = first_and_rest(&ear.hears(&finding.says));
        let id = id(finding);
        html! {
            details class={ "note is-" (kind_word(finding.kind).to_lowercase()) } id=(id) data-keep="" {
                summary {
                    (mark(finding.kind))
                    span { b { (kind_word(finding.kind)) ": " } (first) }
                }
                div class="note-in" id={ (id) "-in" } {
                    @if let Some(rest) = rest { p { (rest) } }
                    @if !finding.mend.is_empty() { p { b { "Do: " } (ear.hears(&finding.mend)) "." } }
                    (self.figures())
                    @if let Some(found) = self.picture { (picture(found)) }
                    (self.remedies(&id))
                    @for source in sources(finding) { p class="source" { (capital(&source)) "." } }
                    (self.value())
                }
            }
        }
    }

    fn figures(&self) -> Markup {
        let figures = &self.finding.figures;
        html! {
            @if !figures.is_empty() {
                dl class="note-figures" {
                    @for figure in figures {
                        dt { (capital(figure.what)) }
                        dd { (self.ear.figure(figure)) }
                    }
                }
            }
        }
    }

    fn remedies(&self, id: &str) -> Markup {
        let remedies = &self.finding.remedies;
        html! {
            @if !remedies.is_empty() {
                p class="note-head" { b { "What would help" } }
                ul class="remedies" {
                    @for (place, remedy) in remedies.iter().enumerate() {
                        li {
                            p { (self.ear.hears(&remedy.says)) ": " (self.ear.outcome(remedy)) "." }
                            @if self.may_be_tried(remedy) {
                                form class="live" method="post" action={ (address(self.numbers.build)) "/remedy" } {
                                    input type="hidden" name="token" value=(self.numbers.token);
                                    input type="hidden" name="worry" value=(self.finding.code);
                                    input type="hidden" name="of" value=(self.finding.of);
                                    input type="hidden" name="remedy" value=(place);
                                    input type="hidden" name="at" value=(id);
                                    button aria-label={ "Try it: " (self.ear.hears(&remedy.says)) } { "Try it" }
                                }
                            }
                        }
                    }
                }
            }
        }
    }

    /// Of a build that is another meanwhile nothing is tried, nor what was refused.
    fn may_be_tried(&self, remedy: &Remedy) -> bool {
        !self.numbers.late.worries_are_former && matches!(remedy.tried, Some(Tried::Worked { .. }))
    }

    /// A way to the value it hangs on, where the sheet has a field for it.
    fn value(&self) -> Markup {
        let place = &self.finding.place;
        let has_field = self.numbers.shown.loaded.origins.at(place).is_some();
        html! {
            @if let Some(parameter) = parameter_at(place).filter(|_| has_field) {
                p { a href={ "#v-" (field_id(place)) } { "To the value: " (parameter.help.trim_end_matches('.')) } }
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::{first_and_rest, id};
    use advice::worry::{About, Finding, Kind, Station, Words};

    /// Given two sentences, the first stands by itself; a decimal point ends none. By hand.
    #[test]
    fn a_note_begins_with_its_first_sentence() {
        let (first, rest) = first_and_rest("It holds 2.5 bar. The valve opens at 3");
        assert_eq!(
            (first.as_str(), rest.as_deref()),
            ("It holds 2.5 bar.", Some("The valve opens at 3."))
        );
        assert_eq!(first_and_rest("It is small"), ("It is small.".to_owned(), None));
    }

    /// Given a worry of a part, a name that an address may hold.
    #[test]
    fn a_note_has_a_name() {
        let says = Words::of("x", Vec::new());
        let of = |of: &str| {
            id(&Finding::new(
                About::Boils,
                "part-too-hot",
                Station::Panel,
                Kind::Stop,
                says.clone(),
            )
            .of(of))
        };
        assert_eq!(of("cover, inside"), "w-part-too-hot-cover--inside");
        assert_eq!(of(""), "w-part-too-hot");
    }
}
