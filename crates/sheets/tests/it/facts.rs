//! Figures that pictures are drawn from here.

use design::quantity::Units;
use sheets::Drawing;
use sheets::hatch::Material;
use sheets::pictures::box_section::{self, Place, Worry};
use sheets::pictures::heat_section::{self, HeaterKind, PanelMade};
use sheets::pictures::{
    Mover, Width, cistern, day, draws, efficiency, house, months, plate, pump, sky, strip, year_map,
};
use year::ledger::KWH_J;
use year::section::{HeatSection, Loss, Stratum};

use crate::course;

/// A year's sun of 2240 kWh, of which so much is lost at each place.
pub fn section_of(lost_kwh: &[(Loss, f64)], bought_kwh: f64) -> HeatSection {
    // A northern year: most sun in June.
    let weights = [2.0, 4.0, 8.0, 11.0, 13.0, 14.0, 14.0, 12.0, 9.0, 6.0, 3.0, 2.0];
    let whole: f64 = weights.iter().sum();
    let spread = |kwh: f64| weights.map(|weight| kwh * weight / whole * KWH_J);
    let sun_kwh = 2240.0;
    let strata: Vec<Stratum> = Loss::ALL
        .iter()
        .map(|&loss| {
            let kwh: f64 = lost_kwh.iter().filter(|lost| lost.0 == loss).map(|lost| lost.1).sum();
            Stratum { loss, year_j: kwh * KWH_J, months_j: spread(kwh) }
        })
        .collect();
    let spared_kwh = sun_kwh - lost_kwh.iter().map(|lost| lost.1).sum::<f64>();
    HeatSection {
        sun_j: sun_kwh * KWH_J,
        sun_months_j: spread(sun_kwh),
        strata,
        spared_j: spared_kwh * KWH_J,
        spared_months_j: spread(spared_kwh),
        loft_j: 38.0 * KWH_J,
        bought_j: bought_kwh * KWH_J,
    }
}

/// Losses of an ordinary year, some of them too small for a hatch and one for a name.
pub const ORDINARY: [(Loss, f64); 10] = [
    (Loss::NearThings, 70.0),
    (Loss::ThrownBack, 477.0),
    (Loss::Cover, 474.0),
    (Loss::Back, 102.0),
    (Loss::TooWeak, 157.0),
    (Loss::Barred, 14.0),
    (Loss::PipesRunning, 82.0),
    (Loss::PipesStanding, 14.0),
    (Loss::StoreWalls, 95.0),
    (Loss::Held, 3.0),
];

/// A year in which hardly anything is spared and everything is lost somewhere.
pub fn poor() -> HeatSection {
    let each = Loss::ALL.map(|loss| (loss, 150.0));
    section_of(&each, 5200.0)
}

pub fn heat_section(section: &HeatSection, width: Width) -> Drawing {
    let facts = heat_section::Facts {
        title: "Two panels on a slate roof",
        section,
        panel: PanelMade::AtHome,
        heater: HeaterKind::Cylinder,
    };
    heat_section::draw(&facts, width)
}

/// One drawing of each kind but the heat section.
pub fn small_ones(width: Width, units: Units) -> Vec<Drawing> {
    vec![
        box_of(width, units),
        plate_of(units),
        efficiency_of(width, units),
        pump_of(width, units),
        months_of(units),
        day_of(width, units),
        map_of(year_map::Shown::StoreTop, width, units),
        map_of(year_map::Shown::Absorbed, width, units),
        cistern_of(width, units),
        house::draw(&house_facts(units), width),
        sky_of(54.6, width, false),
        draws_of(width, units),
        strip_of(width, units, true),
        course::course_of(0, width, units),
        course::course_of(1, width, units),
    ]
}

