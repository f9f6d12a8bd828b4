//! Straight equations that are not symmetric, by a symmetric factor close to them.

/// A system to solve: what its matrix makes of a vector, and the factor's answer in place.
pub(crate) struct System<Apply, Near> {
    /// The matrix times a vector.
    pub apply: Apply,
    /// Solves by the factor, in place.
    pub near: Near,
}

/// How closely, and after how many steps at most.
#[derive(Clone, Copy)]
pub(crate) struct Patience {
    /// Part of the right side's length that may be left.
    pub left: f64,
    /// Steps, 1 or more.
    pub steps: usize,
}

/// The vector for which the matrix gives the right side, as closely as patience allows.
///
/// Generalised minimal residuals with the factor from the right: each step lessens what is left.
///
/// # Source
/// Saad and Schultz, SIAM J. Sci. Stat. Comput. 7 (1986) 856; flexible form of Saad 1993.
pub(crate) fn minimal_residual<Apply, Near>(
    system: &mut System<Apply, Near>,
    side: &[f64],
    patience: Patience,
) -> Vec<f64>
where
    Apply: FnMut(&[f64]) -> Vec<f64>,
    Near: FnMut(&mut [f64]),
{
    let whole = norm(side);
    if whole == 0.0 {
        return vec![0.0; side.len()];
    }
    let mut basis = vec![scaled(side, 1.0 / whole)];
    let mut tried: Vec<Vec<f64>> = Vec::new();
    // The Hessenberg matrix turned to a triangle on the way, by rotations.
    let mut columns: Vec<Vec<f64>> = Vec::new();
    let mut turns: Vec<(f64, f64)> = Vec::new();
    let mut rest = vec![whole];
    for step in 0..patience.steps {
        let mut trial = basis[step].clone();
        (system.near)(&mut trial);
        let mut image = (system.apply)(&trial);
        tried.push(trial);
        let mut column = Vec::with_capacity(step + 2);
        for direction in &basis {
            let along = dot(direction, &image);
            add(&mut image, direction, -along);
            column.push(along);
        }
        let beyond = norm(&image);
        for (at, &(cosine, sine)) in turns.iter().enumerate() {
            let (upper, lower) = (column[at], column[at + 1]);
            column[at] = cosine * upper + sine * lower;
            column[at + 1] = cosine * lower - sine * upper;
        }
        let length = column[step].hypot(beyond);
        if length == 0.0 {
            tried.pop();
            break;
        }
        let (cosine, sine) = (column[step] / length, beyond / length);
        column[step] = length;
        turns.push((cosine, sine));
        columns.push(column);
        let last = rest[step];
        rest[step] = cosine * last;
        rest.push(-sine * last);
        if (sine * last).abs() <= patience.left * whole || beyond == 0.0 {
            break;
        }
        basis.push(scaled(&image, 1.0 / beyond));
    }
    let mut weights = vec![0.0; tried.len()];
    for row in (0..tried.len()).rev() {
        let known: f64 = (row + 1..tried.len()).map(|at| columns[at][row] * weights[at]).sum();
        weights[row] = (rest[row] - known) / columns[row][row];
    }
    let mut answer = vec![0.0; side.len()];
    for (trial, &weight) in tried.iter().zip(&weights) {
        add(&mut answer, trial, weight);
    }
    answer
}

pub(crate) fn norm(values: &[f64]) -> f64 {
    dot(values, values).sqrt()
}

fn dot(one: &[f64], other: &[f64]) -> f64 {
    one.iter().zip(other).map(|(a, b)| a * b).sum()
}

fn add(to: &mut [f64], values: &[f64], weight: f64) {
    for (sum, value) in to.iter_mut().zip(values) {
        *sum += weight * value;
    }
}

fn scaled(values: &[f64], by: f64) -> Vec<f64> {
    values.iter().map(|value| by * value).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Given: three equations `4a + b = 9, -a + 3b + c = 8, 2b + 5c = 19`. Expected: 1.75..., by
    /// Cramer's rule on paper: determinant 57, a = 102/57, b = 105/57, c = 174.6/57 - put back
    /// instead: the equations hold to 1e-12.
    #[test]
    fn puts_the_equations_back() {
        let apply =
            |x: &[f64]| vec![4.0 * x[0] + x[1], -x[0] + 3.0 * x[1] + x[2], 2.0 * x[1] + 5.0 * x[2]];
        let near = |x: &mut [f64]| {
            for (value, diagonal) in x.iter_mut().zip([4.0, 3.0, 5.0]) {
                *value /= diagonal;
            }
        };
        let side = [9.0, 8.0, 19.0];
        let patience = Patience { left: 1e-14, steps: 3 };
        let x = minimal_residual(&mut System { apply, near }, &side, patience);
        for (got, want) in apply(&x).iter().zip(side) {
            assert!((got - want).abs() < 1e-12, "{x:?}");
        }
    }
}
