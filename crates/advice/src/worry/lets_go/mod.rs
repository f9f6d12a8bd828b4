//! It lets go: wind, weight and snow on the panel and what holds it.
//!
//! Characteristic loads come from the codes' maps and tables as they are; design ones carry the codes'
//! factors. The two are set against their own kind only.

pub(in crate::worry) mod lifting;
pub(in crate::worry) mod weight;
pub(in crate::worry) mod wind;

use physics::ZERO_CELSIUS_K;
use physics::matter::fluid::properties_held;
use physics::panel::capacity::contents_m3;
use physics::panel::mass::{dry_mass_kg, gross_area_m2};

use super::case::Case;
use crate::AdviceError;

/// Temperature at which the fluid in the panel is weighed \[K\].
const WEIGHED_K: f64 = ZERO_CELSIUS_K + 20.0;

/// What one panel weighs, and the roof it covers.
struct Weighed {
    /// Empty \[kg\].
    dry_kg: f64,
    /// Filled \[kg\].
    filled_kg: f64,
    /// Its outside \[m2\].
    area_m2: f64,
}

/// One panel's weight; `None` where there is no panel, or a bought one of unknown mass.
fn weighed(case: &Case) -> Result<Option<Weighed>, AdviceError> {
    let Some(panel) = case.panel() else { return Ok(None) };
    let certified_kg = case.subject.design.certified_mass_kg;
    let Some(dry_kg) = dry_mass_kg(panel).or(certified_kg) else { return Ok(None) };
    let fluid =
        properties_held(case.year.build.circuit.fluid, WEIGHED_K).map_err(AdviceError::circuit)?;
    Ok(Some(Weighed {
        dry_kg,
        filled_kg: dry_kg + contents_m3(panel) * fluid.density_kg_m3,
        area_m2: gross_area_m2(panel),
    }))
}

/// Whether a roof carries the panel: as written, and where nobody said, it does.
fn on_roof(case: &Case) -> bool {
    let mount = case.subject.design.mount.as_ref();
    mount.and_then(|mount| mount.on).is_none_or(design::MountedOn::is_roof)
}
