//! Heat between a tube's wall and the fluid in it.

use super::error::CircuitError;
use super::friction::{BRIDGE, LAMINAR_BELOW, check_curvature, critical_reynolds_schmidt_1967};
use crate::matter::fluid::FluidProperties;

/// Flow in a tube that is warmed or cooled over a length.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TubeFlow {
    /// Reynolds number on the bore, 0 or more.
    pub reynolds: f64,
    /// Prandtl number, more than 0; water 2 to 13, cold glycol 100 and more.
    pub prandtl: f64,
    /// Bore \[m\].
    pub bore_m: f64,
    /// Length over which heat passes \[m\]; infinite for developed flow.
    pub length_m: f64,
    /// How heat enters.
    pub heating: Heating,
}

/// How heat enters a tube along its length. Only laminar flow cares.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Heating {
    /// The wall is equally warm all along: a coil in a mixed cistern.
    EvenWall,
    /// Equal heat enters all along: a tube on a sheet in the sun.
    EvenFlux,
}

/// Mean Nusselt number over a straight tube's length.
///
/// Below Re 2300 Gnielinski's laminar mean with the entry's help; above 4000 Gnielinski 1976;
/// between them the straight line of Gnielinski 2013, so that no step is left.
///
/// - `flow`: see [`TubeFlow`].
///
/// Returns film coefficient times bore over conductivity.
///
/// # Valid range
/// Re 0 to 1e6, Pr 0.5 to 2000; a [`CircuitError`] outside. At no flow the laminar limit stands
/// (3.66 or 4.36). Hot and cold walls are not told apart (viscosity at the wall), which costs 2 to
/// 5 % in warm water; Gnielinski's entry term above 4000, 1 + (D/L)^(2/3), is left out: 2 % for
/// a tube of 400 bores.
///
/// # Source
/// Gnielinski, Int. J. Heat Mass Transfer 63 (2013) 134: a line between the equations' values at
/// 2300 and 4000 (abstract seen). We take his equation of 1976 for the upper end, the one that
/// also stands above it; his form of 1995 is a third higher there.
///
/// # Checked
/// Each branch by its own function; FN-10 through this door, to 0.2 %.
///
/// # Example
/// ```
/// use physics::circuit::film::{Heating, TubeFlow, nusselt_tube};
/// let riser = TubeFlow {
///     reynolds: 1000.0,
///     prandtl: 4.0,
///     bore_m: 0.0068,
///     length_m: 1.8,
///     heating: Heating::EvenWall,
/// };
/// assert!((nusselt_tube(&riser).unwrap() - 4.5).abs() < 0.2);
/// ```
pub fn nusselt_tube(flow: &TubeFlow) -> Result<f64, CircuitError> {
    check(flow)?;
    if flow.reynolds <= LAMINAR_BELOW {
        Ok(laminar_mean(flow, flow.reynolds))
    } else if flow.reynolds >= TURBULENT_ABOVE {
        Ok(nusselt_gnielinski_1976(flow.reynolds, flow.prandtl))
    } else {
        let turbulent = nusselt_gnielinski_1976(TURBULENT_ABOVE, flow.prandtl);
        let laminar = laminar_mean(flow, LAMINAR_BELOW);
        Ok(nusselt_transition_gnielinski_2013(flow.reynolds, laminar, turbulent))
    }
}

