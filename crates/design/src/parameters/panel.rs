//! The second station's parameters.

use super::parts::{joined, layer, tube};
use super::*;

pub(super) const SECTIONS: &[Section] = &[
    Section { path: "panel", presence: Presence::Required, help: "How many panels, joined how." },
    Section { path: "panel.cover", presence: Presence::Required, help: "The glazing." },
    Section { path: "panel.sheet", presence: Presence::Required, help: "The absorber sheet." },
    Section { path: "panel.tubes", presence: Presence::Required, help: "The tubes on the sheet." },
    Section {
        path: "panel.tubes.header",
        presence: Presence::When("panel.tubes.pattern", "harp"),
        help: "The headers of a harp.",
    },
    Section {
        path: "panel.back[]",
        presence: Presence::List(1),
        help: "Insulation behind the sheet, from the sheet outwards.",
    },
    Section {
        path: "panel.edge",
        presence: Presence::Required,
        help: "Insulation around the sheet's rim.",
    },
    Section { path: "panel.box", presence: Presence::Assumed, help: "The box." },
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
    joined![BANK, layer!("panel.back[]"), layer!("panel.edge"), REST];

const BANK: &[Parameter] = joined![FRONT, tube!("panel.tubes"), tube!("panel.tubes.header"), LAID];

const FRONT: &[Parameter] = &[
    parameter("panel.count", Form::Count, "How many panels, all alike.")
        .within("1", "24")
        .assume("1", "one panel unless more are written", "common practice"),
    parameter("panel.joined", Form::Choice(&["parallel", "series"]), "How several panels are joined.")
        .assume("parallel", "each panel then has the coolest inlet", "common practice"),
    parameter("panel.gap", Form::Quantity(Kind::Length), "Air gap between cover and sheet.")
        .within("5 mm", "100 mm")
        .assume("25 mm", "the gap that home builders and handbooks settle on", "common practice"),
    parameter("panel.extra-capacity", Form::Quantity(Kind::HeatCapacity), "Heat capacity the parts below do not count: clips, a thick frame.")
        .within("0 J/K", "200 kJ/K")
        .assume("0 J/K", "the listed parts are taken to be all", "common practice"),
    parameter("panel.cover.material", Form::Material(Group::Glazing), "What the pane is made of."),
    parameter("panel.cover.thickness", Form::Quantity(Kind::Length), "Thickness of the pane.")
        .within("0.05 mm", "20 mm"),
    parameter("panel.cover.index", Form::Quantity(Kind::Number), "Index of refraction.")
        .within("1.3", "1.7")
        .of("material", Field::Index),
    parameter("panel.cover.extinction", Form::Quantity(Kind::Extinction), "How fast light is lost in the pane.")
        .within("0 1/m", "400 1/m")
        .of("material", Field::Extinction),
    parameter("panel.cover.emittance", Form::Quantity(Kind::Share), "Long-wave emittance of both faces.")
        .within("0.02", "1")
        .of("material", Field::Emittance),
    parameter("panel.cover.density", Form::Quantity(Kind::Density), "Density of the pane.")
        .within("100 kg/m3", "6000 kg/m3")
        .of("material", Field::Density),
    parameter("panel.cover.heat-capacity", Form::Quantity(Kind::SpecificHeat), "Specific heat of the pane.")
        .within("100 J/kg K", "5000 J/kg K")
        .of("material", Field::HeatCapacity),
    parameter(
        "panel.cover.diffuse-angle",
        Form::Choice(&["brandemuehl-beckman-1980", "sixty-degrees"]),
        "At which angle light from everywhere passes the cover.",
    )
    .assume("brandemuehl-beckman-1980", "the rule by tilt; sixty degrees is its older shorthand", "common practice"),
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
    parameter("panel.tubes.pattern", Form::Choice(&["serpentine", "harp"]), "One tube to and fro, or risers between headers."),
    parameter("panel.tubes.spacing", Form::Quantity(Kind::Length), "Distance between neighbours, middle to middle.")
        .within("10 mm", "1 m"),
    parameter("panel.tubes.bond", Form::Worded(Kind::Conductivity, BONDS), "How well the tube is joined to the sheet, per metre of tube.")
        .within("0.1 W/m K", "100000 W/m K")
        .unknown(Spread {
            low: "5 W/m K",
            middle: "30 W/m K",
            high: "100 W/m K",
            source: "from wired on to soldered full length; Whillier and Saluja 1965 ask for 30 and more",
        }),
];

const LAID: &[Parameter] = &[
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
        "panel.tubes.connection",
        Form::Choice(&["same-side", "opposite-corner"]),
        "Where a harp is entered and left.",
    )
    .assume("opposite-corner", "divides the flow more evenly", "common practice")
    .only("pattern", &["harp"]),
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
];

/// Perimeter of the sheet times the inside depth of the box \[m2\].
fn rim_area_m2(values: &Values, _: &str) -> Option<f64> {
    let perimeter_m = 2.0 * (values.si("panel.sheet.length")? + values.si("panel.sheet.width")?);
    let mut depth_m = values.si("panel.gap")? + values.si("panel.tubes.outside")?;
    for at in 0..values.members("panel.back") {
        depth_m += values.si(&format!("panel.back[{at}].thickness"))?;
    }
    Some(perimeter_m * depth_m)
}
