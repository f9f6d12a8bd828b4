//! What the pump moves and how the pipes answer, by temperature.

use physics::Build;
use physics::ZERO_CELSIUS_K;
use physics::circuit::bank::divided;
use physics::circuit::friction::FrictionMethod;
use physics::circuit::network::Medium;
use physics::circuit::pipe::{contents_m3, pipe_loss};
use physics::circuit::pump::working_point_of;
use physics::circuit::{Pipe, Pump};
use physics::matter::fluid::{FluidProperties, properties_held};
use physics::panel::Panel;
use physics::panel::chain::panel_heat_removal;

use super::loss::{HourWeather, PanelLoss};
use super::network::{self, LinkPlace};
use super::panels::{PanelKind, SEGMENTS_PER_PANEL, Segment, answers};
use super::table::Line;
use crate::YearError;

/// Nodes each pipe is cut into along the flow.
pub(super) const NODES_PER_PIPE: usize = 2;

/// Temperatures the flow is tabled for, and how finely.
pub(super) const TABLE_K: std::ops::RangeInclusive<f64> =
    ZERO_CELSIUS_K - 30.0..=ZERO_CELSIUS_K + 150.0;
const TABLE_NODES: usize = 61;
/// The same for what a segment takes up: smoother, and dearer to make.
pub(super) const SEGMENT_NODES: usize = 19;

/// Temperature at which capacities are taken, once for the year \[K\].
const CAPACITY_K: f64 = ZERO_CELSIUS_K + 40.0;

/// The fluid as its capacities are reckoned.
pub(super) fn reference_fluid(build: &Build) -> Result<FluidProperties, YearError> {
    fluid_at(build, CAPACITY_K)
}

/// What the pump moves, by the circuit's mean temperature.
#[derive(Clone, Debug)]
pub struct FlowTable {
    /// Flow round the circuit \[kg/s\].
    pub flow_kg_s: Line,
    /// What that flow carries \[W/K\].
    pub rate_w_k: Line,
    /// Share of the way the stream comes towards the plate, by [`Segment::answers_as`].
    pub effectiveness: Vec<Line>,
    /// Parts of the flow that turns of the way name, the whole one first.
    pub shares: Vec<Line>,
    /// Electricity while running \[W\].
    pub pump_w: f64,
}

impl FlowTable {
    pub(super) fn of(
        build: &Build,
        pump: &Pump,
        kinds: &[PanelKind],
        segments: &[Segment],
    ) -> Result<FlowTable, YearError> {
        let flow_kg_s = Line::of(TABLE_K, TABLE_NODES, |loop_k| {
            let fluid = fluid_at(build, loop_k)?;
            working_point_of(&build.circuit, &build.panel, &build.store.coil, &fluid)
                .map(|point| point.flow_kg_s)
                .map_err(|error| YearError::Circuit(error.to_string()))
        })?;
        let rate_w_k = Line::of(TABLE_K, TABLE_NODES, |loop_k| {
            Ok(flow_kg_s.at(loop_k) * fluid_at(build, loop_k)?.heat_capacity_j_kg_k)
        })?;
        let shares = share_lines(build, &flow_kg_s)?;
        let effectiveness = answers(segments)
            .into_iter()
            .map(|segment| {
                effectiveness_line(build, &kinds[segment.kind], |loop_k| {
                    flow_kg_s.at(loop_k) * shares[segment.share].at(loop_k) / segment.abreast
                })
            })
            .collect::<Result<_, _>>()?;
        Ok(FlowTable { flow_kg_s, rate_w_k, effectiveness, shares, pump_w: pump.power_w })
    }
}

/// The fluid at a temperature; beyond its range as at the range's end, where no table is read.
pub(super) fn fluid_at(build: &Build, loop_k: f64) -> Result<FluidProperties, YearError> {
    properties_held(build.circuit.fluid, loop_k)
        .map_err(|error| YearError::Circuit(error.to_string()))
}

