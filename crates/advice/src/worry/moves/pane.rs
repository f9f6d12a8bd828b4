//! The cover: a pane's cold edge, and a sheet of plastic that bows towards the heat.

use design::catalogue::materials::Material;
use design::quantity::Kind as Measure;
use design::{Edit, EditValue};
use physics::STEFAN_BOLTZMANN_W_M2_K4;
use physics::making::pane::{PaneMaterial, WarmPane, bow_m, edge_pull_pa};
use physics::panel::Cover;
use physics::panel::stagnation::STILL_WIND_FILM_W_M2_K;

use super::{Warm, expansion_1_k, millimetres_up};
use crate::AdviceError;
use crate::worry::case::{Case, writing};
use crate::worry::finding::{About, Certainty, Figure, Finding, Kind, Limit, Remedy, Station};
use crate::worry::words::{Words, of, warm, words};

/// Edge strength of annealed glass, the lower end of 18 to 25 MPa (seen).
const EDGE_BEARS_PA: f64 = 18e6;
/// Poisson's ratio of plastics (from memory).
const PLASTIC_POISSON: f64 = 0.37;
/// Of the bow, a gap in which the cover keeps clear of its own half.
const WIDER: f64 = 2.2;
/// A film is held taut and does not bow \[m\].
const FILM_M: f64 = 1e-3;

/// A pane of glass half in the shade: its middle idle in full sun, its edge at the air's temperature.
pub(in crate::worry) fn edge(case: &Case) -> Result<Vec<Finding>, AdviceError> {
    let Some(hot) = Warm::of(case)? else { return Ok(Vec::new()) };
    let material = case.subject.design.material("panel.cover.material");
    let glass = material.and_then(|known| Some((known, known.dt_break_k?)));
    let (Some((material, bears_k)), Some((inside_k, outside_k))) = (glass, hot.cover_k()) else {
        return Ok(Vec::new());
    };
    let middle_k = 0.5 * (inside_k + outside_k);
    let apart_k = (middle_k - hot.air_k).max(0.0);
    let pull_pa = edge_pull_pa(&PaneMaterial::GLASS, apart_k).map_err(AdviceError::panel)?;
    let is_annealed = material.id == "glass";
    let kind = if apart_k > bears_k { Kind::Stop } else { Kind::Quiet };
    let is_seen = material.seen.iter().any(|seen| seen == "dt_break_k");
    let certainty = if is_seen { Certainty::Seen } else { Certainty::FromMemory };
    let mut figures = vec![Figure::against(
        "middle of the pane over its shaded edge",
        Measure::Difference,
        apart_k,
        Limit::at_most(bears_k, format!("catalogue of materials, {}", material.name), certainty),
    )];
    if is_annealed {
        figures.push(Figure::against(
            "pull at its edge",
            Measure::Pressure,
            pull_pa,
            Limit::at_most(
                EDGE_BEARS_PA,
                "Glass trade: the lower end of what edges of annealed glass bear",
                Certainty::Seen,
            ),
        ));
    }
    let mend = match kind {
        Kind::Quiet => words!(""),
        _ => words!(
            "Take toughened glass, build the box round the pane since it cannot be cut, and keep shadows of posts and parapets off it"
        ),
    };
    Ok(vec![
        Finding::new(
            About::Moves,
            "pane-edge",
            Station::Panel,
            kind,
            words!(
                "Idle in full sun the middle of the pane comes to {}; with an edge in the shade, as cool as the air, they are {} apart and its edge is pulled by {}; {} stands {}",
                warm(middle_k),
                of(Measure::Difference, apart_k),
                of(Measure::Pressure, pull_pa),
                if is_annealed { "annealed glass" } else { "toughened glass" },
                of(Measure::Difference, bears_k)
            ),
        )
        .at("panel.cover.material")
        .mend(mend)
        .figures(figures)
        .remedies(vec![writing(
            words!("Take toughened glass"),
            "panel.cover.material",
            "toughened-glass",
        )])
        .source(
            "Glass trade: E alpha dT/(1 - nu), and what float glass takes where it is partly shaded",
            certainty,
        ),
    ])
}

