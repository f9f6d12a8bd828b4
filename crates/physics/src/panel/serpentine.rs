//! One tube laid to and fro on a sheet: neighbouring legs share a fin.

use super::error::{PanelError, within};
use super::fin::{FinAndTube, fin_parameter_1_m, gathering_m, tube_resistance_m_k_w};
use super::matrix::Matrix;

/// A serpentine on its sheet.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Serpentine {
    /// Sheet, tube and loss, alike at every leg.
    pub fin: FinAndTube,
    /// Sheet from the middle of the outermost legs to the rim \[m\]; half the spacing where the
    /// sheet fits its legs.
    pub rim_m: f64,
    /// Straight legs, 1 to 40.
    pub legs: u32,
    /// Length of a leg \[m\].
    pub leg_length_m: f64,
    /// Mass flow times heat capacity in the tube \[W/K\].
    pub capacity_rate_w_k: f64,
}

/// Heat removal factor FR of a serpentine, bends left out: the heat gained over that of a sheet
/// as cool as the inlet, for the area `((legs - 1) spacing + 2 rim) leg_length`.
///
/// With `t` the temperature less that of an idle sheet (`Ta + S/U`), each leg `i` obeys
/// `C dt_i/dy = -/+ q_i` by its direction, `q_i = (t_sheet,i - t_i)/R`, and the sheet over the
/// legs `-q_i = (U D + 2 k d m tanh(m (W - D)/2)) t_i + k d m / sinh(m (W - D))
/// (2 t_i - t_(i-1) - t_(i+1))` with the sheet's temperatures; beyond the first and the last leg
/// is no neighbour but a fin as long as the rim, whose end loses nothing by itself. Each leg begins where the one before
/// it ended. Solved exactly along the legs; heat led along the sheet in the legs' direction is
/// left out, as in the fin-and-tube chain.
///
/// The short circuit between cold and warm legs takes one per cent off parallel tubes at narrow
/// spacing and usual flow, less for many short legs, and much more at a trickle.
///
/// # Valid range
/// As [`f_prime`](super::fin::f_prime), with free sheet between the tubes, 1 to 40 legs, a rate above zero; else an
/// error. Any rate from a trickle to a torrent: thin slices of the legs are put together by what
/// goes in and comes out, so that nothing grows without limit.
///
/// # Source
/// The coupled legs of Abdel-Khalik, Solar Energy 18 (1976) 59, and Zhang and Lavan, Solar Energy
/// 34 (1985) 175, for any number of legs; put together by doubling slices (Redheffer 1962).
///
/// # Checked
/// FN-09 (two legs, exact by another hand): 0.7945 and 0.7961 within 0.001. Five, six
/// and twelve legs against a sheet cut into cells and solved with scipy, within 2e-5. One leg equals the parallel chain; endless
/// flow gives F'.
///
/// # Example
/// ```
/// use physics::panel::{fin::FinAndTube, serpentine::{Serpentine, heat_removal_serpentine}};
/// let fin = FinAndTube {
///     spacing_m: 0.1, outside_m: 0.01, bore_m: 0.01, thickness_m: 0.0005,
///     conductivity_w_m_k: 385.0, loss_w_m2_k: 8.0, film_w_m2_k: 300.0,
///     bond_w_m_k: f64::INFINITY, wall_conductivity_w_m_k: f64::INFINITY,
/// };
/// let two = Serpentine { fin, rim_m: 0.05, legs: 2, leg_length_m: 20.0, capacity_rate_w_k: 125.7 };
/// assert!((heat_removal_serpentine(&two).unwrap() - 0.7945).abs() < 0.001);
/// ```
pub fn heat_removal_serpentine(given: &Serpentine) -> Result<f64, PanelError> {
    let legs = within("number of legs", f64::from(given.legs), 1.0..=40.0)?;
    let length_m = within("length of a leg [m]", given.leg_length_m, 1e-3..=1e4)?;
    let rate_w_k = within("capacity rate [W/K]", given.capacity_rate_w_k, 1e-9..=f64::MAX)?;
    let width_m = (legs - 1.0) * given.fin.spacing_m + 2.0 * given.rim_m;
    let loss_w_m_k = width_m * given.fin.loss_w_m2_k;
    let from_fluid = from_fluid_w_m_k(given)?;
    let loss_w_k = loss_w_m_k * length_m;
    if loss_w_k / rate_w_k < 1e-8 {
        // The fluid warms by less than digits can show: all of it is at the inlet's temperature.
        return Ok(if loss_w_m_k > 0.0 { from_fluid.sum() / loss_w_m_k } else { 1.0 });
    }
    let passage = Passage::through_legs(&growth_1_m(&from_fluid, rate_w_k), length_m)?;
    let outlet = passage.outlet(given.legs as usize)?;
    Ok(rate_w_k * (1.0 - outlet) / loss_w_k)
}

