//! The circuit on a terminal.

use design::quantity::{Kind, Units, show};
use physics::ZERO_CELSIUS_K;

use super::Paper;
use super::rulers::Rulers;
use super::table::{Align, Table};
use super::text::broken;
use crate::wire::{CircuitWire, MovedBy};

/// The circuit as a short part of the year's page.
pub fn circuit(wire: &CircuitWire, paper: Paper) -> String {
    let units = paper.units;
    let of = |kind: Kind, si: f64| show(kind, si, units);
    let temperature = |celsius: f64| of(Kind::Temperature, celsius + ZERO_CELSIUS_K);
    let flow = format!(
        "{} against {} of head",
        of(Kind::Flow, wire.flow_l_min / 60e3),
        of(Kind::Head, wire.head_m)
    );
    let head = match wire.moved_by {
        MovedBy::Pump => format!("Circuit, fluid at {}: {flow}\n", temperature(wire.fluid_c)),
        MovedBy::Weight => {
            format!("Circuit, moved by its own weight in a bright hour: {flow}\n")
        }
    };
    let mut text = head + &tubes(wire, units) + &points(wire, units);
    let electricity = (wire.moved_by == MovedBy::Pump).then(|| electricity(wire, units));
    let sentences = [Some(boiling(wire, units)), Some(growth(wire, units)), electricity];
    for sentence in sentences.into_iter().flatten() {
        for (at, line) in broken(&sentence, paper.prose_width() - 4).iter().enumerate() {
            text.push_str(&format!("{}{line}\n", if at == 0 { "  " } else { "    " }));
        }
    }
    text
}

fn boiling(wire: &CircuitWire, units: Units) -> String {
    let boiling = &wire.boiling;
    let boils_k = boiling.boils_c + ZERO_CELSIUS_K;
    let mut text = format!(
        "Boils at {} at the panel outlet, the fluid at rest",
        show(Kind::Temperature, boils_k, units)
    );
    for (what, margin_k) in
        [("fluid in the pipes", boiling.margin_k), ("sheet", boiling.sheet_margin_k)]
    {
        let Some(margin_k) = margin_k else { continue };
        let size = show(Kind::Difference, margin_k.abs(), units);
        let side = if margin_k < 0.0 { "over" } else { "under" };
        text.push_str(&format!("; the {what} came to {size} {side} that"));
    }
    text
}

fn growth(wire: &CircuitWire, units: Units) -> String {
    let volume = |litres: f64| show(Kind::Volume, litres / 1e3, units);
    let temperature = |celsius: f64| show(Kind::Temperature, celsius + ZERO_CELSIUS_K, units);
    format!(
        "Holds {}, which grows by {} from {} to {}; wants {} of room over the cold level, the \
         panels' contents pushed out by steam",
        volume(wire.contents_l),
        volume(wire.growth_l),
        temperature(10.0),
        temperature(100.0),
        volume(wire.room_l)
    )
}

fn electricity(wire: &CircuitWire, units: Units) -> String {
    let rulers = Rulers::of(units);
    let electricity = &wire.electricity;
    let share = electricity
        .share_of_coil_heat
        .map_or(String::new(), |share| format!(", {:.1} % of the coil heat", share * 100.0));
    format!(
        "Pump takes {}{share}; heat spared less that, {}",
        rulers.heat_text(electricity.pump_kwh),
        rulers.heat_text(electricity.net_kwh)
    )
}

fn tubes(wire: &CircuitWire, units: Units) -> String {
    let mut table = Table::new(&[
        ("Tube", Align::Left),
        ("bore", Align::Right),
        ("velocity", Align::Right),
        ("Reynolds", Align::Right),
    ]);
    for tube in &wire.tubes {
        table.row(vec![
            tube.tube.clone(),
            show(Kind::Length, tube.bore_mm / 1e3, units),
            velocity(tube.velocity_m_s, units),
            format!("{:.0}", tube.reynolds),
        ]);
    }
    table.text("  ")
}

/// Water is told in feet a second, where wind is told in miles an hour.
fn velocity(m_s: f64, units: Units) -> String {
    match units {
        Units::Metric => format!("{m_s:.2} m/s"),
        Units::Us => format!("{:.2} ft/s", m_s / FOOT_M),
    }
}

fn points(wire: &CircuitWire, units: Units) -> String {
    let (unit, in_bar) = match units {
        Units::Metric => ("bar", 1.0),
        Units::Us => ("psi", BAR_PSI),
    };
    let head = |words: &str| format!("{words}\n{unit}");
    let (running, resting) = (head("running"), head("at rest"));
    let mut table = Table::new(&[
        ("Gauge at", Align::Left),
        ("height", Align::Right),
        (&running, Align::Right),
        (&resting, Align::Right),
    ]);
    for point in &wire.points {
        table.row(vec![
            point.point.clone(),
            show(Kind::Length, point.height_m, units),
            format!("{:.2}", point.running_bar * in_bar),
            format!("{:.2}", point.resting_bar * in_bar),
        ]);
    }
    table.text("  ")
}

/// Pounds a square inch in a bar.
const BAR_PSI: f64 = 1e5 / 6_894.757_293_168;

/// Metres in a foot.
const FOOT_M: f64 = 0.3048;
