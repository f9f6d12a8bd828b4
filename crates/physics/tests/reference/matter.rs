//! Fluids against computed vectors, handbooks and releases.

use crate::support::{hydraulics, reference_file, thermal};
use physics::ZERO_CELSIUS_K;
use physics::matter::fluid::{
    Fluid, FluidError, Glycol, boiling_k, freezing_k, growth, mass_share_from_volume_share,
    properties, properties_held, saturation_k, water_expansion_1_k,
};

fn kelvin(celsius: f64) -> f64 {
    celsius + ZERO_CELSIUS_K
}

/// One row of the vectors: its kind, fluid, and the numbers of its columns.
struct Row {
    kind: String,
    fluid: Fluid,
    columns: Vec<(String, f64)>,
}

impl Row {
    fn number(&self, column: &str) -> f64 {
        self.columns
            .iter()
            .find(|(name, _)| name == column)
            .unwrap_or_else(|| panic!("a {} row has no {column}", self.kind))
            .1
    }
}

/// Rows computed with a general-purpose property library (IAPWS-95 water, Melinder 2010 mixtures).
fn vectors() -> Vec<Row> {
    let text = std::fs::read_to_string(reference_file("fluid-vectors.csv")).unwrap();
    let mut lines = text.lines();
    let names: Vec<&str> = lines.next().unwrap().split(',').collect();
    lines
        .map(|line| {
            let cells: Vec<&str> = line.split(',').collect();
            let columns: Vec<(String, f64)> = names
                .iter()
                .zip(&cells)
                .filter_map(|(name, cell)| Some((name.to_string(), cell.parse().ok()?)))
                .collect();
            let mass_share: f64 =
                cells[names.iter().position(|n| *n == "w_mass").unwrap()].parse().unwrap();
            let fluid = match cells[1] {
                "water" => Fluid::Water,
                "PG" => Fluid::PropyleneGlycol { mass_share },
                "EG" => Fluid::EthyleneGlycol { mass_share },
                other => panic!("unknown fluid {other}"),
            };
            Row { kind: cells[0].to_owned(), fluid, columns }
        })
        .collect()
}

#[track_caller]
fn near(what: &str, got: f64, expected: f64, relative: f64) {
    assert!(
        (got / expected - 1.0).abs() <= relative,
        "{what}: expected {expected} within {relative:e}, got {got}"
    );
}

/// Mixtures to 1e-5: the same polynomials, so only the coding is tested. Water is compared at
/// 2 bar with compact fits whose own error the reference states: 5.4e-5 in density, 1.4e-4 in
/// viscosity, 1.3e-4 in conductivity, 9.2e-4 in heat capacity; rounded up.
#[test]
fn properties_meet_every_vector() {
    let mut rows = 0;
    for row in vectors().iter().filter(|row| row.kind == "property") {
        let celsius = row.number("T_C");
        let got = properties(row.fluid, kelvin(celsius)).unwrap();
        let (density, capacity, transport) = match row.fluid {
            Fluid::Water => (1e-4, 1e-3, 2e-4),
            _ => (1e-5, 1e-5, 1e-5),
        };
        let what = |name: &str| format!("{:?} at {celsius} C, {name}", row.fluid);
        near(&what("density"), got.density_kg_m3, row.number("rho_kg_m3"), density);
        near(&what("capacity"), got.heat_capacity_j_kg_k, row.number("cp_J_kgK"), capacity);
        near(&what("conductivity"), got.conductivity_w_m_k, row.number("k_W_mK"), transport);
        near(&what("viscosity"), got.viscosity_pa_s, row.number("mu_Pa_s"), transport);
        rows += 1;
    }
    assert_eq!(rows, 272, "rows were lost");
}

