//! Sheet, tubes, cover and frame grow, each against the room it has.

use design::quantity::Kind as Measure;
use physics::making::stretch::growth_m;
use physics::panel::{TubePattern, Tubes};

use super::{Warm, expansion_1_k, millimetres_up};
use crate::AdviceError;
use crate::worry::case::{Case, writing};
use crate::worry::finding::{About, Certainty, Figure, Finding, Kind, Limit, Station};
use crate::worry::words::{Words, of, warm, words};

/// Silicone in a joint six millimetres wide gives a quarter of that, each way, on each of two sides
/// \[m\] (movement class 25 of ISO 11600; from memory).
const SEAL_GIVES_M: f64 = 2.0 * 0.25 * 0.006;
/// What makers of acrylic ask to be left in the rebate, for each metre \[m/m\] (5 to 6 mm; seen).
const MAKERS_LEAVE: f64 = 0.006;
/// Growth of aluminium angle \[1/K\] (catalogue of materials, from memory).
const ALUMINIUM_1_K: f64 = 23.5e-6;
/// A screw's hole drilled over by so much \[m\] (common practice).
const HOLE_GIVES_M: f64 = 1e-3;
/// Strain at which annealed copper gives way: 50 MPa over 120 GPa (both from memory).
const COPPER_YIELDS: f64 = 50e6 / 120e9;
/// A bond as good as this is rigid: soldered along its length \[W/(m K)\].
const RIGID_W_M_K: f64 = 50.0;

const GROWTH: &str = "Free growth alpha L dT, coefficients of the catalogue of materials, from the coldest night reckoned with to the panel idle in full sun";

/// What of a panel made at home grows, and the room it has.
pub(in crate::worry) fn look(case: &Case) -> Result<Vec<Finding>, AdviceError> {
    let Some(warm) = Warm::of(case)? else { return Ok(Vec::new()) };
    let found =
        [sheet(case, &warm)?, tubes(case, &warm)?, cover(case, &warm)?, frame(case, &warm)?];
    Ok(found.into_iter().flatten().collect())
}

fn told(code: &'static str, kind: Kind, place: &str, says: Words, is_seen: bool) -> Finding {
    let certainty = if is_seen { Certainty::Seen } else { Certainty::FromMemory };
    Finding::new(About::Moves, code, Station::Panel, kind, says).at(place).source(GROWTH, certainty)
}

fn grows(expansion: f64, length_m: f64, by_k: f64) -> Result<f64, AdviceError> {
    growth_m(expansion, length_m, by_k).map_err(AdviceError::panel)
}

/// The sheet between the walls of its box. Its pipes may hold it at one end, so one gap has to do.
fn sheet(case: &Case, hot: &Warm) -> Result<Option<Finding>, AdviceError> {
    let material = case.subject.design.material("panel.sheet.material");
    let Some((expansion, is_seen)) = material.and_then(expansion_1_k) else { return Ok(None) };
    let Some(room_m) = hot.built.walls.map(|walls| walls.rim_gap_m) else { return Ok(None) };
    let by_m = grows(expansion, hot.longest_m(), hot.parts.sheet_k - hot.coldest_k)?;
    let kind = match by_m {
        by_m if by_m > 2.0 * room_m => Kind::Stop,
        by_m if by_m > room_m => Kind::Mind,
        _ => Kind::Quiet,
    };
    let mend = match kind {
        Kind::Quiet => words!(
            "Hold it at one point only, and let the pipes’ holes in the box be wider by that much"
        ),
        _ => words!(
            "Leave more room round the sheet, and hold it at one point only: pinched at both ends it buckles and tears its seams"
        ),
    };
    let remedy = writing(
        words!("Leave {} round the sheet", of(Measure::Length, by_m)),
        "panel.box.rim-gap",
        millimetres_up(by_m),
    );
    Ok(Some(
        told(
            "sheet-grows",
            kind,
            "panel.box.rim-gap",
            words!(
                "The sheet grows by {} over {} from {} to {}; round it there is {}",
                of(Measure::Length, by_m),
                of(Measure::Length, hot.longest_m()),
                warm(hot.coldest_k),
                warm(hot.parts.sheet_k),
                of(Measure::Length, room_m)
            ),
            is_seen,
        )
        .mend(mend)
        .figures(vec![Figure::against(
            "growth of the sheet",
            Measure::Length,
            by_m,
            Limit::at_most(
                room_m,
                "the gap round the sheet, all of it on one side",
                Certainty::Judgement,
            ),
        )])
        .remedies(vec![remedy]),
    ))
}

