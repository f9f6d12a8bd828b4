//! Heat across the air gap between absorber and cover, radiation apart.

use super::error::{PanelError, TEMPERATURES_K, within};
use crate::matter::air::air_properties;
use crate::{Angle, GRAVITY_M_S2};

/// A layer of air between two parallel faces.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Gap {
    /// Slope of the layer against the horizontal, 0 to 90 degrees.
    pub tilt: Angle,
    /// Distance of the faces \[m\], usually 0.01 to 0.05.
    pub depth_m: f64,
    /// Temperature of the lower face, in a panel the absorber \[K\].
    pub hot_k: f64,
    /// Temperature of the upper face, in a panel the cover \[K\].
    pub cold_k: f64,
}

/// Film coefficient of natural convection across a gap \[W/(m2 K)\].
///
/// `h = Nu k / L`, `Ra = g (T1 - T2) L^3 / (T nu alpha)`, air at the mean `T` of both faces.
/// Positive always; the heat flows from the warmer face to the colder.
///
/// Where the lower face is the colder one the layer is stable and only conducts, `Nu = 1`. (In
/// steep layers a weak roll remains; it is left out, so a plate colder than its cover gains a
/// little less here than in truth.)
///
/// # Valid range
/// Tilt 0 to 90 degrees, gap 0.5 mm to 1 m, faces 100 to 1000 K; else an error.
///
/// # Source
/// Hollands et al. 1976 through [`nusselt`]; Duffie and Beckman 2006, eq. 3.11.1 to 3.11.3.
///
/// # Checked
/// NC-01 (Duffie and Beckman, example 3.11.1): 2.78 W/(m2 K) within 1 % with the example's rounded
/// air, 1.4 % below it with ours.
///
/// # Example
/// ```
/// use physics::{Angle, panel::gap::{Gap, gap_film_w_m2_k}};
/// let gap = Gap { tilt: Angle::from_degrees(45.0), depth_m: 0.025, hot_k: 343.15, cold_k: 323.15 };
/// assert!((gap_film_w_m2_k(&gap).unwrap() - 2.78).abs() < 0.05);
/// ```
pub fn gap_film_w_m2_k(gap: &Gap) -> Result<f64, PanelError> {
    let rayleigh = gap_rayleigh(gap)?;
    let conductivity_w_m_k = air_properties(gap.mean_k()).conductivity_w_m_k;
    let nusselt = if rayleigh > 0.0 {
        nusselt(rayleigh, gap.tilt)?
    } else {
        within("tilt of the gap [deg]", gap.tilt.degrees(), STRAIGHT)?;
        1.0
    };
    Ok(nusselt * conductivity_w_m_k / gap.depth_m)
}

/// Rayleigh number of a gap, on its depth; negative where the lower face is the colder one.
///
/// `Ra = g (T1 - T2) L^3 / (T nu alpha)`, air at the mean `T` of both faces.
///
/// # Valid range
/// As [`gap_film_w_m2_k`], whatever the tilt.
///
/// # Source
/// Duffie and Beckman 2006, eq. 3.11.2.
///
/// # Checked
/// Through [`gap_film_w_m2_k`].
pub fn gap_rayleigh(gap: &Gap) -> Result<f64, PanelError> {
    within("gap [m]", gap.depth_m, 5e-4..=1.0)?;
    within("temperature of the gap's lower face [K]", gap.hot_k, TEMPERATURES_K)?;
    within("temperature of the gap's upper face [K]", gap.cold_k, TEMPERATURES_K)?;
    let air = air_properties(gap.mean_k());
    Ok(GRAVITY_M_S2 * (gap.hot_k - gap.cold_k) * gap.depth_m.powi(3)
        / (gap.mean_k() * air.kinematic_viscosity_m2_s * air.diffusivity_m2_s))
}

impl Gap {
    fn mean_k(&self) -> f64 {
        0.5 * (self.hot_k + self.cold_k)
    }
}

