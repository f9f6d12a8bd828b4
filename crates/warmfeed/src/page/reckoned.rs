//! A build with its computed year, and what is found out about it afterwards.

use std::collections::BTreeMap;
use std::sync::{Mutex, MutexGuard, PoisonError};

use advice::next_step::Worth;
use advice::{OneYear, Subject};
use anyhow::Result;
use design::quantity::Units;
use sheets::page::Picture;
use year::section::HeatSection;
use year::{Channel, Recorder};

use crate::commands::{Loaded, subject};
use crate::pictures::{YearShown, year_pictures};
use crate::wire::{BandWire, CircuitWire, MonthWire, PanelWire, circuit, month, whole};

/// A computed build: what the page shows.
pub struct Reckoned {
    /// The build as read.
    pub loaded: Loaded,
    /// The same as something to be changed.
    pub subject: Subject,
    /// Its year.
    pub base: OneYear,
    /// Every channel by the minute.
    pub recorder: Recorder,
    /// The year's sun told apart.
    pub section: HeatSection,
    /// The whole year in figures.
    pub year: MonthWire,
    /// Month by month.
    pub months: Vec<MonthWire>,
    /// Flow and pressures; `None` where they cannot be given.
    pub circuit: Option<CircuitWire>,
    /// When it was computed, for people: the time of day.
    pub at: String,
    late: Mutex<Late>,
}

/// What takes longer than a page may wait.
#[derive(Default)]
pub struct Late {
    /// The panel by itself, left idle in the sun too.
    pub panel: Option<PanelWire>,
    /// What each step is worth.
    pub next: Option<Worth>,
    /// How sure the year is.
    pub band: Option<BandWire>,
    /// Pictures by the reader's units: of the year, and of the panel.
    pub pictures: BTreeMap<(bool, Part), Vec<Picture>>,
    /// What is being found out now, done and all.
    pub working: Option<(&'static str, usize, usize)>,
    /// What could not be found out, and why.
    pub failed: Vec<String>,
}

/// Which pictures.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Part {
    /// Those of the year.
    Year,
    /// Those of the panel and its pump.
    Panel,
}

impl Reckoned {
    /// Computes a build's year; `former`, where its weather is the same, spares the light and the twin.
    ///
    /// # Errors
    /// A year that cannot be computed.
    pub fn of(loaded: Loaded, former: Option<&Reckoned>, at: String) -> Result<Reckoned> {
        let subject = subject(&loaded);
        let mut recorder = Recorder::of(&Channel::ALL);
        let base = match former.filter(|former| former.loaded.climate == loaded.climate) {
            Some(former) => {
                subject.recorded_beside(&former.base, loaded.build.clone(), &mut recorder)?
            }
            None => subject.recorded(&mut recorder)?,
        };
        let OneYear { build, forcing, result } = &base;
        let year = whole(result, forcing, build);
        let circuit =
            (!build.panel.panels.is_empty()).then(|| circuit(build, &year).ok()).flatten();
        Ok(Reckoned {
            section: HeatSection::of(result, forcing, build.panel.area_m2()),
            months: (0..12).map(|place| month(result, forcing, build, place)).collect(),
            year,
            circuit,
            at,
            late: Mutex::default(),
            loaded,
            subject,
            base,
            recorder,
        })
    }

    /// What was found out so far.
    pub fn late(&self) -> MutexGuard<'_, Late> {
        self.late.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// Heat spared \[kWh\].
    pub fn spared_kwh(&self) -> f64 {
        self.base.spared_kwh()
    }

    /// The year's pictures in the reader's units, drawn once.
    pub fn year_pictures(&self, units: Units) -> Vec<Picture> {
        let key = (units == Units::Us, Part::Year);
        if let Some(drawn) = self.late().pictures.get(&key) {
            return drawn.clone();
        }
        let drawn = year_pictures(&YearShown {
            loaded: &self.loaded,
            forcing: &self.base.forcing,
            result: &self.base.result,
            year: &self.year,
            months: &self.months,
            circuit: self.circuit.as_ref(),
            recorder: &self.recorder,
            units,
        });
        self.late().pictures.insert(key, drawn.clone());
        drawn
    }

    /// The panel's pictures in the reader's units; `None` while they are not drawn yet.
    pub fn panel_pictures(&self, units: Units) -> Option<Vec<Picture>> {
        self.late().pictures.get(&(units == Units::Us, Part::Panel)).cloned()
    }
}
