//! A build's circuit looked over at one temperature: flow, velocities, pressures, contents.

use super::bank::bank_path;
use super::boiling::{atmosphere_pa, boil_at};
use super::error::CircuitError;
use super::friction::FrictionMethod;
use super::network::Medium;
use super::parts::{Circuit, Holding, Layout};
use super::pipe::contents_m3;
use super::pressure::{Point, PointPressure, Round, joint_m, open_joint_pa, pressures};
use super::pump::{WorkingPoint, coil_path, flow_pipe_path, return_pipe_path, working_point_of};
use super::velocity::{TubeSpeed, tube_speeds};
use super::vessel::{SealedFill, sealed_state};
use crate::matter::fluid::{FluidProperties, properties, vapour_pressure_pa};
use crate::panel::{Bank, Panel, Passage, TubePattern};
use crate::store::{Coil, CoilDirection};
use crate::{GRAVITY_M_S2, ZERO_CELSIUS_K};

/// What a circuit does at one temperature.
#[derive(Clone, Debug, PartialEq)]
pub struct Survey {
    /// Temperature of the fluid, one all round, absolute \[K\].
    pub fluid_k: f64,
    /// Flow, head and losses.
    pub point: WorkingPoint,
    /// Velocity in every tube, in the order of the flow from the coil.
    pub speeds: Vec<TubeSpeed>,
    /// Pressures while the pump runs, in the order of the flow from the coil.
    pub running: Vec<PointPressure>,
    /// Pressures while it stands.
    pub resting: Vec<PointPressure>,
}

/// Where and how warm a circuit is looked over.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Occasion {
    /// Temperature of the fluid, one all round, absolute \[K\].
    pub fluid_k: f64,
    /// Of the place, for the pressure of its air \[m\].
    pub altitude_m: f64,
}

/// Temperature at which a sealed circuit is filled, and at which its vessel's gas stays \[K\].
pub const FILL_K: f64 = ZERO_CELSIUS_K + 20.0;

/// Looks a circuit over.
///
/// - `circuit`, `panels`, `coil`: of a build, with a panel or more.
/// - `occasion`: the fluid's temperature and the altitude.
///
/// # Valid range
/// As [`properties`] and [`pressures`]; the pump's curve beyond its last point is extended by its
/// last line: see [`super::pump::working_point`] for who refuses that.
///
/// # Checked
/// Its parts by G-15 and G-16, B-AV and D-22.
pub fn survey(
    circuit: &Circuit,
    panels: &Bank,
    coil: &Coil,
    occasion: &Occasion,
) -> Result<Survey, CircuitError> {
    let fluid = properties(circuit.fluid, occasion.fluid_k)?;
    let medium = Medium { fluid, method: FrictionMethod::Churchill1977 };
    let point = working_point_of(circuit, panels, coil, &fluid)?;
    let flow_kg_s = point.flow_kg_s;
    let rest = Round {
        density_kg_m3: fluid.density_kg_m3,
        pump_pa: 0.0,
        return_pipe_pa: 0.0,
        panel_pa: 0.0,
        flow_pipe_pa: 0.0,
        coil_pa: 0.0,
        coil_m: coil_ends_m(coil),
        joint_pa: holding_pa(circuit, panels, coil, occasion)?,
    };
    let running = match circuit.pump {
        Some(_) => Round {
            pump_pa: fluid.density_kg_m3 * GRAVITY_M_S2 * point.head_m,
            return_pipe_pa: return_pipe_path(circuit).drop_pa(flow_kg_s, &medium)?,
            panel_pa: bank_path(panels)?.drop_pa(flow_kg_s, &medium)?,
            flow_pipe_pa: flow_pipe_path(circuit).drop_pa(flow_kg_s, &medium)?,
            coil_pa: coil_path(coil).drop_pa(flow_kg_s, &medium)?,
            ..rest
        },
        // Weights drive it all along the way, and friction takes it up there again: a few
        // hundredths of a metre, and nowhere more than that from the pressures at rest.
        None => rest,
    };
    Ok(Survey {
        fluid_k: occasion.fluid_k,
        point,
        speeds: tube_speeds(circuit, panels, coil, (flow_kg_s, &medium))?,
        running: pressures(&circuit.layout, &running)?,
        resting: pressures(&circuit.layout, &rest)?,
    })
}

/// Pressure at one point of a list that has it.
pub fn pressure_at(points: &[PointPressure], point: Point) -> Option<PointPressure> {
    points.iter().copied().find(|one| one.point == point)
}

/// Margin of the hottest fluid under its boiling point there \[K\]; negative where it boils.
///
/// - `hottest_k`: absolute \[K\].
///
/// # Valid range
/// As [`boil_at`].
pub fn boiling_margin_k(
    circuit: &Circuit,
    pressure_pa: f64,
    hottest_k: f64,
) -> Result<f64, CircuitError> {
    Ok(boil_at(circuit.fluid, pressure_pa)?.boils_k - hottest_k)
}

