//! Every parameter of a design file, declared once.
//!
//! Reading, checking, defaults and their origins, the near-miss hints, the JSON Schema and the
//! list of what was assumed all come from these tables: nothing about a parameter is said twice.
//! Ranges and defaults are written as a user would write them, and read by the same reader.

mod certificate;
mod circuit;
mod control;
mod cover;
mod mount;
mod network;
mod panel;
mod parts;
mod stock;
mod store;
mod sun;
mod tap;

use crate::catalogue::materials::{Field, Group};
use crate::problem::Severity;
use crate::quantity::Kind;
use crate::values::Values;

/// One parameter: where it stands, what may be written, what holds when nothing is.
#[derive(Clone, Copy, Debug)]
pub struct Parameter {
    /// Its place, for instance `panel.cover.thickness`; `[]` stands for any member of a list.
    pub path: &'static str,
    /// What may be written.
    pub form: Form,
    /// The least and the greatest value, as written.
    pub range: Option<(&'static str, &'static str)>,
    /// What holds when nothing is written.
    pub default: Default,
    /// What "unknown" stands for; `None` where it is not an answer.
    pub unknown: Option<Spread>,
    /// When the parameter means anything; `None` for always.
    pub only: Option<Only>,
    /// The neighbouring key that makes this one needless where it is written.
    pub unless: Option<&'static str>,
    /// What it is, in a line.
    pub help: &'static str,
}

/// What may be written for a parameter.
#[derive(Clone, Copy, Debug)]
pub enum Form {
    /// Any words.
    Text,
    /// A number with its unit.
    Quantity(Kind),
    /// A number with its unit, or a word that stands for one.
    Worded(Kind, &'static [Word]),
    /// A whole number.
    Count,
    /// One of these words.
    Choice(&'static [&'static str]),
    /// A material of the catalogue, or `own` where its values are written beside.
    Material(Group),
    /// A tube by outside diameter and wall, `15 x 0.7`, in millimetres.
    TubeSize,
    /// One value for the whole year, or twelve.
    Monthly(Kind),
    /// A time of day, `07:30`.
    Clock,
    /// Spans of days, `[["07-20", "08-02"]]`.
    DaySpans,
    /// Places on the sheet, each to the right and up from its lower left corner,
    /// `[["50 mm", "40 mm"], ["50 mm", "900 mm"]]`.
    Places,
}

/// A word that stands for a quantity.
#[derive(Clone, Copy, Debug)]
pub struct Word {
    /// The word.
    pub word: &'static str,
    /// The quantity, as written.
    pub value: &'static str,
    /// Where that figure comes from.
    pub source: &'static str,
    /// How far that is to be trusted; `exact` where the word is only another way to write it.
    pub certainty: &'static str,
}

/// What holds when a parameter is not written.
#[derive(Clone, Copy, Debug)]
pub enum Default {
    /// It must be written.
    Required,
    /// Nothing: the parameter is simply absent.
    Absent,
    /// This value.
    Assume {
        /// The value as a user would write it.
        value: &'static str,
        /// Where it comes from.
        source: &'static str,
        /// How far that is to be trusted.
        certainty: &'static str,
    },
    /// The catalogue's value for the material named by the neighbouring key.
    Material {
        /// The neighbouring key, `material` or `coating`.
        key: &'static str,
        /// Which of the material's values.
        field: Field,
    },
    /// Taken from the neighbouring tube size; must be written where none is.
    Size {
        /// The neighbouring key.
        key: &'static str,
        /// Which part of it.
        part: SizePart,
    },
    /// What the neighbouring tube size is sold with; this value where the size bears no name.
    Sold {
        /// The neighbouring key.
        key: &'static str,
        /// Which of the named tube's values.
        part: SoldPart,
        /// The value as a user would write it, for tubes without a name.
        value: &'static str,
        /// Where that comes from.
        source: &'static str,
        /// How far that is to be trusted.
        certainty: &'static str,
    },
    /// Worked out from other values.
    Worked {
        /// How; the text is the path of the table the parameter stands in.
        rule: fn(&Values, &str) -> Option<f64>,
        /// The same in words.
        source: &'static str,
        /// How far that is to be trusted.
        certainty: &'static str,
    },
}

/// A part of a tube's size.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SizePart {
    /// Outside diameter.
    Outside,
    /// Thickness of the wall.
    Wall,
}

