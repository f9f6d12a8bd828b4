//! A panel as JSON.

use schemars::JsonSchema;
use serde::Serialize;

use super::check::AssumedWire;
use super::plate::PictureWire;
use super::problem::ProblemWire;

/// What `warmfeed panel --json` prints: one panel of the build.
#[derive(Clone, Debug, JsonSchema, Serialize)]
pub struct PanelWire {
    /// The build's title.
    pub title: String,
    /// How hot its parts get, and what they stand.
    pub stagnation: StagnationWire,
    /// The curve a test would find.
    pub efficiency: EfficiencyWire,
    /// Points of that curve.
    pub points: Vec<PointWire>,
    /// Share of the efficiency that is left when light falls at a slant.
    pub modifier: ModifierWire,
    /// The sheet at the curve's conditions, its fluid 20 K above the air.
    pub plate: PlateWire,
    /// Effective heat capacity, fluid and all.
    pub capacity_kj_k: f64,
    /// Time in which its outlet goes 63 % of the way when the sun stops, at the curve's flow.
    pub time_constant_min: f64,
    /// What the pump moves through it, at 40 C.
    pub flow: FlowWire,
    /// What it weighs.
    pub mass: MassWire,
    /// What was not written and therefore assumed.
    pub assumed: Vec<AssumedWire>,
    /// What is doubtful in the input.
    pub problems: Vec<ProblemWire>,
}

/// Heat curve per square metre, as ISO 9806 would fit it.
#[derive(Clone, Debug, JsonSchema, Serialize)]
pub struct EfficiencyWire {
    /// Share of the sun gained with the fluid as warm as the air.
    pub eta0: f64,
    /// First loss coefficient.
    pub a1_w_m2_k: f64,
    /// Second loss coefficient.
    pub a2_w_m2_k2: f64,
    /// The area all this is per square metre of.
    pub area_m2: f64,
    /// `gross` or `aperture`.
    pub area_kind: String,
    /// Flow of the test.
    pub flow_kg_s: f64,
    /// Sun, air, sky, wind and fluid of the test.
    pub conditions: String,
}

/// One point of the curve.
#[derive(Clone, Copy, Debug, JsonSchema, Serialize)]
pub struct PointWire {
    /// Mean fluid above air, over the sun.
    pub reduced_temperature_m2k_w: f64,
    /// Gain over the sun on the area.
    pub efficiency: f64,
}

/// Modifier by the angle of incidence.
#[derive(Clone, Debug, JsonSchema, Serialize)]
pub struct ModifierWire {
    /// By angle.
    pub beam: Vec<AngleWire>,
    /// For the sky's diffuse light.
    pub diffuse: f64,
}

/// One angle.
#[derive(Clone, Copy, Debug, JsonSchema, Serialize)]
pub struct AngleWire {
    /// Angle of incidence.
    pub angle_deg: f64,
    /// Share that is left.
    pub share: f64,
}

/// The sheet and its losses.
#[derive(Clone, Debug, JsonSchema, Serialize)]
pub struct PlateWire {
    /// Fin efficiency of the sheet between its tubes.
    pub fin_efficiency: f64,
    /// Collector efficiency factor.
    pub f_prime: f64,
    /// Heat removal factor at the test's flow.
    pub f_r: f64,
    /// Loss through the covers.
    pub top_loss_w_m2_k: f64,
    /// Loss through the back.
    pub back_loss_w_m2_k: f64,
    /// Loss through rim and leaking joints.
    pub edge_loss_w_m2_k: f64,
    /// Mean of the sheet.
    pub plate_mean_c: f64,
    /// The sheet drawn to scale; only where the plate picture was asked for.
    #[serde(flatten, skip_serializing_if = "Option::is_none")]
    pub picture: Option<PictureWire>,
}

/// Heat that nothing takes away.
#[derive(Clone, Debug, JsonSchema, Serialize)]
pub struct StagnationWire {
    /// The sheet at 1000 W/m2, 30 C, wind below 1 m/s.
    pub standard_c: f64,
    /// The sheet in the year's strongest sun and the hottest air, without wind.
    pub extreme_c: f64,
    /// What that sun and air are.
    pub extreme_conditions: String,
    /// Every part of known material, from the sheet outwards.
    pub parts: Vec<PartWire>,
}

/// One part.
#[derive(Clone, Debug, JsonSchema, Serialize)]
pub struct PartWire {
    /// What it is.
    pub part: String,
    /// Its place in the design file.
    #[serde(rename = "where")]
    pub place: String,
    /// What it is made of.
    pub material: String,
    /// At 1000 W/m2, 30 C, wind below 1 m/s.
    pub standard_c: f64,
    /// In the place's extreme.
    pub extreme_c: f64,
    /// What it stands year after year.
    pub limit_c: f64,
    /// What it stands for hours.
    pub short_limit_c: f64,
    /// Whether that limit was seen in a source or is from memory.
    pub limit_certainty: String,
    /// Hours a year above the limit with the pump running as designed.
    pub hours_above_running: f64,
    /// Hours a year above it with the pump dead all year.
    pub hours_above_pump_dead: f64,
    /// Hours a year above it left dry in the sun all year.
    pub hours_above_dry: f64,
    /// `stop`, `mind` or `quiet`.
    pub kind: KindWire,
}

/// How much a part's heat matters.
#[derive(Clone, Copy, Debug, JsonSchema, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum KindWire {
    /// Not to be built so.
    Stop,
    /// Look after it.
    Mind,
    /// Looked at, and below its limit.
    Quiet,
}

/// Flow through one panel.
#[derive(Clone, Debug, JsonSchema, Serialize)]
pub struct FlowWire {
    /// Through one panel, the first.
    pub l_min: f64,
    /// Through each panel, in the order in which they are counted.
    pub per_panel_l_min: Vec<f64>,
    /// Through the whole bank: more than the panels' where a bypass leads past them.
    pub bank_l_min: f64,
    /// What that costs in the panel.
    pub pressure_drop_pa: f64,
    /// The same in metres of the fluid.
    pub head_m: f64,
    /// In each tube; one figure where all goes through one.
    pub per_tube_l_min: Vec<f64>,
    /// Greatest less least over the mean; 0 for even flow.
    pub unevenness: f64,
}

/// Masses of one panel.
#[derive(Clone, Copy, Debug, JsonSchema, Serialize)]
pub struct MassWire {
    /// Sheet, tubes, covers, insulation and rim; what the design does not describe (screws, flashings) is not in it.
    /// None for a bought panel whose certificate does not say.
    pub dry_kg: Option<f64>,
    /// With its fluid.
    pub filled_kg: Option<f64>,
    /// Fluid in it.
    pub contents_l: f64,
}
