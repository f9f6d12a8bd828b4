//! What a build says of its panels.

/// All panels of a build, and how the circuit runs through them.
#[derive(Clone, Debug, PartialEq)]
pub struct Bank {
    /// Every panel, each by itself: alike ones are repeated.
    pub panels: Vec<Panel>,
    /// How they are joined. Each panel stands in it once; an empty series for no panel.
    pub join: Join,
}

impl Bank {
    /// No panel at all: a twin's bank.
    pub fn none() -> Self {
        Bank { panels: Vec::new(), join: Join::Series(Vec::new()) }
    }

    /// Sum of the sheets' areas \[m2\].
    pub fn sheet_area_m2(&self) -> f64 {
        self.panels.iter().map(|panel| panel.sheet.area_m2()).sum()
    }
}

/// How panels are joined, as a tree: the network the fluid sees.
#[derive(Clone, Debug, PartialEq)]
pub enum Join {
    /// The panel at this place of [`Bank::panels`].
    One(usize),
    /// One after the other, in the order of the flow.
    Series(Vec<Join>),
    /// Side by side: the flow divides and meets again.
    Parallel(Vec<Join>),
}

/// One panel, from cover to back.
#[derive(Clone, Debug, PartialEq)]
pub struct Panel {
    /// The glazing.
    pub cover: Cover,
    /// Air gap between cover and sheet \[m\], 0.005 to 0.1.
    pub gap_m: f64,
    /// The absorber sheet.
    pub sheet: Sheet,
    /// The tubes on it.
    pub tubes: Tubes,
    /// Insulation behind the sheet, from the sheet outwards; at least one layer.
    pub back: Vec<Layer>,
    /// Insulation around the sheet's rim.
    pub edge: Edge,
    /// Air that finds its way through the box.
    pub box_air: BoxAir,
    /// Heat capacity that the parts above do not count, for instance clips and a thick frame \[J/K\].
    pub extra_capacity_j_k: f64,
}

/// One transparent cover.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cover {
    /// Index of refraction, 1.3 to 1.7.
    pub index: f64,
    /// Extinction in the pane \[1/m\], 2 (water white) to 60.
    pub extinction_1_m: f64,
    /// Thickness of the pane \[m\].
    pub thickness_m: f64,
    /// Long-wave emittance of both faces, 0 to 1.
    pub emittance: f64,
    /// Density \[kg/m3\].
    pub density_kg_m3: f64,
    /// Heat capacity \[J/(kg K)\].
    pub heat_capacity_j_kg_k: f64,
    /// At which angle diffuse and ground light count.
    pub diffuse_angle: DiffuseAngle,
}

/// Which rule gives the angle at which light from everywhere passes the cover.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum DiffuseAngle {
    /// Brandemuehl and Beckman 1980: one angle for sky, one for ground, by the tilt.
    BrandemuehlBeckman1980,
    /// Sixty degrees for both.
    SixtyDegrees,
}

/// The absorber sheet.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sheet {
    /// Length up the slope \[m\].
    pub length_m: f64,
    /// Width along the eaves \[m\].
    pub width_m: f64,
    /// Thickness \[m\].
    pub thickness_m: f64,
    /// Conductivity \[W/(m K)\].
    pub conductivity_w_m_k: f64,
    /// Density \[kg/m3\].
    pub density_kg_m3: f64,
    /// Heat capacity \[J/(kg K)\].
    pub heat_capacity_j_kg_k: f64,
    /// Share of sunlight the coated face takes up, 0 to 1.
    pub absorptance: f64,
    /// Long-wave emittance of the coated face, 0 to 1.
    pub emittance: f64,
}

impl Sheet {
    /// Area of one face \[m2\].
    pub fn area_m2(&self) -> f64 {
        self.length_m * self.width_m
    }
}

/// A round tube.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tube {
    /// Outside diameter \[m\].
    pub outside_m: f64,
    /// Inside diameter \[m\].
    pub bore_m: f64,
    /// Conductivity of the wall \[W/(m K)\].
    pub conductivity_w_m_k: f64,
    /// Density of the wall \[kg/m3\].
    pub density_kg_m3: f64,
    /// Heat capacity of the wall \[J/(kg K)\].
    pub heat_capacity_j_kg_k: f64,
    /// Height of the wall's unevenness \[m\].
    pub roughness_m: f64,
}

impl Tube {
    /// What one metre holds \[m3/m\].
    pub fn contents_m2(&self) -> f64 {
        std::f64::consts::FRAC_PI_4 * self.bore_m * self.bore_m
    }

    /// Metal in the wall of one metre \[m3/m\].
    pub fn wall_m2(&self) -> f64 {
        std::f64::consts::FRAC_PI_4 * (self.outside_m * self.outside_m - self.bore_m * self.bore_m)
    }
}

/// The tubes on the sheet and their bond to it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tubes {
    /// The tube that lies on the sheet.
    pub tube: Tube,
    /// Distance between neighbours, middle to middle \[m\].
    pub spacing_m: f64,
    /// Conductance from sheet to tube wall per metre of tube \[W/(m K)\]; 30 and more for solder.
    pub bond_w_m_k: f64,
    /// Harp or serpentine.
    pub pattern: TubePattern,
}

/// How the tube is laid.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum TubePattern {
    /// One tube, to and fro.
    Serpentine {
        /// Straight legs, 1 or more.
        legs: u32,
        /// Length of a leg on the sheet \[m\].
        leg_length_m: f64,
    },
    /// Risers between two headers.
    Harp {
        /// Risers, 2 or more.
        risers: u32,
        /// Length of a riser on the sheet \[m\].
        riser_length_m: f64,
        /// The headers' tube.
        header: Tube,
        /// Where the circuit enters and leaves.
        connection: HarpConnection,
    },
}

/// Where a harp is entered and left.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum HarpConnection {
    /// In and out at the same side.
    SameSide,
    /// In at one corner, out at the opposite one.
    OppositeCorner,
}

impl Tubes {
    /// Tube on the sheet, headers not counted \[m\].
    pub fn length_m(&self) -> f64 {
        match self.pattern {
            TubePattern::Serpentine { legs, leg_length_m } => f64::from(legs) * leg_length_m,
            TubePattern::Harp { risers, riser_length_m, .. } => f64::from(risers) * riser_length_m,
        }
    }
}

/// One layer of board, wool or foam.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Layer {
    /// Thickness \[m\].
    pub thickness_m: f64,
    /// Conductivity at 10 C mean temperature \[W/(m K)\].
    pub conductivity_w_m_k: f64,
    /// Growth of the conductivity with mean temperature, relative \[1/K\]; 0 to 0.01.
    pub conductivity_growth_1_k: f64,
    /// Density \[kg/m3\].
    pub density_kg_m3: f64,
    /// Heat capacity \[J/(kg K)\].
    pub heat_capacity_j_kg_k: f64,
}

/// Insulation around the rim.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Edge {
    /// The layer between the sheet's rim and the box's side.
    pub layer: Layer,
    /// Area through which the rim loses heat \[m2\]: perimeter times inside depth of the box.
    pub area_m2: f64,
}

/// Air exchanged with outdoors through joints of the box.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BoxAir {
    /// Changes of the gap's air with outdoors \[1/h\]; 0 for a tight box.
    pub changes_1_h: f64,
}
