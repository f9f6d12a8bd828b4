//! On the ladder, on the roof, in the loft, at the pump's plug.

use design::MountedOn;
use design::quantity::Kind as Measure;
use physics::{Angle, ZERO_CELSIUS_K};

use super::{Said, caution, quiet};
use crate::AdviceError;
use crate::worry::case::Case;
use crate::worry::finding::{Certainty, Figure, Finding, Kind, Limit, Station};
use crate::worry::words::{count, lasting, of, warm, words};

/// One out for four up.
const LADDER: Angle = Angle::from_degrees(75.0);
/// Past the landing \[m\].
const LADDER_PAST_M: f64 = 1.05;
/// No longer than this on a ladder in one place \[s\].
const LADDER_STAY_S: f64 = 30.0 * 60.0;
/// A panel stands off the slope by no more, without being asked for, in England \[m\].
const OFF_SLOPE_M: f64 = 0.2;
/// Residual current at which a breaker opens \[mA\].
const BREAKER_MA: f64 = 30.0;
/// Fuse of a small pump \[A\].
const FUSE_A: f64 = 3.0;
/// Air in which work in a loft is begun at dawn or not at all \[K\]: judgement, from lofts that reach the
/// thirties.
const LOFT_HOT_K: f64 = ZERO_CELSIUS_K + 30.0;

/// What the builder meets aloft.
pub(in crate::worry) fn look(case: &Case) -> Result<Vec<Finding>, AdviceError> {
    if case.panel().is_none() {
        return Ok(Vec::new());
    }
    Ok([Some(edge(case)), pump(case), Some(asbestos(case)), Some(loft(case))]
        .into_iter()
        .flatten()
        .collect())
}

fn edge(case: &Case) -> Finding {
    let on = case.subject.design.mount.as_ref().and_then(|mount| mount.on);
    let figures = vec![
        Figure::told("ladder", Measure::Angle, LADDER.radians()),
        Figure::told("past the landing", Measure::Length, LADDER_PAST_M),
        Figure::told("on it in one place", Measure::Time, LADDER_STAY_S),
    ];
    let said = Said(
        "Ladder guidance of the British regulator, as roofers and safety suppliers quote it; roof ladders, a builder’s page",
        Certainty::Seen,
    );
    if on == Some(MountedOn::Ground) {
        let finding = caution(
            "roof-edge",
            Station::Panel,
            "panel.mount.on",
            words!(
                "The panel stands on the ground: nobody climbs for it; for its pipes a ladder stands at {}",
                of(Measure::Angle, LADDER.radians())
            ),
            said,
        );
        return quiet(finding).figures(figures);
    }
    caution(
        "roof-edge",
        Station::Panel,
        "panel.mount.on",
        words!(
            "Falls from ladder and roof edge are what kills at this job: the ladder at {}, tied, {} past the landing, {} at most in one place; in England a panel more than {} off the slope wants planning consent",
            of(Measure::Angle, LADDER.radians()),
            of(Measure::Length, LADDER_PAST_M),
            lasting(LADDER_STAY_S),
            of(Measure::Length, OFF_SLOPE_M)
        ),
        said,
    )
    .mend(words!(
        "Scaffold or edge protection; no foot on slates, a roof ladder over three rafters hooked on the far slope; rooflights and cement sheets do not bear a foot; nothing carried on a ladder. Ask building control"
    ))
    .figures(figures)
}

fn pump(case: &Case) -> Option<Finding> {
    let pump = case.year.build.circuit.pump.as_ref()?;
    Some(
        caution(
            "mains-at-the-pump",
            Station::Circuit,
            "circuit.pump",
            words!(
                "The pump draws {}; on the mains it hangs behind a breaker of {} mA, a fuse of {} A and its earth, and a pump off the scrap heap may have neither a sound cable nor a dry winding",
                of(Measure::Power, pump.power_w),
                count(BREAKER_MA),
                count(FUSE_A)
            ),
            Said(
                "BS 7671: 30 mA for sockets outdoors, through a trade page (seen); fuse and scrap pumps are common practice",
                Certainty::Seen,
            ),
        )
        .mend(words!(
            "Mains wiring is a licensed electrician’s, and so is the look at a scrap pump; switch off before hands go into the cistern. At 12 V put a fuse at the battery: the fire is the same"
        ))
        .figures(vec![Figure::told("the pump", Measure::Power, pump.power_w)]),
    )
}

/// Where the cistern is said to be none of the old ones, the common care will do.
fn asbestos(case: &Case) -> Finding {
    let cistern = case.subject.design.facts.cistern.as_deref();
    let is_known = cistern.is_some_and(|cistern| cistern != "galvanised-cistern");
    let caution = caution(
        "asbestos",
        Station::Store,
        "store.material",
        words!(
            "In houses built before {} (the United Kingdom’s year; other countries have theirs) an old cistern, roof or soffit of cement sheet, a flue, roofing felt, lagging or textured paint may hold asbestos",
            count(2000.0)
        ),
        Said("Surveyors’ and landlords’ guidance", Certainty::Seen),
    )
    .mend(words!(
        "Do not drill, saw, sand or break it; have a piece tested by a laboratory first, and leave it to licensed people"
    ))
    .figures(vec![Figure::told("houses built before the year", Measure::Number, 2000.0)]);
    if is_known { quiet(caution) } else { caution }
}

fn loft(case: &Case) -> Finding {
    let hottest_k = case.year.forcing.hours.iter().map(|hour| hour.loft_k).fold(0.0, f64::max);
    let kind = if hottest_k > LOFT_HOT_K { Kind::Mind } else { Kind::Quiet };
    let says = words!(
        "Where the cistern stands the air comes to {} in this year; work there is hard above {}",
        warm(hottest_k),
        warm(LOFT_HOT_K)
    );
    let mut finding = caution(
        "loft-heat",
        Station::Store,
        "store.loft",
        says,
        Said(
            "Lofts reach the thirties on a July afternoon, a composite case from practice",
            Certainty::Seen,
        ),
    );
    finding.kind = kind;
    let mend = match kind {
        Kind::Quiet => words!(""),
        _ => words!(
            "Begin at dawn, boards over the joists, water to drink, and someone who knows you are up there"
        ),
    };
    finding.mend(mend).figures(vec![Figure::against(
        "hottest air around the cistern",
        Measure::Temperature,
        hottest_k,
        Limit::at_most(LOFT_HOT_K, "work in the heat begins at dawn", Certainty::Judgement),
    )])
}
