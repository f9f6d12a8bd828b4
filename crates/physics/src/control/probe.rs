//! A probe that lags behind what it measures.

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

#[cfg(test)]
mod tests {
    use super::lag_share;

    /// Given a probe without lag, it reads the truth; given one time constant, it has closed
    /// 63.2 % of the step (the definition of the time constant, ISO 9806).
    #[test]
    fn a_probe_closes_63_percent_in_its_lag() {
        assert_eq!(lag_share(60.0, 0.0), 1.0);
        let reading_k = 300.0 + lag_share(20.0, 20.0) * (310.0 - 300.0);
        assert!((reading_k - 306.321).abs() < 0.001);
    }
}
