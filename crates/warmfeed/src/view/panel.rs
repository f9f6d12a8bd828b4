//! A panel on a terminal: what must stand the heat first.

use design::quantity::{Kind, Units, show};
use physics::ZERO_CELSIUS_K;

use super::Paper;
use super::plate::plate;
use super::table::{Align, Table};
use super::text::broken;
use crate::wire::{KindWire, PanelWire, StagnationWire};

/// One panel as a page of text, readable without colour.
pub fn panel(wire: &PanelWire, paper: Paper) -> String {
    let units = paper.units;
    let mut text = stagnation(&wire.stagnation, paper);
    text.push('\n');
    text.push_str(&curve(wire, paper));
    text.push('\n');
    text.push_str(&sheet(wire, units));
    text.push('\n');
    text.push_str(&flow_and_mass(wire, paper));
    if let Some(picture) = &wire.plate.picture {
        text.push('\n');
        text.push_str(&plate(picture, paper));
    }
    text
}

/// The parts in the heat, each with its limit, and what to do about those that do not stand it.
pub fn stagnation(heat: &StagnationWire, paper: Paper) -> String {
    let units = paper.units;
    let degrees = |celsius: f64| whole_degrees(celsius, units);
    let mut table = Table::new(&[
        ("Left idle in the sun", Align::Left),
        ("", Align::Left),
        ("standard\nsun", Align::Right),
        ("the place's\nworst", Align::Right),
        ("stands\nyears", Align::Right),
        ("stands\nhours", Align::Right),
        ("h/a above\nrunning", Align::Right),
        ("pump\ndead", Align::Right),
        ("left\ndry", Align::Right),
        ("", Align::Left),
    ]);
    for part in &heat.parts {
        let hours = |hours: f64| if hours < 0.5 { "-".to_owned() } else { format!("{hours:.0}") };
        table.row(vec![
            part.part.clone(),
            part.material.clone(),
            degrees(part.standard_c),
            degrees(part.extreme_c),
            degrees(part.limit_c),
            degrees(part.short_limit_c),
            hours(part.hours_above_running),
            hours(part.hours_above_pump_dead),
            hours(part.hours_above_dry),
            word(part.kind).to_owned(),
        ]);
    }
    let mut text = table.text("");
    text.push_str(&format!(
        "The sheet: {} in {}, air of {} and hardly any wind; {} in the place's worst.\nThe place's worst: {}.\n",
        degrees(heat.standard_c),
        show(Kind::Irradiance, 1000.0, units),
        degrees(30.0),
        degrees(heat.extreme_c),
        heat.extreme_conditions
    ));
    text.push_str(&stops(heat, paper));
    text
}

/// One sentence for each part that would not stand it; none where all do.
pub fn stops(heat: &StagnationWire, paper: Paper) -> String {
    let units = paper.units;
    let mut text = String::new();
    for part in heat.parts.iter().filter(|part| part.kind == KindWire::Stop) {
        let hottest_c = part.standard_c.max(part.extreme_c);
        let sentence = format!(
            "Stop: {} ({}) reaches {} left idle in full sun and stands {} for hours ({}). Change it, or keep the heat from it.",
            part.part,
            part.material,
            whole_degrees(hottest_c, units),
            whole_degrees(part.short_limit_c, units),
            part.limit_certainty
        );
        for line in broken(&sentence, paper.prose_width()) {
            text.push_str(&line);
            text.push('\n');
        }
    }
    if text.is_empty() {
        text.push_str("No stop was found in what is reckoned here.\n");
    }
    text
}

fn word(kind: KindWire) -> &'static str {
    match kind {
        KindWire::Stop => "stop",
        KindWire::Mind => "mind",
        KindWire::Quiet => "quiet",
    }
}

fn whole_degrees(celsius: f64, units: Units) -> String {
    let (unit, value) = match units {
        Units::Metric => ("C", celsius),
        Units::Us => ("F", celsius * 1.8 + 32.0),
    };
    format!("{value:.0} {unit}")
}

