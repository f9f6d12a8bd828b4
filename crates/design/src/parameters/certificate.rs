//! A bought panel's parameters: what its test certificate states.

use super::*;

pub(super) const CERTIFICATE: &[Parameter] = &[
    parameter(
        "panel.certificate.area",
        Form::Quantity(Kind::Area),
        "The area the figures are stated for.",
    )
    .within("0.2 m2", "20 m2"),
    parameter(
        "panel.certificate.area-kind",
        Form::Choice(&["gross", "aperture"]),
        "Which area that is.",
    ),
    parameter(
        "panel.certificate.eta0",
        Form::Quantity(Kind::Share),
        "Share of the sun gained with the fluid as warm as the air.",
    )
    .within("0.2", "0.95"),
    parameter(
        "panel.certificate.eta0-light",
        Form::Choice(&["hemispherical", "beam"]),
        "For which light eta0 is stated: the test's mixed light, or beam straight on.",
    )
    .assume("hemispherical", "certificates to ISO 9806 print both and plot this one", "common practice"),
    parameter(
        "panel.certificate.a1",
        Form::Quantity(Kind::Film),
        "First loss coefficient.",
    )
    .within("0.3 W/m2 K", "30 W/m2 K"),
    parameter(
        "panel.certificate.a2",
        Form::Quantity(Kind::LossGrowth),
        "Second loss coefficient.",
    )
    .within("0 W/m2 K2", "0.2 W/m2 K2"),
    parameter(
        "panel.certificate.b0",
        Form::Quantity(Kind::Number),
        "Incidence angle modifier as one coefficient, 1 - b0 (1/cos - 1); where no points are written.",
    )
    .within("0", "0.5")
    .assume("0.1", "one cover of glass, Souka and Safwat 1966", "from memory"),
    parameter(
        "panel.certificate.diffuse-modifier",
        Form::Quantity(Kind::Share),
        "Modifier for diffuse light; worked out from the angles where it is not written.",
    )
    .within("0.3", "1.2")
    .absent(),
    parameter(
        "panel.certificate.capacity",
        Form::Quantity(Kind::AreaHeat),
        "Effective heat capacity of a square metre, fluid and all.",
    )
    .within("0.5 kJ/m2 K", "100 kJ/m2 K"),
    parameter(
        "panel.certificate.contents",
        Form::Quantity(Kind::Volume),
        "Fluid it holds.",
    )
    .within("50 ml", "60 l"),
    parameter(
        "panel.certificate.port",
        Form::Quantity(Kind::Length),
        "Bore of its ports.",
    )
    .within("5 mm", "60 mm")
    .assume("18 mm", "usual stubs of 20 to 22 mm outside", "common practice"),
    parameter(
        "panel.certificate.drop",
        Form::Quantity(Kind::Pressure),
        "Pressure it costs at the flow beside it.",
    )
    .within("1 Pa", "1 bar")
    .assume("10 mbar", "a harp of eight to ten risers", "judgement"),
    parameter(
        "panel.certificate.drop-flow",
        Form::Quantity(Kind::Flow),
        "Flow at which it costs that pressure.",
    )
    .within("0.1 l/min", "60 l/min")
    .assume("2 l/min", "the usual test flow, 0.02 kg/s a square metre, on two square metres", "judgement"),
    parameter(
        "panel.certificate.idle",
        Form::Quantity(Kind::Temperature),
        "Stagnation temperature it states, at 1000 W/m2 and 30 C.",
    )
    .within("60 C", "350 C")
    .absent(),
    parameter(
        "panel.certificate.mass",
        Form::Quantity(Kind::Mass),
        "Its mass, empty.",
    )
    .within("1 kg", "400 kg")
    .absent(),
    parameter(
        "panel.certificate.modifier[].angle",
        Form::Quantity(Kind::Angle),
        "Angle of incidence.",
    )
    .within("1 deg", "89 deg"),
    parameter(
        "panel.certificate.modifier[].share",
        Form::Quantity(Kind::Share),
        "Share of eta0 that is left there.",
    )
    .within("0", "1.3"),
];
