//! The front door from a panel's drawing to its heat removal: harp, serpentine, strips, hollow
//! sheet, or a certificate.

use super::error::{PanelError, within};
use super::fin::{FinAndTube, f_prime_strip, gathering_m, heat_removal_parallel};
use super::serpentine::{Serpentine, heat_removal_serpentine};
use super::{Built, Fins, Hollow, Panel, Passage, TubePattern, Tubes};
use crate::circuit::bank::harp_of;
use crate::circuit::film::{Heating, TubeFlow, nusselt_tube};
use crate::circuit::friction::FrictionMethod;
use crate::circuit::harp::harp_flow;
use crate::circuit::network::Medium;
use crate::matter::fluid::FluidProperties;

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

/// Heat removal of one panel at a flow of some fluid.
///
/// Of a panel made at home by [`heat_removal`] with [`film_w_m2_k`], but that each riser of a harp
/// has the flow that friction leaves it ([`riser_shares`]). A bought one's curve already counts from
/// the mean of its fluid: F' and F are 1, and `FR = (C/(A U)) (1 - exp(-A U/C))`.
///
/// `flow_kg_s`: through the whole panel, zero or more; `loss_w_m2_k`: of its area, all ways (for a
/// bought one the slope of its curve).
///
/// # Valid range
/// As [`heat_removal`] and [`riser_shares`].
///
/// # Source
/// As [`heat_removal`]; Duffie and Beckman 2006, eq. 6.7.4 with F' of 1.
///
/// # Checked
/// Through its parts.
pub fn panel_heat_removal(
    panel: &Panel,
    flow_kg_s: f64,
    fluid: &FluidProperties,
    loss_w_m2_k: f64,
) -> Result<HeatRemoval, PanelError> {
    match panel {
        Panel::Built(built) => {
            let side = FluidSide {
                heat_capacity_j_kg_k: fluid.heat_capacity_j_kg_k,
                film_w_m2_k: film_w_m2_k(built, flow_kg_s, fluid)?,
            };
            let shares = riser_shares(built, flow_kg_s, fluid)?;
            heat_removal_of(built, (flow_kg_s, &shares), side, loss_w_m2_k)
        }
        Panel::Bought(bought) => {
            let rate_w_k = flow_kg_s * fluid.heat_capacity_j_kg_k;
            let f_r = heat_removal_parallel(1.0, bought.area_m2 * loss_w_m2_k, rate_w_k)?;
            Ok(HeatRemoval { f_prime: 1.0, f_r, fin_efficiency: 1.0 })
        }
    }
}

/// Film coefficient from the passage's wall to the fluid \[W/(m2 K)\].
///
/// In tubes by [`nusselt_tube`] with even flux; in a hollow sheet, heated from the front alone,
/// `Nu = 5.385` on twice the depth (laminar, developed).
///
/// `flow_kg_s`: through the whole panel.
///
/// # Valid range
/// As [`nusselt_tube`]; a fluid thicker than it covers counts as thick as it goes (no pump moves
/// it). A hollow sheet whose flow is turbulent has more than this.
///
/// # Source
/// Shah and London, Laminar Flow Forced Convection in Ducts, 1978: parallel plates, one side at
/// even flux, the other insulated (from memory).
///
/// # Checked
/// FN-10 for tubes. The plates: the energy equation for a parabolic stream integrated here.
pub fn film_w_m2_k(
    panel: &Built,
    flow_kg_s: f64,
    fluid: &FluidProperties,
) -> Result<f64, PanelError> {
    let tubes = match &panel.passage {
        Passage::Hollow(hollow) => {
            let depth_m = within("depth of the hollow sheet [m]", hollow.depth_m, 1e-4..=1.0)?;
            return Ok(NUSSELT_PLATES * fluid.conductivity_w_m_k / (2.0 * depth_m));
        }
        Passage::Tubes(tubes) => tubes,
    };
    let bore_m = within("bore of the tube [m]", tubes.tube.bore_m, 1e-4..=1.0)?;
    let length_m = match tubes.pattern {
        TubePattern::Serpentine { .. } | TubePattern::Route { .. } => tubes.length_m(),
        TubePattern::Harp { riser_length_m, .. } => riser_length_m,
    };
    let each_kg_s = tube_flow_kg_s(panel, flow_kg_s);
    let flow = TubeFlow {
        reynolds: 4.0 * each_kg_s / (std::f64::consts::PI * bore_m * fluid.viscosity_pa_s),
        prandtl: fluid.prandtl().min(THICKEST_PRANDTL),
        bore_m,
        length_m,
        heating: Heating::EvenFlux,
    };
    let nusselt = nusselt_tube(&flow).map_err(|_| PanelError::OutOfRange {
        quantity: "Reynolds number in the panel's tubes",
        value: flow.reynolds,
        low: 0.0,
        high: f64::MAX,
    })?;
    Ok(nusselt * fluid.conductivity_w_m_k / bore_m)
}

