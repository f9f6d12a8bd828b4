//! Frost: the coldest night the build is reckoned with, clear and still.

use design::quantity::Kind as Measure;
use design::{FROST_IN_HAND_K, Winter};
use physics::circuit::Pipe;
use physics::circuit::pipe::{OUTDOOR_FILM_W_M2_K, capacity_j_m_k, loss_w_m_k};
use physics::matter::fluid::{
    Fluid, Glycol, freezing_k, mass_share_from_volume_share, properties_held,
};
use physics::panel::Panel;
use physics::sun::StatedBy;
use physics::{Build, ZERO_CELSIUS_K};
use year::ledger::KWH_J;
use year::{Channel, Upset, UpsetKind};

use super::case::{COURSE_STEP_MIN, Case, Marched, course, put, writing};
use super::finding::{About, Certainty, Figure, Finding, Kind, Limit, Remedy, Station};
use super::weather::{Spell, design_night, minutes};
use super::words::{Value, kwh, lasting, of, warm, words};
use crate::AdviceError;

/// Real winters pass the coldest hour of a typical year by so much and more \[K\] (judgement).
const TYPICAL_IN_HAND_K: f64 = 10.0;

const TABLES: &str =
    "Melinder’s tables of antifreeze; others differ by up to 2.7 K, which is kept in hand";

/// What the night does to the panel, its pump as designed and without mains.
struct Night {
    spell: Spell,
    built: Marched,
    cut: Marched,
    freezing_k: f64,
}

impl Night {
    fn of(case: &Case) -> Result<Night, AdviceError> {
        let spell = design_night(case)?;
        let span = minutes(&spell.days);
        let dead =
            Upset { events: vec![(UpsetKind::PowerCut, span.start as u32..span.end as u32)] };
        let channels = [Channel::PlateColdest];
        Ok(Night {
            built: Marched::of(&case.year.plant, &spell, &Upset::none(), &channels)?,
            cut: Marched::of(&case.year.plant, &spell, &dead, &channels)?,
            freezing_k: freezing_k(case.year.build.circuit.fluid).map_err(AdviceError::circuit)?,
            spell,
        })
    }

    /// The coldest the sheet gets \[K\]. A bought panel's curve knows of no sky: it is taken to come down
    /// to the air, and what it falls below that is in what is kept in hand.
    fn coldest_k(&self, case: &Case, marched: &Marched) -> f64 {
        let coldest_k = marched.least(Channel::PlateColdest);
        match case.panel() {
            Some(Panel::Bought(_)) => {
                coldest_k.min(case.year.build.sun.extremes.coldest_night.air_k)
            }
            _ => coldest_k,
        }
    }

    /// The first minute of the spell in which the sheet is at freezing, with its time of day.
    fn freezes_at(marched: &Marched, freezing_k: f64) -> Option<String> {
        let first = marched
            .series(Channel::PlateColdest)
            .iter()
            .position(|&plate_k| f64::from(plate_k) <= freezing_k)?;
        Some(format!("{:02}:{:02}", first % 1440 / 60, first % 60))
    }
}

/// The panel on the coldest night, pump as designed.
pub(super) fn night(case: &Case) -> Result<Vec<Finding>, AdviceError> {
    let build = &case.year.build;
    if build.panel.panels.is_empty() {
        return Ok(Vec::new());
    }
    let night = Night::of(case)?;
    let mut findings = vec![freezes(case, &night)?];
    if build.control.frost.is_some() {
        findings.push(by_pump(case, &night));
    }
    Ok(findings)
}

