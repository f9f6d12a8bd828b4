//! Quantities written for people, in metric or in US units.

use super::Kind;
use super::units::{FOOT_M, INCH_M, Unit, find};

/// Which units a person reads.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Units {
    /// Millimetres, litres, degrees Celsius.
    #[default]
    Metric,
    /// Inches, US gallons, degrees Fahrenheit.
    Us,
}

/// A value with its unit, to four figures, for reading: `0.7 mm`, `118 l`, `8 K`.
///
/// `si` is in the unit that [`Kind`] names. What it returns, [`super::parse`] reads back to
/// within those four figures.
///
/// # Example
/// ```
/// use design::quantity::{Kind, Units, show};
/// assert_eq!(show(Kind::Length, 0.0127, Units::Us), "0.5 in");
/// assert_eq!(show(Kind::Temperature, 328.15, Units::Metric), "55 C");
/// ```
pub fn show(kind: Kind, si: f64, units: Units) -> String {
    written(kind, si, units, |value| four_figures(kind, value))
}

/// The same to full precision, for writing into a file.
pub fn exact(kind: Kind, si: f64, units: Units) -> String {
    written(kind, si, units, |value| format!("{value}"))
}

/// The same for running text: whole degrees, else three figures.
///
/// # Example
/// ```
/// use design::quantity::{Kind, Units, spoken};
/// assert_eq!(spoken(Kind::Temperature, 381.23, Units::Metric), "108 C");
/// assert_eq!(spoken(Kind::Volume, 0.004_318, Units::Metric), "4.32 l");
/// ```
pub fn spoken(kind: Kind, si: f64, units: Units) -> String {
    written(kind, si, units, |value| match kind {
        Kind::Temperature => format!("{}", value.round() + 0.0),
        _ => figures(value, 3),
    })
}

/// A value in one named unit of its kind, as a bare number for a column that names the unit;
/// `None` where the kind has no such unit.
///
/// # Example
/// ```
/// use design::quantity::{Kind, in_unit};
/// assert_eq!(in_unit(Kind::Volume, 0.2, "l"), Some(200.0));
/// ```
pub fn in_unit(kind: Kind, si: f64, unit: &str) -> Option<f64> {
    find(unit, kind).map(|unit| (si - unit.zero) / unit.factor)
}

fn written(kind: Kind, si: f64, units: Units, number: impl Fn(f64) -> String) -> String {
    match chosen(kind, si, units) {
        None => number(si),
        Some(unit) => format!("{} {}", number((si - unit.zero) / unit.factor), unit.names[0]),
    }
}

/// Four figures, and no more than two decimals of a degree.
fn four_figures(kind: Kind, value: f64) -> String {
    match kind {
        Kind::Temperature if value != 0.0 && value.is_finite() => trimmed(format!("{value:.2}")),
        _ => figures(value, 4),
    }
}

/// So many figures, zeros at the end left out.
fn figures(value: f64, figures: u8) -> String {
    if value == 0.0 || !value.is_finite() {
        return format!("{}", value + 0.0);
    }
    let size = value.abs().log10().floor();
    if !(-6.0..=9.0).contains(&size) {
        return format!("{value:.3e}");
    }
    let decimals = (f64::from(figures) - 1.0 - size).max(0.0) as usize;
    trimmed(format!("{value:.decimals$}"))
}

fn trimmed(rounded: String) -> String {
    let trimmed = if rounded.contains('.') {
        rounded.trim_end_matches('0').trim_end_matches('.')
    } else {
        &rounded
    };
    if trimmed == "-0" { "0".to_owned() } else { trimmed.to_owned() }
}

