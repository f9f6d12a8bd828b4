//! The circuit as JSON: flow, velocities, pressures, growth, electricity.

use anyhow::Result;
use physics::circuit::boiling::atmosphere_pa;
use physics::circuit::pressure::{Point, PointPressure};
use physics::circuit::survey::{Occasion, Survey, boiling_margin_k, contents, pressure_at, survey};
use physics::circuit::velocity::{TubePlace, TubeSpeed};
use physics::circuit::vessel::header_tank_m3;
use physics::matter::fluid::{Fluid, growth, properties};
use physics::{Build, ZERO_CELSIUS_K};
use schemars::JsonSchema;
use serde::Serialize;

use super::year::MonthWire;

/// Fluid temperature at which flow, velocities and pressures are given.
const WORK_C: f64 = 60.0;

/// Between these the growth is given: a filling in spring, and the end of the fluids' data.
const COLD_C: f64 = 10.0;
const HOT_C: f64 = 100.0;

/// The circuit with fluid of 60 C all round, and what its growth asks for.
#[derive(Clone, Debug, JsonSchema, Serialize)]
pub struct CircuitWire {
    /// What moves the fluid. By its own weight the flow is that of a bright hour: 500 W of heat from each
    /// square metre of panel, the return at 30 C.
    pub moved_by: MovedBy,
    /// Temperature of the fluid for flow, velocities and pressures.
    pub fluid_c: f64,
    /// Flow round the circuit.
    pub flow_l_min: f64,
    /// The head that moves it, in metres of the fluid.
    pub head_m: f64,
    /// Pressure lost round the circuit.
    pub drop_pa: f64,
    /// Velocity in every tube, in the order of the flow from the coil.
    pub tubes: Vec<TubeWire>,
    /// Pressure at each point, in the order of the flow from the coil.
    pub points: Vec<PressureWire>,
    /// What boils first: the panels' outlet.
    pub boiling: BoilingWire,
    /// What circuit, panels and coil hold.
    pub contents_l: f64,
    /// Growth of that from 10 to 100 C.
    pub growth_l: f64,
    /// Room a header tank needs: the growth, and the panels' contents pushed out by steam.
    pub room_l: f64,
    /// The pump's electricity against the heat it moves, over the year.
    pub electricity: ElectricityWire,
}

/// What moves the fluid.
#[derive(Clone, Copy, Debug, JsonSchema, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum MovedBy {
    /// A pump.
    Pump,
    /// What hot and cold fluid weigh.
    Weight,
}

/// One tube and what runs in it.
#[derive(Clone, Debug, JsonSchema, Serialize)]
pub struct TubeWire {
    /// Which tube: `return pipe`, `panel 1`, `flow pipe`, `coil`.
    pub tube: String,
    /// Bore.
    pub bore_mm: f64,
    /// Mean velocity.
    pub velocity_m_s: f64,
    /// Reynolds number.
    pub reynolds: f64,
}

/// One point of the circuit; pressures as a gauge shows them there.
#[derive(Clone, Debug, JsonSchema, Serialize)]
pub struct PressureWire {
    /// Which point.
    pub point: String,
    /// Height over the store's base.
    pub height_m: f64,
    /// Pressure while the pump runs.
    pub running_bar: f64,
    /// Pressure while it stands.
    pub resting_bar: f64,
}

/// How far the fluid at the panels' outlet is from boiling, the pump at rest.
#[derive(Clone, Copy, Debug, JsonSchema, Serialize)]
pub struct BoilingWire {
    /// Where it boils.
    pub boils_c: f64,
    /// That less the hottest the fluid outside the panels got in the year; null without a panel.
    pub margin_k: Option<f64>,
    /// That less the hottest the sheet got: below 0, fluid that stands in an idle panel boils; null
    /// without a panel.
    pub sheet_margin_k: Option<f64>,
}

/// The pump's electricity over the year.
#[derive(Clone, Copy, Debug, JsonSchema, Serialize)]
pub struct ElectricityWire {
    /// Drawn by the pump.
    pub pump_kwh: f64,
    /// That over the coil heat; null where no heat passed the coil.
    pub share_of_coil_heat: Option<f64>,
    /// Spared heat less the pump's electricity, one kilowatt-hour counted like the other.
    pub net_kwh: f64,
}

