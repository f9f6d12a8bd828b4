//! Values with their units, as people write them: `0.7 mm`, `15 l/min`, `5/8"`, `40 %`.
//!
//! Conversion to SI happens here and nowhere else. A temperature and a difference of
//! temperatures are different kinds: `20 C` says how warm, `8 K` says how much warmer.

mod number;
mod show;
mod units;

pub use show::{Units, exact, in_unit, show, spoken};
use units::{Unit, units_of};

/// What sort of thing a value measures.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Kind {
    /// Length \[m\].
    Length,
    /// Area \[m2\].
    Area,
    /// Volume \[m3\].
    Volume,
    /// Volume a second \[m3/s\].
    Flow,
    /// Mass a second \[kg/s\].
    MassFlow,
    /// Head of a pump, in metres of the fluid pumped \[m\].
    Head,
    /// How warm something is \[K, absolute\].
    Temperature,
    /// How much warmer one thing is than another \[K\].
    Difference,
    /// Plane angle \[rad\].
    Angle,
    /// Power \[W\].
    Power,
    /// Energy \[J\].
    Energy,
    /// Pressure as a gauge shows it, over an atmosphere of 101325 Pa \[Pa\].
    Pressure,
    /// Duration \[s\].
    Time,
    /// Heat flow for a difference \[W/K\].
    Conductance,
    /// Conductivity of a material \[W/(m K)\].
    Conductivity,
    /// How well a metre of a bond passes heat on \[W/(m K)\].
    BondConductance,
    /// Heat flow for a difference and an area \[W/(m2 K)\].
    Film,
    /// Growth of such a flow with the difference \[W/(m2 K2)\].
    LossGrowth,
    /// Difference that a heat flow through an area takes \[m2 K/W\].
    Resistance,
    /// Power on an area \[W/m2\].
    Irradiance,
    /// Energy on an area \[J/m2\].
    Irradiation,
    /// Energy on an area in a mean day, as a mean power \[W/m2\].
    DailyIrradiation,
    /// Volume for an area \[m3/m2\].
    VolumeByArea,
    /// Rise of temperature by irradiance \[K m2/W\].
    SunRise,
    /// Mass in a volume \[kg/m3\].
    Density,
    /// Mass \[kg\].
    Mass,
    /// Force \[N\].
    Force,
    /// Heat that warms a thing by a kelvin \[J/K\].
    HeatCapacity,
    /// Heat that warms a square metre by a kelvin \[J/(m2 K)\].
    AreaHeat,
    /// Heat that warms a kilogram by a kelvin \[J/(kg K)\].
    SpecificHeat,
    /// How often in a second, also changes of air \[1/s\].
    Rate,
    /// How fast light is lost on its way through a pane \[1/m\].
    Extinction,
    /// Relative growth with temperature \[1/K\].
    Growth,
    /// Speed \[m/s\].
    Speed,
    /// A part of a whole, 0 to 1 or in percent.
    Share,
    /// A number without dimension.
    Number,
}

/// Every kind, in the order of [`Kind`].
pub const KINDS: &[Kind] = &[
    Kind::Length,
    Kind::Area,
    Kind::Volume,
    Kind::Flow,
    Kind::MassFlow,
    Kind::Head,
    Kind::Temperature,
    Kind::Difference,
    Kind::Angle,
    Kind::Power,
    Kind::Energy,
    Kind::Pressure,
    Kind::Time,
    Kind::Conductance,
    Kind::Conductivity,
    Kind::BondConductance,
    Kind::Film,
    Kind::LossGrowth,
    Kind::Resistance,
    Kind::Irradiance,
    Kind::Irradiation,
    Kind::DailyIrradiation,
    Kind::VolumeByArea,
    Kind::SunRise,
    Kind::Density,
    Kind::Mass,
    Kind::Force,
    Kind::HeatCapacity,
    Kind::AreaHeat,
    Kind::SpecificHeat,
    Kind::Rate,
    Kind::Extinction,
    Kind::Growth,
    Kind::Speed,
    Kind::Share,
    Kind::Number,
];

