//! It boils: the pump stops on the hottest day, and what that throws out.

use design::quantity::Kind as Measure;
use physics::circuit::Holding;
use physics::circuit::boiling::{atmosphere_pa, boil_at};
use physics::circuit::pressure::Point;
use physics::circuit::survey::{FILL_K, Occasion, contents, pressure_at, survey};
use physics::circuit::vessel::header_tank_m3;
use physics::matter::fluid::{Fluid, growth, vapour_pressure_pa};
use physics::{Build, ZERO_CELSIUS_K};
use year::{Channel, Upset, UpsetKind};

use super::case::{COURSE_STEP_MIN, Case, Marched, course, litres_up, writing};
use super::finding::{About, Certainty, Figure, Finding, Kind, Limit, Remedy, Station};
use super::weather::{extreme_day, minutes};
use super::words::{Words, lasting, of, warm, words};
use crate::AdviceError;

/// The fluid outside the panel when the panel boils: warm from the morning \[K\].
const WARM_CIRCUIT_K: f64 = ZERO_CELSIUS_K + 60.0;
/// Nearer to boiling than this is not far from it \[K\] (judgement).
const NEAR_K: f64 = 5.0;
/// The pump stops at noon, standard time \[min\].
const NOON_MIN: u32 = 720;
const NO_SHUT_VALVE: &str =
    "No valve that can be shut between a panel and what relieves it (EN 12976 and EN 12977)";

/// Where the panel's fluid boils at its outlet \[K\], circuit cold and pump at rest: the pressure is least
/// then, and it boils earliest. `None` without a panel.
pub(crate) fn boils_k(build: &Build) -> Result<Option<f64>, AdviceError> {
    if build.panel.panels.is_empty() {
        return Ok(None);
    }
    let occasion = Occasion { fluid_k: FILL_K, altitude_m: build.sun.place.elevation_m };
    let found = survey(&build.circuit, &build.panel, &build.store.coil, &occasion)
        .map_err(AdviceError::circuit)?;
    let Some(outlet) = pressure_at(&found.resting, Point::PanelOut) else { return Ok(None) };
    let boil = boil_at(build.circuit.fluid, outlet.pressure_pa).map_err(AdviceError::circuit)?;
    Ok(Some(boil.boils_k))
}

/// What a boiling panel pushes out of itself and what the rest grows by \[m3\].
fn pushed_m3(build: &Build) -> Result<f64, AdviceError> {
    let held = contents(&build.circuit, &build.panel, &build.store.coil);
    let growth =
        growth(build.circuit.fluid, FILL_K, WARM_CIRCUIT_K).map_err(AdviceError::circuit)?;
    Ok(header_tank_m3(growth, held.whole_m3(), held.panels_m3))
}

/// The pump stops at noon on the brightest day in the hottest air, or the fluid is blocked: minutes to
/// boiling, and where what boils goes.
pub(super) fn look(case: &Case) -> Result<Vec<Finding>, AdviceError> {
    let build = &case.year.build;
    let Some(boils_k) = boils_k(build)? else { return Ok(Vec::new()) };
    let spell = extreme_day(case, 1);
    let first = minutes(&spell.days).start as u32;
    // Without a pump it is what blocks the pipe, air or a flap, that stops the fluid.
    let has_pump = build.circuit.pump.is_some();
    let wrong = if has_pump { UpsetKind::PumpDead } else { UpsetKind::Blocked };
    let stops = |from_min: u32| Upset { events: vec![(wrong, first + from_min..first + 1440)] };
    let channels = [Channel::Plate];
    let noon = Marched::of(&case.year.plant, &spell, &stops(NOON_MIN), &channels)?;
    let all_day = Marched::of(&case.year.plant, &spell, &stops(0), &channels)?;
    let running = Marched::of(&case.year.plant, &spell, &Upset::none(), &channels)?;
    let hottest_k = noon.most(Channel::Plate).max(all_day.most(Channel::Plate));
    let reached = noon.series(Channel::Plate)[NOON_MIN as usize..]
        .iter()
        .position(|&plate_k| f64::from(plate_k) >= boils_k);
    let place = Outcome { boils_k, hottest_k, reached_min: reached, pushed_m3: pushed_m3(build)? };
    let mut finding = place.told(build)?;
    let lines = vec![
        (
            if has_pump { "sheet, pump dead from noon" } else { "sheet, blocked from noon" },
            noon.every(Channel::Plate, COURSE_STEP_MIN),
        ),
        ("sheet, as designed", running.every(Channel::Plate, COURSE_STEP_MIN)),
    ];
    let limits = vec![("the fluid boils".to_owned(), boils_k)];
    finding.course = Some(course(
        (&spell, COURSE_STEP_MIN),
        words!("The sheet when the fluid stops at noon on the hottest day"),
        lines,
        limits,
    ));
    Ok(vec![finding])
}

