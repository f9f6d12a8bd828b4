//! What holds whatever the numbers.

use physics::matter::fluid::Fluid;
use physics::panel::route::{Route, Stretch};
use plate::{Absorbed, FluidInTubes, Losses, Question, picture};
use proptest::prelude::*;

use crate::samples::harp;

/// Given: a sheet without tubes in even light. Expected: everywhere `Ta + S/U` (exact), 407.435 K.
#[test]
fn even_things_give_an_even_sheet() {
    let drawn = picture(&Question {
        route: Route { pipes: Vec::new(), cuts_m: Vec::new() },
        shares: Vec::new(),
        ..harp()
    })
    .unwrap();
    for sheet_k in &drawn.sheet_k {
        assert!((sheet_k - (293.15 + 800.0 / 7.0)).abs() < 1e-7, "{sheet_k}");
    }
}

/// Given: fluid that enters as warm as the air, and no light. Expected: nothing happens (exact).
#[test]
fn without_light_nothing_is_gained() {
    let drawn =
        picture(&Question { absorbed: Absorbed::Even(0.0), inlet_k: 293.15, ..harp() }).unwrap();
    assert!(drawn.useful_w.abs() < 1e-6 && (drawn.mean_k - 293.15).abs() < 1e-7);
}

/// Given: two cells lit in turn, fluid of endless flow. Expected: the one warms the other by as much
/// as the other the one (reciprocity of a symmetric matrix: Green's function of Fourier's law).
#[test]
fn what_one_place_does_to_another_the_other_does_to_it() {
    let base = Question { flow_kg_s: 1e4, inlet_k: 293.15, ..harp() };
    let (one, other) = (base.grid.columns * 20 + 31, base.grid.columns * 22 + 47);
    let warmed_k = |lit: usize, seen: usize| {
        let mut light = vec![0.0; base.grid.cells()];
        light[lit] = 1e5;
        let absorbed = Absorbed::ByCell(light);
        picture(&Question { absorbed, ..base.clone() }).unwrap().sheet_k[seen] - 293.15
    };
    let (there_k, back_k) = (warmed_k(one, other), warmed_k(other, one));
    assert!(there_k > 0.01, "{there_k}");
    assert!((there_k / back_k - 1.0).abs() < 1e-6, "{there_k} against {back_k}");
}

/// Given: half a metre of a riser's seam missed. Expected: the sheet there is hotter than before, and
/// less is gained; elsewhere, four spacings away, it stays within 0.1 K.
#[test]
fn a_missed_seam_is_hot() {
    let whole = picture(&harp()).unwrap();
    let missed = Stretch { tube: 2, from_m: 0.6, to_m: 1.1, bond_w_m_k: 0.0 };
    let drawn = picture(&Question { stretches: vec![missed], ..harp() }).unwrap();
    let cell = 28 * 180 + 75;
    assert!(drawn.sheet_k[cell] > whole.sheet_k[cell] + 10.0);
    assert!(drawn.useful_w < whole.useful_w - 1.0);
    assert!((drawn.hottest.place.across_m - 0.375).abs() < 0.076, "{:?}", drawn.hottest);
    let far = 28 * 180 + 165;
    assert!((drawn.sheet_k[far] - whole.sheet_k[far]).abs() < 0.1);
}

/// Given: real water, whose film follows its temperature and the tube's entry. Expected: the film
/// falls along each riser as the entry's help fades, and stays above its developed limit,
/// 4.36 k/D = 4.36 x 0.61/0.010 = 266 W/(m2 K) (even flux, any textbook).
#[test]
fn the_film_fades_from_the_entry() {
    let drawn = picture(&Question { fluid: FluidInTubes::Real(Fluid::Water), ..harp() }).unwrap();
    let films: Vec<f64> = drawn.tubes[0].iter().map(|station| station.film_w_m2_k).collect();
    assert!(films[0] > 3.0 * films[20]);
    assert!(films.iter().all(|film| *film > 260.0), "{films:?}");
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    /// Light taken up is carried away or lost, to the hundred-millionth of the heat that moves at which the
    /// method says it is still: what is taken up, what is lost and what the fluid carries off; no place is colder than the coldest or
    /// hotter than the hottest thing that acts on it; the fluid only warms.
    #[test]
    fn heat_is_kept(
        bond_w_m_k in 0.5..500.0_f64,
        loss_w_m2_k in 0.5..30.0_f64,
        flow_kg_s in 0.001..0.2_f64,
        inlet_rise_k in 0.0..60.0_f64,
        conductivity_w_m_k in 10.0..400.0_f64,
        from_m in 0.0..1.0_f64,
    ) {
        let mut question = harp();
        question.bond_w_m_k = bond_w_m_k;
        question.losses = Losses::even(loss_w_m2_k, 293.15);
        question.flow_kg_s = flow_kg_s;
        question.inlet_k = 293.15 + inlet_rise_k;
        question.sheet.conductivity_w_m_k = conductivity_w_m_k;
        question.stretches = vec![Stretch { tube: 1, from_m, to_m: from_m + 0.4, bond_w_m_k: 0.0 }];
        question.grid = plate::Grid { columns: 60, rows: 36 };
        let drawn = picture(&question).unwrap();
        let lost_w = drawn.absorbed_w - drawn.useful_w;
        let moving_w = drawn.absorbed_w + lost_w.abs() + drawn.useful_w.abs();
        prop_assert!(drawn.residual_w.abs() < 1e-8 * moving_w, "{} of {moving_w}", drawn.residual_w);
        let idle_k = 293.15 + 800.0 / loss_w_m2_k;
        prop_assert!(drawn.hottest.sheet_k <= idle_k.max(question.inlet_k) + 1e-5);
        prop_assert!(drawn.coldest.sheet_k >= idle_k.min(question.inlet_k) - 1e-5);
        prop_assert!(drawn.outlet_k <= idle_k.max(question.inlet_k) + 1e-5);
    }
}