/// Nusselt number of a gap heated from below, for any slope up to upright.
///
/// Up to 75 degrees [`nusselt_hollands_1976`]; upright [`nusselt_upright_wright_1996`]; between
/// them linear in the tilt, as ISO 15099 does between its own 60 and 90 degrees, so that nothing
/// jumps at 75.
///
/// # Valid range
/// Tilt 0 to 90 degrees, `rayleigh` 0 or more; else an error.
///
/// # Source
/// As named; ISO 15099:2003, 5.3.3.3 (interpolation).
///
/// # Checked
/// Through its parts; continuity at 75 and 90 degrees.
pub fn nusselt(rayleigh: f64, tilt: Angle) -> Result<f64, PanelError> {
    let degrees = within("tilt of the gap [deg]", tilt.degrees(), STRAIGHT)?;
    if degrees <= HOLLANDS_UP_TO_DEG {
        return nusselt_hollands_1976(rayleigh, tilt);
    }
    let steep = nusselt_hollands_1976(rayleigh, Angle::from_degrees(HOLLANDS_UP_TO_DEG))?;
    let upright = nusselt_upright_wright_1996(rayleigh)?;
    let share = (degrees - HOLLANDS_UP_TO_DEG) / (90.0 - HOLLANDS_UP_TO_DEG);
    Ok(steep + share * (upright - steep))
}

/// Nusselt number of a sloping air layer heated from below.
///
/// `Nu = 1 + 1.44 [1 - 1708 sin(1.8 b)^1.6/(Ra cos b)] [1 - 1708/(Ra cos b)]+ +
/// [(Ra cos b/5830)^(1/3) - 1]+`, where `[ ]+` is zero when negative.
///
/// `rayleigh`: Rayleigh number on the gap's depth; in panels 1e3 to 1e5. `tilt`: slope `b`.
///
/// # Valid range
/// Tilt 0 to 75 degrees, `rayleigh` 0 or more; else an error. Measured to about 1e5; beyond that
/// it goes over into the turbulent third-power law (NC-03 stands at 3e9).
///
/// # Source
/// Hollands, Unny, Raithby and Konicek, J. Heat Transfer 98 (1976) 189, eq. 11.
///
/// # Checked
/// NC-01, NC-02a, NC-02b, NC-02e within 0.002, NC-03 within 0.3 %.
pub fn nusselt_hollands_1976(rayleigh: f64, tilt: Angle) -> Result<f64, PanelError> {
    within("Rayleigh number", rayleigh, 0.0..=f64::MAX)?;
    // A tilt given in degrees comes back from radians with its last digit changed.
    within("tilt of the gap [deg]", tilt.degrees(), 0.0..=HOLLANDS_UP_TO_DEG + 1e-9)?;
    let driving = rayleigh * tilt.cos();
    if driving <= ONSET {
        return Ok(1.0);
    }
    let onset = 1.0 - ONSET / driving;
    let steepness = 1.0 - ONSET * (1.8 * tilt.radians()).sin().powf(1.6) / driving;
    let turbulence = ((driving / 5830.0).cbrt() - 1.0).max(0.0);
    Ok(1.0 + 1.44 * steepness * onset + turbulence)
}

/// Nusselt number of an upright air layer, tall against its depth.
///
/// `1 + 1.7596678e-10 Ra^2.2984755` to 1e4, `0.028154 Ra^0.4134` to 5e4,
/// `0.0673838 Ra^(1/3)` above.
///
/// # Valid range
/// `rayleigh` 0 or more, else an error; height at least about twenty times the depth (a panel's
/// gap is forty and more), so that the fourth branch, for squat cells, never leads.
///
/// # Source
/// Wright, ASHRAE Trans. 102 (1996) 802, as ISO 15099:2003 writes it, eq. 49 to 51.
///
/// # Checked
/// Its branches meet at 1e4 and 5e4 within 1 %; ElSherbiny, Raithby and Hollands 1982 within 6 %.
pub fn nusselt_upright_wright_1996(rayleigh: f64) -> Result<f64, PanelError> {
    within("Rayleigh number", rayleigh, 0.0..=f64::MAX)?;
    Ok(if rayleigh <= 1e4 {
        1.0 + 1.759_667_8e-10 * rayleigh.powf(2.298_475_5)
    } else if rayleigh <= 5e4 {
        0.028154 * rayleigh.powf(0.4134)
    } else {
        0.067_383_8 * rayleigh.cbrt()
    })
}