struct Outcome {
    boils_k: f64,
    hottest_k: f64,
    reached_min: Option<usize>,
    pushed_m3: f64,
}

/// Where what boils goes.
struct Goes {
    kind: Kind,
    says: Words,
    mend: Words,
    remedies: Vec<Remedy>,
    figure: Figure,
}

impl Outcome {
    fn told(&self, build: &Build) -> Result<Finding, AdviceError> {
        let place = match build.circuit.layout.holding {
            Holding::HeaderTank { .. } => "circuit.filling.room",
            Holding::Vessel { .. } => "circuit.filling.vessel",
        };
        let finding = |kind, says| {
            Finding::new(About::Boils, "pump-dies-at-noon", Station::Circuit, kind, says)
                .at(place)
                .source(NO_SHUT_VALVE, Certainty::FromMemory)
        };
        let stopped = match build.circuit.pump {
            Some(_) => "With the pump dead, or the pipe blocked,",
            None => "With the fluid blocked, by air or a flap that sticks,",
        };
        if self.hottest_k < self.boils_k - NEAR_K {
            let says = words!(
                "{} on the hottest day, the sheet comes to {}; the fluid boils at {} there",
                stopped,
                warm(self.hottest_k),
                warm(self.boils_k)
            );
            return Ok(finding(Kind::Quiet, says).figures(vec![Figure::against(
                "hottest sheet, pump dead",
                Measure::Temperature,
                self.hottest_k,
                Limit::at_most(self.boils_k, BOILING, Certainty::Seen),
            )]));
        }
        let goes = self.goes(build)?;
        let when = match self.reached_min {
            Some(0) => words!("at once"),
            Some(minutes) => words!("after {}", lasting(60.0 * minutes as f64)),
            None if self.hottest_k < self.boils_k => words!("on a day a little hotter"),
            None => words!("later that day"),
        };
        let says = words!(
            "{} from noon on the hottest day, the panel boils {}: the sheet goes to {} and the fluid boils at {} there. {}",
            stopped,
            when,
            warm(self.hottest_k),
            warm(self.boils_k),
            goes.says
        );
        let told = [
            Figure::told("hottest sheet, pump dead", Measure::Temperature, self.hottest_k),
            Figure::told("the fluid boils at", Measure::Temperature, self.boils_k),
        ];
        let boils = self.reached_min.map(|minutes| {
            Figure::told("from noon until it boils", Measure::Time, 60.0 * minutes as f64)
        });
        let figures = std::iter::once(goes.figure).chain(told).chain(boils).collect();
        Ok(finding(goes.kind, says).mend(goes.mend).figures(figures).remedies(goes.remedies))
    }

    fn goes(&self, build: &Build) -> Result<Goes, AdviceError> {
        Ok(match build.circuit.layout.holding {
            Holding::HeaderTank { room_m3, .. } => self.in_header_tank(room_m3),
            Holding::Vessel { volume_m3, precharge_pa, fill_pa, relief_pa } => {
                let air_pa =
                    atmosphere_pa(build.sun.place.elevation_m).map_err(AdviceError::circuit)?;
                let sealed = Sealed {
                    volume_m3,
                    charge_pa: air_pa + precharge_pa,
                    filled_pa: air_pa + fill_pa,
                    relief_pa: air_pa + relief_pa,
                    air_pa,
                };
                self.in_vessel(build.circuit.fluid, &sealed)
            }
        })
    }

