//! `panel --plate`: the sheet drawn to scale, and what its seams cost.

use anyhow::{Result, anyhow};
use physics::panel::standard_test::{Stand, Steady};
use physics::{Build, ZERO_CELSIUS_K};
use plate::{Inflow, Question, Spot, Station, Study, study};
use year::Forcing;

use crate::seams;
use crate::wire::{PictureWire, SpotWire, StretchWire, TubePointWire, TubeWire};

/// Size of a cell \[m\].
const CELL_M: f64 = 0.005;
/// Places shown along a tube.
const SHOWN_PLACES: usize = 20;

/// What the picture is taken of.
pub struct Sitter<'a> {
    /// The build as drawn, stretches and all.
    pub drawn: &'a Build,
    /// Its year's light and draws.
    pub forcing: &'a Forcing,
    /// Sun, air and tilt.
    pub stand: &'a Stand,
    /// What runs through the panel.
    pub inflow: Inflow,
    /// What the chain says in the same conditions.
    pub chain: &'a Steady,
    /// The even bond in the place of its stretches; `None` where it has none.
    pub even_bond_w_m_k: Option<f64>,
    /// The conditions in words.
    pub conditions: String,
}

/// The picture, for output.
///
/// # Errors
/// Where the panel's sheet carries no tubes, or cannot be reckoned.
pub fn picture(sitter: &Sitter) -> Result<PictureWire> {
    let built =
        sitter.drawn.panel.panels.first().and_then(|panel| panel.built()).ok_or_else(|| {
            anyhow!("a bought panel is known by its certificate alone: it has no sheet to draw")
        })?;
    let question = Question::of_panel(built, sitter.stand, sitter.inflow, CELL_M)?
        .ok_or_else(|| anyhow!("a hollow sheet carries no tubes: its picture would be even"))?;
    let studied = study(&question)?;
    let years = if question.stretches.is_empty() {
        Vec::new()
    } else {
        seams::years(sitter.drawn, sitter.forcing)?
    };
    let drawn = &studied.picture;
    Ok(PictureWire {
        hottest_spot_c: drawn.hottest.sheet_k - ZERO_CELSIUS_K,
        hottest_spot: spot(&drawn.hottest),
        coldest_spot_c: drawn.coldest.sheet_k - ZERO_CELSIUS_K,
        coldest_spot: spot(&drawn.coldest),
        useful_w: drawn.useful_w,
        useful_tolerance_w: studied.tolerance_w,
        chain_useful_w: sitter.chain.useful_w,
        absorbed_w: drawn.absorbed_w,
        top_loss_w: drawn.top_w,
        back_loss_w: drawn.back_w,
        rim_loss_w: drawn.rim_w,
        inlet_c: question.inlet_k - ZERO_CELSIUS_K,
        outlet_c: drawn.outlet_k - ZERO_CELSIUS_K,
        picture_conditions: sitter.conditions.clone(),
        columns: drawn.grid.columns,
        rows: drawn.grid.rows,
        even_bond_w_m_k: sitter.even_bond_w_m_k.unwrap_or(question.bond_w_m_k),
        tubes: tubes(&question, &studied),
        stretches: question
            .stretches
            .iter()
            .zip(studied.costs.iter().zip(&years))
            .map(|(stretch, (cost, year))| StretchWire {
                tube: stretch.tube + 1,
                from_m: stretch.from_m,
                to_m: stretch.to_m,
                bond_w_m_k: stretch.bond_w_m_k,
                cost_w: cost.cost_w,
                cost_tolerance_w: cost.tolerance_w,
                cost_kwh: year.cost_kwh,
                cost_tolerance_kwh: year.tolerance_kwh,
            })
            .collect(),
    })
}

fn spot(spot: &Spot) -> SpotWire {
    SpotWire { across_mm: spot.place.across_m * 1000.0, up_mm: spot.place.up_m * 1000.0 }
}

fn tubes(question: &Question, studied: &Study) -> Vec<TubeWire> {
    let drawn = &studied.picture;
    let flows = question.route.pipes.iter().zip(&question.shares);
    flows
        .zip(drawn.tubes.iter().zip(&drawn.outlets_k))
        .map(|((pipe, &share), (stations, outlet_k))| {
            let every = stations.len().div_ceil(SHOWN_PLACES).max(1);
            TubeWire {
                share,
                length_m: pipe.length_m(),
                outlet_c: outlet_k - ZERO_CELSIUS_K,
                points: stations.iter().step_by(every).map(point).collect(),
            }
        })
        .collect()
}

fn point(station: &Station) -> TubePointWire {
    TubePointWire {
        at_m: station.from_m,
        fluid_c: station.fluid_k - ZERO_CELSIUS_K,
        sheet_c: station.sheet_k - ZERO_CELSIUS_K,
        film_w_m2_k: station.film_w_m2_k,
        bond_w_m_k: station.bond_w_m_k,
    }
}
