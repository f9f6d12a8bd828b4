//! Temperatures that hang on one unknown, and streams of them.

/// A number that hangs on the unknown of the ring: `fixed + slope * unknown`.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Straight {
    pub fixed: f64,
    pub slope: f64,
}

impl Straight {
    /// One that hangs on nothing.
    pub fn of(fixed: f64) -> Straight {
        Straight { fixed, slope: 0.0 }
    }

    pub fn at(self, unknown: f64) -> f64 {
        self.fixed + self.slope * unknown
    }

    /// `share` of the way from here to `other`.
    pub fn towards(self, other: Straight, share: f64) -> Straight {
        Straight {
            fixed: self.fixed + share * (other.fixed - self.fixed),
            slope: self.slope + share * (other.slope - self.slope),
        }
    }
}

/// Streams mixed by what each carries.
pub(crate) fn mixed(parts: impl Iterator<Item = (Straight, f64)>) -> Straight {
    let mut sum = Straight::default();
    let mut whole = 0.0;
    for (stream, share) in parts {
        sum.fixed += share * stream.fixed;
        sum.slope += share * stream.slope;
        whole += share;
    }
    Straight { fixed: sum.fixed / whole, slope: sum.slope / whole }
}

#[cfg(test)]
mod tests {
    use super::{Straight, mixed};

    /// G-20: two panels side by side take up the same heat with unlike flows; what leaves them is mixed
    /// by what each carries. Tolerance: the case's own.
    #[test]
    fn g_20_streams_mix_by_what_they_carry() {
        let text = include_str!("../../../reference/hydraulics-checks.toml");
        let file: toml::Table = text.parse().expect("reference cases are TOML");
        let cases = file["check"].as_array().expect("a list of cases");
        let case = cases.iter().find(|case| case["id"].as_str() == Some("G-20")).expect("G-20");
        let given = |key: &str| {
            let value = &case["inputs"][key];
            value.as_float().or(value.as_integer().map(|whole| whole as f64)).expect("a number")
        };
        let expected = |key: &str| case["expected"][key]["value"].as_float().expect("a number");
        let allowed = case["rel_tol"].as_float().expect("a tolerance");
        let outlet_c = |flow: f64| given("T_in_C") + given("heat_each_W") / (flow * given("cp"));
        let streams = ["mA", "mB"].map(|key| (outlet_c(given(key)), given(key)));
        for ((outlet_c, _), key) in streams.iter().zip(["T_A", "T_B"]) {
            assert!((outlet_c / expected(key) - 1.0).abs() < allowed, "{key}");
        }
        let met =
            mixed(streams.iter().map(|&(fixed, flow)| (Straight { fixed, slope: 0.0 }, flow)));
        assert!((met.fixed / expected("T_mix") - 1.0).abs() < allowed, "{}", met.fixed);
    }
}
