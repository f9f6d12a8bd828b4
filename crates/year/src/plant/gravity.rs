//! What the fluid's own weight drives round while no pump does.

use physics::circuit::CheckValve;
use physics::circuit::friction::FrictionMethod;
use physics::circuit::gravity::Rises;
use physics::circuit::network::{Medium, Path};
use physics::circuit::pump::round_path;
use physics::{Build, GRAVITY_M_S2};

use super::circuit::{
    SEGMENT_NODES, TABLE_K, fluid_at, nodes_k, segment_effectiveness, shares_at, usual_loss_w_m2_k,
};
use super::coil::CoilFilms;
use super::panels::{PanelKind, Segment, answers};
use super::table::{Line, Sheet};
use crate::YearError;

/// Nodes by the fourth root of the drive, and by temperature, at which the flow is found.
const DRIVE_NODES: usize = 61;
const FLOW_K_NODES: usize = 31;
/// Flows at which the round's loss is found.
const DROP_NODES: usize = 25;
/// Flows, each so many times the next smaller one, for which films and shares are tabled.
const FLOW_NODES: usize = 17;
const FLOW_FOLD: f64 = 1.75;
/// The coil hangs less on the flow: every second of them will do.
const COIL_EVERY: usize = 2;

/// Fluid that creeps leaves a segment warmer than its sheet is on the mean, at most as far beyond it as
/// it came in below.
const PAST_THE_MEAN: f64 = 2.0;

/// Nodes of the coil's table at each flow, by fluid temperature and by the root of its distance from
/// the water. Slow flow hangs less on the water's side than a pump's.
const COIL_NODES: (usize, usize) = (15, 33);

/// Flow below which the circuit counts as standing \[kg/s\]: what it carries is below a watt.
pub const LEAST_FLOW_KG_S: f64 = 5e-6;

/// How a circuit without a running pump answers to what its fluid weighs.
#[derive(Clone, Debug)]
pub struct GravityTable {
    /// Rises of the pipes' nodes and the coil along the flow.
    pub rises: Rises,
    /// False where a flap keeps the fluid from running backwards.
    pub backwards: bool,
    /// Density of the fluid \[kg/m3\].
    pub density_kg_m3: Line,
    /// Heat capacity of the fluid \[J/(kg K)\].
    heat_capacity_j_kg_k: Line,
    /// Flow over drive by the fourth root of the drive and by temperature, counted in nodes \[kg/(s Pa)\].
    conductance_kg_s_pa: Sheet,
    /// Logarithm of the smallest flow that films and shares are tabled for.
    least_ln: f64,
    /// Share of the way the stream comes towards the plate times the flow, which hangs less on the flow
    /// than the share, by [`Segment::answers_as`]; by logarithm of the flow over the smallest, and
    /// temperature \[kg/s\].
    towards_kg_s: Vec<Sheet>,
    /// Parts of the flow that turns of the way name, in the same manner.
    shares: Vec<Sheet>,
    /// The coil, at each of the flows.
    coil: Vec<CoilFilms>,
}

