//! One hour's weather, made ready for the minutes in it.

use crate::YearError;
use crate::forcing::HourForcing;
use crate::plant::{HourLoss, HourWeather, Plant};

/// What holds through an hour, with each panel kind's losses in it.
#[derive(Clone, Debug)]
pub struct Hour {
    /// Air outdoors \[K\].
    pub air_k: f64,
    /// Loft air \[K\].
    pub loft_k: f64,
    /// Cold water \[K\].
    pub mains_k: f64,
    /// Dew point of the loft's air \[K\].
    pub dew_point_k: f64,
    /// Air around the hot pipe \[K\].
    pub flow_around_k: f64,
    /// Air around the cool pipe \[K\].
    pub return_around_k: f64,
    /// Air around each pipe between the panels \[K\].
    pub link_around_k: Vec<f64>,
    losses: Vec<HourLoss>,
}

impl Hour {
    /// Room for an hour of this plant.
    pub fn room(plant: &Plant) -> Hour {
        Hour {
            air_k: 0.0,
            loft_k: 0.0,
            mains_k: 0.0,
            dew_point_k: 0.0,
            flow_around_k: 0.0,
            return_around_k: 0.0,
            link_around_k: vec![0.0; plant.links.len()],
            losses: plant.kinds.iter().map(|_| HourLoss::blank()).collect(),
        }
    }

    /// Fills it with an hour's forcing.
    ///
    /// # Errors
    /// Weather beyond the range of the panel's relations.
    pub fn fill(&mut self, plant: &Plant, forcing: &HourForcing) -> Result<(), YearError> {
        self.air_k = forcing.air_k;
        self.loft_k = forcing.loft_k;
        self.mains_k = forcing.mains_k;
        self.dew_point_k = forcing.dew_point_k;
        self.flow_around_k = plant.flow_pipe.around_k(forcing.loft_k, forcing.air_k);
        self.return_around_k = plant.return_pipe.around_k(forcing.loft_k, forcing.air_k);
        for (around_k, link) in self.link_around_k.iter_mut().zip(&plant.links) {
            *around_k = link.around_k(forcing.loft_k, forcing.air_k);
        }
        let weather = HourWeather {
            air_k: forcing.air_k,
            sky_k: forcing.sky_k,
            wind_film_w_m2_k: forcing.wind_film_w_m2_k,
        };
        for (loss, kind) in self.losses.iter_mut().zip(&plant.kinds) {
            *loss = kind.loss.hour(&weather)?;
        }
        Ok(())
    }

    /// Losses of a kind of panel.
    pub fn loss(&self, kind: usize) -> &HourLoss {
        &self.losses[kind]
    }
}
