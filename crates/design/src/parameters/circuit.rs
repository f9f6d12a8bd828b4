//! The third station's parameters.

use super::parts::{joined, lagging, tube};
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
    Section {
        path: "circuit.flow-pipe.fitting[]",
        presence: Presence::List(0),
        help: "Fittings by name.",
    },
    Section {
        path: "circuit.flow-pipe.then[]",
        presence: Presence::List(0),
        help: "Further stretches of other tube, in the order of the flow.",
    },
    Section {
        path: "circuit.return-pipe.fitting[]",
        presence: Presence::List(0),
        help: "Fittings by name.",
    },
    Section {
        path: "circuit.return-pipe.then[]",
        presence: Presence::List(0),
        help: "Further stretches of other tube, in the order of the flow.",
    },
    Section {
        path: "circuit.heights",
        presence: Presence::Assumed,
        help: "Heights over the store's base; below 0 for what lies lower.",
    },
    Section {
        path: "circuit.filling",
        presence: Presence::Assumed,
        help: "What takes up the fluid's growth and holds the pressure.",
    },
    Section {
        path: "circuit.pump",
        presence: Presence::When("circuit.drive", "pump"),
        help: "The pump.",
    },
    Section {
        path: "circuit.pump.measured",
        presence: Presence::Optional,
        help: "A pump without a plate: its head at no flow, and one bucket.",
    },
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
    tube!("circuit.flow-pipe.then[]"),
    THEN_OUT,
    FITTINGS_OUT,
    tube!("circuit.return-pipe"),
    RUN_BACK,
    tube!("circuit.return-pipe.then[]"),
    THEN_BACK,
    FITTINGS_BACK,
    HEIGHTS,
    FILLING,
    PUMP,
    MEASURED
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
        "circuit.drive",
        Form::Choice(&["pump", "gravity"]),
        "What moves the fluid: a pump, or what hot and cold fluid weigh.",
    )
    .assume("pump", "the usual circuit of home builders", "common practice"),
    parameter(
        "circuit.check-valve",
        Form::Choice(&["fitted", "flap", "none"]),
        "What keeps the fluid from running backwards at night: a valve that a spring holds shut, a light flap that opens by the fluid's own weight, or nothing.",
    ),
    parameter(
        "circuit.check-valve-k",
        Form::Quantity(Kind::Number),
        "Loss figure of the open check valve.",
    )
    .within("0", "100")
    .assume("2.5", "swing check valve, handbook figure", "from memory")
    .only("check-valve", &["fitted", "flap"]),
];

macro_rules! run {
    ($at:literal) => {
        joined![
            [
                parameter(
                    concat!($at, ".length"),
                    Form::Quantity(Kind::Length),
                    "Length of the run."
                )
                .within("0.1 m", "200 m"),
                parameter(
                    concat!($at, ".fittings-k"),
                    Form::Quantity(Kind::Number),
                    "Sum of the fittings' loss figures.",
                )
                .within("0", "100000")
                .worked_by(
                    other_fittings,
                    "8, six bends at 0.9 and a few joints; 0 where fittings are listed",
                    "common practice",
                )
                .unknown(Spread {
                    low: "4",
                    middle: "8",
                    high: "20",
                    source: "few bends, six, many elbows",
                }),
            ],
            lagging!($at),
            [parameter(
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
            }),]
        ]
    };
}

const RUN_OUT: &[Parameter] = run!("circuit.flow-pipe");
const THEN_OUT: &[Parameter] = run!("circuit.flow-pipe.then[]");
const RUN_BACK: &[Parameter] = run!("circuit.return-pipe");
const THEN_BACK: &[Parameter] = run!("circuit.return-pipe.then[]");

/// The catalogue's fittings; a test holds the two lists together.
const FITTING_KINDS: &[&str] = &[
    "elbow",
    "elbow-45",
    "bend",
    "return-bend",
    "tee-run",
    "tee-branch",
    "gate-valve",
    "ball-valve",
    "stop-valve",
    "angle-valve",
];

macro_rules! fitting {
    ($at:literal) => {
        [
            parameter(
                concat!($at, ".kind"),
                Form::Choice(FITTING_KINDS),
                "Which fitting; it counts on the first stretch.",
            ),
            parameter(concat!($at, ".count"), Form::Count, "How many of them.")
                .within("1", "200")
                .assume("1", "one unless more are written", "common practice"),
        ]
    };
}

