//! `year`: a build through a year of weather, beside its twin.

use std::path::Path;

use advice::OneYear;
use anyhow::Result;
use design::Weather;
use design::problem::{Problem, Severity, Span};
use design::quantity::Units;
use physics::Build;
use year::{Forcing, Plant, Recorder, Upset, YearResult, march, run_plant, spared_heat_j};

use super::check::assumed;
use super::load::{Disk, Loaded, Source, load};
use super::series::{self, Wanted};
use super::sure::{Asked, Sure, sure};
use super::{DONE, WRONG_INPUT, failed_json, json, not_completed};
use crate::arguments::Year;
use crate::pictures::{YearShown, year_pictures};
use crate::progress::Progress;
use crate::sample::{FIRST_BUILD, JobBook};
use crate::view::{self, Paper};
use crate::wire::{
    BracketWire, CircuitWire, ClimateWire, EventWire, MonthWire, ProblemWire, StagnationWire,
    YearWire, circuit, month, whole,
};
use crate::{files, hot, interrupt, print};

/// What is to come out.
struct Wish<'a> {
    as_json: bool,
    units: Units,
    out: Option<&'a Path>,
    wanted: Wanted,
    asked: Asked<'a>,
    source: &'a dyn Source,
}

/// Runs it.
pub fn run(asked: &Year) -> i32 {
    let wish = Wish {
        as_json: asked.json,
        units: asked.units.into(),
        out: asked.out.as_deref(),
        wanted: Wanted::of(asked),
        asked: Asked::of(asked),
        source: &Disk,
    };
    one_year(&asked.build, &wish)
}

/// Runs it on the sample job book's first build.
pub fn run_sample() -> i32 {
    print::talk("The first build of the sample job book. Your own: `warmfeed new my-panel`.\n");
    let wish = Wish {
        as_json: false,
        units: Units::Metric,
        out: None,
        wanted: Wanted::nothing(),
        asked: Asked::bands(),
        source: &JobBook,
    };
    one_year(Path::new(FIRST_BUILD), &wish)
}

fn one_year(path: &Path, wish: &Wish) -> i32 {
    let loaded = match load(path, wish.source) {
        Ok(loaded) => loaded,
        Err(said) => {
            said.tell();
            if wish.as_json {
                // A closed pipe is no error, and the status tells the rest.
                drop(print::out(&failed_json(&said.problems)));
            }
            return WRONG_INPUT;
        }
    };
    loaded.said.tell();
    let beside = match wish.asked.beside.map(|path| load(path, wish.source)).transpose() {
        Ok(beside) => beside,
        Err(said) => {
            said.tell();
            if wish.as_json {
                drop(print::out(&failed_json(&said.problems)));
            }
            return WRONG_INPUT;
        }
    };
    match computed(&loaded, beside.as_ref(), wish) {
        Ok(()) => DONE,
        Err(error) => not_completed(&error, wish.as_json),
    }
}

fn computed(loaded: &Loaded, beside: Option<&Loaded>, wish: &Wish) -> Result<()> {
    let paper = Paper::of(wish.units);
    if !wish.as_json {
        // At once, so that a slow machine does not look dead.
        print::page(&view::year_head(&loaded.design.title, &loaded.design.story, paper))?;
    }
    let progress = Progress::of(5 + wish.asked.parts());
    progress.step("light, air and draws");
    let forcing = Forcing::of(&loaded.build, &loaded.climate)?;
    interrupt::check()?;
    progress.step("the build and its twin");
    let mut recorder = wish.wanted.recorder(loaded.build.store.layers);
    let plant = Plant::compile(&loaded.build)?;
    let undisturbed = Upset::none();
    let result = run_plant(&plant, &loaded.build, &forcing, &undisturbed, &mut recorder)?;
    interrupt::check()?;
    progress.step("the panel left idle in the sun");
    let stagnation = {
        let units = if wish.as_json { Units::Metric } else { wish.units };
        hot::stagnation(loaded, &plant, &forcing, units)?
    };
    interrupt::check()?;
    progress.step("the store fully mixed, and unmixed");
    let bracket = bracket(&loaded.build, &forcing, &result)?;
    interrupt::check()?;
    let base = OneYear { build: loaded.build.clone(), forcing, plant, result };
    let found = sure(&wish.asked, (loaded, beside), &base, &progress)?;
    interrupt::check()?;
    let OneYear { forcing, result, .. } = &base;
    let wire = year_wire(loaded, &base, bracket, stagnation, found);
    let mut written = None;
    if let Some(folder) = wish.out {
        progress.step("writing");
        files::make_folder(folder)?;
        written = Some({
            let pictures = year_pictures(&YearShown {
                loaded,
                forcing,
                result,
                year: &wire.year,
                months: &wire.months,
                circuit: wire.circuit.as_ref(),
                recorder: &recorder,
                units: wish.units,
            });
            series::write(folder, &wire, &recorder, &wish.wanted, &pictures)?
        });
    }
    drop(progress);
    if let Some(words) = written {
        print::talk(&words);
    }
    if wish.as_json {
        return print::out(&json(&wire));
    }
    let stops = wire.stagnation.as_ref().map(|heat| view::stops(heat, paper));
    print::page(&format!(
        "{}{}\n{}\n{}",
        stops.map(|stops| format!("{stops}\n")).unwrap_or_default(),
        view::year(&wire, paper) + &view::sure(&wire, paper),
        view::assumed(&loaded.origins, paper),
        view::cautions(paper)
    ))
}