/// Greatest Prandtl number the relations for films in tubes cover.
const THICKEST_PRANDTL: f64 = 2000.0;

/// Developed laminar flow between plates, one of them heated evenly.
const NUSSELT_PLATES: f64 = 5.385;

/// Heat removal of one panel at a flow, referred to its whole sheet.
///
/// `Q = A FR [S - U (Ti - Ta)]` with `A` the sheet's area. A harp's risers share the flow evenly,
/// `FR = sum(1 - exp(-U W_i F'_i L/c)) c/(A U)` over risers of `c` W/K each; a serpentine's legs
/// carry all of it and exchange heat through the sheet between them, or do not where each leg has
/// a strip of its own. A tube laid at will counts as one straight tube along a strip as wide as the
/// sheet's area over its length. A hollow sheet's channels are risers whose wetted width takes the place of
/// the tube.
///
/// Sheet and tubes need not match: what the sheet has beyond the tubes lies beside the outermost
/// ones ([`rim_m`]), as a longer fin that ends without loss, so that no area is lost or won.
///
/// Risers that do not share the flow evenly: [`panel_heat_removal`].
///
/// `flow_kg_s`: through the whole panel, zero or more; `loss_w_m2_k`: of the sheet, all ways.
///
/// # Valid range
/// As [`f_prime_strip`] and [`heat_removal_serpentine`]; a sheet narrower than its tubes is an
/// error.
///
/// # Source
/// Duffie and Beckman 2006, sections 6.5 to 6.7 and 6.13; 6.14 d for a hollow sheet.
///
/// # Checked
/// Through its parts; equal to the closed parallel formula where the sheet fits its risers, and to
/// `1/F' = 1 + U/h` for a hollow sheet wetted all over (Duffie and Beckman 2006, figure 6.14.1).
pub fn heat_removal(
    panel: &Built,
    flow_kg_s: f64,
    fluid: FluidSide,
    loss_w_m2_k: f64,
) -> Result<HeatRemoval, PanelError> {
    heat_removal_of(panel, (flow_kg_s, &[]), fluid, loss_w_m2_k)
}

/// Part of the flow in each riser of a harp, the first next to the inlet; empty for any other panel,
/// for one riser, and where nothing flows.
///
/// `flow_kg_s`: through the whole panel.
///
/// # Valid range
/// Headers through which the flow can be found; else [`PanelError::UnevenFlow`].
///
/// # Source
/// As [`harp_flow`].
///
/// # Checked
/// B-HP-01 through the circuit's own check; that what it costs in heat is the sum over the risers,
/// by hand here.
pub fn riser_shares(
    panel: &Built,
    flow_kg_s: f64,
    fluid: &FluidProperties,
) -> Result<Vec<f64>, PanelError> {
    let Some(harp) = panel.tubes().and_then(harp_of) else { return Ok(Vec::new()) };
    if harp.risers < 2 || flow_kg_s <= 0.0 {
        return Ok(Vec::new());
    }
    let medium = Medium { fluid: *fluid, method: FrictionMethod::Churchill1977 };
    harp_flow(&harp, flow_kg_s, &medium)
        .map(|flow| flow.shares())
        .map_err(|_| PanelError::UnevenFlow { flow_kg_s })
}

