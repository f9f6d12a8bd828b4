//! What a build says of its store.

use super::fins::Fins;
use crate::control::ClockSpan;
use crate::panel::{Layer, Tube};

/// The store's part of a build.
#[derive(Clone, Debug, PartialEq)]
pub struct Store {
    /// Water in it \[m3\].
    pub volume_m3: f64,
    /// Depth of the water \[m\].
    pub water_depth_m: f64,
    /// Length of the wall all round, seen from above \[m\].
    pub perimeter_m: f64,
    /// Layers it is reckoned in, 1 (fully mixed) to 40.
    pub layers: usize,
    /// Height above the base at which cold water enters \[m\].
    pub inlet_height_m: f64,
    /// Height above the base at which water leaves to the tap \[m\].
    pub outlet_height_m: f64,
    /// Surrounding water that falling cold takes along, per litre of cold falling the full depth
    /// \[l/l\]; 0 sinks unmixed.
    pub entrainment: f64,
    /// Insulation of the wall, from the water outwards.
    pub wall: Vec<Layer>,
    /// Insulation below the base, from the water outwards.
    pub base: Vec<Layer>,
    /// Insulation of the lid, from the water outwards.
    pub lid: Vec<Layer>,
    /// Open gap around the lid through which vapour leaves \[m2\]; 0 for a close lid.
    pub lid_gap_m2: f64,
    /// The coil.
    pub coil: Coil,
    /// The loft it stands in.
    pub loft: Loft,
    /// What lets hot water go before it boils; `None` where nothing does.
    pub overheat: Option<OverheatDischarge>,
    /// What else it feeds beside the heater.
    pub feeds: Vec<Feed>,
}

impl Store {
    /// Area of the water seen from above \[m2\].
    pub fn plan_area_m2(&self) -> f64 {
        self.volume_m3 / self.water_depth_m
    }

    /// Whether cold taps are among what it feeds.
    pub fn feeds_cold_taps(&self) -> bool {
        self.feeds.iter().any(|feed| feed.kind == FeedKind::ColdTaps)
    }
}

/// The immersed coil.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Coil {
    /// Its tube.
    pub tube: Tube,
    /// Length in the water \[m\].
    pub length_m: f64,
    /// Height of its lowest turn above the base \[m\].
    pub bottom_height_m: f64,
    /// Height of its highest turn above the base \[m\].
    pub top_height_m: f64,
    /// Diameter of a turn, middle to middle \[m\]; infinite for straight legs.
    pub turn_diameter_m: f64,
    /// Which way the fluid runs through it.
    pub direction: CoilDirection,
    /// Fins on its tube; `None` for a plain one.
    pub fins: Option<Fins>,
}

/// Which way the fluid runs through the coil.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CoilDirection {
    /// In at the top, out at the bottom.
    Down,
    /// In at the bottom, out at the top.
    Up,
}

/// How warm the loft is: outdoors and indoors by weight, and the sun on the roof.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Loft {
    /// Weight of outdoors, 0 (a heated room) to 1 (open air).
    pub outdoor_weight: f64,
    /// Air of the rooms below \[K\].
    pub indoor_k: f64,
    /// Rise by the sun on the roof \[K per W/m2\] of irradiance in the panel's plane.
    pub roof_sun_k_m2_w: f64,
}

/// Something else the store feeds beside the heater; cold refills what it takes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Feed {
    /// What it is.
    pub kind: FeedKind,
    /// Height of its outlet above the base \[m\].
    pub outlet_height_m: f64,
    /// Water it takes in a day \[m3\].
    pub day_m3: f64,
    /// Part of the day in which it takes it.
    pub hours: ClockSpan,
}

/// What a store can feed beside the heater.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FeedKind {
    /// Cold taps: their water must stay cold.
    ColdTaps,
    /// A shower or its mixer, drawing before the heater: spray.
    Shower,
    /// A water closet.
    Closet,
    /// Watering the garden.
    Garden,
}

/// A thermostatic valve that lets hot water run to waste; cold refills.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OverheatDischarge {
    /// Opens when the top layer is as warm as this \[K\].
    pub open_k: f64,
    /// Shuts when the top layer is down to this \[K\].
    pub close_k: f64,
    /// Runs at this rate while open \[m3/s\].
    pub flow_m3_s: f64,
}