impl GravityTable {
    /// Tables a build; `None` where nothing can run by its own weight: behind a valve that a spring
    /// holds shut.
    pub(super) fn of(
        build: &Build,
        rises: Rises,
        kinds: &[PanelKind],
        segments: &[Segment],
    ) -> Result<Option<GravityTable>, YearError> {
        let backwards = match build.circuit.check_valve {
            CheckValve::Fitted { .. } => return Ok(None),
            CheckValve::Flap { .. } => false,
            CheckValve::None => true,
        };
        let friction = Friction::of(build, heaviest_pa(&rises))?;
        let conductance_kg_s_pa = friction.conductances()?;
        let least_ln = (friction.fastest_kg_s / FLOW_FOLD.powi(FLOW_NODES as i32 - 1)).ln();
        let last = (FLOW_NODES - 1) as f64 * FLOW_FOLD.ln();
        let shares = share_sheets(build, least_ln, last)?;
        let mut towards_kg_s = Vec::new();
        for segment in answers(segments) {
            let kind = &kinds[segment.kind];
            let loss_w_m2_k = usual_loss_w_m2_k(&kind.loss)?;
            towards_kg_s.push(Sheet::of(
                (0.0..=last, FLOW_NODES),
                (TABLE_K, SEGMENT_NODES),
                |ln, loop_k| {
                    let flow_kg_s = (least_ln + ln).exp();
                    let share = shares[segment.share].at(ln, loop_k);
                    let each = (flow_kg_s * share / segment.abreast, loop_k);
                    let towards =
                        segment_effectiveness(build, kind, each, loss_w_m2_k, PAST_THE_MEAN)?;
                    Ok::<f64, YearError>(towards * flow_kg_s)
                },
            )?);
        }
        let coil = (0..FLOW_NODES)
            .step_by(COIL_EVERY)
            .map(|node| {
                let flow_kg_s = (least_ln + node as f64 * FLOW_FOLD.ln()).exp();
                CoilFilms::of(build, COIL_NODES, |_| flow_kg_s)
            })
            .collect::<Result<_, _>>()?;
        let fluid_line = |value: fn(&physics::matter::fluid::FluidProperties) -> f64| {
            Line::of(TABLE_K, 2 * FLOW_K_NODES, |loop_k| {
                Ok::<f64, YearError>(value(&fluid_at(build, loop_k)?))
            })
        };
        Ok(Some(GravityTable {
            rises,
            backwards,
            density_kg_m3: fluid_line(|fluid| fluid.density_kg_m3)?,
            heat_capacity_j_kg_k: fluid_line(|fluid| fluid.heat_capacity_j_kg_k)?,
            conductance_kg_s_pa,
            least_ln,
            towards_kg_s,
            shares,
            coil,
        }))
    }

    /// Flow that a drive keeps up \[kg/s\], its sign that of the drive; 0 where a flap holds it.
    pub fn flow_kg_s(&self, drive_pa: f64, loop_k: f64) -> f64 {
        if drive_pa < 0.0 && !self.backwards {
            return 0.0;
        }
        drive_pa * self.conductance_kg_s_pa.at(drive_pa.abs().sqrt().sqrt(), flow_node(loop_k))
    }

    /// What a flow carries \[W/K\], 0 or more.
    pub fn rate_w_k(&self, flow_kg_s: f64, loop_k: f64) -> f64 {
        flow_kg_s.abs() * self.heat_capacity_j_kg_k.at(loop_k)
    }

    /// Share of the way the stream comes towards the plate, by [`Segment::answers_as`].
    pub fn effectiveness(&self, flow_kg_s: f64, loop_k: f64) -> impl Iterator<Item = f64> {
        let flow_kg_s = flow_kg_s.abs();
        let ln = flow_kg_s.ln() - self.least_ln;
        self.towards_kg_s
            .iter()
            .map(move |sheet| (sheet.at(ln, loop_k) / flow_kg_s).min(PAST_THE_MEAN))
    }

    /// Parts of the flow that turns of the way name, the whole one first.
    pub fn shares(&self, flow_kg_s: f64, loop_k: f64) -> impl Iterator<Item = f64> {
        let ln = flow_kg_s.abs().ln() - self.least_ln;
        self.shares.iter().map(move |sheet| sheet.at(ln, loop_k))
    }

    /// How well a metre of the coil passes heat between fluid and water \[W/(m K)\].
    pub fn coil_ua_w_m_k(&self, flow_kg_s: f64, fluid_k: f64, water_k: f64) -> f64 {
        let along = (flow_kg_s.abs().ln() - self.least_ln) / (FLOW_FOLD.ln() * COIL_EVERY as f64);
        let along = along.clamp(0.0, (self.coil.len() - 1) as f64);
        let node = (along as usize).min(self.coil.len() - 2);
        let low = self.coil[node].ua_w_m_k(fluid_k, water_k);
        low + (along - node as f64) * (self.coil[node + 1].ua_w_m_k(fluid_k, water_k) - low)
    }
}

/// Most that weights can drive \[Pa\]: all that rises filled with fluid lighter by what any fluid here
/// grows over the tables' range, a tenth.
fn heaviest_pa(rises: &Rises) -> f64 {
    let climbed_m: f64 = [&rises.return_pipe_m[..], &rises.flow_pipe_m]
        .concat()
        .iter()
        .chain([&rises.panel_m, &rises.coil_m])
        .map(|rise_m| rise_m.abs())
        .sum();
    (0.5 * climbed_m).max(0.1) * 100.0 * GRAVITY_M_S2
}

