//! What light from sun, sky and ground falls on a tilted plane.

use super::error::{Range, SunError};
use super::parts::SkyModel;
use crate::Angle;

/// How a plane slopes: what the sky models ask of it, made ready once.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Slope {
    /// Share of an evenly bright sky the plane sees: `(1 + cos b)/2`.
    pub sky_view: f64,
    /// Share of the level ground it sees: `(1 - cos b)/2`.
    pub ground_view: f64,
    /// Sine of the tilt.
    pub sin_tilt: f64,
}

impl Slope {
    /// The slope of a plane tilted from the horizontal.
    pub fn of(tilt: Angle) -> Self {
        Slope {
            sky_view: 0.5 * (1.0 + tilt.cos()),
            ground_view: 0.5 * (1.0 - tilt.cos()),
            sin_tilt: tilt.sin(),
        }
    }
}

/// The light at one instant, the sun's height, and the plane it meets.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Light {
    /// Global on the horizontal \[W/m2\].
    pub global_w_m2: f64,
    /// Diffuse on the horizontal \[W/m2\].
    pub diffuse_w_m2: f64,
    /// Beam on a plane that faces the sun \[W/m2\].
    pub beam_normal_w_m2: f64,
    /// Above the air, facing the sun \[W/m2\]; see [`super::Almanac`].
    pub extraterrestrial_normal_w_m2: f64,
    /// Cosine of the sun's true zenith angle; negative at night.
    pub cos_zenith: f64,
    /// Cosine of the angle between sun and plane; negative where the sun is behind it.
    pub cos_incidence: f64,
    /// The plane's slope.
    pub slope: Slope,
    /// Share of light the ground sends back, 0 to 1; grass 0.2.
    pub albedo: f64,
}

impl Light {
    /// The light itself where every number can be worked with.
    ///
    /// Numbers from a user pass here. Rows of a weather file have been checked by the reader.
    pub fn checked(self) -> Result<Self, SunError> {
        let flux = |quantity| Range { quantity, lowest: 0.0, highest: 2_000.0 };
        let cosine = |quantity| Range { quantity, lowest: -1.0, highest: 1.0 };
        flux("global [W/m2]").check(self.global_w_m2)?;
        flux("diffuse [W/m2]").check(self.diffuse_w_m2)?;
        flux("beam [W/m2]").check(self.beam_normal_w_m2)?;
        Range { quantity: "extraterrestrial [W/m2]", lowest: 1_000.0, highest: 2_000.0 }
            .check(self.extraterrestrial_normal_w_m2)?;
        cosine("cos(zenith)").check(self.cos_zenith)?;
        cosine("cos(incidence)").check(self.cos_incidence)?;
        Range { quantity: "albedo", lowest: 0.0, highest: 1.0 }.check(self.albedo)?;
        Ok(self)
    }
}

/// Light on the plane by where it comes from.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct PlaneLight {
    /// From the sun's disc \[W/m2\].
    pub beam_w_m2: f64,
    /// From the bright sky round the sun \[W/m2\]; it meets the plane at the beam's angle.
    pub circumsolar_w_m2: f64,
    /// From the even sky \[W/m2\].
    pub isotropic_w_m2: f64,
    /// From the brighter band over the horizon \[W/m2\]; negative where that band is darker.
    pub horizon_w_m2: f64,
    /// From the ground \[W/m2\].
    pub ground_w_m2: f64,
}

impl PlaneLight {
    /// Diffuse light from the sky, of all three kinds \[W/m2\].
    pub fn sky_w_m2(&self) -> f64 {
        self.circumsolar_w_m2 + self.isotropic_w_m2 + self.horizon_w_m2
    }

    /// All light on the plane \[W/m2\].
    pub fn total_w_m2(&self) -> f64 {
        self.beam_w_m2 + self.sky_w_m2() + self.ground_w_m2
    }
}

