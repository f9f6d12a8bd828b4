//! What must fit round the whole circuit: flow within the pump's curve, velocities, pressures, room
//! for the fluid to grow.

use super::{Misfit, length, metric, report};
use crate::catalogue::materials;
use crate::problem::{Problem, Severity};
use crate::quantity::Kind;
use crate::resolve;
use crate::values::Values;
use crate::walk::Desk;
use physics::ZERO_CELSIUS_K;
use physics::circuit::boiling::atmosphere_pa;
use physics::circuit::pipe::static_pa;
use physics::circuit::pressure::Point;
use physics::circuit::pump::working_point;
use physics::circuit::survey::{
    Occasion, Survey, column_m, contents, pressure_at, suction_head_m, survey,
};
use physics::circuit::velocity::{
    AirCarry, COPPER_NOISE_M_S, CopperRule, TubePlace, air_carry, copper_limit_m_s,
};
use physics::circuit::vessel::{PRECHARGE_MARGIN_PA, VesselNeed, header_tank_m3, vessel};
use physics::circuit::{Circuit, CircuitError, Holding};
use physics::matter::fluid::{Fluid, growth};
use physics::panel::Bank;
use physics::store::Coil;

/// Temperatures at which the round is looked at \[K\]: cold and thick, at work, and hot.
const COLD_K: f64 = ZERO_CELSIUS_K + 10.0;
const WORK_K: f64 = ZERO_CELSIUS_K + 60.0;
const HOT_K: f64 = ZERO_CELSIUS_K + 95.0;

/// Between these the fluid grows: from a filling in spring to the end of the data.
const GROWTH_K: (f64, f64) = (ZERO_CELSIUS_K + 10.0, ZERO_CELSIUS_K + 100.0);

/// Suction head that a small circulator asks for at least \[m\] (common practice).
const LEAST_SUCTION_M: f64 = 0.5;

/// What is looked over: the parts of a build the fluid passes.
struct Round {
    circuit: Circuit,
    panels: Bank,
    coil: Coil,
    altitude_m: f64,
}

impl Round {
    fn of(values: &Values) -> Option<Round> {
        Some(Round {
            circuit: resolve::circuit::circuit(values)?,
            panels: resolve::panel::bank(values)?,
            coil: resolve::store::store(values)?.coil,
            altitude_m: values.si("sun.elevation").unwrap_or(0.0),
        })
    }

    fn survey(&self, fluid_k: f64) -> Option<Survey> {
        let occasion = Occasion { fluid_k, altitude_m: self.altitude_m };
        survey(&self.circuit, &self.panels, &self.coil, &occasion).ok()
    }
}

/// Looks at the whole round, where every part of it could be read.
pub(super) fn check(desk: &mut Desk, values: &Values) {
    for misfit in [measured(values), two_curves(values)].into_iter().flatten() {
        report(desk, values, misfit);
    }
    for pipe in ["circuit.flow-pipe", "circuit.return-pipe"] {
        let then = format!("{pipe}.then");
        let further = (0..values.members(&then)).map(|at| format!("{then}[{at}]"));
        for at in std::iter::once(pipe.to_owned()).chain(further) {
            if let Some(misfit) = hot_hose(values, &at) {
                report(desk, values, misfit);
            }
        }
    }
    if desk.problems.iter().any(Problem::is_fault) {
        return;
    }
    let Some(round) = Round::of(values) else { return };
    let misfits = [
        beyond_curve(&round),
        air_left(values, &round),
        fast(values, &round),
        low_tank(values, &round),
        drawn_down(&round),
        suction(&round),
        small_tank(&round),
        small_vessel(&round),
        small_coil(values, &round),
    ];
    for misfit in misfits.into_iter().flatten() {
        report(desk, values, misfit);
    }
}

