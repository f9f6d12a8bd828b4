//! A panel's losses, tabled so that an hour costs a few look-ups and a minute two.
//!
//! Ambient and sky enter the cover's balance only through the temperature the cover would have
//! without a plate behind it. With that temperature and the wind film, the loss through the top
//! hangs on the plate alone: three numbers in place of four.

use physics::Angle;
use physics::ZERO_CELSIUS_K;
use physics::panel::Panel;
use physics::panel::PanelError;
use physics::panel::back::{edge_loss_w_k, leakage_w_m2_k, stack_conductance_w_m2_k};
use physics::panel::top_loss::{Surroundings, TopPath, equilibrium_k, top_flux_w_m2};

use super::table::Sheet;
use crate::YearError;

/// Plate above the empty cover's temperature at the nodes \[K\]. Close together where convection
/// in the gap sets in; all multiples of [`CELL_K`].
const EXCESS_K: [f64; 28] = [
    -80.0, -40.0, -20.0, -10.0, -7.5, -5.0, -2.5, 0.0, 2.5, 5.0, 7.5, 10.0, 12.5, 15.0, 17.5, 20.0,
    25.0, 30.0, 35.0, 40.0, 50.0, 60.0, 80.0, 100.0, 130.0, 160.0, 200.0, 260.0,
];
/// Width of a cell of the finder that leads from an excess to its nodes \[K\].
const CELL_K: f64 = 2.5;
const CELLS: usize = 136;

/// Wind films at the nodes \[W/(m2 K)\].
const FILM_W_M2_K: [f64; 11] = [2.0, 3.5, 5.0, 7.0, 10.0, 14.0, 20.0, 28.0, 40.0, 60.0, 90.0];

/// Empty cover's temperatures: first node, step, number.
const EMPTY_FIRST_K: f64 = ZERO_CELSIUS_K - 60.0;
const EMPTY_STEP_K: f64 = 10.0;
const EMPTY_NODES: usize = 13;

/// Losses of one square metre of sheet, over all weather.
#[derive(Clone, Debug)]
pub struct PanelLoss {
    cover_emittance: f64,
    /// Through the top \[W/(m2 K)\] by empty cover, film, excess, the excess running fastest.
    top_w_m2_k: Vec<f64>,
    /// Through back, edge and joints \[W/(m2 K)\] by plate and air.
    rest_w_m2_k: Sheet,
}

impl PanelLoss {
    /// Tables a panel's losses.
    ///
    /// # Errors
    /// Where a relation is asked beyond its range.
    pub fn of(panel: &Panel, tilt: Angle) -> Result<PanelLoss, YearError> {
        let mut top_w_m2_k = Vec::with_capacity(EMPTY_NODES * FILM_W_M2_K.len() * EXCESS_K.len());
        for empty in 0..EMPTY_NODES {
            let empty_k = EMPTY_FIRST_K + EMPTY_STEP_K * empty as f64;
            for film_w_m2_k in FILM_W_M2_K {
                for excess_k in EXCESS_K {
                    // No heat flows at no excess: the conductance there is that of a little one.
                    let excess_k = if excess_k == 0.0 { 0.01 } else { excess_k };
                    let path = TopPath {
                        wind_film_w_m2_k: film_w_m2_k,
                        plate_emittance: panel.sheet.emittance,
                        cover_emittance: panel.cover.emittance,
                        gap_m: panel.gap_m,
                        tilt,
                    };
                    let flux_w_m2 =
                        top_flux_w_m2(empty_k + excess_k, empty_k, &path).map_err(panel_error)?;
                    top_w_m2_k.push(flux_w_m2 / excess_k);
                }
            }
        }
        let rest_w_m2_k = Sheet::of(
            (ZERO_CELSIUS_K - 60.0..=ZERO_CELSIUS_K + 300.0, 19),
            (ZERO_CELSIUS_K - 60.0..=ZERO_CELSIUS_K + 60.0, 7),
            |plate_k, air_k| rest_w_m2_k(panel, plate_k, air_k),
        )?;
        Ok(PanelLoss { cover_emittance: panel.cover.emittance, top_w_m2_k, rest_w_m2_k })
    }

