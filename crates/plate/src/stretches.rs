//! What seams that are not as they should be cost.

use super::contact::bonds_along;
use super::error::PlateError;
use super::picture::{Picture, picture};
use super::question::Question;

/// A picture, how closely its heat is known, and what each of its stretches costs.
#[derive(Clone, Debug, PartialEq)]
pub struct Study {
    /// The picture as asked for.
    pub picture: Picture,
    /// How closely its useful heat is known \[W\]: by how much it changes on cells twice as large.
    pub tolerance_w: f64,
    /// One for each of [`Question::stretches`].
    pub costs: Vec<StretchCost>,
}

/// What one stretch costs beside the bond of the rest, all other stretches as they are.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StretchCost {
    /// Useful heat that is missing by it \[W\]; negative where it is the better bond.
    pub cost_w: f64,
    /// How closely that is known \[W\]: by how much it changes on cells twice as large, and what
    /// two sheets that count as still may be off. A cost below it is none.
    pub tolerance_w: f64,
}

/// The picture and what its stretches cost, each with what the cells' size does to it.
///
/// Two pictures for the question itself and two for each stretch mended: on its own grid, and on
/// cells twice as large each way. The method is of second order, so that the finer one is three times
/// closer than their difference says; the whole difference is taken as tolerance, for a strip under a
/// tube falls now on whole cells, now not.
///
/// # Valid range
/// As [`picture`].
///
/// # Source
/// Refinement of the grid: Richardson 1911, without taking his credit for the better value.
///
/// # Checked
/// A stretch with the rest's own bond costs nothing; one missed altogether in a row of strips costs
/// what the chain says of the strips without it.
pub fn study(question: &Question) -> Result<Study, PlateError> {
    let coarse = Question { grid: question.grid.halved(), ..question.clone() };
    let drawn = picture(question)?;
    let rough = picture(&coarse)?;
    let unrest_w = drawn.residual_w.abs() + rough.residual_w.abs();
    let mut costs = Vec::with_capacity(question.stretches.len());
    for at in 0..question.stretches.len() {
        let mended_w = |question: &Question| -> Result<f64, PlateError> {
            let mut mended = question.clone();
            mended.stretches.remove(at);
            Ok(picture(&mended)?.useful_w)
        };
        let cost_w = mended_w(question)? - drawn.useful_w;
        let rough_w = mended_w(&coarse)? - rough.useful_w;
        costs.push(StretchCost { cost_w, tolerance_w: (cost_w - rough_w).abs() + unrest_w });
    }
    let tolerance_w = (drawn.useful_w - rough.useful_w).abs() + unrest_w;
    Ok(Study { picture: drawn, tolerance_w, costs })
}

/// The even bond with which the same sheet gains the same heat \[W/(m K)\].
///
/// What stands in for the stretches where one bond must do for all: the year's panel is the
/// fin-and-tube chain. There `1/F'` grows straight with the bond's resistance, and so very nearly does
/// one over the heat here: along it the bond is sought, until the heat agrees to a millionth.
///
/// Returns the question's own bond where it has no stretches.
///
/// # Valid range
/// As [`picture`], where heat is gained; heat that no even bond gives is a
/// [`PlateError::NoEvenBond`]. It holds for the question's own sun and flow; in others it differs a
/// little.
///
/// # Source
/// The secant method on `1/Q` over `1/Cb`, after Duffie and Beckman 2006, eq. 6.5.18.
///
/// # Checked
/// Gives the question's heat back; stretches that are alike all along give their own bond.
pub fn even_bond_w_m_k(question: &Question) -> Result<f64, PlateError> {
    if question.stretches.is_empty() {
        return Ok(question.bond_w_m_k);
    }
    let wanted_w = picture(question)?.useful_w;
    let mut even = Question { stretches: Vec::new(), ..question.clone() };
    let mut trial = |resistance_m_k_w: f64| -> Result<Trial, PlateError> {
        even.bond_w_m_k = 1.0 / resistance_m_k_w;
        Ok(Trial { resistance_m_k_w, useful_w: picture(&even)?.useful_w })
    };
    // The mean of the bonds by length is better than the answer, but not by far.
    let mut before = trial((1.0 / mean_bond_w_m_k(question)?).max(LEAST_M_K_W))?;
    let mut here = trial(2.0 * before.resistance_m_k_w)?;
    for _ in 0..MOST_TRIALS {
        for known in [&before, &here] {
            if (known.useful_w - wanted_w).abs() <= CLOSE * wanted_w.abs() {
                return Ok(1.0 / known.resistance_m_k_w);
            }
        }
        let slope = (1.0 / here.useful_w - 1.0 / before.useful_w)
            / (here.resistance_m_k_w - before.resistance_m_k_w);
        let step_m_k_w = (1.0 / wanted_w - 1.0 / here.useful_w) / slope;
        let rises = slope > 0.0 && wanted_w > 0.0 && step_m_k_w.is_finite();
        if !rises {
            break;
        }
        let next_m_k_w = (here.resistance_m_k_w + step_m_k_w)
            .clamp(0.1 * here.resistance_m_k_w, 10.0 * here.resistance_m_k_w);
        before = here;
        here = trial(next_m_k_w)?;
    }
    let (one_w, other_w) = (before.useful_w, here.useful_w);
    Err(PlateError::NoEvenBond {
        useful_w: wanted_w,
        least_w: one_w.min(other_w),
        most_w: one_w.max(other_w),
    })
}

/// An even bond's resistance, and the heat it gives.
#[derive(Clone, Copy)]
struct Trial {
    resistance_m_k_w: f64,
    useful_w: f64,
}

/// Part of the heat to which an even bond must give it back.
const CLOSE: f64 = 1e-6;
/// Resistance from which the search starts at the least: a bond ten times better than any solder
/// \[m K/W\].
const LEAST_M_K_W: f64 = 1e-3;
/// Trials of an even bond; three or four are usual.
const MOST_TRIALS: usize = 30;

/// Mean of the bonds along all tubes, by length \[W/(m K)\].
fn mean_bond_w_m_k(question: &Question) -> Result<f64, PlateError> {
    let (mut whole_m, mut sum_w_k) = (0.0, 0.0);
    for (tube, pipe) in question.route.pipes.iter().enumerate() {
        let bonds = bonds_along(tube, pipe.length_m(), question.bond_w_m_k, &question.stretches)?;
        for bond in bonds {
            whole_m += bond.to_m - bond.from_m;
            sum_w_k += (bond.to_m - bond.from_m) * bond.bond_w_m_k;
        }
    }
    Ok(sum_w_k / whole_m)
}