/// As [`heat_removal`], with the part of the flow in each riser; none for even flow.
fn heat_removal_of(
    panel: &Built,
    (flow_kg_s, riser_shares): (f64, &[f64]),
    fluid: FluidSide,
    loss_w_m2_k: f64,
) -> Result<HeatRemoval, PanelError> {
    within("flow through the panel [kg/s]", flow_kg_s, 0.0..=1e4)?;
    within("heat capacity of the fluid [J/(kg K)]", fluid.heat_capacity_j_kg_k, 1.0..=1e5)?;
    let fin = fin_and_tube(panel, fluid.film_w_m2_k, loss_w_m2_k);
    let rate_w_k = flow_kg_s * fluid.heat_capacity_j_kg_k;
    let (tubes, length_m) = panel.passage.side_by_side();
    let rim_m = rim_m(panel)?;
    let half_m = 0.5 * fin.spacing_m;

    // Reach of the sheet to both sides, and which of the tubes have it.
    let last = tubes as usize - 1;
    let kinds = if tubes == 1 {
        vec![(rim_m, rim_m, vec![0])]
    } else {
        vec![(rim_m, half_m, vec![0, last]), (half_m, half_m, (1..last).collect())]
    };
    // One tube that carries all of the flow past one strip after another.
    let in_a_row = matches!(
        panel.passage,
        Passage::Tubes(Tubes {
            pattern: TubePattern::Serpentine { .. },
            fins: Fins::Strips { .. },
            ..
        })
    );
    let rate_of_w_k = |tube: usize| match riser_shares.get(tube) {
        _ if in_a_row => rate_w_k,
        Some(share) => rate_w_k * share,
        None => rate_w_k / f64::from(tubes),
    };
    let area_m2 = panel.sheet.area_m2();
    let (mut factor, mut parallel, mut gathered_m, mut free_m) = (0.0, 0.0, 0.0, 0.0);
    for (left_m, right_m, alike) in kinds {
        let of_strip = f_prime_strip(&fin, left_m, right_m)?;
        let strip_m2 = (left_m + right_m) * length_m;
        let count = alike.len() as f64;
        factor += count * strip_m2 / area_m2 * of_strip;
        for tube in alike {
            let of_tube =
                heat_removal_parallel(of_strip, strip_m2 * loss_w_m2_k, rate_of_w_k(tube))?;
            parallel += strip_m2 / area_m2 * of_tube;
        }
        gathered_m += count * (gathering_m(&fin, left_m)? + gathering_m(&fin, right_m)?);
        free_m += count * (left_m + right_m - fin.outside_m);
    }
    let f_r = match panel.passage {
        Passage::Tubes(Tubes {
            pattern: TubePattern::Serpentine { legs, leg_length_m }, ..
        }) if rate_w_k > 0.0 && !in_a_row => heat_removal_serpentine(&Serpentine {
            fin,
            rim_m,
            legs,
            leg_length_m,
            capacity_rate_w_k: rate_w_k,
        })?,
        _ if in_a_row => heat_removal_parallel(factor, area_m2 * loss_w_m2_k, rate_w_k)?,
        _ => parallel,
    };
    let fin_efficiency = if free_m > 0.0 { gathered_m / free_m } else { 1.0 };
    Ok(HeatRemoval { f_prime: factor, f_r, fin_efficiency })
}

/// Flow in one tube or channel of a panel \[kg/s\]: a riser's share, or all of it in a serpentine.
pub fn tube_flow_kg_s(panel: &Built, flow_kg_s: f64) -> f64 {
    match panel.passage {
        Passage::Tubes(Tubes { pattern: TubePattern::Serpentine { .. }, .. }) => flow_kg_s,
        _ => flow_kg_s / f64::from(panel.passage.side_by_side().0.max(1)),
    }
}

/// Sheet from the middle of an outermost tube to the rim \[m\], so that the tubes' strips make up
/// the sheet's area: `(A/L - (n - 1) W)/2` for `n` tubes of length `L` every `W`.
///
/// Half the spacing where the sheet fits its tubes. Sheet beyond the tubes' ends is counted here
/// too: it is as far from a tube there as here. Strips end where they end: half their width.
///
/// # Valid range
/// Tubes of some length, and a sheet at least as wide as its outermost tubes; else an error.
pub fn rim_m(panel: &Built) -> Result<f64, PanelError> {
    let (tubes, length_m) = panel.passage.side_by_side();
    let between = within("number of tubes on the sheet", f64::from(tubes), 1.0..=1000.0)? - 1.0;
    let length_m = within("length of a tube on the sheet [m]", length_m, 1e-3..=1e4)?;
    let width_m = panel.sheet.area_m2() / length_m;
    let (outside_m, spacing_m) = match &panel.passage {
        Passage::Tubes(Tubes { fins: Fins::Strips { width_m }, tube, .. }) => {
            (tube.outside_m, *width_m)
        }
        Passage::Tubes(tubes) => (tubes.tube.outside_m, tubes.spacing_m),
        Passage::Hollow(hollow) => (hollow.wetted_m, width_m / f64::from(hollow.channels.max(1))),
    };
    let rim_m = 0.5 * (width_m - between * spacing_m);
    let least_m = 0.5 * outside_m.max(0.0);
    // Rounding must not make a sheet that just fits its tubes too narrow for them.
    let rim_m = if (rim_m - least_m).abs() < 1e-9 { least_m } else { rim_m };
    within("sheet from the outermost tube's middle to the rim [m]", rim_m, least_m..=10.0)
}

