//! Cold fluid on a hot panel: filling in the sun, or a pump that starts into steam.

use design::quantity::Kind as Measure;
use physics::ZERO_CELSIUS_K;
use physics::control::Rule;
use year::{Channel, Upset, UpsetKind};

use super::boils::boils_k;
use super::case::{Case, Marched, celsius_down, writing};
use super::finding::{About, Certainty, Figure, Finding, Kind, Limit, Station};
use super::weather::{extreme_day, minutes};
use super::words::{of, warm, words};
use crate::AdviceError;
use crate::idle::idle;

/// Heat that turns water of 100 C to steam \[J/kg\] (steam tables).
const EVAPORATION_J_KG: f64 = 2.257e6;
/// What a kilogram of steam of 100 C fills \[m3/kg\] (steam tables).
const STEAM_M3_KG: f64 = 1.673;
const BOILING_K: f64 = ZERO_CELSIUS_K + 100.0;

/// A dry panel that is filled in full sun: how much water flashes.
pub(super) fn filled(case: &Case) -> Result<Vec<Finding>, AdviceError> {
    let (design, build) = (&case.subject.design, &case.year.build);
    let Some(found) = idle(design, build, &case.year.forcing)? else { return Ok(Vec::new()) };
    let mut dry = case.year.plant.clone();
    dry.drain()?;
    let capacity_j_k: f64 = dry.segments.iter().map(|segment| segment.capacity_j_k).sum();
    let hot_k = found.extreme_k.max(found.standard_k);
    let steam_kg = flashed_kg(capacity_j_k, hot_k);
    let says = if steam_kg > 0.0 {
        words!(
            "Left dry in full sun the sheet stands at {}; the first water let in flashes, up to {} of steam or {} out of the open end, and the shock can crack joints and pane",
            warm(hot_k),
            of(Measure::Mass, steam_kg),
            of(Measure::Volume, steam_kg * STEAM_M3_KG)
        )
    } else {
        words!("Left dry in full sun the sheet stands at {}, under boiling", warm(hot_k))
    };
    // It happens to who fills by day, whatever the build: told, and not held against the build.
    Ok(vec![
        Finding::new(About::Boils, "filled-hot", Station::Panel, Kind::Quiet, says)
            .at("panel")
            .mend(words!("Never fill a hot panel: cover it, fill at dawn, from the bottom, slowly; work on joints only when it is cold and the pump is off"))
            .figures(vec![
                Figure::against(
                    "dry sheet in full sun",
                    Measure::Temperature,
                    hot_k,
                    Limit::at_most(BOILING_K, "water boils", Certainty::Seen),
                ),
                Figure::told("steam from the first water", Measure::Mass, steam_kg),
            ])
            .source("Two trade filling guides", Certainty::Seen),
    ])
}

/// Water that the heat of a dry panel above 100 C turns to steam \[kg\].
fn flashed_kg(capacity_j_k: f64, hot_k: f64) -> f64 {
    capacity_j_k * (hot_k - BOILING_K).max(0.0) / EVAPORATION_J_KG
}

/// The mains comes back at this time of day, standard time, having failed this long before \[min\].
const FAILS_MIN: u32 = 540;
const BACK_MIN: u32 = 840;
/// Kept under the boiling point by a controller that is not to start into steam \[K\]: probes err by a few.
const IN_HAND_K: f64 = 5.0;

/// A power cut from nine to two on the hottest day: whether the pump starts into a boiling panel.
pub(super) fn started(case: &Case) -> Result<Vec<Finding>, AdviceError> {
    let build = &case.year.build;
    let (Some(boils_k), Some(_)) = (boils_k(build)?, build.circuit.pump.as_ref()) else {
        return Ok(Vec::new());
    };
    let spell = extreme_day(case, 1);
    let first = minutes(&spell.days).start as u32;
    let cut = Upset { events: vec![(UpsetKind::PowerCut, first + FAILS_MIN..first + BACK_MIN)] };
    let marched = Marched::of(&case.year.plant, &spell, &cut, &[Channel::Plate, Channel::Pump])?;
    let (plate_k, pump) = (marched.series(Channel::Plate), marched.series(Channel::Pump));
    let back = BACK_MIN as usize;
    let at_back_k = f64::from(plate_k[back - 1]);
    let starts = (back..1440).find(|&minute| pump[minute] > 0.0);
    let into_k = starts.map(|minute| f64::from(plate_k[minute - 1]));
    let (kind, says) = match into_k {
        Some(into_k) if into_k > boils_k => (
            Kind::Mind,
            words!(
                "After a power cut from nine to two on the hottest day the pump starts with the sheet at {}; the fluid boils at {}: it pumps into steam, which hammers and throws hot fluid out",
                warm(into_k),
                warm(boils_k)
            ),
        ),
        Some(into_k) => (
            Kind::Quiet,
            words!(
                "After a power cut from nine to two on the hottest day the sheet stands at {}; the pump starts once it is at {}, and the fluid boils at {}",
                warm(at_back_k),
                warm(into_k),
                warm(boils_k)
            ),
        ),
        None => (
            Kind::Quiet,
            words!(
                "After a power cut from nine to two on the hottest day the sheet stands at {}, and the pump does not start again that day",
                warm(at_back_k)
            ),
        ),
    };
    let wait_k = (boils_k - IN_HAND_K - ZERO_CELSIUS_K).floor() + ZERO_CELSIUS_K;
    let waits = celsius_down(wait_k);
    let place = match build.control.rule {
        Rule::Differential(_) => "control.panel-limit",
        Rule::Thermostat(_) | Rule::Timer(_) => "control.panel-stop.above",
    };
    Ok(vec![
        Finding::new(About::Boils, "starts-into-steam", Station::Circuit, kind, says)
            .at(place)
            .mend(words!("Let the controller wait until the panel is below boiling"))
            .figures(vec![match into_k {
                Some(into_k) => Figure::against(
                    "sheet when the pump starts",
                    Measure::Temperature,
                    into_k,
                    Limit::at_most(boils_k, "boiling point at the panel’s outlet", Certainty::Seen),
                ),
                None => {
                    Figure::told("sheet when the mains is back", Measure::Temperature, at_back_k)
                }
            }])
            .remedies(vec![writing(
                words!("Set the panel’s limit to {}", warm(wait_k)),
                place,
                waits,
            )])
            .source(
                "Above 120 to 130 C at the panel the pump is not started (the trade)",
                Certainty::FromMemory,
            ),
    ])
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Given a dry sheet of 8 kJ/K at 150 C: 8000 times 50 over 2.257 MJ/kg are 177 g (by hand); at 90 C
    /// none.
    #[test]
    fn a_dry_sheet_flashes_by_its_heat() {
        assert!((flashed_kg(8000.0, 423.15) - 0.1772).abs() < 1e-4);
        assert_eq!(flashed_kg(8000.0, 363.15), 0.0);
    }
}
