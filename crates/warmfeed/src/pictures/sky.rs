//! The picture of the sky.

use physics::Angle;
use physics::sun::{Coordinates, Instant, Place, ShadeSpell, SunError, almanac, sun_position};
use physics::tap::DaySpan;
use sheets::page::Picture;
use sheets::pictures::sky::{self, Day, Looks, Near, Sight};

use super::both;
use super::cistern::date;
use crate::commands::Loaded;

/// A common year whose dates the picture shows; the sun's way hardly differs from year to year.
const YEAR: i32 = 2023;
/// Minutes from one point of a way to the next.
const EVERY_MIN: usize = 4;
/// Days of the year on which the sun stands furthest north, over the equator, and furthest south.
const JUNE: usize = 171;
const MARCH: usize = 78;
const DECEMBER: usize = 354;

/// The sky on the equator's side.
///
/// # Errors
/// Where the place lies off the globe.
pub fn sky_picture(loaded: &Loaded) -> Result<Picture, SunError> {
    let sun = &loaded.build.sun;
    let place = &sun.place;
    let is_north = place.latitude.degrees() >= 0.0;
    let named = [("21 June", JUNE), ("equinox", MARCH), ("21 December", DECEMBER)];
    let mut days = named
        .into_iter()
        .map(|(name, day)| {
            let at = |minute: usize| sight(place, day, minute as f64);
            Ok(Day {
                name: name.to_owned(),
                way: (0..=1440).step_by(EVERY_MIN).map(at).collect::<Result<_, _>>()?,
                hours: (0..24).map(|hour| at(60 * hour)).collect::<Result<_, _>>()?,
            })
        })
        .collect::<Result<Vec<_>, SunError>>()?;
    if !is_north {
        days.reverse();
    }
    let horizon: Vec<Sight> = if sun.horizon.is_open() {
        Vec::new()
    } else {
        (0..=720)
            .map(|half| {
                let azimuth_deg = 0.5 * f64::from(half);
                let height = sun.horizon.height(Angle::from_degrees(azimuth_deg));
                Sight { azimuth_deg, height_deg: height.degrees() }
            })
            .collect()
    };
    let near = sun
        .near_shade
        .spells
        .iter()
        .map(|spell| near(place, spell))
        .collect::<Result<Vec<_>, _>>()?;
    let panel_words = format!(
        "The panel faces {:.0}\u{b0} from north and lies at {:.0}\u{b0}. Dots are hours of the clock, \
         {} UTC.",
        sun.plane.facing.degrees(),
        sun.plane.tilt.degrees(),
        clock_words(place.clock_ahead_h)
    );
    let facts = sky::Facts {
        title: &loaded.design.title,
        looks: if is_north { Looks::South } else { Looks::North },
        days: &days,
        horizon: &horizon,
        near: &near,
        panel_words: &panel_words,
    };
    Ok(both(|width| sky::draw(&facts, width)))
}

fn clock_words(ahead_h: f64) -> String {
    match ahead_h {
        0.0 => "that of".to_owned(),
        ahead_h if ahead_h > 0.0 => format!("{ahead_h} h ahead of"),
        behind_h => format!("{} h behind", -behind_h),
    }
}

/// Where the sun is seen at a minute of a day's standard time.
fn sight(place: &Place, day: usize, minute: f64) -> Result<Sight, SunError> {
    let coordinates = Coordinates { latitude: place.latitude, longitude: place.longitude };
    let sun = sun_position(&coordinates, instant(place, day, minute))?;
    Ok(Sight {
        azimuth_deg: sun.azimuth.degrees(),
        height_deg: 90.0 - sun.apparent_zenith.degrees(),
    })
}

/// Days since J2000.0 at a minute of a day's standard time.
fn instant(place: &Place, day: usize, minute: f64) -> f64 {
    let new_year = Instant { year: YEAR, month: 1, day: 1, hour: 0.0 };
    let hour = 24.0 * day as f64 + minute / 60.0 - place.clock_ahead_h;
    new_year.days_since_j2000() + hour / 24.0
}

