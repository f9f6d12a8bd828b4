//! The values of one design file, by place: as read, with defaults filled in.

use crate::origin::Origin;
use crate::problem::Span;
use physics::panel::route::Place;
use physics::tap::DaySpan;
use std::collections::{BTreeMap, BTreeSet};

/// One value, in SI where it has a unit.
#[derive(Clone, Debug, PartialEq)]
pub enum Value {
    /// A quantity in SI, or a number without dimension.
    Si(f64),
    /// A whole number.
    Count(u32),
    /// A word or a sentence.
    Word(String),
    /// Twelve months, January first.
    Months([f64; 12]),
    /// Outside diameter and wall of a tube \[m\].
    Size {
        /// Outside diameter \[m\].
        outside_m: f64,
        /// Wall \[m\].
        wall_m: f64,
        /// The name it is sold by, where it is written so.
        name: Option<&'static str>,
    },
    /// Minute of the day.
    Minute(u16),
    /// Spans of days.
    Days(Vec<DaySpan>),
    /// Places on the sheet.
    Places(Vec<Place>),
}

/// What stands at one place.
#[derive(Clone, Debug, PartialEq)]
pub struct Entry {
    /// The value; `None` where something is written that cannot be used.
    pub value: Option<Value>,
    /// The value as it is shown.
    pub shown: String,
    /// Where it comes from.
    pub origin: Origin,
    /// Where it is written; of the whole file where it is not.
    pub span: Span,
}

/// All values of a design file.
#[derive(Clone, Debug, Default)]
pub struct Values {
    entries: BTreeMap<String, Entry>,
    tables: BTreeMap<String, Span>,
    lists: BTreeMap<String, usize>,
    told: BTreeSet<String>,
}

impl Values {
    /// Puts a value at a place.
    pub fn put(&mut self, place: &str, entry: Entry) {
        self.entries.insert(place.to_owned(), entry);
    }

    /// Takes out what was not written under a prefix.
    pub fn forget_assumed(&mut self, prefix: &str) {
        self.entries
            .retain(|place, entry| !place.starts_with(prefix) || entry.span != Span::default());
    }

    /// Notes that a table is written.
    pub fn put_table(&mut self, place: &str, span: Span) {
        self.tables.insert(place.to_owned(), span);
    }

    /// Notes how many members a list has.
    pub fn put_list(&mut self, place: &str, members: usize) {
        self.lists.insert(place.to_owned(), members);
    }

    /// Notes that a place's fault is told, so that what follows from it is not told too.
    pub fn put_told(&mut self, place: &str) {
        self.told.insert(place.to_owned());
    }

    /// True where a fault of this place, or of a table around it, is told already.
    pub fn is_told(&self, place: &str) -> bool {
        let mut around = place;
        loop {
            if self.told.contains(around) {
                return true;
            }
            match around.rsplit_once('.') {
                Some((table, _)) => around = table,
                None => return false,
            }
        }
    }

    /// What stands at a place, be it usable or not.
    pub fn entry(&self, place: &str) -> Option<&Entry> {
        self.entries.get(place)
    }

    /// True where something is written at a place, be it usable or not.
    pub fn is_written(&self, place: &str) -> bool {
        self.entries.get(place).is_some_and(|entry| entry.span != Span::default())
    }

    /// Every entry.
    pub fn iter(&self) -> impl Iterator<Item = (&str, &Entry)> {
        self.entries.iter().map(|(place, entry)| (place.as_str(), entry))
    }

    /// Where a table is written; `None` where it is not.
    pub fn table(&self, place: &str) -> Option<Span> {
        self.tables.get(place).copied()
    }

    /// How many members a list has; 0 where it is not written.
    pub fn members(&self, place: &str) -> usize {
        self.lists.get(place).copied().unwrap_or(0)
    }

    /// True where a list is written, be it empty or not.
    pub fn has_list(&self, place: &str) -> bool {
        self.lists.contains_key(place)
    }

    /// Where a place is written, or the nearest table around it.
    pub fn span(&self, place: &str) -> Span {
        if let Some(entry) = self.entries.get(place)
            && entry.span != Span::default()
        {
            return entry.span;
        }
        let mut around = place;
        loop {
            if let Some(&span) = self.tables.get(around)
                && span != Span::default()
            {
                return span;
            }
            match around.rsplit_once('.') {
                Some((table, _)) => around = table,
                None => return Span::default(),
            }
        }
    }

    fn value(&self, place: &str) -> Option<&Value> {
        self.entries.get(place)?.value.as_ref()
    }

    /// A quantity in SI, or a number without dimension.
    pub fn si(&self, place: &str) -> Option<f64> {
        match self.value(place)? {
            Value::Si(si) => Some(*si),
            _ => None,
        }
    }

    /// A whole number.
    pub fn count(&self, place: &str) -> Option<u32> {
        match self.value(place)? {
            Value::Count(count) => Some(*count),
            _ => None,
        }
    }

    /// A word or a sentence.
    pub fn word(&self, place: &str) -> Option<&str> {
        match self.value(place)? {
            Value::Word(word) => Some(word),
            _ => None,
        }
    }

    /// Twelve months.
    pub fn months(&self, place: &str) -> Option<[f64; 12]> {
        match self.value(place)? {
            Value::Months(months) => Some(*months),
            _ => None,
        }
    }

    /// Outside diameter and wall \[m\].
    pub fn size(&self, place: &str) -> Option<(f64, f64)> {
        match self.value(place)? {
            Value::Size { outside_m, wall_m, .. } => Some((*outside_m, *wall_m)),
            _ => None,
        }
    }

    /// The name by which a tube is sold, where its size is written so.
    pub fn sold_as(&self, place: &str) -> Option<&'static str> {
        match self.value(place)? {
            Value::Size { name, .. } => *name,
            _ => None,
        }
    }

    /// Minute of the day.
    pub fn minute(&self, place: &str) -> Option<u16> {
        match self.value(place)? {
            Value::Minute(minute) => Some(*minute),
            _ => None,
        }
    }

    /// Spans of days.
    pub fn days(&self, place: &str) -> Option<&[DaySpan]> {
        match self.value(place)? {
            Value::Days(days) => Some(days),
            _ => None,
        }
    }

    /// Places on the sheet.
    pub fn places(&self, place: &str) -> Option<&[Place]> {
        match self.value(place)? {
            Value::Places(places) => Some(places),
            _ => None,
        }
    }
}