/// A pump measured by gauge and bucket must give a curve.
fn measured(values: &Values) -> Option<Misfit> {
    let table = "circuit.pump.measured";
    values.table(table)?;
    let shut = |key: &str| values.si(&format!("{table}.{key}"));
    if shut("shut-head").is_some() == shut("shut-pressure").is_some() {
        let both = shut("shut-head").is_some();
        return Some(Misfit {
            code: if both { "two-heads" } else { "missing-key" },
            severity: Severity::Fault,
            place: format!("{table}.shut-head"),
            found: if both { "shut-head and shut-pressure" } else { "neither" }.to_owned(),
            expected: "shut-head or shut-pressure".to_owned(),
            says: "The pump's head at no flow must stand once, by hose or by gauge".to_owned(),
            hint: "raise the hose until nothing runs and write shut-head, or shut the outlet and write shut-pressure",
        });
    }
    let error = resolve::circuit::measured(values)?.err()?;
    Some(Misfit {
        code: "pump-measurement",
        severity: Severity::Fault,
        place: format!("{table}.flow"),
        found: error.to_string(),
        expected: "less head in the bucket's hose than at no flow".to_owned(),
        says: format!("The two measurements of the pump make no curve: {error}"),
        hint: "measure again with the same water level for both; lift counts from that level up to the hose's open end",
    })
}

fn two_curves(values: &Values) -> Option<Misfit> {
    let both =
        values.table("circuit.pump.measured").is_some() && values.members("circuit.pump.curve") > 0;
    both.then(|| Misfit {
        code: "two-curves",
        severity: Severity::Fault,
        place: "circuit.pump.measured".to_owned(),
        found: "a curve and two measurements".to_owned(),
        expected: "[[circuit.pump.curve]] or [circuit.pump.measured]".to_owned(),
        says: "The pump is described twice, by a curve and by two measurements".to_owned(),
        hint: "keep the one you trust more",
    })
}

/// The hot pipe and the pipe in the sun must stand what they get.
fn hot_hose(values: &Values, at: &str) -> Option<Misfit> {
    let place = format!("{at}.material");
    let material = materials::material(values.word(&place)?)?;
    if material.group != "pipe" {
        return None;
    }
    let stands_k = material.t_service_c? + ZERO_CELSIUS_K;
    // The return pipe is as warm as the store at most, the flow pipe as the panel may start.
    let limit = if at.starts_with("circuit.flow-pipe") {
        "control.panel-limit"
    } else {
        "control.store-limit"
    };
    let comes_k = values.si(limit)?;
    let show = |kelvin: f64| metric(Kind::Temperature, kelvin);
    (comes_k > stands_k).then(|| Misfit {
        code: "hose-too-hot",
        severity: Severity::Warning,
        place,
        found: format!("{}, good for {} held long", material.id, show(stands_k)),
        expected: format!("a pipe for {}, the {limit}", show(comes_k)),
        says: format!(
            "{} stands {} held long and may get {}",
            material.name,
            show(stands_k),
            show(comes_k)
        ),
        hint: "use copper here, at the least for the first metre from the panels, or a hose made for hot water; keep plastic pipe out of the sun",
    })
}

/// Nobody measured the pump beyond its curve's last point.
fn beyond_curve(round: &Round) -> Option<Misfit> {
    match working_point(&round.circuit, &round.panels, &round.coil, WORK_K) {
        Err(CircuitError::BeyondCurve { flow_m3_s, last_m3_s }) => {
            let (flow, last) = (metric(Kind::Flow, flow_m3_s), metric(Kind::Flow, last_m3_s));
            Some(Misfit {
                code: "pump-beyond-curve",
                severity: Severity::Fault,
                place: "circuit.pump".to_owned(),
                found: format!("{last} at the curve's end"),
                expected: format!("a curve that reaches {flow}"),
                says: format!(
                    "The round would take {flow} from a pump whose curve ends at {last}; beyond it nobody has measured"
                ),
                hint: "add a point with more flow and less head, or throttle the circuit with a valve and write its loss figure in fittings-k",
            })
        }
        _ => None,
    }
}

