//! How much of the light on the level ground is diffuse.

use super::error::{Range, SunError};

/// Lowest cosine of the zenith angle that clearness is reckoned with: nearer to the horizon the
/// quotient of two small numbers means nothing. Common practice in solar libraries.
const LOWEST_COS_ZENITH: f64 = 0.065;

/// Cosine of the zenith angle under which no beam is told from the diffuse (87 degrees). Common
/// practice in solar libraries.
const LOWEST_BEAM_COS_ZENITH: f64 = 0.052_335_956_242_943_83;

/// Light on the level ground, told apart.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Split {
    /// Share of the light above the air that reaches the ground.
    pub clearness: f64,
    /// Diffuse on the horizontal \[W/m2\].
    pub diffuse_w_m2: f64,
    /// Beam on a plane that faces the sun \[W/m2\].
    pub beam_normal_w_m2: f64,
}

/// Global irradiance in its sky: what the split starts from.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Global {
    /// Global on the horizontal \[W/m2\], 0 to 1500.
    pub global_w_m2: f64,
    /// Above the air, facing the sun \[W/m2\]; see [`super::Almanac`].
    pub extraterrestrial_normal_w_m2: f64,
    /// Cosine of the sun's zenith angle, -1 to 1.
    pub cos_zenith: f64,
}

/// Tells an hour's global irradiance apart into beam and diffuse.
///
/// `diffuse = global share(clearness)`, `beam = (global - diffuse)/cos(zenith)`.
///
/// * `light`: global irradiance with the extraterrestrial irradiance and the sun's height.
///
/// Returns clearness, diffuse and beam, none negative. Beyond 87 degrees of zenith angle all is
/// diffuse; clearness is reckoned with a cosine of at least 0.065.
///
/// # Valid range
/// 0 to 2000 W/m2 global, 1000 to 2000 W/m2 above the air; outside, an error. Meant for hours; a
/// clear high place has less diffuse than it says (a third less over a year in the Andes).
/// # Source
/// Front door for [`diffuse_share_erbs_1982`].
/// # Checked
/// 37 rows of `reference/sun-vectors.csv`: within 0.5 % or 0.5 W/m2.
pub fn split(light: &Global) -> Result<Split, SunError> {
    light.check()?;
    split_with_diffuse(light, light.global_w_m2 * diffuse_share_erbs_1982(clearness(light)))
}

/// Tells global irradiance apart where its diffuse part is known.
///
/// `beam = (global - diffuse)/cos(zenith)`.
///
/// * `light`: global irradiance with the extraterrestrial irradiance and the sun's height.
/// * `diffuse_w_m2`: on the horizontal \[W/m2\], 0 to global.
///
/// Returns clearness, diffuse and beam, none negative. Beyond 87 degrees of zenith angle all is
/// diffuse.
///
/// # Valid range
/// As [`split`]; diffuse above global is an error.
/// # Source
/// The definition of the three.
/// # Checked
/// Through [`split`].
pub fn split_with_diffuse(light: &Global, diffuse_w_m2: f64) -> Result<Split, SunError> {
    light.check()?;
    let diffuse =
        Range { quantity: "diffuse [W/m2]", lowest: 0.0, highest: light.global_w_m2.max(0.0) };
    let diffuse_w_m2 = diffuse.check(diffuse_w_m2)?;
    let clearness = clearness(light);
    Ok(if light.cos_zenith < LOWEST_BEAM_COS_ZENITH {
        Split { clearness, diffuse_w_m2: light.global_w_m2, beam_normal_w_m2: 0.0 }
    } else {
        let beam_normal_w_m2 = (light.global_w_m2 - diffuse_w_m2) / light.cos_zenith;
        Split { clearness, diffuse_w_m2, beam_normal_w_m2 }
    })
}

impl Global {
    fn check(&self) -> Result<(), SunError> {
        const GLOBAL: Range = Range { quantity: "global [W/m2]", lowest: 0.0, highest: 2_000.0 };
        const ABOVE: Range =
            Range { quantity: "extraterrestrial [W/m2]", lowest: 1_000.0, highest: 2_000.0 };
        const COSINE: Range = Range { quantity: "cos(zenith)", lowest: -1.0, highest: 1.0 };
        GLOBAL.check(self.global_w_m2)?;
        ABOVE.check(self.extraterrestrial_normal_w_m2)?;
        COSINE.check(self.cos_zenith)?;
        Ok(())
    }
}

