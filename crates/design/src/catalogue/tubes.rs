//! Copper tube as sold.

use serde::Deserialize;
use std::sync::OnceLock;

/// One size of tube.
#[derive(Clone, Debug, Deserialize)]
pub struct TubeSize {
    /// Outside diameter \[mm\].
    pub outside_mm: f64,
    /// Thickness of the wall \[mm\].
    pub wall_mm: f64,
    /// How far the size is to be trusted.
    pub certainty: String,
}

#[derive(Default, Deserialize)]
struct File {
    source: String,
    #[serde(default)]
    tube: Vec<TubeSize>,
}

fn file() -> &'static File {
    static FILE: OnceLock<File> = OnceLock::new();
    FILE.get_or_init(|| super::embedded(include_str!("../../../../catalogue/tubes.toml")))
}

/// The sizes of EN 1057 that builders meet.
pub fn sizes() -> &'static [TubeSize] {
    &file().tube
}

/// Where the sizes come from.
pub fn source() -> &'static str {
    &file().source
}

/// The listed size, if this is one.
pub fn listed(outside_mm: f64, wall_mm: f64) -> Option<&'static TubeSize> {
    sizes().iter().find(|size| {
        (size.outside_mm - outside_mm).abs() < 1e-6 && (size.wall_mm - wall_mm).abs() < 1e-6
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Given the bores of case B-EN-01 of reference/hydraulics-checks.toml, the catalogue's sizes
    /// have them; tolerance as the case states.
    #[test]
    fn sizes_have_the_reference_bores() {
        let path = concat!(env!("CARGO_MANIFEST_DIR"), "/../../reference/hydraulics-checks.toml");
        let text = std::fs::read_to_string(path).expect("the reference file stands");
        let file: toml::Table = toml::from_str(&text).expect("TOML");
        let cases = file["check"].as_array().expect("cases");
        let case =
            cases.iter().find(|case| case["id"].as_str() == Some("B-EN-01")).expect("the case");
        let tolerance = case["rel_tol"].as_float().expect("a tolerance");
        let mut checked = 0;
        for (name, expected) in case["expected"].as_table().expect("values") {
            let Some(size) = name.strip_prefix("bore_of_") else { continue };
            let (outside, wall) = size.split_once('x').expect("outside x wall");
            let size =
                listed(outside.parse().expect("mm"), wall.parse().expect("mm")).expect("listed");
            let bore_mm = expected["value"].as_float().expect("mm");
            let off = (size.outside_mm - 2.0 * size.wall_mm - bore_mm).abs();
            assert!(off <= tolerance * bore_mm, "{name}");
            checked += 1;
        }
        assert_eq!(checked, 4);
    }
}
