//! Fittings and valves: what each costs.

use physics::circuit::pipe::fitting_multiplied;
use serde::Deserialize;
use std::sync::OnceLock;

/// One kind of fitting.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Fitting {
    /// Its name in design files.
    pub kind: String,
    /// Its name in words.
    pub says: String,
    /// Multiplier of the friction factor of fully rough flow.
    pub multiplier: Option<f64>,
    /// Loss figure for every bore, where there is no multiplier.
    pub figure: Option<f64>,
    /// What other published sets say of it in half-inch screwed pipe.
    pub other: Vec<f64>,
    /// How far it is to be trusted.
    pub certainty: String,
}

#[derive(Default, Deserialize)]
struct File {
    #[serde(default)]
    source: String,
    #[serde(default)]
    figure_source: String,
    #[serde(default)]
    fitting: Vec<Fitting>,
}

fn file() -> &'static File {
    static FILE: OnceLock<File> = OnceLock::new();
    FILE.get_or_init(|| super::embedded(include_str!("../../../../catalogue/fittings.toml")))
}

/// Every kind of fitting.
pub fn fittings() -> &'static [Fitting] {
    &file().fitting
}

/// The fitting of that name.
pub fn fitting(kind: &str) -> Option<&'static Fitting> {
    fittings().iter().find(|fitting| fitting.kind == kind)
}

impl Fitting {
    /// Its loss figure in a tube of that bore; `None` in a tube too narrow for any.
    pub fn loss(&self, bore_m: f64) -> Option<f64> {
        match self.multiplier {
            Some(multiplier) => fitting_multiplied(multiplier, bore_m).ok(),
            None => self.figure,
        }
    }

    /// Where its figure comes from.
    pub fn source(&self) -> &'static str {
        if self.multiplier.is_some() { &file().source } else { &file().figure_source }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn expected(id: &str) -> toml::Table {
        let path = concat!(env!("CARGO_MANIFEST_DIR"), "/../../reference/hydraulics-checks.toml");
        let text = std::fs::read_to_string(path).expect("the reference file stands");
        let file: toml::Table = toml::from_str(&text).expect("TOML");
        let cases = file["check"].as_array().expect("cases");
        let case = cases.iter().find(|case| case["id"].as_str() == Some(id)).expect("the case");
        case["expected"].as_table().expect("values").clone()
    }

    /// Given the handbook's multipliers (B-K-01), the two sets of screwed figures (B-K-02, B-K-03):
    /// the catalogue has them, exactly.
    #[test]
    fn figures_are_the_published_ones() {
        let value = |case: &toml::Table, name: &str| case[name]["value"].as_float().expect(name);
        let (crane, screwed, textbook) =
            (expected("B-K-01"), expected("B-K-02"), expected("B-K-03"));
        for (kind, name) in [
            ("elbow", "elbow_90_std"),
            ("elbow-45", "elbow_45_std"),
            ("return-bend", "return_bend_close"),
            ("tee-run", "tee_run"),
            ("tee-branch", "tee_branch"),
            ("gate-valve", "gate_open"),
            ("ball-valve", "ball_full_bore"),
            ("stop-valve", "globe_open"),
        ] {
            assert_eq!(fitting(kind).expect(kind).multiplier, Some(value(&crane, name)), "{kind}");
        }
        for (kind, name) in [("bend", "elbow_90_long_threaded"), ("angle-valve", "angle_open")] {
            assert_eq!(fitting(kind).expect(kind).figure, Some(value(&textbook, name)), "{kind}");
        }
        for (kind, name) in [
            ("elbow", "elbow_90_threaded"),
            ("elbow-45", "elbow_45_threaded"),
            ("return-bend", "return_bend_threaded"),
            ("tee-run", "tee_run_threaded"),
            ("tee-branch", "tee_branch_threaded"),
            ("gate-valve", "gate_open"),
            ("stop-valve", "globe_open"),
        ] {
            assert_eq!(fitting(kind).expect(kind).other[0], value(&textbook, name), "{kind}");
        }
        for (kind, name) in [
            ("tee-run", "tee_run"),
            ("tee-branch", "tee_branch_half"),
            ("gate-valve", "gate_half"),
            ("stop-valve", "globe_half"),
        ] {
            assert_eq!(fitting(kind).expect(kind).other[1], value(&screwed, name), "{kind}");
        }
    }

    /// In half-inch pipe the figure reckoned with and those of the other sets part by no more than
    /// the factor of two that their own notes state.
    #[test]
    fn sets_part_by_a_factor_of_two() {
        for fitting in fittings() {
            let ours = fitting.loss(0.0158).expect("a figure");
            for other in &fitting.other {
                assert!((0.5..=2.0).contains(&(other / ours)), "{}: {other}, {ours}", fitting.kind);
            }
        }
    }
}
