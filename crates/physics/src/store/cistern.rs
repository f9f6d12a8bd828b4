//! What the cistern loses: through wall, base and lid, and as vapour; and the loft it stands in.

use super::error::StoreError;
use super::parts::{Loft, Store};
use crate::matter::air::air_properties;
use crate::matter::fluid::saturation_pressure_pa;
use crate::panel::Layer;
use crate::{GRAVITY_M_S2, ZERO_CELSIUS_K};

/// Conductances of a store's envelope to the loft.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StoreLoss {
    /// Wall, for each metre of the water's depth \[W/(m K)\].
    pub wall_w_m_k: f64,
    /// Base \[W/K\].
    pub base_w_k: f64,
    /// Lid \[W/K\].
    pub lid_w_k: f64,
}

impl StoreLoss {
    /// The whole store, all water equally warm \[W/K\].
    pub fn whole_w_k(&self, water_depth_m: f64) -> f64 {
        self.wall_w_m_k * water_depth_m + self.base_w_k + self.lid_w_k
    }
}

/// Conductances of a store's wall, base and lid.
///
/// ```text
/// U = 1/(sum d/k + Rs)        Rs: 0.13 wall, 0.17 base, 0.10 lid, m2 K/W
/// ```
///
/// The film of water inside and the tank's own wall are left out; they are a hundredth of the
/// rest. Under the lid vapour carries heat from water to lid almost freely, so no air there is
/// counted as insulation. Stores in use lose more than this arithmetic, often twice: pipes through
/// the jacket, seams, wet wool.
///
/// - `store`: its layers, depth, perimeter and volume.
/// - `insulation_k`: the insulation's mean temperature, absolute \[K\]; usually 300. Conductivity
///   is that at 10 C with its growth.
///
/// # Valid range
/// Positive depth, volume, perimeter, thicknesses and conductivities; a [`StoreError`] outside.
/// No layer at all is a bare tank.
///
/// # Source
/// Series resistances; surface resistances of still air on dull surfaces, heat flowing sideways,
/// down and up: ISO 6946, table 1 (from memory).
///
/// # Checked
/// By series arithmetic written out, and ST-04's exponential for the store's cooling.
pub fn store_loss(store: &Store, insulation_k: f64) -> Result<StoreLoss, StoreError> {
    for (what, value) in [
        ("the store's volume in m3", store.volume_m3),
        ("the water's depth in m", store.water_depth_m),
        ("the wall's length all round in m", store.perimeter_m),
        ("the insulation's temperature in K", insulation_k),
    ] {
        StoreError::unless(value > 0.0 && value.is_finite(), what, value, "more than 0")?;
    }
    let plan_m2 = store.plan_area_m2();
    Ok(StoreLoss {
        wall_w_m_k: conductance_w_m2_k(&store.wall, SIDEWAYS_M2_K_W, insulation_k)?
            * store.perimeter_m,
        base_w_k: conductance_w_m2_k(&store.base, DOWN_M2_K_W, insulation_k)? * plan_m2,
        lid_w_k: conductance_w_m2_k(&store.lid, UP_M2_K_W, insulation_k)? * plan_m2,
    })
}

/// An open strip of water surface and the air above it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OpenWater {
    /// Open area \[m2\]; the gap around a lid, or the whole surface without one.
    pub gap_m2: f64,
    /// Water at the surface, absolute \[K\].
    pub water_k: f64,
    /// Air of the loft, absolute \[K\].
    pub air_k: f64,
    /// Its dew point, absolute \[K\]: that of outdoors where nothing else is known.
    pub dew_point_k: f64,
}

