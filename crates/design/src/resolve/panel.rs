//! The panels of a build.

mod certificate;

use super::parts::{layer, layers, tube};
use crate::values::Values;
use physics::panel::optics::extinction_1_m;
use physics::panel::route::{Pipe, Stretch};
use physics::panel::{
    Bank, BoxAir, BoxWalls, Built, Cover, DiffuseAngle, Edge, Fins, HarpConnection, Hollow, Panel,
    Passage, Sheet, TubePattern, Tubes,
};

/// Every panel, and how they are joined.
pub(crate) fn bank(values: &Values) -> Option<Bank> {
    let count = values.count("panel.count")? as usize;
    let (join, links) = super::network::joined(values, count)?;
    Some(Bank { panels: vec![panel(values)?; count], join, links })
}

fn panel(values: &Values) -> Option<Panel> {
    let kind = values.word("panel.kind")?;
    if kind == "bought" {
        return Some(Panel::Bought(certificate::bought(values)?));
    }
    let back = layers(values, "panel.back")?;
    // A bare mat has neither rim nor box.
    let (edge, changes_1_s) = if kind == "mat" {
        (Edge { layer: *back.first()?, area_m2: 0.0 }, 0.0)
    } else {
        let edge =
            Edge { layer: layer(values, "panel.edge")?, area_m2: values.si("panel.edge.area")? };
        (edge, values.si("panel.box.air-changes")?)
    };
    Some(Panel::Built(Box::new(Built {
        covers: if kind == "mat" { Vec::new() } else { covers(values)? },
        diffuse_angle: match values.word("panel.cover.diffuse-angle") {
            Some("sixty-degrees") => DiffuseAngle::SixtyDegrees,
            _ => DiffuseAngle::BrandemuehlBeckman1980,
        },
        sheet: sheet(values, kind)?,
        passage: passage(values, kind)?,
        back,
        edge,
        walls: if kind == "mat" { None } else { Some(walls(values)?) },
        box_air: BoxAir { changes_1_h: changes_1_s * 3600.0 },
        extra_capacity_j_k: values.si("panel.extra-capacity")?,
    })))
}

/// The sheet; strips on tubes count as one sheet of all strips' area.
fn sheet(values: &Values, kind: &str) -> Option<Sheet> {
    let si = |key: &str| values.si(&format!("panel.sheet.{key}"));
    let (length_m, width_m) = if kind == "fins" {
        let (tubes, length_m) = pattern(values)?.0;
        (length_m, f64::from(tubes) * values.si("panel.fin-width")?)
    } else {
        (si("length")?, si("width")?)
    };
    Some(Sheet {
        length_m,
        width_m,
        thickness_m: si("thickness")?,
        conductivity_w_m_k: si("conductivity")?,
        density_kg_m3: si("density")?,
        heat_capacity_j_kg_k: si("heat-capacity")?,
        absorptance: si("absorptance")?,
        emittance: si("emittance")?,
    })
}

fn walls(values: &Values) -> Option<BoxWalls> {
    Some(BoxWalls {
        height_m: values.si("panel.box.wall-height")?,
        rim_gap_m: values.si("panel.box.rim-gap")?,
    })
}

/// The covers from the sheet outwards.
fn covers(values: &Values) -> Option<Vec<Cover>> {
    let gap_m = values.si("panel.gap")?;
    if values.table("panel.inner-cover").is_none() {
        return Some(vec![cover(values, "panel.cover", gap_m)?]);
    }
    let height_m = values.si("panel.inner-cover.height")?;
    let inner_m = values.si("panel.inner-cover.thickness")?;
    Some(vec![
        cover(values, "panel.inner-cover", height_m)?,
        cover(values, "panel.cover", gap_m - height_m - inner_m)?,
    ])
}

fn cover(values: &Values, at: &str, gap_m: f64) -> Option<Cover> {
    let si = |key: &str| values.si(&format!("{at}.{key}"));
    let walls = si("walls")?;
    let keeps = |key: &str| 1.0 - si(key).unwrap_or(0.0);
    let mut cover = Cover {
        gap_m,
        walls: walls as u32,
        index: si("index")?,
        extinction_1_m: 0.0,
        thickness_m: si("thickness")? / walls.floor(),
        emittance: si("emittance")?,
        longwave_transmittance: si("longwave")?,
        resistance_m2_k_w: si("resistance")?,
        clean_share: keeps("dirt") * keeps("weathering"),
        density_kg_m3: si("density")?,
        heat_capacity_j_kg_k: si("heat-capacity")?,
    };
    cover.extinction_1_m = match si("transmittance") {
        Some(transmittance) => extinction_1_m(&cover, transmittance)?,
        None => si("extinction")?,
    };
    Some(cover)
}

