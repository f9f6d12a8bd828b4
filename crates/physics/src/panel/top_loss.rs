//! The top loss of a sheet under alike covers, as handbooks state it.

use super::Cover;
use super::error::{PanelError, within};
use super::glazing::{Glazing, MOST_COVERS, Outdoors};
use crate::Angle;

/// A plate under alike covers that pass no long-wave light, and what lies above them.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TopLoss {
    /// Mean temperature of the absorber \[K\].
    pub plate_k: f64,
    /// Temperature of the outdoor air \[K\].
    pub ambient_k: f64,
    /// Temperature of a black sky that radiates as the true one does \[K\].
    pub sky_k: f64,
    /// Film coefficient of the wind on the outermost cover \[W/(m2 K)\], usually 5 to 20.
    pub wind_film_w_m2_k: f64,
    /// Long-wave emittance of the absorber, 0.9 to 0.95 matt black.
    pub plate_emittance: f64,
    /// Long-wave emittance of both faces of a cover, 0.88 glass.
    pub cover_emittance: f64,
    /// Air gap below each cover \[m\], 0.015 to 0.05.
    pub gap_m: f64,
    /// Slope of the panel, 0 to 90 degrees.
    pub tilt: Angle,
    /// Covers, 1 or 2.
    pub covers: u32,
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
    /// air. Within 0.001 K of ambient, where it does not exist, that of a plate 0.01 K warmer under
    /// a sky as warm as the air is given instead, which is its limit when both are alike.
    pub loss_w_m2_k: f64,
    /// Temperature of the cover next to the plate \[K\].
    pub cover_k: f64,
    /// Natural convection from plate to that cover \[W/(m2 K)\].
    pub gap_film_w_m2_k: f64,
    /// Radiation from plate to that cover, over their difference \[W/(m2 K)\].
    pub radiation_film_w_m2_k: f64,
}

/// Heat from plate to sky and air through covers that long-wave light does not pass.
///
/// Plate to cover: `h (Tp - Tc) + sigma (Tp^4 - Tc^4)/(1/ep + 1/ec - 1)`; cover to surroundings:
/// `hw (Tc - Ta) + ec sigma (Tc^4 - Ts^4)`; the cover temperature makes both equal. Panes count as
/// so thin that both their faces are as warm. [`Glazing`] is the same for any stack.
///
/// Works for a plate colder than its surroundings too: the flux is then negative.
///
/// # Valid range
/// Temperatures 100 to 1000 K, emittances 0 to 1, wind film 0.01 to 1000 W/(m2 K), tilt 0 to 90
/// degrees, gap 0.5 mm to 1 m, one or two covers; else an error.
///
/// # Source
/// Duffie and Beckman 2006, section 6.4, eq. 6.4.1 to 6.4.8.
///
/// # Checked
/// TL-02 (their example 6.4.1): 6.62 W/(m2 K) within 0.05, cover 48.5 C within 0.6 K. TL-05 (one
/// cover and two) within 0.1 % of an independent solution, ST-03 within 0.1 K.
///
/// # Example
/// ```
/// use physics::{Angle, panel::top_loss::{TopLoss, top_loss}};
/// let answer = top_loss(&TopLoss {
///     plate_k: 373.15, ambient_k: 283.15, sky_k: 283.15, wind_film_w_m2_k: 10.0,
///     plate_emittance: 0.95, cover_emittance: 0.88, gap_m: 0.025,
///     tilt: Angle::from_degrees(45.0), covers: 1,
/// }).unwrap();
/// assert!((answer.loss_w_m2_k - 6.62).abs() < 0.05);
/// ```
pub fn top_loss(given: &TopLoss) -> Result<TopLossAnswer, PanelError> {
    within("number of covers", f64::from(given.covers), 1.0..=MOST_COVERS as f64)?;
    let cover = Cover {
        gap_m: given.gap_m,
        emittance: given.cover_emittance,
        ..Cover::of_light(1.5, 0.0, 0.0)
    };
    let covers = vec![cover; given.covers as usize];
    let glazing = Glazing::of(&covers, given.plate_emittance, given.tilt)?;
    let around = Outdoors {
        ambient_k: given.ambient_k,
        sky_k: given.sky_k,
        wind_film_w_m2_k: given.wind_film_w_m2_k,
    };
    let answer = glazing.upwards(given.plate_k, &around, &[])?;
    let rise_k = given.plate_k - given.ambient_k;
    let loss_w_m2_k = if rise_k.abs() > 1e-3 {
        answer.flux_w_m2 / rise_k
    } else {
        let alike = Outdoors { sky_k: given.ambient_k, ..around };
        glazing.upwards(given.ambient_k + 0.01, &alike, &[])?.flux_w_m2 / 0.01
    };
    Ok(TopLossAnswer {
        flux_w_m2: answer.flux_w_m2,
        loss_w_m2_k,
        cover_k: answer.faces_k[0].0,
        gap_film_w_m2_k: answer.gap_film_w_m2_k,
        radiation_film_w_m2_k: answer.radiation_film_w_m2_k,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::STEFAN_BOLTZMANN_W_M2_K4;
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
            covers: 1,
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
            TopLoss { covers: 0, ..example() },
            TopLoss { covers: 3, ..example() },
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
                covers: 1,
            }
        }
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

        /// A warmer plate never loses less.
        #[test]
        fn flux_rises_with_the_plate(given in any_case(), warmer_k in 0.1..20.0_f64) {
            let cool = top_loss(&given).unwrap().flux_w_m2;
            let warm = TopLoss { plate_k: given.plate_k + warmer_k, ..given };
            prop_assert!(top_loss(&warm).unwrap().flux_w_m2 > cool);
        }
    }
}
