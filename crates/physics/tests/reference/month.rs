//! The monthly correlation and the exchanger's penalty.

use physics::ZERO_CELSIUS_K;
use physics::panel::array::{ExchangerLoop, exchanger_factor_de_winter_1975};
use physics::panel::month::{
    HotWater, Month, USUAL_STORE_M, month_share, share_klein_beckman_duffie_1976,
};
use physics::store::coil::effectiveness;

use crate::support::{Case, hydraulics, thermal};

/// Madison's January, 50 m2.
fn madison(case: &Case) -> Month {
    Month {
        fr_loss_w_m2_k: case.given("frul_w_m2k"),
        fr_normal_efficiency: case.given("fr_tau_alpha_n"),
        exchanger_factor: case.given("frp_over_fr"),
        angle_factor: case.given("tau_alpha_ratio"),
        tilted_day_j_m2: case.given("h_tilt_mj_m2_day") * 1e6,
        ambient_k: case.given("t_ambient_c") + ZERO_CELSIUS_K,
        load_j: case.given("load_gj") * 1e9,
        area_m2: case.given("area_m2"),
        days: case.given("days") as u32,
        store_m: USUAL_STORE_M,
        hot_water: None,
    }
}

/// A January in Madison, with the book's figures, and another hand's recomputation to its five
/// figures: half a unit of the last. Half the panel is half of X and Y.
#[test]
fn mc_01_madison_in_january() {
    let case = thermal("MC-01");
    let got = month_share(&madison(&case)).unwrap();
    case.check("x", got.x);
    case.check("y", got.y);
    case.check("f", got.solar_share);
    let half = month_share(&Month { area_m2: 25.0, ..madison(&case) }).unwrap();
    for (name, value, digit) in [
        ("x", got.x, 1e-4),
        ("y", got.y, 1e-5),
        ("f", got.solar_share, 1e-5),
        ("x_25m2", half.x, 1e-4),
        ("y_25m2", half.y, 1e-5),
        ("f_25m2", half.solar_share, 1e-5),
    ] {
        let expected = case.recomputed(name);
        assert!((value - expected).abs() <= 0.51 * digit, "{name}: {value} {expected}");
    }
}

#[test]
fn mc_03_the_correlation_on_a_grid() {
    let case = thermal("MC-03");
    let got: Vec<f64> = case
        .given_rows("xy")
        .iter()
        .map(|row| share_klein_beckman_duffie_1976(row[0], row[1]).unwrap())
        .collect();
    case.check_list("f", &got);
}

/// X of a load of hot water alone over that of the same load, store as usual.
#[test]
fn mc_05_hot_water_alone() {
    let case = thermal("MC-05");
    let plain = Month {
        ambient_k: case.given("t_ambient_c") + ZERO_CELSIUS_K,
        ..madison(&thermal("MC-01"))
    };
    let hot_water = Some(HotWater {
        mains_k: case.given("t_mains_c") + ZERO_CELSIUS_K,
        hot_k: case.given("t_hot_c") + ZERO_CELSIUS_K,
    });
    let ratio =
        month_share(&Month { hot_water, ..plain }).unwrap().x / month_share(&plain).unwrap().x;
    case.check("x_ratio", ratio);
}

/// A handbook's rule and the polynomial part at the dim end; we keep the polynomial, brought to 0.
#[test]
fn mc_06_where_the_share_ends() {
    let case = thermal("MC-06");
    let got: Vec<f64> = case
        .given_list("y")
        .iter()
        .map(|y| share_klein_beckman_duffie_1976(case.given("x"), *y).unwrap())
        .collect();
    case.check_list("f_polynomial", &got);
    let zero = case.recomputed("y_at_polynomial_zero");
    let share = |y| share_klein_beckman_duffie_1976(case.given("x"), y).unwrap();
    assert!(share(zero - 1e-4) == 0.0 && share(zero + 1e-4) > 0.0);
}

/// A coil in a mixed cistern: still water takes any heat, so its rate is endless.
#[test]
fn c_12_and_c_14_penalty_of_a_coil() {
    for id in ["C-12", "C-14"] {
        let case = hydraulics(id);
        let rate_w_k = case.given("capacity_rate_W_K");
        let coil = effectiveness(case.given("UA"), rate_w_k).unwrap();
        case.check("effectiveness", coil);
        let factor = exchanger_factor_de_winter_1975(&ExchangerLoop {
            panel_loss_w_k: case.given("FR_UL") * case.given("area_m2"),
            panel_rate_w_k: rate_w_k,
            store_rate_w_k: f64::INFINITY,
            effectiveness: coil,
        });
        case.check("FRp_over_FR", factor.unwrap());
    }
}
