//! What is not known of a build, how far it may be off, and what would tell.

mod gather;
mod lever;
mod measures;
mod table;

pub use gather::unknowns;
pub use lever::{Changes, Lever};

/// What makes a band wide, each kind apart: those of weather change from year to year, the others stay
/// for as long as the build does.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Maker {
    /// Brighter and duller years.
    Weather,
    /// What the materials are: the catalogue's spread.
    Materials,
    /// How well it is made: bond, joints, lagging.
    Workmanship,
    /// Which published relation for wind, sky and films is right.
    Relations,
    /// How falling cold mixes the cistern.
    Mixing,
    /// What the household draws, how hot, from how cold.
    Draws,
    /// What was answered "unknown", and what was not answered.
    Unsaid,
}

impl Maker {
    /// Every one.
    pub const ALL: [Maker; 7] = [
        Maker::Weather,
        Maker::Materials,
        Maker::Workmanship,
        Maker::Relations,
        Maker::Mixing,
        Maker::Draws,
        Maker::Unsaid,
    ];

    /// Its name.
    pub fn words(self) -> &'static str {
        match self {
            Maker::Weather => "weather from year to year",
            Maker::Materials => "what the materials are",
            Maker::Workmanship => "workmanship",
            Maker::Relations => "wind, sky and film relations",
            Maker::Mixing => "mixing in the cistern",
            Maker::Draws => "what is drawn",
            Maker::Unsaid => "what is unknown or was not said",
        }
    }
}

/// One thing that is not known.
#[derive(Clone, Debug, PartialEq)]
pub struct Unknown {
    /// Its place in the design file, or what it is called where it has none. Two builds share an unknown
    /// that has the same place.
    pub place: String,
    /// What kind of thing it is.
    pub maker: Maker,
    /// What would tell; `None` where a builder cannot measure it.
    pub measure: Option<&'static str>,
    /// Who says how far it may be off.
    pub source: String,
    /// What it may be.
    pub reach: Reach,
    /// What it moves.
    pub lever: Lever,
}

/// What an unknown may be.
#[derive(Clone, Debug, PartialEq)]
pub enum Reach {
    /// Any figure about a middle; one case in ten lies below `low`, one above `high`.
    Figure {
        /// One in ten has less.
        low: f64,
        /// What is reckoned with.
        middle: f64,
        /// One in ten has more.
        high: f64,
    },
    /// One of some words, by their chances.
    Words(Vec<Chance>),
}

/// One word of several, by its place in the lever's list.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Chance {
    /// Place in [`Lever::Word`].
    pub word: usize,
    /// How likely, 0 to 1.
    pub chance: f64,
}

/// Standard deviations from the middle that one case in ten passes.
pub const TENTH: f64 = 1.281_551_6;

impl Unknown {
    /// How far from its middle a figure lies where a share of all cases has less, in distances to the end
    /// that one case in ten passes: -1 at a tenth, 1 at nine tenths, and no farther than the design file
    /// admits. Words have no distance.
    pub(crate) fn tenths(&self, share: f64) -> f64 {
        let z = physics::chance::normal_quantile(share) / TENTH;
        let (Reach::Figure { low, middle, high }, Some((least, most))) =
            (&self.reach, self.lever.bounds())
        else {
            return z;
        };
        let farthest = |end: f64, bound: f64| {
            if end == *middle { f64::INFINITY } else { (bound - middle) / (end - middle) }
        };
        z.clamp(-farthest(*low, least).max(0.0), farthest(*high, most).max(0.0))
    }

    /// What it is where a share of all cases has less.
    ///
    /// `share`: above 0 and below 1. Figures follow a normal distribution with two half widths.
    pub fn at(&self, share: f64) -> f64 {
        match &self.reach {
            Reach::Figure { low, middle, high } => {
                let z = self.tenths(share);
                middle + z * if z < 0.0 { middle - low } else { high - middle }
            }
            Reach::Words(words) => {
                let mut below = 0.0;
                for word in words {
                    below += word.chance;
                    if share < below {
                        return word.word as f64;
                    }
                }
                words.last().map_or(0.0, |word| word.word as f64)
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Given a figure of 2 that one in ten undercuts at 1 and one in ten passes at 5: so at a tenth, a
    /// half and nine tenths, by its definition.
    #[test]
    fn tenths_lie_where_they_are_said_to() {
        let unknown = Unknown {
            place: "panel.x".to_owned(),
            maker: Maker::Materials,
            measure: None,
            source: String::new(),
            reach: Reach::Figure { low: 1.0, middle: 2.0, high: 5.0 },
            lever: Lever::Drawn,
        };
        for (share, want) in [(0.1, 1.0), (0.5, 2.0), (0.9, 5.0)] {
            assert!((unknown.at(share) - want).abs() < 1e-5, "{share}: {}", unknown.at(share));
        }
    }

    /// Given entrainment, which a design file admits from 0 up and one in ten has at 0: no case lies below 0,
    /// however rare, and a tenth of the upper half's cases above 5.
    #[test]
    fn a_figure_stays_in_its_range() {
        let place = "store.entrainment".to_owned();
        let unknown = Unknown {
            place: place.clone(),
            maker: Maker::Mixing,
            measure: None,
            source: String::new(),
            reach: Reach::Figure { low: 0.0, middle: 1.0, high: 5.0 },
            lever: Lever::Value(lever::Spot { place, kind: design::quantity::Kind::Number }),
        };
        for share in [1e-6, 0.01, 0.1] {
            assert!(unknown.at(share).abs() < 1e-5, "{share}: {}", unknown.at(share));
        }
        assert!((unknown.at(0.9) - 5.0).abs() < 1e-4);
    }
}
