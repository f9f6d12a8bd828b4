//! The material at hand: optional, and never part of the reckoning of a year.

use super::*;

pub(super) const SECTIONS: &[Section] = &[
    Section { path: "stock", presence: Presence::Optional, help: "The material at hand." },
    Section { path: "stock.sheet[]", presence: Presence::List(0), help: "Metal sheets at hand." },
    Section { path: "stock.tube[]", presence: Presence::List(0), help: "Tube at hand." },
    Section { path: "stock.glazing[]", presence: Presence::List(0), help: "Panes at hand." },
    Section {
        path: "stock.board[]",
        presence: Presence::List(0),
        help: "Boards and insulation at hand.",
    },
    Section { path: "stock.angle[]", presence: Presence::List(0), help: "Metal angle at hand." },
];

macro_rules! piece {
    ($at:literal, $group:expr) => {
        [
            parameter(concat!($at, ".material"), Form::Material($group), "What it is made of."),
            parameter(
                concat!($at, ".length"),
                Form::Quantity(Kind::Length),
                "Length of one piece.",
            )
            .within("10 mm", "100 m"),
            parameter(
                concat!($at, ".width"),
                Form::Quantity(Kind::Length),
                "Width of one piece; of a tube or angle its outside.",
            )
            .within("1 mm", "10 m"),
            parameter(
                concat!($at, ".thickness"),
                Form::Quantity(Kind::Length),
                "Thickness of one piece; of a tube its wall.",
            )
            .within("0.05 mm", "500 mm"),
            parameter(concat!($at, ".count"), Form::Count, "How many pieces.")
                .within("1", "1000")
                .assume("1", "one piece unless more are written", "common practice"),
        ]
    };
}

const SHEET: &[Parameter] = &piece!("stock.sheet[]", Group::Metal);
const TUBE: &[Parameter] = &piece!("stock.tube[]", Group::Tube);
const GLAZING: &[Parameter] = &piece!("stock.glazing[]", Group::Glazing);
const BOARD: &[Parameter] = &piece!("stock.board[]", Group::Insulation);
const ANGLE: &[Parameter] = &piece!("stock.angle[]", Group::Metal);

pub(super) const PARAMETERS: &[Parameter] =
    super::parts::joined![SHEET, TUBE, GLAZING, BOARD, ANGLE];
