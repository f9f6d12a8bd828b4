//! Other years of the same place.

use physics::Climate;
use physics::sun::made::{Departure, Months, made_year, other_year, years_of};

use crate::{AdviceError, Subject};

/// Years that stand for what a place's weather does from one to the next.
#[derive(Clone, Debug)]
pub struct WeatherYears {
    departures: Vec<Departure>,
    seed: u32,
}

impl WeatherYears {
    /// So many years of a design's place.
    ///
    /// `seed`: which are drawn; the same seed, count and place give the same years, whatever the build.
    ///
    /// # Errors
    /// A place that is not on the globe.
    pub fn of(subject: &Subject, count: u32, seed: u32) -> Result<WeatherYears, AdviceError> {
        let months = match subject.monthly() {
            Some(made) => made.months.clone(),
            None => Months::of(&subject.climate),
        };
        Ok(WeatherYears { departures: years_of(&months, count, seed)?, seed })
    }

    /// How many.
    pub fn len(&self) -> usize {
        self.departures.len()
    }

    /// True where there is none.
    pub fn is_empty(&self) -> bool {
        self.departures.is_empty()
    }

    /// The weather of one of them. A file's hours are bent; a made year is made anew of the changed months,
    /// with days of its own.
    ///
    /// # Errors
    /// Months of which no year can be made.
    pub fn climate(&self, subject: &Subject, year: usize) -> Result<Climate, AdviceError> {
        let departure = &self.departures[year];
        match subject.monthly() {
            Some(made) => {
                let seed = made
                    .seed
                    .wrapping_add(self.seed.wrapping_mul(977))
                    .wrapping_add(1 + year as u32);
                Ok(made_year(&made.months.departed(departure), seed)?)
            }
            None => Ok(other_year(&subject.climate, departure)?),
        }
    }
}
