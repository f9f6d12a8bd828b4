//! Sheets for the lab book.

use physics::panel::chain::FluidSide;
use physics::panel::route::{Leg, Pipe, Place, Route};
use physics::panel::{Sheet, Tube};
use plate::{Absorbed, FluidInTubes, Grid, Losses, Question};

/// A copper sheet of 0.9 m by 1.8 m with six risers every 150 mm, one loss everywhere and one film:
/// the fin-and-tube chain's own assumptions.
pub fn harp() -> Question {
    Question {
        sheet: copper(0.9, 1.8),
        tube: tube(0.012, 0.010),
        route: Route {
            pipes: (0..6).map(|at| riser(0.075 + 0.15 * f64::from(at), 1.8)).collect(),
            cuts_m: Vec::new(),
        },
        bond_w_m_k: 30.0,
        stretches: Vec::new(),
        shares: vec![1.0 / 6.0; 6],
        inlet_k: 303.15,
        flow_kg_s: 0.03,
        fluid: FluidInTubes::Even(FluidSide { heat_capacity_j_kg_k: 4190.0, film_w_m2_k: 400.0 }),
        absorbed: Absorbed::Even(800.0),
        losses: Losses::even(7.0, 293.15),
        grid: Grid { columns: 180, rows: 60 },
    }
}

/// Half a millimetre of copper.
pub fn copper(width_m: f64, length_m: f64) -> Sheet {
    Sheet {
        length_m,
        width_m,
        thickness_m: 0.0005,
        conductivity_w_m_k: 385.0,
        density_kg_m3: 8940.0,
        heat_capacity_j_kg_k: 385.0,
        absorptance: 0.95,
        emittance: 0.9,
    }
}

/// A copper tube.
pub fn tube(outside_m: f64, bore_m: f64) -> Tube {
    Tube {
        outside_m,
        bore_m,
        conductivity_w_m_k: 340.0,
        density_kg_m3: 8940.0,
        heat_capacity_j_kg_k: 385.0,
        roughness_m: 1.5e-6,
    }
}

/// A riser from the lower rim to the upper one.
pub fn riser(across_m: f64, length_m: f64) -> Pipe {
    Pipe {
        legs: vec![Leg {
            from: Place { across_m, up_m: 0.0 },
            to: Place { across_m, up_m: length_m },
        }],
    }
}