    fn in_header_tank(&self, room_m3: Option<f64>) -> Goes {
        let pushed = of(Measure::Volume, self.pushed_m3);
        let larger = writing(
            words!("Give the header tank more room over its cold level"),
            "circuit.filling.room",
            litres_up(self.pushed_m3),
        );
        let Some(room_m3) = room_m3 else {
            return Goes {
                kind: Kind::Mind,
                says: words!(
                    "Steam pushes {} into the header tank, and nobody said what room it has; what does not fit runs out of its overflow, hot",
                    pushed
                ),
                mend: words!(
                    "Measure the room between cold level and overflow. Lead the overflow where nobody stands"
                ),
                remedies: vec![larger],
                figure: Figure::told(PUSHED, Measure::Volume, self.pushed_m3),
            };
        };
        let room = of(Measure::Volume, room_m3);
        let figure = Figure::against(
            PUSHED,
            Measure::Volume,
            self.pushed_m3,
            Limit::at_most(room_m3, "the header tank’s room, as the design says", Certainty::Seen),
        );
        if room_m3 < self.pushed_m3 {
            Goes {
                kind: Kind::Stop,
                says: words!(
                    "Steam pushes {} into the header tank, which has room for {}: {} of boiling mix is thrown out, the circuit is short of it afterwards and does not run again by itself",
                    pushed,
                    room,
                    of(Measure::Volume, self.pushed_m3 - room_m3)
                ),
                mend: words!("Set a larger header tank, and lead its overflow where nobody stands"),
                remedies: vec![larger],
                figure,
            }
        } else {
            Goes {
                kind: Kind::Quiet,
                says: words!(
                    "Steam pushes {} into the header tank, which has room for {}; cooling, the panel draws it back",
                    pushed,
                    room
                ),
                mend: words!("No valve that can be shut may stand between panel and tank"),
                remedies: Vec::new(),
                figure,
            }
        }
    }

    fn in_vessel(&self, fluid: Fluid, sealed: &Sealed) -> Goes {
        let pressure_pa = sealed.pressure_pa(fluid, self.hottest_k, self.pushed_m3);
        let gauge = |absolute_pa: f64| of(Measure::Pressure, absolute_pa - sealed.air_pa);
        let pushed = of(Measure::Volume, self.pushed_m3);
        let figure = Figure::against(
            "pressure, the panel full of steam",
            Measure::Pressure,
            pressure_pa - sealed.air_pa,
            Limit::at_most(
                sealed.relief_pa - sealed.air_pa,
                "the relief valve, as the design says",
                Certainty::Seen,
            ),
        );
        if pressure_pa > sealed.relief_pa {
            Goes {
                kind: Kind::Mind,
                says: words!(
                    "Steam pushes {} into the vessel, and the relief valve opens at {}: hot mix leaves by its pipe, and the circuit is short of it afterwards",
                    pushed,
                    gauge(sealed.relief_pa)
                ),
                mend: words!(
                    "Lead the valve’s pipe, in metal, to where nobody stands, into a can that shows what came"
                ),
                remedies: vec![writing(
                    words!("Hang a vessel that takes the steam"),
                    "circuit.filling.vessel",
                    litres_up(sealed.enough_m3(self.pushed_m3)),
                )],
                figure,
            }
        } else {
            Goes {
                kind: Kind::Quiet,
                says: words!(
                    "Steam pushes {} into the vessel, whose pressure rises to {}; the relief valve opens at {}",
                    pushed,
                    gauge(pressure_pa),
                    gauge(sealed.relief_pa)
                ),
                mend: words!(
                    "No valve that can be shut may stand between panel, vessel and relief valve"
                ),
                remedies: Vec::new(),
                figure,
            }
        }
    }
}

const PUSHED: &str = "pushed out by steam and growth";
const BOILING: &str =
    "boiling point at the panel’s outlet, circuit cold, by height, altitude and mixture";

/// A sealed vessel, pressures absolute \[Pa\].
struct Sealed {
    volume_m3: f64,
    charge_pa: f64,
    filled_pa: f64,
    relief_pa: f64,
    air_pa: f64,
}

