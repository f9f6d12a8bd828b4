//! At the bench: flame, lead, glass, old foam, wool, zinc.

use design::Design;
use design::catalogue::materials::Material;
use design::quantity::Kind as Measure;
use physics::ZERO_CELSIUS_K;

use super::{Said, caution, quiet};
use crate::AdviceError;
use crate::worry::case::Case;
use crate::worry::finding::{Certainty, Figure, Finding, Station};
use crate::worry::words::{count, lasting, of, warm, words};

/// How long one stays and watches after soldering \[s\], and where fire could hide.
const WATCH_S: f64 = 30.0 * 60.0;
const WATCH_HIDDEN_S: f64 = 60.0 * 60.0;
/// Lead that drinking water may hold, in micrograms a litre (seen).
const LEAD_MICROGRAMS: f64 = 10.0;
/// Burning polystyrene: softens, gives gas that catches fire, catches fire by itself \[C\].
const FOAM_C: [f64; 3] = [100.0, 350.0, 450.0];
/// Binder of wool bakes out from here \[C\].
const BINDER_C: f64 = 150.0;
/// A bond as good as this is soldered along its length \[W/(m K)\].
const SOLDERED_W_M_K: f64 = 50.0;

/// What the builder meets at the bench.
pub(in crate::worry) fn look(case: &Case) -> Result<Vec<Finding>, AdviceError> {
    let design = &case.subject.design;
    let found = [flame(case), lead(design), zinc(case), glass(case), foam(design), wool(design)];
    Ok(found.into_iter().flatten().collect())
}

/// Whether a torch is lit: at the tubes' own joints, or along their seams.
fn is_soldered(case: &Case) -> bool {
    let tubes = case.panel().and_then(|panel| panel.built()).and_then(|built| built.tubes());
    tubes.is_some_and(|tubes| tubes.bond_w_m_k >= SOLDERED_W_M_K)
        || case.subject.design.material("panel.tubes.joints").is_some()
}

fn flame(case: &Case) -> Option<Finding> {
    is_soldered(case).then(|| {
        caution(
            "soldering-fire",
            Station::Panel,
            "panel.tubes.joints",
            words!(
                "A torch sets fire by heat that runs along the pipe into dust, nests and lagging, and smoulders there unseen; stay and watch {} after the last joint, {} where fire could hide",
                lasting(WATCH_S),
                lasting(WATCH_HIDDEN_S)
            ),
            Said("Fire guidance for hot work, quoted by an insurer", Certainty::Seen),
        )
        .mend(words!(
            "Solder on the bench, not in the loft; clear or shield what burns, an extinguisher at hand"
        ))
        .figures(vec![
            Figure::told("watch after the last joint", Measure::Time, WATCH_S),
            Figure::told("watch where fire could hide", Measure::Time, WATCH_HIDDEN_S),
        ])
    })
}

fn lead(design: &Design) -> Option<Finding> {
    let joints = design.material("panel.tubes.joints")?;
    (joints.id == "tin-lead-solder").then(|| {
        caution(
            "lead-joints",
            Station::Panel,
            "panel.tubes.joints",
            words!(
                "Joints of tin and lead: drinking water may hold {} micrograms of lead a litre, and in the United Kingdom no joint on water for drinking, cooking or washing has been made with it since 1987",
                count(LEAD_MICROGRAMS)
            ),
            Said("Water-fittings guidance of the United Kingdom; limit 10 micrograms a litre", Certainty::Seen),
        )
        .mend(words!(
            "Use it on the closed circuit only, never on the coil’s water side or on any tap; wash hands, nothing to eat at the bench, no children near. Ask your water supplier what holds where you live"
        ))
        .figures(vec![Figure::told("micrograms of lead a litre allowed in water", Measure::Number, LEAD_MICROGRAMS)])
    })
}

fn zinc(case: &Case) -> Option<Finding> {
    let mut of = case.subject.design.materials();
    let (place, _) = of.find(|(place, material)| {
        material.id == "galvanised-steel" && !place.starts_with("store.material")
    })?;
    let metal = design::catalogue::materials::material("galvanised-steel")?;
    let melts_k = metal.t_melt_c? + ZERO_CELSIUS_K;
    is_soldered(case).then(|| {
        caution(
            "zinc-fume",
            Station::Panel,
            place,
            words!(
                "Zinc melts at {} and its fume makes ill for a day; old silver solder may hold cadmium, whose fume kills",
                warm(melts_k)
            ),
            Said("Common knowledge of the metal trades", Certainty::FromMemory),
        )
        .mend(words!("No torch on galvanised metal; out of doors, and nobody to lee of it"))
        .figures(vec![Figure::told("zinc melts", Measure::Temperature, melts_k)])
    })
}

