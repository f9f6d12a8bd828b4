//! What no design can say, and how far it may be off.

use design::Origin;
use design::parameters::{general, parameter_at};
use design::quantity::parse;

use super::gather::kind_of;
use super::lever::{Lever, Spot};
use super::measures::measure;
use super::{Chance, Maker, Reach, Unknown};
use crate::Subject;

/// Ends of paths whose spread is nothing to the year: heat capacities of solids, and the conductivity of a
/// tube's wall, which resists a thousandth of what the films do.
pub(super) const LEFT_OUT: [&str; 9] = [
    "density",
    "heat-capacity",
    "conductivity-growth",
    "tubes.conductivity",
    "header.conductivity",
    "pipe.conductivity",
    "then[].conductivity",
    "coil.conductivity",
    "roughness",
];

/// Which maker a value belongs to that was not said, by its path.
pub(super) fn maker_of_unsaid(path: &str) -> Maker {
    match path {
        "store.entrainment" => Maker::Mixing,
        "sun.shelter" => Maker::Relations,
        "panel.tubes.bond" | "panel.box.air-changes" | "store.lid-gap" => Maker::Workmanship,
        _ => Maker::Unsaid,
    }
}

/// One row of the table: a factor on values of the design.
struct Factor {
    /// What it is called where it moves more than one value; else the place itself.
    name: &'static str,
    /// Ends of the places it moves.
    places: &'static [&'static str],
    maker: Maker,
    low: f64,
    high: f64,
    source: &'static str,
}

const FACTORS: [Factor; 7] = [
    Factor {
        name: "panel.tubes.bond",
        places: &["panel.tubes.bond"],
        maker: Maker::Workmanship,
        low: 0.4,
        high: 1.5,
        source: "judgement: gaps and thin fillets more often than fat ones",
    },
    Factor {
        name: "panel.box.air-changes",
        places: &["panel.box.air-changes"],
        maker: Maker::Workmanship,
        low: 0.4,
        high: 2.5,
        source: "judgement: half way to the next answer on either side",
    },
    Factor {
        name: "the cistern's jacket",
        places: &["store.wall[0].thickness", "store.lid[0].thickness", "store.base[0].thickness"],
        maker: Maker::Workmanship,
        low: 0.55,
        high: 1.05,
        source: "stores in use lose up to twice what their layers say: gaps, pipes, fittings (common practice)",
    },
    Factor {
        name: "the pipes' lagging",
        places: &["circuit.flow-pipe.lagging", "circuit.return-pipe.lagging"],
        maker: Maker::Workmanship,
        low: 0.6,
        high: 1.0,
        source: "bare fittings and brackets cost up to a third more (common practice)",
    },
    Factor {
        name: "the back's fit",
        places: &["panel.back[0].thickness"],
        maker: Maker::Workmanship,
        low: 0.8,
        high: 1.02,
        source: "judgement: compressed wool, wood across it",
    },
    Factor {
        name: "the coil's films",
        places: &["store.coil.length"],
        maker: Maker::Relations,
        low: 0.85,
        high: 1.2,
        source: "films inside and outside a coil are known to some 20 % (Churchill and Chu 1975 and others state it)",
    },
    Factor {
        name: "panel.certificate.a1",
        places: &["panel.certificate.a1"],
        maker: Maker::Materials,
        low: 0.93,
        high: 1.1,
        source: "two laboratories part by some 5 %, and panels age (from memory)",
    },
];

/// Relations for one thing among which the literature does not decide.
struct Relations {
    place: &'static str,
    words: &'static [&'static str],
    source: &'static str,
}

const RELATIONS: [Relations; 3] = [
    Relations {
        place: "sun.wind-film",
        words: &["watmuff-1977", "mcadams-1954", "mitchell-1976"],
        source: "three published relations, equally likely",
    },
    Relations {
        place: "sun.sky-model",
        words: &["perez-1990", "hay-davies-1980"],
        source: "two published models, equally likely; the isotropic one is known to give too little",
    },
    Relations {
        place: "sun.sky-temperature",
        words: &["from-file", "berdahl-martin-1984"],
        source: "the file's infrared, itself modelled, or the relation by dew point",
    },
];

/// The unknowns that the table adds to a design.
pub(super) fn extras(subject: &Subject) -> Vec<Unknown> {
    let mut all: Vec<Unknown> =
        RELATIONS.iter().filter_map(|row| relations(subject, row)).collect();
    all.extend(FACTORS.iter().filter_map(|row| factor(subject, row)));
    all.extend(efficiency(subject));
    all.extend(household(subject));
    all
}

