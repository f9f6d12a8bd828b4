//! What runs in the circuit against the water that is drunk; and whom to ask before building.

use design::quantity::Kind as Measure;
use physics::GRAVITY_M_S2;
use physics::circuit::boiling::atmosphere_pa;
use physics::circuit::jet::jet_m3_s;
use physics::circuit::pressure::Point;
use physics::circuit::survey::{FILL_K, Occasion, Survey, contents, pressure_at, survey};
use physics::matter::fluid::{Fluid, properties};

use super::case::{Case, put};
use super::finding::{About, Certainty, Figure, Finding, Kind, Limit, Remedy, Station};
use super::words::{Value, lasting, of, words};
use crate::AdviceError;

/// A pinhole in the coil's wall \[m\] (judgement: a pit that green water eats).
const PINHOLE_M: f64 = 0.0005;
/// Least dose of ethylene glycol known to have killed, by body weight \[kg/kg\] (poison pages, weak).
const LETHAL_KG_KG: f64 = 786e-6;
/// A child of two years \[kg\] (common practice).
const CHILD_KG: f64 = 12.0;
const CATEGORY: &str = "Schedule 1 names ethylene glycol in category 3, one revision page any antifreeze in 4; EN 1717 asks a double wall above 3. Sources disagree, the stricter is taken: ask your water supplier (UK)";

/// A hole in the single wall of the coil: which way it leaks, how fast, how much.
pub(super) fn pinhole(case: &Case) -> Result<Vec<Finding>, AdviceError> {
    let build = &case.year.build;
    if build.panel.panels.is_empty() {
        return Ok(Vec::new());
    }
    let occasion = Occasion { fluid_k: FILL_K, altitude_m: case.altitude_m() };
    let found = survey(&build.circuit, &build.panel, &build.store.coil, &occasion)
        .map_err(AdviceError::circuit)?;
    let over = Over::of(case, &found)?;
    let fluid = build.circuit.fluid;
    let density_kg_m3 = properties(fluid, FILL_K).map_err(AdviceError::circuit)?.density_kg_m3;
    let flow_m3_s =
        jet_m3_s(PINHOLE_M, over.most_pa().abs(), density_kg_m3).map_err(AdviceError::circuit)?;
    let held_m3 = contents(&build.circuit, &build.panel, &build.store.coil).whole_m3();
    let share = match fluid {
        Fluid::Water => 0.0,
        Fluid::PropyleneGlycol { mass_share } | Fluid::EthyleneGlycol { mass_share } => mass_share,
    };
    let in_store_kg_m3 = share * density_kg_m3 * held_m3 / build.store.volume_m3;
    let lethal_m3 = LETHAL_KG_KG * CHILD_KG / in_store_kg_m3.max(1e-9);
    let way: Value = if over.least_pa() > 0.0 {
        words!("the circuit presses outwards everywhere in the coil, by {} to {}: its fluid goes into the store", of(Measure::Pressure, over.least_pa()), of(Measure::Pressure, over.most_pa())).into()
    } else if over.most_pa() < 0.0 {
        words!("the store presses inwards everywhere, by up to {}: its water thins the fluid, and the level rises", of(Measure::Pressure, -over.least_pa())).into()
    } else {
        words!(
            "the circuit presses outwards in one place and inwards in another, by up to {}",
            of(Measure::Pressure, over.most_pa().max(-over.least_pa()))
        )
        .into()
    };
    let rate = words!(
        "Through a pinhole of {} {} an hour; the whole {} is gone in {}",
        of(Measure::Length, PINHOLE_M),
        of(Measure::Volume, 3600.0 * flow_m3_s),
        of(Measure::Volume, held_m3),
        lasting(held_m3 / flow_m3_s.max(1e-12))
    );
    let (kind, says, mend, remedies) = match fluid {
        Fluid::EthyleneGlycol { .. } => (
            Kind::Stop,
            words!(
                "Ethylene glycol is a poison, and one wall of tube parts it from water that comes to the taps: {}. {}; the store then holds {} g a litre, and {} of it can kill a small child",
                way,
                rate,
                Value::Number(in_store_kg_m3, 0),
                of(Measure::Volume, lethal_m3)
            ),
            words!(
                "Take food-grade propylene glycol, or drain the circuit in winter. Whoever drank it needs an ambulance at once"
            ),
            vec![Remedy::new(
                words!("Fill with propylene glycol"),
                vec![put("circuit.fluid", "propylene-glycol")],
            )],
        ),
        Fluid::PropyleneGlycol { .. } => (
            Kind::Mind,
            words!(
                "One wall of tube parts the antifreeze from the water: {}. {}; the store then holds {} g of propylene glycol a litre, which is of low toxicity; what keeps metal from rusting in it need not be",
                way,
                rate,
                Value::Number(in_store_kg_m3, 0)
            ),
            words!(
                "Only fluid made for heating beside drinking water, its inhibitor too; none for engines; coloured so that a leak shows at the tap; watch the header tank’s level or the gauge; keep soldered joints out of the water; ask your water supplier about the fluid’s category"
            ),
            Vec::new(),
        ),
        Fluid::Water => (
            Kind::Quiet,
            words!(
                "Plain water runs in the coil, and one wall parts it from the store: {}. {}",
                way,
                rate
            ),
            words!("Green or black circuit water does not belong in a tap either: watch the level"),
            Vec::new(),
        ),
    };
    Ok(vec![
        Finding::new(About::Poison, "pinhole-in-coil", Station::Store, kind, says)
            .at("circuit.fluid")
            .mend(mend)
            .figures(vec![
                Figure::against(
                    "walls between antifreeze and water",
                    Measure::Number,
                    1.0,
                    Limit::at_least(walls_asked(fluid), CATEGORY, Certainty::FromMemory),
                ),
                Figure::told(
                    "least pressure of the circuit over the store’s",
                    Measure::Pressure,
                    over.least_pa(),
                ),
                Figure::told(
                    "most pressure of the circuit over the store’s",
                    Measure::Pressure,
                    over.most_pa(),
                ),
                Figure::told("through the pinhole", Measure::Flow, flow_m3_s),
            ])
            .remedies(remedies)
            .source(CATEGORY, Certainty::Seen),
    ])
}