/// The light on a tilted plane by source, from the light on the level and the sun's place.
///
/// `beam = Gbn max(cos(incidence), 0)`, `ground = G albedo (1 - cos b)/2`; the sky by the model
/// chosen.
///
/// * `model`: Perez 1990 is usual; Hay and Davies 1980 and the even sky give less in the cold half
///   of the year.
/// * `light`: light on the level, sun and plane.
///
/// Returns W/m2 of plane area by source. With the sun below the horizon all diffuse light is taken
/// as an even sky's.
///
/// # Valid range
/// Numbers that [`Light::checked`] passes; it is not asked here, since this runs every minute. With
/// the sun within 3 degrees of the horizon the models differ by up to a factor of two.
/// # Source
/// `sky_perez_1990`, `sky_hay_davies_1980` below; even sky and ground: Liu and Jordan 1960.
/// # Checked
/// 37 rows of `reference/sun-vectors.csv`: even sky and Hay-Davies within 0.5 % or 0.5 W/m2, Perez
/// within 1 % or 1 W/m2.
/// # Example
/// ```
/// use physics::Angle;
/// use physics::sun::{Light, SkyModel, Slope, sky_on_plane};
///
/// let light = Light {
///     global_w_m2: 600.0, diffuse_w_m2: 150.0, beam_normal_w_m2: 700.0,
///     extraterrestrial_normal_w_m2: 1361.0, cos_zenith: 0.643, cos_incidence: 0.95,
///     slope: Slope::of(Angle::from_degrees(45.0)), albedo: 0.2,
/// };
/// let even = sky_on_plane(SkyModel::Isotropic, &light.checked()?);
/// let perez = sky_on_plane(SkyModel::Perez1990, &light);
/// assert!(perez.total_w_m2() > even.total_w_m2());
/// # Ok::<(), physics::sun::SunError>(())
/// ```
#[inline]
pub fn sky_on_plane(model: SkyModel, light: &Light) -> PlaneLight {
    let even = PlaneLight {
        beam_w_m2: light.beam_normal_w_m2 * light.cos_incidence.max(0.0),
        circumsolar_w_m2: 0.0,
        isotropic_w_m2: light.diffuse_w_m2 * light.slope.sky_view,
        horizon_w_m2: 0.0,
        ground_w_m2: light.global_w_m2 * light.albedo * light.slope.ground_view,
    };
    if light.cos_zenith <= 0.0 || light.diffuse_w_m2 <= 0.0 {
        return even;
    }
    match model {
        SkyModel::Isotropic => even,
        SkyModel::HayDavies1980 => sky_hay_davies_1980(light, even),
        SkyModel::Perez1990 => sky_perez_1990(light, even),
    }
}

/// Puts part of the diffuse light round the sun, the more the stronger the beam.
///
/// `Ai = Gbn/Gon`, sky = `Gd (Ai Rb + (1 - Ai)(1 + cos b)/2)`, `Rb = max(cos(incidence), 0) /
/// max(cos(zenith), 0.01745)`.
///
/// * `light`: light on the level, sun and plane.
/// * `even`: the same under an even sky.
///
/// # Valid range
/// Sun above the horizon. The floor of the cosine (89 degrees) keeps the ratio finite.
/// # Source
/// Hay and Davies 1980 (from memory).
/// # Checked
/// See [`sky_on_plane`].
#[inline]
fn sky_hay_davies_1980(light: &Light, even: PlaneLight) -> PlaneLight {
    let round_sun = light.beam_normal_w_m2 / light.extraterrestrial_normal_w_m2;
    let ratio = light.cos_incidence.max(0.0) / light.cos_zenith.max(0.017_45);
    PlaneLight {
        circumsolar_w_m2: light.diffuse_w_m2 * round_sun * ratio,
        isotropic_w_m2: even.isotropic_w_m2 * (1.0 - round_sun),
        ..even
    }
}

/// A row of the Perez coefficients: from which sky clearness on it holds, then f11, f12, f13, f21,
/// f22, f23.
struct PerezRow {
    from: f64,
    f1: [f64; 3],
    f2: [f64; 3],
}

/// All-sites composite coefficients (Perez, Ineichen, Seals, Michalsky and Stewart 1990, table 6).
const PEREZ_1990: [PerezRow; 8] = [
    PerezRow { from: 1.000, f1: [-0.008, 0.588, -0.062], f2: [-0.060, 0.072, -0.022] },
    PerezRow { from: 1.065, f1: [0.130, 0.683, -0.151], f2: [-0.019, 0.066, -0.029] },
    PerezRow { from: 1.230, f1: [0.330, 0.487, -0.221], f2: [0.055, -0.064, -0.026] },
    PerezRow { from: 1.500, f1: [0.568, 0.187, -0.295], f2: [0.109, -0.152, -0.014] },
    PerezRow { from: 1.950, f1: [0.873, -0.392, -0.362], f2: [0.226, -0.462, 0.001] },
    PerezRow { from: 2.800, f1: [1.132, -1.237, -0.412], f2: [0.288, -0.823, 0.056] },
    PerezRow { from: 4.500, f1: [1.060, -1.600, -0.359], f2: [0.264, -1.127, 0.131] },
    PerezRow { from: 6.200, f1: [0.678, -0.327, -0.250], f2: [0.156, -1.377, 0.251] },
];

