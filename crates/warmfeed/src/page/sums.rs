//! The sums as sheets: the list by station, and each as a small form with its answers below.
//!
//! What was given stands in the address, so that a sum can be kept and sent. Reading what was typed,
//! answers and faults are those of the command line.

use std::sync::Arc;

use axum::extract::{Path, RawQuery, State};
use axum::http::HeaderMap;
use axum::response::Response;
use design::problem::Problem;
use design::value::capital;
use maud::{Markup, html};
use sheets::words::set;

use super::House;
use super::answer::{not_here, worked};
use super::reader::Reader;
use super::shell::{Sheet, Word, sheet};
use crate::sums::{
    Asked, Example, Form, Key, Measure, Need, Refusal, Station, Sum, ask, example_line, sum, sums,
};

const STYLES: [&str; 2] = ["sums.css", "lists.css"];

/// Every sum, by station.
pub async fn list(State(house): State<Arc<House>>, headers: HeaderMap) -> Response {
    let reader = Reader::of(&headers);
    let main = html! {
        h1 { "Sums" }
        p class="opening" { "One quick calculation each, with its formula and its source. A sum reckons with the same functions as the year." }
        div class="sums" {
            @for station in Station::ALL {
                section aria-labelledby={ "sums-" (station.word()) } {
                    h2 id={ "sums-" (station.word()) } { (capital(station.word())) }
                    ul {
                        @for sum in sums().filter(|sum| sum.station == station) {
                            li { a href={ "/sums/" (sum.name) } { (sum.name.replace('-', " ")) } " " (plain(sum.help)) }
                        }
                    }
                }
            }
        }
    };
    let of = Sheet {
        title: "Sums",
        word: Word::Sums,
        build: None,
        path: "/sums",
        styles: &STYLES,
        modules: &[],
        main,
    };
    sheet(&house, &reader, of)
}

/// One sum.
pub async fn show(
    State(house): State<Arc<House>>,
    Path(name): Path<String>,
    RawQuery(query): RawQuery,
    headers: HeaderMap,
) -> Response {
    let reader = Reader::of(&headers);
    worked(move || {
        let Some(sum) = sum(&name) else { return not_here() };
        let query = query.unwrap_or_default();
        let asked = Typed::of(sum, &query);
        let path = format!("/sums/{name}{}{query}", if query.is_empty() { "" } else { "?" });
        let title = format!("Sum: {}", sum.name.replace('-', " "));
        let of = Sheet {
            title: &title,
            word: Word::Sums,
            build: None,
            path: &path,
            styles: &STYLES,
            modules: &[],
            main: whole(sum, &asked, &reader),
        };
        sheet(&house, &reader, of)
    })
    .await
}

/// What stands in the fields, and what it comes to.
struct Typed {
    given: Vec<(String, String)>,
    came: Result<Asked, Refusal>,
    /// True where it is the worked example as it stands.
    is_example: bool,
}

impl Typed {
    /// What the address says; where it says nothing, the worked example.
    fn of(sum: &Sum, query: &str) -> Typed {
        let typed: Vec<(String, String)> = form_urlencoded::parse(query.as_bytes())
            .into_owned()
            .map(|(key, value)| (key, value.trim().to_owned()))
            .collect();
        let example = sum.examples.first().map(|example| {
            let owned = |&(key, value): &(&str, &str)| (key.to_owned(), value.to_owned());
            example.given.iter().map(owned).collect::<Vec<_>>()
        });
        let given = if typed.is_empty() { example.clone().unwrap_or_default() } else { typed };
        let filled: Vec<&(String, String)> =
            given.iter().filter(|(_, value)| !value.is_empty()).collect();
        let written: Vec<String> =
            filled.iter().map(|(key, value)| format!("{key}={value}")).collect();
        let is_example = example.is_some_and(|example| {
            example.len() == filled.len() && filled.iter().all(|one| example.contains(one))
        });
        Typed { came: ask(sum.name, &written), given, is_example }
    }

