//! A panel's losses, tabled so that an hour costs a few look-ups and a minute two.
//!
//! Ambient and sky enter the covers' balance only through the temperature the outermost face would
//! have without a sheet behind it, the empty state, and through what the sheet sends straight to
//! the sky. With that temperature and the wind film, the loss through the top hangs on the sheet
//! alone: three numbers in place of four. Only where an outer cover lets a cover beneath it see the
//! sky is there no such state; then every hour is solved by itself.

use physics::Angle;
use physics::STEFAN_BOLTZMANN_W_M2_K4;
use physics::ZERO_CELSIUS_K;
use physics::panel::back::rest_loss_w_m2_k;
use physics::panel::curve::HeatCurve;
use physics::panel::glazing::{Glazing, Outdoors};
use physics::panel::{Built, Panel, PanelError};

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

/// Losses of one square metre of a panel, over all weather.
#[derive(Clone, Debug)]
pub struct PanelLoss {
    top: TopLoss,
    /// Through back, edge and joints \[W/(m2 K)\] by plate and air; `None` for a bought panel,
    /// whose curve holds all.
    rest_w_m2_k: Option<Sheet>,
}

#[derive(Clone, Debug)]
enum TopLoss {
    /// Through the top \[W/(m2 K)\] by empty state, film, excess, the excess running fastest.
    Tabled { glazing: Glazing, top_w_m2_k: Vec<f64> },
    /// Solved for each hour.
    Solved { glazing: Glazing },
    /// As a certificate states it, to the air.
    Certified { curve: HeatCurve },
}

impl PanelLoss {
    /// Tables a panel's losses.
    ///
    /// # Errors
    /// Where a relation is asked beyond its range.
    pub fn of(panel: &Panel, tilt: Angle) -> Result<PanelLoss, YearError> {
        let built = match panel {
            Panel::Built(built) => built,
            Panel::Bought(bought) => {
                return Ok(PanelLoss {
                    top: TopLoss::Certified { curve: bought.curve },
                    rest_w_m2_k: None,
                });
            }
        };
        let glazing =
            Glazing::of(&built.covers, built.sheet.emittance, tilt).map_err(panel_error)?;
        let top = if glazing.has_empty_state() {
            let top_w_m2_k = top_table(&glazing).map_err(panel_error)?;
            TopLoss::Tabled { glazing, top_w_m2_k }
        } else {
            TopLoss::Solved { glazing }
        };
        Ok(PanelLoss { top, rest_w_m2_k: Some(rest_table(built)?) })
    }

    /// The losses of one hour's weather, by the plate alone.
    ///
    /// # Errors
    /// Weather beyond the range of the cover's balance.
    pub fn hour(&self, weather: &HourWeather) -> Result<HourLoss, YearError> {
        let mut hour = HourLoss { air_k: weather.air_k, ..HourLoss::blank() };
        match &self.top {
            TopLoss::Tabled { glazing, top_w_m2_k } => {
                hour.empty_k = glazing.empty_k(&weather.outdoors()).map_err(panel_error)?;
                let direct = glazing.sheet_to_sky() * STEFAN_BOLTZMANN_W_M2_K4;
                if direct > 0.0 {
                    hour.to_sky_w_m2 = direct * (hour.empty_k.powi(4) - weather.sky_k.powi(4));
                }
                read_top(top_w_m2_k, weather, &mut hour);
            }
            TopLoss::Solved { glazing } => solve_top(glazing, weather, &mut hour)?,
            TopLoss::Certified { curve } => {
                hour.empty_k = weather.air_k;
                for (node, excess_k) in EXCESS_K.iter().enumerate() {
                    hour.top_w_m2_k[node] = curve.a1_w_m2_k + curve.a2_w_m2_k2 * excess_k.abs();
                }
            }
        }
        if let Some(rest_w_m2_k) = &self.rest_w_m2_k {
            for (node, &excess_k) in EXCESS_K.iter().enumerate() {
                hour.rest_w_m2_k[node] = rest_w_m2_k.at(hour.empty_k + excess_k, weather.air_k);
            }
        }
        Ok(hour)
    }
}

/// No heat flows at no excess: the conductance there is that of a little one.
fn answerable(excess_k: f64) -> f64 {
    if excess_k == 0.0 { 0.01 } else { excess_k }
}

