//! What holds the panel, and how hard the water is: what no year is reckoned with, and worries ask for.

use crate::catalogue::materials::{Material, material};
use crate::parameters::{Form, parameter_at};
use crate::values::{Value, Values};
use physics::making::wind::Terrain;
use std::collections::BTreeMap;

/// How a panel is held where it stands. What the file does not say is `None`.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Mount {
    /// What it stands on.
    pub on: Option<MountedOn>,
    /// Height over the ground \[m\].
    pub height_m: Option<f64>,
    /// What the wind comes over.
    pub terrain: Option<Terrain>,
    /// Basic wind speed \[m/s\].
    pub basic_wind_m_s: Option<f64>,
    /// Net pressure coefficient of the mounting; negative lifts.
    pub net_coefficient: Option<f64>,
    /// Screws that hold one panel.
    pub fixings: Option<u32>,
    /// Outside diameter of a screw's thread \[m\].
    pub screw_m: Option<f64>,
    /// Thread inside the rafter \[m\].
    pub screw_depth_m: Option<f64>,
    /// Characteristic density of the rafter's timber \[kg/m3\].
    pub timber_kg_m3: f64,
    /// What the roof's covering weighs on the slope \[N/m2\].
    pub roof_load_n_m2: Option<f64>,
    /// Age of the covering in years.
    pub roof_age: Option<u32>,
}

/// What a panel stands on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum MountedOn {
    /// Flat along the roof.
    RoofParallel,
    /// A frame over the roof.
    FrameOnRoof,
    /// A wall.
    Wall,
    /// The ground.
    Ground,
}

impl MountedOn {
    /// Whether a roof carries it.
    pub fn is_roof(self) -> bool {
        matches!(self, MountedOn::RoofParallel | MountedOn::FrameOnRoof)
    }
}

/// How hard the water is, by the classes of the British water trade.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Hardness {
    /// Up to 100 mg/l of calcium carbonate.
    Soft,
    /// Up to 200 mg/l.
    Moderate,
    /// Up to 300 mg/l.
    Hard,
    /// More.
    VeryHard,
}

/// Light that the cover has lost already, as a share of one.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CoverWear {
    /// To dirt.
    pub dirt_share: f64,
    /// To years outdoors.
    pub weathering_share: f64,
}

/// What the cover has lost; `None` where there is none.
pub(super) fn cover_wear(values: &Values) -> Option<CoverWear> {
    Some(CoverWear {
        dirt_share: values.si("panel.cover.dirt")?,
        weathering_share: values.si("panel.cover.weathering")?,
    })
}

/// `Some(None)` where the file does not say how the panel is held.
pub(super) fn mount(values: &Values) -> Option<Option<Mount>> {
    if values.table("panel.mount").is_none() {
        return Some(None);
    }
    let place = |key: &str| format!("panel.mount.{key}");
    let si = |key: &str| values.si(&place(key));
    Some(Some(Mount {
        on: values.word(&place("on")).map(|on| match on {
            "frame-on-roof" => MountedOn::FrameOnRoof,
            "wall" => MountedOn::Wall,
            "ground" => MountedOn::Ground,
            _ => MountedOn::RoofParallel,
        }),
        height_m: si("height"),
        terrain: values.word(&place("terrain")).map(|terrain| match terrain {
            "sea" => Terrain::Sea,
            "lake" => Terrain::Lake,
            "open" => Terrain::Open,
            "suburb" => Terrain::Suburb,
            _ => Terrain::Town,
        }),
        basic_wind_m_s: si("basic-wind"),
        net_coefficient: si("net-coefficient"),
        fixings: values.count(&place("fixings")),
        screw_m: si("screw"),
        screw_depth_m: si("screw-depth"),
        timber_kg_m3: si("timber-density")?,
        roof_load_n_m2: si("roof-load"),
        roof_age: values.count(&place("roof-age")),
    }))
}

/// How hard the water is; `None` where the file does not say.
pub(super) fn hardness(values: &Values) -> Option<Hardness> {
    values.word("tap.hardness").map(|class| match class {
        "soft" => Hardness::Soft,
        "moderate" => Hardness::Moderate,
        "hard" => Hardness::Hard,
        _ => Hardness::VeryHard,
    })
}

/// What every part is made of, by its place, where the catalogue knows it; what lies in stock is no
/// part.
pub(super) fn materials(values: &Values) -> BTreeMap<String, &'static Material> {
    let known = |place: &str, value: &Option<Value>| {
        let is_part = !place.starts_with("stock.");
        let is_material = matches!(parameter_at(place)?.form, Form::Material(_));
        match value {
            Some(Value::Word(name)) if is_part && is_material => material(name),
            _ => None,
        }
    };
    let of = |(place, entry): (&str, &crate::values::Entry)| {
        Some((place.to_owned(), known(place, &entry.value)?))
    };
    values.iter().filter_map(of).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::read_design;

    const TEXT: &str = include_str!("../../../../samples/first-panel.toml");

    fn read(add: &str) -> crate::Design {
        let text = format!("{TEXT}\n{add}");
        let reading = read_design("first.toml", text.as_bytes());
        reading.design.unwrap_or_else(|| panic!("{:?}", reading.problems))
    }

    /// Given a file without the table, then with two lines of it. Expected: nothing; what is written, the
    /// timber assumed, all else unsaid.
    #[test]
    fn what_is_not_written_is_not_said() {
        assert_eq!(read("").mount, None);
        let mount = read("[panel.mount]\non = \"wall\"\nroof-load = \"0.5 kN/m2\"").mount;
        let expected = Mount {
            on: Some(MountedOn::Wall),
            roof_load_n_m2: Some(500.0),
            timber_kg_m3: 310.0,
            ..Mount::default()
        };
        assert_eq!(mount, Some(expected));
    }

    /// Given the sample as it is. Expected: what it is made of by its places, assumed parts too.
    #[test]
    fn every_part_s_material() {
        let design = read("");
        for (place, name) in [
            ("panel.sheet.material", "copper"),
            ("panel.cover.material", "acrylic"),
            ("panel.back[1].material", "plywood"),
            ("panel.tubes.joints", "tin-copper-solder"),
            ("store.coil.material", "copper"),
        ] {
            assert_eq!(
                design.material(place).map(|known| known.id.as_str()),
                Some(name),
                "{place}"
            );
        }
        assert_eq!(design.material("panel.inner-cover.material"), None);
        assert_eq!(design.hardness, None);
    }
}
