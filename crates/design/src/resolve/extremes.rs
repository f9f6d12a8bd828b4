//! The worst the weather does: what the design states, else the weather file's header, else its year.

use super::{Design, Sited};
use crate::problem::{Problem, Severity};
use crate::quantity::{Kind, Units, show};
use crate::values::Values;
use physics::Climate;
use physics::sun::{AirExtreme, Extremes, StatedBy};

/// Extremes of the weather, each only where the design file states it.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(super) struct WrittenExtremes {
    coldest_night_k: Option<f64>,
    hottest_spell_k: Option<f64>,
    gust_m_s: Option<f64>,
    ground_snow_pa: Option<f64>,
}

/// What a design file states of them.
pub(super) fn written(values: &Values) -> WrittenExtremes {
    let si = |key: &str| values.si(&format!("sun.extremes.{key}"));
    WrittenExtremes {
        coldest_night_k: si("coldest-night"),
        hottest_spell_k: si("hottest-spell"),
        gust_m_s: si("gust"),
        ground_snow_pa: si("ground-snow"),
    }
}

/// One end of the air's range: what it is called, and what its stand-in is.
struct End {
    place: &'static str,
    stand_in: &'static str,
    header: &'static str,
}

const COLDEST: End = End {
    place: "sun.extremes.coldest-night",
    stand_in: "the coldest hour of the weather file stands in: a typical year leaves its extremes \
               out, and the catalogue holds none for places",
    header: "the weather file's header, the coldest of twenty years",
};
const HOTTEST: End = End {
    place: "sun.extremes.hottest-spell",
    stand_in: "the hottest hour of the weather file stands in: a typical year leaves its extremes \
               out, and the catalogue holds none for places",
    header: "the weather file's header, the hottest of twenty years",
};

impl Sited {
    /// The extremes a build is reckoned with, their origins noted.
    pub(super) fn extremes(&mut self, written: &WrittenExtremes, climate: &Climate) -> Extremes {
        let header = &climate.extremes;
        Extremes {
            coldest_night: self.extreme(
                &COLDEST,
                [written.coldest_night_k, header.coldest_air_k],
                coldest_hour_k(climate),
            ),
            hottest_spell: self.extreme(
                &HOTTEST,
                [written.hottest_spell_k, header.hottest_air_k],
                hottest_hour_k(climate),
            ),
            gust_m_s: written.gust_m_s,
            ground_snow_pa: written.ground_snow_pa,
        }
    }

    fn extreme(&mut self, end: &End, stated_k: [Option<f64>; 2], own_hour_k: f64) -> AirExtreme {
        let (air_k, stated_by, source, certainty) = match stated_k {
            [Some(air_k), _] => return AirExtreme { air_k, stated_by: StatedBy::Design },
            [None, Some(air_k)] => (air_k, StatedBy::WeatherHeader, end.header, "stated there"),
            [None, None] => (own_hour_k, StatedBy::TypicalYear, end.stand_in, "a stand-in"),
        };
        self.note(end.place, shown(air_k), source, certainty);
        AirExtreme { air_k, stated_by }
    }
}

/// A written extreme that the weather file's own typical year already passes.
pub(super) fn check(design: &Design, climate: &Climate, file: &str) -> Vec<Problem> {
    let written = &design.extremes;
    let (own_cold_k, own_hot_k) = (coldest_hour_k(climate), hottest_hour_k(climate));
    let problem = |end: &End, span, stated_k: f64, own_k: f64, word: &str| Problem {
        code: "extreme-passed",
        severity: Severity::Warning,
        file: file.to_owned(),
        span,
        place: end.place.to_owned(),
        found: shown(stated_k),
        expected: format!("{} or {word}", shown(own_k)),
        says: format!(
            "The design reckons with {} at worst, and the weather file's own typical year has an \
             hour of {}",
            shown(stated_k),
            shown(own_k)
        ),
        hint: "a typical year is milder than the worst of many years: ask the weather service, \
               or take the line out"
            .to_owned(),
    };
    let cold = written.coldest_night_k.filter(|&stated_k| stated_k > own_cold_k);
    let hot = written.hottest_spell_k.filter(|&stated_k| stated_k < own_hot_k);
    let cold = cold.map(|stated_k| {
        problem(&COLDEST, design.spans.coldest_night, stated_k, own_cold_k, "colder")
    });
    let hot = hot.map(|stated_k| {
        problem(&HOTTEST, design.spans.hottest_spell, stated_k, own_hot_k, "hotter")
    });
    cold.into_iter().chain(hot).collect()
}

