//! What a worry comes to.

use design::Edit;
use design::quantity::Kind as Measure;

use super::words::Words;

/// How much a worry matters.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Kind {
    /// Not to be built or run so.
    Stop,
    /// Look after it.
    Mind,
    /// Looked at and small.
    Quiet,
}

/// What a worry is about.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum About {
    /// It boils or cooks itself.
    Boils,
    /// Nobody is at home.
    Away,
    /// Frost.
    Frost,
    /// Bacteria.
    Bacteria,
    /// Hot water on skin.
    Scald,
    /// What runs in the circuit, and who has to be asked.
    Poison,
    /// It loses heat at night.
    Night,
    /// The controller and its probes.
    Controller,
    /// It lets go of the roof.
    LetsGo,
    /// It moves as it warms.
    Moves,
    /// It ages.
    Ages,
    /// It leaks.
    Leaks,
    /// People at work on it.
    Work,
}

/// Where in the heat's path a worry belongs.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Station {
    /// Sun.
    Sun,
    /// Panel.
    Panel,
    /// Circuit, with its controller.
    Circuit,
    /// Store.
    Store,
    /// Tap.
    Tap,
}

/// Who says so, and how far it is to be trusted.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Certainty {
    /// Met in the source named.
    Seen,
    /// Recalled, not looked up.
    FromMemory,
    /// What the trade does, without a source.
    CommonPractice,
    /// Set by judgement, at the cautious end.
    Judgement,
}

/// A computed number, and the limit it is held against.
#[derive(Clone, Debug, PartialEq)]
pub struct Figure {
    /// What it is, in a few words.
    pub what: &'static str,
    /// What it measures.
    pub measure: Measure,
    /// As computed, in SI.
    pub computed_si: f64,
    /// Its limit; `None` where it is only told.
    pub limit: Option<Limit>,
}

/// A limit.
#[derive(Clone, Debug, PartialEq)]
pub struct Limit {
    /// In SI.
    pub si: f64,
    /// Which side of it is bad.
    pub bad: Bad,
    /// Who sets it.
    pub source: String,
    /// How far it is to be trusted.
    pub certainty: Certainty,
}

/// Which side of a limit is bad.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Bad {
    /// Above it.
    Above,
    /// Below it.
    Below,
}

impl Limit {
    /// A highest value.
    pub fn at_most(si: f64, source: impl Into<String>, certainty: Certainty) -> Limit {
        Limit { si, bad: Bad::Above, source: source.into(), certainty }
    }

    /// A lowest value.
    pub fn at_least(si: f64, source: impl Into<String>, certainty: Certainty) -> Limit {
        Limit { si, bad: Bad::Below, source: source.into(), certainty }
    }
}

impl Figure {
    /// A number that is only told.
    pub fn told(what: &'static str, measure: Measure, computed_si: f64) -> Figure {
        Figure { what, measure, computed_si, limit: None }
    }

    /// A number held against its limit.
    pub fn against(what: &'static str, measure: Measure, computed_si: f64, limit: Limit) -> Figure {
        Figure { what, measure, computed_si, limit: Some(limit) }
    }

    /// How far it is on the good side of its limit, in SI; below 0 beyond it.
    pub fn margin_si(&self) -> Option<f64> {
        self.limit.as_ref().map(|limit| match limit.bad {
            Bad::Above => limit.si - self.computed_si,
            Bad::Below => self.computed_si - limit.si,
        })
    }
}

/// Something that would help.
#[derive(Clone, Debug, PartialEq)]
pub struct Remedy {
    /// What is done, as an order.
    pub says: Words,
    /// What that changes in the design file.
    pub edits: Vec<Edit>,
    /// What the same worry came to with it; `None` before it was tried.
    pub tried: Option<Tried>,
}

impl Remedy {
    /// A remedy not tried yet.
    pub fn new(says: Words, edits: Vec<Edit>) -> Remedy {
        Remedy { says, edits, tried: None }
    }
}

/// What a remedy came to, recomputed.
#[derive(Clone, Debug, PartialEq)]
pub enum Tried {
    /// It was computed.
    Worked {
        /// What the worry then is; `None` where nothing is left to tell.
        kind: Option<Kind>,
        /// Its first figure then.
        figure: Option<Figure>,
        /// Spared heat more a year \[kWh\]; negative where less.
        spared_kwh: f64,
    },
    /// No such build can be computed, and why.
    Refused(String),
}

/// A temperature over some hours, with limits.
#[derive(Clone, Debug, PartialEq)]
pub struct Course {
    /// What it shows.
    pub title: Words,
    /// Day of the year on which it begins, 0 to 364.
    pub first_day: usize,
    /// From one value to the next \[min\].
    pub step_min: usize,
    /// What runs: its name, and its temperature step by step \[K\].
    pub lines: Vec<(&'static str, Vec<f64>)>,
    /// What is not to be passed: its name, and its temperature \[K\].
    pub limits: Vec<(String, f64)>,
}

/// What a look at one worry has to say of a build.
#[derive(Clone, Debug, PartialEq)]
pub struct Finding {
    /// A short stable name for programs.
    pub code: &'static str,
    /// Which of several things of that name: a part, a place; empty where there is one.
    pub of: String,
    /// What it is about.
    pub about: About,
    /// Where it belongs.
    pub station: Station,
    /// Place in the design file; empty where it has none.
    pub place: String,
    /// How much it matters.
    pub kind: Kind,
    /// What happens and when, and how bad: the number against its limit.
    pub says: Words,
    /// What to do; empty where there is nothing.
    pub mend: Words,
    /// The numbers.
    pub figures: Vec<Figure>,
    /// Remedies that are edits of the design.
    pub remedies: Vec<Remedy>,
    /// Who says that this is a worry.
    pub source: &'static str,
    /// How far that is to be trusted.
    pub certainty: Certainty,
    /// A picture of it.
    pub course: Option<Course>,
}

impl Finding {
    /// A finding that says so much; the rest is added by who knows it.
    pub fn new(
        about: About,
        code: &'static str,
        station: Station,
        kind: Kind,
        says: Words,
    ) -> Finding {
        Finding {
            code,
            of: String::new(),
            about,
            station,
            place: String::new(),
            kind,
            says,
            mend: Words::default(),
            figures: Vec::new(),
            remedies: Vec::new(),
            source: "",
            certainty: Certainty::Judgement,
            course: None,
        }
    }

    /// Which of several things of its name it is about.
    pub fn of(mut self, of: impl Into<String>) -> Finding {
        self.of = of.into();
        self
    }

    /// Where in the design file.
    pub fn at(mut self, place: impl Into<String>) -> Finding {
        self.place = place.into();
        self
    }

    /// What to do.
    pub fn mend(mut self, mend: Words) -> Finding {
        self.mend = mend;
        self
    }

    /// Its numbers.
    pub fn figures(mut self, figures: Vec<Figure>) -> Finding {
        self.figures = figures;
        self
    }

    /// Its remedies.
    pub fn remedies(mut self, remedies: Vec<Remedy>) -> Finding {
        self.remedies = remedies;
        self
    }

    /// Who says so.
    pub fn source(mut self, source: &'static str, certainty: Certainty) -> Finding {
        self.source = source;
        self.certainty = certainty;
        self
    }

    /// Its picture.
    pub fn course(mut self, course: Course) -> Finding {
        self.course = Some(course);
        self
    }

    /// True where both tell of the same thing.
    pub fn is_same(&self, other: &Finding) -> bool {
        self.code == other.code && self.of == other.of
    }
}
