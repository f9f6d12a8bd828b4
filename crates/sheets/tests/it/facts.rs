//! Figures that pictures are drawn from here.

use design::quantity::Units;
use sheets::Drawing;
use sheets::hatch::Material;
use sheets::pictures::box_section::{self, Place, Worry};
use sheets::pictures::heat_section::{self, HeaterKind, PanelMade};
use sheets::pictures::{Mover, Width, day, efficiency, months, plate, pump, store_map};
use year::ledger::KWH_J;
use year::section::{HeatSection, Loss, Stratum};

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
        store_of(width, units),
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

pub fn store_of(width: Width, units: Units) -> Drawing {
    let hours: Vec<f64> = (0..8760)
        .map(|hour| {
            let (day, of_day) = (f64::from(hour / 24), f64::from(hour % 24));
            30.0 - 15.0 * (day / 365.0 * std::f64::consts::TAU).cos()
                + 4.0 * (of_day / 24.0 * std::f64::consts::TAU).sin()
        })
        .collect();
    let months_c = year::month_spreads(&hours).map(|month| [month.least, month.mean, month.most]);
    let facts = store_map::Facts {
        title: "Two panels on a slate roof",
        store_top_c: &hours,
        month_starts: &physics::climate::MONTH_STARTS_DAY,
        months_c: &months_c,
        units,
    };
    store_map::draw(&facts, width)
}

/// Every drawing there is, in both widths and units.
pub fn all() -> Vec<Drawing> {
    let mut drawings = Vec::new();
    for section in [section_of(&ORDINARY, 948.0), poor()] {
        for width in [Width::Page, Width::Phone] {
            drawings.push(heat_section(&section, width));
        }
    }
    for width in [Width::Page, Width::Phone] {
        for units in [Units::Metric, Units::Us] {
            drawings.extend(small_ones(width, units));
        }
    }
    drawings
}
