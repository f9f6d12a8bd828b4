//! Wind on a panel, as EN 1991-1-4 reckons it.

use super::error::MakingError;
use crate::{Angle, GRAVITY_M_S2};

/// What the wind blows over before it meets the roof: the code's terrain categories.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Terrain {
    /// Category 0: sea, or a coast open to it.
    Sea,
    /// Category I: a lake, or flat land with hardly a plant.
    Lake,
    /// Category II: grass, single trees and houses, twenty heights apart and more.
    Open,
    /// Category III: villages, suburbs, lasting woods.
    Suburb,
    /// Category IV: a town, 15 % of it under buildings over 15 m high.
    Town,
}

impl Terrain {
    /// The five categories, 0 first.
    pub const ALL: [Terrain; 5] =
        [Terrain::Sea, Terrain::Lake, Terrain::Open, Terrain::Suburb, Terrain::Town];

    /// Roughness length z0 \[m\] (EN 1991-1-4, table 4.1).
    pub fn roughness_m(self) -> f64 {
        match self {
            Terrain::Sea => 0.003,
            Terrain::Lake => 0.01,
            Terrain::Open => 0.05,
            Terrain::Suburb => 0.3,
            Terrain::Town => 1.0,
        }
    }

    /// Height below which the wind is taken as at this height \[m\] (EN 1991-1-4, table 4.1).
    pub fn lowest_m(self) -> f64 {
        match self {
            Terrain::Sea | Terrain::Lake => 1.0,
            Terrain::Open => 2.0,
            Terrain::Suburb => 5.0,
            Terrain::Town => 10.0,
        }
    }
}

/// Where a panel meets the wind.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WindSite {
    /// Basic wind speed from the country's map: ten minutes' mean, 10 m over open country, once in
    /// 50 years \[m/s\]; 22 to 30 in Britain.
    pub basic_speed_m_s: f64,
    /// Height of the panel over the ground \[m\].
    pub height_m: f64,
    /// What lies upwind.
    pub terrain: Terrain,
}

/// The wind there, step by step as the code takes them.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PeakWind {
    /// kr.
    pub terrain_factor: f64,
    /// cr: mean speed there over basic speed.
    pub roughness_factor: f64,
    /// Iv: the gusts' standard deviation over the mean speed.
    pub turbulence_intensity: f64,
    /// qb: pressure of the basic speed \[Pa\].
    pub basic_pressure_pa: f64,
    /// qp: peak velocity pressure, characteristic \[Pa\].
    pub peak_pressure_pa: f64,
}

/// Peak velocity pressure of the wind at a height, characteristic.
///
/// ```text
/// kr = 0.19 (z0/0.05)^0.07,   cr = kr ln(z/z0),   Iv = 1/ln(z/z0)
/// qb = rho vb^2/2,            qp = (1 + 7 Iv) cr^2 qb
/// ```
///
/// rho 1.25 kg/m3; z no lower than the terrain's own lowest height.
///
/// - `site`: basic speed vb, height z, terrain z0.
///
/// # Valid range
/// Heights up to 200 m, speeds up to 100 m/s; a [`MakingError`] outside. Level country: a house on
/// a crest or escarpment meets more (the code's orography, 1 here). Characteristic: no partial
/// factor is in it. A screening; the national annex (Britain's takes other terrain figures) and a
/// licensed engineer decide.
///
/// # Source
/// EN 1991-1-4:2005, eq. 4.3 to 4.8 and table 4.1, turbulence and orography factors 1.
///
/// # Checked
/// F-02 (a public worked example) to 0.2 %, F-03 to 1e-5, and the exposure factors that the code's
/// figure 4.2 is known by.
///
/// # Example
/// ```
/// use physics::making::wind::{Terrain, WindSite, peak_wind};
/// let site = WindSite { basic_speed_m_s: 24.0, height_m: 8.0, terrain: Terrain::Open };
/// assert!((peak_wind(&site).unwrap().peak_pressure_pa - 796.4).abs() < 0.1);
/// ```
pub fn peak_wind(site: &WindSite) -> Result<PeakWind, MakingError> {
    const AIR_KG_M3: f64 = 1.25;
    let speed_m_s = site.basic_speed_m_s;
    let good = speed_m_s > 0.0 && speed_m_s <= 100.0;
    MakingError::unless(good, "the basic wind speed in m/s", speed_m_s, "more than 0, up to 100")?;
    let good = site.height_m > 0.0 && site.height_m <= 200.0;
    MakingError::unless(good, "the height in m", site.height_m, "more than 0, up to 200")?;
    let roughness_m = site.terrain.roughness_m();
    let logarithm = (site.height_m.max(site.terrain.lowest_m()) / roughness_m).ln();
    let terrain_factor = 0.19 * (roughness_m / 0.05).powf(0.07);
    let roughness_factor = terrain_factor * logarithm;
    let turbulence_intensity = 1.0 / logarithm;
    let basic_pressure_pa = 0.5 * AIR_KG_M3 * speed_m_s * speed_m_s;
    Ok(PeakWind {
        terrain_factor,
        roughness_factor,
        turbulence_intensity,
        basic_pressure_pa,
        peak_pressure_pa: (1.0 + 7.0 * turbulence_intensity)
            * roughness_factor
            * roughness_factor
            * basic_pressure_pa,
    })
}