/// Spared heat at the two ends of what mixing in the store can do, each against its own twin.
fn bracket(build: &Build, forcing: &Forcing, result: &YearResult) -> Result<BracketWire> {
    let spared_kwh = |changed: &Build| -> Result<f64> {
        let year_of = |build: &Build| -> Result<_> {
            let plant = Plant::compile(build)?;
            let (ledger, _) = march(&plant, forcing, &Upset::none(), &mut Recorder::none())?;
            Ok(ledger.year())
        };
        let spared_j = spared_heat_j(&year_of(changed)?, &year_of(&changed.twin())?);
        Ok(spared_j / year::ledger::KWH_J)
    };
    let mut mixed = build.clone();
    mixed.store.layers = 1;
    let mut unmixed = build.clone();
    unmixed.store.entrainment = 0.0;
    Ok(BracketWire {
        mixed_kwh: spared_kwh(&mixed)?,
        unmixed_kwh: if build.store.entrainment == 0.0 {
            result.spared_heat_j() / year::ledger::KWH_J
        } else {
            spared_kwh(&unmixed)?
        },
    })
}

fn year_wire(
    loaded: &Loaded,
    base: &OneYear,
    bracket: BracketWire,
    stagnation: Option<StagnationWire>,
    found: Sure,
) -> YearWire {
    let OneYear { forcing, result, .. } = base;
    let climate = &loaded.climate;
    let whole_year = whole(result, forcing, &loaded.build);
    let (circuit, doubt) = looked_over(loaded, &whole_year);
    if let Some(doubt) = &doubt {
        print::talk(&view::problems(std::slice::from_ref(doubt), None));
    }
    YearWire {
        title: loaded.design.title.clone(),
        climate: ClimateWire {
            name: loaded.design.weather.name().to_owned(),
            source: climate.origin.clone(),
            latitude_deg: climate.latitude.degrees(),
            longitude_deg: climate.longitude.degrees(),
            kind: match loaded.design.weather {
                Weather::File(_) => "hourly",
                Weather::Made(_) => "monthly",
            }
            .to_owned(),
        },
        clouds: loaded.build.sun.clouds.into(),
        stagnation,
        year: whole_year,
        months: (0..12).map(|place| month(result, forcing, &loaded.build, place)).collect(),
        circuit,
        balance: result.balance().into(),
        bracket,
        band: found.band,
        bands: found.bands,
        next: found.next,
        beside: found.beside,
        events: result.events.iter().map(EventWire::from).collect(),
        assumed: assumed(&loaded.origins),
        problems: loaded.said.problems.iter().chain(&doubt).map(ProblemWire::from).collect(),
    }
}

/// The circuit of a build with panels; where it cannot be looked over, as with a sealed vessel that
/// the fluid outgrows, why. The year's heat does not hang on its pressures.
fn looked_over(loaded: &Loaded, year: &MonthWire) -> (Option<CircuitWire>, Option<Problem>) {
    if loaded.build.panel.panels.is_empty() {
        return (None, None);
    }
    match circuit(&loaded.build, year) {
        Ok(circuit) => (Some(circuit), None),
        Err(error) => {
            let problem = Problem {
                code: "circuit-not-looked-over",
                severity: Severity::Warning,
                file: loaded.said.design_name.clone(),
                span: Span::default(),
                place: "circuit".to_owned(),
                found: error.to_string(),
                expected: "a circuit that stays full and has room for its fluid".to_owned(),
                says: format!("The circuit's pressures at 60 C cannot be given: {error}"),
                hint: "look at heights, header tank or vessel in [circuit.filling]".to_owned(),
            };
            (None, Some(problem))
        }
    }
}