fn freezes(case: &Case, night: &Night) -> Result<Finding, AdviceError> {
    let build = &case.year.build;
    let air_k = build.sun.extremes.coldest_night.air_k;
    let coldest_k = night.coldest_k(case, &night.built);
    let is_water = matches!(build.circuit.fluid, Fluid::Water);
    let drained = case.subject.design.facts.winter == Winter::Drained;
    let in_hand_k = if is_water { 0.0 } else { FROST_IN_HAND_K };
    let is_typical = build.sun.extremes.coldest_night.stated_by == StatedBy::TypicalYear;
    let beyond_k = if is_typical { TYPICAL_IN_HAND_K } else { 0.0 };
    let kind = match coldest_k - night.freezing_k {
        _ if drained => Kind::Quiet,
        margin_k if margin_k >= in_hand_k + beyond_k => Kind::Quiet,
        margin_k if margin_k > 0.0 => Kind::Mind,
        _ => Kind::Stop,
    };
    let whose = match build.sun.extremes.coldest_night.stated_by {
        StatedBy::Design => "",
        StatedBy::WeatherHeader => ", by the weather file’s header,",
        StatedBy::TypicalYear => ", the coldest hour of a typical year, which real winters pass,",
    };
    let body = if is_water {
        "ice bursts tubes"
    } else {
        "slush blocks it, and solid ice bursts tubes some degrees lower"
    };
    let says = match (kind, Night::freezes_at(&night.built, night.freezing_k)) {
        _ if drained => words!(
            "On a clear night of {}{} the sheet falls to {}; the circuit is drained before frost, as the design says",
            warm(air_k),
            whose,
            warm(coldest_k)
        ),
        (Kind::Stop, at) => words!(
            "On a clear night of {}{} the sheet falls to {}; the fluid freezes at {}, at {}: {}. {}",
            warm(air_k),
            whose,
            warm(coldest_k),
            warm(night.freezing_k),
            at.unwrap_or_default(),
            body,
            pipes(build, air_k, night.freezing_k)?
        ),
        _ => words!(
            "On a clear night of {}{} the sheet falls to {}; the fluid freezes at {}, {} lower",
            warm(air_k),
            whose,
            warm(coldest_k),
            warm(night.freezing_k),
            of(Measure::Difference, coldest_k - night.freezing_k)
        ),
    };
    let limit = Limit::at_least(night.freezing_k + in_hand_k + beyond_k, TABLES, Certainty::Seen);
    Ok(Finding::new(About::Frost, "coldest-night", Station::Panel, kind, says)
        .at("circuit.fluid")
        .mend(words!(
            "Drain it before frost, every leg falling to the drain, or use antifreeze that stands this night with {} in hand{}",
            of(Measure::Difference, FROST_IN_HAND_K),
            if is_typical { ". Ask the weather service for the coldest night of many years and write sun.extremes.coldest-night" } else { "" }
        ))
        .figures(vec![
            if drained {
                Figure::told("coldest sheet", Measure::Temperature, coldest_k)
            } else {
                Figure::against("coldest sheet", Measure::Temperature, coldest_k, limit)
            },
            Figure::told("air that night", Measure::Temperature, air_k),
        ])
        .remedies(remedies(case, coldest_k - in_hand_k.max(FROST_IN_HAND_K) - beyond_k))
        .source(TABLES, Certainty::Seen)
        .course(course(
            (&night.spell, COURSE_STEP_MIN),
            words!("The sheet through the coldest night, clear and still"),
            vec![
                ("sheet, pump as designed", night.built.every(Channel::PlateColdest, COURSE_STEP_MIN)),
                ("sheet, no mains", night.cut.every(Channel::PlateColdest, COURSE_STEP_MIN)),
            ],
            vec![("the fluid freezes".to_owned(), night.freezing_k)],
        )))
}

/// Air at dusk in which an outdoor pipe begins to cool; it still has this from the day \[K\].
const DUSK_K: f64 = ZERO_CELSIUS_K + 10.0;

/// When the outdoor pipes freeze, standing in the night's air, against the panel.
fn pipes(build: &Build, air_k: f64, freezing_k: f64) -> Result<Value, AdviceError> {
    let circuit = &build.circuit;
    let outdoors = |pipe: &&Pipe| pipe.outdoor_share > 0.0;
    let mut soonest_s: Option<f64> = None;
    let lies_outdoors =
        circuit.flow_pipe.iter().chain(&circuit.return_pipe).any(|pipe| outdoors(&pipe));
    for pipe in circuit.flow_pipe.iter().chain(&circuit.return_pipe).filter(outdoors) {
        let fluid = properties_held(circuit.fluid, freezing_k).map_err(AdviceError::circuit)?;
        let loss_w_m_k = loss_w_m_k(pipe, OUTDOOR_FILM_W_M2_K).map_err(AdviceError::circuit)?;
        let time_s = cooled_after_s(capacity_j_m_k(pipe, &fluid) / loss_w_m_k, air_k, freezing_k);
        soonest_s = match (soonest_s, time_s) {
            (Some(one), Some(other)) => Some(one.min(other)),
            (one, other) => one.or(other),
        };
    }
    Ok(Value::from(match soonest_s {
        Some(time_s) => words!(
            "Outdoor pipe, from {} at dusk, is at freezing after {} in that air, its lagging notwithstanding",
            warm(DUSK_K),
            lasting(time_s)
        ),
        None if lies_outdoors => words!("The outdoor pipes do not come to freezing in that air"),
        None => words!("No pipe lies outdoors"),
    }))
}

