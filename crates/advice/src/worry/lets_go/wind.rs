//! The wind lifts it: gusts against the screws, by the codes' screening.

use design::quantity::Kind as Measure;
use design::{Edit, EditValue, Mount, MountedOn};
use physics::Angle;
use physics::making::screw::{Screws, TimberFactors, pull_out};
use physics::making::wind::{Uplift, WindSite, design_uplift_n, peak_wind, wind_force_n};
use physics::panel::mass::gross_area_m2;

use super::weighed;
use crate::AdviceError;
use crate::worry::case::Case;
use crate::worry::finding::{About, Certainty, Figure, Finding, Kind, Limit, Remedy, Station};
use crate::worry::words::{Words, count, of, words};

/// Partial factor on wind (EN 1990, table A1.2).
const WIND_FACTOR: f64 = 1.5;
/// Partial factor on weight that helps (EN 1990, table A1.2(A)).
const WEIGHT_FACTOR: f64 = 0.9;
/// More screws than this in one panel are no answer.
const MOST_FIXINGS: u32 = 60;

const CODES: &str = "EN 1991-1-4 for the gusts, EN 1990 for the factors, EN 1995-1-1 for the screws (from memory, its form also seen): a screening; the national annex, building control and a licensed engineer decide";

/// The wind's pull on one panel against what its screws hold.
pub(in crate::worry) fn look(case: &Case) -> Result<Vec<Finding>, AdviceError> {
    let Some(panel) = case.panel() else { return Ok(Vec::new()) };
    let area_m2 = gross_area_m2(panel);
    // A panel of unknown mass is taken to weigh nothing: weight helps here.
    let dry_kg = weighed(case)?.map_or(0.0, |weighed| weighed.dry_kg);
    let mount = case.subject.design.mount.clone().unwrap_or_default();
    let (Some(height_m), Some(terrain), Some(basic_speed_m_s)) =
        (mount.height_m, mount.terrain, mount.basic_wind_m_s)
    else {
        return Ok(vec![no_wind(&mount, dry_kg, area_m2)]);
    };
    let site = WindSite { basic_speed_m_s, height_m, terrain };
    let peak_pa = peak_wind(&site).map_err(AdviceError::panel)?.peak_pressure_pa;
    let Some(net_coefficient) = mount.net_coefficient else {
        return Ok(vec![no_coefficient(peak_pa, dry_kg)]);
    };
    let along_n = wind_force_n(peak_pa, net_coefficient, area_m2).map_err(AdviceError::panel)?;
    let uplift = Uplift {
        wind_n: -along_n,
        mass_kg: dry_kg,
        pitch: pitch(case, &mount),
        wind_factor: WIND_FACTOR,
        weight_factor: WEIGHT_FACTOR,
    };
    let pull = Pull {
        peak_pa,
        wind_n: -along_n,
        design_n: design_uplift_n(&uplift).map_err(AdviceError::panel)?,
    };
    if net_coefficient >= 0.0 {
        return Ok(vec![presses(peak_pa, net_coefficient)]);
    }
    if pull.design_n <= 0.0 {
        return Ok(vec![held_by_weight(&pull)]);
    }
    match (mount.on, mount.screw_m.zip(mount.screw_depth_m)) {
        (Some(MountedOn::Ground), _) | (_, None) => Ok(vec![no_screws(&pull, &mount)]),
        (_, Some((diameter_m, embedded_m))) => {
            let screws = Screws {
                diameter_m,
                embedded_m,
                timber_kg_m3: mount.timber_kg_m3,
                to_grain: Angle::from_degrees(90.0),
                number: 1,
            };
            Ok(vec![screwed(&pull, &screws, mount.fixings)?])
        }
    }
}

/// The wind on one panel.
struct Pull {
    /// Peak velocity pressure, characteristic \[Pa\].
    peak_pa: f64,
    /// Off the roof, characteristic \[N\].
    wind_n: f64,
    /// What the fixings must hold, design \[N\].
    design_n: f64,
}

/// A wall's panel hangs upright, whatever its own slope: no weight holds it on.
fn pitch(case: &Case, mount: &Mount) -> Angle {
    match mount.on {
        Some(MountedOn::Wall) => Angle::from_degrees(90.0),
        _ => case.year.build.sun.plane.tilt,
    }
}

fn finding(kind: Kind, says: Words) -> Finding {
    Finding::new(About::LetsGo, "wind-lifts", Station::Panel, kind, says)
        .source(CODES, Certainty::FromMemory)
}

