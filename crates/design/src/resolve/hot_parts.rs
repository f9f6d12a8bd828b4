//! The parts of a panel that have to stand its heat, with what they are made of.

use crate::catalogue::materials::{Material, material};
use crate::values::Values;
use physics::panel::stagnation::Spot;

/// A part of the panel, or of the pipe next to it, and how hot it may get.
#[derive(Clone, Debug, PartialEq)]
pub struct HotPart {
    /// What it is, in plain words.
    pub part: String,
    /// Its place in the design file.
    pub place: String,
    /// Its material's name in the catalogue.
    pub material: &'static str,
    /// Where it sits.
    pub spot: Spot,
    /// Service year after year \[C\].
    pub limit_c: f64,
    /// What it stands for hours, not days \[C\]: beyond that it sags, melts or lets go.
    pub short_limit_c: f64,
    /// How far these limits are to be trusted: seen, or from memory.
    pub certainty: &'static str,
}

/// Every part of known material, from the sheet to the first metre of pipe. Parts whose material is
/// the builder's own have no limit and are left out.
pub(super) fn hot_parts(values: &Values) -> Vec<HotPart> {
    let mut parts = Vec::new();
    let mut add = |part: &str, place: &str, spot: Spot| {
        parts.extend(part_of(values, part, place, spot));
    };
    add("sheet", "panel.sheet.material", Spot::Sheet);
    add("coating", "panel.sheet.coating", Spot::Sheet);
    add("tube joints", "panel.tubes.joints", Spot::Sheet);
    let inner = values.table("panel.inner-cover").is_some();
    let glazing = usize::from(inner);
    if inner {
        add("second cover", "panel.inner-cover.material", Spot::CoverInside(0));
    }
    add("cover, inside", "panel.cover.material", Spot::CoverInside(glazing));
    add("cover, outside", "panel.cover.material", Spot::CoverOutside(glazing));
    add("sealant", "panel.box.sealant", Spot::CoverInside(glazing));
    add("rim", "panel.edge.material", Spot::Rim);
    for layer in 0..values.members("panel.back") {
        let place = format!("panel.back[{layer}].material");
        add(&format!("back, layer {}", layer + 1), &place, Spot::Back(layer));
    }
    add("first metre of pipe", "circuit.flow-pipe.material", Spot::Pipe);
    if values.si("circuit.flow-pipe.lagging").is_some_and(|lagging_m| lagging_m > 0.0) {
        add("lagging of the first metre", "panel.outlet-lagging", Spot::Pipe);
    }
    if let Some(seam) = seam(values) {
        parts.push(seam);
    }
    parts
}

fn part_of(values: &Values, part: &str, place: &str, spot: Spot) -> Option<HotPart> {
    let known = material(values.word(place)?)?;
    let limit_c = known.t_service_c?;
    let short_limit_c = known
        .t_short_c
        .or(known.t_soften_c)
        .or(known.t_melt_c)
        .map_or(limit_c, |short| short.max(limit_c));
    Some(HotPart {
        part: part.to_owned(),
        place: place.to_owned(),
        material: &known.id,
        spot,
        limit_c,
        short_limit_c,
        certainty: certainty(known),
    })
}

/// The solder that holds the tubes on the sheet. No pressure stands on it: it lets go where it
/// melts.
fn seam(values: &Values) -> Option<HotPart> {
    let is_soldered = values.si("panel.tubes.bond")? >= SOLDERED_W_M_K
        && values.word("panel.kind")? == "sheet-and-tube";
    let solder = material(values.word("panel.tubes.joints")?)?;
    let short_limit_c = solder.t_melt_c?;
    is_soldered.then(|| HotPart {
        part: "seam of tube and sheet".to_owned(),
        place: "panel.tubes.bond".to_owned(),
        material: &solder.id,
        spot: Spot::Sheet,
        limit_c: solder.t_short_c.unwrap_or(short_limit_c),
        short_limit_c,
        certainty: certainty(solder),
    })
}

/// A bond this good is soldered along its whole length \[W/(m K)\].
const SOLDERED_W_M_K: f64 = 50.0;

fn certainty(material: &Material) -> &'static str {
    let limits = ["t_service_c", "t_short_c", "t_soften_c"];
    if limits.iter().any(|limit| material.seen.iter().any(|seen| seen == limit)) {
        "seen"
    } else {
        "from memory"
    }
}
