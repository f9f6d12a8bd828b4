//! Tube by the metre: bore, contents, mass.

use std::f64::consts::PI;

use super::error::MakingError;

/// A round tube as it is sold.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TubeStock {
    /// Outside diameter \[m\]; 0.015 and 0.022 are the usual copper.
    pub outside_m: f64,
    /// Thickness of the wall \[m\]; 0.0007 and 0.0009.
    pub wall_m: f64,
    /// Density of the wall \[kg/m3\]; copper 8940.
    pub density_kg_m3: f64,
}

/// What one metre of it is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TubeByMetre {
    /// Bore \[m\].
    pub bore_m: f64,
    /// What one metre holds \[m3/m\].
    pub contents_m2: f64,
    /// Mass of one metre, empty \[kg/m\].
    pub mass_kg_m: f64,
}

/// Bore, contents and mass of a tube.
///
/// ```text
/// d = D - 2 t,   contents = pi d^2/4,   mass = rho pi (D - t) t
/// ```
///
/// - `stock`: outside D, wall t, density rho.
///
/// # Valid range
/// A wall thinner than half the outside; a [`MakingError`] outside. Makers' weights part by 1 %,
/// since they take copper as 8900 to 8960 kg/m3.
///
/// # Source
/// Geometry of a ring; outside diameters and walls of copper tube as EN 1057 lists them.
///
/// # Checked
/// B-EN-01 (four sizes) to 1e-4.
///
/// # Example
/// ```
/// use physics::making::tube::{TubeStock, by_metre};
/// let stock = TubeStock { outside_m: 0.015, wall_m: 0.0007, density_kg_m3: 8940.0 };
/// assert!((by_metre(&stock).unwrap().mass_kg_m - 0.2811).abs() < 1e-4);
/// ```
pub fn by_metre(stock: &TubeStock) -> Result<TubeByMetre, MakingError> {
    MakingError::positive("the tube's outside in m", stock.outside_m)?;
    MakingError::positive("the wall in m", stock.wall_m)?;
    MakingError::positive("the wall's density in kg/m3", stock.density_kg_m3)?;
    let bore_m = stock.outside_m - 2.0 * stock.wall_m;
    let must = "less than half the outside";
    MakingError::unless(bore_m > 0.0, "the wall in m", stock.wall_m, must)?;
    Ok(TubeByMetre {
        bore_m,
        contents_m2: PI / 4.0 * bore_m * bore_m,
        mass_kg_m: stock.density_kg_m3 * PI * (stock.outside_m - stock.wall_m) * stock.wall_m,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Given: a wall as thick as the tube. Expected: an error, for no bore is left.
    #[test]
    fn refuses_a_bar() {
        let bar = TubeStock { outside_m: 0.015, wall_m: 0.0075, density_kg_m3: 8940.0 };
        assert!(by_metre(&bar).is_err());
        assert!(by_metre(&TubeStock { wall_m: f64::NAN, ..bar }).is_err());
    }
}
