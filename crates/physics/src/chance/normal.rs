//! The standard normal distribution.

/// Share of the standard normal distribution that lies below a number.
///
/// `1 - Z(x) (b1 t + b2 t2 + b3 t3 + b4 t4 + b5 t5)`, `t = 1/(1 + 0.2316419 x)`, for `x >= 0`.
///
/// * `x`: in standard deviations from the mean, -4 to 4 usual.
///
/// Returns 0 to 1; 0.5 at 0.
///
/// # Valid range
/// Any number; NaN gives NaN.
/// # Source
/// Abramowitz and Stegun 1964, eq. 26.2.17 (error below 7.5e-8).
/// # Checked
/// Against the printed table of the distribution, within 1e-7.
pub fn normal_share(x: f64) -> f64 {
    let t = 1.0 / (1.0 + 0.231_641_9 * x.abs());
    let height = (-0.5 * x * x).exp() / (2.0 * std::f64::consts::PI).sqrt();
    let sum = t
        * (0.319_381_530
            + t * (-0.356_563_782
                + t * (1.781_477_937 + t * (-1.821_255_978 + t * 1.330_274_429))));
    let above = height * sum;
    if x >= 0.0 { 1.0 - above } else { above }
}

/// The number below which a share of the standard normal distribution lies.
///
/// Quotients of polynomials, one for the middle and two for the tails.
///
/// * `share`: above 0 and below 1.
///
/// Returns standard deviations from the mean; 0 for a half.
///
/// # Valid range
/// Shares from 1e-300 to 1 - 1e-16; 0 and 1 give no number.
/// # Source
/// Wichura 1988, algorithm AS 241 (PPND7), Applied Statistics 37:477 (from memory; seven digits).
/// # Checked
/// Against the printed table of the distribution, within 1e-6, and as the inverse of
/// [`normal_share`].
pub fn normal_quantile(share: f64) -> f64 {
    let from_middle = share - 0.5;
    if from_middle.abs() <= 0.425 {
        let r = 0.180_625 - from_middle * from_middle;
        return from_middle
            * (((59.109_374_720 * r + 159.291_132_02) * r + 50.434_271_938) * r + 3.387_132_717_9)
            / (((67.187_563_600 * r + 78.757_757_664) * r + 17.895_169_469) * r + 1.0);
    }
    let tail = if from_middle < 0.0 { share } else { 1.0 - share };
    let depth = (-tail.ln()).sqrt();
    let size = if depth <= 5.0 {
        let r = depth - 1.6;
        (((0.170_238_211_03 * r + 1.306_728_481_6) * r + 2.756_815_390_0) * r + 1.423_437_277_7)
            / ((0.120_211_329_75 * r + 0.737_001_642_50) * r + 1.0)
    } else {
        let r = depth - 5.0;
        (((0.017_337_203_997 * r + 0.428_682_943_37) * r + 3.081_226_386_0) * r + 6.657_905_115_0)
            / ((0.012_258_202_635 * r + 0.241_978_942_25) * r + 1.0)
    };
    if from_middle < 0.0 { -size } else { size }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Given the printed table of the normal distribution (any statistics handbook): shares below
    /// 0.5, 1, 1.96 and 3 within 1e-7, quantiles of 90, 97.5, 99 and 99.9 % within 1e-6.
    #[test]
    fn the_printed_table() {
        for (x, share) in
            [(0.5, 0.691_462_46), (1.0, 0.841_344_75), (1.96, 0.975_002_10), (3.0, 0.998_650_10)]
        {
            assert!((normal_share(x) - share).abs() < 1e-7, "{x}: {}", normal_share(x));
            assert!((normal_share(-x) - (1.0 - share)).abs() < 1e-7);
        }
        for (share, x) in
            [(0.9, 1.281_551_6), (0.975, 1.959_964_0), (0.99, 2.326_347_9), (0.999, 3.090_232_3)]
        {
            assert!((normal_quantile(share) - x).abs() < 1e-6, "{share}");
            assert!((normal_quantile(1.0 - share) + x).abs() < 1e-6, "{share}");
        }
    }

    /// One is the other's inverse from far below to far above, within the table's error.
    #[test]
    fn there_and_back() {
        for step in -40..=40 {
            let x = f64::from(step) / 10.0;
            let back = normal_quantile(normal_share(x));
            assert!((back - x).abs() < 1e-3, "{x}: {back}");
        }
    }
}
