//! Worries as JSON.

use advice::worry::{
    About, Bad, Certainty, Course, Figure, Finding, NOT_LOOKED_AT, Remedy, Setting, Station, Tried,
    Words,
};
use design::quantity::{Kind as Measure, Units, in_unit};
use design::{Edit, EditValue};
use physics::ZERO_CELSIUS_K;
use schemars::JsonSchema;
use serde::Serialize;

use super::check::AssumedWire;
use super::panel::KindWire;
use super::problem::ProblemWire;
use crate::hot::kind;

/// What `warmfeed worry --json` prints.
#[derive(Clone, Debug, JsonSchema, Serialize)]
pub struct WorryWire {
    /// The build's title.
    pub title: String,
    /// Each worry, the worst first.
    pub findings: Vec<FindingWire>,
    /// What no worry covers, in one sentence.
    pub not_looked_at: String,
    /// What was not written and therefore assumed.
    pub assumed: Vec<AssumedWire>,
    /// What is doubtful in the input.
    pub problems: Vec<ProblemWire>,
}

/// One worry.
#[derive(Clone, Debug, JsonSchema, Serialize)]
pub struct FindingWire {
    /// Short stable name.
    pub code: String,
    /// Which of several things of that name; empty where there is one.
    pub of: String,
    /// What it is about.
    pub about: AboutWire,
    /// Where in the heat's path it belongs.
    pub station: StationWire,
    /// Place in the design's words; may be empty.
    #[serde(rename = "where")]
    pub place: String,
    /// How much it matters.
    pub kind: KindWire,
    /// What happens and when, and the number against its limit; a sentence without its full stop.
    pub says: String,
    /// What to do, as an order; empty where there is nothing.
    pub mend: String,
    /// The numbers, the one that decides first.
    pub figures: Vec<FigureWire>,
    /// What would help, and what it came to when it was tried.
    pub remedies: Vec<RemedyWire>,
    /// Who says that this is a worry.
    pub source: String,
    /// How far that is to be trusted.
    pub certainty: CertaintyWire,
    /// Temperatures over the hours it is about; null where time does not matter.
    pub course: Option<CourseWire>,
}

/// A computed number, with its limit where it has one.
#[derive(Clone, Debug, JsonSchema, PartialEq, Serialize)]
pub struct FigureWire {
    /// What it is, in a few words.
    pub what: String,
    /// The number.
    pub value: f64,
    /// The unit of `value`, `limit` and `margin`: one for each kind of quantity, whatever its size. `C` for
    /// temperatures (their margin is in K), `s` for times, empty for plain numbers and shares of one.
    pub unit: String,
    /// What it is held against; null where the number is only told.
    pub limit: Option<f64>,
    /// Which side of the limit is bad.
    pub bad: Option<BadWire>,
    /// Who sets the limit.
    pub source: Option<String>,
    /// How far the limit is to be trusted.
    pub certainty: Option<CertaintyWire>,
    /// How far the number is on the good side of its limit; below 0 beyond it.
    pub margin: Option<f64>,
}

/// Something that would help.
#[derive(Clone, Debug, JsonSchema, Serialize)]
pub struct RemedyWire {
    /// What is done, as an order.
    pub says: String,
    /// What that changes in the design file.
    pub edits: Vec<EditWire>,
    /// What the worry came to with it; null where it was not tried.
    pub tried: Option<TriedWire>,
}

/// One change of the design file.
#[derive(Clone, Debug, JsonSchema, Serialize)]
pub struct EditWire {
    /// Place in the design's words.
    #[serde(rename = "where")]
    pub place: String,
    /// What is to stand there; null where the value is taken out.
    pub value: Option<EditValueWire>,
}

/// What is to stand in the design file.
#[derive(Clone, Debug, JsonSchema, Serialize)]
#[serde(untagged)]
pub enum EditValueWire {
    /// Text in quotes, also a quantity with its unit.
    Text(String),
    /// A whole number.
    Whole(i64),
    /// A number.
    Number(f64),
}

/// What a remedy came to.
#[derive(Clone, Debug, JsonSchema, Serialize)]
#[serde(untagged)]
pub enum TriedWire {
    /// The build with it was computed.
    Worked {
        /// What the worry then is; null where nothing of it is left to tell.
        kind: Option<KindWire>,
        /// The number that decides it then.
        figure: Option<FigureWire>,
        /// Spared heat more a year; negative where less.
        spared_kwh: f64,
    },
    /// There is no such build.
    Refused {
        /// Why not.
        refused: String,
    },
}

/// Temperatures over some hours.
#[derive(Clone, Debug, JsonSchema, Serialize)]
pub struct CourseWire {
    /// What it shows.
    pub title: String,
    /// Day of the year on which it begins, 0 to 364.
    pub first_day: usize,
    /// From one value to the next, in minutes.
    pub step_min: usize,
    /// What runs.
    pub lines: Vec<LineWire>,
    /// What is not to be passed.
    pub limits: Vec<LevelWire>,
}

