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
