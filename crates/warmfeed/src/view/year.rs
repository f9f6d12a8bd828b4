//! A year on a terminal.

use design::MONTHS;
use physics::climate::{MONTH_STARTS_DAY, month_of_day};

use super::Paper;
use super::cautions::scald;
use super::circuit::circuit;
use super::rulers::{Rulers, percent, whole};
use super::sure::{headline_band, heat_range};
use super::table::{Align, Table};
use super::text::{broken, hanging};

use crate::wire::{CloudsWire, EventWire, MonthWire, MovedBy, YearWire};

/// What stands above a year: the build's title and its own two sentences, which may be empty.
pub fn year_head(title: &str, story: &str, paper: Paper) -> String {
    let mut text = broken(title, paper.prose_width()).join("\n") + "\n";
    if !story.is_empty() {
        for line in broken(story, paper.prose_width().min(90) - 2) {
            text.push_str(&format!("  {line}\n"));
        }
    }
    text.push('\n');
    text
}

/// A year as a page of text, readable without colour.
pub fn year(wire: &YearWire, paper: Paper) -> String {
    let rulers = Rulers::of(paper.units);
    let mut text = place(wire, paper);
    text.push('\n');
    text.push_str(&headline(wire, &rulers, paper));
    text.push('\n');
    text.push_str(&months(wire, &rulers));
    text.push('\n');
    text.push_str(&way_of_the_heat(wire, &rulers));
    text.push('\n');
    text.push_str(&extremes(wire, &rulers, paper));
    text.push('\n');
    if let Some(round) = &wire.circuit {
        text.push_str(&circuit(round, paper));
        text.push('\n');
    }
    text
}

fn place(wire: &YearWire, paper: Paper) -> String {
    let climate = &wire.climate;
    let side = |degrees: f64, positive: char, negative: char| {
        let letter = if degrees < 0.0 { negative } else { positive };
        format!("{:.2} {letter}", degrees.abs())
    };
    let width = paper.prose_width();
    let name = format!(
        "{}, {}, {}",
        climate.name,
        side(climate.latitude_deg, 'N', 'S'),
        side(climate.longitude_deg, 'E', 'W')
    );
    let source = match climate.kind.as_str() {
        "monthly" => climate.source.clone(),
        _ => format!("{}, hourly rows of the year", climate.source),
    };
    let clouds = match wire.clouds {
        CloudsWire::Smooth if by_weight(wire) => "the sun shines evenly through each hour",
        CloudsWire::Minutes if by_weight(wire) => "clouds drawn by lot pass minute by minute",
        CloudsWire::Smooth => {
            "the sun shines evenly through each hour; passing clouds would change the pump's starts"
        }
        CloudsWire::Minutes => {
            "clouds drawn by lot pass minute by minute, and pump starts are counted under them"
        }
    };
    hanging("Weather", 9, &name, width)
        + &hanging("", 9, &source, width)
        + &hanging("", 9, clouds, width)
}

fn headline(wire: &YearWire, rulers: &Rulers, paper: Paper) -> String {
    let (year, bracket) = (&wire.year, &wire.bracket);
    let mut sentences = vec![format!(
        "It spares the heater {} a year: {} of the {} it gives without a panel.",
        rulers.heat_text(year.spared_heat_kwh),
        percent(year.share),
        rulers.heat_text(year.twin_topup_heat_kwh),
    )];
    sentences.extend(wire.band.as_ref().map(|band| headline_band(band, rulers)));
    sentences.push(format!(
        "Were the store fully mixed it would be {}; were nothing mixed by falling cold, {}.",
        rulers.heat_text(bracket.mixed_kwh),
        rulers.heat_text(bracket.unmixed_kwh),
    ));
    if bracket.mixed_kwh > bracket.unmixed_kwh {
        sentences.push(
            "Mixing helps here, as it does where the outlet lies low and what is warm stays above it."
                .to_owned(),
        );
    }
    sentences.iter().map(|words| hanging("", 0, words, paper.prose_width())).collect()
}

fn months(wire: &YearWire, rulers: &Rulers) -> String {
    let heat = rulers.heat;
    let head = |words: &str| format!("{words}\n{heat}");
    let sun = format!("sun on plane\n{}", rulers.sun);
    let (panel, coil, top_up, twin, spared) = (
        head("panel heat"),
        head("coil heat"),
        head("top-up"),
        head("twin's top-up"),
        head("spared"),
    );
    let mut table = Table::new(&[
        ("", Align::Left),
        (&sun, Align::Right),
        (&panel, Align::Right),
        (&coil, Align::Right),
        (&top_up, Align::Right),
        (&twin, Align::Right),
        (&spared, Align::Right),
        ("share", Align::Right),
        (if by_weight(wire) { "runs\nhours" } else { "pump\nhours" }, Align::Right),
        (if by_weight(wire) { "backwards\nhours" } else { "starts" }, Align::Right),
    ]);
    let mut row = |name: &str, month: &MonthWire| {
        let mut cells = month_row(name, month, rulers);
        cells.extend(if by_weight(wire) {
            [whole(month.gravity_hours), whole(month.reverse_hours)]
        } else {
            [whole(month.pump_hours), month.pump_starts.to_string()]
        });
        table.row(cells);
    };
    for (name, month) in MONTHS.iter().zip(&wire.months) {
        row(name, month);
    }
    row("Year", &wire.year);
    table.text("")
}

