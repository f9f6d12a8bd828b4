//! The panels of a build.

use super::parts::{layer, layers, tube};
use crate::values::Values;
use physics::panel::{
    Bank, BoxAir, Cover, DiffuseAngle, Edge, HarpConnection, Join, Panel, Sheet, TubePattern, Tubes,
};

/// Every panel, and how they are joined.
pub(super) fn bank(values: &Values) -> Option<Bank> {
    let count = values.count("panel.count")? as usize;
    let ones = (0..count).map(Join::One).collect();
    Some(Bank {
        panels: vec![panel(values)?; count],
        join: match (count, values.word("panel.joined")?) {
            (1, _) => Join::One(0),
            (_, "series") => Join::Series(ones),
            _ => Join::Parallel(ones),
        },
    })
}

fn panel(values: &Values) -> Option<Panel> {
    let cover = |key: &str| values.si(&format!("panel.cover.{key}"));
    let sheet = |key: &str| values.si(&format!("panel.sheet.{key}"));
    Some(Panel {
        cover: Cover {
            index: cover("index")?,
            extinction_1_m: cover("extinction")?,
            thickness_m: cover("thickness")?,
            emittance: cover("emittance")?,
            density_kg_m3: cover("density")?,
            heat_capacity_j_kg_k: cover("heat-capacity")?,
            diffuse_angle: match values.word("panel.cover.diffuse-angle")? {
                "sixty-degrees" => DiffuseAngle::SixtyDegrees,
                _ => DiffuseAngle::BrandemuehlBeckman1980,
            },
        },
        gap_m: values.si("panel.gap")?,
        sheet: Sheet {
            length_m: sheet("length")?,
            width_m: sheet("width")?,
            thickness_m: sheet("thickness")?,
            conductivity_w_m_k: sheet("conductivity")?,
            density_kg_m3: sheet("density")?,
            heat_capacity_j_kg_k: sheet("heat-capacity")?,
            absorptance: sheet("absorptance")?,
            emittance: sheet("emittance")?,
        },
        tubes: tubes(values)?,
        back: layers(values, "panel.back")?,
        edge: Edge { layer: layer(values, "panel.edge")?, area_m2: values.si("panel.edge.area")? },
        box_air: BoxAir { changes_1_h: values.si("panel.box.air-changes")? * 3600.0 },
        extra_capacity_j_k: values.si("panel.extra-capacity")?,
    })
}

fn tubes(values: &Values) -> Option<Tubes> {
    let pattern = match values.word("panel.tubes.pattern")? {
        "harp" => TubePattern::Harp {
            risers: values.count("panel.tubes.risers")?,
            riser_length_m: values.si("panel.tubes.riser-length")?,
            header: tube(values, "panel.tubes.header")?,
            connection: match values.word("panel.tubes.connection")? {
                "same-side" => HarpConnection::SameSide,
                _ => HarpConnection::OppositeCorner,
            },
        },
        _ => TubePattern::Serpentine {
            legs: values.count("panel.tubes.legs")?,
            leg_length_m: values.si("panel.tubes.leg-length")?,
        },
    };
    Some(Tubes {
        tube: tube(values, "panel.tubes")?,
        spacing_m: values.si("panel.tubes.spacing")?,
        bond_w_m_k: values.si("panel.tubes.bond")?,
        pattern,
    })
}
