//! What a build says of its panels.

use crate::circuit::Pipe;

/// All panels of a build, and how the circuit runs through them.
#[derive(Clone, Debug, PartialEq)]
pub struct Bank {
    /// Every panel, each by itself: alike ones are repeated.
    pub panels: Vec<Panel>,
    /// How they are joined. Each panel stands in it once; an empty series for no panel.
    pub join: Join,
    /// Pipes between the panels, and past them.
    pub links: Vec<Pipe>,
}

impl Bank {
    /// No panel at all: a twin's bank.
    pub fn none() -> Self {
        Bank { panels: Vec::new(), join: Join::Series(Vec::new()), links: Vec::new() }
    }

    /// Every length of pipe between the panels and past them, as a place of [`Bank::links`]; a ladder
    /// has its pipe between each two branches twice, first the supply's, then the return's.
    pub fn link_pipes(&self) -> Vec<usize> {
        self.join.link_pipes()
    }

    /// Sum of the panels' areas, each as its figures are stated for \[m2\].
    pub fn area_m2(&self) -> f64 {
        self.panels.iter().map(Panel::area_m2).sum()
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
    /// The pipe at this place of [`Bank::links`]; with its fittings and valve, and without a panel
    /// a bypass.
    Pipe(usize),
    /// Side by side, with a pipe from one branch to the next.
    Ladder(Rungs),
}

impl Join {
    /// As [`Bank::link_pipes`], for this part.
    pub fn link_pipes(&self) -> Vec<usize> {
        let of = |joins: &[Join]| joins.iter().flat_map(Join::link_pipes).collect();
        match self {
            Join::One(_) => Vec::new(),
            Join::Pipe(place) => vec![*place],
            Join::Series(joins) | Join::Parallel(joins) => of(joins),
            Join::Ladder(rungs) => {
                let mut pipes = vec![rungs.link; 2 * rungs.branches.len().saturating_sub(1)];
                pipes.extend::<Vec<usize>>(of(&rungs.branches));
                pipes
            }
        }
    }
}

/// Branches that a supply and a return lead past, one after the other.
#[derive(Clone, Debug, PartialEq)]
pub struct Rungs {
    /// The branches, the first next to the inlet.
    pub branches: Vec<Join>,
    /// The pipe between one and the next, on the supply's side and again on the return's: a place of
    /// [`Bank::links`].
    pub link: usize,
    /// Where the circuit leaves: beside the first branch (direct return) or the last (reverse
    /// return).
    pub connection: HarpConnection,
}

/// One panel: made at home part by part, or bought and known by its certificate alone.
#[derive(Clone, Debug, PartialEq)]
pub enum Panel {
    /// Known part by part.
    Built(Box<Built>),
    /// Known by its test certificate.
    Bought(Bought),
}

impl Panel {
    /// The area that light and yield are referred to \[m2\]: one face of the sheet, or the
    /// certificate's area.
    pub fn area_m2(&self) -> f64 {
        match self {
            Panel::Built(built) => built.sheet.area_m2(),
            Panel::Bought(bought) => bought.area_m2,
        }
    }

    /// The parts of a panel made at home; `None` for a bought one.
    pub fn built(&self) -> Option<&Built> {
        match self {
            Panel::Built(built) => Some(built),
            Panel::Bought(_) => None,
        }
    }

    /// The same, to be changed.
    pub fn built_mut(&mut self) -> Option<&mut Built> {
        match self {
            Panel::Built(built) => Some(built),
            Panel::Bought(_) => None,
        }
    }
}

/// One panel made at home, from cover to back.
#[derive(Clone, Debug, PartialEq)]
pub struct Built {
    /// Covers from the sheet outwards: none (a bare mat), one or two.
    pub covers: Vec<Cover>,
    /// At which angle diffuse and ground light count.
    pub diffuse_angle: DiffuseAngle,
    /// The absorber sheet.
    pub sheet: Sheet,
    /// How the fluid passes along it.
    pub passage: Passage,
    /// Insulation behind the sheet, from the sheet outwards; at least one layer.
    pub back: Vec<Layer>,
    /// Insulation around the sheet's rim.
    pub edge: Edge,
    /// The box's walls, which shade the sheet; `None` for a bare mat.
    pub walls: Option<BoxWalls>,
    /// Air that finds its way through the box.
    pub box_air: BoxAir,
    /// Heat capacity that the parts above do not count, for instance clips and a thick frame \[J/K\].
    pub extra_capacity_j_k: f64,
}

impl Built {
    /// Air gap over the sheet \[m\]; 0 where no cover lies over it.
    pub fn gap_m(&self) -> f64 {
        self.covers.first().map_or(0.0, |cover| cover.gap_m)
    }

