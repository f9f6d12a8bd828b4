//! Heat that leaves the absorber upwards, through gap and cover.

use super::error::{PanelError, TEMPERATURES_K, within};
use super::gap::{Gap, gap_film_w_m2_k};
use super::solve::{Bracket, newton_in_bracket};
use crate::{Angle, STEFAN_BOLTZMANN_W_M2_K4};

/// A plate under one cover, and what lies above it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TopLoss {
    /// Mean temperature of the absorber \[K\].
    pub plate_k: f64,
    /// Temperature of the outdoor air \[K\].
    pub ambient_k: f64,
    /// Temperature of a black sky that radiates as the true one does \[K\].
    pub sky_k: f64,
    /// Film coefficient of the wind on the cover \[W/(m2 K)\], usually 5 to 20.
    pub wind_film_w_m2_k: f64,
    /// Long-wave emittance of the absorber, 0.9 to 0.95 matt black.
    pub plate_emittance: f64,
    /// Long-wave emittance of both faces of the cover, 0.88 glass.
    pub cover_emittance: f64,
    /// Air gap between absorber and cover \[m\], 0.015 to 0.05.
    pub gap_m: f64,
    /// Slope of the panel, 0 to 90 degrees.
    pub tilt: Angle,
}

/// What leaves upwards, and how.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TopLossAnswer {
    /// Heat from the plate through the cover, positive outwards \[W/m2\].
    pub flux_w_m2: f64,
    /// The same heat over the difference between plate and ambient \[W/(m2 K)\].
    ///
    /// Under a sky colder than the air heat leaves even from a plate at ambient temperature: the
    /// quotient then grows without limit, and turns negative for a plate a little colder than the
    /// air. Within 0.001 K of ambient, where it does not exist, the conductance of the same path
    /// is given instead (gap and cover in series), which is its limit when sky and air are alike.
    pub loss_w_m2_k: f64,
    /// Temperature of the cover \[K\].
    pub cover_k: f64,
    /// Natural convection from plate to cover \[W/(m2 K)\].
    pub gap_film_w_m2_k: f64,
    /// Radiation from plate to cover, over their difference \[W/(m2 K)\].
    pub radiation_film_w_m2_k: f64,
}

/// Heat from plate to sky and air through one cover that long-wave light does not pass.
///
/// Plate to cover: `h (Tp - Tc) + sigma (Tp^4 - Tc^4)/(1/ep + 1/ec - 1)`; cover to surroundings:
/// `hw (Tc - Ta) + ec sigma (Tc^4 - Ts^4)`; the cover temperature makes both equal.
///
/// Works for a plate colder than its surroundings too: the flux is then negative.
///
/// # Valid range
/// Temperatures 100 to 1000 K, emittances 0 to 1, wind film 0.01 to 1000 W/(m2 K), tilt 0 to 90
/// degrees, gap 0.5 mm to 1 m; else an error. Thin plastics let long-wave light through and lose
/// more than this.
///
/// # Source
/// Duffie and Beckman 2006, section 6.4, eq. 6.4.1 to 6.4.8.
///
/// # Checked
/// TL-02 (their example 6.4.1): 6.62 W/(m2 K) within 0.05, cover 48.5 C within 0.6 K. TL-05 (one
/// cover) within 0.1 % of an independent solution, ST-03 within 0.1 K. Cover temperature to
/// 1e-6 K.
///
/// # Example
/// ```
/// use physics::{Angle, panel::top_loss::{TopLoss, top_loss}};
/// let answer = top_loss(&TopLoss {
///     plate_k: 373.15, ambient_k: 283.15, sky_k: 283.15, wind_film_w_m2_k: 10.0,
///     plate_emittance: 0.95, cover_emittance: 0.88, gap_m: 0.025, tilt: Angle::from_degrees(45.0),
/// }).unwrap();
/// assert!((answer.loss_w_m2_k - 6.62).abs() < 0.05);
/// ```
pub fn top_loss(given: &TopLoss) -> Result<TopLossAnswer, PanelError> {
    let path = TopPath {
        wind_film_w_m2_k: given.wind_film_w_m2_k,
        plate_emittance: given.plate_emittance,
        cover_emittance: given.cover_emittance,
        gap_m: given.gap_m,
        tilt: given.tilt,
    };
    let equilibrium_k = equilibrium_k(&Surroundings {
        ambient_k: given.ambient_k,
        sky_k: given.sky_k,
        wind_film_w_m2_k: given.wind_film_w_m2_k,
        cover_emittance: given.cover_emittance,
    })?;
    let cover_k = cover_k(given.plate_k, equilibrium_k, &path)?;
    let inside = path.inside(given.plate_k, cover_k)?;
    let rise_k = given.plate_k - given.ambient_k;
    let loss_w_m2_k = if rise_k.abs() > 1e-3 {
        inside.flux_w_m2 / rise_k
    } else {
        let (_, outside_w_m2_k) = path.outside(cover_k, equilibrium_k);
        1.0 / (1.0 / (inside.gap_film_w_m2_k + inside.radiation_film_w_m2_k) + 1.0 / outside_w_m2_k)
    };
    Ok(TopLossAnswer {
        flux_w_m2: inside.flux_w_m2,
        loss_w_m2_k,
        cover_k,
        gap_film_w_m2_k: inside.gap_film_w_m2_k,
        radiation_film_w_m2_k: inside.radiation_film_w_m2_k,
    })
}

