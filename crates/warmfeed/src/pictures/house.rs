//! The picture of the circuit in elevation.

use design::Origin;
use design::quantity::Units;
use physics::circuit::{self as round};
use physics::panel::Panel;
use physics::store::CoilDirection;
use sheets::page::Picture;
use sheets::pictures::house::{
    self, AirVent, CheckValve, Coil, Flow, Height, Holding, Joint, Pressure, Pump, PumpPlace, Store,
};

use super::both;
use super::cistern::{across_m, heater_words};
use crate::commands::Loaded;
use crate::wire::CircuitWire;

/// Every part of the circuit at its height; `None` for a build without a panel. `circuit` gives the
/// pressures, where they could be reckoned.
pub fn house_picture(
    loaded: &Loaded,
    circuit: Option<&CircuitWire>,
    units: Units,
) -> Option<Picture> {
    let build = &loaded.build;
    let panel = build.panel.panels.first()?;
    let (layout, store) = (&build.circuit.layout, &build.store);
    let tilt = build.sun.plane.tilt;
    let rise_m = layout.panel_top_m - layout.panel_bottom_m;
    let length_m = match panel {
        Panel::Built(built) => built.sheet.length_m,
        Panel::Bought(_) => rise_m / tilt.sin().max(0.05),
    };
    let thick_m = |layers: &[physics::panel::Layer]| -> f64 {
        layers.iter().map(|layer| layer.thickness_m).sum()
    };
    let pressures: Vec<Pressure> = circuit
        .map(|circuit| &circuit.points[..])
        .unwrap_or_default()
        .iter()
        .map(|point| Pressure {
            point: point.point.clone(),
            height_m: point.height_m,
            running_pa: point.running_bar * 1e5,
            resting_pa: point.resting_bar * 1e5,
        })
        .collect();
    let assumed = assumed(loaded);
    let facts = house::Facts {
        title: &loaded.design.title,
        panel: house::Panel {
            count: build.panel.panels.len(),
            bottom_m: layout.panel_bottom_m,
            top_m: layout.panel_top_m,
            length_m,
            tilt_deg: tilt.degrees(),
        },
        highest_m: layout.highest_m,
        pump: build.circuit.pump.as_ref().map(|_| Pump {
            height_m: layout.pump_m,
            place: match layout.pump_place {
                round::PumpPlace::AfterCoil => PumpPlace::AfterCoil,
                round::PumpPlace::BeforePanel => PumpPlace::BeforePanel,
                round::PumpPlace::AfterPanel => PumpPlace::AfterPanel,
                round::PumpPlace::BeforeCoil => PumpPlace::BeforeCoil,
            },
        }),
        check_valve: match build.circuit.check_valve {
            round::CheckValve::None => CheckValve::None,
            round::CheckValve::Fitted { .. } => CheckValve::Fitted,
            round::CheckValve::Flap { .. } => CheckValve::Flap,
        },
        holding: match layout.holding {
            round::Holding::HeaderTank { level_m, .. } => Holding::Tank { level_m },
            round::Holding::Vessel { volume_m3, .. } => Holding::Vessel { volume_m3 },
        },
        joint: match layout.joint {
            round::Joint::PumpInlet => Joint::PumpInlet,
            round::Joint::PumpOutlet => Joint::PumpOutlet,
            round::Joint::PanelOutlet => Joint::PanelOutlet,
        },
        air_vent: match loaded.origins.at("circuit.air-vent") {
            Some(vent) if vent.value == "fitted" => AirVent::Fitted,
            _ => AirVent::None,
        },
        store: Store {
            depth_m: store.water_depth_m,
            across_m: across_m(loaded, store),
            wall_m: thick_m(&store.wall),
            lid_m: thick_m(&store.lid),
        },
        coil: Coil {
            bottom_m: store.coil.bottom_height_m,
            top_m: store.coil.top_height_m,
            flow: match store.coil.direction {
                CoilDirection::Down => Flow::Down,
                CoilDirection::Up => Flow::Up,
            },
        },
        outlet_m: store.outlet_height_m,
        outlet_words: heater_words(loaded),
        pressures: &pressures,
        assumed: &assumed,
        units,
    };
    Some(both(|width| house::draw(&facts, width)))
}

/// Heights that the design file does not state.
fn assumed(loaded: &Loaded) -> Vec<Height> {
    [
        ("circuit.heights.panel-bottom", Height::PanelBottom),
        ("circuit.heights.pump", Height::Pump),
        ("circuit.heights.highest", Height::Highest),
        ("circuit.filling.water-level", Height::Level),
    ]
    .into_iter()
    .filter(|(place, _)| {
        loaded.origins.at(place).is_some_and(|traced| traced.origin != Origin::Written)
    })
    .map(|(_, height)| height)
    .collect()
}
