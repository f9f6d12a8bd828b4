//! The plate picture in words.

use design::quantity::{Kind, Units, show};
use physics::ZERO_CELSIUS_K;

use super::Paper;
use super::table::{Align, Table};
use super::text::broken;
use crate::wire::{PictureWire, SpotWire, StretchWire};

/// The sheet drawn to scale: hottest and coldest place, heat, fluid, and what each stretch costs.
pub fn plate(wire: &PictureWire, paper: Paper) -> String {
    let units = paper.units;
    let mut table = Table::new(&[("", Align::Left), ("", Align::Left)]);
    let mut row = |what: &str, words: String| table.row(vec![what.to_owned(), words]);
    row(
        "Plate picture",
        format!("{} by {} cells; {}", wire.columns, wire.rows, balance(wire, units)),
    );
    row("Hottest", spot(wire.hottest_spot_c, &wire.hottest_spot, units));
    row("Coldest", spot(wire.coldest_spot_c, &wire.coldest_spot, units));
    row(
        "Useful heat",
        format!(
            "{} within {}; the fin-and-tube chain says {}",
            show(Kind::Power, wire.useful_w, units),
            show(Kind::Power, wire.useful_tolerance_w, units),
            show(Kind::Power, wire.chain_useful_w, units)
        ),
    );
    row("Fluid", fluid(wire, units));
    let mut text = table.text("").trim_start_matches('\n').to_owned();
    if wire.stretches.is_empty() {
        return text;
    }
    text.push('\n');
    text.push_str(&stretches(&wire.stretches, units));
    let sentence = format!(
        "Each stretch against the bond of the rest, the others as they are: in {} with the fluid {} above the air, and in a year of the same sun and draws. Below its tolerance a cost is none. Curve and year take {} for all of the tube.",
        show(Kind::Irradiance, 1000.0, units),
        show(Kind::Difference, 20.0, units),
        show(Kind::BondConductance, wire.even_bond_w_m_k, units)
    );
    for line in broken(&sentence, paper.prose_width()) {
        text.push_str(&line);
        text.push('\n');
    }
    text
}

fn balance(wire: &PictureWire, units: Units) -> String {
    let power = |power_w: f64| show(Kind::Power, power_w, units);
    format!(
        "of {} taken up {} leave by the covers, {} by the back, {} by the rim",
        power(wire.absorbed_w),
        power(wire.top_loss_w),
        power(wire.back_loss_w),
        power(wire.rim_loss_w)
    )
}

fn spot(celsius: f64, spot: &SpotWire, units: Units) -> String {
    let length = |mm: f64| show(Kind::Length, mm / 1000.0, units);
    format!(
        "{}, {} to the right and {} up from the lower left corner",
        temperature(celsius, units),
        length(spot.across_mm),
        length(spot.up_mm)
    )
}

fn fluid(wire: &PictureWire, units: Units) -> String {
    let ends = format!(
        "enters at {}, leaves at {}",
        temperature(wire.inlet_c, units),
        temperature(wire.outlet_c, units)
    );
    if wire.tubes.len() < 2 {
        return ends;
    }
    let outlets = wire.tubes.iter().map(|tube| tube.outlet_c);
    let coolest_c = outlets.clone().fold(f64::INFINITY, f64::min);
    let warmest_c = outlets.fold(f64::NEG_INFINITY, f64::max);
    format!(
        "{ends}; by riser from {} to {}",
        temperature(coolest_c, units),
        temperature(warmest_c, units)
    )
}

fn temperature(celsius: f64, units: Units) -> String {
    // To a tenth: cells and properties leave no more.
    show(Kind::Temperature, (celsius * 10.0).round() / 10.0 + ZERO_CELSIUS_K, units)
}

fn stretches(all: &[StretchWire], units: Units) -> String {
    let mut table = Table::new(&[
        ("Stretch", Align::Left),
        ("from", Align::Right),
        ("to", Align::Right),
        ("bond", Align::Right),
        ("costs", Align::Right),
        ("within", Align::Right),
        ("a year", Align::Right),
        ("within", Align::Right),
    ]);
    let several = all.iter().any(|stretch| stretch.tube > 1);
    for stretch in all {
        let length = |metres: f64| show(Kind::Length, metres, units);
        let power = |power_w: f64| show(Kind::Power, power_w, units);
        let cost = if stretch.cost_w.abs() > stretch.cost_tolerance_w {
            power(stretch.cost_w)
        } else {
            "none".to_owned()
        };
        let year = if stretch.cost_kwh.abs() > stretch.cost_tolerance_kwh {
            kilowatt_hours(stretch.cost_kwh)
        } else {
            "none".to_owned()
        };
        table.row(vec![
            if several { format!("riser {}", stretch.tube) } else { "tube".to_owned() },
            length(stretch.from_m),
            length(stretch.to_m),
            show(Kind::BondConductance, stretch.bond_w_m_k, units),
            cost,
            power(stretch.cost_tolerance_w),
            year,
            kilowatt_hours(stretch.cost_tolerance_kwh),
        ]);
    }
    table.text("")
}

fn kilowatt_hours(kwh: f64) -> String {
    format!("{kwh:.2} kWh")
}
