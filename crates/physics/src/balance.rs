//! Finds where a balance crosses zero when its slope is not known, and turns growth laws round.

/// The place between `low` and `high` at which `residual` crosses zero, to 1e-12 of itself.
///
/// False position with Illinois' halving of the value that stays, and a plain halving of the
/// bracket whenever three steps have not halved it: never slower than twice bisection.
///
/// `none` makes the error where the residual has one sign at both ends, from its two values.
pub(crate) fn crossing<E>(
    (mut low, mut high): (f64, f64),
    none: impl FnOnce(f64, f64) -> E,
    mut residual: impl FnMut(f64) -> Result<f64, E>,
) -> Result<f64, E> {
    let (mut at_low, mut at_high) = (residual(low)?, residual(high)?);
    if at_low == 0.0 {
        return Ok(low);
    }
    if at_high == 0.0 {
        return Ok(high);
    }
    let crosses = at_low * at_high < 0.0;
    if !crosses {
        return Err(none(at_low, at_high));
    }
    let mut width_three_ago = f64::INFINITY;
    for step in 0..400 {
        let width = high - low;
        if width.abs() <= 1e-12 * low.abs().max(high.abs()) + f64::MIN_POSITIVE {
            break;
        }
        let mut here = (low * at_high - high * at_low) / (at_high - at_low);
        if step % 3 == 0 {
            if width > 0.5 * width_three_ago {
                here = 0.5 * (low + high);
            }
            width_three_ago = width;
        }
        if !(here > low && here < high) {
            here = 0.5 * (low + high);
        }
        let at_here = residual(here)?;
        if at_here == 0.0 {
            return Ok(here);
        }
        if (at_here > 0.0) == (at_high > 0.0) {
            (high, at_high) = (here, at_here);
            at_low *= 0.5;
        } else {
            (low, at_low) = (here, at_here);
            at_high *= 0.5;
        }
    }
    Ok(0.5 * (low + high))
}

/// The place at which a law that grows like a power, zero at zero, reaches `target`; to 1e-12.
///
/// Secant steps between logarithms, where such a law is nearly straight: four or five values
/// where [`crossing`] needs twenty. `guess` is where to begin, `power` about how the law grows.
/// `None` where the steps do not settle or leave the positive numbers: then halve a bracket.
pub(crate) fn inverse_power<E>(
    target: f64,
    (guess, power): (f64, f64),
    mut law: impl FnMut(f64) -> Result<f64, E>,
) -> Result<Option<f64>, E> {
    let (mut here, mut slope) = (guess, power);
    let mut last: Option<(f64, f64)> = None;
    for _ in 0..40 {
        let value = law(here)?;
        let good = value > 0.0 && value.is_finite() && here > 0.0 && here.is_finite();
        if !good {
            return Ok(None);
        }
        let away = (value / target).ln();
        if away.abs() < 1e-12 {
            return Ok(Some(here));
        }
        if let Some((place, then)) = last {
            let run = (here / place).ln();
            if run == 0.0 {
                // No number lies between: this is as close as the law can be met.
                return Ok(Some(here));
            }
            slope = ((away - then) / run).clamp(0.3 * power, 4.0 * power);
        }
        last = Some((here, away));
        here *= (-away / slope).exp();
    }
    Ok(None)
}

#[cfg(test)]
mod tests {
    use super::{crossing, inverse_power};

    /// Exact roots: the cube root of 2, a root at an end, one beside a pole, and a step.
    #[test]
    fn finds_what_crosses() {
        let find = |range, f: fn(f64) -> f64| crossing(range, |_, _| "none", |x| Ok(f(x)));
        assert!((find((0.0, 10.0), |x| x * x * x - 2.0).unwrap() - 2f64.cbrt()).abs() < 1e-11);
        assert_eq!(find((0.0, 3.0), |x| x), Ok(0.0));
        assert!((find((1e-9, 1e3), |x| 1.0 / x - 4.0).unwrap() - 0.25).abs() < 1e-11);
        let step = find((0.0, 1.0), |x| if x < 0.3 { -1.0 } else { 5.0 }).unwrap();
        assert!((step - 0.3).abs() < 1e-11);
        assert_eq!(find((1.0, 2.0), |x| x), Err("none"));
    }

    /// Exact: the square root, an uneven law by its own value, and one that cannot be met.
    #[test]
    fn turns_growth_round() {
        let invert = |target, law: fn(f64) -> f64| {
            inverse_power(target, (0.01, 1.75), |x| Ok::<f64, ()>(law(x))).unwrap()
        };
        assert!((invert(2.0, |x| x * x).unwrap() - 2f64.sqrt()).abs() < 1e-11);
        let crooked = |x: f64| 64.0 * x + 3.0 * x * x * if x > 1.0 { 2.0 } else { x + 1.0 };
        let found = invert(crooked(0.9), crooked).unwrap();
        assert!((found - 0.9).abs() < 1e-11);
        assert_eq!(invert(2.0, |_| 0.0), None);
    }
}
