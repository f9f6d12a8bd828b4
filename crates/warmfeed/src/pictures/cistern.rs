//! The picture of the store.

use std::f64::consts::PI;

use design::MONTHS;
use design::quantity::Units;
use physics::ZERO_CELSIUS_K;
use physics::climate::{MONTH_STARTS_DAY, month_of_day};
use physics::store::{FeedKind, Store};
use physics::tap::Heater;
use sheets::page::Picture;
use sheets::pictures::cistern::{self, Coil, LidFit, Outlet, Water};
use year::{Channel, Forcing, Recorder};

use super::both;
use super::materials::layers;
use crate::commands::Loaded;

/// The store at a moment of the year.
#[derive(Clone, Debug, PartialEq)]
pub struct StoreAt {
    /// Its layers, the lowest first \[C\].
    pub layers_c: Vec<f64>,
    /// Coldest and hottest of its layers on that day, to whole degrees outwards \[C\].
    pub ends_c: [f64; 2],
    /// The moment in words.
    pub moment: String,
    /// Cold water that day \[C\].
    pub cold_c: f64,
}

impl StoreAt {
    /// At a minute of a day, 0 to 364; `None` where the layers were not recorded.
    pub fn of(
        recorder: &Recorder,
        forcing: &Forcing,
        day: usize,
        minute: usize,
    ) -> Option<StoreAt> {
        let mut layers: Vec<&[f32]> = Vec::new();
        while let Some(series) = recorder.series(Channel::StoreLayer(layers.len() as u8)) {
            layers.push(series.get(day * 1440..(day + 1) * 1440)?);
        }
        let celsius = |k: f32| f64::from(k) - ZERO_CELSIUS_K;
        let all = || layers.iter().flat_map(|series| series.iter().map(|&k| celsius(k)));
        let ends_c =
            [all().fold(f64::MAX, f64::min).floor(), all().fold(f64::MIN, f64::max).ceil()];
        let layers_c: Option<Vec<f64>> =
            layers.iter().map(|series| series.get(minute).map(|&k| celsius(k))).collect();
        let layers_c = layers_c.filter(|layers_c| !layers_c.is_empty())?;
        let hour = forcing.hours.get(day * 24 + minute / 60)?;
        Some(StoreAt {
            layers_c,
            ends_c,
            moment: format!("{}, {:02}:{:02}", date(day), minute / 60, minute % 60),
            cold_c: hour.mains_k - ZERO_CELSIUS_K,
        })
    }

    /// At the minute of a day in which its top is hottest.
    pub fn hottest_of(recorder: &Recorder, forcing: &Forcing, day: usize) -> Option<StoreAt> {
        let top = recorder.series(Channel::StoreTop)?.get(day * 1440..(day + 1) * 1440)?;
        let hottest = (0..top.len()).max_by(|&one, &other| top[one].total_cmp(&top[other]))?;
        StoreAt::of(recorder, forcing, day, hottest)
    }
}

/// A day of the year in words, 0 the first of January.
pub fn date(day: usize) -> String {
    let month = month_of_day(day);
    format!("{} {}", day - MONTH_STARTS_DAY[month] + 1, MONTHS[month])
}

/// Section through the store.
pub fn cistern_picture(loaded: &Loaded, at: &StoreAt, units: Units) -> Picture {
    let store = &loaded.build.store;
    let listed = |list: &str, layers_of: &[physics::panel::Layer]| {
        let thick_m: Vec<f64> = layers_of.iter().map(|layer| layer.thickness_m).collect();
        layers(&loaded.origins, list, &thick_m)
    };
    let (wall, base, lid) = (
        listed("store.wall", &store.wall),
        listed("store.base", &store.base),
        listed("store.lid", &store.lid),
    );
    let coil = &store.coil;
    let facts = cistern::Facts {
        title: &loaded.design.title,
        water: Water {
            volume_m3: store.volume_m3,
            depth_m: store.water_depth_m,
            across_m: across_m(loaded, store),
        },
        layers_c: &at.layers_c,
        ends_c: at.ends_c,
        moment: &at.moment,
        wall: &wall,
        base: &base,
        lid: &lid,
        lid_fit: lid_fit(store),
        coil: Coil {
            outside_m: coil.tube.outside_m,
            fins_m: coil.fins.map(|fins| fins.outside_m),
            length_m: coil.length_m,
            bottom_m: coil.bottom_height_m,
            top_m: coil.top_height_m,
            turn_m: Some(coil.turn_diameter_m).filter(|turn_m| turn_m.is_finite()),
        },
        inlet_m: store.inlet_height_m,
        cold_c: Some(at.cold_c),
        outlets: &outlets(loaded),
        discharge_c: store.overheat.map(|discharge| discharge.open_k - ZERO_CELSIUS_K),
        units,
    };
    both(|width| cistern::draw(&facts, width))
}

/// Diameter of a round store, the longer side of another \[m\].
pub(super) fn across_m(loaded: &Loaded, store: &Store) -> f64 {
    let plan_m2 = store.plan_area_m2();
    let is_round = loaded.origins.at("store.shape").is_some_and(|shape| shape.value == "round");
    if is_round {
        return (4.0 * plan_m2 / PI).sqrt();
    }
    // Sides whose sum is half the way round and whose product is the plan.
    let mean_m = 0.25 * store.perimeter_m;
    mean_m + (mean_m * mean_m - plan_m2).max(0.0).sqrt()
}

fn lid_fit(store: &Store) -> LidFit {
    if store.lid_gap_m2 <= 0.0 {
        LidFit::Close
    } else if store.lid_gap_m2 < 0.5 * store.plan_area_m2() {
        LidFit::Gap
    } else {
        LidFit::Open
    }
}

/// Where the store's water goes.
pub(super) fn heater_words(loaded: &Loaded) -> &'static str {
    match loaded.build.tap.heater {
        Heater::Cylinder { .. } => "to the cylinder",
        Heater::Instantaneous(_) => "to the heater",
    }
}

fn outlets(loaded: &Loaded) -> Vec<Outlet> {
    let store = &loaded.build.store;
    let heater = Outlet { name: heater_words(loaded).to_owned(), height_m: store.outlet_height_m };
    let feeds = store.feeds.iter().map(|feed| Outlet {
        name: match feed.kind {
            FeedKind::ColdTaps => "to cold taps",
            FeedKind::Shower => "to a shower",
            FeedKind::Closet => "to the WC",
            FeedKind::Garden => "to the garden",
        }
        .to_owned(),
        height_m: feed.outlet_height_m,
    });
    std::iter::once(heater).chain(feeds).collect()
}