/// Where air cannot leave at the top it must be carried down.
fn air_left(values: &Values, round: &Round) -> Option<Misfit> {
    if values.word("circuit.air-vent")? == "fitted" {
        return None;
    }
    let cold = round.survey(COLD_K).or_else(|| round.survey(WORK_K))?;
    // The pipe that falls from the highest point: the flow pipe where the panels lie over the coil.
    let layout = &round.circuit.layout;
    let falls = |place: TubePlace| match place {
        TubePlace::FlowPipe(_) => layout.highest_m > round.coil.top_height_m,
        TubePlace::ReturnPipe(_) => layout.panel_bottom_m < round.coil.bottom_height_m,
        TubePlace::Panel(_) | TubePlace::Coil => false,
    };
    let slowest = cold
        .speeds
        .iter()
        .filter(|speed| falls(speed.place))
        .min_by(|a, b| a.velocity_m_s.total_cmp(&b.velocity_m_s))?;
    let carried = air_carry(slowest.bore_m, slowest.velocity_m_s).ok()?;
    let found = format!(
        "{} in a bore of {}",
        metric(Kind::Speed, slowest.velocity_m_s),
        length(slowest.bore_m)
    );
    let expected = metric(Kind::Speed, physics::circuit::velocity::CARRY_SOLAR_M_S);
    (carried != AirCarry::Carried).then(|| Misfit {
        code: "air-not-carried",
        severity: Severity::Warning,
        place: "circuit.air-vent".to_owned(),
        says: format!(
            "Cold fluid falls with {found}; air at the top is carried down for certain from {expected}, and no vent lets it out"
        ),
        found,
        expected: format!("{expected} or an air vent"),
        hint: "fit a cock or an open vent at the highest point and write air-vent = \"fitted\", or take a narrower pipe",
    })
}

/// Copper wears and is heard where water runs too fast.
fn fast(values: &Values, round: &Round) -> Option<Misfit> {
    let work = round.survey(WORK_K)?;
    let copper = |place: TubePlace| {
        let material = match place {
            TubePlace::FlowPipe(0) => "circuit.flow-pipe.material".to_owned(),
            TubePlace::FlowPipe(at) => format!("circuit.flow-pipe.then[{}].material", at - 1),
            TubePlace::ReturnPipe(0) => "circuit.return-pipe.material".to_owned(),
            TubePlace::ReturnPipe(at) => format!("circuit.return-pipe.then[{}].material", at - 1),
            TubePlace::Panel(_) => "panel.tubes.material".to_owned(),
            TubePlace::Coil => "store.coil.material".to_owned(),
        };
        (values.word(&material) == Some("copper")).then_some(material)
    };
    let (speed, material) = work
        .speeds
        .iter()
        .filter_map(|speed| Some((speed, copper(speed.place)?)))
        .max_by(|a, b| a.0.velocity_m_s.total_cmp(&b.0.velocity_m_s))?;
    let wears_m_s = copper_limit_m_s(CopperRule::British, WORK_K);
    let (runs, heard, wears) = (
        metric(Kind::Speed, speed.velocity_m_s),
        metric(Kind::Speed, COPPER_NOISE_M_S),
        metric(Kind::Speed, wears_m_s),
    );
    (speed.velocity_m_s > COPPER_NOISE_M_S).then(|| Misfit {
        code: "fast-in-copper",
        severity: Severity::Warning,
        place: material.trim_end_matches(".material").to_owned(),
        found: runs.clone(),
        expected: format!("at most {heard}"),
        says: format!(
            "At 60 C the fluid runs {runs} in copper tube: it is heard from {heard}, and codes stop at {wears}, where bends wear through"
        ),
        hint: "take a wider tube, more of them side by side, or a weaker pump",
    })
}

/// An open tank must stand over everything it keeps full.
fn low_tank(values: &Values, round: &Round) -> Option<Misfit> {
    let layout = &round.circuit.layout;
    let Holding::HeaderTank { level_m, .. } = layout.holding else { return None };
    let highest_m = layout.highest_m.max(layout.panel_top_m);
    let place = if values
        .entry("circuit.filling.water-level")
        .is_some_and(|entry| matches!(entry.origin, crate::origin::Origin::Written))
    {
        "circuit.filling.water-level"
    } else {
        "circuit.heights.highest"
    };
    (level_m <= highest_m).then(|| Misfit {
        code: "header-tank-low",
        severity: Severity::Warning,
        place: place.to_owned(),
        found: format!("water level at {}", length(level_m)),
        expected: format!("above {}, the circuit's highest point", length(highest_m)),
        says: format!(
            "The header tank's water stands at {} and the circuit reaches up to {}: its top cannot stay full",
            length(level_m),
            length(highest_m)
        ),
        hint: "raise the header tank, or lower the highest pipe",
    })
}