fn no_wind(mount: &Mount, dry_kg: f64, area_m2: f64) -> Finding {
    let unsaid: Vec<&str> = [
        ("how windy the place is", mount.basic_wind_m_s.is_none()),
        ("how high the panel hangs", mount.height_m.is_none()),
        ("what the wind comes over", mount.terrain.is_none()),
    ]
    .into_iter()
    .filter_map(|(what, is_unsaid)| is_unsaid.then_some(what))
    .collect();
    finding(
        Kind::Mind,
        words!(
            "Nobody said {}, so no pull of the wind is told; wind and not weight decides the fixings: an empty panel of {} weighs {}",
            unsaid.join(", nor "),
            of(Measure::Area, area_m2),
            of(Measure::Mass, dry_kg)
        ),
    )
    .at(first_unsaid(mount))
    .mend(words!(
        "Ask building control for the place’s basic wind speed, and write it under [panel.mount] with the panel’s height and the terrain; exposed sites see {} to {} of uplift (from memory)",
        of(Measure::Pressure, 1000.0),
        of(Measure::Pressure, 2000.0)
    ))
    .figures(vec![Figure::told("one panel, empty", Measure::Mass, dry_kg)])
}

fn first_unsaid(mount: &Mount) -> &'static str {
    match (mount.basic_wind_m_s, mount.height_m) {
        (None, _) => "panel.mount.basic-wind",
        (_, None) => "panel.mount.height",
        _ => "panel.mount.terrain",
    }
}

fn no_coefficient(peak_pa: f64, dry_kg: f64) -> Finding {
    finding(
        Kind::Mind,
        words!(
            "Gusts press with up to {} (characteristic, once in 50 years); how much of it lifts a panel mounted so is not known here, so no number of fixings is told",
            of(Measure::Pressure, peak_pa)
        ),
    )
    .at("panel.mount.net-coefficient")
    .mend(words!(
        "Have the net pressure coefficient of this mounting from the national rule or an engineer; what holds for the bare roof does not hold for a panel that stands off it"
    ))
    .figures(vec![
        Figure::told("peak pressure of the gusts", Measure::Pressure, peak_pa),
        Figure::told("one panel, empty", Measure::Mass, dry_kg),
    ])
}

fn presses(peak_pa: f64, net_coefficient: f64) -> Finding {
    finding(
        Kind::Mind,
        words!(
            "Gusts press with up to {}, and a net coefficient of {} presses the panel onto the roof: whether another wind lifts it is not said",
            of(Measure::Pressure, peak_pa),
            crate::worry::Value::Number(net_coefficient, 1)
        ),
    )
    .at("panel.mount.net-coefficient")
    .mend(words!("Write the coefficient of the wind that lifts, with a minus sign"))
    .figures(vec![Figure::told("peak pressure of the gusts", Measure::Pressure, peak_pa)])
}

fn held_by_weight(pull: &Pull) -> Finding {
    finding(
        Kind::Quiet,
        words!(
            "Gusts of {} pull at one panel with {}; by the code’s factors its weight exceeds that by {}",
            of(Measure::Pressure, pull.peak_pa),
            of(Measure::Force, pull.wind_n.max(0.0)),
            of(Measure::Force, -pull.design_n)
        ),
    )
    .at("panel.mount.net-coefficient")
    .figures(vec![Figure::against(
        "design pull on one panel’s fixings",
        Measure::Force,
        pull.design_n,
        Limit::at_most(0.0, "EN 1990, loss of equilibrium", Certainty::Seen),
    )])
}

fn no_screws(pull: &Pull, mount: &Mount) -> Finding {
    let place = match mount.screw_m {
        None => "panel.mount.screw",
        Some(_) => "panel.mount.screw-depth",
    };
    let mend = match mount.on {
        Some(MountedOn::Ground) => words!(
            "Hold it to the ground with that force, and against tipping, which a frame does before it lifts"
        ),
        _ => {
            words!("Write the screws’ thread, its depth in the rafter, and how many hold one panel")
        }
    };
    finding(
        Kind::Mind,
        words!(
            "Gusts of {} pull at one panel with {} (characteristic); with the code’s factors, less its weight, what holds it must bear {}, and nobody said what does",
            of(Measure::Pressure, pull.peak_pa),
            of(Measure::Force, pull.wind_n),
            of(Measure::Force, pull.design_n)
        ),
    )
    .at(place)
    .mend(mend)
    .figures(vec![Figure::told(
        "design pull on one panel’s fixings",
        Measure::Force,
        pull.design_n,
    )])
}

