//! The panel against published answers.

mod light;
mod loss;
mod sheet;
mod whole;

use physics::ZERO_CELSIUS_K;
use physics::panel::Cover;

use crate::support::Case;

fn pane(case: &Case) -> Cover {
    Cover {
        gap_m: 0.025,
        walls: 1,
        index: case.given("n"),
        extinction_1_m: case.given("extinction_1_m"),
        thickness_m: case.given("thick_m"),
        emittance: 0.88,
        longwave_transmittance: 0.0,
        resistance_m2_k_w: 0.0,
        clean_share: 1.0,
        density_kg_m3: 2500.0,
        heat_capacity_j_kg_k: 750.0,
    }
}

fn kelvin(celsius: f64) -> f64 {
    celsius + ZERO_CELSIUS_K
}
