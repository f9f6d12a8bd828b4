//! Friction in round tubes: Darcy factors, straight and coiled.

use super::error::CircuitError;

/// Which relation gives the friction of a straight tube.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FrictionMethod {
    /// Churchill 1977: one smooth curve through every regime, which a network settles on.
    Churchill1977,
    /// Colebrook and White 1939, the exact root; 64/Re below 2300.
    Colebrook1939,
    /// Hagen and Poiseuille's 64/Re whatever the Reynolds number: for checks by hand.
    Laminar,
}

/// Darcy friction factor of a straight round tube.
///
/// - `method`: the relation; usually [`FrictionMethod::Churchill1977`].
/// - `reynolds`: Reynolds number on the bore, more than 0.
/// - `relative_roughness`: height of the wall's unevenness over the bore; drawn copper 0.0001.
///
/// Returns the Darcy factor (four times Fanning's).
///
/// # Valid range
/// Any positive Reynolds number, roughness 0 to 0.05; a [`CircuitError`] outside. Between 2300
/// and 4000 flow is not settled: expect the truth anywhere between the two regimes.
///
/// # Checked
/// B-FF-01 to B-FF-10, to 1e-9.
///
/// # Example
/// ```
/// use physics::circuit::friction::{FrictionMethod, friction_factor};
/// let f = friction_factor(FrictionMethod::Churchill1977, 5e4, 0.00011).unwrap();
/// assert!((f - 0.0212).abs() < 1e-4);
/// ```
pub fn friction_factor(
    method: FrictionMethod,
    reynolds: f64,
    relative_roughness: f64,
) -> Result<f64, CircuitError> {
    check(reynolds, relative_roughness)?;
    Ok(match method {
        FrictionMethod::Churchill1977 => friction_churchill_1977(reynolds, relative_roughness),
        FrictionMethod::Colebrook1939 if reynolds >= LAMINAR_BELOW => {
            friction_colebrook(reynolds, relative_roughness)
        }
        FrictionMethod::Colebrook1939 | FrictionMethod::Laminar => 64.0 / reynolds,
    })
}

/// Churchill's factor, smooth through laminar, transition and turbulence.
///
/// ```text
/// f = 8 [(8/Re)^12 + (A + B)^-1.5]^(1/12)
/// A = [2.457 ln(1/((7/Re)^0.9 + 0.27 e/D))]^16,   B = (37530/Re)^16
/// ```
///
/// # Valid range
/// Any positive Reynolds number; the front door [`friction_factor`] checks.
///
/// # Source
/// Churchill, Chemical Engineering 84(24) (1977) 91.
///
/// # Checked
/// B-FF-01 to B-FF-10, to 1e-9.
pub fn friction_churchill_1977(reynolds: f64, relative_roughness: f64) -> f64 {
    let laminar = 8.0 / reynolds;
    // Far below turbulence A and B overflow or vanish in 64 bits and leave 64/Re alone.
    let a = (-2.457 * ((7.0 / reynolds).powf(0.9) + 0.27 * relative_roughness).ln()).powi(16);
    let b = (37530.0 / reynolds).powi(16);
    8.0 * (laminar.powi(12) + (a + b).powf(-1.5)).powf(1.0 / 12.0)
}

/// Colebrook and White's factor, the root found to the last figure.
///
/// ```text
/// 1/sqrt(f) = -2 log10( (e/D)/3.7 + 2.51/(Re sqrt(f)) )
/// ```
///
/// # Valid range
/// Turbulent flow, Re above 4000; below it the equation is solved all the same, as an
/// extrapolation. Positive Reynolds numbers only.
///
/// # Source
/// Colebrook, J. Inst. Civil Eng. 11 (1939) 133.
///
/// # Checked
/// B-FF-04 to B-FF-10, to 1e-9.
pub fn friction_colebrook(reynolds: f64, relative_roughness: f64) -> f64 {
    // Newton on x = 1/sqrt(f), from Haaland's explicit form: convex, five steps are plenty.
    let rough = relative_roughness / 3.7;
    let mut x = -1.8 * (rough.powf(1.11) + 6.9 / reynolds).log10();
    for _ in 0..20 {
        let inner = rough + 2.51 * x / reynolds;
        let value = x + 2.0 * inner.log10();
        let slope = 1.0 + 2.0 * std::f64::consts::LOG10_E * 2.51 / (reynolds * inner);
        let step = value / slope;
        x -= step;
        if step.abs() < 1e-15 * x.abs() {
            break;
        }
    }
    1.0 / (x * x)
}

