//! The front door from a panel's drawing to its heat removal: harp or serpentine.

use super::error::{PanelError, within};
use super::fin::{FinAndTube, f_prime_strip, gathering_m, heat_removal_parallel};
use super::serpentine::{Serpentine, heat_removal_serpentine};
use super::{Panel, TubePattern};

/// The fluid's side of the chain.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FluidSide {
    /// Heat capacity \[J/(kg K)\]; 4190 water.
    pub heat_capacity_j_kg_k: f64,
    /// Film coefficient in the tubes on the sheet, at the flow of [`tube_flow_kg_s`]
    /// \[W/(m2 K)\].
    pub film_w_m2_k: f64,
}

/// How well a panel hands its heat to the fluid.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HeatRemoval {
    /// Collector efficiency factor F': gain over that of a sheet as cool as the fluid.
    pub f_prime: f64,
    /// Heat removal factor FR: gain over that of a sheet as cool as the inlet; 0 without flow.
    pub f_r: f64,
    /// Fin efficiency F of the sheet between the tubes.
    pub fin_efficiency: f64,
}

/// Heat removal of one panel at a flow, referred to its whole sheet.
///
/// `Q = A FR [S - U (Ti - Ta)]` with `A` the sheet's area. A harp's risers share the flow evenly,
/// `FR = sum(1 - exp(-U W_i F'_i L/c)) c/(A U)` over risers of `c` W/K each; a serpentine's legs
/// carry all of it and exchange heat through the sheet between them.
///
/// Sheet and tubes need not match: what the sheet has beyond the tubes lies beside the outermost
/// ones ([`rim_m`]), as a longer fin that ends without loss, so that no area is lost or won.
///
/// `flow_kg_s`: through the whole panel, zero or more; `loss_w_m2_k`: of the sheet, all ways.
///
/// # Valid range
/// As [`f_prime_strip`] and [`heat_removal_serpentine`]; a sheet narrower than its tubes is an
/// error.
///
/// # Source
/// Duffie and Beckman 2006, sections 6.5 to 6.7 and 6.13.
///
/// # Checked
/// Through its parts; equal to the closed parallel formula where the sheet fits its risers.
pub fn heat_removal(
    panel: &Panel,
    flow_kg_s: f64,
    fluid: FluidSide,
    loss_w_m2_k: f64,
) -> Result<HeatRemoval, PanelError> {
    within("flow through the panel [kg/s]", flow_kg_s, 0.0..=1e4)?;
    within("heat capacity of the fluid [J/(kg K)]", fluid.heat_capacity_j_kg_k, 1.0..=1e5)?;
    let fin = fin_and_tube(panel, fluid.film_w_m2_k, loss_w_m2_k);
    let rate_w_k = flow_kg_s * fluid.heat_capacity_j_kg_k;
    let (tubes, length_m) = panel.tubes.pattern.tubes();
    let rim_m = rim_m(panel)?;
    let half_m = 0.5 * fin.spacing_m;

    // Reach of the sheet to both sides, how many such tubes, and the F' of their strip.
    let mut kinds = Vec::new();
    if tubes == 1 {
        kinds.push((1.0, rim_m, rim_m));
    } else {
        kinds.push((2.0, rim_m, half_m));
        kinds.push((f64::from(tubes) - 2.0, half_m, half_m));
    }
    let area_m2 = panel.sheet.area_m2();
    let (mut factor, mut parallel, mut gathered_m, mut free_m) = (0.0, 0.0, 0.0, 0.0);
    for (count, left_m, right_m) in kinds {
        let of_strip = f_prime_strip(&fin, left_m, right_m)?;
        let strip_m2 = (left_m + right_m) * length_m;
        let share = count * strip_m2 / area_m2;
        let rate_each_w_k = rate_w_k / f64::from(tubes);
        factor += share * of_strip;
        parallel += share * heat_removal_parallel(of_strip, strip_m2 * loss_w_m2_k, rate_each_w_k)?;
        gathered_m += count * (gathering_m(&fin, left_m)? + gathering_m(&fin, right_m)?);
        free_m += count * (left_m + right_m - fin.outside_m);
    }
    let f_r = match panel.tubes.pattern {
        TubePattern::Serpentine { legs, leg_length_m } if rate_w_k > 0.0 => {
            heat_removal_serpentine(&Serpentine {
                fin,
                rim_m,
                legs,
                leg_length_m,
                capacity_rate_w_k: rate_w_k,
            })?
        }
        _ => parallel,
    };
    let fin_efficiency = if free_m > 0.0 { gathered_m / free_m } else { 1.0 };
    Ok(HeatRemoval { f_prime: factor, f_r, fin_efficiency })
}

