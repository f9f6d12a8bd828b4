//! Metal on the bench and loads on the roof against codes, handbooks and worked arithmetic.

use physics::making::joints::{BRAZED_TO_K, Solder, rated_pa};
use physics::making::screw::{Screws, TimberFactors, pull_out};
use physics::making::sheet::{CylinderSide, unroll};
use physics::making::snow::{Sliding, SnowRoof, roof_snow_n_m2, shape_factor};
use physics::making::stretch::{growth_m, held_stress_pa};
use physics::making::tube::{TubeStock, by_metre};
use physics::making::weight::{dead_load_n_m2, plate_kg_m2};
use physics::making::wind::{
    PeakWind, Terrain, Uplift, WindSite, design_uplift_n, peak_wind, wind_force_n,
};
use physics::{Angle, ZERO_CELSIUS_K};

use crate::support::{Case, hydraulics};

const SIZES: [(f64, f64); 4] = [(12.0, 0.6), (15.0, 0.7), (22.0, 0.9), (28.0, 0.9)];

fn tube(case: &Case, outside_mm: f64, wall_mm: f64) -> TubeStock {
    TubeStock {
        outside_m: outside_mm / 1e3,
        wall_m: wall_mm / 1e3,
        density_kg_m3: case.given("density"),
    }
}

#[test]
fn b_en_01_tube_by_the_metre() {
    let case = hydraulics("B-EN-01");
    for (outside_mm, wall_mm) in SIZES {
        let got = by_metre(&tube(&case, outside_mm, wall_mm)).unwrap();
        case.check(&format!("bore_of_{outside_mm}x{wall_mm}"), got.bore_m * 1e3);
        case.check(&format!("contents_of_{outside_mm}x{wall_mm}"), got.contents_m2 * 1e3);
        case.check(&format!("mass_of_{outside_mm}x{wall_mm}"), got.mass_kg_m);
    }
}

/// A tube cut open and flattened is a sheet of the same mass: that of B-EN-01, to its tolerance.
#[test]
fn b_en_01_a_tube_unrolled_keeps_its_mass() {
    let case = hydraulics("B-EN-01");
    for (outside_mm, wall_mm) in SIZES {
        let side =
            CylinderSide { diameter_m: (outside_mm - wall_mm) / 1e3, height_m: 1.0, seam_m: 0.0 };
        let sheet = unroll(&side).unwrap();
        let mass_kg = sheet.area_m2() * plate_kg_m2(wall_mm / 1e3, case.given("density")).unwrap();
        case.check(&format!("mass_of_{outside_mm}x{wall_mm}"), mass_kg);
    }
}

/// The stress of a length held while it would grow: Hooke's law on the free growth of E-01's copper.
#[test]
fn e_05_a_held_tube_pushes() {
    let case = hydraulics("E-05");
    let (expansion_1_k, warming_k) = (case.given("alpha"), case.given("dT_K"));
    let stress_pa = held_stress_pa(case.given("E_Pa"), expansion_1_k, warming_k).unwrap();
    case.check("sigma", stress_pa / 1e6);
    let strain = growth_m(expansion_1_k, 1.0, warming_k).unwrap();
    case.check("sigma", case.given("E_Pa") * strain / 1e6);
}

#[test]
fn e_13_sheet_by_the_square_metre() {
    let case = hydraulics("E-13");
    for metal in ["copper", "aluminium", "steel"] {
        let density_kg_m3 = case.given(&format!("rho.{metal}"));
        case.check(metal, plate_kg_m2(case.given("thickness_m"), density_kg_m3).unwrap());
    }
}

/// The case tells tube, timber, board and wool in words; their numbers stand here as it says them.
#[test]
fn f_01_dead_load_of_a_filled_panel() {
    let case = hydraulics("F-01");
    let area_m2 = case.given("area_m2");
    let flat_kg =
        |thickness_mm: f64, density| area_m2 * plate_kg_m2(thickness_mm / 1e3, density).unwrap();
    let copper = TubeStock { outside_m: 0.015, wall_m: 0.0007, density_kg_m3: 8940.0 };
    let tube = by_metre(&copper).unwrap();
    let mass_kg = flat_kg(case.given("copper_sheet_mm"), copper.density_kg_m3)
        + 16.0 * (tube.mass_kg_m + tube.contents_m2 * 1000.0)
        + flat_kg(case.given("glass_mm"), case.given("glass_rho"))
        + 6.0 * 0.022 * 0.095 * 450.0
        + flat_kg(9.0, 600.0)
        + flat_kg(50.0, 40.0);
    case.check("mass", mass_kg);
    case.check("per_m2", mass_kg / area_m2);
    case.check("load", dead_load_n_m2(mass_kg, area_m2).unwrap() / 1e3);
}

