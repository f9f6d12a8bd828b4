//! What a shape stands for. No colour, no line width: those belong to the style.

use crate::hatch::{Hatch, Material};
use crate::pen::px;

/// What a shape stands for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Role {
    /// Ground of a graph or note.
    Ground,
    /// Outline of what is cut through.
    Cut,
    /// Outline of what lies behind the cut.
    InView,
    /// Edge that lies hidden.
    Hidden,
    /// Line of a dimension.
    Dimension,
    /// Arrowhead or tick of a dimension.
    Arrow,
    /// Line from words to a thing.
    Leader,
    /// Bare ground under a leader, so that it shows on hatch.
    LeaderGround,
    /// The dot at a leader's end.
    Dot,
    /// Grid of a graph.
    Grid,
    /// Frame of a graph.
    Frame,
    /// Rule between rows.
    Rule,
    /// Heat from the sun.
    Heat,
    /// Left edge of the heat.
    HeatEdge,
    /// Line between two months in the heat.
    Seam,
    /// Outline of the whole column.
    Column,
    /// Line between two strata.
    Boundary,
    /// A boundary as it was before a change.
    Ghost,
    /// Bare ground under it, so that it shows on hatch.
    GhostGround,
    /// A stratum: a loss, or heat that is not the sun's.
    Stratum(Hatch),
    /// Material that is cut through.
    Material(Material),
    /// Ground of figures that stand on the column.
    Plate,
    /// The thick ruled line of the foot.
    FootThick,
    /// The thin one.
    FootThin,
    /// A place on the heat scale, 0 coldest to 255 hottest.
    Warmth(u8),
    /// Line of one temperature, on the dark half of the scale.
    IsothermOnDark,
    /// The same on the light half.
    IsothermOnLight,
    /// Course of a tube on the sheet.
    Route,
    /// Full line of a graph, the one that matters.
    CurveMain,
    /// Full thin line.
    CurveThin,
    /// Dashed line.
    CurveDashed,
    /// Dotted line.
    CurveDotted,
    /// The sun's line or area.
    Sun,
    /// Water drawn.
    Water,
    /// A mark on a curve.
    Mark,
    /// Bare paper over a drawing, where length is left out.
    Blank,
    /// Bore of a tube.
    Bore,
    /// A tube cut through in coloured water: it has to show on every warmth, by day and night.
    CutTube,
    /// A ring for a letter.
    Ring,
    /// What stands too much heat: a stop worry's ring.
    Stop,
    /// A short pipe through a wall, seen from the side.
    Pipe,
    /// The hot pipe of the circuit.
    FlowPipe,
    /// The cool pipe of the circuit.
    ReturnPipe,
    /// A pipe that feeds.
    FeedPipe,
    /// A vent.
    Vent,
    /// The sun's way over the sky.
    SunPath,
    /// Words of a drawing.
    Label,
    /// The same, less loud.
    Quiet,
    /// The same, upright and loud: a value.
    Value,
    /// Words on the dark half of the heat scale, and on solid ground.
    OnDark,
    /// What stands above a drawing.
    Caption,
    /// A loss's number.
    LossNumber,
    /// A plate's number.
    PlateNumber,
    /// A plate's words.
    PlateWords,
    /// A station's name.
    Station,
    /// A sentence under it.
    Lead,
    /// Words of a stop worry.
    StopWords,
}

impl Role {
    /// Size of words in this role \[mm\]; 0 for what is not words.
    pub fn text_size_mm(self) -> f64 {
        match self {
            Role::Label
            | Role::Quiet
            | Role::Value
            | Role::OnDark
            | Role::Caption
            | Role::StopWords => px(16.0),
            Role::PlateWords => px(16.5),
            Role::Lead => px(18.0),
            Role::PlateNumber => px(21.0),
            Role::LossNumber => px(24.0),
            Role::Station => px(34.0),
            _ => 0.0,
        }
    }

    /// How much broader its face sets than the one lengths are measured in: the serif by an eighth, a
    /// heavy sans by a twentieth.
    pub fn breadth(self) -> f64 {
        match self {
            Role::Station | Role::Lead => 1.12,
            Role::Value | Role::OnDark | Role::LossNumber | Role::PlateNumber | Role::StopWords => {
                1.05
            }
            _ => 1.0,
        }
    }

    /// The class that the style knows it by.
    pub fn class(self) -> String {
        let word = match self {
            Role::Stratum(hatch) => return format!("stratum {}", hatch.class()),
            Role::Material(material) => return format!("material {}", material.class()),
            Role::Warmth(level) => return format!("w{level}"),
            Role::Ground => "ground",
            Role::Cut => "cut",
            Role::InView => "in-view",
            Role::Hidden => "hidden-edge",
            Role::Dimension => "dimension",
            Role::Arrow => "arrow",
            Role::Leader => "leader",
            Role::LeaderGround => "leader-ground",
            Role::Dot => "dot",
            Role::Grid => "grid",
            Role::Frame => "frame",
            Role::Rule => "rule",
            Role::Heat => "heat",
            Role::HeatEdge => "heat-edge",
            Role::Seam => "seam",
            Role::Column => "column",
            Role::Boundary => "boundary",
            Role::Ghost => "ghost",
            Role::GhostGround => "ghost-ground",
            Role::Plate => "plate",
            Role::FootThick => "foot-thick",
            Role::FootThin => "foot-thin",
            Role::IsothermOnDark => "isotherm on-dark",
            Role::IsothermOnLight => "isotherm on-light",
            Role::Route => "route",
            Role::CurveMain => "curve main",
            Role::CurveThin => "curve thin",
            Role::CurveDashed => "curve dashed",
            Role::CurveDotted => "curve dotted",
            Role::Sun => "sun",
            Role::Water => "water",
            Role::Mark => "mark",
            Role::Blank => "blank",
            Role::Bore => "bore",
            Role::CutTube => "cut-tube",
            Role::Ring => "ring",
            Role::Stop => "stop",
            Role::Pipe => "pipe",
            Role::FlowPipe => "flow-pipe",
            Role::ReturnPipe => "return-pipe",
            Role::FeedPipe => "feed-pipe",
            Role::Vent => "vent",
            Role::SunPath => "sun-path",
            Role::Label => "label",
            Role::Quiet => "label quiet",
            Role::Value => "label value",
            Role::OnDark => "label over-dark",
            Role::Caption => "label caption",
            Role::LossNumber => "loss-number",
            Role::PlateNumber => "plate-number",
            Role::PlateWords => "plate-words",
            Role::Station => "station",
            Role::Lead => "lead",
            Role::StopWords => "label stop-words",
        };
        word.to_owned()
    }
}
