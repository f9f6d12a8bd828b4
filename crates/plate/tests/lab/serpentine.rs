//! Tubes to and fro.

use physics::panel::chain::FluidSide;
use physics::panel::route::{Leg, Pipe, Place, Route};
use plate::{Absorbed, FluidInTubes, Grid, Losses, Question, picture};

use crate::samples::{copper, harp, tube};
use crate::support::thermal;

/// FN-09. Given: two legs of one tube at two spacings, outer rims without loss. Expected: FR 0.7945
/// and 0.7961, exact by another hand (matrix exponential of the two coupled legs); its own
/// tolerance of 0.001.
#[test]
fn fn_09_two_legs_warm_each_other() {
    let case = thermal("FN-09");
    let mut removed = Vec::new();
    for (spacing_m, leg_length_m) in
        case.given_list("spacing_m").into_iter().zip(case.given_list("leg_length_m"))
    {
        let mut sheet = copper(2.0 * spacing_m, leg_length_m);
        sheet.conductivity_w_m_k = case.given("plate_k_w_mk");
        sheet.thickness_m = case.given("plate_thick_m");
        let bore_m = case.given("bore_m");
        let mut tube = tube(bore_m, bore_m);
        tube.conductivity_w_m_k = f64::INFINITY;
        let place = |across_m: f64, up_m: f64| Place { across_m, up_m };
        let (left_m, right_m) = (0.5 * spacing_m, 1.5 * spacing_m);
        let legs = vec![
            Leg { from: place(left_m, 0.0), to: place(left_m, leg_length_m) },
            Leg { from: place(right_m, leg_length_m), to: place(right_m, 0.0) },
        ];
        let loss_w_m2_k = case.given("ul_w_m2k");
        let drawn = picture(&Question {
            sheet,
            tube,
            route: Route { pipes: vec![Pipe { legs }], cuts_m: Vec::new() },
            bond_w_m_k: f64::INFINITY,
            shares: vec![1.0],
            inlet_k: 300.0,
            flow_kg_s: case.given("flow_total_kg_s"),
            fluid: FluidInTubes::Even(FluidSide {
                heat_capacity_j_kg_k: case.given("cp_j_kgk"),
                film_w_m2_k: case.given("h_fluid_w_m2k"),
            }),
            absorbed: Absorbed::Even(800.0),
            losses: Losses::even(loss_w_m2_k, 300.0),
            grid: Grid { columns: 80, rows: 200 },
            ..harp()
        })
        .unwrap();
        removed.push(drawn.useful_w / (800.0 * sheet.area_m2()));
    }
    case.check_list("fr_serpentine", &removed);
}

/// Given: a tube laid slantwise over the sheet and back, at all angles from level to upright, cut into
/// cells of 10, 5 and 2.5 mm. Expected: every piece of it counts (its length, by hand), heat is kept,
/// and the useful heat comes to rest: 5 mm within 0.1 % of 2.5 mm, and closer to it than 10 mm.
#[test]
fn a_slanting_tube_is_cut_without_loss() {
    let at = |across_m: f64, up_m: f64| Place { across_m, up_m };
    let points =
        [at(0.1, 0.1), at(0.8, 0.25), at(0.15, 0.9), at(0.6, 1.0), at(0.75, 1.7), at(0.1, 1.4)];
    let pipe = Pipe::through(&points);
    let length_m = pipe.length_m();
    let heat_w = |columns: usize| {
        let drawn = picture(&Question {
            route: Route { pipes: vec![pipe.clone()], cuts_m: Vec::new() },
            shares: vec![1.0],
            grid: Grid { columns, rows: 2 * columns },
            ..harp()
        })
        .unwrap();
        let last = drawn.tubes[0].last().unwrap();
        let laid_m: f64 = drawn.tubes[0].iter().map(|piece| piece.to_m - piece.from_m).sum();
        assert!((laid_m - length_m).abs() < 1e-9 && (last.to_m - length_m).abs() < 1e-9);
        assert!(drawn.residual_w.abs() < 1e-4, "{}", drawn.residual_w);
        drawn.useful_w
    };
    let (rough_w, usual_w, fine_w) = (heat_w(90), heat_w(180), heat_w(360));
    let off = |heat_w: f64| (heat_w / fine_w - 1.0).abs();
    assert!(off(usual_w) < 1e-3 && off(usual_w) < off(rough_w), "{rough_w} {usual_w} {fine_w}");
}

/// Given: places beside the sheet, no flow, shares that do not make a whole, light for too few cells.
/// Expected: errors.
#[test]
fn refuses_nonsense() {
    let off =
        Pipe::through(&[Place { across_m: 0.1, up_m: 0.1 }, Place { across_m: 1.0, up_m: 0.1 }]);
    let mut uneven = harp();
    uneven.shares[0] = 0.5;
    let mut thick = harp();
    thick.sheet.thickness_m = f64::NAN;
    for wrong in [
        Question {
            route: Route { pipes: vec![off], cuts_m: Vec::new() },
            shares: vec![1.0],
            ..harp()
        },
        Question { flow_kg_s: 0.0, ..harp() },
        Question { shares: vec![1.0], ..harp() },
        Question { inlet_k: f64::NAN, ..harp() },
        Question { absorbed: Absorbed::ByCell(vec![1.0; 3]), ..harp() },
        Question { grid: Grid { columns: 2000, rows: 2000 }, ..harp() },
        uneven,
        thick,
    ] {
        assert!(picture(&wrong).is_err(), "{wrong:?}");
    }
}
