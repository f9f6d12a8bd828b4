//! How sure a year is, on a terminal.

use design::value::in_units;

use super::Paper;
use super::rulers::{Rulers, percent, whole};
use super::table::{Align, Table};
use super::text::hanging;
use crate::wire::{BandWire, BesideWire, NextWire, RangeWire, YearWire};

/// The band in the headline's sentence.
pub(super) fn headline_band(band: &BandWire, rulers: &Rulers) -> String {
    format!(
        "Eight chances in ten that it lies between {} and {}, and as likely above {} as below; why stands \
         further down.",
        whole(rulers.heat(band.low)),
        rulers.heat_text(band.high),
        whole(rulers.heat(band.middle)),
    )
}

/// A range of heat in a column.
pub(super) fn heat_range(range: &RangeWire, rulers: &Rulers) -> String {
    between(whole(rulers.heat(range.low)), whole(rulers.heat(range.high)))
}

fn between(low: String, high: String) -> String {
    if low == high { low } else { format!("{low} to {high}") }
}

/// Everything on how sure the year is; empty where it was not asked.
pub fn sure(wire: &YearWire, paper: Paper) -> String {
    let rulers = Rulers::of(paper.units);
    let mut text = String::new();
    if let Some(band) = &wire.band {
        text.push_str(&makers(band, wire.year.spared_heat_kwh, &rulers, paper));
        text.push('\n');
        text.push_str(&others(wire, &rulers));
        text.push('\n');
    }
    if let Some(beside) = &wire.beside {
        text.push_str(&against(beside, &rulers, paper));
        text.push('\n');
    }
    if let Some(next) = &wire.next {
        text.push_str(&steps(next, &rulers, paper));
        text.push('\n');
    }
    text
}

fn makers(band: &BandWire, spared_kwh: f64, rulers: &Rulers, paper: Paper) -> String {
    let width = paper.prose_width();
    let mut table = Table::new(&[
        ("What makes the band of spared heat wide", Align::Left),
        ("part of it", Align::Right),
    ]);
    for maker in &band.makers {
        table.row(vec![maker.name.clone(), percent(maker.share)]);
    }
    let mut text = table.text("");
    let weather = &band.weather_alone;
    text.push_str(&hanging(
        "",
        0,
        &format!(
            "The weather alone: eight years in ten lie between {} and {}. The rest does not even out \
             over the years: it stays as long as the build does.",
            whole(rulers.heat(weather.low)),
            rulers.heat_text(weather.high)
        ),
        width,
    ));
    if let Some(narrowing) = &band.narrowing {
        text.push_str(&hanging(
            "",
            0,
            &format!(
                "Most would be gained by measuring {}: {}. Known exactly, the band would be {} \
                 narrower, about {} to {}.",
                narrowing.place,
                narrowing.how,
                percent(narrowing.narrower_by),
                whole(rulers.heat(narrowing.low)),
                rulers.heat_text(narrowing.high)
            ),
            width,
        ));
    }
    if spared_kwh > band.middle {
        text.push_str(&hanging(
            "",
            0,
            "More can go wrong than right: a jacket fits worse than drawn, dirt takes light and gives none. So \
             a year as drawn lies above the middle of its band.",
            width,
        ));
    }
    let how = match band.way.as_str() {
        "drawn" => format!("{} years with everything unknown at once", band.years),
        _ => format!("{} years with one thing changed in each", band.years),
    };
    text.push_str(&hanging("", 0, &format!("From {how}."), width));
    text
}