    /// The tubes; `None` where the sheet itself is hollow.
    pub fn tubes(&self) -> Option<&Tubes> {
        match &self.passage {
            Passage::Tubes(tubes) => Some(tubes),
            Passage::Hollow(_) => None,
        }
    }
}

/// How the fluid passes along the sheet.
#[derive(Clone, Debug, PartialEq)]
pub enum Passage {
    /// In tubes that lie on the sheet or carry its fins.
    Tubes(Tubes),
    /// Between two sheets joined to one hollow body, as in a flat radiator.
    Hollow(Hollow),
}

/// A hollow sheet: channels between two sheets, all side by side.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Hollow {
    /// Channels side by side, 1 or more.
    pub channels: u32,
    /// Width of front sheet that one channel wets \[m\].
    pub wetted_m: f64,
    /// Depth of a channel between the two sheets \[m\].
    pub depth_m: f64,
    /// Length of a channel \[m\].
    pub length_m: f64,
    /// What the whole body holds \[m3\].
    pub contents_m3: f64,
    /// Metal beside the front sheet: the back sheet and what joins them \[J/K\].
    pub back_sheet_j_k: f64,
    /// Bore of the two ports \[m\].
    pub port_bore_m: f64,
    /// Loss figure of the whole body, on the velocity in a port.
    pub port_loss: f64,
}

/// One transparent cover: a pane, a film, or a sheet of several walls.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cover {
    /// Air gap below it: to the sheet, or to the cover beneath \[m\], 0.005 to 0.1.
    pub gap_m: f64,
    /// Walls it is made of: 1 for a pane or film, 2 for a twin-wall sheet.
    pub walls: u32,
    /// Index of refraction, 1.3 to 1.7.
    pub index: f64,
    /// Extinction in a wall \[1/m\], 2 (water white) to 60.
    pub extinction_1_m: f64,
    /// Thickness of one wall \[m\].
    pub thickness_m: f64,
    /// Long-wave emittance of both faces, 0 to 1.
    pub emittance: f64,
    /// Share of long-wave light it passes, 0 to 1 less the emittance; 0 for a sheet of several
    /// walls.
    pub longwave_transmittance: f64,
    /// Thermal resistance between its two faces \[m2 K/W\]; 0 for a film.
    pub resistance_m2_k_w: f64,
    /// Share of the light that dirt and weathering leave, 0 to 1; 1 for new and washed.
    pub clean_share: f64,
    /// Density of the walls \[kg/m3\].
    pub density_kg_m3: f64,
    /// Heat capacity \[J/(kg K)\].
    pub heat_capacity_j_kg_k: f64,
}

impl Cover {
    /// A clean pane as far as light is concerned: it weighs and resists nothing.
    ///
    /// `index`, `extinction_1_m`, `thickness_m`: as the fields of the same names.
    pub const fn of_light(index: f64, extinction_1_m: f64, thickness_m: f64) -> Cover {
        Cover {
            gap_m: 0.0,
            walls: 1,
            index,
            extinction_1_m,
            thickness_m,
            emittance: 0.0,
            longwave_transmittance: 0.0,
            resistance_m2_k_w: 0.0,
            clean_share: 1.0,
            density_kg_m3: 0.0,
            heat_capacity_j_kg_k: 0.0,
        }
    }

