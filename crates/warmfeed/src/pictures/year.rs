//! Pictures of a year.

use std::ops::Range;

use design::MONTHS;
use design::quantity::{Kind, Units, in_unit};
use physics::ZERO_CELSIUS_K;
use physics::climate::MONTH_STARTS_DAY;
use physics::panel::Panel;
use physics::tap::Heater;
use sheets::page::Picture;
use sheets::pictures::heat_section::{self, HeaterKind, PanelMade};
use sheets::pictures::year_map::{self, Shown};
use sheets::pictures::{Mover, day, draws, months, strip};
use year::section::{HeatSection, typical_day};
use year::{
    Channel, Forcing, MINUTES_PER_YEAR, Recorder, YearError, YearResult, draw_day, month_spreads,
};

use super::both;
use super::cistern::{StoreAt, cistern_picture, date};
use super::house::house_picture;
use super::sky::sky_picture;
use crate::commands::Loaded;
use crate::wire::{CircuitWire, MonthWire};

/// What a year's pictures are drawn from.
pub struct YearShown<'a> {
    /// The build.
    pub loaded: &'a Loaded,
    /// What was imposed on it.
    pub forcing: &'a Forcing,
    /// What the year came to.
    pub result: &'a YearResult,
    /// The same in the document's words: the whole year.
    pub year: &'a MonthWire,
    /// And month by month.
    pub months: &'a [MonthWire],
    /// Flow and pressures; `None` where they cannot be given.
    pub circuit: Option<&'a CircuitWire>,
    /// Every channel by the minute.
    pub recorder: &'a Recorder,
    /// The reader's units.
    pub units: Units,
}

/// All pictures of a build's year, in the order of the heat; none where it has no panel. One that
/// could not be reckoned is left out: the year's own figures do not hang on it.
pub fn year_pictures(shown: &YearShown) -> Vec<Picture> {
    let Some(section) = section_picture(shown) else { return Vec::new() };
    let YearShown { loaded, forcing, circuit, recorder, units, .. } = *shown;
    // Summer is where the sun stands high: June and July north of the line, December and January south.
    let (mid_year, year_end) = ([5, 6], [11, 0]);
    let is_north = loaded.build.sun.place.latitude.degrees() >= 0.0;
    let (summer, winter) = if is_north { (mid_year, year_end) } else { (year_end, mid_year) };
    let summer_day = typical_day(forcing, &summer).map(|(day, _)| day);
    let hottest = summer_day.and_then(|day| StoreAt::hottest_of(recorder, forcing, day));
    let map = |of| year_map_picture(loaded, recorder, of, units);
    let mut pictures = vec![section];
    pictures.extend(sky_picture(loaded).ok());
    pictures.extend(map(Shown::Absorbed));
    pictures.extend(map(Shown::PanelOut));
    pictures.extend(house_picture(loaded, circuit, units));
    pictures.extend(map(Shown::Running(mover(loaded))));
    pictures.extend(hottest.map(|at| cistern_picture(loaded, &at, units)));
    pictures.extend(map(Shown::StoreTop));
    pictures.extend(draws_picture(loaded, forcing, recorder, units).ok().flatten());
    pictures.push(months_picture(shown));
    for (season, of_months) in [(day::Season::Summer, summer), (day::Season::Winter, winter)] {
        pictures.extend(day_picture(shown, season, of_months));
    }
    pictures.extend(summer_day.and_then(|day| strip_picture(loaded, recorder, day, units)));
    pictures
}

/// The heat section; `None` for a build without a panel.
pub fn section_picture(shown: &YearShown) -> Option<Picture> {
    let build = &shown.loaded.build;
    build.panel.panels.first()?;
    let section = HeatSection::of(shown.result, shown.forcing, build.panel.area_m2());
    let facts = section_facts(shown.loaded, &section);
    Some(both(|width| heat_section::draw(&facts, width)))
}

/// What the heat section is drawn from.
pub fn section_facts<'a>(loaded: &'a Loaded, section: &'a HeatSection) -> heat_section::Facts<'a> {
    heat_section::Facts {
        title: &loaded.design.title,
        section,
        panel: match loaded.build.panel.panels.first() {
            Some(Panel::Bought(_)) => PanelMade::Bought,
            _ => PanelMade::AtHome,
        },
        heater: match loaded.build.tap.heater {
            Heater::Cylinder { .. } => HeaterKind::Cylinder,
            Heater::Instantaneous(_) => HeaterKind::Instantaneous,
        },
    }
}

/// What moves the fluid of a build.
pub fn mover(loaded: &Loaded) -> Mover {
    match loaded.build.circuit.pump {
        Some(_) => Mover::Pump,
        None => Mover::Weight,
    }
}

fn months_picture(shown: &YearShown) -> Picture {
    let of = |month: &MonthWire| months::Month {
        twin_kwh: month.twin_topup_heat_kwh,
        spared_kwh: month.spared_heat_kwh,
        share: month.share,
        store_max_c: month.store_max_c,
        running_hours: match mover(shown.loaded) {
            Mover::Pump => month.pump_hours,
            Mover::Weight => month.gravity_hours,
        },
        backwards_hours: month.reverse_hours,
        pump_kwh: month.pump_kwh,
    };
    let all: Vec<months::Month> = shown.months.iter().map(of).collect();
    let facts = months::Facts {
        title: &shown.loaded.design.title,
        months: &all,
        year: of(shown.year),
        mover: mover(shown.loaded),
        units: shown.units,
    };
    Picture { wide: months::draw(&facts), narrow: None }
}

