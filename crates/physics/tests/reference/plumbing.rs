//! Fittings, velocities, pressures round the loop, scrap pumps and bare pipes.

use crate::circuit::{medium, parabola, run, thick};
use crate::support::{hydraulics, thermal};
use physics::circuit::friction::{FrictionMethod, friction_churchill_1977};
use physics::circuit::harp::{Harp, harp_flow};
use physics::circuit::network::Medium;
use physics::circuit::network::Path;
use physics::circuit::pipe::{Run, fitting_drop_pa, fitting_multiplied, static_pa};
use physics::circuit::pressure::{Point, Round, open_joint_pa, pressures};
use physics::circuit::pump::{balance, head_m};
use physics::circuit::scrap_pump::{BucketTest, bucket_head_m, curve_of_two};
use physics::circuit::still_air::{BarePipe, bare_film};
use physics::circuit::survey::pressure_at;
use physics::circuit::velocity::{
    CARRY_HEATING_M_S, CARRY_SOLAR_M_S, COPPER_EROSION_M_S, COPPER_NOISE_M_S, COPPER_SLUDGE_M_S,
    CopperRule, bubble_rise_m_s, copper_limit_m_s,
};
use physics::circuit::{Holding, Joint, Layout, Pump, PumpPlace};
use physics::matter::fluid::{Fluid, boiling_k, properties, saturation_k, vapour_pressure_pa};
use physics::panel::HarpConnection;
use physics::store::convection::nusselt_churchill_chu_1975;
use physics::{GRAVITY_M_S2, ZERO_CELSIUS_K};
use std::f64::consts::FRAC_PI_4;

/// Closed form of another hand; tolerance 1e-5.
#[test]
fn b_av_bubbles() {
    for id in ["B-AV-01", "B-AV-03"] {
        let case = hydraulics(id);
        case.check("v", bubble_rise_m_s(case.given("bore_m")).unwrap());
    }
    let case = hydraulics("B-AV-04");
    case.check("hydronic_rule", CARRY_HEATING_M_S);
    case.check("solar_text_rule", CARRY_SOLAR_M_S);
}

/// Published limits; the tolerance is the file's. Of the American span above 60 C ours is the
/// upper end.
#[test]
fn b_vm_copper_limits() {
    let american = |celsius: f64| copper_limit_m_s(CopperRule::American, celsius + ZERO_CELSIUS_K);
    let case = hydraulics("B-VM-01");
    case.check("cold", american(10.0));
    case.check("hot_to_60C", american(60.0));
    case.check("above_60C_high", american(61.0));
    assert!(case.expected("above_60C_low") < american(61.0));
    let case = hydraulics("B-VM-02");
    for celsius in case.given_list("T_C") {
        let got = copper_limit_m_s(CopperRule::British, celsius + ZERO_CELSIUS_K);
        case.check(&format!("v_{celsius}"), got);
    }
    let case = hydraulics("B-VM-04");
    case.check("sludge_below", COPPER_SLUDGE_M_S);
    case.check("noise_above", COPPER_NOISE_M_S);
    case.check("erosion_above", COPPER_EROSION_M_S);
}

/// The handbook's fT for steel pipe of half an inch to an inch and a quarter (bores of schedule
/// 40), as the note of B-K-01 has them from memory: 5 %, its own rounding to two figures and its
/// older edition. The half-inch elbow is the note's 0.81.
#[test]
fn b_k_01_turbulent_factors() {
    let elbow = hydraulics("B-K-01").expected("elbow_90_std");
    for (bore_mm, printed) in [(15.80, 0.027), (20.93, 0.025), (26.64, 0.023), (35.05, 0.022)] {
        let got = fitting_multiplied(1.0, bore_mm / 1e3).unwrap();
        assert!((got / printed - 1.0).abs() < 0.05, "{bore_mm} mm: {got} against {printed}");
    }
    let half_inch = fitting_multiplied(elbow, 0.0158).unwrap();
    assert!((half_inch / 0.81 - 1.0).abs() < 0.05, "{half_inch}");
}

