//! The shadow that the box's own walls throw on the sheet.

use super::{BoxWalls, Built};
use crate::sun::{Horizon, PanelAxes, PanelDirection, Plane};

/// A sheet in its box, ready to say how much of it a direction's light reaches.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WallShadow {
    /// Width of the sheet along the eaves \[m\].
    pub width_m: f64,
    /// Length of the sheet up the slope \[m\].
    pub length_m: f64,
    /// The walls.
    pub walls: BoxWalls,
}

impl WallShadow {
    /// The shadow in a panel; `None` where it has no box.
    pub fn of(built: &Built) -> Option<Self> {
        let Built { sheet, walls, .. } = built;
        walls.map(|walls| WallShadow { width_m: sheet.width_m, length_m: sheet.length_m, walls })
    }

    /// Share of the sheet that light from a direction reaches past the walls.
    ///
    /// `lit = (1 - a/W)(1 - b/L)`, `a = max(0, H |x|/n - g)` held to W, `b = max(0, H |y|/n - g)` held
    /// to L: the walls' opening, moved by the slant over their height H, cut with the sheet, which
    /// lies the gap g inside it.
    ///
    /// * `direction`: of the light, in the panel's own axes (x across, y up the slope, n normal).
    ///
    /// Returns 1 where light falls straight in, 0 along the face and from behind.
    ///
    /// # Valid range
    /// All directions. The walls are upright on the sheet's plane and black: pale ones throw some
    /// light back. The cover moves a ray by less than its own thickness, which is not counted.
    /// # Source
    /// Geometry.
    /// # Checked
    /// Against rays to a grid of 400 by 400 places of the sheet, within 0.003.
    #[inline]
    pub fn lit(&self, direction: &PanelDirection) -> f64 {
        if direction.cos_incidence <= 1e-9 {
            return 0.0;
        }
        let reach_m = self.walls.height_m / direction.cos_incidence;
        let shaded = |slant: f64, side_m: f64| {
            ((reach_m * slant.abs() - self.walls.rim_gap_m) / side_m).clamp(0.0, 1.0)
        };
        (1.0 - shaded(direction.across, self.width_m))
            * (1.0 - shaded(direction.up_slope, self.length_m))
    }
}

/// Shares of light without a beam that pass the walls and reach the sheet.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WallShares {
    /// Of the even sky.
    pub sky_share: f64,
    /// Of the band over the horizon.
    pub band_share: f64,
    /// Of the ground.
    pub ground_share: f64,
}

impl WallShadow {
    /// What light from everywhere loses at the walls.
    ///
    /// `share = sum(cos i w lit)/sum(cos i w)` over the directions of one kind, `w` the solid angle:
    /// below the level ground, above the horizon sky, along the level the band.
    ///
    /// * `plane`: tilt and facing.
    /// * `horizon`: what of the sky is hidden from the panel; [`Horizon::open`] for a free view.
    ///
    /// Returns shares from 0 to 1; 1 for a kind of light the plane does not see.
    ///
    /// # Valid range
    /// Tilts from 0 to 90 degrees. The cover's own loss at a slant is not weighed in: it falls on the
    /// same grazing light, so the product of both losses is a little more than the truth.
    /// # Source
    /// The definition of a view factor.
    /// # Checked
    /// A level sheet under an even sky against the closed form for two equal rectangles one above the
    /// other, within 0.004.
    pub fn even_light(&self, plane: &Plane, horizon: &Horizon) -> WallShares {
        const RINGS: usize = 90;
        const SECTORS: usize = 240;
        let axes = PanelAxes::of(plane);
        let [mut sky, mut band, mut ground] = [Lit::default(), Lit::default(), Lit::default()];
        let turn = |sector: usize| std::f64::consts::TAU * (sector as f64 + 0.5) / SECTORS as f64;
        for ring in 0..RINGS {
            // Rings of equal `cos i w`.
            let sine_squared = (ring as f64 + 0.5) / RINGS as f64;
            let (sine, cos_incidence) = (sine_squared.sqrt(), (1.0 - sine_squared).sqrt());
            for sector in 0..SECTORS {
                let own = PanelDirection {
                    across: sine * turn(sector).cos(),
                    up_slope: sine * turn(sector).sin(),
                    cos_incidence,
                };
                let direction = axes.to_compass(&own);
                if direction.up < 0.0 {
                    ground.add(1.0, self.lit(&own));
                } else if !horizon.hides(&direction) {
                    sky.add(1.0, self.lit(&own));
                }
            }
        }
        // Along the level, by the angle from straight ahead; behind the panel nothing is seen.
        for (cos_away, sin_away) in
            (0..SECTORS).map(|sector| (turn(sector).cos(), turn(sector).sin()))
        {
            let own = PanelDirection {
                across: sin_away,
                up_slope: -plane.tilt.cos() * cos_away,
                cos_incidence: plane.tilt.sin() * cos_away,
            };
            band.add(own.cos_incidence.max(0.0), self.lit(&own));
        }
        WallShares {
            sky_share: sky.share(),
            band_share: band.share(),
            ground_share: ground.share(),
        }
    }
}