/// Air is drawn in wherever the running pump pulls the pressure below that of the air.
fn drawn_down(round: &Round) -> Option<Misfit> {
    let work = round.survey(WORK_K)?;
    let air_pa = atmosphere_pa(round.altitude_m).ok()?;
    let least = work.running.iter().min_by(|a, b| a.pressure_pa.total_cmp(&b.pressure_pa))?;
    // A tank below the circuit is told by itself.
    let still = pressure_at(&work.resting, least.point)?;
    if least.pressure_pa >= air_pa || still.pressure_pa < air_pa {
        return None;
    }
    let [runs, rests] = [least, &still].map(|one| metric(Kind::Pressure, one.pressure_pa - air_pa));
    Some(Misfit {
        code: "draws-air",
        severity: Severity::Warning,
        place: "circuit.filling.joins".to_owned(),
        found: format!("{runs} {} while the pump runs, {rests} at rest", place_words(least.point)),
        expected: "more than the air's pressure everywhere".to_owned(),
        says: format!(
            "While the pump runs the gauge shows {runs} {}, under the air's: vents and glands draw air in; at rest it shows {rests}",
            place_words(least.point)
        ),
        hint: "join the feed at the pump's inlet, let the pump push towards the panels, or raise the header tank",
    })
}

/// At the pump's inlet the fluid must stay clear of boiling.
fn suction(round: &Round) -> Option<Misfit> {
    let hot = round.survey(HOT_K)?;
    let inlet = pressure_at(&hot.running, Point::PumpIn)?;
    let head_m = suction_head_m(&round.circuit, inlet.pressure_pa, HOT_K).ok()?;
    let (left, least) = (metric(Kind::Head, head_m), metric(Kind::Head, LEAST_SUCTION_M));
    (head_m < LEAST_SUCTION_M).then(|| Misfit {
        code: "suction-low",
        severity: Severity::Warning,
        place: "circuit.heights.pump".to_owned(),
        found: format!("{left} over the vapour of fluid at 95 C"),
        expected: format!("{least} or more"),
        says: format!(
            "At the pump's inlet fluid of 95 C is {left} of head from boiling; small pumps ask for {least} and more"
        ),
        hint: "set the pump lower or in the cool pipe, join the feed at its inlet, or raise the pressure",
    })
}

fn place_words(point: Point) -> &'static str {
    match point {
        Point::PumpIn => "at the pump's inlet",
        Point::PumpOut => "at the pump's outlet",
        Point::PanelIn => "at the panels' inlet",
        Point::PanelOut => "at the panels' outlet",
        Point::Highest => "at the highest point",
        Point::CoilIn => "at the coil's inlet",
        Point::CoilOut => "at the coil's outlet",
    }
}

/// How much all the fluid grows, cold to hot, over its cold volume.
fn growth_share(fluid: Fluid) -> Option<f64> {
    growth(fluid, GROWTH_K.0, GROWTH_K.1).ok()
}

fn small_tank(round: &Round) -> Option<Misfit> {
    let Holding::HeaderTank { room_m3: Some(room_m3), .. } = round.circuit.layout.holding else {
        return None;
    };
    let held = contents(&round.circuit, &round.panels, &round.coil);
    let growth_share = growth_share(round.circuit.fluid)?;
    // A panel that boils pushes its contents up the feed.
    let need_m3 = header_tank_m3(growth_share, held.whole_m3(), held.panels_m3);
    let (room, need) = (metric(Kind::Volume, room_m3), metric(Kind::Volume, need_m3));
    (room_m3 < need_m3).then(|| Misfit {
        code: "header-tank-small",
        severity: Severity::Warning,
        place: "circuit.filling.room".to_owned(),
        found: room.clone(),
        expected: format!("at least {need}"),
        says: format!(
            "The header tank has room for {room}; from 10 to 100 C, with the panels' contents pushed out by steam, {need} come up"
        ),
        hint: "set the cold water level lower, or take a larger tank",
    })
}