/// Two bores one after the other, two bends of radius 1.5 diameters and a reducing elbow, and 22 m
/// up: 2.6 bar by the handbook, 2 %. Its friction factor is given; a bend of that radius is 14 fT
/// in the same handbook (from memory).
#[test]
fn b_cr_03_two_bores_and_a_rise() {
    let case = hydraulics("B-CR-03");
    let water = properties(Fluid::Water, case.given("T_C") + ZERO_CELSIUS_K).unwrap();
    let flow_m3_s = case.given("flow_L_min") / 60e3;
    let lost_pa = |bore_m: f64, length_m: f64, bends: f64| {
        let velocity_m_s = flow_m3_s / (FRAC_PI_4 * bore_m * bore_m);
        let figure =
            case.given("f") * length_m / bore_m + bends * fitting_multiplied(14.0, bore_m).unwrap();
        fitting_drop_pa(figure, water.density_kg_m3, velocity_m_s)
    };
    let whole_pa = lost_pa(case.given("bore1_mm") / 1e3, case.given("L1_m"), 1.0)
        + lost_pa(case.given("bore2_mm") / 1e3, case.given("L2_m"), 2.0)
        + static_pa(water.density_kg_m3, case.given("rise_m"));
    case.check("dp", whole_pa / 1e5);
}

/// G-16: tank one metre above the panel, the feed at the pump's inlet, the pump six metres below.
/// Its coil is part of the way down; tolerance 1e-5.
#[test]
fn g_16_pressures_round_an_open_loop() {
    let case = hydraulics("G-16");
    let water = medium(&case, FrictionMethod::Churchill1977);
    let [up, panel, down] = ["up", "panel", "down"].map(|name| run(&case, name));
    let round = Path::Series(vec![up.clone(), panel.clone(), down.clone()]);
    let point = balance(&parabola(&case), &round, &water).unwrap();
    let lost_pa = |path: &Path| path.drop_pa(point.flow_kg_s, &water).unwrap();
    let level_m = case.given("tank_level_above_panel_m");
    let layout = Layout {
        panel_bottom_m: 0.0,
        panel_top_m: 0.0,
        highest_m: 0.0,
        pump_m: -case.given("pump_below_panel_m"),
        pump_place: PumpPlace::AfterCoil,
        joint: Joint::PumpInlet,
        holding: Holding::HeaderTank { level_m, room_m3: None },
    };
    let density_kg_m3 = case.given("rho");
    let points = pressures(
        &layout,
        &Round {
            density_kg_m3,
            pump_pa: point.head_m * density_kg_m3 * GRAVITY_M_S2,
            return_pipe_pa: lost_pa(&up),
            panel_pa: lost_pa(&panel),
            flow_pipe_pa: lost_pa(&down),
            coil_pa: 0.0,
            coil_m: (-6.0, -6.0),
            joint_pa: open_joint_pa(case.given("p_atm"), density_kg_m3, level_m - layout.pump_m),
        },
    )
    .unwrap();
    let at = |point| pressure_at(&points, point).unwrap().pressure_pa;
    case.check("p_panel_in", at(Point::PanelIn));
    case.check("p_panel_out", at(Point::PanelOut));
    let boils_c = boiling_k(Fluid::Water, at(Point::PanelOut)).unwrap() - ZERO_CELSIUS_K;
    case.check("T_boil_panel_out", boils_c);
}