fn screwed(pull: &Pull, one: &Screws, fixings: Option<u32>) -> Result<Finding, AdviceError> {
    let holds_n = |number: u32| -> Result<f64, AdviceError> {
        let screws = Screws { number, ..*one };
        Ok(pull_out(&screws, &TimberFactors::WIND).map_err(AdviceError::panel)?.design_n)
    };
    if !one.deep_enough() {
        return Ok(shallow(pull, one));
    }
    let mut needed = None;
    for number in 1..=MOST_FIXINGS {
        if holds_n(number)? >= pull.design_n {
            needed = Some(number);
            break;
        }
    }
    let Some(number) = fixings else {
        return Ok(uncounted(pull, holds_n(1)?, needed));
    };
    let holds_n = holds_n(number)?;
    let kind = if pull.design_n > holds_n { Kind::Stop } else { Kind::Quiet };
    let remedies = needed.into_iter().map(|needed| {
        let edit = Edit {
            place: "panel.mount.fixings".to_owned(),
            value: EditValue::Whole(needed.into()),
        };
        Remedy::new(words!("Hold it by {} screws", count(needed.into())), vec![edit])
    });
    Ok(finding(
        kind,
        words!(
            "Gusts of {} pull at one panel with {} (characteristic); with the code’s factors, less its weight, its fixings must hold {}, and {} screws hold {} against being pulled out, the screws alone: brackets and rafters are not looked at",
            of(Measure::Pressure, pull.peak_pa),
            of(Measure::Force, pull.wind_n),
            of(Measure::Force, pull.design_n),
            count(number.into()),
            of(Measure::Force, holds_n)
        ),
    )
    .at("panel.mount.fixings")
    .mend(match kind {
        Kind::Quiet => words!(""),
        _ => words!(
            "Screw it down more often or deeper, into rafters and never into battens, and have the brackets and the rafters looked at"
        ),
    })
    .figures(vec![
        Figure::against(
            "design pull on one panel’s fixings",
            Measure::Force,
            pull.design_n,
            Limit::at_most(
                holds_n,
                "EN 1995-1-1, screws pulled out of the rafter, design",
                Certainty::FromMemory,
            ),
        ),
        Figure::told("pull on each", Measure::Force, pull.design_n / f64::from(number)),
    ])
    .remedies(remedies.collect()))
}

fn uncounted(pull: &Pull, one_n: f64, needed: Option<u32>) -> Finding {
    let number: Words = match needed {
        Some(needed) => words!("{} of them would do", count(needed.into())),
        None => words!("not even {} of them would do", count(MOST_FIXINGS.into())),
    };
    finding(
        Kind::Mind,
        words!(
            "What holds one panel must bear {} by the code’s factors; one such screw holds {}, {}, and nobody said how many there are",
            of(Measure::Force, pull.design_n),
            of(Measure::Force, one_n),
            number
        ),
    )
    .at("panel.mount.fixings")
    .mend(words!("Count the screws that go into rafters"))
    .figures(vec![
        Figure::told("design pull on one panel’s fixings", Measure::Force, pull.design_n),
        Figure::told("one screw holds, design", Measure::Force, one_n),
    ])
}

fn shallow(pull: &Pull, one: &Screws) -> Finding {
    let least_m = 6.0 * one.diameter_m;
    let deeper = Edit {
        place: "panel.mount.screw-depth".to_owned(),
        value: EditValue::Text(format!("{:.0} mm", (1000.0 * least_m).ceil())),
    };
    finding(
        Kind::Stop,
        words!(
            "The screws reach {} into the rafter; under {}, six times their thread, the code counts them for nothing, and {} pull at one panel’s fixings",
            of(Measure::Length, one.embedded_m),
            of(Measure::Length, least_m),
            of(Measure::Force, pull.design_n)
        ),
    )
    .at("panel.mount.screw-depth")
    .mend(words!("Take longer screws"))
    .figures(vec![
        Figure::against(
            "thread in the rafter",
            Measure::Length,
            one.embedded_m,
            Limit::at_least(least_m, "EN 1995-1-1, clause 8.7.2(3)", Certainty::FromMemory),
        ),
        Figure::told("design pull on one panel’s fixings", Measure::Force, pull.design_n),
    ])
    .remedies(vec![Remedy::new(
        words!("Take screws that reach {} into the rafter", of(Measure::Length, least_m)),
        vec![deeper],
    )])
}