/// The circuit of a build with the year it had.
pub fn circuit(build: &Build, year: &MonthWire) -> Result<CircuitWire> {
    let altitude_m = build.sun.place.elevation_m;
    let (circuit, coil) = (&build.circuit, &build.store.coil);
    let occasion = Occasion { fluid_k: WORK_C + ZERO_CELSIUS_K, altitude_m };
    let looked = survey(circuit, &build.panel, coil, &occasion)?;
    let air_pa = atmosphere_pa(altitude_m)?;
    let held = contents(circuit, &build.panel, coil);
    let growth_share = growth(circuit.fluid, COLD_C + ZERO_CELSIUS_K, HOT_C + ZERO_CELSIUS_K)?;
    let outlet_pa =
        pressure_at(&looked.resting, Point::PanelOut).map_or(f64::NAN, |outlet| outlet.pressure_pa);
    // The margin under nothing is the boiling point itself.
    let boils_k = boiling_margin_k(circuit, outlet_pa, 0.0)?;
    let boils_c = boils_k - ZERO_CELSIUS_K;
    let moved_by = if circuit.pump.is_some() { MovedBy::Pump } else { MovedBy::Weight };
    let there = |point: Point| {
        moved_by == MovedBy::Pump || !matches!(point, Point::PumpIn | Point::PumpOut)
    };
    Ok(CircuitWire {
        moved_by,
        fluid_c: WORK_C,
        flow_l_min: litres_a_minute(&looked, circuit.fluid)?,
        head_m: looked.point.head_m,
        drop_pa: looked.point.drop_pa,
        tubes: looked.speeds.iter().map(TubeWire::from).collect(),
        points: looked
            .running
            .iter()
            .zip(&looked.resting)
            .filter(|(running, _)| there(running.point))
            .map(|(running, resting)| point(running, resting, air_pa))
            .collect(),
        boiling: BoilingWire {
            boils_c,
            margin_k: year.circuit_max_c.map(|hottest_c| boils_c - hottest_c),
            sheet_margin_k: year.plate_max_c.map(|hottest_c| boils_c - hottest_c),
        },
        contents_l: held.whole_m3() * 1e3,
        growth_l: growth_share * held.whole_m3() * 1e3,
        room_l: header_tank_m3(growth_share, held.whole_m3(), held.panels_m3) * 1e3,
        electricity: ElectricityWire {
            pump_kwh: year.pump_kwh,
            share_of_coil_heat: (year.coil_heat_kwh > 0.0)
                .then(|| year.pump_kwh / year.coil_heat_kwh),
            net_kwh: year.spared_heat_kwh - year.pump_kwh,
        },
    })
}

fn litres_a_minute(looked: &Survey, fluid: Fluid) -> Result<f64> {
    let density_kg_m3 = properties(fluid, looked.fluid_k)?.density_kg_m3;
    Ok(looked.point.flow_kg_s / density_kg_m3 * 60e3)
}

fn point(running: &PointPressure, resting: &PointPressure, air_pa: f64) -> PressureWire {
    let name = match running.point {
        Point::PumpIn => "pump inlet",
        Point::PumpOut => "pump outlet",
        Point::PanelIn => "panel inlet",
        Point::PanelOut => "panel outlet",
        Point::Highest => "highest point",
        Point::CoilIn => "coil inlet",
        Point::CoilOut => "coil outlet",
    };
    PressureWire {
        point: name.to_owned(),
        height_m: running.height_m,
        running_bar: (running.pressure_pa - air_pa) / 1e5,
        resting_bar: (resting.pressure_pa - air_pa) / 1e5,
    }
}

impl From<&TubeSpeed> for TubeWire {
    fn from(speed: &TubeSpeed) -> Self {
        let numbered = |name: &str, at: usize| match at {
            0 => name.to_owned(),
            _ => format!("{name}, stretch {}", at + 1),
        };
        TubeWire {
            tube: match speed.place {
                TubePlace::ReturnPipe(at) => numbered("return pipe", at),
                TubePlace::FlowPipe(at) => numbered("flow pipe", at),
                TubePlace::Panel(at) => format!("panel {}", at + 1),
                TubePlace::Coil => "coil".to_owned(),
            },
            bore_mm: speed.bore_m * 1e3,
            velocity_m_s: speed.velocity_m_s,
            reynolds: speed.reynolds,
        }
    }
}