/// Two points of G-05's pump, the second by bucket beyond that case's flow, give its flow back.
/// 2e-4: the curve is written as forty straight pieces, each off by less than a six-thousandth of
/// the head at its middle.
#[test]
fn a_scrap_pump_of_two_points_runs_as_the_whole_curve() {
    let case = hydraulics("G-05");
    let water = medium(&case, FrictionMethod::Churchill1977);
    let round = Path::Series(vec![
        run(&case, "main"),
        Path::Parallel(vec![run(&case, "A"), run(&case, "B")]),
    ]);
    let true_pump = parabola(&case);
    let hose = Run { bore_m: 0.0202, length_m: 3.0, roughness_m: 7e-6, fittings_loss: 0.0 };
    let flow_m3_s = 0.26 / case.given("rho");
    let dry = BucketTest { flow_m3_s, lift_m: 0.0, hose, water: water.fluid };
    // The bucket hangs as high as the true pump reaches through that hose at that flow.
    let lift_m = head_m(&true_pump, flow_m3_s).unwrap() - bucket_head_m(&dry).unwrap();
    let curve =
        curve_of_two(head_m(&true_pump, 0.0).unwrap(), &BucketTest { lift_m, ..dry }).unwrap();
    let got = balance(&Pump { curve, power_w: 0.0 }, &round, &water).unwrap();
    let expected_kg_s = case.expected("m");
    assert!((got.flow_kg_s / expected_kg_s - 1.0).abs() < 2e-4, "{}", got.flow_kg_s);
}

/// A printed example (recalled): its numbers are met to the case's 1.5 %, the film with our own
/// air too.
#[test]
fn st_13_a_hot_bare_pipe() {
    let case = thermal("ST-13");
    let (surface_k, air_k) =
        (case.given("t_surface_c") + ZERO_CELSIUS_K, case.given("t_air_c") + ZERO_CELSIUS_K);
    let outside_m = case.given("diameter_m");
    let rayleigh = GRAVITY_M_S2 * (surface_k - air_k) * outside_m.powi(3)
        / (0.5 * (surface_k + air_k) * case.given("nu_m2_s") * case.given("alpha_m2_s"));
    case.check("rayleigh", rayleigh);
    let nusselt = nusselt_churchill_chu_1975(rayleigh, case.given("prandtl"));
    case.check("nusselt", nusselt);
    case.check("h", nusselt * case.given("k_w_mk") / outside_m);
    let film = bare_film(&BarePipe { outside_m, emittance: 0.0, surface_k, air_k }).unwrap();
    assert!((film.convection_w_m2_k / case.recomputed("h") - 1.0).abs() < 0.015, "{film:?}");
    let lost_w_m = film.convection_w_m2_k * std::f64::consts::PI * outside_m * (surface_k - air_k);
    assert!((lost_w_m / case.recomputed("q_conv_w_m") - 1.0).abs() < 0.015, "{lost_w_m}");
}

/// ISO 12241's short rule for a dull pipe surface indoors, 8.5 + 0.05 times the difference (from
/// memory): 10 at 30 K, for pipes of 25 mm and more. A weathered 28 mm pipe is within a fifth, the
/// spread of emittances from dull to weathered.
#[test]
fn a_bare_pipe_meets_the_short_rule() {
    let pipe = BarePipe { outside_m: 0.028, emittance: 0.9, surface_k: 323.15, air_k: 293.15 };
    let film_w_m2_k = bare_film(&pipe).unwrap().whole_w_m2_k();
    assert!((film_w_m2_k / 10.0 - 1.0).abs() < 0.25, "{film_w_m2_k}");
}

/// The vapour of a fluid that boils under a pressure has that pressure. The two lines of
/// saturation part by 0.0076 K, which is 0.03 % of pressure.
#[test]
fn vapour_pressure_is_the_inverse_of_boiling() {
    for fluid in [
        Fluid::Water,
        Fluid::PropyleneGlycol { mass_share: 0.4 },
        Fluid::EthyleneGlycol { mass_share: 0.3 },
    ] {
        for pressure_pa in [0.5e5, 1.01325e5, 3e5] {
            let back_pa =
                vapour_pressure_pa(fluid, boiling_k(fluid, pressure_pa).unwrap()).unwrap();
            assert!((back_pa / pressure_pa - 1.0).abs() < 4e-4, "{fluid:?}: {back_pa}");
        }
    }
    assert!(saturation_k(0.5e5).unwrap() > 350.0);
}

