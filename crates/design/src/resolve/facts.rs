//! What a design says that changes nothing in the year, and that worries ask for.

use crate::values::Values;

/// Answers of the builder; each `None` where the file does not say.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Facts {
    /// What the circuit does in winter.
    pub winter: Winter,
    /// Where the antifreeze's share is written; `None` for water.
    pub share_place: Option<&'static str>,
    /// What the cistern is made of, by the catalogue's name.
    pub cistern: Option<String>,
    /// How far the cistern's board reaches beyond its base \[m\].
    pub board_beyond_m: Option<f64>,
    /// The valve that mixes cold into hot water before the taps.
    pub mixing_valve: Option<MixingValve>,
    /// What that valve is set to \[K\].
    pub mixed_to_k: Option<f64>,
    /// What of the cylinder downstream gets hot.
    pub heats: Option<Heats>,
    /// Fluid in the header tank below its cold level \[m3\].
    pub header_holds_m3: Option<f64>,
}

/// What the circuit does in winter.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Winter {
    /// Nobody says.
    #[default]
    Unsaid,
    /// It stays filled.
    Filled,
    /// It is drained before frost.
    Drained,
}

/// The valve that mixes cold into hot water before the taps.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum MixingValve {
    /// None.
    None,
    /// Made for 0.1 to 1 bar.
    LowPressure,
    /// Made for 1 to 5 bar.
    HighPressure,
}

/// What of the cylinder downstream gets hot.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Heats {
    /// All of it, every day.
    WholeDaily,
    /// Its top.
    TopOnly,
    /// By a timer, whatever day it leaves out.
    ByTimer,
}

/// The answers of a design file.
pub(super) fn facts(values: &Values) -> Facts {
    Facts {
        winter: winter(values),
        share_place: ["circuit.share-by-mass", "circuit.share-by-volume"]
            .into_iter()
            .find(|place| values.si(place).is_some()),
        cistern: values.word("store.material").map(str::to_owned),
        board_beyond_m: values.si("store.board-beyond"),
        mixing_valve: match values.word("tap.mixing-valve") {
            Some("none") => Some(MixingValve::None),
            Some("low-pressure") => Some(MixingValve::LowPressure),
            Some(_) => Some(MixingValve::HighPressure),
            None => None,
        },
        mixed_to_k: values.si("tap.mixed-to"),
        heats: match values.word("tap.heater.heats") {
            Some("whole-daily") => Some(Heats::WholeDaily),
            Some("top-only") => Some(Heats::TopOnly),
            Some(_) => Some(Heats::ByTimer),
            None => None,
        },
        header_holds_m3: values.si("circuit.filling.holds"),
    }
}

fn winter(values: &Values) -> Winter {
    match values.word("circuit.winter") {
        Some("drained") => Winter::Drained,
        Some(_) => Winter::Filled,
        None => Winter::Unsaid,
    }
}