/// Freezing to 0.01 K, what the dropped terms shift; saturation to A-W-05's 0.02 K; growth from
/// 10 to 90 C to 1e-5 in mixtures and A-W-04's 1 % in water.
#[test]
fn freezing_saturation_and_growth_meet_every_vector() {
    let mut rows = 0;
    for row in vectors() {
        match row.kind.as_str() {
            "freeze" => {
                let got_c = freezing_k(row.fluid).unwrap() - ZERO_CELSIUS_K;
                let expected_c = row.number("T_freeze_C");
                assert!((got_c - expected_c).abs() < 0.01, "{:?}: {got_c}", row.fluid);
            }
            "saturation" => {
                let got_c = saturation_k(row.number("p_bar_abs") * 1e5).unwrap() - ZERO_CELSIUS_K;
                assert!((got_c - row.number("Tsat_C")).abs() < 0.02, "{got_c}");
            }
            "expansion_10_90" => {
                let got = growth(row.fluid, kelvin(10.0), kelvin(90.0)).unwrap() * 100.0;
                let allowed = if row.fluid == Fluid::Water { 1e-2 } else { 1e-5 };
                near(&format!("{:?}", row.fluid), got, row.number("expansion_pct"), allowed);
            }
            "property" => continue,
            other => panic!("unknown kind {other}"),
        }
        rows += 1;
    }
    assert_eq!(rows, 57, "rows were lost");
}

#[test]
fn a_w_water() {
    let case = hydraulics("A-W-01");
    for celsius in case.given_list("T_C") {
        let got = properties(Fluid::Water, kelvin(celsius)).unwrap();
        case.check(&format!("rho_{celsius}C"), got.density_kg_m3);
    }
    let case = hydraulics("A-W-02");
    let got = properties(Fluid::Water, kelvin(case.given("T_C"))).unwrap();
    case.check("mu", got.viscosity_pa_s);
    case.check("cp", got.heat_capacity_j_kg_k);
    case.check("k", got.conductivity_w_m_k);
    let case = hydraulics("A-W-04");
    let (cold_k, hot_k) = (kelvin(case.given("T1_C")), kelvin(case.given("T2_C")));
    case.check("growth", 100.0 * growth(Fluid::Water, cold_k, hot_k).unwrap());
}

#[test]
fn a_w_05_saturation() {
    let case = hydraulics("A-W-05");
    for (bar, name) in case.given_list("p_bar_abs").iter().zip([
        "Tsat_0.8bar",
        "Tsat_1.01325bar",
        "Tsat_1.5bar",
        "Tsat_2.0bar",
        "Tsat_4.0bar",
    ]) {
        case.check(name, saturation_k(bar * 1e5).unwrap() - ZERO_CELSIUS_K);
    }
}

#[test]
fn a_g_mixtures() {
    for (id, kind) in
        [("A-G-01", Glycol::Propylene), ("A-G-02", Glycol::Propylene), ("A-G-05", Glycol::Ethylene)]
    {
        let case = hydraulics(id);
        let mass_share = case.given("mass_percent") / 100.0;
        let fluid = match kind {
            Glycol::Propylene => Fluid::PropyleneGlycol { mass_share },
            Glycol::Ethylene => Fluid::EthyleneGlycol { mass_share },
        };
        let got = properties(fluid, kelvin(case.given("T_C"))).unwrap();
        case.check("rho", got.density_kg_m3);
        case.check("cp", got.heat_capacity_j_kg_k);
        case.check("mu", got.viscosity_pa_s);
        case.check("k", got.conductivity_w_m_k);
    }
}

/// By mass from the book itself, by volume from a handbook that knows nothing of it.
#[test]
fn a_f_freezing() {
    let case = hydraulics("A-F-01");
    for percent in case.given_list("mass_percent") {
        let fluid = Fluid::PropyleneGlycol { mass_share: percent / 100.0 };
        case.check(&format!("Tf_{percent}"), freezing_k(fluid).unwrap() - ZERO_CELSIUS_K);
    }
    let case = hydraulics("A-F-03");
    for percent in case.given_list("volume_percent") {
        let mass_share = mass_share_from_volume_share(Glycol::Propylene, percent / 100.0).unwrap();
        let fluid = Fluid::PropyleneGlycol { mass_share };
        case.check(&format!("Tf_{percent}"), freezing_k(fluid).unwrap() - ZERO_CELSIUS_K);
    }
}

