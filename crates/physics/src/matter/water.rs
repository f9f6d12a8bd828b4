//! Liquid water, 0 to 110 C, and its saturation line.

use super::fluid::{FluidError, FluidProperties};
use crate::ZERO_CELSIUS_K;

/// Properties of liquid water near atmospheric pressure.
///
/// `temperature_k`: absolute \[K\], 273.15 to 383.15; the caller keeps the range.
pub(super) fn water(temperature_k: f64) -> FluidProperties {
    FluidProperties {
        density_kg_m3: density_kell_1975(temperature_k),
        heat_capacity_j_kg_k: heat_capacity_popiel_wojtkowiak_1998(temperature_k),
        conductivity_w_m_k: conductivity_iapws_2011(temperature_k),
        viscosity_pa_s: viscosity_iapws_2008(temperature_k),
    }
}

/// How much water grows for each kelvin, relative to its volume \[1/K\].
///
/// ```text
/// beta = -(1/rho) d rho / d t        rho by Kell 1975
/// ```
///
/// - `temperature_k`: absolute \[K\].
///
/// Returns the coefficient; negative below 3.98 C, where water shrinks as it warms.
///
/// # Valid range
/// 0 to 110 C; a [`FluidError`] outside.
///
/// # Source
/// Derivative of Kell, J. Chem. Eng. Data 20 (1975) 97, taken by hand.
///
/// # Checked
/// Against a handbook's value at 40 C (case ST-14) to 0.2 %, and IAPWS-95 under some bar of
/// pressure at 20 C (case D-13) to 0.5 %.
///
/// # Example
/// ```
/// let beta_1_k = physics::matter::fluid::water_expansion_1_k(293.15).unwrap();
/// assert!((beta_1_k - 2.07e-4).abs() < 1e-6);
/// ```
pub fn water_expansion_1_k(temperature_k: f64) -> Result<f64, FluidError> {
    super::fluid::check_range(super::fluid::Fluid::Water, temperature_k)?;
    let t = temperature_k - ZERO_CELSIUS_K;
    let over = polynomial(&KELL_OVER, t);
    let slope: f64 = KELL_OVER
        .iter()
        .enumerate()
        .skip(1)
        .map(|(power, c)| power as f64 * c * t.powi(power as i32 - 1))
        .sum();
    Ok(KELL_UNDER / (1.0 + KELL_UNDER * t) - slope / over)
}

/// Pressure at which water boils at a temperature \[Pa\], absolute.
///
/// ```text
/// ln(p/pc) = (Tc/T)(a1 x + a2 x^1.5 + a3 x^3 + a4 x^3.5 + a5 x^4 + a6 x^7.5),  x = 1 - T/Tc
/// ```
///
/// - `temperature_k`: absolute \[K\].
///
/// # Valid range
/// 0 C to the critical point (647.096 K); a [`FluidError`] outside.
///
/// # Source
/// Wagner and Pruss, IAPWS SR1-86 (revised 1992), coefficients from memory.
///
/// # Checked
/// Inverse of [`saturation_k`] to 0.01 K from 0.02 to 10 bar, which in turn is checked against
/// the saturation rows of `reference/fluid-vectors.csv`.
///
/// # Example
/// ```
/// let pressure_pa = physics::matter::fluid::saturation_pressure_pa(373.124).unwrap();
/// assert!((pressure_pa / 101_325.0 - 1.0).abs() < 1e-3);
/// ```
pub fn saturation_pressure_pa(temperature_k: f64) -> Result<f64, FluidError> {
    const A: [(f64, f64); 6] = [
        (-7.85951783, 1.0),
        (1.84408259, 1.5),
        (-11.7866497, 3.0),
        (22.6807411, 3.5),
        (-15.9618719, 4.0),
        (1.80122502, 7.5),
    ];
    if !(ZERO_CELSIUS_K..=CRITICAL_K).contains(&temperature_k) {
        return Err(FluidError::TemperatureOutside {
            temperature_k,
            lowest_k: ZERO_CELSIUS_K,
            highest_k: CRITICAL_K,
        });
    }
    let x = 1.0 - temperature_k / CRITICAL_K;
    let sum: f64 = A.iter().map(|(a, power)| a * x.powf(*power)).sum();
    Ok(CRITICAL_PA * (CRITICAL_K / temperature_k * sum).exp())
}

/// Temperature at which water boils under a pressure \[K\].
///
/// ```text
/// beta = (p / 1 MPa)^0.25
/// E = beta^2 + n3 beta + n6,  F = n1 beta^2 + n4 beta + n7,  G = n2 beta^2 + n5 beta + n8
/// D = 2 G / (-F - sqrt(F^2 - 4 E G))
/// T = (n10 + D - sqrt((n10 + D)^2 - 4 (n9 + n10 D))) / 2
/// ```
///
/// - `pressure_pa`: absolute \[Pa\].
///
/// # Valid range
/// 611.213 Pa (0 C) to 22.064 MPa; a [`FluidError`] outside.
///
/// # Source
/// IAPWS-IF97, region 4, backward equation (31).
///
/// # Checked
/// Against the saturation rows of `reference/fluid-vectors.csv` and case A-W-05 to 0.02 K, and
/// the three verification values printed in the release to 1e-9.
///
/// # Example
/// ```
/// let boils_k = physics::matter::fluid::saturation_k(101_325.0).unwrap();
/// assert!((boils_k - 373.12).abs() < 0.01);
/// ```
pub fn saturation_k(pressure_pa: f64) -> Result<f64, FluidError> {
    const N: [f64; 10] = [
        1167.0521452767,
        -724213.16703206,
        -17.073846940092,
        12020.82470247,
        -3232555.0322333,
        14.91510861353,
        -4823.2657361591,
        405113.40542057,
        -0.23855557567849,
        650.17534844798,
    ];
    const LOWEST_PA: f64 = 611.213;
    if !(LOWEST_PA..=CRITICAL_PA).contains(&pressure_pa) {
        return Err(FluidError::PressureOutside {
            pressure_pa,
            lowest_pa: LOWEST_PA,
            highest_pa: CRITICAL_PA,
        });
    }
    let beta = (pressure_pa / 1e6).powf(0.25);
    let e = beta * beta + N[2] * beta + N[5];
    let f = N[0] * beta * beta + N[3] * beta + N[6];
    let g = N[1] * beta * beta + N[4] * beta + N[7];
    let d = 2.0 * g / (-f - (f * f - 4.0 * e * g).sqrt());
    let sum = N[9] + d;
    Ok((sum - (sum * sum - 4.0 * (N[8] + N[9] * d)).sqrt()) / 2.0)
}

