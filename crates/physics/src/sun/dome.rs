//! What a tilted plane sees of the sky's dome when a horizon stands before it.

use super::axes::{PanelAxes, PanelDirection};
use super::horizon::Horizon;
use super::parts::Plane;
use crate::Angle;

/// Shares of the sky's light that a horizon leaves.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DomeShares {
    /// Even sky on the plane, over that under a free horizon.
    pub sky_share: f64,
    /// Light of the band over the horizon on the plane, over that under a free horizon.
    pub band_share: f64,
}

impl DomeShares {
    /// A free view.
    pub const OPEN: DomeShares = DomeShares { sky_share: 1.0, band_share: 1.0 };
}

/// Steps of the sum over the half space before the plane: in the square of the sine of the angle
/// from the normal, and round it. Finer steps move no share by more than 0.001.
const RINGS: usize = 90;
const SECTORS: usize = 240;

/// Multiples of it, less their whole parts, spread evenly however many are taken.
const GOLDEN_SHARE: f64 = 0.618_033_988_749_894_9;

/// Height of the bright or dark band over the horizon (Perez and others 1987, from memory).
const BAND: Angle = Angle::from_degrees(6.5);

/// Sums up what a horizon leaves of the light of sky and horizon band before a plane.
///
/// `share = sum(cos i w visible) / sum(cos i w)` over directions above the level, `w` the solid angle:
/// those from the level to the horizon give nothing, those above are sky. The band is taken by azimuth at the level, `max(0, cos(azimuth - facing))`, a
/// horizon hiding the part of its 6.5 degrees that it covers.
///
/// * `plane`: tilt and facing.
/// * `horizon`: [`Horizon::open`] for a free view.
///
/// Returns shares from 0 to 1.
///
/// # Valid range
/// Tilts from 0 to 90 degrees. The hidden part of the sky is taken as black: a bright hillside gives a
/// little back.
/// # Source
/// The definition of a view factor. The horizon gives no light of its own, as in Perez and others
/// 1990 for whatever stands above it.
/// # Checked
/// Plane before a wall or row of infinite length: `(1 + cos(b + p))/2` (Passias and Kallback 1984,
/// Solar Cells 11:281, from memory), within 0.003; a level plane: the mean of `cos2(height)` all
/// round, within 0.002; random rays, within 0.005.
/// # Example
/// ```
/// use physics::Angle;
/// use physics::sun::{Horizon, HorizonPoint, Plane, dome_shares};
/// let point = HorizonPoint { azimuth: Angle::ZERO, height: Angle::from_degrees(10.0) };
/// let even = Horizon::through(&[point])?;
/// let level = Plane { tilt: Angle::ZERO, facing: Angle::ZERO };
/// let shares = dome_shares(&level, &even);
/// assert!((shares.sky_share - 0.970).abs() < 0.002); // cos2(10 degrees)
/// # Ok::<(), physics::sun::SunError>(())
/// ```
pub fn dome_shares(plane: &Plane, horizon: &Horizon) -> DomeShares {
    if horizon.is_open() {
        return DomeShares::OPEN;
    }
    let axes = PanelAxes::of(plane);
    let mut sky = Sum::default();
    for sector in 0..SECTORS {
        let turn_rad = std::f64::consts::TAU * (sector as f64 + 0.5) / SECTORS as f64;
        // Each sector's rings are shifted, so that no horizon runs along with them all.
        let shift = (sector as f64 * GOLDEN_SHARE).fract();
        for ring in 0..RINGS {
            // Rings of equal `cos i w`.
            let sine_squared = (ring as f64 + shift) / RINGS as f64;
            let (sine, cos_incidence) = (sine_squared.sqrt(), (1.0 - sine_squared).sqrt());
            let direction = axes.to_compass(&PanelDirection {
                across: sine * turn_rad.cos(),
                up_slope: sine * turn_rad.sin(),
                cos_incidence,
            });
            if direction.up >= 0.0 {
                sky.add(1.0, if horizon.hides(&direction) { 0.0 } else { 1.0 });
            }
        }
    }
    let mut band = Sum::default();
    for step in 0..SECTORS {
        let part = (step as f64 + 0.5) / SECTORS as f64 - 0.5;
        let away = Angle::from_radians(std::f64::consts::PI * part);
        let azimuth = Angle::from_radians(plane.facing.radians() + away.radians());
        let hidden = horizon.height(azimuth).radians() / BAND.radians();
        band.add(away.cos(), (1.0 - hidden).max(0.0));
    }
    DomeShares { sky_share: sky.left(), band_share: band.left() }
}

/// Light of one kind: with nothing before the plane, and on the plane.
#[derive(Default)]
struct Sum {
    free: f64,
    plane: f64,
}

impl Sum {
    fn add(&mut self, weight: f64, visible: f64) {
        self.free += weight;
        self.plane += weight * visible;
    }

    fn left(&self) -> f64 {
        if self.free > 0.0 { self.plane / self.free } else { 1.0 }
    }
}

#[cfg(test)]
mod tests {
    use super::super::axes::Direction;
    use super::super::horizon::HorizonPoint;
    use super::*;

    fn degrees(degrees: f64) -> Angle {
        Angle::from_degrees(degrees)
    }

