//! What must fit in the sun's station.

use super::{Misfit, metric, report};
use crate::MONTHS;
use crate::catalogue::climates::spots;
use crate::problem::Severity;
use crate::quantity::Kind;
use crate::resolve::weather::{NEAREST, asks_nearest, named_spot, own_months, written_point};
use crate::value::nearest;
use crate::values::Values;
use crate::walk::Desk;
use physics::sun::made::HIGHEST_CLEARNESS;

pub(super) fn check(desk: &mut Desk, values: &Values) {
    let weather = match sources(values).as_slice() {
        [] => Some(no_weather()),
        [_] => None,
        [.., last] => Some(two_weathers(values, last)),
    };
    let misfits = [
        crossed_extremes(values),
        weather,
        unknown_place(values),
        needs_a_point(values),
        far_from_place(values),
        too_bright(values),
        turned(values, "sun.months.air", "colder"),
        turned(values, "sun.months.light", "darker"),
        needless_seed(values),
    ];
    for misfit in misfits.into_iter().flatten() {
        report(desk, values, misfit);
    }
}

/// Where weather is named or written.
fn sources(values: &Values) -> Vec<&'static str> {
    let mut all = vec!["sun.weather", "sun.place"];
    all.retain(|place| values.is_written(place));
    if values.table("sun.months").is_some() {
        all.push("sun.months");
    }
    all
}

fn no_weather() -> Misfit {
    Misfit {
        code: "no-weather",
        severity: Severity::Fault,
        place: "sun".to_owned(),
        found: "no weather".to_owned(),
        expected: "`weather`, `place`, or [sun.months]".to_owned(),
        says: "Nothing says which weather the year has".to_owned(),
        hint: "write `weather = \"file\"`, or `place = \"thames\"` (a place or region of the catalogue), or `place = \"nearest\"` with latitude and longitude",
    }
}

fn two_weathers(values: &Values, last: &str) -> Misfit {
    let all = sources(values).join(" and ");
    Misfit {
        code: "two-weathers",
        severity: Severity::Fault,
        place: last.to_owned(),
        found: all.clone(),
        expected: "one of them".to_owned(),
        says: format!("The weather is given more than once: {all}"),
        hint: "keep one and take the others out",
    }
}

fn unknown_place(values: &Values) -> Option<Misfit> {
    let name = values.word("sun.place")?;
    if asks_nearest(name) || named_spot(values).is_some() {
        return None;
    }
    let keys: Vec<&str> = std::iter::once(NEAREST).chain(spots().map(|spot| spot.key)).collect();
    let near = nearest(name, &keys);
    Some(Misfit {
        code: "unknown-place",
        severity: Severity::Fault,
        place: "sun.place".to_owned(),
        found: format!("\"{name}\""),
        expected: match near {
            Some(near) => format!("a place of the catalogue; \"{near}\" is near in letters"),
            None => format!("one of {}", keys.join(", ")),
        },
        says: format!("\"{name}\" is no place or region of the catalogue"),
        hint: "write `place = \"nearest\"` with latitude and longitude, or your own twelve means in [sun.months]",
    })
}

/// The nearest place, and one's own means, hang on where the house stands.
fn needs_a_point(values: &Values) -> Option<Misfit> {
    let by_point = values.word("sun.place").is_some_and(asks_nearest);
    let place = if by_point {
        "sun.place"
    } else if values.table("sun.months").is_some() {
        "sun.months"
    } else {
        return None;
    };
    let missing: Vec<&str> = ["sun.latitude", "sun.longitude"]
        .into_iter()
        .filter(|place| !values.is_written(place))
        .collect();
    (!missing.is_empty()).then(|| Misfit {
        code: "where-unsaid",
        severity: Severity::Fault,
        place: place.to_owned(),
        found: format!("no {}", missing.join(", no ")),
        expected: "latitude and longitude".to_owned(),
        says: format!("`{place}` needs to know where the house stands: {}", missing.join(" and ")),
        hint: "write `latitude = \"53.8 deg\"` and `longitude = \"-1.5 deg\"` in [sun]; south and west with a minus",
    })
}

/// Farther off than this, a place's weather is another \[m\]; judgement.
const FAR_M: f64 = 100e3;

/// Farther off than this, it is none that could stand in \[m\]; judgement.
const TOO_FAR_M: f64 = 2_000e3;

