//! The layout that may be built, as far as the answers' rules go: what was asked for where nothing stands
//! against it, else the nearest one.

use design::catalogue::materials;
use physics::tap::household::day_volume_sap_2012_m3;

use super::answers::{Answers, Cistern, Downstream, Drive, Piece};

/// A header tank's water stands so much over the circuit's highest point where nobody said \[m\]
/// (judgement; the design file assumes the same).
pub const OVER_HIGHEST_M: f64 = 0.5;

/// A store that is to be filled without a pump stands so much over the panel's top at least \[m\].
pub const LEAST_CLEAR_M: f64 = 0.3;

/// And better so much.
pub const GOOD_CLEAR_M: f64 = 0.6;

/// A dry panel's pane comes to about this, half-way from sheet to air \[C\].
pub const DRY_PANE_C: [f64; 2] = [70.0, 90.0];

/// A layout.
#[derive(Clone, Debug, PartialEq)]
pub struct Layout {
    /// Which vessel the coil lies in.
    pub store: Store,
    /// What moves the fluid.
    pub drive: Drive,
    /// Water to fill the store with \[m3\].
    pub store_m3: f64,
    /// The panel's edges, the store's base, the header tank's water and the highest hot tap \[m\], over the
    /// builder's own level.
    pub at: Places,
    /// What the cover is made of; `None` for the starter's.
    pub cover: Option<String>,
    /// The sheet as far as the pane covers it.
    pub sheet: Option<Piece>,
    /// Where it is not what was asked for.
    pub departs: Vec<&'static str>,
}

/// Which vessel the coil lies in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Store {
    /// The cistern that is there.
    Cistern,
    /// A vessel of its own, beside it.
    Own,
}

/// Heights, each with whether it was answered.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Places {
    /// The panel's lower edge.
    pub panel_bottom: Height,
    /// Its upper edge.
    pub panel_top: Height,
    /// The store's base.
    pub store_base: Height,
    /// Water in the header tank.
    pub header: Height,
    /// The highest hot tap.
    pub tap: Height,
}

/// A height.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Height {
    /// Over the builder's own level.
    pub over_m: f64,
    /// Where it comes from.
    pub from: From,
}

/// Where a height comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum From {
    /// It was answered.
    Answer,
    /// It was not.
    Assumed,
    /// It was answered, and is another one here.
    Moved,
}

impl Layout {
    /// The layout for these answers; `None` where the heights allow none.
    pub fn of(answers: &Answers) -> Option<Layout> {
        if head_m(answers).is_some_and(|head_m| head_m <= 0.0) {
            return None;
        }
        let mut departs = Vec::new();
        let store = match answers.cistern {
            Cistern::OnlyCylinder => Store::Cistern,
            Cistern::Also(_) => {
                departs
                    .push("The coil lies in a vessel of its own, which feeds the cylinder alone.");
                Store::Own
            }
            Cistern::NotSaid => {
                departs.push("The coil lies in a vessel of its own, until it is said what the cistern feeds.");
                Store::Own
            }
        };
        if answers.heater.is_some_and(|heater| heater != Downstream::HotCylinder) {
            departs.push(
                "A cylinder whose whole water is kept at 60\u{a0}°C stands between store and taps.",
            );
        }
        let drive = if answers.drive == Drive::Gravity
            && clear_m(answers).is_some_and(|clear_m| clear_m < LEAST_CLEAR_M)
        {
            departs.push("A pump moves the fluid.");
            Drive::Pump
        } else {
            answers.drive
        };
        let whole_m3 = answers.stock.cistern_m3.unwrap_or(0.115);
        let store_m3 = match day_m3(answers).filter(|day_m3| is_slow(whole_m3, *day_m3)) {
            Some(day_m3) => {
                departs.push("The store is filled with a day’s water and no more.");
                (day_m3 * 1000.0 + 1e-6).floor() / 1000.0
            }
            None => whole_m3,
        };
        let cover = answers.stock.cover.clone().map(|cover| {
            if service_c(&cover).is_some_and(|service_c| service_c < DRY_PANE_C[0]) {
                departs.push("The cover is toughened glass.");
                "toughened-glass".to_owned()
            } else {
                cover
            }
        });
        let at = places(answers, &mut departs);
        let sheet = match (answers.stock.sheet, answers.stock.pane) {
            (Some(sheet), Some(pane)) => Some(Piece {
                long_m: sheet.long_m.min(pane.long_m),
                short_m: sheet.short_m.min(pane.short_m),
            }),
            (sheet, _) => sheet,
        };
        Some(Layout { store, drive, store_m3, at, cover, sheet, departs })
    }
}