    /// Heat capacity of a square metre \[J/(m2 K)\].
    pub fn capacity_j_m2_k(&self) -> f64 {
        f64::from(self.walls) * self.thickness_m * self.density_kg_m3 * self.heat_capacity_j_kg_k
    }

    /// Mass of a square metre \[kg/m2\].
    pub fn mass_kg_m2(&self) -> f64 {
        f64::from(self.walls) * self.thickness_m * self.density_kg_m3
    }
}

/// A bought panel, by what its certificate states.
#[derive(Clone, Debug, PartialEq)]
pub struct Bought {
    /// The area its figures are stated for, gross or aperture \[m2\].
    pub area_m2: f64,
    /// Power by the mean fluid temperature, `eta0` for beam light that falls straight on it.
    pub curve: super::curve::HeatCurve,
    /// Share of `eta0` that is left by angle.
    pub modifier: Modifier,
    /// Share of `eta0` for diffuse light.
    pub diffuse_modifier: f64,
    /// Effective heat capacity, fluid and all \[J/(m2 K)\].
    pub capacity_j_m2_k: f64,
    /// What it holds \[m3\].
    pub contents_m3: f64,
    /// Bore of its ports \[m\].
    pub port_bore_m: f64,
    /// Loss figure of the whole panel, on the velocity in a port.
    pub port_loss: f64,
    /// Temperature it was found to reach idle at 1000 W/m2 and 30 C \[K\]; `None` where the
    /// certificate does not say.
    pub idle_k: Option<f64>,
}

/// Share of a bought panel's `eta0` that is left when light falls at a slant.
#[derive(Clone, Debug, PartialEq)]
pub enum Modifier {
    /// `1 - b0 (1/cos - 1)` (Souka and Safwat 1966).
    Coefficient(f64),
    /// Points by rising angle, read by straight lines; 1 at no angle, 0 at 90 degrees.
    Points(Vec<ModifierPoint>),
}

/// One point of a certificate's table.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ModifierPoint {
    /// Angle of incidence, above 0 and below 90 degrees.
    pub incidence: crate::Angle,
    /// Share of `eta0` that is left there.
    pub share: f64,
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
#[derive(Clone, Debug, PartialEq)]
pub struct Tubes {
    /// The tube that lies on the sheet.
    pub tube: Tube,
    /// Distance between neighbours, middle to middle \[m\]; of a tube laid at will, the sheet's
    /// area over its length.
    pub spacing_m: f64,
    /// Conductance from sheet to tube wall per metre of tube \[W/(m K)\]; 30 and more for solder.
    pub bond_w_m_k: f64,
    /// Stretches whose bond is another one. Only the plate picture sees them: the fin-and-tube chain
    /// takes one bond for all.
    pub stretches: Vec<super::route::Stretch>,
    /// Harp, serpentine, or a tube laid at will.
    pub pattern: TubePattern,
    /// Whether the tubes share one sheet.
    pub fins: Fins,
}

/// Whether the tubes share one sheet.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Fins {
    /// One sheet under all tubes: heat may pass along it from tube to tube.
    OneSheet,
    /// A strip of its own on every tube, of this width \[m\].
    Strips {
        /// Width of a strip, across the tube \[m\].
        width_m: f64,
    },
}

/// How the tube is laid.
#[derive(Clone, Debug, PartialEq)]
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
    /// One tube through places on the sheet, laid at will.
    Route {
        /// The places in the order of the flow, two or more.
        points: Vec<super::route::Place>,
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
        match &self.pattern {
            TubePattern::Serpentine { legs, leg_length_m } => f64::from(*legs) * leg_length_m,
            TubePattern::Harp { risers, riser_length_m, .. } => f64::from(*risers) * riser_length_m,
            TubePattern::Route { points } => super::route::Pipe::through(points).length_m(),
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

/// The walls of the box as the sheet sees them.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BoxWalls {
    /// How far they rise above the sheet \[m\]: the air gap, and what stands above the cover.
    pub height_m: f64,
    /// From the sheet's rim to the wall \[m\], the same on all sides.
    pub rim_gap_m: f64,
}