/// Time in which standing fluid cools from dusk to freezing \[s\]; `None` where the air is no colder.
///
/// `t = tau ln((T0 - Ta)/(Tf - Ta))`, the heat of freezing left out.
fn cooled_after_s(time_constant_s: f64, air_k: f64, freezing_k: f64) -> Option<f64> {
    (air_k < freezing_k)
        .then(|| time_constant_s * ((DUSK_K - air_k) / (freezing_k - air_k)).ln().max(0.0))
}

/// A share that stands the night; draining; for water also the pump by night.
fn remedies(case: &Case, target_k: f64) -> Vec<Remedy> {
    let build = &case.year.build;
    let mut all = vec![writing(
        words!("Drain it before frost; the year is still reckoned as if it ran on"),
        "circuit.winter",
        "drained",
    )];
    let kind = match build.circuit.fluid {
        Fluid::EthyleneGlycol { .. } => Glycol::Ethylene,
        Fluid::PropyleneGlycol { .. } | Fluid::Water => Glycol::Propylene,
    };
    let place = case.subject.design.facts.share_place;
    if let Some(percent) = enough_percent(kind, place, target_k) {
        let mut edits = Vec::new();
        if place.is_none() {
            edits.push(put("circuit.fluid", "propylene-glycol"));
        }
        let place = place.unwrap_or("circuit.share-by-volume");
        edits.push(put(place, format!("{percent} %")));
        let by = if place.ends_with("mass") { "mass" } else { "volume" };
        all.push(Remedy::new(
            words!("Fill with antifreeze of {} by {}", format!("{percent} %"), by),
            edits,
        ));
    }
    if matches!(build.circuit.fluid, Fluid::Water) && build.circuit.pump.is_some() {
        all.push(writing(
            words!("Let the controller run the pump in frost, which stops with the mains"),
            "control.frost.below",
            "4 C",
        ));
    }
    all
}

/// The thinnest mixture, in whole percent as the file writes its share, that freezes at `target_k` or
/// below; `None` where none of the tables does.
fn enough_percent(kind: Glycol, place: Option<&str>, target_k: f64) -> Option<u32> {
    let by_mass = place.is_some_and(|place| place.ends_with("mass"));
    (10..=60).find(|&percent| {
        let written = f64::from(percent) / 100.0;
        let mass_share = match by_mass {
            true => Some(written),
            false => mass_share_from_volume_share(kind, written).ok(),
        };
        mass_share
            .map(|mass_share| mixture(kind, mass_share))
            .and_then(|fluid| freezing_k(fluid).ok())
            .is_some_and(|freezing_k| freezing_k <= target_k)
    })
}

fn mixture(kind: Glycol, mass_share: f64) -> Fluid {
    match kind {
        Glycol::Ethylene => Fluid::EthyleneGlycol { mass_share },
        Glycol::Propylene => Fluid::PropyleneGlycol { mass_share },
    }
}

/// What the pump's running against frost takes from the store that night, and what a power cut leaves.
fn by_pump(case: &Case, night: &Night) -> Finding {
    let ran_s: f64 = night.built.days.tallies.iter().map(|day| day.frost_s).sum();
    let took_kwh = (night.cut.days.end.store_j - night.built.days.end.store_j) / KWH_J;
    let coldest_k = night.coldest_k(case, &night.cut);
    let freezes = coldest_k <= night.freezing_k;
    let says = words!(
        "Against frost the pump runs {} through that night and takes {} out of the store; in a power cut the sheet falls to {}, the fluid freezes at {}",
        lasting(ran_s),
        kwh(took_kwh),
        warm(coldest_k),
        warm(night.freezing_k)
    );
    let kind = if freezes { Kind::Mind } else { Kind::Quiet };
    Finding::new(About::Frost, "frost-by-pump", Station::Circuit, kind, says)
        .at("control.frost")
        .mend(words!("Antifreeze, or draining, holds without mains; a wet store’s pipes freeze first where they leave the house"))
        .figures(vec![Figure::against(
            "coldest sheet in a power cut",
            Measure::Temperature,
            coldest_k,
            Limit::at_least(night.freezing_k, TABLES, Certainty::Seen),
        )])
        .source("One controller’s frost action wasted much heat and ran all night after a power spike (a builder’s report)", Certainty::Seen)
}

