//! The cistern cut into layers.

use physics::ZERO_CELSIUS_K;
use physics::matter::fluid::{Fluid, properties_held};
use physics::store::cistern::{OpenWater, evaporation_w, store_loss};
use physics::store::{FeedKind, Store};

use crate::YearError;

/// Temperature at which the water's heat capacity by volume is taken, once for the year \[K\].
const WATER_K: f64 = ZERO_CELSIUS_K + 35.0;
/// Mean temperature of the jacket, at which its conductivity is taken \[K\].
const INSULATION_K: f64 = ZERO_CELSIUS_K + 27.0;

/// The cistern's layers, all of one volume, bottom first.
#[derive(Clone, Debug)]
pub struct StorePlant {
    /// How many.
    pub layers: usize,
    /// Water in one \[m3\].
    pub layer_m3: f64,
    /// Heat capacity of one \[J/K\].
    pub layer_j_k: f64,
    /// Heat capacity of the water by volume \[J/(m3 K)\].
    pub volume_heat_j_m3_k: f64,
    /// Loss of each layer to the loft \[W/K\]: wall, with the base below and the lid above.
    pub loss_w_k: Vec<f64>,
    /// From water through the wall's jacket to the air \[W/(m2 K)\].
    pub wall_w_m2_k: f64,
    /// Between neighbours by conduction \[W/K\].
    pub conduction_w_k: f64,
    /// Open gap at the lid \[m2\].
    pub lid_gap_m2: f64,
    /// Where cold enters.
    pub inlet: usize,
    /// Where water leaves to the tap.
    pub outlet: usize,
    /// Where the probe sits.
    pub probe: usize,
    /// Where water leaves to what else the store feeds, in the build's order.
    pub feeds: Vec<usize>,
    /// Where the highest outlet to cold taps is; `None` where it feeds none.
    pub cold_tap: Option<usize>,
    /// Surrounding water that falling cold takes along in passing one layer, per litre of cold.
    pub entrained_per_layer: f64,
    depth_m: f64,
}

impl StorePlant {
    pub(super) fn of(store: &Store, probe_height_m: f64) -> Result<StorePlant, YearError> {
        let layers = store.layers.max(1);
        let water = properties_held(Fluid::Water, WATER_K)
            .map_err(|error| YearError::Store(error.to_string()))?;
        let volume_heat_j_m3_k = water.volume_heat_j_m3_k();
        let layer_m3 = store.volume_m3 / layers as f64;
        let losses =
            store_loss(store, INSULATION_K).map_err(|error| YearError::Store(error.to_string()))?;
        let layer_m = store.water_depth_m / layers as f64;
        let mut loss_w_k = vec![losses.wall_w_m_k * layer_m; layers];
        loss_w_k[0] += losses.base_w_k;
        loss_w_k[layers - 1] += losses.lid_w_k;
        let mut plant = StorePlant {
            layers,
            layer_m3,
            layer_j_k: layer_m3 * volume_heat_j_m3_k,
            volume_heat_j_m3_k,
            loss_w_k,
            wall_w_m2_k: losses.wall_w_m_k / store.perimeter_m,
            conduction_w_k: water.conductivity_w_m_k * store.plan_area_m2() / layer_m,
            lid_gap_m2: store.lid_gap_m2,
            inlet: 0,
            outlet: 0,
            probe: 0,
            feeds: Vec::new(),
            cold_tap: None,
            entrained_per_layer: store.entrainment / layers as f64,
            depth_m: store.water_depth_m,
        };
        plant.inlet = plant.layer_at(store.inlet_height_m);
        plant.outlet = plant.layer_at(store.outlet_height_m);
        plant.probe = plant.layer_at(probe_height_m);
        plant.feeds = store.feeds.iter().map(|feed| plant.layer_at(feed.outlet_height_m)).collect();
        plant.cold_tap = store
            .feeds
            .iter()
            .zip(&plant.feeds)
            .filter(|(feed, _)| feed.kind == FeedKind::ColdTaps)
            .map(|(_, &layer)| layer)
            .max();
        Ok(plant)
    }

    /// What vapour carries off at a temperature of the top layer, as straight around it.
    ///
    /// `loft_k`, `dew_point_k`: the loft's air. No vapour settles: where the loft holds more than
    /// the water gives, nothing crosses.
    pub fn evaporation(&self, top_k: f64, loft_k: f64, dew_point_k: f64) -> Vapour {
        if self.lid_gap_m2 == 0.0 {
            return Vapour::default();
        }
        let here_w = self.evaporation_w(top_k, loft_k, dew_point_k);
        if here_w <= 0.0 {
            return Vapour::default();
        }
        let growth_w_k = self.evaporation_w(top_k + 0.5, loft_k, dew_point_k)
            - self.evaporation_w(top_k - 0.5, loft_k, dew_point_k);
        Vapour { fixed_w: here_w - growth_w_k * top_k, growth_w_k }
    }

    /// What vapour carries off at a temperature of the top layer \[W\]. Water near boiling counts
    /// as at the end of the relation's range, and so does freezing water.
    pub fn evaporation_w(&self, top_k: f64, loft_k: f64, dew_point_k: f64) -> f64 {
        let water_k = top_k.clamp(ZERO_CELSIUS_K + 0.01, ZERO_CELSIUS_K + 99.5);
        let surface = OpenWater { gap_m2: self.lid_gap_m2, water_k, air_k: loft_k, dew_point_k };
        // Forcing and clamp keep all four within the relation's range.
        evaporation_w(&surface).unwrap_or(0.0)
    }

    /// The layer at a height above the base.
    pub fn layer_at(&self, height_m: f64) -> usize {
        let along = height_m / self.depth_m * self.layers as f64;
        (along.max(0.0) as usize).min(self.layers - 1)
    }
}

/// Heat carried off by vapour near one temperature: `fixed + growth * temperature`.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Vapour {
    /// At absolute zero, were it straight so far \[W\].
    pub fixed_w: f64,
    /// Growth \[W/K\].
    pub growth_w_k: f64,
}
