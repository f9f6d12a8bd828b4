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
    /// every place must lie: the table reaches a little beyond them, by steps of a kelvin.
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
            let place_k =
                within("temperature of the sheet [K]", low_k + f64::from(at), 100.0..=900.0)?;
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

/// Heat by temperature: straight lines between points a kelvin apart, prolonged at both ends.
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
        Curve { low_k: zero_k, points: vec![0.0, slope] }
    }

    /// Value and slope.
    fn at(&self, place_k: f64) -> (f64, f64) {
        let along = place_k - self.low_k;
        let before = (along.max(0.0) as usize).min(self.points.len() - 2);
        let slope = self.points[before + 1] - self.points[before];
        (self.points[before] + slope * (along - before as f64), slope)
    }
}