/// The most that a cover of the file could pass straight on, were it quite clear; for looking at
/// what its certificate claims.
pub(crate) fn clear_transmittance(values: &Values, at: &str) -> Option<f64> {
    let si = |key: &str| values.si(&format!("{at}.{key}"));
    let clear = Cover {
        walls: si("walls")? as u32,
        ..Cover::of_light(si("index")?, 0.0, si("thickness")?)
    };
    Some(physics::panel::optics::transmission(&[clear], physics::Angle::ZERO).transmittance)
}

fn passage(values: &Values, kind: &str) -> Option<Passage> {
    if kind != "radiator" {
        return Some(Passage::Tubes(tubes(values, kind)?));
    }
    let si = |key: &str| values.si(&format!("panel.channels.{key}"));
    let front = sheet(values, kind)?;
    Some(Passage::Hollow(Hollow {
        channels: values.count("panel.channels.count")?,
        wetted_m: si("wetted")?,
        depth_m: si("depth")?,
        length_m: si("length")?,
        contents_m3: si("contents")?,
        back_sheet_j_k: front.area_m2()
            * si("back-thickness")?
            * front.density_kg_m3
            * front.heat_capacity_j_kg_k,
        port_bore_m: si("port")?,
        port_loss: si("loss-k")?,
    }))
}

/// How many tubes lie side by side and how long one is \[m\], and the word for the pattern.
fn pattern(values: &Values) -> Option<((u32, f64), &str)> {
    let word = values.word("panel.tubes.pattern")?;
    let (count, length) = match word {
        "harp" => ("panel.tubes.risers", "panel.tubes.riser-length"),
        _ => ("panel.tubes.legs", "panel.tubes.leg-length"),
    };
    Some(((values.count(count)?, values.si(length)?), word))
}

fn tubes(values: &Values, kind: &str) -> Option<Tubes> {
    let (pattern, spacing_m) = laid(values, kind)?;
    Some(Tubes {
        tube: tube(values, "panel.tubes")?,
        spacing_m,
        bond_w_m_k: values.si("panel.tubes.bond")?,
        stretches: stretches(values)?,
        pattern,
        fins: match kind {
            "fins" => Fins::Strips { width_m: values.si("panel.fin-width")? },
            _ => Fins::OneSheet,
        },
    })
}

/// Stretches with another bond.
pub(crate) fn stretches(values: &Values) -> Option<Vec<Stretch>> {
    (0..values.members("panel.tubes.stretch"))
        .map(|at| {
            let si = |key: &str| values.si(&format!("panel.tubes.stretch[{at}].{key}"));
            let riser = values.count(&format!("panel.tubes.stretch[{at}].riser")).unwrap_or(1);
            Some(Stretch {
                tube: (riser as usize).saturating_sub(1),
                from_m: si("from")?,
                to_m: si("to")?,
                bond_w_m_k: si("bond")?,
            })
        })
        .collect()
}

/// The pattern, and how far apart its tubes lie \[m\]: for a tube laid at will, the sheet's area over
/// its length.
fn laid(values: &Values, kind: &str) -> Option<(TubePattern, f64)> {
    if let Some(points) = values.places("panel.tubes.route") {
        let length_m = Pipe::through(points).length_m();
        let spacing_m = sheet(values, kind)?.area_m2() / length_m;
        return Some((TubePattern::Route { points: points.to_vec() }, spacing_m));
    }
    let ((count, length_m), word) = pattern(values)?;
    let pattern = match word {
        "harp" => TubePattern::Harp {
            risers: count,
            riser_length_m: length_m,
            header: tube(values, "panel.tubes.header")?,
            connection: match values.word("panel.tubes.connection")? {
                "same-side" => HarpConnection::SameSide,
                _ => HarpConnection::OppositeCorner,
            },
        },
        _ => TubePattern::Serpentine { legs: count, leg_length_m: length_m },
    };
    Some((pattern, values.si("panel.tubes.spacing")?))
}