/// Flow in one tube on the sheet \[kg/s\]: a riser's share, or all of it in a serpentine.
pub fn tube_flow_kg_s(panel: &Panel, flow_kg_s: f64) -> f64 {
    match panel.tubes.pattern {
        TubePattern::Serpentine { .. } => flow_kg_s,
        TubePattern::Harp { risers, .. } => flow_kg_s / f64::from(risers.max(1)),
    }
}

/// Sheet from the middle of an outermost tube to the rim \[m\], so that the tubes' strips make up
/// the sheet's area: `(A/L - (n - 1) W)/2` for `n` tubes of length `L` every `W`.
///
/// Half the spacing where the sheet fits its tubes. Sheet beyond the tubes' ends is counted here
/// too: it is as far from a tube there as here.
///
/// # Valid range
/// Tubes of some length, and a sheet at least as wide as its outermost tubes; else an error.
pub fn rim_m(panel: &Panel) -> Result<f64, PanelError> {
    let (tubes, length_m) = panel.tubes.pattern.tubes();
    let between = within("number of tubes on the sheet", f64::from(tubes), 1.0..=1000.0)? - 1.0;
    let length_m = within("length of a tube on the sheet [m]", length_m, 1e-3..=1e4)?;
    let width_m = panel.sheet.area_m2() / length_m;
    let least_m = 0.5 * panel.tubes.tube.outside_m.max(0.0);
    let rim_m = 0.5 * (width_m - between * panel.tubes.spacing_m);
    within("sheet from the outermost tube's middle to the rim [m]", rim_m, least_m..=10.0)
}

/// The panel's sheet and tube as the fin formulas take them, which look at the numbers.
pub fn fin_and_tube(panel: &Panel, film_w_m2_k: f64, loss_w_m2_k: f64) -> FinAndTube {
    FinAndTube {
        spacing_m: panel.tubes.spacing_m,
        outside_m: panel.tubes.tube.outside_m,
        bore_m: panel.tubes.tube.bore_m,
        thickness_m: panel.sheet.thickness_m,
        conductivity_w_m_k: panel.sheet.conductivity_w_m_k,
        loss_w_m2_k,
        film_w_m2_k,
        bond_w_m_k: panel.tubes.bond_w_m_k,
        wall_conductivity_w_m_k: panel.tubes.tube.conductivity_w_m_k,
    }
}

