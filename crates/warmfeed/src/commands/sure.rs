//! `year`: bands, next steps, and another build beside this one.

use std::path::Path;

use advice::band::{Band, Question, Table, by_draws};
use advice::next_step::{tolerance, worth};
use advice::unknowns::unknowns;
use advice::{GoOn, OneYear, Subject, WeatherYears};
use anyhow::Result;
use physics::ZERO_CELSIUS_K;

use super::load::Loaded;
use crate::arguments::Year;
use crate::interrupt;
use crate::progress::Progress;
use crate::wire::{self, BandWire, BesideWire, NextWire, RangeWire};

/// Other years that stand for a place's weather.
pub const WEATHER_YEARS: u32 = 24;

/// What is asked beside the year.
pub struct Asked<'a> {
    /// Bands.
    pub band: bool,
    /// Whole years drawn for the bands; `None` for one unknown at a time.
    pub draws: Option<u32>,
    /// Which cases and years are drawn.
    pub seed: u32,
    /// What one step is worth.
    pub next: bool,
    /// Another build.
    pub beside: Option<&'a Path>,
}

impl Asked<'_> {
    /// As asked for on the command line.
    pub fn of(asked: &Year) -> Asked<'_> {
        Asked {
            band: !asked.no_band,
            draws: asked.draws,
            seed: asked.seed,
            next: asked.next,
            beside: asked.beside.as_deref(),
        }
    }

    /// Bands and nothing else.
    pub fn bands() -> Asked<'static> {
        Asked { band: true, draws: None, seed: 1, next: false, beside: None }
    }

    /// Parts of the work, for the progress.
    pub fn parts(&self) -> u64 {
        [self.band, self.draws.is_some(), self.next, self.beside.is_some()]
            .into_iter()
            .map(u64::from)
            .sum()
    }
}

/// What was found.
#[derive(Default)]
pub struct Sure {
    pub band: Option<BandWire>,
    pub bands: Option<std::collections::BTreeMap<String, RangeWire>>,
    pub next: Option<NextWire>,
    pub beside: Option<BesideWire>,
}

/// A loaded design as something to be changed.
pub fn subject(loaded: &Loaded) -> Subject {
    Subject::new(
        loaded.written.clone(),
        loaded.design.clone(),
        loaded.climate.clone(),
        loaded.even_bond_w_m_k,
    )
}

/// The year's figures with bands, spared heat first.
pub fn figures(year: &OneYear) -> Vec<(String, f64)> {
    wire::figures(&wire::whole(&year.result, &year.forcing, &year.build))
}

/// What lies between a figure's unit and one with a natural nought: of degrees Celsius, of no other.
fn nought_of(key: &str) -> f64 {
    if key.ends_with("_c") && !key.starts_with("hours_") { ZERO_CELSIUS_K } else { 0.0 }
}

/// The hottest of a year hangs on thresholds (a full store leaves the panel idle, or does not), which do
/// not add up: their bands stay within what some year came to.
fn hold_extremes(keys: &[String], table: &Table, bands: &mut [Band]) {
    for (figure, band) in bands.iter_mut().enumerate() {
        if keys[figure].ends_with("_max_c") {
            let (least, most) = table.computed(figure);
            for end in [&mut band.low, &mut band.middle, &mut band.high] {
                *end = end.clamp(least, most);
            }
        }
    }
}

