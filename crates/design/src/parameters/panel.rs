//! The second station's parameters.

use super::certificate::CERTIFICATE;
use super::cover::COVERS;
use super::parts::{joined, layer, tube};
use super::*;

/// Panels whose sheet carries tubes, strips or channels under a cover.
const COVERED: &[&str] = &["sheet-and-tube", "fins", "radiator"];
/// Panels made at home.
const BUILT: &[&str] = &["sheet-and-tube", "fins", "radiator", "mat"];
/// Panels whose fluid runs in tubes.
const TUBED: &[&str] = &["sheet-and-tube", "fins", "mat"];

const COVERED_ONLY: Presence = Presence::Among(&Presence::Required, "panel.kind", COVERED);
const BUILT_ONLY: Presence = Presence::Among(&Presence::Required, "panel.kind", BUILT);

pub(super) const SECTIONS: &[Section] = &[
    Section {
        path: "panel",
        presence: Presence::Required,
        help: "How many panels, of what kind, joined how.",
    },
    Section { path: "panel.cover", presence: COVERED_ONLY, help: "The glazing." },
    Section {
        path: "panel.inner-cover",
        presence: Presence::Among(&Presence::Optional, "panel.kind", COVERED),
        help: "A second cover between sheet and glazing.",
    },
    Section { path: "panel.sheet", presence: BUILT_ONLY, help: "The absorber sheet." },
    Section {
        path: "panel.tubes",
        presence: Presence::Among(&Presence::Required, "panel.kind", TUBED),
        help: "The tubes on the sheet.",
    },
    Section {
        path: "panel.tubes.stretch[]",
        presence: Presence::Among(&Presence::List(0), "panel.kind", TUBED),
        help: "Stretches of tube whose bond is another one, listed by position.",
    },
    Section {
        path: "panel.tubes.header",
        presence: Presence::When("panel.tubes.pattern", "harp"),
        help: "The headers of a harp.",
    },
    Section {
        path: "panel.channels",
        presence: Presence::When("panel.kind", "radiator"),
        help: "The channels between the two sheets of a radiator.",
    },
    Section {
        path: "panel.back[]",
        presence: Presence::Among(&Presence::List(1), "panel.kind", BUILT),
        help: "Insulation behind the sheet, from the sheet outwards.",
    },
    Section {
        path: "panel.edge",
        presence: COVERED_ONLY,
        help: "Insulation around the sheet's rim.",
    },
    Section {
        path: "panel.box",
        presence: Presence::Among(&Presence::Assumed, "panel.kind", COVERED),
        help: "The box.",
    },
    Section {
        path: "panel.certificate",
        presence: Presence::When("panel.kind", "bought"),
        help: "What the test certificate of a bought panel states.",
    },
    Section {
        path: "panel.certificate.modifier[]",
        presence: Presence::List(0),
        help: "Share of eta0 that is left at an angle of incidence, by rising angle.",
    },
];

const BONDS: &[Word] = &[
    Word {
        word: "soldered",
        value: "100 W/m K",
        source: "a fillet 4 mm wide and 2 mm high of tin solder at 50 W/m K",
        certainty: "computed",
    },
    Word {
        word: "clamped",
        value: "10 W/m K",
        source: "after Whillier and Saluja 1965: clamping can halve the output, 30 W/m K and more is wanted",
        certainty: "judgement",
    },
    Word {
        word: "wired",
        value: "5 W/m K",
        source: "after Whillier and Saluja 1965: wiring can halve the output, 30 W/m K and more is wanted",
        certainty: "judgement",
    },
    Word {
        word: "folded",
        value: "20 W/m K",
        source: "sheet pressed or folded round more than half of the tube, between clamped and soldered",
        certainty: "judgement",
    },
    Word {
        word: "moulded",
        value: "1000 W/m K",
        source: "tube and sheet are one body: no joint that resists",
        certainty: "common practice",
    },
];

/// What a stretch may be bonded by: as a whole tube, or not at all.
const STRETCH_BONDS: &[Word] = &[
    Word {
        word: "missed",
        value: "0.5 W/m K",
        source: "still air half a millimetre deep, 0.027 W/m K, under 10 mm of tube",
        certainty: "computed",
    },
    BONDS[0],
    BONDS[1],
    BONDS[2],
    BONDS[3],
    BONDS[4],
];