/// What a tube sold by a name tells beside its size.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SoldPart {
    /// What it is made of.
    Material,
    /// Height of the inner wall's unevenness.
    Roughness,
}

/// What is reckoned with where a builder does not know, as a user would write it.
#[derive(Clone, Copy, Debug)]
pub struct Spread {
    /// One builder in ten has less.
    pub low: &'static str,
    /// As many have more as less.
    pub middle: &'static str,
    /// One builder in ten has more.
    pub high: &'static str,
    /// Where these come from.
    pub source: &'static str,
}

/// A parameter that means something only beside certain words of a neighbouring key.
#[derive(Clone, Copy, Debug)]
pub struct Only {
    /// The neighbouring key.
    pub key: &'static str,
    /// The words.
    pub is: &'static [&'static str],
    /// How bad it is to write it elsewhere.
    pub severity: Severity,
}

/// A table of the design file.
#[derive(Clone, Copy, Debug)]
pub struct Section {
    /// Its place; `[]` at the end marks a list of tables.
    pub path: &'static str,
    /// Whether it must stand.
    pub presence: Presence,
    /// What it holds, in a line.
    pub help: &'static str,
}

/// Whether a table must stand.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Presence {
    /// It must.
    Required,
    /// It may be left out: its parameters have defaults.
    Assumed,
    /// It may be left out: then the thing itself is not there.
    Optional,
    /// A list of at least so many members.
    List(usize),
    /// It must stand where the parameter at this place says this word, and means nothing elsewhere.
    When(&'static str, &'static str),
    /// Where the parameter at this place says one of these words it is as the first says; elsewhere
    /// it means nothing.
    Among(&'static Presence, &'static str, &'static [&'static str]),
}

impl Presence {
    /// The place and the words that decide whether the table means anything; `None` for always.
    pub fn only(&self) -> Option<(&'static str, Vec<&'static str>)> {
        match *self {
            Presence::When(place, word) => Some((place, vec![word])),
            Presence::Among(_, place, words) => Some((place, words.to_vec())),
            _ => None,
        }
    }

    /// What it is where it means something.
    pub fn there(&self) -> Presence {
        match *self {
            Presence::When(..) => Presence::Required,
            Presence::Among(presence, ..) => *presence,
            other => other,
        }
    }

    /// True for a list of tables.
    pub fn is_list(&self) -> bool {
        matches!(self.there(), Presence::List(_))
    }
}

impl Parameter {
    /// The key itself: the last part of the path.
    pub fn key(&self) -> &'static str {
        self.path.rsplit('.').next().unwrap_or(self.path)
    }

    /// The path of the table it stands in; empty at the root.
    pub fn section(&self) -> &'static str {
        self.path.rsplit_once('.').map_or("", |(section, _)| section)
    }
}

const fn parameter(path: &'static str, form: Form, help: &'static str) -> Parameter {
    Parameter {
        path,
        form,
        range: None,
        default: Default::Required,
        unknown: None,
        only: None,
        unless: None,
        help,
    }
}

impl Parameter {
    const fn within(mut self, low: &'static str, high: &'static str) -> Self {
        self.range = Some((low, high));
        self
    }

    const fn absent(mut self) -> Self {
        self.default = Default::Absent;
        self
    }

    const fn assume(
        mut self,
        value: &'static str,
        source: &'static str,
        certainty: &'static str,
    ) -> Self {
        self.default = Default::Assume { value, source, certainty };
        self
    }

    const fn of(mut self, key: &'static str, field: Field) -> Self {
        self.default = Default::Material { key, field };
        self
    }

    const fn sized(mut self, key: &'static str, part: SizePart) -> Self {
        self.default = Default::Size { key, part };
        self
    }

    const fn sold(
        mut self,
        part: SoldPart,
        value: &'static str,
        source: &'static str,
        certainty: &'static str,
    ) -> Self {
        self.default = Default::Sold { key: "size", part, value, source, certainty };
        self
    }

    const fn worked(
        mut self,
        rule: fn(&Values, &str) -> Option<f64>,
        source: &'static str,
    ) -> Self {
        self.default = Default::Worked { rule, source, certainty: "computed" };
        self
    }

    /// As [`Parameter::worked`], where the rule itself is only so far to be trusted.
    const fn worked_by(
        mut self,
        rule: fn(&Values, &str) -> Option<f64>,
        source: &'static str,
        certainty: &'static str,
    ) -> Self {
        self.default = Default::Worked { rule, source, certainty };
        self
    }

