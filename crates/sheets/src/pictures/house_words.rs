//! The house in words: units, the pressures that matter, a sentence, a table.

use design::quantity::{Kind, Units, in_unit};

use super::house::{Facts, Height, Holding, Pressure};
use super::house_names::mark;
use super::house_plan::Plan;
use crate::table::Table;
use crate::words::decimal;

pub(super) fn unit(units: Units) -> &'static str {
    match units {
        Units::Metric => "metres",
        Units::Us => "feet",
    }
}

/// Metres or feet.
pub(super) fn reader_m(metres: f64, units: Units) -> f64 {
    match units {
        Units::Metric => metres,
        Units::Us => metres / 0.3048,
    }
}

fn height_words(metres: f64, units: Units) -> String {
    let mark = match units {
        Units::Metric => "m",
        Units::Us => "ft",
    };
    format!("{}\u{a0}{mark}", decimal(reader_m(metres, units), 2))
}

fn bar_words(gauge_pa: f64, units: Units) -> String {
    match units {
        Units::Metric => format!("{}\u{a0}bar", decimal(gauge_pa / 1e5, 2)),
        Units::Us => {
            let psi = in_unit(Kind::Pressure, gauge_pa, "psi").unwrap_or(f64::NAN);
            format!("{}\u{a0}psi", decimal(psi, 1))
        }
    }
}

/// The pressures that matter: least and greatest while it runs, and the panels' outlet, which boils first.
pub(super) fn told(facts: &Facts) -> Vec<String> {
    let least =
        facts.pressures.iter().min_by(|one, other| one.running_pa.total_cmp(&other.running_pa));
    let most =
        facts.pressures.iter().max_by(|one, other| one.running_pa.total_cmp(&other.running_pa));
    let outlet = facts.pressures.iter().find(|pressure| pressure.point == "panel outlet");
    let mut shown: Vec<&Pressure> = Vec::new();
    for pressure in [least, outlet, most].into_iter().flatten() {
        if !shown.iter().any(|other| other.point == pressure.point) {
            shown.push(pressure);
        }
    }
    let mut lines: Vec<String> = Vec::new();
    if !shown.is_empty() {
        lines.push("Pressure on a gauge, standing and running:".to_owned());
    }
    for pressure in shown {
        lines.push(format!(
            "{}: {}, {}",
            pressure.point,
            bar_words(pressure.resting_pa, facts.units),
            bar_words(pressure.running_pa, facts.units)
        ));
    }
    if !facts.assumed.is_empty() {
        lines.push("* height assumed: the design does not give it".to_owned());
    }
    lines
}

pub(super) fn describe(facts: &Facts, plan: &Plan) -> String {
    let over = |height_m: f64| height_words(height_m - plan.lowest_m, facts.units);
    format!(
        "Over the lowest part: the panel from {} to {}, the store\u{2019}s base at {}, the highest \
         point of the circuit at {}. Flow pipe brown and broad, return pipe blue and narrow.",
        over(facts.panel.bottom_m),
        over(facts.panel.top_m),
        over(0.0),
        over(facts.highest_m)
    )
}

pub(super) fn table(facts: &Facts) -> Table {
    let mut table = Table::new(
        "Heights and pressures of the circuit",
        &["what", "over the store\u{2019}s base", "standing", "running"],
    );
    let note = |height| match mark(facts, height) {
        "" => "",
        _ => " (assumed)",
    };
    let mut height = |what: &str, note: &str, metres: f64| {
        table.row([
            format!("{what}{note}"),
            height_words(metres, facts.units),
            String::new(),
            String::new(),
        ]);
    };
    height("panel, lower end", note(Height::PanelBottom), facts.panel.bottom_m);
    height("panel, upper end", "", facts.panel.top_m);
    height("highest point", note(Height::Highest), facts.highest_m);
    if let Holding::Tank { level_m } = facts.holding {
        height("header tank, cold level", note(Height::Level), level_m);
    }
    if let Some(pump) = facts.pump {
        height("pump", note(Height::Pump), pump.height_m);
    }
    height("coil, highest turn", "", facts.coil.top_m);
    height("coil, lowest turn", "", facts.coil.bottom_m);
    height("store\u{2019}s outlet", "", facts.outlet_m);
    for pressure in facts.pressures {
        table.row([
            format!("pressure, {}", pressure.point),
            height_words(pressure.height_m, facts.units),
            bar_words(pressure.resting_pa, facts.units),
            bar_words(pressure.running_pa, facts.units),
        ]);
    }
    table
}