const JOINTS: &[Word] = &[
    Word {
        word: "tight",
        value: "1 1/h",
        source: "sealed joints; no published figure met",
        certainty: "judgement",
    },
    Word {
        word: "usual",
        value: "10 1/h",
        source: "screwed joints with weep holes; no published figure met",
        certainty: "judgement",
    },
    Word {
        word: "leaky",
        value: "60 1/h",
        source: "visible gaps; no published figure met",
        certainty: "judgement",
    },
];

pub(super) const PARAMETERS: &[Parameter] =
    joined![BANK, CHANNELS, layer!("panel.back[]"), layer!("panel.edge"), REST, CERTIFICATE];

const BANK: &[Parameter] =
    joined![FRONT, COVERS, SHEET, tube!("panel.tubes"), tube!("panel.tubes.header"), LAID];

const FRONT: &[Parameter] = &[
    parameter(
        "panel.kind",
        Form::Choice(&["sheet-and-tube", "fins", "radiator", "mat", "bought"]),
        "Tubes on one sheet, tubes with a strip each, a flat radiator, a bare mat of tubes, or a bought panel with its certificate.",
    )
    .assume("sheet-and-tube", "the usual panel made at home", "common practice"),
    parameter("panel.count", Form::Count, "How many panels, all alike.")
        .within("1", "24")
        .assume("1", "one panel unless more are written", "common practice"),
    parameter("panel.joined", Form::Choice(&["parallel", "series", "branches"]), "How several panels are joined.")
        .assume("parallel", "each panel then has the coolest inlet", "common practice"),
    parameter("panel.gap", Form::Quantity(Kind::Length), "Air from the sheet to the glazing; a second cover lies within it.")
        .within("5 mm", "200 mm")
        .assume("25 mm", "the gap that home builders and handbooks settle on", "common practice")
        .only("kind", COVERED),
    parameter("panel.fin-width", Form::Quantity(Kind::Length), "Width of the strip on each tube, across the tube.")
        .within("10 mm", "1 m")
        .only("kind", &["fins"]),
    parameter("panel.extra-capacity", Form::Quantity(Kind::HeatCapacity), "Heat capacity the parts below do not count: clips, a thick frame.")
        .within("0 J/K", "200 kJ/K")
        .assume("0 J/K", "the listed parts are taken to be all", "common practice")
        .only("kind", BUILT),
    parameter("panel.outlet-metal", Form::Quantity(Kind::Length), "Metal pipe between the panel and any hose, plastic pipe or lagging.")
        .within("0 m", "20 m")
        .assume("0 m", "the hot side: what follows meets the panel's own heat", "common practice"),
    parameter("panel.outlet-lagging", Form::Material(Group::Insulation), "Lagging on the first metre of pipe from the panel.")
        .assume("polyethylene-lagging", "the grey foam that shops sell first", "common practice"),
];

