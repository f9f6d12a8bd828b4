//! The covers' parameters: the glazing, and a second cover beneath it.

use super::parts::joined;
use super::*;
use crate::catalogue::materials;

macro_rules! cover {
    ($at:literal) => {
        [
            parameter(
                concat!($at, ".material"),
                Form::Material(Group::Glazing),
                "What the cover is made of.",
            ),
            parameter(
                concat!($at, ".thickness"),
                Form::Quantity(Kind::Length),
                "Thickness of the whole cover, all walls.",
            )
            .within("0.02 mm", "60 mm"),
            parameter(
                concat!($at, ".walls"),
                Form::Quantity(Kind::Number),
                "Walls light passes: 1 for a pane or film, 2 for a twin-wall sheet.",
            )
            .within("1", "7")
            .worked(walls, "one wall, unless the catalogue knows the sheet by more"),
            parameter(
                concat!($at, ".index"),
                Form::Quantity(Kind::Number),
                "Index of refraction.",
            )
            .within("1.3", "1.7")
            .of("material", Field::Index),
            parameter(
                concat!($at, ".transmittance"),
                Form::Quantity(Kind::Share),
                "Share of sunlight it passes straight on, by its certificate; in place of extinction.",
            )
            .within("0.1", "0.99")
            .absent(),
            parameter(
                concat!($at, ".extinction"),
                Form::Quantity(Kind::Extinction),
                "How fast light is lost in its walls.",
            )
            .within("0 1/m", "4000 1/m")
            .of("material", Field::Extinction)
            .unless("transmittance"),
            parameter(
                concat!($at, ".emittance"),
                Form::Quantity(Kind::Share),
                "Long-wave emittance of both faces.",
            )
            .within("0.02", "1")
            .of("material", Field::Emittance),
            parameter(
                concat!($at, ".longwave"),
                Form::Quantity(Kind::Share),
                "Share of long-wave light (the sheet's own heat rays) it passes; 0 for glass.",
            )
            .within("0", "0.95")
            .worked(longwave, "the catalogue's middle value for the material; none of one it does not know"),
            parameter(
                concat!($at, ".u-value"),
                Form::Quantity(Kind::Film),
                "U-value by its certificate, room air to outdoor air; in place of its resistance.",
            )
            .within("0.5 W/m2 K", "5.88 W/m2 K")
            .absent(),
            parameter(
                concat!($at, ".resistance"),
                Form::Quantity(Kind::Resistance),
                "Thermal resistance between its two faces.",
            )
            .within("0 m2 K/W", "2 m2 K/W")
            .worked(resistance_m2_k_w, "U-value less the films it is stated with, or thickness over conductivity"),
            parameter(
                concat!($at, ".density"),
                Form::Quantity(Kind::Density),
                "Density of the whole cover, its hollows too.",
            )
            .within("50 kg/m3", "6000 kg/m3")
            .of("material", Field::Density),
            parameter(
                concat!($at, ".heat-capacity"),
                Form::Quantity(Kind::SpecificHeat),
                "Specific heat of what it is made of.",
            )
            .within("100 J/kg K", "5000 J/kg K")
            .of("material", Field::HeatCapacity),
            parameter(
                concat!($at, ".weathering"),
                Form::Quantity(Kind::Share),
                "Share of its light that years outdoors have taken: in two years glass loses 0 to 2 %, plastics 5 to 13 %.",
            )
            .within("0", "0.6")
            .assume("0 %", "a new cover", "common practice"),
        ]
    };
}

pub(super) const COVERS: &[Parameter] =
    joined![cover!("panel.cover"), OUTER, cover!("panel.inner-cover"), INNER];

const OUTER: &[Parameter] = &[
    parameter(
        "panel.cover.dirt",
        Form::Quantity(Kind::Share),
        "Share of the light that dust and grime keep out.",
    )
    .within("0", "0.6")
    .assume(
        "1 %",
        "Hottel and Woertz 1942, glass washed by rain, as Duffie and Beckman quote it",
        "from memory",
    )
    .unknown(Spread {
        low: "0.5 %",
        middle: "2 %",
        high: "6 %",
        source: "MIL-HDBK-1003/13A: 4 % on the mean where nobody washes",
    }),
    parameter(
        "panel.cover.diffuse-angle",
        Form::Choice(&["brandemuehl-beckman-1980", "sixty-degrees"]),
        "At which angle light from everywhere passes the cover.",
    )
    .assume(
        "brandemuehl-beckman-1980",
        "the rule by tilt; sixty degrees is its older shorthand",
        "common practice",
    ),
];

const INNER: &[Parameter] = &[parameter(
    "panel.inner-cover.height",
    Form::Quantity(Kind::Length),
    "Air from the sheet to the second cover.",
)
.within("5 mm", "150 mm")];

/// Films that a U-value is stated with, room side and outdoor side together \[m2 K/W\] (0.13 and
/// 0.04, EN ISO 6946 and EN 673).
const STATED_FILMS_M2_K_W: f64 = 0.17;

fn of_catalogue(values: &Values, table: &str, field: Field) -> Option<f64> {
    let material = values.word(&format!("{table}.material")).and_then(materials::material)?;
    material.value(field).map(|known| known.middle)
}

fn walls(values: &Values, table: &str) -> Option<f64> {
    Some(of_catalogue(values, table, Field::Walls).unwrap_or(1.0))
}

fn longwave(values: &Values, table: &str) -> Option<f64> {
    Some(of_catalogue(values, table, Field::Longwave).unwrap_or(0.0))
}

fn resistance_m2_k_w(values: &Values, table: &str) -> Option<f64> {
    let material = values.word(&format!("{table}.material")).and_then(materials::material);
    let u_value =
        values.si(&format!("{table}.u-value")).or(material.and_then(|material| material.u_w_m2k));
    if let Some(u_value) = u_value {
        return Some((1.0 / u_value - STATED_FILMS_M2_K_W).max(0.0));
    }
    let thickness_m = values.si(&format!("{table}.thickness"))?;
    // What the catalogue does not know resists nothing, which loses more.
    let conductivity_w_m_k = material.and_then(|material| material.k_w_mk);
    Some(conductivity_w_m_k.map_or(0.0, |conductivity| thickness_m / conductivity))
}
