//! Flow that warmth alone keeps up between a panel and a store above it.

use super::error::CircuitError;
use super::friction::FrictionMethod;
use super::gravity::{Column, drive_pa};
use super::pipe::{Run, pressure_drop};
use crate::balance::crossing;
use crate::matter::fluid::{Fluid, FluidProperties, highest_k, properties};

/// A panel under its store, with a hot leg up and a cold leg down.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Thermosiphon {
    /// Heat that the panel gives to the fluid \[W\].
    pub heat_w: f64,
    /// Temperature in the cold leg, absolute \[K\].
    pub cold_k: f64,
    /// Height from the panel's inlet to its outlet \[m\].
    pub panel_rise_m: f64,
    /// Height from the panel's outlet to where the hot leg enters the store \[m\].
    pub hot_rise_m: f64,
    /// Bore of both legs \[m\].
    pub bore_m: f64,
    /// Height of the walls' unevenness, legs and risers \[m\]; drawn copper 1.5e-6.
    pub roughness_m: f64,
    /// Length of the hot leg \[m\].
    pub hot_leg_m: f64,
    /// Length of the cold leg \[m\].
    pub cold_leg_m: f64,
    /// Sum of the fittings' loss figures, half of it in each leg.
    pub fittings_loss: f64,
    /// Risers side by side.
    pub risers: u32,
    /// Their bore \[m\].
    pub riser_bore_m: f64,
    /// Their length \[m\].
    pub riser_length_m: f64,
}

/// The flow that settles.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ThermosiphonFlow {
    /// Flow \[kg/s\].
    pub flow_kg_s: f64,
    /// Hot leg over cold leg \[K\].
    pub rise_k: f64,
    /// Head of the weights, which friction takes up \[Pa\].
    pub drive_pa: f64,
}

/// Flow that a steady heat keeps up by itself.
///
/// ```text
/// g [h (rho_c - rho_h) + r (rho_c - rho_m)] = friction(cold leg, risers, hot leg)
/// m = Q/(cp (Th - Tc))
/// ```
///
/// h rise of the hot leg, r of the panel, rho_m and cp at the mean of Tc and Th.
///
/// - `given`: heat, heights, pipes.
/// - `fluid`: what runs.
///
/// # Valid range
/// Cold leg at Tc, hot leg at Th, panel at the mean: steady, lagged, headers free of friction, no
/// reverse flow. Positive heat, heights of 0 or more and not both 0, positive bores and lengths; a
/// [`CircuitError`] outside, and one where not even the hottest fluid in the data runs fast enough
/// to carry the heat away. Boiling is not looked at: compare the hot leg with
/// [`boiling_k`](crate::matter::fluid::boiling_k).
///
/// # Source
/// Balance of weights and friction: Close, Solar Energy 6 (1962) 33; Duffie and Beckman 2006,
/// section 12.
///
/// # Checked
/// B-TS-01 and B-TS-03 to 1e-5, with the properties they state; the closed form of slow flow in a
/// fluid that hardly grows, to 1e-5.
///
/// # Example
/// ```
/// use physics::circuit::thermosiphon::{Thermosiphon, thermosiphon};
/// use physics::matter::fluid::Fluid;
/// let given = Thermosiphon {
///     heat_w: 1200.0,
///     cold_k: 303.15,
///     panel_rise_m: 0.9,
///     hot_rise_m: 0.6,
///     bore_m: 0.0202,
///     roughness_m: 1.5e-6,
///     hot_leg_m: 3.0,
///     cold_leg_m: 4.0,
///     fittings_loss: 8.0,
///     risers: 8,
///     riser_bore_m: 0.0068,
///     riser_length_m: 1.8,
/// };
/// let flow = thermosiphon(&given, Fluid::Water).unwrap();
/// assert!((flow.rise_k - 18.9).abs() < 0.1);
/// ```
pub fn thermosiphon(given: &Thermosiphon, fluid: Fluid) -> Result<ThermosiphonFlow, CircuitError> {
    thermosiphon_of(given, highest_k(fluid), |temperature_k| properties(fluid, temperature_k))
}