/// Walls that the stricter reading asks between a fluid and drinking water.
fn walls_asked(fluid: Fluid) -> f64 {
    if matches!(fluid, Fluid::Water) { 1.0 } else { 2.0 }
}

/// Pressure inside the coil less that of the water around it \[Pa\], at its ends, running and at rest.
struct Over(Vec<f64>);

impl Over {
    fn of(case: &Case, found: &Survey) -> Result<Over, AdviceError> {
        let air_pa = atmosphere_pa(case.altitude_m()).map_err(AdviceError::circuit)?;
        let water_kg_m3 =
            properties(Fluid::Water, FILL_K).map_err(AdviceError::circuit)?.density_kg_m3;
        let depth_m = case.year.build.store.water_depth_m;
        let outside_pa =
            |height_m: f64| air_pa + water_kg_m3 * GRAVITY_M_S2 * (depth_m - height_m).max(0.0);
        let ends = [&found.running, &found.resting].into_iter().flat_map(|points| {
            [Point::CoilIn, Point::CoilOut]
                .into_iter()
                .filter_map(|point| pressure_at(points, point))
        });
        Ok(Over(ends.map(|end| end.pressure_pa - outside_pa(end.height_m)).collect()))
    }

    fn least_pa(&self) -> f64 {
        self.0.iter().copied().fold(f64::INFINITY, f64::min)
    }

    fn most_pa(&self) -> f64 {
        self.0.iter().copied().fold(f64::NEG_INFINITY, f64::max)
    }
}

/// Whom to ask or to notify, in general terms.
pub(super) fn papers(case: &Case) -> Result<Vec<Finding>, AdviceError> {
    if case.year.build.panel.panels.is_empty() {
        return Ok(Vec::new());
    }
    let ask = |code: &'static str, station: Station, says, source: &'static str| {
        Finding::new(About::Poison, code, station, Kind::Quiet, says)
            .source(source, Certainty::Seen)
    };
    let mut all = vec![
        ask(
            "ask-water-supplier",
            Station::Store,
            words!("A new or changed cistern, and antifreeze beside drinking water, are matters for your water supplier, asked before the work (in the UK some of it must be notified). The circuit’s vent ends over its own small tank, never over water that is drunk"),
            "Water regulations, notices and schedule 2 paragraph 20 (UK)",
        )
        .at("store"),
        ask(
            "ask-building-control",
            Station::Panel,
            words!("Roof load, a panel that stands over {} off the slope or above the ridge, and listed buildings are matters for building control and planning (England’s figures; other countries have theirs)", of(Measure::Length, 0.2)),
            "Permitted development, by a council’s page (England)",
        )
        .at("panel"),
        ask(
            "neighbours",
            Station::Panel,
            words!("Neighbours meet the pane’s glare when the sun stands as steep as it is tilted, the discharge, and falling glass: keep the ground below a pane of plain glass free"),
            "Common practice",
        )
        .at("panel.cover"),
    ];
    if case.year.build.circuit.pump.is_some() {
        all.push(
        ask(
            "ask-electrician-and-insurer",
            Station::Circuit,
            words!("The pump’s supply, earth and its residual-current device of 30 mA at most are for a licensed electrician; tell the house’s insurer what hangs on the roof and what was soldered in the loft"),
            "BS 7671, by trade pages (UK)",
        )
        .at("circuit.pump"),
        );
    }
    Ok(all)
}
