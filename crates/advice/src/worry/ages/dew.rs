//! Dew on the inside of the cover.

use design::quantity::Kind as Measure;
use physics::panel::stagnation::Spot;
use year::Channel;
use year::heat_of_parts::spot_by_hour;

use crate::AdviceError;
use crate::worry::case::Case;
use crate::worry::finding::{About, Certainty, Figure, Finding, Kind, Limit, Station};
use crate::worry::words::{lasting, percent, words};

/// Share of a year's light that may fall on a wet cover before it is worth a word: judgement.
const WORTH_A_WORD: f64 = 0.02;

/// Hours in which the cover's inside is below the dew point of the air outdoors, which a box that
/// breathes holds.
pub(in crate::worry) fn look(case: &Case) -> Result<Vec<Finding>, AdviceError> {
    let (build, forcing) = case.year.parts();
    let built = case.panel().and_then(|panel| panel.built());
    let outermost = built.and_then(|built| built.covers.len().checked_sub(1));
    let (Some(outermost), Some(sheet_k)) = (outermost, case.minutes.series(Channel::Plate)) else {
        return Ok(Vec::new());
    };
    let inside_k = spot_by_hour(build, forcing, sheet_k, Spot::CoverInside(outermost), 0.0)?;
    let wet = wet(&inside_k, forcing.hours.iter().map(|hour| hour.dew_point_k));
    let hours = wet.iter().filter(|&&is_wet| is_wet).count();
    let light = &forcing.light.plane_w_m2;
    let (mut all, mut under) = (0.0, 0.0);
    for (&is_wet, &plane_w_m2) in wet.iter().zip(light) {
        all += f64::from(plane_w_m2);
        if is_wet {
            under += f64::from(plane_w_m2);
        }
    }
    let share = if all > 0.0 { under / all } else { 0.0 };
    let kind = if share > WORTH_A_WORD { Kind::Mind } else { Kind::Quiet };
    let wet_s = 3600.0 * hours as f64;
    Ok(vec![
        Finding::new(
            About::Ages,
            "dew-inside",
            Station::Panel,
            kind,
            words!(
                "The inside of the cover is below the dew point of outdoor air for {} a year; {} of the year’s light falls on it then",
                lasting(wet_s),
                percent(share)
            ),
        )
        .at("panel.box.air-changes")
        .mend(words!(
            "Drill screened weep holes at the bottom or back, none at the top; dew that is gone by mid-morning does no harm, drops that stay rot wood and wet the wool"
        ))
        .figures(vec![
            Figure::against(
                "light that falls on a wet cover",
                Measure::Share,
                share,
                Limit::at_most(WORTH_A_WORD, "a fiftieth of the light", Certainty::Judgement),
            ),
            Figure::told("inside below the dew point a year", Measure::Time, wet_s),
        ])
        .source(
            "Weep holes at the bottom or back, NAVFAC MO-405; that the box holds outdoor air is common practice",
            Certainty::Seen,
        ),
    ])
}

/// Hour by hour, whether a face is below a dew point.
fn wet(face_k: &[f64], dew_points_k: impl Iterator<Item = f64>) -> Vec<bool> {
    face_k.iter().zip(dew_points_k).map(|(&face_k, dew_k)| face_k < dew_k).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Given a face at 10 C in air of 15 C that holds 80 % or 60 % of the vapour it could. Expected: dew
    /// points of 11.6 and 7.3 C (psychrometric tables, to their tenth): wet, then dry.
    #[test]
    fn a_face_below_the_dew_point_is_wet() {
        let dew = |relative_humidity: f64| {
            physics::sun::dew_point_alduchov_1996(288.15, relative_humidity).expect("within range")
        };
        assert!((dew(0.8) - 284.75).abs() < 0.1 && (dew(0.6) - 280.45).abs() < 0.1);
        assert_eq!(wet(&[283.15, 283.15], [dew(0.8), dew(0.6)].into_iter()), [true, false]);
    }
}