/// The panel's sheet and tube as the fin formulas take them, which look at the numbers.
///
/// A channel of a hollow sheet counts as a tube as wide as what it wets, with heat passing through
/// that width alone: a bore of the width over pi has just that wall.
pub fn fin_and_tube(panel: &Built, film_w_m2_k: f64, loss_w_m2_k: f64) -> FinAndTube {
    let bare = FinAndTube {
        spacing_m: 0.0,
        outside_m: 0.0,
        bore_m: 0.0,
        thickness_m: panel.sheet.thickness_m,
        conductivity_w_m_k: panel.sheet.conductivity_w_m_k,
        loss_w_m2_k,
        film_w_m2_k,
        bond_w_m_k: f64::INFINITY,
        wall_conductivity_w_m_k: f64::INFINITY,
    };
    match &panel.passage {
        Passage::Tubes(tubes) => FinAndTube {
            spacing_m: match tubes.fins {
                Fins::OneSheet => tubes.spacing_m,
                Fins::Strips { width_m } => width_m,
            },
            outside_m: tubes.tube.outside_m,
            bore_m: tubes.tube.bore_m,
            bond_w_m_k: tubes.bond_w_m_k,
            wall_conductivity_w_m_k: tubes.tube.conductivity_w_m_k,
            ..bare
        },
        Passage::Hollow(hollow) => FinAndTube {
            spacing_m: pitch_m(hollow, panel),
            outside_m: hollow.wetted_m,
            bore_m: hollow.wetted_m / std::f64::consts::PI,
            ..bare
        },
    }
}

/// Distance between neighbouring channels, middle to middle \[m\].
fn pitch_m(hollow: &Hollow, panel: &Built) -> f64 {
    panel.sheet.area_m2() / hollow.length_m / f64::from(hollow.channels.max(1))
}