/// The unit in which a value of this size is best read; `None` where the number stands bare.
fn chosen(kind: Kind, si: f64, units: Units) -> Option<&'static Unit> {
    let size = si.abs();
    let name = match (kind, units) {
        (Kind::Share | Kind::Number, _) => return None,
        (Kind::Length, Units::Metric) if size < 1.0 => "mm",
        (Kind::Length, Units::Metric) => "m",
        (Kind::Length, Units::Us) if size < 24.0 * INCH_M => "in",
        (Kind::Length, Units::Us) => "ft",
        (Kind::Area, Units::Metric) if size < 0.01 => "cm2",
        (Kind::Area, Units::Metric) => "m2",
        (Kind::Area, Units::Us) if size < FOOT_M * FOOT_M => "in2",
        (Kind::Area, Units::Us) => "ft2",
        (Kind::Volume, Units::Metric) => "l",
        (Kind::Volume, Units::Us) => "US gal",
        (Kind::Flow, Units::Metric) => "l/min",
        (Kind::Flow, Units::Us) => "gpm",
        (Kind::MassFlow, Units::Metric) => "kg/s",
        (Kind::MassFlow, Units::Us) => "lb/h",
        (Kind::Head, Units::Metric) => "m",
        (Kind::Head, Units::Us) => "ft",
        (Kind::Temperature, Units::Metric) => "C",
        (Kind::Temperature, Units::Us) => "F",
        (Kind::Difference, Units::Metric) => "K",
        (Kind::Difference, Units::Us) => "F diff",
        (Kind::Angle, _) => "deg",
        (Kind::Power, Units::Metric) if size < 1e4 => "W",
        (Kind::Power, Units::Metric) => "kW",
        (Kind::Power, Units::Us) => "BTU/h",
        (Kind::Energy, Units::Metric) => "kWh",
        (Kind::Energy, Units::Us) => "BTU",
        (Kind::Pressure, Units::Metric) if size < 1e4 => "Pa",
        (Kind::Pressure, Units::Metric) if size > 1e7 => "MPa",
        (Kind::Pressure, Units::Metric) => "bar",
        (Kind::Pressure, Units::Us) => "psi",
        (Kind::Time, _) if size < 120.0 => "s",
        (Kind::Time, _) if size < 7200.0 => "min",
        (Kind::Time, _) => "h",
        (Kind::Conductance, Units::Metric) => "W/K",
        (Kind::Conductance, Units::Us) => "BTU/h F",
        (Kind::Conductivity | Kind::BondConductance, Units::Metric) => "W/m K",
        (Kind::Conductivity | Kind::BondConductance, Units::Us) => "BTU/h ft F",
        (Kind::Film, Units::Metric) => "W/m2 K",
        (Kind::Film, Units::Us) => "BTU/h ft2 F",
        (Kind::LossGrowth, Units::Metric) => "W/m2 K2",
        (Kind::LossGrowth, Units::Us) => "BTU/h ft2 F2",
        (Kind::Resistance, Units::Metric) => "m2 K/W",
        (Kind::Resistance, Units::Us) => "h ft2 F/BTU",
        (Kind::AreaHeat, Units::Metric) => "kJ/m2 K",
        (Kind::AreaHeat, Units::Us) => "BTU/ft2 F",
        (Kind::Irradiance, Units::Metric) => "W/m2",
        (Kind::Irradiance, Units::Us) => "BTU/h ft2",
        (Kind::Irradiation, Units::Metric) => "kWh/m2",
        (Kind::Irradiation, Units::Us) => "BTU/ft2",
        (Kind::DailyIrradiation, Units::Metric) => "kWh/m2 day",
        (Kind::DailyIrradiation, Units::Us) => "BTU/ft2 day",
        (Kind::VolumeByArea, Units::Metric) => "l/m2",
        (Kind::VolumeByArea, Units::Us) => "US gal/ft2",
        (Kind::SunRise, Units::Metric) => "K m2/kW",
        (Kind::SunRise, Units::Us) => "F diff h ft2/BTU",
        (Kind::Density, Units::Metric) => "kg/m3",
        (Kind::Density, Units::Us) => "lb/ft3",
        (Kind::Mass, Units::Metric) if size < 1.0 => "g",
        (Kind::Mass, Units::Metric) => "kg",
        (Kind::Mass, Units::Us) => "lb",
        (Kind::Force, Units::Metric) => "N",
        (Kind::Force, Units::Us) => "lbf",
        (Kind::HeatCapacity, Units::Metric) => "kJ/K",
        (Kind::HeatCapacity, Units::Us) => "BTU/F",
        (Kind::SpecificHeat, Units::Metric) => "J/kg K",
        (Kind::SpecificHeat, Units::Us) => "BTU/lb F",
        (Kind::Rate, _) => "1/h",
        (Kind::Extinction, Units::Metric) => "1/m",
        (Kind::Extinction, Units::Us) => "1/in",
        (Kind::Growth, Units::Metric) => "1/K",
        (Kind::Growth, Units::Us) => "1/F",
        (Kind::Speed, Units::Metric) => "m/s",
        (Kind::Speed, Units::Us) => "mph",
    };
    find(name, kind)
}
