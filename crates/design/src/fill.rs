//! What is not written: tables and values that must stand, and defaults with their origins.

use crate::catalogue::{materials, tubes};
use crate::origin::Origin;
use crate::parameters::{
    Default, Form, Parameter, Presence, SizePart, SoldPart, parameter_at, parameters, section_at,
    sections,
};
use crate::problem::Span;
use crate::problem::{Problem, Severity};
use crate::value::{from_words, shown};
use crate::values::{Entry, Value, Values};
use crate::walk::{Desk, heading};

/// Fills in every default, and reports what is missing or means nothing where it stands.
pub(crate) fn fill(desk: &mut Desk, values: &mut Values) {
    deciding_words(desk, values);
    missing_tables(desk, values);
    for parameter in parameters() {
        for place in places(values, parameter.path) {
            one(desk, values, parameter, &place);
        }
    }
    for parameter in parameters() {
        if let Default::Worked { rule, source, certainty } = parameter.default {
            for place in places(values, parameter.path) {
                if asked_for(values, parameter, &place) {
                    worked(values, parameter, &place, rule, (source, certainty));
                }
            }
        }
    }
    forget_unheeded(values);
}

/// What nothing asks has no value: it would be listed as assumed, and is not.
fn forget_unheeded(values: &mut Values) {
    if values.entry("sun.weather").is_some() && values.word("sun.clouds") == Some("smooth") {
        values.forget_assumed("sun.seed");
    }
    if values.entry("tap.heater.highest-inlet").is_none() {
        values.forget_assumed("tap.heater.inlet-valve");
    }
    let by_week = values.entry("tap.weekend-profile").is_some()
        || (0..values.members("tap.draw"))
            .any(|at| values.entry(&format!("tap.draw[{at}].days")).is_some());
    if !by_week {
        values.forget_assumed("tap.first-weekday");
    }
    let sealed = values.word("circuit.filling.kind") == Some("sealed");
    if values.word("circuit.drive") == Some("gravity") && !sealed {
        values.forget_assumed("circuit.heights.pump");
        values.forget_assumed("circuit.filling.joins");
    }
    let Some(rule) = values.word("control.rule") else { return };
    let differential = rule == "differential";
    let by_clock = rule == "timer";
    if !differential && values.entry("control.store-limit").is_none() {
        values.forget_assumed("control.store-");
    }
    if by_clock
        && values.table("control.frost").is_none()
        && values.table("control.panel-stop").is_none()
    {
        values.forget_assumed("control.panel-probe");
    }
}

/// Fills in the words that decide which tables mean anything, before the tables are looked at.
fn deciding_words(desk: &mut Desk, values: &mut Values) {
    for (place, _) in sections().filter_map(|section| section.presence.only()) {
        let around = place.rsplit_once('.').map_or("", |(table, _)| table);
        let assumed = parameter_at(place)
            .filter(|parameter| matches!(parameter.default, Default::Assume { .. }));
        if let Some(parameter) = assumed
            && values.table(around).is_some()
        {
            one(desk, values, parameter, place);
        }
    }
}

/// The places a path stands for: every member of its lists, none in a table that is not there.
fn places(values: &Values, path: &str) -> Vec<String> {
    let mut places = vec![String::new()];
    let mut general = String::new();
    let mut parts = path.split('.').peekable();
    while let Some(part) = parts.next() {
        let join = |at: &str, part: &str| {
            if at.is_empty() { part.to_owned() } else { format!("{at}.{part}") }
        };
        general = join(&general, part);
        let last = parts.peek().is_none();
        let key = part.trim_end_matches("[]");
        places = places.iter().map(|at| join(at, key)).collect();
        if last {
            break;
        }
        if part.ends_with("[]") {
            places.retain(|_| means_something(values, &general));
            places = places
                .iter()
                .flat_map(|at| (0..values.members(at)).map(move |member| format!("{at}[{member}]")))
                .collect();
        } else {
            places.retain(|at| stands(values, &general, at));
        }
    }
    places
}

/// True where a table's parameters mean something.
fn stands(values: &Values, general: &str, at: &str) -> bool {
    let written = || values.table(at).is_some();
    means_something(values, general)
        && match section_at(general).map(|section| section.presence.there()) {
            Some(Presence::Required | Presence::Optional) => written(),
            _ => true,
        }
}

/// False where a word elsewhere in the file leaves a table without meaning.
fn means_something(values: &Values, general: &str) -> bool {
    section_at(general)
        .and_then(|section| section.presence.only())
        .is_none_or(|(place, words)| values.word(place).is_some_and(|word| words.contains(&word)))
}

