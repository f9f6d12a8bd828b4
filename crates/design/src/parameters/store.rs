//! The fourth station's parameters.

use super::parts::{joined, layer, tube};
use super::*;

pub(super) const SECTIONS: &[Section] = &[
    Section { path: "store", presence: Presence::Required, help: "The pre-warmed cistern." },
    Section {
        path: "store.wall[]",
        presence: Presence::List(0),
        help: "Insulation of the wall, from the water outwards; none for a bare wall.",
    },
    Section {
        path: "store.base[]",
        presence: Presence::List(0),
        help: "Insulation below the base; none for a bare base.",
    },
    Section {
        path: "store.lid[]",
        presence: Presence::List(0),
        help: "Insulation of the lid; none for a bare lid.",
    },
    Section { path: "store.coil", presence: Presence::Required, help: "The coil in the water." },
    Section {
        path: "store.coil.fins",
        presence: Presence::Optional,
        help: "Round fins on the coil's tube; none unless written.",
    },
    Section {
        path: "store.feed[]",
        presence: Presence::List(0),
        help: "What else the store feeds beside the heater.",
    },
    Section { path: "store.loft", presence: Presence::Assumed, help: "The loft it stands in." },
    Section {
        path: "store.overheat",
        presence: Presence::Optional,
        help: "A thermostatic valve that lets hot water run to waste; none unless written.",
    },
];

pub(super) const PARAMETERS: &[Parameter] = joined![
    CISTERN,
    layer!("store.wall[]"),
    layer!("store.base[]"),
    layer!("store.lid[]"),
    tube!("store.coil"),
    COIL,
    FINS,
    FEEDS,
];

const LIDS: &[Word] = &[
    Word {
        word: "close",
        value: "0 cm2",
        source: "a lid that fits lets no vapour by",
        certainty: "common practice",
    },
    Word {
        word: "loose",
        value: "20 cm2",
        source: "a millimetre all round a cistern half a metre square",
        certainty: "judgement",
    },
    Word {
        word: "open",
        value: "2000 cm2",
        source: "no lid on a common cistern",
        certainty: "judgement",
    },
];

const STRAIGHT: &[Word] = &[Word {
    word: "straight",
    value: "1000 km",
    source: "straight legs are turns without end",
    certainty: "exact",
}];

/// Materials of cisterns, by the catalogue's names.
const CISTERN_MATERIALS: &[&str] =
    &["polyethylene-cistern", "polypropylene-cistern", "galvanised-cistern", "copper", "steel"];

const CISTERN: &[Parameter] = &[
    parameter("store.volume", Form::Quantity(Kind::Volume), "Water in the store.")
        .within("5 l", "5000 l"),
    parameter("store.water-depth", Form::Quantity(Kind::Length), "Depth of the water.")
        .within("50 mm", "4 m"),
    parameter("store.shape", Form::Choice(&["round", "square"]), "The store seen from above."),
    parameter(
        "store.perimeter",
        Form::Quantity(Kind::Length),
        "Length of the wall all round, seen from above.",
    )
    .within("100 mm", "40 m")
    .worked(perimeter_m, "volume, depth and shape"),
    parameter(
        "store.material",
        Form::Choice(CISTERN_MATERIALS),
        "What the cistern is made of; only worries ask.",
    )
    .absent(),
    parameter(
        "store.board-beyond",
        Form::Quantity(Kind::Length),
        "How far its board reaches beyond the base on every side; only worries ask.",
    )
    .within("0 mm", "2 m")
    .absent(),
    parameter("store.layers", Form::Count, "Layers the water is reckoned in; 1 for fully mixed.")
        .within("1", "40")
        .assume("8", "enough that cold entering and the coil find their heights", "judgement"),
    parameter(
        "store.inlet-height",
        Form::Quantity(Kind::Length),
        "Height above the base at which cold water enters.",
    )
    .within("0 mm", "4 m")
    .worked(
        |values, _| values.si("store.water-depth"),
        "a ball valve fills at the water's surface",
    ),
    parameter(
        "store.outlet-height",
        Form::Quantity(Kind::Length),
        "Height above the base at which water leaves to the tap.",
    )
    .within("0 mm", "4 m")
    .assume("50 mm", "cisterns are tapped just above the base", "common practice"),
    parameter(
        "store.entrainment",
        Form::Quantity(Kind::Number),
        "Water that falling cold takes along, litres a litre over the full depth; 0 sinks unmixed.",
    )
    .within("0", "50")
    .assume("1", "a plume doubles on its way down a cistern", "judgement")
    .unknown(Spread {
        low: "0",
        middle: "1",
        high: "5",
        source: "judgement: from a piped inlet to a splash",
    }),
    parameter("store.lid-gap", Form::Worded(Kind::Area, LIDS), "Open gap around the lid.")
        .within("0 cm2", "4 m2")
        .assume("close", "today's fittings rules ask for a close lid", "common practice")
        .unknown(Spread { low: "close", middle: "5 cm2", high: "loose", source: "judgement" }),
];