    /// What stands in a key's field.
    fn field(&self, key: &Key) -> &str {
        let found = self.given.iter().find(|(name, _)| name == key.name);
        found.map_or("", |(_, value)| value.as_str())
    }

    /// What is wrong with a key.
    fn problems(&self, key: Option<&Key>, sum: &Sum) -> Vec<&Problem> {
        let Err(refusal) = &self.came else { return Vec::new() };
        let is_key = |name: &str| sum.keys.iter().any(|key| key.name == name);
        refusal
            .problems
            .iter()
            .filter(|problem| match key {
                Some(key) => problem.place == key.name,
                None => !is_key(&problem.place),
            })
            .collect()
    }
}

fn whole(sum: &'static Sum, typed: &Typed, reader: &Reader) -> Markup {
    html! {
        p class="above" { a href="/sums" { "All sums" } ", " (capital(sum.station.word())) }
        h1 { (capital(&sum.name.replace('-', " "))) }
        p class="opening" { (plain(sum.help)) }
        div class="sum" {
            form class="given" method="get" action={ "/sums/" (sum.name) } aria-label="What is given" {
                @for key in sum.keys { (field(key, typed, sum)) }
                button class="main" { "Reckon" }
                @if !typed.is_example && !sum.examples.is_empty() {
                    a class="button" href={ "/sums/" (sum.name) } { "The worked example again" }
                }
            }
            div id="answers" class="answers" {
                @for problem in typed.problems(None, sum) { (said(problem)) }
                @match &typed.came {
                    Ok(asked) => (answers(asked, typed, reader)),
                    Err(_) => p class="quiet" { "No answer yet: what is wrong stands beside its field." },
                }
                (rests_on(sum))
            }
        }
    }
}

fn field(key: &Key, typed: &Typed, sum: &Sum) -> Markup {
    let value = typed.field(key);
    let problems = typed.problems(Some(key), sum);
    let id = format!("key-{}", key.name.replace('_', "-"));
    let invalid = (!problems.is_empty()).then_some("true");
    html! {
        div class="key" {
            label for=(id) { b { (key.name.replace('_', " ")) } " " (plain(key.help.trim_end_matches('.'))) }
            @if let Some(words) = choices(key.form) {
                select id=(id) name=(key.name) aria-describedby={ (id) "-about" } aria-invalid=[invalid] {
                    @if !matches!(key.need, Need::Required) { option value="" selected[value.is_empty()] { "as below" } }
                    @if !value.is_empty() && !words.contains(&value) { option value=(value) selected { (value) } }
                    @for word in &words { option value=(word) selected[*word == value] { (word.replace('-', " ")) } }
                }
            } @else {
                input id=(id) name=(key.name) value=(value) autocomplete="off" spellcheck="false"
                    aria-describedby={ (id) "-about" } aria-invalid=[invalid];
            }
            p id={ (id) "-about" } class="quiet" { (about(key)) }
            @for problem in problems { (said(problem)) }
        }
    }
}

fn choices(form: Form) -> Option<Vec<&'static str>> {
    match form {
        Form::Choice(words) => Some(words.to_vec()),
        Form::Catalogue(words) => Some(words()),
        _ => None,
    }
}

/// What may be written, and what holds where nothing is.
fn about(key: &Key) -> Markup {
    html! {
        @if choices(key.form).is_none() { (plain(&capital(&key.form.words()))) ". " }
        @if let Some((low, high)) = key.range { "From " (plain(low)) " to " (plain(high)) ". " }
        @match key.need {
            Need::Required => {},
            Need::Assumed { value, origin } => { "Left empty: " b { (plain(value)) } ", " (plain(origin)) "." },
            Need::Optional(when) => { "May stay empty: " (when.trim_end_matches('.')) "." },
        }
    }
}