/// Suction head left at the pump's inlet over the fluid's own vapour \[m\].
///
/// ```text
/// NPSH = (p - pvapour)/(rho g)
/// ```
///
/// - `inlet_pa`: absolute pressure at the inlet \[Pa\].
/// - `fluid_k`: temperature there, absolute \[K\].
///
/// Circulators ask for half a metre to three, more when hot (common practice); the maker's sheet
/// says how much.
///
/// # Source
/// The definition of net positive suction head, without the velocity's part.
///
/// # Valid range
/// As [`properties`] and [`vapour_pressure_pa`].
pub fn suction_head_m(circuit: &Circuit, inlet_pa: f64, fluid_k: f64) -> Result<f64, CircuitError> {
    let density_kg_m3 = properties(circuit.fluid, fluid_k)?.density_kg_m3;
    let vapour_pa = vapour_pressure_pa(circuit.fluid, fluid_k)?;
    Ok((inlet_pa - vapour_pa) / (density_kg_m3 * GRAVITY_M_S2))
}

/// What each part of a circuit holds \[m3\].
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Contents {
    /// All panels: tubes, and a harp's headers; and the pipes between them.
    pub panels_m3: f64,
    /// The flow pipe.
    pub flow_pipe_m3: f64,
    /// The return pipe.
    pub return_pipe_m3: f64,
    /// The coil.
    pub coil_m3: f64,
}

impl Contents {
    /// All together \[m3\].
    pub fn whole_m3(&self) -> f64 {
        self.panels_m3 + self.flow_pipe_m3 + self.return_pipe_m3 + self.coil_m3
    }
}

/// What each part of a circuit holds; pump, fittings and vessel not counted.
pub fn contents(circuit: &Circuit, panels: &Bank, coil: &Coil) -> Contents {
    Contents {
        panels_m3: panels.panels.iter().map(panel_contents_m3).sum::<f64>()
            + panels.link_pipes().iter().map(|&link| contents_m3(&panels.links[link])).sum::<f64>(),
        flow_pipe_m3: circuit.flow_pipe.iter().map(contents_m3).sum(),
        return_pipe_m3: circuit.return_pipe.iter().map(contents_m3).sum(),
        coil_m3: coil.tube.contents_m2() * coil.length_m,
    }
}

fn panel_contents_m3(panel: &Panel) -> f64 {
    let tubes = match panel {
        Panel::Bought(bought) => return bought.contents_m3,
        Panel::Built(built) => match &built.passage {
            Passage::Hollow(hollow) => return hollow.contents_m3,
            Passage::Tubes(tubes) => tubes,
        },
    };
    let header_m3 = match tubes.pattern {
        TubePattern::Serpentine { .. } | TubePattern::Route { .. } => 0.0,
        TubePattern::Harp { risers, header, .. } => {
            2.0 * header.contents_m2() * f64::from(risers.saturating_sub(1)) * tubes.spacing_m
        }
    };
    tubes.tube.contents_m2() * tubes.length_m() + header_m3
}

/// Heights of the coil's inlet and outlet over the store's base \[m\].
fn coil_ends_m(coil: &Coil) -> (f64, f64) {
    match coil.direction {
        CoilDirection::Down => (coil.top_height_m, coil.bottom_height_m),
        CoilDirection::Up => (coil.bottom_height_m, coil.top_height_m),
    }
}

/// Absolute pressure where header tank or vessel joins \[Pa\].
fn holding_pa(
    circuit: &Circuit,
    panels: &Bank,
    coil: &Coil,
    occasion: &Occasion,
) -> Result<f64, CircuitError> {
    let air_pa = atmosphere_pa(occasion.altitude_m)?;
    match circuit.layout.holding {
        Holding::HeaderTank { level_m, .. } => {
            let feed: FluidProperties = properties(circuit.fluid, FILL_K)?;
            Ok(open_joint_pa(air_pa, feed.density_kg_m3, level_m - joint_m(&circuit.layout)))
        }
        Holding::Vessel { volume_m3, precharge_pa, fill_pa, .. } => {
            let (charge_pa, filled_pa) = (air_pa + precharge_pa, air_pa + fill_pa);
            let gas_m3 = volume_m3 * charge_pa / filled_pa;
            let fill = SealedFill {
                fluid: circuit.fluid,
                fluid_m3: contents(circuit, panels, coil).whole_m3() + volume_m3 - gas_m3,
                gas_m3,
                pressure_pa: filled_pa,
                fill_k: FILL_K,
            };
            Ok(sealed_state(&fill, occasion.fluid_k, FILL_K)?.pressure_pa)
        }
    }
}

/// Height from the circuit's joint up to its highest point \[m\]; 0 where the joint is highest.
pub fn column_m(layout: &Layout) -> f64 {
    (layout.highest_m.max(layout.panel_top_m) - joint_m(layout)).max(0.0)
}