/// Heat that leaves with vapour \[W\], never negative.
///
/// ```text
/// m = Sh D/L A (rho_v(water) - rho_v(air)),   Sh = 0.15 Ra^(1/3),   Ra = g (d rho/rho) L^3/(nu D)
/// Q = m (2501e3 - 2361 t)
/// ```
///
/// The size L falls out. Moist air over the water rises since it is warm and since vapour is
/// light; the difference in density counts both, the ideal gases' law giving each. The gap is
/// reckoned as open water of its own area: the air under the lid is full of vapour anyway. Where
/// the air over the water is the heavier it stays, and nothing is reckoned; dew on cold water is
/// left out as well.
///
/// - `surface`: see [`OpenWater`].
///
/// # Valid range
/// Water and dew point from 0 to below 100 C, area 0 or more; a [`StoreError`] outside. Above
/// 60 C the true rate is higher, since the vapour itself then blows away from the water.
///
/// # Source
/// Lloyd and Moran, J. Heat Transfer 96 (1974) 443, turbulent plate facing up, measured by mass
/// transfer; heat and mass alike by Lewis. Diffusion of vapour: Marrero and Mason 1972. Latent
/// heat: straight line through the steam table, from memory.
///
/// # Checked
/// Against Shah's formula for quiet pools (2012, from memory, fitted to measured pools) within
/// 12 %, always the lower, for water 5 K and more over the air up to 50 C. With water no warmer
/// than the air a third lower: there stray draughts lead, which nothing here knows. Against the
/// handbook's rate for an unused pool, where it was made for, within 15 %; it leaves out buoyancy
/// and is half of ours at 50 C.
///
/// # Example
/// ```
/// use physics::store::cistern::{OpenWater, evaporation_w};
/// let strip = OpenWater { gap_m2: 0.05, water_k: 318.15, air_k: 293.15, dew_point_k: 283.15 };
/// let heat_w = evaporation_w(&strip).unwrap();
/// assert!(heat_w > 20.0 && heat_w < 45.0);
/// ```
pub fn evaporation_w(surface: &OpenWater) -> Result<f64, StoreError> {
    let OpenWater { gap_m2, water_k, air_k, dew_point_k } = *surface;
    let good = gap_m2 >= 0.0 && gap_m2.is_finite();
    StoreError::unless(good, "the open area in m2", gap_m2, "0 or more")?;
    let boiling_k = ZERO_CELSIUS_K + 100.0;
    let good = water_k < boiling_k;
    StoreError::unless(good, "the water's temperature in K", water_k, "below boiling")?;
    let good = (200.0..boiling_k).contains(&air_k);
    StoreError::unless(good, "the loft's temperature in K", air_k, "200 to 373")?;
    StoreError::unless(!dew_point_k.is_nan(), "the dew point in K", dew_point_k, "a number")?;
    let over_pa = saturation_pressure_pa(water_k)?;
    // Air so dry that its dew point lies below freezing holds little either way.
    let dew_k = dew_point_k.max(ZERO_CELSIUS_K);
    let ambient_pa = saturation_pressure_pa(dew_k)?;
    if over_pa <= ambient_pa {
        return Ok(0.0);
    }
    let lightness = 1.0 - moist_kg_m3(water_k, over_pa) / moist_kg_m3(air_k, ambient_pa);
    if lightness <= 0.0 {
        return Ok(0.0);
    }
    let film_k = 0.5 * (water_k + air_k);
    let diffusion_m2_s = 1.87e-10 * film_k.powf(2.072);
    let kinematic_m2_s = air_properties(film_k).kinematic_viscosity_m2_s;
    let transfer_m_s = 0.15
        * diffusion_m2_s
        * (GRAVITY_M_S2 * lightness / (kinematic_m2_s * diffusion_m2_s)).cbrt();
    let vapour_kg_m3 = (over_pa / water_k - ambient_pa / air_k) / VAPOUR_J_KG_K;
    let latent_j_kg = 2501e3 - 2361.0 * (water_k - ZERO_CELSIUS_K);
    Ok((transfer_m_s * gap_m2 * vapour_kg_m3 * latent_j_kg).max(0.0))
}

/// Air of the loft \[K\], absolute.
///
/// ```text
/// T = w To + (1 - w) Ti + s G
/// ```
///
/// - `loft`: weight of outdoors w, rooms Ti, rise by the sun s.
/// - `outdoor_k`: outdoor air, absolute \[K\].
/// - `plane_irradiance_w_m2`: sun on the panel's plane, which stands for the roof \[W/m2\].
///
/// # Source
/// Common practice: a loft lies between outdoors and the rooms below; in sun its slates heat it
/// past both.
pub fn loft_k(loft: &Loft, outdoor_k: f64, plane_irradiance_w_m2: f64) -> f64 {
    loft.outdoor_weight * outdoor_k
        + (1.0 - loft.outdoor_weight) * loft.indoor_k
        + loft.roof_sun_k_m2_w * plane_irradiance_w_m2
}

/// Surface resistances of still air, ISO 6946 \[m2 K/W\].
const SIDEWAYS_M2_K_W: f64 = 0.13;
const DOWN_M2_K_W: f64 = 0.17;
const UP_M2_K_W: f64 = 0.10;

/// Gas constants of dry air and of water vapour \[J/(kg K)\].
const AIR_J_KG_K: f64 = 287.05;
const VAPOUR_J_KG_K: f64 = 461.5;

const ATMOSPHERE_PA: f64 = 101_325.0;

/// Density of moist air at one atmosphere, both gases ideal.
fn moist_kg_m3(temperature_k: f64, vapour_pa: f64) -> f64 {
    ((ATMOSPHERE_PA - vapour_pa) / AIR_J_KG_K + vapour_pa / VAPOUR_J_KG_K) / temperature_k
}

/// Layers in series and the air's surface resistance.
fn conductance_w_m2_k(
    layers: &[Layer],
    surface_m2_k_w: f64,
    insulation_k: f64,
) -> Result<f64, StoreError> {
    let mut resistance_m2_k_w = surface_m2_k_w;
    for layer in layers {
        let good = layer.thickness_m > 0.0 && layer.thickness_m.is_finite();
        StoreError::unless(good, "a layer's thickness in m", layer.thickness_m, "more than 0")?;
        let warmth_k = insulation_k - (ZERO_CELSIUS_K + 10.0);
        let conductivity_w_m_k =
            layer.conductivity_w_m_k * (1.0 + layer.conductivity_growth_1_k * warmth_k);
        let good = conductivity_w_m_k > 0.0 && conductivity_w_m_k.is_finite();
        let what = "a layer's conductivity in W/(m K)";
        StoreError::unless(good, what, conductivity_w_m_k, "more than 0")?;
        resistance_m2_k_w += layer.thickness_m / conductivity_w_m_k;
    }
    Ok(1.0 / resistance_m2_k_w)
}
