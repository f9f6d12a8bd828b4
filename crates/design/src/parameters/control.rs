//! The controller's parameters.

use super::*;

pub(super) const SECTIONS: &[Section] = &[
    Section { path: "control", presence: Presence::Assumed, help: "The controller." },
    Section {
        path: "control.panel-probe",
        presence: Presence::Assumed,
        help: "The probe at the panel's outlet.",
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

pub(super) const PARAMETERS: &[Parameter] = super::parts::joined![RULE, PANEL_PROBE, STORE_PROBE];

const RULE: &[Parameter] = &[
    parameter(
        "control.on",
        Form::Quantity(Kind::Difference),
        "Panel over store at which the pump starts.",
    )
    .within("-20 K", "60 K")
    .assume("8 K", "5 to 10 K is the trade's range", "common practice"),
    parameter(
        "control.off",
        Form::Quantity(Kind::Difference),
        "Panel over store at which the pump stops.",
    )
    .within("-40 K", "60 K")
    .assume("3 K", "2 to 4 K is the trade's range", "common practice"),
    parameter(
        "control.min-on",
        Form::Quantity(Kind::Time),
        "Once started the pump runs at least this long.",
    )
    .within("0 s", "2 h")
    .assume("2 min", "a few minutes against hunting", "common practice"),
    parameter(
        "control.min-off",
        Form::Quantity(Kind::Time),
        "Once stopped the pump rests at least this long.",
    )
    .within("0 s", "2 h")
    .assume("2 min", "a few minutes against hunting", "common practice"),
    parameter(
        "control.store-limit",
        Form::Quantity(Kind::Temperature),
        "Store probe at which the pump stops whatever the panel says.",
    )
    .within("0 C", "99 C")
    .assume("60 C", "what a polyethylene cistern bears for long", "common practice"),
    parameter(
        "control.store-reset",
        Form::Quantity(Kind::Difference),
        "How far the store must cool below its limit before a new start.",
    )
    .within("0 K", "30 K")
    .assume("2 K", "a usual hysteresis", "common practice"),
    parameter(
        "control.panel-limit",
        Form::Quantity(Kind::Temperature),
        "Panel probe above which the pump does not start: the panel may hold steam.",
    )
    .within("20 C", "250 C")
    .assume("95 C", "below boiling in an open circuit", "common practice"),
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