/// Finds what was asked.
///
/// `loaded`: the design, and the other one where it is to stand beside it.
///
/// # Errors
/// A year that cannot be computed, an interrupt.
pub fn sure(
    asked: &Asked,
    (loaded, other): (&Loaded, Option<&Loaded>),
    base: &OneYear,
    progress: &Progress,
) -> Result<Sure> {
    let subject = subject(loaded);
    let mut found = Sure::default();
    let keys: Vec<String> = figures(base).into_iter().map(|(key, _)| key).collect();
    // Always the same figures: one that a changed build does not have (a run's length where the pump never
    // runs) is nought there. Celsius has no natural nought to take parts of: bands are made in kelvin.
    let values = |year: &OneYear| -> Vec<f64> {
        let all: std::collections::BTreeMap<String, f64> = figures(year).into_iter().collect();
        keys.iter().map(|key| all.get(key).copied().unwrap_or(0.0) + nought_of(key)).collect()
    };
    let mut table = None;
    let weather = WeatherYears::of(&subject, WEATHER_YEARS, asked.seed)?;
    let all = unknowns(&subject);
    if asked.band {
        progress.step("how sure the year is");
        let counted = |done, all| told(progress, "years with one thing changed", done, all);
        let question = Question {
            subject: &subject,
            unknowns: &all,
            weather: &weather,
            figures: &values,
            progress: &counted,
        };
        let computed = Table::of(question, base)?;
        let told_of_it = computed.told(asked.seed);
        let mut bands = told_of_it.bands.clone();
        hold_extremes(&keys, &computed, &mut bands);
        let mut years = computed.years();
        let mut drawn = None;
        if let Some(draws) = asked.draws {
            progress.step("years with everything unknown at once");
            let counted = |done, all| told(progress, "years drawn", done, all);
            bands = by_draws(Question { progress: &counted, ..question }, draws, asked.seed)?;
            drawn = bands.first().copied();
            years = draws as usize;
        }
        found.band = Some(wire::band(&told_of_it, drawn, years));
        for (key, band) in keys.iter().zip(&mut bands) {
            let nought = nought_of(key);
            (band.low, band.middle, band.high) =
                (band.low - nought, band.middle - nought, band.high - nought);
        }
        found.bands = Some(wire::bands(&keys, &bands));
        table = Some(computed);
    }
    if asked.next {
        progress.step("what one step is worth");
        let counted = |done, all| told(progress, "steps", done, all);
        found.next = Some((&worth(&subject, base, &counted)?).into());
    }
    if let Some(other) = other {
        progress.step("the other build");
        found.beside = Some(beside(asked, other, (&subject, base, table.as_ref()), progress)?);
    }
    Ok(found)
}

/// Another build beside this one, in the same years and with the same unknowns.
fn beside(
    asked: &Asked,
    loaded: &Loaded,
    (subject_here, base, table): (&Subject, &OneYear, Option<&Table>),
    progress: &Progress,
) -> Result<BesideWire> {
    let other = subject(loaded);
    let year = other.year()?;
    let quiet = |_, _| go_on();
    // Each is of two years of one build; a year of either takes the place of one of them.
    let tolerance_kwh = tolerance(subject_here, base, &quiet)?
        .hypot(tolerance(&other, &year, &quiet)?)
        / std::f64::consts::SQRT_2;
    // In two climates no two years are the same.
    let same_climate = other.climate == subject_here.climate;
    let band = match table.filter(|_| same_climate) {
        None => None,
        Some(table) => {
            let weather = WeatherYears::of(&other, WEATHER_YEARS, asked.seed)?;
            let counted = |done, all| told(progress, "years of the other build", done, all);
            let question = Question {
                subject: &other,
                unknowns: &unknowns(&other),
                weather: &weather,
                figures: &|year| vec![year.spared_kwh()],
                progress: &counted,
            };
            let theirs = Table::of(question, &year)?;
            table.told_against(&theirs, asked.seed).bands.first().map(|&band| band.into())
        }
    };
    let other_climate = (!same_climate).then(|| loaded.design.weather.name().to_owned());
    let difference_kwh = base.spared_kwh() - year.spared_kwh();
    Ok(BesideWire {
        title: loaded.design.title.clone(),
        build: loaded.said.design_name.clone(),
        spared_kwh: year.spared_kwh(),
        difference_kwh,
        other_climate,
        band,
        tolerance_kwh,
        none: difference_kwh.abs() < tolerance_kwh,
    })
}

fn told(progress: &Progress, words: &'static str, done: usize, all: usize) -> GoOn {
    progress.count(words, done, all);
    go_on()
}

fn go_on() -> GoOn {
    if interrupt::asked() { GoOn::No } else { GoOn::Yes }
}