/// One temperature, step by step.
#[derive(Clone, Debug, JsonSchema, Serialize)]
pub struct LineWire {
    /// Whose.
    pub name: String,
    /// Step by step.
    pub values_c: Vec<f64>,
}

/// One temperature that is not to be passed.
#[derive(Clone, Debug, JsonSchema, Serialize)]
pub struct LevelWire {
    /// Whose.
    pub name: String,
    /// How warm.
    pub value_c: f64,
}

/// What a worry is about.
#[derive(Clone, Copy, Debug, JsonSchema, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum AboutWire {
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

/// A station of the heat's path.
#[derive(Clone, Copy, Debug, JsonSchema, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum StationWire {
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

/// How far a source is to be trusted.
#[derive(Clone, Copy, Debug, JsonSchema, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum CertaintyWire {
    /// Met in the source named.
    Seen,
    /// Recalled, not looked up.
    FromMemory,
    /// What the trade does, without a source.
    CommonPractice,
    /// Set by judgement, at the cautious end.
    Judgement,
}

/// Which side of a limit is bad.
#[derive(Clone, Copy, Debug, JsonSchema, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum BadWire {
    /// Above it.
    Above,
    /// Below it.
    Below,
}

/// All worries of a build.
pub fn worry(
    title: &str,
    findings: &[Finding],
    assumed: Vec<AssumedWire>,
    problems: Vec<ProblemWire>,
) -> WorryWire {
    WorryWire {
        title: title.to_owned(),
        findings: findings.iter().map(FindingWire::from).collect(),
        not_looked_at: format!("{NOT_LOOKED_AT}."),
        assumed,
        problems,
    }
}

/// JSON has one unit for each quantity, so that two figures of a kind can be compared.
fn unit_of(measure: Measure) -> &'static str {
    match measure {
        Measure::Length => "m",
        Measure::Area => "m2",
        Measure::Volume => "l",
        Measure::Flow => "l/min",
        Measure::MassFlow => "kg/s",
        Measure::Head => "m",
        Measure::Temperature => "C",
        Measure::Difference => "K",
        Measure::Angle => "deg",
        Measure::Power => "W",
        Measure::Energy => "kWh",
        Measure::Pressure => "bar",
        Measure::Time => "s",
        Measure::Conductance => "W/K",
        Measure::Conductivity | Measure::BondConductance => "W/m K",
        Measure::Film => "W/m2 K",
        Measure::LossGrowth => "W/m2 K2",
        Measure::Resistance => "m2 K/W",
        Measure::Irradiance => "W/m2",
        Measure::Irradiation => "kWh/m2",
        Measure::DailyIrradiation => "kWh/m2 day",
        Measure::VolumeByArea => "l/m2",
        Measure::SunRise => "K m2/kW",
        Measure::Density => "kg/m3",
        Measure::Mass => "kg",
        Measure::Force => "N",
        Measure::HeatCapacity => "kJ/K",
        Measure::AreaHeat => "kJ/m2 K",
        Measure::SpecificHeat => "J/kg K",
        Measure::Rate => "1/h",
        Measure::Extinction => "1/m",
        Measure::Growth => "1/K",
        Measure::Speed => "m/s",
        Measure::Share | Measure::Number => "",
    }
}

fn in_its_unit(measure: Measure, si: f64) -> f64 {
    match unit_of(measure) {
        "" => si,
        unit => in_unit(measure, si, unit).expect("every unit of the table is known to its kind"),
    }
}

fn told(words: &Words) -> String {
    words.told(Units::Metric, Setting::Plain)
}

impl From<&Finding> for FindingWire {
    fn from(finding: &Finding) -> Self {
        FindingWire {
            code: finding.code.to_owned(),
            of: finding.of.clone(),
            about: finding.about.into(),
            station: finding.station.into(),
            place: finding.place.clone(),
            kind: kind(finding.kind),
            says: told(&finding.says),
            mend: told(&finding.mend),
            figures: finding.figures.iter().map(FigureWire::from).collect(),
            remedies: finding.remedies.iter().map(RemedyWire::from).collect(),
            source: finding.source.to_owned(),
            certainty: finding.certainty.into(),
            course: finding.course.as_ref().map(CourseWire::from),
        }
    }
}

impl From<&Figure> for FigureWire {
    fn from(figure: &Figure) -> Self {
        let measure = figure.measure;
        let value = in_its_unit(measure, figure.computed_si);
        let limit = figure.limit.as_ref();
        let held = limit.map(|limit| in_its_unit(measure, limit.si));
        FigureWire {
            what: figure.what.to_owned(),
            value,
            unit: unit_of(measure).to_owned(),
            limit: held,
            bad: limit.map(|limit| limit.bad.into()),
            source: limit.map(|limit| limit.source.clone()),
            certainty: limit.map(|limit| limit.certainty.into()),
            margin: limit.zip(held).map(|(limit, held)| match limit.bad {
                Bad::Above => held - value,
                Bad::Below => value - held,
            }),
        }
    }
}

