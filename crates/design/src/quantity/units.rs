//! The units that are understood, and what one of each is in SI.
//!
//! Factors are exact by definition where a definition exists: the inch and the pound by the
//! agreement of 1959, the US gallon as 231 cubic inches, the UK gallon as 4.54609 l, the British
//! thermal unit as 1055.05585262 J (International Table).

use super::Kind;

/// One unit: its spellings, and how it becomes SI (`number * factor + zero`).
#[derive(Clone, Copy, Debug)]
pub(super) struct Unit {
    /// Spellings after tidying; the first is the one that is written.
    pub names: &'static [&'static str],
    /// What it measures.
    pub kind: Kind,
    /// SI units in one of these.
    pub factor: f64,
    /// What zero of this is in SI.
    pub zero: f64,
    /// True where hints name it.
    pub offered: bool,
}

const fn unit(kind: Kind, factor: f64, names: &'static [&'static str]) -> Unit {
    Unit { names, kind, factor, zero: 0.0, offered: true }
}

const fn rare(kind: Kind, factor: f64, names: &'static [&'static str]) -> Unit {
    Unit { names, kind, factor, zero: 0.0, offered: false }
}

const fn from_zero(kind: Kind, factor: f64, zero: f64, names: &'static [&'static str]) -> Unit {
    Unit { names, kind, factor, zero, offered: true }
}

pub(super) const INCH_M: f64 = 0.0254;
pub(super) const FOOT_M: f64 = 0.3048;
const POUND_KG: f64 = 0.453_592_37;
const US_GALLON_M3: f64 = 3.785_411_784e-3;
const UK_GALLON_M3: f64 = 4.546_09e-3;
const BTU_J: f64 = 1_055.055_852_62;
const FAHRENHEIT_K: f64 = 5.0 / 9.0;
const PSI_PA: f64 = 6_894.757_293_168_361;
const ZERO_F_K: f64 = 459.67 * FAHRENHEIT_K;
const ATMOSPHERE_PA: f64 = 101_325.0;

