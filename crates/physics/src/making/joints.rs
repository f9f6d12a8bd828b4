//! How much pressure a soldered tube joint is made for, by how hot it gets.

use super::error::MakingError;
use crate::ZERO_CELSIUS_K;

/// Soft solder between copper tube and fitting.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Solder {
    /// Half tin, half lead; 60/40 is of the same class. Holds lead.
    TinLead,
    /// Tin with a little copper or silver, without lead.
    LeadFree,
}

/// Highest temperature brazed joints are rated to \[K\]: 350 F (copper trade data sheet; seen).
pub const BRAZED_TO_K: f64 = 177.0 + ZERO_CELSIUS_K;

/// Widest tube that the ratings hold for \[m\]: 1 inch nominal, 28.6 mm outside.
const WIDEST_TUBE_M: f64 = 0.0286;

/// The last printed temperature in kelvins and back is a hair off \[K\].
const HAIR_K: f64 = 1e-9;

/// A rating printed for a temperature.
struct Rated {
    at_c: f64,
    bar: f64,
}

impl Solder {
    /// What is printed of it, the coolest first. Pressures of tin-lead are 200, 150, 100 and 85 psi at
    /// 100, 150, 200 and 250 F.
    fn printed(self) -> &'static [Rated] {
        const TIN_LEAD: [Rated; 4] = [
            Rated { at_c: 340.0 / 9.0, bar: 13.78952 },
            Rated { at_c: 590.0 / 9.0, bar: 10.34214 },
            Rated { at_c: 840.0 / 9.0, bar: 6.89476 },
            Rated { at_c: 1090.0 / 9.0, bar: 5.860546 },
        ];
        const LEAD_FREE: [Rated; 3] = [
            Rated { at_c: 30.0, bar: 16.0 },
            Rated { at_c: 65.0, bar: 10.0 },
            Rated { at_c: 110.0, bar: 6.0 },
        ];
        match self {
            Solder::TinLead => &TIN_LEAD,
            Solder::LeadFree => &LEAD_FREE,
        }
    }

    /// Highest temperature its rating is printed for \[K\]: 394 (121 C) for tin-lead, 383 (110 C) for
    /// lead-free by European practice.
    pub fn rated_to_k(self) -> f64 {
        self.printed().last().map_or(0.0, |rated| rated.at_c) + ZERO_CELSIUS_K
    }
}

/// Gauge pressure that a soldered joint is rated for \[Pa\]; `None` hotter than any rating goes.
///
/// Straight lines between the printed temperatures; cooler than the first, the first.
///
/// - `solder`: which.
/// - `outside_m`: the tube's outside diameter \[m\]; 0.015 or 0.022.
/// - `joint_k`: how hot the joint gets \[K\]; a panel left idle in full sun may pass 400.
///
/// # Valid range
/// Tubes up to 28.6 mm outside, temperatures above 0 K; a [`MakingError`] outside. A rating is for
/// joints made right and kept hot for years, not a bursting pressure. Above its last temperature no
/// number is given, since solder creeps there under any lasting load.
///
/// # Source
/// Tin-lead: a copper tube handbook, table 14.4a, 50/50 solder (ASME B16.22 and B16.18; seen).
/// Lead-free: EN 1254-1, capillary fittings (from memory); an American class rates the same joints
/// far higher, 49 bar at 38 C down to 22 bar at 121 C (seen), and the lower is taken.
///
/// # Checked
/// E-08 to 0.1 %, E-11 to its figures; half-way values by hand.
///
/// # Example
/// ```
/// use physics::making::joints::{Solder, rated_pa};
/// let warm_pa = rated_pa(Solder::LeadFree, 0.015, 338.15).unwrap().unwrap();
/// assert!((warm_pa - 10e5).abs() < 1.0);
/// assert_eq!(rated_pa(Solder::LeadFree, 0.015, 400.0).unwrap(), None);
/// ```
pub fn rated_pa(solder: Solder, outside_m: f64, joint_k: f64) -> Result<Option<f64>, MakingError> {
    MakingError::unless(
        outside_m > 0.0 && outside_m <= WIDEST_TUBE_M * (1.0 + 1e-12),
        "the tube's outside diameter in m",
        outside_m,
        "more than 0, up to 0.0286, which the ratings cover",
    )?;
    let joint_c = MakingError::positive("the joint's temperature in K", joint_k)? - ZERO_CELSIUS_K;
    let printed = solder.printed();
    if joint_c <= printed[0].at_c {
        return Ok(Some(printed[0].bar * 1e5));
    }
    let between = printed.windows(2).find(|pair| joint_c <= pair[1].at_c + HAIR_K);
    Ok(between.map(|pair| {
        let share = (joint_c - pair[0].at_c) / (pair[1].at_c - pair[0].at_c);
        let bar = pair[0].bar + share.min(1.0) * (pair[1].bar - pair[0].bar);
        bar * 1e5
    }))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn bar(solder: Solder, celsius: f64) -> Option<f64> {
        rated_pa(solder, 0.015, celsius + ZERO_CELSIUS_K).unwrap().map(|pa| pa / 1e5)
    }

    /// Given: half-way between two printed ratings. Expected: their mean, by hand (13 between 16 and
    /// 10 bar, 8 between 10 and 6; exact to a pascal). Colder than the first: the first.
    #[test]
    fn half_way_between_two_ratings() {
        for (celsius, expected) in [(47.5, 13.0), (87.5, 8.0), (0.0, 16.0), (110.0, 6.0)] {
            let got = bar(Solder::LeadFree, celsius).unwrap();
            assert!((got - expected).abs() < 1e-5, "{celsius} C: {got}");
        }
    }

    /// Laws: hotter never bears more; past the last printed temperature nothing is said.
    #[test]
    fn hotter_bears_less_and_then_nothing_is_said() {
        for solder in [Solder::TinLead, Solder::LeadFree] {
            let last_c = solder.rated_to_k() - ZERO_CELSIUS_K;
            let mut before = f64::INFINITY;
            for tenth in -100..(10.0 * last_c) as i32 {
                let now = bar(solder, 0.1 * f64::from(tenth)).unwrap();
                assert!(now <= before, "{solder:?} at {tenth} tenths");
                before = now;
            }
            assert_eq!(bar(solder, last_c + 0.1), None);
            assert!(solder.rated_to_k() < BRAZED_TO_K);
        }
    }

    /// Given: tubes and temperatures that no rating covers. Expected: errors.
    #[test]
    fn what_no_rating_covers() {
        assert!(rated_pa(Solder::TinLead, 0.035, 300.0).is_err());
        assert!(rated_pa(Solder::TinLead, 0.0, 300.0).is_err());
        assert!(rated_pa(Solder::TinLead, 0.015, f64::NAN).is_err());
    }
}
