//! The coil and the cistern against worked examples and independent calculation.

use crate::support::{hydraulics, thermal};
use physics::matter::fluid::Fluid;
use physics::panel::Tube;
use physics::store::coil::{
    CoilMoment, StillWater, coil_conductance, coil_conductance_by, effectiveness,
};
use physics::store::convection::nusselt_still;
use physics::store::{Coil, CoilDirection};
use physics::{GRAVITY_M_S2, ZERO_CELSIUS_K};

/// The coil of a C case: straight legs.
fn coil(outside_m: f64, bore_m: f64, length_m: f64) -> Coil {
    Coil {
        tube: Tube {
            outside_m,
            bore_m,
            conductivity_w_m_k: 340.0,
            density_kg_m3: 8940.0,
            heat_capacity_j_kg_k: 385.0,
            roughness_m: 1.5e-6,
        },
        length_m,
        bottom_height_m: 0.05,
        top_height_m: 0.25,
        turn_diameter_m: f64::INFINITY,
        direction: CoilDirection::Down,
    }
}

#[test]
fn c_coils_in_still_water() {
    for id in ["C-01", "C-03", "C-05"] {
        let case = hydraulics(id);
        let mut coil = coil(case.given("Do_m"), case.given("Di_m"), case.given("L_m"));
        coil.tube.conductivity_w_m_k = case.given("k_wall");
        let fluid_k = case.given("T_inside_bulk_C") + ZERO_CELSIUS_K;
        let water_k = case.given("T_still_C") + ZERO_CELSIUS_K;
        let flow_kg_s = case.given("m_dot");
        let got = coil_conductance(&coil, Fluid::Water, flow_kg_s, fluid_k, water_k).unwrap();
        case.check("Re", got.reynolds);
        case.check("h_in", got.inside_w_m2_k);
        case.check("h_out", got.outside_w_m2_k);
        case.check("T_wall_out", got.wall_k - ZERO_CELSIUS_K);
        case.check("UA", got.ua_w_k);
        case.check("U_outer", got.outer_w_m2_k(&coil));
        let rate_w_k = flow_kg_s * case.given("inside_cp");
        case.check("effectiveness", effectiveness(got.ua_w_k, rate_w_k).unwrap());
    }
}

#[test]
fn c_11_another_relation_outside() {
    let like = hydraulics("C-01");
    let coil = coil(like.given("Do_m"), like.given("Di_m"), like.given("L_m"));
    let moment = CoilMoment {
        fluid: Fluid::Water,
        flow_kg_s: like.given("m_dot"),
        fluid_k: like.given("T_inside_bulk_C") + ZERO_CELSIUS_K,
        water_k: like.given("T_still_C") + ZERO_CELSIUS_K,
    };
    let got = coil_conductance_by(StillWater::XinEbadian1996, &coil, &moment).unwrap();
    let case = hydraulics("C-11");
    case.check("h_out", got.outside_w_m2_k);
    case.check("UA", got.ua_w_k);
}

#[test]
fn st_08_effectiveness() {
    let case = thermal("ST-08");
    let got: Vec<f64> =
        case.given_list("ntu").iter().map(|ntu| effectiveness(*ntu, 1.0).unwrap()).collect();
    case.check_list("effectiveness", &got);
}

/// A heated rod: its surface settles where film times area times difference is the power.
#[test]
fn st_09_heated_rod() {
    let case = thermal("ST-09");
    let diameter_m = case.given("diameter_m");
    let area_m2 = std::f64::consts::PI * diameter_m * case.given("length_m");
    let nu_m2_s = case.given("nu_m2_s");
    let prandtl = case.given("prandtl");
    let mut difference_k = 40.0;
    for _ in 0..50 {
        let rayleigh = GRAVITY_M_S2 * case.given("beta_1_k") * difference_k * diameter_m.powi(3)
            / (nu_m2_s * nu_m2_s)
            * prandtl;
        let nusselt = nusselt_still(StillWater::ChurchillChu1975, rayleigh, prandtl).unwrap();
        let film_w_m2_k = nusselt * case.given("k_w_mk") / diameter_m;
        difference_k = case.given("power_w") / (film_w_m2_k * area_m2);
    }
    case.check("t_surface_c", case.given("t_water_c") + difference_k);
}

