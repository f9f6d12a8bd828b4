//! Shut pipes and pressure trials against volume balances of another hand, and a field report.

use physics::ZERO_CELSIUS_K;
use physics::circuit::pressure_trial::{PressureTrial, Reading, lost_m3, tight_pressure_pa};
use physics::circuit::sealed::{
    Filling, PipeMaterial, SealedAnswer, ShutPipe, pipe_compliance_1_pa, sealed,
};
use physics::circuit::trial_rules::{Procedure, TrialRule, trial_pressure_pa};
use physics::matter::pressed::{PressedWater, pressed_water};

use crate::support::{Case, hydraulics};

const BAR_PA: f64 = 1e5;
const LITRE_M3: f64 = 1e-3;

fn pipe(case: &Case) -> ShutPipe {
    ShutPipe {
        outside_m: case.given("OD_m"),
        wall_m: case.given("wall_m"),
        material: PipeMaterial {
            elasticity_pa: case.given("E_Pa"),
            poisson: case.given("poisson"),
            expansion_1_k: case.given("alpha_1_K"),
        },
    }
}

/// Air-free water at a temperature and pressure.
fn full(water: PressedWater, celsius: f64, pressure_pa: f64) -> Filling {
    Filling { water, air_share: 0.0, pressure_pa, temperature_k: celsius + ZERO_CELSIUS_K }
}

/// Copper and plastic with the cases' own water.
#[test]
fn d_13_and_d_15_a_shut_pipe() {
    for (id, ours) in
        [("D-13", PipeMaterial::COPPER), ("D-15", PipeMaterial::CROSSLINKED_POLYETHYLENE)]
    {
        let case = hydraulics(id);
        let pipe = pipe(&case);
        assert_eq!(pipe.material, ours, "{id}");
        let water = PressedWater {
            expansion_1_k: case.given("beta_water_1_K"),
            compressibility_1_pa: case.given("kappa_water_1_Pa"),
        };
        let SealedAnswer { net_expansion_1_k, compliance_1_pa, rise_pa_k } =
            sealed(&pipe, &full(water, case.given("T_C"), 6.0 * BAR_PA)).unwrap();
        case.check("beta_minus_3alpha", net_expansion_1_k);
        case.check("compliance_total", compliance_1_pa);
        case.check("dp_dT", rise_pa_k / BAR_PA);
        case.check("mL_per_L_per_bar", compliance_1_pa * BAR_PA / LITRE_M3);
    }
}

/// The same two with our own water at 6 bar, the pressure the case's referee takes: 0.1 %, which
/// is what [`pressed_water`] claims for 20 C.
#[test]
fn d_13_and_d_15_with_our_own_water() {
    for id in ["D-13", "D-15"] {
        let case = hydraulics(id);
        let celsius = case.given("T_C");
        let water = pressed_water(celsius + ZERO_CELSIUS_K, 6.0 * BAR_PA).unwrap();
        for (got, given) in [
            (water.expansion_1_k, case.given("beta_water_1_K")),
            (water.compressibility_1_pa, case.given("kappa_water_1_Pa")),
        ] {
            assert!((got / given - 1.0).abs() < 1e-3, "{id}: {got} {given}");
        }
        let got = sealed(&pipe(&case), &full(water, celsius, 6.0 * BAR_PA)).unwrap();
        let expected = case.expected("dp_dT") * BAR_PA;
        assert!(
            (got.rise_pa_k / expected - 1.0).abs() < 1e-3,
            "{id}: {} {expected}",
            got.rise_pa_k
        );
    }
}

/// A field report: a copper line cooled overnight. Air-free, it would have lost more than all its
/// pressure; it lost 0.7 bar, so it held air, or gave some other way. Our water at 10 bar, which
/// the report's 166 psi is nearer to than the case's 6: within the case's 1 %.
#[test]
fn d_21_a_line_that_held_air() {
    let case = hydraulics("D-21");
    let copper = ShutPipe {
        outside_m: case.given("OD_m"),
        wall_m: case.given("wall_m"),
        material: PipeMaterial::COPPER,
    };
    let (celsius, cooled_k) = (case.given("T_mean_C"), case.given("dT_K"));
    let water = pressed_water(celsius + ZERO_CELSIUS_K, 10.0 * BAR_PA).unwrap();
    let filling = full(water, celsius, 10.0 * BAR_PA);
    let predicted_pa = sealed(&copper, &filling).unwrap().rise_pa_k * cooled_k;
    case.check("predicted_if_air_free", predicted_pa / BAR_PA);
    // Two hundredths of air would explain what was seen: the order that a badly vented line holds.
    let observed_pa = case.expected("observed") * BAR_PA;
    let with = |air_share| sealed(&copper, &Filling { air_share, ..filling }).unwrap();
    assert!(with(0.005).rise_pa_k * cooled_k < observed_pa);
    assert!(with(0.10).rise_pa_k * cooled_k > observed_pa);
}