/// Darcy friction factor of a tube wound to a helix.
///
/// Schmidt 1967 on [`friction_factor`]'s straight tube: laminar up to the critical Reynolds
/// number, turbulent from a quarter above it, and between the two a straight line of our own, so
/// that the pressure drop never falls as the flow rises.
///
/// - `reynolds`: on the bore, more than 0.
/// - `relative_roughness`: over the bore.
/// - `curvature`: bore over the turn's diameter, middle to middle; 0 for a straight tube.
///
/// # Valid range
/// Curvature 0 to 0.3; a [`CircuitError`] outside.
///
/// # Checked
/// C-08 (laminar) and C-10 (turbulent), to 1e-6.
pub fn friction_helix(
    method: FrictionMethod,
    reynolds: f64,
    wall: HelixWall,
) -> Result<f64, CircuitError> {
    let HelixWall { relative_roughness, curvature } = wall;
    check_curvature(curvature)?;
    if curvature == 0.0 {
        return friction_factor(method, reynolds, relative_roughness);
    }
    check(reynolds, relative_roughness)?;
    let critical = critical_reynolds_schmidt_1967(curvature);
    let laminar = |re: f64| friction_helix_laminar_schmidt_1967(re, curvature, 64.0 / re);
    let turbulent = |re: f64| -> Result<f64, CircuitError> {
        let straight = friction_factor(method, re, relative_roughness)?;
        Ok(friction_helix_turbulent_schmidt_1967(re, curvature, straight))
    };
    if reynolds <= critical {
        Ok(laminar(reynolds))
    } else if reynolds >= critical * BRIDGE {
        turbulent(reynolds)
    } else {
        let share = (reynolds / critical - 1.0) / (BRIDGE - 1.0);
        Ok((1.0 - share) * laminar(critical) + share * turbulent(critical * BRIDGE)?)
    }
}

/// The wall of a helix, as the flow sees it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HelixWall {
    /// Height of the unevenness over the bore.
    pub relative_roughness: f64,
    /// Bore over the turn's diameter, middle to middle; 0 for a straight tube.
    pub curvature: f64,
}

/// Reynolds number up to which flow in a helix stays laminar.
///
/// ```text
/// Re_crit = 2300 [1 + 8.6 (Di/Dc)^0.45]
/// ```
///
/// # Valid range
/// Recommended for Di/Dc below 0.14; used up to the front doors' 0.3. Straight tubes get 2300.
///
/// # Source
/// Schmidt, Chemie Ingenieur Technik 39 (1967) 781.
///
/// # Checked
/// C-06 to 1e-6.
pub fn critical_reynolds_schmidt_1967(curvature: f64) -> f64 {
    2300.0 * (1.0 + 8.6 * curvature.powf(0.45))
}

/// Schmidt's laminar factor in a helix, from that of the straight tube.
///
/// ```text
/// f = fs [1 + 0.14 (Di/Dc)^0.97 Re^(1 - 0.644 (Di/Dc)^0.312)]
/// ```
///
/// # Valid range
/// Re 100 to the critical number; below, it tends to the straight tube's factor. The front door
/// keeps the upper end.
///
/// # Source
/// Schmidt 1967.
///
/// # Checked
/// C-08 to 1e-6.
pub fn friction_helix_laminar_schmidt_1967(reynolds: f64, curvature: f64, straight: f64) -> f64 {
    let power = 1.0 - 0.644 * curvature.powf(0.312);
    straight * (1.0 + 0.14 * curvature.powf(0.97) * reynolds.powf(power))
}