#[test]
fn st_11_thin_wire() {
    let case = thermal("ST-11");
    let got: Vec<f64> = case
        .given_list("rayleigh")
        .iter()
        .map(|ra| {
            nusselt_still(StillWater::ChurchillChuLaminar1975, *ra, case.given("prandtl")).unwrap()
        })
        .collect();
    case.check_list("nusselt", &got);
}

/// Three relations on one tube, with the case's own properties.
#[test]
fn st_14_three_relations() {
    let case = thermal("ST-14");
    let (diameter_m, nu_m2_s) = (case.given("diameter_m"), case.given("nu_m2_s"));
    let prandtl = case.given("prandtl");
    let rayleigh = GRAVITY_M_S2 * case.given("beta_1_k") * case.given("dt_k") * diameter_m.powi(3)
        / (nu_m2_s * nu_m2_s)
        * prandtl;
    case.check("rayleigh", rayleigh);
    for (name, relation) in [
        ("h_churchill_chu", StillWater::ChurchillChu1975),
        ("h_morgan", StillWater::Morgan1975),
        ("h_coil_rule_0p9", StillWater::FarringtonBingham1986),
    ] {
        let nusselt = nusselt_still(relation, rayleigh, prandtl).unwrap();
        case.check(name, nusselt * case.given("k_w_mk") / diameter_m);
    }
}

/// Laws: finite at no difference, the wall between fluid and water on either side, more flow
/// never less conductance, a helix never less than straight legs by more than the regimes' own
/// disagreement.
#[test]
fn a_coil_keeps_the_laws() {
    let mut wound = coil(0.015, 0.0136, 6.0);
    wound.turn_diameter_m = 0.3;
    for coil in [coil(0.015, 0.0136, 6.0), wound] {
        for relation in [
            StillWater::ChurchillChu1975,
            StillWater::ChurchillChuLaminar1975,
            StillWater::Morgan1975,
            StillWater::XinEbadian1996,
            StillWater::FarringtonBingham1986,
        ] {
            let at = |flow_kg_s: f64, difference_k: f64| {
                let fluid = Fluid::PropyleneGlycol { mass_share: 0.3 };
                let water_k = 300.0;
                let moment =
                    CoilMoment { fluid, flow_kg_s, fluid_k: water_k + difference_k, water_k };
                coil_conductance_by(relation, &coil, &moment).unwrap()
            };
            let still = at(0.04, 0.0);
            assert!(still.ua_w_k > 0.0 && still.ua_w_k.is_finite());
            assert!((at(0.04, 1e-9).ua_w_k / still.ua_w_k - 1.0).abs() < 0.3, "no step at none");
            for difference_k in [-20.0, -1.0, 0.1, 5.0, 40.0] {
                let wall_k = at(0.04, difference_k).wall_k;
                let share = (wall_k - 300.0) / difference_k;
                assert!((0.0..=1.0).contains(&share), "{relation:?} {difference_k}: {wall_k}");
            }
            let mut last = 0.0;
            for step in 0..60 {
                let ua_w_k = at(0.005 * f64::from(step), 20.0).ua_w_k;
                assert!(ua_w_k >= last, "{relation:?}, {step}: {ua_w_k} after {last}");
                last = ua_w_k;
            }
        }
    }
}

#[test]
fn impossible_coils_are_said() {
    let good = coil(0.015, 0.0136, 6.0);
    let at = |coil: &Coil, flow_kg_s| {
        coil_conductance(coil, Fluid::Water, flow_kg_s, 330.0, 300.0).is_err()
    };
    assert!(!at(&good, 0.0));
    assert!(at(&good, -0.1));
    assert!(at(&good, f64::NAN));
    assert!(at(&Coil { length_m: 0.0, ..good }, 0.1));
    assert!(at(&Coil { turn_diameter_m: 0.0, ..good }, 0.1));
    assert!(coil_conductance(&good, Fluid::Water, 0.1, f64::NAN, 300.0).is_err());
    assert!(effectiveness(10.0, 0.0).is_err());
}
