//! It moves: what grows and bows from the coldest night to full sun, idle.

pub(in crate::worry) mod pane;
pub(in crate::worry) mod stretch;

use design::catalogue::materials::Material;
use physics::panel::Built;
use physics::panel::stagnation::PartTemperatures;

use super::case::Case;
use crate::AdviceError;
use crate::idle::hottest_parts;

/// A panel made at home, as warm as it ever gets.
struct Warm<'a> {
    /// The panel.
    built: &'a Built,
    /// Its parts, idle in full sun.
    parts: PartTemperatures,
    /// The air around it then \[K\].
    air_k: f64,
    /// The coldest night reckoned with \[K\].
    coldest_k: f64,
}

impl Warm<'_> {
    /// `None` for a bought panel, whose maker has seen to it, and for none.
    fn of<'a>(case: &'a Case) -> Result<Option<Warm<'a>>, AdviceError> {
        let build = &case.year.build;
        let built = case.panel().and_then(|panel| panel.built());
        let parts = hottest_parts(build, &case.year.forcing)?;
        let coldest_k = build.sun.extremes.coldest_night.air_k;
        Ok(built.zip(parts).map(|(built, (parts, air_k))| Warm { built, parts, air_k, coldest_k }))
    }

    /// The longer side of the sheet \[m\].
    fn longest_m(&self) -> f64 {
        self.built.sheet.length_m.max(self.built.sheet.width_m)
    }

    /// The outermost cover's two faces \[K\].
    fn cover_k(&self) -> Option<(f64, f64)> {
        self.parts.covers_k.last().copied()
    }
}

/// Growth of a material \[1/K\], and whether it was met in a source.
fn expansion_1_k(material: &Material) -> Option<(f64, bool)> {
    let is_seen = material.seen.iter().any(|seen| seen == "cte_1e6_per_k");
    material.cte_1e6_per_k.map(|millionths| (1e-6 * millionths, is_seen))
}

/// A length as a design file writes it, in whole millimetres: rounded up.
fn millimetres_up(length_m: f64) -> String {
    format!("{:.0} mm", (1000.0 * length_m - 1e-6).ceil())
}
