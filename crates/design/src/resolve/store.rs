//! The store of a build.

use super::parts::{layers, tube};
use crate::values::Values;
use physics::control::ClockSpan;
use physics::store::{Coil, CoilDirection, Feed, FeedKind, Fins, Loft, OverheatDischarge, Store};

/// A turn wider than this is no turn: the legs are straight \[m\].
const STRAIGHT_FROM_M: f64 = 1e5;

/// The store with its coil and its loft.
pub(crate) fn store(values: &Values) -> Option<Store> {
    let si = |key: &str| values.si(&format!("store.{key}"));
    let overheat = match values.table("store.overheat") {
        Some(_) => Some(OverheatDischarge {
            open_k: si("overheat.open")?,
            close_k: si("overheat.close")?,
            flow_m3_s: si("overheat.flow")?,
        }),
        None => None,
    };
    let turn_m = si("coil.turn-diameter")?;
    Some(Store {
        volume_m3: si("volume")?,
        water_depth_m: si("water-depth")?,
        perimeter_m: si("perimeter")?,
        layers: values.count("store.layers")? as usize,
        inlet_height_m: si("inlet-height")?,
        outlet_height_m: si("outlet-height")?,
        entrainment: si("entrainment")?,
        wall: layers(values, "store.wall")?,
        base: layers(values, "store.base")?,
        lid: layers(values, "store.lid")?,
        lid_gap_m2: si("lid-gap")?,
        coil: Coil {
            tube: tube(values, "store.coil")?,
            length_m: si("coil.length")?,
            bottom_height_m: si("coil.bottom-height")?,
            top_height_m: si("coil.top-height")?,
            turn_diameter_m: if turn_m >= STRAIGHT_FROM_M { f64::INFINITY } else { turn_m },
            fins: fins(values)?,
            direction: match values.word("store.coil.direction")? {
                "up" => CoilDirection::Up,
                _ => CoilDirection::Down,
            },
        },
        loft: Loft {
            outdoor_weight: si("loft.outdoor-weight")?,
            indoor_k: si("loft.indoor")?,
            roof_sun_k_m2_w: si("loft.roof-sun")?,
        },
        overheat,
        feeds: feeds(values)?,
    })
}

/// Nothing within where no fins are written.
fn fins(values: &Values) -> Option<Option<Fins>> {
    let si = |key: &str| values.si(&format!("store.coil.fins.{key}"));
    if values.table("store.coil.fins").is_none() {
        return Some(None);
    }
    Some(Some(Fins {
        outside_m: si("outside")?,
        thickness_m: si("thickness")?,
        pitch_m: si("pitch")?,
        conductivity_w_m_k: si("conductivity")?,
    }))
}

fn feeds(values: &Values) -> Option<Vec<Feed>> {
    (0..values.members("store.feed"))
        .map(|at| {
            let place = |key: &str| format!("store.feed[{at}].{key}");
            Some(Feed {
                kind: match values.word(&place("what"))? {
                    "cold-taps" => FeedKind::ColdTaps,
                    "shower" => FeedKind::Shower,
                    "wc" => FeedKind::Closet,
                    _ => FeedKind::Garden,
                },
                outlet_height_m: values.si(&place("outlet-height"))?,
                day_m3: values.si(&place("a-day"))?,
                hours: ClockSpan {
                    from_min: values.minute(&place("from"))?,
                    to_min: values.minute(&place("to"))?,
                },
            })
        })
        .collect()
}