/// Figures that the other tables give without their bands.
fn others(wire: &YearWire, rulers: &Rulers) -> String {
    let Some(bands) = &wire.bands else { return String::new() };
    let mut table = Table::new(&[("", Align::Left), ("8 in 10 lie between", Align::Left)]);
    let mut row = |key: &str, words: &str, shown: &dyn Fn(f64) -> String, unit: &str| {
        if let Some(range) = bands.get(key) {
            let text = between(shown(range.low), shown(range.high));
            table.row(vec![words.to_owned(), format!("{text}{unit}")]);
        }
    };
    let of_hundred = |share: f64| whole(100.0 * share);
    row("share", "share of the heater's work", &of_hundred, " %");
    row("pump_hours", "pump hours", &whole, "");
    row("pump_starts", "pump starts", &whole, "");
    row("pump_kwh", "pump electricity", &whole, " kWh");
    let degrees = |celsius: f64| rulers.temperature_text(celsius);
    row("plate_max_c", "hottest sheet of the year", &degrees, "");
    row("circuit_max_c", "hottest fluid in the pipes", &degrees, "");
    row("store_max_c", "hottest water in the store", &degrees, "");
    row("store_mean_c", "mean of the store", &degrees, "");
    row("hours_store_20_45_c", "hours in which bacteria grow", &whole, "");
    let litres = |litres: f64| rulers.volume_text(litres);
    row("drawn_l", "water drawn", &litres, "");
    table.text("")
}

fn against(beside: &BesideWire, rulers: &Rulers, paper: Paper) -> String {
    let size = rulers.heat_text(beside.difference_kwh.abs());
    let more = if beside.difference_kwh < 0.0 { "less" } else { "more" };
    let mut words = if beside.none {
        format!(
            "Against `{}` ({}) there is no difference: it spares {}, and what they part by is within \
             what a year trembles by.",
            beside.build,
            beside.title,
            rulers.heat_text(beside.spared_kwh)
        )
    } else {
        format!(
            "Against `{}` ({}), which spares {}, it spares {size} {more} a year.",
            beside.build,
            beside.title,
            rulers.heat_text(beside.spared_kwh)
        )
    };
    if let Some(climate) = &beside.other_climate {
        words.push_str(&format!(
            " It has other weather ({climate}), so that much of this is the climate's, and the \
             difference has no band."
        ));
    }
    if let Some(band) = beside.band.as_ref().filter(|_| !beside.none) {
        // What is less is told as less, with its own ends.
        let (near, far) =
            if band.high < 0.0 { (-band.high, -band.low) } else { (band.low, band.high) };
        words.push_str(&format!(
            " In the same years and with the same unknowns in both, eight chances in ten that the \
             difference lies between {} and {}.",
            whole(rulers.heat(near)),
            rulers.heat_text(far)
        ));
    }
    hanging("", 0, &words, paper.prose_width())
}

fn steps(next: &NextWire, rulers: &Rulers, paper: Paper) -> String {
    let head = format!("{} a year", rulers.heat);
    let mut table = Table::new(&[
        ("Next step", Align::Left),
        ("from", Align::Left),
        ("to", Align::Left),
        (&head, Align::Right),
    ]);
    for step in &next.steps {
        let shown = |text: &str| in_units(&step.place, text, paper.units);
        let worth =
            if step.none { "none".to_owned() } else { signed(rulers.heat(step.spared_kwh)) };
        table.row(vec![step.place.clone(), shown(&step.from), shown(&step.to), worth]);
    }
    let mut text = table.text("");
    let tolerance = rulers.heat(next.tolerance_kwh);
    let mut told = |words: &str| text.push_str(&hanging("", 0, words, paper.prose_width()));
    told(&format!(
        "Each step is taken alone, beside the twin that takes it too, and known to {tolerance:.2} {}: \
         less counts as none. Steps do not add up. Mind: none of them says that the parts stand the \
         heat or the weight. More heat kept in makes an idle panel hotter; weaker antifreeze freezes \
         earlier; a hotter store scalds and softens plastic; a cooler tap breeds bacteria; a higher \
         outlet leaves less water above it. A thicker back is judged too harshly (its rim counts as \
         hot as the sheet).",
        rulers.heat
    ));
    for refused in &next.refused {
        told(&format!("No step of `{}`: {}.", refused.place, refused.says.trim_end_matches('.')));
    }
    text
}

/// With its sign, to a tenth below ten.
fn signed(value: f64) -> String {
    let text = if value.abs() < 9.95 { format!("{value:+.1}") } else { format!("{value:+.0}") };
    text.replace('-', "\u{2212}")
}