fn coldest_hour_k(climate: &Climate) -> f64 {
    climate.air_k.iter().copied().fold(f64::INFINITY, f64::min)
}

fn hottest_hour_k(climate: &Climate) -> f64 {
    climate.air_k.iter().copied().fold(f64::NEG_INFINITY, f64::max)
}

pub(super) fn shown(air_k: f64) -> String {
    show(Kind::Temperature, air_k, Units::Metric)
}

#[cfg(test)]
mod tests {
    use crate::origin::Origin;
    use crate::resolve::trial::{sited, with_one_cold_hour};
    use physics::ZERO_CELSIUS_K;
    use physics::sun::{AirExtreme, StatedBy};

    const OPEN: (&str, &str) = ("[panel]\ncount", "[panel]\ncount");

    fn stating(lines: &str) -> String {
        format!("[sun.extremes]\n{lines}\n\n[panel]\ncount")
    }

    /// Given a year from -4 to 11 C and nothing stated: its own hours stand in, and are called so.
    #[test]
    fn the_years_own_hours_stand_in_and_are_called_so() {
        let sited = sited(&[OPEN], &with_one_cold_hour(11.0, -4.0));
        let extremes = &sited.build.sun.extremes;
        let own = |celsius: f64| AirExtreme {
            air_k: celsius + ZERO_CELSIUS_K,
            stated_by: StatedBy::TypicalYear,
        };
        assert_eq!(extremes.coldest_night, own(-4.0));
        assert_eq!(extremes.hottest_spell, own(11.0));
        assert_eq!((extremes.gust_m_s, extremes.ground_snow_pa), (None, None));
        let traced = sited.origins.at("sun.extremes.coldest-night").expect("noted");
        assert_eq!(traced.value, "-4 C");
        assert!(traced.origin.sentence().contains("stands in"), "{traced:?}");
    }

    /// Given extremes in the weather file's header, they pass its hours; what the design states
    /// passes both, in SI: 20 F are -6.67 C, 0.6 kN/m2 are 600 Pa, 100 mph are 44.704 m/s
    /// (definitions of the units).
    #[test]
    fn header_passes_hours_and_design_passes_header() {
        let mut climate = with_one_cold_hour(11.0, -4.0);
        climate.extremes.coldest_air_k = Some(260.0);
        climate.extremes.hottest_air_k = Some(305.0);
        let by_header = sited(&[OPEN], &climate).build.sun.extremes;
        let header = |air_k| AirExtreme { air_k, stated_by: StatedBy::WeatherHeader };
        assert_eq!(by_header.coldest_night, header(260.0));
        assert_eq!(by_header.hottest_spell, header(305.0));

        let lines = stating(
            "coldest-night = \"20 F\"\ncoldest-night-source = \"the fire brigade's diary\"\n\
             gust = \"100 mph\"\nground-snow = \"0.6 kN/m2\"",
        );
        let sited = sited(&[(OPEN.0, &lines)], &climate);
        let extremes = &sited.build.sun.extremes;
        assert_eq!(extremes.coldest_night.stated_by, StatedBy::Design);
        assert!((extremes.coldest_night.air_k - (ZERO_CELSIUS_K - 20.0 / 3.0)).abs() < 1e-9);
        assert_eq!(extremes.hottest_spell, header(305.0));
        assert!((extremes.gust_m_s.expect("stated") - 44.704).abs() < 1e-9);
        assert!((extremes.ground_snow_pa.expect("stated") - 600.0).abs() < 1e-9);
        let source = sited.origins.at("sun.extremes.coldest-night-source").expect("kept");
        assert_eq!(source.origin, Origin::Written);
        assert_eq!(source.value, "the fire brigade's diary");
        assert!(sited.problems.iter().all(|problem| problem.code != "extreme-passed"));
    }

    /// Given a stated coldest night of 0 C in a year with an hour of -4 C, and a hottest spell of
    /// 10 C in a year of 11 C: a warning each that names both.
    #[test]
    fn an_extreme_milder_than_the_year_is_told() {
        let lines = stating("coldest-night = \"0 C\"\nhottest-spell = \"10 C\"");
        let sited = sited(&[(OPEN.0, &lines)], &with_one_cold_hour(11.0, -4.0));
        let told: Vec<_> =
            sited.problems.iter().filter(|problem| problem.code == "extreme-passed").collect();
        assert_eq!(told.len(), 2);
        assert!(told[0].says.contains("0 C") && told[0].says.contains("-4 C"), "{:?}", told[0]);
        assert!(told[1].says.contains("10 C") && told[1].says.contains("11 C"), "{:?}", told[1]);
        assert!(told.iter().all(|problem| problem.span.line > 0));
    }
}