fn missing_tables(desk: &mut Desk, values: &mut Values) {
    for section in sections() {
        let path = section.path.trim_end_matches("[]");
        let around = path.rsplit_once('.').map_or("", |(around, _)| around);
        if !around.is_empty() && values.table(around).is_none() && around != "control" {
            continue;
        }
        if !means_something(values, around) {
            continue;
        }
        if values.is_told(path) {
            continue;
        }
        let only = section.presence.only();
        if let Some((place, words)) = &only {
            // A word that cannot be read says nothing on what belongs beside it.
            let Some(word) = values.word(place) else { continue };
            if !words.contains(&word) {
                // Tubes on a radiator are a fault by themselves; see `fit`.
                if values.table(path).is_some() && (path, word) != ("panel.tubes", "radiator") {
                    let problem = not_used(desk, values, (path, place), words);
                    desk.problems.push(problem);
                }
                continue;
            }
        }
        let problem = match section.presence.there() {
            Presence::Required if values.table(path).is_none() => Problem {
                says: format!("The table [{path}] is missing: {}", lower(section.help)),
                expected: match &only {
                    Some((place, _)) => format!(
                        "[{path}], since {place} is \"{}\"",
                        values.word(place).unwrap_or_default()
                    ),
                    None => format!("[{path}]"),
                },
                hint: format!("write [{path}] on a line of its own and its keys below"),
                ..desk.fault(
                    "missing-table",
                    path,
                    values.span(only.as_ref().map_or(around, |(place, _)| place)),
                )
            },
            Presence::List(_)
                if path == "circuit.pump.curve"
                    && !values.has_list(path)
                    && values.table("circuit.pump.measured").is_some() =>
            {
                continue;
            }
            Presence::List(least) if values.members(path) < least => {
                too_few(desk, values, path, least, section.help)
            }
            Presence::Optional if values.table(path).is_none() && worth_a_word(path) => {
                let origin = Origin::Assumed {
                    source: "none is written, so none is reckoned with".to_owned(),
                    certainty: "stated".to_owned(),
                };
                values.put(
                    path,
                    Entry { value: None, shown: "none".to_owned(), origin, span: Span::default() },
                );
                continue;
            }
            Presence::List(0) if !values.has_list(path) => {
                let Some((shown, source)) = unwritten(path) else { continue };
                let origin =
                    Origin::Assumed { source: source.to_owned(), certainty: "stated".to_owned() };
                values.put(
                    path,
                    Entry { value: None, shown: shown.to_owned(), origin, span: Span::default() },
                );
                continue;
            }
            _ => continue,
        };
        desk.problems.push(problem);
    }
}

/// What is reckoned with where a list is left out, and why; only where that is an assumption about
/// the build.
fn unwritten(path: &str) -> Option<(&'static str, &'static str)> {
    match path {
        "store.wall" | "store.base" | "store.lid" => {
            Some(("bare", "no layer is written, so it is reckoned bare"))
        }
        "store.feed" => Some((
            "nothing but the heater",
            "nothing else is written, so the cistern is reckoned to feed no cold tap, WC or garden",
        )),
        _ => None,
    }
}

/// A table that a word elsewhere leaves without meaning.
fn not_used(desk: &Desk, values: &Values, (path, place): (&str, &str), words: &[&str]) -> Problem {
    let is = values.word(place).unwrap_or_default();
    let wanted = words.join("\" or \"");
    Problem {
        severity: Severity::Warning,
        found: format!("{place} = \"{is}\""),
        says: format!("[{path}] means nothing here: {place} is \"{is}\""),
        expected: format!("{place} = \"{wanted}\", or no [{path}]"),
        hint: "take the table out, or change the other key".to_owned(),
        ..desk.fault("not-used", path, values.span(path))
    }
}

/// True for things whose absence is an assumption about the build.
fn worth_a_word(path: &str) -> bool {
    !matches!(
        path,
        "stock"
            | "panel.inner-cover"
            | "panel.link"
            | "panel.mount"
            | "circuit.pump.measured"
            | "sun.months"
    )
}

fn too_few(desk: &Desk, values: &Values, path: &str, least: usize, help: &str) -> Problem {
    let members = values.members(path);
    let (code, says, hint) = match path {
        "circuit.pump.curve" if members == 0 => (
            "pump-without-curve",
            "The pump has no curve, so nothing says how much it moves".to_owned(),
            "write two points or more: [[circuit.pump.curve]] with flow and head; a rated flow at a rated head, and the head at no flow, will do",
        ),
        "circuit.pump.curve" => (
            "pump-curve-one-point",
            "The pump's curve has one point, and a curve takes two".to_owned(),
            "add the head at no flow, or the flow at no head: [[circuit.pump.curve]] with flow and head",
        ),
        _ => (
            "too-few",
            match members {
                0 => format!("[[{path}]] is missing: {}", lower(help)),
                _ => {
                    let times = if members == 1 { "once" } else { "too seldom" };
                    format!("[[{path}]] stands {times}, and {least} are wanted: {}", lower(help))
                }
            },
            "write the double brackets on a line of their own and the keys below",
        ),
    };
    let found = match members {
        0 => "none".to_owned(),
        _ => members.to_string(),
    };
    let span =
        if values.has_list(path) { values.span(path) } else { values.span(&format!("{path}.x")) };
    Problem {
        found,
        expected: format!("at least {least}"),
        says,
        hint: hint.to_owned(),
        ..desk.fault(code, path, span)
    }
}

