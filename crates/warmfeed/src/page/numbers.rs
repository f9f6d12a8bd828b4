//! The values of a station as fields that can be changed, each with what its next step is worth.

use advice::next_step::StepWorth;
use design::catalogue::materials::names;
use design::parameters::{Form, parameter_at, section_at};
use design::problem::Problem;
use design::quantity::Units;
use design::value::{capital, in_units};
use design::{Origin, Origins};
use maud::{Markup, html};
use sheets::words::whole;

use super::desk::State;
use super::reader::Reader;
use super::reckoned::{Late, Reckoned};
use super::rule::has_rule;
use super::shell::address;

/// Values that stand open beside their drawing; the others of the station lie under a button.
const FIRST: [&str; 30] = [
    "sun.place",
    "sun.tilt",
    "sun.facing",
    "sun.albedo",
    "panel.count",
    "panel.cover.material",
    "panel.gap",
    "panel.sheet.coating",
    "panel.sheet.thickness",
    "panel.tubes.spacing",
    "panel.tubes.bond",
    "panel.back[0].thickness",
    "circuit.flow-pipe.length",
    "circuit.flow-pipe.lagging",
    "circuit.return-pipe.lagging",
    "circuit.share-by-volume",
    "circuit.share-by-mass",
    "control.on",
    "control.off",
    "control.store-limit",
    "store.volume",
    "store.coil.length",
    "store.wall[0].thickness",
    "store.lid[0].thickness",
    "store.outlet-height",
    "tap.people",
    "tap.delivery",
    "tap.heater.kind",
    "tap.heater.loss",
    "tap.mains",
];

/// All that a field needs to know.
pub struct Numbers<'a> {
    /// The build's name.
    pub build: &'a str,
    /// This run's token.
    pub token: &'a str,
    /// How the person reads.
    pub reader: &'a Reader,
    /// The build as it stands.
    pub state: &'a State,
    /// The year that is shown.
    pub shown: &'a Reckoned,
    /// What was found out since.
    pub late: &'a Late,
}