/// As [`thermosiphon`], of a fluid known by its own law.
///
/// - `hottest_k`: up to where the law reaches, absolute \[K\].
/// - `law`: properties at an absolute temperature.
///
/// # Valid range
/// As [`thermosiphon`].
pub fn thermosiphon_of<E: Into<CircuitError>>(
    given: &Thermosiphon,
    hottest_k: f64,
    law: impl Fn(f64) -> Result<FluidProperties, E>,
) -> Result<ThermosiphonFlow, CircuitError> {
    check(given)?;
    let law = |temperature_k: f64| law(temperature_k).map_err(Into::<CircuitError>::into);
    let cold = law(given.cold_k)?;
    let balance = |rise_k: f64| -> Result<(ThermosiphonFlow, f64), CircuitError> {
        let mean = law(given.cold_k + 0.5 * rise_k)?;
        let hot = law(given.cold_k + rise_k)?;
        let flow_kg_s = given.heat_w / (mean.heat_capacity_j_kg_k * rise_k);
        let column =
            |rise_m, fluid: &FluidProperties| Column { rise_m, density_kg_m3: fluid.density_kg_m3 };
        let drive_pa = drive_pa([
            column(-given.panel_rise_m - given.hot_rise_m, &cold),
            column(given.panel_rise_m, &mean),
            column(given.hot_rise_m, &hot),
        ]);
        let leg = |length_m| Run {
            bore_m: given.bore_m,
            length_m,
            roughness_m: given.roughness_m,
            fittings_loss: 0.5 * given.fittings_loss,
        };
        let riser = Run {
            bore_m: given.riser_bore_m,
            length_m: given.riser_length_m,
            roughness_m: given.roughness_m,
            fittings_loss: 0.0,
        };
        let drop_pa = |run: &Run, flow_kg_s: f64, fluid: &FluidProperties| {
            pressure_drop(run, flow_kg_s, fluid, FrictionMethod::Churchill1977)
                .map(|flow| flow.drop_pa)
        };
        let friction_pa = drop_pa(&leg(given.cold_leg_m), flow_kg_s, &cold)?
            + drop_pa(&riser, flow_kg_s / f64::from(given.risers), &mean)?
            + drop_pa(&leg(given.hot_leg_m), flow_kg_s, &hot)?;
        Ok((ThermosiphonFlow { flow_kg_s, rise_k, drive_pa }, drive_pa - friction_pa))
    };
    // A thousandth of a kelvin would ask for tons a second: friction wins there by far.
    let most_k = hottest_k - given.cold_k;
    let what = "the cold leg in K below the hottest that the fluid's data reach";
    CircuitError::unless(most_k > 0.001, what, most_k, "more than 0.001")?;
    let none = |_, missing_pa: f64| CircuitError::NoBalance {
        what: "weight and friction in Pa: even the hottest fluid would not run fast enough",
        missing: missing_pa,
    };
    let rise_k = crossing((0.001, most_k), none, |rise_k| Ok(balance(rise_k)?.1))?;
    Ok(balance(rise_k)?.0)
}

