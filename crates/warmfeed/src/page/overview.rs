//! What the list of builds tells of each: worked out one after the other beside the page, and kept
//! while the file stays as it is.

use std::collections::{BTreeMap, VecDeque};
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::Path;
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

use design::read_design;
use sheets::Drawing;
use sheets::pictures::column;
use year::section::HeatSection;

use super::House;
use super::desk::Known;
use super::late;
use crate::commands::{Loaded, load, subject};
use crate::pictures::section_facts;
use crate::wire::whole;
use crate::{files, interrupt};

/// What is known of the book's builds.
#[derive(Default)]
pub struct Overview {
    inner: Mutex<Inner>,
}

#[derive(Default)]
struct Inner {
    known: BTreeMap<String, Told>,
    waiting: VecDeque<String>,
    is_working: bool,
}

/// What the list tells of a build.
#[derive(Clone)]
pub struct Told {
    /// The file that this was found out from.
    text: String,
    /// The build's title.
    pub title: String,
    /// Its year.
    pub year: Year,
}

/// A build's year as the list has it.
#[derive(Clone)]
pub enum Year {
    /// Not there yet.
    BeingWorkedOut,
    /// In figures.
    Done(Box<Figures>),
    /// It cannot be had; why not.
    None(String),
}

/// A year's figures for the list.
#[derive(Clone)]
pub struct Figures {
    /// Heat spared \[kWh\].
    pub spared_kwh: f64,
    /// Its share of what the heater would give without a panel.
    pub share: f64,
    /// Where the sun went, without words; `None` for a build without a panel.
    pub column: Option<Drawing>,
}

impl Overview {
    fn inner(&self) -> MutexGuard<'_, Inner> {
        self.inner.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

/// What is known of a build; what is not is begun. `None` for a file that cannot be read.
pub fn told(house: &Arc<House>, name: &str) -> Option<Told> {
    let path = house.book.path(name)?;
    let text = String::from_utf8_lossy(&files::read(&path).ok()?).into_owned();
    let mut inner = house.overview.inner();
    if let Some(known) = inner.known.get(name).filter(|known| known.text == text) {
        return Some(known.clone());
    }
    let title = read_design(name, text.as_bytes())
        .design
        .map_or_else(|| name.to_owned(), |design| design.title);
    let fresh = Told { text, title, year: Year::BeingWorkedOut };
    inner.known.insert(name.to_owned(), fresh.clone());
    if !inner.waiting.iter().any(|waiting| waiting == name) {
        inner.waiting.push_back(name.to_owned());
    }
    if !std::mem::replace(&mut inner.is_working, true) {
        let house = Arc::clone(house);
        std::thread::spawn(move || work(&house));
    }
    Some(fresh)
}

/// Works out one build after the other until none waits.
fn work(house: &House) {
    loop {
        let (name, text) = {
            let mut inner = house.overview.inner();
            let next = inner.waiting.pop_front().filter(|_| !interrupt::asked());
            let Some(name) = next else {
                inner.is_working = false;
                return;
            };
            let Some(known) = inner.known.get(&name) else { continue };
            let text = known.text.clone();
            (name, text)
        };
        let Some(path) = house.book.path(&name) else { continue };
        late::give_way();
        // A fault in one build's year takes nothing else of the list down.
        let year = catch_unwind(AssertUnwindSafe(|| year(&path, &text)))
            .unwrap_or_else(|_| Year::None("A fault of the program itself.".to_owned()));
        {
            let mut inner = house.overview.inner();
            // The file may have changed again meanwhile: then this build waits once more.
            if let Some(known) = inner.known.get_mut(&name).filter(|known| known.text == text) {
                known.year = year;
            }
        }
        // No window on the build itself is behind: it has its own count.
        house.news.tell(&name, 0);
    }
}

fn year(path: &Path, text: &str) -> Year {
    let loaded = match load(path, &Known { path, text }) {
        Ok(loaded) => loaded,
        Err(said) => {
            let faults = said.problems.iter().filter(|problem| problem.is_fault()).count();
            let first = said.problems.iter().find(|problem| problem.is_fault());
            let says = first.map_or(String::new(), |problem| format!(" {}.", problem.says));
            let them = if faults == 1 {
                "A fault stands".to_owned()
            } else {
                format!("{faults} faults stand")
            };
            return Year::None(format!("{them} in the way.{says}"));
        }
    };
    figures(&loaded).unwrap_or_else(|error| Year::None(format!("{error:#}.")))
}

fn figures(loaded: &Loaded) -> anyhow::Result<Year> {
    let base = subject(loaded).year()?;
    let section = HeatSection::of(&base.result, &base.forcing, base.build.panel.area_m2());
    let has_panel = !base.build.panel.panels.is_empty();
    Ok(Year::Done(Box::new(Figures {
        spared_kwh: base.spared_kwh(),
        share: whole(&base.result, &base.forcing, &base.build).share,
        column: has_panel.then(|| column::small(&section_facts(loaded, &section))),
    })))
}