const SHEET: &[Parameter] = &[
    parameter("panel.sheet.length", Form::Quantity(Kind::Length), "Length up the slope.").within("100 mm", "6 m"),
    parameter("panel.sheet.width", Form::Quantity(Kind::Length), "Width along the eaves.").within("50 mm", "6 m"),
    parameter("panel.sheet.thickness", Form::Quantity(Kind::Length), "Thickness of the sheet.").within("0.05 mm", "10 mm"),
    parameter("panel.sheet.material", Form::Material(Group::Metal), "What the sheet is made of."),
    parameter("panel.sheet.conductivity", Form::Quantity(Kind::Conductivity), "Conductivity of the sheet.")
        .within("0.1 W/m K", "500 W/m K")
        .of("material", Field::Conductivity),
    parameter("panel.sheet.density", Form::Quantity(Kind::Density), "Density of the sheet.")
        .within("500 kg/m3", "12000 kg/m3")
        .of("material", Field::Density),
    parameter("panel.sheet.heat-capacity", Form::Quantity(Kind::SpecificHeat), "Specific heat of the sheet.")
        .within("100 J/kg K", "5000 J/kg K")
        .of("material", Field::HeatCapacity),
    parameter("panel.sheet.coating", Form::Material(Group::Coating), "What the sheet is coated with."),
    parameter("panel.sheet.absorptance", Form::Quantity(Kind::Share), "Share of sunlight the coated face takes up.")
        .within("0.05", "1")
        .of("coating", Field::Absorptance)
        .unknown(Spread { low: "0.88", middle: "0.93", high: "0.97", source: "catalogue: the spread of matt black paints" }),
    parameter("panel.sheet.emittance", Form::Quantity(Kind::Share), "Long-wave emittance of the coated face.")
        .within("0.02", "1")
        .of("coating", Field::Emittance),
    parameter("panel.tubes.pattern", Form::Choice(&["serpentine", "harp", "route"]), "One tube to and fro, risers between headers, or a tube laid at will."),
    parameter("panel.tubes.spacing", Form::Quantity(Kind::Length), "Distance between neighbours, middle to middle.")
        .within("10 mm", "1 m")
        .only("pattern", &["serpentine", "harp"]),
    parameter("panel.tubes.bond", Form::Worded(Kind::BondConductance, BONDS), "How well the tube is joined to the sheet, per metre of tube.")
        .within("0.1 W/m K", "100000 W/m K")
        .unknown(Spread {
            low: "5 W/m K",
            middle: "30 W/m K",
            high: "100 W/m K",
            source: "from wired on to soldered full length; Whillier and Saluja 1965 ask for 30 and more",
        }),
];

const LAID: &[Parameter] = &[
    parameter(
        "panel.tubes.joints",
        Form::Material(Group::Joint),
        "What the tubes' own joints are made with, where the circuit's pressure stands on them.",
    )
    .assume(
        "tin-copper-solder",
        "lead-free soft solder, as plumbers use it",
        "common practice",
    ),
    parameter("panel.tubes.legs", Form::Count, "Straight legs of the serpentine.")
        .within("1", "200")
        .only("pattern", &["serpentine"]),
    parameter(
        "panel.tubes.leg-length",
        Form::Quantity(Kind::Length),
        "Length of a leg on the sheet.",
    )
    .within("50 mm", "6 m")
    .only("pattern", &["serpentine"]),
    parameter("panel.tubes.risers", Form::Count, "Risers of the harp.")
        .within("2", "200")
        .only("pattern", &["harp"]),
    parameter(
        "panel.tubes.riser-length",
        Form::Quantity(Kind::Length),
        "Length of a riser on the sheet.",
    )
    .within("50 mm", "6 m")
    .only("pattern", &["harp"]),
    parameter(
        "panel.tubes.route",
        Form::Places,
        "Places the tube passes in the order of the flow, each to the right and up from the sheet's lower left corner.",
    )
    .only("pattern", &["route"]),
    parameter(
        "panel.tubes.stretch[].riser",
        Form::Count,
        "Which riser of a harp, counted from 1 next to the inlet.",
    )
    .within("1", "200")
    .absent(),
    parameter(
        "panel.tubes.stretch[].from",
        Form::Quantity(Kind::Length),
        "Where it begins, along the tube from its inlet; a serpentine's bends are not counted.",
    )
    .within("0 m", "500 m"),
    parameter(
        "panel.tubes.stretch[].to",
        Form::Quantity(Kind::Length),
        "Where it ends, along the tube from its inlet.",
    )
    .within("0 m", "500 m"),
    parameter(
        "panel.tubes.stretch[].bond",
        Form::Worded(Kind::BondConductance, STRETCH_BONDS),
        "How well the tube is joined to the sheet there, per metre of tube.",
    )
    .within("0 W/m K", "100000 W/m K"),
    parameter(
        "panel.tubes.connection",
        Form::Choice(&["same-side", "opposite-corner"]),
        "Where a harp is entered and left.",
    )
    .assume("opposite-corner", "divides the flow more evenly", "common practice")
    .only("pattern", &["harp"]),
];