/// Mean Nusselt number in a tube wound to a helix.
///
/// Schmidt 1967, laminar up to the critical Reynolds number and turbulent from a quarter above
/// it; a straight line of our own between. Where the entry's help makes a straight tube better
/// than that (short coil, slow flow), the straight tube's value stands.
///
/// - `flow`: see [`TubeFlow`].
/// - `curvature`: bore over the turn's diameter, middle to middle; 0 for a straight tube.
///
/// # Valid range
/// As [`nusselt_tube`], curvature 0 to 0.3; a [`CircuitError`] outside.
///
/// # Checked
/// The turbulent branch by C-10 through its own function, C-06 for the critical number.
pub fn nusselt_helix(flow: &TubeFlow, curvature: f64) -> Result<f64, CircuitError> {
    check_curvature(curvature)?;
    if curvature == 0.0 {
        return nusselt_tube(flow);
    }
    check(flow)?;
    let critical = critical_reynolds_schmidt_1967(curvature);
    // Schmidt knows no entry, so while the helix is laminar a straight entry may be the better.
    let laminar = |re: f64| {
        nusselt_helix_laminar_schmidt_1967(re, flow.prandtl, curvature).max(laminar_mean(flow, re))
    };
    let turbulent = |re: f64| nusselt_helix_turbulent_schmidt_1967(re, flow.prandtl, curvature);
    Ok(if flow.reynolds <= critical {
        laminar(flow.reynolds)
    } else if flow.reynolds >= critical * BRIDGE {
        turbulent(flow.reynolds)
    } else {
        let share = (flow.reynolds / critical - 1.0) / (BRIDGE - 1.0);
        (1.0 - share) * laminar(critical) + share * turbulent(critical * BRIDGE)
    })
}

/// Film coefficient \[W/(m2 K)\] on the bore's surface from a Nusselt number.
///
/// ```text
/// h = Nu k / D
/// ```
pub fn film_w_m2_k(nusselt: f64, properties: &FluidProperties, bore_m: f64) -> f64 {
    nusselt * properties.conductivity_w_m_k / bore_m
}

/// Gnielinski's laminar mean over a length, the velocity profile developed at the entry.
///
/// ```text
/// even wall: Nu = [3.66^3  + 0.7^3 + (1.615 Gz^(1/3) - 0.7)^3]^(1/3)
/// even flux: Nu = [4.364^3 + 0.6^3 + (1.953 Gz^(1/3) - 0.6)^3]^(1/3),   Gz = Re Pr D/L
/// ```
///
/// # Valid range
/// Laminar flow, so Re below 2300; any Graetz number from 0, where the developed limit stands. The
/// front door keeps it.
///
/// # Source
/// Gnielinski, Chemie Ingenieur Technik 61 (1989) 160, and his chapter of the engineers' heat
/// atlas; from memory.
///
/// # Checked
/// B-NU-10 and B-NU-12 at their lower end (even wall) to 1e-6; B-NU-01's limits to 0.2 %;
/// Hausen's equation (B-NU-07, B-NU-09) to 3 %.
pub fn nusselt_laminar_gnielinski_1989(graetz: f64, heating: Heating) -> f64 {
    let (limit, shift, slope) = match heating {
        Heating::EvenWall => (3.66f64, 0.7f64, 1.615),
        Heating::EvenFlux => (4.364, 0.6, 1.953),
    };
    (limit.powi(3) + shift.powi(3) + (slope * graetz.cbrt() - shift).powi(3)).cbrt()
}

/// Hausen's laminar mean over a length, even wall, developed velocity.
///
/// ```text
/// Nu = 3.66 + 0.0668 Gz / (1 + 0.04 Gz^(2/3)),   Gz = Re Pr D/L
/// ```
///
/// # Valid range
/// Laminar flow, so Re below 2300; any Graetz number from 0, where 3.66 stands. Not checked here.
///
/// # Source
/// Hausen, Z. VDI Beihefte Verfahrenstechnik 4 (1943) 91.
///
/// # Checked
/// B-NU-07 and B-NU-09 to 1e-6.
pub fn nusselt_hausen_1943(graetz: f64) -> f64 {
    3.66 + 0.0668 * graetz / (1.0 + 0.04 * graetz.powf(2.0 / 3.0))
}

