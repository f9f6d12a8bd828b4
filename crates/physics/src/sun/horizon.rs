//! The far horizon: hills and roofs that hide a low sun and a part of the sky.

use super::axes::Direction;
use super::error::{Range, SunError};
use crate::Angle;

/// How high the far horizon stands, all round.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Horizon {
    /// By rising azimuth from 0 to 360 degrees, none twice; empty for a free view.
    points: Vec<HorizonPoint>,
}

/// One point of a horizon, as a compass and a clinometer give it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HorizonPoint {
    /// Clockwise from true north, 0 to 360 degrees.
    pub azimuth: Angle,
    /// Over the level, 0 to 80 degrees.
    pub height: Angle,
}

impl Horizon {
    /// A free view to the level on all sides.
    pub fn open() -> Self {
        Horizon::default()
    }

    /// The horizon through points; between them it runs straight in azimuth and height, and from
    /// the last round to the first. One point alone is a horizon of even height.
    ///
    /// * `points`: in any order.
    ///
    /// # Valid range
    /// Azimuth 0 to 360 degrees, height 0 to 80; outside, an error. Of two points at one azimuth
    /// the later stands.
    pub fn through(points: &[HorizonPoint]) -> Result<Self, SunError> {
        const AZIMUTH: Range =
            Range { quantity: "horizon azimuth [deg]", lowest: 0.0, highest: 360.0 };
        const HEIGHT: Range =
            Range { quantity: "horizon height [deg]", lowest: 0.0, highest: 80.0 };
        let mut sorted: Vec<HorizonPoint> = Vec::with_capacity(points.len());
        for point in points {
            // A turn of 360 degrees is none; the tolerance is that of a rounded number of radians.
            AZIMUTH.check(round_off(point.azimuth.degrees()))?;
            HEIGHT.check(round_off(point.height.degrees()))?;
            let azimuth = Angle::from_radians(point.azimuth.radians().rem_euclid(TURN_RAD));
            let at = sorted.partition_point(|other| other.azimuth < azimuth);
            let point = HorizonPoint { azimuth, height: point.height };
            match sorted.get_mut(at) {
                Some(other) if other.azimuth == azimuth => *other = point,
                _ => sorted.insert(at, point),
            }
        }
        Ok(Horizon { points: sorted })
    }

    /// True where nothing stands above the level.
    pub fn is_open(&self) -> bool {
        self.points.iter().all(|point| point.height.radians() <= 0.0)
    }

    /// Its height in a direction of the compass.
    pub fn height(&self, azimuth: Angle) -> Angle {
        let Some(last) = self.points.last() else { return Angle::ZERO };
        let azimuth_rad = azimuth.radians().rem_euclid(TURN_RAD);
        let at = self.points.partition_point(|point| point.azimuth.radians() <= azimuth_rad);
        let before = if at == 0 { last } else { &self.points[at - 1] };
        let after = self.points.get(at).unwrap_or(&self.points[0]);
        let ahead_rad = |from: f64, to: f64| (to - from).rem_euclid(TURN_RAD);
        let whole_rad = ahead_rad(before.azimuth.radians(), after.azimuth.radians());
        let part = if whole_rad > 0.0 {
            ahead_rad(before.azimuth.radians(), azimuth_rad) / whole_rad
        } else {
            0.0
        };
        let (low_rad, high_rad) = (before.height.radians(), after.height.radians());
        Angle::from_radians(low_rad + part * (high_rad - low_rad))
    }

    /// True where a direction points below the horizon. Refraction, half a degree at most, is not
    /// counted.
    pub fn hides(&self, direction: &Direction) -> bool {
        !self.points.is_empty() && direction.up < self.height(direction.azimuth()).sin()
    }
}

const TURN_RAD: f64 = std::f64::consts::TAU;

fn round_off(degrees: f64) -> f64 {
    (degrees * 1e9).round() / 1e9
}

#[cfg(test)]
mod tests {
    use super::*;

    fn point(azimuth_deg: f64, height_deg: f64) -> HorizonPoint {
        HorizonPoint {
            azimuth: Angle::from_degrees(azimuth_deg),
            height: Angle::from_degrees(height_deg),
        }
    }

    /// Given points at 350, 90 and 180 degrees: straight lines between them, round through north.
    /// By hand: from 10 degrees high at 350 to 20 at 90 the way is 100 degrees, so 11 at north.
    #[test]
    fn it_runs_straight_and_round_through_north() {
        let points = [point(180.0, 0.0), point(350.0, 10.0), point(90.0, 20.0)];
        let horizon = Horizon::through(&points).expect("sound");
        for (azimuth_deg, height_deg) in
            [(350.0, 10.0), (0.0, 11.0), (-10.0, 10.0), (45.0, 15.5), (135.0, 10.0), (265.0, 5.0)]
        {
            let found = horizon.height(Angle::from_degrees(azimuth_deg)).degrees();
            assert!((found - height_deg).abs() < 1e-9, "{azimuth_deg}: {found}");
        }
        let low = Direction::at(Angle::from_degrees(0.0), Angle::from_degrees(10.9));
        let high = Direction::at(Angle::from_degrees(0.0), Angle::from_degrees(11.1));
        assert!(horizon.hides(&low) && !horizon.hides(&high));
    }

    /// Given no point: a free view; one point: even all round; a height that cannot be: an error.
    #[test]
    fn none_is_open_and_one_is_even() {
        assert!(Horizon::open().is_open());
        let sun_below = Direction::at(Angle::ZERO, Angle::from_degrees(-1.0));
        assert!(!Horizon::open().hides(&sun_below));
        let even = Horizon::through(&[point(77.0, 7.0)]).expect("sound");
        assert!(!even.is_open());
        for azimuth_deg in [0.0, 77.0, 200.0, 359.9] {
            let found = even.height(Angle::from_degrees(azimuth_deg)).degrees();
            assert!((found - 7.0).abs() < 1e-9);
        }
        assert!(Horizon::through(&[point(0.0, 81.0)]).is_err());
        assert!(Horizon::through(&[point(f64::NAN, 1.0)]).is_err());
        assert!(Horizon::through(&[point(360.0, 1.0)]).is_ok());
    }
}
