//! A smooth made-up answer.

use std::f64::consts::PI;

use physics::panel::route::Route;
use plate::{Absorbed, Grid, Losses, Question, picture};

use crate::samples::harp;

/// Given: a sheet without tubes that loses 7 W/(m2 K) to air of 293.15 K, and light chosen so that
/// `T = 340 + 12 cos(pi x/W) cos(2 pi y/L)` is the exact answer (method of manufactured solutions,
/// Roache 1998: put T into the sheet's equation and read off the light). Expected: the largest error
/// falls with the square of the cell, order 1.9 or more between each two grids.
#[test]
fn a_smooth_answer_is_met_to_second_order() {
    let base = harp();
    let (wide_m, tall_m) = (base.sheet.width_m, base.sheet.length_m);
    let sheet_w_k = base.sheet.conductivity_w_m_k * base.sheet.thickness_m;
    let exact_k = |x_m: f64, y_m: f64| {
        340.0 + 12.0 * (PI * x_m / wide_m).cos() * (2.0 * PI * y_m / tall_m).cos()
    };
    let curl_1_m2 = (PI / wide_m).powi(2) + (2.0 * PI / tall_m).powi(2);
    let worst_k = |columns: usize| {
        let grid = Grid { columns, rows: 2 * columns };
        let at = |cell: usize| {
            let x_m = ((cell % grid.columns) as f64 + 0.5) * wide_m / grid.columns as f64;
            let y_m = ((cell / grid.columns) as f64 + 0.5) * tall_m / grid.rows as f64;
            exact_k(x_m, y_m)
        };
        let light = (0..grid.cells())
            .map(|cell| 7.0 * (at(cell) - 293.15) + sheet_w_k * curl_1_m2 * (at(cell) - 340.0))
            .collect();
        let drawn = picture(&Question {
            route: Route { pipes: Vec::new(), cuts_m: Vec::new() },
            shares: Vec::new(),
            absorbed: Absorbed::ByCell(light),
            losses: Losses::even(7.0, 293.15),
            grid,
            ..base.clone()
        })
        .unwrap();
        let errors = drawn.sheet_k.iter().enumerate().map(|(cell, sheet_k)| sheet_k - at(cell));
        errors.fold(0.0_f64, |most, error| most.max(error.abs()))
    };
    let errors_k: Vec<f64> = [8, 16, 32, 64, 128].into_iter().map(worst_k).collect();
    for pair in errors_k.windows(2) {
        let order = (pair[0] / pair[1]).log2();
        assert!(order >= 1.9, "order {order:.3}: {errors_k:?}");
    }
}
