//! Melinder 2010: properties of glycol and water mixtures as one polynomial each.

use crate::ZERO_CELSIUS_K;

/// What one of Melinder's polynomials gives at one strength and temperature.
///
/// ```text
/// y = sum C_ij (x - xm)^i (t - tm)^j       x in percent by mass, t in C
/// ```
///
/// # Valid range
/// 0 to 60 % glycol by mass, from freezing to 100 C. The caller keeps it
/// ([`super::fluid::properties`] does).
///
/// # Source
/// Melinder, Properties of Secondary Working Fluids for Indirect Systems, International Institute
/// of Refrigeration 2010; coefficients seen in a public property library's repository that cites
/// the book.
///
/// # Checked
/// Against every glycol row of `reference/fluid-vectors.csv` to 1e-5, which tests the coding.
/// Published data sets for the same mixtures spread far wider: 0.9 % in density, 3.7 % in heat
/// capacity, 4 % in conductivity, 20 % in viscosity (worst in strong, cold mixtures).
pub(super) fn melinder_2010(mixture: &Mixture, coefficients: &[f64; 18], at: Strength) -> f64 {
    let share = at.mass_share * 100.0 - mixture.middle_percent;
    let warmth = at.temperature_k - ZERO_CELSIUS_K - mixture.middle_c;
    POWERS
        .iter()
        .zip(coefficients)
        .map(|(&(i, j), coefficient)| coefficient * share.powi(i) * warmth.powi(j))
        .sum()
}

/// Freezing point \[K\] by the same book: the column's sum without the terms in temperature,
/// which shift it by less than 0.01 K.
pub(super) fn freezing_melinder_2010(mixture: &Mixture, mass_share: f64) -> f64 {
    let share = mass_share * 100.0 - mixture.middle_percent;
    let celsius: f64 = POWERS
        .iter()
        .zip(&mixture.freezing_c)
        .filter(|((_, j), _)| *j == 0)
        .map(|(&(i, _), coefficient)| coefficient * share.powi(i))
        .sum();
    celsius + ZERO_CELSIUS_K
}

/// A mixture's strength and warmth.
#[derive(Clone, Copy)]
pub(super) struct Strength {
    /// Share of glycol by mass, 0 to 0.6.
    pub mass_share: f64,
    /// Temperature \[K\].
    pub temperature_k: f64,
}

/// The coefficients of one kind of glycol, in the order of [`POWERS`].
pub(super) struct Mixture {
    /// Middle of the strengths, xm, in percent by mass.
    pub middle_percent: f64,
    /// Middle of the temperatures, tm \[C\].
    pub middle_c: f64,
    /// Freezing point \[C\].
    pub freezing_c: [f64; 18],
    /// Density.
    pub density_kg_m3: [f64; 18],
    /// Heat capacity.
    pub heat_capacity_j_kg_k: [f64; 18],
    /// Conductivity.
    pub conductivity_w_m_k: [f64; 18],
    /// Natural logarithm of the viscosity in mPa s.
    pub log_viscosity_mpa_s: [f64; 18],
}

/// The powers (i, j) of strength and temperature that go with each coefficient.
const POWERS: [(i32, i32); 18] = [
    (0, 0),
    (0, 1),
    (0, 2),
    (0, 3),
    (1, 0),
    (1, 1),
    (1, 2),
    (1, 3),
    (2, 0),
    (2, 1),
    (2, 2),
    (2, 3),
    (3, 0),
    (3, 1),
    (3, 2),
    (4, 0),
    (4, 1),
    (5, 0),
];

