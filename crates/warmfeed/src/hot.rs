//! How hot the parts of a build's panel get, as the document tells it.

use advice::idle::{Idle, idle, idle_hours};
use advice::worry::Kind as Worry;
use anyhow::Result;
use design::quantity::{Kind, Units, show};
use physics::ZERO_CELSIUS_K;
use year::{Forcing, Plant};

use crate::commands::Loaded;
use crate::wire::{KindWire, PartWire, StagnationWire};

/// Stagnation of every part: at standard conditions, in the place's extreme, and by the hour.
///
/// `None` for a build without a panel.
///
/// `plant`: the build's own, compiled; `units`: of the sentence on the place's extreme.
pub fn stagnation(
    loaded: &Loaded,
    plant: &Plant,
    forcing: &Forcing,
    units: Units,
) -> Result<Option<StagnationWire>> {
    let (design, build) = (&loaded.design, &loaded.build);
    let Some(found) = idle(design, build, forcing)? else { return Ok(None) };
    let hours = idle_hours(design, (build, forcing), plant, &found)?;
    let parts = found.parts.iter().enumerate().map(|(place, idle)| PartWire {
        part: idle.part.part.clone(),
        place: idle.part.place.clone(),
        material: idle.part.material.to_owned(),
        standard_c: idle.standard_k - ZERO_CELSIUS_K,
        extreme_c: idle.extreme_k - ZERO_CELSIUS_K,
        limit_c: idle.part.limit_c,
        short_limit_c: idle.part.short_limit_c,
        limit_certainty: idle.part.certainty.to_owned(),
        hours_above_running: hours.running[place],
        hours_above_pump_dead: hours.pump_dead[place],
        hours_above_dry: hours.dry[place],
        kind: kind(idle.kind(hours.running[place])),
    });
    Ok(Some(StagnationWire {
        standard_c: found.standard_k - ZERO_CELSIUS_K,
        extreme_c: found.extreme_k - ZERO_CELSIUS_K,
        extreme_conditions: conditions(&found, units),
        parts: parts.collect(),
    }))
}

/// A worry's kind, as documents write it.
pub fn kind(kind: Worry) -> KindWire {
    match kind {
        Worry::Stop => KindWire::Stop,
        Worry::Mind => KindWire::Mind,
        Worry::Quiet => KindWire::Quiet,
    }
}

fn conditions(found: &Idle, units: Units) -> String {
    format!(
        "{}, the year's strongest sun on the plane; air of {}; no wind",
        show(Kind::Irradiance, found.extreme.sun_w_m2.round(), units),
        show(Kind::Temperature, found.extreme.around.ambient_k, units)
    )
}