fn curve(wire: &PanelWire, paper: Paper) -> String {
    let units = paper.units;
    let efficiency = &wire.efficiency;
    let mut text = format!(
        "Tested, it would give eta0 {:.3}, a1 {}, a2 {} of {} {}\n",
        efficiency.eta0,
        show(Kind::Film, efficiency.a1_w_m2_k, units),
        show(Kind::LossGrowth, efficiency.a2_w_m2_k2, units),
        efficiency.area_kind,
        show(Kind::Area, efficiency.area_m2, units),
    );
    for line in broken(&efficiency.conditions, paper.prose_width() - 2) {
        text.push_str(&format!("  {line}\n"));
    }
    let mut table = Table::new(&[
        ("mean fluid\nabove air", Align::Right),
        ("efficiency", Align::Right),
        ("   light at", Align::Right),
        ("modifier", Align::Right),
    ]);
    let rows = wire.points.len().max(wire.modifier.beam.len());
    for row in 0..rows {
        let (rise, share) = wire.points.get(row).map_or_else(Default::default, |point| {
            let rise_k = point.reduced_temperature_m2k_w * 1000.0;
            (show(Kind::Difference, rise_k, units), percent(point.efficiency))
        });
        let (angle, left) = wire.modifier.beam.get(row).map_or_else(Default::default, |angle| {
            (format!("{:.0} deg", angle.angle_deg), format!("{:.2}", angle.share))
        });
        table.row(vec![rise, share, angle, left]);
    }
    table.row(vec![
        String::new(),
        String::new(),
        "the sky".to_owned(),
        format!("{:.2}", wire.modifier.diffuse),
    ]);
    text.push_str(&table.text("  "));
    text
}

fn percent(share: f64) -> String {
    format!("{:.0} %", 100.0 * share)
}

fn sheet(wire: &PanelWire, units: Units) -> String {
    let plate = &wire.plate;
    let film = |loss: f64| show(Kind::Film, loss, units);
    let mut table = Table::new(&[("", Align::Left), ("", Align::Left)]);
    let mut row = |what: &str, words: String| table.row(vec![what.to_owned(), words]);
    row(
        "Sheet",
        format!(
            "fin efficiency {:.3}, F' {:.3}, FR {:.3}; {} where the fluid is {} above the air",
            plate.fin_efficiency,
            plate.f_prime,
            plate.f_r,
            show(Kind::Temperature, plate.plate_mean_c + ZERO_CELSIUS_K, units),
            show(Kind::Difference, 20.0, units),
        ),
    );
    row(
        "Losses",
        format!(
            "top {}, back {}, rim and joints {}",
            film(plate.top_loss_w_m2_k),
            film(plate.back_loss_w_m2_k),
            film(plate.edge_loss_w_m2_k)
        ),
    );
    row(
        "Heat held",
        format!(
            "{}; 63 % of the way in {}",
            show(Kind::HeatCapacity, wire.capacity_kj_k * 1000.0, units),
            show(Kind::Time, wire.time_constant_min * 60.0, units)
        ),
    );
    table.text("").trim_start_matches('\n').to_owned()
}

fn flow_and_mass(wire: &PanelWire, paper: Paper) -> String {
    let units = paper.units;
    let flow = &wire.flow;
    let litres_min = |l_min: f64| show(Kind::Flow, l_min / 60_000.0, units);
    let mut table = Table::new(&[("", Align::Left), ("", Align::Left)]);
    let mut row = |what: &str, words: String| table.row(vec![what.to_owned(), words]);
    row(
        "Flow",
        format!(
            "{} through one panel costs {}, {} of head",
            litres_min(flow.l_min),
            show(Kind::Pressure, flow.pressure_drop_pa, units),
            show(Kind::Head, flow.head_m, units)
        ),
    );
    let panels = &flow.per_panel_l_min;
    if panels.len() > 1 {
        let each: Vec<String> = panels.iter().map(|&l_min| litres_min(l_min)).collect();
        let sentence = format!(
            "of {} through the bank; by panel {}",
            litres_min(flow.bank_l_min),
            each.join(", ")
        );
        for line in broken(&sentence, paper.prose_width() - 8) {
            row("", line);
        }
    }
    if flow.per_tube_l_min.len() > 1 {
        let tubes: Vec<String> = flow.per_tube_l_min.iter().map(|&each| litres_min(each)).collect();
        let sentence = format!("by tube {}; unevenness {:.2}", tubes.join(", "), flow.unevenness);
        for line in broken(&sentence, paper.prose_width() - 8) {
            row("", line);
        }
    }
    let mass = &wire.mass;
    let kilograms = |kg: Option<f64>| {
        kg.map_or_else(|| "not stated".to_owned(), |kg| show(Kind::Mass, kg, units))
    };
    row(
        "Mass",
        format!(
            "{} dry, {} filled; it holds {}",
            kilograms(mass.dry_kg),
            kilograms(mass.filled_kg),
            show(Kind::Volume, mass.contents_l / 1000.0, units)
        ),
    );
    table.text("").trim_start_matches('\n').to_owned()
}