fn glass(case: &Case) -> Option<Finding> {
    let design = &case.subject.design;
    let material =
        design.material("panel.cover.material").filter(|known| known.dt_break_k.is_some())?;
    let built = case.panel()?.built()?;
    let pane_kg = built.covers.last()?.mass_kg_m2() * built.sheet.area_m2();
    let (says, mend) = if material.id == "glass" {
        (
            words!(
                "The pane weighs {} and is annealed glass: it breaks into blades, and overhead it must not fall on anybody",
                of(Measure::Mass, pane_kg)
            ),
            words!(
                "Two carry it upright with gloves; a catch along the bottom edge, nobody below, or take toughened glass"
            ),
        )
    } else {
        (
            words!(
                "The pane weighs {} and is toughened: it can be neither cut nor drilled, and a knock on its edge turns it to dice",
                of(Measure::Mass, pane_kg)
            ),
            words!(
                "Build the box round the pane; two carry it upright, set on wood, goggles on, a catch along the bottom edge"
            ),
        )
    };
    let caution = caution(
        "glass",
        Station::Panel,
        "panel.cover.material",
        says,
        Said("Glass trade; mass by density and area", Certainty::CommonPractice),
    )
    .mend(mend)
    .figures(vec![Figure::told("the pane", Measure::Mass, pane_kg)]);
    Some(if material.id == "glass" { caution } else { quiet(caution) })
}

fn foam(design: &Design) -> Option<Finding> {
    let find = |names: &[&str]| {
        design.materials().find(|(_, material)| names.contains(&material.id.as_str()))
    };
    let [soft_k, gas_k, fire_k] = FOAM_C.map(|celsius| celsius + ZERO_CELSIUS_K);
    let stand = |material: &Material| {
        let limit_k = material.t_service_c.unwrap_or(FOAM_C[0]) + ZERO_CELSIUS_K;
        Figure::told("stands for years", Measure::Temperature, limit_k)
    };
    if let Some((place, material)) = find(&["cylinder-foam", "polyurethane-board"]) {
        let old = if material.id == "cylinder-foam" {
            words!(
                "Foam off an old cylinder was blown until about 1995 with gas that eats the ozone layer; it crumbles, and its smoke"
            )
        } else {
            words!("Smoke of this foam")
        };
        let limit_k = material.t_service_c? + ZERO_CELSIUS_K;
        let is_new = material.id == "polyurethane-board";
        let foam =
            caution(
                "foam",
                station(place),
                place,
                words!("{} holds cyanide; it is no place for more than {} or any flame", old, warm(limit_k)),
                Said("Common knowledge of the trade", Certainty::FromMemory),
            )
            .mend(words!("Cut it cold with a knife, mask and gloves on, out of doors; never burn it off, and ask where it may be tipped"))
            .figures(vec![stand(material)]);
        return Some(if is_new { quiet(foam) } else { foam });
    }
    let (place, material) = find(&["expanded-polystyrene", "extruded-polystyrene"])?;
    Some(
        caution(
            "foam",
            station(place),
            place,
            words!(
                "Polystyrene softens at {}, gives gas that burns from {} and catches fire by itself at {}; it drips burning",
                warm(soft_k),
                warm(gas_k),
                warm(fire_k)
            ),
            Said("Fire behaviour of polystyrene, encyclopaedic", Certainty::Seen),
        )
        .mend(words!("No torch where it lies; packing foam is the worst, it holds no flame retardant"))
        .figures(vec![stand(material)]),
    )
}

fn wool(design: &Design) -> Option<Finding> {
    let (place, _) = design
        .materials()
        .find(|(_, material)| matches!(material.id.as_str(), "mineral-wool" | "glass-wool"))?;
    let binder_k = BINDER_C + ZERO_CELSIUS_K;
    Some(quiet(
        caution(
            "wool",
            station(place),
            place,
            words!(
                "Cut wool fills the air with fibres that itch and are not to be breathed; hot from {} on its binder smells and fogs glass",
                warm(binder_k)
            ),
            Said("Common practice; the binder as the catalogue of materials notes it", Certainty::FromMemory),
        )
        .mend(words!("Mask, gloves, sleeves, goggles; cut it with a knife, wetted; nobody else in the loft"))
        .figures(vec![Figure::told("binder bakes out from", Measure::Temperature, binder_k)]),
    ))
}

fn station(place: &str) -> Station {
    match place.split('.').next() {
        Some("store") => Station::Store,
        Some("circuit") => Station::Circuit,
        _ => Station::Panel,
    }
}
