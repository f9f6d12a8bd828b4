//! What share of the light a covered sheet takes up, tabled for the minute loop.

use physics::panel::walls::{WallShadow, WallShares};
use physics::sun::{PanelDirection, PlaneLight, Sun};

/// Cells of the table. Clear glass bends most near grazing light; 512 cells hold it to 0.0005.
const CELLS: usize = 512;

/// The transmittance-absorptance product over the cosine of incidence, and for diffuse light.
#[derive(Clone, Debug, PartialEq)]
pub struct OpticsTable {
    beam: Vec<f64>,
    sky: f64,
    band: f64,
    ground: f64,
    walls: Option<(WallShadow, WallShares)>,
}

impl OpticsTable {
    /// Tables a product.
    ///
    /// * `beam`: share of beam taken up, by the cosine of its incidence from 0 (grazing) to 1.
    /// * `sky`, `ground`: shares of the sky's diffuse light and of the ground's.
    pub fn from_fn(beam: impl Fn(f64) -> f64, sky: f64, ground: f64) -> Self {
        let beam = (0..=CELLS).map(|at| beam(at as f64 / CELLS as f64)).collect();
        OpticsTable { beam, sky, band: sky, ground, walls: None }
    }

    /// The same behind the walls of a box.
    ///
    /// * `walls`: the walls' shadow.
    /// * `sun`: the plane, and the horizon that hides a part of the sky.
    pub fn behind(self, walls: WallShadow, sun: &Sun) -> Self {
        let shares = walls.even_light(&sun.plane, &sun.horizon);
        OpticsTable {
            sky: self.sky * shares.sky_share,
            band: self.band * shares.band_share,
            ground: self.ground * shares.ground_share,
            walls: Some((walls, shares)),
            ..self
        }
    }

    /// Share of the sheet that beam from a direction reaches past the walls.
    #[inline]
    pub fn lit_share(&self, direction: &PanelDirection) -> f64 {
        self.walls.as_ref().map_or(1.0, |(walls, _)| walls.lit(direction))
    }

    /// What of the light on the plane ends on the walls \[W/m2\], where they let beam reach `lit_share` of
    /// the sheet.
    #[inline]
    pub fn on_walls_w_m2(&self, lit_share: f64, light: &PlaneLight) -> f64 {
        self.walls.as_ref().map_or(0.0, |(_, shares)| {
            (1.0 - lit_share) * (light.beam_w_m2 + light.circumsolar_w_m2)
                + (1.0 - shares.sky_share) * light.isotropic_w_m2
                + (1.0 - shares.band_share) * light.horizon_w_m2
                + (1.0 - shares.ground_share) * light.ground_w_m2
        })
    }

    /// Share of beam taken up at a cosine of incidence, walls or none; nothing from behind the plane.
    #[inline]
    pub fn beam(&self, cos_incidence: f64) -> f64 {
        let place = cos_incidence.clamp(0.0, 1.0) * CELLS as f64;
        let cell = (place as usize).min(CELLS - 1);
        let within = place - cell as f64;
        self.beam[cell] * (1.0 - within) + self.beam[cell + 1] * within
    }

    /// Share of the sky's diffuse light taken up.
    pub fn sky(&self) -> f64 {
        self.sky
    }

    /// Share of the light of the band over the horizon taken up.
    pub fn band(&self) -> f64 {
        self.band
    }

    /// Share of the ground's light taken up.
    pub fn ground(&self) -> f64 {
        self.ground
    }
}

#[cfg(test)]
mod tests {
    use physics::Angle;
    use physics::panel::Cover;
    use physics::panel::optics::transmission;

    use super::OpticsTable;

    /// Against direct evaluation over the whole range, for common glass and for a clear plastic: within
    /// 0.0005 of the share, a twentieth of what a cover's index is known to.
    #[test]
    fn the_table_is_the_product_itself() {
        for (index, extinction_1_m) in [(1.526, 30.0), (1.49, 4.0)] {
            let cover = Cover::of_light(index, extinction_1_m, 0.004);
            let direct = |cosine: f64| {
                // The half sphere's edge by its angle: a right angle's cosine is not quite nought.
                let angle = Angle::from_radians(cosine.acos());
                if cosine <= 0.0 {
                    return 0.0;
                }
                0.95 * transmission(&[cover], angle).transmittance
            };
            let (sky, ground) = (0.7, 0.6);
            let table = OpticsTable::from_fn(direct, sky, ground);
            for step in 0..=10_000 {
                let cosine = f64::from(step) / 10_000.0;
                let apart = (table.beam(cosine) - direct(cosine)).abs();
                assert!(apart < 5e-4, "index {index} at {cosine}: {apart}");
            }
            assert_eq!((table.sky(), table.ground()), (sky, ground));
            assert_eq!(table.beam(-0.3), 0.0);
        }
    }
}