#[rustfmt::skip]
const UNITS: &[Unit] = &[
    unit(Kind::Length, 1e-3, &["mm", "millimetre", "millimetres", "millimeter", "millimeters"]),
    unit(Kind::Length, 1e-2, &["cm", "centimetre", "centimetres", "centimeter", "centimeters"]),
    unit(Kind::Length, 1.0, &["m", "metre", "metres", "meter", "meters"]),
    unit(Kind::Length, INCH_M, &["in", "\"", "inch", "inches"]),
    unit(Kind::Length, FOOT_M, &["ft", "'", "foot", "feet"]),
    rare(Kind::Length, 0.9144, &["yd", "yard", "yards"]),
    rare(Kind::Length, 1e-6, &["um", "micron", "microns"]),
    rare(Kind::Length, 1e3, &["km"]),
    unit(Kind::Area, 1.0, &["m2", "sq m"]),
    unit(Kind::Area, 1e-4, &["cm2", "sq cm"]),
    rare(Kind::Area, 1e-6, &["mm2", "sq mm"]),
    unit(Kind::Area, FOOT_M * FOOT_M, &["ft2", "sq ft", "sqft"]),
    rare(Kind::Area, INCH_M * INCH_M, &["in2", "sq in"]),
    unit(Kind::Volume, 1e-3, &["l", "L", "litre", "litres", "liter", "liters"]),
    rare(Kind::Volume, 1e-6, &["ml", "cm3", "cc"]),
    unit(Kind::Volume, 1.0, &["m3", "cu m"]),
    unit(Kind::Volume, UK_GALLON_M3, &["UK gal", "UK gallon", "UK gallons", "imperial gallon", "imperial gallons"]),
    unit(Kind::Volume, US_GALLON_M3, &["US gal", "US gallon", "US gallons"]),
    rare(Kind::Volume, FOOT_M * FOOT_M * FOOT_M, &["ft3", "cu ft"]),
    unit(Kind::Flow, 1e-3 / 60.0, &["l/min", "L/min", "lpm", "LPM", "litres/min", "liters/min"]),
    unit(Kind::Flow, 1e-3 / 3600.0, &["l/h", "L/h", "l/hr", "litres/h"]),
    rare(Kind::Flow, 1e-3, &["l/s", "L/s"]),
    rare(Kind::Flow, 1e-6 / 60.0, &["ml/min"]),
    unit(Kind::Flow, 1.0 / 3600.0, &["m3/h"]),
    rare(Kind::Flow, 1.0, &["m3/s"]),
    // Printed without a country, gallons a minute are US practice: pump curves in imperial
    // gallons say so.
    unit(Kind::Flow, US_GALLON_M3 / 60.0, &["gpm", "US gpm", "GPM", "US gal/min"]),
    unit(Kind::Flow, UK_GALLON_M3 / 60.0, &["UK gpm", "UK gal/min"]),
    rare(Kind::Flow, US_GALLON_M3 / 3600.0, &["US gph", "US gal/h"]),
    rare(Kind::Flow, UK_GALLON_M3 / 3600.0, &["UK gph", "UK gal/h"]),
    unit(Kind::MassFlow, 1.0, &["kg/s"]),
    unit(Kind::MassFlow, 1.0 / 60.0, &["kg/min"]),
    unit(Kind::MassFlow, 1.0 / 3600.0, &["kg/h"]),
    unit(Kind::MassFlow, POUND_KG / 3600.0, &["lb/h"]),
    unit(Kind::Head, 1.0, &["m", "m head", "metres", "meters"]),
    unit(Kind::Head, FOOT_M, &["ft", "ft head", "'", "feet"]),
    rare(Kind::Head, 1e-2, &["cm"]),
    rare(Kind::Head, 1e-3, &["mm"]),
    rare(Kind::Head, INCH_M, &["in", "\""]),
    from_zero(Kind::Temperature, 1.0, 273.15, &["C", "deg C", "degC", "Celsius", "celsius"]),
    from_zero(Kind::Temperature, FAHRENHEIT_K, ZERO_F_K, &["F", "deg F", "degF", "Fahrenheit", "fahrenheit"]),
    unit(Kind::Temperature, 1.0, &["K abs", "kelvin abs"]),
    unit(Kind::Difference, 1.0, &["K", "kelvin", "C diff", "deg C diff"]),
    unit(Kind::Difference, FAHRENHEIT_K, &["F diff", "deg F diff"]),
    unit(Kind::Angle, std::f64::consts::PI / 180.0, &["deg", "degree", "degrees"]),
    unit(Kind::Angle, 1.0, &["rad"]),
    unit(Kind::Power, 1.0, &["W", "watt", "watts"]),
    unit(Kind::Power, 1e3, &["kW"]),
    unit(Kind::Power, BTU_J / 3600.0, &["BTU/h", "Btu/h", "BTU/hr", "Btu/hr"]),
    unit(Kind::Energy, 3.6e6, &["kWh"]),
    rare(Kind::Energy, 3.6e3, &["Wh"]),
    unit(Kind::Energy, 1e6, &["MJ"]),
    rare(Kind::Energy, 1e3, &["kJ"]),
    rare(Kind::Energy, 1.0, &["J"]),
    unit(Kind::Energy, BTU_J, &["BTU", "Btu"]),
    unit(Kind::Pressure, 1e5, &["bar", "bar gauge"]),
    from_zero(Kind::Pressure, 1e5, -ATMOSPHERE_PA, &["bar abs"]),
    unit(Kind::Pressure, PSI_PA, &["psi", "psig", "psi gauge"]),
    from_zero(Kind::Pressure, PSI_PA, -ATMOSPHERE_PA, &["psi abs", "psia"]),
    unit(Kind::Pressure, 1e3, &["kPa", "kPa gauge", "kN/m2"]),
    rare(Kind::Pressure, 1.0, &["Pa", "N/m2"]),
    // A load on a roof, as trade and code write it.
    rare(Kind::Pressure, 9.806_65, &["kg/m2", "kgf/m2"]),
    rare(Kind::Pressure, POUND_KG * 9.806_65 / (FOOT_M * FOOT_M), &["psf", "lb/ft2", "lbf/ft2"]),
    rare(Kind::Pressure, 1e2, &["mbar", "hPa"]),
    rare(Kind::Pressure, 1e6, &["MPa", "N/mm2"]),
    rare(Kind::Pressure, 1e9, &["GPa"]),
    Unit { offered: false, ..from_zero(Kind::Pressure, 1e3, -ATMOSPHERE_PA, &["kPa abs"]) },
    Unit { offered: false, ..from_zero(Kind::Pressure, 1.0, -ATMOSPHERE_PA, &["Pa abs"]) },
    unit(Kind::Time, 1.0, &["s", "sec", "second", "seconds"]),
    unit(Kind::Time, 60.0, &["min", "minute", "minutes"]),
    unit(Kind::Time, 3600.0, &["h", "hr", "hour", "hours"]),
    unit(Kind::Time, 86_400.0, &["d", "day", "days"]),
    unit(Kind::Conductance, 1.0, &["W/K"]),
    rare(Kind::Conductance, 1e3, &["kW/K"]),
    unit(Kind::Conductance, BTU_J / 3600.0 / FAHRENHEIT_K, &["BTU/h F", "Btu/h F", "BTU/hr F"]),
    unit(Kind::Conductivity, 1.0, &["W/m K", "W/mK", "W/K m"]),
    rare(Kind::Conductivity, 1e-3, &["mW/m K", "mW/mK"]),
    unit(Kind::Conductivity, BTU_J / 3600.0 / FAHRENHEIT_K / FOOT_M, &["BTU/h ft F", "Btu/h ft F"]),
    rare(Kind::Conductivity, BTU_J / 3600.0 / FAHRENHEIT_K * INCH_M / (FOOT_M * FOOT_M), &["BTU in/h ft2 F", "Btu in/h ft2 F"]),
    unit(Kind::BondConductance, 1.0, &["W/m K", "W/mK", "W/K m"]),
    unit(Kind::BondConductance, BTU_J / 3600.0 / FAHRENHEIT_K / FOOT_M, &["BTU/h ft F", "Btu/h ft F"]),
    unit(Kind::Film, 1.0, &["W/m2 K", "W/m2K"]),
    unit(Kind::Film, BTU_J / 3600.0 / FAHRENHEIT_K / (FOOT_M * FOOT_M), &["BTU/h ft2 F", "Btu/h ft2 F"]),
    unit(Kind::LossGrowth, 1.0, &["W/m2 K2", "W/m2K2"]),
    unit(Kind::LossGrowth, BTU_J / 3600.0 / FAHRENHEIT_K / FAHRENHEIT_K / (FOOT_M * FOOT_M), &["BTU/h ft2 F2", "Btu/h ft2 F2"]),
    unit(Kind::Resistance, 1.0, &["m2 K/W", "m2K/W"]),
    unit(Kind::Resistance, FAHRENHEIT_K * FOOT_M * FOOT_M / (BTU_J / 3600.0), &["h ft2 F/BTU", "h ft2 F/Btu"]),
    unit(Kind::Irradiance, 1.0, &["W/m2"]),
    rare(Kind::Irradiance, 1e3, &["kW/m2"]),
    unit(Kind::Irradiance, BTU_J / 3600.0 / (FOOT_M * FOOT_M), &["BTU/h ft2", "Btu/h ft2"]),
    unit(Kind::Irradiation, 3.6e6, &["kWh/m2"]),
    unit(Kind::Irradiation, 1e6, &["MJ/m2"]),
    rare(Kind::Irradiation, 1.0, &["J/m2"]),
    unit(Kind::Irradiation, BTU_J / (FOOT_M * FOOT_M), &["BTU/ft2", "Btu/ft2"]),
    unit(Kind::DailyIrradiation, 3.6e6 / 86_400.0, &["kWh/m2 day", "kWh/m2 d", "kWh/m2/day", "kWh/m2/d"]),
    unit(Kind::DailyIrradiation, 1e6 / 86_400.0, &["MJ/m2 day", "MJ/m2 d", "MJ/m2/day", "MJ/m2/d"]),
    unit(Kind::DailyIrradiation, 1.0, &["W/m2"]),
    unit(Kind::DailyIrradiation, BTU_J / (FOOT_M * FOOT_M) / 86_400.0, &["BTU/ft2 day", "Btu/ft2 day", "BTU/ft2 d", "BTU/ft2/day"]),
    unit(Kind::VolumeByArea, 1e-3, &["l/m2", "L/m2"]),
    unit(Kind::VolumeByArea, US_GALLON_M3 / (FOOT_M * FOOT_M), &["US gal/ft2"]),
    unit(Kind::SunRise, 1.0, &["K m2/W"]),
    unit(Kind::SunRise, 1e-3, &["K m2/kW"]),
    unit(Kind::SunRise, FAHRENHEIT_K / (BTU_J / 3600.0 / (FOOT_M * FOOT_M)), &["F diff h ft2/BTU"]),
    unit(Kind::Density, 1.0, &["kg/m3"]),
    rare(Kind::Density, 1e3, &["g/cm3", "kg/l"]),
    unit(Kind::Density, POUND_KG / (FOOT_M * FOOT_M * FOOT_M), &["lb/ft3"]),
    unit(Kind::Mass, 1.0, &["kg"]),
    rare(Kind::Mass, 1e-3, &["g"]),
    unit(Kind::Mass, POUND_KG, &["lb", "lbs"]),
    unit(Kind::Force, 1.0, &["N"]),
    unit(Kind::Force, 1e3, &["kN"]),
    unit(Kind::Force, POUND_KG * 9.806_65, &["lbf"]),
    unit(Kind::HeatCapacity, 1.0, &["J/K"]),
    unit(Kind::HeatCapacity, 1e3, &["kJ/K"]),
    rare(Kind::HeatCapacity, 3.6e3, &["Wh/K"]),
    unit(Kind::HeatCapacity, BTU_J / FAHRENHEIT_K, &["BTU/F", "Btu/F"]),
    unit(Kind::AreaHeat, 1.0, &["J/m2 K", "J/m2K"]),
    unit(Kind::AreaHeat, 1e3, &["kJ/m2 K", "kJ/m2K"]),
    unit(Kind::AreaHeat, BTU_J / FAHRENHEIT_K / (FOOT_M * FOOT_M), &["BTU/ft2 F", "Btu/ft2 F"]),
    unit(Kind::SpecificHeat, 1.0, &["J/kg K", "J/kgK"]),
    unit(Kind::SpecificHeat, 1e3, &["kJ/kg K", "kJ/kgK"]),
    unit(Kind::SpecificHeat, BTU_J / POUND_KG / FAHRENHEIT_K, &["BTU/lb F", "Btu/lb F"]),
    unit(Kind::Rate, 1.0 / 3600.0, &["1/h", "/h", "per hour", "an hour"]),
    unit(Kind::Rate, 1.0 / 86_400.0, &["1/d", "per day", "a day"]),
    rare(Kind::Rate, 1.0, &["1/s", "/s"]),
    unit(Kind::Extinction, 1.0, &["1/m", "/m"]),
    unit(Kind::Extinction, 1e3, &["1/mm", "/mm"]),
    rare(Kind::Extinction, 1e2, &["1/cm", "/cm"]),
    unit(Kind::Extinction, 1.0 / INCH_M, &["1/in", "/in"]),
    unit(Kind::Growth, 1.0, &["1/K", "/K"]),
    unit(Kind::Growth, 1e-2, &["%/K"]),
    unit(Kind::Growth, 1.0 / FAHRENHEIT_K, &["1/F", "/F"]),
    unit(Kind::Speed, 1.0, &["m/s"]),
    unit(Kind::Speed, 1.0 / 3.6, &["km/h"]),
    unit(Kind::Speed, 1609.344 / 3600.0, &["mph"]),
    rare(Kind::Speed, FOOT_M, &["ft/s"]),
    rare(Kind::Speed, 1852.0 / 3600.0, &["kn", "knots"]),
    unit(Kind::Share, 1e-2, &["%", "percent", "per cent"]),
];