/// What a slice across all legs makes of the fluid that enters it on both sides.
///
/// `up` legs run from the slice's near side to its far side, `down` legs back:
/// `up_out = through_up up_in + turned_far down_in`, `down_out = turned_near up_in + through_down
/// down_in`.
struct Passage {
    through_up: Matrix,
    turned_far: Matrix,
    turned_near: Matrix,
    through_down: Matrix,
}

impl Passage {
    fn through_legs(growth: &Matrix, length_m: f64) -> Result<Passage, PanelError> {
        let mut doublings = 0;
        let mut slice_m = length_m;
        while growth.norm() * slice_m > 0.25 {
            slice_m *= 0.5;
            doublings += 1;
        }
        let mut passage = Passage::thin(&growth.scaled(slice_m))?;
        for _ in 0..doublings {
            passage = passage.doubled()?;
        }
        Ok(passage)
    }

    /// A slice so thin that its far side follows from its near side.
    fn thin(growth: &Matrix) -> Result<Passage, PanelError> {
        let far = growth.exponential_of_small();
        let (legs, up) = (growth.rows(), growth.rows().div_ceil(2));
        let through_down = far.block(up..legs, up..legs).solve(&Matrix::identity(legs - up))?;
        let turned_far = far.block(0..up, up..legs).times(&through_down);
        let seen = far.block(up..legs, 0..up);
        Ok(Passage {
            through_up: far.block(0..up, 0..up).plus(&turned_far.times(&seen), -1.0),
            turned_near: through_down.times(&seen).scaled(-1.0),
            turned_far,
            through_down,
        })
    }

    /// Two such slices, one behind the other.
    fn doubled(&self) -> Result<Passage, PanelError> {
        let Passage { through_up, turned_far, turned_near, through_down } = self;
        let echo = Matrix::identity(through_up.rows()).plus(&turned_far.times(turned_near), -1.0);
        // Fluid of the up legs between the slices, by what enters near and by what enters far.
        let by_near = echo.solve(through_up)?;
        let by_far = echo.solve(&turned_far.times(through_down))?;
        let back = through_down.times(turned_near);
        Ok(Passage {
            through_up: through_up.times(&by_near),
            turned_far: turned_far.plus(&through_up.times(&by_far), 1.0),
            turned_near: turned_near.plus(&back.times(&by_near), 1.0),
            through_down: back.times(&by_far).plus(&through_down.times(through_down), 1.0),
        })
    }

    /// Temperature of the fluid that leaves the last leg, where what enters the first has one.
    fn outlet(&self, legs: usize) -> Result<f64, PanelError> {
        let up = legs.div_ceil(2);
        // What enters: the up legs near, then the down legs far. What leaves: the up legs far,
        // then the down legs near.
        let leaving = |place: usize, entering: usize| match (place < up, entering < up) {
            (true, true) => self.through_up.at(place, entering),
            (true, false) => self.turned_far.at(place, entering - up),
            (false, true) => self.turned_near.at(place - up, entering),
            (false, false) => self.through_down.at(place - up, entering - up),
        };
        // Down leg j begins where up leg j ends; up leg j where down leg j - 1 ends.
        let feeder = |entering: usize| {
            if entering >= up { Some(entering - up) } else { (entering + up).checked_sub(1) }
        };
        let bends = Matrix::new(legs, legs, |entering, other| {
            let own = f64::from(u8::from(entering == other));
            match feeder(entering) {
                Some(place) if entering > 0 => own - leaving(place, other),
                _ => own,
            }
        });
        let first = Matrix::new(legs, 1, |row, _| f64::from(u8::from(row == 0)));
        let entering = bends.solve(&first)?;
        let last = if legs % 2 == 1 { up - 1 } else { legs - 1 };
        Ok((0..legs).map(|place| leaving(last, place) * entering.at(place, 0)).sum())
    }
}

/// How the fluid's temperatures change along the sheet \[1/m\]: up legs first, then down legs.
fn growth_1_m(from_fluid: &Matrix, rate_w_k: f64) -> Matrix {
    let legs = from_fluid.rows();
    let up = legs.div_ceil(2);
    Matrix::new(legs, legs, |row, column| {
        let along = if row < up { -1.0 } else { 1.0 };
        along * from_fluid.at(row, column) / rate_w_k
    })
}

