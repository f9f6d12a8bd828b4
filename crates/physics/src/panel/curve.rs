//! The heat curve as test reports write it.

use super::error::{PanelError, within};

/// A panel's steady power by two loss coefficients, per square metre of the area it is stated for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HeatCurve {
    /// Share of the irradiance gained without a rise above ambient.
    pub eta0: f64,
    /// First loss coefficient \[W/(m2 K)\].
    pub a1_w_m2_k: f64,
    /// Second loss coefficient \[W/(m2 K2)\].
    pub a2_w_m2_k2: f64,
}

impl HeatCurve {
    /// Power at a mean fluid temperature above ambient \[W/m2\]: `eta0 G - a1 dT - a2 dT^2`.
    ///
    /// `irradiance_w_m2`: on the panel's plane; `rise_k`: mean of inlet and outlet less ambient.
    /// Negative where the panel loses more than it gains.
    ///
    /// # Valid range
    /// Rises over which the curve was measured, some 80 K at most; beyond, it is only the formula.
    ///
    /// # Source
    /// ISO 9806:2017 in steady state, without its wind and sky terms.
    ///
    /// # Checked
    /// SY-06 (a certified flat plate): six powers within 0.6 W/m2.
    pub fn power_w_m2(&self, irradiance_w_m2: f64, rise_k: f64) -> f64 {
        self.eta0 * irradiance_w_m2 - (self.a1_w_m2_k + self.a2_w_m2_k2 * rise_k) * rise_k
    }

    /// Rise above ambient at which the curve's power is nought \[K\].
    ///
    /// The curve is measured over some 50 K and extended here to 100 and more: certified
    /// stagnation lay 31 K above it (ST-01). What must stand the heat is judged by
    /// [`idle_sheet_k`](super::stagnation::idle_sheet_k) instead.
    ///
    /// # Valid range
    /// Sun zero or more, `a1` above zero, `a2` zero or more; else an error.
    ///
    /// # Source
    /// The positive root of `eta0 G = a1 dT + a2 dT^2`.
    ///
    /// # Checked
    /// ST-01: 158.2 C within 0.3 K.
    pub fn idle_rise_k(&self, irradiance_w_m2: f64) -> Result<f64, PanelError> {
        let gained = self.eta0 * irradiance_w_m2;
        within("gain without a rise [W/m2]", gained, 0.0..=f64::MAX)?;
        let a1 = within("first loss coefficient [W/(m2 K)]", self.a1_w_m2_k, 1e-9..=f64::MAX)?;
        let a2 = within("second loss coefficient [W/(m2 K2)]", self.a2_w_m2_k2, 0.0..=f64::MAX)?;
        Ok(2.0 * gained / (a1 + (a1 * a1 + 4.0 * a2 * gained).sqrt()))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Given: a curve without a second coefficient. Expected: `eta0 G/a1` (exact); and a curve
    /// that loses nothing has no end.
    #[test]
    fn a_straight_curve() {
        let straight = HeatCurve { eta0: 0.7, a1_w_m2_k: 7.0, a2_w_m2_k2: 0.0 };
        assert_eq!(straight.idle_rise_k(1000.0), Ok(100.0));
        let endless = HeatCurve { a1_w_m2_k: 0.0, ..straight };
        assert!(endless.idle_rise_k(1000.0).is_err());
    }
}