impl Sealed {
    /// Pressure once the vessel has taken what was pushed out: its gas pressed together (Boyle), but no
    /// more than steam at the sheet's temperature can hold \[Pa\].
    fn pressure_pa(&self, fluid: Fluid, hottest_k: f64, pushed_m3: f64) -> f64 {
        // Beyond the saturation line's table steam holds more than any vessel.
        let steam_pa = vapour_pressure_pa(fluid, hottest_k).unwrap_or(f64::INFINITY);
        let gas_m3 = self.volume_m3 * self.charge_pa / self.filled_pa;
        let left_m3 = gas_m3 - pushed_m3;
        let gas_pa = if left_m3 > 0.0 { self.filled_pa * gas_m3 / left_m3 } else { f64::INFINITY };
        gas_pa.min(steam_pa)
    }

    /// Vessel that takes what is pushed out below the relief valve \[m3\].
    fn enough_m3(&self, pushed_m3: f64) -> f64 {
        // A gas filled to the valve's own pressure has no room at all.
        let room_share = (1.0 - self.filled_pa / self.relief_pa).max(0.05);
        pushed_m3 / room_share * self.filled_pa / self.charge_pa
    }
}

/// What glycol's inhibitors bear \[K\]: about 120 to 140 C by the trade; the lower.
const GLYCOL_K: f64 = ZERO_CELSIUS_K + 120.0;

/// Antifreeze that cooks in a standing panel.
pub(super) fn cooks(case: &Case) -> Result<Vec<Finding>, AdviceError> {
    let build = &case.year.build;
    if matches!(build.circuit.fluid, Fluid::Water) || build.panel.panels.is_empty() {
        return Ok(Vec::new());
    }
    let minutes = case.minutes.series(Channel::Plate).unwrap_or_default();
    let above = minutes.iter().filter(|&&plate_k| f64::from(plate_k) > GLYCOL_K).count();
    let hottest_k = minutes.iter().copied().fold(0.0, f32::max).into();
    let above_s = 60.0 * above as f64;
    let (kind, says) = if above == 0 {
        (
            Kind::Quiet,
            words!(
                "With the pump running as designed the sheet comes to {}; antifreeze begins to break down near {}",
                warm(hottest_k),
                warm(GLYCOL_K)
            ),
        )
    } else {
        (
            Kind::Mind,
            words!(
                "The panel stands full and hotter than {} for {} of the year, at most at {}, because the controller keeps the pump still: antifreeze breaks down there and turns acid, and copper hurries it",
                warm(GLYCOL_K),
                lasting(above_s),
                warm(hottest_k)
            ),
        )
    };
    Ok(vec![
        Finding::new(About::Boils, "antifreeze-cooks", Station::Circuit, kind, says)
            .at("circuit.fluid")
            .mend(words!("Look at its colour and smell and its pH each year; change it below pH 7"))
            .figures(vec![
                Figure::against(
                    "hottest sheet in the year",
                    Measure::Temperature,
                    hottest_k,
                    Limit::at_most(GLYCOL_K, "the trade, 120 to 140 C; the lower", Certainty::FromMemory),
                ),
                Figure::told("hotter than that", Measure::Time, above_s),
            ])
            .source(
                "Acids form in hot glycol, copper speeds it (abstract of a paper on acid breakdown); change below pH 7",
                Certainty::Seen,
            ),
    ])
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Given a vessel of 12 l charged to 1.5 bar and filled to 2 bar, absolute, it holds 9 l of gas; 3 l
    /// more press it to 2 bar times 9 over 6, 3 bar (Boyle, by hand), which steam of 140 C (3.61 bar, steam
    /// tables) can hold; at 110 C it holds 1.43 bar only. Below a valve of 3.5 bar 3 l want
    /// 3/(1 - 2/3.5) times 2/1.5, 9.33 l.
    #[test]
    fn a_vessel_takes_steam_by_boyle() {
        let sealed = Sealed {
            volume_m3: 0.012,
            charge_pa: 1.5e5,
            filled_pa: 2e5,
            relief_pa: 3.5e5,
            air_pa: 1e5,
        };
        let hot_k = ZERO_CELSIUS_K + 140.0;
        assert!((sealed.pressure_pa(Fluid::Water, hot_k, 0.003) - 3e5).abs() < 1.0);
        let cool_pa = sealed.pressure_pa(Fluid::Water, ZERO_CELSIUS_K + 110.0, 0.003);
        assert!((cool_pa / 1.434e5 - 1.0).abs() < 0.005, "{cool_pa}");
        assert!((sealed.enough_m3(0.003) - 0.009_333).abs() < 1e-6);
    }
}