fn small_vessel(round: &Round) -> Option<Misfit> {
    let layout = &round.circuit.layout;
    let Holding::Vessel { volume_m3, relief_pa, .. } = layout.holding else { return None };
    let held = contents(&round.circuit, &round.panels, &round.coil);
    let need = VesselNeed {
        contents_m3: held.whole_m3(),
        growth_share: growth_share(round.circuit.fluid)?,
        steam_m3: held.panels_m3,
        column_pa: static_pa(1000.0, column_m(layout)),
        margin_pa: PRECHARGE_MARGIN_PA,
        relief_pa,
    };
    let misfit = |found: String, expected: String, says: String| Misfit {
        code: "vessel-small",
        severity: Severity::Warning,
        place: "circuit.filling.vessel".to_owned(),
        found,
        expected,
        says,
        hint: "take the next larger vessel, or a relief valve that opens later where every part stands it",
    };
    let has = metric(Kind::Volume, volume_m3);
    match vessel(&need) {
        Ok(needed) if needed.vessel_m3 <= volume_m3 => None,
        Ok(needed) => {
            let least = metric(Kind::Volume, needed.vessel_m3);
            Some(misfit(
                has.clone(),
                format!("at least {least}"),
                format!(
                    "The vessel holds {has}; growth, reserve and steam from the panels want {least} (common practice)"
                ),
            ))
        }
        Err(error) => {
            Some(misfit(has, "a relief valve above the charge".to_owned(), error.to_string()))
        }
    }
}

/// A bare coil has a fifth of the panels' area by rule of thumb, and not less than half of that.
fn small_coil(values: &Values, round: &Round) -> Option<Misfit> {
    if round.coil.fins.is_some() {
        return None;
    }
    let coil_m2 = std::f64::consts::PI * round.coil.tube.outside_m * round.coil.length_m;
    let panels_m2 = round.panels.area_m2();
    let (least, usual) = (LEAST_COIL_SHARE * panels_m2, USUAL_COIL_SHARE * panels_m2);
    values.si("store.coil.length")?;
    let [has, least_words, usual_words] = [coil_m2, least, usual].map(|m2| metric(Kind::Area, m2));
    (coil_m2 < least).then(|| Misfit {
        code: "coil-small",
        severity: Severity::Note,
        place: "store.coil.length".to_owned(),
        found: has.clone(),
        expected: format!("{least_words} or more"),
        says: format!(
            "The coil has {has} of outside; by rule of thumb these panels want {usual_words}, and {least_words} at the least"
        ),
        hint: "a longer coil; the year reckons with the one you have",
    })
}

/// Bare tube in the store for each square metre of sheet: the rule's least and usual share.
const LEAST_COIL_SHARE: f64 = 0.15;
const USUAL_COIL_SHARE: f64 = 0.2;

#[cfg(test)]
mod tests {
    use super::*;

    /// The rule of thumb is that of case C-16, exactly as it is printed.
    #[test]
    fn the_coil_rule_is_the_practice_texts() {
        let path = concat!(env!("CARGO_MANIFEST_DIR"), "/../../reference/hydraulics-checks.toml");
        let text = std::fs::read_to_string(path).expect("the reference file stands");
        let file: toml::Table = toml::from_str(&text).expect("TOML");
        let cases = file["check"].as_array().expect("cases");
        let case = cases.iter().find(|case| case["id"].as_str() == Some("C-16")).expect("the case");
        assert_eq!(case["expected"]["low"]["value"].as_float(), Some(LEAST_COIL_SHARE));
        assert_eq!(case["expected"]["typical"]["value"].as_float(), Some(USUAL_COIL_SHARE));
    }
}
