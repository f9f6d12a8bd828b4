//! The command line as typed.

use std::path::PathBuf;

use clap::error::ErrorKind;
use clap::{Args, Parser, Subcommand, ValueEnum};
use design::quantity::Units;

/// What was typed.
#[derive(Debug, Parser)]
#[command(
    name = "warmfeed",
    version,
    about = "Workshop tool for building your own solar water heating",
    long_about = "Workshop tool for building your own solar water heating: from a design file and a \
                  year of weather to the heat it spares.\n\nWithout a command it computes the first \
                  build of the sample job book and opens the page on a copy of it.",
    after_help = "Exit status: 0 done; 1 an input is unreadable or wrong; 2 wrong usage; 3 the \
                  computation could not be completed or its result not written; 130 interrupted."
)]
pub struct Arguments {
    /// What to do.
    #[command(subcommand)]
    pub command: Option<Command>,
}

/// The commands.
#[derive(Debug, Subcommand)]
pub enum Command {
    /// Open a job book as a page in the browser
    Open(Open),
    /// Start a job book (a folder) or a design file (a name ending in .toml)
    New(New),
    /// Say what is wrong or doubtful in a build, and what it assumes
    Check(Check),
    /// One panel by itself: how hot its parts get, its curve, flow and mass
    Panel(PanelAsked),
    /// Take a build through a year of weather, beside its twin without a panel
    Year(Year),
    /// Say what can go wrong with a build, each with its number, its limit and what would help
    Worry(WorryAsked),
    /// One quick calculation with its formula and source; alone, all there are
    Sum(Sum),
    /// Print the JSON Schema of a document or of the design file
    Schema(Schema),
}

/// `open`.
#[derive(Args, Debug)]
pub struct Open {
    /// The job book's folder, or one of its design files
    pub book: PathBuf,
    /// Port of this computer to serve at; 0 for any that is free
    #[arg(long, value_name = "NUMBER", default_value = "0")]
    pub port: u16,
    /// Print the address and open no browser
    #[arg(long)]
    pub no_browser: bool,
    /// Serve on the local network too, behind a pairing code: for a phone in the loft
    #[arg(long)]
    pub lan: bool,
}

/// `new`.
#[derive(Args, Debug)]
pub struct New {
    /// Folder of the new job book, or a new design file ending in .toml
    pub path: PathBuf,
}

/// `check`.
#[derive(Args, Debug)]
pub struct Check {
    /// The design file
    pub build: PathBuf,
    /// Print one JSON document
    #[arg(long)]
    pub json: bool,
    /// Units for reading; what is wrong is told in the design file's own, and so is JSON
    #[arg(long, value_enum, default_value = "metric")]
    pub units: UnitsWord,
}

/// `panel`.
#[derive(Args, Debug)]
pub struct PanelAsked {
    /// The design file
    pub build: PathBuf,
    /// Draw the sheet: hottest and coldest place, and what each stretch of another bond costs
    #[arg(long)]
    pub plate: bool,
    /// Write pictures into this folder: plate, box section, efficiency curve, pump
    #[arg(long, value_name = "DIR")]
    pub out: Option<PathBuf>,
    /// Print one JSON document
    #[arg(long)]
    pub json: bool,
    /// Units for reading; JSON keeps the units in its keys
    #[arg(long, value_enum, default_value = "metric")]
    pub units: UnitsWord,
}

/// `year`.
#[derive(Args, Debug)]
pub struct Year {
    /// The design file
    pub build: PathBuf,
    /// Print one JSON document
    #[arg(long)]
    pub json: bool,
    /// Units for reading; JSON and CSV keep the units in their keys, sources keep their own
    #[arg(long, value_enum, default_value = "metric")]
    pub units: UnitsWord,
    /// Tell what one practical step of each value would be worth in a year
    #[arg(long)]
    pub next: bool,
    /// Compare with another build in the same years and with the same unknowns
    #[arg(long, value_name = "BUILD")]
    pub beside: Option<PathBuf>,
    /// Leave the bands out: one year and no more, which is quicker
    #[arg(long)]
    pub no_band: bool,
    /// Draw so many whole years for the bands, everything unknown at once (16 to 10000), which is slower
    #[arg(long, value_name = "YEARS", value_parser = clap::value_parser!(u32).range(16..=10_000), conflicts_with = "no_band")]
    pub draws: Option<u32>,
    /// Which years and cases are drawn for the bands: the same number, the same ones
    #[arg(long, value_name = "NUMBER", default_value = "1")]
    pub seed: u32,
    /// Write months.csv, hours.csv and pictures into this folder
    #[arg(long, value_name = "DIR")]
    pub out: Option<PathBuf>,
    /// With --out: write minutes.csv with these, separated by commas
    #[arg(long, value_name = "NAMES", value_enum, value_delimiter = ',', requires = "out")]
    pub minutes: Vec<ChannelWord>,
}

