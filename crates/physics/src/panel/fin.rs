//! The sheet as fins on parallel tubes: how well it hands its heat to the water.

use super::error::{PanelError, within};

/// A strip of sheet with its tube, and what it loses.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FinAndTube {
    /// Distance between neighbouring tubes, middle to middle \[m\].
    pub spacing_m: f64,
    /// Outside diameter of the tube, also the strip of sheet it keeps at its own temperature \[m\].
    pub outside_m: f64,
    /// Inside diameter of the tube \[m\].
    pub bore_m: f64,
    /// Thickness of the sheet \[m\].
    pub thickness_m: f64,
    /// Conductivity of the sheet \[W/(m K)\]; 305 to 365 phosphorus-deoxidised copper.
    pub conductivity_w_m_k: f64,
    /// Loss from sheet to surroundings, all ways \[W/(m2 K)\]; 5 to 9 under one pane.
    pub loss_w_m2_k: f64,
    /// Film coefficient from tube wall to fluid \[W/(m2 K)\]; 200 to 1500.
    pub film_w_m2_k: f64,
    /// Conductance from sheet to tube per metre \[W/(m K)\]; infinite for a perfect bond.
    pub bond_w_m_k: f64,
    /// Conductivity of the tube's wall \[W/(m K)\]; infinite to leave the wall out.
    pub wall_conductivity_w_m_k: f64,
}

/// Collector efficiency factor F': the heat gained over that of a sheet as cool as the fluid.
///
/// `1/F' = W U [1/(U (D + (W - D) F)) + 1/Cb + 1/(pi Di h) + ln(Do/Di)/(2 pi k)]`.
/// 0.75 to 0.95; without loss it is 1.
///
/// # Valid range
/// Spacing above the tube's outside, outside at least the bore, loss 0 to 1000 W/(m2 K),
/// everything else above zero; else an error.
///
/// # Source
/// Hottel, Whillier and Bliss; Duffie and Beckman 2006, eq. 6.5.18, with the wall's resistance
/// added in series.
///
/// # Checked
/// FN-02 (their example 6.5.1): 0.841 within 0.001. FN-08 (four bonds) within 0.002.
///
/// # Example
/// ```
/// use physics::panel::fin::{FinAndTube, f_prime};
/// let copper = FinAndTube {
///     spacing_m: 0.15, outside_m: 0.01, bore_m: 0.01, thickness_m: 0.0005,
///     conductivity_w_m_k: 385.0, loss_w_m2_k: 8.0, film_w_m2_k: 300.0,
///     bond_w_m_k: f64::INFINITY, wall_conductivity_w_m_k: f64::INFINITY,
/// };
/// assert!((f_prime(&copper).unwrap() - 0.841).abs() < 0.001);
/// ```
pub fn f_prime(fin: &FinAndTube) -> Result<f64, PanelError> {
    f_prime_strip(fin, 0.5 * fin.spacing_m, 0.5 * fin.spacing_m)
}

/// As [`f_prime`], for a tube whose sheet reaches unlike far to its two sides.
///
/// `left_m`, `right_m`: from the tube's middle to where no heat passes, which is halfway to a
/// neighbour or the sheet's rim \[m\].
///
/// # Valid range
/// As [`f_prime`]; each side at least half the tube's outside.
///
/// # Source
/// As [`f_prime`], each side's fin with its own efficiency.
///
/// # Checked
/// Equal to [`f_prime`] for like sides.
pub fn f_prime_strip(fin: &FinAndTube, left_m: f64, right_m: f64) -> Result<f64, PanelError> {
    let gathering_m = fin.outside_m + gathering_m(fin, left_m)? + gathering_m(fin, right_m)?;
    let resistance_m_k_w = tube_resistance_m_k_w(fin)?;
    Ok(1.0 / ((left_m + right_m) * (1.0 / gathering_m + fin.loss_w_m2_k * resistance_m_k_w)))
}

/// Fin efficiency F: heat the free sheet brings to the tube over that of an ideal conductor.
///
/// `F = tanh(x)/x`, `x = m (W - D)/2`, with `m` from [`fin_parameter_1_m`].
///
/// # Valid range
/// As [`f_prime`].
///
/// # Source
/// Duffie and Beckman 2006, eq. 6.5.12.
///
/// # Checked
/// FN-01 (their example 6.5.1): 0.937 within 0.001.
pub fn fin_efficiency(fin: &FinAndTube) -> Result<f64, PanelError> {
    let free_m = free_m(fin, 0.5 * fin.spacing_m)?;
    Ok(if free_m > 0.0 { gathering_m(fin, 0.5 * fin.spacing_m)? / free_m } else { 1.0 })
}

