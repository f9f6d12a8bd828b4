//! How hot a plate gets when no heat is taken from it.

use super::error::{PanelError, within};
use super::solve::{Bracket, newton_in_bracket};
use super::top_loss::{Surroundings, TopPath, equilibrium_k, top_flux_w_m2};

/// A panel in the sun that nothing cools.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stagnation {
    /// Sunlight that the sheet takes up \[W/m2\]; 600 to 900 in full sun.
    pub absorbed_w_m2: f64,
    /// Temperature of the outdoor air \[K\].
    pub ambient_k: f64,
    /// Temperature of a black sky that radiates as the true one does \[K\].
    pub sky_k: f64,
    /// Loss through back, edge and leaking air to the outdoor air \[W/(m2 K)\].
    pub rest_w_m2_k: f64,
    /// The way up, through gap and cover.
    pub path: TopPath,
}

/// Temperature of a dry or idle plate in steady sun \[K\].
///
/// The `Tp` for which `S = q_top(Tp) + U_rest (Tp - Ta)`. A plate of one temperature: near tubes
/// and rim a real one differs little, since no heat flows along it.
///
/// # Valid range
/// `absorbed_w_m2` 0 to 1500, `rest_w_m2_k` 0 to 50, otherwise as
/// [`top_loss`](super::top_loss::top_loss); else an error.
///
/// # Source
/// Plate balance, Duffie and Beckman 2006, section 6.2, with the network of section 6.4.
///
/// # Checked
/// ST-03 (single-glazed matt black) within 0.1 K of an independent solution.
pub fn stagnation_k(given: &Stagnation) -> Result<f64, PanelError> {
    within("absorbed sunlight [W/m2]", given.absorbed_w_m2, 0.0..=1500.0)?;
    within("back and edge loss [W/(m2 K)]", given.rest_w_m2_k, 0.0..=50.0)?;
    let bare_k = equilibrium_k(&Surroundings {
        ambient_k: given.ambient_k,
        sky_k: given.sky_k,
        wind_film_w_m2_k: given.path.wind_film_w_m2_k,
        cover_emittance: given.path.cover_emittance,
    })?;
    let lost_w_m2 = |plate_k: f64| {
        top_flux_w_m2(plate_k, bare_k, &given.path)
            .map(|top| top + given.rest_w_m2_k * (plate_k - given.ambient_k))
    };
    let bracket = Bracket {
        balance: "stagnation temperature [K]",
        // A hair below the colder end, so that a dark plate's balance still changes sign.
        low: given.ambient_k.min(bare_k) - 0.01,
        high: 1000.0,
        width: 1e-5,
    };
    newton_in_bracket(bracket, |plate_k| {
        // The upper end of the range has no room above it, so the slope looks downwards.
        let lost = lost_w_m2(plate_k)?;
        let slope = (lost - lost_w_m2(plate_k - 0.01)?) / 0.01;
        Ok((lost - given.absorbed_w_m2, slope))
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Angle;

    fn noon() -> Stagnation {
        Stagnation {
            absorbed_w_m2: 800.0,
            ambient_k: 298.15,
            sky_k: 283.15,
            rest_w_m2_k: 1.0,
            path: TopPath {
                wind_film_w_m2_k: 10.0,
                plate_emittance: 0.95,
                cover_emittance: 0.88,
                gap_m: 0.025,
                tilt: Angle::from_degrees(45.0),
            },
        }
    }

    /// Given: a clear night. Expected: the sheet between sky and air. And in the sun: what it
    /// loses at that temperature is what it takes up (the balance itself), to 1e-3 W/m2.
    #[test]
    fn balances_by_night_and_day() {
        let night = stagnation_k(&Stagnation { absorbed_w_m2: 0.0, ..noon() }).unwrap();
        assert!(night > 283.15 && night < 298.15, "{night}");
        let day_k = stagnation_k(&noon()).unwrap();
        let top = super::super::top_loss::top_loss(&super::super::top_loss::TopLoss {
            plate_k: day_k,
            ambient_k: 298.15,
            sky_k: 283.15,
            wind_film_w_m2_k: 10.0,
            plate_emittance: 0.95,
            cover_emittance: 0.88,
            gap_m: 0.025,
            tilt: Angle::from_degrees(45.0),
        });
        let lost_w_m2 = top.unwrap().flux_w_m2 + (day_k - 298.15);
        assert!((lost_w_m2 - 800.0).abs() < 1e-3, "{lost_w_m2}");
    }

    /// Given: numbers that mean nothing. Expected: errors.
    #[test]
    fn refuses_nonsense() {
        assert!(stagnation_k(&Stagnation { absorbed_w_m2: -1.0, ..noon() }).is_err());
        assert!(stagnation_k(&Stagnation { rest_w_m2_k: f64::NAN, ..noon() }).is_err());
        assert!(stagnation_k(&Stagnation { ambient_k: 0.0, ..noon() }).is_err());
    }
}
