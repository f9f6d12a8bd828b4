//! Finds where a balance crosses zero when its slope is not known.

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

#[cfg(test)]
mod tests {
    use super::crossing;

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
}
