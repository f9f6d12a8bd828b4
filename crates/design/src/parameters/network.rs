//! How several panels are joined: pipes between them, and branches that are not alike.

use super::parts::{joined, lagging, tube};
use super::*;

/// The word of `panel.joined` that asks for branches.
const BRANCHES: &[&str] = &["branches"];
const OWN: &[&str] = &["own"];

pub(super) const SECTIONS: &[Section] = &[
    Section {
        path: "panel.link",
        presence: Presence::Optional,
        help: "The pipe from one panel or branch to the next: of several side by side once on the way in and again on the way out.",
    },
    Section {
        path: "panel.branch[]",
        presence: Presence::Among(&Presence::List(2), "panel.joined", BRANCHES),
        help: "Branches side by side, each with some of the panels one after the other; one without a panel is a bypass.",
    },
];

pub(super) const PARAMETERS: &[Parameter] = joined![
    LINK,
    tube!("panel.link"),
    LINK_RUN,
    BRANCH,
    only(&tube!("panel.branch[]")),
    only(BRANCH_RUN)
];

const LINK: &[Parameter] = &[parameter(
    "panel.link.return",
    Form::Choice(&["direct", "reverse"]),
    "Of panels side by side: whether the first to be fed is the first to be left, or the last.",
)
.assume("direct", "the shorter pipe, laid back the way it came", "common practice")];

const BRANCH: &[Parameter] = &[
    parameter(
        "panel.branch[].panels",
        Form::Count,
        "How many panels it has, one after the other; 0 for a bypass.",
    )
    .within("0", "24"),
    parameter(
        "panel.branch[].pipe",
        Form::Choice(&["none", "own"]),
        "Whether it has a pipe of its own, described beside this key.",
    )
    .assume("none", "panels that join the others by short tees", "common practice"),
    parameter(
        "panel.branch[].valve-k",
        Form::Quantity(Kind::Number),
        "Loss figure of a balancing valve in the branch's own pipe, as it is set.",
    )
    .within("0", "1000000")
    .assume("0", "no balancing valve, or one that is open", "common practice")
    .only("pipe", OWN),
];

macro_rules! run {
    ($at:literal) => {
        joined![
            [
                parameter(
                    concat!($at, ".length"),
                    Form::Quantity(Kind::Length),
                    "Length of the pipe."
                )
                .within("0.01 m", "100 m"),
                parameter(
                    concat!($at, ".fittings-k"),
                    Form::Quantity(Kind::Number),
                    "Sum of the fittings' loss figures.",
                )
                .within("0", "100000")
                .assume("2", "an elbow, and the run of a tee", "common practice"),
            ],
            lagging!($at),
            [parameter(
                concat!($at, ".outdoor-share"),
                Form::Quantity(Kind::Share),
                "Share of the length that lies outdoors; the rest lies in the loft.",
            )
            .within("0", "1")
            .assume("1", "between panels on a roof", "common practice"),]
        ]
    };
}

const LINK_RUN: &[Parameter] = run!("panel.link");
const BRANCH_RUN: &[Parameter; 6] = run!("panel.branch[]");

/// Parameters of a branch's own pipe, which mean nothing where it has none.
const fn only<const N: usize>(list: &[Parameter; N]) -> [Parameter; N] {
    let mut all = *list;
    let mut at = 0;
    while at < N {
        all[at].only = Some(Only { key: "pipe", is: OWN, severity: Severity::Warning });
        at += 1;
    }
    all
}
