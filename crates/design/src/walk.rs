//! The syntax tree held against the tables of parameters: what is written, what is wrong with it.

use crate::origin::Origin;
use crate::parameters::{Parameter, general, parameter_at, parameters, section_at, sections};
use crate::problem::{Problem, Severity, Span};
use crate::value::{Raw, nearest, read};
use crate::values::{Entry, Values};
use toml_edit::{Item, TableLike, Value as TomlValue};

/// A text under reading, with the problems found so far.
pub(crate) struct Desk<'a> {
    /// The file as the user named it.
    pub file: &'a str,
    /// Its text.
    pub text: &'a str,
    /// What was found wrong.
    pub problems: Vec<Problem>,
    /// First byte of each line.
    line_starts: Vec<usize>,
}

/// A file is given up on after so many problems: it is no design file.
const MOST_PROBLEMS: usize = 200;

/// The longest list that is read.
const MOST_MEMBERS: usize = 500;

impl<'a> Desk<'a> {
    /// A desk with a text on it.
    pub fn new(file: &'a str, text: &'a str) -> Desk<'a> {
        let after =
            text.bytes().enumerate().filter(|(_, byte)| *byte == b'\n').map(|(at, _)| at + 1);
        let line_starts = std::iter::once(0).chain(after).collect();
        Desk { file, text, problems: Vec::new(), line_starts }
    }

    /// True once there is no sense in looking further.
    pub fn is_given_up(&self) -> bool {
        self.problems.len() >= MOST_PROBLEMS
    }
    /// A fault with its place; the rest is filled in by struct update.
    pub fn fault(&self, code: &'static str, place: &str, span: Span) -> Problem {
        Problem {
            code,
            severity: Severity::Fault,
            file: self.file.to_owned(),
            span,
            place: place.to_owned(),
            found: String::new(),
            expected: String::new(),
            says: String::new(),
            hint: String::new(),
        }
    }

    fn span(&self, bytes: Option<std::ops::Range<usize>>) -> Span {
        let Some(bytes) = bytes else { return Span::default() };
        // As `Span::of` for the line alone, then moved to where the line stands.
        let line = self.line_starts.partition_point(|&start| start <= bytes.start).max(1);
        let start = self.line_starts[line - 1];
        let rest = self.text.get(start..).unwrap_or_default();
        let within = Span::of(rest, bytes.start - start..bytes.end.saturating_sub(start));
        Span { start: within.start + start, end: within.end + start, line, ..within }
    }
}

/// Reads everything written into values, and reports what cannot be used.
pub(crate) fn walk(desk: &mut Desk, root: &dyn TableLike) -> Values {
    let mut values = Values::default();
    table(desk, &mut values, root, "");
    values
}

fn table(desk: &mut Desk, values: &mut Values, table_like: &dyn TableLike, place: &str) {
    for (key, item) in table_like.iter() {
        if desk.is_given_up() {
            return;
        }
        let here = inside(place, key);
        let key_span = desk.span(table_like.get_key_value(key).and_then(|(key, _)| key.span()));
        if let Some(parameter) = parameter_at(&here) {
            one(desk, values, parameter, &here, item, key_span);
        } else if let Some(section) = section_at(&here) {
            if section.presence.is_list() {
                list(desk, values, item, &here, key_span);
            } else if let Some(inner) = item.as_table_like() {
                let span = if item.is_table() { desk.span(item.span()) } else { key_span };
                values.put_table(&here, if span == Span::default() { key_span } else { span });
                table(desk, values, inner, &here);
            } else {
                let hint = format!("write [{here}] on a line of its own and its keys below");
                not_a_table(desk, item, &here, &hint);
                values.put_told(&here);
            }
        } else {
            let problem = unknown_key(desk, place, key, &here, key_span);
            desk.problems.push(problem);
            // What was meant by a misspelt key is not reported as missing too.
            if let Some(near) = nearest(key, &siblings(place)) {
                values.put_told(&inside(place, near));
            }
        }
    }
}

fn inside(place: &str, key: &str) -> String {
    if place.is_empty() { key.to_owned() } else { format!("{place}.{key}") }
}

/// A table's heading as it is written: double brackets for a member of a list.
pub(crate) fn heading(place: &str) -> String {
    let is_member = place.ends_with(']');
    let named = general(place).replace("[]", "");
    if is_member { format!("[[{named}]]") } else { format!("[{named}]") }
}

fn not_a_table(desk: &mut Desk, item: &Item, here: &str, hint: &str) {
    let span = desk.span(item.span());
    let found = raw(item).quoted();
    let problem = Problem {
        says: format!("Here stands {found}; what must stand here: a table"),
        expected: "a table".to_owned(),
        hint: hint.to_owned(),
        found,
        ..desk.fault("wrong-sort", here, span)
    };
    desk.problems.push(problem);
}

