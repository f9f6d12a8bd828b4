//! The sheet's equations, factored once: symmetric and positive definite.

use faer::dyn_stack::{MemBuffer, MemStack};
use faer::linalg::cholesky::llt::factor::LltRegularization;
use faer::perm::PermRef;
use faer::sparse::linalg::cholesky::{
    CholeskySymbolicParams, LltRef, SymbolicCholesky, SymmetricOrdering,
    factorize_symbolic_cholesky,
};
use faer::sparse::{SparseColMat, Triplet};
use faer::{Conj, MatMut, Par, Side};

use super::assemble::Stencil;
use super::error::PlateError;
use super::grid::Cells;
use super::order::dissection;

/// Up to how many columns the factor joins to a block, where no more than that share of it is empty.
///
/// Chosen by measurement on 200 by 400 cells: a fifth faster to make and a quarter faster to solve
/// with than by the library's own choice.
const JOINED: &[(usize, f64)] = &[(4, 1.0), (16, 0.3), (48, 0.05)];

/// The factor of a sheet's equations.
pub(crate) struct Factor {
    symbolic: SymbolicCholesky<u32>,
    values: Vec<f64>,
    scratch: MemBuffer,
}

impl Factor {
    /// Factors a sheet's conductances with what each cell loses on the diagonal \[W/K\].
    pub(crate) fn of(
        cells: &Cells,
        stencil: &Stencil,
        loss_w_k: &[f64],
    ) -> Result<Factor, PlateError> {
        let no_answer = || PlateError::NoAnswer { cells: cells.count() };
        let triplets = lower_triangle(cells, stencil, loss_w_k);
        let count = cells.count();
        let matrix = SparseColMat::<u32, f64>::try_new_from_triplets(count, count, &triplets)
            .map_err(|_| no_answer())?;
        let order = dissection(cells);
        let mut place = vec![0_u32; count];
        for (at, &cell) in order.iter().enumerate() {
            place[cell as usize] = at as u32;
        }
        let mut params = CholeskySymbolicParams::default();
        params.supernodal_params.relax = Some(JOINED);
        let symbolic = factorize_symbolic_cholesky(
            matrix.symbolic(),
            Side::Lower,
            SymmetricOrdering::Custom(PermRef::new_checked(&order, &place, count)),
            params,
        )
        .map_err(|_| no_answer())?;
        let mut values = vec![0.0; symbolic.len_val()];
        let need = symbolic.factorize_numeric_llt_scratch::<f64>(Par::Seq, Default::default());
        symbolic
            .factorize_numeric_llt(
                &mut values,
                matrix.as_ref(),
                Side::Lower,
                LltRegularization::default(),
                Par::Seq,
                MemStack::new(&mut MemBuffer::new(need)),
                Default::default(),
            )
            .map_err(|_| no_answer())?;
        let scratch = MemBuffer::new(symbolic.solve_in_place_scratch::<f64>(1, Par::Seq));
        Ok(Factor { symbolic, values, scratch })
    }

    /// Puts the answer in the place of the right side.
    pub(crate) fn solve(&mut self, side: &mut [f64]) {
        let count = side.len();
        LltRef::<'_, u32, f64>::new(&self.symbolic, &self.values).solve_in_place_with_conj(
            Conj::No,
            MatMut::from_column_major_slice_mut(side, count, 1),
            Par::Seq,
            MemStack::new(&mut self.scratch),
        );
    }
}

/// The matrix on and below its diagonal; above it stands the same.
pub(crate) fn lower_triangle(
    cells: &Cells,
    stencil: &Stencil,
    loss_w_k: &[f64],
) -> Vec<Triplet<u32, u32, f64>> {
    let mut triplets = Vec::with_capacity(3 * cells.count());
    for (cell, &own_w_k) in loss_w_k.iter().enumerate() {
        let diagonal = own_w_k + stencil.around_w_k(cells, cell);
        triplets.push(Triplet::new(cell as u32, cell as u32, diagonal));
        for (other, conductance_w_k) in
            [(cell + 1, stencil.right_w_k[cell]), (cell + cells.columns, stencil.up_w_k[cell])]
        {
            if conductance_w_k > 0.0 {
                triplets.push(Triplet::new(other as u32, cell as u32, -conductance_w_k));
            }
        }
    }
    triplets
}
