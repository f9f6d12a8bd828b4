//! Seams that are not as they should be.

use physics::panel::fin::{FinAndTube, f_prime, heat_removal_parallel};
use physics::panel::route::{Route, Stretch};
use plate::{Grid, PlateError, Question, bonds_along, even_bond_w_m_k, picture, study};

use crate::samples::harp;

/// The harp's six tubes on a strip of sheet each.
fn strips() -> Question {
    let cuts_m = (1..6).map(|at| 0.15 * f64::from(at)).collect();
    let route = Route { cuts_m, ..harp().route };
    // Whole cells to a strip, on twice as large cells too.
    Question { route, grid: Grid { columns: 96, rows: 60 }, ..harp() }
}

/// Given: six strips, one tube not bonded at all along its strip. Expected: it costs the heat of one
/// strip, a sixth of `A FR (S - U (Ti - Ta))` (Duffie and Beckman 2006, eq. 6.7.6), since nothing
/// passes from strip to strip. Tolerance 0.1 %, as of the chain itself.
#[test]
fn a_strip_without_bond_costs_its_own_heat() {
    let mut question = strips();
    question.stretches = vec![Stretch { tube: 3, from_m: 0.0, to_m: 1.8, bond_w_m_k: 0.0 }];
    let studied = study(&question).unwrap();
    let fin = FinAndTube {
        spacing_m: 0.15,
        outside_m: 0.012,
        bore_m: 0.010,
        thickness_m: 0.0005,
        conductivity_w_m_k: 385.0,
        loss_w_m2_k: 7.0,
        film_w_m2_k: 400.0,
        bond_w_m_k: 30.0,
        wall_conductivity_w_m_k: 340.0,
    };
    let strip_m2 = 0.15 * 1.8;
    let rate_w_k = 0.03 / 6.0 * 4190.0;
    let f_r = heat_removal_parallel(f_prime(&fin).unwrap(), strip_m2 * 7.0, rate_w_k).unwrap();
    let strip_w = strip_m2 * f_r * (800.0 - 7.0 * 10.0);
    let cost = studied.costs[0];
    assert!((cost.cost_w / strip_w - 1.0).abs() < 1e-3, "{} against {strip_w}", cost.cost_w);
    assert!(cost.tolerance_w < 0.01 * cost.cost_w, "{cost:?}");
}

/// Given: a stretch with the very bond of the rest. Expected: it costs nothing, within its own
/// tolerance (exact).
#[test]
fn a_stretch_like_the_rest_costs_nothing() {
    let mut question = harp();
    question.grid = Grid { columns: 90, rows: 60 };
    question.stretches = vec![Stretch { tube: 1, from_m: 0.31, to_m: 0.77, bond_w_m_k: 30.0 }];
    let cost = study(&question).unwrap().costs[0];
    assert!(cost.cost_w.abs() < 0.01, "{cost:?}");
    assert!(cost.cost_w.abs() <= cost.tolerance_w, "{cost:?}");
}

/// Given: every tube bonded with 8 W/(m K) by stretches over its whole length, on a sheet whose rest
/// would have 30. Expected: an even bond of 8 (exact); given two missed seams: an even bond that
/// gives the same heat, below 30, and every seam alone costs less than both.
#[test]
fn an_even_bond_stands_in_for_stretches() {
    let mut question = harp();
    question.grid = Grid { columns: 90, rows: 60 };
    question.stretches =
        (0..6).map(|tube| Stretch { tube, from_m: 0.0, to_m: 1.8, bond_w_m_k: 8.0 }).collect();
    let alike = even_bond_w_m_k(&question).unwrap();
    assert!((alike - 8.0).abs() < 1e-3, "{alike}");

    question.stretches = vec![
        Stretch { tube: 0, from_m: 0.2, to_m: 0.9, bond_w_m_k: 0.5 },
        Stretch { tube: 4, from_m: 1.0, to_m: 1.8, bond_w_m_k: 0.5 },
    ];
    let even = even_bond_w_m_k(&question).unwrap();
    assert!(even < 30.0 && even > 5.0, "{even}");
    let missed_w = picture(&question).unwrap().useful_w;
    let stand_in = Question { bond_w_m_k: even, stretches: Vec::new(), ..question.clone() };
    let even_w = picture(&stand_in).unwrap().useful_w;
    assert!((even_w / missed_w - 1.0).abs() < 2e-6, "{even_w} against {missed_w}");
}

/// Given: stretches that overlap, that reach beyond the tube, that are no stretches. Expected: errors
/// with the numbers; given two that touch: five pieces without gaps (by hand).
#[test]
fn stretches_are_laid_end_to_end() {
    let stretch = |from_m: f64, to_m: f64| Stretch { tube: 0, from_m, to_m, bond_w_m_k: 1.0 };
    let bonds = |stretches: &[Stretch]| bonds_along(0, 2.0, 30.0, stretches);
    let laid = bonds(&[stretch(1.2, 1.5), stretch(0.5, 0.8), stretch(0.8, 1.0)]).unwrap();
    let ends: Vec<f64> = laid.iter().map(|bond| bond.to_m).collect();
    assert_eq!(ends, [0.5, 0.8, 1.0, 1.2, 1.5, 2.0]);
    let overlap = bonds(&[stretch(0.5, 0.8), stretch(0.7, 0.9)]).unwrap_err();
    assert_eq!(overlap, PlateError::Overlap { tube: 0, from_m: 0.7, until_m: 0.8 });
    let beyond = bonds(&[stretch(1.5, 2.1)]).unwrap_err();
    assert_eq!(beyond, PlateError::Beyond { tube: 0, to_m: 2.1, length_m: 2.0 });
    assert!(bonds(&[stretch(1.5, 1.4)]).is_err());
    assert!(bonds(&[Stretch { bond_w_m_k: -1.0, ..stretch(0.1, 0.2) }]).is_err());
}