/// `worry`.
#[derive(Args, Debug)]
pub struct WorryAsked {
    /// The design file
    pub build: PathBuf,
    /// Print one JSON document
    #[arg(long)]
    pub json: bool,
    /// Write worries.html into this folder: a document to print, with pictures and sources
    #[arg(long, value_name = "DIR")]
    pub out: Option<PathBuf>,
    /// Units for reading; JSON names the unit of each number
    #[arg(long, value_enum, default_value = "metric")]
    pub units: UnitsWord,
}

/// `sum`.
#[derive(Args, Debug)]
#[command(
    disable_help_flag = true,
    after_help = "Values carry their unit: `warmfeed sum tube outside=\"15 mm\" wall=\"0.7 mm\"`. \
                  `warmfeed sum NAME --help` explains a sum, with a worked example."
)]
pub struct Sum {
    /// Which sum; without one, all are listed
    pub name: Option<String>,
    /// What is given, each key once
    #[arg(value_name = "KEY=VALUE")]
    pub given: Vec<String>,
    /// Print one JSON document
    #[arg(long)]
    pub json: bool,
    /// Units for reading; JSON keeps the units in its keys
    #[arg(long, value_enum, default_value = "metric")]
    pub units: UnitsWord,
    /// Explain the sum, or list them all
    #[arg(short, long)]
    pub help: bool,
}

/// `schema`.
#[derive(Args, Debug)]
pub struct Schema {
    /// Of what
    #[arg(value_enum)]
    pub of: SchemaWord,
}

/// What has a schema.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum SchemaWord {
    /// The design file, its TOML read as JSON
    Design,
    /// What `check --json` prints
    Check,
    /// What `panel --json` prints
    Panel,
    /// What `year --json` prints
    Year,
    /// What `worry --json` prints
    Worry,
    /// What `sum NAME --json` prints
    Sum,
    /// What `sum --json` prints
    Sums,
    /// What any command with --json prints when it cannot do its work
    Failed,
}

/// Units for reading.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum UnitsWord {
    /// Kilowatt-hours, degrees Celsius, litres
    Metric,
    /// Thousands of BTU, degrees Fahrenheit, US gallons
    Us,
}

impl From<UnitsWord> for Units {
    fn from(word: UnitsWord) -> Units {
        match word {
            UnitsWord::Metric => Units::Metric,
            UnitsWord::Us => Units::Us,
        }
    }
}

/// What can be had by the minute.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum ChannelWord {
    /// Light taken up by the sheet
    Absorbed,
    /// Hottest part of the sheet
    #[value(alias = "plate")]
    Sheet,
    /// Fluid leaving the panels, or the sheet at the outlet
    PanelOut,
    /// Heat from fluid to store water
    CoilHeat,
    /// Flow round the circuit
    Flow,
    /// 1 while the pump runs
    Pump,
    /// Top layer of the store
    StoreTop,
    /// Mean of the store
    StoreMean,
    /// Bottom layer of the store
    StoreBottom,
    /// Air in the loft
    Loft,
    /// Water drawn
    #[value(alias = "draw")]
    Drawn,
    /// Water let go by the overheat discharge
    Discharge,
}

/// Why nothing is run.
pub struct Failure {
    /// What to print.
    pub text: String,
    /// True for help and version, which were asked for, and for JSON.
    pub to_stdout: bool,
    /// Exit status.
    pub status: i32,
}

/// Reads the command line.
///
/// # Errors
/// Help or version where asked for; wrong usage, as a JSON document where one was asked for.
pub fn parse() -> Result<Arguments, Failure> {
    Arguments::try_parse().map_err(|error| {
        let asked = matches!(error.kind(), ErrorKind::DisplayHelp | ErrorKind::DisplayVersion);
        let json = std::env::args_os().any(|argument| argument == "--json");
        if json && !asked {
            print_usage_problem(&error)
        } else {
            Failure {
                text: error.render().to_string(),
                to_stdout: asked,
                status: if asked { 0 } else { crate::commands::WRONG_USAGE },
            }
        }
    })
}

fn print_usage_problem(error: &clap::Error) -> Failure {
    let says = error.render().to_string();
    let first = says.lines().next().unwrap_or_default().trim_start_matches("error: ").to_owned();
    let problem = design::problem::Problem {
        code: "wrong-usage",
        severity: design::problem::Severity::Fault,
        file: String::new(),
        span: design::problem::Span::default(),
        place: String::new(),
        found: first.clone(),
        expected: "a command line as `warmfeed --help` shows".to_owned(),
        says: first,
        hint: "run `warmfeed --help`".to_owned(),
    };
    crate::print::talk(says.trim_end());
    Failure {
        text: crate::commands::failed_json(&[problem]),
        to_stdout: true,
        status: crate::commands::WRONG_USAGE,
    }
}