fn list(desk: &mut Desk, values: &mut Values, item: &Item, here: &str, key_span: Span) {
    let long =
        item.as_array_of_tables().map(|list| list.len()).or(item.as_array().map(|list| list.len()));
    if let Some(long) = long.filter(|long| *long > MOST_MEMBERS) {
        let problem = Problem {
            found: format!("{long} members"),
            expected: format!("at most {MOST_MEMBERS}"),
            says: format!("The list {here} has {long} members, far more than a design needs"),
            hint: "keep those that matter".to_owned(),
            ..desk.fault("too-many", here, key_span)
        };
        desk.problems.push(problem);
        // Noted as a list, so that it is not reported as missing too.
        values.put_table(here, key_span);
        values.put_list(here, 0);
        return;
    }
    let mut members = 0;
    if let Some(tables) = item.as_array_of_tables() {
        for inner in tables {
            let at = format!("{here}[{members}]");
            let span = desk.span(inner.span());
            values.put_table(&at, if span == Span::default() { key_span } else { span });
            table(desk, values, inner, &at);
            members += 1;
        }
    } else if let Some(array) = item.as_array() {
        for value in array {
            let at = format!("{here}[{members}]");
            let span = desk.span(value.span());
            values.put_table(&at, span);
            match value.as_inline_table() {
                Some(inner) => table(desk, values, inner, &at),
                None => {
                    let hint = format!("write [[{here}]] on a line of its own and its keys below");
                    not_a_table(desk, &Item::Value(value.clone()), &at, &hint);
                    values.put_told(&at);
                }
            }
            members += 1;
        }
    } else if let Some(inner) = item.as_table_like() {
        let at = format!("{here}[0]");
        let problem = Problem {
            found: format!("[{here}]"),
            expected: format!("[[{here}]]"),
            says: format!("[{here}] is one of a list and stands in double brackets"),
            hint: format!("write [[{here}]], and another [[{here}]] for each further one"),
            ..desk.fault("single-brackets", here, key_span)
        };
        desk.problems.push(problem);
        values.put_told(here);
        values.put_table(&at, key_span);
        table(desk, values, inner, &at);
        members = 1;
    } else {
        let hint = format!("write [[{here}]] on a line of its own and its keys below");
        not_a_table(desk, item, here, &hint);
        values.put_told(here);
        return;
    }
    values.put_table(here, key_span);
    values.put_list(here, members);
}

fn one(
    desk: &mut Desk,
    values: &mut Values,
    parameter: &Parameter,
    here: &str,
    item: &Item,
    key_span: Span,
) {
    let span = match desk.span(item.span()) {
        span if span == Span::default() => key_span,
        span => span,
    };
    let raw = raw(item);
    let entry = match read(parameter, &raw) {
        Ok(read) => Entry { value: Some(read.value), shown: read.shown, origin: read.origin, span },
        Err(fault) => {
            let problem = Problem {
                found: raw.quoted(),
                expected: fault.expected,
                says: fault.says,
                hint: fault.hint,
                ..desk.fault(fault.code, here, span)
            };
            desk.problems.push(problem);
            Entry { value: None, shown: raw.quoted(), origin: Origin::Written, span }
        }
    };
    values.put(here, entry);
}

/// What TOML says stands there.
fn raw(item: &Item) -> Raw {
    match item {
        Item::Value(value) => raw_value(value),
        Item::None => Raw::Other("nothing".to_owned()),
        Item::Table(_) | Item::ArrayOfTables(_) => Raw::Table,
    }
}

fn raw_value(value: &TomlValue) -> Raw {
    match value {
        TomlValue::String(text) => Raw::Text(text.value().clone()),
        TomlValue::Integer(whole) => Raw::Whole(*whole.value()),
        TomlValue::Float(number) => Raw::Number(*number.value()),
        TomlValue::Boolean(yes) => Raw::Other(yes.value().to_string()),
        TomlValue::Datetime(date) => Raw::Other(date.value().to_string()),
        TomlValue::Array(list) => Raw::List(list.iter().map(raw_value).collect()),
        TomlValue::InlineTable(_) => Raw::Table,
    }
}

/// The keys and tables known in a table.
fn siblings(place: &str) -> Vec<&'static str> {
    let section = general(place);
    let keys = parameters().filter(|parameter| parameter.section() == section).map(Parameter::key);
    let tables = sections().filter_map(|known| {
        let path = known.path.trim_end_matches("[]");
        let (around, name) = path.rsplit_once('.').unwrap_or(("", path));
        (around == section).then_some(name)
    });
    keys.chain(tables).collect()
}

fn unknown_key(desk: &Desk, place: &str, key: &str, here: &str, span: Span) -> Problem {
    let siblings = siblings(place);
    let elsewhere = || {
        let homes: Vec<String> = parameters()
            .filter(|parameter| parameter.key() == key)
            .map(|parameter| match parameter.section() {
                "" => "the first lines, above any table".to_owned(),
                section => heading(section),
            })
            .take(3)
            .collect();
        (!homes.is_empty()).then(|| format!("`{key}` belongs under {}", homes.join(" or ")))
    };
    let hint = nearest(key, &siblings)
        .map(|near| format!("did you mean `{near}`?"))
        .or_else(elsewhere)
        .unwrap_or_else(|| format!("keys known here: {}", siblings.join(", ")));
    let around = if place.is_empty() {
        "at the top of the file".to_owned()
    } else {
        format!("in {}", heading(place))
    };
    Problem {
        found: key.to_owned(),
        expected: "a key of the design file".to_owned(),
        says: format!("No key `{key}` is known {around}"),
        hint,
        ..desk.fault("unknown-key", here, span)
    }
}