    const fn unknown(mut self, spread: Spread) -> Self {
        self.unknown = Some(spread);
        self
    }

    const fn only(mut self, key: &'static str, is: &'static [&'static str]) -> Self {
        self.only = Some(Only { key, is, severity: Severity::Warning });
        self
    }

    /// As [`Parameter::only`], but a fault elsewhere: who writes it expects what will not happen.
    const fn only_ever(mut self, key: &'static str, is: &'static [&'static str]) -> Self {
        self.only = Some(Only { key, is, severity: Severity::Fault });
        self
    }

    const fn unless(mut self, key: &'static str) -> Self {
        self.unless = Some(key);
        self
    }
}

/// The parameters and the sections of the stations, in the order of the heat.
const PARAMETERS: &[&[Parameter]] = &[
    ROOT,
    sun::PARAMETERS,
    panel::PARAMETERS,
    mount::PARAMETERS,
    network::PARAMETERS,
    circuit::PARAMETERS,
    store::PARAMETERS,
    tap::PARAMETERS,
    control::PARAMETERS,
    stock::PARAMETERS,
];
const SECTIONS: &[&[Section]] = &[
    sun::SECTIONS,
    panel::SECTIONS,
    mount::SECTIONS,
    network::SECTIONS,
    circuit::SECTIONS,
    store::SECTIONS,
    tap::SECTIONS,
    control::SECTIONS,
    stock::SECTIONS,
];

const ROOT: &[Parameter] = &[
    parameter("title", Form::Text, "What the build is called."),
    parameter("story", Form::Text, "Who builds it, and why, in a sentence or two.").absent(),
];

/// Every parameter, in the order of the heat.
pub fn parameters() -> impl Iterator<Item = &'static Parameter> {
    PARAMETERS.iter().flat_map(|station| station.iter())
}

/// Every table, in the order of the heat.
pub fn sections() -> impl Iterator<Item = &'static Section> {
    SECTIONS.iter().flat_map(|station| station.iter())
}

/// The parameter at a place; numbers in brackets count as any member of the list.
pub fn parameter_at(place: &str) -> Option<&'static Parameter> {
    let path = general(place);
    parameters().find(|parameter| parameter.path == path)
}

/// The table at a place.
pub fn section_at(place: &str) -> Option<&'static Section> {
    let path = general(place);
    sections().find(|section| section.path.trim_end_matches("[]") == path.trim_end_matches("[]"))
}

/// `panel.back[2].thickness` as `panel.back[].thickness`.
pub fn general(place: &str) -> String {
    let mut out = String::with_capacity(place.len());
    let mut inside = false;
    for sign in place.chars() {
        match sign {
            '[' => {
                inside = true;
                out.push_str("[]");
            }
            ']' => inside = false,
            other if !inside => out.push(other),
            _ => {}
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::value::from_words;

    /// Every range, default and spread is one the reader itself reads, in range, with its source;
    /// every parameter has its help and its table; no place is declared twice.
    #[test]
    fn the_tables_hold_together() {
        let mut seen = std::collections::BTreeSet::new();
        for parameter in parameters() {
            let path = parameter.path;
            assert!(seen.insert(path), "{path} stands twice");
            assert!(parameter.help.ends_with('.'), "{path} has no help");
            assert!(
                parameter.section().is_empty() || section_at(parameter.section()).is_some(),
                "{path}"
            );
            let mut texts = Vec::new();
            if let Default::Assume { value, source, certainty }
            | Default::Sold { value, source, certainty, .. } = parameter.default
            {
                assert!(
                    !source.is_empty() && !certainty.is_empty(),
                    "{path}: a default has its origin"
                );
                texts.push(value);
            }
            if let Some(spread) = parameter.unknown {
                assert!(!spread.source.is_empty(), "{path}: a spread has its origin");
                texts.extend([spread.low, spread.middle, spread.high]);
            }
            if let Form::Worded(_, words) = parameter.form {
                texts.extend(words.iter().map(|word| word.word));
            }
            for text in texts {
                assert!(from_words(parameter, text).is_ok(), "{path}: `{text}` is not read");
            }
            if let Some(only) = parameter.only {
                let beside = format!("{}.{}", parameter.section(), only.key);
                assert!(parameter_at(&beside).is_some(), "{path}: no {beside}");
            }
        }
    }
}