fn lower(help: &str) -> String {
    let mut signs = help.trim_end_matches('.').chars();
    signs.next().map_or_else(String::new, |first| first.to_lowercase().chain(signs).collect())
}

fn beside(place: &str, key: &str) -> String {
    place.rsplit_once('.').map_or_else(|| key.to_owned(), |(table, _)| format!("{table}.{key}"))
}

fn one(desk: &mut Desk, values: &mut Values, parameter: &Parameter, place: &str) {
    if let Some(only) = parameter.only {
        let other = beside(place, only.key);
        // A key that cannot be read says nothing on what belongs beside it.
        let Some(word) = values.word(&other) else { return };
        if !only.is.contains(&word) {
            if values.entry(place).is_some() {
                let expected = only.is.join("\" or \"");
                let problem = Problem {
                    severity: only.severity,
                    says: format!(
                        "`{}` means nothing where {other} is \"{word}\"",
                        parameter.key()
                    ),
                    found: values.entry(place).map(|entry| entry.shown.clone()).unwrap_or_default(),
                    hint: format!("take it out, or write {} = \"{expected}\"", only.key),
                    expected: format!("{other} = \"{expected}\""),
                    ..desk.fault("not-used", place, values.span(place))
                };
                desk.problems.push(problem);
            }
            return;
        }
    }
    let spared = |key| values.entry(&beside(place, key)).is_some();
    if values.entry(place).is_some() || parameter.unless.is_some_and(spared) {
        return;
    }
    match parameter.default {
        Default::Required => missing(desk, values, parameter, place, ""),
        Default::Absent | Default::Worked { .. } => {}
        Default::Sold { key, part, .. } if values.sold_as(&beside(place, key)).is_some() => {
            sold(values, parameter, place, (key, part));
        }
        Default::Assume { value, source, certainty }
        | Default::Sold { value, source, certainty, .. } => {
            // Every default is read in a test, so this never falls through.
            if let Ok(read) = from_words(parameter, value) {
                let origin =
                    Origin::Assumed { source: source.to_owned(), certainty: certainty.to_owned() };
                let shown = read.shown;
                values.put(
                    place,
                    Entry { value: Some(read.value), shown, origin, span: Span::default() },
                );
            }
        }
        Default::Material { key, field } => {
            let other = beside(place, key);
            let Some(name) = values.word(&other).map(str::to_owned) else { return };
            let known = materials::material(&name).and_then(|material| material.value(field));
            match known {
                Some(known) => {
                    let value = Value::Si(known.middle);
                    let origin = Origin::Catalogue {
                        material: name,
                        source: known.source,
                        certainty: known.certainty.to_owned(),
                        spread: (known.low, known.high),
                    };
                    let shown = shown(parameter.form, &value);
                    values.put(
                        place,
                        Entry { value: Some(value), shown, origin, span: Span::default() },
                    );
                }
                None => {
                    let why = if name == "own" {
                        format!("{key} is \"own\", so its values are written beside it")
                    } else {
                        format!("the catalogue has no such value for \"{name}\"")
                    };
                    missing(desk, values, parameter, place, &why);
                }
            }
        }
        Default::Size { key, part } => sized(desk, values, parameter, place, key, part),
    }
}

/// What a tube sold by a name tells beside its size.
fn sold(values: &mut Values, parameter: &Parameter, place: &str, (key, part): (&str, SoldPart)) {
    let Some(tube) = values.sold_as(&beside(place, key)).and_then(tubes::of_name) else { return };
    let value = match part {
        SoldPart::Material => Value::Word(tube.material.clone()),
        SoldPart::Roughness => Value::Si(tube.roughness_mm * 1e-3),
    };
    let spread = match value {
        Value::Si(si) => (si, si),
        _ => (0.0, 0.0),
    };
    let origin = Origin::Catalogue {
        material: tube.name.clone(),
        source: tubes::NAMED_SOURCE.to_owned(),
        certainty: tube.certainty.clone(),
        spread,
    };
    let shown = shown(parameter.form, &value);
    values.put(place, Entry { value: Some(value), shown, origin, span: Span::default() });
}

