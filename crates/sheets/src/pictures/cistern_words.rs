//! The store in words: figures, a sentence, a table.

use design::quantity::{Kind, Units, in_unit};

use super::box_section::length;
use super::cistern::Facts;
use crate::table::Table;
use crate::words::{decimal, degree_mark, reader_degrees};

/// Litres, or the reader's gallons.
pub(super) fn volume(m3: f64, units: Units) -> String {
    match units {
        Units::Metric => format!("{}\u{a0}l", decimal(m3 * 1e3, 0)),
        Units::Us => {
            let gallons = in_unit(Kind::Volume, m3, "US gal");
            format!("{}\u{a0}US\u{a0}gal", decimal(gallons.unwrap_or(f64::NAN), 1))
        }
    }
}

/// A temperature to a tenth, without the letter of its scale.
pub(super) fn tenth(c: f64, units: Units) -> String {
    format!("{}\u{b0}", decimal(reader_degrees(c, units), 1))
}

pub(super) fn describe(facts: &Facts) -> String {
    let hottest = facts.layers_c.iter().copied().fold(f64::MIN, f64::max);
    let coldest = facts.layers_c.iter().copied().fold(f64::MAX, f64::min);
    let mark = degree_mark(facts.units);
    format!(
        "{} of water, {} deep, {} at its coldest layer and {}{} at its hottest, {}.",
        volume(facts.water.volume_m3, facts.units),
        length(facts.water.depth_m, facts.units),
        tenth(coldest, facts.units),
        tenth(hottest, facts.units),
        mark.trim_start_matches('\u{b0}'),
        facts.moment
    )
}

pub(super) fn table(facts: &Facts) -> Table {
    let units = facts.units;
    let mut table = Table::new(
        format!("The cistern, {}", facts.moment),
        &["what", "height over the base", "value"],
    );
    let count = facts.layers_c.len().max(1) as f64;
    for (layer, &c) in facts.layers_c.iter().enumerate().rev() {
        let height = |place: f64| length(facts.water.depth_m * place / count, units);
        table.row([
            format!("water, layer {} of {}", layer + 1, facts.layers_c.len()),
            format!("{} to {}", height(layer as f64), height(layer as f64 + 1.0)),
            format!("{} {}", decimal(reader_degrees(c, units), 1), degree_mark(units)),
        ]);
    }
    table.row([
        "water".to_owned(),
        length(facts.water.depth_m, units),
        volume(facts.water.volume_m3, units),
    ]);
    let coil = &facts.coil;
    table.row([
        match coil.turn_m {
            Some(turn_m) => format!("coil, turns of {}", length(turn_m, units)),
            None => "coil, straight legs".to_owned(),
        },
        format!("{} to {}", length(coil.bottom_m, units), length(coil.top_m, units)),
        coil_words(facts),
    ]);
    table.row([
        "cold water in".to_owned(),
        length(facts.inlet_m, units),
        facts.cold_c.map_or(String::new(), |c| tenth(c, units)),
    ]);
    for outlet in facts.outlets {
        table.row([outlet.name.clone(), length(outlet.height_m, units), String::new()]);
    }
    for (what, layers) in [("wall", facts.wall), ("under the base", facts.base), ("lid", facts.lid)]
    {
        for layer in layers {
            let name = format!("{what}: {}", layer.name);
            table.row([name, String::new(), length(layer.thickness_m, units)]);
        }
    }
    table
}

/// The coil in a few words.
pub(super) fn coil_words(facts: &Facts) -> String {
    let coil = &facts.coil;
    let long = match facts.units {
        Units::Metric => format!("{}\u{a0}m", decimal(coil.length_m, 1)),
        Units::Us => format!("{}\u{a0}ft", decimal(coil.length_m / 0.3048, 1)),
    };
    format!("{long} of {}", length(coil.outside_m, facts.units))
}