/// The loop of a D case, its first reading.
fn trial(case: &Case) -> PressureTrial {
    PressureTrial {
        water_m3: case.given("water_L") * LITRE_M3,
        air_m3: case.given("air_L_at_p1") * LITRE_M3,
        water: PressedWater {
            expansion_1_k: case.given("beta_1_K"),
            compressibility_1_pa: case.given("kappa_1_Pa"),
        },
        pipe_expansion_1_k: case.given("alpha_1_K"),
        pipe_compliance_1_pa: case.given("pipe_compliance_1_Pa"),
        start: Reading {
            pressure_pa: case.given("p1_bar_abs") * BAR_PA,
            temperature_k: case.given("T1_C") + ZERO_CELSIUS_K,
        },
    }
}

#[test]
fn d_16_and_d_18_a_tight_loop() {
    for id in ["D-16", "D-18"] {
        let case = hydraulics(id);
        let trial = trial(&case);
        let tight_pa = tight_pressure_pa(&trial, case.given("T2_C") + ZERO_CELSIUS_K).unwrap();
        case.check("p2", tight_pa / BAR_PA);
        case.check("change", (tight_pa - trial.start.pressure_pa) / BAR_PA);
    }
}

/// D-16's compliance is that of 15 mm copper with a wall of 0.7 mm (printed to nine figures).
#[test]
fn d_16_pipe_s_own_compliance() {
    let copper = ShutPipe { outside_m: 0.015, wall_m: 0.0007, material: PipeMaterial::COPPER };
    let given = hydraulics("D-16").given("pipe_compliance_1_Pa");
    let got = pipe_compliance_1_pa(&copper).unwrap();
    assert!((got / given - 1.0).abs() < 1e-9, "{got} {given}");
}

#[test]
fn d_19_water_lost_in_a_day() {
    let case = hydraulics("D-19");
    let trial = trial(&case);
    let end = Reading {
        pressure_pa: case.given("p2_bar_abs") * BAR_PA,
        temperature_k: case.given("T2_C") + ZERO_CELSIUS_K,
    };
    case.check("lost", lost_m3(&trial, &end).unwrap() * 1e6);
    case.check("p2_if_tight", tight_pressure_pa(&trial, end.temperature_k).unwrap() / BAR_PA);
}

#[test]
fn d_11_how_hard_to_try() {
    let case = hydraulics("D-11");
    let working_pa = case.given("max_operating_bar") * BAR_PA;
    let british_pa = trial_pressure_pa(TrialRule::UnitedKingdom, working_pa).unwrap();
    let european_pa = trial_pressure_pa(TrialRule::En806, working_pa).unwrap();
    case.check("uk_1_5", british_pa / BAR_PA);
    case.check("en806_1_1_mdp", european_pa / BAR_PA);
    case.check("mdp", european_pa / 1.1 / BAR_PA);
}

/// The procedures' waits; the case has its figures from memory, as we do.
#[test]
fn d_12_how_long_to_watch() {
    let case = hydraulics("D-12");
    let minutes = |procedure: Procedure, at: usize| procedure.waits()[at].time_s / 60.0;
    let drop_bar =
        |procedure: Procedure, at: usize| procedure.waits()[at].allowed_drop_pa.unwrap() / BAR_PA;
    case.check("A_hold", minutes(Procedure::A, 0));
    assert_eq!(drop_bar(Procedure::A, 0), case.expected("A_allowed_drop"));
    case.check("B_pump_hold", minutes(Procedure::B, 0));
    case.check("B_reduced_fraction", Procedure::B.waits()[1].pressure_share);
    case.check("B_watch", minutes(Procedure::B, 1));
    case.check("C_first", minutes(Procedure::C, 0));
    case.check("C_second", minutes(Procedure::C, 1));
    case.check("C_second_allowed_drop", drop_bar(Procedure::C, 1));
    case.check("C_third", minutes(Procedure::C, 2));
    case.check("C_third_allowed_drop", drop_bar(Procedure::C, 2));
}
