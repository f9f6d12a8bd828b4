//! Antifreeze mixtures: where handbooks say they freeze.

use serde::Deserialize;
use std::sync::OnceLock;

/// One antifreeze as the data file writes it.
#[derive(Clone, Debug, Deserialize)]
pub struct Mixture {
    /// Its name in design files.
    pub id: String,
    /// Shares by volume of the freezing points \[%\].
    pub volume_percent: Option<Vec<f64>>,
    /// Shares by mass of the freezing points \[%\].
    pub mass_percent: Option<Vec<f64>>,
    /// Freezing points \[C\].
    pub freezing_c: Vec<f64>,
    /// How far the freezing points are to be trusted.
    pub certainty: String,
    /// Where the freezing points come from.
    pub source: String,
    /// What to know before using it.
    pub note: String,
}

#[derive(Default, Deserialize)]
struct File {
    #[serde(default)]
    mixture: Vec<Mixture>,
}

/// Every mixture.
pub fn mixtures() -> &'static [Mixture] {
    static FILE: OnceLock<File> = OnceLock::new();
    &FILE
        .get_or_init(|| super::embedded(include_str!("../../../../catalogue/antifreeze.toml")))
        .mixture
}

/// The mixture of that name.
pub fn mixture(id: &str) -> Option<&'static Mixture> {
    mixtures().iter().find(|mixture| mixture.id == id)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Each freezing point has its share.
    #[test]
    fn tables_are_whole() {
        assert_eq!(mixtures().len(), 2);
        for mixture in mixtures() {
            let shares = mixture.volume_percent.as_ref().or(mixture.mass_percent.as_ref());
            assert_eq!(shares.map(Vec::len), Some(mixture.freezing_c.len()), "{}", mixture.id);
        }
    }
}