/// The case gives its temperatures in Fahrenheit as whole tens; its names round them to Celsius.
#[test]
fn e_08_joints_of_tin_and_lead() {
    let case = hydraulics("E-08");
    for (fahrenheit, name) in
        case.given_list("T_F").into_iter().zip(["p_38C", "p_66C", "p_93C", "p_121C"])
    {
        let joint_k = (fahrenheit - 32.0) / 1.8 + ZERO_CELSIUS_K;
        case.check(name, rated_pa(Solder::TinLead, 0.022, joint_k).unwrap().unwrap() / 1e5);
    }
}

#[test]
fn e_11_joints_without_lead() {
    let case = hydraulics("E-11");
    for (celsius, name) in [(30.0, "p_30C"), (65.0, "p_65C"), (110.0, "p_110C")] {
        let joint_k = celsius + ZERO_CELSIUS_K;
        case.check(name, rated_pa(Solder::LeadFree, 0.028, joint_k).unwrap().unwrap() / 1e5);
    }
    case.check("T_max", Solder::LeadFree.rated_to_k() - ZERO_CELSIUS_K);
    assert!(Solder::LeadFree.rated_to_k() < BRAZED_TO_K);
}

/// The two wind cases; each also states the terrain's own figures, which ours must be.
#[test]
fn f_02_and_f_03_peak_wind() {
    for (id, terrain) in [("F-02", Terrain::Town), ("F-03", Terrain::Open)] {
        let case = hydraulics(id);
        assert_eq!(terrain.roughness_m(), case.given("z0_m"), "{id}");
        assert_eq!(terrain.lowest_m(), case.given("zmin_m"), "{id}");
        let site = WindSite {
            basic_speed_m_s: case.given("vb_m_s"),
            height_m: case.given("z_m"),
            terrain,
        };
        let PeakWind {
            terrain_factor,
            roughness_factor,
            turbulence_intensity,
            basic_pressure_pa,
            peak_pressure_pa,
        } = peak_wind(&site).unwrap();
        case.check("kr", terrain_factor);
        case.check("cr", roughness_factor);
        case.check("Iv", turbulence_intensity);
        case.check("qb", basic_pressure_pa);
        case.check("qp", peak_pressure_pa);
    }
}

/// Characteristic wind, weight square to the roof, and the design force that fixings must hold.
#[test]
fn f_05_uplift_of_a_panel() {
    let case = hydraulics("F-05");
    let force_n =
        wind_force_n(case.given("qp_Pa"), case.given("cp_net"), case.given("area_m2")).unwrap();
    case.check("W_k", -force_n);
    let uplift = Uplift {
        wind_n: -force_n,
        mass_kg: case.given("panel_mass_kg"),
        pitch: Angle::from_degrees(case.given("roof_pitch_deg")),
        wind_factor: case.given("gamma_Q"),
        weight_factor: case.given("gamma_G_inf"),
    };
    case.check("E_d_uplift", design_uplift_n(&uplift).unwrap());
    let weight_n = -design_uplift_n(&Uplift { wind_n: 0.0, weight_factor: 1.0, ..uplift }).unwrap();
    case.check("G_normal", weight_n);
}

#[test]
fn f_08_and_f_09_snow_on_a_slope() {
    for id in ["F-08", "F-09"] {
        let case = hydraulics(id);
        let roof = SnowRoof {
            ground_n_m2: case.given("sk_kN_m2") * 1e3,
            pitch: Angle::from_degrees(case.given("pitch_deg")),
            sliding: Sliding::Free,
            exposure_factor: case.given("Ce"),
            thermal_factor: case.given("Ct"),
        };
        case.check("mu1", shape_factor(roof.pitch, roof.sliding).unwrap());
        case.check("s", roof_snow_n_m2(&roof).unwrap() / 1e3);
    }
}

/// Both resistances; the factors between them are the case's own and ours for wind.
#[test]
fn f_11_and_f_13_screws_pulled_out() {
    for (id, number) in [("F-11", 1), ("F-13", 4)] {
        let case = hydraulics(id);
        assert_eq!(case.given("n"), f64::from(number), "{id}");
        let factors = TimberFactors {
            duration_factor: case.given("kmod"),
            partial_factor: case.given("gamma_M"),
        };
        assert_eq!(factors, TimberFactors::WIND, "{id}");
        let screws = Screws {
            diameter_m: case.given("d_mm") / 1e3,
            embedded_m: case.given("lef_mm") / 1e3,
            timber_kg_m3: case.given("rho_k"),
            to_grain: Angle::from_degrees(case.given("angle_deg")),
            number,
        };
        let got = pull_out(&screws, &factors).unwrap();
        case.check("f_ax_k", got.strength_n_m2 / 1e6);
        case.check("F_Rk", got.characteristic_n);
        case.check("F_Rd", got.design_n);
    }
}
