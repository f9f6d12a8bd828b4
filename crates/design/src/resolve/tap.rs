//! The household of a build.

use crate::catalogue::draws::{self, PROFILE_COLD_K};
use crate::origin::{Origin, Origins};
use crate::quantity::{Kind, Units, show};
use crate::value::minute_of_day;
use crate::values::Values;
use physics::ZERO_CELSIUS_K;
use physics::tap::household::{day_volume_sap_2012_m3, volume_m3};
use physics::tap::{Draw, DrawDays, Heater, Inlet, Mains, Tap, Weekday};

/// The household with its draws, its cold water and its heater.
pub(super) fn tap(values: &Values) -> Option<Tap> {
    let si = |key: &str| values.si(&format!("tap.{key}"));
    let delivery_k = si("delivery")?;
    let (draws, month_factor) = demand(values, delivery_k)?;
    Some(Tap {
        draws,
        month_factor,
        first_weekday: first_weekday(values),
        holidays: values.days("tap.holidays").unwrap_or_default().to_vec(),
        delivery_k,
        mains: mains(values)?,
        heater: match values.word("tap.heater.kind")? {
            "cylinder" => Heater::Cylinder {
                volume_m3: si("heater.volume")?,
                loss_w_k: si("heater.loss")?,
                room_k: si("heater.room")?,
            },
            _ => Heater::Instantaneous(inlet(values)),
        },
    })
}

/// Notes what people or a profile stand for: the amounts and the times are not the file's own.
pub(crate) fn note_demand(values: &Values, origins: &mut Origins) {
    let Some(delivery_k) = values.si("tap.delivery") else { return };
    if values.si("tap.people").is_some_and(|people| people <= 0.0) {
        let origin = Origin::Assumed {
            source: "nobody lives there, so nothing is drawn".to_owned(),
            certainty: "stated".to_owned(),
        };
        origins.note("tap.draw", "none".to_owned(), origin);
        return;
    }
    let (source, certainty) = if values.si("tap.people").is_some() {
        let household = draws::household();
        (
            format!(
                "SAP 2012, 25 N + 36 litres a day for N people, by month as its Table 1c (seen); times of day: {}",
                household.pattern_source
            ),
            household.pattern_certainty.as_str(),
        )
    } else if values.word("tap.profile").is_some() {
        (
            "regulation (EU) 812/2013, Annex VII, Table 3, its energies turned into water at delivery over 10 C".to_owned(),
            "seen; the 10 C from memory",
        )
    } else {
        return;
    };
    let Some((draws, _)) = demand(values, delivery_k) else { return };
    let on = |day: Weekday| {
        let drawn: Vec<f64> =
            draws.iter().filter(|draw| draw.days.holds(day)).map(|draw| draw.volume_m3).collect();
        let day_m3 = drawn.iter().sum();
        format!("{} a day in {} draws", show(Kind::Volume, day_m3, Units::Metric), drawn.len())
    };
    let value = if values.word("tap.weekend-profile").is_some() {
        format!("{}, at the weekend {}", on(Weekday::Monday), on(Weekday::Sunday))
    } else {
        on(Weekday::Monday)
    };
    origins.note("tap.draw", value, Origin::Assumed { source, certainty: certainty.to_owned() });
}

/// The draws of a day and their share by month.
fn demand(values: &Values, delivery_k: f64) -> Option<(Vec<Draw>, [f64; 12])> {
    if let Some(people) = values.si("tap.people") {
        return household(people);
    }
    if let Some(name) = values.word("tap.profile") {
        let draws = match values.word("tap.weekend-profile") {
            None => profile(name, delivery_k, DrawDays::Every)?,
            Some(weekend) => {
                let mut draws = profile(name, delivery_k, DrawDays::Weekdays)?;
                draws.extend(profile(weekend, delivery_k, DrawDays::Weekend)?);
                draws
            }
        };
        return Some((draws, [1.0; 12]));
    }
    let own: Option<Vec<Draw>> = (0..values.members("tap.draw"))
        .map(|at| {
            Some(Draw {
                start_min: values.minute(&format!("tap.draw[{at}].time"))?,
                minutes: whole_minutes(values.si(&format!("tap.draw[{at}].lasts"))? / 60.0),
                volume_m3: values.si(&format!("tap.draw[{at}].volume"))?,
                days: match values.word(&format!("tap.draw[{at}].days")) {
                    Some("weekdays") => DrawDays::Weekdays,
                    Some("weekend") => DrawDays::Weekend,
                    _ => DrawDays::Every,
                },
            })
        })
        .collect();
    Some((own?, [1.0; 12]))
}

fn whole_minutes(minutes: f64) -> u16 {
    minutes.round().clamp(1.0, 1440.0) as u16
}

/// SAP 2012's amount, more in winter, spread over the day by the catalogue's pattern.
fn household(people: f64) -> Option<(Vec<Draw>, [f64; 12])> {
    let pattern = draws::household();
    // An empty house draws nothing; the rule is one for people.
    if people <= 0.0 {
        return Some((Vec::new(), pattern.month_factor));
    }
    let day_m3 = day_volume_sap_2012_m3(people).ok()?;
    let draws: Option<Vec<Draw>> = pattern
        .draw
        .iter()
        .map(|draw| {
            Some(Draw {
                start_min: minute_of_day(&draw.time)?,
                minutes: draw.minutes,
                volume_m3: day_m3 * draw.share,
                days: DrawDays::Every,
            })
        })
        .collect();
    Some((draws?, pattern.month_factor))
}

/// The law's energies as volumes at delivery, from the cold water they count from.
fn profile(name: &str, delivery_k: f64, days: DrawDays) -> Option<Vec<Draw>> {
    draws::profile(name)?
        .draws
        .iter()
        .map(|draw| {
            let volume_m3 = volume_m3(draw.q_kwh * 3.6e6, delivery_k, PROFILE_COLD_K).ok()?;
            Some(Draw {
                start_min: minute_of_day(&draw.time)?,
                minutes: whole_minutes(volume_m3 * 1e3 / draw.flow_l_min),
                volume_m3,
                days,
            })
        })
        .collect()
}

fn first_weekday(values: &Values) -> Weekday {
    match values.word("tap.first-weekday") {
        Some("tuesday") => Weekday::Tuesday,
        Some("wednesday") => Weekday::Wednesday,
        Some("thursday") => Weekday::Thursday,
        Some("friday") => Weekday::Friday,
        Some("saturday") => Weekday::Saturday,
        Some("sunday") => Weekday::Sunday,
        _ => Weekday::Monday,
    }
}

fn inlet(values: &Values) -> Inlet {
    match (values.si("tap.heater.highest-inlet"), values.word("tap.heater.inlet-valve")) {
        (None, _) => Inlet::Any,
        (Some(highest_k), Some("none")) => Inlet::LockedOut { highest_k },
        (Some(highest_k), _) => Inlet::Tempered { highest_k },
    }
}

fn mains(values: &Values) -> Option<Mains> {
    match values.word("tap.mains")? {
        "monthly" => values.months("tap.mains-monthly").map(Mains::Monthly),
        "sinusoid" => Some(Mains::Sinusoid {
            mean_k: values.si("tap.mains-mean")?,
            swing_k: values.si("tap.mains-swing")?,
            coldest_day: f64::from(values.count("tap.mains-coldest-day")?),
        }),
        "from-climate" => Some(Mains::FromClimate),
        named => Some(Mains::Monthly(draws::cold_water(named)?.c.map(|c| c + ZERO_CELSIUS_K))),
    }
}
