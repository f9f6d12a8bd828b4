//! What was assumed, on a terminal.

use std::collections::{BTreeMap, BTreeSet};

use design::{Origin, Origins};

use super::Paper;
use super::table::{Align, Table};

/// What the design file does not state: first what was assumed or is unknown, place by place in the
/// order of the heat; then what the catalogue says of the materials named, material by material.
pub fn assumed(origins: &Origins, paper: Paper) -> String {
    let mut places = Table::new(&[
        ("Assumed", Align::Left),
        ("value", Align::Left),
        ("where from", Align::Left),
    ]);
    let mut materials: BTreeMap<&str, BTreeSet<String>> = BTreeMap::new();
    let mut assumed = 0;
    for (place, traced) in origins.iter() {
        let from = match &traced.origin {
            Origin::Written => continue,
            Origin::Catalogue { material, certainty, .. } => {
                let property = place.rsplit('.').next().unwrap_or(place);
                let value =
                    format!("{property} {} ({certainty})", traced.shown(place, paper.units));
                materials.entry(material).or_default().insert(value);
                continue;
            }
            Origin::Assumed { source, certainty } => format!("{source} ({certainty})"),
            Origin::Said { word, source, certainty } => {
                format!("what \"{word}\" stands for: {source} ({certainty})")
            }
            origin @ Origin::Unknown { .. } => origin.sentence_in(place, paper.units),
        };
        assumed += 1;
        places.row(vec![place.to_owned(), traced.shown(place, paper.units), from]);
    }
    let mut text = if assumed > 0 {
        places.folded(paper.width)
    } else {
        "Assumed  nothing: every value is written in the design file\n".to_owned()
    };
    if !materials.is_empty() {
        let mut table = Table::new(&[
            ("From the catalogue", Align::Left),
            ("(its sources stand in `check --json`)", Align::Left),
        ]);
        for (material, properties) in materials {
            for (line, value) in properties.iter().enumerate() {
                let name = if line == 0 { material } else { "" };
                table.row(vec![name.to_owned(), value.clone()]);
            }
        }
        text.push('\n');
        text.push_str(&table.folded(paper.width));
    }
    text
}
