//! Cover and paint let less light to the water every year.

use design::Edit;
use design::quantity::Kind as Measure;
use year::ledger::KWH_J;

use super::{lost_by_year, lost_kwh, number, of_spared};
use crate::AdviceError;
use crate::worry::case::{Case, writing};
use crate::worry::finding::{About, Certainty, Figure, Finding, Kind, Limit, Station};
use crate::worry::words::{kwh, percent, words};

/// What of a year's heat may be lost to age before it is worth a word: judgement.
const WORTH_A_WORD: f64 = 0.05;
/// Light that dirt takes where nobody washes (MIL-HDBK-1003/13A; seen).
const UNWASHED: f64 = 0.04;
/// Absorptance that a paint loses in a year: a twentieth in ten years, at which ISO 22975-3 calls a
/// surface worn out (from memory), and sooner than it allows, since no figure for paints was met.
const PAINT_BY_YEAR: f64 = 0.005;
/// The same of plated and vacuum-deposited surfaces, for which that standard asks 25 years.
const PLATED_BY_YEAR: f64 = 0.002;
/// Absorptance lost at which ISO 22975-3 calls a surface worn out (from memory).
const WORN_OUT: f64 = 0.05;

const WEATHERED: &str = "MIL-HDBK-1003/13A citing NBS TN 1132: glass lost 0 to 2 % of its light in two years outdoors, plastics 5 to 13 %; beyond two years nobody measured, and the same pace is taken on for plastics";

/// How a kind of cover loses its light.
struct Weathers {
    /// In the first two years.
    in_two_years: f64,
    /// Whether it goes on so.
    goes_on: bool,
}

impl Weathers {
    fn of(material: &str) -> Weathers {
        match material {
            "glass" | "toughened-glass" | "low-iron-glass" => {
                Weathers { in_two_years: 0.02, goes_on: false }
            }
            // It does not yellow: the lower end of the plastics.
            "acrylic" | "extruded-acrylic" => Weathers { in_two_years: 0.05, goes_on: true },
            _ => Weathers { in_two_years: 0.13, goes_on: true },
        }
    }

    /// Light it still passes after some years, as a share of what it passed when new.
    fn keeps(&self, years: f64) -> f64 {
        let twos = if self.goes_on { 0.5 * years } else { (0.5 * years).min(1.0) };
        (1.0 - self.in_two_years).powf(twos)
    }
}

/// The cover by year.
pub(in crate::worry) fn cover(case: &Case) -> Result<Vec<Finding>, AdviceError> {
    let design = &case.subject.design;
    let (Some(material), Some(wear)) = (design.material("panel.cover.material"), design.cover_wear)
    else {
        return Ok(Vec::new());
    };
    let weathers = Weathers::of(&material.id);
    let keeps = |years: u32| weathers.keeps(f64::from(years));
    let lost = lost_by_year(case, |years| {
        let kept = (1.0 - wear.weathering_share) * keeps(years);
        Ok(vec![number("panel.cover.weathering", 1.0 - kept)])
    })?;
    let share = of_spared(case, lost[1]);
    let kind = if share > WORTH_A_WORD { Kind::Mind } else { Kind::Quiet };
    let mend = match kind {
        Kind::Quiet => words!(""),
        _ => words!("Build the box so that the cover can be changed, or take glass"),
    };
    let mut glass =
        writing(words!("Take toughened glass"), "panel.cover.material", "toughened-glass");
    glass.edits.push(Edit {
        place: "panel.cover.thickness".to_owned(),
        value: design::EditValue::Text("4 mm".to_owned()),
    });
    Ok(vec![
        Finding::new(
            About::Ages,
            "cover-weathers",
            Station::Panel,
            kind,
            words!(
                "Weather takes at most {} of the cover’s light in five years and {} in ten: {} less spared in the first year, {} in the fifth, {} in the tenth",
                percent(1.0 - keeps(5)),
                percent(1.0 - keeps(10)),
                kwh(lost[0]),
                kwh(lost[1]),
                kwh(lost[2])
            ),
        )
        .at("panel.cover.weathering")
        .mend(mend)
        .figures(vec![
            Figure::against(
                "spared heat lost in the fifth year",
                Measure::Share,
                share,
                Limit::at_most(WORTH_A_WORD, "a twentieth of the heat", Certainty::Judgement),
            ),
            Figure::told("lost in the first year", Measure::Energy, lost[0] * KWH_J),
            Figure::told("lost in the fifth year", Measure::Energy, lost[1] * KWH_J),
            Figure::told("lost in the tenth year", Measure::Energy, lost[2] * KWH_J),
        ])
        .remedies(vec![glass])
        .source(WEATHERED, Certainty::Seen),
    ])
}