impl Numbers<'_> {
    /// The fields of a station, and of what belongs beside it.
    pub fn of(&self, tables: &[&str], id: &str) -> Markup {
        let origins = &self.shown.loaded.origins;
        let places = places(origins, tables);
        let is_first = |place: &&str| {
            FIRST.contains(place) || self.refused(place).is_some() || self.has_problem(place)
        };
        let (mut first, others): (Vec<&str>, Vec<&str>) = places.into_iter().partition(is_first);
        first.sort_by_key(|place| FIRST.iter().position(|first| first == place));
        let whole_steps = self.steps_of_many(tables);
        html! {
            div class="numbers" {
                div class="numbers-head" aria-hidden="true" { span { "Set here" } span { "next step, kWh a year" } }
                @for place in &first { (self.field(place)) }
                @for worth in &whole_steps {
                    div class="value step-only" {
                        span class="what" { (capital(&words(&worth.step.place.replace('.', " ")))) }
                        span class="now" { (worth.step.from) }
                        (self.step(worth))
                    }
                }
                @if !others.is_empty() {
                    details class="more" id={ (id) "-more" } data-keep="" {
                        summary { (others.len()) " more values" }
                        @for group in grouped(&others) {
                            h3 { (group.0) }
                            @for place in group.1 { (self.field(place)) }
                        }
                    }
                }
            }
        }
    }

    fn refused(&self, place: &str) -> Option<&super::desk::Refused> {
        self.state.refused.as_ref().filter(|refused| refused.place == place)
    }

    fn problems(&self, place: &str) -> impl Iterator<Item = &Problem> {
        self.state.problems.iter().filter(move |problem| problem.place == place)
    }

    fn has_problem(&self, place: &str) -> bool {
        self.problems(place).any(Problem::is_fault)
    }

    /// Steps that move several values, or add what is not there: they belong to no one field.
    fn steps_of_many(&self, tables: &[&str]) -> Vec<&StepWorth> {
        let Some(worth) = &self.late.next else { return Vec::new() };
        let here = |place: &str| tables.iter().any(|table| place.starts_with(table));
        worth
            .steps
            .iter()
            .filter(|worth| {
                let place = &worth.step.place;
                here(place) && self.shown.loaded.origins.at(place).is_none()
            })
            .collect()
    }

    fn field(&self, place: &str) -> Markup {
        let Some(traced) = self.shown.loaded.origins.at(place) else { return html! {} };
        let Some(parameter) = parameter_at(place) else { return html! {} };
        let units = self.reader.units;
        let value = traced.shown(place, units);
        let refused = self.refused(place);
        let typed = refused.map_or(value.as_str(), |refused| refused.typed.as_str());
        let id = field_id(place);
        let station = capital(place.split('.').next().unwrap_or_default());
        let choices = choices(parameter.form);
        let is_plain = is_plain(parameter.form);
        let step = self
            .late
            .next
            .as_ref()
            .and_then(|worth| worth.steps.iter().find(|worth| worth.step.place == place));
        let (coarse, fine) = strides(&value);
        let problems: Vec<&Problem> = match refused {
            Some(refused) => refused.problems.iter().collect(),
            None => self.problems(place).collect(),
        };
        let fault = problems.iter().any(|problem| problem.is_fault());
        html! {
            div class="value" id={ "v-" (id) } {
                form class="live" method="post" action={ (address(self.build)) "/edit" } {
                    input type="hidden" name="token" value=(self.token);
                    input type="hidden" name="place" value=(place);
                    input type="hidden" name="at" value={ "v-" (id) };
                    label class="what" for=(id) {
                        span class="unseen" { (station) ": " }
                        @if let Some(part) = part(place) { (part) ": " (uncapital(parameter.help.trim_end_matches('.'))) }
                        @else { (parameter.help.trim_end_matches('.')) }
                    }
                    @if let Some(choices) = &choices {
                        select id=(id) name="value" aria-describedby={ (id) "-about" }
                            aria-invalid=[fault.then_some("true")] {
                            @if !choices.contains(&typed) { option value=(typed) selected { (words(typed)) } }
                            @for choice in choices {
                                option value=(choice) selected[*choice == typed] { (words(choice)) }
                            }
                        }
                    } @else if is_plain {
                        input id=(id) name="value" value=(typed) autocomplete="off" spellcheck="false"
                            aria-describedby={ (id) "-about" } aria-invalid=[fault.then_some("true")]
                            data-step=[coarse] data-fine=[fine];
                    } @else {
                        output id=(id) class="now" { (value) }
                    }
                    @if is_plain || choices.is_some() { button class="take" { "Set" } }
                }
                @if let Some(worth) = step { (self.step(worth)) }
                div id={ (id) "-about" } class="about" {
                    (origin(&traced.origin, place, units))
                    @if has_rule(parameter) {
                        details class="later rule" id={ "r-" (id) } data-keep=""
                            data-src={ (address(self.build)) "/rule/" (place) } data-number=(self.shown.number) {
                            summary { "other values" }
                            p { a href={ (address(self.build)) "/rule/" (place) } { "What other values would bring" } }
                        }
                    }
                    @if let Some(worth) = step { span class="unseen" { (step_words(worth, self.tolerance())) } }
                    @if !is_plain && choices.is_none() { span class="quiet" { "A list: change it in the design file." } }
                    @for problem in &problems { (told(problem)) }
                    @if refused.is_some() {
                        form class="live inline" method="post" action={ (address(self.build)) "/forget" } {
                            input type="hidden" name="token" value=(self.token);
                            button { "Put back " (value) }
                        }
                    }
                }
            }
        }
    }

    fn tolerance(&self) -> f64 {
        self.late.next.as_ref().map_or(0.0, |worth| worth.tolerance_kwh)
    }

    fn step(&self, worth: &StepWorth) -> Markup {
        html! {
            form class="live next" method="post" action={ (address(self.build)) "/step" } {
                input type="hidden" name="token" value=(self.token);
                input type="hidden" name="step" value=(worth.step.place);
                // What is seen is part of the name, so that who speaks to the page can say it.
                button {
                    span { "to " (in_units(&worth.step.place, &worth.step.to, self.reader.units)) }
                    " "
                    b { (signed(worth, self.tolerance())) }
                    span class="unseen" { " Try it: " (step_words(worth, self.tolerance())) }
                }
            }
        }
    }
}

