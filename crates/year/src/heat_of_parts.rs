//! How many hours a year each part of a panel is hotter than it stands.

use physics::circuit::pipe::{STILL_AIR_FILM_W_M2_K, conducted_share};
use physics::panel::glazing::{Glazing, Outdoors};
use physics::panel::optics::kept_by_covers;
use physics::panel::stagnation::{LightKept, Spot, idle_bought_k, part_temperatures};
use physics::panel::{Bank, Panel};
use physics::{Angle, Build};

use crate::YearError;
use crate::forcing::Forcing;
use crate::march::march;
use crate::plant::{HourWeather, Plant};
use crate::recorder::{Channel, Recorder};
use crate::upset::{Upset, UpsetKind};

/// What a panel goes through in a year.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Service {
    /// The pump runs as designed.
    Running,
    /// The pump stands all year, or without one the fluid is blocked; the panel full.
    PumpDead,
    /// The panel is left in the sun before it is ever filled.
    Dry,
}

/// The sheet's hottest place minute by minute through a year of some service \[K\].
///
/// `plant`: the build's own, compiled.
///
/// # Errors
/// As [`march`].
pub fn sheet_k(
    build: &Build,
    plant: &Plant,
    forcing: &Forcing,
    service: Service,
) -> Result<Vec<f32>, YearError> {
    let mut plant = plant.clone();
    if service == Service::Dry {
        plant.drain()?;
    }
    let upset = match service {
        Service::Running => Upset::none(),
        // Without a pump it is what blocks the pipe that stops the fluid.
        Service::PumpDead | Service::Dry => Upset::all_year(match build.circuit.pump {
            Some(_) => UpsetKind::PumpDead,
            None => UpsetKind::Blocked,
        }),
    };
    let mut recorder = Recorder::of(&[Channel::Plate]);
    march(&plant, forcing, &upset, &mut recorder)?;
    let mut series = recorder.series(Channel::Plate).map(<[f32]>::to_vec).unwrap_or_default();
    if service != Service::Running {
        hold_to_certificate(build, forcing, &mut series)?;
    }
    Ok(series)
}

/// A bought panel that stands idle is as hot as its certificate says, which its curve is not.
fn hold_to_certificate(
    build: &Build,
    forcing: &Forcing,
    series: &mut [f32],
) -> Result<(), YearError> {
    let Some(Panel::Bought(bought)) = first(&build.panel) else { return Ok(()) };
    for (hour, minutes) in series.chunks_mut(60).enumerate() {
        let sun_w_m2 = f64::from(forcing.light.plane_w_m2[hour]);
        let idle_k = idle_bought_k(bought, sun_w_m2, forcing.hours[hour].air_k)
            .map_err(|error| YearError::Panel(error.to_string()))?;
        for minute in minutes {
            *minute = minute.max(idle_k as f32);
        }
    }
    Ok(())
}

fn first(bank: &Bank) -> Option<&Panel> {
    bank.panels.first()
}

/// A part that has to stand heat: where it sits, and how hot it may get.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bound {
    /// Where.
    pub spot: Spot,
    /// Its limit \[K\].
    pub limit_k: f64,
}

/// Hours in which each part of the first panel is above its limit \[h\], in the order of `bounds`.
///
/// Within an hour weather is held, and a part's temperature runs straight with the sheet's between
/// the hour's coolest and hottest minute.
///
/// `along_m`: metal pipe between panel and the spot on the pipe \[m\].
///
/// # Errors
/// Weather beyond the range of the panel's relations.
pub fn hours_above(
    build: &Build,
    forcing: &Forcing,
    sheet_k: &[f32],
    bounds: &[Bound],
    along_m: f64,
) -> Result<Vec<f64>, YearError> {
    let mut minutes = vec![0_u32; bounds.len()];
    let Some(panel) = first(&build.panel) else { return Ok(vec![0.0; bounds.len()]) };
    let reader = Reader::of(build, panel, along_m)?;
    let lowest_k = bounds.iter().map(|bound| bound.limit_k).fold(f64::INFINITY, f64::min);
    for (hour, series) in sheet_k.chunks(60).enumerate() {
        let hottest_k = series.iter().copied().fold(0.0, f32::max);
        // The sheet is the hottest part of a panel in the sun.
        if f64::from(hottest_k) <= lowest_k {
            continue;
        }
        let coolest_k = series.iter().copied().fold(f32::MAX, f32::min);
        let weather = reader.weather(forcing, hour);
        let (cool, hot) = (
            reader.read(&weather, f64::from(coolest_k), bounds)?,
            reader.read(&weather, f64::from(hottest_k), bounds)?,
        );
        let span_k = f64::from((hottest_k - coolest_k).max(1e-6));
        for (place, bound) in bounds.iter().enumerate() {
            if hot[place] <= bound.limit_k {
                continue;
            }
            let above = series.iter().filter(|&&minute_k| {
                let share = f64::from(minute_k - coolest_k) / span_k;
                cool[place] + share * (hot[place] - cool[place]) > bound.limit_k
            });
            minutes[place] += above.count() as u32;
        }
    }
    Ok(minutes.into_iter().map(|minutes| f64::from(minutes) / 60.0).collect())
}

