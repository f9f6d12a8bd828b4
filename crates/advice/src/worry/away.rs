//! Nobody at home for two weeks in the sunniest spell: the cistern day by day, and its discharge.

use design::catalogue::materials::material;
use design::quantity::Kind as Measure;
use physics::ZERO_CELSIUS_K;
use physics::control::StoreProbePlace;
use physics::store::OverheatDischarge;
use year::ledger::KWH_J;
use year::{Channel, Plant, Upset, UpsetKind};

use super::case::{Case, Marched, celsius_down, course, put, writing};
use super::finding::{About, Certainty, Figure, Finding, Kind, Limit, Remedy, Station};
use super::weather::{Spell, bright_days, minutes};
use super::words::{Words, count, kwh, lasting, of, warm, words};
use crate::AdviceError;

/// Two weeks are drawn by the hour \[min\].
const HOUR_MIN: usize = 60;
/// Days away.
const DAYS: usize = 14;
/// What a cistern is taken for where nobody says: the usual one, and the one that stands least.
const USUAL_CISTERN: &str = "polyethylene-cistern";
/// Above a plastic's continuous limit for longer than this in a fortnight it is in service so \[s\]: its
/// short limit is said to hold for hours, not days.
const HOURS_NOT_DAYS_S: f64 = 24.0 * 3600.0;
const CISTERNS: &str = "Two deaths under plastic cisterns that overheated (safety regulator’s alert, UK 2008); limits of the catalogue";

fn spell(case: &Case) -> Spell {
    Spell { days: bright_days(case, DAYS), forcing: case.year.forcing.clone() }
}

fn upset(spell: &Spell, wrong: Option<UpsetKind>) -> Upset {
    let span = minutes(&spell.days);
    let span = span.start as u32..span.end as u32;
    let all = std::iter::once(UpsetKind::NoDraws).chain(wrong);
    Upset { events: all.map(|kind| (kind, span.clone())).collect() }
}

/// What the cistern stands.
struct Stands {
    name: String,
    service_k: f64,
    short_k: f64,
    source: String,
    certainty: Certainty,
}

fn stands(case: &Case) -> Stands {
    let said = case.subject.design.facts.cistern.as_deref();
    let id = said.unwrap_or(USUAL_CISTERN);
    let known = material(id);
    let service_c = known.and_then(|known| known.t_service_c).unwrap_or(55.0);
    // Water does not get hotter than it boils, and metal is not the limit then.
    let short_c = known.and_then(|known| known.t_short_c).unwrap_or(100.0);
    let seen = known.is_some_and(|known| known.seen.iter().any(|seen| seen.starts_with("t_s")));
    Stands {
        name: match said {
            Some(_) => id.replace('-', " "),
            None => format!("{} (nobody said; the usual one)", id.replace('-', " ")),
        },
        service_k: service_c.min(100.0) + ZERO_CELSIUS_K,
        short_k: short_c.min(100.0) + ZERO_CELSIUS_K,
        source: format!("catalogue of materials, {id}"),
        certainty: if seen { Certainty::Seen } else { Certainty::FromMemory },
    }
}

/// The store as it is built, and with its discharge stuck shut.
pub(super) fn hot(case: &Case) -> Result<Vec<Finding>, AdviceError> {
    if case.year.build.panel.panels.is_empty() {
        return Ok(Vec::new());
    }
    let spell = spell(case);
    let built = Fortnight::of(case, &spell, None)?;
    let mut findings = vec![built.told(case, &spell, Wrong::Nothing)];
    if case.year.build.store.overheat.is_some() {
        let shut = Fortnight::of(case, &spell, Some(UpsetKind::DischargeShut))?;
        // Where the valve never opens, that it sticks says nothing.
        if shut.hottest_k > built.hottest_k + 0.5 {
            findings.push(shut.told(case, &spell, Wrong::Discharge));
        }
    }
    Ok(findings)
}

/// What fails in the two weeks.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Wrong {
    Nothing,
    Discharge,
    Pump,
    Probe,
}

/// The store with its limit failed: the pump cannot stop, or the store's probe hangs in the loft.
pub(super) fn limit_fails(case: &Case) -> Result<Vec<Finding>, AdviceError> {
    let build = &case.year.build;
    if case.year.plant.flow.is_none() {
        return Ok(Vec::new());
    }
    let spell = spell(case);
    let stuck = Fortnight::of(case, &spell, Some(UpsetKind::PumpStuckOn))?;
    let mut fallen = build.clone();
    fallen.control.store_probe_place = StoreProbePlace::LoftAir;
    let plant = case.year.plant.again(build, &fallen)?;
    let fallen = Fortnight::marched(case, &plant, &spell, None)?;
    let (worse, wrong) = match fallen.hottest_k > stuck.hottest_k {
        true => (fallen, Wrong::Probe),
        false => (stuck, Wrong::Pump),
    };
    Ok(vec![worse.told(case, &spell, wrong)])
}

