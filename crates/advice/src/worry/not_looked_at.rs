//! Where the looks end.

/// What no look covers, in one sentence: it stands under every list of worries.
pub const NOT_LOOKED_AT: &str = "Not looked at here: whether the house bears the weight and the wind, the electrical installation as built, gas, the flue and the boiler, workmanship, the chemistry of this water, damage and wear already there, and anything that the design file does not say";
