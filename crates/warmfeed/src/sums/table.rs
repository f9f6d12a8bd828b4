//! What is said of a sum, once.

use design::quantity::{Kind, Units, in_unit, show};

use super::fault::SumFault;
use super::given::Given;

/// One sum.
pub struct Sum {
    /// Its name on the command line.
    pub name: &'static str,
    /// Where on the heat's path it belongs.
    pub station: Station,
    /// What it answers, in a line.
    pub help: &'static str,
    /// What is given.
    pub keys: &'static [Key],
    /// What comes out.
    pub answers: &'static [Answer],
    /// The formula, as its source writes it.
    pub formula: &'static str,
    /// Author, year, equation.
    pub source: &'static str,
    /// Where it holds, and what it leaves out.
    pub valid_range: &'static str,
    /// What must be said beside the answer, where people get hurt; else empty.
    pub caution: &'static str,
    /// Worked examples, the first of which help shows.
    pub examples: &'static [Example],
    /// Calls the physics. Answers are in SI, by the names in `answers`.
    pub reckon: fn(&Given) -> Result<Reckoned, SumFault>,
}

/// What a sum came to.
#[derive(Clone, Debug, Default)]
pub struct Reckoned {
    /// Answers in SI, by name.
    pub answers: Vec<(String, f64)>,
    /// What must be known of them.
    pub notes: Vec<Note>,
}

/// Something to know of an answer.
#[derive(Clone, Debug)]
pub struct Note {
    /// Short stable name.
    pub code: &'static str,
    /// In one sentence, without its stop.
    pub says: &'static str,
}

impl Reckoned {
    /// With one more answer.
    pub fn and(mut self, name: &str, si: f64) -> Reckoned {
        self.answers.push((name.to_owned(), si));
        self
    }

    /// With something to know.
    pub fn noting(mut self, code: &'static str, says: &'static str) -> Reckoned {
        self.notes.push(Note { code, says });
        self
    }
}

/// Answers of fixed names.
pub fn reckoned<const N: usize>(answers: [(&str, f64); N]) -> Result<Reckoned, SumFault> {
    let answers = answers.map(|(name, si)| (name.to_owned(), si)).to_vec();
    Ok(Reckoned { answers, notes: Vec::new() })
}

/// The groups of sums: five stations, and what lies beside them.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Station {
    /// Place, sky, light.
    Sun,
    /// Cover, sheet, tubes.
    Panel,
    /// Pipes, pump, pressure.
    Circuit,
    /// Cistern and coil.
    Store,
    /// The household's water.
    Tap,
    /// Fluids and materials.
    Matter,
    /// Cutting, hanging, fixing.
    Making,
}

impl Station {
    /// The groups in the order of the heat.
    pub const ALL: [Station; 7] = [
        Station::Sun,
        Station::Panel,
        Station::Circuit,
        Station::Store,
        Station::Tap,
        Station::Matter,
        Station::Making,
    ];

    /// Its name.
    pub fn word(self) -> &'static str {
        match self {
            Station::Sun => "sun",
            Station::Panel => "panel",
            Station::Circuit => "circuit",
            Station::Store => "store",
            Station::Tap => "tap",
            Station::Matter => "matter",
            Station::Making => "making",
        }
    }
}

/// One thing given.
#[derive(Clone, Copy)]
pub struct Key {
    /// Its name.
    pub name: &'static str,
    /// What may be written.
    pub form: Form,
    /// The least and the greatest value, as written.
    pub range: Option<(&'static str, &'static str)>,
    /// Whether it must stand.
    pub need: Need,
    /// What it is, in a line.
    pub help: &'static str,
}

/// What may be written for a key.
#[derive(Clone, Copy)]
pub enum Form {
    /// A number with its unit.
    Quantity(Kind),
    /// A flow, by volume or by mass.
    AnyFlow,
    /// Percent: `6.25 %`, or a bare `6.25` since the key's name says percent.
    Percent,
    /// A whole number.
    Count,
    /// One of these words.
    Choice(&'static [&'static str]),
    /// One of the catalogue's words.
    Catalogue(fn() -> Vec<&'static str>),
    /// An instant in ISO 8601 with its offset from UTC.
    Time,
}

impl Form {
    /// What may be written, in words.
    pub fn words(self) -> String {
        match self {
            Form::Quantity(kind) if kind.stands_bare() => kind.fitting(),
            Form::Quantity(kind) => format!("{} in {}", kind.words(), kind.fitting()),
            Form::AnyFlow => {
                format!("a flow in {}, {}", Kind::Flow.fitting(), Kind::MassFlow.fitting())
            }
            Form::Percent => "a share in %".to_owned(),
            Form::Count => "a whole number".to_owned(),
            Form::Choice(words) => format!("one of {}", words.join(", ")),
            Form::Catalogue(words) => format!("one of {}", words().join(", ")),
            Form::Time => "a time as 2026-06-21T12:25:00+01:00, with its offset".to_owned(),
        }
    }
}

/// Whether a key must stand.
#[derive(Clone, Copy)]
pub enum Need {
    /// It must.
    Required,
    /// It may; else this is taken.
    Assumed {
        /// The value as a user would write it.
        value: &'static str,
        /// Where it comes from.
        origin: &'static str,
    },
    /// It may; the words say when it is wanted, or what holds without it.
    Optional(&'static str),
}

/// A key that must stand.
pub const fn key(name: &'static str, form: Form, help: &'static str) -> Key {
    Key { name, form, range: None, need: Need::Required, help }
}

/// A key with a unit that must stand.
pub const fn of(name: &'static str, kind: Kind, help: &'static str) -> Key {
    key(name, Form::Quantity(kind), help)
}

impl Key {
    /// With the least and the greatest value.
    pub const fn within(mut self, low: &'static str, high: &'static str) -> Self {
        self.range = Some((low, high));
        self
    }

