//! What heat does to a pane: the pull at its cold edge, and how far it bows.

use std::f64::consts::{FRAC_PI_2, PI};

use super::error::MakingError;

/// What a pane's material is like.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PaneMaterial {
    /// E \[Pa\]; glass 70e9, acrylic 3.2e9.
    pub elasticity_pa: f64,
    /// alpha \[1/K\]; glass 9e-6, acrylic 75e-6.
    pub expansion_1_k: f64,
    /// nu; glass 0.22, plastics 0.37.
    pub poisson_factor: f64,
}

impl PaneMaterial {
    /// Float glass: E 70 GPa (EN 572-1), alpha 9e-6 (EN 572-1), nu 0.22 (from memory; that part gives
    /// 0.2).
    pub const GLASS: PaneMaterial =
        PaneMaterial { elasticity_pa: 70e9, expansion_1_k: 9e-6, poisson_factor: 0.22 };

    fn checked(&self) -> Result<(), MakingError> {
        MakingError::positive("the elasticity in Pa", self.elasticity_pa)?;
        MakingError::finite("the expansion in 1/K", self.expansion_1_k)?;
        let nu = self.poisson_factor;
        MakingError::unless((0.0..0.5).contains(&nu), "Poisson's ratio", nu, "0 to below 0.5")?;
        Ok(())
    }
}

/// Pull along the edge of a pane whose middle is warmer \[Pa\], positive for a pull.
///
/// ```text
/// sigma = E alpha dT/(1 - nu)
/// ```
///
/// - `material`: usually [`PaneMaterial::GLASS`].
/// - `difference_k`: middle less edge \[K\]; 40 to 60 where half a pane lies in the shade.
///
/// # Valid range
/// Finite differences; a [`MakingError`] outside. The bound of a pane held all round: a cold edge
/// that is narrow beside its pane is pulled as hard as this, a broad one less.
///
/// # Source
/// A glass trade article on thermal stress in glazing; plane stress held both ways (Timoshenko and
/// Goodier 1951, thermal stress).
///
/// # Checked
/// That article's own figure, about 32 MPa for 40 K, to its two figures.
///
/// # Example
/// ```
/// use physics::making::pane::{PaneMaterial, edge_pull_pa};
/// let pull_pa = edge_pull_pa(&PaneMaterial::GLASS, 40.0).unwrap();
/// assert!((pull_pa - 32.3e6).abs() < 0.1e6);
/// ```
pub fn edge_pull_pa(material: &PaneMaterial, difference_k: f64) -> Result<f64, MakingError> {
    material.checked()?;
    MakingError::finite("the difference in K", difference_k)?;
    let held_pa = material.elasticity_pa * material.expansion_1_k * difference_k;
    Ok(held_pa / (1.0 - material.poisson_factor))
}

/// A pane with one face warmer than the other.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WarmPane {
    /// What it is made of.
    pub material: PaneMaterial,
    /// Its longer side \[m\].
    pub length_m: f64,
    /// Its shorter side \[m\].
    pub width_m: f64,
    /// Its thickness \[m\].
    pub thickness_m: f64,
    /// Inner face less outer face \[K\].
    pub across_k: f64,
}

/// How far the middle of a pane bows towards its warmer face \[m\], its four edges lying on.
///
/// ```text
/// w = (1 + nu) alpha dT/t phi
/// phi = b^2/8 - 4 b^2/pi^3 sum (-1)^((n-1)/2)/(n^3 cosh(n pi a/2b)),   n = 1, 3, 5 ..
/// ```
///
/// phi is the middle of the membrane that a pressure of one blows up over the pane; a the longer
/// side, b the shorter.
///
/// - `pane`: sides, thickness, and the difference from face to face, a few kelvin through plastic.
///
/// # Valid range
/// Sides and thickness more than 0, the length no less than the width, finite differences; a
/// [`MakingError`] outside. Small bows, corners held down; a pane held only at its two ends bows
/// with its length, which is more.
///
/// # Source
/// Timoshenko and Woinowsky-Krieger 1959, plates with simply supported edges unequally heated (from
/// memory).
///
/// # Checked
/// Against the membrane's tabulated middle: a square 0.07367 of its side squared, a long strip an
/// eighth of its width squared (Timoshenko and Goodier 1951, torsion of rectangular bars; from
/// memory), to the figures of the table.
pub fn bow_m(pane: &WarmPane) -> Result<f64, MakingError> {
    pane.material.checked()?;
    let width_m = MakingError::positive("the pane's shorter side in m", pane.width_m)?;
    let length_m = pane.length_m;
    MakingError::unless(
        length_m >= width_m && length_m.is_finite(),
        "the pane's longer side in m",
        length_m,
        "no less than the shorter",
    )?;
    MakingError::positive("the pane's thickness in m", pane.thickness_m)?;
    MakingError::finite("the difference in K", pane.across_k)?;
    let curve_1_m =
        (1.0 + pane.material.poisson_factor) * pane.material.expansion_1_k * pane.across_k
            / pane.thickness_m;
    Ok(curve_1_m * membrane(length_m / width_m) * width_m * width_m)
}