/// The units of one kind.
pub(super) fn units_of(kind: Kind) -> impl Iterator<Item = &'static Unit> {
    UNITS.iter().filter(move |unit| unit.kind == kind)
}

/// The unit so spelled among one kind's: as written, or in any case where only one answers.
pub(super) fn find(spelled: &str, kind: Kind) -> Option<&'static Unit> {
    let exact = units_of(kind).find(|unit| unit.names.contains(&spelled));
    exact.or_else(|| {
        let mut alike = units_of(kind)
            .filter(|unit| unit.names.iter().any(|name| name.eq_ignore_ascii_case(spelled)));
        let first = alike.next()?;
        alike.next().is_none().then_some(first)
    })
}

/// Which kind a unit is of, whatever was wanted.
pub(super) fn kind_of(spelled: &str) -> Option<Kind> {
    super::KINDS.iter().copied().find(|&kind| find(spelled, kind).is_some())
}

/// The clear spellings of a unit that differs from country to country.
pub(super) fn ambiguous(spelled: &str, kind: Kind) -> Option<&'static [&'static str]> {
    let spelled = spelled.to_ascii_lowercase();
    match (spelled.as_str(), kind) {
        ("gal" | "gals" | "gallon" | "gallons", Kind::Volume) => Some(&["UK gal", "US gal"]),
        ("gph" | "gal/h", Kind::Flow) => Some(&["UK gph", "US gph"]),
        ("gal/min", Kind::Flow) => Some(&["UK gpm", "US gpm"]),
        ("deg" | "degrees", Kind::Temperature) => Some(&["C", "F"]),
        _ => None,
    }
}
