//! A pump without a plate: its curve from two things anyone can measure.

use super::error::CircuitError;
use super::friction::FrictionMethod;
use super::parts::CurvePoint;
use super::pipe::{Run, pressure_drop};
use crate::GRAVITY_M_S2;
use crate::matter::fluid::FluidProperties;

/// What a bucket and a watch say of a pump.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BucketTest {
    /// Flow into the bucket \[m3/s\].
    pub flow_m3_s: f64,
    /// Height of the hose's open end over the water the pump draws from \[m\]; below 0 where it
    /// hangs lower.
    pub lift_m: f64,
    /// The hose from the pump to its open end.
    pub hose: Run,
    /// The water in it.
    pub water: FluidProperties,
}

/// Points by which a curve of two measurements is written; the last is the bucket's.
const POINTS: usize = 41;

/// A pump's curve from its head at no flow and one bucket.
///
/// ```text
/// H(Q) = H0 - (H0 - H1) (Q/Q1)^2       up to Q1 and no further
/// H1 = lift + drop/(rho g) + v^2/(2 g)
/// ```
///
/// - `shut_head_m`: H0 \[m\], with the outlet shut: see [`shut_head_m`], or the height to which the
///   water climbs in a raised hose.
/// - `bucket`: the other point.
///
/// # Valid range
/// Positive flow, and less head in the bucket's hose than at no flow: a [`CircuitError`] outside.
/// The form suits centrifugal pumps, whose head falls all the way; side-channel and gear pumps fall
/// straight or hardly at all, and a third measurement shows it. Beyond the bucket's flow the curve
/// is not known and [`super::pump::working_point`] refuses: measure with a lower, shorter, wider
/// hose.
///
/// # Source
/// A parabola with its top at no flow: common practice for small centrifugal pumps.
///
/// # Checked
/// Two points of the pump of G-05 give back that case's flow to 2e-4.
pub fn curve_of_two(
    shut_head_m: f64,
    bucket: &BucketTest,
) -> Result<Vec<CurvePoint>, CircuitError> {
    let good = bucket.flow_m3_s > 0.0 && bucket.flow_m3_s.is_finite();
    CircuitError::unless(good, "the bucket's flow in m3/s", bucket.flow_m3_s, "more than 0")?;
    let good = shut_head_m > 0.0 && shut_head_m.is_finite();
    CircuitError::unless(good, "the head at no flow in m", shut_head_m, "more than 0")?;
    let head_m = bucket_head_m(bucket)?;
    let must = "0 or more, and less than the head at no flow";
    let good = head_m >= 0.0 && head_m < shut_head_m;
    CircuitError::unless(good, "the head at the bucket's flow in m", head_m, must)?;
    Ok((0..POINTS)
        .map(|at| {
            let way = at as f64 / (POINTS - 1) as f64;
            CurvePoint {
                flow_m3_s: way * bucket.flow_m3_s,
                head_m: shut_head_m - (shut_head_m - head_m) * way * way,
            }
        })
        .collect())
}

/// Head of a pump that fills a bucket through a hose \[m\].
///
/// # Valid range
/// As [`pressure_drop`].
///
/// # Source
/// Bernoulli, with the hose's friction by Churchill 1977.
pub fn bucket_head_m(bucket: &BucketTest) -> Result<f64, CircuitError> {
    CircuitError::unless(bucket.lift_m.is_finite(), "the lift in m", bucket.lift_m, "a number")?;
    let density_kg_m3 = bucket.water.density_kg_m3;
    let flow = pressure_drop(
        &bucket.hose,
        bucket.flow_m3_s * density_kg_m3,
        &bucket.water,
        FrictionMethod::Churchill1977,
    )?;
    Ok(bucket.lift_m
        + flow.drop_pa / (density_kg_m3 * GRAVITY_M_S2)
        + flow.velocity_m_s * flow.velocity_m_s / (2.0 * GRAVITY_M_S2))
}

/// Head at no flow from a gauge on the shut outlet \[m\].
///
/// ```text
/// H0 = p/(rho g) + z
/// ```
///
/// - `gauge_pa`: what the gauge shows \[Pa\].
/// - `density_kg_m3`: of the water.
/// - `above_m`: z, height of the gauge over the water the pump draws from \[m\].
///
/// # Valid range
/// Any numbers with a positive density.
///
/// # Source
/// Hydrostatics; B-ST-01 checks its other direction.
pub fn shut_head_m(gauge_pa: f64, density_kg_m3: f64, above_m: f64) -> f64 {
    gauge_pa / (density_kg_m3 * GRAVITY_M_S2) + above_m
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::matter::fluid::{Fluid, properties};

    fn bucket(flow_l_min: f64, lift_m: f64) -> BucketTest {
        BucketTest {
            flow_m3_s: flow_l_min / 60e3,
            lift_m,
            hose: Run { bore_m: 0.0127, length_m: 2.0, roughness_m: 7e-6, fittings_loss: 0.0 },
            water: properties(Fluid::Water, 288.15).unwrap(),
        }
    }

    /// The curve begins and ends in what was measured, and falls between.
    #[test]
    fn the_curve_holds_both_measurements() {
        let curve = curve_of_two(5.0, &bucket(15.0, 1.0)).unwrap();
        assert_eq!((curve[0].flow_m3_s, curve[0].head_m), (0.0, 5.0));
        let last = curve[curve.len() - 1];
        let measured_m = bucket_head_m(&bucket(15.0, 1.0)).unwrap();
        assert!((last.flow_m3_s * 60e3 - 15.0).abs() < 1e-12);
        assert!((last.head_m - measured_m).abs() < 1e-12);
        assert!(measured_m > 1.3, "two metres of half-inch hose cost head: {measured_m}");
        assert!(curve.windows(2).all(|pair| pair[1].head_m < pair[0].head_m));
    }

    #[test]
    fn what_cannot_be_is_said() {
        assert!(curve_of_two(1.0, &bucket(15.0, 1.0)).is_err(), "more head running than shut");
        assert!(curve_of_two(5.0, &bucket(0.0, 1.0)).is_err());
        assert!(curve_of_two(f64::NAN, &bucket(15.0, 1.0)).is_err());
        assert!(curve_of_two(5.0, &bucket(15.0, -4.0)).is_err(), "it ran by itself");
    }
}