/// The way up without its two ends: what a table over plate and equilibrium is made for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TopPath {
    /// Film coefficient of the wind on the cover \[W/(m2 K)\].
    pub wind_film_w_m2_k: f64,
    /// Long-wave emittance of the absorber.
    pub plate_emittance: f64,
    /// Long-wave emittance of both faces of the cover.
    pub cover_emittance: f64,
    /// Air gap between absorber and cover \[m\].
    pub gap_m: f64,
    /// Slope of the panel.
    pub tilt: Angle,
}

/// Heat from the plate through the cover \[W/m2\], given where the cover would stand by itself.
///
/// Air and sky enter the cover's balance only through `hw Ta + ec sigma Ts^4`, hence only through
/// the temperature that balances it, [`equilibrium_k`]. So the flux depends on plate,
/// equilibrium and wind alone and can be tabled over them; it is exactly [`top_loss`]'s.
///
/// `plate_k`: absorber \[K\]; `equilibrium_k`: cover without heat from the plate \[K\]. Positive
/// outwards; zero where both are equal; rises with the plate's temperature.
///
/// # Valid range
/// As [`top_loss`].
///
/// # Source
/// Algebra on Duffie and Beckman 2006, eq. 6.4.1 to 6.4.8.
///
/// # Checked
/// Equal to [`top_loss`] for random surroundings, to 1e-6 W/m2.
pub fn top_flux_w_m2(plate_k: f64, equilibrium_k: f64, path: &TopPath) -> Result<f64, PanelError> {
    let cover_k = cover_k(plate_k, equilibrium_k, path)?;
    Ok(path.inside(plate_k, cover_k)?.flux_w_m2)
}

/// What surrounds the cover.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Surroundings {
    /// Temperature of the outdoor air \[K\].
    pub ambient_k: f64,
    /// Temperature of a black sky that radiates as the true one does \[K\].
    pub sky_k: f64,
    /// Film coefficient of the wind on the cover \[W/(m2 K)\].
    pub wind_film_w_m2_k: f64,
    /// Long-wave emittance of the cover's outer face.
    pub cover_emittance: f64,
}

/// Temperature of a cover to which the plate gives no heat \[K\].
///
/// The `T` for which `hw T + ec sigma T^4 = hw Ta + ec sigma Ts^4`; it lies between air and sky.
///
/// # Valid range
/// As [`top_loss`].
///
/// # Source
/// The outer half of Duffie and Beckman 2006, eq. 6.4.1, without heat from below.
///
/// # Checked
/// Puts the balance back to 1e-6 W/m2; equals the air when sky and air are alike.
pub fn equilibrium_k(around: &Surroundings) -> Result<f64, PanelError> {
    within("ambient temperature [K]", around.ambient_k, TEMPERATURES_K)?;
    within("sky temperature [K]", around.sky_k, TEMPERATURES_K)?;
    within("wind film [W/(m2 K)]", around.wind_film_w_m2_k, WIND_FILMS)?;
    within("emittance of the cover", around.cover_emittance, 0.0..=1.0)?;
    if around.ambient_k == around.sky_k {
        return Ok(around.ambient_k);
    }
    let radiation = around.cover_emittance * STEFAN_BOLTZMANN_W_M2_K4;
    let bracket = Bracket {
        balance: "temperature of the cover by itself",
        low: around.ambient_k.min(around.sky_k),
        high: around.ambient_k.max(around.sky_k),
        width: 1e-7,
    };
    newton_in_bracket(bracket, |here_k| {
        let residual = around.wind_film_w_m2_k * (here_k - around.ambient_k)
            + radiation * (here_k.powi(4) - around.sky_k.powi(4));
        Ok((residual, around.wind_film_w_m2_k + 4.0 * radiation * here_k.powi(3)))
    })
}