/// Gnielinski's turbulent equation for smooth tubes, developed flow.
///
/// ```text
/// Nu = (f/8)(Re - 1000) Pr / [1 + 12.7 sqrt(f/8) (Pr^(2/3) - 1)],  f = (0.79 ln Re - 1.64)^-2
/// ```
///
/// # Valid range
/// Re 3000 to 5e6, Pr 0.5 to 2000; the front door keeps it.
///
/// # Source
/// Gnielinski, Int. Chem. Eng. 16 (1976) 359; friction by Petukhov 1970.
///
/// # Checked
/// B-NU-02, B-NU-04, B-NU-06 to 1e-6.
pub fn nusselt_gnielinski_1976(reynolds: f64, prandtl: f64) -> f64 {
    let eighth = (0.79 * reynolds.ln() - 1.64).powi(-2) / 8.0;
    eighth * (reynolds - 1000.0) * prandtl / petukhov_divisor(eighth, prandtl)
}

/// Gnielinski's later turbulent equation, with the entry's help.
///
/// ```text
/// Nu = (f/8) Re Pr / [1 + 12.7 sqrt(f/8) (Pr^(2/3) - 1)] [1 + (D/L)^(2/3)]
/// f = (1.8 log10 Re - 1.5)^-2
/// ```
///
/// # Valid range
/// Re from 10 000; used at 4000 only as the end of a line.
///
/// # Source
/// Gnielinski, Forschung im Ingenieurwesen 61 (1995) 240, from memory; friction by Konakov 1946.
///
/// # Checked
/// B-NU-10 and B-NU-12 at their upper end, to 1e-6.
pub fn nusselt_gnielinski_1995(reynolds: f64, prandtl: f64, bore_over_length: f64) -> f64 {
    let eighth = (1.8 * reynolds.log10() - 1.5).powi(-2) / 8.0;
    eighth * reynolds * prandtl / petukhov_divisor(eighth, prandtl)
        * (1.0 + bore_over_length.powf(2.0 / 3.0))
}

/// The straight line from laminar at 2300 to turbulent at 4000.
///
/// ```text
/// Nu = (1 - g) Nu_2300 + g Nu_4000,   g = (Re - 2300)/1700
/// ```
///
/// # Valid range
/// Re 2300 to 4000; beyond its ends the line just goes on. The front door keeps it.
///
/// # Source
/// Gnielinski, Int. J. Heat Mass Transfer 63 (2013) 134.
///
/// # Checked
/// B-NU-10 and B-NU-12 to 1e-6.
pub fn nusselt_transition_gnielinski_2013(reynolds: f64, laminar: f64, turbulent: f64) -> f64 {
    let share = (reynolds - LAMINAR_BELOW) / (TURBULENT_ABOVE - LAMINAR_BELOW);
    (1.0 - share) * laminar + share * turbulent
}

/// Schmidt's laminar equation for a helix.
///
/// ```text
/// Nu = 3.65 + 0.08 [1 + 0.8 (Di/Dc)^0.9] Re^[0.5 + 0.2903 (Di/Dc)^0.194] Pr^(1/3)
/// ```
///
/// # Valid range
/// Re 100 to the critical number (the range the later literature gives for Schmidt's laminar
/// equations). Below, it tends to 3.65; the front door keeps the upper end.
///
/// # Source
/// Schmidt, Chemie Ingenieur Technik 39 (1967) 781, from memory.
pub fn nusselt_helix_laminar_schmidt_1967(reynolds: f64, prandtl: f64, curvature: f64) -> f64 {
    let power = 0.5 + 0.2903 * curvature.powf(0.194);
    3.65 + 0.08 * (1.0 + 0.8 * curvature.powf(0.9)) * reynolds.powf(power) * prandtl.cbrt()
}

