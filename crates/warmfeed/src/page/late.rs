//! What is found out about a year after it is shown: the panel's heat, pictures, next steps, the band.
//!
//! One build at a time is looked into, and the work rests while a change is being computed: the person
//! comes first.

use std::sync::atomic::{AtomicBool, AtomicUsize, Ordering};
use std::sync::{Arc, Mutex, PoisonError};
use std::time::Duration;

use advice::band::{Question, Table};
use advice::next_step::worth;
use advice::unknowns::unknowns;
use advice::worry::worries;
use advice::{GoOn, OneYear, WeatherYears};
use anyhow::Result;
use design::quantity::Units;

use super::desk::Desk;
use super::reckoned::{Part, Reckoned};
use crate::commands::{WEATHER_YEARS, figures, panel_told};
use crate::interrupt;
use crate::pictures::panel_pictures;
use crate::wire;

/// Which cases and years a page's bands draw.
const SEED: u32 = 1;

/// True once a window reads US units.
pub static US_IS_READ: AtomicBool = AtomicBool::new(false);
/// Changes that are being computed now.
static CHANGES: AtomicUsize = AtomicUsize::new(0);
/// Whoever holds it looks into a build.
static AT_WORK: Mutex<()> = Mutex::new(());

/// While one is held, nothing is found out.
pub struct Rest(());

impl Rest {
    /// Begins a rest.
    pub fn begin() -> Rest {
        CHANGES.fetch_add(1, Ordering::SeqCst);
        Rest(())
    }
}

impl Drop for Rest {
    fn drop(&mut self) {
        CHANGES.fetch_sub(1, Ordering::SeqCst);
    }
}

/// Waits until no change is being computed.
pub fn give_way() {
    while CHANGES.load(Ordering::SeqCst) > 0 && !interrupt::asked() {
        std::thread::sleep(Duration::from_millis(2));
    }
}

/// One thing to find out.
struct Task {
    words: &'static str,
    find: fn(&Reckoned, &Telling) -> Result<()>,
}

const TASKS: [Task; 4] = [
    Task { words: "the drawings, and the panel left idle in the sun", find: pictures },
    Task { words: "what can go wrong, and what would help", find: what_can_go_wrong },
    Task { words: "what each step is worth", find: steps },
    Task { words: "how sure the year is", find: band },
];

/// Tells how far a task is, and hears whether it still matters.
struct Telling<'a> {
    desk: &'a Desk,
    reckoned: &'a Reckoned,
    turn: u64,
    words: &'static str,
}

impl Telling<'_> {
    fn matters(&self) -> bool {
        self.desk.is_at(self.turn) && !interrupt::asked()
    }

    fn count(&self, done: usize, all: usize) -> GoOn {
        give_way();
        if !self.matters() {
            return GoOn::No;
        }
        let news = {
            let mut late = self.reckoned.late();
            // A window is told of each twelfth part, not of each year.
            let part = |done: usize| 12 * done / all.max(1);
            let was = late.working.map_or(0, |(_, done, _)| part(done));
            if late.working.is_none_or(|(_, was, _)| done > was) {
                late.working = Some((self.words, done, all));
            }
            part(done) > was
        };
        if news {
            self.desk.found();
        }
        GoOn::Yes
    }
}

/// Begins the work beside the page; it ends by itself once the build is another.
pub fn begin(desk: &Arc<Desk>, reckoned: Arc<Reckoned>, turn: u64) {
    let desk = Arc::clone(desk);
    std::thread::spawn(move || {
        for task in &TASKS {
            let _one = AT_WORK.lock().unwrap_or_else(PoisonError::into_inner);
            give_way();
            if !desk.is_at(turn) || interrupt::asked() {
                return;
            }
            reckoned.late().working = Some((task.words, 0, 0));
            let telling = Telling { desk: &desk, reckoned: &reckoned, turn, words: task.words };
            let found = (task.find)(&reckoned, &telling);
            if !desk.is_at(turn) {
                return;
            }
            {
                let mut late = reckoned.late();
                late.working = None;
                if let Err(error) = found {
                    late.failed.push(format!("Not found out: {}. {error:#}", task.words));
                }
            }
            desk.found();
        }
    });
}

/// Pictures in the units that a window reads, then in the other.
fn pictures(reckoned: &Reckoned, telling: &Telling) -> Result<()> {
    let is_us = US_IS_READ.load(Ordering::Relaxed);
    let units = if is_us { [Units::Us, Units::Metric] } else { [Units::Metric, Units::Us] };
    for units in units {
        give_way();
        if !telling.matters() {
            return Ok(());
        }
        reckoned.draw_year(units);
        panel(reckoned, units)?;
        reckoned.late().are_former = false;
        telling.desk.found();
    }
    Ok(())
}

fn panel(reckoned: &Reckoned, units: Units) -> Result<()> {
    if reckoned.loaded.build.panel.panels.is_empty() {
        return Ok(());
    }
    let told = panel_told(&reckoned.loaded, units)?;
    let pictures = panel_pictures(&reckoned.loaded, &told, units)?;
    let mut late = reckoned.late();
    if units == Units::Metric {
        late.panel = Some(told);
    }
    late.pictures.insert((units == Units::Us, Part::Panel), pictures);
    Ok(())
}

fn what_can_go_wrong(reckoned: &Reckoned, telling: &Telling) -> Result<()> {
    let counted = |done, all| telling.count(done, all);
    let minutes = reckoned.recorder();
    let found = worries(&reckoned.subject, &reckoned.base, &minutes, &counted)?;
    let mut late = reckoned.late();
    late.worries = Some(found);
    late.worries_are_former = false;
    Ok(())
}

fn steps(reckoned: &Reckoned, telling: &Telling) -> Result<()> {
    let counted = |done, all| telling.count(done, all);
    let worth = worth(&reckoned.subject, &reckoned.base, &counted)?;
    reckoned.late().next = Some(worth);
    Ok(())
}

fn band(reckoned: &Reckoned, telling: &Telling) -> Result<()> {
    let subject = &reckoned.subject;
    let weather = WeatherYears::of(subject, WEATHER_YEARS, SEED)?;
    let all = unknowns(subject);
    let counted = |done, all| telling.count(done, all);
    let values = |year: &OneYear| -> Vec<f64> {
        figures(year).into_iter().take(1).map(|(_, value)| value).collect()
    };
    let question = Question {
        subject,
        unknowns: &all,
        weather: &weather,
        figures: &values,
        progress: &counted,
    };
    let table = Table::of(question, &reckoned.base)?;
    let years = table.years();
    reckoned.late().band = Some(wire::band(&table.told(SEED), None, years));
    Ok(())
}
