//! The immersed coil: from the fluid through film and wall into still water.

use std::f64::consts::PI;

pub use super::convection::StillWater;

use super::convection::still_water_film_w_m2_k;
use super::error::StoreError;
use super::fins::finned_w_m_k;
use super::parts::Coil;
use crate::balance::crossing;
use crate::circuit::film::{Heating, TubeFlow, film_w_m2_k, nusselt_helix};
use crate::matter::fluid::{Fluid, properties_held};

/// What a coil does at one moment.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CoilFilm {
    /// Reynolds number in the tube.
    pub reynolds: f64,
    /// Film inside, on the bore \[W/(m2 K)\].
    pub inside_w_m2_k: f64,
    /// Film outside, on the outside diameter: for a finned tube what all its surface passes, as if
    /// the bare tube did \[W/(m2 K)\].
    pub outside_w_m2_k: f64,
    /// The wall's outer face, absolute \[K\].
    pub wall_k: f64,
    /// Conductance of the whole coil \[W/K\].
    pub ua_w_k: f64,
}

impl CoilFilm {
    /// Conductance per square metre of outside \[W/(m2 K)\].
    pub fn outer_w_m2_k(&self, coil: &Coil) -> f64 {
        self.ua_w_k / (PI * coil.tube.outside_m * coil.length_m)
    }
}

/// Conductance of a coil, with [`StillWater::ChurchillChu1975`] outside.
///
/// See [`coil_conductance_by`].
///
/// # Example
/// ```
/// use physics::matter::fluid::Fluid;
/// use physics::panel::Tube;
/// use physics::store::coil::coil_conductance;
/// use physics::store::{Coil, CoilDirection};
/// let tube = Tube {
///     outside_m: 0.015,
///     bore_m: 0.0136,
///     conductivity_w_m_k: 340.0,
///     density_kg_m3: 8940.0,
///     heat_capacity_j_kg_k: 385.0,
///     roughness_m: 1.5e-6,
/// };
/// let coil = Coil {
///     tube,
///     length_m: 6.0,
///     bottom_height_m: 0.05,
///     top_height_m: 0.25,
///     turn_diameter_m: f64::INFINITY,
///     direction: CoilDirection::Down,
///     fins: None,
/// };
/// let film = coil_conductance(&coil, Fluid::Water, 0.04, 328.15, 303.15).unwrap();
/// assert!((film.ua_w_k - 173.0).abs() < 2.0);
/// ```
pub fn coil_conductance(
    coil: &Coil,
    fluid: Fluid,
    flow_kg_s: f64,
    fluid_k: f64,
    water_k: f64,
) -> Result<CoilFilm, StoreError> {
    let moment = CoilMoment { fluid, flow_kg_s, fluid_k, water_k };
    coil_conductance_by(StillWater::ChurchillChu1975, coil, &moment)
}

/// What runs in a coil, and what it lies in.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CoilMoment {
    /// What runs.
    pub fluid: Fluid,
    /// Flow \[kg/s\], 0 or more.
    pub flow_kg_s: f64,
    /// The fluid's mean temperature, absolute \[K\].
    pub fluid_k: f64,
    /// The water around the coil, absolute \[K\].
    pub water_k: f64,
}