const FITTINGS_OUT: &[Parameter] = &fitting!("circuit.flow-pipe.fitting[]");
const FITTINGS_BACK: &[Parameter] = &fitting!("circuit.return-pipe.fitting[]");

/// What the fittings that are not listed cost; the further stretches have none of their own.
fn other_fittings(values: &Values, table: &str) -> Option<f64> {
    let listed = values.members(&format!("{table}.fitting")) > 0;
    Some(if listed || table.ends_with(']') { 0.0 } else { 8.0 })
}

const HEIGHTS: &[Parameter] = &[
    parameter(
        "circuit.heights.panel-bottom",
        Form::Quantity(Kind::Length),
        "Where the circuit enters the panels, over the store's base.",
    )
    .within("-20 m", "30 m")
    .assume("0.5 m", "a roof panel that begins a little above the loft's floor", "judgement"),
    parameter(
        "circuit.heights.panel-top",
        Form::Quantity(Kind::Length),
        "Where it leaves the panels.",
    )
    .within("-20 m", "30 m")
    .worked(panel_top_m, "the bottom and the sheet's length up the slope; 2 m for a bought panel"),
    parameter(
        "circuit.heights.highest",
        Form::Quantity(Kind::Length),
        "The highest point of the circuit.",
    )
    .within("-20 m", "30 m")
    .worked(highest_m, "the panels' top, or the store's coil where that is higher"),
    parameter("circuit.heights.pump", Form::Quantity(Kind::Length), "The pump.")
        .within("-20 m", "30 m")
        .assume("0 m", "beside the store, level with its base", "judgement"),
    parameter(
        "circuit.air-vent",
        Form::Choice(&["fitted", "none"]),
        "Whether air can leave at the highest point: a cock, a vent or an open pipe.",
    )
    .assume("fitted", "an air cock at the highest point", "common practice"),
];

/// Length up the slope of a bought panel \[m\], which its certificate does not state.
const BOUGHT_LENGTH_M: f64 = 2.0;

fn panel_top_m(values: &Values, _: &str) -> Option<f64> {
    let up_m = values.si("panel.sheet.length").unwrap_or(BOUGHT_LENGTH_M);
    let rise_m = up_m * values.si("sun.tilt")?.sin();
    Some(values.si("circuit.heights.panel-bottom")? + rise_m)
}

fn highest_m(values: &Values, _: &str) -> Option<f64> {
    let coil_m = values.si("store.coil.top-height")?;
    Some(values.si("circuit.heights.panel-top")?.max(coil_m))
}

const OPEN: &[&str] = &["header-tank"];
const SEALED: &[&str] = &["sealed"];

const FILLING: &[Parameter] = &[
    parameter(
        "circuit.filling.kind",
        Form::Choice(&["header-tank", "sealed"]),
        "A header tank open to the air, or a sealed vessel.",
    )
    .assume("header-tank", "the usual circuit of home builders", "common practice"),
    parameter(
        "circuit.filling.joins",
        Form::Choice(&["pump-inlet", "pump-outlet", "panel-outlet"]),
        "Where header tank or vessel joins the circuit.",
    )
    .assume("pump-inlet", "so the pump draws nothing down", "common practice"),
    parameter(
        "circuit.filling.water-level",
        Form::Quantity(Kind::Length),
        "Cold water level of the header tank over the store's base.",
    )
    .within("-20 m", "40 m")
    .worked_by(water_level_m, "half a metre over the highest point", "judgement")
    .only("kind", OPEN),
    parameter(
        "circuit.filling.room",
        Form::Quantity(Kind::Volume),
        "Room in the header tank between cold water level and overflow.",
    )
    .within("0.1 l", "200 l")
    .absent()
    .only("kind", OPEN),
    parameter(
        "circuit.filling.holds",
        Form::Quantity(Kind::Volume),
        "Fluid in the header tank below its cold level; only worries ask.",
    )
    .within("0.1 l", "200 l")
    .absent()
    .only("kind", OPEN),
    parameter(
        "circuit.filling.vessel",
        Form::Quantity(Kind::Volume),
        "Volume of the sealed vessel.",
    )
    .within("0.5 l", "500 l")
    .only("kind", SEALED),
    parameter(
        "circuit.filling.charge",
        Form::Quantity(Kind::Pressure),
        "Pressure of the vessel's gas before any fluid is let in, on the gauge.",
    )
    .within("0.1 bar", "6 bar")
    .worked_by(charge_pa, "the column up to the highest point and half a bar", "common practice")
    .only("kind", SEALED),
    parameter(
        "circuit.filling.pressure",
        Form::Quantity(Kind::Pressure),
        "Pressure of the cold, filled circuit where the vessel joins, on the gauge.",
    )
    .within("0.1 bar", "8 bar")
    .worked_by(fill_pa, "the vessel's charge and 0.3 bar", "common practice")
    .only("kind", SEALED),
    parameter(
        "circuit.filling.relief",
        Form::Quantity(Kind::Pressure),
        "Pressure at which the relief valve opens, on the gauge.",
    )
    .within("0.5 bar", "10 bar")
    .assume("3 bar", "the usual valve of sealed heating circuits", "common practice")
    .only("kind", SEALED),
];