/// Ideal sheet that would bring as much as one side's fin does: free length times efficiency
/// \[m\].
///
/// `reach_m`: from the tube's middle to where no heat passes \[m\].
///
/// # Valid range
/// As [`f_prime_strip`].
///
/// # Source
/// As [`fin_efficiency`].
///
/// # Checked
/// Through [`fin_efficiency`].
pub fn gathering_m(fin: &FinAndTube, reach_m: f64) -> Result<f64, PanelError> {
    let free_m = free_m(fin, reach_m)?;
    let span = fin_parameter_1_m(fin)? * free_m;
    Ok(if span < 1e-6 { free_m } else { free_m * span.tanh() / span })
}

/// Fin parameter `m = sqrt(U/(k delta))` \[1/m\].
///
/// # Valid range
/// As [`f_prime`].
///
/// # Source
/// Duffie and Beckman 2006, eq. 6.5.4a.
///
/// # Checked
/// FN-01: 6.45 within 0.01.
pub fn fin_parameter_1_m(fin: &FinAndTube) -> Result<f64, PanelError> {
    let loss_w_m2_k = within("loss of the sheet [W/(m2 K)]", fin.loss_w_m2_k, 0.0..=1000.0)?;
    let thickness_m = within("thickness of the sheet [m]", fin.thickness_m, 1e-6..=0.1)?;
    let conductivity =
        within("conductivity of the sheet [W/(m K)]", fin.conductivity_w_m_k, 1e-3..=1e5)?;
    Ok((loss_w_m2_k / (conductivity * thickness_m)).sqrt())
}

/// Resistance from the sheet over the tube to the fluid, for a metre of tube \[m K/W\].
///
/// `1/Cb + 1/(pi Di h) + ln(Do/Di)/(2 pi k)`.
///
/// # Valid range
/// As [`f_prime`].
///
/// # Source
/// Duffie and Beckman 2006, eq. 6.5.16; Fourier in a round wall.
///
/// # Checked
/// Through [`f_prime`].
pub fn tube_resistance_m_k_w(fin: &FinAndTube) -> Result<f64, PanelError> {
    let bore_m = within("bore of the tube [m]", fin.bore_m, 1e-4..=1.0)?;
    let outside_m = within("outside of the tube [m]", fin.outside_m, bore_m..=1.0)?;
    let film = within("film in the tube [W/(m2 K)]", fin.film_w_m2_k, 1e-3..=f64::INFINITY)?;
    let bond = within("bond of the tube [W/(m K)]", fin.bond_w_m_k, 1e-6..=f64::INFINITY)?;
    let wall = within(
        "conductivity of the tube's wall [W/(m K)]",
        fin.wall_conductivity_w_m_k,
        1e-3..=f64::INFINITY,
    )?;
    let round = std::f64::consts::PI;
    Ok(1.0 / bond
        + 1.0 / (round * bore_m * film)
        + (outside_m / bore_m).ln() / (2.0 * round * wall))
}

/// Temperature of the sheet midway between two tubes \[K\].
///
/// `T = Ta + S/U + (Tb - Ta - S/U)/cosh(m (W - D)/2)`.
///
/// # Valid range
/// As [`f_prime`], with a loss above zero.
///
/// # Source
/// Duffie and Beckman 2006, eq. 6.5.8 at the middle.
///
/// # Checked
/// FN-06 (a printed tutorial): 36.80 and 41.36 C within 0.02.
pub fn midway_k(fin: &FinAndTube, sheet: &SheetInSun) -> Result<f64, PanelError> {
    let loss_w_m2_k = within("loss of the sheet [W/(m2 K)]", fin.loss_w_m2_k, 1e-6..=1000.0)?;
    let idle_k = sheet.ambient_k + sheet.absorbed_w_m2 / loss_w_m2_k;
    let span = fin_parameter_1_m(fin)? * free_m(fin, 0.5 * fin.spacing_m)?;
    Ok(idle_k + (sheet.over_tube_k - idle_k) / span.cosh())
}

/// What the sheet takes up, and where it stands over the tube.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SheetInSun {
    /// Temperature of the sheet over the tube \[K\].
    pub over_tube_k: f64,
    /// Temperature of the outdoor air \[K\].
    pub ambient_k: f64,
    /// Sunlight that the sheet takes up \[W/m2\].
    pub absorbed_w_m2: f64,
}

