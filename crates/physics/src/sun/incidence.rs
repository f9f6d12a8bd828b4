//! How squarely the sun meets a plane, hour angle by hour angle.

use super::axes::{Direction, PanelAxes};
use super::parts::Plane;
use crate::Angle;

/// The cosine of the angle between the sun and a direction, as it runs through a day.
///
/// `cos(angle) = constant + cosine cos(w) + sine sin(w)`, `w` the hour angle, positive after the
/// sun's noon. With the declination held the three numbers hold too, so a minute costs two
/// multiplications.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct DiurnalCosine {
    /// The part that does not turn.
    pub constant: f64,
    /// What goes with the cosine of the hour angle.
    pub cosine: f64,
    /// What goes with the sine of the hour angle.
    pub sine: f64,
}

impl DiurnalCosine {
    /// The cosine of the sun's zenith angle.
    ///
    /// `cos(zenith) = sin p sin d + cos p cos d cos w`.
    ///
    /// * `latitude`: north positive.
    /// * `declination`: north positive, -23.5 to 23.5 degrees.
    ///
    /// # Valid range
    /// All angles.
    /// # Source
    /// Duffie and Beckman, Solar Engineering of Thermal Processes, eq. 1.6.5.
    /// # Checked
    /// Worked cases of the same book (examples 1.6.2 and 1.6.3, recalled): within 0.1 degrees.
    pub fn zenith(latitude: Angle, declination: Angle) -> Self {
        DiurnalCosine {
            constant: latitude.sin() * declination.sin(),
            cosine: latitude.cos() * declination.cos(),
            sine: 0.0,
        }
    }

    /// The cosine of the angle between the sun and a plane's normal; negative where the sun is
    /// behind the plane.
    ///
    /// `cos(incidence) = sin d sin p cos b - sin d cos p sin b cos g + cos d cos p cos b cos w`
    /// `+ cos d sin p sin b cos g cos w + cos d sin b sin g sin w`, `g` counted from south, west
    /// positive; here from the plane's facing, clockwise from north, so that `g = facing - 180`.
    ///
    /// * `plane`: tilt from the horizontal, and facing clockwise from north.
    /// * `latitude`, `declination`: north positive.
    ///
    /// # Valid range
    /// All angles.
    /// # Source
    /// Duffie and Beckman, Solar Engineering of Thermal Processes, eq. 1.6.2.
    /// # Checked
    /// Example 1.6.1 of the same book (recalled, 35.0 degrees): within 0.3 degrees; 40 rows of
    /// `reference/sun-vectors.csv`: within 0.02 degrees.
    pub fn plane(plane: &Plane, latitude: Angle, declination: Angle) -> Self {
        Self::with(&PanelAxes::of(plane).normal, latitude, declination)
    }

    /// The cosine of the angle between the sun and any direction that stands still, such as east
    /// or a line up the roof; the sun's own cosines with the compass's axes by the same rule.
    ///
    /// `cos = (u sin p + n cos p) sin d + (u cos p - n sin p) cos d cos w - e cos d sin w`, with the
    /// direction's cosines e, n, u with east, north and up.
    ///
    /// * `direction`: by its cosines.
    /// * `latitude`, `declination`: north positive.
    ///
    /// # Valid range
    /// All angles.
    /// # Source
    /// The same equation before facing and tilt are put in.
    /// # Checked
    /// With [`Self::plane`], which uses it; azimuths of `reference/sun-vectors.csv`, within 0.02
    /// degrees.
    pub fn with(direction: &Direction, latitude: Angle, declination: Angle) -> Self {
        let Direction { east, north, up } = *direction;
        let (sin_lat, cos_lat) = (latitude.sin(), latitude.cos());
        let (sin_dec, cos_dec) = (declination.sin(), declination.cos());
        DiurnalCosine {
            constant: (up * sin_lat + north * cos_lat) * sin_dec,
            cosine: (up * cos_lat - north * sin_lat) * cos_dec,
            sine: -east * cos_dec,
        }
    }

    /// The cosine at an hour angle of which cosine and sine are at hand.
    #[inline]
    pub fn at(&self, cos_w: f64, sin_w: f64) -> f64 {
        self.constant + self.cosine * cos_w + self.sine * sin_w
    }

    /// The cosine at an hour angle.
    pub fn at_hour_angle(&self, w: Angle) -> f64 {
        self.at(w.cos(), w.sin())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn degrees(degrees: f64) -> Angle {
        Angle::from_degrees(degrees)
    }

    /// Given 43 N, 13 February (declination -14), 10:30 solar time, a plane tilted 45 degrees and
    /// facing 15 degrees west of south: incidence 35.0 degrees and a beam ratio of 1.66 (Duffie and
    /// Beckman, examples 1.6.1 and 1.8.1, recalled). The book rounds the declination, hence 0.3
    /// degrees and 0.02.
    #[test]
    fn a_plane_west_of_south_meets_the_february_sun_as_the_book_says() {
        let plane = Plane { tilt: degrees(45.0), facing: degrees(195.0) };
        let w = degrees(-22.5);
        let on_plane = DiurnalCosine::plane(&plane, degrees(43.0), degrees(-14.0)).at_hour_angle(w);
        let level = DiurnalCosine::zenith(degrees(43.0), degrees(-14.0)).at_hour_angle(w);
        assert!((on_plane.acos().to_degrees() - 35.0).abs() < 0.3);
        assert!((on_plane / level - 1.66).abs() < 0.02);
    }

    /// Given 43 N, 9:30 on 13 February and 18:30 on 1 July: zenith 66.5 and 79.6 degrees (Duffie
    /// and Beckman, example 1.6.2, recalled, printed to 0.1). Declinations by Cooper 1969, as there.
    #[test]
    fn zenith_angles_of_february_and_july_are_the_books() {
        for (day, solar_hour, zenith_deg) in [(44.0, 9.5, 66.5), (182.0, 18.5, 79.6)] {
            let declination = degrees(23.45 * degrees(360.0 * (284.0 + day) / 365.0).sin());
            let w = degrees(15.0 * (solar_hour - 12.0));
            let cosine = DiurnalCosine::zenith(degrees(43.0), declination).at_hour_angle(w);
            assert!((cosine.acos().to_degrees() - zenith_deg).abs() < 0.1, "day {day}");
        }
    }

    /// Given 40 N, 16 February, 9 to 10 h, a south plane at 30 degrees: beam ratio 1.61 (Duffie and
    /// Beckman, example 1.8.2, recalled, printed to 0.01).
    #[test]
    fn the_beam_ratio_of_a_south_plane_is_the_books() {
        let plane = Plane { tilt: degrees(30.0), facing: degrees(180.0) };
        let declination = degrees(23.45 * degrees(360.0 * (284.0 + 47.0) / 365.0).sin());
        let w = degrees(-37.5);
        let ratio = DiurnalCosine::plane(&plane, degrees(40.0), declination).at_hour_angle(w)
            / DiurnalCosine::zenith(degrees(40.0), declination).at_hour_angle(w);
        assert!((ratio - 1.61).abs() < 0.01, "{ratio}");
    }

    /// A plane that lies flat meets the sun as the ground does, whatever it faces: geometry.
    #[test]
    fn a_flat_plane_is_the_ground() {
        let flat = Plane { tilt: Angle::ZERO, facing: degrees(123.0) };
        let a = DiurnalCosine::plane(&flat, degrees(-33.0), degrees(11.0));
        let b = DiurnalCosine::zenith(degrees(-33.0), degrees(11.0));
        assert_eq!((a.constant, a.cosine, a.sine.abs()), (b.constant, b.cosine, 0.0));
    }
}
