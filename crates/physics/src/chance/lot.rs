//! Numbers drawn by lot that come out the same on every machine.

/// A stream of numbers from a seed, the same on every machine.
///
/// SplitMix64: state plus an odd constant, then two rounds of shift, exclusive or and multiplication
/// (Steele, Lea and Flood 2014, OOPSLA 49:453).
pub struct Lot {
    state: u64,
}

impl Lot {
    /// The stream of a seed and a place in it, say an hour: each place has its own stream.
    pub fn of(seed: u32, place: usize) -> Lot {
        Lot { state: (u64::from(seed) << 32) ^ place as u64 }
    }

    fn next(&mut self) -> u64 {
        self.state = self.state.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut mixed = self.state;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        mixed ^ (mixed >> 31)
    }

    /// Evenly from 0 to 1, neither reached.
    pub fn even(&mut self) -> f64 {
        // 53 bits fill a double's fraction; the half keeps the logarithm of it finite.
        ((self.next() >> 11) as f64 + 0.5) / (1_u64 << 53) as f64
    }

    /// Drawn from the standard normal distribution: mean 0, variance 1.
    pub fn normal(&mut self) -> f64 {
        super::normal_quantile(self.even())
    }
}

#[cfg(test)]
mod tests {
    use super::Lot;

    /// Given the state 1234567: the first numbers as published with the algorithm's test vector
    /// (Rosetta Code, Pseudo-random numbers/Splitmix64).
    #[test]
    fn the_stream_is_the_published_one() {
        let mut lot = Lot { state: 1_234_567 };
        let first = [lot.next(), lot.next(), lot.next()];
        assert_eq!(
            first,
            [6_457_827_717_110_365_317, 3_203_168_211_198_807_973, 9_817_491_932_198_370_423]
        );
    }

    /// Even numbers: mean 1/2 and variance 1/12 within four standard errors of 100 000.
    #[test]
    fn numbers_are_even() {
        let mut lot = Lot::of(7, 3);
        let drawn: Vec<f64> = (0..100_000).map(|_| lot.even()).collect();
        let mean = drawn.iter().sum::<f64>() / 1e5;
        let variance = drawn.iter().map(|x| (x - mean).powi(2)).sum::<f64>() / 1e5;
        assert!((mean - 0.5).abs() < 4.0 * (1.0_f64 / 12.0 / 1e5).sqrt(), "{mean}");
        assert!((variance - 1.0 / 12.0).abs() < 4.0 * (1.0_f64 / 180.0 / 1e5).sqrt(), "{variance}");
    }

    /// Normal numbers: mean 0 and variance 1 within four standard errors of 100 000, and as many
    /// beyond 1.96 as a table of the distribution says (5 %).
    #[test]
    fn normal_numbers_are_normal() {
        let mut lot = Lot::of(5, 1);
        let drawn: Vec<f64> = (0..100_000).map(|_| lot.normal()).collect();
        let mean = drawn.iter().sum::<f64>() / 1e5;
        let variance = drawn.iter().map(|x| x * x).sum::<f64>() / 1e5;
        let beyond = drawn.iter().filter(|x| x.abs() > 1.96).count() as f64 / 1e5;
        assert!(mean.abs() < 4.0 * (1.0_f64 / 1e5).sqrt(), "{mean}");
        assert!((variance - 1.0).abs() < 4.0 * (2.0_f64 / 1e5).sqrt(), "{variance}");
        assert!((beyond - 0.05).abs() < 4.0 * (0.05_f64 * 0.95 / 1e5).sqrt(), "{beyond}");
    }
}
