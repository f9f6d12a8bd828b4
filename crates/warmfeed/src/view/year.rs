//! A year on a terminal.

use design::MONTHS;
use design::quantity::{Kind, Units, in_unit};
use physics::climate::{MONTH_STARTS_DAY, month_of_day};

use super::table::{Align, Table};
use super::text::broken;
use year::ledger::KWH_J;

use crate::wire::{CloudsWire, EventWire, MonthWire, YearWire};

/// Which units stand in the columns.
struct Rulers {
    heat: &'static str,
    sun: &'static str,
    temperature: &'static str,
    volume: &'static str,
    units: Units,
}

impl Rulers {
    fn of(units: Units) -> Rulers {
        let [heat, sun, temperature, volume] = match units {
            Units::Metric => ["kWh", "kWh/m2", "C", "l"],
            Units::Us => ["kBTU", "kBTU/ft2", "F", "US gal"],
        };
        Rulers { heat, sun, temperature, volume, units }
    }

    /// Heat given in kilowatt-hours, in the column's unit.
    fn heat(&self, kwh: f64) -> f64 {
        match self.units {
            Units::Metric => kwh,
            Units::Us => number(Kind::Energy, kwh * KWH_J, "BTU") / 1000.0,
        }
    }

    fn heat_text(&self, kwh: f64) -> String {
        format!("{} {}", whole(self.heat(kwh)), self.heat)
    }

    /// Irradiation given in kilowatt-hours a square metre.
    fn sun(&self, kwh_m2: f64) -> f64 {
        match self.units {
            Units::Metric => kwh_m2,
            Units::Us => self.heat(kwh_m2) / number(Kind::Area, 1.0, "ft2"),
        }
    }

    fn temperature_text(&self, celsius: f64) -> String {
        let kelvin = celsius + physics::ZERO_CELSIUS_K;
        format!(
            "{} {}",
            whole(number(Kind::Temperature, kelvin, self.temperature)),
            self.temperature
        )
    }

    fn volume_text(&self, litres: f64) -> String {
        format!("{} {}", whole(number(Kind::Volume, litres / 1000.0, self.volume)), self.volume)
    }
}

/// A value in a unit this page names itself.
fn number(kind: Kind, si: f64, unit: &str) -> f64 {
    in_unit(kind, si, unit).expect("the units of this page are among those the design file reads")
}

/// What stands above a year: the build's title and its own two sentences, which may be empty.
pub fn year_head(title: &str, story: &str) -> String {
    let mut text = format!("{title}\n");
    if !story.is_empty() {
        for line in broken(story, 88) {
            text.push_str(&format!("  {line}\n"));
        }
    }
    text.push('\n');
    text
}

/// A year as a page of text, readable without colour.
pub fn year(wire: &YearWire, units: Units) -> String {
    let rulers = Rulers::of(units);
    let mut text = place(wire);
    text.push('\n');
    text.push_str(&headline(wire, &rulers));
    text.push('\n');
    text.push_str(&months(wire, &rulers));
    text.push('\n');
    text.push_str(&way_of_the_heat(&wire.year, &rulers));
    text.push('\n');
    text.push_str(&extremes(wire, &rulers));
    text.push('\n');
    text
}

fn place(wire: &YearWire) -> String {
    let climate = &wire.climate;
    let side = |degrees: f64, positive: char, negative: char| {
        let letter = if degrees < 0.0 { negative } else { positive };
        format!("{:.2} {letter}", degrees.abs())
    };
    format!(
        "Weather  {}, {}, {}\n         {}, {} rows of the year\n         {}\n",
        climate.name,
        side(climate.latitude_deg, 'N', 'S'),
        side(climate.longitude_deg, 'E', 'W'),
        climate.source,
        climate.kind,
        match wire.clouds {
            CloudsWire::Smooth =>
                "the sun shines evenly through each hour; passing clouds would change the pump's starts",
            CloudsWire::Minutes =>
                "clouds drawn by lot pass minute by minute, and pump starts are counted under them",
        }
    )
}

fn headline(wire: &YearWire, rulers: &Rulers) -> String {
    let year = &wire.year;
    let mut text = format!(
        "It spares the heater {} a year: {} of the {} it gives without a panel.\n",
        rulers.heat_text(year.spared_heat_kwh),
        percent(year.share),
        rulers.heat_text(year.twin_topup_heat_kwh),
    );
    let bracket = &wire.bracket;
    text.push_str(&format!(
        "Were the store fully mixed it would be {}; were nothing mixed by falling cold, {}.\n",
        rulers.heat_text(bracket.mixed_kwh),
        rulers.heat_text(bracket.unmixed_kwh),
    ));
    text
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
        ("pump\nhours", Align::Right),
        ("starts", Align::Right),
    ]);
    for (name, month) in MONTHS.iter().zip(&wire.months) {
        table.row(month_row(name, month, rulers));
    }
    table.row(month_row("Year", &wire.year, rulers));
    table.text("")
}

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
        whole(month.pump_hours),
        month.pump_starts.to_string(),
    ]
}