/// Heat that a metre of each leg's fluid loses by its own and the other legs' temperatures
/// \[W/(m K)\]: up legs first, then down legs.
fn from_fluid_w_m_k(given: &Serpentine) -> Result<Matrix, PanelError> {
    let fin = &given.fin;
    let resistance_m_k_w = tube_resistance_m_k_w(fin)?;
    let parameter_1_m = fin_parameter_1_m(fin)?;
    let half_m = 0.5 * fin.spacing_m;
    // Loss of the sheet that a leg would have to itself if its neighbours were as warm as it.
    let inner_w_m_k = fin.loss_w_m2_k * gathering_m(fin, half_m)?;
    let rim_w_m_k = fin.loss_w_m2_k * gathering_m(fin, given.rim_m)?;
    let strip_w_m_k = fin.loss_w_m2_k * fin.outside_m;
    let free_m = fin.spacing_m - fin.outside_m;
    let free_m = within("free sheet between the tubes [m]", free_m, 1e-5..=10.0)?;
    let span = parameter_1_m * free_m;
    // Heat led from leg to leg: k d m / sinh(m (W - D)), k d / (W - D) where nothing is lost.
    let straight_w_m_k = fin.conductivity_w_m_k * fin.thickness_m / free_m;
    let neighbour_w_m_k = straight_w_m_k * if span < 1e-6 { 1.0 } else { span / span.sinh() };

    let legs = given.legs as usize;
    let up = legs.div_ceil(2);
    // Place in the order up, down against place on the sheet.
    let on_sheet = |place: usize| if place < up { 2 * place } else { 2 * (place - up) + 1 };
    let loss = Matrix::new(legs, legs, |row, column| {
        let (one, other) = (on_sheet(row), on_sheet(column));
        let neighbours = f64::from(u8::from(one > 0)) + f64::from(u8::from(one + 1 < legs));
        match one.abs_diff(other) {
            0 => {
                strip_w_m_k
                    + neighbours * (inner_w_m_k + neighbour_w_m_k)
                    + (2.0 - neighbours) * rim_w_m_k
            }
            1 => -neighbour_w_m_k,
            _ => 0.0,
        }
    });
    Matrix::identity(legs).plus(&loss, resistance_m_k_w).solve(&loss)
}

#[cfg(test)]
mod tests {
    use super::super::fin::{f_prime, heat_removal_parallel};
    use super::*;
    use proptest::prelude::*;

    fn example() -> Serpentine {
        Serpentine {
            fin: FinAndTube {
                spacing_m: 0.12,
                outside_m: 0.012,
                bore_m: 0.010,
                thickness_m: 0.0006,
                conductivity_w_m_k: 340.0,
                loss_w_m2_k: 7.0,
                film_w_m2_k: 500.0,
                bond_w_m_k: 25.0,
                wall_conductivity_w_m_k: 340.0,
            },
            rim_m: 0.06,
            legs: 6,
            leg_length_m: 1.8,
            capacity_rate_w_k: 60.0,
        }
    }

    fn parallel(given: &Serpentine) -> f64 {
        let fin = &given.fin;
        let area_m2 = f64::from(given.legs) * fin.spacing_m * given.leg_length_m;
        let factor = f_prime(fin).unwrap();
        heat_removal_parallel(factor, area_m2 * fin.loss_w_m2_k, given.capacity_rate_w_k).unwrap()
    }

    /// Given: a single leg at several flows. Expected: a parallel tube, since it has no neighbour
    /// (exact).
    #[test]
    fn one_leg_is_a_parallel_tube() {
        for capacity_rate_w_k in [0.01, 1.0, 20.0, 500.0] {
            let one = Serpentine { legs: 1, capacity_rate_w_k, ..example() };
            let difference = heat_removal_serpentine(&one).unwrap() - parallel(&one);
            assert!(difference.abs() < 1e-10, "{difference}");
        }
    }

    /// Given: no loss; endless flow. Expected: 1, and F' (exact limits).
    #[test]
    fn limits() {
        let lossless = FinAndTube { loss_w_m2_k: 0.0, ..example().fin };
        let lossless = Serpentine { fin: lossless, ..example() };
        assert_eq!(heat_removal_serpentine(&lossless), Ok(1.0));
        let nearly = FinAndTube { loss_w_m2_k: 1e-4, ..example().fin };
        let nearly = Serpentine { fin: nearly, ..example() };
        assert!((heat_removal_serpentine(&nearly).unwrap() - 1.0).abs() < 1e-4);
        for capacity_rate_w_k in [1e8, 1e12] {
            let torrent = Serpentine { capacity_rate_w_k, ..example() };
            let f_r = heat_removal_serpentine(&torrent).unwrap();
            assert!((f_r - f_prime(&torrent.fin).unwrap()).abs() < 1e-6);
        }
    }

