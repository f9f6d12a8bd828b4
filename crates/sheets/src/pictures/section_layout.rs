//! Where the heat section's parts stand on the paper.

use year::section::{HeatSection, Loss};

use crate::hatch::Hatch;

/// For what width of paper.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Width {
    /// A page: labels to the left of the column.
    Page,
    /// A phone: a rail at the left, labels to its right.
    Phone,
}

/// A stratum as it is drawn, all in pixels.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Stratum {
    /// Its loss; `None` for the small ones gathered.
    pub loss: Option<Loss>,
    pub hatch: Hatch,
    pub kwh: f64,
    /// Its left side.
    pub left: f64,
    pub width: f64,
    /// Where it begins.
    pub top: f64,
    /// What is left of the heat behind it, and by month.
    pub after_kwh: f64,
    pub month_shares: [f64; 12],
    pub name: &'static str,
    pub words: &'static str,
}

/// A station: where it begins, and which strata.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Station {
    pub name: &'static str,
    pub says: &'static str,
    pub top: f64,
    pub strata: Vec<Stratum>,
}

/// All that stands on the paper, in pixels.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Layout {
    pub width: Width,
    pub paper: f64,
    /// Left side of the column.
    pub left: f64,
    /// Straight right side.
    pub right: f64,
    pub top: f64,
    pub foot: f64,
    /// Pixels for a kilowatt-hour.
    pub scale: f64,
    /// A bar of a round number of kilowatt-hours.
    pub bar_kwh: f64,
    pub wedge: f64,
    pub sun_plate: SunPlate,
    pub stations: Vec<Station>,
    pub sun_shares: [f64; 12],
    /// Spared heat as it is drawn: with less than half a kilowatt-hour of losses too small to name.
    pub spared_kwh: f64,
}

const KWH_J: f64 = year::ledger::KWH_J;

/// How much room the stations take, in pixels.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Room {
    /// From a station's top to its first wedge.
    pub heads: [f64; 5],
    /// A station's height at least.
    pub least: [f64; 5],
    /// Below the last wedge, to the foot.
    pub tail: f64,
    /// Pixels for a kilowatt-hour; `None` for what suits the sun.
    pub scale: Option<f64>,
    /// Whether the year's sun stands on a plate under the column's top.
    pub sun_plate: SunPlate,
}

/// Whether the year's sun stands on a plate under the column's top.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum SunPlate {
    /// It does.
    Stands,
    /// Words stand there.
    LeftOut,
}

impl Room {
    /// As a picture by itself takes it.
    fn of_a_picture(width: Width) -> Room {
        let (heads, least, tail) = match width {
            Width::Page => ([196.0, 170.0, 170.0, 170.0, 170.0], 400.0, 330.0),
            Width::Phone => ([190.0, 128.0, 128.0, 128.0, 128.0], 190.0, 350.0),
        };
        Room { heads, least: [least; 5], tail, scale: None, sun_plate: SunPlate::Stands }
    }
}

impl Layout {
    pub(super) fn of(section: &HeatSection, width: Width, is_bought: bool) -> Layout {
        Layout::in_room(section, width, is_bought, &Room::of_a_picture(width))
    }

    pub(super) fn in_room(
        section: &HeatSection,
        width: Width,
        is_bought: bool,
        room: &Room,
    ) -> Layout {
        let sun_kwh = section.sun_j / KWH_J;
        let (bar_kwh, scale) = match width {
            Width::Page => scale_of(sun_kwh, 345.0, 340.0..=350.0),
            Width::Phone => (0.0, 78.0 / sun_kwh),
        };
        let scale = room.scale.unwrap_or(scale);
        let (left, top, wedge, paper) = match width {
            Width::Page => (293.0, 190.0, 80.0, 1056.0),
            Width::Phone => (16.0, 278.0, 44.0, 390.0),
        };
        let (widths_j, _) = section.widths_j();
        let mut stations = Vec::new();
        let mut below = top;
        let mut x = left;
        let mut passed = 0;
        let mut gathered_kwh = 0.0;
        let least_kwh = sun_kwh * if width == Width::Page { 0.003 } else { 0.01 };
        for (at, (name, says, losses)) in STATIONS.into_iter().enumerate() {
            let station_top = below;
            let mut next = station_top + room.heads[at];
            let mut strata = Vec::new();
            for &loss in losses {
                let kwh = widths_j[passed] / KWH_J;
                passed += 1;
                if kwh < least_kwh {
                    gathered_kwh += kwh;
                    continue;
                }
                let (name, words) = names(loss, is_bought);
                strata.push(Stratum {
                    loss: Some(loss),
                    hatch: hatch(loss),
                    kwh,
                    left: x,
                    width: kwh * scale,
                    top: next,
                    after_kwh: 0.0,
                    month_shares: section.month_shares(passed),
                    name,
                    words,
                });
                x += kwh * scale;
                next += step(width, has_plate(loss));
            }
            if name == "Tap" && gathered_kwh >= 0.5 {
                strata.push(Stratum {
                    loss: None,
                    hatch: Hatch::Held,
                    kwh: gathered_kwh,
                    left: x,
                    width: gathered_kwh * scale,
                    top: next,
                    after_kwh: 0.0,
                    month_shares: section.month_shares(passed),
                    name: "small losses",
                    words: "small losses, one by one in the table",
                });
                next += step(width, false);
            }
            // The plate that says what goes on needs room before the next station's rule.
            if name != "Tap" && !strata.is_empty() {
                next += 44.0;
            }
            let tail = if name == "Tap" { room.tail } else { 0.0 };
            below = (next + tail).max(station_top + room.least[at]);
            stations.push(Station { name, says, top: station_top, strata });
        }
        let spared_kwh =
            sun_kwh - stations.iter().flat_map(strata_of).map(|at| at.kwh).sum::<f64>();
        let mut left_kwh = sun_kwh;
        for stratum in stations.iter_mut().flat_map(|station| &mut station.strata) {
            left_kwh -= stratum.kwh;
            stratum.after_kwh = left_kwh;
        }
        Layout {
            width,
            paper,
            left,
            right: left + sun_kwh * scale,
            top,
            foot: below,
            scale,
            bar_kwh,
            wedge,
            sun_plate: room.sun_plate,
            stations,
            sun_shares: section.month_shares(0),
            spared_kwh,
        }
    }