impl From<&Remedy> for RemedyWire {
    fn from(remedy: &Remedy) -> Self {
        RemedyWire {
            says: told(&remedy.says),
            edits: remedy.edits.iter().map(EditWire::from).collect(),
            tried: remedy.tried.as_ref().map(TriedWire::from),
        }
    }
}

impl From<&Edit> for EditWire {
    fn from(edit: &Edit) -> Self {
        let value = match &edit.value {
            EditValue::Text(text) => Some(EditValueWire::Text(text.clone())),
            EditValue::Number(number) => Some(EditValueWire::Number(*number)),
            EditValue::Whole(whole) => Some(EditValueWire::Whole(*whole)),
            EditValue::Remove => None,
        };
        EditWire { place: edit.place.clone(), value }
    }
}

impl From<&Tried> for TriedWire {
    fn from(tried: &Tried) -> Self {
        match tried {
            Tried::Worked { kind: then, figure, spared_kwh } => TriedWire::Worked {
                kind: then.map(kind),
                figure: figure.as_ref().map(FigureWire::from),
                spared_kwh: *spared_kwh,
            },
            Tried::Refused(says) => TriedWire::Refused { refused: says.clone() },
        }
    }
}

impl From<&Course> for CourseWire {
    fn from(course: &Course) -> Self {
        CourseWire {
            title: told(&course.title),
            first_day: course.first_day,
            step_min: course.step_min,
            lines: course
                .lines
                .iter()
                .map(|(name, values_k)| LineWire {
                    name: (*name).to_owned(),
                    values_c: values_k.iter().map(|kelvin| kelvin - ZERO_CELSIUS_K).collect(),
                })
                .collect(),
            limits: course
                .limits
                .iter()
                .map(|(name, kelvin)| LevelWire {
                    name: name.clone(),
                    value_c: kelvin - ZERO_CELSIUS_K,
                })
                .collect(),
        }
    }
}

impl From<About> for AboutWire {
    fn from(about: About) -> Self {
        match about {
            About::Boils => AboutWire::Boils,
            About::Away => AboutWire::Away,
            About::Frost => AboutWire::Frost,
            About::Bacteria => AboutWire::Bacteria,
            About::Scald => AboutWire::Scald,
            About::Poison => AboutWire::Poison,
            About::Night => AboutWire::Night,
            About::Controller => AboutWire::Controller,
            About::LetsGo => AboutWire::LetsGo,
            About::Moves => AboutWire::Moves,
            About::Ages => AboutWire::Ages,
            About::Leaks => AboutWire::Leaks,
            About::Work => AboutWire::Work,
        }
    }
}

impl From<Station> for StationWire {
    fn from(station: Station) -> Self {
        match station {
            Station::Sun => StationWire::Sun,
            Station::Panel => StationWire::Panel,
            Station::Circuit => StationWire::Circuit,
            Station::Store => StationWire::Store,
            Station::Tap => StationWire::Tap,
        }
    }
}

impl From<Certainty> for CertaintyWire {
    fn from(certainty: Certainty) -> Self {
        match certainty {
            Certainty::Seen => CertaintyWire::Seen,
            Certainty::FromMemory => CertaintyWire::FromMemory,
            Certainty::CommonPractice => CertaintyWire::CommonPractice,
            Certainty::Judgement => CertaintyWire::Judgement,
        }
    }
}

impl From<Bad> for BadWire {
    fn from(bad: Bad) -> Self {
        match bad {
            Bad::Above => BadWire::Above,
            Bad::Below => BadWire::Below,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use advice::worry::Limit;
    use design::quantity::KINDS;

    /// Given every kind of quantity, a unit that the kind knows; else a figure of it could not be written.
    #[test]
    fn every_kind_has_its_unit() {
        for &kind in KINDS {
            assert!(in_its_unit(kind, 1.0).is_finite(), "{kind:?}");
        }
    }

    /// Given 394.15 K against at most 378.15 K (121 C and 105 C by the definition of the Celsius scale), a
    /// margin of 16 K below nought; given one of 1 h against at least 30 min, 1800 s on the good side.
    #[test]
    fn margins_are_those_of_the_figures() {
        let limit = Limit::at_most(378.15, "a catalogue", Certainty::Seen);
        let hot = FigureWire::from(&Figure::against("x", Measure::Temperature, 394.15, limit));
        assert_eq!(
            (hot.value.round(), hot.limit.map(f64::round), hot.margin.map(f64::round)),
            (121.0, Some(105.0), Some(-16.0))
        );
        assert_eq!((hot.unit.as_str(), hot.bad), ("C", Some(BadWire::Above)));
        let limit = Limit::at_least(1800.0, "a rule", Certainty::CommonPractice);
        let long = FigureWire::from(&Figure::against("x", Measure::Time, 3600.0, limit));
        assert_eq!((long.margin, long.unit.as_str()), (Some(1800.0), "s"));
    }
}