    /// The losses of one hour's weather, by the plate alone.
    ///
    /// # Errors
    /// Weather beyond the range of the cover's balance.
    pub fn hour(&self, weather: &HourWeather) -> Result<HourLoss, YearError> {
        let empty_k = equilibrium_k(&Surroundings {
            ambient_k: weather.air_k,
            sky_k: weather.sky_k,
            wind_film_w_m2_k: weather.wind_film_w_m2_k,
            cover_emittance: self.cover_emittance,
        })
        .map_err(panel_error)?;
        let along = ((empty_k - EMPTY_FIRST_K) / EMPTY_STEP_K).clamp(0.0, EMPTY_NODES as f64 - 1.0);
        let row = (along as usize).min(EMPTY_NODES - 2);
        let row_share = along - row as f64;
        let film =
            weather.wind_film_w_m2_k.clamp(FILM_W_M2_K[0], FILM_W_M2_K[FILM_W_M2_K.len() - 1]);
        let column = FILM_W_M2_K[1..FILM_W_M2_K.len() - 1].partition_point(|&node| node <= film);
        let column_share =
            (film - FILM_W_M2_K[column]) / (FILM_W_M2_K[column + 1] - FILM_W_M2_K[column]);
        let start = |down: usize, across: usize| {
            ((row + down) * FILM_W_M2_K.len() + column + across) * EXCESS_K.len()
        };
        let corners = [start(0, 0), start(0, 1), start(1, 0), start(1, 1)];
        let mut hour = HourLoss {
            empty_k,
            air_k: weather.air_k,
            top_w_m2_k: [0.0; EXCESS_K.len()],
            rest_w_m2_k: [0.0; EXCESS_K.len()],
        };
        for (node, &excess_k) in EXCESS_K.iter().enumerate() {
            let corner = |which: usize| self.top_w_m2_k[corners[which] + node];
            let low = corner(0) + column_share * (corner(1) - corner(0));
            let high = corner(2) + column_share * (corner(3) - corner(2));
            hour.top_w_m2_k[node] = low + row_share * (high - low);
            hour.rest_w_m2_k[node] = self.rest_w_m2_k.at(empty_k + excess_k, weather.air_k);
        }
        Ok(hour)
    }
}

/// Losses through back, edge and joints to the air, per square metre of sheet \[W/(m2 K)\].
fn rest_w_m2_k(panel: &Panel, plate_k: f64, air_k: f64) -> Result<f64, YearError> {
    let back = stack_conductance_w_m2_k(&panel.back, plate_k, air_k).map_err(panel_error)?;
    let edge_w_k = edge_loss_w_k(&panel.edge, plate_k, air_k).map_err(panel_error)?;
    let leakage_w_m2_k = leakage_w_m2_k(&panel.box_air, panel.gap_m).map_err(panel_error)?;
    Ok(back.conductance_w_m2_k + edge_w_k / panel.sheet.area_m2() + leakage_w_m2_k)
}

fn panel_error(error: PanelError) -> YearError {
    YearError::Panel(error.to_string())
}

/// The weather of an hour as far as losses hang on it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HourWeather {
    /// Air outdoors \[K\].
    pub air_k: f64,
    /// Sky \[K\].
    pub sky_k: f64,
    /// Film from cover to air \[W/(m2 K)\].
    pub wind_film_w_m2_k: f64,
}

/// One hour's losses, by the plate's temperature.
#[derive(Clone, Debug)]
pub struct HourLoss {
    /// What the cover would stand at without a plate behind it \[K\].
    pub empty_k: f64,
    /// Air outdoors \[K\].
    pub air_k: f64,
    top_w_m2_k: [f64; EXCESS_K.len()],
    rest_w_m2_k: [f64; EXCESS_K.len()],
}

impl HourLoss {
    /// An hour that has not been filled yet.
    pub(crate) fn blank() -> HourLoss {
        HourLoss {
            empty_k: 0.0,
            air_k: 0.0,
            top_w_m2_k: [0.0; EXCESS_K.len()],
            rest_w_m2_k: [0.0; EXCESS_K.len()],
        }
    }

    /// Conductances at a plate temperature: to the empty cover's temperature through the top, and
    /// to the air through the rest \[W/(m2 K)\].
    #[inline]
    pub fn conductances(&self, plate_k: f64) -> Conductances {
        let excess_k = plate_k - self.empty_k;
        let low = node_below(excess_k);
        let share =
            ((excess_k - EXCESS_K[low]) / (EXCESS_K[low + 1] - EXCESS_K[low])).clamp(0.0, 1.0);
        let between = |values: &[f64]| values[low] + share * (values[low + 1] - values[low]);
        Conductances {
            top_w_m2_k: between(&self.top_w_m2_k),
            rest_w_m2_k: between(&self.rest_w_m2_k),
        }
    }

    /// What a square metre of sheet loses at a plate temperature \[W/m2\].
    pub fn flux_w_m2(&self, plate_k: f64) -> f64 {
        let conductances = self.conductances(plate_k);
        conductances.top_w_m2_k * (plate_k - self.empty_k)
            + conductances.rest_w_m2_k * (plate_k - self.air_k)
    }
}

/// The two ways heat leaves a square metre of sheet.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Conductances {
    /// To the empty cover's temperature \[W/(m2 K)\].
    pub top_w_m2_k: f64,
    /// To the air \[W/(m2 K)\].
    pub rest_w_m2_k: f64,
}

/// Which node lies below an excess: one look into a row of cells.
#[inline]
fn node_below(excess_k: f64) -> usize {
    let cell = ((excess_k - EXCESS_K[0]) * (1.0 / CELL_K)).clamp(0.0, CELLS as f64 - 1.0);
    usize::from(FINDER[cell as usize])
}

static FINDER: [u8; CELLS] = {
    let mut finder = [0; CELLS];
    let mut cell = 0;
    while cell < CELLS {
        let middle_k = EXCESS_K[0] + CELL_K * (cell as f64 + 0.5);
        let mut node = 0;
        while node + 2 < EXCESS_K.len() && EXCESS_K[node + 1] <= middle_k {
            node += 1;
        }
        finder[cell] = node as u8;
        cell += 1;
    }
    finder
};
