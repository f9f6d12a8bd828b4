//! A design put where its weather is.

use super::{Design, extremes, frost};
use crate::origin::{Origin, Origins};
use crate::problem::{Problem, Severity, Span};
use crate::quantity::{Kind, Units, show};
use crate::values::Values;
use physics::sun::Place;
use physics::{Angle, Build, Climate};

/// A design at its place.
#[derive(Clone, Debug, PartialEq)]
pub struct Sited {
    /// The whole system.
    pub build: Build,
    /// Where each value comes from, the place's too.
    pub origins: Origins,
    /// Where the design and its weather do not agree.
    pub problems: Vec<Problem>,
}

/// Where in the design file those values are written that meet the weather.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(super) struct Spans {
    latitude: Span,
    longitude: Span,
    pub(super) coldest_night: Span,
    pub(super) hottest_spell: Span,
    pub(super) fluid: Span,
    pub(super) winter: Span,
    pub(super) frost: Span,
}

impl Spans {
    pub(super) fn of(values: &Values) -> Spans {
        let share = ["circuit.share-by-volume", "circuit.share-by-mass", "circuit.fluid"]
            .into_iter()
            .find(|place| values.entry(place).is_some());
        Spans {
            latitude: values.span("sun.latitude"),
            longitude: values.span("sun.longitude"),
            coldest_night: values.span("sun.extremes.coldest-night"),
            hottest_spell: values.span("sun.extremes.hottest-spell"),
            fluid: values.span(share.unwrap_or("circuit.fluid")),
            winter: values.span("circuit.winter"),
            frost: values.span("control.frost.below"),
        }
    }
}

/// Where a value of the place is stated.
struct Stated<'a> {
    file: &'a str,
    place: &'a str,
    span: Span,
}

/// How far a written place may lie from the weather's before it is worth a word \[degrees\].
const FAR_DEG: f64 = 0.5;

impl Design {
    /// The system at the place of its weather.
    ///
    /// What the design file states wins; what it leaves out comes from the weather file; a clock
    /// that neither states follows the longitude. `file` is the design file as the user named it.
    pub fn at(&self, climate: &Climate, file: &str) -> Sited {
        let mut sited = Sited {
            build: self.draft.clone(),
            origins: self.origins.clone(),
            problems: Vec::new(),
        };
        let latitude = sited.angle(
            self.place.latitude,
            climate.latitude,
            Stated { file, place: "sun.latitude", span: self.spans.latitude },
        );
        let longitude = sited.angle(
            self.place.longitude,
            climate.longitude,
            Stated { file, place: "sun.longitude", span: self.spans.longitude },
        );
        let elevation_m = self.place.elevation_m.unwrap_or_else(|| {
            let (elevation_m, source, certainty) = match climate.elevation_m {
                Some(elevation_m) => (elevation_m, "the weather file", "stated there"),
                None => (0.0, "sea level, since the weather file does not say", "assumed"),
            };
            sited.note("sun.elevation", format!("{elevation_m:.0} m"), source, certainty);
            elevation_m
        });
        let clock_ahead_h = self.place.clock_ahead_h.unwrap_or_else(|| {
            // Adding nothing turns the minus nought of a western quarter of an hour into nought.
            let (clock_ahead_h, source) = if climate.clock_ahead_h == 0.0 {
                (
                    (longitude.degrees() / 15.0).round() + 0.0,
                    "the longitude: an hour for each 15 degrees",
                )
            } else {
                (climate.clock_ahead_h, "the weather file's own clock")
            };
            sited.note("sun.clock", format!("{clock_ahead_h} h"), source, "computed");
            clock_ahead_h
        });
        sited.build.sun.place = Place { latitude, longitude, elevation_m, clock_ahead_h };
        sited.build.sun.extremes = sited.extremes(&self.extremes, climate);
        sited.problems.extend(extremes::check(self, climate, file));
        sited.problems.extend(frost::check(self, &sited.build, file));
        sited
    }
}

impl Sited {
    pub(super) fn note(&mut self, place: &str, value: String, source: &str, certainty: &str) {
        let origin = Origin::Assumed { source: source.to_owned(), certainty: certainty.to_owned() };
        self.origins.note(place, value, origin);
    }

    /// The written angle, or the weather's; a word where they lie far apart.
    fn angle(&mut self, written: Option<Angle>, weather: Angle, stated: Stated) -> Angle {
        let Stated { file, place, span } = stated;
        let shown = |angle: Angle| show(Kind::Angle, angle.radians(), Units::Metric);
        let Some(written) = written else {
            self.note(place, shown(weather), "the weather file", "stated there");
            return weather;
        };
        if (written.degrees() - weather.degrees()).abs() > FAR_DEG {
            self.problems.push(Problem {
                code: "far-from-weather",
                severity: Severity::Note,
                file: file.to_owned(),
                span,
                place: place.to_owned(),
                found: shown(written),
                expected: format!("{} as the weather file", shown(weather)),
                says: format!("The design says {} and its weather file {}", shown(written), shown(weather)),
                hint: "the design's value is used; take it out to use the weather's, or choose a nearer weather file".to_owned(),
            });
        }
        written
    }
}
