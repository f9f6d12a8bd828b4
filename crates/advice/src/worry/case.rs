//! A build looked at for what can go wrong.

use physics::panel::Panel;
use year::{Channel, Plant, Recorder};

use crate::{AdviceError, OneYear, Subject};

/// What of a year by the minute the looks ask for.
pub const CHANNELS: [Channel; 5] =
    [Channel::Plate, Channel::StoreTop, Channel::StoreMean, Channel::Draw, Channel::DrawHeat];

/// A build with its year.
pub struct Case<'a> {
    /// The build.
    pub subject: &'a Subject,
    /// Its year.
    pub year: &'a OneYear,
    /// That year's [`CHANNELS`].
    pub minutes: &'a Recorder,
    /// The build compiled.
    pub plant: Plant,
}

impl<'a> Case<'a> {
    /// A build with its year as it stands.
    ///
    /// # Errors
    /// A build that cannot be compiled.
    pub fn of(
        subject: &'a Subject,
        year: &'a OneYear,
        minutes: &'a Recorder,
    ) -> Result<Case<'a>, AdviceError> {
        Ok(Case { subject, year, minutes, plant: Plant::compile(&year.build)? })
    }

    /// The build's first panel; the others are like it.
    pub fn panel(&self) -> Option<&Panel> {
        self.year.build.panel.panels.first()
    }

    /// Height of the place above the sea \[m\].
    pub fn altitude_m(&self) -> f64 {
        self.year.build.sun.place.elevation_m
    }
}
