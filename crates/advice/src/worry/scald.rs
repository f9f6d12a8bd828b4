//! Scald: the hottest water at a tap in the year, and after two weeks without a draw.

use design::MixingValve;
use design::quantity::Kind as Measure;
use physics::ZERO_CELSIUS_K;
use physics::tap::scald::{BurnTimes, scald};
use year::{Upset, UpsetKind};

use super::case::{Case, Marched, put};
use super::finding::{About, Certainty, Figure, Finding, Kind, Limit, Remedy, Station};
use super::weather::{Spell, bright_days, minutes};
use super::words::{Value, lasting, of, warm, words};
use crate::AdviceError;

/// What a bath in a new dwelling may get.
const BATH_K: f64 = ZERO_CELSIUS_K + 48.0;
/// Adults burn in seconds above it, and it is what a cylinder is set to.
const SET_K: f64 = ZERO_CELSIUS_K + 60.0;
/// What a mixing valve may never be measured above.
const MIXED_K: f64 = ZERO_CELSIUS_K + 46.0;
const BATH: &str = "Approved Document G (England): 48 C at a new dwelling’s bath; times after Moritz and Henriques 1947";
const VALVES: &str = "Scope of EN 1287 (0.1 to 1 bar) and EN 1111 (1 to 5 bar), by trade pages: what a cistern feeds needs the low-pressure class";

/// The hottest water at a tap, against skin and valve.
pub(super) fn look(case: &Case) -> Result<Vec<Finding>, AdviceError> {
    let year_k = case.year.result.build.year().tap_max_k;
    let away_k = after_two_weeks_k(case)?;
    let hottest_k = year_k.max(away_k);
    let facts = &case.subject.design.facts;
    let valve = facts.mixing_valve;
    let bare = |kind: Kind, said: &str| {
        (
            kind,
            words!("{}", said),
            words!(
                "Fit a thermostatic mixing valve of the low-pressure class before bath, basin and shower; try it each year by shutting the cold off"
            ),
        )
    };
    let unguarded = match hottest_k {
        k if k > SET_K - 0.5 => Kind::Stop,
        k if k > BATH_K => Kind::Mind,
        _ => Kind::Quiet,
    };
    let (kind, guard, mend) = match valve {
        None => bare(unguarded, "nobody said whether a mixing valve stands before the taps"),
        Some(MixingValve::None) => bare(unguarded, "no mixing valve stands before the taps"),
        Some(MixingValve::HighPressure) => bare(
            unguarded.min(Kind::Mind),
            "the mixing valve is of the high-pressure class, which cannot work on what a cistern feeds",
        ),
        Some(MixingValve::LowPressure) => {
            let mixed_k = facts.mixed_to_k.unwrap_or(MIXED_K);
            let kind = if mixed_k > MIXED_K { Kind::Mind } else { Kind::Quiet };
            (
                kind,
                words!(
                    "a low-pressure mixing valve lets {} through; {} is the most",
                    warm(mixed_k),
                    warm(MIXED_K)
                ),
                words!(
                    "Try it each year: with the cold shut off the flow must stop, or stay within {} of its setting",
                    of(Measure::Difference, 2.0)
                ),
            )
        }
    };
    let says = words!(
        "The hottest water past the heater is {} in the year and {} at the first draws after two sunny weeks away{}; {}",
        warm(year_k),
        warm(away_k),
        burns(hottest_k),
        guard
    );
    Ok(vec![
        Finding::new(About::Scald, "hottest-tap", Station::Tap, kind, says)
            .at("tap.mixing-valve")
            .mend(mend)
            .figures(figures(hottest_k, valve, facts.mixed_to_k))
            .remedies(vec![Remedy::new(
                words!("Fit a low-pressure mixing valve set to {}", warm(MIXED_K)),
                vec![put("tap.mixing-valve", "low-pressure"), put("tap.mixed-to", "46 C")],
            )])
            .source(
                if valve == Some(MixingValve::HighPressure) { VALVES } else { BATH },
                Certainty::Seen,
            ),
    ])
}

fn figures(hottest_k: f64, valve: Option<MixingValve>, mixed_to_k: Option<f64>) -> Vec<Figure> {
    let at_tap = Figure::against(
        "hottest past the heater",
        Measure::Temperature,
        hottest_k,
        Limit::at_most(BATH_K, BATH, Certainty::Seen),
    );
    if valve == Some(MixingValve::LowPressure) {
        let mixed = Figure::against(
            "let through by the mixing valve",
            Measure::Temperature,
            mixed_to_k.unwrap_or(MIXED_K),
            Limit::at_most(MIXED_K, "a scheme’s text in a valve handbook (UK)", Certainty::Seen),
        );
        return vec![
            mixed,
            Figure::told("hottest past the heater", Measure::Temperature, hottest_k),
        ];
    }
    let mut all = vec![at_tap];
    if let Some(times) = burn_times(hottest_k) {
        let child = times.of_a_child();
        all.extend(
            [
                ("blisters an adult after", times.second_degree_s),
                ("burns an adult’s whole skin after", times.third_degree_s),
                ("blisters a child after", child.second_degree_s),
                ("burns a child’s whole skin after", child.third_degree_s),
            ]
            .map(|(what, time_s)| Figure::told(what, Measure::Time, time_s)),
        );
    }
    all
}

/// Burn times of water; `None` where it burns nobody.
fn burn_times(water_k: f64) -> Option<BurnTimes> {
    // Water at a tap is not hotter than it boils.
    scald(water_k.min(ZERO_CELSIUS_K + 100.0)).ok()?.times()
}

fn burns(water_k: f64) -> Value {
    match burn_times(water_k) {
        Some(times) => words!(
            ": it blisters an adult’s skin in {} and a child’s in {}",
            lasting(times.second_degree_s.max(0.5)),
            lasting(times.of_a_child().second_degree_s.max(0.5))
        )
        .into(),
        None => words!("").into(),
    }
}

const AWAY_DAYS: usize = 14;

/// The hottest water at a tap in the two days after the sunniest two weeks without a draw \[K\].
fn after_two_weeks_k(case: &Case) -> Result<f64, AdviceError> {
    let days = bright_days(case, AWAY_DAYS + 2);
    let spell = Spell { days, forcing: case.year.forcing.clone() };
    let span = minutes(&spell.days);
    let back = span.end as u32 - 2 * 1440;
    let upset = Upset { events: vec![(UpsetKind::NoDraws, span.start as u32..back)] };
    let marched = Marched::of(&case.year.plant, &spell, &upset, &[])?;
    Ok(marched.days.tallies[AWAY_DAYS..].iter().map(|day| day.tap_max_k).fold(0.0, f64::max))
}