/// Heights as answered; where not, near the store, which stands in the loft of a house of two storeys.
fn places(answers: &Answers, departs: &mut Vec<&'static str>) -> Places {
    let heights = answers.heights;
    let or = |height_m: Option<f64>, else_m: f64| match height_m {
        Some(over_m) => Height { over_m, from: From::Answer },
        None => Height { over_m: else_m, from: From::Assumed },
    };
    let tap = or(
        heights.tap_m,
        heights.store_base_m.map_or(1.0, |base_m| (base_m - 4.0).clamp(0.0, 1.0)),
    );
    let store_base = or(heights.store_base_m, tap.over_m.max(0.0) + 4.2);
    let long_m = answers.stock.sheet.map_or(1.2, |sheet| sheet.long_m);
    // As the design file assumes it: a roof of 35 degrees that begins a little over the loft's floor.
    let rise_m = long_m * 35_f64.to_radians().sin();
    let lowest_m = match (answers.drive, heights.panel_top_m) {
        (_, Some(top_m)) => top_m - rise_m,
        (Drive::Pump, None) => store_base.over_m + 0.5,
        (Drive::Gravity, None) => store_base.over_m - GOOD_CLEAR_M - rise_m,
    };
    let panel_bottom = or(heights.panel_bottom_m, lowest_m);
    let panel_top = or(heights.panel_top_m, panel_bottom.over_m + rise_m);
    let highest_m = panel_top.over_m.max(store_base.over_m + 0.22);
    let header = match heights.header_m {
        Some(header_m) if header_m <= highest_m => {
            departs.push("The header tank stands half a metre over the circuit’s highest point.");
            Height { over_m: highest_m + OVER_HIGHEST_M, from: From::Moved }
        }
        header_m => or(header_m, highest_m + OVER_HIGHEST_M),
    };
    Places { panel_bottom, panel_top, store_base, header, tap }
}

/// The store's base over the highest hot tap \[m\]; `None` where one of them was not answered.
pub fn head_m(answers: &Answers) -> Option<f64> {
    Some(answers.heights.store_base_m? - answers.heights.tap_m?)
}

/// The store's base over the panel's top \[m\]; `None` where one of them was not answered.
pub fn clear_m(answers: &Answers) -> Option<f64> {
    Some(answers.heights.store_base_m? - answers.heights.panel_top_m?)
}

/// A household's hot water of a day \[m3\], where the people were counted.
pub fn day_m3(answers: &Answers) -> Option<f64> {
    day_volume_sap_2012_m3(f64::from(answers.people?)).ok()
}

/// True where a day's water does not turn the store over; a litre in a hundred is let pass.
pub fn is_slow(store_m3: f64, day_m3: f64) -> bool {
    day_m3 < 0.99 * store_m3
}

/// What a cover stands day after day \[C\].
pub fn service_c(cover: &str) -> Option<f64> {
    materials::material(cover)?.t_service_c
}

impl Layout {
    /// Depth of the store's water \[m\]: the starter's cistern, 115 l and 450 mm deep, grown or shrunk
    /// alike every way.
    pub fn depth_m(&self) -> f64 {
        (450.0 * (self.store_m3 / 0.115).cbrt()).round() / 1000.0
    }
}