fn water_level_m(values: &Values, _: &str) -> Option<f64> {
    Some(values.si("circuit.heights.highest")? + 0.5)
}

/// Cold antifreeze weighs up to 1080 kg/m3; half a bar in hand covers that.
fn charge_pa(values: &Values, _: &str) -> Option<f64> {
    let joint = match values.word("circuit.filling.joins")? {
        "panel-outlet" => "circuit.heights.panel-top",
        _ => "circuit.heights.pump",
    };
    let column_m = (values.si("circuit.heights.highest")? - values.si(joint)?).max(0.0);
    Some(
        physics::circuit::pipe::static_pa(1000.0, column_m)
            + physics::circuit::vessel::PRECHARGE_MARGIN_PA,
    )
}

fn fill_pa(values: &Values, _: &str) -> Option<f64> {
    Some(values.si("circuit.filling.charge")? + 0.3e5)
}

const PUMP: &[Parameter] = &[
    parameter(
        "circuit.pump.power",
        Form::Quantity(Kind::Power),
        "Electricity while the pump runs.",
    )
    .within("0 W", "1 kW"),
    parameter(
        "circuit.pump.place",
        Form::Choice(&["after-coil", "before-panel", "after-panel", "before-coil"]),
        "Where in the round the pump stands.",
    )
    .assume("after-coil", "in the cool pipe, beside the store", "common practice"),
    parameter("circuit.pump.curve[].flow", Form::Quantity(Kind::Flow), "Flow at this point.")
        .within("0 l/min", "200 l/min"),
    parameter("circuit.pump.curve[].head", Form::Quantity(Kind::Head), "Head at that flow.")
        .within("0 m", "100 m"),
];

const MEASURED: &[Parameter] = &[
    parameter(
        "circuit.pump.measured.shut-head",
        Form::Quantity(Kind::Head),
        "Head at no flow: how high the water climbs in a raised hose over the water it draws from.",
    )
    .within("0.1 m", "100 m")
    .absent(),
    parameter(
        "circuit.pump.measured.shut-pressure",
        Form::Quantity(Kind::Pressure),
        "The same by a gauge on the shut outlet, level with the water it draws from.",
    )
    .within("0.01 bar", "10 bar")
    .absent(),
    parameter(
        "circuit.pump.measured.flow",
        Form::Quantity(Kind::Flow),
        "Flow into a bucket, by the watch.",
    )
    .within("0.05 l/min", "200 l/min"),
    parameter(
        "circuit.pump.measured.lift",
        Form::Quantity(Kind::Length),
        "Height of the hose's open end over the water the pump draws from.",
    )
    .within("-2 m", "50 m"),
    parameter(
        "circuit.pump.measured.hose-bore",
        Form::Quantity(Kind::Length),
        "Bore of that hose.",
    )
    .within("3 mm", "60 mm")
    .assume("12.7 mm", "half-inch hose", "common practice"),
    parameter(
        "circuit.pump.measured.hose-length",
        Form::Quantity(Kind::Length),
        "Length of that hose.",
    )
    .within("0 m", "50 m")
    .assume("1 m", "as short as a hose for a bucket is", "judgement"),
];

#[cfg(test)]
mod tests {
    use super::FITTING_KINDS;
    use crate::catalogue::fittings::fittings;

    /// Every fitting of the catalogue may be written, and no other.
    #[test]
    fn fittings_are_those_of_the_catalogue() {
        let known: Vec<&str> = fittings().iter().map(|fitting| fitting.kind.as_str()).collect();
        assert_eq!(FITTING_KINDS, known);
    }
}