/// How far off the catalogue's nearest place is: always a word, a warning where it is far, and a fault where
/// its seasons would be turned or nothing is left in common.
fn far_from_place(values: &Values) -> Option<Misfit> {
    let (spot, Some(away_m)) = named_spot(values)? else { return None };
    let (latitude, _) = written_point(values)?;
    let turned = latitude.degrees().abs() > TROPIC_DEG
        && latitude.degrees() * spot.months.latitude.degrees() < 0.0;
    let away = format!("{:.0} km", away_m / 1e3);
    Some(Misfit {
        code: "nearest-place",
        severity: match away_m {
            _ if turned || away_m > TOO_FAR_M => Severity::Fault,
            _ if away_m > FAR_M => Severity::Warning,
            _ => Severity::Note,
        },
        place: "sun.place".to_owned(),
        found: format!("{}, {away} away", spot.name),
        expected: "a place nearby".to_owned(),
        says: match turned {
            true => format!(
                "The nearest place of the catalogue is {}, {away} away beyond the equator: its seasons are turned",
                spot.name
            ),
            false => format!("The nearest place of the catalogue is {}, {away} away", spot.name),
        },
        hint: "a weather file of your own place is better, or its twelve means in [sun.months]",
    })
}

/// A month with more light than reaches the ground anywhere.
fn too_bright(values: &Values) -> Option<Misfit> {
    let months = own_months(values)?;
    let clearness = months.clearness().ok()?;
    let month = (0..12).find(|&month| clearness[month] > HIGHEST_CLEARNESS)?;
    let w_m2 = months.daily_j_m2[month] / 86_400.0;
    let most_w_m2 = w_m2 * HIGHEST_CLEARNESS / clearness[month];
    let (is, most) =
        (metric(Kind::DailyIrradiation, w_m2), metric(Kind::DailyIrradiation, most_w_m2));
    Some(Misfit {
        code: "too-bright",
        severity: Severity::Fault,
        place: "sun.months.light".to_owned(),
        found: format!("{is} in {}", MONTHS[month]),
        expected: format!("at most {most}"),
        says: format!(
            "{} has {is}, and at this latitude no place on earth gets more than {most} then",
            MONTHS[month]
        ),
        hint: "look at the unit (kWh or MJ a day?), at the latitude's sign, and whether January comes first; the light is that on level ground",
    })
}

/// Between the tropics seasons are what they like \[degrees\].
const TROPIC_DEG: f64 = 23.5;

/// Summer's middle below winter's: the means begin with another month, or the latitude's sign is wrong.
fn turned(values: &Values, place: &str, word: &str) -> Option<Misfit> {
    let months = values.months(place)?;
    let (latitude, _) = written_point(values)?;
    if latitude.degrees().abs() <= TROPIC_DEG {
        return None;
    }
    let (summer, winter) = if latitude.degrees() > 0.0 { (6, 0) } else { (0, 6) };
    let kind = if place.ends_with("air") { Kind::Temperature } else { Kind::DailyIrradiation };
    let shown = |month: usize| metric(kind, months[month]);
    (months[summer] < months[winter]).then(|| Misfit {
        code: "seasons-turned",
        severity: Severity::Warning,
        place: place.to_owned(),
        found: format!("{} in {}", shown(summer), MONTHS[summer]),
        expected: format!("more than {}'s {}", MONTHS[winter], shown(winter)),
        says: format!(
            "{} is {word} than {} ({} against {}), and the house stands at latitude {}",
            MONTHS[summer],
            MONTHS[winter],
            shown(summer),
            shown(winter),
            metric(Kind::Angle, latitude.radians())
        ),
        hint: "the first of the twelve is January; a latitude south of the equator has a minus",
    })
}

/// A seed where nothing is drawn.
fn needless_seed(values: &Values) -> Option<Misfit> {
    let draws = values.word("sun.clouds") == Some("minutes") || !values.is_written("sun.weather");
    (values.is_written("sun.seed") && !draws).then(|| Misfit {
        code: "not-used",
        severity: Severity::Warning,
        place: "sun.seed".to_owned(),
        found: values.count("sun.seed").map(|seed| seed.to_string()).unwrap_or_default(),
        expected: "sun.clouds = \"minutes\", or a year made from monthly means".to_owned(),
        says: "`seed` means nothing where a weather file runs smoothly: nothing is drawn"
            .to_owned(),
        hint: "take it out, or write clouds = \"minutes\"",
    })
}

/// A hottest spell that is colder than the coldest night.
fn crossed_extremes(values: &Values) -> Option<Misfit> {
    let cold_k = values.si("sun.extremes.coldest-night")?;
    let hot_k = values.si("sun.extremes.hottest-spell")?;
    let (cold, hot) = (metric(Kind::Temperature, cold_k), metric(Kind::Temperature, hot_k));
    (hot_k <= cold_k).then(|| Misfit {
        code: "extremes-crossed",
        severity: Severity::Fault,
        place: "sun.extremes.hottest-spell".to_owned(),
        found: hot.clone(),
        expected: format!("above {cold}"),
        says: format!("The hottest spell has {hot}, and the coldest night {cold}"),
        hint: "exchange the two, or look at their signs and units",
    })
}
