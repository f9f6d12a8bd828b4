//! One factor for panels in a row, and one for the exchanger behind them.

use super::error::{PanelError, within};

/// Factor by which a row of alike panels, one after the other, gains less than side by side.
///
/// `[1 - (1 - K)^N]/(N K)`, `K = A FR U/C` of one panel. It multiplies FR of one panel at the
/// row's flow, for the area of all.
///
/// `panels`: how many; `loss_number`: `K`, 0 to 1.
///
/// # Valid range
/// 1 to 1000 panels, `K` 0 to 1; else an error.
///
/// # Source
/// Oonk, Jones and Cole-Appel 1979; Duffie and Beckman 2006, eq. 10.2.4 (from memory).
///
/// # Checked
/// SY-03 (Kalogirou 2009, example 4.1): 0.686 within 0.003.
pub fn series_factor_oonk_1979(panels: u32, loss_number: f64) -> Result<f64, PanelError> {
    let count = within("number of panels", f64::from(panels), 1.0..=1000.0)?;
    let lost = within("loss number of one panel", loss_number, 0.0..=1.0)?;
    // 1 - (1 - K)^N, kept exact where K is small.
    let gone = -(count * (-lost).ln_1p()).exp_m1();
    Ok(if lost == 0.0 { 1.0 } else { gone / (count * lost) })
}

/// A panel loop and a store loop with an exchanger between them.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ExchangerLoop {
    /// `FR U` of the panel times its area \[W/K\].
    pub panel_loss_w_k: f64,
    /// Mass flow times heat capacity in the panel's loop \[W/K\].
    pub panel_rate_w_k: f64,
    /// Mass flow times heat capacity on the store's side \[W/K\]; infinite for a coil in still water.
    pub store_rate_w_k: f64,
    /// Effectiveness of the exchanger, 0 to 1.
    pub effectiveness: f64,
}

/// Factor FR'/FR by which an exchanger between panel and store lowers the gain.
///
/// `1/(1 + (A FR U/Cp) (Cp/(eps Cmin) - 1))`.
///
/// # Valid range
/// Rates above zero, effectiveness above 0 to 1, loss zero or more; else an error.
///
/// # Source
/// de Winter, Solar Energy 17 (1975) 335; Duffie and Beckman 2006, eq. 10.2.3.
///
/// # Checked
/// SY-01 (their example 10.2.1): 0.967 within 0.003.
pub fn exchanger_factor_de_winter_1975(given: &ExchangerLoop) -> Result<f64, PanelError> {
    let loss = within("loss of the panel [W/K]", given.panel_loss_w_k, 0.0..=f64::MAX)?;
    let rate = within("rate of the panel's loop [W/K]", given.panel_rate_w_k, 1e-9..=f64::MAX)?;
    let store =
        within("rate of the store's side [W/K]", given.store_rate_w_k, 1e-9..=f64::INFINITY)?;
    let effectiveness = within("effectiveness", given.effectiveness, 1e-9..=1.0)?;
    let smaller = rate.min(store);
    Ok(1.0 / (1.0 + loss / rate * (rate / (effectiveness * smaller) - 1.0)))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Given: one panel; one that loses nothing; one that loses everything. Expected: the
    /// formula's ends (exact).
    #[test]
    fn ends_of_the_series_factor() {
        assert!((series_factor_oonk_1979(1, 0.3).unwrap() - 1.0).abs() < 1e-12);
        assert_eq!(series_factor_oonk_1979(5, 0.0), Ok(1.0));
        assert_eq!(series_factor_oonk_1979(4, 1.0), Ok(0.25));
        assert!(series_factor_oonk_1979(4, 1.1).is_err());
    }

    /// Given: a perfect exchanger on equal rates. Expected: no penalty (exact).
    #[test]
    fn a_perfect_exchanger_costs_nothing() {
        let perfect = ExchangerLoop {
            panel_loss_w_k: 8.0,
            panel_rate_w_k: 100.0,
            store_rate_w_k: f64::INFINITY,
            effectiveness: 1.0,
        };
        assert_eq!(exchanger_factor_de_winter_1975(&perfect), Ok(1.0));
        let nonsense = ExchangerLoop { effectiveness: 0.0, ..perfect };
        assert!(exchanger_factor_de_winter_1975(&nonsense).is_err());
    }
}