pub fn box_of(width: Width, units: Units) -> Drawing {
    let layer = |thickness_m, material, name: &str| box_section::Layer {
        thickness_m,
        material,
        name: name.to_owned(),
    };
    let part = |name: &str, place, temperatures_c: [f64; 3], worry| box_section::Part {
        name: name.to_owned(),
        material: name.to_owned(),
        place,
        in_use_c: (place != Place::Pipe).then_some(temperatures_c[0]),
        idle_c: temperatures_c[1],
        years_c: temperatures_c[2],
        hours_c: temperatures_c[2] + 10.0,
        worry,
    };
    let facts = box_section::Facts {
        title: "Two panels on a slate roof",
        covers: vec![box_section::Cover {
            thickness_m: 0.004,
            gap_m: 0.025,
            material: Material::Glass,
        }],
        sheet_width_m: 0.8,
        tubes: Some(box_section::Tubes { outside_m: 0.015, spacing_m: 0.135, count: 6 }),
        back: vec![
            layer(0.03, Material::Wool, "mineral wool"),
            layer(0.025, Material::Foam, "polystyrene"),
            layer(0.009, Material::Plywood, "plywood"),
        ],
        edge: layer(0.02, Material::Timber, "softwood"),
        rim_gap_m: 0.01,
        parts: vec![
            part("first metre of pipe", Place::Pipe, [0.0, 148.0, 200.0], Worry::Quiet),
            part("plywood", Place::Back(2), [20.0, 37.0, 70.0], Worry::Quiet),
            part("cover, inside", Place::CoverInside(0), [24.0, 71.0, 250.0], Worry::Quiet),
            part("sheet", Place::Sheet, [43.0, 148.0, 200.0], Worry::Quiet),
            part("seam of tube and sheet", Place::Sheet, [43.0, 148.0, 121.0], Worry::Mind),
            part("foam face", Place::Back(1), [32.0, 92.0, 70.0], Worry::Stop),
            part("rim", Place::Rim, [43.0, 148.0, 150.0], Worry::Quiet),
        ],
        conditions: "In use: 1000 W/m2. Idle: air of 30 C.".to_owned(),
        units,
    };
    box_section::draw(&facts, width)
}

pub fn plate_of(units: Units) -> Drawing {
    let (columns, rows) = (40, 80);
    let sheet_c = (0..columns * rows)
        .map(|cell| {
            let (x, y) = ((cell % columns) as f64, (cell / columns) as f64);
            35.0 + 0.1 * y + 4.0 * (x * 0.8).cos() + if y > 70.0 { 3.0 } else { 0.0 }
        })
        .collect();
    let leg = |x: f64| [(x, 0.05), (x, 0.95)];
    let facts = plate::Facts {
        title: "Two panels on a slate roof",
        width_m: 0.5,
        length_m: 1.0,
        columns,
        sheet_c,
        tubes: vec![vec![leg(0.1), leg(0.25), leg(0.4)]],
        hottest_m: (0.3, 0.99),
        coldest_m: (0.05, 0.01),
        inlet_c: 33.0,
        outlet_c: 39.1,
        conditions: "1000 W/m2, air 20 C".to_owned(),
        units,
    };
    plate::draw(&facts)
}

pub fn efficiency_of(width: Width, units: Units) -> Drawing {
    let curve = |rise_k: f64| 0.78 - 0.0045 * rise_k - 0.000015 * rise_k * rise_k;
    let facts = efficiency::Facts {
        title: "Two panels on a slate roof",
        curve: (0..=20).map(|step| 6.0 * f64::from(step)).map(|k| (k, curve(k))).collect(),
        points: [0.0, 20.0, 45.0].map(|k| (k, curve(k))).to_vec(),
        sun_w_m2: 1000.0,
        area: "the gross area, 2.02 m\u{b2}".to_owned(),
        conditions: "air 20 C; wind 3 m/s",
        units,
    };
    efficiency::draw(&facts, width)
}

pub fn pump_of(width: Width, units: Units) -> Drawing {
    let flows = || (0..=20).map(|step| 0.3 * f64::from(step));
    let round = |fluid_c: f64, of: f64, point: (f64, f64)| pump::Round {
        fluid_c,
        curve: flows().map(|flow| (flow, of * flow * flow)).collect(),
        point,
    };
    let facts = pump::Facts {
        title: "Two panels on a slate roof",
        pump: flows().map(|flow| (flow, 3.5 - 0.2 * flow)).collect(),
        warm: round(40.0, 0.5, (2.454, 3.009)),
        cold: round(5.0, 0.9, (1.864, 3.127)),
        units,
    };
    pump::draw(&facts, width)
}

