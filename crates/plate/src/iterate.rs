//! The sheet's temperatures come to rest with the fluid's.

use super::assemble::{Stencil, rim_of_cells_m};
use super::contact::pieces;
use super::error::PlateError;
use super::fluid::{Along, Stream, under_k};
use super::grid::Cells;
use super::krylov::{Patience, System, minimal_residual, norm};
use super::matrix::Factor;
use super::question::{Absorbed, Question};

/// Part of the heat that moves which all cells together may be short of when the sheet counts as
/// still.
const STILL: f64 = 1e-8;
/// Last place to which a sheet's temperature is known \[K\]: rounding below 512 K.
const LAST_PLACE_K: f64 = 256.0 * f64::EPSILON;
/// Most rounds; four to six are usual.
const MOST_ROUNDS: usize = 60;
/// Part of the heat still short that a round's straight equations may leave: what is bent in them
/// leaves as much.
const LEFT_A_ROUND: f64 = 3e-3;
/// Cells from which a coarser grid is asked for a start.
const MANY_CELLS: usize = 4000;

/// A sheet at rest.
pub(crate) struct Still {
    pub cells: Cells,
    pub sheet_k: Vec<f64>,
    pub streams: Vec<Stream>,
    pub alongs: Vec<Along>,
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
        let mut here = self.stand(sheet_k)?;
        let own_w_k = self.own_w_k(&here);
        let mut factor = Factor::of(&self.cells, &self.stencil, &own_w_k)?;
        if start.is_some() {
            // The coarse cells' edges are smoothed, the fluid as it is.
            let mut change_k = here.short_w.clone();
            factor.solve(&mut change_k);
            here = self.stand(sum(&here.sheet_k, &change_k, 1.0))?;
        }
        let still_w = self.still_w(&own_w_k);
        let mut short_w = f64::INFINITY;
        for rounds in 0..MOST_ROUNDS {
            short_w = here.short_w.iter().map(|short_w| short_w.abs()).sum();
            if short_w <= still_w {
                return Ok(Still {
                    cells: self.cells,
                    sheet_k: here.sheet_k,
                    streams: self.streams,
                    alongs: here.alongs,
                    rounds,
                });
            }
            let mut system = System {
                apply: |change_k: &[f64]| self.image_w(&here, change_k),
                near: |side: &mut [f64]| factor.solve(side),
            };
            let left = (0.3 * still_w / short_w).clamp(LEFT_A_ROUND, 0.3);
            let patience = Patience { left, steps: 40 };
            let change_k = minimal_residual(&mut system, &here.short_w, patience);
            here = self.stepped(&here, &change_k)?;
        }
        Err(PlateError::NotStill { rounds: MOST_ROUNDS, short_w, wanted_w: still_w })
    }

    /// Heat that all cells together may be short of when the sheet counts as still \[W\].
    ///
    /// The heat that moves is the light taken up, and what would be lost by a kelvin. Thick sheets in
    /// small cells: no closer than rounding lets the cells' balances be known.
    fn still_w(&self, own_w_k: &[f64]) -> f64 {
        let (mut moved_w, mut rounding_w) = (0.0, 0.0);
        for (cell, own_w_k) in own_w_k.iter().enumerate() {
            moved_w += self.cells.area_m2() * self.question.absorbed.at_w_m2(cell).abs() + own_w_k;
            rounding_w += LAST_PLACE_K * (own_w_k + self.stencil.around_w_k(&self.cells, cell));
        }
        (STILL * moved_w).max(rounding_w)
    }

    /// A whole step, or a part of it where the whole one would lead further away.
    fn stepped(&self, here: &Here, change_k: &[f64]) -> Result<Here, PlateError> {
        let before = norm(&here.short_w);
        let mut part = 1.0;
        loop {
            let next = self.stand(sum(&here.sheet_k, change_k, part))?;
            if norm(&next.short_w) < before || part < 1e-3 {
                return Ok(next);
            }
            part *= 0.5;
        }
    }

    /// Balance of every cell at some temperatures.
    fn stand(&self, sheet_k: Vec<f64>) -> Result<Here, PlateError> {
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
            let along = stream.march(question, &sheet_k)?;
            for (piece, step) in stream.pieces.iter().zip(&along.steps) {
                for &(cell, share) in &piece.touched {
                    short_w[cell] -= share * step.taken_w_k * (sheet_k[cell] - step.fluid_k);
                }
            }
            alongs.push(along);
        }
        Ok(Here { sheet_k, alongs, short_w, slope_w_k })
    }

    /// What each cell gives by its own temperature, losses and tube \[W/K\].
    fn own_w_k(&self, here: &Here) -> Vec<f64> {
        let mut own_w_k = here.slope_w_k.clone();
        for (stream, along) in self.streams.iter().zip(&here.alongs) {
            for (piece, step) in stream.pieces.iter().zip(&along.steps) {
                for &(cell, share) in &piece.touched {
                    own_w_k[cell] += share * step.taken_w_k;
                }
            }
        }
        own_w_k
    }

    /// What cells give more where their temperatures change by so much.
    fn image_w(&self, here: &Here, change_k: &[f64]) -> Vec<f64> {
        let mut got_w: Vec<f64> =
            change_k.iter().zip(&here.slope_w_k).map(|(change, slope)| -change * slope).collect();
        self.stencil.add_led_w(&self.cells, change_k, &mut got_w);
        for (stream, along) in self.streams.iter().zip(&here.alongs) {
            let mut fluid_k = 0.0;
            for (piece, step) in stream.pieces.iter().zip(&along.steps) {
                let less_w = step.yielded_w_k * fluid_k;
                for &(cell, share) in &piece.touched {
                    got_w[cell] -= share * (step.taken_w_k * change_k[cell] - less_w);
                }
                fluid_k += (step.taken_w_k * under_k(piece, change_k) - less_w) / step.rate_w_k;
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

fn sum(values: &[f64], change: &[f64], part: f64) -> Vec<f64> {
    values.iter().zip(change).map(|(value, change)| value + part * change).collect()
}
