//! How the panel is held where it stands: optional, and never part of the reckoning of a year.

use super::*;

pub(super) const SECTIONS: &[Section] = &[Section {
    path: "panel.mount",
    presence: Presence::Optional,
    help: "What holds the panel, and what the wind there does; nothing is assumed where it is not written.",
}];

pub(super) const PARAMETERS: &[Parameter] = &[
    parameter(
        "panel.mount.on",
        Form::Choice(&["roof-parallel", "frame-on-roof", "wall", "ground"]),
        "What it stands on: flat along the roof, on a frame over the roof, a wall, or the ground.",
    )
    .absent(),
    parameter(
        "panel.mount.height",
        Form::Quantity(Kind::Length),
        "Height of the panel over the ground.",
    )
    .within("0.1 m", "200 m")
    .absent(),
    parameter(
        "panel.mount.terrain",
        Form::Choice(&["sea", "lake", "open", "suburb", "town"]),
        "What the wind comes over: sea, flat bare land, fields with single trees and houses, suburb or wood, town.",
    )
    .absent(),
    parameter(
        "panel.mount.basic-wind",
        Form::Quantity(Kind::Speed),
        "Basic wind speed of the place, from the country's map: ten minutes' mean, once in 50 years.",
    )
    .within("10 m/s", "80 m/s")
    .absent(),
    parameter(
        "panel.mount.net-coefficient",
        Form::Quantity(Kind::Number),
        "Net pressure coefficient of this mounting, from the national rule; negative lifts.",
    )
    .within("-5", "3")
    .absent(),
    parameter(
        "panel.mount.fixings",
        Form::Count,
        "Screws into the rafters that hold one panel.",
    )
    .within("1", "200")
    .absent(),
    parameter("panel.mount.screw", Form::Quantity(Kind::Length), "Outside diameter of a screw's thread.")
        .within("6 mm", "12 mm")
        .absent(),
    parameter(
        "panel.mount.screw-depth",
        Form::Quantity(Kind::Length),
        "Thread of a screw inside the rafter, its point left out.",
    )
    .within("10 mm", "200 mm")
    .absent(),
    parameter(
        "panel.mount.timber-density",
        Form::Quantity(Kind::Density),
        "Characteristic density of the rafter's timber.",
    )
    .within("250 kg/m3", "700 kg/m3")
    .assume("310 kg/m3", "EN 338, class C16, the lower of the usual softwoods; C24 has 350", "from memory"),
    parameter(
        "panel.mount.roof-load",
        Form::Quantity(Kind::Pressure),
        "What the roof's covering itself weighs on the slope.",
    )
    .within("20 Pa", "3 kPa")
    .absent(),
    parameter("panel.mount.roof-age", Form::Count, "Age of the roof's covering in years.")
        .within("0", "400")
        .absent(),
];