/// The places of some tables, in the order of the heat; what the catalogue gives for a material stands
/// with the material.
fn places<'a>(origins: &'a Origins, tables: &[&str]) -> Vec<&'a str> {
    origins
        .iter()
        .filter(|(place, traced)| {
            let table = place.split(['.', '[']).next().unwrap_or_default();
            tables.contains(&table)
                && !matches!(traced.origin, Origin::Catalogue { .. })
                && parameter_at(place).is_some()
        })
        .map(|(place, _)| place)
        .collect()
}

/// Places by the table they stand in, with what the table holds.
fn grouped<'a>(places: &[&'a str]) -> Vec<(String, Vec<&'a str>)> {
    let mut groups: Vec<(String, Vec<&str>)> = Vec::new();
    for place in places {
        let table = place.rsplit_once('.').map_or("", |(table, _)| table);
        let name = section_at(table)
            .map_or(capital(table), |section| section.help.trim_end_matches('.').to_owned());
        let name = match number_in_list(table) {
            Some(number) => format!("{name} ({number})"),
            None => name,
        };
        match groups.iter_mut().find(|(known, _)| *known == name) {
            Some((_, places)) => places.push(place),
            None => groups.push((name, vec![place])),
        }
    }
    groups
}

/// The part of the station that a value belongs to: `circuit.flow-pipe.length` to the flow pipe.
fn part(place: &str) -> Option<String> {
    let (table, _) = place.rsplit_once('.')?;
    let (_, table) = table.split_once('.')?;
    let words = table.split('.').map(|part| match part.split_once('[') {
        Some((name, _)) => {
            let number = number_in_list(part).unwrap_or_default();
            format!("{} {number}", words(name))
        }
        None => words(part),
    });
    Some(capital(&words.collect::<Vec<_>>().join(", ")))
}

/// A sentence that goes on after a colon; abbreviations keep their capitals.
fn uncapital(text: &str) -> String {
    let mut letters = text.chars();
    match (letters.next(), letters.next()) {
        (Some(first), Some(second)) if second.is_lowercase() || second == ' ' => {
            first.to_lowercase().chain(text.chars().skip(1)).collect()
        }
        _ => text.to_owned(),
    }
}

/// `panel.back[1].thickness` is the second of its list.
fn number_in_list(place: &str) -> Option<usize> {
    let (_, after) = place.rsplit_once('[')?;
    after.split(']').next()?.parse::<usize>().ok().map(|place| place + 1)
}

/// A field's name in the document.
pub fn field_id(place: &str) -> String {
    place
        .chars()
        .filter(|&sign| sign != ']')
        .map(|sign| if sign.is_ascii_alphanumeric() { sign } else { '-' })
        .collect()
}

fn choices(form: Form) -> Option<Vec<&'static str>> {
    match form {
        Form::Choice(choices) => Some(choices.to_vec()),
        Form::Material(group) => Some(names(group)),
        _ => None,
    }
}

/// True where one line of words is the whole value.
fn is_plain(form: Form) -> bool {
    !matches!(form, Form::DaySpans | Form::Places)
}

/// A word of the design file as people read it.
fn words(word: &str) -> String {
    word.replace('-', " ")
}

