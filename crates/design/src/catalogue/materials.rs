//! Materials by name, with the values the panel, the circuit and the store ask for.

use super::Known;
use physics::panel::Cover;
use physics::panel::optics::extinction_1_m;
use serde::Deserialize;
use std::sync::OnceLock;

/// A cover that passes less long-wave light than this passes none.
const LEAST_LONGWAVE: f64 = 0.05;
/// Long-wave light that a plastic throws back (from memory; glass 0.1).
const LONGWAVE_REFLECTANCE: f64 = 0.05;

/// Which materials a parameter may name.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Group {
    /// Metals for sheets and angles.
    Metal,
    /// Panes.
    Glazing,
    /// Paints and platings.
    Coating,
    /// Wool, foam, board and frame: whatever lies in the heat's way.
    Insulation,
    /// What tubes and hoses are made of.
    Tube,
    /// What joints of tubes are made with.
    Joint,
    /// What seals a pane in its frame.
    Seal,
}

impl Group {
    /// The group in plain words.
    pub fn words(self) -> &'static str {
        match self {
            Group::Metal => "a metal, or the rubber of a mat",
            Group::Glazing => "a pane",
            Group::Coating => "a coating",
            Group::Insulation => "an insulation or board",
            Group::Tube => "a tube or hose",
            Group::Joint => "a solder or braze",
            Group::Seal => "a sealant or gasket",
        }
    }

    fn admits(self, material: &Material) -> bool {
        match self {
            Group::Metal => material.group == "metal" || material.id == "epdm",
            Group::Glazing => material.group == "glazing",
            Group::Coating => material.group == "coating",
            Group::Insulation => {
                matches!(material.group.as_str(), "insulation" | "board" | "frame")
            }
            Group::Joint => material.group == "joint",
            // Thread tape seals no pane.
            Group::Seal => material.group == "seal" && material.id != "ptfe-tape",
            Group::Tube => {
                matches!(material.id.as_str(), "copper" | "steel" | "galvanised-steel" | "epdm")
                    || material.group == "pipe"
            }
        }
    }
}

/// One of a material's values.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Field {
    /// Conductivity \[W/(m K)\].
    Conductivity,
    /// Growth of the conductivity with mean temperature \[1/K\].
    ConductivityGrowth,
    /// Density \[kg/m3\].
    Density,
    /// Heat capacity \[J/(kg K)\].
    HeatCapacity,
    /// Share of sunlight taken up.
    Absorptance,
    /// Long-wave emittance.
    Emittance,
    /// Index of refraction.
    Index,
    /// Extinction \[1/m\].
    Extinction,
    /// Walls of a cover.
    Walls,
    /// Share of long-wave light a cover passes.
    Longwave,
}

