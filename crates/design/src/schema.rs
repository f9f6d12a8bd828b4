//! The JSON Schema of the design file, made from the tables of parameters.

use crate::catalogue::{materials, tubes};
use crate::parameters::{Default, Form, Parameter, Presence, Section, parameters, sections};
use crate::quantity::Kind;
use serde_json::{Map, Value, json};

/// The JSON Schema (2020-12) of a design file, for editors that check while one writes.
///
/// It knows every key, form and unit. Ranges, and parts that do not fit together, are left to
/// [`crate::read_design`], which says more than a schema can.
pub fn json_schema() -> Value {
    let mut root = table("");
    if let Some(object) = root.as_object_mut() {
        object.insert("$schema".to_owned(), json!("https://json-schema.org/draft/2020-12/schema"));
        object.insert("title".to_owned(), json!("warmfeed design file"));
    }
    root
}

/// The table at a general path, with its keys and the tables within it.
fn table(path: &str) -> Value {
    let mut properties = Map::new();
    let mut required = Vec::new();
    for parameter in parameters().filter(|parameter| parameter.section() == path) {
        properties.insert(parameter.key().to_owned(), property(parameter));
        if matches!(parameter.default, Default::Required)
            && parameter.only.is_none()
            && parameter.unless.is_none()
        {
            required.push(parameter.key());
        }
    }
    for section in sections() {
        let (around, name) = split(section);
        if around != path {
            continue;
        }
        properties.insert(name.to_owned(), member(section));
        if section.presence == Presence::Required || matches!(section.presence, Presence::List(1..))
        {
            required.push(name);
        }
    }
    json!({
        "type": "object",
        "properties": properties,
        "required": required,
        "additionalProperties": false,
    })
}

/// A section's path as the table around it and its own key.
fn split(section: &Section) -> (&'static str, &'static str) {
    let path = section.path.trim_end_matches("[]");
    path.rsplit_once('.').unwrap_or(("", path))
}

fn member(section: &Section) -> Value {
    let mut inner = table(section.path);
    match section.presence.there() {
        Presence::List(least) => json!({
            "type": "array",
            "items": inner,
            "minItems": if section.presence.only().is_some() { 0 } else { least },
            "description": section.help,
        }),
        _ => {
            if let Some(object) = inner.as_object_mut() {
                object.insert("description".to_owned(), json!(section.help));
            }
            inner
        }
    }
}

fn property(parameter: &Parameter) -> Value {
    let mut forms = forms(parameter.form);
    if parameter.unknown.is_some() {
        forms.push(json!({ "const": "unknown" }));
    }
    let mut object = Map::new();
    object.insert("description".to_owned(), json!(description(parameter)));
    match forms.len() {
        1 => {
            if let Some(Value::Object(only)) = forms.pop() {
                object.extend(only);
            }
        }
        _ => {
            object.insert("anyOf".to_owned(), Value::Array(forms));
        }
    }
    if let Default::Assume { value, .. } | Default::Sold { value, .. } = parameter.default {
        object.insert("default".to_owned(), json!(value));
    }
    Value::Object(object)
}

fn description(parameter: &Parameter) -> String {
    match parameter.range {
        Some((low, high)) => format!("{} From {low} to {high}.", parameter.help),
        None => parameter.help.to_owned(),
    }
}

/// The forms a value may take; one of them must hold.
fn forms(form: Form) -> Vec<Value> {
    match form {
        Form::Text => vec![json!({ "type": "string", "minLength": 1 })],
        Form::Quantity(kind) => quantity(kind),
        Form::Worded(kind, words) => {
            let mut forms = quantity(kind);
            forms.push(json!({ "enum": words.iter().map(|word| word.word).collect::<Vec<_>>() }));
            forms
        }
        Form::Count => vec![json!({ "type": "integer", "minimum": 0 })],
        Form::Choice(words) => vec![json!({ "enum": words })],
        Form::Material(group) => {
            let mut names = materials::names(group);
            names.push("own");
            vec![json!({ "enum": names })]
        }
        Form::TubeSize => {
            let names: Vec<&str> = tubes::named().iter().map(|tube| tube.name.as_str()).collect();
            vec![
                json!({ "enum": names }),
                json!({ "type": "string", "pattern": "^\\s*[0-9.,]+\\s*(mm)?\\s*[xX\u{d7}]\\s*[0-9.,]+\\s*(mm)?\\s*$" }),
            ]
        }
        Form::Monthly(kind) => {
            let mut forms = quantity(kind);
            let one = json!({ "anyOf": quantity(kind) });
            forms.push(json!({ "type": "array", "items": one, "minItems": 12, "maxItems": 12 }));
            forms
        }
        Form::Clock => vec![json!({ "type": "string", "pattern": "^[0-9]{1,2}:[0-9]{1,2}$" })],
        Form::DaySpans => {
            let day = json!({ "type": "string", "pattern": "^[0-9]{1,2}-[0-9]{1,2}$" });
            let span = json!({ "type": "array", "items": day, "minItems": 2, "maxItems": 2 });
            vec![json!({ "type": "array", "items": span })]
        }
        Form::Places => {
            let one = json!({ "anyOf": quantity(Kind::Length) });
            let place = json!({ "type": "array", "items": one, "minItems": 2, "maxItems": 2 });
            vec![json!({ "type": "array", "items": place, "minItems": 2 })]
        }
    }
}

/// A number with a unit that fits, or a bare number where numbers stand bare.
fn quantity(kind: Kind) -> Vec<Value> {
    let units: Vec<String> = kind.spellings().into_iter().map(escaped).collect();
    let number = "[-+\u{2212}]?\\s*[0-9.,]+([eE][-+]?[0-9]+)?([ -][0-9]+)?(/[0-9]+)?";
    // Units may be written with signs that reading tidies: degrees, squares, dots.
    let tidied = "[^0-9]*[\u{b0}\u{b2}\u{b3}\u{b5}\u{b7}()\u{bd}\u{bc}\u{be}^*'\"][^0-9]*.*";
    let mut forms = Vec::new();
    if kind.stands_bare() {
        forms.push(json!({ "type": "number" }));
        let unit =
            if units.is_empty() { String::new() } else { format!("\\s*({})?", units.join("|")) };
        forms.push(json!({ "type": "string", "pattern": format!("^\\s*{number}{unit}\\s*$") }));
    } else {
        let pattern = format!("^\\s*{number}\\s*({}|{tidied}|ft .*in)\\s*$", units.join("|"));
        forms.push(json!({ "type": "string", "pattern": pattern }));
    }
    forms
}

/// A unit's name with the signs escaped that mean something in a pattern.
fn escaped(name: &str) -> String {
    let mut out = String::new();
    for sign in name.chars() {
        if "/.*+?()[]{}|^$\\".contains(sign) {
            out.push('\\');
        }
        out.push(sign);
    }
    out
}
