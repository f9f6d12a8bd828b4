//! From a path to a build with its weather.

use std::path::{Path, PathBuf};

use design::problem::{Problem, Severity, Span};
use design::quantity::{Kind, Units, show};
use design::weather::read_weather;
use design::{Design, Origins, Weather, Written};
use physics::sun::made::made_year;
use physics::{Build, Climate};

use super::chain;
use crate::{files, print, seams, view};

/// A build ready to be computed, and all that was said of its files.
pub struct Loaded {
    /// The design file's text and syntax.
    pub written: Written,
    /// The design as read.
    pub design: Design,
    /// The build at its climate, one even bond in the place of each panel's stretches.
    pub build: Build,
    /// The build as drawn, stretches and all.
    pub drawn: Build,
    /// That even bond \[W/(m K)\]; `None` where no panel has stretches.
    pub even_bond_w_m_k: Option<f64>,
    /// Where its values come from.
    pub origins: Origins,
    /// The climate.
    pub climate: Climate,
    /// Warnings and notes; no fault.
    pub said: Said,
}

/// Problems of the files read, with the design's text to point into.
#[derive(Default)]
pub struct Said {
    /// In the order of reading.
    pub problems: Vec<Problem>,
    /// The design's own text, where it is text.
    pub design_text: Option<String>,
    /// What the user called the design file.
    pub design_name: String,
}

impl Said {
    /// True where nothing can be computed.
    pub fn has_fault(&self) -> bool {
        self.problems.iter().any(Problem::is_fault)
    }

    /// Draws all problems on standard error.
    pub fn tell(&self) {
        for problem in &self.problems {
            let text =
                (problem.file == self.design_name).then_some(self.design_text.as_deref()).flatten();
            print::talk(view::problems(std::slice::from_ref(problem), text).trim_end());
            print::talk("");
        }
    }
}

/// Where a design's files come from: disk, or the job book inside the program.
pub trait Source {
    /// The bytes of a file.
    ///
    /// # Errors
    /// Where it cannot be read.
    fn bytes(&self, path: &Path) -> anyhow::Result<Vec<u8>>;
}

/// The files on disk.
pub struct Disk;

impl Source for Disk {
    fn bytes(&self, path: &Path) -> anyhow::Result<Vec<u8>> {
        files::read(path)
    }
}

/// Reads a design and its weather.
///
/// # Errors
/// What was said, where it holds a fault.
pub fn load(path: &Path, source: &dyn Source) -> Result<Loaded, Said> {
    let name = path.display().to_string();
    let mut said = Said { design_name: name.clone(), ..Said::default() };
    let bytes = match source.bytes(path) {
        Ok(bytes) => bytes,
        Err(error) => {
            said.problems.push(unreadable(&name, &error, "give the path of a design file"));
            return Err(said);
        }
    };
    let reading = design::read_design(&name, &bytes);
    said.problems.extend(reading.problems);
    said.design_text = String::from_utf8(bytes).ok();
    let (Some(written), Some(design)) = (reading.written, reading.design) else { return Err(said) };
    let Some(climate) = climate_of(&design, path, source, &mut said) else { return Err(said) };
    let sited = design.at(&climate, &name);
    said.problems.extend(sited.problems);
    if said.has_fault() {
        return Err(said);
    }
    let drawn = sited.build;
    let (build, even_bond_w_m_k) = match seams::evened(&drawn) {
        Ok(Some((build, bond_w_m_k))) => {
            said.problems.push(even_bond(&name, bond_w_m_k));
            (build, Some(bond_w_m_k))
        }
        Ok(None) => (drawn.clone(), None),
        Err(error) => {
            said.problems.push(not_evened(&name, &error));
            return Err(said);
        }
    };
    Ok(Loaded {
        written,
        design,
        build,
        drawn,
        even_bond_w_m_k,
        origins: sited.origins,
        climate,
        said,
    })
}

/// A design's weather: its file's, or made from its monthly means. None where it was told why not.
fn climate_of(
    design: &Design,
    path: &Path,
    source: &dyn Source,
    said: &mut Said,
) -> Option<Climate> {
    let file = match &design.weather {
        Weather::File(file) => file,
        Weather::Made(made) => {
            return match made_year(&made.months, made.seed) {
                Ok(climate) => Some(climate),
                Err(error) => {
                    said.problems.push(not_made(&said.design_name, made.span, &error.to_string()));
                    None
                }
            };
        }
    };
    let weather_path = beside(path, &file.path);
    let weather_name = weather_path.display().to_string();
    match source.bytes(&weather_path) {
        Ok(bytes) => {
            let (climate, problems) = read_weather(&weather_name, &bytes);
            said.problems.extend(problems);
            climate
        }
        Err(error) => {
            said.problems.push(Problem {
                span: file.span,
                file: said.design_name.clone(),
                place: "sun.weather".to_owned(),
                ..unreadable(
                    &weather_name,
                    &error,
                    "give the weather file's path as seen from the design file",
                )
            });
            None
        }
    }
}

/// That no year can be made from the monthly means.
fn not_made(name: &str, span: Span, why: &str) -> Problem {
    Problem {
        code: "year-not-made",
        severity: Severity::Fault,
        file: name.to_owned(),
        span,
        place: "sun.months".to_owned(),
        found: why.to_owned(),
        expected: "monthly means that some place may have".to_owned(),
        says: format!("No year can be made from these months: {why}"),
        hint: "look at the months' units, and whether they begin with January".to_owned(),
    }
}

/// That the year goes by another bond than the written one.
fn even_bond(name: &str, bond_w_m_k: f64) -> Problem {
    let bond = show(Kind::BondConductance, bond_w_m_k, Units::Metric);
    Problem {
        code: "even-bond",
        severity: Severity::Note,
        file: name.to_owned(),
        span: Span::default(),
        place: "panel.tubes.stretch".to_owned(),
        found: "stretches with another bond".to_owned(),
        expected: bond.clone(),
        says: format!(
            "Curve and year take one bond for all of the tube, {bond}: with it the sheet gains what it does with its stretches"
        ),
        hint: "`warmfeed panel --plate` shows the sheet itself and what each stretch costs"
            .to_owned(),
    }
}

/// That no even bond was found in the place of the stretches.
fn not_evened(name: &str, error: &anyhow::Error) -> Problem {
    Problem {
        code: "no-even-bond",
        severity: Severity::Fault,
        file: name.to_owned(),
        span: Span::default(),
        place: "panel.tubes.stretch".to_owned(),
        found: chain(error),
        expected: "a sheet whose heat can be reckoned with its stretches".to_owned(),
        says: format!("The sheet with its stretches cannot be reckoned: {}", chain(error)),
        hint: "look at the stretches and at the sheet's and the tube's sizes".to_owned(),
    }
}

/// A path as a design file means it: from the design's own folder.
fn beside(design: &Path, written: &str) -> PathBuf {
    design.parent().unwrap_or(Path::new("")).join(written)
}

fn unreadable(name: &str, error: &anyhow::Error, hint: &str) -> Problem {
    Problem {
        code: "unreadable-file",
        severity: Severity::Fault,
        file: name.to_owned(),
        span: Span::default(),
        place: String::new(),
        found: chain(error),
        expected: "a file that can be read".to_owned(),
        says: chain(error),
        hint: hint.to_owned(),
    }
}