/// One material as the data file writes it: units in the names, limits low on purpose.
#[derive(Clone, Debug, Deserialize, PartialEq)]
#[serde(deny_unknown_fields)]
pub struct Material {
    /// Its name in design files.
    pub id: String,
    /// Its name in words.
    pub name: String,
    /// What it is used for.
    pub group: String,
    /// Continuous service \[C\].
    pub t_service_c: Option<f64>,
    /// Service for hours, not days \[C\].
    pub t_short_c: Option<f64>,
    /// Visible softening \[C\].
    pub t_soften_c: Option<f64>,
    /// Melting or solidus \[C\].
    pub t_melt_c: Option<f64>,
    /// Fully liquid \[C\].
    pub t_liquidus_c: Option<f64>,
    /// Where it is formed \[C\].
    pub t_form_c: Option<f64>,
    /// Difference across a pane that breaks it \[K\].
    pub dt_break_k: Option<f64>,
    /// Least share of sunlight taken up.
    pub alpha_solar_min: Option<f64>,
    /// Greatest share of sunlight taken up.
    pub alpha_solar_max: Option<f64>,
    /// Least long-wave emittance.
    pub emissivity_min: Option<f64>,
    /// Greatest long-wave emittance.
    pub emissivity_max: Option<f64>,
    /// Least transmittance for sunlight.
    pub tau_solar_min: Option<f64>,
    /// Greatest transmittance for sunlight.
    pub tau_solar_max: Option<f64>,
    /// Least transmittance for heat rays.
    pub tau_longwave_min: Option<f64>,
    /// Greatest transmittance for heat rays.
    pub tau_longwave_max: Option<f64>,
    /// Index of refraction.
    pub index: Option<f64>,
    /// Thickness of the pane whose transmittance is given \[mm\].
    pub pane_mm: Option<f64>,
    /// Walls of a cover; 1 where it does not say.
    pub walls: Option<f64>,
    /// U-value of a sheet of several walls, with the films it is stated with \[W/(m2 K)\].
    pub u_w_m2k: Option<f64>,
    /// Conductivity \[W/(m K)\].
    pub k_w_mk: Option<f64>,
    /// Least conductivity \[W/(m K)\].
    pub k_min: Option<f64>,
    /// Greatest conductivity \[W/(m K)\].
    pub k_max: Option<f64>,
    /// Growth of the conductivity with mean temperature \[1/K\].
    pub growth_1_k: Option<f64>,
    /// Density \[kg/m3\].
    pub rho_kg_m3: Option<f64>,
    /// Heat capacity \[J/(kg K)\].
    pub cp_j_kgk: Option<f64>,
    /// Expansion \[1e-6/K\].
    pub cte_1e6_per_k: Option<f64>,
    /// What to know before using it.
    pub note: String,
    /// Which of the values were met in a source.
    pub seen: Vec<String>,
    /// The sources, by their ids.
    pub sources: Vec<String>,
}

/// A source of the materials' values.
#[derive(Clone, Debug, Deserialize)]
pub struct Source {
    /// Its id.
    pub id: String,
    /// What it is.
    pub title: String,
    /// What kind of source.
    pub kind: String,
    /// Where it may be read.
    pub url: Option<String>,
}

#[derive(Default, Deserialize)]
struct File {
    #[serde(default)]
    source: Vec<Source>,
    #[serde(default)]
    material: Vec<Material>,
}

fn file() -> &'static File {
    static FILE: OnceLock<File> = OnceLock::new();
    FILE.get_or_init(|| super::embedded(include_str!("../../../../catalogue/materials.toml")))
}

/// Every material.
pub fn materials() -> &'static [Material] {
    &file().material
}

/// The material of that name.
pub fn material(id: &str) -> Option<&'static Material> {
    materials().iter().find(|material| material.id == id)
}

/// The names a parameter may carry.
pub fn names(group: Group) -> Vec<&'static str> {
    materials().iter().filter(|m| group.admits(m)).map(|m| m.id.as_str()).collect()
}

impl Material {
    /// One of its values; `None` where the catalogue has none.
    pub fn value(&self, field: Field) -> Option<Known> {
        let one = |value: Option<f64>, name: &str| {
            value.map(|middle| (middle, middle, middle, self.is_seen(&[name])))
        };
        let span = |low: Option<f64>, high: Option<f64>, names: &[&str]| {
            let (low, high) = (low?, high?);
            Some((0.5 * (low + high), low, high, self.is_seen(names)))
        };
        let (middle, low, high, seen) = match field {
            Field::Conductivity => {
                let middle = self.k_w_mk?;
                let (low, high) = (self.k_min.unwrap_or(middle), self.k_max.unwrap_or(middle));
                Some((middle, low, high, self.is_seen(&["k_w_mk"])))
            }
            // A sheet of metal conducts so well that its growth with temperature is nothing here.
            Field::ConductivityGrowth => one(self.growth_1_k, "growth_1_k"),
            Field::Density => one(self.rho_kg_m3, "rho_kg_m3"),
            Field::HeatCapacity => one(self.cp_j_kgk, "cp_j_kgk"),
            Field::Absorptance => span(
                self.alpha_solar_min,
                self.alpha_solar_max,
                &["alpha_solar_min", "alpha_solar_max"],
            ),
            Field::Emittance => self.emittance(),
            Field::Index => one(self.index, "index"),
            Field::Extinction => self.extinction_1_m(),
            Field::Walls => {
                let walls = self.walls.unwrap_or(1.0);
                Some((walls, walls, walls, false))
            }
            Field::Longwave => {
                let (low, high) = self.longwave();
                let seen = self.is_seen(&["tau_longwave_min", "tau_longwave_max"]);
                Some((0.5 * (low + high), low, high, seen))
            }
        }?;
        let certainty = match (field, seen) {
            (Field::Walls, _) => "common practice",
            (Field::Extinction, true) => "computed from a transmittance that was seen",
            (Field::Extinction, false) => "computed from a transmittance from memory",
            (_, true) => "seen",
            (_, false) => "from memory",
        };
        Some(Known { middle, low, high, source: self.source_words(field, seen), certainty })
    }