    /// Given: 6 legs of 1.8 m at 60 W/K, 5 of 1.8 m at 12, 12 of 0.9 m at 40. Expected: the sheet
    /// cut into 60 cells between legs and 120 along them, balanced cell by cell and solved with
    /// scipy 1.17.1: 0.836627, 0.673012, 0.809843. Tolerance 2e-5, what halving its cells still
    /// changes.
    #[test]
    fn agrees_with_a_sheet_cut_into_cells() {
        for (legs, leg_length_m, capacity_rate_w_k, cells) in
            [(6, 1.8, 60.0, 0.836_627), (5, 1.8, 12.0, 0.673_012), (12, 0.9, 40.0, 0.809_843)]
        {
            let given = Serpentine { legs, leg_length_m, capacity_rate_w_k, ..example() };
            let f_r = heat_removal_serpentine(&given).unwrap();
            assert!((f_r - cells).abs() < 2e-5, "{legs} legs: {f_r} against {cells}");
        }
    }

    /// Given: two legs in a trickle. Expected: the exact limit of two coupled streams, a share
    /// `1 - s` of the flow's heat with `s = (a - sqrt(a^2 - b^2))/b`, `a` a leg's own and `b` the
    /// neighbour's conductance (decaying solution of `C t1' = -a t1 + b t2`, `C t2' = a t2 - b
    /// t1`; with no resistance in the tube `a` and `b` are the sheet's own).
    #[test]
    fn a_trickle_short_circuits() {
        let fin = FinAndTube {
            film_w_m2_k: f64::INFINITY,
            bond_w_m_k: f64::INFINITY,
            wall_conductivity_w_m_k: f64::INFINITY,
            ..example().fin
        };
        let trickle = Serpentine { fin, legs: 2, capacity_rate_w_k: 1e-3, ..example() };
        let lead = (7.0_f64 * 340.0 * 0.0006).sqrt();
        let span = (7.0_f64 / (340.0 * 0.0006)).sqrt() * 0.108;
        let b = lead / span.sinh();
        let a = 7.0 * 0.012 + 2.0 * lead * (0.5 * span).tanh() + b;
        let gone = 1.0 - (a - (a * a - b * b).sqrt()) / b;
        let share = heat_removal_serpentine(&trickle).unwrap() * 2.0 * 0.12 * 1.8 * 7.0 / 1e-3;
        assert!((share - gone).abs() < 1e-9, "{share} against {gone}");
    }

    /// Given: numbers that mean nothing. Expected: errors.
    #[test]
    fn refuses_nonsense() {
        for wrong in [
            Serpentine { legs: 0, ..example() },
            Serpentine { legs: 41, ..example() },
            Serpentine { rim_m: 0.005, ..example() },
            Serpentine { leg_length_m: 0.0, ..example() },
            Serpentine { capacity_rate_w_k: 0.0, ..example() },
            Serpentine { capacity_rate_w_k: f64::NAN, ..example() },
            Serpentine { fin: FinAndTube { outside_m: 0.12, ..example().fin }, ..example() },
        ] {
            assert!(heat_removal_serpentine(&wrong).is_err(), "{wrong:?}");
        }
    }

    proptest! {
        /// Never above parallel tubes of the same film and flow, always above nothing, and more
        /// flow never gains less.
        #[test]
        fn between_nothing_and_parallel(
            legs in 1_u32..41,
            spacing_m in 0.03..0.3_f64,
            loss_w_m2_k in 0.1..30.0_f64,
            bond_w_m_k in 1.0..100.0_f64,
            rate_exponent in -2.0..4.0_f64,
        ) {
            let fin = FinAndTube { spacing_m, loss_w_m2_k, bond_w_m_k, ..example().fin };
            let capacity_rate_w_k = 10_f64.powf(rate_exponent);
            let rim_m = 0.5 * spacing_m;
            let given = Serpentine { fin, rim_m, legs, leg_length_m: 1.5, capacity_rate_w_k };
            let f_r = heat_removal_serpentine(&given).unwrap();
            prop_assert!(f_r > 0.0 && f_r <= parallel(&given) + 1e-9);
            let more = Serpentine { capacity_rate_w_k: capacity_rate_w_k * 1.5, ..given };
            prop_assert!(heat_removal_serpentine(&more).unwrap() >= f_r - 1e-9);
        }
    }
}