/// Tubes that grow otherwise than the sheet they are fixed to.
fn tubes(case: &Case, hot: &Warm) -> Result<Option<Finding>, AdviceError> {
    let design = &case.subject.design;
    let of_part = |place| design.material(place).and_then(expansion_1_k);
    let both = of_part("panel.tubes.material").zip(of_part("panel.sheet.material"));
    let (Some(tubes), Some(((tube, one_seen), (sheet, other_seen)))) = (hot.built.tubes(), both)
    else {
        return Ok(None);
    };
    let length_m = straight_m(tubes, hot);
    let by_k = hot.parts.sheet_k - hot.coldest_k;
    let apart_m = grows((tube - sheet).abs(), length_m, by_k)?;
    let gives_m = COPPER_YIELDS * length_m;
    let is_rigid = tubes.bond_w_m_k >= RIGID_W_M_K;
    let kind = if is_rigid && apart_m > gives_m { Kind::Mind } else { Kind::Quiet };
    let figure = "tube and sheet grow apart";
    let figure = match is_rigid {
        true => Figure::against(
            figure,
            Measure::Length,
            apart_m,
            Limit::at_most(
                gives_m,
                "the strain at which annealed copper gives way",
                Certainty::FromMemory,
            ),
        ),
        false => Figure::told(figure, Measure::Length, apart_m),
    };
    let says = if !is_rigid {
        words!(
            "Tube and sheet grow apart by {} over {}; their bond lets the tube slide",
            of(Measure::Length, apart_m),
            of(Measure::Length, length_m)
        )
    } else if apart_m == 0.0 {
        words!(
            "Tube and sheet are of one metal and grow alike, {} over {}",
            of(Measure::Length, grows(tube, length_m, by_k)?),
            of(Measure::Length, length_m)
        )
    } else {
        words!(
            "Tube and sheet grow apart by {} over {}; annealed copper held rigidly gives way at {}",
            of(Measure::Length, apart_m),
            of(Measure::Length, length_m),
            of(Measure::Length, gives_m)
        )
    };
    let mend = match kind {
        Kind::Quiet => words!(""),
        _ => words!("Clamp the tube so that it can slide, or take one metal for both"),
    };
    Ok(Some(
        told("sheet-and-tubes", kind, "panel.tubes.material", says, one_seen && other_seen)
            .mend(mend)
            .figures(vec![figure]),
    ))
}

/// The longest straight length of tube on the sheet \[m\].
fn straight_m(tubes: &Tubes, hot: &Warm) -> f64 {
    match &tubes.pattern {
        TubePattern::Serpentine { leg_length_m, .. } => *leg_length_m,
        TubePattern::Harp { riser_length_m, .. } => *riser_length_m,
        TubePattern::Route { .. } => hot.longest_m(),
    }
}