/// Facilities criteria: with headers that lose no more than 0.3 of what a riser loses, no riser is
/// more than 5 % from the mean; aim at 0.1. At 0.1 our harp is well within that. At 0.3 it is 6.9 %
/// off: friction alone, without the recovery of velocity along a header that evens a real harp,
/// and which the criteria's figure may hold. The network itself meets independent solutions to
/// 1e-5 (B-HP), so the rule is quoted beside a computed spread and never in its place.
#[test]
fn b_mf_01_headers_against_risers() {
    let case = hydraulics("B-MF-01");
    let water = thick(983.2, 0.000466);
    let medium = Medium { fluid: water, method: FrictionMethod::Churchill1977 };
    let spread_at = |ratio: f64| {
        let run =
            |bore_m, length_m| Run { bore_m, length_m, roughness_m: 1.5e-6, fittings_loss: 0.0 };
        let flow_kg_s = 0.04;
        // The header's bore at which the whole flow, falling evenly along it, loses that share.
        let (mut low_m, mut high_m) = (0.006, 0.06);
        let harp = |header_bore_m: f64| Harp {
            risers: 8,
            riser: run(0.0068, 1.8),
            header: run(header_bore_m, 0.14),
            connection: HarpConnection::OppositeCorner,
        };
        let ratio_of = |header_bore_m: f64| {
            let got = harp_flow(&harp(header_bore_m), flow_kg_s, &medium).unwrap();
            let riser_pa: Vec<f64> = got
                .risers_kg_s
                .iter()
                .map(|flow| Path::Run(run(0.0068, 1.8)).drop_pa(*flow, &medium).unwrap())
                .collect();
            let mean_pa = riser_pa.iter().sum::<f64>() / 8.0;
            ((got.drop_pa - mean_pa) / mean_pa, got.risers_kg_s)
        };
        for _ in 0..60 {
            let middle_m = 0.5 * (low_m + high_m);
            if ratio_of(middle_m).0 > ratio { low_m = middle_m } else { high_m = middle_m }
        }
        let (_, flows) = ratio_of(high_m);
        flows.iter().map(|flow| (flow / (flow_kg_s / 8.0) - 1.0).abs()).fold(0.0, f64::max)
    };
    let (target, upper) =
        (spread_at(case.expected("target_ratio")), spread_at(case.expected("upper_limit")));
    let allowed = case.expected("deviation_at_upper_limit");
    assert!(target < allowed, "{target}");
    assert!((0.06..0.08).contains(&upper), "{upper} beside {allowed}");
}

/// Lengths of straight pipe that cost as much as a fitting, as two British sources have them,
/// against the handbook's multipliers in the same tube at 0.6 m/s of water of 60 C: within the
/// factor of two by which the sets are known to part.
#[test]
fn b_k_04_and_b_k_09_lengths_against_multipliers() {
    let water = properties(Fluid::Water, 333.15).unwrap();
    let (lengths, copper, multipliers) =
        (hydraulics("B-K-04"), hydraulics("B-K-09"), hydraulics("B-K-01"));
    let figure = |bore_m: f64, length_m: f64| {
        let reynolds = 0.6 * bore_m * water.density_kg_m3 / water.viscosity_pa_s;
        friction_churchill_1977(reynolds, 1.5e-6 / bore_m) * length_m / bore_m
    };
    for (size, bore_m) in [("15", 0.0136), ("22", 0.0202), ("28", 0.0262)] {
        let elbow = fitting_multiplied(multipliers.expected("elbow_90_std"), bore_m).unwrap();
        for got in [
            figure(bore_m, lengths.expected(&format!("elbow_{size}"))),
            figure(bore_m, copper.expected(&format!("cap_elbow_{size}"))),
            figure(bore_m, copper.expected(&format!("comp_elbow_{size}"))),
        ] {
            assert!((0.5..2.0).contains(&(got / elbow)), "{size} mm elbow: {got} against {elbow}");
        }
    }
}
