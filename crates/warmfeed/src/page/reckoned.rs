//! A build with its computed year, and what is found out about it afterwards.

use std::collections::BTreeMap;
use std::sync::atomic::{AtomicU64, Ordering};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

use advice::next_step::Worth;
use advice::worry::Finding;
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
    /// Every channel by the minute, while it is looked at.
    recorder: Mutex<Arc<Recorder>>,
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
    /// Tells this year from any other of this run.
    pub number: u64,
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
    /// What can go wrong, the worst first.
    pub worries: Option<Vec<Finding>>,
    /// True while these are still the former build's.
    pub worries_are_former: bool,
    /// Pictures by the reader's units: of the year, and of the panel.
    pub pictures: BTreeMap<(bool, Part), Vec<Picture>>,
    /// True while pictures are still those of the year before.
    pub are_former: bool,
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
        static COUNT: AtomicU64 = AtomicU64::new(1);
        let mut recorder = Recorder::of(&Channel::shown(loaded.build.store.layers));
        let base = match former.filter(|former| former.loaded.climate == loaded.climate) {
            Some(former) => {
                subject.recorded_beside(&former.base, loaded.build.clone(), &mut recorder)?
            }
            None => subject.recorded(&mut recorder)?,
        };
        let OneYear { build, forcing, result, .. } = &base;
        let year = whole(result, forcing, build);
        let circuit =
            (!build.panel.panels.is_empty()).then(|| circuit(build, &year).ok()).flatten();
        Ok(Reckoned {
            section: HeatSection::of(result, forcing, build.panel.area_m2()),
            months: (0..12).map(|place| month(result, forcing, build, place)).collect(),
            year,
            circuit,
            at,
            number: COUNT.fetch_add(1, Ordering::Relaxed),
            late: Mutex::new(Late {
                // Until they are drawn anew.
                pictures: former.map(|former| former.late().pictures.clone()).unwrap_or_default(),
                panel: former.and_then(|former| former.late().panel.clone()),
                worries: former.and_then(|former| former.late().worries.clone()),
                are_former: true,
                worries_are_former: true,
                ..Late::default()
            }),
            loaded,
            subject,
            base,
            recorder: Mutex::new(Arc::new(recorder)),
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

    /// Every channel by the minute; nothing once it was forgotten.
    pub fn recorder(&self) -> Arc<Recorder> {
        Arc::clone(&self.recorder.lock().unwrap_or_else(PoisonError::into_inner))
    }

    /// Forgets the minutes: a year that another stands before needs its sums only.
    pub fn forget_minutes(&self) {
        *self.recorder.lock().unwrap_or_else(PoisonError::into_inner) = Arc::default();
    }

    /// The pictures in the reader's units, as far as they are drawn.
    pub fn pictures(&self, units: Units) -> Vec<Picture> {
        let late = self.late();
        [Part::Year, Part::Panel]
            .into_iter()
            .filter_map(|part| late.pictures.get(&(units == Units::Us, part)))
            .flatten()
            .cloned()
            .collect()
    }

    /// Draws the year's pictures.
    pub fn draw_year(&self, units: Units) {
        let recorder = self.recorder();
        let drawn = year_pictures(&YearShown {
            loaded: &self.loaded,
            forcing: &self.base.forcing,
            result: &self.base.result,
            year: &self.year,
            months: &self.months,
            circuit: self.circuit.as_ref(),
            recorder: &recorder,
            units,
        });
        self.late().pictures.insert((units == Units::Us, Part::Year), drawn);
    }
}