/// A fortnight without a draw.
struct Fortnight {
    marched: Marched,
    hottest_k: f64,
    /// First day on which it stood above the cistern's continuous limit, 1 for the first; and how long
    /// in all \[s\].
    above: Option<(usize, f64)>,
    let_go_m3: f64,
}

impl Fortnight {
    fn of(case: &Case, spell: &Spell, wrong: Option<UpsetKind>) -> Result<Fortnight, AdviceError> {
        Fortnight::marched(case, &case.year.plant, spell, wrong)
    }

    fn marched(
        case: &Case,
        plant: &Plant,
        spell: &Spell,
        wrong: Option<UpsetKind>,
    ) -> Result<Fortnight, AdviceError> {
        let upset = upset(spell, wrong);
        let marched = Marched::of(plant, spell, &upset, &[Channel::StoreTop])?;
        let service_k = stands(case).service_k;
        let top_k = marched.series(Channel::StoreTop);
        let above = |&top_k: &f32| f64::from(top_k) > service_k;
        let first = top_k.iter().position(above);
        let minutes = top_k.iter().filter(|k| above(k)).count();
        Ok(Fortnight {
            hottest_k: marched.most(Channel::StoreTop),
            above: first.map(|minute| (minute / 1440 + 1, 60.0 * minutes as f64)),
            let_go_m3: marched.days.tallies.iter().map(|day| day.dumped_m3).sum(),
            marched,
        })
    }

    fn told(&self, case: &Case, spell: &Spell, wrong: Wrong) -> Finding {
        let stands = stands(case);
        let kind = match self.above {
            _ if self.hottest_k > stands.short_k => Kind::Stop,
            // A part that fails does not fail every year: then it is the limit for hours that stops.
            Some((_, above_s)) if wrong == Wrong::Nothing && above_s > HOURS_NOT_DAYS_S => {
                Kind::Stop
            }
            Some(_) => Kind::Mind,
            None => Kind::Quiet,
        };
        let (code, opening) = match wrong {
            Wrong::Nothing => ("away-hot-store", "Two weeks without a draw in the sunniest spell"),
            Wrong::Discharge => (
                "away-discharge-shut",
                "Two weeks without a draw in the sunniest spell, the overheat discharge stuck shut,",
            ),
            Wrong::Pump => (
                "away-limit-fails",
                "Two weeks without a draw in the sunniest spell, the pump unable to stop,",
            ),
            Wrong::Probe => (
                "away-limit-fails",
                "Two weeks without a draw in the sunniest spell, the store’s probe fallen into the loft,",
            ),
        };
        let let_go = match self.let_go_m3 {
            let_go_m3 if let_go_m3 > 0.0 => {
                words!("; the discharge lets {} of hot water go", of(Measure::Volume, let_go_m3))
            }
            _ => words!(""),
        };
        let says = match self.above {
            None => words!(
                "{} warm the store to {} at most; {} stands {}{}",
                opening,
                warm(self.hottest_k),
                stands.name,
                warm(stands.service_k),
                let_go
            ),
            Some((day, above_s)) => words!(
                "{} warm the store to {}: from day {} on, {} in all, above the {} that {} stands for years; for hours it stands {}{}",
                opening,
                warm(self.hottest_k),
                count(day as f64),
                lasting(above_s),
                warm(stands.service_k),
                stands.name,
                warm(stands.short_k),
                let_go
            ),
        };
        let limit_k = if kind == Kind::Stop && self.hottest_k > stands.short_k {
            stands.short_k
        } else {
            stands.service_k
        };
        let cool_k = stands.service_k - COOLER_BY_K;
        Finding::new(About::Away, code, Station::Store, kind, says)
            .at("control.store-limit")
            .mend(mend(case, wrong))
            .figures(vec![
                Figure::against(
                    "hottest water in the store",
                    Measure::Temperature,
                    self.hottest_k,
                    Limit::at_most(limit_k, stands.source, stands.certainty),
                ),
                Figure::told(
                    "above what the cistern stands for years",
                    Measure::Time,
                    self.above.map_or(0.0, |(_, above_s)| above_s),
                ),
                Figure::told("let go by the discharge", Measure::Volume, self.let_go_m3),
            ])
            .remedies(remedies(case, wrong, cool_k))
            .source(CISTERNS, Certainty::Seen)
            .course(course(
                (spell, HOUR_MIN),
                words!("The store’s top through two weeks without a draw"),
                vec![("top of the store", self.marched.every(Channel::StoreTop, HOUR_MIN))],
                vec![
                    ("the cistern, for years".to_owned(), stands.service_k),
                    ("the cistern, for hours".to_owned(), stands.short_k),
                ],
            ))
    }
}

