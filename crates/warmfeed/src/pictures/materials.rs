//! How materials of the catalogue are drawn.

use design::{Origin, Origins};
use sheets::hatch::Material;
use sheets::pictures::box_section::Layer;

/// Layers of a list of the design file, from the water outwards, named and hatched.
pub(super) fn layers(origins: &Origins, list: &str, thick_m: &[f64]) -> Vec<Layer> {
    thick_m
        .iter()
        .enumerate()
        .map(|(place, &thickness_m)| {
            let id = catalogue_material(origins, &format!("{list}[{place}]"));
            Layer {
                thickness_m,
                material: material(id),
                name: id.unwrap_or("own material").replace('-', " "),
            }
        })
        .collect()
}

/// The material whose catalogue values a layer takes; `None` for a builder's own.
fn catalogue_material<'a>(origins: &'a Origins, layer: &str) -> Option<&'a str> {
    let values = ["conductivity", "density", "heat-capacity"];
    values.iter().find_map(|key| match &origins.at(&format!("{layer}.{key}"))?.origin {
        Origin::Catalogue { material, .. } => Some(material.as_str()),
        _ => None,
    })
}

/// How a material of the catalogue is hatched.
pub(super) fn material(id: Option<&str>) -> Material {
    let Some(id) = id else { return Material::Other };
    let has = |words: &[&str]| words.iter().any(|word| id.contains(word));
    if has(&["wool", "hemp", "fibre"]) {
        Material::Wool
    } else if has(&["plywood", "hardboard", "osb"]) {
        Material::Plywood
    } else if has(&["timber", "wood", "pine", "spruce", "larch", "cork"]) {
        Material::Timber
    } else if has(&[
        "foam",
        "polyurethane",
        "pir",
        "pur",
        "eps",
        "xps",
        "polystyrene",
        "lagging",
        "phenolic",
    ]) {
        Material::Foam
    } else if has(&["glass", "acrylic", "polycarbonate", "film", "pvc", "pet"]) {
        Material::Glass
    } else if has(&["copper", "steel", "aluminium", "brass"]) {
        Material::Metal
    } else {
        Material::Other
    }
}
