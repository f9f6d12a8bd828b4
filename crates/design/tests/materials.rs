//! The catalogue's materials against handbook figures of other hands.

use design::catalogue::materials::{Material, material};
use toml::{Table, Value};

/// A case of the reference file.
fn case(id: &str) -> Table {
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/../../reference/hydraulics-checks.toml");
    let text = std::fs::read_to_string(path).expect("the reference file stands");
    let file: Table = text.parse().expect("TOML");
    let cases = file["check"].as_array().expect("cases");
    let found = cases.iter().find(|case| case["id"].as_str() == Some(id));
    found.and_then(Value::as_table).expect("the case").clone()
}

/// Our value beside the case's, within the case's own tolerance.
fn check(case: &Table, name: &str, id: &str, field: fn(&Material) -> Option<f64>) {
    let ours = material(id).and_then(field).expect("the catalogue states it");
    let theirs = case["expected"][name]["value"].as_float().expect("a number");
    let stated = |key: &str| case.get(key).and_then(Value::as_float).unwrap_or(0.0);
    let allowed = (stated("rel_tol") * theirs).max(stated("abs_tol"));
    assert!(allowed > 0.0, "the case states a tolerance");
    assert!((ours - theirs).abs() <= allowed, "{id}: {ours} is not {theirs} within {allowed}");
}

/// Linear expansion of metals and panes by general tables.
#[test]
fn e_01_expansion() {
    let case = case("E-01");
    for name in ["copper", "aluminium", "steel", "acrylic", "polycarbonate", "glass"] {
        check(&case, name, name, |material| material.cte_1e6_per_k);
    }
}

/// Where solder begins to melt, and where it is all liquid. The case's silver-bearing and 50/50
/// solders are not in the catalogue, nor is the liquidus of its eutectic tin and copper.
#[test]
fn e_06_solder() {
    let case = case("E-06");
    check(&case, "Sn60Pb40_solidus", "tin-lead-solder", |solder| solder.t_melt_c);
    check(&case, "Sn60Pb40_liquidus", "tin-lead-solder", |solder| solder.t_liquidus_c);
    check(&case, "Sn993Cu07", "tin-copper-solder", |solder| solder.t_melt_c);
}

/// Conductivity of metals. Copper without phosphorus and stainless steel are not in the catalogue.
#[test]
fn e_12_conductivity() {
    let case = case("E-12");
    for (name, id) in [
        ("copper_Cu_DHP", "copper"),
        ("aluminium_pure", "aluminium"),
        ("aluminium_6063", "aluminium-angle"),
        ("carbon_steel", "steel"),
        ("solder_Sn60Pb40", "tin-lead-solder"),
        ("solder_SnCu", "tin-copper-solder"),
    ] {
        check(&case, name, id, |material| material.k_w_mk);
    }
}
