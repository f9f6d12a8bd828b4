//! Metals beside each other: in the wet of the circuit, and where sheet and tube touch.

use std::collections::BTreeMap;

use design::quantity::Kind as Measure;
use physics::matter::fluid::Fluid;

use crate::AdviceError;
use crate::worry::case::Case;
use crate::worry::finding::{About, Certainty, Figure, Finding, Kind, Limit, Station};
use crate::worry::words::{Value, words};

/// How far two metals may stand apart on the anodic index where it is wet \[V\] (the rule used with the
/// index; from memory).
const APART_WET: f64 = 0.15;
const INDEX: &str = "Anodic index of metals, and the rule of 0.15 V in the wet used with it";

/// A metal's place on the anodic index \[V\], and what it is called (from memory).
fn index(material: &str) -> Option<(f64, &'static str)> {
    match material {
        "copper" => Some((0.35, "copper")),
        "tin-lead-solder" | "tin-copper-solder" => Some((0.65, "tin solder")),
        "steel" => Some((0.85, "steel")),
        "aluminium" | "aluminium-angle" => Some((0.90, "aluminium")),
        "galvanised-steel" | "galvanised-cistern" => Some((1.20, "zinc")),
        _ => None,
    }
}

/// Two metals, the nobler first, and how far apart they are.
struct Pair {
    nobler: &'static str,
    baser: &'static str,
    apart: f64,
}

