//! The shapes that leave the program as JSON: promises to other programs.
//!
//! These types are their own; they are filled from the core's types here and nowhere else. Units
//! stand in the keys: kilowatt-hours, degrees Celsius, litres, hours.

mod band;
mod check;
mod circuit;
mod panel;
mod plate;
mod problem;
mod sum;
mod worry;
mod year;

pub use band::{BandWire, BesideWire, NextWire, RangeWire, band, bands, figures};
pub use check::{AssumedWire, CheckWire};
pub use circuit::{CircuitWire, MovedBy, circuit};
pub use panel::{
    AngleWire, EfficiencyWire, FlowWire, KindWire, MassWire, ModifierWire, PanelWire, PartWire,
    PlateWire, PointWire, StagnationWire,
};
pub use plate::{PictureWire, SpotWire, StretchWire, TubePointWire, TubeWire};
pub use problem::ProblemWire;
pub use sum::{SumWire, SumsWire};
pub use worry::{WorryWire, worry};
pub use year::{
    BracketWire, ClimateWire, CloudsWire, EventKindWire, EventWire, FailedWire, MonthWire,
    YearWire, month, whole,
};