/// A temperature as a place among the nodes of [`Friction::conductances`].
fn flow_node(loop_k: f64) -> f64 {
    (loop_k - TABLE_K.start()) / (TABLE_K.end() - TABLE_K.start()) * (FLOW_K_NODES - 1) as f64
}

/// What the round costs, by the flow.
struct Friction<'a> {
    build: &'a Build,
    round: Path,
    heavy_pa: f64,
    /// Flow that the heaviest drive keeps up where the fluid is thinnest \[kg/s\].
    fastest_kg_s: f64,
}

impl Friction<'_> {
    fn of(build: &Build, heavy_pa: f64) -> Result<Friction<'_>, YearError> {
        let round =
            round_path(&build.circuit, &build.panel, &build.store.coil).map_err(circuit_error)?;
        let mut friction = Friction { build, round, heavy_pa, fastest_kg_s: 0.0 };
        let medium = friction.medium(*TABLE_K.end())?;
        friction.fastest_kg_s =
            friction.round.flow_kg_s(heavy_pa, &medium).map_err(circuit_error)?;
        Ok(friction)
    }

    fn medium(&self, loop_k: f64) -> Result<Medium, YearError> {
        Ok(Medium { fluid: fluid_at(self.build, loop_k)?, method: FrictionMethod::Churchill1977 })
    }

    /// Flow over drive, by the fourth root of the drive and by temperature. At each temperature the loss is
    /// found for a row of flows, and read backwards along straight lines of the logarithms: from its
    /// first power to its second there is little bend in them.
    fn conductances(&self) -> Result<Sheet, YearError> {
        let least = FLOW_FOLD.powi(1 - FLOW_NODES as i32).ln();
        let by_temperature: Vec<Vec<(f64, f64)>> = nodes_k(FLOW_K_NODES)
            .map(|loop_k| {
                let medium = self.medium(loop_k)?;
                (0..DROP_NODES)
                    .map(|node| {
                        let ln = least * (1.0 - node as f64 / (DROP_NODES - 1) as f64);
                        let flow_kg_s = self.fastest_kg_s * ln.exp();
                        let drop_pa =
                            self.round.drop_pa(flow_kg_s, &medium).map_err(circuit_error)?;
                        Ok((drop_pa.ln(), flow_kg_s.ln()))
                    })
                    .collect()
            })
            .collect::<Result<_, YearError>>()?;
        Sheet::of(
            (0.0..=self.heavy_pa.sqrt().sqrt(), DRIVE_NODES),
            (0.0..=(FLOW_K_NODES - 1) as f64, FLOW_K_NODES),
            |root, at| {
                let row = &by_temperature[at.round() as usize];
                // Towards no drive flow and drive keep their ratio, as slow flow has it.
                let drive_ln = (4.0 * root.ln()).max(row[0].0);
                let above = row.partition_point(|node| node.0 < drive_ln).clamp(1, row.len() - 1);
                let (low, high) = (row[above - 1], row[above]);
                let share = (drive_ln - low.0) / (high.0 - low.0);
                Ok((low.1 + share * (high.1 - low.1) - drive_ln).exp())
            },
        )
    }
}

fn circuit_error(error: physics::circuit::CircuitError) -> YearError {
    YearError::Circuit(error.to_string())
}

fn share_sheets(build: &Build, least_ln: f64, last: f64) -> Result<Vec<Sheet>, YearError> {
    let range = || (0.0..=last, FLOW_NODES);
    let mut nodes = Vec::new();
    Sheet::of(range(), (TABLE_K, SEGMENT_NODES), |ln, loop_k| {
        nodes.push(shares_at(build, (least_ln + ln).exp(), loop_k)?);
        Ok::<f64, YearError>(0.0)
    })?;
    (0..nodes[0].len())
        .map(|share| {
            let mut values = nodes.iter().map(|node| node[share]);
            Sheet::of(range(), (TABLE_K, SEGMENT_NODES), |_, _| Ok(values.next().unwrap_or(1.0)))
        })
        .collect()
}
