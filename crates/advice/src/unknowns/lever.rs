//! What an unknown moves: values of the design, the household's water.

use std::borrow::Cow;

use design::quantity::{Kind, Units, exact, parse};
use design::{Edit, EditValue, parameters};
use physics::climate::MONTH_STARTS_DAY;
use physics::tap::Mains;
use physics::tap::mains::{AirYear, mains_k};
use physics::{Build, Climate};
use year::YearError;

use crate::{AdviceError, Subject};

/// What an unknown moves.
#[derive(Clone, Debug, PartialEq)]
pub enum Lever {
    /// A value of the design: it becomes the unknown's figure, in SI.
    Value(Spot),
    /// Values that are all multiplied by the figure.
    Factor(Vec<(Spot, f64)>),
    /// Two values that share a whole: the first becomes the figure, the second what it leaves.
    Shared {
        /// What becomes the figure.
        one: Spot,
        /// What gets the rest.
        other: Spot,
        /// The whole.
        whole: f64,
    },
    /// A word of the design: it becomes that of the figure's place in the list.
    Word {
        /// Where it stands.
        place: String,
        /// What may stand there.
        words: Vec<String>,
    },
    /// The wind of a year made from months, multiplied by the figure.
    Wind,
    /// All the household draws, multiplied by the figure.
    Drawn,
    /// The cold water, warmer by the figure \[K\].
    Cold,
}

/// A place with what sort of value stands there.
#[derive(Clone, Debug, PartialEq)]
pub struct Spot {
    /// The place.
    pub place: String,
    /// What it measures.
    pub kind: Kind,
}

/// What differs from the design as it stands.
#[derive(Clone, Debug, PartialEq)]
pub struct Changes {
    /// Values of the design file.
    pub edits: Vec<Edit>,
    /// The household draws so many times as much.
    pub drawn: f64,
    /// The wind blows so many times as much.
    pub wind: f64,
    /// The cold water is so much warmer \[K\].
    pub cold_k: f64,
}

impl Default for Changes {
    fn default() -> Self {
        Changes { edits: Vec::new(), drawn: 1.0, wind: 1.0, cold_k: 0.0 }
    }
}

impl Changes {
    /// A climate as far as it differs; the same one where it does not.
    pub(crate) fn weather<'a>(&self, climate: &'a Climate) -> Cow<'a, Climate> {
        if self.wind == 1.0 {
            return Cow::Borrowed(climate);
        }
        let mut windy = climate.clone();
        windy.wind_m_s.iter_mut().for_each(|wind_m_s| *wind_m_s *= self.wind);
        Cow::Owned(windy)
    }
}

impl Lever {
    /// Adds the move to a figure to what differs already.
    pub fn put(&self, figure: f64, changes: &mut Changes) {
        match self {
            Lever::Value(spot) => changes.edits.push(spot.becomes(figure)),
            Lever::Factor(all) => {
                changes.edits.extend(all.iter().map(|(spot, now)| spot.becomes(now * figure)));
            }
            Lever::Shared { one, other, whole } => {
                changes.edits.extend([one.becomes(figure), other.becomes(whole - figure)]);
            }
            Lever::Word { place, words } => {
                if let Some(word) = words.get(figure as usize) {
                    let value = EditValue::Text(word.clone());
                    changes.edits.push(Edit { place: place.clone(), value });
                }
            }
            Lever::Wind => changes.wind *= figure.max(0.0),
            Lever::Drawn => changes.drawn *= figure.max(0.05),
            Lever::Cold => changes.cold_k += figure,
        }
    }
}

impl Lever {
    /// Least and greatest figure that the design file admits; `None` where it knows none.
    pub(super) fn bounds(&self) -> Option<(f64, f64)> {
        match self {
            Lever::Value(spot) | Lever::Shared { one: spot, .. } => spot.bounds(),
            _ => None,
        }
    }
}

impl Spot {
    fn bounds(&self) -> Option<(f64, f64)> {
        let bound = |text: &str| parse(text, self.kind).ok().map(|read| read.si);
        let (low, high) = parameters::parameter_at(&self.place)?.range?;
        bound(low).zip(bound(high))
    }

    /// The edit that puts a figure there, held to what the design file admits.
    fn becomes(&self, figure: f64) -> Edit {
        let held = match self.bounds() {
            Some((low, high)) => figure.clamp(low, high),
            None => figure,
        };
        let text = exact(self.kind, held, Units::Metric);
        Edit { place: self.place.clone(), value: EditValue::Text(text) }
    }
}

impl Subject {
    /// The build with some of its unknowns elsewhere than at their middles.
    ///
    /// # Errors
    /// As [`Subject::changed`].
    pub fn with(&self, changes: &Changes) -> Result<Build, AdviceError> {
        let mut build = if changes.edits.is_empty() {
            self.build.clone()
        } else {
            self.changed(&changes.edits)?
        };
        if changes.drawn != 1.0 {
            build.tap.draws.iter_mut().for_each(|draw| draw.volume_m3 *= changes.drawn);
        }
        if changes.cold_k != 0.0 {
            build.tap.mains = self.warmer_mains(&build, changes.cold_k)?;
        }
        Ok(build)
    }

    /// The build's cold water, warmer by so much; what follows the air does so as in the design's weather.
    fn warmer_mains(&self, build: &Build, warmer_k: f64) -> Result<Mains, AdviceError> {
        Ok(match build.tap.mains {
            Mains::Monthly(months) => Mains::Monthly(months.map(|month_k| month_k + warmer_k)),
            Mains::Sinusoid { mean_k, swing_k, coldest_day } => {
                Mains::Sinusoid { mean_k: mean_k + warmer_k, swing_k, coldest_day }
            }
            Mains::FromClimate => {
                let air = AirYear::of(&self.climate);
                let mut months = [0.0; 12];
                for (month, mean_k) in months.iter_mut().enumerate() {
                    let middle =
                        0.5 * (MONTH_STARTS_DAY[month] + MONTH_STARTS_DAY[month + 1]) as f64;
                    *mean_k = mains_k(&build.tap.mains, middle, &air).map_err(|error| {
                        AdviceError::Year(YearError::Weather(error.to_string()))
                    })? + warmer_k;
                }
                Mains::Monthly(months)
            }
        })
    }
}