/// Temperature of the cover between plate and equilibrium \[K\].
fn cover_k(plate_k: f64, equilibrium_k: f64, path: &TopPath) -> Result<f64, PanelError> {
    within("plate temperature [K]", plate_k, TEMPERATURES_K)?;
    within("temperature of the cover by itself [K]", equilibrium_k, TEMPERATURES_K)?;
    within("wind film [W/(m2 K)]", path.wind_film_w_m2_k, WIND_FILMS)?;
    within("emittance of the plate", path.plate_emittance, 0.0..=1.0)?;
    within("emittance of the cover", path.cover_emittance, 0.0..=1.0)?;
    if plate_k == equilibrium_k {
        return Ok(plate_k);
    }
    let bracket = Bracket {
        balance: "temperature of the cover",
        low: plate_k.min(equilibrium_k),
        high: plate_k.max(equilibrium_k),
        width: 1e-7,
    };
    let middle_k = 0.5 * (plate_k + equilibrium_k);
    newton_in_bracket(bracket, |here_k| {
        let inside = path.inside(plate_k, here_k)?;
        // The gap's film changes with the cover too: half a millikelvin towards the middle of the
        // bracket, where temperatures are always answerable, shows how much.
        let step_k = NEARBY_K.copysign(middle_k - here_k);
        let nearby = path.inside(plate_k, here_k + step_k)?;
        let (outside_w_m2, outside_slope) = path.outside(here_k, equilibrium_k);
        let inside_slope = (nearby.flux_w_m2 - inside.flux_w_m2) / step_k;
        Ok((outside_w_m2 - inside.flux_w_m2, outside_slope - inside_slope))
    })
}

/// Heat between plate and cover.
struct Inside {
    flux_w_m2: f64,
    gap_film_w_m2_k: f64,
    radiation_film_w_m2_k: f64,
}

impl TopPath {
    fn inside(&self, plate_k: f64, cover_k: f64) -> Result<Inside, PanelError> {
        let gap_film_w_m2_k = gap_film_w_m2_k(&Gap {
            tilt: self.tilt,
            depth_m: self.gap_m,
            hot_k: plate_k,
            cold_k: cover_k,
        })?;
        let radiation_film_w_m2_k = STEFAN_BOLTZMANN_W_M2_K4
            * grey_exchange(self.plate_emittance, self.cover_emittance)
            * (plate_k + cover_k)
            * (plate_k * plate_k + cover_k * cover_k);
        let flux_w_m2 = (gap_film_w_m2_k + radiation_film_w_m2_k) * (plate_k - cover_k);
        Ok(Inside { flux_w_m2, gap_film_w_m2_k, radiation_film_w_m2_k })
    }

    /// Heat from cover to surroundings \[W/m2\], and how it grows with the cover \[W/(m2 K)\].
    fn outside(&self, cover_k: f64, equilibrium_k: f64) -> (f64, f64) {
        let radiation = self.cover_emittance * STEFAN_BOLTZMANN_W_M2_K4;
        let flux_w_m2 = self.wind_film_w_m2_k * (cover_k - equilibrium_k)
            + radiation * (cover_k.powi(4) - equilibrium_k.powi(4));
        (flux_w_m2, self.wind_film_w_m2_k + 4.0 * radiation * cover_k.powi(3))
    }
}

/// Effective emittance between two large parallel grey faces.
fn grey_exchange(one: f64, other: f64) -> f64 {
    if one * other > 0.0 { 1.0 / (1.0 / one + 1.0 / other - 1.0) } else { 0.0 }
}

/// Wind films that can be answered \[W/(m2 K)\].
const WIND_FILMS: std::ops::RangeInclusive<f64> = 0.01..=1000.0;

