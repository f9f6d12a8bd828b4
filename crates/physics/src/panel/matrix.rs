//! Small dense matrices, for as many unknowns as a serpentine has legs.

use super::error::PanelError;

/// A matrix, row after row.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Matrix {
    rows: usize,
    columns: usize,
    values: Vec<f64>,
}

impl Matrix {
    pub(crate) fn new(rows: usize, columns: usize, value: impl Fn(usize, usize) -> f64) -> Matrix {
        let values =
            (0..rows * columns).map(|place| value(place / columns, place % columns)).collect();
        Matrix { rows, columns, values }
    }

    pub(crate) fn identity(size: usize) -> Matrix {
        Matrix::new(size, size, |row, column| f64::from(u8::from(row == column)))
    }

    pub(crate) fn rows(&self) -> usize {
        self.rows
    }

    pub(crate) fn at(&self, row: usize, column: usize) -> f64 {
        self.values[row * self.columns + column]
    }

    /// The part whose rows and columns lie in these ranges.
    pub(crate) fn block(
        &self,
        rows: std::ops::Range<usize>,
        columns: std::ops::Range<usize>,
    ) -> Matrix {
        Matrix::new(rows.len(), columns.len(), |row, column| {
            self.at(rows.start + row, columns.start + column)
        })
    }

    pub(crate) fn times(&self, right: &Matrix) -> Matrix {
        let mut product = Matrix::new(self.rows, right.columns, |_, _| 0.0);
        for row in 0..self.rows {
            for inner in 0..self.columns {
                let factor = self.at(row, inner);
                for column in 0..right.columns {
                    product.values[row * right.columns + column] +=
                        factor * right.at(inner, column);
                }
            }
        }
        product
    }

    pub(crate) fn plus(&self, other: &Matrix, factor: f64) -> Matrix {
        let mut sum = self.clone();
        for (value, added) in sum.values.iter_mut().zip(&other.values) {
            *value += factor * added;
        }
        sum
    }

    pub(crate) fn scaled(&self, factor: f64) -> Matrix {
        Matrix { values: self.values.iter().map(|value| value * factor).collect(), ..self.clone() }
    }

    /// All values together.
    pub(crate) fn sum(&self) -> f64 {
        self.values.iter().sum()
    }

    /// Largest sum of absolute values along a row.
    pub(crate) fn norm(&self) -> f64 {
        (0..self.rows)
            .map(|row| (0..self.columns).map(|column| self.at(row, column).abs()).sum())
            .fold(0.0, f64::max)
    }

    /// The `x` for which `self x = right`, by Gaussian elimination with partial pivoting.
    pub(crate) fn solve(&self, right: &Matrix) -> Result<Matrix, PanelError> {
        let size = self.rows;
        let mut left = self.clone();
        let mut answer = right.clone();
        for step in 0..size {
            let pivot = (step..size)
                .max_by(|&one, &other| {
                    left.at(one, step).abs().total_cmp(&left.at(other, step).abs())
                })
                .unwrap_or(step);
            let head = left.at(pivot, step);
            if head == 0.0 || !head.is_finite() {
                return Err(PanelError::Singular { unknowns: size });
            }
            left.swap_rows(step, pivot);
            answer.swap_rows(step, pivot);
            for row in 0..size {
                if row != step {
                    let factor = left.at(row, step) / head;
                    left.subtract_row(row, step, factor);
                    answer.subtract_row(row, step, factor);
                }
            }
        }
        Ok(Matrix::new(size, answer.columns, |row, column| {
            answer.at(row, column) / left.at(row, row)
        }))
    }

    /// The exponential, by its series. Meant for a norm of a quarter and less, where fourteen
    /// terms leave nothing in the last digit.
    pub(crate) fn exponential_of_small(&self) -> Matrix {
        let mut term = Matrix::identity(self.rows);
        let mut sum = term.clone();
        for power in 1..=14 {
            term = term.times(self).scaled(1.0 / f64::from(power));
            sum = sum.plus(&term, 1.0);
        }
        sum
    }

    fn swap_rows(&mut self, one: usize, other: usize) {
        for column in 0..self.columns {
            self.values.swap(one * self.columns + column, other * self.columns + column);
        }
    }

    fn subtract_row(&mut self, row: usize, source: usize, factor: f64) {
        for column in 0..self.columns {
            self.values[row * self.columns + column] -= factor * self.at(source, column);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Given: a matrix with a zero on its diagonal. Expected: `a x = b` for the x found.
    #[test]
    fn solves_with_pivoting() {
        let a = Matrix::new(3, 3, |row, column| {
            [[0.0, 2.0, 1.0], [1.0, -1.0, 0.5], [4.0, 0.0, 3.0]][row][column]
        });
        let b = Matrix::new(3, 1, |row, _| [1.0, 2.0, 3.0][row]);
        let back = a.times(&a.solve(&b).unwrap());
        assert!(back.plus(&b, -1.0).norm() < 1e-14);
        assert!(Matrix::new(2, 2, |_, _| 1.0).solve(&Matrix::identity(2)).is_err());
    }

    /// Given: a turn by 0.2. Expected: its exponential is the rotation (exact).
    #[test]
    fn exponential_of_a_turn() {
        let turn = Matrix::new(2, 2, |row, column| [[0.0, -0.2], [0.2, 0.0]][row][column]);
        let rotation = turn.exponential_of_small();
        assert!((rotation.at(0, 0) - 0.2_f64.cos()).abs() < 1e-15);
        assert!((rotation.at(1, 0) - 0.2_f64.sin()).abs() < 1e-15);
    }
}
