//! The answer of `sum` as JSON, and the list of sums.

use schemars::{JsonSchema, Schema, SchemaGenerator};
use serde::ser::SerializeMap;
use serde::{Serialize, Serializer};

use super::check::AssumedWire;
use super::problem::ProblemWire;
use crate::sums::{Asked, Example, Key, Need, Sum, example_line, sums};

/// What `warmfeed sum NAME --json` prints.
#[derive(Clone, Debug, JsonSchema, Serialize)]
pub struct SumWire {
    /// The sum's name.
    pub sum: String,
    /// What was reckoned with, as written, by key; what was assumed is among it.
    pub given: Ordered<String>,
    /// What of that nobody wrote.
    pub assumed: Vec<AssumedWire>,
    /// What came out; each key carries its unit.
    pub answers: Ordered<f64>,
    /// The formula, as its source writes it.
    pub formula: String,
    /// Author, year, equation.
    pub source: String,
    /// Where it holds, and what it leaves out.
    pub valid_range: String,
    /// What must be said beside the answer; empty where nobody gets hurt.
    pub caution: String,
    /// Warnings and notes; empty when there are none.
    pub problems: Vec<ProblemWire>,
}

/// What `warmfeed sum --json` prints: every sum, along the heat's path.
#[derive(Clone, Debug, JsonSchema, Serialize)]
pub struct SumsWire {
    /// The sums.
    pub sums: Vec<SumEntryWire>,
    /// Always empty: nothing can be wrong with a list.
    pub problems: Vec<ProblemWire>,
}

/// One sum of the list.
#[derive(Clone, Debug, JsonSchema, Serialize)]
pub struct SumEntryWire {
    /// Its name.
    pub sum: String,
    /// Where on the heat's path it belongs.
    pub station: String,
    /// What it answers, in a line.
    pub help: String,
    /// What is given.
    pub keys: Vec<KeyWire>,
    /// What comes out.
    pub answers: Vec<AnswerWire>,
    /// Worked examples, each with what others say it comes to.
    pub examples: Vec<ExampleWire>,
}

/// A worked example.
#[derive(Clone, Debug, JsonSchema, Serialize)]
pub struct ExampleWire {
    /// The command line, as one would type it.
    pub line: String,
    /// The keys and their values, as written.
    pub given: Ordered<String>,
    /// Who says what it comes to.
    pub source: String,
    /// What it comes to.
    pub expected: Vec<ExpectedWire>,
}

/// One expected answer.
#[derive(Clone, Debug, JsonSchema, Serialize)]
pub struct ExpectedWire {
    /// The answer's name, with its unit.
    pub key: String,
    /// Its value.
    pub value: f64,
    /// How far the answer may lie from it.
    pub within: f64,
    /// The case of the reference files, where it stands in one.
    pub case: Option<String>,
    /// Where in that case.
    pub place: Option<String>,
}

/// One thing given.
#[derive(Clone, Debug, JsonSchema, Serialize)]
pub struct KeyWire {
    /// Its name.
    pub key: String,
    /// What may be written.
    pub takes: String,
    /// True where it must stand.
    pub required: bool,
    /// What is taken where it does not stand; `null` where nothing is.
    pub default: Option<String>,
    /// What it is, in a line.
    pub help: String,
}

/// One thing that comes out.
#[derive(Clone, Debug, JsonSchema, Serialize)]
pub struct AnswerWire {
    /// Its name, with its unit; `...` at the end stands for 1, 2, 3 and on.
    pub key: String,
    /// What it is, in a line.
    pub help: String,
}

/// Values by name, in the order of the sum's own table.
#[derive(Clone, Debug)]
pub struct Ordered<T>(Vec<(String, T)>);

impl<T: Serialize> Serialize for Ordered<T> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut map = serializer.serialize_map(Some(self.0.len()))?;
        for (name, value) in &self.0 {
            map.serialize_entry(name, value)?;
        }
        map.end()
    }
}

impl<T: JsonSchema> JsonSchema for Ordered<T> {
    fn schema_name() -> std::borrow::Cow<'static, str> {
        std::collections::BTreeMap::<String, T>::schema_name()
    }

    fn json_schema(generator: &mut SchemaGenerator) -> Schema {
        std::collections::BTreeMap::<String, T>::json_schema(generator)
    }

    fn inline_schema() -> bool {
        true
    }
}

impl From<&Asked> for SumWire {
    fn from(asked: &Asked) -> SumWire {
        let sum = asked.sum;
        let entries = &asked.given.entries;
        SumWire {
            sum: sum.name.to_owned(),
            given: Ordered(
                entries
                    .iter()
                    .map(|entry| (entry.key.name.to_owned(), entry.text.clone()))
                    .collect(),
            ),
            assumed: entries
                .iter()
                .filter_map(|entry| {
                    entry.assumed.map(|origin| AssumedWire {
                        place: entry.key.name.to_owned(),
                        value: entry.text.clone(),
                        origin: origin.to_owned(),
                    })
                })
                .collect(),
            answers: Ordered(
                asked
                    .answers
                    .iter()
                    .map(|result| (result.name.clone(), result.answer.number(result.si)))
                    .collect(),
            ),
            formula: sum.formula.to_owned(),
            source: sum.source.to_owned(),
            valid_range: sum.valid_range.to_owned(),
            caution: sum.caution.to_owned(),
            problems: asked.notes.iter().map(|note| ProblemWire::of_note(sum.name, note)).collect(),
        }
    }
}

impl SumsWire {
    /// All of them.
    pub fn all() -> SumsWire {
        SumsWire { sums: sums().map(SumEntryWire::from).collect(), problems: Vec::new() }
    }
}

impl From<&'static Sum> for SumEntryWire {
    fn from(sum: &'static Sum) -> SumEntryWire {
        SumEntryWire {
            sum: sum.name.to_owned(),
            station: sum.station.word().to_owned(),
            help: sum.help.to_owned(),
            keys: sum.keys.iter().map(KeyWire::from).collect(),
            answers: sum
                .answers
                .iter()
                .map(|answer| AnswerWire {
                    key: answer.name.to_owned(),
                    help: answer.help.to_owned(),
                })
                .collect(),
            examples: sum.examples.iter().map(|example| example_wire(sum, example)).collect(),
        }
    }
}

fn example_wire(sum: &Sum, example: &Example) -> ExampleWire {
    let given = example.given.iter().map(|&(key, value)| (key.to_owned(), value.to_owned()));
    ExampleWire {
        line: example_line(sum, example.given),
        given: Ordered(given.collect()),
        source: example.source.to_owned(),
        expected: example
            .expected
            .iter()
            .map(|expected| ExpectedWire {
                key: expected.answer.to_owned(),
                value: expected.value,
                within: expected.within,
                case: expected.case.map(|(id, _)| id.to_owned()),
                place: expected.case.map(|(_, place)| place.to_owned()),
            })
            .collect(),
    }
}

impl From<&Key> for KeyWire {
    fn from(key: &Key) -> KeyWire {
        KeyWire {
            key: key.name.to_owned(),
            takes: key.form.words(),
            required: matches!(key.need, Need::Required),
            default: match key.need {
                Need::Assumed { value, .. } => Some(value.to_owned()),
                Need::Required | Need::Optional(_) => None,
            },
            help: key.help.to_owned(),
        }
    }
}
