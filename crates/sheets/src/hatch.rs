//! Hatches: one for each loss and one for each material, kept wherever it is drawn.

use crate::pen::px;
use crate::style::Colour;

/// A stratum of the heat section, or heat that is not the sun's.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Hatch {
    /// Light stopped by near things.
    NearThings,
    /// Light thrown back by glass and paint.
    ThrownBack,
    /// Lost through the cover.
    Cover,
    /// Lost through back and edges.
    Back,
    /// The sun too weak for the pump.
    TooWeak,
    /// A limit keeps the pump from running.
    Barred,
    /// Lost by pipes while the pump runs.
    PipesRunning,
    /// Lost by pipes that stand.
    PipesStanding,
    /// Lost by the store's walls and lid.
    StoreWalls,
    /// Carried off by vapour.
    Vapour,
    /// Let go by the overheat discharge.
    Dumped,
    /// Carried out by what else the store feeds.
    OtherFeeds,
    /// Drawn, but beyond what the heater would have given.
    PastNeed,
    /// Held in panel, pipes and store as the year ends.
    Held,
    /// The loft's own warmth.
    Loft,
    /// Bought heat.
    Bought,
}

/// Ground and line of a hatch.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Inks {
    /// The ground.
    pub ground: Colour,
    /// The lines.
    pub line: Colour,
}

const fn inks(light: (u32, u32), dark: (u32, u32)) -> Inks {
    Inks {
        ground: Colour { light: light.0, dark: dark.0, grey: 0xFFFFFF },
        line: Colour { light: light.1, dark: dark.1, grey: 0x000000 },
    }
}

/// One tile of a hatch.
pub struct Tile {
    /// Width \[mm\].
    pub width_mm: f64,
    /// Height \[mm\].
    pub height_mm: f64,
    /// What is drawn in it, in pixels.
    pub marks: &'static str,
}

impl Hatch {
    /// Every hatch.
    pub const ALL: [Hatch; 16] = [
        Hatch::NearThings,
        Hatch::ThrownBack,
        Hatch::Cover,
        Hatch::Back,
        Hatch::TooWeak,
        Hatch::Barred,
        Hatch::PipesRunning,
        Hatch::PipesStanding,
        Hatch::StoreWalls,
        Hatch::Vapour,
        Hatch::Dumped,
        Hatch::OtherFeeds,
        Hatch::PastNeed,
        Hatch::Held,
        Hatch::Loft,
        Hatch::Bought,
    ];

    /// The class that the style knows it by.
    pub fn class(self) -> &'static str {
        match self {
            Hatch::NearThings => "near",
            Hatch::ThrownBack => "thrown",
            Hatch::Cover => "through-cover",
            Hatch::Back => "through-back",
            Hatch::TooWeak => "weak",
            Hatch::Barred => "barred",
            Hatch::PipesRunning => "pipes",
            Hatch::PipesStanding => "pipes-still",
            Hatch::StoreWalls => "walls",
            Hatch::Vapour => "vapour",
            Hatch::Dumped => "dumped",
            Hatch::OtherFeeds => "feeds",
            Hatch::PastNeed => "past-need",
            Hatch::Held => "held",
            Hatch::Loft => "loft",
            Hatch::Bought => "bought",
        }
    }

    /// Its ground and line.
    pub fn inks(self) -> Inks {
        match self {
            Hatch::NearThings => inks((0xDFE6E5, 0x4A5C65), (0x243039, 0x93A7B0)),
            Hatch::ThrownBack => inks((0xF8F0DC, 0x8C6524), (0x40351D, 0xCBA660)),
            Hatch::Cover => inks((0xE6D6BC, 0x6F4C20), (0x2E2516, 0xB78C4A)),
            Hatch::Back => inks((0xF3E9D8, 0x5A4326), (0x3B3325, 0xBFA57C)),
            Hatch::TooWeak => inks((0xD9CBB6, 0x4E3A20), (0x282117, 0xC7A873)),
            Hatch::Barred => inks((0xFBFDFC, 0x0F1E26), (0x0E171C, 0xEDF2F0)),
            Hatch::PipesRunning => inks((0xF1E2D6, 0x7A4630), (0x3B2A22, 0xCC9375)),
            Hatch::PipesStanding => Inks {
                ground: Colour { light: 0x3E4A50, dark: 0xAEBCC2, grey: 0x000000 },
                line: Colour { light: 0x3E4A50, dark: 0xAEBCC2, grey: 0x000000 },
            },
            Hatch::StoreWalls => inks((0xE3CFC2, 0x6B3A28), (0x2D1F19, 0xC58E77)),
            Hatch::Vapour => inks((0xE4E9E4, 0x47584C), (0x25302A, 0x9DB3A4)),
            Hatch::Dumped => inks((0xF1E0DC, 0x74403A), (0x38262A, 0xD09A92)),
            Hatch::OtherFeeds => inks((0xE2E4DA, 0x545732), (0x2B2D1E, 0xB4B884)),
            Hatch::PastNeed => inks((0xF2E7E0, 0x6A4A44), (0x33282A, 0xC9A39A)),
            Hatch::Held => inks((0xE9E6DF, 0x53503F), (0x2A2A24, 0xB0AD96)),
            Hatch::Loft => inks((0xEEF3F2, 0x3E515B), (0x16222A, 0xB3C1C6)),
            Hatch::Bought => inks((0xD5E0EA, 0x4F6E8C), (0x22323F, 0x7FA0BD)),
        }
    }

    /// Its tile; `None` where the ground alone tells it.
    pub fn tile(self) -> Option<Tile> {
        let tile =
            |width, height, marks| Some(Tile { width_mm: px(width), height_mm: px(height), marks });
        match self {
            Hatch::NearThings => tile(12.0, 12.0, "M-3 3L3-3M0 12L12 0M9 15L15 9"),
            Hatch::ThrownBack => tile(18.0, 15.0, "M0 11L9 4L18 11"),
            Hatch::Cover => tile(20.0, 8.0, "M0 4Q5 0 10 4T20 4"),
            Hatch::Back => tile(14.0, 14.0, "M1.5 3.5H5.5M3.5 1.5V5.5M8.5 10.5H12.5M10.5 8.5V12.5"),
            Hatch::TooWeak => {
                tile(8.0, 8.0, "M1 2a1 1 0 1 0 2 0a1 1 0 1 0-2 0M5 6a1 1 0 1 0 2 0a1 1 0 1 0-2 0")
            }
            Hatch::PipesRunning => tile(7.0, 7.0, "M-2-2L9 9M-2 5L2 9M5-2L9 2"),
            Hatch::StoreWalls => tile(20.0, 14.0, "M0 .5H20M0 7.5H20M5 .5V7.5M15 7.5V14.5"),
            Hatch::Vapour => tile(12.0, 12.0, "M3 1V6M9 7V12"),
            Hatch::Dumped => tile(6.0, 12.0, "M3 0V12"),
            Hatch::OtherFeeds => tile(11.0, 11.0, "M0 5.5H11M5.5 0V11"),
            Hatch::PastNeed => tile(12.0, 14.0, "M3 0L9 7L3 14"),
            Hatch::Held => tile(16.0, 14.0, "M2 6L5 1L8 6ZM10 13L13 8L16 13Z"),
            Hatch::Loft => tile(8.0, 8.0, "M1.5 4a2.5 2.5 0 1 0 5 0a2.5 2.5 0 1 0-5 0"),
            Hatch::Bought => tile(10.0, 8.0, "M0 4H10"),
            Hatch::PipesStanding | Hatch::Barred => None,
        }
    }

    /// True where the marks are filled and not stroked.
    pub fn is_dotted(self) -> bool {
        self == Hatch::TooWeak
    }
}