    /// Long-wave transmittance, least and greatest. A cover that passes less than
    /// [`LEAST_LONGWAVE`] on the mean passes none: glass and twin-wall sheets.
    fn longwave(&self) -> (f64, f64) {
        let low = self.tau_longwave_min.unwrap_or(0.0);
        let high = self.tau_longwave_max.unwrap_or(low);
        if 0.5 * (low + high) < LEAST_LONGWAVE { (0.0, 0.0) } else { (low, high) }
    }

    /// Emittance; of a cover that passes long-wave light no more than what that and the little that
    /// comes back leave.
    fn emittance(&self) -> Option<(f64, f64, f64, bool)> {
        let (low, high) = self.longwave();
        let most = 1.0 - LONGWAVE_REFLECTANCE - 0.5 * (low + high);
        let seen = self.is_seen(&["emissivity_min", "emissivity_max"]);
        match (self.emissivity_min, self.emissivity_max) {
            (Some(least), Some(greatest)) if high > 0.0 => {
                let middle = (0.5 * (least + greatest)).min(most);
                Some((middle, least.min(middle), greatest.min(1.0 - low), false))
            }
            (Some(least), Some(greatest)) => {
                Some((0.5 * (least + greatest), least, greatest, seen))
            }
            _ if high > 0.0 => {
                Some((most, most - 0.5 * (high - low), most + 0.5 * (high - low), false))
            }
            _ => None,
        }
    }

    /// The extinction at which the cover passes at normal incidence what the catalogue states, by
    /// the cover relation turned round; 0 where even a clear one passes less.
    fn extinction_1_m(&self) -> Option<(f64, f64, f64, bool)> {
        let walls = self.walls.unwrap_or(1.0);
        let wall_m = self.pane_mm? * 1e-3 / walls;
        let cover = Cover { walls: walls as u32, ..Cover::of_light(self.index?, 0.0, wall_m) };
        let through = |tau: f64| extinction_1_m(&cover, tau).unwrap_or(0.0);
        let (low, high) = (self.tau_solar_min?, self.tau_solar_max?);
        let seen = self.is_seen(&["tau_solar_min", "tau_solar_max"]);
        Some((through(0.5 * (low + high)), through(high), through(low), seen))
    }

    fn is_seen(&self, names: &[&str]) -> bool {
        names.iter().any(|name| self.seen.iter().any(|seen| seen == name))
    }