pub fn months_of(units: Units) -> Drawing {
    let month = |place: usize| months::Month {
        twin_kwh: 140.0 + 20.0 * (place as f64 - 5.5).abs(),
        spared_kwh: 20.0 + 15.0 * (6.0 - (place as f64 - 5.5).abs()),
        share: 0.4,
        store_max_c: 40.0,
        running_hours: 110.0,
        backwards_hours: 0.0,
        pump_kwh: 4.0,
    };
    let all: Vec<months::Month> = (0..12).map(month).collect();
    let sum = |pick: fn(&months::Month) -> f64| all.iter().map(pick).sum();
    let year = months::Month {
        twin_kwh: sum(|month| month.twin_kwh),
        spared_kwh: sum(|month| month.spared_kwh),
        running_hours: sum(|month| month.running_hours),
        backwards_hours: 0.0,
        pump_kwh: sum(|month| month.pump_kwh),
        ..all[0]
    };
    months::draw(&months::Facts {
        title: "Two panels on a slate roof",
        months: &all,
        year,
        mover: Mover::Pump,
        units,
    })
}

pub fn day_of(width: Width, units: Units) -> Drawing {
    let sun = |minute: usize| {
        let height = ((minute as f64 / 1440.0 - 0.25) * std::f64::consts::TAU).sin();
        (700.0 * height).max(0.0) as f32
    };
    let absorbed: Vec<f32> = (0..1440).map(sun).collect();
    let drawn_l: Vec<f64> = (0..24).map(|hour| if hour % 6 == 1 { 20.0 } else { 0.0 }).collect();
    let facts = day::Facts {
        title: "Two panels on a slate roof",
        season: day::Season::Summer,
        date: "26 June".to_owned(),
        rule: "The day of median light in June and July.".to_owned(),
        absorbed_w_m2: &absorbed,
        store_top_c: (0..1440).map(|minute| 25.0 + f64::from(minute) / 100.0).collect(),
        panel_out_c: absorbed.iter().map(|&w_m2| 12.0 + f64::from(w_m2) / 20.0).collect(),
        mover: Mover::Pump,
        running: absorbed.iter().map(|&w_m2| w_m2 > 300.0).collect(),
        drawn_l: &drawn_l,
        units,
    };
    day::draw(&facts, width)
}

/// A year's map of something that swings with the seasons and the hours.
pub fn map_of(shown: year_map::Shown, width: Width, units: Units) -> Drawing {
    let hours: Vec<f64> = (0..8760)
        .map(|hour| {
            let (day, of_day) = (f64::from(hour / 24), f64::from(hour % 24));
            30.0 - 15.0 * (day / 365.0 * std::f64::consts::TAU).cos()
                + 4.0 * (of_day / 24.0 * std::f64::consts::TAU).sin()
        })
        .collect();
    let months = year::month_spreads(&hours).map(|month| [month.least, month.mean, month.most]);
    let facts = year_map::Facts {
        title: "Two panels on a slate roof",
        shown,
        hours: &hours,
        month_starts: &physics::climate::MONTH_STARTS_DAY,
        months: &months,
        units,
    };
    year_map::draw(&facts, width)
}

/// Every drawing there is, in both widths and units.
pub fn all() -> Vec<Drawing> {
    let mut drawings = Vec::new();
    drawings.extend(crate::loft::lofts());
    for section in [section_of(&ORDINARY, 948.0), poor()] {
        for width in [Width::Page, Width::Phone] {
            drawings.push(heat_section(&section, width));
        }
        drawings.push(crate::section::small_column(&section));
    }
    for width in [Width::Page, Width::Phone] {
        for latitude_deg in [70.0, 54.6, 37.0, 20.0, 10.0, 0.0, -5.0, -23.44, -38.3] {
            drawings.extend([true, false].map(|is_free| sky_of(latitude_deg, width, is_free)));
        }
        for units in [Units::Metric, Units::Us] {
            drawings.extend(small_ones(width, units));
            drawings.push(strip_of(width, units, false));
            drawings.extend(cisterns(width, units));
            for shown in [year_map::Shown::PanelOut, year_map::Shown::Running(Mover::Weight)] {
                drawings.push(map_of(shown, width, units));
            }
            drawings.extend(houses(units).iter().map(|facts| house::draw(facts, width)));
        }
    }
    drawings
}

