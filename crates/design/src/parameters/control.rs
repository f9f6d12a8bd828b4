//! The controller's parameters.

use super::*;

pub(super) const SECTIONS: &[Section] = &[
    Section {
        path: "control",
        presence: Presence::Among(&Presence::Assumed, "circuit.drive", &["pump"]),
        help: "The controller.",
    },
    Section {
        path: "control.hours[]",
        presence: Presence::List(0),
        help: "Hours of the day in which a timer runs the pump.",
    },
    Section {
        path: "control.frost",
        presence: Presence::Optional,
        help: "The pump against frost, warming the panel with the store's heat; none unless written.",
    },
    Section {
        path: "control.panel-stop",
        presence: Presence::Optional,
        help: "A panel so hot that the pump stops and holds off; none unless written.",
    },
    Section {
        path: "control.panel-probe",
        presence: Presence::Assumed,
        help: "The probe on the panel.",
    },
    Section {
        path: "control.store-probe",
        presence: Presence::Assumed,
        help: "The probe in the store.",
    },
];

macro_rules! probe {
    ($at:literal) => {
        [
            parameter(
                concat!($at, ".offset"),
                Form::Quantity(Kind::Difference),
                "What the probe reads above the truth, always.",
            )
            .within("-20 K", "20 K")
            .assume("0 K", "a probe that tells the truth", "common practice")
            .unknown(Spread {
                low: "-1 K",
                middle: "0 K",
                high: "1 K",
                source: "judgement: two cheap probes out of the box",
            }),
            parameter(
                concat!($at, ".lag"),
                Form::Quantity(Kind::Time),
                "Time in which the probe closes 63 % of a step.",
            )
            .within("1 s", "30 min")
            .assume("60 s", "a probe strapped to metal or in a pocket", "judgement")
            .unknown(Spread {
                low: "20 s",
                middle: "60 s",
                high: "180 s",
                source: "judgement",
            }),
        ]
    };
}

const PANEL_PROBE: &[Parameter] = &probe!("control.panel-probe");
const STORE_PROBE: &[Parameter] = &probe!("control.store-probe");

pub(super) const PARAMETERS: &[Parameter] =
    super::parts::joined![RULE, TIMES, LIMITS, PANEL_PROBE, PANEL_PLACE, STORE_PROBE, STORE_PLACE];

/// The rules that ask a temperature.
const BY_TEMPERATURE: &[&str] = &["differential", "thermostat"];

const RULE: &[Parameter] = &[
    parameter(
        "control.rule",
        Form::Choice(&["differential", "thermostat", "timer"]),
        "What calls for the pump: panel against store, the panel alone, or the clock alone.",
    )
    .assume(
        "differential",
        "the usual solar controller compares two probes",
        "common practice",
    ),
    parameter(
        "control.on",
        Form::Quantity(Kind::Difference),
        "Panel over store at which the pump starts.",
    )
    .within("-20 K", "60 K")
    .assume("8 K", "5 to 10 K is the trade's range", "common practice")
    .only_ever("rule", &["differential"]),
    parameter(
        "control.off",
        Form::Quantity(Kind::Difference),
        "Panel over store at which the pump stops.",
    )
    .within("-40 K", "60 K")
    .assume("3 K", "2 to 4 K is the trade's range", "common practice")
    .only_ever("rule", &["differential"]),
    parameter(
        "control.panel-limit",
        Form::Quantity(Kind::Temperature),
        "Panel probe above which the pump does not start: the panel may hold steam.",
    )
    .within("20 C", "250 C")
    .assume("95 C", "below boiling in an open circuit", "common practice")
    .only_ever("rule", &["differential"]),
    parameter(
        "control.on-temperature",
        Form::Quantity(Kind::Temperature),
        "Panel probe at which a thermostat starts the pump.",
    )
    .within("5 C", "90 C")
    .assume("45 C", "a pipe thermostat set above the warmth a store usually has", "judgement")
    .only_ever("rule", &["thermostat"]),
    parameter(
        "control.off-temperature",
        Form::Quantity(Kind::Temperature),
        "Panel probe at which it stops the pump.",
    )
    .within("0 C", "90 C")
    .worked_by(
        |values, _| Some(values.si("control.on-temperature")? - THERMOSTAT_BAND_K),
        "5 K below on-temperature, the band of a common pipe thermostat",
        "common practice",
    )
    .only_ever("rule", &["thermostat"]),
    parameter(
        "control.hours[].from",
        Form::Clock,
        "The pump runs from this time of day, standard time.",
    ),
    parameter(
        "control.hours[].to",
        Form::Clock,
        "It runs until this time of day; before `from` for hours over midnight.",
    ),
];