/// Puts part of the diffuse light round the sun and part over the horizon, by the kind of sky.
///
/// Brightness `D = Gd m/Gon`, clearness `e = ((Gd + Gbn)/Gd + 1.041 z3)/(1 + 1.041 z3)`, z in
/// radians; `F1 = max(0, f11 + f12 D + f13 z)`, `F2 = f21 + f22 D + f23 z`, sky =
/// `Gd ((1 - F1)(1 + cos b)/2 + F1 max(0, cos(incidence))/max(cos 85, cos z) + F2 sin b)`.
///
/// * `light`: light on the level, sun and plane.
/// * `even`: the same under an even sky.
///
/// The sky as a whole never gives less than nothing: where the dark horizon would take more than
/// the rest brings, it takes just that.
///
/// # Valid range
/// Sun above the horizon; eight kinds of sky meet in jumps.
/// # Source
/// Perez and others 1990, Solar Energy 44:271, eqs. 1, 2, 9 and table 6; air mass by [`air_mass_young_1994`].
/// # Checked
/// See [`sky_on_plane`].
#[inline]
fn sky_perez_1990(light: &Light, even: PlaneLight) -> PlaneLight {
    const COS_85: f64 = 0.087_155_742_747_658_17;
    let cos_zenith = light.cos_zenith.min(1.0);
    let zenith_rad = cos_zenith.acos();
    let brightness =
        light.diffuse_w_m2 * air_mass_young_1994(cos_zenith) / light.extraterrestrial_normal_w_m2;
    let bend = 1.041 * zenith_rad * zenith_rad * zenith_rad;
    let clearness = (1.0 + light.beam_normal_w_m2 / light.diffuse_w_m2 + bend) / (1.0 + bend);
    let kind = PEREZ_1990[1..].iter().filter(|row| clearness >= row.from).count();
    let row = &PEREZ_1990[kind];
    let factor = |f: &[f64; 3]| f[0] + f[1] * brightness + f[2] * zenith_rad;
    let round_sun = factor(&row.f1).max(0.0);
    let circumsolar_w_m2 =
        light.diffuse_w_m2 * round_sun * light.cos_incidence.max(0.0) / cos_zenith.max(COS_85);
    let isotropic_w_m2 = even.isotropic_w_m2 * (1.0 - round_sun);
    let horizon_w_m2 = light.diffuse_w_m2 * factor(&row.f2) * light.slope.sin_tilt;
    PlaneLight {
        circumsolar_w_m2,
        isotropic_w_m2,
        horizon_w_m2: horizon_w_m2.max(-(circumsolar_w_m2 + isotropic_w_m2)),
        ..even
    }
}

/// How much more air the beam crosses than from overhead, from the true zenith angle.
///
/// `m = (1.002432 c2 + 0.148386 c + 0.0096467)/(c3 + 0.149864 c2 + 0.0102963 c + 0.000303978)`,
/// `c = cos(zenith)`.
///
/// * `cos_zenith`: cosine of the true zenith angle, 0 to 1; below 0 it is taken as 0.
///
/// Returns 1 overhead, 31.7 at the horizon.
///
/// # Valid range
/// Sun above the true horizon.
/// # Source
/// A. T. Young 1994, Applied Optics 33:1108 (from memory). Chosen because it takes the true angle
/// and needs no power function.
/// # Checked
/// Kasten and Young 1989 of the apparent zenith in `reference/sun-vectors.csv`: within 0.6 % to
/// 88.8 degrees, within 4 % to the horizon.
#[inline]
pub fn air_mass_young_1994(cos_zenith: f64) -> f64 {
    let c = cos_zenith.max(0.0);
    (0.009_646_7 + c * (0.148_386 + c * 1.002_432))
        / (0.000_303_978 + c * (0.010_296_3 + c * (0.149_864 + c)))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Given 40 N, 20 February, 9 to 10 h: 1.04 MJ/m2 global of which 0.765 diffuse, beam ratio
    /// 1.713, ground 0.6, tilt 60 degrees south. The even sky gives 1.17 MJ/m2 (Duffie and Beckman,
    /// example 2.15.1, recalled, printed to 0.01). An hour's energy in MJ stands for the power here:
    /// the relation is linear.
    #[test]
    fn the_even_sky_gives_the_books_hour() {
        let diffuse_w_m2 = 1.04 * 0.765;
        let cos_zenith = 0.5;
        let light = Light {
            global_w_m2: 1.04,
            diffuse_w_m2,
            beam_normal_w_m2: (1.04 - diffuse_w_m2) / cos_zenith,
            extraterrestrial_normal_w_m2: 1_367.0,
            cos_zenith,
            cos_incidence: 1.713 * cos_zenith,
            slope: Slope::of(Angle::from_degrees(60.0)),
            albedo: 0.6,
        };
        let total = sky_on_plane(SkyModel::Isotropic, &light).total_w_m2();
        assert!((total - 1.17).abs() < 0.01, "{total}");
    }

    /// A level plane gets what the ground gets, by every model that shares the diffuse out without
    /// a floor on the cosine: energy is neither made nor lost.
    #[test]
    fn a_level_plane_gets_the_global_light() {
        for model in [SkyModel::Isotropic, SkyModel::HayDavies1980, SkyModel::Perez1990] {
            let cos_zenith = 0.4;
            let light = Light {
                global_w_m2: 120.0 + 600.0 * cos_zenith,
                diffuse_w_m2: 120.0,
                beam_normal_w_m2: 600.0,
                extraterrestrial_normal_w_m2: 1_361.0,
                cos_zenith,
                cos_incidence: cos_zenith,
                slope: Slope::of(Angle::ZERO),
                albedo: 0.2,
            };
            let total = sky_on_plane(model, &light).total_w_m2();
            assert!((total - light.global_w_m2).abs() < 1e-9, "{model:?}: {total}");
        }
    }
}