/// Dirt, where nobody washes the cover.
pub(in crate::worry) fn dirt(case: &Case) -> Result<Vec<Finding>, AdviceError> {
    let Some(wear) = case.subject.design.cover_wear else { return Ok(Vec::new()) };
    let dirty = wear.dirt_share.max(UNWASHED);
    let lost = lost_kwh(case, &[number("panel.cover.dirt", dirty)])?;
    let share = of_spared(case, lost);
    let kind =
        if share > WORTH_A_WORD || wear.dirt_share >= UNWASHED { Kind::Mind } else { Kind::Quiet };
    let mend = match kind {
        Kind::Quiet => words!(""),
        _ => words!(
            "Wash it once a year with water and a soft brush, from the ground, early, while it is cool"
        ),
    };
    Ok(vec![
        Finding::new(
            About::Ages,
            "cover-dirty",
            Station::Panel,
            kind,
            words!(
                "Reckoned with is {} of the light lost to dirt; where nobody washes it comes to {}, which would cost another {} a year",
                percent(wear.dirt_share),
                percent(dirty),
                kwh(lost)
            ),
        )
        .at("panel.cover.dirt")
        .mend(mend)
        .figures(vec![
            Figure::against(
                "light lost to dirt, as reckoned",
                Measure::Share,
                wear.dirt_share,
                Limit::at_most(UNWASHED, "MIL-HDBK-1003/13A, nobody washes", Certainty::Seen),
            ),
            Figure::told("lost a year unwashed", Measure::Energy, lost * KWH_J),
        ])
        .remedies(vec![writing(words!("Wash it every year"), "panel.cover.dirt", "1 %")])
        .source("MIL-HDBK-1003/13A citing NBS TN 1132: dirt 4 %, which washing takes off", Certainty::Seen),
    ])
}

/// The coating by year.
pub(in crate::worry) fn paint(case: &Case) -> Result<Vec<Finding>, AdviceError> {
    let built = case.panel().and_then(|panel| panel.built());
    let (Some(built), Some(coating)) = (built, case.subject.design.material("panel.sheet.coating"))
    else {
        return Ok(Vec::new());
    };
    let new = built.sheet.absorptance;
    let by_year = match coating.id.as_str() {
        "vacuum-selective" | "black-chrome" => PLATED_BY_YEAR,
        _ => PAINT_BY_YEAR,
    };
    let lost = lost_by_year(case, |years| {
        let aged = (new - by_year * f64::from(years)).max(0.05);
        Ok(vec![number("panel.sheet.absorptance", aged)])
    })?;
    let gone = 10.0 * by_year;
    let share = of_spared(case, lost[1]);
    let kind = if share > WORTH_A_WORD { Kind::Mind } else { Kind::Quiet };
    Ok(vec![
        Finding::new(
            About::Ages,
            "paint-fades",
            Station::Panel,
            kind,
            words!(
                "If the coating takes up {} less of the light after ten years, {} less is spared in the first year, {} in the fifth, {} in the tenth",
                percent(gone),
                kwh(lost[0]),
                kwh(lost[1]),
                kwh(lost[2])
            ),
        )
        .at("panel.sheet.coating")
        .mend(words!("Look at it through the cover each spring: bare metal that shines through wants paint"))
        .figures(vec![
            Figure::against(
                "absorptance lost in ten years",
                Measure::Share,
                gone,
                Limit::at_most(
                    WORN_OUT,
                    "ISO 22975-3, surface worn out; the pace itself is a judgement, no figure for paints was met",
                    Certainty::FromMemory,
                ),
            ),
            Figure::told("lost in the first year", Measure::Energy, lost[0] * KWH_J),
            Figure::told("lost in the fifth year", Measure::Energy, lost[1] * KWH_J),
            Figure::told("lost in the tenth year", Measure::Energy, lost[2] * KWH_J),
        ])
        .source("ISO 22975-3, ageing of absorber surfaces, taken as the pace of ten years for paints", Certainty::Judgement),
    ])
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Given two years outdoors. Expected: what MIL-HDBK-1003/13A has of glass and of plastics, at its
    /// cautious ends, 2 % and 13 % (exact); glass stays there, plastic has lost a quarter after four.
    #[test]
    fn two_years_are_as_measured() {
        assert!((Weathers::of("glass").keeps(2.0) - 0.98).abs() < 1e-12);
        assert!((Weathers::of("glass").keeps(10.0) - 0.98).abs() < 1e-12);
        assert!((Weathers::of("polycarbonate").keeps(2.0) - 0.87).abs() < 1e-12);
        assert!((Weathers::of("polycarbonate").keeps(4.0) - 0.7569).abs() < 1e-12);
        assert!((Weathers::of("acrylic").keeps(2.0) - 0.95).abs() < 1e-12);
    }
}
