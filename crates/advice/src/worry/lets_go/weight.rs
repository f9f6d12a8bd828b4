//! The roof carries it: the panel's dead load against the covering's own, and the snow it holds back.

use design::quantity::Kind as Measure;
use physics::making::snow::{Sliding, SnowRoof, roof_snow_n_m2};
use physics::making::weight::dead_load_n_m2;

use super::{on_roof, weighed};
use crate::AdviceError;
use crate::worry::case::Case;
use crate::worry::finding::{About, Certainty, Figure, Finding, Kind, Limit, Station};
use crate::worry::words::{of, percent, words};

/// Load added to a roof from which England and Wales call it a material alteration, as a share of what
/// its covering weighs.
const ALTERATION_SHARE: f64 = 0.15;
const ALTERATION: &str =
    "Building control bodies of England and Wales: 15 % more load is a material alteration";

/// The panel's dead load against that of the roof's covering.
pub(in crate::worry) fn dead(case: &Case) -> Result<Vec<Finding>, AdviceError> {
    let (true, Some(weighed)) = (on_roof(case), weighed(case)?) else { return Ok(Vec::new()) };
    let dead_n_m2 =
        dead_load_n_m2(weighed.filled_kg, weighed.area_m2).map_err(AdviceError::panel)?;
    let covering = case.subject.design.mount.as_ref().and_then(|mount| mount.roof_load_n_m2);
    let told = |kind, says| {
        Finding::new(About::LetsGo, "roof-load", Station::Panel, kind, says)
            .at("panel.mount.roof-load")
            .source(ALTERATION, Certainty::Seen)
    };
    let Some(covering_n_m2) = covering else {
        return Ok(vec![
            told(
                Kind::Mind,
                words!(
                    "A filled panel weighs {} and puts {} on the roof; nobody said what the roof’s covering weighs, which decides whether building control has to be asked",
                    of(Measure::Mass, weighed.filled_kg),
                    of(Measure::Pressure, dead_n_m2)
                ),
            )
            .mend(words!(
                "Find out what the covering weighs: slates about {}, concrete tiles about {} (from memory), write panel.mount.roof-load, and ask building control",
                of(Measure::Pressure, 300.0),
                of(Measure::Pressure, 550.0)
            ))
            .figures(vec![
                Figure::told("dead load of a filled panel", Measure::Pressure, dead_n_m2),
                Figure::told("one panel, filled", Measure::Mass, weighed.filled_kg),
            ]),
        ]);
    };
    let share = dead_n_m2 / covering_n_m2;
    let kind = if share >= ALTERATION_SHARE { Kind::Mind } else { Kind::Quiet };
    let mend = match kind {
        Kind::Quiet => words!(""),
        _ => words!(
            "Ask building control before it goes up, in England and Wales as in any other country by its own rule, and have the rafters under it looked at"
        ),
    };
    Ok(vec![
        told(
            kind,
            words!(
                "A filled panel adds {} to a covering of {} where it lies: {} more, and from {} on England and Wales call that a material alteration",
                of(Measure::Pressure, dead_n_m2),
                of(Measure::Pressure, covering_n_m2),
                percent(share),
                percent(ALTERATION_SHARE)
            ),
        )
        .mend(mend)
        .figures(vec![
            Figure::against(
                "load added, of the covering’s own",
                Measure::Share,
                share,
                Limit::at_most(ALTERATION_SHARE, ALTERATION, Certainty::Seen),
            ),
            Figure::told("dead load of a filled panel", Measure::Pressure, dead_n_m2),
        ]),
    ])
}

/// Snow that would slide off the roof and is held back by the panel's frame.
pub(in crate::worry) fn snow(case: &Case) -> Result<Vec<Finding>, AdviceError> {
    if case.panel().is_none() || !on_roof(case) {
        return Ok(Vec::new());
    }
    let sun = &case.year.build.sun;
    let told = |kind, says| {
        Finding::new(About::LetsGo, "snow-held", Station::Panel, kind, says)
            .at("sun.extremes.ground-snow")
            .source(
                "EN 1991-1-3, table 5.2 and clause 5.3.3: a screening; drifts are left out",
                Certainty::Seen,
            )
    };
    let Some(ground_n_m2) = sun.extremes.ground_snow_pa else {
        return Ok(vec![
            told(
                Kind::Mind,
                words!(
                    "Nobody said how much snow lies there, so none is reckoned on the panel; at {} of slope its frame holds back what would slide off a bare roof",
                    of(Measure::Angle, sun.plane.tilt.radians())
                ),
            )
            .mend(words!(
                "Look up the place’s snow on the ground, in lowland Britain {} to {} (from memory), and write sun.extremes.ground-snow",
                of(Measure::Pressure, 400.0),
                of(Measure::Pressure, 800.0)
            ))
            .figures(vec![Figure::told("slope", Measure::Angle, sun.plane.tilt.radians())]),
        ]);
    };
    let on_plan = |sliding| {
        let roof = SnowRoof {
            ground_n_m2,
            pitch: sun.plane.tilt,
            sliding,
            exposure_factor: 1.0,
            thermal_factor: 1.0,
        };
        roof_snow_n_m2(&roof).map_err(AdviceError::panel)
    };
    let (held_n_m2, free_n_m2) = (on_plan(Sliding::Held)?, on_plan(Sliding::Free)?);
    let more_n_m2 = held_n_m2 - free_n_m2;
    let kind = if more_n_m2 > 1.0 { Kind::Mind } else { Kind::Quiet };
    let mend = match kind {
        Kind::Quiet => words!(""),
        _ => words!(
            "Have the roof looked at for that load under and above the panel, and keep people from below it after snow: it comes down at once"
        ),
    };
    Ok(vec![
        told(
            kind,
            words!(
                "Snow of {} on the ground puts {} on each square metre of plan where the panel holds it, {} more than a bare roof of {} would carry (characteristic)",
                of(Measure::Pressure, ground_n_m2),
                of(Measure::Pressure, held_n_m2),
                of(Measure::Pressure, more_n_m2),
                of(Measure::Angle, sun.plane.tilt.radians())
            ),
        )
        .mend(mend)
        .figures(vec![
            Figure::against(
                "snow held back, on plan",
                Measure::Pressure,
                held_n_m2,
                Limit::at_most(
                    free_n_m2,
                    "EN 1991-1-3, what a bare roof of that slope carries",
                    Certainty::Seen,
                ),
            ),
            Figure::told("snow on the ground", Measure::Pressure, ground_n_m2),
        ]),
    ])
}