    pub(super) fn strata(&self) -> impl DoubleEndedIterator<Item = &Stratum> {
        self.stations.iter().flat_map(|station| &station.strata)
    }

    /// Left edge of what is left of the heat, at the foot.
    pub(super) fn heat_left(&self) -> f64 {
        self.right - self.spared_kwh * self.scale
    }
}

fn strata_of(station: &Station) -> impl Iterator<Item = &Stratum> {
    station.strata.iter()
}

/// Pixels for a kilowatt-hour such that the sun is about so wide and a bar of a round number of
/// kilowatt-hours is a whole number of pixels; that bar.
fn scale_of(sun_kwh: f64, middle: f64, wide: std::ops::RangeInclusive<f64>) -> (f64, f64) {
    let mut best: Option<(f64, f64)> = None;
    for power in 0..6 {
        for lead in [1.0, 2.0, 5.0] {
            let bar_kwh = lead * 10_f64.powi(power);
            let pixels = (bar_kwh * middle / sun_kwh).round();
            let found = pixels / bar_kwh;
            if (20.0..=70.0).contains(&pixels) && wide.contains(&(found * sun_kwh)) {
                best.get_or_insert((bar_kwh, found));
            }
        }
    }
    best.unwrap_or((0.0, middle / sun_kwh))
}

/// Stations with a sentence and the losses that begin there.
const STATIONS: [(&str, &str, &[Loss]); 5] = [
    ("Sun", "A year’s sun on the panels, under a free sky.", &[Loss::NearThings]),
    (
        "Panel",
        "Light turns to heat, and the fluid takes it.",
        &[Loss::ThrownBack, Loss::Cover, Loss::Back, Loss::TooWeak, Loss::Barred],
    ),
    (
        "Circuit",
        "Through the pipes to the coil, and back.",
        &[Loss::PipesRunning, Loss::PipesStanding],
    ),
    (
        "Store",
        "The cistern holds the heat until someone draws.",
        &[Loss::StoreWalls, Loss::Vapour, Loss::Dumped, Loss::OtherFeeds],
    ),
    ("Tap", "What the heater need not give.", &[Loss::PastNeed, Loss::Held]),
];

/// From one wedge to the next: a plate needs room.
fn step(width: Width, plate: bool) -> f64 {
    match (width, plate) {
        (Width::Page, true) => 180.0,
        (Width::Page, false) => 112.0,
        (Width::Phone, true) => 132.0,
        (Width::Phone, false) => 84.0,
    }
}

/// Whether a plate behind this loss says what goes on.
pub(super) fn has_plate(loss: Loss) -> bool {
    matches!(loss, Loss::ThrownBack)
}

/// The hatch of a loss.
pub(super) fn hatch(loss: Loss) -> Hatch {
    match loss {
        Loss::NearThings => Hatch::NearThings,
        Loss::ThrownBack => Hatch::ThrownBack,
        Loss::Cover => Hatch::Cover,
        Loss::Back => Hatch::Back,
        Loss::TooWeak => Hatch::TooWeak,
        Loss::Barred => Hatch::Barred,
        Loss::PipesRunning => Hatch::PipesRunning,
        Loss::PipesStanding => Hatch::PipesStanding,
        Loss::StoreWalls => Hatch::StoreWalls,
        Loss::Vapour => Hatch::Vapour,
        Loss::Dumped => Hatch::Dumped,
        Loss::OtherFeeds => Hatch::OtherFeeds,
        Loss::PastNeed => Hatch::PastNeed,
        Loss::Held => Hatch::Held,
    }
}

/// A loss's name at the foot, and its words where it begins.
pub(super) fn names(loss: Loss, is_bought: bool) -> (&'static str, &'static str) {
    match loss {
        Loss::NearThings => ("near things", "horizon, shade and box walls"),
        Loss::ThrownBack => ("glass and paint", "thrown back by glass and paint"),
        Loss::Cover if is_bought => ("panel, running", "from the panel, fluid running"),
        Loss::Cover => ("wind and sky", "through the cover to wind and sky"),
        Loss::Back => ("back and edges", "back and edges"),
        Loss::TooWeak => ("sun too weak", "sun too weak to start the flow"),
        Loss::Barred => ("pump barred", "pumping barred: store full or panel hot"),
        Loss::PipesRunning => ("pipes, running", "pipes, fluid running"),
        Loss::PipesStanding => ("pipes, standing", "pipes cooling when it stands"),
        Loss::StoreWalls => ("cistern walls", "cistern walls and lid"),
        Loss::Vapour => ("vapour", "vapour at the lid"),
        Loss::Dumped => ("overheat let go", "let go by the overheat discharge"),
        Loss::OtherFeeds => ("other draws", "drawn for other than hot water"),
        Loss::PastNeed => ("past the need", "drawn, but sparing the heater nothing"),
        Loss::Held => ("still held", "still held when the year ends"),
    }
}