/// Step for the slope of the gap's flux \[K\].
const NEARBY_K: f64 = 5e-4;

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn example() -> TopLoss {
        TopLoss {
            plate_k: 373.15,
            ambient_k: 283.15,
            sky_k: 283.15,
            wind_film_w_m2_k: 10.0,
            plate_emittance: 0.95,
            cover_emittance: 0.88,
            gap_m: 0.025,
            tilt: Angle::from_degrees(45.0),
        }
    }

    /// Given: a plate as warm as air and sky. Expected: no heat, and a conductance (not 0/0) near
    /// that of a plate a little warmer, by continuity.
    #[test]
    fn a_plate_at_ambient_loses_nothing() {
        let still = top_loss(&TopLoss { plate_k: 283.15, ..example() }).unwrap();
        let warmer = top_loss(&TopLoss { plate_k: 283.25, ..example() }).unwrap();
        assert_eq!(still.flux_w_m2, 0.0);
        assert!((still.loss_w_m2_k / warmer.loss_w_m2_k - 1.0).abs() < 2e-3);
    }

    /// Given: a plate 20 K colder than air and sky. Expected: heat flows in, the cover between.
    #[test]
    fn a_cold_plate_gains() {
        let answer = top_loss(&TopLoss { plate_k: 263.15, ..example() }).unwrap();
        assert!(answer.flux_w_m2 < 0.0 && answer.loss_w_m2_k > 0.0);
        assert!(answer.cover_k > 263.15 && answer.cover_k < 283.15);
    }

    /// Given: bare cover under a sky 20 K colder than the air. Expected: the written balance,
    /// `hw T + e s T^4 = hw Ta + e s Ts^4`, to 1e-5 W/m2.
    #[test]
    fn the_equilibrium_balances() {
        let around = Surroundings {
            ambient_k: 283.15,
            sky_k: 263.15,
            wind_film_w_m2_k: 10.0,
            cover_emittance: 0.88,
        };
        let t_k = equilibrium_k(&around).unwrap();
        let side = |air_k: f64, sky_k: f64| 10.0 * air_k + 0.88 * 5.670374e-8 * sky_k.powi(4);
        assert!((side(t_k, t_k) - side(283.15, 263.15)).abs() < 1e-5);
    }

    /// Given: numbers that mean nothing. Expected: errors.
    #[test]
    fn refuses_nonsense() {
        for wrong in [
            TopLoss { plate_k: f64::NAN, ..example() },
            TopLoss { sky_k: -3.0, ..example() },
            TopLoss { wind_film_w_m2_k: 0.0, ..example() },
            TopLoss { plate_emittance: 1.1, ..example() },
            TopLoss { cover_emittance: f64::NAN, ..example() },
            TopLoss { gap_m: -0.01, ..example() },
            TopLoss { tilt: Angle::from_degrees(120.0), ..example() },
        ] {
            assert!(top_loss(&wrong).is_err(), "{wrong:?}");
        }
    }

    prop_compose! {
        fn any_case()(
            plate_k in 213.15..523.15_f64,
            ambient_k in 243.15..313.15_f64,
            sky_drop_k in 0.0..40.0_f64,
            wind_film_w_m2_k in 1.0..50.0_f64,
            plate_emittance in 0.0..1.0_f64,
            cover_emittance in 0.0..1.0_f64,
            gap_m in 0.005..0.1_f64,
            degrees in 0.0..90.0_f64,
        ) -> TopLoss {
            TopLoss {
                plate_k, ambient_k, sky_k: ambient_k - sky_drop_k, wind_film_w_m2_k,
                plate_emittance, cover_emittance, gap_m, tilt: Angle::from_degrees(degrees),
            }
        }
    }

    fn split(given: &TopLoss) -> (f64, TopPath) {
        let equilibrium = equilibrium_k(&Surroundings {
            ambient_k: given.ambient_k,
            sky_k: given.sky_k,
            wind_film_w_m2_k: given.wind_film_w_m2_k,
            cover_emittance: given.cover_emittance,
        });
        let path = TopPath {
            wind_film_w_m2_k: given.wind_film_w_m2_k,
            plate_emittance: given.plate_emittance,
            cover_emittance: given.cover_emittance,
            gap_m: given.gap_m,
            tilt: given.tilt,
        };
        (equilibrium.unwrap(), path)
    }

    proptest! {
        /// The cover's written balance holds, with true air and sky, to 1e-3 K of cover
        /// temperature at no less than 1 W/(m2 K), hence 1e-3 W/m2.
        #[test]
        fn the_cover_balances(given in any_case()) {
            let answer = top_loss(&given).unwrap();
            let outside = given.wind_film_w_m2_k * (answer.cover_k - given.ambient_k)
                + given.cover_emittance * STEFAN_BOLTZMANN_W_M2_K4
                    * (answer.cover_k.powi(4) - given.sky_k.powi(4));
            prop_assert!((outside - answer.flux_w_m2).abs() < 1e-3);
        }

        /// Knowing the equilibrium is as good as knowing air and sky.
        #[test]
        fn the_split_equals_the_whole(given in any_case()) {
            let (equilibrium_k, path) = split(&given);
            let whole = top_loss(&given).unwrap().flux_w_m2;
            let tabled = top_flux_w_m2(given.plate_k, equilibrium_k, &path).unwrap();
            prop_assert!((whole - tabled).abs() < 1e-6);
            // The same equilibrium from other air and sky: sky as warm as air.
            let alike = TopLoss { ambient_k: equilibrium_k, sky_k: equilibrium_k, ..given };
            prop_assert!((top_loss(&alike).unwrap().flux_w_m2 - whole).abs() < 1e-5);
        }

        /// A warmer plate never loses less.
        #[test]
        fn flux_rises_with_the_plate(given in any_case(), warmer_k in 0.1..20.0_f64) {
            let cool = top_loss(&given).unwrap().flux_w_m2;
            let warm = TopLoss { plate_k: given.plate_k + warmer_k, ..given };
            prop_assert!(top_loss(&warm).unwrap().flux_w_m2 > cool);
        }
    }
}
