//! How far metal grows when it warms, and how hard it pushes when it may not.

use super::error::MakingError;

/// Growth of a free length \[m\], positive where it warms.
///
/// ```text
/// dL = alpha L dT
/// ```
///
/// - `expansion_1_k`: alpha \[1/K\]; copper 16.8e-6, aluminium 23.1e-6, glass 9e-6.
/// - `length_m`: length when cold \[m\], 0 or more.
/// - `warming_k`: difference \[K\]; a panel that stands dry may take 150.
///
/// # Valid range
/// Finite numbers, a length of 0 or more; a [`MakingError`] outside. Coefficients are means about
/// 20 to 100 C; copper's is 5 % more about 200 C (from memory).
///
/// # Source
/// Definition of the linear coefficient.
///
/// # Checked
/// A printed rule of the pipe trade, 1.7 mm for a metre of copper and 100 K (from memory), to its
/// figures; the catalogue's coefficients against E-01 to 8 %.
///
/// # Example
/// ```
/// let growth_m = physics::making::stretch::growth_m(16.8e-6, 2.0, 100.0).unwrap();
/// assert!((growth_m - 0.00336).abs() < 1e-9);
/// ```
pub fn growth_m(expansion_1_k: f64, length_m: f64, warming_k: f64) -> Result<f64, MakingError> {
    MakingError::finite("the expansion in 1/K", expansion_1_k)?;
    MakingError::not_negative("the length in m", length_m)?;
    MakingError::finite("the warming in K", warming_k)?;
    Ok(expansion_1_k * length_m * warming_k)
}

/// Stress in a straight length that is held at both ends \[Pa\], positive for the push of warming.
///
/// ```text
/// sigma = E alpha dT
/// ```
///
/// - `elasticity_pa`: E \[Pa\]; copper 120e9.
/// - `expansion_1_k`, `warming_k`: as [`growth_m`].
///
/// # Valid range
/// Elastic and unbuckled: annealed copper yields near 50 MPa (from memory), half-hard tube pushes
/// on its joints instead. Finite numbers, elasticity more than 0; a [`MakingError`] outside.
///
/// # Source
/// Hooke's law.
///
/// # Checked
/// E-05 to 1e-6.
pub fn held_stress_pa(
    elasticity_pa: f64,
    expansion_1_k: f64,
    warming_k: f64,
) -> Result<f64, MakingError> {
    MakingError::positive("the elasticity in Pa", elasticity_pa)?;
    MakingError::finite("the expansion in 1/K", expansion_1_k)?;
    MakingError::finite("the warming in K", warming_k)?;
    Ok(elasticity_pa * expansion_1_k * warming_k)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Given: a metre of copper, 100 K warmer. Expected: 1.7 mm, as the pipe trade says (from
    /// memory), printed to two figures: 0.05 mm. Cooling shrinks it by as much (exact).
    #[test]
    fn copper_grows_as_the_trade_says() {
        let grown_m = growth_m(16.8e-6, 1.0, 100.0).unwrap();
        assert!((grown_m - 1.7e-3).abs() < 0.05e-3, "{grown_m}");
        assert_eq!(growth_m(16.8e-6, 1.0, -100.0), Ok(-grown_m));
        assert!(growth_m(16.8e-6, -1.0, 100.0).is_err());
        assert!(held_stress_pa(0.0, 16.8e-6, 60.0).is_err());
        assert!(held_stress_pa(120e9, 16.8e-6, f64::INFINITY).is_err());
    }
}