/// How the pump's flow divides, by temperature: a line for each part of it that the way names.
fn share_lines(build: &Build, flow_kg_s: &Line) -> Result<Vec<Line>, YearError> {
    let at = |loop_k: f64| shares_at(build, flow_kg_s.at(loop_k), loop_k);
    // Alike panels divide nothing: all of the flow, at any temperature.
    if at(*TABLE_K.start())?.len() == 1 {
        return Ok(vec![Line::of(TABLE_K, 2, |_| Ok::<f64, YearError>(1.0))?]);
    }
    let nodes: Vec<Vec<f64>> = nodes_k(SEGMENT_NODES).map(at).collect::<Result<_, _>>()?;
    (0..nodes[0].len())
        .map(|share| {
            let mut values = nodes.iter().map(|node| node[share]);
            Line::of(TABLE_K, SEGMENT_NODES, |_| Ok(values.next().unwrap_or(1.0)))
        })
        .collect()
}

/// Temperatures at a table's nodes \[K\].
pub(super) fn nodes_k(nodes: usize) -> impl Iterator<Item = f64> {
    let step_k = (TABLE_K.end() - TABLE_K.start()) / (nodes - 1) as f64;
    (0..nodes).map(move |node| TABLE_K.start() + step_k * node as f64)
}

/// Parts of a flow by how it divides in the bank, the whole one first.
pub(super) fn shares_at(build: &Build, flow_kg_s: f64, loop_k: f64) -> Result<Vec<f64>, YearError> {
    let medium = Medium { fluid: fluid_at(build, loop_k)?, method: FrictionMethod::Churchill1977 };
    let parts = divided(&build.panel, flow_kg_s, &medium)
        .map_err(|error| YearError::Circuit(error.to_string()))?;
    Ok(network::shares(&build.panel, &parts))
}

fn effectiveness_line(
    build: &Build,
    kind: &PanelKind,
    flow_at_kg_s: impl Fn(f64) -> f64,
) -> Result<Line, YearError> {
    let loss_w_m2_k = usual_loss_w_m2_k(&kind.loss)?;
    // A sheet is uniform within a segment, and a pump's stream comes at most all the way towards it. A
    // bought panel's node is the mean of its fluid, so that its stream leaves as far beyond the
    // node as it came in below: that is how its certificate counts.
    let most = match kind.panel {
        Panel::Built(_) => 1.0,
        Panel::Bought(_) => 2.0,
    };
    Line::of(TABLE_K, SEGMENT_NODES, |loop_k| {
        segment_effectiveness(build, kind, (flow_at_kg_s(loop_k), loop_k), loss_w_m2_k, most)
    })
}

/// Share of the way a stream comes towards a segment's plate, so that all segments of the panel
/// together take up just what the fin chain says at a usual loss.
///
/// With `a` the loss of a segment over what the stream carries and `r` the share by which the
/// stream's distance from the stagnation temperature shrinks, a uniform plate gives
/// `1 - r = e a / (a + e)`; the chain gives `r` to the power of the segments as `1 - FR A UL / C`.
///
/// The flow is that through one panel. `most`: the greatest share that may come out.
pub(super) fn segment_effectiveness(
    build: &Build,
    kind: &PanelKind,
    (flow_kg_s, loop_k): (f64, f64),
    loss_w_m2_k: f64,
    most: f64,
) -> Result<f64, YearError> {
    let area_m2 = kind.panel.area_m2();
    let fluid = fluid_at(build, loop_k)?;
    let answer = panel_heat_removal(&kind.panel, flow_kg_s, &fluid, loss_w_m2_k)
        .map_err(|error| YearError::Panel(error.to_string()))?;
    let rate_w_k = flow_kg_s * fluid.heat_capacity_j_kg_k;
    let taken = answer.f_r * area_m2 * loss_w_m2_k / rate_w_k;
    let left = (1.0 - taken).max(0.0).powf(1.0 / SEGMENTS_PER_PANEL as f64);
    let a = area_m2 * loss_w_m2_k / (SEGMENTS_PER_PANEL as f64 * rate_w_k);
    let gone = 1.0 - left;
    // A chain that takes up as much as an ideal plate would ask for more than all of the way.
    Ok((a * gone / (a - gone)).clamp(0.0, most))
}

