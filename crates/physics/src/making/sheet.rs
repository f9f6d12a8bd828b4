//! The flat sheet that lies rolled up in the side of an old cylinder.

use std::f64::consts::PI;

use super::error::MakingError;

/// The straight side of a cylinder, its domed ends cut off.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CylinderSide {
    /// Diameter in the middle of the wall \[m\]: outside less one thickness; a household hot-water
    /// cylinder 0.4 to 0.5.
    pub diameter_m: f64,
    /// Height between the two cuts \[m\]; 0.7 to 1.1.
    pub height_m: f64,
    /// Strip lost where the seam is cut out \[m\]; 0 where the cut runs along it.
    pub seam_m: f64,
}

/// A flat sheet.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FlatSheet {
    /// What was the way round \[m\].
    pub width_m: f64,
    /// What was the height \[m\].
    pub height_m: f64,
}

impl FlatSheet {
    /// Area of one face \[m2\].
    pub fn area_m2(&self) -> f64 {
        self.width_m * self.height_m
    }
}

/// The sheet that a cylinder's side gives when it is cut open and flattened.
///
/// ```text
/// w = pi D - s
/// ```
///
/// - `side`: diameter D, height, seam s. Measured outside, a wall of 0.7 mm makes the sheet 2 mm
///   too wide.
///
/// # Valid range
/// Positive diameter and height, a seam of 0 and narrower than the way round; a [`MakingError`]
/// outside.
///
/// # Source
/// Way round a circle; bending leaves the middle of a thin wall as long as it was.
///
/// # Checked
/// By mass: the sheet weighs what a handbook's tube of the same diameter and wall weighs
/// (B-EN-01), to its 1e-4.
///
/// # Example
/// ```
/// use physics::making::sheet::{CylinderSide, unroll};
/// let side = CylinderSide { diameter_m: 0.45, height_m: 0.9, seam_m: 0.01 };
/// assert!((unroll(&side).unwrap().width_m - 1.4037).abs() < 1e-4);
/// ```
pub fn unroll(side: &CylinderSide) -> Result<FlatSheet, MakingError> {
    MakingError::positive("the cylinder's diameter in m", side.diameter_m)?;
    MakingError::positive("the cylinder's height in m", side.height_m)?;
    MakingError::not_negative("the seam in m", side.seam_m)?;
    let round_m = PI * side.diameter_m;
    let must = "narrower than the way round";
    MakingError::unless(side.seam_m < round_m, "the seam in m", side.seam_m, must)?;
    Ok(FlatSheet { width_m: round_m - side.seam_m, height_m: side.height_m })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Given: numbers that no cylinder has. Expected: an error with the number.
    #[test]
    fn refuses_what_is_no_cylinder() {
        let side = CylinderSide { diameter_m: 0.45, height_m: 0.9, seam_m: 0.0 };
        for bad in [
            CylinderSide { diameter_m: 0.0, ..side },
            CylinderSide { height_m: f64::NAN, ..side },
            CylinderSide { seam_m: -0.01, ..side },
            CylinderSide { seam_m: 1.5, ..side },
        ] {
            assert!(unroll(&bad).is_err(), "{bad:?}");
        }
        let error = unroll(&CylinderSide { seam_m: 1.5, ..side }).unwrap_err();
        assert_eq!(
            error.to_string(),
            "the seam in m is 1.5; it must be narrower than the way round"
        );
    }
}
