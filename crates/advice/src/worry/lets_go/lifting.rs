//! Getting it up, and down again when the roof is done anew.

use design::quantity::Kind as Measure;

use super::{on_roof, weighed};
use crate::AdviceError;
use crate::worry::case::Case;
use crate::worry::finding::{About, Certainty, Figure, Finding, Kind, Limit, Station};
use crate::worry::words::{count, of, words};

/// What a man lifts at the height of his waist, near his body \[kg\] (the British regulator's guide
/// figure, from memory; a woman 16).
const ONE_MAN_KG: f64 = 25.0;
/// Of what two can lift singly, together: two thirds (the same guide, from memory).
const TWO_SHARE: f64 = 2.0 / 3.0;
/// Years a roof's covering lasts at the least before it is laid anew (felt and fibre cement 25 to 40,
/// tiles 60, from memory).
const COVERING_YEARS: f64 = 40.0;
/// Years a panel is meant to stay (common practice).
const PANEL_YEARS: f64 = 20.0;

/// How many hands a panel takes.
pub(in crate::worry) fn hands(case: &Case) -> Result<Vec<Finding>, AdviceError> {
    let Some(weighed) = weighed(case)? else { return Ok(Vec::new()) };
    let two_kg = 2.0 * ONE_MAN_KG * TWO_SHARE;
    let (kind, mend) = if weighed.dry_kg > two_kg {
        (
            Kind::Mind,
            words!(
                "Carry box, sheet and pane up one by one and put them together there, or hoist it; no wind, the panel covered and empty, and nobody below"
            ),
        )
    } else {
        (
            Kind::Quiet,
            words!("Two lift it, never one, covered and empty, in no wind, and not from a ladder"),
        )
    };
    Ok(vec![
        Finding::new(
            About::LetsGo,
            "lifting",
            Station::Panel,
            kind,
            words!(
                "One panel weighs {} empty and {} filled, screws and flashings not counted; two people lift {} by the guide’s figure of {} for a man at waist height, and it takes two whatever it weighs",
                of(Measure::Mass, weighed.dry_kg),
                of(Measure::Mass, weighed.filled_kg),
                of(Measure::Mass, two_kg),
                of(Measure::Mass, ONE_MAN_KG)
            ),
        )
        .at("panel")
        .mend(mend)
        .figures(vec![Figure::against(
            "one panel, empty",
            Measure::Mass,
            weighed.dry_kg,
            Limit::at_most(
                two_kg,
                "Guide figures for lifting by hand of the British regulator: two lift two thirds of what they lift singly",
                Certainty::FromMemory,
            ),
        )])
        .source(
            "Guide figures for lifting by hand of the British regulator; on a roof and a ladder it is less",
            Certainty::FromMemory,
        ),
    ])
}

/// Whether the covering beneath outlasts the panel.
pub(in crate::worry) fn covering(case: &Case) -> Result<Vec<Finding>, AdviceError> {
    if case.panel().is_none() || !on_roof(case) {
        return Ok(Vec::new());
    }
    let age = case.subject.design.mount.as_ref().and_then(|mount| mount.roof_age);
    let off = words!(
        "Join the pipes with unions and put a drain below them, so that the panel comes off whole when the roof is laid anew"
    );
    let told = |kind, says| {
        Finding::new(About::LetsGo, "roof-age", Station::Panel, kind, says)
            .at("panel.mount.roof-age")
            .source("Usual lives of roof coverings and of panels", Certainty::FromMemory)
    };
    let Some(age) = age.map(f64::from) else {
        return Ok(vec![
            told(
                Kind::Mind,
                words!(
                    "Nobody said how old the roof’s covering is; a panel is meant to stay {} years, and comes off if the roof is laid anew before",
                    count(PANEL_YEARS)
                ),
            )
            .mend(words!("Ask when the roof was last laid; look at its battens and felt from inside. {}", off))
            .figures(vec![Figure::told("years a panel is to stay", Measure::Number, PANEL_YEARS)]),
        ]);
    };
    let then = age + PANEL_YEARS;
    let kind = if then > COVERING_YEARS { Kind::Mind } else { Kind::Quiet };
    Ok(vec![
        told(
            kind,
            words!(
                "The covering is {} years old and would be {} when the panel has done its {}; the shorter-lived coverings last {}",
                count(age),
                count(then),
                count(PANEL_YEARS),
                count(COVERING_YEARS)
            ),
        )
        .mend(match kind {
            Kind::Quiet => words!(""),
            _ => off,
        })
        .figures(vec![Figure::against(
            "the covering’s age at the panel’s end, years",
            Measure::Number,
            then,
            Limit::at_most(
                COVERING_YEARS,
                "the shorter-lived coverings; tiles and slates last longer",
                Certainty::FromMemory,
            ),
        )]),
    ])
}