/// Schmidt's turbulent equations for a helix.
///
/// ```text
/// Re < 22000: Nu = 0.023 [1 + 14.8 (1 + Di/Dc)(Di/Dc)^(1/3)] Re^[0.8 - 0.22 (Di/Dc)^0.1] Pr^(1/3)
/// above:      Nu = 0.023 [1 + 3.6 (1 - Di/Dc)(Di/Dc)^0.8] Re^0.8 Pr^(1/3)
/// ```
///
/// # Valid range
/// From the critical Reynolds number to 1.5e5; used beyond. The front door keeps the lower end.
///
/// # Source
/// Schmidt 1967.
///
/// # Checked
/// C-10 to 1e-6.
pub fn nusselt_helix_turbulent_schmidt_1967(reynolds: f64, prandtl: f64, curvature: f64) -> f64 {
    let (gain, power) = if reynolds < 22_000.0 {
        (14.8 * (1.0 + curvature) * curvature.cbrt(), 0.8 - 0.22 * curvature.powf(0.1))
    } else {
        (3.6 * (1.0 - curvature) * curvature.powf(0.8), 0.8)
    };
    0.023 * (1.0 + gain) * reynolds.powf(power) * prandtl.cbrt()
}

/// Where flow in a straight tube has become turbulent.
const TURBULENT_ABOVE: f64 = 4000.0;

fn laminar_mean(flow: &TubeFlow, reynolds: f64) -> f64 {
    let graetz = reynolds * flow.prandtl * flow.bore_m / flow.length_m;
    nusselt_laminar_gnielinski_1989(graetz, flow.heating)
}

fn petukhov_divisor(eighth: f64, prandtl: f64) -> f64 {
    1.0 + 12.7 * eighth.sqrt() * (prandtl.powf(2.0 / 3.0) - 1.0)
}

fn check(flow: &TubeFlow) -> Result<(), CircuitError> {
    let TubeFlow { reynolds, prandtl, bore_m, length_m, .. } = *flow;
    let possible = (0.0..=1e6).contains(&reynolds);
    CircuitError::unless(possible, "the Reynolds number", reynolds, "0 to 1e6")?;
    let possible = (0.5..=2000.0).contains(&prandtl);
    CircuitError::unless(possible, "the Prandtl number", prandtl, "0.5 to 2000")?;
    let possible = bore_m.is_finite() && bore_m > 0.0;
    CircuitError::unless(possible, "the bore in m", bore_m, "more than 0")?;
    CircuitError::unless(length_m > 0.0, "the length in m", length_m, "more than 0")?;
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    /// No step at 2300 or 4000, and none at a helix's bridge: a thousandth in Re may move the
    /// film by no more than 1 %. (At 22 000 Schmidt's own two forms part by 2 %; no coil at hand
    /// gets there.)
    #[test]
    fn the_film_has_no_steps() {
        for prandtl in [2.0, 5.0, 40.0] {
            for curvature in [0.0, 0.02, 0.0453, 0.1] {
                let at = |reynolds: f64| {
                    let flow = TubeFlow {
                        reynolds,
                        prandtl,
                        bore_m: 0.0136,
                        length_m: 1.5,
                        heating: Heating::EvenWall,
                    };
                    nusselt_helix(&flow, curvature).unwrap()
                };
                let mut reynolds = 50.0;
                while reynolds < 21_000.0 {
                    let (here, there) = (at(reynolds), at(reynolds * 1.001));
                    assert!(
                        (there / here - 1.0).abs() < 0.01,
                        "Pr {prandtl}, curvature {curvature}, Re {reynolds}: {here} to {there}"
                    );
                    reynolds *= 1.001;
                }
            }
        }
    }

    #[test]
    fn impossible_numbers_are_said() {
        let flow = TubeFlow {
            reynolds: 1e4,
            prandtl: 3.0,
            bore_m: 0.01,
            length_m: 5.0,
            heating: Heating::EvenFlux,
        };
        assert!(nusselt_tube(&TubeFlow { reynolds: f64::NAN, ..flow }).is_err());
        assert!(nusselt_tube(&TubeFlow { prandtl: 0.0, ..flow }).is_err());
        assert!(nusselt_tube(&TubeFlow { bore_m: 0.0, ..flow }).is_err());
        assert!(nusselt_tube(&TubeFlow { length_m: -1.0, ..flow }).is_err());
        assert!(nusselt_helix(&flow, 0.5).is_err());
    }
}
