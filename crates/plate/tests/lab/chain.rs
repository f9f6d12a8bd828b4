//! The picture against the fin-and-tube chain.

use physics::panel::fin::{FinAndTube, f_prime, heat_removal_parallel};
use plate::{FluidInTubes, Grid, Question, picture};

use crate::samples::harp;

/// Heat that the chain gives \[W\]: `A FR (S - U (Ti - Ta))` (Duffie and Beckman 2006, eq. 6.7.6),
/// for the harp's 800 W/m2, 7 W/(m2 K) and an inlet 10 K above the air.
fn chain_w(question: &Question) -> f64 {
    let FluidInTubes::Even(side) = question.fluid else { panic!("the chain takes one film") };
    let area_m2 = question.sheet.area_m2();
    let fin = FinAndTube {
        spacing_m: 0.15,
        outside_m: question.tube.outside_m,
        bore_m: question.tube.bore_m,
        thickness_m: question.sheet.thickness_m,
        conductivity_w_m_k: question.sheet.conductivity_w_m_k,
        loss_w_m2_k: 7.0,
        film_w_m2_k: side.film_w_m2_k,
        bond_w_m_k: question.bond_w_m_k,
        wall_conductivity_w_m_k: question.tube.conductivity_w_m_k,
    };
    let factor = f_prime(&fin).unwrap();
    let rate_w_k = question.flow_kg_s * side.heat_capacity_j_kg_k;
    let f_r = heat_removal_parallel(factor, area_m2 * 7.0, rate_w_k).unwrap();
    area_m2 * f_r * (800.0 - 7.0 * 10.0)
}

/// Given: a harp with even flow, one loss, one film; sheets from good copper to thin steel, bonds
/// from wired to perfect. Expected: the chain's heat. Tolerance 0.1 %, a tenth of what was asked:
/// what is left is heat led along the tubes' direction, which the chain leaves out, and the cells:
/// 5 mm, for the last sheet, whose fins bend sharply, 2.5 mm.
#[test]
fn a_harp_gains_what_the_chain_says() {
    for (conductivity_w_m_k, thickness_m, bond_w_m_k, columns) in [
        (385.0, 0.0005, 30.0, 180),
        (385.0, 0.0002, f64::INFINITY, 180),
        (200.0, 0.001, 5.0, 180),
        (50.0, 0.0006, 100.0, 180),
        (15.0, 0.0005, 1000.0, 360),
    ] {
        let grid = Grid { columns, rows: 60 };
        let mut question = Question { bond_w_m_k, grid, ..harp() };
        question.sheet.conductivity_w_m_k = conductivity_w_m_k;
        question.sheet.thickness_m = thickness_m;
        let drawn = picture(&question).unwrap();
        let off = drawn.useful_w / chain_w(&question) - 1.0;
        assert!(off.abs() < 0.001, "{conductivity_w_m_k} {bond_w_m_k}: {off:.2e}");
    }
}

/// Given: the same harp cut ever finer, the tube's strip of 12 mm now on whole cells, now not.
/// Expected: useful heat comes to rest, to second order in the cell: off the finest grid's (1 mm) by
/// no more than 0.5 % at 30 mm and by the square of the cell below that, and by less than 0.01 %
/// at 5 mm.
#[test]
fn useful_heat_comes_to_rest_as_the_grid_is_refined() {
    let heat_w = |columns: usize| {
        let grid = Grid { columns, rows: 2 * columns / 3 };
        picture(&Question { grid, ..harp() }).unwrap().useful_w
    };
    let finest_w = heat_w(900);
    for (columns, most) in [
        (30, 5e-3),
        (45, 2.3e-3),
        (60, 1.3e-3),
        (90, 5.6e-4),
        (120, 3.2e-4),
        (180, 1e-4),
        (300, 5e-5),
        (450, 2.3e-5),
    ] {
        let off = heat_w(columns) / finest_w - 1.0;
        assert!(off.abs() <= most, "{columns} columns: {off:.2e}");
    }
}