fn relations(subject: &Subject, row: &Relations) -> Option<Unknown> {
    let origins = &subject.design.origins;
    if row.place == "sun.sky-temperature" && subject.climate.sky_infrared_w_m2.is_none() {
        return None;
    }
    let now = origins.at(row.place)?.value.clone();
    let words: Vec<String> = row.words.iter().map(|&word| word.to_owned()).collect();
    // A relation outside the list was chosen on purpose, and stays.
    if !words.contains(&now) {
        return None;
    }
    let chance = 1.0 / words.len() as f64;
    Some(Unknown {
        place: row.place.to_owned(),
        maker: Maker::Relations,
        measure: None,
        source: row.source.to_owned(),
        reach: Reach::Words((0..words.len()).map(|word| Chance { word, chance }).collect()),
        lever: Lever::Word { place: row.place.to_owned(), words },
    })
}

fn factor(subject: &Subject, row: &Factor) -> Option<Unknown> {
    let origins = &subject.design.origins;
    let moved: Vec<(Spot, f64)> = row
        .places
        .iter()
        .filter_map(|&place| {
            let traced = origins.at(place)?;
            // What was left unsaid, or answered "unknown", has a wider spread of its own.
            if matches!(traced.origin, Origin::Unknown { .. })
                || matches!(traced.origin, Origin::Assumed { .. })
                    && parameter_at(place).is_some_and(|parameter| parameter.unknown.is_some())
            {
                return None;
            }
            let kind = kind_of(parameter_at(place)?)?;
            let now = parse(&traced.value, kind).ok()?.si;
            (now > 0.0).then(|| (Spot { place: place.to_owned(), kind }, now))
        })
        .collect();
    (!moved.is_empty()).then(|| Unknown {
        place: row.name.to_owned(),
        maker: row.maker,
        measure: measure(&general(row.name)),
        source: row.source.to_owned(),
        reach: Reach::Figure { low: row.low, middle: 1.0, high: row.high },
        lever: Lever::Factor(moved),
    })
}

/// A certificate's efficiency without losses.
fn efficiency(subject: &Subject) -> Option<Unknown> {
    const PLACE: &str = "panel.certificate.eta0";
    let kind = kind_of(parameter_at(PLACE)?)?;
    let middle = parse(&subject.design.origins.at(PLACE)?.value, kind).ok()?.si;
    Some(Unknown {
        place: PLACE.to_owned(),
        maker: Maker::Materials,
        measure: measure(PLACE),
        source: "two laboratories part by some 2 %, and panels age (from memory)".to_owned(),
        reach: Reach::Figure { low: middle - 0.025, middle, high: middle + 0.012 },
        lever: Lever::Value(Spot { place: PLACE.to_owned(), kind }),
    })
}

/// What the household does.
fn household(subject: &Subject) -> Vec<Unknown> {
    let by_rule = subject.design.origins.at("tap.people").is_some();
    let (low, high, source) = if by_rule {
        (
            0.65,
            1.5,
            "households of one size part by more than half (Energy Saving Trust 2008, from memory)",
        )
    } else {
        (0.8, 1.2, "judgement: a list or a profile is not what is drawn")
    };
    let mut all = vec![
        Unknown {
            place: "the water drawn".to_owned(),
            maker: Maker::Draws,
            measure: measure("the water drawn"),
            source: source.to_owned(),
            reach: Reach::Figure { low, middle: 1.0, high },
            lever: Lever::Drawn,
        },
        Unknown {
            place: "the cold water".to_owned(),
            maker: Maker::Draws,
            measure: measure("the cold water"),
            source: "tables and rules for cold water part by 2 K and more (three compared)"
                .to_owned(),
            reach: Reach::Figure { low: -2.0, middle: 0.0, high: 2.0 },
            lever: Lever::Cold,
        },
    ];
    let delivery = subject.design.origins.at("tap.delivery");
    if delivery.is_some_and(|traced| matches!(traced.origin, Origin::Assumed { .. })) {
        let kind = design::quantity::Kind::Temperature;
        let middle = subject.build.tap.delivery_k;
        all.push(Unknown {
            place: "tap.delivery".to_owned(),
            maker: Maker::Draws,
            measure: measure("tap.delivery"),
            source: "judgement: thermostats stand from 48 to 60 C".to_owned(),
            reach: Reach::Figure { low: middle - 4.0, middle, high: middle + 8.0 },
            lever: Lever::Value(Spot { place: "tap.delivery".to_owned(), kind }),
        });
    }
    all
}