fn sized(
    desk: &mut Desk,
    values: &mut Values,
    parameter: &Parameter,
    place: &str,
    key: &str,
    part: SizePart,
) {
    let other = beside(place, key);
    let Some((outside_m, wall_m)) = values.size(&other) else {
        if values.entry(&other).is_none() {
            missing(desk, values, parameter, place, "or `size`, for instance \"15 x 0.7\"");
        }
        return;
    };
    let si = match part {
        SizePart::Outside => outside_m,
        SizePart::Wall => wall_m,
    };
    let named = values.sold_as(&other).and_then(tubes::of_name);
    let listed = tubes::listed(outside_m * 1e3, wall_m * 1e3);
    let (source, certainty) = match (named, listed) {
        (Some(tube), _) => (tubes::NAMED_SOURCE.to_owned(), tube.certainty.clone()),
        (None, Some(size)) => (tubes::source().to_owned(), size.certainty.clone()),
        (None, None) => {
            ("the size as written; it is not in the catalogue".to_owned(), "written".to_owned())
        }
    };
    let origin = match part {
        _ if certainty == "written" => Origin::Written,
        _ => Origin::Catalogue {
            material: "tube size".to_owned(),
            source,
            certainty,
            spread: (si, si),
        },
    };
    let value = Value::Si(si);
    let shown = shown(parameter.form, &value);
    values.put(place, Entry { value: Some(value), shown, origin, span: values.span(&other) });
}

fn missing(desk: &mut Desk, values: &Values, parameter: &Parameter, place: &str, why: &str) {
    if values.is_told(place) {
        return;
    }
    let table = place.rsplit_once('.').map_or("", |(table, _)| table);
    let (right, expected) = wanted(parameter);
    let mut hint = format!("write `{} = {right}`: {expected}", parameter.key());
    if !why.is_empty() {
        hint = format!("{hint}; {why}");
    }
    let around = if table.is_empty() { "the file".to_owned() } else { heading(table) };
    let problem = Problem {
        says: format!("`{}` is missing in {around}: {}", parameter.key(), lower(parameter.help)),
        expected,
        hint,
        ..desk.fault("missing-key", place, values.span(place))
    };
    desk.problems.push(problem);
}

/// How a missing line is written, and what may stand at its right.
fn wanted(parameter: &Parameter) -> (&'static str, String) {
    let range = |what: &str| match parameter.range {
        Some((low, high)) => format!("{what} from {low} to {high}"),
        None => what.to_owned(),
    };
    match parameter.form {
        Form::Text => ("\"...\"", "words in quotes".to_owned()),
        Form::Choice(words) => ("\"...\"", format!("one of {}", words.join(", "))),
        Form::Material(group) => {
            ("\"...\"", format!("one of {}, own", materials::names(group).join(", ")))
        }
        Form::TubeSize => ("\"15 x 0.7\"", "outside diameter and wall in millimetres".to_owned()),
        Form::Clock => ("\"07:30\"", "a time of day".to_owned()),
        Form::DaySpans => {
            ("[[\"07-20\", \"08-02\"]]", "first and last day, month and day".to_owned())
        }
        Form::Places => (
            "[[\"50 mm\", \"40 mm\"], [\"50 mm\", \"900 mm\"]]",
            "places to the right and up from the sheet's lower left corner".to_owned(),
        ),
        Form::Count => ("...", range("a whole number")),
        Form::Worded(kind, words) => {
            let words: Vec<&str> = words.iter().map(|word| word.word).collect();
            ("\"...\"", format!("{}, or one of {}", range(kind.words()), words.join(", ")))
        }
        Form::Quantity(kind) | Form::Monthly(kind) if kind.stands_bare() => {
            ("...", range(kind.words()))
        }
        Form::Quantity(kind) => ("\"...\"", range(kind.words())),
        Form::Monthly(kind) => {
            ("[\"...\", ...]", format!("twelve values, January first, {}", range(kind.words())))
        }
    }
}

/// True where the word beside a parameter lets it mean something.
fn asked_for(values: &Values, parameter: &Parameter, place: &str) -> bool {
    parameter.only.is_none_or(|only| {
        values.word(&beside(place, only.key)).is_some_and(|word| only.is.contains(&word))
    })
}

fn worked(
    values: &mut Values,
    parameter: &Parameter,
    place: &str,
    rule: fn(&Values, &str) -> Option<f64>,
    (source, certainty): (&str, &str),
) {
    if values.entry(place).is_some() {
        return;
    }
    let table = place.rsplit_once('.').map_or("", |(table, _)| table);
    let Some(si) = rule(values, table).filter(|si| si.is_finite()) else { return };
    let value = Value::Si(si);
    let origin = Origin::Assumed { source: source.to_owned(), certainty: certainty.to_owned() };
    let shown = shown(parameter.form, &value);
    values.put(place, Entry { value: Some(value), shown, origin, span: Span::default() });
}