/// Conductance of a coil from fluid to still water.
///
/// ```text
/// 1/UA = 1/(hi pi Di L) + ln(Do/Di)/(2 pi k L) + 1/(ho pi Do L)
/// ```
///
/// Inside: [`nusselt_helix`] with an even wall, straight where the turn's diameter is infinite.
/// Outside: the chosen relation, or [`finned_w_m_k`] where there are fins, at the wall temperature
/// for which the heat through film and wall is the heat the water takes. Each turn is taken as lying alone: a tight coil gets 10 to 25 %
/// less outside (a judgement of the trade, not a measured figure).
///
/// - `relation`: film outside; decides most of the answer.
/// - `coil`: tube, length, turn.
/// - `moment`: fluid, flow, temperatures. Fluid warmer or colder than water alike.
///
/// # Valid range
/// Positive tube and length, flow 0 or more; a [`StoreError`] outside. Properties are held at
/// their range's ends (freezing, 110 C or 100 C). At no flow the inside film is the laminar limit:
/// whoever uses it must know that little heat reaches the coil then. At no difference the answer
/// is finite.
///
/// # Checked
/// C-01, C-03, C-05 (films, wall, UA, effectiveness) and C-11, to 1 %.
pub fn coil_conductance_by(
    relation: StillWater,
    coil: &Coil,
    moment: &CoilMoment,
) -> Result<CoilFilm, StoreError> {
    check(coil, moment)?;
    let CoilMoment { fluid, flow_kg_s, fluid_k, water_k } = *moment;
    let tube = &coil.tube;
    let properties = properties_held(fluid, fluid_k)?;
    let reynolds = 4.0 * flow_kg_s / (PI * tube.bore_m * properties.viscosity_pa_s);
    let flow = TubeFlow {
        reynolds,
        prandtl: properties.prandtl(),
        bore_m: tube.bore_m,
        length_m: coil.length_m,
        heating: Heating::EvenWall,
    };
    let nusselt = nusselt_helix(&flow, tube.bore_m / coil.turn_diameter_m)?;
    let inside_w_m2_k = film_w_m2_k(nusselt, &properties, tube.bore_m);
    let to_wall_k_w = 1.0 / (inside_w_m2_k * PI * tube.bore_m * coil.length_m)
        + (tube.outside_m / tube.bore_m).ln()
            / (2.0 * PI * tube.conductivity_w_m_k * coil.length_m);
    let outside_m2 = PI * tube.outside_m * coil.length_m;

    let difference_k = fluid_k - water_k;
    let film = |wall_k: f64| match &coil.fins {
        None => still_water_film_w_m2_k(relation, tube.outside_m, (wall_k, water_k)),
        Some(fins) => finned_w_m_k(fins, tube.outside_m, (wall_k, water_k))
            .map(|passed_w_m_k| passed_w_m_k / (PI * tube.outside_m)),
    };
    let wall_rise_k = if difference_k == 0.0 {
        0.0
    } else {
        // Sought as a share of the difference, so that both signs of it are one case.
        let share = crossing(
            (0.0, 1.0),
            |_, _| StoreError::NoWallBalance { difference_k },
            |share| {
                let taken = (1.0 - share) / to_wall_k_w;
                Ok(share * film(water_k + share * difference_k)? * outside_m2 - taken)
            },
        )?;
        share * difference_k
    };
    let wall_k = water_k + wall_rise_k;
    let outside_w_m2_k = film(wall_k)?;
    let ua_w_k = 1.0 / (to_wall_k_w + 1.0 / (outside_w_m2_k * outside_m2));
    Ok(CoilFilm { reynolds, inside_w_m2_k, outside_w_m2_k, wall_k, ua_w_k })
}

/// Share of the fluid's excess over the water that a coil takes out of it.
///
/// ```text
/// e = 1 - exp(-UA/C)
/// ```
///
/// The water around the coil is taken as equally warm.
///
/// - `ua_w_k`: conductance \[W/K\], 0 or more.
/// - `rate_w_k`: flow times heat capacity \[W/K\], more than 0.
///
/// # Valid range
/// As stated; a [`StoreError`] outside.
///
/// # Checked
/// ST-08 to 0.0002.
pub fn effectiveness(ua_w_k: f64, rate_w_k: f64) -> Result<f64, StoreError> {
    let good = ua_w_k >= 0.0 && ua_w_k.is_finite();
    StoreError::unless(good, "the coil's conductance in W/K", ua_w_k, "0 or more")?;
    let good = rate_w_k > 0.0 && rate_w_k.is_finite();
    StoreError::unless(good, "the flow's capacity rate in W/K", rate_w_k, "more than 0")?;
    Ok(-(-ua_w_k / rate_w_k).exp_m1())
}

fn check(coil: &Coil, moment: &CoilMoment) -> Result<(), StoreError> {
    let tube = &coil.tube;
    let good = tube.bore_m > 0.0 && tube.bore_m < tube.outside_m && tube.outside_m.is_finite();
    let must = "more than 0, under the outside";
    StoreError::unless(good, "the coil's bore in m", tube.bore_m, must)?;
    let must = "more than 0";
    let good = coil.length_m > 0.0 && coil.length_m.is_finite();
    StoreError::unless(good, "the coil's length in m", coil.length_m, must)?;
    let conductivity = tube.conductivity_w_m_k;
    StoreError::unless(conductivity > 0.0, "the wall's conductivity", conductivity, must)?;
    let turn_m = coil.turn_diameter_m;
    StoreError::unless(turn_m > 0.0, "the turn's diameter in m", turn_m, must)?;
    let good = moment.flow_kg_s >= 0.0 && moment.flow_kg_s.is_finite();
    StoreError::unless(good, "the flow in kg/s", moment.flow_kg_s, "0 or more")?;
    let good = moment.water_k > 0.0 && moment.water_k.is_finite();
    StoreError::unless(good, "the water's temperature in K", moment.water_k, must)?;
    Ok(())
}