/// Loss of a plate at 40 C under air at 10 C, a sky 10 K colder and a light wind: where the fin
/// chain is held against the segments. The segments' answer hardly hangs on it.
pub(super) fn usual_loss_w_m2_k(loss: &PanelLoss) -> Result<f64, YearError> {
    let air_k = ZERO_CELSIUS_K + 10.0;
    let plate_k = ZERO_CELSIUS_K + 40.0;
    let hour = loss.hour(&HourWeather { air_k, sky_k: air_k - 10.0, wind_film_w_m2_k: 10.0 })?;
    Ok(hour.flux_w_m2(plate_k) / (plate_k - air_k))
}

/// A pipe cut into nodes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PipeRun {
    /// Nodes along the flow.
    pub nodes: usize,
    /// Heat capacity of a node: contents, wall, and its part of the coil's contents \[J/K\].
    pub capacity_j_k: f64,
    /// Loss of a node \[W/K\].
    pub loss_w_k: f64,
    /// Share of that loss that goes outdoors; the rest goes to the loft.
    pub outdoor_share: f64,
    /// Length of the whole run \[m\].
    pub length_m: f64,
}

impl PipeRun {
    pub(super) fn of(pipes: &[Pipe], build: &Build, more_m3: f64) -> Result<PipeRun, YearError> {
        let (mut held_m3, mut walls_j_k) = (0.0, 0.0);
        let (mut outdoors_w_k, mut all_w_k) = (0.0, 0.0);
        for pipe in pipes {
            let tube = &pipe.tube;
            let wall_kg = tube.wall_m2() * pipe.length_m * tube.density_kg_m3;
            held_m3 += contents_m3(pipe);
            walls_j_k += wall_kg * tube.heat_capacity_j_kg_k;
            let loss = pipe_loss(pipe).map_err(|error| YearError::Circuit(error.to_string()))?;
            outdoors_w_k += loss.outdoor_w_k;
            all_w_k += loss.outdoor_w_k + loss.loft_w_k;
        }
        Ok(PipeRun {
            nodes: NODES_PER_PIPE,
            capacity_j_k: ((held_m3 + more_m3) * reference_fluid(build)?.volume_heat_j_m3_k()
                + walls_j_k)
                / NODES_PER_PIPE as f64,
            loss_w_k: all_w_k / NODES_PER_PIPE as f64,
            outdoor_share: outdoors_w_k / all_w_k,
            length_m: pipes.iter().map(|pipe| pipe.length_m).sum(),
        })
    }

    /// A pipe between panels, one node; alike ones side by side taken together.
    pub(super) fn of_link(link: &LinkPlace, build: &Build) -> Result<PipeRun, YearError> {
        let run = PipeRun::of(&[link.pipe], build, 0.0)?;
        let all = run.nodes as f64 * link.abreast;
        Ok(PipeRun {
            nodes: 1,
            capacity_j_k: all * run.capacity_j_k,
            loss_w_k: all * run.loss_w_k,
            ..run
        })
    }

    /// The node so far along the flow.
    pub fn node_at(&self, distance_m: f64) -> usize {
        let along = distance_m / self.length_m * self.nodes as f64;
        (along.max(0.0) as usize).min(self.nodes - 1)
    }

    /// What is left of a standing node's distance from its air after `step_s`.
    pub fn left_after(&self, step_s: f64) -> f64 {
        (-self.loss_w_k * step_s / self.capacity_j_k).exp()
    }

    /// Air around the pipe, indoors and out by their shares \[K\].
    pub fn around_k(&self, loft_k: f64, air_k: f64) -> f64 {
        loft_k + self.outdoor_share * (air_k - loft_k)
    }
}