fn answers(asked: &Asked, typed: &Typed, reader: &Reader) -> Markup {
    html! {
        table {
            caption { "What it comes to" }
            tbody {
                @for result in &asked.answers {
                    tr {
                        th scope="row" { (result.answer.label(&result.name)) }
                        td { b { (plain(&result.answer.shown(result.si, reader.units))) } }
                        td class="help" { (plain(result.answer.help)) }
                    }
                }
            }
        }
        @for note in &asked.notes { p class="problem warning" { b { "Note: " } (capital(note.says)) "." } }
        @if typed.is_example {
            @for example in asked.sum.examples.iter().take(1) { (expected(asked.sum, example)) }
        }
    }
}

/// What an outside source says the worked example comes to.
fn expected(sum: &Sum, example: &Example) -> Markup {
    let words: Vec<String> = example
        .expected
        .iter()
        .map(|expected| {
            let declared = sum.answers.iter().find(|answer| answer.declares(expected.answer));
            let label = declared.map(|answer| answer.label(expected.answer)).unwrap_or_default();
            let unit = declared.map_or("", |answer| match answer.measure {
                Measure::Plain => "",
                Measure::Of { unit, .. } | Measure::Ratio { unit, .. } => unit,
            });
            format!("{label} {} {unit}", expected.value).trim_end().to_owned()
        })
        .collect();
    html! {
        p class="quiet" {
            "The worked example should come to " (plain(&words.join(", "))) ", by " (example.source) "."
        }
    }
}

fn rests_on(sum: &Sum) -> Markup {
    html! {
        dl class="rests-on" {
            dt { "Formula" }
            dd { @for formula in sum.formula.split(";  ") { p class="formula" { (formula) } } }
            dt { "Source" } dd { (sum.source) "." }
            dt { "Range" } dd { (plain(sum.valid_range)) "." }
            @if let Some(caution) = sum.caution.strip_prefix("Caution  ") { dt { "Caution" } dd { (caution) } }
            @for example in sum.examples.iter().take(1) {
                dt { "In a terminal" } dd { code { (example_line(sum, example.given)) } }
            }
        }
    }
}

fn said(problem: &Problem) -> Markup {
    html! {
        div class="problem fault" role="alert" {
            p { b { "Fault: " } (problem.says) "." }
            @if !problem.expected.is_empty() { p { "Expected: " (problem.expected) "." } }
            @if !problem.hint.is_empty() { p { "Hint: " (problem.hint) "." } }
        }
    }
}

/// Words of the command line as a sheet sets them.
fn plain(words: &str) -> String {
    set(&words.replace('`', ""))
}

#[cfg(test)]
mod tests {
    use super::Typed;
    use crate::page::reader::Reader;
    use crate::sums::{sum, sums};
    use design::quantity::Units;

    fn reader() -> Reader {
        Reader { units: Units::Metric, look: None, is_larger: false, has_keys: true }
    }

    /// Given no values in the address, every sum shows its worked example, answered; each example is
    /// itself a test against its source elsewhere.
    #[test]
    fn every_sum_opens_with_its_worked_example() {
        for sum in sums() {
            let typed = Typed::of(sum, "");
            assert!(typed.is_example && typed.came.is_ok(), "{}", sum.name);
            let drawn = super::whole(sum, &typed, &reader()).into_string();
            for key in sum.keys {
                assert!(drawn.contains(&format!("name=\"{}\"", key.name)), "{}", sum.name);
            }
            assert!(!drawn.contains("role=\"alert\""), "{}", sum.name);
        }
    }

    /// Given a length where a wall's thickness belongs left out and a flow in its stead, the fault stands
    /// with its own key in the words of the command line, and what was typed stays.
    #[test]
    fn a_fault_stands_with_its_key_and_keeps_what_was_typed() {
        let tube = sum("tube").expect("a sum of tubes");
        let typed = Typed::of(tube, "outside=15+mm&wall=3+l%2Fmin");
        let wall = tube.keys.iter().find(|key| key.name == "wall").expect("its wall");
        let problems = typed.problems(Some(wall), tube);
        assert_eq!(problems.len(), 1);
        assert_eq!(problems[0].code, "wrong-unit");
        assert_eq!(typed.field(wall), "3 l/min");
        assert!(typed.problems(None, tube).is_empty());
    }
}
