//! Finds where a balance crosses zero.

use super::error::PanelError;

/// A balance: its name for the error, and the bracket in which it changes sign.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Bracket {
    pub balance: &'static str,
    pub low: f64,
    pub high: f64,
    /// Width at which the answer is known closely enough.
    pub width: f64,
}

/// The place where `residual_and_slope` is zero: Newton steps, held inside the bracket by halving.
///
/// Each value tightens the bracket, so the answer never leaves it however crooked the slope. A
/// Newton step shorter than `width` ends the search after one more value.
pub(crate) fn newton_in_bracket(
    bracket: Bracket,
    mut residual_and_slope: impl FnMut(f64) -> Result<(f64, f64), PanelError>,
) -> Result<f64, PanelError> {
    let Bracket { balance, mut low, mut high, width } = bracket;
    let (at_low, _) = residual_and_slope(low)?;
    if at_low == 0.0 {
        return Ok(low);
    }
    let (at_high, _) = residual_and_slope(high)?;
    if at_high == 0.0 {
        return Ok(high);
    }
    let crosses = at_low * at_high < 0.0;
    if !crosses {
        return Err(PanelError::NoBalance { balance, low, high });
    }
    let mut here = 0.5 * (low + high);
    for _ in 0..200 {
        let (residual, slope) = residual_and_slope(here)?;
        if residual == 0.0 {
            return Ok(here);
        }
        if (residual > 0.0) == (at_low > 0.0) {
            low = here;
        } else {
            high = here;
        }
        let newton = here - residual / slope;
        let next = if newton > low && newton < high { newton } else { 0.5 * (low + high) };
        let step = (next - here).abs();
        here = next;
        if step < width || high - low < width {
            return Ok(here);
        }
    }
    Err(PanelError::NoBalance { balance, low, high })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Given: x^3 = 2 and a slope that lies. Expected: the cube root of 2 (exact) all the same.
    #[test]
    fn finds_the_root_even_with_a_wrong_slope() {
        let bracket = Bracket { balance: "test", low: 0.0, high: 10.0, width: 1e-12 };
        let honest = newton_in_bracket(bracket, |x| Ok((x * x * x - 2.0, 3.0 * x * x))).unwrap();
        let crooked = newton_in_bracket(bracket, |x| Ok((x * x * x - 2.0, -1.0))).unwrap();
        assert!((honest - 2.0_f64.cbrt()).abs() < 1e-12);
        assert!((crooked - 2.0_f64.cbrt()).abs() < 1e-9);
    }

    /// Given: a balance without a zero in the bracket. Expected: an error.
    #[test]
    fn says_when_there_is_no_balance() {
        let bracket = Bracket { balance: "test", low: 3.0, high: 10.0, width: 1e-12 };
        assert!(newton_in_bracket(bracket, |x| Ok((x * x - 2.0, 2.0 * x))).is_err());
    }
}