/// What an ordinary cistern on a summer afternoon is drawn from.
pub struct CisternParts {
    pub layers_c: Vec<f64>,
    pub wall: Vec<box_section::Layer>,
    pub base: Vec<box_section::Layer>,
    pub lid: Vec<box_section::Layer>,
    pub outlets: Vec<cistern::Outlet>,
}

impl CisternParts {
    pub fn usual() -> Self {
        let layer = |thickness_m, material, name: &str| box_section::Layer {
            thickness_m,
            material,
            name: name.to_owned(),
        };
        let outlet = |name: &str, height_m| cistern::Outlet { name: name.to_owned(), height_m };
        CisternParts {
            layers_c: vec![18.2, 24.5, 31.0, 38.4, 41.2, 42.0, 42.3, 42.4],
            wall: vec![layer(0.08, Material::Wool, "glass wool")],
            base: vec![layer(0.018, Material::Plywood, "plywood")],
            lid: vec![layer(0.08, Material::Wool, "glass wool")],
            outlets: vec![outlet("to the cylinder", 0.05), outlet("to the closet", 0.05)],
        }
    }

    pub fn facts(&self, units: Units) -> cistern::Facts<'_> {
        cistern::Facts {
            title: "Two panels on a slate roof",
            water: cistern::Water { volume_m3: 0.115, depth_m: 0.45, across_m: 0.5055 },
            layers_c: &self.layers_c,
            ends_c: [12.0, 46.0],
            moment: "26 June, 16:40",
            wall: &self.wall,
            base: &self.base,
            lid: &self.lid,
            lid_fit: cistern::LidFit::Close,
            coil: cistern::Coil {
                outside_m: 0.010,
                fins_m: None,
                length_m: 8.0,
                bottom_m: 0.06,
                top_m: 0.2,
                turn_m: Some(0.35),
            },
            inlet_m: 0.45,
            cold_c: Some(14.0),
            outlets: &self.outlets,
            discharge_c: Some(70.0),
            units,
        }
    }
}

pub fn cistern_of(width: Width, units: Units) -> Drawing {
    cistern::draw(&CisternParts::usual().facts(units), width)
}

/// Cisterns of many kinds: bare and open; mixed, with straight legs; tall and slender in forty layers
/// with fins; flat and wide with more coil than a turn holds; lagged thicker than the platform reaches,
/// with pipes at every height.
pub fn cisterns(width: Width, units: Units) -> Vec<Drawing> {
    use cistern::{Coil, Facts, LidFit, Water};
    let usual = CisternParts::usual();
    let facts = usual.facts(units);
    let bare = CisternParts {
        wall: vec![],
        base: vec![],
        lid: vec![],
        layers_c: vec![30.0],
        ..CisternParts::usual()
    };
    let slender = CisternParts {
        layers_c: (0..40).map(|layer| 15.0 + 1.2 * f64::from(layer)).collect(),
        ..CisternParts::usual()
    };
    let mut thick = CisternParts::usual();
    for layers in [&mut thick.wall, &mut thick.base, &mut thick.lid] {
        let mut foam = layers[0].clone();
        (foam.thickness_m, foam.material) = (0.12, Material::Foam);
        foam.name = "expanded polystyrene board".to_owned();
        layers.push(foam);
    }
    for place in 0..4 {
        let name = format!("to the garden\u{2019}s tap {place}");
        thick.outlets.push(cistern::Outlet { name, height_m: 0.1 * f64::from(place) });
    }
    let deep = Water { volume_m3: 0.2, depth_m: 1.9, across_m: 0.37 };
    let flat = Water { volume_m3: 0.3, depth_m: 0.12, across_m: 1.58 };
    vec![
        cistern::draw(
            &Facts {
                lid_fit: LidFit::Open,
                discharge_c: None,
                cold_c: None,
                coil: Coil { turn_m: None, ..facts.coil },
                ..bare.facts(units)
            },
            width,
        ),
        cistern::draw(
            &Facts {
                water: deep,
                inlet_m: 0.2,
                coil: Coil { fins_m: Some(0.022), turn_m: Some(0.2), top_m: 0.9, ..facts.coil },
                ..slender.facts(units)
            },
            width,
        ),
        cistern::draw(
            &Facts {
                water: flat,
                coil: Coil { length_m: 40.0, bottom_m: 0.03, top_m: 0.09, ..facts.coil },
                lid_fit: LidFit::Gap,
                ..facts.clone()
            },
            width,
        ),
        cistern::draw(&thick.facts(units), width),
    ]
}