/// Schmidt's turbulent factor in a helix, from that of the straight tube.
///
/// ```text
/// Re < 22000: f = fs [1 + 28800/Re (Di/Dc)^0.62]
/// above:      f = fs [1 + 0.0823 (1 + Di/Dc) (Di/Dc)^0.53 Re^0.25]
/// ```
///
/// The larger of the two stands: they cross between 19 000 and 21 000, so this departs from the
/// source by 2 % at most, just below 22 000, and leaves no step on which a network cannot settle.
///
/// # Valid range
/// From the critical Reynolds number to 1.5e5; used beyond. The front door keeps the lower end.
///
/// # Source
/// Schmidt 1967.
///
/// # Checked
/// C-10 to 1e-6, on Colebrook's smooth straight tube.
pub fn friction_helix_turbulent_schmidt_1967(reynolds: f64, curvature: f64, straight: f64) -> f64 {
    let slow = 28_800.0 / reynolds * curvature.powf(0.62);
    let fast = 0.0823 * (1.0 + curvature) * curvature.powf(0.53) * reynolds.powf(0.25);
    straight * (1.0 + slow.max(fast))
}

/// Where flow in a straight tube leaves the laminar regime.
pub(super) const LAMINAR_BELOW: f64 = 2300.0;

/// How far above its critical Reynolds number a helix is taken as turbulent. Our own choice.
pub(super) const BRIDGE: f64 = 1.25;

fn check(reynolds: f64, relative_roughness: f64) -> Result<(), CircuitError> {
    let finite = reynolds.is_finite() && reynolds > 0.0;
    CircuitError::unless(finite, "the Reynolds number", reynolds, "more than 0")?;
    let possible = (0.0..=0.05).contains(&relative_roughness);
    let what = "the roughness over the bore";
    CircuitError::unless(possible, what, relative_roughness, "0 to 0.05")?;
    Ok(())
}

pub(super) fn check_curvature(curvature: f64) -> Result<(), CircuitError> {
    let possible = (0.0..=0.3).contains(&curvature);
    CircuitError::unless(possible, "the bore over the turn's diameter", curvature, "0 to 0.3")?;
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The law behind the bridge: the drop, f Re^2, never falls as the flow rises.
    #[test]
    fn a_helix_s_drop_rises_with_flow() {
        for curvature in [0.01, 0.02, 0.0453, 0.1, 0.2] {
            let wall = HelixWall { relative_roughness: 1e-4, curvature };
            let mut last = 0.0;
            for step in 0..2000 {
                let reynolds = 10.0 * 1e4f64.powf(f64::from(step) / 2000.0);
                let f = friction_helix(FrictionMethod::Churchill1977, reynolds, wall).unwrap();
                let drop = f * reynolds * reynolds;
                assert!(drop > last, "curvature {curvature}, Re {reynolds}");
                // A step of 0.46 % in Re moves a drop by 0.9 % where it goes with the square; a
                // network cannot settle on a jump.
                assert!(drop < 1.015 * last || last == 0.0, "jump at {curvature}, {reynolds}");
                last = drop;
            }
        }
    }

    #[test]
    fn impossible_numbers_are_said() {
        let method = FrictionMethod::Churchill1977;
        assert!(friction_factor(method, 0.0, 0.0).is_err());
        assert!(friction_factor(method, f64::NAN, 0.0).is_err());
        assert!(friction_factor(method, 1e4, -0.1).is_err());
        let wall = HelixWall { relative_roughness: 0.0, curvature: 0.9 };
        assert!(friction_helix(method, 1e4, wall).is_err());
        assert_eq!(friction_factor(FrictionMethod::Colebrook1939, 640.0, 0.0), Ok(0.1));
    }
}
