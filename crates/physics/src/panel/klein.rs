//! The top loss in one line, without solving for the cover.

use super::error::{PanelError, TEMPERATURES_K, within};
use crate::{Angle, STEFAN_BOLTZMANN_W_M2_K4};

/// What the one-line formula asks.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct KleinTop {
    /// Glass covers, 1 to 3.
    pub covers: u32,
    /// Mean temperature of the absorber \[K\].
    pub plate_k: f64,
    /// Temperature of air and sky \[K\].
    pub ambient_k: f64,
    /// Film coefficient of the wind \[W/(m2 K)\].
    pub wind_film_w_m2_k: f64,
    /// Long-wave emittance of the absorber.
    pub plate_emittance: f64,
    /// Long-wave emittance of the covers.
    pub cover_emittance: f64,
    /// Slope of the panel; above 70 degrees 70 is used, as the source says.
    pub tilt: Angle,
}

/// Top loss coefficient \[W/(m2 K)\] without iteration, for quick sums.
///
/// `U = 1/(N/[C/Tp ((Tp - Ta)/(N + f))^e] + 1/hw) + sigma (Tp + Ta)(Tp^2 + Ta^2)/
/// [1/(ep + 0.00591 N hw) + (2N + f - 1 + 0.133 ep)/ec - N]`, with
/// `f = (1 + 0.089 hw - 0.1166 hw ep)(1 + 0.07866 N)`, `C = 520 (1 - 0.000051 b^2)` (b in
/// degrees), `e = 0.430 (1 - 100/Tp)`.
///
/// The sky counts as warm as the air, the gap as about 25 mm.
///
/// # Valid range
/// Plate from ambient to 200 C, within 0.3 W/(m2 K) of the full solution by the source's word; a
/// plate at or below ambient, more than 3 covers or values outside [`top_loss`]'s ranges are
/// errors.
///
/// [`top_loss`]: super::top_loss::top_loss
///
/// # Source
/// Klein, Solar Energy 17 (1975) 79, revised 1979; Duffie and Beckman 2006, eq. 6.4.9.
///
/// # Checked
/// TL-01 (their example 6.4.2) within 0.06; TL-05 within 0.3 of [`top_loss`], worst 0.11.
pub fn top_loss_klein_1979(given: &KleinTop) -> Result<f64, PanelError> {
    let covers = within("number of covers", f64::from(given.covers), 1.0..=3.0)?;
    let ambient_k = within("ambient temperature [K]", given.ambient_k, TEMPERATURES_K)?;
    let hottest_k = ambient_k.max(*TEMPERATURES_K.end());
    let plate_k = within("plate temperature [K]", given.plate_k, ambient_k + 1e-3..=hottest_k)?;
    let wind = within("wind film [W/(m2 K)]", given.wind_film_w_m2_k, 0.01..=1000.0)?;
    let plate = within("emittance of the plate", given.plate_emittance, 0.0..=1.0)?;
    let cover = within("emittance of the cover", given.cover_emittance, 0.01..=1.0)?;
    let degrees = within("tilt [deg]", given.tilt.degrees(), 0.0..=90.0 + 1e-9)?.min(70.0);

    let f = (1.0 + 0.089 * wind - 0.1166 * wind * plate) * (1.0 + 0.07866 * covers);
    let c = 520.0 * (1.0 - 0.000051 * degrees * degrees);
    let e = 0.430 * (1.0 - 100.0 / plate_k);
    let convection = c / plate_k * ((plate_k - ambient_k) / (covers + f)).powf(e);
    let first = 1.0 / (covers / convection + 1.0 / wind);
    let radiation = STEFAN_BOLTZMANN_W_M2_K4
        * (plate_k + ambient_k)
        * (plate_k * plate_k + ambient_k * ambient_k);
    let resistance = 1.0 / (plate + 0.00591 * covers * wind)
        + (2.0 * covers + f - 1.0 + 0.133 * plate) / cover
        - covers;
    within("top loss by the one-line formula [W/(m2 K)]", first + radiation / resistance, 0.0..=1e3)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Given: a plate at ambient, no cover, and a gale in which the formula's powers leave the
    /// real numbers. Expected: errors, no silent not-a-number.
    #[test]
    fn refuses_what_it_cannot_answer() {
        let sound = KleinTop {
            covers: 1,
            plate_k: 373.15,
            ambient_k: 283.15,
            wind_film_w_m2_k: 10.0,
            plate_emittance: 0.95,
            cover_emittance: 0.88,
            tilt: Angle::from_degrees(45.0),
        };
        assert!(top_loss_klein_1979(&sound).is_ok());
        for wrong in [
            KleinTop { plate_k: 283.15, ..sound },
            KleinTop { covers: 0, ..sound },
            KleinTop { wind_film_w_m2_k: 120.0, ..sound },
            KleinTop { plate_k: f64::NAN, ..sound },
        ] {
            assert!(top_loss_klein_1979(&wrong).is_err(), "{wrong:?}");
        }
    }
}