impl Kind {
    /// The kind in plain words, with its article.
    pub fn words(self) -> &'static str {
        match self {
            Kind::Length => "a length",
            Kind::Area => "an area",
            Kind::Volume => "a volume",
            Kind::Flow => "a flow",
            Kind::MassFlow => "a mass flow",
            Kind::Head => "a head",
            Kind::Temperature => "a temperature",
            Kind::Difference => "a temperature difference",
            Kind::Angle => "an angle",
            Kind::Power => "a power",
            Kind::Energy => "an energy",
            Kind::Pressure => "a pressure",
            Kind::Time => "a time",
            Kind::Conductance => "a conductance",
            Kind::Conductivity => "a conductivity",
            Kind::BondConductance => "a bond's conductance per metre",
            Kind::Film => "a film coefficient",
            Kind::LossGrowth => "a growth of a loss",
            Kind::Resistance => "a thermal resistance",
            Kind::Irradiance => "an irradiance",
            Kind::Irradiation => "an irradiation",
            Kind::DailyIrradiation => "an irradiation a day",
            Kind::VolumeByArea => "a volume for an area",
            Kind::SunRise => "a rise by the sun",
            Kind::Density => "a density",
            Kind::Mass => "a mass",
            Kind::Force => "a force",
            Kind::HeatCapacity => "a heat capacity",
            Kind::AreaHeat => "a heat capacity of an area",
            Kind::SpecificHeat => "a specific heat",
            Kind::Rate => "a rate",
            Kind::Extinction => "an extinction",
            Kind::Growth => "a growth with temperature",
            Kind::Speed => "a speed",
            Kind::Share => "a share",
            Kind::Number => "a plain number",
        }
    }

    /// The units that fit, in words: `mm, cm, m, in, ft`.
    pub fn fitting(self) -> String {
        match self {
            Kind::Share => "a share between 0 and 1, or one in %".to_owned(),
            Kind::Number => "a bare number".to_owned(),
            _ => {
                let names: Vec<&str> =
                    units_of(self).filter(|unit| unit.offered).map(|unit| unit.names[0]).collect();
                names.join(", ")
            }
        }
    }

    /// Every way a unit of this kind may be spelled.
    pub fn spellings(self) -> Vec<&'static str> {
        units_of(self).flat_map(|unit| unit.names.iter().copied()).collect()
    }

    /// True where the number stands bare.
    pub fn stands_bare(self) -> bool {
        matches!(self, Kind::Share | Kind::Number)
    }
}

/// A value of one kind, in SI.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Quantity {
    /// What it measures.
    pub kind: Kind,
    /// How much, in the unit that [`Kind`] names.
    pub si: f64,
}

/// Why a text is not the quantity asked for.
#[derive(Clone, Debug, PartialEq)]
pub enum QuantityFault {
    /// Nothing is written.
    Empty,
    /// No number stands at the front.
    NoNumber,
    /// A comma that may part thousands or decimals.
    AmbiguousComma {
        /// Read as thousands.
        thousands: String,
        /// Read as decimals.
        decimals: String,
    },
    /// A number without a unit.
    NoUnit,
    /// A unit that differs from country to country.
    AmbiguousUnit {
        /// The unit as written.
        unit: String,
        /// Which spellings are clear.
        choices: &'static [&'static str],
    },
    /// A unit of another kind.
    WrongKind {
        /// The unit as written.
        unit: String,
        /// What it measures.
        is: Kind,
    },
    /// A word that is no unit known here.
    UnknownUnit {
        /// The word as written.
        unit: String,
    },
    /// A number too large to be kept.
    NotFinite,
}

impl QuantityFault {
    /// Short stable name of the fault.
    pub fn code(&self) -> &'static str {
        match self {
            QuantityFault::Empty | QuantityFault::NoNumber => "not-a-quantity",
            QuantityFault::AmbiguousComma { .. } => "ambiguous-comma",
            QuantityFault::NoUnit => "no-unit",
            QuantityFault::AmbiguousUnit { .. } => "ambiguous-unit",
            QuantityFault::WrongKind { .. } => "wrong-unit",
            QuantityFault::UnknownUnit { .. } => "unknown-unit",
            QuantityFault::NotFinite => "not-finite",
        }
    }

    /// What is wrong, in one clause that may follow the value.
    pub fn says(&self, wanted: Kind) -> String {
        let want = wanted.words();
        match self {
            QuantityFault::Empty => format!("nothing is written where {want} belongs"),
            QuantityFault::NoNumber => {
                format!("this does not begin with a number; {want} belongs here")
            }
            QuantityFault::AmbiguousComma { thousands, decimals } => {
                format!("the comma may mean {thousands} or {decimals}")
            }
            QuantityFault::NoUnit => format!("a bare number where {want} with its unit belongs"),
            QuantityFault::AmbiguousUnit { unit, choices } => {
                format!("`{unit}` means different things: {}", choices.join(" and "))
            }
            QuantityFault::WrongKind { unit, is } => {
                format!("`{unit}` measures {}, and {want} belongs here", is.words())
            }
            QuantityFault::UnknownUnit { unit } => format!("`{unit}` is no unit known here"),
            QuantityFault::NotFinite => "the number is too large to be kept".to_owned(),
        }
    }

    /// How to mend it.
    pub fn hint(&self, wanted: Kind) -> String {
        let fitting = wanted.fitting();
        match self {
            QuantityFault::AmbiguousComma { thousands, decimals } => {
                format!("write `{thousands}` or `{decimals}`")
            }
            QuantityFault::AmbiguousUnit { choices, .. } => {
                format!("write `{}`", choices.join("` or `"))
            }
            QuantityFault::WrongKind { is: Kind::Temperature, .. }
                if wanted == Kind::Difference =>
            {
                "a difference is written in K, for instance `8 K`; `C` and `F` say how warm"
                    .to_owned()
            }
            QuantityFault::WrongKind { is: Kind::Difference, .. }
                if wanted == Kind::Temperature =>
            {
                "how warm is written in C, F or `K abs`; a bare `K` is a difference".to_owned()
            }
            _ if wanted.stands_bare() => format!("write {fitting}"),
            _ => format!("units that fit: {fitting}"),
        }
    }
}