/// Heat removal factor FR of parallel tubes: the heat gained over that of a sheet as cool as the
/// fluid's inlet.
///
/// `FR = C/(A U) [1 - exp(-A U F'/C)]`; F' without loss or with endless flow, 0 without flow.
///
/// `f_prime`: from [`f_prime`]; `loss_w_k`: `A U` of all the sheet \[W/K\]; `capacity_rate_w_k`:
/// `C`, mass flow times heat capacity through all of it \[W/K\].
///
/// # Valid range
/// Loss and rate zero or more; else an error.
///
/// # Source
/// Duffie and Beckman 2006, eq. 6.7.4.
///
/// # Checked
/// FN-03 (their example 6.7.1): 0.797 within 0.001.
pub fn heat_removal_parallel(
    f_prime: f64,
    loss_w_k: f64,
    capacity_rate_w_k: f64,
) -> Result<f64, PanelError> {
    within("efficiency factor", f_prime, 0.0..=1.0 + 1e-12)?;
    within("loss of the sheet [W/K]", loss_w_k, 0.0..=f64::MAX)?;
    within("capacity rate [W/K]", capacity_rate_w_k, 0.0..=f64::MAX)?;
    Ok(f_prime * flow_factor_of(f_prime * loss_w_k, capacity_rate_w_k))
}

/// Flow factor F'' = FR/F': what the fluid's warming along the tube costs.
///
/// `F'' = x [1 - exp(-1/x)]`, `x = C/(A U F')`.
///
/// `capacity_ratio`: `x`; endless gives 1.
///
/// # Valid range
/// Zero or more; else an error.
///
/// # Source
/// Duffie and Beckman 2006, eq. 6.7.5.
///
/// # Checked
/// FN-03: 0.948 within 0.001.
pub fn flow_factor(capacity_ratio: f64) -> Result<f64, PanelError> {
    within("capacity ratio", capacity_ratio, 0.0..=f64::INFINITY)?;
    Ok(flow_factor_of(1.0, capacity_ratio))
}

/// A steady gain, from which the panel's mean temperatures follow.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Gain {
    /// Fluid at the inlet \[K\].
    pub inlet_k: f64,
    /// Heat gained by the fluid per area of sheet \[W/m2\].
    pub useful_w_m2: f64,
    /// Loss of the sheet \[W/(m2 K)\], above zero.
    pub loss_w_m2_k: f64,
    /// Collector efficiency factor.
    pub f_prime: f64,
    /// Heat removal factor, above zero.
    pub f_r: f64,
}

/// Mean temperature of the fluid \[K\]: `Ti + q/(FR U) (1 - F'')`.
///
/// # Valid range
/// Loss and FR above zero; else an error.
///
/// # Source
/// Duffie and Beckman 2006, eq. 6.9.2.
///
/// # Checked
/// FN-05 (their example 6.9.1): 44 C within 0.7 K.
pub fn mean_fluid_k(gain: &Gain) -> Result<f64, PanelError> {
    Ok(gain.inlet_k + rise_per_share_k(gain)? * (1.0 - gain.f_r / gain.f_prime))
}

/// Mean temperature of the sheet \[K\]: `Ti + q/(FR U) (1 - FR)`.
///
/// # Valid range
/// As [`mean_fluid_k`].
///
/// # Source
/// Duffie and Beckman 2006, eq. 6.9.4.
///
/// # Checked
/// FN-05: 55 C within 0.7 K.
pub fn mean_plate_k(gain: &Gain) -> Result<f64, PanelError> {
    Ok(gain.inlet_k + rise_per_share_k(gain)? * (1.0 - gain.f_r))
}

fn rise_per_share_k(gain: &Gain) -> Result<f64, PanelError> {
    let loss_w_m2_k = within("loss of the sheet [W/(m2 K)]", gain.loss_w_m2_k, 1e-6..=1000.0)?;
    let f_r = within("heat removal factor", gain.f_r, 1e-9..=1.0 + 1e-12)?;
    within("efficiency factor", gain.f_prime, 1e-9..=1.0 + 1e-12)?;
    Ok(gain.useful_w_m2 / (f_r * loss_w_m2_k))
}

/// Sheet that stands free beside a tube, up to `reach_m` from its middle \[m\].
fn free_m(fin: &FinAndTube, reach_m: f64) -> Result<f64, PanelError> {
    let outside_m = within("outside of the tube [m]", fin.outside_m, 1e-4..=1.0)?;
    let half_m = 0.5 * outside_m;
    Ok(within("sheet from a tube's middle to where its fin ends [m]", reach_m, half_m..=10.0)?
        - half_m)
}

