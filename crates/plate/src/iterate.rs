//! The sheet's temperatures come to rest with the fluid's.

use physics::matter::fluid::properties_held;

use super::assemble::{Stencil, rim_of_cells_m};
use super::contact::pieces;
use super::error::PlateError;
use super::fluid::{Along, Stream, under_k};
use super::grid::Cells;
use super::krylov::{Patience, System, minimal_residual, norm};
use super::matrix::Factor;
use super::question::{Absorbed, FluidInTubes, Question};

/// Heat that a cell may be short of when the sheet counts as still \[W/m2\]: a hundredth of a
/// millionth of full sun.
const STILL_W_M2: f64 = 1e-5;
/// Last place to which a sheet's temperature is known \[K\]: rounding below 512 K.
const LAST_PLACE_K: f64 = 256.0 * f64::EPSILON;
/// Most rounds; four to six are usual.
const MOST_ROUNDS: usize = 60;
/// Cells from which a coarser grid is asked for a start.
const MANY_CELLS: usize = 4000;

/// A sheet at rest.
pub(crate) struct Still {
    pub cells: Cells,
    pub sheet_k: Vec<f64>,
    pub streams: Vec<Stream>,
    pub alongs: Vec<Along>,
    pub heat_capacity_j_kg_k: f64,
    pub rounds: usize,
}

/// Solves a question that has been checked.
pub(crate) fn still(question: &Question) -> Result<Still, PlateError> {
    let even = matches!(question.absorbed, Absorbed::Even(_));
    let start = if question.grid.cells() >= MANY_CELLS && even {
        let grid = question.grid.halved().halved();
        Some(still(&Question { grid, ..question.clone() })?)
    } else {
        None
    };
    Sheet::of(question)?.rest(start.as_ref())
}

/// The equations of one question on its grid.
struct Sheet<'a> {
    question: &'a Question,
    cells: Cells,
    stencil: Stencil,
    rim_m: Vec<f64>,
    streams: Vec<Stream>,
}

/// Where the sheet stands in a round.
struct Here {
    sheet_k: Vec<f64>,
    alongs: Vec<Along>,
    heat_capacity_j_kg_k: f64,
    /// Heat each cell is short of \[W\]: what it gets less what it gives.
    short_w: Vec<f64>,
    /// Growth of each cell's loss \[W/K\].
    slope_w_k: Vec<f64>,
}