/// True for a circuit without a pump.
fn by_weight(wire: &YearWire) -> bool {
    wire.circuit.as_ref().is_some_and(|circuit| circuit.moved_by == MovedBy::Weight)
}

/// All but what moved the fluid.
fn month_row(name: &str, month: &MonthWire, rulers: &Rulers) -> Vec<String> {
    vec![
        name.to_owned(),
        whole(rulers.sun(month.plane_irradiation_kwh_m2)),
        whole(rulers.heat(month.panel_heat_kwh)),
        whole(rulers.heat(month.coil_heat_kwh)),
        whole(rulers.heat(month.topup_heat_kwh)),
        whole(rulers.heat(month.twin_topup_heat_kwh)),
        whole(rulers.heat(month.spared_heat_kwh)),
        percent(month.share),
    ]
}

/// The heat's path, station by station.
fn way_of_the_heat(wire: &YearWire, rulers: &Rulers) -> String {
    let year = &wire.year;
    let mut columns = vec![("Station", Align::Left), (rulers.heat, Align::Right)];
    if wire.bands.is_some() {
        columns.push(("8 in 10 lie in", Align::Right));
    }
    columns.push(("", Align::Left));
    let mut table = Table::new(&columns);
    let mut row = |station: &str, kwh: f64, key: &str, words: &str| {
        let mut cells = vec![station.to_owned(), whole(rulers.heat(kwh))];
        if let Some(bands) = &wire.bands {
            cells.push(bands.get(key).map_or_else(String::new, |band| heat_range(band, rulers)));
        }
        cells.push(words.to_owned());
        table.row(cells);
    };
    row("sun", year.plane_irradiation_kwh, "plane_irradiation_kwh", "falls on the sheets");
    row("panel", year.absorbed_kwh, "absorbed_kwh", "is taken up");
    row("", year.panel_loss_kwh, "panel_loss_kwh", "is lost by the panel to air, sky and house");
    row("", year.panel_heat_kwh, "panel_heat_kwh", "goes into the fluid");
    row("circuit", year.circuit_loss_kwh, "circuit_loss_kwh", "is lost by the pipes");
    row("", year.coil_heat_kwh, "coil_heat_kwh", "passes through the coil");
    row(
        "store",
        year.store_loss_kwh,
        "store_loss_kwh",
        "is lost to the loft (below 0: the loft warms the store)",
    );
    row("", year.evaporation_kwh, "evaporation_kwh", "leaves as vapour at the lid");
    row("", year.dumped_kwh, "dumped_kwh", "is let go by the overheat discharge");
    row("tap", year.tap_heat_kwh, "tap_heat_kwh", "leaves the store with drawn water");
    row(
        "",
        year.twin_tap_heat_kwh,
        "twin_tap_heat_kwh",
        "would do so without a panel: the loft's own warmth",
    );
    if year.other_heat_kwh != 0.0 {
        row(
            "",
            year.other_heat_kwh,
            "other_heat_kwh",
            "leaves it with what else the cistern feeds: it spares nothing",
        );
    }
    row("", year.need_heat_kwh, "need_heat_kwh", "is wanted at the tap");
    row("", year.topup_heat_kwh, "topup_heat_kwh", "is given by the heater");
    if year.heater_loss_kwh > 0.0 {
        row(
            "",
            year.heater_loss_kwh,
            "heater_loss_kwh",
            "of it is lost by the heater while it stands",
        );
    }
    if year.unmet_heat_kwh > 0.0 {
        row(
            "",
            year.unmet_heat_kwh,
            "unmet_heat_kwh",
            "it would not give, its water being too warm for it: unmet",
        );
    }
    table.text("")
}