impl Passage {
    /// How many tubes or channels lie side by side on the sheet, and the length of one \[m\].
    pub fn side_by_side(&self) -> (u32, f64) {
        match self {
            Passage::Tubes(tubes) => match tubes.pattern {
                TubePattern::Serpentine { legs, leg_length_m } => (legs, leg_length_m),
                TubePattern::Harp { risers, riser_length_m, .. } => (risers, riser_length_m),
                TubePattern::Route { .. } => (1, tubes.length_m()),
            },
            Passage::Hollow(hollow) => (hollow.channels, hollow.length_m),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::fin::{f_prime, fin_efficiency};
    use super::super::samples::{harp, serpentine, with_pattern};
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

    /// Given: a harp fed at one end of narrow headers. Expected: its heat summed by hand over the
    /// risers, each with the flow that friction leaves it; less than with even flow, since what the
    /// first riser has too much of it can use less than the last one lacks it.
    #[test]
    fn an_uneven_harp_gives_less_heat() {
        let mut panel = harp();
        let Passage::Tubes(tubes) = &mut panel.passage else { panic!("a harp has tubes") };
        let TubePattern::Harp { header, connection, .. } = &mut tubes.pattern else {
            panic!("a harp has headers")
        };
        header.bore_m = 0.008;
        *connection = crate::panel::HarpConnection::SameSide;
        let fluid = crate::matter::fluid::properties(crate::matter::fluid::Fluid::Water, 313.15);
        let fluid = fluid.unwrap();
        let flow_kg_s = 0.02;
        let shares = riser_shares(&panel, flow_kg_s, &fluid).unwrap();
        assert!(shares[0] > 1.5 * shares[shares.len() - 1], "{shares:?}");
        let uneven =
            panel_heat_removal(&Panel::Built(Box::new(panel.clone())), flow_kg_s, &fluid, 7.0);
        let side = FluidSide {
            heat_capacity_j_kg_k: fluid.heat_capacity_j_kg_k,
            film_w_m2_k: film_w_m2_k(&panel, flow_kg_s, &fluid).unwrap(),
        };
        let even = heat_removal(&panel, flow_kg_s, side, 7.0).unwrap();
        let factor = f_prime(&fin_and_tube(&panel, side.film_w_m2_k, 7.0)).unwrap();
        let strip_w_k = 7.0 * panel.sheet.area_m2() / shares.len() as f64;
        let by_hand: f64 = shares
            .iter()
            .map(|share| {
                let rate_w_k = share * flow_kg_s * fluid.heat_capacity_j_kg_k;
                rate_w_k * (1.0 - (-factor * strip_w_k / rate_w_k).exp())
            })
            .sum::<f64>()
            / (7.0 * panel.sheet.area_m2());
        let uneven = uneven.unwrap().f_r;
        assert!((uneven - by_hand).abs() < 1e-12, "{uneven} {by_hand}");
        assert!(uneven < even.f_r - 1e-3, "{uneven} {}", even.f_r);
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
        let mut one = with_pattern(TubePattern::Serpentine { legs: 1, leg_length_m: 1.8 });
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
        let bare = with_pattern(TubePattern::Serpentine { legs: 0, leg_length_m: 1.8 });
        assert!(heat_removal(&bare, 0.02, WATER, 7.0).is_err());
        assert!(heat_removal(&harp(), -0.02, WATER, 7.0).is_err());
        assert!(heat_removal(&harp(), f64::NAN, WATER, 7.0).is_err());
    }

    /// Given: strips as wide as the spacing on every tube. Expected: a harp does not notice, for no
    /// heat passes midway between its risers; a serpentine no longer warms its cold legs by its hot
    /// ones and gains a little.
    #[test]
    fn strips_of_their_own() {
        for (panel, least) in [(harp(), 1.0), (serpentine(), 1.0001)] {
            let mut strips = panel.clone();
            let tubes = panel.tubes().unwrap().clone();
            strips.passage =
                Passage::Tubes(Tubes { fins: Fins::Strips { width_m: 0.15 }, ..tubes });
            let one_sheet = heat_removal(&panel, 0.02, WATER, 7.0).unwrap();
            let apart = heat_removal(&strips, 0.02, WATER, 7.0).unwrap();
            assert!((apart.f_prime - one_sheet.f_prime).abs() < 1e-12);
            let ratio = apart.f_r / one_sheet.f_r;
            assert!(ratio > least - 1e-12 && ratio < 1.02, "{ratio}");
        }
    }

    fn hollow_sheet(wetted_m: f64) -> Built {
        Built {
            passage: Passage::Hollow(Hollow {
                channels: 18,
                wetted_m,
                depth_m: 0.008,
                length_m: 1.8,
                contents_m3: 0.009,
                back_sheet_j_k: 8000.0,
                port_bore_m: 0.0127,
                port_loss: 3.0,
            }),
            ..harp()
        }
    }

    /// Given: a hollow sheet wetted all over. Expected: `F' = 1/(1 + U/h)`, Duffie and Beckman
    /// figure 6.14.1; with channels half as wide the land between works as a fin and it is less.
    #[test]
    fn a_hollow_sheet() {
        let all = heat_removal(&hollow_sheet(0.05), 0.02, WATER, 7.0).unwrap();
        assert!((all.f_prime - 1.0 / (1.0 + 7.0 / 400.0)).abs() < 1e-12, "{}", all.f_prime);
        let half = heat_removal(&hollow_sheet(0.025), 0.02, WATER, 7.0).unwrap();
        assert!(half.f_prime < all.f_prime && half.f_prime > 0.95, "{}", half.f_prime);
    }

    /// Given: laminar flow between plates, one side at even flux, the other insulated. Expected:
    /// the Nusselt number on twice the distance, from the energy equation `k T'' = q u/(um D)` with
    /// `u/um = 6 s (1 - s)`, integrated twice here by the trapezoidal rule. Tolerance 1e-3.
    #[test]
    fn plates_heated_on_one_side() {
        let (steps, mut slope, mut rise, mut bulk) = (20_000, 0.0, 0.0, 0.0);
        let width = 1.0 / f64::from(steps);
        // From the insulated side (no slope) to the heated one, where the slope comes to 1.
        for step in 0..steps {
            let s = (f64::from(step) + 0.5) * width;
            let stream = 6.0 * s * (1.0 - s);
            let middle = slope + 0.5 * stream * width;
            bulk += (rise + 0.5 * middle * width) * stream * width;
            rise += middle * width;
            slope += stream * width;
        }
        assert!((slope - 1.0).abs() < 1e-6);
        assert!((2.0 / (rise - bulk) - NUSSELT_PLATES).abs() < 1e-3, "{}", 2.0 / (rise - bulk));
    }
}
