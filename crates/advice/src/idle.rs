//! How hot the parts of a build's panel get when no heat is taken from it, and whether they stand it.

use design::{Design, HotPart};
use physics::circuit::pipe::{STILL_AIR_FILM_W_M2_K, conducted_share};
use physics::panel::glazing::{Glazing, Outdoors};
use physics::panel::optics::{kept_by_covers, optics};
use physics::panel::stagnation::{
    LightKept, PartTemperatures, STANDARD_SUN_W_M2, STILL_WIND_FILM_W_M2_K, Spot, idle_bought_k,
    idle_parts, standard_outdoors,
};
use physics::panel::{Built, Panel};
use physics::{Angle, Build, ZERO_CELSIUS_K};
use year::heat_of_parts::{Bound, Service, hours_above, sheet_k};
use year::{Forcing, Plant};

use crate::worry::{Kind, boils_k};
use crate::{AdviceError, OneYear};

/// Sun and air at which a panel stands idle.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct IdleSun {
    /// Light on its plane \[W/m2\].
    pub sun_w_m2: f64,
    /// Light the sheet takes up \[W/m2\].
    pub taken_w_m2: f64,
    /// What surrounds it.
    pub around: Outdoors,
}

/// A panel left idle: at standard conditions and in the place's extreme.
#[derive(Clone, Debug, PartialEq)]
pub struct Idle {
    /// The sheet at 1000 W/m2 and 30 C \[K\].
    pub standard_k: f64,
    /// The sheet in the place's extreme \[K\].
    pub extreme_k: f64,
    /// That extreme: the year's strongest sun on the plane and the hottest air reckoned with.
    pub extreme: IdleSun,
    /// Each part that has a limit.
    pub parts: Vec<IdlePart>,
}

/// One part of an idle panel.
#[derive(Clone, Debug, PartialEq)]
pub struct IdlePart {
    /// The part and its limits.
    pub part: HotPart,
    /// How hot at standard conditions \[K\].
    pub standard_k: f64,
    /// How hot in the place's extreme \[K\].
    pub extreme_k: f64,
}

/// Hours a year above each part's continuous limit, in the order of [`Idle::parts`].
#[derive(Clone, Debug, PartialEq)]
pub struct HoursAbove {
    /// The pump as designed \[h\].
    pub running: Vec<f64>,
    /// The pump dead all year, or without a pump the fluid blocked; the panel full \[h\].
    pub pump_dead: Vec<f64>,
    /// The panel in the sun before it is ever filled \[h\].
    pub dry: Vec<f64>,
}

/// Nearer to a limit than this is not far from it \[K\] (judgement: sun, paint and wind are not known better).
const NEAR_K: f64 = 5.0;

/// A material's short limit is said to hold for hours, not days \[h\].
const HOURS_NOT_DAYS_H: f64 = 24.0;

impl IdlePart {
    /// The hotter of its two temperatures \[C\].
    pub fn hottest_c(&self) -> f64 {
        self.standard_k.max(self.extreme_k) - ZERO_CELSIUS_K
    }

    /// Every panel is left idle in full sun one day: before it is filled, in a power cut, with the
    /// store full. So it is that heat which decides, not how often it comes; but a limit that is passed
    /// for more than a day in all while the pump runs as designed is passed in service.
    ///
    /// `running_h`: hours a year above its continuous limit, the pump as designed \[h\].
    pub fn kind(&self, running_h: f64) -> Kind {
        let hottest_c = self.hottest_c();
        if hottest_c > self.part.short_limit_c || running_h > HOURS_NOT_DAYS_H {
            Kind::Stop
        } else if hottest_c > self.part.limit_c - NEAR_K {
            Kind::Mind
        } else {
            Kind::Quiet
        }
    }
}

/// A build's first panel left idle; `None` for a build without a panel.
///
/// # Errors
/// A panel or pipe beyond the range of their relations.
pub fn idle(
    design: &Design,
    build: &Build,
    forcing: &Forcing,
) -> Result<Option<Idle>, AdviceError> {
    let Some(panel) = build.panel.panels.first() else { return Ok(None) };
    let (standard, extreme) = (standard(build, panel), extreme(build, forcing));
    let [at_standard, at_extreme] =
        [temperatures(build, panel, &standard)?, temperatures(build, panel, &extreme)?];
    let share =
        conducted_share(&build.circuit.flow_pipe, design.outlet_metal_m, STILL_AIR_FILM_W_M2_K)
            .map_err(AdviceError::circuit)?;
    let boils_k = boils_k(build)?;
    let part = |part: &HotPart| {
        // Dry, the pipe is warmed by its metal alone; a panel that boils pushes its fluid past it.
        let pushed_k = |sheet_k: f64| match (part.spot, boils_k) {
            (Spot::Pipe, Some(boils_k)) if sheet_k > boils_k => boils_k,
            _ => 0.0,
        };
        let standard_k = at_standard.at(part.spot, share, standard.around.ambient_k)?;
        let extreme_k = at_extreme.at(part.spot, share, extreme.around.ambient_k)?;
        Some(IdlePart {
            part: part.clone(),
            standard_k: standard_k.max(pushed_k(at_standard.sheet_k)),
            extreme_k: extreme_k.max(pushed_k(at_extreme.sheet_k)),
        })
    };
    Ok(Some(Idle {
        standard_k: at_standard.sheet_k,
        extreme_k: at_extreme.sheet_k,
        extreme,
        parts: design.hot_parts.iter().filter_map(part).collect(),
    }))
}