/// A material that is cut through.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Material {
    /// Panes of glass and clear plastics.
    Glass,
    /// Solid wood.
    Timber,
    /// Plywood and boards in layers.
    Plywood,
    /// Wool.
    Wool,
    /// Foam.
    Foam,
    /// Copper and other metal.
    Metal,
    /// Air.
    Air,
    /// Anything else.
    Other,
}

impl Material {
    /// Every material.
    pub const ALL: [Material; 8] = [
        Material::Glass,
        Material::Timber,
        Material::Plywood,
        Material::Wool,
        Material::Foam,
        Material::Metal,
        Material::Air,
        Material::Other,
    ];

    /// The class that the style knows it by.
    pub fn class(self) -> &'static str {
        match self {
            Material::Glass => "glass",
            Material::Timber => "timber",
            Material::Plywood => "plywood",
            Material::Wool => "wool",
            Material::Foam => "foam",
            Material::Metal => "metal",
            Material::Air => "air",
            Material::Other => "other",
        }
    }

    /// True where the hatch runs along the layer, so that it turns with it.
    pub fn is_layered(self) -> bool {
        matches!(self, Material::Wool | Material::Plywood)
    }

    /// Its tint, and the hatch's line.
    pub fn inks(self) -> Inks {
        let tinted = |light, dark| inks((light, 0x0F1E26), (dark, 0xEDF2F0));
        match self {
            Material::Glass => tinted(0xCFE3E6, 0x2C464C),
            Material::Timber | Material::Plywood => tinted(0xE9DCC4, 0x3A3122),
            Material::Wool => tinted(0xF4EBCF, 0x37321F),
            Material::Foam => tinted(0xF7F9FA, 0x222E36),
            Material::Metal => Inks {
                ground: Colour { light: 0x8E3B12, dark: 0xF0A277, grey: 0x000000 },
                line: Colour { light: 0x8E3B12, dark: 0xF0A277, grey: 0x000000 },
            },
            Material::Air => tinted(0xF7FAFA, 0x1B2930),
            Material::Other => tinted(0xFBFDFC, 0x16222A),
        }
    }

    /// Its tile, as deep as `depth_px` where the hatch is as deep as the layer.
    pub fn tile(self, depth_px: f64) -> Option<(f64, f64, String)> {
        let still = |width: f64, height: f64, marks: &str| Some((width, height, marks.to_owned()));
        match self {
            Material::Glass => still(46.0, 8.0, "M6 7L10 1M11 7L15 1M16 7L20 1"),
            Material::Timber => still(
                22.0,
                22.0,
                "M0 20Q11 10 22 20M0 13Q11 3 22 13M0 6Q11-4 22 6M4 22Q11 15 18 22",
            ),
            Material::Plywood => still(20.0, 4.0, "M0 2H20"),
            Material::Wool => {
                let (low, high) = (depth_px - 2.0, 2.0);
                Some((
                    16.0,
                    depth_px,
                    format!(
                        "M0 {low:.1}C4 {low:.1} 4 {high:.1} 8 {high:.1}S6 {low:.1} 8 {low:.1}\
                         S12 {high:.1} 14 {high:.1}S12 {low:.1} 16 {low:.1}"
                    ),
                ))
            }
            Material::Foam => still(
                14.0,
                14.0,
                "M2 4a2 2 0 1 0 4 0a2 2 0 1 0-4 0M9 11a2 2 0 1 0 4 0a2 2 0 1 0-4 0",
            ),
            Material::Metal | Material::Air | Material::Other => None,
        }
    }
}