fn extremes(wire: &YearWire, rulers: &Rulers, paper: Paper) -> String {
    let year = &wire.year;
    let mut table = Table::new(&[("", Align::Left), ("", Align::Left)]);
    let mut row = |what: &str, words: String| table.row(vec![what.to_owned(), words]);
    // Electricity is sold by the kilowatt-hour everywhere.
    let run =
        year.pump_run_min.map(|run_min| format!("{} min a run on the mean, ", whole(run_min)));
    if !by_weight(wire) {
        row(
            "Pump",
            format!(
                "{} h, {} starts, {}{} kWh of electricity",
                whole(year.pump_hours),
                year.pump_starts,
                run.unwrap_or_default(),
                whole(year.pump_kwh)
            ),
        );
    }
    if year.gravity_hours > 0.0 {
        row(
            "Weight",
            format!(
                "alone ran the fluid for {} h and brought the store {}",
                whole(year.gravity_hours),
                rulers.heat_text(year.gravity_heat_kwh)
            ),
        );
    }
    if year.reverse_hours > 0.0 {
        row(
            if year.gravity_hours > 0.0 { "" } else { "Weight" },
            format!(
                "ran it backwards for {} h and took {} out of the store: what a check valve holds",
                whole(year.reverse_hours),
                rulers.heat_text(year.reverse_heat_kwh)
            ),
        );
    }
    if year.frost_hours > 0.0 {
        row(
            "",
            format!(
                "{} h of it against frost alone, with the store's heat",
                whole(year.frost_hours)
            ),
        );
    }
    if year.pump_hunts() {
        row(
            "",
            "it hunts, in many short runs: less flow, or more between the differences that switch it \
             on and off, makes them longer"
                .to_owned(),
        );
    }
    if let (Some(plate_c), Some(circuit_c)) = (year.plate_max_c, year.circuit_max_c) {
        row(
            "Hottest",
            format!(
                "sheet {}, circuit {}, store {}",
                rulers.temperature_text(plate_c),
                rulers.temperature_text(circuit_c),
                rulers.temperature_text(year.store_max_c)
            ),
        );
    } else {
        row("Hottest", format!("store {}", rulers.temperature_text(year.store_max_c)));
    }
    if let Some(words) = scald(year.store_max_c, rulers) {
        row("Scald", words);
    }
    row(
        "Store",
        format!(
            "{} on the mean; {} h of the year between {} and {}, where bacteria grow",
            rulers.temperature_text(year.store_mean_c),
            whole(year.hours_store_20_45_c),
            rulers.temperature_text(20.0),
            rulers.temperature_text(45.0)
        ),
    );
    row("Water", format!("{} drawn", rulers.volume_text(year.drawn_l)));
    if year.other_l > 0.0 {
        row("", format!("{} to what else the cistern feeds", rulers.volume_text(year.other_l)));
    }
    if let (Some(above_25), Some(above_20)) =
        (year.hours_cold_tap_above_25_c, year.hours_cold_tap_above_20_c)
    {
        row(
            "Cold taps",
            format!(
                "{} h of the year above {}, the limit for cold water; {} h above {}, that of Scotland \
                 and Northern Ireland",
                whole(above_25),
                rulers.temperature_text(25.0),
                whole(above_20),
                rulers.temperature_text(20.0)
            ),
        );
    }
    if year.dumped_l > 0.0 {
        row("", format!("{} let go by the overheat discharge", rulers.volume_text(year.dumped_l)));
    }
    for event in &wire.events {
        row("First time", event_words(event, rulers));
    }
    row("Balance", balance_words(wire.balance.residual_share));
    let text = table.folded(paper.width);
    text.trim_start_matches('\n').to_owned()
}

fn balance_words(residual_share: f64) -> String {
    if residual_share < 1e-9 {
        "stored and crossed heat agree to a billionth of the panel heat".to_owned()
    } else {
        format!("stored and crossed heat are {residual_share:.1e} of the panel heat apart")
    }
}

fn event_words(event: &EventWire, rulers: &Rulers) -> String {
    use crate::wire::EventKindWire as Kind;
    let what = match event.what {
        Kind::PumpStarted => "the pump ran".to_owned(),
        Kind::StoreFull => "the store came to its limit".to_owned(),
        Kind::PanelTooHot => "the panel was so hot that the pump stopped".to_owned(),
        Kind::FrostCalled => "frost called for the pump".to_owned(),
        Kind::Discharged => "the overheat discharge opened".to_owned(),
        Kind::CircuitAbove100C => {
            format!("the fluid in the pipes passed {}: it may boil", rulers.temperature_text(100.0))
        }
        Kind::StoreAbove60C => format!(
            "the store's top passed {}: it burns skin in seconds",
            rulers.temperature_text(60.0)
        ),
    };
    format!("{what}, {}", moment(event.minute))
}

/// A minute of the year as day and clock, standard time.
fn moment(minute: usize) -> String {
    let day = minute / 1440;
    let month = month_of_day(day);
    format!(
        "{} {} {:02}:{:02}",
        day - MONTH_STARTS_DAY[month] + 1,
        MONTHS[month],
        minute % 1440 / 60,
        minute % 60
    )
}
