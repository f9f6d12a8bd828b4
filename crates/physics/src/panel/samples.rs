//! Panels for unit tests: a square metre and a half of copper under glass.

use super::{
    BoxAir, BoxWalls, Built, Cover, DiffuseAngle, Edge, Fins, HarpConnection, Layer, Passage,
    Sheet, Tube, TubePattern, Tubes,
};

/// Six risers every 150 mm on a sheet of 1.8 m by 0.9 m that fits them.
pub(crate) fn harp() -> Built {
    Built {
        covers: vec![glass()],
        diffuse_angle: DiffuseAngle::BrandemuehlBeckman1980,
        sheet: Sheet {
            length_m: 1.8,
            width_m: 0.9,
            thickness_m: 0.0005,
            conductivity_w_m_k: 340.0,
            density_kg_m3: 8940.0,
            heat_capacity_j_kg_k: 385.0,
            absorptance: 0.95,
            emittance: 0.93,
        },
        passage: Passage::Tubes(Tubes {
            tube: copper_tube(0.012, 0.010),
            spacing_m: 0.15,
            bond_w_m_k: 30.0,
            stretches: Vec::new(),
            pattern: TubePattern::Harp {
                risers: 6,
                riser_length_m: 1.8,
                header: copper_tube(0.022, 0.020),
                connection: HarpConnection::OppositeCorner,
            },
            fins: Fins::OneSheet,
        }),
        back: vec![wool(0.05)],
        edge: Edge { layer: wool(0.025), area_m2: 0.54 },
        walls: Some(BoxWalls { height_m: 0.025, rim_gap_m: 0.01 }),
        box_air: BoxAir { changes_1_h: 20.0 },
        extra_capacity_j_k: 0.0,
    }
}

/// The same sheet with one tube laid to and fro.
pub(crate) fn serpentine() -> Built {
    with_pattern(TubePattern::Serpentine { legs: 6, leg_length_m: 1.8 })
}

/// The same sheet with its tubes laid in some pattern.
pub(crate) fn with_pattern(pattern: TubePattern) -> Built {
    let mut panel = harp();
    let Some(tubes) = panel.tubes().cloned() else { unreachable!("a harp has tubes") };
    panel.passage = Passage::Tubes(Tubes { pattern, ..tubes });
    panel
}

/// A pane of fairly clear glass, 25 mm above what lies below it.
pub(crate) fn glass() -> Cover {
    Cover {
        gap_m: 0.025,
        walls: 1,
        index: 1.526,
        extinction_1_m: 16.0,
        thickness_m: 0.004,
        emittance: 0.88,
        longwave_transmittance: 0.0,
        resistance_m2_k_w: 0.0,
        clean_share: 1.0,
        density_kg_m3: 2500.0,
        heat_capacity_j_kg_k: 750.0,
    }
}

fn copper_tube(outside_m: f64, bore_m: f64) -> Tube {
    Tube {
        outside_m,
        bore_m,
        conductivity_w_m_k: 340.0,
        density_kg_m3: 8940.0,
        heat_capacity_j_kg_k: 385.0,
        roughness_m: 1.5e-6,
    }
}

fn wool(thickness_m: f64) -> Layer {
    Layer {
        thickness_m,
        conductivity_w_m_k: 0.038,
        conductivity_growth_1_k: 0.004,
        density_kg_m3: 45.0,
        heat_capacity_j_kg_k: 840.0,
    }
}
