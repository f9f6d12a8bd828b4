//! Pictures of a year.

use design::MONTHS;
use design::quantity::{Kind, Units, in_unit};
use physics::ZERO_CELSIUS_K;
use physics::climate::{MONTH_STARTS_DAY, month_of_day};
use physics::panel::Panel;
use physics::tap::Heater;
use sheets::page::Picture;
use sheets::pictures::heat_section::{self, HeaterKind, PanelMade};
use sheets::pictures::{Mover, Width, day, months, store_map};
use year::section::{HeatSection, typical_day};
use year::{Channel, Forcing, Recorder, YearResult, month_spreads};

use crate::commands::Loaded;
use crate::wire::MonthWire;

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
    /// Every channel by the minute.
    pub recorder: &'a Recorder,
    /// The reader's units.
    pub units: Units,
}

/// All pictures of a build's year, in the order of the heat; none where it has no panel.
pub fn year_pictures(shown: &YearShown) -> Vec<Picture> {
    let build = &shown.loaded.build;
    if build.panel.panels.is_empty() {
        return Vec::new();
    }
    let section = HeatSection::of(shown.result, shown.forcing, build.panel.area_m2());
    let facts = section_facts(shown.loaded, &section);
    let mut pictures = vec![
        Picture {
            wide: heat_section::draw(&facts, Width::Page),
            narrow: Some(heat_section::draw(&facts, Width::Phone)),
        },
        months_picture(shown),
    ];
    // Summer is where the sun stands high: June and July north of the line, December and January south.
    let (mid_year, year_end) = ([5, 6], [11, 0]);
    let is_north = build.sun.place.latitude.degrees() >= 0.0;
    let (summer, winter) = if is_north { (mid_year, year_end) } else { (year_end, mid_year) };
    for (season, of_months) in [(day::Season::Summer, summer), (day::Season::Winter, winter)] {
        pictures.extend(day_picture(shown, season, of_months));
    }
    pictures.extend(store_picture(shown));
    pictures
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

fn mover(shown: &YearShown) -> Mover {
    match shown.loaded.build.circuit.pump {
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
        running_hours: match mover(shown) {
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
        mover: mover(shown),
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
    let month = month_of_day(at_day);
    let facts = day::Facts {
        title: &shown.loaded.design.title,
        season,
        date: format!("{} {}", at_day - MONTH_STARTS_DAY[month] + 1, MONTHS[month]),
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
        mover: mover(shown),
        running: series(match mover(shown) {
            Mover::Pump => Channel::Pump,
            Mover::Weight => Channel::Flow,
        })?
        .iter()
        .map(|&runs| runs > 0.0)
        .collect(),
        drawn_l: &drawn_l[at_day * 24..(at_day + 1) * 24],
        units: shown.units,
    };
    Some(Picture {
        wide: day::draw(&facts, Width::Page),
        narrow: Some(day::draw(&facts, Width::Phone)),
    })
}

fn store_picture(shown: &YearShown) -> Option<Picture> {
    let hours_k = shown.recorder.hours(Channel::StoreTop)?;
    let hours_c: Vec<f64> = hours_k.iter().map(|k| k - ZERO_CELSIUS_K).collect();
    let months_c = month_spreads(&hours_c).map(|month| [month.least, month.mean, month.most]);
    let facts = store_map::Facts {
        title: &shown.loaded.design.title,
        store_top_c: &hours_c,
        month_starts: &MONTH_STARTS_DAY,
        months_c: &months_c,
        units: shown.units,
    };
    Some(Picture {
        wide: store_map::draw(&facts, Width::Page),
        narrow: Some(store_map::draw(&facts, Width::Phone)),
    })
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