    /// The source in words: the entry's sources stand behind what was seen in them, and nothing else.
    fn source_words(&self, field: Field, seen: bool) -> String {
        let titles: Vec<&str> = file()
            .source
            .iter()
            .filter(|source| self.sources.contains(&source.id) && source.kind != "memory")
            .map(|source| source.title.as_str())
            .collect();
        let titles = if seen && !titles.is_empty() {
            titles.join("; ")
        } else {
            "as data handbooks have it".to_owned()
        };
        match field {
            Field::Extinction => format!(
                "so that {} mm pass {:.3} at normal incidence; {titles}",
                self.pane_mm.unwrap_or_default(),
                0.5 * (self.tau_solar_min.unwrap_or_default()
                    + self.tau_solar_max.unwrap_or_default()),
            ),
            _ => titles,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The data file is read, no id stands twice, every source named is listed, and every field
    /// called seen has a value.
    #[test]
    fn the_data_hold_together() {
        assert!(materials().len() >= 45, "{} materials", materials().len());
        let text = include_str!("../../../../catalogue/materials.toml");
        let raw: toml::Table = toml::from_str(text).expect("the file is TOML");
        let entries = raw["material"].as_array().expect("materials");
        for (at, material) in materials().iter().enumerate() {
            assert!(
                materials()[..at].iter().all(|other| other.id != material.id),
                "{}",
                material.id
            );
            for source in &material.sources {
                assert!(
                    file().source.iter().any(|known| &known.id == source),
                    "{source} is not listed"
                );
            }
            for field in &material.seen {
                assert!(
                    entries[at].get(field).is_some(),
                    "{}: {field} is seen but absent",
                    material.id
                );
            }
        }
    }

    /// Given the handbook's extinction of white and of greenish glass, 4 and 32 1/m (Duffie and
    /// Beckman, Solar Engineering of Thermal Processes, 3rd ed. section 5.2, from memory): those
    /// of low-iron and of window glass lie between.
    #[test]
    fn extinction_of_glass_lies_between_white_and_green() {
        for id in ["glass", "toughened-glass", "low-iron-glass"] {
            let known =
                material(id).and_then(|glass| glass.value(Field::Extinction)).expect("glass");
            assert!((4.0..32.0).contains(&known.middle), "{id}: {} 1/m", known.middle);
            assert!(known.low <= known.middle && known.middle <= known.high);
        }
    }

    /// Given each pane's own thickness and index, the cover relation passes at normal incidence the
    /// transmittance the catalogue states: the relation turned round, to 1e-9.
    #[test]
    fn extinction_gives_the_stated_transmittance_back() {
        let mut checked = 0;
        for pane in materials().iter().filter(|material| material.group == "glazing") {
            let Some(extinction) = pane.value(Field::Extinction) else { continue };
            let walls = pane.walls.unwrap_or(1.0);
            let index = pane.index.expect("a pane with extinction has an index");
            let wall_m = pane.pane_mm.expect("and a thickness") * 1e-3 / walls;
            let cover =
                Cover { walls: walls as u32, ..Cover::of_light(index, extinction.middle, wall_m) };
            let passed =
                physics::panel::optics::transmission(&[cover], physics::Angle::ZERO).transmittance;
            let stated =
                0.5 * (pane.tau_solar_min.expect("stated") + pane.tau_solar_max.expect("stated"));
            assert!((passed - stated).abs() < 1e-9, "{}: {passed} is not {stated}", pane.id);
            checked += 1;
        }
        assert!(checked >= 10, "{checked} panes");
    }

    /// Whatever may be named for a layer, a sheet, a tube or a coating has what those need.
    #[test]
    fn named_materials_carry_what_their_parts_need() {
        let needs: [(Group, &[Field]); 5] = [
            (Group::Metal, &[Field::Conductivity, Field::Density, Field::HeatCapacity]),
            (Group::Coating, &[Field::Absorptance, Field::Emittance]),
            (
                Group::Glazing,
                &[
                    Field::Index,
                    Field::Extinction,
                    Field::Emittance,
                    Field::Density,
                    Field::HeatCapacity,
                ],
            ),
            (
                Group::Insulation,
                &[
                    Field::Conductivity,
                    Field::ConductivityGrowth,
                    Field::Density,
                    Field::HeatCapacity,
                ],
            ),
            (Group::Tube, &[Field::Conductivity, Field::Density, Field::HeatCapacity]),
        ];
        for (group, fields) in needs {
            for name in names(group) {
                for &field in fields {
                    let value = material(name).and_then(|material| material.value(field));
                    assert!(value.is_some(), "{name} has no {field:?}");
                }
            }
        }
    }
}
