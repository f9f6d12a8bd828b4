//! From what was typed to answers.

use design::problem::{Problem, Severity, Span};
use design::value::nearest;

use super::fault::SumFault;
use super::given::{Entry, Given, read};
use super::line::{At, COMMAND_LINE, Line, quoted};
use super::table::{Answer, Need, Note, Reckoned, Sum};
use super::{sum, sums};

/// A sum with its answers.
pub struct Asked {
    /// Which.
    pub sum: &'static Sum,
    /// What was given, and what was assumed.
    pub given: Given,
    /// What came out.
    pub answers: Vec<Result>,
    /// What must be known of it.
    pub notes: Vec<Note>,
}

/// One answer.
pub struct Result {
    /// Its name; of a numbered one, with its number.
    pub name: String,
    /// Its declaration.
    pub answer: &'static Answer,
    /// Its value in SI.
    pub si: f64,
}

/// Why there is no answer.
#[derive(Debug)]
pub struct Refusal {
    /// What is wrong.
    pub problems: Vec<Problem>,
    /// The command line, into which the problems point.
    pub line: String,
    /// How it went wrong.
    pub refused_as: RefusedAs,
}

/// How it went wrong: what the exit status tells.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum RefusedAs {
    /// The line itself: no such sum, no such key, a key wanting or twice.
    Usage,
    /// A value.
    Input,
    /// The reckoning did not come to an end.
    NotCompleted,
}

/// Reads what was typed and reckons.
///
/// # Errors
/// A [`Refusal`] with everything that is wrong, not only the first.
pub fn ask(name: &str, written: &[String]) -> std::result::Result<Asked, Refusal> {
    let line = Line::of(name, written);
    let refuse = |problems: Vec<Problem>, refused_as| {
        Err(Refusal { problems, line: line.text.clone(), refused_as })
    };
    let sum = known(name)?;
    let (given, problems) = read_all(sum, written, &line);
    if !problems.is_empty() {
        let usage = problems.iter().any(|problem| USAGE.contains(&problem.code));
        return refuse(problems, if usage { RefusedAs::Usage } else { RefusedAs::Input });
    }
    let reckoned = (sum.reckon)(&given).and_then(|reckoned| {
        let unfit = reckoned.answers.iter().find(|(_, si)| !si.is_finite());
        match unfit {
            Some((name, si)) => Err(SumFault::NotCompleted(format!("{name} came to {si}"))),
            None => Ok(reckoned),
        }
    });
    match reckoned {
        Ok(Reckoned { answers, notes }) => {
            let declared = |name: &str| sum.answers.iter().find(|answer| answer.declares(name));
            let answers = answers
                .into_iter()
                .filter_map(|(name, si)| declared(&name).map(|answer| Result { answer, name, si }))
                .collect();
            Ok(Asked { sum, given, answers, notes })
        }
        Err(fault) => {
            let (problem, refused_as) = told(sum, written, &line, fault);
            refuse(vec![problem], refused_as)
        }
    }
}

/// The sum of that name.
///
/// # Errors
/// A refusal that names the nearest one.
pub fn known(name: &str) -> std::result::Result<&'static Sum, Refusal> {
    sum(name).ok_or_else(|| {
        let line = Line::of(name, &[]);
        let names: Vec<&str> = sums().map(|sum| sum.name).collect();
        let problem = Problem {
            expected: "the name of a sum".to_owned(),
            says: "there is no sum of this name".to_owned(),
            hint: match nearest(name, &names) {
                Some(near) => format!("did you mean `{near}`? `warmfeed sum` lists them all"),
                None => "`warmfeed sum` lists them all".to_owned(),
            },
            ..line.fault("unknown-sum", At::Name)
        };
        Refusal { problems: vec![problem], line: line.text, refused_as: RefusedAs::Usage }
    })
}

/// The command line of a sum with these values, as one would type it.
pub fn example_line(sum: &Sum, given: &[(&str, &str)]) -> String {
    let mut text = format!("warmfeed sum {}", sum.name);
    for (key, value) in given {
        text.push_str(&format!(" {key}={}", quoted(value)));
    }
    text
}

/// Problems that are the command line's own.
const USAGE: [&str; 5] =
    ["unknown-sum", "not-key-value", "unknown-key", "key-twice", "missing-key"];

