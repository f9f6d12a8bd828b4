//! The plate picture as JSON.

use schemars::JsonSchema;
use serde::Serialize;

/// What `warmfeed panel --plate --json` adds to `plate`: the sheet drawn to scale.
#[derive(Clone, Debug, JsonSchema, Serialize)]
pub struct PictureWire {
    /// The hottest place of the sheet.
    pub hottest_spot_c: f64,
    /// Where that is.
    pub hottest_spot: SpotWire,
    /// The coldest place.
    pub coldest_spot_c: f64,
    /// Where that is.
    pub coldest_spot: SpotWire,
    /// Heat into the fluid by the picture.
    pub useful_w: f64,
    /// How closely that is known: what it changes by on cells twice as large.
    pub useful_tolerance_w: f64,
    /// Heat into the fluid by the fin-and-tube chain, an even bond in the place of stretches.
    pub chain_useful_w: f64,
    /// Sunlight taken up.
    pub absorbed_w: f64,
    /// Heat through the covers.
    pub top_loss_w: f64,
    /// Heat through the back and with leaking air.
    pub back_loss_w: f64,
    /// Heat through the rim.
    pub rim_loss_w: f64,
    /// Fluid entering.
    pub inlet_c: f64,
    /// Fluid leaving.
    pub outlet_c: f64,
    /// Sun, air, sky, wind and fluid of the picture.
    pub picture_conditions: String,
    /// Cells across the sheet.
    pub columns: usize,
    /// Cells up the slope.
    pub rows: usize,
    /// The bond that the year goes by in the place of the stretches; the written one where there are
    /// none.
    pub even_bond_w_m_k: f64,
    /// Fluid and sheet along each tube.
    pub tubes: Vec<TubeWire>,
    /// Every stretch with another bond, and what it costs.
    pub stretches: Vec<StretchWire>,
}

/// A place on the sheet, from its lower left corner as the sun sees it.
#[derive(Clone, Copy, Debug, JsonSchema, Serialize)]
pub struct SpotWire {
    /// To the right.
    pub across_mm: f64,
    /// Up the slope.
    pub up_mm: f64,
}

/// One tube on the sheet.
#[derive(Clone, Debug, JsonSchema, Serialize)]
pub struct TubeWire {
    /// Its share of the panel's flow.
    pub share: f64,
    /// Its length on the sheet.
    pub length_m: f64,
    /// Fluid leaving it.
    pub outlet_c: f64,
    /// Places along it, some twenty of them.
    pub points: Vec<TubePointWire>,
}

/// One place along a tube.
#[derive(Clone, Copy, Debug, JsonSchema, Serialize)]
pub struct TubePointWire {
    /// From the tube's inlet.
    pub at_m: f64,
    /// The fluid.
    pub fluid_c: f64,
    /// The sheet under the tube.
    pub sheet_c: f64,
    /// Film coefficient in the tube.
    pub film_w_m2_k: f64,
    /// The bond.
    pub bond_w_m_k: f64,
}

/// One stretch and what it costs beside the rest's bond.
#[derive(Clone, Copy, Debug, JsonSchema, Serialize)]
pub struct StretchWire {
    /// Which riser of a harp, counted from 1; 1 where there is one tube.
    pub tube: usize,
    /// Where it begins.
    pub from_m: f64,
    /// Where it ends.
    pub to_m: f64,
    /// Its bond.
    pub bond_w_m_k: f64,
    /// Heat that is missing by it in the picture's conditions.
    pub cost_w: f64,
    /// How closely that is known; a cost below it is none.
    pub cost_tolerance_w: f64,
    /// Spared heat that is missing by it in a year.
    pub cost_kwh: f64,
    /// How closely that is known; a cost below it is none.
    pub cost_tolerance_kwh: f64,
}