fn top_table(glazing: &Glazing) -> Result<Vec<f64>, PanelError> {
    let mut top_w_m2_k = Vec::with_capacity(EMPTY_NODES * FILM_W_M2_K.len() * EXCESS_K.len());
    for empty in 0..EMPTY_NODES {
        let empty_k = EMPTY_FIRST_K + EMPTY_STEP_K * empty as f64;
        for film_w_m2_k in FILM_W_M2_K {
            for excess_k in EXCESS_K.map(answerable) {
                let sheet_k = empty_k + excess_k;
                let flux_w_m2 = glazing.flux_from_empty_w_m2(sheet_k, empty_k, film_w_m2_k)?;
                top_w_m2_k.push(flux_w_m2 / excess_k);
            }
        }
    }
    Ok(top_w_m2_k)
}

fn rest_table(built: &Built) -> Result<Sheet, YearError> {
    Sheet::of(
        (ZERO_CELSIUS_K - 60.0..=ZERO_CELSIUS_K + 300.0, 19),
        (ZERO_CELSIUS_K - 60.0..=ZERO_CELSIUS_K + 60.0, 7),
        |plate_k, air_k| rest_loss_w_m2_k(built, plate_k, air_k).map_err(panel_error),
    )
}

/// Reads the hour's row from the table.
fn read_top(top_w_m2_k: &[f64], weather: &HourWeather, hour: &mut HourLoss) {
    let along =
        ((hour.empty_k - EMPTY_FIRST_K) / EMPTY_STEP_K).clamp(0.0, EMPTY_NODES as f64 - 1.0);
    let row = (along as usize).min(EMPTY_NODES - 2);
    let row_share = along - row as f64;
    let film = weather.wind_film_w_m2_k.clamp(FILM_W_M2_K[0], FILM_W_M2_K[FILM_W_M2_K.len() - 1]);
    let column = FILM_W_M2_K[1..FILM_W_M2_K.len() - 1].partition_point(|&node| node <= film);
    let column_share =
        (film - FILM_W_M2_K[column]) / (FILM_W_M2_K[column + 1] - FILM_W_M2_K[column]);
    let start = |down: usize, across: usize| {
        ((row + down) * FILM_W_M2_K.len() + column + across) * EXCESS_K.len()
    };
    let corners = [start(0, 0), start(0, 1), start(1, 0), start(1, 1)];
    for (node, top) in hour.top_w_m2_k.iter_mut().enumerate() {
        let corner = |which: usize| top_w_m2_k[corners[which] + node];
        let low = corner(0) + column_share * (corner(1) - corner(0));
        let high = corner(2) + column_share * (corner(3) - corner(2));
        *top = low + row_share * (high - low);
    }
}

/// Solves the hour's row. The air stands for the empty state, and the heat of a sheet as warm as
/// the air is what goes to the sky without any excess.
fn solve_top(
    glazing: &Glazing,
    weather: &HourWeather,
    hour: &mut HourLoss,
) -> Result<(), YearError> {
    let around = weather.outdoors();
    let flux_w_m2 = |sheet_k: f64| {
        glazing.upwards(sheet_k, &around, &[]).map(|up| up.flux_w_m2).map_err(panel_error)
    };
    hour.empty_k = weather.air_k;
    hour.to_sky_w_m2 = flux_w_m2(weather.air_k)?;
    for (top, excess_k) in hour.top_w_m2_k.iter_mut().zip(EXCESS_K.map(answerable)) {
        *top = (flux_w_m2(weather.air_k + excess_k)? - hour.to_sky_w_m2) / excess_k;
    }
    Ok(())
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

impl HourWeather {
    /// The same as what surrounds a stack of covers.
    pub fn outdoors(&self) -> Outdoors {
        Outdoors {
            ambient_k: self.air_k,
            sky_k: self.sky_k,
            wind_film_w_m2_k: self.wind_film_w_m2_k,
        }
    }
}

/// One hour's losses, by the plate's temperature.
#[derive(Clone, Debug)]
pub struct HourLoss {
    /// What the cover would stand at without a plate behind it \[K\].
    pub empty_k: f64,
    /// Air outdoors \[K\].
    pub air_k: f64,
    /// What leaves straight to the sky whatever the plate's temperature, beside the rest: only
    /// where covers let long-wave light pass \[W/m2\].
    pub to_sky_w_m2: f64,
    top_w_m2_k: [f64; EXCESS_K.len()],
    rest_w_m2_k: [f64; EXCESS_K.len()],
}

impl HourLoss {
    /// An hour that has not been filled yet.
    pub(crate) fn blank() -> HourLoss {
        HourLoss {
            empty_k: 0.0,
            air_k: 0.0,
            to_sky_w_m2: 0.0,
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
        self.to_sky_w_m2
            + conductances.top_w_m2_k * (plate_k - self.empty_k)
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
