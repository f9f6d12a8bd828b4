//! Flow by warmth alone against an independent solution of the same balance.

use physics::ZERO_CELSIUS_K;
use physics::circuit::thermosiphon::{Thermosiphon, thermosiphon, thermosiphon_of};
use physics::matter::fluid::{Fluid, FluidError, FluidProperties, properties};

use crate::support::hydraulics;

/// Both cases state a constant heat capacity and Popiel and Wojtkowiak's viscosity of 1998,
/// 1/(a + b t + c t^2 + d t^3); the density is Kell's, as ours.
#[test]
fn b_ts_01_and_b_ts_03_thermosiphon() {
    for id in ["B-TS-01", "B-TS-03"] {
        let case = hydraulics(id);
        let given = Thermosiphon {
            heat_w: case.given("heat_W"),
            cold_k: case.given("T_cold_leg_C") + ZERO_CELSIUS_K,
            panel_rise_m: case.given("collector_vertical_rise_m"),
            hot_rise_m: case.given("hot_leg_rise_above_collector_top_m"),
            bore_m: case.given("pipe_bore_m"),
            roughness_m: 1.5e-6,
            hot_leg_m: case.given("hot_leg_m"),
            cold_leg_m: case.given("cold_leg_m"),
            fittings_loss: case.given("K_total_split_half_each_leg"),
            risers: case.given("risers") as u32,
            riser_bore_m: case.given("riser_bore_m"),
            riser_length_m: case.given("riser_length_m"),
        };
        let law = |temperature_k: f64| {
            let t = temperature_k - ZERO_CELSIUS_K;
            let thinness = 557.82468 + 19.408782 * t + 0.1360459 * t * t - 3.1160832e-4 * t * t * t;
            Ok::<_, FluidError>(FluidProperties {
                viscosity_pa_s: 1.0 / thinness,
                heat_capacity_j_kg_k: case.given("cp"),
                ..properties(Fluid::Water, temperature_k)?
            })
        };
        let got = thermosiphon_of(&given, ZERO_CELSIUS_K + 110.0, law).unwrap();
        case.check("m_dot", got.flow_kg_s);
        case.check("dT", got.rise_k);
        case.check("drive", got.drive_pa);
        // With our own water, whose viscosity and heat capacity part from theirs by 0.1 %.
        let ours = thermosiphon(&given, Fluid::Water).unwrap();
        let flow = case.expected("m_dot");
        assert!((ours.flow_kg_s / flow - 1.0).abs() < 2e-3, "{id}: {}", ours.flow_kg_s);
    }
}
