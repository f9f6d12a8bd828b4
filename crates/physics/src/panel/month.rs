//! A month's solar share by correlation, for a second opinion beside the marched year.

use super::error::{PanelError, TEMPERATURES_K, within};
use crate::ZERO_CELSIUS_K;

/// A panel, its month and the heat that is wanted in it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Month {
    /// FR UL: loss slope of the panel's efficiency line \[W/(m2 K)\]; 3 to 8.
    pub fr_loss_w_m2_k: f64,
    /// FR (tau alpha)n: efficiency with the sun square on it and no loss; 0.6 to 0.8.
    pub fr_normal_efficiency: f64,
    /// FR'/FR of the coil or exchanger, see
    /// [`exchanger_factor_de_winter_1975`](super::array::exchanger_factor_de_winter_1975).
    pub exchanger_factor: f64,
    /// Mean over the month of tau alpha over that at normal incidence; 0.94 to 0.96 for one pane.
    pub angle_factor: f64,
    /// Sunlight on the panel's plane in the month's mean day \[J/m2\].
    pub tilted_day_j_m2: f64,
    /// Mean outdoor air, by day and night, absolute \[K\].
    pub ambient_k: f64,
    /// Heat wanted in the month \[J\].
    pub load_j: f64,
    /// Area of panel that the efficiency counts by \[m2\].
    pub area_m2: f64,
    /// Days of the month.
    pub days: u32,
    /// Water in the store for each square metre of panel \[m3/m2\]; the correlation was made with
    /// [`USUAL_STORE_M`].
    pub store_m: f64,
    /// Given where all of the load is hot water; `None` for a load that is mostly space heating.
    pub hot_water: Option<HotWater>,
}

/// What a load of hot water is warmed from and to.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HotWater {
    /// Mean of the month's mains, absolute \[K\].
    pub mains_k: f64,
    /// Least temperature at which it is good, absolute \[K\].
    pub hot_k: f64,
}

/// Water for each square metre of panel in the correlation's own store \[m3/m2\]: 75 litres.
pub const USUAL_STORE_M: f64 = 0.075;

/// A month's numbers and answer.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MonthShare {
    /// X: the panel's loss at 100 C over the load, all corrections in.
    pub x: f64,
    /// Y: sunlight taken up over the load.
    pub y: f64,
    /// Share of the load that the sun meets, 0 to 1.
    pub solar_share: f64,
}

/// Share of a month's load that the sun meets, by Klein, Beckman and Duffie's correlation.
///
/// ```text
/// X = A FRUL (FR'/FR) (100 C - Ta) dt/L x (V/75 l/m2)^-0.25 x w
/// Y = A FR(ta)n (FR'/FR) (ta/(ta)n) H N/L
/// w = (11.6 + 1.18 Tw + 3.86 Tm - 2.32 Ta)/(100 - Ta)      hot water only, in C; else 1
/// ```
///
/// - `month`: panel, weather, load, store.
///
/// # Valid range
/// X 0 to 18, Y 0 to 3, stores of 37.5 to 300 l/m2, air below 100 C; a [`PanelError`] outside. Made
/// for lagged stores fully mixed, loads spread over the month and usual household draws, at a flow
/// of 0.015 l/s for each square metre (a lower one enters by FR alone). A cistern that
/// pre-warms cold water for a heater behind it is not what it was fitted to: the marched year is
/// the answer, this the second opinion. A month's share may be some 10 % of the load off, a year's 3 %
/// (the authors' own comparison, from memory).
///
/// # Source
/// Klein, Beckman and Duffie, Solar Energy 18 (1976) 113; Duffie and Beckman 2006, sections 20.2 to
/// 20.5, hot water by eq. 20.5.1 (from memory).
///
/// # Checked
/// MC-01 and MC-05 within the cases' tolerances, with [`share_klein_beckman_duffie_1976`].
///
/// # Example
/// ```
/// use physics::panel::month::{Month, USUAL_STORE_M, month_share};
/// let january = Month {
///     fr_loss_w_m2_k: 4.0,
///     fr_normal_efficiency: 0.74,
///     exchanger_factor: 0.97,
///     angle_factor: 0.96,
///     tilted_day_j_m2: 12.9e6,
///     ambient_k: 266.15,
///     load_j: 36e9,
///     area_m2: 50.0,
///     days: 31,
///     store_m: USUAL_STORE_M,
///     hot_water: None,
/// };
/// assert!((month_share(&january).unwrap().solar_share - 0.263).abs() < 1e-3);
/// ```
pub fn month_share(month: &Month) -> Result<MonthShare, PanelError> {
    const REFERENCE_K: f64 = 100.0 + ZERO_CELSIUS_K;
    let loss_w_m2_k = within("FR UL [W/(m2 K)]", month.fr_loss_w_m2_k, 0.0..=100.0)?;
    let efficiency = within("FR (tau alpha)n", month.fr_normal_efficiency, 0.0..=1.0)?;
    let exchanger = within("exchanger factor", month.exchanger_factor, 0.0..=1.0)?;
    let angle = within("angle factor", month.angle_factor, 0.0..=1.1)?;
    let day_j_m2 = within("sunlight of a day [J/m2]", month.tilted_day_j_m2, 0.0..=60e6)?;
    let ambient_k = within("outdoor air [K]", month.ambient_k, 200.0..=REFERENCE_K - 1.0)?;
    let load_j = within("load [J]", month.load_j, f64::MIN_POSITIVE..=f64::MAX)?;
    let area_m2 = within("panel area [m2]", month.area_m2, 0.0..=f64::MAX)?;
    let days = within("days", f64::from(month.days), 1.0..=31.0)?;
    let loss_j = area_m2 * loss_w_m2_k * exchanger * (REFERENCE_K - ambient_k) * days * 86_400.0;
    let x = loss_j / load_j * store_factor(month.store_m)? * water_factor(month)?;
    let y = area_m2 * efficiency * exchanger * angle * day_j_m2 * days / load_j;
    Ok(MonthShare { x, y, solar_share: share_klein_beckman_duffie_1976(x, y)? })
}

