//! A build looked at for what can go wrong.

use physics::ZERO_CELSIUS_K;
use physics::panel::Panel;
use year::{Channel, Days, Plant, Recorder, Upset, march_spell};

use super::finding::{Course, Remedy};
use super::weather::{Spell, minutes};
use super::words::Words;
use crate::{AdviceError, OneYear, Subject};
use design::{Edit, EditValue};

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
    /// Whether it is looked at in full, or a remedy is tried on it.
    pub depth: Depth,
}

/// How far a build is looked at.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Depth {
    /// All that is told.
    Full,
    /// What decides the kind, and its first figure.
    Deciding,
}

impl<'a> Case<'a> {
    /// A build with its year as it stands.
    pub fn of(subject: &'a Subject, year: &'a OneYear, minutes: &'a Recorder) -> Case<'a> {
        Case { subject, year, minutes, depth: Depth::Full }
    }

    /// The same, to try a remedy on.
    pub fn deciding(self) -> Case<'a> {
        Case { depth: Depth::Deciding, ..self }
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

/// A spell marched, with some channels by the minute.
pub struct Marched {
    /// What each day brought, and what happened.
    pub days: Days,
    /// Those channels.
    recorder: Recorder,
    /// The spell's minutes.
    minutes: std::ops::Range<usize>,
}

impl Marched {
    /// Marches a plant through a spell.
    ///
    /// # Errors
    /// A spell that cannot be marched.
    pub fn of(
        plant: &Plant,
        spell: &Spell,
        upset: &Upset,
        channels: &[Channel],
    ) -> Result<Marched, AdviceError> {
        let mut recorder = Recorder::of(channels);
        let days = march_spell(plant, &spell.forcing, spell.days.clone(), upset, &mut recorder)?;
        Ok(Marched { days, recorder, minutes: minutes(&spell.days) })
    }

    /// A channel through the spell, minute by minute; empty where it was not asked for.
    pub fn series(&self, channel: Channel) -> &[f32] {
        self.recorder.series(channel).map_or(&[], |series| &series[self.minutes.clone()])
    }

    /// The most of a channel.
    pub fn most(&self, channel: Channel) -> f64 {
        self.series(channel).iter().copied().fold(f32::MIN, f32::max).into()
    }

    /// The least of a channel.
    pub fn least(&self, channel: Channel) -> f64 {
        self.series(channel).iter().copied().fold(f32::MAX, f32::min).into()
    }

    /// A channel every so many minutes.
    pub fn every(&self, channel: Channel, step_min: usize) -> Vec<f64> {
        self.series(channel).iter().step_by(step_min).map(|&value| f64::from(value)).collect()
    }
}

/// From one value of a picture to the next \[min\].
pub const COURSE_STEP_MIN: usize = 10;

/// A picture of a spell, with so many minutes from one value to the next.
pub fn course(
    (spell, step_min): (&Spell, usize),
    title: Words,
    lines: Vec<(&'static str, Vec<f64>)>,
    limits: Vec<(String, f64)>,
) -> Course {
    Course { title, first_day: spell.days.start, step_min, lines, limits }
}

/// A remedy that writes one text.
pub fn writing(says: Words, place: &str, value: impl Into<String>) -> Remedy {
    Remedy::new(says, vec![put(place, value)])
}

/// A text put at a place.
pub fn put(place: &str, value: impl Into<String>) -> Edit {
    Edit { place: place.to_owned(), value: EditValue::Text(value.into()) }
}

/// A temperature as a design file writes it, in whole degrees: rounded down.
pub fn celsius_down(kelvin: f64) -> String {
    format!("{:.0} C", (kelvin - ZERO_CELSIUS_K).floor())
}

/// A volume as a design file writes it, in half litres: rounded up.
pub fn litres_up(volume_m3: f64) -> String {
    format!("{} l", (2000.0 * volume_m3).ceil() / 2.0)
}