/// Slopes a panel can have \[deg\], a last digit lost to radians allowed for.
const STRAIGHT: std::ops::RangeInclusive<f64> = 0.0..=90.0 + 1e-9;

/// Steepest slope that Hollands and co-workers measured \[deg\].
const HOLLANDS_UP_TO_DEG: f64 = 75.0;

/// Rayleigh number at which a level layer begins to roll (Hollands 1976; Rayleigh-Benard, 1708).
const ONSET: f64 = 1708.0;

#[cfg(test)]
mod tests {
    use super::*;

    /// Given: one gap at slopes about 75 and 90 degrees. Expected: no jump, by the way the parts
    /// are joined. Tolerance 0.1 % for a thousandth of a degree.
    #[test]
    fn joins_without_a_jump() {
        for rayleigh in [1e3, 5e3, 1e4, 2e4, 5e4, 1e5, 1e6] {
            let at = |degrees| nusselt(rayleigh, Angle::from_degrees(degrees)).unwrap();
            assert!((at(75.001) / at(75.0) - 1.0).abs() < 1e-3, "at Ra {rayleigh}");
            let upright = nusselt_upright_wright_1996(rayleigh).unwrap();
            assert!((at(90.0) - upright).abs() < 1e-9);
        }
    }

    /// Given: the upright relation. Expected: branches that meet (the source states them as one
    /// curve), and ElSherbiny, Raithby and Hollands 1982 (from memory):
    /// `max(0.0605 Ra^(1/3), [1 + (0.104 Ra^0.293 / (1 + (6310/Ra)^1.36))^3]^(1/3))`.
    /// Tolerance 12 %: the authors of both give about 10 % scatter.
    #[test]
    fn upright_branches_meet_and_agree_with_an_older_fit() {
        for joint in [1e4, 5e4] {
            let below = nusselt_upright_wright_1996(joint).unwrap();
            let above = nusselt_upright_wright_1996(joint * (1.0 + 1e-12)).unwrap();
            assert!((above / below - 1.0).abs() < 0.01, "{below} and {above} at {joint}");
        }
        for rayleigh in [3e3_f64, 1e4, 2e4, 5e4, 1e5, 5e5] {
            let rolling = 0.104 * rayleigh.powf(0.293) / (1.0 + (6310.0 / rayleigh).powf(1.36));
            let older = (1.0 + rolling.powi(3)).cbrt().max(0.0605 * rayleigh.cbrt());
            let ours = nusselt_upright_wright_1996(rayleigh).unwrap();
            assert!((ours / older - 1.0).abs() < 0.12, "{ours} and {older} at {rayleigh}");
        }
    }

    /// Given: a lower face colder than the upper. Expected: pure conduction, k/L.
    #[test]
    fn a_stable_layer_only_conducts() {
        let gap =
            Gap { tilt: Angle::from_degrees(30.0), depth_m: 0.02, hot_k: 280.0, cold_k: 300.0 };
        let conduction = air_properties(290.0).conductivity_w_m_k / 0.02;
        assert_eq!(gap_film_w_m2_k(&gap), Ok(conduction));
    }

    /// Given: numbers that mean nothing. Expected: an error, no silent not-a-number.
    #[test]
    fn refuses_nonsense() {
        let sound = Gap { tilt: Angle::ZERO, depth_m: 0.02, hot_k: 300.0, cold_k: 290.0 };
        for wrong in [
            Gap { tilt: Angle::from_degrees(91.0), ..sound },
            Gap { tilt: Angle::from_degrees(91.0), hot_k: 280.0, ..sound },
            Gap { depth_m: 0.0, ..sound },
            Gap { hot_k: f64::NAN, ..sound },
            Gap { cold_k: -5.0, ..sound },
        ] {
            assert!(gap_film_w_m2_k(&wrong).is_err(), "{wrong:?}");
        }
        assert!(nusselt_hollands_1976(-1.0, Angle::ZERO).is_err());
        assert!(nusselt_hollands_1976(1e4, Angle::from_degrees(80.0)).is_err());
    }
}
