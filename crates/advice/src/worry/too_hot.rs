//! It cooks itself: every part left idle in the sun, against what it is made of.

use design::quantity::Kind as Measure;
use design::{Edit, EditValue, HotPart};
use physics::ZERO_CELSIUS_K;
use year::Channel;

use super::case::{Case, Depth};
use super::finding::{About, Certainty, Figure, Finding, Kind, Limit, Remedy, Station};
use super::words::{Words, lasting, warm, words};
use crate::AdviceError;
use crate::idle::{HoursAbove, Idle, IdlePart, hours_of_series, idle, idle_hours};

/// Each part of the panel that has a limit, with the hours a year above it.
pub(super) fn look(case: &Case) -> Result<Vec<Finding>, AdviceError> {
    let design = &case.subject.design;
    let Some(found) = idle(design, &case.year.build, &case.year.forcing)? else {
        return Ok(Vec::new());
    };
    let hours = hours(case, &found)?;
    Ok(found.parts.iter().enumerate().map(|(place, part)| told(part, place, &hours)).collect())
}

/// Hours above each limit. With the pump as designed the year's own minutes tell; the years dead and dry
/// are told and decide nothing, so no remedy waits for them.
fn hours(case: &Case, found: &Idle) -> Result<HoursAbove, AdviceError> {
    let (design, year) = (&case.subject.design, case.year.parts());
    match case.depth {
        Depth::Full => idle_hours(design, year, &case.year.plant, found),
        Depth::Deciding => {
            let sheet_k = case.minutes.series(Channel::Plate).unwrap_or_default();
            let running = hours_of_series(design, year, found, sheet_k)?;
            let none = vec![0.0; running.len()];
            Ok(HoursAbove { running, pump_dead: none.clone(), dry: none })
        }
    }
}

fn told(idle: &IdlePart, place: usize, hours: &HoursAbove) -> Finding {
    let HotPart { part, place: at, material, limit_c, short_limit_c, certainty, .. } = &idle.part;
    let (running_h, dead_h, dry_h) =
        (hours.running[place], hours.pump_dead[place], hours.dry[place]);
    let kind = idle.kind(running_h);
    let hottest_k = idle.standard_k.max(idle.extreme_k);
    let certainty = if *certainty == "seen" { Certainty::Seen } else { Certainty::FromMemory };
    let source = format!("catalogue of materials, {material}");
    let limit = |celsius: f64| Limit::at_most(celsius + ZERO_CELSIUS_K, source.clone(), certainty);
    let says = if kind == Kind::Quiet {
        words!(
            "At the {} it gets {} hot, left idle in full sun; {} stands {}",
            part.clone(),
            warm(hottest_k),
            name(material),
            warm(limit_c + ZERO_CELSIUS_K)
        )
    } else {
        words!(
            "At the {} it gets {} hot, left idle in full sun as in a power cut or before filling; {} stands {} for years and {} for hours. Above what it stands for years: {} a year with the fluid running, {} with it standing, {} dry",
            part.clone(),
            warm(hottest_k),
            name(material),
            warm(limit_c + ZERO_CELSIUS_K),
            warm(short_limit_c + ZERO_CELSIUS_K),
            lasting(3600.0 * running_h),
            lasting(3600.0 * dead_h),
            lasting(3600.0 * dry_h)
        )
    };
    Finding::new(About::Boils, "part-too-hot", Station::Panel, kind, says)
        .of(part.clone())
        .at(at.clone())
        .mend(mend(kind))
        .figures(vec![
            Figure::against(
                "hottest, idle in full sun",
                Measure::Temperature,
                hottest_k,
                limit(if kind == Kind::Stop { *short_limit_c } else { *limit_c }),
            ),
            Figure::told("above its limit a year, fluid running", Measure::Time, 3600.0 * running_h),
            Figure::told("above its limit a year, fluid standing", Measure::Time, 3600.0 * dead_h),
            Figure::told("above its limit a year, dry", Measure::Time, 3600.0 * dry_h),
        ])
        .remedies(remedies(&idle.part))
        .source(
            "Service limits of the catalogue of materials, taken low on purpose; stagnation as ISO 9806 states it, and the place’s own extreme",
            certainty,
        )
}

fn mend(kind: Kind) -> Words {
    match kind {
        Kind::Stop => words!(
            "Take another material there, or keep it from the heat. Cover the panel until it is filled and running"
        ),
        Kind::Mind => words!(
            "Never leave the panel uncovered in the sun while it is dry or stands still, and look at this part after each such day"
        ),
        Kind::Quiet => words!(""),
    }
}

/// What stands more heat in that place: the common material for it, see the catalogue.
fn remedies(part: &HotPart) -> Vec<Remedy> {
    let edit =
        |to: &str| vec![Edit { place: part.place.clone(), value: EditValue::Text(to.to_owned()) }];
    let to = |says: Words, material: &str| Remedy::new(says, edit(material));
    let table = part.place.rsplit_once('.').map_or("", |(table, _)| table);
    match part.place.as_str() {
        "panel.tubes.joints" => vec![to(words!("Braze the joints"), "silver-braze")],
        "panel.outlet-lagging" => {
            vec![to(
                words!("Lag the first metre with high-temperature rubber foam"),
                "rubber-lagging",
            )]
        }
        "panel.box.sealant" => vec![to(words!("Seal with silicone"), "silicone-sealant")],
        "panel.sheet.coating" => vec![to(words!("Paint with stove paint"), "stove-paint")],
        "circuit.flow-pipe.material" => vec![to(words!("Run metal there"), "copper")],
        _ if table.starts_with("panel.back") || table == "panel.edge" => {
            vec![to(
                words!("Lay mineral wool there, inside whatever frame holds the pane"),
                "mineral-wool",
            )]
        }
        _ => Vec::new(),
    }
}

fn name(material: &str) -> String {
    material.replace('-', " ")
}