/// The cover in its rebate, less what the frame grows with it.
fn cover(case: &Case, hot: &Warm) -> Result<Option<Finding>, AdviceError> {
    let design = &case.subject.design;
    let Some(material) = design.material("panel.cover.material") else { return Ok(None) };
    let (Some((expansion, is_seen)), Some((inside_k, outside_k))) =
        (expansion_1_k(material), hot.cover_k())
    else {
        return Ok(None);
    };
    let rim_m = hot.built.edge.layer.thickness_m;
    let length_m = hot.longest_m() + 2.0 * rim_m;
    let mean_k = 0.5 * (inside_k + outside_k);
    let frame = design.material("panel.edge.material").and_then(expansion_1_k);
    let frame_m = match frame {
        Some((frame, _)) => grows(frame, length_m, hot.parts.edge_k.1 - hot.coldest_k)?,
        None => 0.0,
    };
    let by_m = grows(expansion, length_m, mean_k - hot.coldest_k)?;
    let net_m = (by_m - frame_m).abs();
    let kind = if net_m > SEAL_GIVES_M { Kind::Mind } else { Kind::Quiet };
    let makers_m = MAKERS_LEAVE * length_m;
    let mend = match kind {
        Kind::Quiet => words!(""),
        _ => words!(
            "Leave {} in the rebate in all (makers of acrylic ask {}), drill holes wider by as much, and hold the cover under a strip that it can slide beneath",
            of(Measure::Length, by_m.max(makers_m)),
            of(Measure::Length, makers_m)
        ),
    };
    Ok(Some(
        told(
            "cover-grows",
            kind,
            "panel.cover.material",
            words!(
                "The cover grows by {} over {} from {} to {}, {} of it against its frame; silicone six millimetres wide on both sides gives {}",
                of(Measure::Length, by_m),
                of(Measure::Length, length_m),
                warm(hot.coldest_k),
                warm(mean_k),
                of(Measure::Length, net_m),
                of(Measure::Length, SEAL_GIVES_M)
            ),
            is_seen,
        )
        .mend(mend)
        .figures(vec![
            Figure::against(
                "cover moves in its frame",
                Measure::Length,
                net_m,
                Limit::at_most(
                    SEAL_GIVES_M,
                    "movement class 25 of ISO 11600, such joints on two sides",
                    Certainty::FromMemory,
                ),
            ),
            Figure::told("makers of acrylic leave", Measure::Length, makers_m),
        ]),
    ))
}

/// The rim on the roof, its inner face taken for all of it; of wool it tells nothing of the frame, and
/// what one of aluminium would do is told.
fn frame(case: &Case, hot: &Warm) -> Result<Option<Finding>, AdviceError> {
    let known = case.subject.design.material("panel.edge.material");
    let Some(known) = known.filter(|known| known.cte_1e6_per_k.is_some()) else { return Ok(None) };
    let length_m = hot.longest_m() + 2.0 * hot.built.edge.layer.thickness_m;
    if known.group == "insulation" {
        return unnamed_frame(hot, length_m).map(Some);
    }
    let Some((expansion, is_seen)) = expansion_1_k(known) else { return Ok(None) };
    let by_m = grows(expansion, length_m, hot.parts.edge_k.0 - hot.coldest_k)?;
    let kind = if by_m > HOLE_GIVES_M { Kind::Mind } else { Kind::Quiet };
    let mend = match kind {
        Kind::Quiet => words!(""),
        _ => slots(by_m),
    };
    let wood = match known.group.as_str() {
        "board" => words!("; as wood it also swells across the grain by some percent when wet"),
        _ => words!(""),
    };
    let says = words!(
        "The rim grows by {} over {} if all of it gets as hot as its inner face, {}{}",
        of(Measure::Length, by_m),
        of(Measure::Length, length_m),
        warm(hot.parts.edge_k.0),
        wood
    );
    let limit = Limit::at_most(
        HOLE_GIVES_M,
        "a screw’s hole drilled a millimetre over",
        Certainty::CommonPractice,
    );
    Ok(Some(
        told("frame-grows", kind, "panel.edge.material", says, is_seen)
            .mend(mend)
            .figures(vec![Figure::against("growth of the rim", Measure::Length, by_m, limit)]),
    ))
}

fn slots(by_m: f64) -> Words {
    words!(
        "Fix it at one end and let it slide at the other: slots {} longer than their screws are thick",
        of(Measure::Length, by_m)
    )
}

fn unnamed_frame(hot: &Warm, length_m: f64) -> Result<Finding, AdviceError> {
    let outside_k = hot.parts.edge_k.1;
    let by_m = grows(ALUMINIUM_1_K, length_m, outside_k - hot.coldest_k)?;
    let says = words!(
        "The rim’s insulation does not pull at its fixings; round it a frame of aluminium would grow by {} over {} from {} to {}",
        of(Measure::Length, by_m),
        of(Measure::Length, length_m),
        warm(hot.coldest_k),
        warm(outside_k)
    );
    Ok(told("frame-grows", Kind::Quiet, "panel.edge.material", says, false)
        .mend(slots(by_m))
        .figures(vec![Figure::told("growth of a frame of aluminium", Measure::Length, by_m)]))
}
