//! What a place of the sheet loses by its own temperature.

use physics::panel::Built;
use physics::panel::back::{edge_loss_w_k, leakage_w_m2_k, stack_conductance_w_m2_k};
use physics::panel::glazing::Glazing;
use physics::panel::standard_test::Stand;

use super::error::{PlateError, within};

/// Heat a sheet loses, by the temperature of each of its places.
#[derive(Clone, Debug, PartialEq)]
pub struct Losses {
    /// Through the covers \[W/m2\].
    top: Curve,
    /// Through the back and by leaking air \[W/m2\].
    back: Curve,
    /// Through the rim, for each metre of it \[W/m\].
    rim: Curve,
}

impl Losses {
    /// One loss coefficient for every place, over its difference to the air, and none at the rim.
    ///
    /// For comparison with the fin-and-tube chain, which knows no other.
    pub fn even(loss_w_m2_k: f64, ambient_k: f64) -> Losses {
        Losses {
            top: Curve::straight(loss_w_m2_k, ambient_k),
            back: Curve::straight(0.0, ambient_k),
            rim: Curve::straight(0.0, ambient_k),
        }
    }

    /// The losses of a panel on a stand, tabled once over the temperature of a place.
    ///
    /// Every place loses through the covers as a whole sheet of its temperature would
    /// ([`Glazing::upwards`]): the covers' own temperature follows it from place to place. Back and
    /// leaking air by [`stack_conductance_w_m2_k`] and [`leakage_w_m2_k`]. What goes through the
    /// rim ([`edge_loss_w_k`]) goes evenly along the sheet's perimeter, from the outermost cells.
    ///
    /// `inlet_k`, `absorbed_w_m2`: fluid entering and light taken up, between whose temperatures
    /// every place must lie: the table reaches a little beyond them, by steps of a quarter kelvin.
    ///
    /// # Valid range
    /// As those; else an error.
    ///
    /// # Source
    /// Duffie and Beckman 2006, section 6.4, place by place.
    ///
    /// # Checked
    /// The table against its relations between its points, within 0.01 W/m2.
    pub fn of(
        built: &Built,
        stand: &Stand,
        inlet_k: f64,
        absorbed_w_m2: f64,
    ) -> Result<Losses, PlateError> {
        let around = stand.around;
        let glazing = Glazing::of(&built.covers, built.sheet.emittance, stand.tilt)?;
        let air_k = around.ambient_k;
        let perimeter_m = 2.0 * (built.sheet.length_m + built.sheet.width_m);
        let leakage_w_m2_k = match built.covers.first() {
            Some(cover) => leakage_w_m2_k(&built.box_air, cover.gap_m)?,
            None => 0.0,
        };
        let low_k = (air_k.min(around.sky_k).min(inlet_k) - MARGIN_K).floor();
        let mut losses = Losses {
            top: Curve::empty(low_k),
            back: Curve::empty(low_k),
            rim: Curve::empty(low_k),
        };
        for at in 0.. {
            let place_k = within(
                "temperature of the sheet [K]",
                low_k + STEP_K * f64::from(at),
                100.0..=900.0,
            )?;
            let rise_k = place_k - air_k;
            let back = stack_conductance_w_m2_k(&built.back, place_k, air_k)?.conductance_w_m2_k;
            let top_w_m2 = glazing.upwards(place_k, &around, &[])?.flux_w_m2;
            let back_w_m2 = (back + leakage_w_m2_k) * rise_k;
            losses.top.points.push(top_w_m2);
            losses.back.points.push(back_w_m2);
            losses
                .rim
                .points
                .push(edge_loss_w_k(&built.edge, place_k, air_k)? / perimeter_m * rise_k);
            let idle = top_w_m2 + back_w_m2 > absorbed_w_m2 && place_k > inlet_k;
            if idle && place_k > air_k + MARGIN_K {
                break;
            }
        }
        Ok(losses)
    }

    /// Through covers and back at a place of some temperature \[W/m2\], and its growth
    /// \[W/(m2 K)\].
    pub(crate) fn face(&self, place_k: f64) -> (f64, f64) {
        let (top, back) = (self.top.at(place_k), self.back.at(place_k));
        (top.0 + back.0, top.1 + back.1)
    }

    /// Through a metre of rim \[W/m\], and its growth \[W/(m K)\].
    pub(crate) fn rim(&self, place_k: f64) -> (f64, f64) {
        self.rim.at(place_k)
    }

    /// Through the covers alone \[W/m2\].
    pub(crate) fn top_w_m2(&self, place_k: f64) -> f64 {
        self.top.at(place_k).0
    }
}

/// How far the table reaches beyond what is expected \[K\].
const MARGIN_K: f64 = 10.0;