/// How much of the mixture water takes the place of when a circuit is topped up from the tap.
const TOPPED_UP_SHARE: f64 = 0.25;

/// A mixture thinned by topping up.
pub(super) fn thinned(case: &Case) -> Result<Vec<Finding>, AdviceError> {
    let build = &case.year.build;
    let thin = |mass_share: f64| mass_share * (1.0 - TOPPED_UP_SHARE);
    let thinner = match build.circuit.fluid {
        Fluid::Water => return Ok(Vec::new()),
        Fluid::PropyleneGlycol { mass_share } => {
            Fluid::PropyleneGlycol { mass_share: thin(mass_share) }
        }
        Fluid::EthyleneGlycol { mass_share } => {
            Fluid::EthyleneGlycol { mass_share: thin(mass_share) }
        }
    };
    if build.panel.panels.is_empty() || case.subject.design.facts.winter == Winter::Drained {
        return Ok(Vec::new());
    }
    let night = Night::of(case)?;
    let coldest_k = night.coldest_k(case, &night.built);
    let thin_k = freezing_k(thinner).map_err(AdviceError::circuit)?;
    let limit_k = thin_k + FROST_IN_HAND_K;
    let kind = if coldest_k < limit_k { Kind::Mind } else { Kind::Quiet };
    let says = words!(
        "Topped up with tap water by a quarter the mix freezes at {} instead of {}; on the coldest night the sheet falls to {}",
        warm(thin_k),
        warm(night.freezing_k),
        warm(coldest_k)
    );
    Ok(vec![
        Finding::new(About::Frost, "thinned-mix", Station::Circuit, kind, says)
            .at(case.subject.design.facts.share_place.unwrap_or("circuit.fluid"))
            .mend(words!("Top up with ready-mixed fluid; measure the mix each autumn with the scale for this glycol"))
            .figures(vec![Figure::against(
                "coldest sheet",
                Measure::Temperature,
                coldest_k,
                Limit::at_least(limit_k, TABLES, Certainty::Seen),
            )])
            .source("Mass balance; water left hanging after a flush thins the mix too (a navy’s manual)", Certainty::Seen),
    ])
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Given a pipe whose time constant is two hours, from 10 C in air of -10 C: at 0 C after two hours
    /// times ln 2, 83 minutes (by hand); never in air of 1 C.
    #[test]
    fn a_pipe_cools_by_its_time_constant() {
        let after_s = cooled_after_s(7200.0, 263.15, 273.15).unwrap();
        assert!((after_s / 60.0 - 83.18).abs() < 0.01, "{after_s}");
        assert_eq!(cooled_after_s(7200.0, 274.15, 273.15), None);
    }

    /// Law: up to 55 % by mass more antifreeze never freezes earlier, of either kind; and the thinnest
    /// mixture found for a night does stand it, while one percent less does not.
    #[test]
    fn more_antifreeze_never_freezes_earlier() {
        for kind in [Glycol::Ethylene, Glycol::Propylene] {
            let mut last_k = f64::INFINITY;
            for percent in 10..=55 {
                let now_k = freezing_k(mixture(kind, f64::from(percent) / 100.0)).unwrap();
                assert!(now_k <= last_k, "{percent} %: {now_k}");
                last_k = now_k;
            }
            let night_k = ZERO_CELSIUS_K - 18.0;
            let enough = enough_percent(kind, Some("circuit.share-by-mass"), night_k).unwrap();
            let of = |percent: u32| freezing_k(mixture(kind, f64::from(percent) / 100.0)).unwrap();
            assert!(of(enough) <= night_k && of(enough - 1) > night_k, "{enough}");
        }
    }

    /// Given a handbook's propylene glycol (a chiller handbook by volume: -12.8 C at 30 %, -20.6 C at
    /// 40 %): the mixture found for -12.8 C is 30 % and for -20.6 C 40 %, each within the 3 points by which
    /// tables differ.
    #[test]
    fn the_mixture_for_a_night_is_the_handbooks() {
        for (celsius, percent) in [(-12.8, 30_u32), (-20.6, 40)] {
            let found = enough_percent(Glycol::Propylene, None, ZERO_CELSIUS_K + celsius).unwrap();
            assert!(found.abs_diff(percent) <= 3, "{celsius} C: {found} %");
        }
    }
}
