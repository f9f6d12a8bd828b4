//! Bacteria: what the store feeds, what kills what grew in it, and how long water stands.

use design::quantity::Kind as Measure;
use design::{Edit, EditValue, Heats};
use physics::ZERO_CELSIUS_K;
use physics::store::{Feed, FeedKind};
use physics::tap::{DaySpan, Heater};
use year::Channel;

use super::case::{Case, litres_up, put, writing};
use super::finding::{About, Certainty, Figure, Finding, Kind, Limit, Remedy, Station};
use super::words::{Words, count, lasting, of, warm, words};
use crate::AdviceError;

const SCHEDULE: &str = "Water Supply (Water Fittings) Regulations 1999, schedule 2, paragraphs 1 and 20, with the regulator’s guidance (UK): 25 C in England and Wales, 20 C in Scotland and Northern Ireland";
const REGULATOR: &str =
    "Health and safety regulator, guidance on legionella in hot and cold water (UK)";
const WHOLE_HOUR: &str = "Approved code L8 and the fittings scheme’s note on preheated water (UK): the whole contents at 60 C for an hour each day";

const COLD_WATER_K: f64 = ZERO_CELSIUS_K + 20.0;
const GROWS_TO_K: f64 = ZERO_CELSIUS_K + 45.0;
const KILLS_K: f64 = ZERO_CELSIUS_K + 60.0;

/// What the store feeds beside the heater.
pub(super) fn feeds(case: &Case) -> Result<Vec<Finding>, AdviceError> {
    let build = &case.year.build;
    if build.store.feeds.is_empty() {
        return Ok(vec![
            Finding::new(
                About::Bacteria,
                "feeds-heater-alone",
                Station::Store,
                Kind::Quiet,
                words!("The design says that the store feeds the heater alone; follow every pipe that leaves it once more"),
            )
            .at("store")
            .mend(words!("Label it as hot-water plant, fit a close lid, and let nobody tap it"))
            .source(SCHEDULE, Certainty::Seen),
        ]);
    }
    Ok(build.store.feeds.iter().enumerate().map(|(place, feed)| fed(case, place, feed)).collect())
}

fn fed(case: &Case, place: usize, feed: &Feed) -> Finding {
    let tally = case.year.result.build.year();
    let (above_s, says) = match feed.kind {
        FeedKind::ColdTaps => (
            tally.cold_tap_above_20_c_s,
            words!(
                "The store feeds cold taps: their water is over {} for {} of the year and over {} for {}. It is drunk, and warm enough for legionella",
                warm(COLD_WATER_K),
                lasting(tally.cold_tap_above_20_c_s),
                warm(ZERO_CELSIUS_K + 25.0),
                lasting(tally.cold_tap_above_25_c_s)
            ),
        ),
        FeedKind::Shower => (
            tally.store_warm_s,
            words!(
                "A shower draws from the store before the heater: spray of water that stands between {} and {} for {} of the year, where legionella grows",
                warm(COLD_WATER_K),
                warm(GROWS_TO_K),
                lasting(tally.store_warm_s)
            ),
        ),
        FeedKind::Closet | FeedKind::Garden => (
            tally.store_warm_s,
            words!(
                "A WC or garden pipe hangs on the store, whose water stands between {} and {} for {} of the year: stored cold water may not be so warm, and a hose makes spray",
                warm(COLD_WATER_K),
                warm(GROWS_TO_K),
                lasting(tally.store_warm_s)
            ),
        ),
    };
    let (code, source) = match feed.kind {
        FeedKind::ColdTaps => ("cold-taps", SCHEDULE),
        FeedKind::Shower => ("shower-before-heater", REGULATOR),
        FeedKind::Closet | FeedKind::Garden => ("wc-or-garden", SCHEDULE),
    };
    Finding::new(About::Bacteria, code, Station::Store, Kind::Stop, says)
        .of(format!("{place}"))
        .at(format!("store.feed[{place}].what"))
        .mend(words!("Leave that cistern cold for its taps, and lay the coil in a vessel of its own that feeds the cylinder alone"))
        .figures(vec![Figure::told("warm at its outlet a year", Measure::Time, above_s)])
        .remedies(vec![Remedy::new(
            words!("Take every other feed off the store"),
            vec![Edit { place: "store.feed".to_owned(), value: EditValue::Remove }],
        )])
        .source(source, Certainty::Seen)
}