impl TubePattern {
    /// How many tubes lie side by side on the sheet, and the length of one \[m\].
    pub fn tubes(&self) -> (u32, f64) {
        match *self {
            TubePattern::Serpentine { legs, leg_length_m } => (legs, leg_length_m),
            TubePattern::Harp { risers, riser_length_m, .. } => (risers, riser_length_m),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::fin::{f_prime, fin_efficiency};
    use super::super::samples::{harp, serpentine};
    use super::*;

    const WATER: FluidSide = FluidSide { heat_capacity_j_kg_k: 4190.0, film_w_m2_k: 400.0 };

    /// Given: a harp whose sheet fits its risers. Expected: the parallel chain on the sheet's
    /// area, by Duffie and Beckman's formulas.
    #[test]
    fn a_harp_is_the_parallel_chain() {
        let panel = harp();
        let answer = heat_removal(&panel, 0.02, WATER, 7.0).unwrap();
        let fin = fin_and_tube(&panel, 400.0, 7.0);
        assert!((rim_m(&panel).unwrap() - 0.075).abs() < 1e-12);
        let loss_w_k = panel.sheet.area_m2() * 7.0;
        let by_hand = heat_removal_parallel(f_prime(&fin).unwrap(), loss_w_k, 83.8).unwrap();
        assert!((answer.f_r - by_hand).abs() < 1e-12);
        assert!((answer.fin_efficiency - fin_efficiency(&fin).unwrap()).abs() < 1e-12);
        assert!(answer.f_r < answer.f_prime && answer.f_prime < answer.fin_efficiency);
        assert_eq!(tube_flow_kg_s(&panel, 0.012), 0.002);
    }

    /// Given: the same sheet with a serpentine at the same film. Expected: a little less than the
    /// harp, by the short circuit between its legs.
    #[test]
    fn a_serpentine_is_a_little_less_at_the_same_film() {
        let to_and_fro = heat_removal(&serpentine(), 0.02, WATER, 7.0).unwrap();
        let side_by_side = heat_removal(&harp(), 0.02, WATER, 7.0).unwrap();
        assert!((to_and_fro.f_prime - side_by_side.f_prime).abs() < 1e-12);
        let ratio = to_and_fro.f_r / side_by_side.f_r;
        assert!(ratio < 1.0 && ratio > 0.985, "{ratio}");
        assert_eq!(tube_flow_kg_s(&serpentine(), 0.012), 0.012);
    }

    /// Given: no flow. Expected: nothing removed, F' as ever.
    #[test]
    fn no_flow_removes_nothing() {
        for panel in [harp(), serpentine()] {
            let still = heat_removal(&panel, 0.0, WATER, 7.0).unwrap();
            assert_eq!(still.f_r, 0.0);
            assert!(still.f_prime > 0.7);
            let trickle = heat_removal(&panel, 1e-7, WATER, 7.0).unwrap();
            assert!(trickle.f_r < 1e-3);
        }
    }

    /// Given: a sheet 100 mm wider than six risers every 150 mm. Expected: the rim's 50 mm more to
    /// either side gather less than sheet between risers, but not nothing: FR falls, the heat
    /// `A FR` rises. And a seventh riser's width of sheet is never as good as the riser.
    #[test]
    fn a_wider_rim_counts() {
        for fitting in [harp(), serpentine()] {
            let mut wider = fitting.clone();
            wider.sheet.width_m += 0.1;
            let before = heat_removal(&fitting, 0.02, WATER, 7.0).unwrap();
            let after = heat_removal(&wider, 0.02, WATER, 7.0).unwrap();
            assert!(after.f_r < before.f_r && after.fin_efficiency < before.fin_efficiency);
            let heat = [(&fitting, before), (&wider, after)]
                .map(|(panel, removal)| panel.sheet.area_m2() * removal.f_r);
            assert!(heat[1] > heat[0] && heat[1] < heat[0] * 1.0 / 0.9, "{heat:?}");
        }
    }

    /// Given: one leg on a strip of sheet, as harp formulas and as serpentine. Expected: the same.
    #[test]
    fn one_leg_is_the_same_either_way() {
        let mut one = serpentine();
        one.tubes.pattern = TubePattern::Serpentine { legs: 1, leg_length_m: 1.8 };
        one.sheet.width_m = 0.2;
        let answer = heat_removal(&one, 0.004, WATER, 7.0).unwrap();
        let fin = FinAndTube { spacing_m: 0.2, ..fin_and_tube(&one, 400.0, 7.0) };
        let factor = f_prime(&fin).unwrap();
        let by_hand = heat_removal_parallel(factor, 0.2 * 1.8 * 7.0, 0.004 * 4190.0).unwrap();
        assert!((answer.f_prime - factor).abs() < 1e-12);
        assert!((answer.f_r - by_hand).abs() < 1e-10);
    }

    /// Given: tubes wider than the sheet, no tube, a backward flow. Expected: errors.
    #[test]
    fn refuses_nonsense() {
        let mut narrow = harp();
        narrow.sheet.width_m = 0.05;
        assert!(heat_removal(&narrow, 0.02, WATER, 7.0).is_err());
        let mut bare = serpentine();
        bare.tubes.pattern = TubePattern::Serpentine { legs: 0, leg_length_m: 1.8 };
        assert!(heat_removal(&bare, 0.02, WATER, 7.0).is_err());
        assert!(heat_removal(&harp(), -0.02, WATER, 7.0).is_err());
        assert!(heat_removal(&harp(), f64::NAN, WATER, 7.0).is_err());
    }
}