fn day_picture(shown: &YearShown, season: day::Season, of_months: [usize; 2]) -> Option<Picture> {
    let (at_day, kwh_m2) = typical_day(shown.forcing, &of_months)?;
    let minutes = at_day * 1440..(at_day + 1) * 1440;
    let series = |channel| shown.recorder.series(channel).map(|all| &all[minutes.clone()]);
    let celsius = |channel| -> Option<Vec<f64>> {
        Some(series(channel)?.iter().map(|&k| f64::from(k) - ZERO_CELSIUS_K).collect())
    };
    let drawn_l = shown.recorder.hours(Channel::Draw)?;
    let facts = day::Facts {
        title: &shown.loaded.design.title,
        season,
        date: date(at_day),
        rule: format!(
            "The day whose light on the panel’s plane, {}, is the median of {} and {}: as many days there \
             are brighter as dimmer.",
            irradiation(kwh_m2, shown.units),
            MONTHS[of_months[0]],
            MONTHS[of_months[1]],
        ),
        absorbed_w_m2: series(Channel::Absorbed)?,
        store_top_c: celsius(Channel::StoreTop)?,
        panel_out_c: celsius(Channel::PanelOut)?,
        mover: mover(shown.loaded),
        running: running(shown.recorder, mover(shown.loaded), minutes.clone())?,
        drawn_l: &drawn_l[at_day * 24..(at_day + 1) * 24],
        units: shown.units,
    };
    Some(both(|width| day::draw(&facts, width)))
}

/// A year of one thing as a map of day against hour; `None` where it was not recorded.
pub fn year_map_picture(
    loaded: &Loaded,
    recorder: &Recorder,
    shown: Shown,
    units: Units,
) -> Option<Picture> {
    let mut hours = recorder.hours(match shown {
        Shown::StoreTop => Channel::StoreTop,
        Shown::PanelOut => Channel::PanelOut,
        Shown::Absorbed => Channel::Absorbed,
        Shown::Running(Mover::Pump) => Channel::Pump,
        Shown::Running(Mover::Weight) => Channel::Flow,
    })?;
    match shown {
        Shown::StoreTop | Shown::PanelOut => hours.iter_mut().for_each(|k| *k -= ZERO_CELSIUS_K),
        Shown::Absorbed => {}
        Shown::Running(mover) => hours = running_minutes(recorder, mover)?,
    }
    let months = month_spreads(&hours).map(|month| [month.least, month.mean, month.most]);
    let facts = year_map::Facts {
        title: &loaded.design.title,
        shown,
        hours: &hours,
        month_starts: &MONTH_STARTS_DAY,
        months: &months,
        units,
    };
    Some(both(|width| year_map::draw(&facts, width)))
}

/// Minutes of every hour in which the fluid was moved.
fn running_minutes(recorder: &Recorder, mover: Mover) -> Option<Vec<f64>> {
    let minutes = running(recorder, mover, 0..MINUTES_PER_YEAR)?;
    let count = |hour: &[bool]| hour.iter().filter(|&&runs| runs).count() as f64;
    Some(minutes.chunks(60).map(count).collect())
}

/// Whether the fluid was moved, minute by minute of a span.
fn running(recorder: &Recorder, mover: Mover, span: Range<usize>) -> Option<Vec<bool>> {
    let channel = match mover {
        Mover::Pump => Channel::Pump,
        Mover::Weight => Channel::Flow,
    };
    Some(recorder.series(channel)?.get(span)?.iter().map(|&runs| runs > 0.0).collect())
}

/// One day of the year, 0 the first of January, as the band under the page; `None` where it was not
/// recorded.
pub fn strip_picture(
    loaded: &Loaded,
    recorder: &Recorder,
    day: usize,
    units: Units,
) -> Option<Picture> {
    let minutes = day * 1440..(day + 1) * 1440;
    let mover = mover(loaded);
    let store_top_c: Vec<f64> = recorder
        .series(Channel::StoreTop)?
        .get(minutes.clone())?
        .iter()
        .map(|&k| f64::from(k) - ZERO_CELSIUS_K)
        .collect();
    let facts = strip::Facts {
        title: &loaded.design.title,
        date: &date(day),
        absorbed_w_m2: recorder.series(Channel::Absorbed)?.get(minutes.clone())?,
        store_top_c: &store_top_c,
        mover,
        running: &running(recorder, mover, minutes.clone())?,
        drawn_l: recorder.series(Channel::Draw)?.get(minutes)?,
        units,
    };
    Some(both(|width| strip::draw(&facts, width)))
}

/// A weekday's draws and what the sun gave them; `None` where nothing is drawn or was recorded.
///
/// # Errors
/// Where the twin's year cannot be marched.
pub fn draws_picture(
    loaded: &Loaded,
    forcing: &Forcing,
    recorder: &Recorder,
    units: Units,
) -> Result<Option<Picture>, YearError> {
    let Some(day) = draw_day(&loaded.build, forcing, recorder)? else { return Ok(None) };
    let facts = draws::Facts {
        title: &loaded.design.title,
        drawn_l: day.drawn_m3.map(|volume_m3| 1e3 * volume_m3),
        sun_share: day.sun_share,
        units,
    };
    Ok(Some(both(|width| draws::draw(&facts, width))))
}

fn irradiation(kwh_m2: f64, units: Units) -> String {
    match units {
        Units::Metric => format!("{kwh_m2:.2} kWh/m\u{b2}"),
        Units::Us => {
            let m2_ft2 = in_unit(Kind::Area, 1.0, "ft2").map_or(f64::NAN, f64::recip);
            format!("{:.3} kWh/ft\u{b2}", kwh_m2 * m2_ft2)
        }
    }
}
