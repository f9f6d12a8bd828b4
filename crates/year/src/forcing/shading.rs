//! What horizon and near shade leave of the light on the panel's plane.

use physics::sun::{DomeShares, NearShade, PlaneLight, Sun, dome_shares};

const MINUTES_PER_DAY: usize = 1440;

/// The shades of a build, made ready for the minutes.
pub(super) struct Shading<'a> {
    dome: DomeShares,
    near: &'a NearShade,
}

impl<'a> Shading<'a> {
    pub(super) fn of(sun: &'a Sun) -> Self {
        Shading { dome: dome_shares(&sun.plane, &sun.horizon), near: &sun.near_shade }
    }

    /// The light that is left at a minute of the household's year. What lies behind the far horizon
    /// loses beam and the bright sky round the sun; light from the ground stays as it is.
    #[inline]
    pub(super) fn leave(&self, light: PlaneLight, at: usize, behind_horizon: bool) -> PlaneLight {
        let kept = self.near.kept(at / MINUTES_PER_DAY, at % MINUTES_PER_DAY);
        let beam_share = if behind_horizon { 0.0 } else { kept.beam_share };
        let circumsolar_w_m2 = light.circumsolar_w_m2 * beam_share;
        let isotropic_w_m2 = light.isotropic_w_m2 * self.dome.sky_share * kept.diffuse_share;
        let horizon_w_m2 = light.horizon_w_m2 * self.dome.band_share * kept.diffuse_share;
        PlaneLight {
            beam_w_m2: light.beam_w_m2 * beam_share,
            circumsolar_w_m2,
            isotropic_w_m2,
            // A darker band takes no more than the sky still brings, as under a free sky.
            horizon_w_m2: horizon_w_m2.max(-(circumsolar_w_m2 + isotropic_w_m2)),
            ground_w_m2: light.ground_w_m2,
        }
    }
}
