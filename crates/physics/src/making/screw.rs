//! How hard a wood screw holds against being pulled out, as EN 1995-1-1 reckons it.

use super::error::MakingError;
use crate::Angle;

/// Screws that are pulled along their own length.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Screws {
    /// Outside diameter of the thread \[m\]; 0.006 to 0.012.
    pub diameter_m: f64,
    /// Thread in the timber that holds, the point left out \[m\]; 0.04 to 0.08.
    pub embedded_m: f64,
    /// Characteristic density of the timber \[kg/m3\]; 350 for the usual softwood (class C24).
    pub timber_kg_m3: f64,
    /// Angle between screw and grain; 90 degrees for a screw square into a rafter.
    pub to_grain: Angle,
    /// How many share the pull.
    pub number: u32,
}

impl Screws {
    /// Whether the thread reaches six diameters into the timber, the least that clause 8.7.2(3)
    /// of the code asks of a screw that counts.
    pub fn deep_enough(&self) -> bool {
        // Forty-eight millimetres and six times eight part by a rounding.
        self.embedded_m >= 6.0 * self.diameter_m * (1.0 - 1e-12)
    }
}

/// What turns a characteristic resistance into a design one.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TimberFactors {
    /// kmod: for how long the load lasts and how damp the timber is.
    pub duration_factor: f64,
    /// gammaM of the country.
    pub partial_factor: f64,
}

impl TimberFactors {
    /// Wind on solid timber under a roof: short term, service class 1 or 2, kmod 0.9 (EN 1995-1-1,
    /// table 3.1), gammaM 1.3 (table 2.3).
    ///
    /// Some national annexes call wind instantaneous and allow 1.1; snow is mostly short term too.
    pub const WIND: TimberFactors = TimberFactors { duration_factor: 0.9, partial_factor: 1.3 };
}

/// Resistance to pull-out.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PullOut {
    /// Characteristic withdrawal strength square to the grain \[N/m2\].
    pub strength_n_m2: f64,
    /// Characteristic resistance of all screws together \[N\].
    pub characteristic_n: f64,
    /// Design resistance of all screws together \[N\].
    pub design_n: f64,
}