/// Force of the wind square to a panel, characteristic \[N\]; negative pulls it off the roof.
///
/// ```text
/// W = qp c A
/// ```
///
/// - `peak_pressure_pa`: qp of [`peak_wind`].
/// - `net_coefficient`: c, upper less lower face, from the national rule for panels over a roof;
///   -1.3 in a roof's middle and -2.0 near its edges were recalled, not confirmed.
/// - `area_m2`: the panel \[m2\].
///
/// # Valid range
/// Pressure and area of 0 or more, a finite coefficient; a [`MakingError`] outside.
///
/// # Source
/// EN 1991-1-4:2005, eq. 5.3 with structural factor 1.
///
/// # Checked
/// F-05 to 1e-5.
pub fn wind_force_n(
    peak_pressure_pa: f64,
    net_coefficient: f64,
    area_m2: f64,
) -> Result<f64, MakingError> {
    MakingError::not_negative("the peak pressure in Pa", peak_pressure_pa)?;
    MakingError::finite("the net coefficient", net_coefficient)?;
    MakingError::not_negative("the area in m2", area_m2)?;
    Ok(peak_pressure_pa * net_coefficient * area_m2)
}

/// A panel that the wind would lift off a roof.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Uplift {
    /// Characteristic force away from the roof \[N\]; [`wind_force_n`] with its sign turned.
    pub wind_n: f64,
    /// The least that the panel weighs: dry \[kg\].
    pub mass_kg: f64,
    /// Slope of the roof.
    pub pitch: Angle,
    /// gammaQ on the wind; 1.5 (EN 1990, table A1.2).
    pub wind_factor: f64,
    /// gammaG on weight that helps; 0.9 (EN 1990, table A1.2(A)).
    pub weight_factor: f64,
}

/// Design force that the fixings must hold square to the roof \[N\]; negative where weight keeps
/// the panel down.
///
/// ```text
/// Ed = gammaQ W - gammaG m g cos(pitch)
/// ```
///
/// To be set against a design resistance, never a characteristic one.
///
/// # Valid range
/// Finite forces, a mass of 0 or more, pitches of 0 to 90 degrees, factors of 0 or more; a
/// [`MakingError`] outside.
///
/// # Source
/// EN 1990:2002, loss of equilibrium, table A1.2(A).
///
/// # Checked
/// F-05 to 1e-5.
pub fn design_uplift_n(uplift: &Uplift) -> Result<f64, MakingError> {
    MakingError::finite("the wind's force in N", uplift.wind_n)?;
    MakingError::not_negative("the mass in kg", uplift.mass_kg)?;
    MakingError::not_negative("the factor on wind", uplift.wind_factor)?;
    MakingError::not_negative("the factor on weight", uplift.weight_factor)?;
    let pitch_deg = uplift.pitch.degrees();
    let good = (-1e-9..=90.0 + 1e-9).contains(&pitch_deg);
    MakingError::unless(good, "the roof's pitch in degrees", pitch_deg, "0 to 90")?;
    let weight_n = uplift.mass_kg * GRAVITY_M_S2 * uplift.pitch.cos();
    Ok(uplift.wind_factor * uplift.wind_n - uplift.weight_factor * weight_n)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn exposure(height_m: f64, terrain: Terrain) -> f64 {
        let site = WindSite { basic_speed_m_s: 25.0, height_m, terrain };
        let wind = peak_wind(&site).unwrap();
        wind.peak_pressure_pa / wind.basic_pressure_pa
    }

    /// EN 1991-1-4, figure 4.2, ce at 10 m for terrain 0 to IV: 3.0, 2.8, 2.35, 1.7, 1.2 (from
    /// memory, read off curves). Tolerance: 0.1, what a curve can be read to.
    #[test]
    fn exposure_as_the_code_draws_it() {
        for (terrain, expected) in Terrain::ALL.into_iter().zip([3.0, 2.8, 2.35, 1.7, 1.2]) {
            let got = exposure(10.0, terrain);
            assert!((got - expected).abs() < 0.1, "{terrain:?}: {got}");
        }
    }

    /// Laws: below the lowest height nothing changes, above it the wind grows, and never is a
    /// rougher country windier at the same height.
    #[test]
    fn higher_and_smoother_is_windier() {
        for terrain in Terrain::ALL {
            let lowest_m = terrain.lowest_m();
            assert_eq!(exposure(0.5 * lowest_m, terrain), exposure(lowest_m, terrain));
            assert!(exposure(lowest_m + 1.0, terrain) > exposure(lowest_m, terrain));
        }
        for pair in Terrain::ALL.windows(2) {
            assert!(exposure(10.0, pair[0]) > exposure(10.0, pair[1]), "{pair:?}");
        }
    }

    /// Given: what the code does not cover, and nonsense. Expected: errors.
    #[test]
    fn what_the_code_does_not_cover() {
        let site = WindSite { basic_speed_m_s: 25.0, height_m: 8.0, terrain: Terrain::Open };
        for bad in [
            WindSite { basic_speed_m_s: 0.0, ..site },
            WindSite { basic_speed_m_s: 150.0, ..site },
            WindSite { height_m: 201.0, ..site },
            WindSite { height_m: f64::NAN, ..site },
        ] {
            assert!(peak_wind(&bad).is_err(), "{bad:?}");
        }
        assert!(wind_force_n(-1.0, -1.3, 2.0).is_err());
        assert!(wind_force_n(800.0, f64::NAN, 2.0).is_err());
        let up = Uplift {
            wind_n: 100.0,
            mass_kg: 60.0,
            pitch: Angle::from_degrees(35.0),
            wind_factor: 1.5,
            weight_factor: 0.9,
        };
        assert!(design_uplift_n(&up).unwrap() < 0.0, "sixty kilograms stay down");
        assert!(design_uplift_n(&Uplift { mass_kg: -1.0, ..up }).is_err());
        assert!(design_uplift_n(&Uplift { pitch: Angle::from_degrees(95.0), ..up }).is_err());
    }
}