/// Where a shade falls: between the sun's ways of its days that lie furthest apart, in its hours.
fn near(place: &Place, spell: &ShadeSpell) -> Result<Near, SunError> {
    let mut ends: Option<[(f64, usize); 2]> = None;
    let falls = |day: usize| spell.days.is_empty() || spell.days.iter().any(|span| span.holds(day));
    for day in (0..365).filter(|&day| falls(day)) {
        let declination_deg = almanac(instant(place, day, 720.0))?.declination.degrees();
        let here = (declination_deg, day);
        ends = Some(match ends {
            None => [here, here],
            Some([low, high]) => {
                [if here.0 < low.0 { here } else { low }, if here.0 > high.0 { here } else { high }]
            }
        });
    }
    let (from_min, to_min) = (usize::from(spell.from_min), usize::from(spell.to_min));
    let long_min = if from_min < to_min { to_min - from_min } else { to_min + 1440 - from_min };
    let mut outline = Vec::new();
    if let Some([(_, low), (_, high)]) = ends {
        let way = |day: usize| -> Result<Vec<Sight>, SunError> {
            (0..=long_min)
                .step_by(5)
                .map(|past| sight(place, day, (from_min + past) as f64))
                .collect()
        };
        outline = way(high)?;
        outline.extend(way(low)?.into_iter().rev());
    }
    let clock = |minute: u16| format!("{:02}:{:02}", minute / 60, minute % 60);
    let leaves = format!("leaves {:.0} %", 100.0 * spell.beam_share);
    Ok(Near {
        name: format!("shade, {leaves}"),
        words: format!(
            "{}, {} to {}: {leaves} of the beam",
            days_words(&spell.days),
            clock(spell.from_min),
            clock(spell.to_min)
        ),
        outline,
    })
}

fn days_words(spans: &[DaySpan]) -> String {
    if spans.is_empty() {
        return "all days".to_owned();
    }
    let each: Vec<String> = spans
        .iter()
        .map(|span| {
            format!("{} to {}", date(usize::from(span.first)), date(usize::from(span.last)))
        })
        .collect();
    each.join(" and ")
}

#[cfg(test)]
mod tests {
    use super::{DECEMBER, JUNE, MARCH, sight};
    use physics::Angle;
    use physics::sun::Place;

    fn place(latitude_deg: f64, longitude_deg: f64, clock_ahead_h: f64) -> Place {
        Place {
            latitude: Angle::from_degrees(latitude_deg),
            longitude: Angle::from_degrees(longitude_deg),
            elevation_m: 0.0,
            clock_ahead_h,
        }
    }

    /// Given days of solstice and equinox, the sun's greatest height is 90 degrees less the latitude
    /// and plus the declination, 23.44 degrees, nought, and its negative (obliquity of the ecliptic,
    /// any almanac): within 0.2 degrees for the hour of the equinox and the air's lift.
    #[test]
    fn noon_heights_are_those_of_the_almanac() {
        for (latitude_deg, longitude_deg, clock_h) in [(54.6, -5.9, 0.0), (-38.3, -72.0, -4.0)] {
            let place = place(latitude_deg, longitude_deg, clock_h);
            for (day, declination_deg) in [(JUNE, 23.44), (MARCH, 0.0), (DECEMBER, -23.44)] {
                let heights = (0..1440).map(|minute| sight(&place, day, f64::from(minute)));
                let most_deg = heights
                    .map(|sight| sight.expect("a place").height_deg)
                    .fold(f64::MIN, f64::max);
                let wanted_deg = 90.0 - (latitude_deg - declination_deg).abs();
                assert!((most_deg - wanted_deg).abs() < 0.2, "{most_deg} for {wanted_deg}");
            }
        }
    }

    /// Given a clock four hours behind UTC at 60 degrees west, noon of the clock is noon of the sun to
    /// the equation of time (15 degrees of longitude an hour): at the equinox the sun stands due north
    /// of 38 degrees south within 3 degrees.
    #[test]
    fn hours_are_the_household_clocks() {
        let sun = sight(&place(-38.0, -60.0, -4.0), MARCH, 720.0).expect("a place");
        let beside_deg = (sun.azimuth_deg + 180.0).rem_euclid(360.0) - 180.0;
        assert!(beside_deg.abs() < 3.5, "{beside_deg}");
    }
}