/// Middle of the membrane over a rectangle, its width 1.
fn membrane(slenderness: f64) -> f64 {
    let term = |n: f64, sign: f64| sign / (n * n * n * (n * FRAC_PI_2 * slenderness).cosh());
    // The fifth odd term of a square is below 1e-8.
    let sum: f64 = [(1.0, 1.0), (3.0, -1.0), (5.0, 1.0), (7.0, -1.0)]
        .into_iter()
        .map(|(n, sign)| term(n, sign))
        .sum();
    0.125 - 4.0 / (PI * PI * PI) * sum
}

#[cfg(test)]
mod tests {
    use super::*;

    const ACRYLIC: PaneMaterial =
        PaneMaterial { elasticity_pa: 3.2e9, expansion_1_k: 75e-6, poisson_factor: 0.37 };

    /// Given: 40 K from middle to edge of float glass. Expected: about 32 MPa, as the trade article
    /// prints it; to half a unit of its last figure. Warmer at the edge: a push as hard (exact).
    #[test]
    fn a_cold_edge_pulls_as_the_trade_prints_it() {
        let pull_pa = edge_pull_pa(&PaneMaterial::GLASS, 40.0).unwrap();
        assert!((pull_pa / 1e6 - 32.0).abs() < 0.5, "{pull_pa}");
        assert_eq!(edge_pull_pa(&PaneMaterial::GLASS, -40.0), Ok(-pull_pa));
    }

    /// Given: the membrane over rectangles. Expected: the square's middle 0.0737 and the strip's 0.125
    /// (Timoshenko and Goodier 1951, torsion of rectangular bars, from memory), to the last figure; both
    /// it and two to one as a relaxed grid has them, 8 and 16 squares wide and carried on to none, to
    /// 2e-5, what the fourth power of a square leaves.
    #[test]
    fn the_membrane_is_the_tabulated_one() {
        for (slenderness, expected) in [(1.0, 0.0737), (20.0, 0.125)] {
            let got = membrane(slenderness);
            assert!((got - expected).abs() < 0.6e-4, "{slenderness}: {got}");
        }
        for sides in [1, 2] {
            let on = (4.0 * relaxed(16 * sides, 16) - relaxed(8 * sides, 8)) / 3.0;
            let got = membrane(sides as f64);
            assert!((got - on).abs() < 2e-5, "{sides}: {got} {on}");
        }
    }

    /// Middle of a membrane on a grid of squares, its width 1, relaxed until it rests.
    fn relaxed(long: usize, wide: usize) -> f64 {
        let square = 1.0 / (wide * wide) as f64;
        let mut grid = vec![vec![0.0; wide + 1]; long + 1];
        for _ in 0..2000 {
            for row in 1..long {
                for column in 1..wide {
                    let around: f64 = grid[row - 1][column]
                        + grid[row + 1][column]
                        + grid[row][column - 1]
                        + grid[row][column + 1];
                    grid[row][column] = 0.25 * (around + square);
                }
            }
        }
        grid[long / 2][wide / 2]
    }

    /// Given: 3 mm of acrylic 0.6 m wide, far longer, 5 K from face to face. Expected, by hand:
    /// 1.37 x 75e-6 x 5/0.003 = 0.17125 1/m, times 0.36/8 = 7.71 mm. A bow without warmth: none.
    #[test]
    fn a_long_pane_by_hand() {
        let pane = WarmPane {
            material: ACRYLIC,
            length_m: 12.0,
            width_m: 0.6,
            thickness_m: 0.003,
            across_k: 5.0,
        };
        assert!((bow_m(&pane).unwrap() - 7.706e-3).abs() < 0.002e-3);
        assert_eq!(bow_m(&WarmPane { across_k: 0.0, ..pane }), Ok(0.0));
        let square = WarmPane { length_m: 0.6, ..pane };
        assert!(bow_m(&square).unwrap() < bow_m(&pane).unwrap());
    }

    /// Given: what is no pane. Expected: errors.
    #[test]
    fn refuses_nonsense() {
        let odd = PaneMaterial { poisson_factor: 0.5, ..ACRYLIC };
        assert!(edge_pull_pa(&odd, 40.0).is_err());
        assert!(edge_pull_pa(&ACRYLIC, f64::NAN).is_err());
        let pane = WarmPane {
            material: ACRYLIC,
            length_m: 1.2,
            width_m: 0.6,
            thickness_m: 0.003,
            across_k: 5.0,
        };
        assert!(bow_m(&WarmPane { length_m: 0.5, ..pane }).is_err());
        assert!(bow_m(&WarmPane { thickness_m: 0.0, ..pane }).is_err());
    }
}
