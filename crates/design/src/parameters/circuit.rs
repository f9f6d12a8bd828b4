//! The third station's parameters.

use super::parts::{joined, tube};
use super::*;

pub(super) const SECTIONS: &[Section] = &[
    Section { path: "circuit", presence: Presence::Required, help: "What runs round." },
    Section {
        path: "circuit.flow-pipe",
        presence: Presence::Required,
        help: "The hot pipe, from the panels to the coil.",
    },
    Section {
        path: "circuit.return-pipe",
        presence: Presence::Required,
        help: "The cool pipe, from the coil to the panels.",
    },
    Section { path: "circuit.pump", presence: Presence::Required, help: "The pump." },
    Section {
        path: "circuit.pump.curve[]",
        presence: Presence::List(2),
        help: "Points of the pump's curve.",
    },
];

pub(super) const PARAMETERS: &[Parameter] = joined![
    FLUID,
    tube!("circuit.flow-pipe"),
    RUN_OUT,
    tube!("circuit.return-pipe"),
    RUN_BACK,
    PUMP
];

const GLYCOLS: &[&str] = &["propylene-glycol", "ethylene-glycol"];

const FLUID: &[Parameter] = &[
    parameter(
        "circuit.fluid",
        Form::Choice(&["water", "propylene-glycol", "ethylene-glycol"]),
        "What runs round.",
    ),
    parameter(
        "circuit.share-by-volume",
        Form::Quantity(Kind::Share),
        "Antifreeze by volume in the mixture.",
    )
    .within("0", "60 %")
    .absent()
    .only("fluid", GLYCOLS),
    parameter(
        "circuit.share-by-mass",
        Form::Quantity(Kind::Share),
        "Antifreeze by mass in the mixture.",
    )
    .within("0", "60 %")
    .absent()
    .only("fluid", GLYCOLS),
    parameter(
        "circuit.winter",
        Form::Choice(&["filled", "drained"]),
        "Whether the circuit stays filled through frost, or is drained before it.",
    )
    .absent(),
    parameter(
        "circuit.check-valve",
        Form::Choice(&["fitted", "none"]),
        "What keeps the fluid from running backwards at night.",
    ),
    parameter(
        "circuit.check-valve-k",
        Form::Quantity(Kind::Number),
        "Loss figure of the open check valve.",
    )
    .within("0", "100")
    .assume("2.5", "swing check valve, handbook figure", "from memory")
    .only("check-valve", &["fitted"]),
];

macro_rules! run {
    ($at:literal) => {
        [
            parameter(concat!($at, ".length"), Form::Quantity(Kind::Length), "Length of the run.")
                .within("0.1 m", "200 m"),
            parameter(
                concat!($at, ".fittings-k"),
                Form::Quantity(Kind::Number),
                "Sum of the fittings' loss figures.",
            )
            .within("0", "100000")
            .assume("8", "six bends at 0.9 and a few straight joints", "common practice")
            .unknown(Spread {
                low: "4",
                middle: "8",
                high: "20",
                source: "few bends, six, many elbows",
            }),
            parameter(
                concat!($at, ".lagging"),
                Form::Quantity(Kind::Length),
                "Thickness of the lagging; 0 mm for bare pipe.",
            )
            .within("0 mm", "150 mm"),
            parameter(
                concat!($at, ".lagging-material"),
                Form::Material(Group::Insulation),
                "What the lagging is made of.",
            )
            .assume(
                "rubber-lagging",
                "stands the hot pipe; polyethylene does not",
                "common practice",
            ),
            parameter(
                concat!($at, ".lagging-conductivity"),
                Form::Quantity(Kind::Conductivity),
                "Conductivity of the lagging.",
            )
            .within("0.005 W/m K", "1 W/m K")
            .of("lagging-material", Field::Conductivity),
            parameter(
                concat!($at, ".outdoor-share"),
                Form::Quantity(Kind::Share),
                "Share of the length that lies outdoors; the rest lies in the loft.",
            )
            .within("0", "1")
            .assume("30 %", "a roof panel over a loft: most of the run is indoors", "judgement")
            .unknown(Spread {
                low: "10 %",
                middle: "30 %",
                high: "60 %",
                source: "judgement",
            }),
        ]
    };
}

const RUN_OUT: &[Parameter] = &run!("circuit.flow-pipe");
const RUN_BACK: &[Parameter] = &run!("circuit.return-pipe");

const PUMP: &[Parameter] = &[
    parameter(
        "circuit.pump.power",
        Form::Quantity(Kind::Power),
        "Electricity while the pump runs.",
    )
    .within("0 W", "1 kW"),
    parameter("circuit.pump.curve[].flow", Form::Quantity(Kind::Flow), "Flow at this point.")
        .within("0 l/min", "200 l/min"),
    parameter("circuit.pump.curve[].head", Form::Quantity(Kind::Head), "Head at that flow.")
        .within("0 m", "100 m"),
];