/// A sheet of plastic, warmer inside: it bows towards the sheet.
pub(in crate::worry) fn bow(case: &Case) -> Result<Vec<Finding>, AdviceError> {
    let Some(hot) = Warm::of(case)? else { return Ok(Vec::new()) };
    let material = case.subject.design.material("panel.cover.material");
    let (Some(material), Some(cover), Some((inside_k, outside_k))) =
        (material, hot.built.covers.last(), hot.cover_k())
    else {
        return Ok(Vec::new());
    };
    let thickness_m = f64::from(cover.walls) * cover.thickness_m;
    let Some((expansion, is_seen)) = expansion_1_k(material) else { return Ok(Vec::new()) };
    if thickness_m < FILM_M {
        return Ok(Vec::new());
    }
    let (long_m, wide_m) = sides_m(&hot);
    let pane = WarmPane {
        material: pane_material(material, expansion),
        length_m: long_m,
        width_m: wide_m,
        thickness_m,
        across_k: (inside_k - outside_k).max(across_k(cover, outside_k, hot.air_k)),
    };
    let bow_m = bow_m(&pane).map_err(AdviceError::panel)?;
    Ok(vec![bowed(&pane, cover, bow_m, is_seen)])
}

/// Difference from face to face at which all that the cover gives off came through it \[K\]: more than
/// there is, since what it keeps of the light does not, and a cover that lets heat rays by is reckoned
/// with one temperature.
fn across_k(cover: &Cover, outside_k: f64, air_k: f64) -> f64 {
    let rays_w_m2 =
        cover.emittance * STEFAN_BOLTZMANN_W_M2_K4 * (outside_k.powi(4) - air_k.powi(4));
    let given_off_w_m2 = STILL_WIND_FILM_W_M2_K * (outside_k - air_k) + rays_w_m2;
    cover.resistance_m2_k_w * given_off_w_m2.max(0.0)
}

/// The cover's sides, the longer first \[m\].
fn sides_m(hot: &Warm) -> (f64, f64) {
    let (sheet, rim_m) = (&hot.built.sheet, hot.built.edge.layer.thickness_m);
    let (length_m, width_m) = (sheet.length_m + 2.0 * rim_m, sheet.width_m + 2.0 * rim_m);
    (length_m.max(width_m), length_m.min(width_m))
}

fn pane_material(material: &Material, expansion_1_k: f64) -> PaneMaterial {
    match material.dt_break_k {
        Some(_) => PaneMaterial { expansion_1_k, ..PaneMaterial::GLASS },
        // Its elasticity has no part in a free bow.
        None => {
            PaneMaterial { expansion_1_k, poisson_factor: PLASTIC_POISSON, ..PaneMaterial::GLASS }
        }
    }
}

fn bowed(pane: &WarmPane, cover: &Cover, bow_m: f64, is_seen: bool) -> Finding {
    let gap_m = cover.gap_m;
    let kind = match bow_m {
        bow_m if bow_m >= gap_m => Kind::Stop,
        bow_m if bow_m > 0.5 * gap_m => Kind::Mind,
        _ => Kind::Quiet,
    };
    let (limit_m, limit_source) = match kind {
        Kind::Stop => (gap_m, "the gap to what lies beneath"),
        _ => (0.5 * gap_m, "half the gap to what lies beneath: a warm sheet sags as well"),
    };
    let wider =
        Edit { place: "panel.gap".to_owned(), value: EditValue::Text(millimetres_up(2.0 * bow_m)) };
    let says: Words = words!(
        "Idle in full sun the cover is up to {} warmer inside than outside and bows {} inwards over {}, held at its edges alone; to what lies beneath there are {}",
        of(Measure::Difference, pane.across_k),
        of(Measure::Length, bow_m),
        of(Measure::Length, pane.width_m),
        of(Measure::Length, gap_m)
    );
    let mend = match kind {
        Kind::Quiet => words!(""),
        _ => words!(
            "Give the cover a bar across its middle, or a wider gap, or take glass: plastic that touches the sheet melts onto it"
        ),
    };
    Finding::new(About::Moves, "cover-bows", Station::Panel, kind, says)
        .at("panel.gap")
        .mend(mend)
        .figures(vec![Figure::against(
            "cover bows inwards",
            Measure::Length,
            bow_m,
            Limit::at_most(limit_m, limit_source, Certainty::Judgement),
        )])
        .remedies(vec![Remedy::new(
            words!("Widen the gap to {}", of(Measure::Length, WIDER * bow_m)),
            vec![wider],
        )])
        .source(
            "Plates unequally heated, Timoshenko and Woinowsky-Krieger 1959 (from memory), with the catalogue’s growth; sagging of hot plastic is not in it",
            if is_seen { Certainty::Seen } else { Certainty::FromMemory },
        )
}