    /// With what is taken where it does not stand.
    pub const fn assume(mut self, value: &'static str, origin: &'static str) -> Self {
        self.need = Need::Assumed { value, origin };
        self
    }

    /// With when it is wanted.
    pub const fn optional(mut self, when: &'static str) -> Self {
        self.need = Need::Optional(when);
        self
    }
}

/// One thing that comes out.
#[derive(Clone, Copy)]
pub struct Answer {
    /// Its name, with its unit; `...` at the end stands for 1, 2, 3 and on.
    pub name: &'static str,
    /// Its units.
    pub measure: Measure,
    /// What it is, in a line.
    pub help: &'static str,
}

/// A plain number that comes out.
pub const fn plain(name: &'static str, help: &'static str) -> Answer {
    Answer { name, measure: Measure::Plain, help }
}

/// A quantity that comes out: its kind, its unit in the name, and the one for US readers.
pub const fn out(
    name: &'static str,
    (kind, unit, us): (Kind, &'static str, &'static str),
    help: &'static str,
) -> Answer {
    Answer { name, measure: Measure::Of { kind, unit, us }, help }
}

/// A quantity of no kind that anyone writes: its two units, each with how many make one in SI.
pub const fn ratio(
    name: &'static str,
    (unit, per_si): (&'static str, f64),
    (us, us_per_si): (&'static str, f64),
    help: &'static str,
) -> Answer {
    Answer { name, measure: Measure::Ratio { unit, per_si, us, us_per_si }, help }
}

/// In which units an answer is given.
#[derive(Clone, Copy)]
pub enum Measure {
    /// None.
    Plain,
    /// Units that the design file knows too.
    Of {
        /// Its kind.
        kind: Kind,
        /// The unit in the name.
        unit: &'static str,
        /// The unit for US readers.
        us: &'static str,
    },
    /// Units of its own.
    Ratio {
        /// The unit in the name.
        unit: &'static str,
        /// How many of it make one in SI.
        per_si: f64,
        /// The unit for US readers.
        us: &'static str,
        /// How many of that make one in SI.
        us_per_si: f64,
    },
}

impl Answer {
    /// True where this is the declaration of an answer of that name.
    pub fn declares(&self, name: &str) -> bool {
        match self.name.strip_suffix("...") {
            Some(front) => name.strip_prefix(front).is_some_and(|rest| rest.parse::<u32>().is_ok()),
            None => self.name == name,
        }
    }

    /// An answer's name in words, without its unit.
    pub fn label(&self, name: &str) -> String {
        let unit = match self.measure {
            Measure::Plain => "",
            Measure::Of { unit, .. } | Measure::Ratio { unit, .. } => unit,
        };
        let suffix =
            format!("_{}", unit.to_lowercase().replace(['/', ' '], "_").replace('%', "percent"));
        let bare = name.strip_suffix(&suffix).filter(|bare| !bare.is_empty()).unwrap_or(name);
        // A name that is nothing but its unit says nothing beside it.
        if bare == unit.to_lowercase().replace('/', "_per_") {
            return "answer".to_owned();
        }
        bare.replace('_', " ")
    }

    /// The value in the unit that the name carries.
    pub fn number(&self, si: f64) -> f64 {
        self.in_units(si, Units::Metric).0
    }

    /// The value to four figures with its unit, for reading.
    pub fn shown(&self, si: f64, units: Units) -> String {
        let (number, unit) = self.in_units(si, units);
        let figures = show(Kind::Number, number, units);
        if unit.is_empty() { figures } else { format!("{figures} {unit}") }
    }

    fn in_units(&self, si: f64, units: Units) -> (f64, &'static str) {
        match (self.measure, units) {
            (Measure::Plain, _) => (si, ""),
            (Measure::Of { kind, unit, .. }, Units::Metric)
            | (Measure::Of { kind, us: unit, .. }, Units::Us) => {
                // A unit that its kind does not know shows as no number, which a test finds.
                (in_unit(kind, si, unit).unwrap_or(f64::NAN), unit)
            }
            (Measure::Ratio { unit, per_si, .. }, Units::Metric) => (si * per_si, unit),
            (Measure::Ratio { us, us_per_si, .. }, Units::Us) => (si * us_per_si, us),
        }
    }
}

/// A worked example with what it must come to.
pub struct Example {
    /// The keys and their values, as written.
    pub given: &'static [(&'static str, &'static str)],
    /// Who says what it comes to.
    pub source: &'static str,
    /// What it comes to.
    pub expected: &'static [Expected],
}

/// One expected answer.
pub struct Expected {
    /// The answer's name.
    pub answer: &'static str,
    /// Its value in the unit of the name.
    pub value: f64,
    /// How far the answer may lie from it, in the same unit.
    pub within: f64,
    /// Where the value stands in the reference files, as `id` and a place in its `expected` table;
    /// `None` where it is from elsewhere.
    pub case: Option<(&'static str, &'static str)>,
}

/// An expected answer that stands in the reference files.
pub const fn case(
    answer: &'static str,
    (value, within): (f64, f64),
    id: &'static str,
    place: &'static str,
) -> Expected {
    Expected { answer, value, within, case: Some((id, place)) }
}

/// An expected answer from elsewhere, which the example's source names.
pub const fn expect(answer: &'static str, value: f64, within: f64) -> Expected {
    Expected { answer, value, within, case: None }
}