/// Characteristic and design resistance of screws to being pulled out of timber.
///
/// ```text
/// f = 0.52 d^-0.5 lef^-0.1 rho^0.8                    N/mm2, with mm and kg/m3
/// Fk = n^0.9 f d lef kd/(1.2 cos^2 a + sin^2 a),      kd = min(d/8 mm, 1)
/// Fd = kmod Fk/gammaM
/// ```
///
/// - `screws`: thread d, embedded lef, timber rho, angle a to the grain, number n.
/// - `factors`: usually [`TimberFactors::WIND`].
///
/// # Valid range
/// Threads of 6 to 12 mm whose core is 0.6 to 0.75 of them, at 30 to 90 degrees to the grain; a
/// [`MakingError`] outside. Under six diameters of thread the code does not count a screw: the
/// formula is answered all the same, see [`Screws::deep_enough`]. Head pull-through, the screw's
/// own strength, distances to edges and the rafter are checks apart. A screening; a licensed
/// engineer decides.
///
/// # Source
/// EN 1995-1-1:2004+A1:2008, eq. 8.38 to 8.41 (from memory, form also seen). One copy in public
/// has the density to the power 0.08: that would be a sixtieth of a screw's strength.
///
/// # Checked
/// F-11 and F-13 to 1e-5.
///
/// # Example
/// ```
/// use physics::Angle;
/// use physics::making::screw::{Screws, TimberFactors, pull_out};
/// let screws = Screws {
///     diameter_m: 0.008,
///     embedded_m: 0.05,
///     timber_kg_m3: 350.0,
///     to_grain: Angle::from_degrees(90.0),
///     number: 1,
/// };
/// let holds = pull_out(&screws, &TimberFactors::WIND).unwrap();
/// assert!((holds.characteristic_n - 5394.0).abs() < 1.0);
/// assert!((holds.design_n - 3734.0).abs() < 1.0);
/// ```
pub fn pull_out(screws: &Screws, factors: &TimberFactors) -> Result<PullOut, MakingError> {
    let diameter_mm = screws.diameter_m * 1e3;
    // 0.006 m is not quite 6 mm in binary.
    let good = (6.0 - 1e-9..=12.0 + 1e-9).contains(&diameter_mm);
    MakingError::unless(good, "the thread in mm", diameter_mm, "6 to 12, which the code covers")?;
    let embedded_mm = 1e3 * MakingError::positive("the embedded thread in m", screws.embedded_m)?;
    MakingError::positive("the timber's density in kg/m3", screws.timber_kg_m3)?;
    let angle_deg = screws.to_grain.degrees();
    let good = (30.0 - 1e-9..=90.0 + 1e-9).contains(&angle_deg);
    MakingError::unless(good, "the angle to the grain in degrees", angle_deg, "30 to 90")?;
    let number = f64::from(screws.number);
    MakingError::unless(number >= 1.0, "the number of screws", number, "1 or more")?;
    MakingError::positive("kmod", factors.duration_factor)?;
    MakingError::unless(
        factors.partial_factor >= 1.0 && factors.partial_factor.is_finite(),
        "gammaM",
        factors.partial_factor,
        "1 or more",
    )?;
    let strength_n_mm2 =
        0.52 * diameter_mm.powf(-0.5) * embedded_mm.powf(-0.1) * screws.timber_kg_m3.powf(0.8);
    let (sine, cosine) = (screws.to_grain.sin(), screws.to_grain.cos());
    let thin_factor = (diameter_mm / 8.0).min(1.0);
    let one_n = strength_n_mm2 * diameter_mm * embedded_mm * thin_factor
        / (1.2 * cosine * cosine + sine * sine);
    let characteristic_n = number.powf(0.9) * one_n;
    Ok(PullOut {
        strength_n_m2: strength_n_mm2 * 1e6,
        characteristic_n,
        design_n: factors.duration_factor * characteristic_n / factors.partial_factor,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    const ONE: Screws = Screws {
        diameter_m: 0.008,
        embedded_m: 0.05,
        timber_kg_m3: 350.0,
        to_grain: Angle::from_degrees(90.0),
        number: 1,
    };

    /// Laws of the formula: a group holds less than its screws one by one, a slanted screw less
    /// than a square one, denser timber more; design is never over characteristic by kmod of 1.
    #[test]
    fn laws_of_the_formula() {
        let of = |screws: &Screws| pull_out(screws, &TimberFactors::WIND).unwrap();
        let one = of(&ONE);
        let four = of(&Screws { number: 4, ..ONE });
        assert!(four.characteristic_n < 4.0 * one.characteristic_n);
        assert!((four.characteristic_n / one.characteristic_n - 4f64.powf(0.9)).abs() < 1e-12);
        let slanted = of(&Screws { to_grain: Angle::from_degrees(45.0), ..ONE });
        assert!((one.characteristic_n / slanted.characteristic_n - 1.1).abs() < 1e-12);
        assert!(of(&Screws { timber_kg_m3: 420.0, ..ONE }).design_n > one.design_n);
        assert!(ONE.deep_enough() && !Screws { embedded_m: 0.047, ..ONE }.deep_enough());
        assert!(Screws { embedded_m: 0.048, ..ONE }.deep_enough());
    }

    /// Given: what the code does not cover. Expected: errors, the ends of its range let in.
    #[test]
    fn what_the_code_does_not_cover() {
        for bad in [
            Screws { diameter_m: 0.005, ..ONE },
            Screws { diameter_m: 0.013, ..ONE },
            Screws { embedded_m: 0.0, ..ONE },
            Screws { to_grain: Angle::ZERO, ..ONE },
            Screws { number: 0, ..ONE },
            Screws { timber_kg_m3: f64::NAN, ..ONE },
        ] {
            assert!(pull_out(&bad, &TimberFactors::WIND).is_err(), "{bad:?}");
        }
        for diameter_m in [0.006, 0.012] {
            assert!(pull_out(&Screws { diameter_m, ..ONE }, &TimberFactors::WIND).is_ok());
        }
        let soft = TimberFactors { partial_factor: 0.9, ..TimberFactors::WIND };
        assert!(pull_out(&ONE, &soft).is_err());
    }
}