const CRITICAL_K: f64 = 647.096;
const CRITICAL_PA: f64 = 22.064e6;

/// Kell's numerator c0 to c5 and denominator d. Copies in print often have d as 16.897850e-3,
/// which is 6.5e-4 wrong at 99.5 C.
const KELL_OVER: [f64; 6] =
    [999.83952, 16.945176, -7.9870401e-3, -46.170461e-6, 105.56302e-9, -280.54253e-12];
const KELL_UNDER: f64 = 16.879850e-3;

/// Kell, J. Chem. Eng. Data 20 (1975) 97: rho = (c0 + c1 t + .. + c5 t^5)/(1 + d t), at 1 atm.
fn density_kell_1975(temperature_k: f64) -> f64 {
    let t = temperature_k - ZERO_CELSIUS_K;
    polynomial(&KELL_OVER, t) / (1.0 + KELL_UNDER * t)
}

/// Popiel and Wojtkowiak, Heat Transfer Eng. 19(3) (1998) 87: a + b t + c t^1.5 + d t^2 + e t^2.5.
fn heat_capacity_popiel_wojtkowiak_1998(temperature_k: f64) -> f64 {
    // The least temperature let in is 0 C, so the halved powers meet no negative number.
    let t = temperature_k - ZERO_CELSIUS_K;
    4217.4356 - 5.6181625 * t + 1.2992528 * t.powf(1.5) - 0.11535353 * t * t
        + 4.14964e-3 * t.powf(2.5)
}

/// IAPWS SR6-08 (2011 revision): sum c_i (T/300)^d_i. The first edition's coefficients are 0.9 %
/// away near 0 C.
fn conductivity_iapws_2011(temperature_k: f64) -> f64 {
    const TERMS: [(f64, f64); 4] =
        [(1.6630, -1.15), (-1.7781, -3.4), (1.1567, -6.0), (-0.432115, -7.6)];
    let reduced = temperature_k / 300.0;
    TERMS.iter().map(|(c, power)| c * reduced.powf(*power)).sum()
}

/// IAPWS SR6-08: 1e-6 sum a_i (T/300)^b_i.
fn viscosity_iapws_2008(temperature_k: f64) -> f64 {
    const TERMS: [(f64, f64); 4] =
        [(280.68, -1.9), (511.45, -7.7), (61.131, -19.6), (0.45903, -40.0)];
    let reduced = temperature_k / 300.0;
    1e-6 * TERMS.iter().map(|(a, power)| a * reduced.powf(*power)).sum::<f64>()
}

fn polynomial(coefficients: &[f64], x: f64) -> f64 {
    coefficients.iter().rev().fold(0.0, |sum, c| sum * x + c)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// IAPWS-IF97 (2007), table 36: 0.1, 1 and 10 MPa boil at these temperatures. Nine figures
    /// are printed; our constants carry as many.
    #[test]
    fn saturation_meets_the_release_s_own_verification_values() {
        for (pressure_pa, expected_k) in
            [(0.1e6, 372.755919), (1e6, 453.035632), (10e6, 584.149488)]
        {
            let got_k = saturation_k(pressure_pa).unwrap();
            assert!((got_k - expected_k).abs() < 1e-6, "{pressure_pa} Pa: {got_k}");
        }
    }

    /// Two independent equations of the same line: they part by 0.0076 K at most from 0.02 to
    /// 10 bar by the reference's own survey.
    #[test]
    fn pressure_and_temperature_are_inverse() {
        for step in 0..=100 {
            let pressure_pa = 2e3 * 500f64.powf(f64::from(step) / 100.0);
            let boils_k = saturation_k(pressure_pa).unwrap();
            let back_pa = saturation_pressure_pa(boils_k).unwrap();
            let slope_pa_k = saturation_pressure_pa(boils_k + 0.5).unwrap()
                - saturation_pressure_pa(boils_k - 0.5).unwrap();
            assert!(((back_pa - pressure_pa) / slope_pa_k).abs() < 0.01, "{pressure_pa} Pa");
        }
    }

    /// The analytic slope against a central difference of the density over 0.02 K, whose own
    /// error falls with the square of the step.
    #[test]
    fn expansion_is_the_density_s_slope() {
        for celsius in [1.0, 3.98, 10.0, 55.0, 109.0] {
            let middle_k = celsius + ZERO_CELSIUS_K;
            let (below, above) =
                (density_kell_1975(middle_k - 0.01), density_kell_1975(middle_k + 0.01));
            let expected = (below - above) / 0.02 / density_kell_1975(middle_k);
            let got = water_expansion_1_k(middle_k).unwrap();
            assert!((got - expected).abs() < 1e-9, "{celsius} C: {got} against {expected}");
        }
    }
}