const CHANNELS: &[Parameter] = &[
    parameter("panel.channels.count", Form::Count, "Channels side by side.").within("1", "200"),
    parameter(
        "panel.channels.wetted",
        Form::Quantity(Kind::Length),
        "Width of front sheet that one channel wets.",
    )
    .within("3 mm", "2 m"),
    parameter(
        "panel.channels.depth",
        Form::Quantity(Kind::Length),
        "Depth of a channel between the two sheets.",
    )
    .within("1 mm", "60 mm"),
    parameter("panel.channels.length", Form::Quantity(Kind::Length), "Length of a channel.")
        .within("100 mm", "6 m")
        .worked(sheet_length_m, "the sheet's own length"),
    parameter(
        "panel.channels.contents",
        Form::Quantity(Kind::Volume),
        "What the whole radiator holds.",
    )
    .within("50 ml", "100 l")
    .worked(channels_m3, "count times wetted width, depth and length"),
    parameter(
        "panel.channels.back-thickness",
        Form::Quantity(Kind::Length),
        "Thickness of the back sheet, of the front sheet's metal.",
    )
    .within("0 mm", "10 mm")
    .worked(sheet_thickness_m, "the front sheet's own thickness"),
    parameter("panel.channels.port", Form::Quantity(Kind::Length), "Bore of its two ports.")
        .within("5 mm", "60 mm")
        .assume("15 mm", "the half-inch thread of flat radiators", "common practice"),
    parameter(
        "panel.channels.loss-k",
        Form::Quantity(Kind::Number),
        "Loss figure of the whole radiator, on the velocity in a port.",
    )
    .within("0", "1000")
    .assume("3", "flat radiators: between 2 and 4", "common practice"),
];

const REST: &[Parameter] = &[
    parameter(
        "panel.edge.area",
        Form::Quantity(Kind::Area),
        "Area through which the rim loses heat.",
    )
    .within("0 m2", "10 m2")
    .worked(rim_area_m2, "the sheet's perimeter times gap, tube and back"),
    parameter(
        "panel.box.air-changes",
        Form::Worded(Kind::Rate, JOINTS),
        "Changes of the gap's air with outdoors.",
    )
    .within("0 1/h", "1000 1/h")
    .assume("usual", "screwed joints with weep holes", "judgement")
    .unknown(Spread {
        low: "tight",
        middle: "usual",
        high: "leaky",
        source: "the three answers themselves",
    }),
    parameter(
        "panel.box.wall-height",
        Form::Quantity(Kind::Length),
        "How far the walls of the box, lip of the frame and all, rise above the sheet.",
    )
    .within("0 mm", "500 mm")
    .worked(|values, _| values.si("panel.gap"), "the air gap: no lip above the glazing"),
    parameter(
        "panel.box.rim-gap",
        Form::Quantity(Kind::Length),
        "From the sheet's rim to whatever rises beside it, wall or insulation.",
    )
    .within("0 mm", "200 mm")
    .assume("10 mm", "room for the hot sheet to grow and to be laid in", "common practice"),
    parameter(
        "panel.box.sealant",
        Form::Material(Group::Seal),
        "What seals the glazing in its frame.",
    )
    .assume("silicone-sealant", "the usual sealant", "common practice"),
];

fn sheet_length_m(values: &Values, _: &str) -> Option<f64> {
    values.si("panel.sheet.length")
}

fn sheet_thickness_m(values: &Values, _: &str) -> Option<f64> {
    values.si("panel.sheet.thickness")
}

fn channels_m3(values: &Values, _: &str) -> Option<f64> {
    let si = |key: &str| values.si(&format!("panel.channels.{key}"));
    let length_m = si("length").or_else(|| sheet_length_m(values, ""))?;
    let count = f64::from(values.count("panel.channels.count")?);
    Some(count * si("wetted")? * si("depth")? * length_m)
}

/// Perimeter of the sheet times the inside depth of the box \[m2\].
fn rim_area_m2(values: &Values, _: &str) -> Option<f64> {
    let perimeter_m = 2.0 * (values.si("panel.sheet.length")? + values.si("panel.sheet.width")?);
    let passage_m = values.si("panel.tubes.outside").or(values.si("panel.channels.depth"))?;
    let mut depth_m = values.si("panel.gap")? + passage_m;
    for at in 0..values.members("panel.back") {
        depth_m += values.si(&format!("panel.back[{at}].thickness"))?;
    }
    Some(perimeter_m * depth_m)
}