/// An ordinary house: a panel on the roof over the loft, a header tank, a pump beside the store.
pub fn house_facts(units: Units) -> house::Facts<'static> {
    house::Facts {
        title: "Two panels on a slate roof",
        panel: house::Panel {
            count: 2,
            bottom_m: 0.5,
            top_m: 1.188,
            length_m: 1.2,
            tilt_deg: 35.0,
        },
        highest_m: 1.188,
        pump: Some(house::Pump { height_m: 0.0, place: house::PumpPlace::AfterCoil }),
        check_valve: house::CheckValve::Fitted,
        holding: house::Holding::Tank { level_m: 1.688 },
        joint: house::Joint::PumpInlet,
        air_vent: house::AirVent::Fitted,
        store: house::Store { depth_m: 0.45, across_m: 0.5055, wall_m: 0.08, lid_m: 0.08 },
        coil: house::Coil { bottom_m: 0.06, top_m: 0.2, flow: house::Flow::Down },
        outlet_m: 0.05,
        outlet_words: "to the cylinder",
        pressures: &[],
        assumed: &[house::Height::Pump, house::Height::Level],
        units,
    }
}

/// Houses of many kinds: on the roof, on the ground far below, on a wall, sealed, with the pump in
/// every place, with a header tank lower than the store's lid, and with heights far apart.
pub fn houses(units: Units) -> Vec<house::Facts<'static>> {
    use house::{CheckValve, Flow, Height, Holding, Joint, Panel, Pump, PumpPlace};
    let usual = || house_facts(units);
    let tilted = |bottom_m: f64, length_m: f64, tilt_deg: f64| {
        let rise_m = length_m * tilt_deg.to_radians().sin();
        Panel { count: 1, bottom_m, top_m: bottom_m + rise_m, length_m, tilt_deg }
    };
    let mut all = vec![usual()];
    all.push(house::Facts {
        panel: tilted(-3.2, 1.8, 40.0),
        highest_m: 0.5,
        pump: None,
        check_valve: CheckValve::Flap,
        holding: Holding::Tank { level_m: 1.0 },
        assumed: &[Height::Level],
        ..usual()
    });
    for place in [PumpPlace::BeforePanel, PumpPlace::AfterPanel, PumpPlace::BeforeCoil] {
        all.push(house::Facts {
            pump: Some(Pump { height_m: 0.3, place }),
            joint: Joint::PumpOutlet,
            coil: house::Coil { flow: Flow::Up, ..usual().coil },
            ..usual()
        });
    }
    all.push(house::Facts {
        holding: Holding::Vessel { volume_m3: 0.012 },
        pump: Some(Pump { height_m: 1.0, place: PumpPlace::AfterCoil }),
        assumed: &[],
        ..usual()
    });
    all.push(house::Facts {
        panel: tilted(-1.0, 1.0, 90.0),
        highest_m: 0.2,
        holding: Holding::Tank { level_m: 0.5 },
        ..usual()
    });
    all.push(house::Facts {
        panel: tilted(0.2, 2.0, 5.0),
        holding: Holding::Tank { level_m: 9.0 },
        highest_m: 8.0,
        joint: Joint::PanelOutlet,
        air_vent: house::AirVent::None,
        ..usual()
    });
    all.push(house::Facts {
        panel: tilted(-15.0, 2.0, 45.0),
        pump: Some(Pump { height_m: -15.0, place: PumpPlace::BeforePanel }),
        ..usual()
    });
    all
}