/// `(C/U) (1 - exp(-U/C))` for a loss and a rate, with both ends.
fn flow_factor_of(loss: f64, rate: f64) -> f64 {
    let units = loss / rate;
    if units.is_nan() || units == 0.0 {
        // No loss: the fluid may warm as it likes. 0/0, no loss and no flow, counts as such.
        1.0
    } else if units.is_infinite() {
        0.0
    } else {
        -(-units).exp_m1() / units
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn copper() -> FinAndTube {
        FinAndTube {
            spacing_m: 0.15,
            outside_m: 0.012,
            bore_m: 0.010,
            thickness_m: 0.0005,
            conductivity_w_m_k: 340.0,
            loss_w_m2_k: 8.0,
            film_w_m2_k: 300.0,
            bond_w_m_k: 30.0,
            wall_conductivity_w_m_k: 340.0,
        }
    }

    /// Given: a sheet without loss; with endless flow; without flow. Expected: the limits of the
    /// formulas (exact).
    #[test]
    fn limits() {
        let lossless = f_prime(&FinAndTube { loss_w_m2_k: 0.0, ..copper() }).unwrap();
        assert!((lossless - 1.0).abs() < 1e-14);
        assert_eq!(heat_removal_parallel(0.84, 16.0, 0.0), Ok(0.0));
        assert_eq!(heat_removal_parallel(0.84, 0.0, 0.0), Ok(0.84));
        let endless = heat_removal_parallel(0.84, 16.0, 1e12).unwrap();
        assert!((endless - 0.84).abs() < 1e-10);
        assert_eq!(flow_factor(f64::INFINITY), Ok(1.0));
    }

    /// Given: copper tube 12 x 1 wall. Expected: ln(1.2)/(2 pi 340) = 8.534e-5 m K/W (by hand)
    /// on top of bond and film.
    #[test]
    fn the_wall_counts() {
        let with_wall = tube_resistance_m_k_w(&copper()).unwrap();
        let without = FinAndTube { wall_conductivity_w_m_k: f64::INFINITY, ..copper() };
        let wall = with_wall - tube_resistance_m_k_w(&without).unwrap();
        assert!((wall - 8.534e-5).abs() < 1e-8, "{wall}");
    }

    /// Given: numbers that mean nothing. Expected: errors.
    #[test]
    fn refuses_nonsense() {
        for wrong in [
            FinAndTube { spacing_m: 0.01, ..copper() },
            FinAndTube { outside_m: 0.009, ..copper() },
            FinAndTube { bore_m: 0.0, ..copper() },
            FinAndTube { thickness_m: 0.0, ..copper() },
            FinAndTube { loss_w_m2_k: -1.0, ..copper() },
            FinAndTube { film_w_m2_k: f64::NAN, ..copper() },
            FinAndTube { bond_w_m_k: 0.0, ..copper() },
            FinAndTube { wall_conductivity_w_m_k: -1.0, ..copper() },
        ] {
            assert!(f_prime(&wrong).is_err(), "{wrong:?}");
        }
    }

    proptest! {
        /// F' lies between 0 and 1, and a better bond, film or thicker sheet never lowers it.
        #[test]
        fn better_never_worse(
            spacing_m in 0.03..0.4_f64,
            thickness_m in 1e-4..2e-3_f64,
            conductivity_w_m_k in 15.0..400.0_f64,
            loss_w_m2_k in 0.0..30.0_f64,
            film_w_m2_k in 20.0..5000.0_f64,
            bond_w_m_k in 0.5..500.0_f64,
            better in 1.01..10.0_f64,
        ) {
            let fin = FinAndTube {
                spacing_m, thickness_m, conductivity_w_m_k, loss_w_m2_k, film_w_m2_k, bond_w_m_k,
                ..copper()
            };
            let before = f_prime(&fin).unwrap();
            prop_assert!(before > 0.0 && before <= 1.0 + 1e-14);
            for change in [
                FinAndTube { bond_w_m_k: bond_w_m_k * better, ..fin },
                FinAndTube { bond_w_m_k: f64::INFINITY, ..fin },
                FinAndTube { film_w_m2_k: film_w_m2_k * better, ..fin },
                FinAndTube { thickness_m: thickness_m * better, ..fin },
            ] {
                prop_assert!(f_prime(&change).unwrap() >= before - 1e-15);
            }
            let f_r = heat_removal_parallel(before, loss_w_m2_k * 2.0, 50.0).unwrap();
            prop_assert!(f_r > 0.0 && f_r <= before);
        }
    }
}
