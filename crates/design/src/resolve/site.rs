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
    facing: Span,
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
            facing: values.span("sun.facing"),
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
        let weather = self.weather.words();
        let latitude = sited.angle(
            self.place.latitude,
            climate.latitude,
            Stated { file, place: "sun.latitude", span: self.spans.latitude },
            weather,
        );
        let longitude = sited.angle(
            self.place.longitude,
            climate.longitude,
            Stated { file, place: "sun.longitude", span: self.spans.longitude },
            weather,
        );
        let elevation_m = self.place.elevation_m.unwrap_or_else(|| {
            let (elevation_m, source, certainty) = match climate.elevation_m {
                Some(elevation_m) => (elevation_m, weather, "stated there"),
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
        sited.noon_behind(Stated { file, place: "sun.facing", span: self.spans.facing });
        sited
    }
}

/// Between the tropics the noon sun stands on either side \[degrees\].
const TROPIC_DEG: f64 = 23.5;

/// A panel nearer to level than this sees the noon sun whichever way it faces \[degrees\]; judgement.
const LEVEL_DEG: f64 = 5.0;

impl Sited {
    /// A word where a tilted panel turns its back to the noon sun: by its facing, or by a latitude of
    /// the other hemisphere.
    fn noon_behind(&mut self, stated: Stated) {
        let Stated { file, place, span } = stated;
        let (latitude, plane) = (self.build.sun.place.latitude, self.build.sun.plane);
        if latitude.degrees().abs() <= TROPIC_DEG || plane.tilt.degrees() <= LEVEL_DEG {
            return;
        }
        let (noon_deg, noon): (f64, _) =
            if latitude.degrees() > 0.0 { (180.0, "south") } else { (0.0, "north") };
        let aside_deg = plane.facing.degrees() - noon_deg;
        // A tenth: due east and due west are told apart from a roof turned away.
        if aside_deg.to_radians().cos() >= -0.1 {
            return;
        }
        let shown = |angle: Angle| show(Kind::Angle, angle.radians(), Units::Metric);
        self.problems.push(Problem {
            code: "noon-sun-behind",
            severity: Severity::Warning,
            file: file.to_owned(),
            span,
            place: place.to_owned(),
            found: format!("facing {}, latitude {}", shown(plane.facing), shown(latitude)),
            expected: format!("a facing within 90 deg of {noon}"),
            says: format!(
                "The panel faces {} and at latitude {} the noon sun stands in the {noon}, behind it",
                shown(plane.facing),
                shown(latitude)
            ),
            hint: "facing counts from north by east: south is 180 deg; a latitude south of the \
                   equator has a minus"
                .to_owned(),
        });
    }

    pub(super) fn note(&mut self, place: &str, value: String, source: &str, certainty: &str) {
        let origin = Origin::Assumed { source: source.to_owned(), certainty: certainty.to_owned() };
        self.origins.note(place, value, origin);
    }

    /// The written angle, or the weather's; a word where they lie far apart.
    fn angle(
        &mut self,
        written: Option<Angle>,
        weather: Angle,
        stated: Stated,
        whose: &str,
    ) -> Angle {
        let Stated { file, place, span } = stated;
        let shown = |angle: Angle| show(Kind::Angle, angle.radians(), Units::Metric);
        let Some(written) = written else {
            self.note(place, shown(weather), whose, "stated there");
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
                expected: format!("{} as {whose}", shown(weather)),
                says: format!("The design says {} and its weather file {}", shown(written), shown(weather)),
                hint: "the design's value is used; take it out to use the weather's, or choose a nearer weather file".to_owned(),
            });
        }
        written
    }
}