/// How far apart the table's points stand \[K\]. Where convection sets in under the cover, near the
/// air's temperature, the loss has a corner, off which a kelvin's chord would lie too far.
const STEP_K: f64 = 0.25;

/// Heat by temperature: straight lines between points [`STEP_K`] apart, prolonged at both ends.
#[derive(Clone, Debug, PartialEq)]
struct Curve {
    low_k: f64,
    points: Vec<f64>,
}

impl Curve {
    fn empty(low_k: f64) -> Curve {
        Curve { low_k, points: Vec::new() }
    }

    fn straight(slope: f64, zero_k: f64) -> Curve {
        Curve { low_k: zero_k, points: vec![0.0, slope * STEP_K] }
    }

    /// Value and slope.
    fn at(&self, place_k: f64) -> (f64, f64) {
        let along = (place_k - self.low_k) / STEP_K;
        let before = (along.max(0.0) as usize).min(self.points.len() - 2);
        let rise = self.points[before + 1] - self.points[before];
        (self.points[before] + rise * (along - before as f64), rise / STEP_K)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use physics::panel::back::rest_loss_w_m2_k;
    use physics::panel::standard_test::standard_stand;
    use physics::panel::{
        BoxAir, Cover, DiffuseAngle, Edge, Fins, Layer, Passage, Sheet, Tube, TubePattern, Tubes,
    };

    fn panel() -> Built {
        let wool = Layer {
            thickness_m: 0.05,
            conductivity_w_m_k: 0.038,
            conductivity_growth_1_k: 0.004,
            density_kg_m3: 45.0,
            heat_capacity_j_kg_k: 840.0,
        };
        Built {
            covers: vec![Cover {
                gap_m: 0.025,
                emittance: 0.88,
                ..Cover::of_light(1.526, 16.0, 0.004)
            }],
            diffuse_angle: DiffuseAngle::SixtyDegrees,
            sheet: Sheet {
                length_m: 2.0,
                width_m: 1.0,
                thickness_m: 0.0005,
                conductivity_w_m_k: 340.0,
                density_kg_m3: 8940.0,
                heat_capacity_j_kg_k: 385.0,
                absorptance: 0.95,
                emittance: 0.93,
            },
            passage: Passage::Tubes(Tubes {
                tube: Tube {
                    outside_m: 0.010,
                    bore_m: 0.0088,
                    conductivity_w_m_k: 340.0,
                    density_kg_m3: 8940.0,
                    heat_capacity_j_kg_k: 385.0,
                    roughness_m: 1.5e-6,
                },
                spacing_m: 0.125,
                bond_w_m_k: 30.0,
                stretches: Vec::new(),
                pattern: TubePattern::Serpentine { legs: 8, leg_length_m: 2.0 },
                fins: Fins::OneSheet,
            }),
            back: vec![wool],
            edge: Edge { layer: Layer { thickness_m: 0.025, ..wool }, area_m2: 0.5 },
            walls: None,
            box_air: BoxAir { changes_1_h: 10.0 },
            extra_capacity_j_k: 0.0,
        }
    }

    /// Given: a panel under glass, places from below the sky to nearly idle heat. Expected: the
    /// relations themselves, asked between the table's points; whole losses with the rim's share as
    /// the station gives them. Tolerance 0.01 W/m2: a curve bent by 0.02 W/(m2 K2) lies 0.0002 off
    /// its chord of a quarter kelvin, and where convection sets in it has a corner.
    #[test]
    fn the_table_follows_its_relations() {
        let (built, stand) = (panel(), standard_stand(10.0));
        let losses = Losses::of(&built, &stand, 300.0, 1000.0).unwrap();
        let glazing = Glazing::of(&built.covers, built.sheet.emittance, stand.tilt).unwrap();
        let air_k = stand.around.ambient_k;
        let perimeter_m = 6.0;
        for step in 0..410 {
            let place_k = 275.37 + 0.31 * f64::from(step);
            let top_w_m2 = glazing.upwards(place_k, &stand.around, &[]).unwrap().flux_w_m2;
            let rest = rest_loss_w_m2_k(&built, place_k, air_k).unwrap() * (place_k - air_k);
            let (face_w_m2, _) = losses.face(place_k);
            let rim_w_m2 = losses.rim(place_k).0 * perimeter_m / built.sheet.area_m2();
            let off = losses.top_w_m2(place_k) - top_w_m2;
            assert!(off.abs() < 0.01, "{place_k} K: {off}");
            let off = face_w_m2 + rim_w_m2 - top_w_m2 - rest;
            assert!(off.abs() < 0.01, "{place_k} K: {off}");
        }
    }
}