/// Temperatures of a panel made at home in the hotter of the two, and the air there \[K\]; `None` for a
/// bought one, or none.
///
/// # Errors
/// A panel beyond the range of its relations.
pub(crate) fn hottest_parts(
    build: &Build,
    forcing: &Forcing,
) -> Result<Option<(PartTemperatures, f64)>, AdviceError> {
    let Some(panel) = build.panel.panels.first() else { return Ok(None) };
    let Some(built) = panel.built() else { return Ok(None) };
    let [one, other] = [standard(build, panel), extreme(build, forcing)];
    let hot = built_temperatures(build, built, &one)?;
    let there = built_temperatures(build, built, &other)?;
    Ok(Some(if hot.sheet_k >= there.sheet_k {
        (hot, one.around.ambient_k)
    } else {
        (there, other.around.ambient_k)
    }))
}

/// Standard conditions.
fn standard(build: &Build, panel: &Panel) -> IdleSun {
    IdleSun {
        sun_w_m2: STANDARD_SUN_W_M2,
        taken_w_m2: STANDARD_SUN_W_M2 * optics(panel, build.sun.plane.tilt).beam(1.0),
        around: standard_outdoors(),
    }
}

/// The year's strongest sun on the panel, and the hottest air the build is reckoned with.
fn extreme(build: &Build, forcing: &Forcing) -> IdleSun {
    let most = |values: &[f32]| f64::from(values.iter().copied().fold(0.0, f32::max));
    let ambient_k = build.sun.extremes.hottest_spell.air_k;
    IdleSun {
        sun_w_m2: most(&forcing.light.plane_w_m2),
        taken_w_m2: most(&forcing.light.absorbed_w_m2),
        around: Outdoors { ambient_k, sky_k: ambient_k, wind_film_w_m2_k: STILL_WIND_FILM_W_M2_K },
    }
}

fn temperatures(
    build: &Build,
    panel: &Panel,
    sun: &IdleSun,
) -> Result<PartTemperatures, AdviceError> {
    match panel {
        Panel::Built(built) => built_temperatures(build, built, sun),
        Panel::Bought(bought) => {
            let sheet_k = idle_bought_k(bought, sun.sun_w_m2, sun.around.ambient_k)
                .map_err(AdviceError::panel)?;
            Ok(PartTemperatures {
                sheet_k,
                covers_k: Vec::new(),
                back_k: Vec::new(),
                edge_k: (sheet_k, sheet_k),
            })
        }
    }
}

/// Temperatures of a panel made at home, left idle.
///
/// # Errors
/// A panel beyond the range of its relations.
pub(crate) fn built_temperatures(
    build: &Build,
    built: &Built,
    sun: &IdleSun,
) -> Result<PartTemperatures, AdviceError> {
    let glazing = Glazing::of(&built.covers, built.sheet.emittance, build.sun.plane.tilt)
        .map_err(AdviceError::panel)?;
    let kept = kept_by_covers(&built.covers, Angle::ZERO);
    let light = LightKept {
        sheet_w_m2: sun.taken_w_m2,
        covers_w_m2: kept.iter().map(|share| share * sun.sun_w_m2).collect(),
    };
    idle_parts(built, &glazing, &sun.around, &light).map_err(AdviceError::panel)
}

/// Hours above each part's continuous limit in three years: running, pump dead, dry. They are marched
/// side by side.
///
/// - `plant`: the build's own, compiled.
///
/// # Errors
/// A year that cannot be marched.
pub fn idle_hours(
    design: &Design,
    year: (&Build, &Forcing),
    plant: &Plant,
    idle: &Idle,
) -> Result<HoursAbove, AdviceError> {
    let (build, forcing) = year;
    let one = |service: Service| -> Result<Vec<f64>, AdviceError> {
        let series = sheet_k(build, plant, forcing, service)?;
        hours_of_series(design, year, idle, &series)
    };
    let (running, (dead, dry)) = rayon::join(
        || one(Service::Running),
        || rayon::join(|| one(Service::PumpDead), || one(Service::Dry)),
    );
    Ok(HoursAbove { running: running?, pump_dead: dead?, dry: dry? })
}

/// Hours above each part's continuous limit in a year whose sheet is known minute by minute \[h\].
///
/// - `sheet_k`: its hottest place, 525 600 minutes.
///
/// # Errors
/// Weather beyond the range of the panel's relations.
pub fn hours_of_series(
    design: &Design,
    (build, forcing): (&Build, &Forcing),
    idle: &Idle,
    sheet_k: &[f32],
) -> Result<Vec<f64>, AdviceError> {
    let bounds: Vec<Bound> = idle.parts.iter().map(|part| bound(&part.part)).collect();
    Ok(hours_above(build, forcing, sheet_k, &bounds, design.outlet_metal_m)?)
}

fn bound(part: &HotPart) -> Bound {
    Bound { spot: part.spot, limit_k: part.limit_c + ZERO_CELSIUS_K }
}

impl OneYear {
    /// What [`idle_hours`] asks for.
    pub fn parts(&self) -> (&Build, &Forcing) {
        (&self.build, &self.forcing)
    }
}