/// How warm spots of the first panel are, minute by minute of a day \[K\], in the order of `spots`; nothing
/// where there is no panel.
///
/// `day`: 0 to 364; `sheet_k`: the sheet's hottest place in its 1440 minutes; `along_m`: as for
/// [`hours_above`]. The hour's weather is held within it.
///
/// # Errors
/// Weather beyond the range of the panel's relations.
pub fn spots_of_day(
    build: &Build,
    forcing: &Forcing,
    (day, sheet_k): (usize, &[f32]),
    spots: &[Spot],
    along_m: f64,
) -> Result<Vec<Vec<f64>>, YearError> {
    let Some(panel) = first(&build.panel) else { return Ok(Vec::new()) };
    let reader = Reader::of(build, panel, along_m)?;
    let bounds: Vec<Bound> = spots.iter().map(|&spot| Bound { spot, limit_k: 0.0 }).collect();
    let mut series = vec![Vec::with_capacity(sheet_k.len()); spots.len()];
    for (hour, minutes) in sheet_k.chunks(60).enumerate() {
        let weather = reader.weather(forcing, day * 24 + hour);
        for &minute_k in minutes {
            let found = reader.read(&weather, f64::from(minute_k), &bounds)?;
            for (series, k) in series.iter_mut().zip(found) {
                series.push(k);
            }
        }
    }
    Ok(series)
}

/// How warm a spot of the first panel is in each hour of a year \[K\], its sheet as warm as in the hour's
/// mean; nothing where there is no panel.
///
/// `sheet_k`: the sheet's hottest place minute by minute; `along_m`: as for [`hours_above`].
///
/// # Errors
/// Weather beyond the range of the panel's relations.
pub fn spot_by_hour(
    build: &Build,
    forcing: &Forcing,
    sheet_k: &[f32],
    spot: Spot,
    along_m: f64,
) -> Result<Vec<f64>, YearError> {
    let Some(panel) = first(&build.panel) else { return Ok(Vec::new()) };
    let reader = Reader::of(build, panel, along_m)?;
    let bound = [Bound { spot, limit_k: 0.0 }];
    let hours = sheet_k.chunks(60).enumerate();
    hours
        .map(|(hour, minutes)| {
            let sum_k: f64 = minutes.iter().map(|&minute_k| f64::from(minute_k)).sum();
            let mean_k = sum_k / minutes.len() as f64;
            Ok(reader.read(&reader.weather(forcing, hour), mean_k, &bound)?[0])
        })
        .collect()
}

/// Reads the temperatures of a panel's spots off its sheet's.
struct Reader<'a> {
    panel: &'a Panel,
    glazing: Option<Glazing>,
    /// Share of the plane's light that each cover keeps.
    kept: Vec<f64>,
    pipe_share: f64,
}

/// An hour around a panel.
struct HourAround {
    around: Outdoors,
    light: LightKept,
}

/// Angle at which the light that covers keep is taken, for a whole year's light.
const KEPT_AT: Angle = Angle::from_degrees(45.0);

impl Reader<'_> {
    fn of<'a>(build: &Build, panel: &'a Panel, along_m: f64) -> Result<Reader<'a>, YearError> {
        let tilt = build.sun.plane.tilt;
        let (glazing, kept) = match panel {
            Panel::Built(built) => {
                let glazing = Glazing::of(&built.covers, built.sheet.emittance, tilt)
                    .map_err(|error| YearError::Panel(error.to_string()))?;
                (Some(glazing), kept_by_covers(&built.covers, KEPT_AT))
            }
            Panel::Bought(_) => (None, Vec::new()),
        };
        let pipe_share = conducted_share(&build.circuit.flow_pipe, along_m, STILL_AIR_FILM_W_M2_K)
            .map_err(|error| YearError::Circuit(error.to_string()))?;
        Ok(Reader { panel, glazing, kept, pipe_share })
    }

    fn weather(&self, forcing: &Forcing, hour: usize) -> HourAround {
        let here = &forcing.hours[hour];
        let weather = HourWeather {
            air_k: here.air_k,
            sky_k: here.sky_k,
            wind_film_w_m2_k: here.wind_film_w_m2_k,
        };
        let plane_w_m2 = f64::from(forcing.light.plane_w_m2[hour]);
        HourAround {
            around: weather.outdoors(),
            light: LightKept {
                sheet_w_m2: 0.0,
                covers_w_m2: self.kept.iter().map(|share| share * plane_w_m2).collect(),
            },
        }
    }

    fn read(
        &self,
        hour: &HourAround,
        sheet_k: f64,
        bounds: &[Bound],
    ) -> Result<Vec<f64>, YearError> {
        let air_k = hour.around.ambient_k;
        let (Panel::Built(built), Some(glazing)) = (self.panel, &self.glazing) else {
            let on_pipe_k = air_k + self.pipe_share * (sheet_k - air_k);
            let at = |bound: &Bound| if bound.spot == Spot::Pipe { on_pipe_k } else { sheet_k };
            return Ok(bounds.iter().map(at).collect());
        };
        let parts = part_temperatures(built, glazing, &hour.around, &hour.light, sheet_k)
            .map_err(|error| YearError::Panel(error.to_string()))?;
        let at = |bound: &Bound| parts.at(bound.spot, self.pipe_share, air_k).unwrap_or(air_k);
        Ok(bounds.iter().map(at).collect())
    }
}
