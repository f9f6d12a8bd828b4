//! How much hot water a household draws.

use super::error::TapError;
use crate::matter::fluid::{Fluid, properties};

/// Hot water of a household's mean day \[m3\].
///
/// ```text
/// V = 25 N + 36 litres
/// ```
///
/// - `people`: N, more than 0; broken numbers are means over many homes.
///
/// # Valid range
/// Positive numbers; a [`TapError`] outside.
///
/// # Source
/// SAP 2012, Appendix J (two copies agree).
///
/// # Checked
/// Against the 40 + 28 N litres that a field trial of 120 British homes measured (2008, from
/// memory), within 15 % for 1 to 6 people.
///
/// # Example
/// ```
/// let day_m3 = physics::tap::household::day_volume_sap_2012_m3(3.0).unwrap();
/// assert!((day_m3 - 0.111).abs() < 1e-9);
/// ```
pub fn day_volume_sap_2012_m3(people: f64) -> Result<f64, TapError> {
    let good = people > 0.0 && people.is_finite();
    TapError::unless(good, "the number of people", people, "more than 0")?;
    Ok((25.0 * people + 36.0) / 1000.0)
}

/// Volume of water that carries a heat at one temperature over another \[m3\].
///
/// ```text
/// V = Q / (rho cp (Th - Tc))      rho cp of water at the mean of both
/// ```
///
/// - `energy_j`: heat over the cold water \[J\].
/// - `hot_k`, `cold_k`: absolute \[K\], hot over cold.
///
/// # Valid range
/// Hot above cold, both 0 to 110 C, heat 0 or more; a [`TapError`] outside.
///
/// # Checked
/// Against the volumes of the EU's load profiles M to XXL at 60 C from 10 C, and SAP's monthly
/// energy of a household (4.18 kJ/(l K)), to 0.6 %: both take a round number for rho cp.
pub fn volume_m3(energy_j: f64, hot_k: f64, cold_k: f64) -> Result<f64, TapError> {
    let good = energy_j >= 0.0 && energy_j.is_finite();
    TapError::unless(good, "the heat in J", energy_j, "0 or more")?;
    let difference_k = hot_k - cold_k;
    let what = "hot water over cold in K";
    TapError::unless(difference_k > 0.0, what, difference_k, "more than 0")?;
    let water = properties(Fluid::Water, 0.5 * (hot_k + cold_k))?;
    Ok(energy_j / (water.volume_heat_j_m3_k() * difference_k))
}