/// Klein, Beckman and Duffie's correlation itself: share of the load, 0 to 1.
///
/// ```text
/// f = 1.029 Y - 0.065 X - 0.245 Y^2 + 0.0018 X^2 + 0.0215 Y^3
/// ```
///
/// - `x`, `y`: losses and sunlight over the load.
///
/// What the polynomial gives below 0 or above 1 is brought to 0 and 1.
///
/// # Valid range
/// X 0 to 18, Y 0 to 3; a [`PanelError`] outside. A handbook counts no share unless Y is over X/12;
/// we keep the polynomial, which there still gives a tenth of the load: in dim months the truth lies
/// between.
///
/// # Source
/// Klein, Beckman and Duffie, Solar Energy 18 (1976) 113; the same five numbers stand in
/// EN 15316-4-3.
///
/// # Checked
/// MC-03 to 2e-4, MC-06 to 3e-3.
pub fn share_klein_beckman_duffie_1976(x: f64, y: f64) -> Result<f64, PanelError> {
    within("X of the monthly correlation", x, 0.0..=18.0)?;
    within("Y of the monthly correlation", y, 0.0..=3.0)?;
    let share = 1.029 * y - 0.065 * x - 0.245 * y * y + 0.0018 * x * x + 0.0215 * y * y * y;
    Ok(share.clamp(0.0, 1.0))
}

/// Factor on X for a store of another size than usual.
fn store_factor(store_m: f64) -> Result<f64, PanelError> {
    // The ends are litres a user may name; they must survive a rounding.
    let range = 0.5 * USUAL_STORE_M * (1.0 - 1e-12)..=4.0 * USUAL_STORE_M * (1.0 + 1e-12);
    within("store for each square metre of panel [m3/m2]", store_m, range)?;
    Ok((store_m / USUAL_STORE_M).powf(-0.25))
}

/// Factor on X for a load of hot water alone.
fn water_factor(month: &Month) -> Result<f64, PanelError> {
    let Some(HotWater { mains_k, hot_k }) = month.hot_water else { return Ok(1.0) };
    let celsius = |what, kelvin| within(what, kelvin, TEMPERATURES_K).map(|k| k - ZERO_CELSIUS_K);
    let mains_c = celsius("mains [K]", mains_k)?;
    let hot_c = within("hot water over mains [K]", hot_k - mains_k, 1.0..=100.0)? + mains_c;
    let ambient_c = month.ambient_k - ZERO_CELSIUS_K;
    Ok((11.6 + 1.18 * hot_c + 3.86 * mains_c - 2.32 * ambient_c) / (100.0 - ambient_c))
}

#[cfg(test)]
mod tests {
    use super::*;

    const MONTH: Month = Month {
        fr_loss_w_m2_k: 5.0,
        fr_normal_efficiency: 0.7,
        exchanger_factor: 0.95,
        angle_factor: 0.95,
        tilted_day_j_m2: 12e6,
        ambient_k: 283.15,
        load_j: 1e9,
        area_m2: 4.0,
        days: 30,
        store_m: USUAL_STORE_M,
        hot_water: None,
    };

    /// Laws: a store twice the usual lowers X by the fourth root of two, half the usual raises it so
    /// (exact); Y does not see the store; more sun never less share, on the whole range.
    #[test]
    fn laws_of_the_correlation() {
        let x = |store_m| month_share(&Month { store_m, ..MONTH }).unwrap().x;
        assert!((x(0.15) * 2f64.powf(0.25) / x(0.075) - 1.0).abs() < 1e-12);
        assert!((x(0.0375) / (x(0.075) * 2f64.powf(0.25)) - 1.0).abs() < 1e-12);
        for tenth in 0..=180 {
            let x = f64::from(tenth) / 10.0;
            let shares: Vec<f64> = (0..=300)
                .map(|y| share_klein_beckman_duffie_1976(x, f64::from(y) / 100.0).unwrap())
                .collect();
            assert!(shares.windows(2).all(|pair| pair[1] >= pair[0]), "X = {x}");
        }
    }

    /// Given: what the correlation was not made for. Expected: errors with the limits.
    #[test]
    fn outside_its_range_is_said() {
        for bad in [
            Month { load_j: 0.0, ..MONTH },
            Month { load_j: 1e8, ..MONTH },
            Month { store_m: 0.03, ..MONTH },
            Month { store_m: 0.4, ..MONTH },
            Month { ambient_k: 380.0, ..MONTH },
            Month { days: 0, ..MONTH },
            Month { area_m2: f64::NAN, ..MONTH },
            Month { hot_water: Some(HotWater { mains_k: 330.0, hot_k: 320.0 }), ..MONTH },
        ] {
            assert!(month_share(&bad).is_err(), "{bad:?}");
        }
        let error = share_klein_beckman_duffie_1976(19.0, 1.0).unwrap_err();
        assert!(error.to_string().contains("between 0 and 18"), "{error}");
    }
}
