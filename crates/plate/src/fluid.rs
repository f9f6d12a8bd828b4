//! The fluid on its way through the tubes.

use physics::circuit::film::{Heating, TubeFlow, film_w_m2_k, nusselt_tube};
use physics::matter::fluid::{FluidProperties, properties_held};
use physics::panel::fin::{FinAndTube, tube_resistance_m_k_w};

use super::contact::Piece;
use super::error::PlateError;
use super::question::{FluidInTubes, Question};

/// Greatest Prandtl number the relations for films in tubes cover.
const THICKEST_PRANDTL: f64 = 2000.0;

/// One tube's pieces, and the flow in it.
#[derive(Clone, Debug)]
pub(crate) struct Stream {
    pub pieces: Vec<Piece>,
    pub flow_kg_s: f64,
}

/// What the fluid is like along one tube, piece by piece.
#[derive(Clone, Debug, Default)]
pub(crate) struct Along {
    /// Fluid entering each piece, and last the fluid that leaves \[K\].
    pub fluid_k: Vec<f64>,
    /// Film coefficient \[W/(m2 K)\].
    pub film_w_m2_k: Vec<f64>,
    /// Heat each piece takes for each kelvin that its sheet is above the entering fluid \[W/K\].
    pub taken_w_k: Vec<f64>,
}

impl Stream {
    /// Marches the fluid along the tube past a sheet whose temperatures are known.
    ///
    /// Over a piece the sheet is taken as even: `q = C (1 - exp(-g/C)) (Ts - Tf)` with `g` the
    /// conductance of bond, wall and film in series and `C` the fluid's capacity rate.
    pub(crate) fn march(
        &self,
        question: &Question,
        heat_capacity_j_kg_k: f64,
        sheet_k: &[f64],
    ) -> Result<Along, PlateError> {
        let rate_w_k = self.flow_kg_s * heat_capacity_j_kg_k;
        let mut along = Along::default();
        let mut fluid_k = question.inlet_k;
        for piece in &self.pieces {
            let film = self.film_w_m2_k(question, piece, fluid_k)?;
            let taken_w_k = taken_w_k(question, piece, film, rate_w_k)?;
            along.fluid_k.push(fluid_k);
            along.film_w_m2_k.push(film);
            along.taken_w_k.push(taken_w_k);
            fluid_k += taken_w_k * (under_k(piece, sheet_k) - fluid_k) / rate_w_k;
        }
        along.fluid_k.push(fluid_k);
        Ok(along)
    }

    /// Film coefficient over a piece: the mean Nusselt number from the tube's entry to the piece's
    /// two ends gives the piece's own, `(x2 Nu2 - x1 Nu1)/(x2 - x1)`, so that the films of a tube
    /// with even properties have the very mean that the fin-and-tube chain takes.
    fn film_w_m2_k(
        &self,
        question: &Question,
        piece: &Piece,
        fluid_k: f64,
    ) -> Result<f64, PlateError> {
        let fluid = match question.fluid {
            FluidInTubes::Even(side) => return Ok(side.film_w_m2_k),
            FluidInTubes::Real(fluid) => properties_held(fluid, fluid_k)?,
        };
        let until = |at_m: f64| -> Result<f64, PlateError> {
            if at_m <= 0.0 {
                return Ok(0.0);
            }
            Ok(at_m * nusselt_tube(&self.flow(question, &fluid, at_m))?)
        };
        let nusselt = (until(piece.to_m)? - until(piece.from_m)?) / (piece.to_m - piece.from_m);
        Ok(film_w_m2_k(nusselt, &fluid, question.tube.bore_m))
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