fn check(given: &Thermosiphon) -> Result<(), CircuitError> {
    let must = "more than 0";
    for (what, value) in [
        ("the heat in W", given.heat_w),
        ("the cold leg's temperature in K", given.cold_k),
        ("the legs' bore in m", given.bore_m),
        ("the risers' bore in m", given.riser_bore_m),
        ("the hot leg in m", given.hot_leg_m),
        ("the cold leg in m", given.cold_leg_m),
        ("the risers' length in m", given.riser_length_m),
        ("the rise of panel and hot leg in m", given.panel_rise_m + given.hot_rise_m),
        ("the number of risers", f64::from(given.risers)),
    ] {
        CircuitError::unless(value > 0.0 && value.is_finite(), what, value, must)?;
    }
    for (what, value) in [
        ("the panel's rise in m", given.panel_rise_m),
        ("the hot leg's rise in m", given.hot_rise_m),
    ] {
        CircuitError::unless(value >= 0.0, what, value, "0 or more")?;
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::GRAVITY_M_S2;
    use std::f64::consts::PI;

    const USUAL: Thermosiphon = Thermosiphon {
        heat_w: 1200.0,
        cold_k: 303.15,
        panel_rise_m: 0.9,
        hot_rise_m: 0.6,
        bore_m: 0.0202,
        roughness_m: 1.5e-6,
        hot_leg_m: 3.0,
        cold_leg_m: 4.0,
        fittings_loss: 8.0,
        risers: 8,
        riser_bore_m: 0.0068,
        riser_length_m: 1.8,
    };

    /// Given: slow flow of a thick fluid that grows by a millionth a kelvin, no fittings. Expected:
    /// the closed form by hand, with Hagen and Poiseuille's R for each pipe:
    /// m^2 = g rho beta (h + r/2) Q/(cp R), R = 128 mu L/(pi rho D^4). Tolerance: 1e-4, since the
    /// hot leg is lighter by its rise times a millionth.
    #[test]
    fn slow_flow_meets_its_closed_form() {
        let (density, heat_capacity, viscosity, growth) = (1000.0, 4000.0, 0.05, 1e-6);
        let law = |kelvin: f64| {
            Ok::<_, CircuitError>(FluidProperties {
                density_kg_m3: density * (1.0 - growth * (kelvin - 303.15)),
                heat_capacity_j_kg_k: heat_capacity,
                conductivity_w_m_k: 0.6,
                viscosity_pa_s: viscosity,
            })
        };
        let slow = Thermosiphon { heat_w: 1.0, fittings_loss: 0.0, ..USUAL };
        let got = thermosiphon_of(&slow, 1303.15, law).unwrap();
        let resistance = |length_m: f64, bore_m: f64| {
            128.0 * viscosity * length_m / (PI * density * bore_m.powi(4))
        };
        let all = resistance(7.0, 0.0202) + resistance(1.8, 0.0068) / 8.0;
        let flow_kg_s = (GRAVITY_M_S2 * density * growth * (0.6 + 0.45) * slow.heat_w
            / (heat_capacity * all))
            .sqrt();
        assert!((got.flow_kg_s / flow_kg_s - 1.0).abs() < 1e-4, "{} {flow_kg_s}", got.flow_kg_s);
    }

    /// Laws: the heat is carried away; more heat, more flow; a higher store, more flow; thicker
    /// fluid, less flow.
    #[test]
    fn laws_of_a_thermosiphon() {
        let of = |given: &Thermosiphon| thermosiphon(given, Fluid::Water).unwrap();
        let usual = of(&USUAL);
        let mean = properties(Fluid::Water, 303.15 + 0.5 * usual.rise_k).unwrap();
        let carried_w = usual.flow_kg_s * mean.heat_capacity_j_kg_k * usual.rise_k;
        assert!((carried_w / 1200.0 - 1.0).abs() < 1e-12);
        assert!(of(&Thermosiphon { heat_w: 1300.0, ..USUAL }).flow_kg_s > usual.flow_kg_s);
        assert!(of(&Thermosiphon { hot_rise_m: 1.0, ..USUAL }).flow_kg_s > usual.flow_kg_s);
        let thick = thermosiphon(&USUAL, Fluid::PropyleneGlycol { mass_share: 0.4 }).unwrap();
        assert!(thick.flow_kg_s < usual.flow_kg_s);
    }

    /// Given: heat that no such loop carries, and what is no loop. Expected: errors.
    #[test]
    fn what_does_not_run_is_said() {
        let narrow = Thermosiphon { bore_m: 0.003, ..USUAL };
        let error = thermosiphon(&narrow, Fluid::Water).unwrap_err();
        assert!(matches!(error, CircuitError::NoBalance { .. }), "{error}");
        for bad in [
            Thermosiphon { heat_w: 0.0, ..USUAL },
            Thermosiphon { cold_k: 383.15, ..USUAL },
            Thermosiphon { panel_rise_m: 0.0, hot_rise_m: 0.0, ..USUAL },
            Thermosiphon { panel_rise_m: -0.5, ..USUAL },
            Thermosiphon { risers: 0, ..USUAL },
            Thermosiphon { fittings_loss: f64::NAN, ..USUAL },
        ] {
            assert!(thermosiphon(&bad, Fluid::Water).is_err(), "{bad:?}");
        }
    }
}