/// One step of a number with the arrow keys, and a tenth of it: 1, 2 or 5 of the digit that is about a
/// fifth of the value.
fn strides(value: &str) -> (Option<String>, Option<String>) {
    let number = value.split_whitespace().next().and_then(|word| word.parse::<f64>().ok());
    let Some(number) = number.filter(|number| number.is_finite()) else { return (None, None) };
    let fifth = number.abs() / 5.0;
    if fifth == 0.0 {
        return (Some("1".to_owned()), Some("0.1".to_owned()));
    }
    let digit = 10_f64.powf(fifth.log10().floor());
    let lead = [5.0, 2.0, 1.0].into_iter().find(|lead| lead * digit <= fifth * 1.000_001);
    let stride = lead.unwrap_or(1.0) * digit;
    let text = |stride: f64| {
        let decimals = (-stride.log10().floor()).max(0.0) as usize;
        format!("{stride:.decimals$}")
    };
    (Some(text(stride)), Some(text(stride / 10.0)))
}

/// Where a value comes from: nothing for one that is written.
fn origin(origin: &Origin, place: &str, units: Units) -> Markup {
    let word = match origin {
        Origin::Written => return html! {},
        Origin::Unknown { .. } => "not measured yet",
        Origin::Said { .. } => "a word for a figure",
        _ => "assumed",
    };
    html! {
        details class="assumed" id={ "o-" (field_id(place)) } data-keep="" {
            summary { (word) }
            p { (capital(&origin.sentence_in(place, units))) "." }
        }
    }
}

/// A problem in the words of the command line.
pub fn told(problem: &Problem) -> Markup {
    html! {
        div class={ "problem " (problem.severity.word()) } role=[problem.is_fault().then_some("alert")] {
            p {
                b { (capital(problem.severity.word())) ": " }
                (problem.says) "."
            }
            @if !problem.expected.is_empty() { p { "Expected: " (problem.expected) "." } }
            @if !problem.hint.is_empty() { p { "Hint: " (problem.hint) "." } }
            @if problem.span.line > 0 { p class="quiet" { "In " (short(&problem.file)) ", line " (problem.span.line) } }
        }
    }
}

/// A file's own name.
fn short(path: &str) -> &str {
    path.rsplit(['/', '\\']).next().unwrap_or(path)
}

fn signed(worth: &StepWorth, tolerance_kwh: f64) -> String {
    if worth.is_none(tolerance_kwh) {
        return "none".to_owned();
    }
    let kwh = worth.spared_kwh;
    let digits = if kwh.abs() < 9.5 { format!("{:.1}", kwh.abs()) } else { whole(kwh.abs()) };
    format!("{}{digits}", if kwh < 0.0 { '\u{2212}' } else { '+' })
}

fn step_words(worth: &StepWorth, tolerance_kwh: f64) -> String {
    let step = &worth.step;
    if worth.is_none(tolerance_kwh) {
        return format!("from {} to {}, no difference worth having", step.from, step.to);
    }
    let kwh = worth.spared_kwh;
    let more = if kwh < 0.0 { "less" } else { "more" };
    format!("from {} to {}, {:.1} kilowatt-hours a year {more}", step.from, step.to, kwh.abs())
}

#[cfg(test)]
mod tests {
    use super::{field_id, number_in_list, part, strides};

    /// Given usual values, a stride that a hand would take, and a tenth of it; by hand.
    #[test]
    fn strides_are_round() {
        let found = ["25 mm", "0.7 mm", "1200 mm", "7 K", "35 deg", "0 l/min"]
            .map(|value| strides(value).0.unwrap_or_default());
        assert_eq!(found, ["5", "0.1", "200", "1", "5", "1"]);
        assert_eq!(strides("copper"), (None, None));
        assert_eq!(strides("0.7 mm").1.as_deref(), Some("0.01"));
    }

    #[test]
    fn a_place_names_a_field() {
        assert_eq!(field_id("panel.back[1].thickness"), "panel-back-1-thickness");
        assert_eq!(number_in_list("panel.back[1].thickness"), Some(2));
        assert_eq!(number_in_list("panel.gap"), None);
        assert_eq!(part("circuit.flow-pipe.length").as_deref(), Some("Flow pipe"));
        assert_eq!(part("panel.back[1].thickness").as_deref(), Some("Back 2"));
        assert_eq!(part("panel.gap"), None);
    }
}