/// The pair farthest apart among some metals; `None` where there are not two.
fn farthest(metals: impl Iterator<Item = (f64, &'static str)>) -> Option<Pair> {
    let mut by_name: Vec<(f64, &'static str)> = metals.collect();
    by_name.sort_by(|one, other| one.0.total_cmp(&other.0));
    let (first, last) = (by_name.first()?, by_name.last()?);
    Some(Pair { nobler: first.1, baser: last.1, apart: last.0 - first.0 })
}

fn volts(volts: f64) -> Value {
    Value::Number(volts, 2)
}

fn told(code: &'static str, kind: Kind, pair: &Pair, most: f64) -> Finding {
    let says = if pair.apart == 0.0 {
        words!(
            "{}",
            match code {
                "loop-metals" => format!("The circuit wets one metal only, {}", pair.nobler),
                "sheet-metals" => format!("Sheet and tube are both of {}", pair.nobler),
                _ => format!("Coil and cistern are both of {}", pair.nobler),
            }
        )
    } else {
        words!(
            "The metals {} and {} stand {} V apart on the anodic index, {} V are borne there: the {} is eaten, faster when warm",
            pair.nobler.to_owned(),
            pair.baser.to_owned(),
            volts(pair.apart),
            volts(most),
            pair.baser.to_owned()
        )
    };
    Finding::new(About::Ages, code, Station::Circuit, kind, says)
        .figures(vec![Figure::against(
            "apart on the anodic index, volts",
            Measure::Number,
            pair.apart,
            Limit::at_most(most, INDEX, Certainty::FromMemory),
        )])
        .source(INDEX, Certainty::FromMemory)
}

/// Where metals touch each other or the same water.
pub(in crate::worry) fn look(case: &Case) -> Result<Vec<Finding>, AdviceError> {
    if case.panel().is_none() {
        return Ok(Vec::new());
    }
    Ok([in_the_circuit(case), on_the_sheet(case), in_the_cistern(case)]
        .into_iter()
        .flatten()
        .collect())
}

fn kind_of(pair: &Pair, most: f64) -> Kind {
    if pair.apart > most { Kind::Mind } else { Kind::Quiet }
}

/// All that the circuit's fluid wets, its joints too.
fn in_the_circuit(case: &Case) -> Option<Finding> {
    let design = &case.subject.design;
    let is_hollow = design.material("panel.tubes.material").is_none();
    let is_wetted = |place: &str| {
        let ends = |end: &str| place.ends_with(end);
        let in_pipe = place.starts_with("circuit.") || place.starts_with("panel.link");
        (in_pipe && ends(".material"))
            || (place.starts_with("panel.tubes") && ends(".material"))
            || place == "store.coil.material"
            || (is_hollow && place == "panel.sheet.material")
    };
    let metals: BTreeMap<&str, (f64, &'static str)> = design
        .materials()
        .filter(|(place, _)| is_wetted(place))
        .filter_map(|(place, material)| Some((place, index(&material.id)?)))
        .collect();
    let pair = farthest(metals.values().copied())?;
    let kind = kind_of(&pair, APART_WET);
    let baser = metals.iter().find(|(_, metal)| metal.1 == pair.baser);
    let place = baser.map_or("circuit.fluid", |(place, _)| *place).to_owned();
    let inhibited = match case.year.build.circuit.fluid {
        Fluid::Water => words!(
            "Fill with water and an inhibitor made for these metals, never refill with fresh water, and part the metals by a piece of plastic or brass"
        ),
        _ => words!(
            "Take antifreeze whose inhibitor covers these metals, change it when its pH falls below 7, never refill with fresh water, and part the metals by a piece of plastic or brass"
        ),
    };
    let mend = if kind == Kind::Quiet { words!("") } else { inhibited };
    Some(told("loop-metals", kind, &pair, APART_WET).at(place).mend(mend))
}

/// Tube on sheet, where dew may lie.
fn on_the_sheet(case: &Case) -> Option<Finding> {
    let design = &case.subject.design;
    let of = |place| design.material(place).and_then(|material| index(&material.id));
    let metals = [of("panel.tubes.material")?, of("panel.sheet.material")?];
    let pair = farthest(metals.into_iter())?;
    let kind = kind_of(&pair, APART_WET);
    let mend = match kind {
        Kind::Quiet => words!(""),
        _ => words!(
            "Paint both before they meet, let no drop stay between them, and keep water that ran over copper off aluminium and zinc"
        ),
    };
    let mut finding = told("sheet-metals", kind, &pair, APART_WET).at("panel.tubes.material");
    finding.station = Station::Panel;
    Some(finding.mend(mend))
}

/// The coil in its cistern.
fn in_the_cistern(case: &Case) -> Option<Finding> {
    let design = &case.subject.design;
    let coil = design.material("store.coil.material").and_then(|coil| index(&coil.id))?;
    let mut finding = match design.facts.cistern.as_deref() {
        None => {
            let pair = farthest([coil, index("galvanised-cistern")?].into_iter())?;
            Finding {
                says: words!(
                    "Nobody said what the cistern is made of; with a coil of {} an old galvanised one would stand {} V apart on the anodic index and lose its zinc",
                    coil.1,
                    volts(pair.apart)
                ),
                ..told("coil-and-cistern", Kind::Mind, &pair, APART_WET)
            }
            .mend(words!("Write what the cistern is made of; no copper, coil or pipe, in or before a galvanised one"))
        }
        Some(cistern) => match index(cistern) {
            None => Finding {
                says: words!(
                    "The cistern is of plastic: no second metal stands beside the coil of {}",
                    coil.1
                ),
                ..told(
                    "coil-and-cistern",
                    Kind::Quiet,
                    &Pair { nobler: coil.1, baser: coil.1, apart: 0.0 },
                    APART_WET,
                )
            },
            Some(cistern) => {
                let pair = farthest([coil, cistern].into_iter())?;
                let kind = kind_of(&pair, APART_WET);
                let mend = match kind {
                    Kind::Quiet => words!(""),
                    _ => words!("Take a cistern of plastic, or a coil of the cistern’s own metal"),
                };
                told("coil-and-cistern", kind, &pair, APART_WET).mend(mend)
            }
        },
    };
    finding.station = Station::Store;
    Some(finding.at("store.material"))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Given copper beside steel, zinc and itself. Expected: 0.50, 0.85 and 0 V apart, the difference of
    /// the index's own figures (from memory; to their last figure), the baser metal named.
    #[test]
    fn pairs_by_the_index() {
        for (other, apart, baser) in
            [("steel", 0.5, "steel"), ("galvanised-steel", 0.85, "zinc"), ("copper", 0.0, "copper")]
        {
            let metals = ["copper", other].map(|name| index(name).expect("a metal"));
            let pair = farthest(metals.into_iter()).expect("two");
            assert!((pair.apart - apart).abs() < 1e-9, "{other}: {}", pair.apart);
            assert_eq!(pair.baser, baser);
        }
    }
}