/// The heat's path, station by station.
fn way_of_the_heat(year: &MonthWire, rulers: &Rulers) -> String {
    let mut table =
        Table::new(&[("Station", Align::Left), (rulers.heat, Align::Right), ("", Align::Left)]);
    let mut row = |station: &str, kwh: f64, words: &str| {
        table.row(vec![station.to_owned(), whole(rulers.heat(kwh)), words.to_owned()]);
    };
    row("sun", year.plane_irradiation_kwh, "falls on the sheets");
    row("panel", year.absorbed_kwh, "is taken up");
    row("", year.panel_heat_kwh, "goes into the fluid");
    row("circuit", year.circuit_loss_kwh, "is lost by the pipes");
    row("", year.coil_heat_kwh, "passes through the coil");
    row("store", year.store_loss_kwh, "is lost to the loft (below 0: the loft warms the store)");
    row("", year.evaporation_kwh, "leaves as vapour at the lid");
    row("", year.dumped_kwh, "is let go by the overheat discharge");
    row("tap", year.tap_heat_kwh, "leaves the store with drawn water");
    row("", year.twin_tap_heat_kwh, "would do so without a panel: the loft's own warmth");
    if year.other_heat_kwh != 0.0 {
        row(
            "",
            year.other_heat_kwh,
            "leaves it with what else the cistern feeds: it spares nothing",
        );
    }
    row("", year.need_heat_kwh, "is wanted at the tap");
    row("", year.topup_heat_kwh, "is given by the heater");
    if year.unmet_heat_kwh > 0.0 {
        row("", year.unmet_heat_kwh, "it would not give, its water being too warm for it: unmet");
    }
    table.text("")
}

fn extremes(wire: &YearWire, rulers: &Rulers) -> String {
    let year = &wire.year;
    let mut table = Table::new(&[("", Align::Left), ("", Align::Left)]);
    let mut row = |what: &str, words: String| table.row(vec![what.to_owned(), words]);
    row(
        "Pump",
        format!(
            "{} h, {} starts, {} of electricity",
            whole(year.pump_hours),
            year.pump_starts,
            rulers.heat_text(year.pump_kwh)
        ),
    );
    if year.frost_hours > 0.0 {
        row(
            "",
            format!(
                "{} h of it against frost alone, with the store's heat",
                whole(year.frost_hours)
            ),
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
        row("First time", event_words(event));
    }
    row("Balance", balance_words(wire.balance.residual_share));
    let text = table.text("");
    text.trim_start_matches('\n').to_owned()
}

fn balance_words(residual_share: f64) -> String {
    if residual_share < 1e-9 {
        "stored and crossed heat agree to a billionth of the panel heat".to_owned()
    } else {
        format!("stored and crossed heat are {residual_share:.1e} of the panel heat apart")
    }
}

fn event_words(event: &EventWire) -> String {
    use crate::wire::EventKindWire as Kind;
    let what = match event.what {
        Kind::PumpStarted => "the pump ran",
        Kind::StoreFull => "the store came to its limit",
        Kind::PanelTooHot => "the panel was so hot that the pump stopped",
        Kind::FrostCalled => "frost called for the pump",
        Kind::Discharged => "the overheat discharge opened",
        Kind::CircuitAbove100C => "the fluid in the pipes passed 100 C: it may boil",
        Kind::StoreAbove60C => "the store's top passed 60 C: it scalds",
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

/// What must be said wherever a year is shown.
pub const CAUTIONS: &str = "\
Caution  Water kept between 20 and 45 C grows bacteria: all of it must reach and hold 60 C in the
         heater before anyone showers in it, and a warmed cistern must feed nothing but the heater.
         Water from a store in the sun can scald: a mixing valve belongs before the taps. A dry
         panel passes 120 C. Wiring, gas and work on the roof are for licensed trades; your water
         supplier and local codes decide what may be built.
";

fn whole(value: f64) -> String {
    let rounded = value.round();
    // A loss that rounds to nothing is nothing, not minus nothing.
    format!("{}", if rounded == 0.0 { 0.0 } else { rounded })
}

fn percent(share: f64) -> String {
    format!("{} %", whole(share * 100.0))
}
