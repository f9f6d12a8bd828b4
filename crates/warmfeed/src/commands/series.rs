//! `year --out`: months, hours and chosen minutes as CSV.

use std::io::Write;
use std::path::Path;

use anyhow::Result;
use physics::ZERO_CELSIUS_K;
use physics::climate::{HOURS_PER_YEAR, MONTH_STARTS_DAY, month_of_day};
use sheets::page::Picture;
use year::{Channel, MINUTES_PER_YEAR, Recorder};

use crate::arguments::{ChannelWord, Year};
use crate::files::{self, Batch};
use crate::pictures;
use crate::wire::YearWire;

/// Which series are to be recorded and written.
pub struct Wanted {
    hours: bool,
    minutes: Vec<Channel>,
}

impl Wanted {
    /// As asked for on the command line.
    pub fn of(asked: &Year) -> Self {
        let mut minutes = Vec::new();
        for channel in asked.minutes.iter().map(|&word| channel(word)) {
            // Asked for twice, it still is one column.
            if !minutes.contains(&channel) {
                minutes.push(channel);
            }
        }
        Wanted { hours: asked.out.is_some(), minutes }
    }

    /// No series.
    pub fn nothing() -> Self {
        Wanted { hours: false, minutes: Vec::new() }
    }

    /// A recorder that holds what is wanted of a store in so many layers; the pictures want them all.
    pub fn recorder(&self, layers: usize) -> Recorder {
        if self.hours { Recorder::of(&Channel::shown(layers)) } else { Recorder::none() }
    }
}

/// Writes months.csv, hours.csv and, where minutes are wanted, minutes.csv: all of them or none.
/// Returns what was done, for people.
///
/// # Errors
/// Where one cannot be written, or the user interrupts; an earlier year's files then stay.
pub fn write(
    folder: &Path,
    wire: &YearWire,
    recorder: &Recorder,
    wanted: &Wanted,
    pictures: &[Picture],
) -> Result<String> {
    let mut batch = Batch::default();
    batch.write(&folder.join(MONTHS), |writer| months(writer, wire))?;
    batch.write(&folder.join(HOURS), |writer| hours(writer, recorder))?;
    let with_minutes = !wanted.minutes.is_empty();
    if with_minutes {
        batch.write(&folder.join(MINUTES), |writer| minutes(writer, recorder, &wanted.minutes))?;
    }
    pictures::write(&mut batch, folder, &wire.title, pictures)?;
    let older = !with_minutes && files::exists(&folder.join(MINUTES));
    batch.put_in_place()?;
    let place = folder.display();
    let shown = format!("its pictures ({})", pictures::PAGE);
    Ok(match (with_minutes, older) {
        (true, _) => format!("Wrote {MONTHS}, {HOURS}, {MINUTES} and {shown} in `{place}`."),
        (false, false) => format!("Wrote {MONTHS}, {HOURS} and {shown} in `{place}`."),
        (false, true) => {
            format!(
                "Wrote {MONTHS}, {HOURS} and {shown} in `{place}`; its {MINUTES} is of an earlier run."
            )
        }
    })
}

const MONTHS: &str = "months.csv";
const HOURS: &str = "hours.csv";
const MINUTES: &str = "minutes.csv";

/// The months and the year, their columns in the order of the heat as in the document.
fn months(writer: &mut dyn Write, wire: &YearWire) -> Result<()> {
    let all = wire.months.iter().chain(std::iter::once(&wire.year));
    for (place, month) in all.enumerate() {
        let head = place == 0;
        let mut rows = csv::WriterBuilder::new().has_headers(head).from_writer(Vec::new());
        rows.serialize(month)?;
        let rows = String::from_utf8(rows.into_inner().map_err(|error| error.into_error())?)?;
        let name = if place < 12 { (place + 1).to_string() } else { "year".to_owned() };
        for (line, row) in rows.lines().enumerate() {
            let first = if head && line == 0 { "month" } else { &name };
            writeln!(writer, "{first},{row}")?;
        }
    }
    Ok(())
}