/// Whether everything drawn passes the heater and stays hot in it.
pub(super) fn kills(case: &Case) -> Result<Vec<Finding>, AdviceError> {
    let (tap, facts) = (&case.year.build.tap, &case.subject.design.facts);
    let stop = |code: &'static str, says: Words| {
        (
            code,
            Kind::Stop,
            says,
            words!(
                "Put a cylinder between store and taps whose whole water reaches {} each day and stays there an hour",
                warm(KILLS_K)
            ),
        )
    };
    let kept_k = tap.delivery_k;
    let assumed = match case.subject.design.origins.at("tap.delivery") {
        Some(_) => " (assumed, since nobody said)",
        None => "",
    };
    let look_after = words!(
        "Measure at its foot, not at the thermostat; see to it that no timer, low thermostat or holiday leaves a day out, and let no electric shower or combination heater draw warmed water"
    );
    let (code, kind, says, mend) = match (&tap.heater, facts.heats) {
        (Heater::Instantaneous(_), _) => stop(
            "seconds-only",
            words!(
                "The heater warms water for seconds as it passes: what grew in the store at {} to {} comes through alive",
                warm(COLD_WATER_K),
                warm(GROWS_TO_K)
            ),
        ),
        (Heater::Cylinder { .. }, _) if kept_k < KILLS_K - 0.5 => stop(
            "cool-cylinder",
            words!(
                "The cylinder is kept at {}{}, under {}: what grew in the store lives on in it",
                warm(kept_k),
                assumed,
                warm(KILLS_K)
            ),
        ),
        (Heater::Cylinder { .. }, Some(Heats::TopOnly)) => stop(
            "top-only",
            words!(
                "Only the cylinder’s top comes to {}; the warm water below it passes to the taps in a long draw",
                warm(kept_k)
            ),
        ),
        (Heater::Cylinder { .. }, Some(Heats::ByTimer)) => stop(
            "by-timer",
            words!(
                "A timer heats the cylinder to {}: a day or a draw that it leaves out goes to the taps as it stood in the store",
                warm(kept_k)
            ),
        ),
        (Heater::Cylinder { .. }, None) => (
            "whole-not-said",
            Kind::Mind,
            words!(
                "The cylinder is kept at {}; nobody said whether all of it reaches that each day, or only its top or when a timer lets it",
                warm(kept_k)
            ),
            words!(
                "Find out and write tap.heater.heats. Every litre must reach {} each day and stay there an hour",
                warm(KILLS_K)
            ),
        ),
        (Heater::Cylinder { .. }, Some(Heats::WholeDaily)) => (
            "whole-daily",
            Kind::Mind,
            words!(
                "All drawn water passes a cylinder whose whole contents come to {} every day; {} is asked, for an hour",
                warm(kept_k),
                warm(KILLS_K)
            ),
            look_after,
        ),
    };
    let mut remedies = Vec::new();
    if code == "cool-cylinder" {
        // Hotter water scalds: the valve goes with it.
        remedies.push(Remedy::new(
            words!("Keep it at {}, and fit a low-pressure mixing valve after it", warm(KILLS_K)),
            vec![
                put("tap.delivery", "60 C"),
                put("tap.mixing-valve", "low-pressure"),
                put("tap.mixed-to", "44 C"),
            ],
        ));
    }
    if matches!(code, "top-only" | "by-timer") {
        remedies.push(writing(
            words!("Heat the whole cylinder every day"),
            "tap.heater.heats",
            "whole-daily",
        ));
    }
    Ok(vec![
        Finding::new(About::Bacteria, "heater-kills", Station::Tap, kind, says)
            .at(if code == "cool-cylinder" { "tap.delivery" } else { "tap.heater" })
            .mend(mend)
            .figures(vec![Figure::against(
                match tap.heater {
                    Heater::Cylinder { .. } => "the cylinder’s temperature",
                    Heater::Instantaneous(_) => "delivered, after seconds",
                },
                Measure::Temperature,
                kept_k,
                Limit::at_least(KILLS_K, WHOLE_HOUR, Certainty::Seen),
            )])
            .remedies(remedies)
            .source(WHOLE_HOUR, Certainty::Seen),
    ])
}