fn mend(case: &Case, wrong: Wrong) -> Words {
    match (case.year.plant.flow.is_some(), wrong) {
        (false, _) => words!(
            "Cover the panel before you leave; a discharge by its own thermostat lets hot water go when you forget"
        ),
        (true, Wrong::Pump | Wrong::Probe) => words!(
            "Put a second thermostat on the store into the pump’s supply, which needs no probe and no controller; cover the panel before you leave"
        ),
        (true, _) => words!(
            "Let the controller stop the pump on a hot store, with a second thermostat in the pump’s supply; cover the panel before you leave"
        ),
    }
}

/// A lower limit, where a pump heeds one; where the limit itself failed, a discharge that needs none.
fn remedies(case: &Case, wrong: Wrong, cool_k: f64) -> Vec<Remedy> {
    let limited = case.year.plant.flow.is_some() && !matches!(wrong, Wrong::Pump | Wrong::Probe);
    if limited {
        return vec![writing(
            words!("Set the store’s limit to {}", warm(cool_k)),
            "control.store-limit",
            celsius_down(cool_k),
        )];
    }
    if case.year.build.store.overheat.is_some() {
        return Vec::new();
    }
    vec![Remedy::new(
        words!("Fit a discharge that opens at {} by itself", warm(cool_k)),
        vec![
            put("store.overheat.open", celsius_down(cool_k)),
            put("store.overheat.close", celsius_down(cool_k - 5.0)),
            put("store.overheat.flow", "4 l/min"),
        ],
    )]
}

/// A limit is set so far under what the cistern stands: the store's top is warmer than its probe \[K\].
const COOLER_BY_K: f64 = 8.0;

/// The discharge: stuck open it lets mains through without end; open it lets hot water land.
pub(super) fn discharge(case: &Case) -> Result<Vec<Finding>, AdviceError> {
    let Some(valve) = case.year.build.store.overheat else { return Ok(Vec::new()) };
    let spell = spell(case);
    let open = Fortnight::of(case, &spell, Some(UpsetKind::DischargeOpen))?;
    Ok(vec![stuck_open(&valve, open.let_go_m3), lands(case, &valve)])
}

fn stuck_open(valve: &OverheatDischarge, let_go_m3: f64) -> Finding {
    let a_day_m3 = let_go_m3 / DAYS as f64;
    let says = words!(
        "Should the overheat discharge stick open at {}, the ball valve refills without end: {} a day, {} in two weeks",
        of(Measure::Flow, valve.flow_m3_s),
        of(Measure::Volume, a_day_m3),
        of(Measure::Volume, let_go_m3)
    );
    // A single part that sticks, and a drain that is built for it: told, for whoever closes the house.
    Finding::new(About::Away, "discharge-stuck-open", Station::Store, Kind::Quiet, says)
        .at("store.overheat.flow")
        .mend(words!("Shut the cistern’s supply before a holiday once the panel is covered; let the drain take more than the valve gives"))
        .figures(vec![Figure::told("mains water a day", Measure::Volume, a_day_m3)])
        .source("Flow of the valve, all day", Certainty::CommonPractice)
}

fn lands(case: &Case, valve: &OverheatDischarge) -> Finding {
    let hottest_k = valve.open_k.max(case.year.result.build.year().store_max_k);
    let times = physics::tap::scald::scald(hottest_k).ok().and_then(|scald| scald.times());
    let burns = match times {
        Some(times) => words!(", which burns skin in {}", lasting(times.second_degree_s.max(1.0))),
        None => words!(""),
    };
    Finding::new(
        About::Away,
        "discharge-lands",
        Station::Store,
        Kind::Quiet,
        words!("The discharge lets water of {} and more out{}", warm(hottest_k), burns),
    )
    .at("store.overheat.open")
    .mend(words!("Lead it in metal pipe, falling all the way, to where it can be seen and nobody stands; never onto a roof’s felt or a path"))
    .figures(vec![Figure::told("water let out", Measure::Temperature, hottest_k)])
    .source("Approved Document G3, discharge pipes (England), by common practice", Certainty::FromMemory)
}

/// Heat that evaporates a kilogram of warm water \[J/kg\] (steam tables, 50 C).
const EVAPORATION_J_KG: f64 = 2.38e6;
/// Water in the loft's air above which a day of it is worth a look \[kg\]: what a person breathes and
/// sweats out (judgement).
const DAMP_KG_DAY: f64 = 1.0;

