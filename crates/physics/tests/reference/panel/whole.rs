//! The panel as a whole: heat curve, heat capacity, rows of panels.

use physics::panel::array::{
    ExchangerLoop, exchanger_factor_de_winter_1975, series_factor_oonk_1979,
};
use physics::panel::capacity::{capacity_j_k, time_constant_s};
use physics::panel::curve::HeatCurve;
use physics::panel::{
    BoxAir, Built, DiffuseAngle, Edge, Fins, Layer, Panel, Passage, Sheet, Tube, TubePattern, Tubes,
};

use super::pane;
use crate::support::{Case, thermal};

/// SY-01, Duffie and Beckman example 10.2.1. Given: equal flows, effectiveness 0.7. Expected:
/// FR'/FR 0.967.
#[test]
fn sy_01_exchanger_penalty() {
    let case = thermal("SY-01");
    let given = ExchangerLoop {
        panel_loss_w_k: case.given("frul_w_m2k"),
        panel_rate_w_k: case.given("collector_flow_kg_s_m2") * case.given("cp_collector_j_kgk"),
        store_rate_w_k: case.given("tank_flow_kg_s_m2") * case.given("cp_tank_j_kgk"),
        effectiveness: case.given("effectiveness"),
    };
    case.check("ratio", exchanger_factor_de_winter_1975(&given).unwrap());
}

/// SY-03, Kalogirou 2009 example 4.1. Given: five panels in a row. Expected: K 0.19, factor 0.686
/// (the book rounds K before it goes on).
#[test]
fn sy_03_panels_in_a_row() {
    let case = thermal("SY-03");
    let lost = case.given("area_each_m2") * case.given("fr1ul1_w_m2k")
        / (case.given("flow_kg_s") * case.given("cp_j_kgk"));
    case.check("k", lost);
    case.check("factor", series_factor_oonk_1979(case.given("n") as u32, lost).unwrap());
}

/// SY-06, a certified flat plate. Given: its three coefficients. Expected: its six printed powers.
#[test]
fn sy_06_heat_curve() {
    let case = thermal("SY-06");
    let curve = curve_of(&case);
    let sun_w_m2 = case.given("g_w_m2");
    let rises_k = case.given_list("dt_k");
    let powers: Vec<f64> =
        rises_k.iter().map(|&rise_k| curve.power_w_m2(sun_w_m2, rise_k)).collect();
    case.check_list("power", &powers);
}

/// ST-01. Given: the same curve, 1000 W/m2, 30 C. Expected: it ends at 158.2 C, by hand; the
/// certified stagnation is 31 K above, so the curve is no judge of what must stand the heat.
#[test]
fn st_01_curve_extended_to_nought() {
    let case = thermal("ST-01");
    let rise_k = curve_of(&case).idle_rise_k(case.given("g_w_m2")).unwrap();
    let idle_c = case.given("t_ambient_c") + rise_k;
    let expected_c = case.expected("t_from_curve_c");
    assert!((idle_c - expected_c).abs() <= case.stated_tolerance("curve_abs"), "{idle_c}");
    assert!(case.expected("t_stagnation_certified_c") - idle_c > 30.0);
}

/// SY-11. Given: 7 kJ/(m2 K) on 2 m2, F'U 4.5, flow 167.6 W/K. Expected: 40.7 s.
#[test]
fn sy_11_time_constant() {
    let case = thermal("SY-11");
    let area_m2 = case.given("area_m2");
    let got = time_constant_s(
        case.given("c_eff_j_m2k") * area_m2,
        case.given("f_prime_ul_w_m2k") * area_m2,
        case.given("flow_capacity_w_k"),
    );
    case.check("time_constant_s", got.unwrap());
}

/// SY-10, a certified flat plate holds 10.6 kJ/(m2 K). Given: our own kind, 0.5 mm copper with 10
/// mm bore every 150 mm, water, half insulation. Expected: inside the file's plausible 5 to 20,
/// and 4.5 to 7 as its note reckons for such a panel.
#[test]
fn sy_10_heat_capacity_is_plausible() {
    let case = thermal("SY-10");
    let panel = copper_serpentine();
    let held = capacity_j_k(&panel, 4.17e6).unwrap() / panel.area_m2() / 1000.0;
    let [low, high] = case.stated_range("plausible_range");
    assert!((low..=high).contains(&held) && (4.5..=7.0).contains(&held), "{held} kJ/(m2 K)");
    assert!((low..=high).contains(&case.expected("c_eff")));
}

fn copper_serpentine() -> Panel {
    let wool = Layer {
        thickness_m: 0.05,
        conductivity_w_m_k: 0.038,
        conductivity_growth_1_k: 0.0,
        density_kg_m3: 45.0,
        heat_capacity_j_kg_k: 840.0,
    };
    Panel::Built(Box::new(Built {
        covers: vec![pane(&thermal("OP-04"))],
        diffuse_angle: DiffuseAngle::BrandemuehlBeckman1980,
        sheet: Sheet {
            length_m: 1.8,
            width_m: 0.9,
            thickness_m: 0.0005,
            conductivity_w_m_k: 340.0,
            density_kg_m3: 8940.0,
            heat_capacity_j_kg_k: 385.0,
            absorptance: 0.95,
            emittance: 0.93,
        },
        passage: Passage::Tubes(Tubes {
            tube: Tube {
                outside_m: 0.012,
                bore_m: 0.010,
                conductivity_w_m_k: 340.0,
                density_kg_m3: 8940.0,
                heat_capacity_j_kg_k: 385.0,
                roughness_m: 1.5e-6,
            },
            spacing_m: 0.15,
            bond_w_m_k: 30.0,
            stretches: Vec::new(),
            pattern: TubePattern::Serpentine { legs: 6, leg_length_m: 1.8 },
            fins: Fins::OneSheet,
        }),
        back: vec![wool],
        edge: Edge { layer: wool, area_m2: 0.0 },
        walls: None,
        box_air: BoxAir { changes_1_h: 0.0 },
        extra_capacity_j_k: 0.0,
    }))
}

fn curve_of(case: &Case) -> HeatCurve {
    HeatCurve {
        eta0: case.given("eta0_hem"),
        a1_w_m2_k: case.given("a1"),
        a2_w_m2_k2: case.given("a2"),
    }
}