/// Reads a quantity of one kind, for instance `"3' 6\""` for a length.
///
/// Spaces, `°`, `²`, `³` and a decimal comma are understood. A comma before exactly three digits
/// is refused, since it may part thousands.
///
/// # Errors
///
/// A [`QuantityFault`] that says what was found; ask it for a sentence and a hint.
///
/// # Example
/// ```
/// use design::quantity::{Kind, parse};
/// assert_eq!(parse("1/2 in", Kind::Length).map(|q| q.si), Ok(0.0127));
/// assert!(parse("0.7 mm", Kind::Area).is_err());
/// ```
pub fn parse(text: &str, kind: Kind) -> Result<Quantity, QuantityFault> {
    let text = tidy(text);
    if text.is_empty() {
        return Err(QuantityFault::Empty);
    }
    if let Some(si) = feet_and_inches(&text, kind) {
        return finite(kind, si?);
    }
    let (number, rest) = number::leading(&text)?;
    let unit = rest.trim();
    if unit.is_empty() {
        return if kind.stands_bare() { finite(kind, number) } else { Err(QuantityFault::NoUnit) };
    }
    if let Some(choices) = units::ambiguous(unit, kind) {
        return Err(QuantityFault::AmbiguousUnit { unit: unit.to_owned(), choices });
    }
    match units::find(unit, kind) {
        Some(found) => finite(kind, to_si(number, found)),
        None => Err(match units::kind_of(unit) {
            Some(is) => QuantityFault::WrongKind { unit: unit.to_owned(), is },
            None => QuantityFault::UnknownUnit { unit: unit.to_owned() },
        }),
    }
}

fn finite(kind: Kind, si: f64) -> Result<Quantity, QuantityFault> {
    if si.is_finite() { Ok(Quantity { kind, si }) } else { Err(QuantityFault::NotFinite) }
}

fn to_si(number: f64, unit: &Unit) -> f64 {
    number * unit.factor + unit.zero
}

/// `3' 6"` and `3 ft 6 in`: feet, then inches. `None` where the text is not of that shape.
fn feet_and_inches(text: &str, kind: Kind) -> Option<Result<f64, QuantityFault>> {
    if !matches!(kind, Kind::Length | Kind::Head) {
        return None;
    }
    let (feet, rest) = number::leading(text).ok()?;
    let rest = rest.trim_start();
    let after = rest.strip_prefix('\'').or_else(|| rest.strip_prefix("ft "))?.trim();
    if after.is_empty() {
        return None;
    }
    let (inches, unit) = number::leading(after).ok()?;
    if !matches!(unit.trim(), "\"" | "in" | "inch" | "inches") {
        return Some(Err(QuantityFault::UnknownUnit { unit: rest.to_owned() }));
    }
    let sign = if feet < 0.0 || text.starts_with('-') { -1.0 } else { 1.0 };
    Some(Ok(sign * (feet.abs() * 0.3048 + inches * 0.0254)))
}

/// The same text with one spelling for signs that have several.
fn tidy(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for sign in text.trim().chars() {
        match sign {
            '\u{b0}' => out.push_str("deg "),
            '\u{b2}' => out.push('2'),
            '\u{b3}' => out.push('3'),
            '\u{b5}' | '\u{3bc}' => out.push('u'),
            '\u{2212}' => out.push('-'),
            '\u{2033}' | '\u{201d}' | '\u{201c}' => out.push('"'),
            '\u{2032}' | '\u{2019}' => out.push('\''),
            '\u{bd}' => out.push_str(" 1/2"),
            '\u{bc}' => out.push_str(" 1/4"),
            '\u{be}' => out.push_str(" 3/4"),
            '\u{b7}' | '\u{22c5}' | '*' | '(' | ')' | '\u{a0}' | '\u{202f}' => out.push(' '),
            '^' => {}
            other => out.push(other),
        }
    }
    let mut single = String::with_capacity(out.len());
    for sign in out.trim().chars() {
        if !(sign == ' ' && single.ends_with([' ', '/'])) {
            if sign == '/' && single.ends_with(' ') {
                single.pop();
            }
            single.push(sign);
        }
    }
    single.trim_end().to_owned()
}

#[cfg(test)]
mod tests;