/// Clearness: global irradiance over that above the air on the same level.
///
/// `kt = G / (Gon cos(zenith))`, the cosine at least 0.065.
///
/// * `light`: global irradiance with the extraterrestrial irradiance and the sun's height.
///
/// Returns the share, 0 and up; bright cloud edges may lift it above 1.
///
/// # Valid range
/// Extraterrestrial above 0; [`split`] checks it.
/// # Source
/// Liu and Jordan 1960; the floor is common practice.
/// # Checked
/// 37 rows of `reference/sun-vectors.csv`: within 0.001.
pub fn clearness(light: &Global) -> f64 {
    light.global_w_m2
        / (light.extraterrestrial_normal_w_m2 * light.cos_zenith.max(LOWEST_COS_ZENITH))
}

/// Diffuse share of an hour's global irradiance by clearness.
///
/// `1 - 0.09 k` to k = 0.22; `0.9511 - 0.1604 k + 4.388 k2 - 16.638 k3 + 12.336 k4` to 0.80;
/// `0.165` above.
///
/// * `clearness`: share of the extraterrestrial light that arrives, 0 to 1.
///
/// Returns the share, 0.165 to 1.
///
/// # Valid range
/// Clearness 0 to 1; below 0 it is taken as 0, above 0.80 the share stays.
/// # Source
/// Erbs, Klein and Duffie 1982, Solar Energy 28:293, eq. 1.
/// # Checked
/// Duffie and Beckman, example 2.15.1 (recalled): 0.765 at 0.445, within 0.002.
pub fn diffuse_share_erbs_1982(clearness: f64) -> f64 {
    let k = clearness.max(0.0);
    if k <= 0.22 {
        1.0 - 0.09 * k
    } else if k <= 0.80 {
        0.9511 + k * (-0.1604 + k * (4.388 + k * (-16.638 + k * 12.336)))
    } else {
        0.165
    }
}

/// Diffuse share of a day's global irradiation by the day's clearness.
///
/// Sunset before 81.4 degrees: `1 - 0.2727 K + 2.4495 K2 - 11.9514 K3 + 9.3879 K4`, 0.143 from K = 0.715;
/// after: `1 + 0.2832 K - 2.5557 K2 + 0.8448 K3`, 0.175 from K = 0.722.
///
/// * `clearness`: the day's irradiation over that above the air, 0 to 1.
/// * `sunset`: hour angle of the sun's setting.
///
/// Returns the share, 0.143 to 1.
///
/// # Valid range
/// Clearness 0 to 1; below 0 it is taken as 0.
/// # Source
/// Erbs, Klein and Duffie 1982, Solar Energy 28:293 (as handbooks print it).
/// # Checked
/// Each polynomial meets the printed constant that follows it within 0.016.
pub fn daily_diffuse_share_erbs_1982(clearness: f64, sunset: crate::Angle) -> f64 {
    let k = clearness.max(0.0);
    if sunset.degrees() <= 81.4 {
        if k < 0.715 {
            1.0 + k * (-0.2727 + k * (2.4495 + k * (-11.9514 + k * 9.3879)))
        } else {
            0.143
        }
    } else if k < 0.722 {
        1.0 + k * (0.2832 + k * (-2.5557 + k * 0.8448))
    } else {
        0.175
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Given clearness 0.445: share 0.765 (Duffie and Beckman, example 2.15.1, recalled, three
    /// figures).
    #[test]
    fn the_books_hour_has_its_diffuse_share() {
        assert!((diffuse_share_erbs_1982(0.445) - 0.765).abs() < 0.002);
    }

    /// The daily relation: at nothing all is diffuse; each polynomial meets the constant that follows it within
    /// 0.016 (0.143 from 0.715 in winter, 0.175 from 0.722 in the rest of the year, as printed).
    #[test]
    fn the_day_has_its_diffuse_share() {
        let (winter, summer) =
            (crate::Angle::from_degrees(60.0), crate::Angle::from_degrees(100.0));
        for (sunset, end) in [(winter, 0.715), (summer, 0.722)] {
            assert_eq!(daily_diffuse_share_erbs_1982(0.0, sunset), 1.0);
            let [below, above] =
                [end - 1e-9, end + 1e-9].map(|k| daily_diffuse_share_erbs_1982(k, sunset));
            assert!((below - above).abs() < 0.016, "{below} {above}");
        }
    }

    /// Given no number: an error that carries it, not a silent NaN.
    #[test]
    fn no_number_is_refused() {
        let light =
            Global { global_w_m2: f64::NAN, extraterrestrial_normal_w_m2: 1361.0, cos_zenith: 0.5 };
        assert!(matches!(split(&light), Err(SunError::OutOfRange { value, .. }) if value.is_nan()));
    }
}
