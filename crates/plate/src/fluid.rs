//! The fluid on its way through the tubes.

use physics::circuit::film::{Heating, TubeFlow, film_w_m2_k, nusselt_tube};
use physics::matter::fluid::{FluidProperties, properties_held};
use physics::panel::fin::{FinAndTube, tube_resistance_m_k_w};

use super::contact::Piece;
use super::error::PlateError;
use super::question::{FluidInTubes, Question};

/// Greatest Prandtl number the relations for films in tubes cover.
const THICKEST_PRANDTL: f64 = 2000.0;

/// Step by which a film's change with temperature is asked \[K\].
const NUDGE_K: f64 = 0.1;

/// One tube's pieces, and the flow in it.
#[derive(Clone, Debug)]
pub(crate) struct Stream {
    pub pieces: Vec<Piece>,
    pub flow_kg_s: f64,
}

/// What the fluid is like along one tube, piece by piece.
#[derive(Clone, Debug, Default)]
pub(crate) struct Along {
    /// Each piece in the order of the flow.
    pub steps: Vec<Step>,
    /// Fluid that leaves \[K\].
    pub outlet_k: f64,
}

/// The fluid at one piece.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Step {
    /// Fluid entering \[K\].
    pub fluid_k: f64,
    /// Film coefficient \[W/(m2 K)\].
    pub film_w_m2_k: f64,
    /// Flow times heat capacity \[W/K\].
    pub rate_w_k: f64,
    /// Heat the piece takes for each kelvin that its sheet is above the entering fluid \[W/K\].
    pub taken_w_k: f64,
    /// Heat it takes less for each kelvin that the entering fluid is warmer, the film's own change
    /// with it \[W/K\].
    pub yielded_w_k: f64,
    /// Heat into the fluid \[W\].
    pub heat_w: f64,
}

impl Stream {
    /// Marches the fluid along the tube past a sheet whose temperatures are known.
    ///
    /// Over a piece the sheet is taken as even: `q = C (1 - exp(-g/C)) (Ts - Tf)` with `g` the
    /// conductance of bond, wall and film in series and `C` the fluid's capacity rate, both as the
    /// fluid enters the piece.
    pub(crate) fn march(&self, question: &Question, sheet_k: &[f64]) -> Result<Along, PlateError> {
        let mut steps = Vec::with_capacity(self.pieces.len());
        let mut fluid_k = question.inlet_k;
        for piece in &self.pieces {
            let step = self.step(question, piece, fluid_k, under_k(piece, sheet_k))?;
            fluid_k += step.heat_w / step.rate_w_k;
            steps.push(step);
        }
        Ok(Along { steps, outlet_k: fluid_k })
    }

    fn step(
        &self,
        question: &Question,
        piece: &Piece,
        fluid_k: f64,
        under_k: f64,
    ) -> Result<Step, PlateError> {
        let at = |fluid_k: f64| -> Result<Step, PlateError> {
            let (film_w_m2_k, heat_capacity_j_kg_k) = self.film(question, piece, fluid_k)?;
            let rate_w_k = self.flow_kg_s * heat_capacity_j_kg_k;
            let taken_w_k = taken_w_k(question, piece, film_w_m2_k, rate_w_k)?;
            let heat_w = taken_w_k * (under_k - fluid_k);
            Ok(Step { fluid_k, film_w_m2_k, rate_w_k, taken_w_k, yielded_w_k: taken_w_k, heat_w })
        };
        let mut here = at(fluid_k)?;
        if matches!(question.fluid, FluidInTubes::Real(_)) {
            let warmer = at(fluid_k + NUDGE_K)?;
            here.yielded_w_k = (here.heat_w - warmer.heat_w) / NUDGE_K;
        }
        Ok(here)
    }

    /// Film coefficient over a piece \[W/(m2 K)\], and the fluid's heat capacity \[J/(kg K)\].
    ///
    /// The mean Nusselt number from the tube's entry to the piece's two ends gives the piece's own,
    /// `(x2 Nu2 - x1 Nu1)/(x2 - x1)`, so that the films of a tube with even properties have the very
    /// mean that the fin-and-tube chain takes.
    fn film(
        &self,
        question: &Question,
        piece: &Piece,
        fluid_k: f64,
    ) -> Result<(f64, f64), PlateError> {
        let fluid = match question.fluid {
            FluidInTubes::Even(side) => {
                return Ok((side.film_w_m2_k, side.heat_capacity_j_kg_k));
            }
            FluidInTubes::Real(fluid) => properties_held(fluid, fluid_k)?,
        };
        let until = |at_m: f64| -> Result<f64, PlateError> {
            if at_m <= 0.0 {
                return Ok(0.0);
            }
            Ok(at_m * nusselt_tube(&self.flow(question, &fluid, at_m))?)
        };
        let nusselt = (until(piece.to_m)? - until(piece.from_m)?) / (piece.to_m - piece.from_m);
        let film = film_w_m2_k(nusselt, &fluid, question.tube.bore_m);
        Ok((film, fluid.heat_capacity_j_kg_k))
    }

    fn flow(&self, question: &Question, fluid: &FluidProperties, length_m: f64) -> TubeFlow {
        let bore_m = question.tube.bore_m;
        TubeFlow {
            reynolds: 4.0 * self.flow_kg_s / (std::f64::consts::PI * bore_m * fluid.viscosity_pa_s),
            prandtl: fluid.prandtl().min(THICKEST_PRANDTL),
            bore_m,
            length_m,
            heating: Heating::EvenFlux,
        }
    }
}

/// Mean temperature of the cells under a piece \[K\].
pub(crate) fn under_k(piece: &Piece, sheet_k: &[f64]) -> f64 {
    piece.touched.iter().map(|&(cell, share)| share * sheet_k[cell]).sum()
}

/// Heat a piece takes for each kelvin between its sheet and the fluid that enters it \[W/K\].
fn taken_w_k(
    question: &Question,
    piece: &Piece,
    film_w_m2_k: f64,
    rate_w_k: f64,
) -> Result<f64, PlateError> {
    if piece.bond_w_m_k == 0.0 {
        return Ok(0.0);
    }
    let resistance_m_k_w = piece.spread_m_k_w
        + tube_resistance_m_k_w(&FinAndTube {
            spacing_m: question.tube.outside_m,
            outside_m: question.tube.outside_m,
            bore_m: question.tube.bore_m,
            thickness_m: question.sheet.thickness_m,
            conductivity_w_m_k: question.sheet.conductivity_w_m_k,
            loss_w_m2_k: 0.0,
            film_w_m2_k,
            bond_w_m_k: piece.bond_w_m_k,
            wall_conductivity_w_m_k: question.tube.conductivity_w_m_k,
        })?;
    let conductance_w_k = (piece.to_m - piece.from_m) / resistance_m_k_w;
    Ok(-rate_w_k * (-conductance_w_k / rate_w_k).exp_m1())
}
