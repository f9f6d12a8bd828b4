//! Where each value of a build comes from: no default is used in silence.

use std::collections::BTreeMap;

use crate::quantity::Units;
use crate::value::in_units;

/// Where one value comes from.
#[derive(Clone, Debug, PartialEq)]
pub enum Origin {
    /// The design file says so.
    Written,
    /// The file says nothing.
    Assumed {
        /// Where the figure comes from.
        source: String,
        /// How far that is to be trusted.
        certainty: String,
    },
    /// The file says a word that stands for a figure.
    Said {
        /// The word.
        word: String,
        /// Where the figure comes from.
        source: String,
        /// How far that is to be trusted.
        certainty: String,
    },
    /// The catalogue's value of a material.
    Catalogue {
        /// The material.
        material: String,
        /// Where the catalogue has it from.
        source: String,
        /// How far that is to be trusted.
        certainty: String,
        /// Least and greatest value met, in SI.
        spread: (f64, f64),
    },
    /// The builder does not know.
    Unknown {
        /// What is reckoned with, as written.
        middle: String,
        /// One builder in ten has less.
        low: String,
        /// One builder in ten has more.
        high: String,
        /// Where these come from.
        source: String,
    },
}

impl Origin {
    /// The origin in one sentence, figures as they are written.
    pub fn sentence(&self) -> String {
        self.sentence_in("", Units::Metric)
    }

    /// The same with the bounds of an unknown in the reader's units; `place` is the value's own. What a
    /// source says stays as it says it.
    pub fn sentence_in(&self, place: &str, units: Units) -> String {
        match self {
            Origin::Written => "written in the design file".to_owned(),
            Origin::Assumed { source, certainty } => format!("assumed: {source} ({certainty})"),
            Origin::Said { word, source, certainty } => {
                format!("assumed: what \"{word}\" stands for: {source} ({certainty})")
            }
            Origin::Catalogue { material, source, certainty, .. } => {
                format!("catalogue, {material}: {source} ({certainty})")
            }
            Origin::Unknown { middle, low, high, source } => {
                let [middle, low, high] =
                    [middle, low, high].map(|text| in_units(place, text, units));
                format!("unknown: reckoned with {middle}, from {low} to {high} ({source})")
            }
        }
    }
}

/// One value with its origin.
#[derive(Clone, Debug, PartialEq)]
pub struct Traced {
    /// The value as it is shown, in metric units.
    pub value: String,
    /// Where it comes from.
    pub origin: Origin,
}

impl Traced {
    /// The value in the reader's units; `place` is its own.
    pub fn shown(&self, place: &str, units: Units) -> String {
        in_units(place, &self.value, units)
    }
}

/// Every value of a build and where it comes from, by its place in the design file: station by
/// station in the order of the heat, then control.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Origins {
    places: BTreeMap<(usize, String), Traced>,
}

/// The tables of a design file in the order of the heat.
const STATIONS: [&str; 6] = ["sun", "panel", "circuit", "store", "tap", "control"];

/// Where a place stands in the order of the heat; what belongs to no station comes last.
fn key(place: &str) -> (usize, String) {
    let table = place.split(['.', '[']).next().unwrap_or_default();
    let rank = STATIONS.iter().position(|&station| station == table);
    (rank.unwrap_or(STATIONS.len()), place.to_owned())
}

/// One value that the design file does not state.
#[derive(Clone, Debug, PartialEq)]
pub struct Assumed {
    /// Its place, for instance `panel.tubes.roughness`.
    pub place: String,
    /// The value reckoned with.
    pub value: String,
    /// Its origin in a sentence.
    pub origin: String,
}

impl Origins {
    /// Notes where a value comes from.
    pub fn note(&mut self, place: &str, value: String, origin: Origin) {
        self.places.insert(key(place), Traced { value, origin });
    }

    /// What is known of one place.
    pub fn at(&self, place: &str) -> Option<&Traced> {
        self.places.get(&key(place))
    }

    /// Every place with its value and origin, in the order of the heat.
    pub fn iter(&self) -> impl Iterator<Item = (&str, &Traced)> {
        self.places.iter().map(|((_, place), traced)| (place.as_str(), traced))
    }

    /// What the design file does not state itself.
    pub fn assumed(&self) -> Vec<Assumed> {
        self.iter()
            .filter(|(_, traced)| traced.origin != Origin::Written)
            .map(|(place, traced)| Assumed {
                place: place.to_owned(),
                value: traced.value.clone(),
                origin: traced.origin.sentence(),
            })
            .collect()
    }
}
