//! Directions, in the compass's axes and in the panel's own.

use super::parts::Plane;
use crate::Angle;

/// A direction by its cosines with east, north and up; its squares add to one.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Direction {
    /// Cosine with east.
    pub east: f64,
    /// Cosine with true north.
    pub north: f64,
    /// Cosine with the vertical.
    pub up: f64,
}

impl Direction {
    /// Where something stands in the sky, by azimuth clockwise from true north and height over the
    /// level.
    pub fn at(azimuth: Angle, height: Angle) -> Self {
        Direction {
            east: height.cos() * azimuth.sin(),
            north: height.cos() * azimuth.cos(),
            up: height.sin(),
        }
    }

    /// Clockwise from true north, from -180 to 180 degrees; 0 straight overhead.
    pub fn azimuth(&self) -> Angle {
        Angle::from_radians(self.east.atan2(self.north))
    }
}

/// A direction as the panel sees it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PanelDirection {
    /// Cosine with the level line along the eaves.
    pub across: f64,
    /// Cosine with the line up the slope.
    pub up_slope: f64,
    /// Cosine with the plane's normal: of the angle of incidence.
    pub cos_incidence: f64,
}

impl PanelDirection {
    /// Straight off the face.
    pub const STRAIGHT: PanelDirection =
        PanelDirection { across: 0.0, up_slope: 0.0, cos_incidence: 1.0 };
}

/// The panel's own axes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PanelAxes {
    /// Level, along the eaves: to the left of one who looks where the panel looks.
    pub across: Direction,
    /// Up the slope.
    pub up_slope: Direction,
    /// Away from the face.
    pub normal: Direction,
}

impl PanelAxes {
    /// The axes of a plane, at right angles to each other.
    pub fn of(plane: &Plane) -> Self {
        let (sin_tilt, cos_tilt) = (plane.tilt.sin(), plane.tilt.cos());
        let (sin_facing, cos_facing) = (plane.facing.sin(), plane.facing.cos());
        PanelAxes {
            across: Direction { east: -cos_facing, north: sin_facing, up: 0.0 },
            up_slope: Direction {
                east: -cos_tilt * sin_facing,
                north: -cos_tilt * cos_facing,
                up: sin_tilt,
            },
            normal: Direction {
                east: sin_tilt * sin_facing,
                north: sin_tilt * cos_facing,
                up: cos_tilt,
            },
        }
    }

    /// A direction of the panel's own in the compass's axes.
    pub fn to_compass(&self, own: &PanelDirection) -> Direction {
        let sum = |part: fn(&Direction) -> f64| {
            own.across * part(&self.across)
                + own.up_slope * part(&self.up_slope)
                + own.cos_incidence * part(&self.normal)
        };
        Direction {
            east: sum(|axis| axis.east),
            north: sum(|axis| axis.north),
            up: sum(|axis| axis.up),
        }
    }
}