#[test]
fn a_v_01_volume_to_mass() {
    let case = hydraulics("A-V-01");
    for percent in case.given_list("volume_percent") {
        for (name, kind) in [("PG", Glycol::Propylene), ("EG", Glycol::Ethylene)] {
            let got = mass_share_from_volume_share(kind, percent / 100.0).unwrap();
            case.check(&format!("{name}_{percent}"), 100.0 * got);
        }
    }
}

#[test]
fn a_x_01_and_d_01_growth() {
    let fluid = Fluid::PropyleneGlycol { mass_share: 0.4 };
    let case = hydraulics("A-X-01");
    let (cold_k, hot_k) = (kelvin(case.given("T1_C")), kelvin(case.given("T2_C")));
    case.check("growth", 100.0 * growth(fluid, cold_k, hot_k).unwrap());
    let case = hydraulics("D-01");
    let (cold_k, hot_k) = (kelvin(case.given("T1_C")), kelvin(case.given("T2_C")));
    case.check("e", growth(fluid, cold_k, hot_k).unwrap());
}

#[test]
fn a_b_01_and_d_08_boiling() {
    let case = hydraulics("A-B-01");
    let propylene = Fluid::PropyleneGlycol { mass_share: case.given("PG_mass_fraction") };
    let ethylene = Fluid::EthyleneGlycol { mass_share: case.given("EG_mass_fraction") };
    case.check("PG50vol", boiling_k(propylene, 101_325.0).unwrap() - ZERO_CELSIUS_K);
    case.check("EG50vol", boiling_k(ethylene, 101_325.0).unwrap() - ZERO_CELSIUS_K);
    let case = hydraulics("D-08");
    for head_m in case.given_list("head_m") {
        let pressure_pa =
            case.given("p_atm_Pa") + case.given("rho") * physics::GRAVITY_M_S2 * head_m;
        let boils_c = boiling_k(Fluid::Water, pressure_pa).unwrap() - ZERO_CELSIUS_K;
        case.check(&format!("T_{head_m}m"), boils_c);
    }
}

/// ST-14 takes a handbook's beta at 40 C, printed to three figures: 0.2 %.
///
/// D-13 states beta and compressibility at 20 C under a test pressure it does not name, D-16 the
/// compressibility at 15 C. By Maxwell's relation beta rises with pressure as the compressibility
/// falls with warmth: 0.8e-6 for 5 bar, 0.4 % of beta, while ours is that of 1 atm. So 0.5 %.
#[test]
fn st_14_and_d_13_expansion_of_water() {
    let handbook = thermal("ST-14").given("beta_1_k");
    near("beta at 40 C", water_expansion_1_k(kelvin(40.0)).unwrap(), handbook, 2e-3);

    let (warm, cool) = (hydraulics("D-13"), hydraulics("D-16"));
    let slope = (cool.given("kappa_1_Pa") - warm.given("kappa_water_1_Pa")) / 5.0;
    let beta = warm.given("beta_water_1_K");
    let by_five_bar = slope * 5e5 / beta;
    assert!((0.003..0.005).contains(&by_five_bar), "five bar move beta by {by_five_bar}");
    near("beta at 20 C", water_expansion_1_k(kelvin(warm.given("T_C"))).unwrap(), beta, 5e-3);
}

/// What lies outside the data is an error that names both temperatures, unless it is asked to be
/// held.
#[test]
fn outside_the_data_is_said() {
    let third = Fluid::PropyleneGlycol { mass_share: 0.3 };
    let Err(FluidError::Frozen { temperature_k, freezing_k }) = properties(third, 255.0) else {
        panic!("18 degrees of frost must freeze 30 %");
    };
    assert_eq!(temperature_k, 255.0);
    assert!((freezing_k - 260.36).abs() < 0.05);
    assert!(properties(third, 373.16).is_err());
    assert!(properties(third, f64::NAN).is_err());
    assert!(properties(Fluid::EthyleneGlycol { mass_share: 0.61 }, 300.0).is_err());
    assert_eq!(properties_held(third, 255.0), properties(third, freezing_k));
    assert_eq!(
        properties_held(Fluid::Water, 423.15),
        properties(Fluid::Water, ZERO_CELSIUS_K + 110.0)
    );
    assert!(properties_held(third, f64::INFINITY).is_err());
}
