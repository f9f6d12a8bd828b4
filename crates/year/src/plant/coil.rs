//! The coil in its layers.

use physics::Build;
use physics::ZERO_CELSIUS_K;
use physics::store::CoilDirection;
use physics::store::coil::coil_conductance;

use super::circuit::FlowTable;
use super::store::StorePlant;
use super::table::Sheet;
use crate::YearError;

/// The coil: how well a metre of it passes heat, and how many metres lie in each layer.
#[derive(Clone, Debug)]
pub struct CoilTable {
    /// Its films at the pump's flow; `None` without a pump.
    films: Option<CoilFilms>,
    /// Metres in each layer, bottom first \[m\].
    pub length_m: Vec<f64>,
    /// Layers it lies in, in the order of the fluid.
    pub way: Vec<usize>,
    direction: CoilDirection,
}

impl CoilTable {
    pub(super) fn of(
        build: &Build,
        flow: Option<&FlowTable>,
        store: &StorePlant,
    ) -> Result<CoilTable, YearError> {
        let coil = &build.store.coil;
        let length_m = lengths_m(build, store);
        let mut way: Vec<usize> =
            (0..store.layers).filter(|&layer| length_m[layer] > 0.0).collect();
        if coil.direction == CoilDirection::Down {
            way.reverse();
        }
        // Ice-cold water round a hot coil bends the answer along the root; water between fins answers
        // more steeply still, and gets a finer table.
        let nodes = if build.store.coil.fins.is_some() { (57, 65) } else { (29, 49) };
        let films = flow
            .map(|flow| CoilFilms::of(build, nodes, |fluid_k| flow.flow_kg_s.at(fluid_k)))
            .transpose()?;
        Ok(CoilTable { films, length_m, way, direction: coil.direction })
    }

    /// True where the fluid enters at the top.
    pub fn runs_down(&self) -> bool {
        self.direction == CoilDirection::Down
    }

    /// How well a metre passes heat between fluid and water at the pump's flow \[W/(m K)\]; 0
    /// without a pump.
    pub fn ua_w_m_k(&self, fluid_k: f64, water_k: f64) -> f64 {
        self.films.as_ref().map_or(0.0, |films| films.ua_w_m_k(fluid_k, water_k))
    }
}

/// How well a metre of coil passes heat at a flow.
#[derive(Clone, Debug)]
pub struct CoilFilms {
    /// By fluid temperature and by the fourth root of its distance from the water, with its sign
    /// \[W/(m K)\]: natural convection grows nearly straight with that root.
    ua_w_m_k: Sheet,
}

impl CoilFilms {
    /// Tables a coil at a flow, with so many nodes by fluid temperature and by the root.
    pub(super) fn of(
        build: &Build,
        (fluids, roots): (usize, usize),
        flow_at_kg_s: impl Fn(f64) -> f64,
    ) -> Result<CoilFilms, YearError> {
        let coil = &build.store.coil;
        let ua_w_m_k = Sheet::of(
            (ZERO_CELSIUS_K - 10.0..=ZERO_CELSIUS_K + 130.0, fluids),
            (-3.2..=3.2, roots),
            |fluid_k, root| {
                let water_k = fluid_k - root.signum() * root.powi(4);
                let film = coil_conductance(
                    coil,
                    build.circuit.fluid,
                    flow_at_kg_s(fluid_k),
                    fluid_k,
                    water_k.clamp(ZERO_CELSIUS_K + 1.0, ZERO_CELSIUS_K + 110.0),
                )
                .map_err(|error| YearError::Coil(error.to_string()))?;
                Ok(film.ua_w_k / coil.length_m)
            },
        )?;
        Ok(CoilFilms { ua_w_m_k })
    }

    /// How well a metre passes heat between fluid and water \[W/(m K)\].
    pub fn ua_w_m_k(&self, fluid_k: f64, water_k: f64) -> f64 {
        let difference_k = fluid_k - water_k;
        let root = difference_k.abs().sqrt().sqrt().copysign(difference_k);
        self.ua_w_m_k.at(fluid_k, root)
    }
}

/// The coil's length spread evenly over its height, by layer. A coil wound flat at one height
/// lies in the layer of that height.
fn lengths_m(build: &Build, store: &StorePlant) -> Vec<f64> {
    let coil = &build.store.coil;
    let layer_m = build.store.water_depth_m / store.layers as f64;
    let height_m = coil.top_height_m - coil.bottom_height_m;
    if height_m <= 0.0 {
        let mut length_m = vec![0.0; store.layers];
        length_m[store.layer_at(coil.bottom_height_m)] = coil.length_m;
        return length_m;
    }
    (0..store.layers)
        .map(|layer| {
            let low_m = (layer as f64 * layer_m).max(coil.bottom_height_m);
            let high_m = ((layer + 1) as f64 * layer_m).min(coil.top_height_m);
            coil.length_m * ((high_m - low_m) / height_m).max(0.0)
        })
        .collect()
}