const COIL: &[Parameter] = &[
    parameter(
        "store.coil.length",
        Form::Quantity(Kind::Length),
        "Length of the coil in the water.",
    )
    .within("0.2 m", "100 m"),
    parameter(
        "store.coil.bottom-height",
        Form::Quantity(Kind::Length),
        "Height of the coil's lowest turn above the base.",
    )
    .within("0 mm", "4 m"),
    parameter(
        "store.coil.top-height",
        Form::Quantity(Kind::Length),
        "Height of the coil's highest turn above the base.",
    )
    .within("0 mm", "4 m"),
    parameter(
        "store.coil.turn-diameter",
        Form::Worded(Kind::Length, STRAIGHT),
        "Diameter of a turn, middle to middle.",
    )
    .within("30 mm", "1000 km")
    .assume("300 mm", "what fits a common cistern", "common practice"),
    parameter(
        "store.coil.direction",
        Form::Choice(&["down", "up"]),
        "Which way the fluid runs through the coil.",
    )
    .assume(
        "down",
        "in at the top, so that the warmest fluid meets the warmest water",
        "common practice",
    ),
    parameter(
        "store.loft.outdoor-weight",
        Form::Quantity(Kind::Share),
        "Weight of outdoors in the loft's air, 0 for a heated room to 1 for open air.",
    )
    .within("0", "1")
    .assume("70 %", "insulated ceiling, ventilated eaves", "judgement")
    .unknown(Spread { low: "50 %", middle: "70 %", high: "90 %", source: "judgement" }),
    parameter("store.loft.indoor", Form::Quantity(Kind::Temperature), "Air of the rooms below.")
        .within("0 C", "35 C")
        .assume("18 C", "a heated house the year round", "common practice"),
    parameter(
        "store.loft.roof-sun",
        Form::Quantity(Kind::SunRise),
        "Rise of the loft's air by the sun on the roof.",
    )
    .within("0 K m2/W", "0.05 K m2/W")
    .assume("10 K m2/kW", "lofts reach the thirties in July, some 10 K over outdoors", "judgement")
    .unknown(Spread {
        low: "5 K m2/kW",
        middle: "10 K m2/kW",
        high: "20 K m2/kW",
        source: "judgement",
    }),
    parameter(
        "store.overheat.open",
        Form::Quantity(Kind::Temperature),
        "Opens when the top is as warm as this.",
    )
    .within("30 C", "100 C"),
    parameter(
        "store.overheat.close",
        Form::Quantity(Kind::Temperature),
        "Shuts when the top is down to this.",
    )
    .within("20 C", "100 C"),
    parameter("store.overheat.flow", Form::Quantity(Kind::Flow), "Runs at this rate while open.")
        .within("0.1 l/min", "60 l/min"),
];

const FINS: &[Parameter] = &[
    parameter("store.coil.fins.outside", Form::Quantity(Kind::Length), "Diameter over the fins.")
        .within("4 mm", "200 mm"),
    parameter("store.coil.fins.thickness", Form::Quantity(Kind::Length), "Thickness of one fin.")
        .within("0.05 mm", "3 mm")
        .assume("0.4 mm", "fins rolled out of the tube's own wall", "from memory"),
    parameter(
        "store.coil.fins.pitch",
        Form::Quantity(Kind::Length),
        "From one fin to the next, middle to middle.",
    )
    .within("0.5 mm", "50 mm")
    .assume("2.3 mm", "eleven fins to the inch", "common practice"),
    parameter(
        "store.coil.fins.material",
        Form::Material(Group::Tube),
        "What the fins are made of.",
    )
    .assume("copper", "fins of the tube's own metal", "common practice"),
    parameter(
        "store.coil.fins.conductivity",
        Form::Quantity(Kind::Conductivity),
        "Conductivity of the fins.",
    )
    .within("0.05 W/m K", "500 W/m K")
    .of("material", Field::Conductivity),
];

const FEEDS: &[Parameter] =
    &[
        parameter(
            "store.feed[].what",
            Form::Choice(&["cold-taps", "shower", "wc", "garden"]),
            "What it feeds.",
        ),
        parameter(
            "store.feed[].outlet-height",
            Form::Quantity(Kind::Length),
            "Height of its outlet above the base.",
        )
        .within("0 mm", "4 m")
        .assume("50 mm", "cisterns are tapped just above the base", "common practice"),
        parameter("store.feed[].a-day", Form::Quantity(Kind::Volume), "Water it takes in a day.")
            .within("0 l", "5000 l"),
        parameter("store.feed[].from", Form::Clock, "It takes water from this time of day.")
            .assume("07:00", "a household that is up", "judgement"),
        parameter("store.feed[].to", Form::Clock, "It takes water until this time of day.").assume(
            "22:00",
            "a household that is up",
            "judgement",
        ),
    ];

/// Length of the wall all round \[m\].
fn perimeter_m(values: &Values, _: &str) -> Option<f64> {
    let plan_m2 = values.si("store.volume")? / values.si("store.water-depth")?;
    match values.word("store.shape")? {
        "round" => Some((4.0 * std::f64::consts::PI * plan_m2).sqrt()),
        _ => Some(4.0 * plan_m2.sqrt()),
    }
}
