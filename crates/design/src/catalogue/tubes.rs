//! Tube as sold: copper by outside and wall, hose and plastic pipe by name.

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

/// A hose or plastic pipe sold by a name.
#[derive(Clone, Debug, Deserialize, PartialEq)]
#[serde(deny_unknown_fields)]
pub struct NamedTube {
    /// Its name in design files.
    pub name: String,
    /// Bore \[mm\].
    pub bore_mm: f64,
    /// Thickness of the wall \[mm\].
    pub wall_mm: f64,
    /// What it is made of, by the name in the catalogue of materials.
    pub material: String,
    /// Height of the inner wall's unevenness \[mm\].
    pub roughness_mm: f64,
    /// How far it is to be trusted.
    pub certainty: String,
}

#[derive(Default, Deserialize)]
struct File {
    source: String,
    #[serde(default)]
    tube: Vec<TubeSize>,
    #[serde(default)]
    named: Vec<NamedTube>,
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

/// Where named hoses and pipes come from.
pub const NAMED_SOURCE: &str = "hose by its bore, plastic pipe by EN ISO 15875, BS 7291, ASTM F876";

/// Hoses and plastic pipes sold by a name.
pub fn named() -> &'static [NamedTube] {
    &file().named
}

/// The hose or pipe of that name.
pub fn of_name(name: &str) -> Option<&'static NamedTube> {
    named().iter().find(|tube| tube.name == name)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Given the bores of case B-HO-01, the catalogue's hoses and pipes have them; tolerance as the
    /// case states. Each is made of a material the catalogue knows.
    #[test]
    fn hoses_have_the_reference_bores() {
        let path = concat!(env!("CARGO_MANIFEST_DIR"), "/../../reference/hydraulics-checks.toml");
        let text = std::fs::read_to_string(path).expect("the reference file stands");
        let file: toml::Table = toml::from_str(&text).expect("TOML");
        let cases = file["check"].as_array().expect("cases");
        let case =
            cases.iter().find(|case| case["id"].as_str() == Some("B-HO-01")).expect("the case");
        let tolerance = case["rel_tol"].as_float().expect("a tolerance");
        for (name, theirs) in [
            ("half-inch-hose", "hose_half_inch"),
            ("half-inch-heater-hose", "hose_half_inch"),
            ("five-eighths-hose", "hose_5_8_inch"),
            ("three-quarter-hose", "hose_3_4_inch"),
            ("three-quarter-heater-hose", "hose_3_4_inch"),
            ("pex-12x2", "pex_12x2"),
            ("pex-16x2", "pex_16x2"),
            ("pex-20x2", "pex_20x2"),
            ("pex-uk-15", "pex_uk_15mm"),
            ("pex-uk-22", "pex_uk_22mm"),
            ("pex-us-half", "cts_sdr9_half"),
            ("pex-us-three-quarter", "cts_sdr9_3_4"),
            ("pex-us-inch", "cts_sdr9_1"),
        ] {
            let bore_mm = case["expected"][theirs]["value"].as_float().expect("mm");
            let tube = of_name(name).expect(name);
            assert!((tube.bore_mm - bore_mm).abs() <= tolerance * bore_mm, "{name}");
        }
        for tube in named() {
            assert!(crate::catalogue::materials::material(&tube.material).is_some());
        }
    }

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