    fn horizon(height: impl Fn(f64) -> f64) -> Horizon {
        let points: Vec<HorizonPoint> = (0..720)
            .map(|step| f64::from(step) * 0.5)
            .map(|azimuth_deg| HorizonPoint {
                azimuth: degrees(azimuth_deg),
                height: Angle::from_radians(height(azimuth_deg.to_radians())),
            })
            .collect();
        Horizon::through(&points).expect("sound")
    }

    /// Given a wall or a row of panels without end before a plane, its top `p` above the level
    /// straight ahead: the plane keeps `(1 + cos(b + p))/2` of an even sky (Passias and Kallback 1984,
    /// from memory; exact geometry). Its horizon is `tan(height) = tan(p) cos(azimuth - facing)`.
    /// Within 0.003, the grid's edge.
    #[test]
    fn a_row_ahead_hides_what_the_published_formula_says() {
        for (tilt_deg, facing_deg, top_deg) in
            [(0.0, 180.0, 20.0), (35.0, 180.0, 15.0), (45.0, 200.0, 30.0), (90.0, 90.0, 10.0)]
        {
            let plane = Plane { tilt: degrees(tilt_deg), facing: degrees(facing_deg) };
            let row = horizon(|azimuth_rad| {
                let ahead = (azimuth_rad - plane.facing.radians()).cos().max(0.0);
                (degrees(top_deg).tan() * ahead).atan()
            });
            let view = dome_shares(&plane, &row).sky_share * 0.5 * (1.0 + plane.tilt.cos());
            let want = 0.5 * (1.0 + degrees(tilt_deg + top_deg).cos());
            assert!((view - want).abs() < 0.003, "{tilt_deg} {top_deg}: {view} for {want}");
        }
    }

    /// Given a wavy horizon and a level plane: the sky view is the mean of `cos2(height)` all round
    /// (the integral over height done by hand), within 0.002.
    #[test]
    fn a_level_plane_sees_the_mean_of_the_squared_cosine() {
        let height = |azimuth_rad: f64| 0.2 + 0.15 * (3.0 * azimuth_rad).sin();
        let level = Plane { tilt: Angle::ZERO, facing: degrees(10.0) };
        let found = dome_shares(&level, &horizon(height)).sky_share;
        let mean = (0..3600)
            .map(|step| height(f64::from(step).to_radians() * 0.1).cos().powi(2))
            .sum::<f64>()
            / 3600.0;
        assert!((found - mean).abs() < 0.002, "{found} for {mean}");
    }

    /// Against another way to sum: 200 000 points spread over the upper half of the sphere along a golden spiral,
    /// for a plane and a horizon without any symmetry. Within 0.005.
    #[test]
    fn rays_over_the_whole_sky_agree() {
        let plane = Plane { tilt: degrees(52.0), facing: degrees(137.0) };
        let hill_rad = |azimuth_rad: f64| 0.25 * (azimuth_rad - 2.0).cos().max(0.0);
        let found = dome_shares(&plane, &horizon(hill_rad)).sky_share;
        let normal = PanelAxes::of(&plane).normal;
        let mut sky = Sum::default();
        let count = 200_000;
        let golden_rad = std::f64::consts::PI * (3.0 - 5.0_f64.sqrt());
        for step in 0..count {
            let up = 1.0 - (f64::from(step) + 0.5) / f64::from(count);
            let azimuth = Angle::from_radians(golden_rad * f64::from(step));
            let ray = Direction::at(azimuth, Angle::from_radians(up.asin()));
            let cosine = ray.east * normal.east + ray.north * normal.north + ray.up * normal.up;
            let sees = up.asin() >= hill_rad(azimuth.radians());
            sky.add(cosine.max(0.0), f64::from(u8::from(sees)));
        }
        assert!((found - sky.left()).abs() < 0.005, "{found} for {}", sky.left());
    }

    /// Given an even horizon and a level plane, which runs along with the rings of the sum: the sky left
    /// is `cos2(height)` (view factor of a cap, exact), within 0.001.
    #[test]
    fn an_even_horizon_leaves_the_squared_cosine() {
        let level = Plane { tilt: Angle::ZERO, facing: Angle::ZERO };
        for height_deg in [3.0, 8.0, 20.0, 33.0, 60.0] {
            let even = horizon(|_| f64::to_radians(height_deg));
            let (found, want) = (dome_shares(&level, &even).sky_share, degrees(height_deg).cos());
            assert!((found - want.powi(2)).abs() < 0.001, "{height_deg}: {found}");
        }
    }

    /// Given a horizon of 3.25 degrees all round, half of the band of 6.5 is left; above 6.5, nothing.
    #[test]
    fn the_band_over_the_horizon_is_hidden_by_its_height() {
        let plane = Plane { tilt: degrees(40.0), facing: degrees(180.0) };
        let band = |deg: f64| dome_shares(&plane, &horizon(|_| deg.to_radians())).band_share;
        assert!((band(3.25) - 0.5).abs() < 1e-9);
        assert_eq!(band(7.0), 0.0);
    }

    /// A free view loses nothing, whatever the tilt.
    #[test]
    fn a_free_view_is_whole() {
        for tilt_deg in [0.0, 30.0, 90.0] {
            let plane = Plane { tilt: degrees(tilt_deg), facing: degrees(77.0) };
            let shares = dome_shares(&plane, &Horizon::open());
            assert_eq!(shares, DomeShares::OPEN, "{tilt_deg}");
        }
    }
}
