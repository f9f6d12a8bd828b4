//! Probes that lag behind what they measure, or do not quite touch it.

/// Share of the way a lagging probe goes towards a steady temperature in one step:
/// `1 - exp(-step / lag)`.
///
/// `step_s`: length of the step \[s\]; `lag_s`: time in which it closes 63 % of a step \[s\],
/// usually 10 to 60 (common practice). Returns 0 to 1; a lag of 0 gives 1.
///
/// # Valid range
/// `step_s` and `lag_s` not negative.
///
/// # Source
/// First-order response; the time constant as ISO 9806 and ASHRAE 93 define it for a step
/// (from memory).
///
/// # Example
/// ```
/// assert!((physics::control::lag_share(30.0, 30.0) - 0.632).abs() < 0.001);
/// ```
pub fn lag_share(step_s: f64, lag_s: f64) -> f64 {
    if lag_s > 0.0 { 1.0 - (-step_s / lag_s).exp() } else { 1.0 }
}

/// What a probe strapped to a store's wall, under the jacket, feels \[K\]: nearly the water.
///
/// ```text
/// T = Tw - U R (Tw - Ta)      R: film of still water and wall, 0.013 m2 K/W
/// ```
///
/// The jacket's heat flows through film and wall first, and the probe lies behind them. Under a
/// thick jacket that is a tenth of a kelvin; on a bare wall a tenth of the way to the air.
///
/// - `water_k`: the water at the probe's height, absolute \[K\].
/// - `air_k`: the air around the store, absolute \[K\].
/// - `wall_w_m2_k`: conductance from water to air through the jacket, 0.3 to 7.7 \[W/(m2 K)\].
///
/// # Valid range
/// `wall_w_m2_k` of 0 or more; what lies past the air is held at it.
///
/// # Source
/// Series resistances; the figure a judgement: 300 W/(m2 K) of natural convection inside and 4 mm
/// of polyethylene at 0.42 W/(m K).
pub fn wall_probe_k(water_k: f64, air_k: f64, wall_w_m2_k: f64) -> f64 {
    water_k - (wall_w_m2_k * TO_PROBE_M2_K_W).min(1.0) * (water_k - air_k)
}

/// From water to the wall's outer face \[m2 K/W\].
const TO_PROBE_M2_K_W: f64 = 1.0 / 300.0 + 0.004 / 0.42;

#[cfg(test)]
mod tests {
    use super::{lag_share, wall_probe_k};

    /// Given water of 50 C in air of 10 C, a probe under a jacket of 0.45 W/(m2 K) reads a quarter
    /// of a kelvin low; on a bare wall of 7.7 W/(m2 K), about a tenth of the 40 K (by hand).
    #[test]
    fn a_strapped_probe_reads_a_little_low() {
        assert!((323.15 - wall_probe_k(323.15, 283.15, 0.45) - 0.231).abs() < 0.002);
        assert!((323.15 - wall_probe_k(323.15, 283.15, 7.7) - 3.96).abs() < 0.02);
    }

    /// Given a probe without lag, it reads the truth; given one time constant, it has closed
    /// 63.2 % of the step (the definition of the time constant, ISO 9806).
    #[test]
    fn a_probe_closes_63_percent_in_its_lag() {
        assert_eq!(lag_share(60.0, 0.0), 1.0);
        let reading_k = 300.0 + lag_share(20.0, 20.0) * (310.0 - 300.0);
        assert!((reading_k - 306.321).abs() < 0.001);
    }
}