/// Heat and damp that the warm cistern gives the roof space.
pub(super) fn loft(case: &Case) -> Result<Vec<Finding>, AdviceError> {
    if case.year.build.panel.panels.is_empty() {
        return Ok(Vec::new());
    }
    let spell = spell(case);
    let marched = Marched::of(&case.year.plant, &spell, &upset(&spell, None), &[])?;
    let sum = |of: fn(&year::Tally) -> f64| marched.days.tallies.iter().map(of).sum::<f64>();
    let vapour_kg = (sum(|day| day.flows().evaporation_j) / EVAPORATION_J_KG).max(0.0);
    let heat_kwh = sum(|day| day.flows().store_loss_j) / KWH_J;
    let daily_kg = vapour_kg / DAYS as f64;
    let (kind, mend) = if daily_kg > DAMP_KG_DAY {
        (Kind::Mind, words!("Fit a close lid, and leave the loft’s own ventilation open"))
    } else {
        (Kind::Quiet, words!(""))
    };
    let says = words!(
        "In the same two weeks the store gives the roof space {} of heat and {} of vapour a day; a day’s breath of one person is {}",
        kwh(heat_kwh),
        of(Measure::Mass, daily_kg),
        of(Measure::Mass, DAMP_KG_DAY)
    );
    Ok(vec![
        Finding::new(About::Away, "loft-damp", Station::Store, kind, says)
            .at("store.lid-gap")
            .mend(mend)
            .figures(vec![Figure::against(
                "vapour a day",
                Measure::Mass,
                daily_kg,
                Limit::at_most(DAMP_KG_DAY, "judgement", Certainty::Judgement),
            )])
            .remedies(vec![writing(words!("Fit a close lid"), "store.lid-gap", "close")])
            .source(
                "Evaporation through the lid’s gap, by the store’s own relation",
                Certainty::Judgement,
            ),
    ])
}

/// How far a board has to reach beyond a plastic cistern \[m\].
const BEYOND_M: f64 = 0.150;

/// The board under the cistern, and what it carries.
pub(super) fn board(case: &Case) -> Result<Vec<Finding>, AdviceError> {
    let facts = &case.subject.design.facts;
    let store = &case.year.build.store;
    let is_plastic = facts.cistern.as_deref().is_none_or(|name| name.starts_with("poly"));
    let mass_kg = 1000.0 * store.volume_m3;
    let weight = of(Measure::Mass, mass_kg);
    let wanted = of(Measure::Length, BEYOND_M);
    let source = "Approved Document G (England): a flat rigid platform 150 mm beyond the cistern on all sides; two deaths where a base overhung its board";
    let limit = Limit::at_least(BEYOND_M, source, Certainty::Seen);
    let (kind, says, computed_m) = match facts.board_beyond_m {
        Some(beyond_m) if beyond_m >= BEYOND_M => (
            Kind::Quiet,
            words!(
                "The board reaches {} beyond the cistern, which is {} of water; {} is asked",
                of(Measure::Length, beyond_m),
                weight,
                wanted
            ),
            Some(beyond_m),
        ),
        Some(beyond_m) if is_plastic => (
            Kind::Stop,
            words!(
                "The board reaches {} beyond the base, and {} is asked: a warm plastic base creeps over an edge and tears, with {} of hot water over the rooms",
                of(Measure::Length, beyond_m),
                wanted,
                weight
            ),
            Some(beyond_m),
        ),
        Some(beyond_m) => (
            Kind::Mind,
            words!(
                "The board reaches {} beyond the cistern, and {} is asked; it carries {} of water",
                of(Measure::Length, beyond_m),
                wanted,
                weight
            ),
            Some(beyond_m),
        ),
        None => (
            Kind::Mind,
            words!(
                "Nobody said how far the board reaches beyond the cistern: {} on every side is asked, under {} of water",
                wanted,
                weight
            ),
            None,
        ),
    };
    let figures = match computed_m {
        Some(beyond_m) => {
            vec![Figure::against("board beyond the base", Measure::Length, beyond_m, limit)]
        }
        None => vec![Figure::told("water on it", Measure::Mass, mass_kg)],
    };
    Ok(vec![
        Finding::new(About::Away, "cistern-board", Station::Store, kind, says)
            .at("store.board-beyond")
            .mend(words!("Lay it on a flat, rigid board that reaches {} beyond it all round and rests on walls, not on the middle of ceiling joists; ask building control what the joists carry", wanted_again()))
            .figures(figures)
            .remedies(vec![writing(words!("Lay a larger board"), "store.board-beyond", "150 mm")])
            .source(source, Certainty::Seen),
    ])
}

fn wanted_again() -> super::words::Value {
    of(Measure::Length, BEYOND_M)
}
