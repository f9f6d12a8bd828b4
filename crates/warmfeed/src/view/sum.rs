//! Sums on a terminal: an answer, the page of one, the list of all.

use design::quantity::{Kind, Units, parse, show};

use super::table::{Align, Table};
use super::text::broken;
use crate::sums::{Asked, Form, Key, Need, Station, Sum, ask, example_line, sums};

/// Characters in a line.
const WIDTH: usize = 96;

/// Characters before the text of a paragraph with a word at its head.
const HEAD: usize = 10;

/// An answer, with what it rests on.
pub fn sum(asked: &Asked, units: Units) -> String {
    let mut text = answers(asked, units);
    text.push('\n');
    let shown = |assumed: bool| -> Vec<String> {
        let entries = asked.given.entries.iter();
        entries
            .filter(|entry| entry.assumed.is_some() == assumed)
            .map(|entry| format!("{} {}", entry.key.name, in_units(entry.key, &entry.text, units)))
            .collect()
    };
    text.push_str(&paragraph("Given", &shown(false).join(", ")));
    text.push_str(&paragraph("Assumed", &shown(true).join(", ")));
    for note in &asked.notes {
        text.push_str(&paragraph("Note", &format!("{}.", note.says)));
    }
    text.push_str(&rests_on(asked.sum));
    text
}

/// The page of one sum, which ends with a worked example.
pub fn sum_help(sum: &'static Sum, units: Units) -> String {
    let mut text = format!("{}: {}\n\n", sum.name, sum.help);
    let mut keys = Table::new(&[("Given", Align::Left), ("", Align::Left)]);
    for key in sum.keys {
        let mut told = format!("{} {}.", key.help, capital(&key.form.words()));
        if let Some((low, high)) = key.range {
            told.push_str(&format!(" From {low} to {high}."));
        }
        let name = match key.need {
            Need::Required => key.name.to_owned(),
            Need::Assumed { value, origin } => {
                told.push_str(&format!(" Without it {value}: {origin}."));
                format!("[{}]", key.name)
            }
            Need::Optional(when) => {
                told.push_str(&format!(" {}.", capital(when)));
                format!("[{}]", key.name)
            }
        };
        rows(&mut keys, &name, &told);
    }
    text.push_str(&keys.text(""));
    let mut answers = Table::new(&[("Answers", Align::Left), ("", Align::Left)]);
    for answer in sum.answers {
        rows(&mut answers, answer.name, answer.help);
    }
    text.push('\n');
    text.push_str(&answers.text(""));
    text.push('\n');
    text.push_str(&rests_on(sum));
    for example in sum.examples.iter().take(1) {
        text.push_str(&format!("\nExample\n  {}\n", example_line(sum, example.given)));
        let written: Vec<String> =
            example.given.iter().map(|(key, value)| format!("{key}={value}")).collect();
        if let Ok(asked) = ask(sum.name, &written) {
            for line in self::answers(&asked, units).lines() {
                text.push_str(&format!("  {line}\n"));
            }
        }
        let expected: Vec<String> = example
            .expected
            .iter()
            .map(|expected| format!("{} {}", expected.answer, expected.value))
            .collect();
        let told = format!("{}. By {}.", expected.join(", "), example.source);
        text.push_str(&paragraph("Expected", &told));
    }
    text
}

/// The list of all, along the heat's path.
pub fn sums_list() -> String {
    let mut text = "\
Sums: one quick calculation each. Values carry their unit, keys in brackets may be left out:
  warmfeed sum tube outside=\"15 mm\" wall=\"0.7 mm\"
  warmfeed sum NAME --help      what a sum answers, its keys, its source, a worked example
"
    .to_owned();
    for station in Station::ALL {
        text.push_str(&format!("\n{}\n", station.word()));
        for sum in sums().filter(|sum| sum.station == station) {
            text.push_str(&format!("  {:14}{}\n", sum.name, sum.help));
            let keys: Vec<String> = sum
                .keys
                .iter()
                .map(|key| match key.need {
                    Need::Required => key.name.to_owned(),
                    Need::Assumed { .. } | Need::Optional(_) => format!("[{}]", key.name),
                })
                .collect();
            for line in broken(&keys.join(" "), WIDTH - 18) {
                text.push_str(&format!("{:18}{line}\n", ""));
            }
        }
    }
    text
}

fn answers(asked: &Asked, units: Units) -> String {
    let mut table = Table::new(&[("", Align::Left), ("", Align::Right), ("", Align::Left)]);
    for result in &asked.answers {
        let shown = result.answer.shown(result.si, units);
        let (number, unit) = shown.split_once(' ').unwrap_or((shown.as_str(), ""));
        table.row(vec![result.answer.label(&result.name), number.to_owned(), unit.to_owned()]);
    }
    table.text("").trim_start_matches('\n').to_owned()
}

fn rests_on(sum: &Sum) -> String {
    let mut text = String::new();
    for formula in sum.formula.split(";  ") {
        let head = if text.is_empty() { "Formula" } else { "" };
        text.push_str(&paragraph(head, formula));
    }
    text.push_str(&paragraph("Source", &format!("{}.", sum.source)));
    text.push_str(&paragraph("Range", &format!("{}.", sum.valid_range)));
    if let Some(caution) = sum.caution.strip_prefix("Caution  ") {
        text.push_str(&paragraph("Caution", caution));
    }
    text
}

/// Text behind a word, line under line; nothing where there is no text.
fn paragraph(head: &str, told: &str) -> String {
    if told.is_empty() {
        return String::new();
    }
    let mut text = String::new();
    for (line, part) in broken(told, WIDTH - HEAD).into_iter().enumerate() {
        let head = if line == 0 { head } else { "" };
        text.push_str(&format!("{head:HEAD$}{part}\n"));
    }
    text
}

fn rows(table: &mut Table, name: &str, told: &str) {
    for (line, part) in broken(told, WIDTH - 26).into_iter().enumerate() {
        let name = if line == 0 { name } else { "" };
        table.row(vec![name.to_owned(), part]);
    }
}

/// A value as it was written, or in the reader's own units where they are others.
fn in_units(key: &Key, text: &str, units: Units) -> String {
    let kinds: &[Kind] = match (units, &key.form) {
        (Units::Us, Form::Quantity(kind)) if !kind.stands_bare() => std::slice::from_ref(kind),
        (Units::Us, Form::AnyFlow) => &[Kind::Flow, Kind::MassFlow],
        _ => &[],
    };
    let read = kinds.iter().find_map(|&kind| parse(text, kind).ok());
    read.map_or(text.to_owned(), |quantity| show(quantity.kind, quantity.si, units))
}

fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or(String::new(), |first| first.to_uppercase().chain(letters).collect())
}
