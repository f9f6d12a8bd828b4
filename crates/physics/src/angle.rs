//! An angle that cannot be mistaken for another number.

/// A plane angle, kept in radians.
#[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd)]
pub struct Angle(f64);

impl Angle {
    /// An angle of zero.
    pub const ZERO: Angle = Angle(0.0);

    /// From degrees.
    pub const fn from_degrees(degrees: f64) -> Self {
        Angle(degrees * (std::f64::consts::PI / 180.0))
    }

    /// From radians.
    pub const fn from_radians(radians: f64) -> Self {
        Angle(radians)
    }

    /// In degrees.
    pub fn degrees(self) -> f64 {
        self.0.to_degrees()
    }

    /// In radians.
    pub const fn radians(self) -> f64 {
        self.0
    }

    /// Sine.
    pub fn sin(self) -> f64 {
        self.0.sin()
    }

    /// Cosine.
    pub fn cos(self) -> f64 {
        self.0.cos()
    }

    /// Tangent.
    pub fn tan(self) -> f64 {
        self.0.tan()
    }
}