/// Propylene glycol in water.
pub(super) const PROPYLENE: Mixture = Mixture {
    middle_percent: 30.7031,
    middle_c: 32.7083,
    freezing_c: [
        -13.25, -3.82e-5, 7.865e-7, -1.733e-9, -0.6631, 6.774e-6, -6.242e-8, -7.819e-10, -0.01094,
        5.332e-8, -4.169e-9, 3.288e-11, -0.0002283, -1.131e-8, 1.918e-10, -3.409e-6, 8.035e-11,
        1.465e-8,
    ],
    density_kg_m3: [
        1018.0, -0.5406, -0.002666, 1.347e-5, 0.7604, -0.00945, 5.541e-5, -1.343e-7, -0.002498,
        2.7e-5, -4.018e-7, 3.376e-9, -0.000155, 2.829e-6, -7.175e-9, -1.131e-6, -2.221e-8,
        2.342e-8,
    ],
    heat_capacity_j_kg_k: [
        3882.0, 2.699, -0.001659, -1.032e-5, -13.04, 0.0507, -4.752e-5, 1.522e-6, -0.1598,
        9.534e-5, 1.167e-5, -4.87e-8, 0.0003539, 3.102e-5, -2.95e-7, 5e-5, -7.135e-7, -4.959e-7,
    ],
    conductivity_w_m_k: [
        0.4513, 0.0007955, 3.482e-8, -5.966e-9, -0.004795, -1.678e-5, 8.941e-8, 1.493e-10,
        2.076e-5, 1.563e-7, -4.615e-9, 9.897e-12, -9.083e-8, -2.518e-9, 6.543e-11, -5.952e-10,
        -3.605e-11, 2.104e-11,
    ],
    log_viscosity_mpa_s: [
        0.6837, -0.03045, 0.0002525, -1.399e-6, 0.03328, -0.0003984, 4.332e-6, -1.86e-8, 5.453e-5,
        -8.6e-8, -1.593e-8, -4.465e-11, -3.9e-6, 1.054e-7, -1.589e-9, -1.587e-8, 4.475e-10,
        3.564e-9,
    ],
};

/// Ethylene glycol in water.
pub(super) const ETHYLENE: Mixture = Mixture {
    middle_percent: 30.8462,
    middle_c: 31.728,
    freezing_c: [
        -15.25, -1.566e-6, -2.278e-7, 2.169e-9, -0.808, -1.339e-6, 2.047e-8, -2.717e-11, -0.01334,
        6.322e-8, 2.373e-10, -2.183e-12, -7.293e-5, 1.764e-9, -2.442e-11, 1.006e-6, -7.662e-11,
        1.14e-9,
    ],
    density_kg_m3: [
        1034.0, -0.4781, -0.002692, 4.725e-6, 1.311, -0.006876, 4.805e-5, 1.69e-8, 7.49e-5,
        7.855e-5, -3.995e-7, 4.982e-9, -0.0001062, 1.229e-6, -1.153e-8, -9.623e-7, -7.211e-8,
        4.891e-8,
    ],
    heat_capacity_j_kg_k: [
        3737.0, 2.93, -0.004675, -1.389e-5, -17.99, 0.1046, -0.0004147, 1.847e-7, -0.09933,
        0.0003516, 5.109e-6, -7.138e-8, 0.00261, -1.189e-6, -1.643e-7, 1.537e-5, -4.272e-7,
        -1.618e-6,
    ],
    conductivity_w_m_k: [
        0.472, 0.0008903, -1.058e-6, -2.789e-9, -0.004286, -1.473e-5, 1.059e-7, -1.142e-10,
        1.747e-5, 6.814e-8, -3.612e-9, 2.365e-12, 3.017e-8, -2.412e-9, 4.004e-11, -1.322e-9,
        2.555e-11, 2.678e-11,
    ],
    log_viscosity_mpa_s: [
        0.4705, -0.0255, 0.0001782, -7.669e-7, 0.02471, -0.0001171, 1.052e-6, -1.634e-8, 3.328e-6,
        1.086e-6, 1.051e-8, -6.475e-10, 1.659e-6, 3.157e-9, 4.063e-10, 3.089e-8, 1.831e-10,
        -1.865e-9,
    ],
};
