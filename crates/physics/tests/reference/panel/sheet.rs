//! From the sheet to the fluid.

use physics::ZERO_CELSIUS_K;
use physics::panel::fin::{
    FinAndTube, Gain, SheetInSun, f_prime, fin_efficiency, fin_parameter_1_m, flow_factor,
    heat_removal_parallel, mean_fluid_k, mean_plate_k, midway_k,
};
use physics::panel::serpentine::{Serpentine, heat_removal_serpentine};

use super::kelvin;
use crate::support::{Case, thermal};

/// FN-01 and FN-02, Duffie and Beckman example 6.5.1. Given: 0.5 mm copper, tubes every 150 mm, a
/// perfect bond. Expected: m 6.45, F 0.937, F' 0.841.
#[test]
fn fn_01_and_02_fin_and_collector_efficiency() {
    let case = thermal("FN-01");
    let fin = fin_of(&case);
    case.check("m_per_m", fin_parameter_1_m(&fin).unwrap());
    case.check("fin_eff", fin_efficiency(&fin).unwrap());
    let case = thermal("FN-02");
    case.check("f_prime", f_prime(&fin_of(&case)).unwrap());
}

/// FN-03, Duffie and Beckman example 6.7.1. Given: F' 0.841, 2 m2, 0.03 kg/s. Expected: F'' 0.948,
/// FR 0.797.
#[test]
fn fn_03_flow_factor_and_heat_removal() {
    let case = thermal("FN-03");
    let rate_w_k = case.given("flow_kg_s") * case.given("cp_j_kgk");
    let loss_w_k = case.given("area_m2") * case.given("ul_w_m2k");
    let factor = case.given("f_prime");
    case.check("f_dprime", flow_factor(rate_w_k / (loss_w_k * factor)).unwrap());
    case.check("fr", heat_removal_parallel(factor, loss_w_k, rate_w_k).unwrap());
}

/// FN-05, Duffie and Beckman example 6.9.1. Given: 1.76 MJ/m2 in an hour, inlet 40 C. Expected:
/// fluid 44 C, sheet 55 C on the mean.
#[test]
fn fn_05_mean_temperatures() {
    let case = thermal("FN-05");
    let gain = Gain {
        inlet_k: kelvin(case.given("t_in_c")),
        useful_w_m2: case.given("q_useful_mj_m2_h") * 1e6 / 3600.0,
        loss_w_m2_k: case.given("ul_w_m2k"),
        f_prime: case.given("fr") / case.given("f_dprime"),
        f_r: case.given("fr"),
    };
    case.check("t_fluid_mean_c", mean_fluid_k(&gain).unwrap() - ZERO_CELSIUS_K);
    case.check("t_plate_mean_c", mean_plate_k(&gain).unwrap() - ZERO_CELSIUS_K);
}

/// FN-06, a printed tutorial. Given: sheet over the tubes at 30 and 35 C. Expected: midway 36.80
/// and 41.36 C.
#[test]
fn fn_06_midway_between_tubes() {
    let case = thermal("FN-06");
    let outside_m = case.given("tube_outside_m");
    let fin = FinAndTube {
        spacing_m: case.given("spacing_m"),
        outside_m,
        bore_m: outside_m,
        thickness_m: case.given("plate_thick_m"),
        conductivity_w_m_k: case.given("plate_k_w_mk"),
        loss_w_m2_k: case.given("ul_w_m2k"),
        film_w_m2_k: f64::INFINITY,
        bond_w_m_k: f64::INFINITY,
        wall_conductivity_w_m_k: f64::INFINITY,
    };
    let midway: Vec<f64> = case
        .given_list("t_plate_over_tube_c")
        .iter()
        .map(|&over_tube_c| {
            let sheet = SheetInSun {
                over_tube_k: kelvin(over_tube_c),
                ambient_k: kelvin(case.given("t_ambient_c")),
                absorbed_w_m2: case.given("absorbed_w_m2"),
            };
            midway_k(&fin, &sheet).unwrap() - ZERO_CELSIUS_K
        })
        .collect();
    case.check_list("t_mid_c", &midway);
}

/// FN-08. Given: bonds of 5 to 100 W/(m K) and a perfect one. Expected: F' 0.700 to 0.841.
#[test]
fn fn_08_bond() {
    let case = thermal("FN-08");
    let with_bond = |bond_w_m_k| f_prime(&FinAndTube { bond_w_m_k, ..fin_of(&case) }).unwrap();
    let bonds: Vec<f64> = case.given_list("bond_w_mk").into_iter().map(with_bond).collect();
    case.check_list("f_prime", &bonds);
    case.check("f_prime_perfect", with_bond(f64::INFINITY));
}

/// FN-09. Given: two legs at two spacings. Expected: FR 0.7945 and 0.7961 by another hand's matrix
/// exponential; the same tubes side by side 0.8051 and 0.7972.
#[test]
fn fn_09_serpentine_of_two_legs() {
    let case = thermal("FN-09");
    let rate_w_k = case.given("flow_total_kg_s") * case.given("cp_j_kgk");
    let (mut serpentine, mut parallel) = (Vec::new(), Vec::new());
    for (spacing_m, leg_length_m) in
        case.given_list("spacing_m").into_iter().zip(case.given_list("leg_length_m"))
    {
        let bore_m = case.given("bore_m");
        let fin = FinAndTube {
            spacing_m,
            outside_m: bore_m,
            bore_m,
            thickness_m: case.given("plate_thick_m"),
            conductivity_w_m_k: case.given("plate_k_w_mk"),
            loss_w_m2_k: case.given("ul_w_m2k"),
            film_w_m2_k: case.given("h_fluid_w_m2k"),
            bond_w_m_k: f64::INFINITY,
            wall_conductivity_w_m_k: f64::INFINITY,
        };
        let legs = case.given("legs");
        let given = Serpentine {
            fin,
            rim_m: 0.5 * spacing_m,
            legs: legs as u32,
            leg_length_m,
            capacity_rate_w_k: rate_w_k,
        };
        serpentine.push(heat_removal_serpentine(&given).unwrap());
        let loss_w_k = legs * spacing_m * leg_length_m * fin.loss_w_m2_k;
        parallel.push(heat_removal_parallel(f_prime(&fin).unwrap(), loss_w_k, rate_w_k).unwrap());
    }
    case.check_list("fr_serpentine", &serpentine);
    case.check_list("fr_parallel", &parallel);
}

fn fin_of(case: &Case) -> FinAndTube {
    FinAndTube {
        spacing_m: case.given("spacing_m"),
        outside_m: case.given("tube_width_on_plate_m"),
        bore_m: case.given("tube_bore_m"),
        thickness_m: case.given("plate_thick_m"),
        conductivity_w_m_k: case.given("plate_k_w_mk"),
        loss_w_m2_k: case.given("ul_w_m2k"),
        film_w_m2_k: case.given("h_fluid_w_m2k"),
        bond_w_m_k: f64::INFINITY,
        // The examples know no wall.
        wall_conductivity_w_m_k: f64::INFINITY,
    }
}