fn read_all(sum: &'static Sum, written: &[String], line: &Line) -> (Given, Vec<Problem>) {
    let mut problems = Vec::new();
    let mut found: Vec<Option<Entry>> = sum.keys.iter().map(|_| None).collect();
    // A key whose value cannot be read is not missing besides.
    let mut named = vec![false; sum.keys.len()];
    for (place, argument) in written.iter().enumerate() {
        let Some((name, text)) = argument.split_once('=') else {
            problems.push(Problem {
                expected: "key=value".to_owned(),
                says: "this is no key with its value".to_owned(),
                hint: format!("`warmfeed sum {} --help` shows its keys", sum.name),
                ..line.fault("not-key-value", At::Key(place))
            });
            continue;
        };
        let Some(at) = sum.keys.iter().position(|key| key.name == name) else {
            problems.push(unknown_key(sum, name, line, place));
            continue;
        };
        if std::mem::replace(&mut named[at], true) {
            problems.push(Problem {
                expected: "each key once".to_owned(),
                says: "this key stands twice".to_owned(),
                hint: "leave one of them out".to_owned(),
                ..line.fault("key-twice", At::Key(place))
            });
            continue;
        }
        let key = &sum.keys[at];
        match read(key, text) {
            Ok(value) => {
                found[at] = Some(Entry { key, text: text.trim().to_owned(), value, assumed: None });
            }
            Err(fault) => problems.push(Problem {
                expected: fault.expected,
                says: fault.says,
                hint: fault.hint,
                ..line.fault(fault.code, At::Value(place))
            }),
        }
    }
    for ((key, entry), named) in sum.keys.iter().zip(&mut found).zip(named) {
        match key.need {
            Need::Required if !named => {
                let wanted = format!("`{}`: {}", key.name, key.form.words());
                problems
                    .push(Problem { place: key.name.to_owned(), ..missing(sum, &wanted, line) });
            }
            Need::Assumed { value, origin } if !named => {
                // Every assumed value is one its own key reads; a test holds the table to it.
                *entry = read(key, value).ok().map(|read| Entry {
                    key,
                    text: value.to_owned(),
                    value: read,
                    assumed: Some(origin),
                });
            }
            _ => {}
        }
    }
    (Given { entries: found.into_iter().flatten().collect() }, problems)
}

fn unknown_key(sum: &Sum, name: &str, line: &Line, place: usize) -> Problem {
    let keys: Vec<&str> = sum.keys.iter().map(|key| key.name).collect();
    // The search for the nearest word writes hyphens where keys have low lines.
    let hyphened: Vec<String> = keys.iter().map(|key| key.replace('_', "-")).collect();
    let hyphened: Vec<&str> = hyphened.iter().map(String::as_str).collect();
    let near = nearest(name, &hyphened).map(|near| near.replace('-', "_"));
    Problem {
        expected: format!("one of {}", keys.join(", ")),
        says: format!("`{}` has no such key", sum.name),
        hint: match near {
            Some(near) => format!("did you mean `{near}`?"),
            None => format!("`warmfeed sum {} --help` explains its keys", sum.name),
        },
        ..line.fault("unknown-key", At::Key(place))
    }
}

fn missing(sum: &Sum, wanted: &str, line: &Line) -> Problem {
    let example = sum.examples.first().map_or(String::new(), |example| {
        format!("for instance `{}`", example_line(sum, example.given))
    });
    Problem {
        found: "nothing".to_owned(),
        expected: wanted.to_owned(),
        says: "this key is missing".to_owned(),
        hint: example,
        ..line.fault("missing-key", At::Name)
    }
}

/// What the physics has to say against it.
fn told(sum: &Sum, written: &[String], line: &Line, fault: SumFault) -> (Problem, RefusedAs) {
    let whole = |code, says: String, hint: &str| Problem {
        code,
        severity: Severity::Fault,
        file: COMMAND_LINE.to_owned(),
        span: Span::default(),
        place: sum.name.to_owned(),
        found: line.text.clone(),
        expected: "values within the sum's valid range".to_owned(),
        says,
        hint: hint.to_owned(),
    };
    match fault {
        SumFault::Missing { wanted } => {
            let problem = Problem {
                place: sum.name.to_owned(),
                says: "a key is missing".to_owned(),
                ..missing(sum, wanted, line)
            };
            (problem, RefusedAs::Usage)
        }
        SumFault::Clash { key, says, hint } => {
            let place = written
                .iter()
                .position(|argument| argument.split_once('=').is_some_and(|(name, _)| name == key));
            let at = place.map_or(At::Name, At::Value);
            let problem = Problem {
                expected: "keys that go together".to_owned(),
                says,
                hint: hint.to_owned(),
                ..line.fault("keys-clash", at)
            };
            (problem, RefusedAs::Input)
        }
        SumFault::Refused(says) => (whole("out-of-range", says, sum.valid_range), RefusedAs::Input),
        SumFault::NotCompleted(says) => (whole("not-completed", says, ""), RefusedAs::NotCompleted),
    }
}