/// How long water stands in the range where they grow; never less than a matter to mind.
pub(super) fn grows(case: &Case) -> Result<Vec<Finding>, AdviceError> {
    let build = &case.year.build;
    let tally = case.year.result.build.year();
    let a_day_m3 = tally.drawn_m3 / 365.0;
    let turnover = a_day_m3 / build.store.volume_m3;
    let draws = draws(case);
    let kind = if turnover < 1.0 { Kind::Stop } else { Kind::Mind };
    let says = words!(
        "The store’s water stands between {} and {} for {} of the year, where legionella grows. A day’s draws of {} turn its {} over {} times; the coldest draw leaves it at {}, the hottest at {}",
        warm(COLD_WATER_K),
        warm(GROWS_TO_K),
        lasting(tally.store_warm_s),
        of(Measure::Volume, a_day_m3),
        of(Measure::Volume, build.store.volume_m3),
        super::words::Value::Number(turnover, 2),
        warm(draws.0),
        warm(draws.1)
    );
    let away = holidays(&build.tap.holidays);
    let mend = if away > 0 {
        words!(
            "Take a vessel that a day’s draws empty. After the {} days away in this design, and any others, heat all through and run every tap hot before anyone showers",
            count(away as f64)
        )
    } else {
        words!(
            "Take a vessel that a day’s draws empty. After days away heat all through and run every tap hot before anyone showers; a close lid, a look inside each year"
        )
    };
    Ok(vec![
        Finding::new(About::Bacteria, "growth-range", Station::Store, kind, says)
            .at("store.volume")
            .mend(mend)
            .figures(vec![
                Figure::against(
                    "turned over a day",
                    Measure::Number,
                    turnover,
                    Limit::at_least(
                        1.0,
                        "store no more than a day’s use: health and safety regulator (UK)",
                        Certainty::Seen,
                    ),
                ),
                Figure::told("in the growth range a year", Measure::Time, tally.store_warm_s),
                Figure::told("coldest draw out of the store", Measure::Temperature, draws.0),
                Figure::told("hottest draw out of the store", Measure::Temperature, draws.1),
            ])
            .remedies(smaller(a_day_m3))
            .source(REGULATOR, Certainty::Seen),
    ])
}

/// A vessel for a day's draws.
fn smaller(a_day_m3: f64) -> Vec<Remedy> {
    // Rounded down to half litres, so that a day's draws do empty it.
    let volume_m3 = (2000.0 * a_day_m3).floor() / 2000.0;
    if volume_m3 < 0.005 {
        return Vec::new();
    }
    vec![writing(
        words!("Set its ball valve lower, for {} of water", of(Measure::Volume, volume_m3)),
        "store.volume",
        litres_up(volume_m3 - 1e-9),
    )]
}

/// Coldest and hottest water that a draw took out of the store \[K\].
fn draws(case: &Case) -> (f64, f64) {
    let litres = case.minutes.series(Channel::Draw).unwrap_or_default();
    let heats_j = case.minutes.series(Channel::DrawHeat).unwrap_or_default();
    let volume_heat_j_m3_k = case.year.plant.store.volume_heat_j_m3_k;
    let mut span = (f64::INFINITY, f64::NEG_INFINITY);
    for (minute, (&litres, &heat_j)) in litres.iter().zip(heats_j).enumerate() {
        if litres <= 0.0 {
            continue;
        }
        let mains_k = case.year.forcing.hours[minute / 60].mains_k;
        let drawn_k =
            mains_k + f64::from(heat_j) / (f64::from(litres) / 1000.0 * volume_heat_j_m3_k);
        span = (span.0.min(drawn_k), span.1.max(drawn_k));
    }
    span
}

/// Days of the longest absence in a design.
fn holidays(spans: &[DaySpan]) -> usize {
    let days = |span: &DaySpan| (0..365).filter(|&day| span.holds(day)).count();
    spans.iter().map(days).max().unwrap_or(0)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Given holidays from 20 July to 2 August (days 200 to 213), fourteen days; over New Year from day
    /// 360 to day 4, ten (by hand).
    #[test]
    fn the_longest_absence_counts() {
        let summer = DaySpan { first: 200, last: 213 };
        let winter = DaySpan { first: 360, last: 4 };
        assert_eq!(holidays(&[summer, winter]), 14);
        assert_eq!(holidays(&[winter]), 10);
        assert_eq!(holidays(&[]), 0);
    }
}
