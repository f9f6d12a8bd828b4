//! Water and antifreeze.

/// What runs in the circuit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Fluid {
    /// Plain water.
    Water,
    /// Propylene glycol in water.
    PropyleneGlycol {
        /// Share of glycol by mass, 0 to 0.6.
        mass_share: f64,
    },
    /// Ethylene glycol in water (poison).
    EthyleneGlycol {
        /// Share of glycol by mass, 0 to 0.6.
        mass_share: f64,
    },
}