/// The sun's ways by the plain rule of spherical astronomy, noon at 12 h, for any latitude.
pub fn ways(latitude_deg: f64) -> Vec<sky::Day> {
    let sight = |declination_deg: f64, hour: f64| {
        let (lat, dec) = (latitude_deg.to_radians(), declination_deg.to_radians());
        let w = (15.0 * (hour - 12.0)).to_radians();
        let up = lat.sin() * dec.sin() + lat.cos() * dec.cos() * w.cos();
        let north = lat.cos() * dec.sin() - lat.sin() * dec.cos() * w.cos();
        let east = -dec.cos() * w.sin();
        sky::Sight {
            azimuth_deg: east.atan2(north).to_degrees().rem_euclid(360.0),
            height_deg: up.asin().to_degrees(),
        }
    };
    [("21 June", 23.44), ("equinox", 0.0), ("21 December", -23.44)]
        .map(|(name, declination_deg)| sky::Day {
            name: name.to_owned(),
            way: (0..=360).map(|step| sight(declination_deg, f64::from(step) / 15.0)).collect(),
            hours: (0..24).map(|hour| sight(declination_deg, f64::from(hour))).collect(),
        })
        .to_vec()
}

/// A sky over a latitude: with hills and a chimney, or free.
pub fn sky_of(latitude_deg: f64, width: Width, is_free: bool) -> Drawing {
    let mut days = ways(latitude_deg);
    if latitude_deg < 0.0 {
        days.reverse();
    }
    let sight = |azimuth_deg: f64, height_deg: f64| sky::Sight { azimuth_deg, height_deg };
    let horizon: Vec<sky::Sight> = (0..=360)
        .map(|step| {
            let azimuth_deg = f64::from(step);
            sight(azimuth_deg, 5.0 + 3.0 * (azimuth_deg / 20.0).sin())
        })
        .collect();
    let near = [sky::Near {
        name: "shade, leaves 10 %".to_owned(),
        words: "all days, 14:00 to 14:40: leaves 10 % of the beam".to_owned(),
        outline: vec![
            sight(205.0, 58.0),
            sight(222.0, 54.0),
            sight(216.0, 8.0),
            sight(206.0, 10.0),
        ],
    }];
    let facts = sky::Facts {
        title: "Two panels on a slate roof",
        looks: if latitude_deg < 0.0 { sky::Looks::North } else { sky::Looks::South },
        days: &days,
        horizon: if is_free { &[] } else { &horizon },
        near: if is_free { &[] } else { &near },
        panel_words: "The panel faces 180° from north and lies at 35°.",
    };
    sky::draw(&facts, width)
}

pub fn draws_of(width: Width, units: Units) -> Drawing {
    let mut drawn_l = [0.0; 24];
    let mut sun_share = [0.0; 24];
    for (hour, litres, share) in [(6, 4.0, 0.5), (7, 26.0, 0.46), (12, 6.0, 0.3), (18, 10.0, 1.0)] {
        (drawn_l[hour], sun_share[hour]) = (litres, share);
    }
    let facts = draws::Facts { title: "Two panels on a slate roof", drawn_l, sun_share, units };
    draws::draw(&facts, width)
}

/// A day with a store that warms in the afternoon, or one that cools.
pub fn strip_of(width: Width, units: Units, warms: bool) -> Drawing {
    let absorbed: Vec<f32> = (0..1440)
        .map(|minute| {
            let height = ((f64::from(minute) / 1440.0 - 0.25) * std::f64::consts::TAU).sin();
            (700.0 * height).max(0.0) as f32
        })
        .collect();
    let slope = if warms { 1.0 } else { -1.0 };
    let store_top_c: Vec<f64> = (0..1440).map(|at| 30.0 + slope * f64::from(at) / 100.0).collect();
    let drawn_l: Vec<f32> = (0..1440).map(|at| if at % 360 < 5 { 4.0 } else { 0.0 }).collect();
    let running: Vec<bool> = absorbed.iter().map(|&w_m2| w_m2 > 300.0).collect();
    let facts = strip::Facts {
        title: "Two panels on a slate roof",
        date: "26 June",
        absorbed_w_m2: &absorbed,
        store_top_c: &store_top_c,
        mover: Mover::Pump,
        running: &running,
        drawn_l: &drawn_l,
        units,
    };
    strip::draw(&facts, width)
}
