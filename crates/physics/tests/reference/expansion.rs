//! Growth, vessels, boiling below a tank, vents: against computed and published answers.

use crate::support::hydraulics;
use physics::ZERO_CELSIUS_K;
use physics::circuit::boiling::{atmosphere_pa, boil_below, open_vent_m};
use physics::circuit::vessel::{SealedFill, VesselNeed, header_tank_m3, sealed_state, vessel};
use physics::matter::fluid::{Fluid, growth};

/// EN 12828's form with the steam term and the margins of German practice, its arithmetic done by
/// another hand; tolerance the file's, 1e-6.
#[test]
fn d_02_and_d_04_sealed_vessels() {
    for id in ["D-02", "D-04"] {
        let case = hydraulics(id);
        let got = vessel(&VesselNeed {
            contents_m3: case.given("system_L") / 1e3,
            growth_share: case.given("expansion_fraction"),
            steam_m3: case.given("steam_volume_L") / 1e3,
            column_pa: case.given("static_bar_g") * 1e5,
            margin_pa: case.given("precharge_margin_bar") * 1e5,
            relief_pa: case.given("relief_bar_g") * 1e5,
        })
        .unwrap();
        case.check("V_expansion", got.growth_m3 * 1e3);
        case.check("V_reserve", got.reserve_m3 * 1e3);
        case.check("p0", got.precharge_pa / 1e5);
        case.check("p_end", got.end_pa / 1e5);
        case.check("V_nominal", got.vessel_m3 * 1e3);
    }
}

/// The gas law and Melinder's densities, computed by another hand; tolerance 0.2 %.
#[test]
fn d_22_a_sealed_circuit_cools() {
    let case = hydraulics("D-22");
    let fill = SealedFill {
        fluid: Fluid::PropyleneGlycol { mass_share: 0.4 },
        fluid_m3: case.given("fluid_L_at_T1") / 1e3,
        gas_m3: case.given("gas_L") / 1e3,
        pressure_pa: case.given("p1_bar_abs") * 1e5,
        fill_k: case.given("T1_C") + ZERO_CELSIUS_K,
    };
    let cold_k = case.given("T2_C") + ZERO_CELSIUS_K;
    let got = sealed_state(&fill, cold_k, cold_k).unwrap();
    case.check("fluid_shrink", -got.growth_m3 * 1e3);
    case.check("p2", got.pressure_pa / 1e5);
}

/// Guidance to the water regulations of the United Kingdom, G20.3; arithmetic, 1e-9.
#[test]
fn d_05_and_d_07_open_vents() {
    for id in ["D-05", "D-07"] {
        let case = hydraulics(id);
        case.check("height", open_vent_m(case.given("head_m"), 0.0).unwrap());
    }
}

/// The standard atmosphere and IAPWS-95, computed by another hand; tolerance the file's, 0.1 Pa
/// and 0.1 K.
#[test]
fn d_10_boiling_on_a_mountain() {
    let case = hydraulics("D-10");
    let altitude_m = case.given("altitude_m");
    case.check("p_atm", atmosphere_pa(altitude_m).unwrap());
    let boil = boil_below(Fluid::Water, case.given("head_m"), altitude_m).unwrap();
    case.check("T_boil", boil.boils_k - ZERO_CELSIUS_K);
}

/// Codes ask a header tank to hold 4 % of the contents (common practice): water from 4 to 100 C
/// grows by 4.3 % (IAPWS-95: 999.97 and 958.35 kg/m3). Tolerance 0.02 of the percentage, twice
/// the density fit's own error.
#[test]
fn a_header_tank_holds_what_water_grows_by() {
    let grown = growth(Fluid::Water, ZERO_CELSIUS_K + 4.0, ZERO_CELSIUS_K + 100.0).unwrap();
    let litres = 1e3 * header_tank_m3(grown, 0.1, 0.0);
    assert!((litres - 100.0 * (999.97 / 958.35 - 1.0)).abs() < 0.02, "{litres}");
    assert!(litres > 4.0);
}
