//! Figures in the reader's units.

use design::quantity::{Kind, Units, in_unit};
use year::ledger::KWH_J;

/// Which units stand in the columns.
pub struct Rulers {
    pub heat: &'static str,
    pub sun: &'static str,
    temperature: &'static str,
    volume: &'static str,
    units: Units,
}

impl Rulers {
    /// For these units.
    pub fn of(units: Units) -> Rulers {
        let [heat, sun, temperature, volume] = match units {
            Units::Metric => ["kWh", "kWh/m2", "C", "l"],
            Units::Us => ["kBTU", "kBTU/ft2", "F", "US gal"],
        };
        Rulers { heat, sun, temperature, volume, units }
    }

    /// Heat given in kilowatt-hours, in the column's unit.
    pub fn heat(&self, kwh: f64) -> f64 {
        match self.units {
            Units::Metric => kwh,
            Units::Us => number(Kind::Energy, kwh * KWH_J, "BTU") / 1000.0,
        }
    }

    /// Heat given in kilowatt-hours, with its unit.
    pub fn heat_text(&self, kwh: f64) -> String {
        format!("{} {}", whole(self.heat(kwh)), self.heat)
    }

    /// Irradiation given in kilowatt-hours a square metre.
    pub fn sun(&self, kwh_m2: f64) -> f64 {
        match self.units {
            Units::Metric => kwh_m2,
            Units::Us => self.heat(kwh_m2) / number(Kind::Area, 1.0, "ft2"),
        }
    }

    /// A temperature given in degrees Celsius, with its unit.
    pub fn temperature_text(&self, celsius: f64) -> String {
        let kelvin = celsius + physics::ZERO_CELSIUS_K;
        format!(
            "{} {}",
            whole(number(Kind::Temperature, kelvin, self.temperature)),
            self.temperature
        )
    }

    /// A volume given in litres, with its unit.
    pub fn volume_text(&self, litres: f64) -> String {
        format!("{} {}", whole(number(Kind::Volume, litres / 1000.0, self.volume)), self.volume)
    }
}

/// A value in a unit this page names itself.
fn number(kind: Kind, si: f64, unit: &str) -> f64 {
    in_unit(kind, si, unit).expect("the units of this page are among those the design file reads")
}

/// A figure without decimals.
pub fn whole(value: f64) -> String {
    let rounded = value.round();
    // A loss that rounds to nothing is nothing, not minus nothing.
    format!("{}", if rounded == 0.0 { 0.0 } else { rounded })
}

/// A share in parts of a hundred.
pub fn percent(share: f64) -> String {
    format!("{} %", whole(share * 100.0))
}