impl<'a> Sheet<'a> {
    fn of(question: &'a Question) -> Result<Sheet<'a>, PlateError> {
        let cells = Cells::of(question.grid, &question.sheet);
        let (mut streams, mut strips) = (Vec::new(), Vec::new());
        for (pipe, &share) in question.shares.iter().enumerate() {
            let (pieces, mut own) = pieces(question, &cells, pipe)?;
            strips.append(&mut own);
            streams.push(Stream { pieces, flow_kg_s: share * question.flow_kg_s });
        }
        let stencil = Stencil::of(question, &cells, &strips);
        Ok(Sheet { question, cells, stencil, rim_m: rim_of_cells_m(&cells), streams })
    }

    /// Rounds of Newton's method; in each the fluid's way past the sheet, which is not symmetric, is
    /// followed by minimal residuals with the sheet's symmetric factor, made once.
    fn rest(self, start: Option<&Still>) -> Result<Still, PlateError> {
        let question = self.question;
        let sheet_k = match start {
            Some(coarse) => self.refined_k(coarse),
            None if self.streams.is_empty() => vec![START_K; self.cells.count()],
            None => vec![question.inlet_k; self.cells.count()],
        };
        let heat_capacity = match (question.fluid, start) {
            (_, Some(coarse)) => coarse.heat_capacity_j_kg_k,
            (FluidInTubes::Even(side), _) => side.heat_capacity_j_kg_k,
            (FluidInTubes::Real(fluid), _) => {
                properties_held(fluid, question.inlet_k)?.heat_capacity_j_kg_k
            }
        };
        let mut here = self.stand(sheet_k, heat_capacity)?;
        let own_w_k = self.own_w_k(&here);
        let mut factor = Factor::of(&self.cells, &self.stencil, &own_w_k)?;
        if start.is_some() {
            // The coarse cells' edges are smoothed, the fluid as it is.
            let mut change_k = here.short_w.clone();
            factor.solve(&mut change_k);
            here = self.stand(sum(&here.sheet_k, &change_k, 1.0), here.heat_capacity_j_kg_k)?;
        }
        // Thick sheets in small cells: no closer than rounding lets a cell's balance be known.
        let stiffest_w_k = (0..own_w_k.len())
            .map(|cell| own_w_k[cell] + self.stencil.around_w_k(&self.cells, cell))
            .fold(0.0, f64::max);
        let still_w = (STILL_W_M2 * self.cells.area_m2()).max(4.0 * LAST_PLACE_K * stiffest_w_k);
        let mut most_w = f64::INFINITY;
        for rounds in 0..MOST_ROUNDS {
            most_w = here.short_w.iter().fold(0.0, |most, short| short.abs().max(most));
            if most_w <= still_w {
                return Ok(Still {
                    cells: self.cells,
                    sheet_k: here.sheet_k,
                    streams: self.streams,
                    alongs: here.alongs,
                    heat_capacity_j_kg_k: here.heat_capacity_j_kg_k,
                    rounds,
                });
            }
            let mut system = System {
                apply: |change_k: &[f64]| self.image_w(&here, change_k),
                near: |side: &mut [f64]| factor.solve(side),
            };
            let left = (0.3 * still_w / most_w).clamp(1e-8, 1e-2);
            let patience = Patience { left, steps: 40 };
            let change_k = minimal_residual(&mut system, &here.short_w, patience);
            here = self.stepped(&here, &change_k)?;
        }
        Err(PlateError::NotStill {
            rounds: MOST_ROUNDS,
            short_w_m2: most_w / self.cells.area_m2(),
            wanted_w_m2: still_w / self.cells.area_m2(),
        })
    }

    /// A whole step, or a part of it where the whole one would lead further away.
    fn stepped(&self, here: &Here, change_k: &[f64]) -> Result<Here, PlateError> {
        let before = norm(&here.short_w);
        let heat_capacity = self.heat_capacity(here)?;
        let mut part = 1.0;
        loop {
            let next = self.stand(sum(&here.sheet_k, change_k, part), heat_capacity)?;
            if norm(&next.short_w) < before || part < 1e-3 {
                return Ok(next);
            }
            part *= 0.5;
        }
    }

    /// Balance of every cell at some temperatures.
    fn stand(&self, sheet_k: Vec<f64>, heat_capacity_j_kg_k: f64) -> Result<Here, PlateError> {
        let question = self.question;
        let area_m2 = self.cells.area_m2();
        let mut short_w = Vec::with_capacity(sheet_k.len());
        let mut slope_w_k = Vec::with_capacity(sheet_k.len());
        for (cell, (&place_k, &rim_m)) in sheet_k.iter().zip(&self.rim_m).enumerate() {
            let (lost_w_m2, growth_w_m2_k) = question.losses.face(place_k);
            let mut lost_w = area_m2 * lost_w_m2;
            let mut growth_w_k = area_m2 * growth_w_m2_k;
            if rim_m > 0.0 {
                let (rim_w_m, rim_w_m_k) = question.losses.rim(place_k);
                lost_w += rim_m * rim_w_m;
                growth_w_k += rim_m * rim_w_m_k;
            }
            short_w.push(area_m2 * question.absorbed.at_w_m2(cell) - lost_w);
            slope_w_k.push(growth_w_k);
        }
        self.stencil.add_led_w(&self.cells, &sheet_k, &mut short_w);
        let mut alongs = Vec::with_capacity(self.streams.len());
        for stream in &self.streams {
            let along = stream.march(question, heat_capacity_j_kg_k, &sheet_k)?;
            for (at, piece) in stream.pieces.iter().enumerate() {
                for &(cell, share) in &piece.touched {
                    let above_k = sheet_k[cell] - along.fluid_k[at];
                    short_w[cell] -= share * along.taken_w_k[at] * above_k;
                }
            }
            alongs.push(along);
        }
        Ok(Here { sheet_k, alongs, heat_capacity_j_kg_k, short_w, slope_w_k })
    }

    /// Heat capacity of the fluid halfway between its inlet and the mean of what leaves.
    fn heat_capacity(&self, here: &Here) -> Result<f64, PlateError> {
        let FluidInTubes::Real(fluid) = self.question.fluid else {
            return Ok(here.heat_capacity_j_kg_k);
        };
        let out_k = mixed_k(&here.alongs, &self.question.shares).unwrap_or(self.question.inlet_k);
        let mean_k = 0.5 * (self.question.inlet_k + out_k);
        Ok(properties_held(fluid, mean_k)?.heat_capacity_j_kg_k)
    }

    /// What each cell gives by its own temperature, losses and tube \[W/K\].
    fn own_w_k(&self, here: &Here) -> Vec<f64> {
        let mut own_w_k = here.slope_w_k.clone();
        for (stream, along) in self.streams.iter().zip(&here.alongs) {
            for (piece, taken_w_k) in stream.pieces.iter().zip(&along.taken_w_k) {
                for &(cell, share) in &piece.touched {
                    own_w_k[cell] += share * taken_w_k;
                }
            }
        }
        own_w_k
    }

    /// What cells give more where their temperatures change by so much, the films as they are.
    fn image_w(&self, here: &Here, change_k: &[f64]) -> Vec<f64> {
        let mut got_w: Vec<f64> =
            change_k.iter().zip(&here.slope_w_k).map(|(change, slope)| -change * slope).collect();
        self.stencil.add_led_w(&self.cells, change_k, &mut got_w);
        for (stream, along) in self.streams.iter().zip(&here.alongs) {
            let rate_w_k = stream.flow_kg_s * here.heat_capacity_j_kg_k;
            let mut fluid_k = 0.0;
            for (piece, &taken_w_k) in stream.pieces.iter().zip(&along.taken_w_k) {
                for &(cell, share) in &piece.touched {
                    got_w[cell] -= share * taken_w_k * (change_k[cell] - fluid_k);
                }
                fluid_k += taken_w_k * (under_k(piece, change_k) - fluid_k) / rate_w_k;
            }
        }
        got_w.iter_mut().for_each(|heat_w| *heat_w = -*heat_w);
        got_w
    }

    /// Temperatures of a coarser sheet, taken by the nearest cell.
    fn refined_k(&self, coarse: &Still) -> Vec<f64> {
        let cells = &self.cells;
        let nearest = |at: usize, fine: usize, rough: usize| (2 * at + 1) * rough / (2 * fine);
        (0..cells.count())
            .map(|cell| {
                let column = nearest(cell % cells.columns, cells.columns, coarse.cells.columns);
                let row = nearest(cell / cells.columns, cells.rows, coarse.cells.rows);
                coarse.sheet_k[coarse.cells.at(column, row)]
            })
            .collect()
    }
}

/// A sheet without tubes begins at this temperature \[K\].
const START_K: f64 = 300.0;

/// Fluid from all tubes mixed by their shares \[K\]; `None` without tubes.
pub(crate) fn mixed_k(alongs: &[Along], shares: &[f64]) -> Option<f64> {
    let leaving = alongs
        .iter()
        .zip(shares)
        .filter_map(|(along, share)| along.fluid_k.last().map(|fluid_k| (share, fluid_k)));
    let (whole, sum_k) = leaving
        .fold((0.0, 0.0), |(whole, sum_k), (share, out_k)| (whole + share, sum_k + share * out_k));
    (whole > 0.0).then(|| sum_k / whole)
}

fn sum(values: &[f64], change: &[f64], part: f64) -> Vec<f64> {
    values.iter().zip(change).map(|(value, change)| value + part * change).collect()
}
