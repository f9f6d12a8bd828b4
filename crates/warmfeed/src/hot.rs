//! How hot the parts of a build's panel get, and whether they stand it.

use anyhow::Result;
use design::HotPart;
use design::quantity::{Kind, Units, show};
use physics::circuit::pipe::{STILL_AIR_FILM_W_M2_K, conducted_share};
use physics::panel::glazing::{Glazing, Outdoors};
use physics::panel::optics::{kept_by_covers, optics};
use physics::panel::stagnation::{
    LightKept, PartTemperatures, STANDARD_SUN_W_M2, STILL_WIND_FILM_W_M2_K, idle_bought_k,
    idle_parts, standard_outdoors,
};
use physics::panel::{Built, Panel};
use physics::{Angle, Build, ZERO_CELSIUS_K};
use year::heat_of_parts::{Bound, Service, hours_above, sheet_k};
use year::{Forcing, Plant};

use crate::commands::Loaded;
use crate::wire::{KindWire, PartWire, StagnationWire};

/// Sun and air at which a panel stands idle.
struct Idle {
    sun_w_m2: f64,
    /// Light the sheet takes up \[W/m2\].
    taken_w_m2: f64,
    around: Outdoors,
}

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
    let build = &loaded.build;
    let Some(panel) = build.panel.panels.first() else { return Ok(None) };
    let light = optics(panel, build.sun.plane.tilt);
    let standard = Idle {
        sun_w_m2: STANDARD_SUN_W_M2,
        taken_w_m2: STANDARD_SUN_W_M2 * light.beam(1.0),
        around: standard_outdoors(),
    };
    let extreme = extreme(loaded, forcing);
    let [at_standard, at_extreme] =
        [temperatures(build, panel, &standard)?, temperatures(build, panel, &extreme)?];
    let along_m = loaded.design.outlet_metal_m;
    let share = conducted_share(&build.circuit.flow_pipe, along_m, STILL_AIR_FILM_W_M2_K)?;
    let bounds: Vec<Bound> = loaded.design.hot_parts.iter().map(bound).collect();
    let [running, dead, dry] = hours(build, plant, forcing, &bounds, along_m)?;
    let mut parts = Vec::with_capacity(bounds.len());
    for (place, part) in loaded.design.hot_parts.iter().enumerate() {
        let at = |hot: &PartTemperatures, idle: &Idle| {
            hot.at(part.spot, share, idle.around.ambient_k).map(|k| k - ZERO_CELSIUS_K)
        };
        let (Some(standard_c), Some(extreme_c)) =
            (at(&at_standard, &standard), at(&at_extreme, &extreme))
        else {
            continue;
        };
        parts.push(PartWire {
            part: part.part.clone(),
            place: part.place.clone(),
            material: part.material.to_owned(),
            standard_c,
            extreme_c,
            limit_c: part.limit_c,
            short_limit_c: part.short_limit_c,
            limit_certainty: part.certainty.to_owned(),
            hours_above_running: running[place],
            hours_above_pump_dead: dead[place],
            hours_above_dry: dry[place],
            kind: kind(part, standard_c.max(extreme_c)),
        });
    }
    Ok(Some(StagnationWire {
        standard_c: at_standard.sheet_k - ZERO_CELSIUS_K,
        extreme_c: at_extreme.sheet_k - ZERO_CELSIUS_K,
        extreme_conditions: format!(
            "{}, the year's strongest sun on the plane; air of {}; no wind",
            show(Kind::Irradiance, extreme.sun_w_m2.round(), units),
            show(Kind::Temperature, extreme.around.ambient_k, units)
        ),
        parts,
    }))
}

fn bound(part: &HotPart) -> Bound {
    Bound { spot: part.spot, limit_k: part.limit_c + ZERO_CELSIUS_K }
}

/// Every panel is left idle in full sun one day: before it is filled, in a power cut, with the
/// store full. So it is that heat which decides, not how often it comes.
fn kind(part: &HotPart, hottest_c: f64) -> KindWire {
    if hottest_c > part.short_limit_c {
        KindWire::Stop
    } else if hottest_c > part.limit_c {
        KindWire::Mind
    } else {
        KindWire::Quiet
    }
}

/// The year's strongest sun on the panel, and the hottest air stated for the place; where none is,
/// the hottest hour of the weather file.
fn extreme(loaded: &Loaded, forcing: &Forcing) -> Idle {
    let most = |values: &[f32]| f64::from(values.iter().copied().fold(0.0, f32::max));
    let hottest_hour_k = loaded.climate.air_k.iter().copied().fold(0.0, f64::max);
    let ambient_k = loaded.climate.extremes.hottest_air_k.unwrap_or(hottest_hour_k);
    Idle {
        sun_w_m2: most(&forcing.light.plane_w_m2),
        taken_w_m2: most(&forcing.light.absorbed_w_m2),
        around: Outdoors { ambient_k, sky_k: ambient_k, wind_film_w_m2_k: STILL_WIND_FILM_W_M2_K },
    }
}

fn temperatures(build: &Build, panel: &Panel, idle: &Idle) -> Result<PartTemperatures> {
    match panel {
        Panel::Built(built) => built_temperatures(build, built, idle),
        Panel::Bought(bought) => {
            let sheet_k = idle_bought_k(bought, idle.sun_w_m2, idle.around.ambient_k)?;
            Ok(PartTemperatures {
                sheet_k,
                covers_k: Vec::new(),
                back_k: Vec::new(),
                edge_k: (sheet_k, sheet_k),
            })
        }
    }
}

fn built_temperatures(build: &Build, built: &Built, idle: &Idle) -> Result<PartTemperatures> {
    let glazing = Glazing::of(&built.covers, built.sheet.emittance, build.sun.plane.tilt)?;
    let kept = kept_by_covers(&built.covers, Angle::ZERO);
    let light = LightKept {
        sheet_w_m2: idle.taken_w_m2,
        covers_w_m2: kept.iter().map(|share| share * idle.sun_w_m2).collect(),
    };
    Ok(idle_parts(built, &glazing, &idle.around, &light)?)
}

/// Hours above each bound: running, pump dead, dry. The three years are marched side by side; without
/// a pump nothing changes where it is dead.
fn hours(
    build: &Build,
    plant: &Plant,
    forcing: &Forcing,
    bounds: &[Bound],
    along_m: f64,
) -> Result<[Vec<f64>; 3]> {
    let one = |service: Service| -> Result<Vec<f64>> {
        let series = sheet_k(build, plant, forcing, service)?;
        Ok(hours_above(build, forcing, &series, bounds, along_m)?)
    };
    std::thread::scope(|scope| {
        let dead = build.circuit.pump.as_ref().map(|_| scope.spawn(|| one(Service::PumpDead)));
        let dry = scope.spawn(|| one(Service::Dry));
        let running = one(Service::Running)?;
        let joined = |thread: std::thread::ScopedJoinHandle<'_, Result<Vec<f64>>>| {
            thread.join().unwrap_or_else(|panic| std::panic::resume_unwind(panic))
        };
        let dead = dead.map_or_else(|| Ok(running.clone()), joined)?;
        Ok([running, dead, joined(dry)?])
    })
}