fn hours(writer: &mut dyn Write, recorder: &Recorder) -> Result<()> {
    let mut csv = csv::Writer::from_writer(writer);
    // What only pictures show has no column.
    let series: Vec<_> =
        recorder.channels().filter(|(channel, _)| Channel::ALL.contains(channel)).collect();
    csv.write_record(
        std::iter::once("hour_starting").chain(series.iter().map(|(channel, _)| column(*channel))),
    )?;
    for hour in 0..HOURS_PER_YEAR {
        let cells = series.iter().map(|(channel, values)| {
            let minutes = &values[hour * 60..hour * 60 + 60];
            let sum: f64 = minutes.iter().map(|&value| f64::from(value)).sum();
            let value = match channel {
                Channel::Draw | Channel::Discharge => sum,
                _ => sum / 60.0,
            };
            cell(*channel, value)
        });
        csv.write_record(std::iter::once(stamp(hour * 60)).chain(cells))?;
    }
    Ok(csv.flush()?)
}

fn minutes(writer: &mut dyn Write, recorder: &Recorder, chosen: &[Channel]) -> Result<()> {
    let mut csv = csv::Writer::from_writer(writer);
    let series: Vec<_> = chosen
        .iter()
        .filter_map(|&channel| recorder.series(channel).map(|values| (channel, values)))
        .collect();
    csv.write_record(
        std::iter::once("minute_starting")
            .chain(series.iter().map(|(channel, _)| column(*channel))),
    )?;
    for minute in 0..MINUTES_PER_YEAR {
        let cells =
            series.iter().map(|(channel, values)| cell(*channel, f64::from(values[minute])));
        csv.write_record(std::iter::once(stamp(minute)).chain(cells))?;
    }
    Ok(csv.flush()?)
}

/// Month, day and clock of a minute of the year, standard time. The year has no number: a typical
/// year is made of months of many.
fn stamp(minute: usize) -> String {
    let day = minute / 1440;
    let month = month_of_day(day);
    format!(
        "{:02}-{:02} {:02}:{:02}",
        month + 1,
        day - MONTH_STARTS_DAY[month] + 1,
        minute % 1440 / 60,
        minute % 60
    )
}

fn cell(channel: Channel, value: f64) -> String {
    match channel {
        Channel::Plate
        | Channel::PlateColdest
        | Channel::PanelOut
        | Channel::StoreTop
        | Channel::StoreMean
        | Channel::StoreBottom
        | Channel::Loft
        | Channel::StoreLayer(_) => format!("{:.2}", value - ZERO_CELSIUS_K),
        Channel::Flow => format!("{value:.5}"),
        _ => format!("{value:.3}"),
    }
}

/// The column's key, its unit in it: the words of the document's keys.
fn column(channel: Channel) -> &'static str {
    match channel {
        Channel::Absorbed => "absorbed_w_m2",
        Channel::Plate => "plate_c",
        Channel::PlateColdest => "plate_coldest_c",
        Channel::PanelOut => "panel_out_c",
        Channel::CoilHeat => "coil_heat_w",
        Channel::Flow => "flow_kg_s",
        Channel::Pump => "pump_share",
        Channel::StoreTop => "store_top_c",
        Channel::StoreMean => "store_mean_c",
        Channel::StoreBottom => "store_bottom_c",
        Channel::Loft => "loft_c",
        Channel::Draw => "drawn_l",
        Channel::Discharge => "dumped_l",
        Channel::StoreLayer(_) => "store_layer_c",
        Channel::DrawHeat => "drawn_heat_j",
    }
}

/// The channel of a word.
pub fn channel(word: ChannelWord) -> Channel {
    match word {
        ChannelWord::Absorbed => Channel::Absorbed,
        ChannelWord::Sheet => Channel::Plate,
        ChannelWord::PanelOut => Channel::PanelOut,
        ChannelWord::CoilHeat => Channel::CoilHeat,
        ChannelWord::Flow => Channel::Flow,
        ChannelWord::Pump => Channel::Pump,
        ChannelWord::StoreTop => Channel::StoreTop,
        ChannelWord::StoreMean => Channel::StoreMean,
        ChannelWord::StoreBottom => Channel::StoreBottom,
        ChannelWord::Loft => Channel::Loft,
        ChannelWord::Drawn => Channel::Draw,
        ChannelWord::Discharge => Channel::Discharge,
    }
}