/// Light of one kind at the cover, and on the sheet.
#[derive(Default)]
struct Lit {
    cover: f64,
    sheet: f64,
}

impl Lit {
    fn add(&mut self, weight: f64, lit: f64) {
        self.cover += weight;
        self.sheet += weight * lit;
    }

    fn share(&self) -> f64 {
        if self.cover > 0.0 { self.sheet / self.cover } else { 1.0 }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Angle;

    const SHEET: WallShadow = WallShadow {
        width_m: 0.6,
        length_m: 1.2,
        walls: BoxWalls { height_m: 0.03, rim_gap_m: 0.01 },
    };

    fn towards(across: f64, up_slope: f64, normal: f64) -> PanelDirection {
        let long = (across * across + up_slope * up_slope + normal * normal).sqrt();
        PanelDirection {
            across: across / long,
            up_slope: up_slope / long,
            cos_incidence: normal / long,
        }
    }

    /// Whether a ray from a place on the sheet passes out between the walls: it is followed in
    /// hundreds of steps to the walls' height.
    fn passes(shadow: &WallShadow, place_m: [f64; 2], ray: &PanelDirection) -> bool {
        let gap_m = shadow.walls.rim_gap_m;
        (0..=300).all(|step| {
            let rise_m = shadow.walls.height_m * f64::from(step) / 300.0;
            let x_m = place_m[0] + rise_m * ray.across / ray.cos_incidence;
            let y_m = place_m[1] + rise_m * ray.up_slope / ray.cos_incidence;
            (-gap_m..=shadow.width_m + gap_m).contains(&x_m)
                && (-gap_m..=shadow.length_m + gap_m).contains(&y_m)
        })
    }

    /// Against rays from a grid of places on the sheet towards the sun, for walls low and high and
    /// suns from steep to grazing, on all sides: within 0.003, one row of the grid.
    #[test]
    fn the_closed_form_is_what_rays_find() {
        let grid = 400;
        let deep = WallShadow { walls: BoxWalls { height_m: 0.15, rim_gap_m: 0.0 }, ..SHEET };
        for shadow in [SHEET, deep] {
            for ray in [
                towards(0.1, 0.2, 1.0),
                towards(-0.9, 0.3, 1.0),
                towards(0.5, -2.0, 1.0),
                towards(-3.0, -1.0, 0.5),
                towards(1.0, 0.05, 0.1),
            ] {
                let mut lit = 0;
                for row in 0..grid {
                    for column in 0..grid {
                        let x_m = shadow.width_m * (f64::from(column) + 0.5) / f64::from(grid);
                        let y_m = shadow.length_m * (f64::from(row) + 0.5) / f64::from(grid);
                        // The way to the walls' top is straight: its ends decide.
                        lit += u32::from(passes_ends(&shadow, [x_m, y_m], &ray));
                    }
                }
                let rays = f64::from(lit) / f64::from(grid * grid);
                let found = shadow.lit(&ray);
                assert!((found - rays).abs() < 0.003, "{ray:?}: {found} for {rays}");
            }
        }
        // That the ends decide, seen on single rays followed step by step.
        for place_m in [[0.001, 0.001], [0.3, 0.6], [0.599, 1.199], [0.02, 1.1]] {
            for ray in [towards(0.9, 0.1, 1.0), towards(-0.9, -0.9, 0.6)] {
                assert_eq!(passes(&SHEET, place_m, &ray), passes_ends(&SHEET, place_m, &ray));
            }
        }
    }

    fn passes_ends(shadow: &WallShadow, [x_m, y_m]: [f64; 2], ray: &PanelDirection) -> bool {
        let gap_m = shadow.walls.rim_gap_m;
        let top_x_m = x_m + shadow.walls.height_m * ray.across / ray.cos_incidence;
        let top_y_m = y_m + shadow.walls.height_m * ray.up_slope / ray.cos_incidence;
        (-gap_m..=shadow.width_m + gap_m).contains(&top_x_m)
            && (-gap_m..=shadow.length_m + gap_m).contains(&top_y_m)
    }

    /// Given walls right at the rim, an even half space and a level sheet: the share that passes is
    /// the view factor of two equal rectangles one above the other (Hottel's closed form as heat
    /// transfer handbooks print it; Incropera and DeWitt, table of view factors, aligned parallel
    /// rectangles). Within 0.004, the coarse sum at grazing light.
    #[test]
    fn even_light_passes_as_between_two_rectangles() {
        for height_m in [0.03, 0.1, 0.4] {
            let box_of = WallShadow { walls: BoxWalls { height_m, rim_gap_m: 0.0 }, ..SHEET };
            let level = Plane { tilt: Angle::ZERO, facing: Angle::ZERO };
            let found = box_of.even_light(&level, &Horizon::open()).sky_share;
            let (x, y) = (SHEET.width_m / height_m, SHEET.length_m / height_m);
            let (xx, yy) = (1.0 + x * x, 1.0 + y * y);
            let want = 2.0 / (std::f64::consts::PI * x * y)
                * ((xx * yy / (xx + yy - 1.0)).sqrt().ln()
                    + x * yy.sqrt() * (x / yy.sqrt()).atan()
                    + y * xx.sqrt() * (y / xx.sqrt()).atan()
                    - x * x.atan()
                    - y * y.atan());
            assert!((found - want).abs() < 0.004, "{height_m}: {found} for {want}");
        }
    }

    /// Light straight in reaches all; light along the face, nothing; no walls, no shadow.
    #[test]
    fn straight_light_reaches_all() {
        assert_eq!(SHEET.lit(&towards(0.0, 0.0, 1.0)), 1.0);
        assert_eq!(SHEET.lit(&towards(1.0, 0.0, 0.0)), 0.0);
        let flush = WallShadow { walls: BoxWalls { height_m: 0.0, rim_gap_m: 0.0 }, ..SHEET };
        assert_eq!(flush.lit(&towards(5.0, 2.0, 0.1)), 1.0);
    }

    /// On a slope the sky loses less than the ground, whose light comes at a slant, and the band over
    /// the horizon more than the sky: order of the angles. A level sheet sees no ground.
    #[test]
    fn slanting_light_loses_more() {
        let slope = Plane { tilt: Angle::from_degrees(35.0), facing: Angle::from_degrees(170.0) };
        let shares = SHEET.even_light(&slope, &Horizon::open());
        assert!(shares.ground_share < shares.sky_share && shares.band_share < shares.sky_share);
        assert!(shares.sky_share < 1.0 && shares.sky_share > 0.9, "{shares:?}");
        let level = Plane { tilt: Angle::ZERO, facing: Angle::ZERO };
        assert_eq!(SHEET.even_light(&level, &Horizon::open()).ground_share, 1.0);
    }
}