/// How far a pipe thermostat falls before it opens again \[K\].
const THERMOSTAT_BAND_K: f64 = 5.0;

const TIMES: &[Parameter] = &[
    parameter(
        "control.min-on",
        Form::Quantity(Kind::Time),
        "Once started the pump runs at least this long.",
    )
    .within("0 s", "2 h")
    .assume("2 min", "a few minutes against hunting", "common practice")
    .only_ever("rule", BY_TEMPERATURE),
    parameter(
        "control.min-off",
        Form::Quantity(Kind::Time),
        "Once stopped the pump rests at least this long.",
    )
    .within("0 s", "2 h")
    .assume("2 min", "a few minutes against hunting", "common practice")
    .only_ever("rule", BY_TEMPERATURE),
    parameter(
        "control.run-on",
        Form::Quantity(Kind::Time),
        "The pump runs on for this long after nothing calls for it any more.",
    )
    .within("0 s", "2 h")
    .assume("0 s", "most controllers stop at once", "common practice")
    .only_ever("rule", BY_TEMPERATURE),
];

const LIMITS: &[Parameter] = &[
    parameter(
        "control.store-limit",
        Form::Quantity(Kind::Temperature),
        "Store probe at which the pump stops whatever calls for it.",
    )
    .within("0 C", "99 C")
    .worked_by(
        |values, _| (values.word("control.rule")? == "differential").then_some(USUAL_LIMIT_K),
        "what a polyethylene cistern bears for long",
        "common practice",
    ),
    parameter(
        "control.store-reset",
        Form::Quantity(Kind::Difference),
        "How far the store must cool below its limit before a new start.",
    )
    .within("0 K", "30 K")
    .worked_by(
        |values, _| values.si("control.store-limit").map(|_| USUAL_RESET_K),
        "a usual hysteresis",
        "common practice",
    ),
    parameter(
        "control.frost.below",
        Form::Quantity(Kind::Temperature),
        "Panel probe at which the pump starts against frost.",
    )
    .within("-20 C", "15 C")
    .assume("4 C", "above freezing by what probe and place may err", "common practice"),
    parameter(
        "control.frost.rise",
        Form::Quantity(Kind::Difference),
        "How far the panel must warm above that before the pump stops.",
    )
    .within("0.5 K", "20 K")
    .assume("3 K", "a few kelvin, so that it does not hunt", "common practice"),
    parameter(
        "control.panel-stop.above",
        Form::Quantity(Kind::Temperature),
        "Panel probe at which the pump stops whatever calls for it.",
    )
    .within("60 C", "250 C")
    .assume("120 C", "above it fluid steams in most circuits", "common practice"),
    parameter(
        "control.panel-stop.fall",
        Form::Quantity(Kind::Difference),
        "How far the panel must cool below that before a new start.",
    )
    .within("1 K", "100 K")
    .assume("20 K", "120 C to stop and 100 C to go on is usual", "common practice"),
    parameter(
        "control.store-probe-height",
        Form::Quantity(Kind::Length),
        "Height of the store's probe above the base.",
    )
    .within("0 mm", "4 m")
    .worked(
        |values, _| {
            Some(
                0.5 * (values.si("store.coil.bottom-height")?
                    + values.si("store.coil.top-height")?),
            )
        },
        "at half the coil's height",
    ),
];

/// 60 C \[K\].
const USUAL_LIMIT_K: f64 = 333.15;
const USUAL_RESET_K: f64 = 2.0;

const PANEL_PLACE: &[Parameter] = &[
    parameter(
        "control.panel-probe.place",
        Form::Choice(&["outlet", "inlet", "sheet", "flow-pipe", "open-air"]),
        "Where the panel's probe sits.",
    )
    .assume("outlet", "on the outlet stub, inside the box at the hot end", "common practice"),
    parameter(
        "control.panel-probe.distance",
        Form::Quantity(Kind::Length),
        "Length of flow pipe between panel and probe.",
    )
    .within("0 m", "100 m")
    .only_ever("place", &["flow-pipe"]),
];

const STORE_PLACE: &[Parameter] = &[parameter(
    "control.store-probe.place",
    Form::Choice(&["water", "wall", "loft-air"]),
    "Where the store's probe sits: in the water, on the wall under the jacket, in the loft's air.",
)
.assume("water", "in a pocket, or hung in the water", "common practice")];
