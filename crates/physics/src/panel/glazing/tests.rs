use super::*;
use proptest::prelude::*;

fn pane(emittance: f64, longwave_transmittance: f64, resistance_m2_k_w: f64) -> Cover {
    Cover {
        gap_m: 0.025,
        walls: 1,
        index: 1.5,
        extinction_1_m: 10.0,
        thickness_m: 0.004,
        emittance,
        longwave_transmittance,
        resistance_m2_k_w,
        clean_share: 1.0,
        density_kg_m3: 2500.0,
        heat_capacity_j_kg_k: 840.0,
    }
}

fn tilt() -> Angle {
    Angle::from_degrees(40.0)
}

fn summer() -> Outdoors {
    Outdoors { ambient_k: 293.15, sky_k: 278.15, wind_film_w_m2_k: 9.0 }
}

/// Given: two opaque panes over a sheet. Expected: between neighbours the closed form of grey
/// parallel faces, `1/(1/e1 + 1/e2 - 1)`; the outer pane sends its own emittance to the sky; the
/// sheet sees neither the outer pane nor the sky. To 1e-12, both exact.
#[test]
fn opaque_neighbours_exchange_by_the_closed_form() {
    let glazing = Glazing::of(&[pane(0.85, 0.0, 0.0), pane(0.9, 0.0, 0.0)], 0.1, tilt()).unwrap();
    let closed = |one: f64, other: f64| 1.0 / (1.0 / one + 1.0 / other - 1.0);
    assert!((glazing.exchange[0][1] - closed(0.1, 0.85)).abs() < 1e-12);
    assert!((glazing.exchange[1][2] - closed(0.85, 0.9)).abs() < 1e-12);
    assert!((glazing.exchange[2][MOST_NODES] - 0.9).abs() < 1e-12);
    assert_eq!((glazing.exchange[0][2], glazing.exchange[0][MOST_NODES]), (0.0, 0.0));
}

/// Given: one film of emittance e that passes t, over a sheet of emittance p. Expected, by hand
/// (two mirrors facing each other): sheet to sky `p t/(1 - (1 - p) r)`, sheet to film
/// `p e/(1 - (1 - p) r)`, film to sky `e (1 + (1 - p) t/(1 - (1 - p) r))` with `r = 1 - e - t`.
#[test]
fn one_film_by_hand() {
    let (p, e, t) = (0.3, 0.5, 0.3);
    let glazing = Glazing::of(&[pane(e, t, 0.0)], p, tilt()).unwrap();
    let round = 1.0 - (1.0 - p) * (1.0 - e - t);
    assert!((glazing.sheet_to_sky() - p * t / round).abs() < 1e-12);
    assert!((glazing.exchange[0][1] - p * e / round).abs() < 1e-12);
    let to_sky = e * (1.0 + (1.0 - p) * t / round);
    assert!((glazing.exchange[1][MOST_NODES] - to_sky).abs() < 1e-12);
}

/// Given: a sheet without cover. Expected: its own emittance to the sky and the wind's film to the
/// air, `h (Tp - Ta) + e sigma (Tp^4 - Ts^4)`, worked here (exact).
#[test]
fn a_bare_sheet() {
    let glazing = Glazing::of(&[], 0.92, tilt()).unwrap();
    let answer = glazing.upwards(313.15, &summer(), &[]).unwrap();
    let by_hand =
        9.0 * 20.0 + 0.92 * STEFAN_BOLTZMANN_W_M2_K4 * (313.15_f64.powi(4) - 278.15_f64.powi(4));
    assert!((answer.flux_w_m2 - by_hand).abs() < 1e-9);
    assert!(answer.faces_k.is_empty());
    assert!(glazing.has_empty_state());
}

/// Given: a twin-wall sheet that resists 0.16 m2 K/W. Expected: the drop across it is what the
/// heat through it makes (Fourier, exact), and it keeps more in than a film does.
#[test]
fn a_wall_that_resists() {
    let twin = Glazing::of(&[pane(0.88, 0.0, 0.16)], 0.95, tilt()).unwrap();
    let film = Glazing::of(&[pane(0.88, 0.0, 0.0)], 0.95, tilt()).unwrap();
    let answer = twin.upwards(353.15, &summer(), &[]).unwrap();
    let (inner_k, outer_k) = answer.faces_k[0];
    assert!((inner_k - outer_k - 0.16 * answer.flux_w_m2).abs() < 1e-6);
    assert!(answer.flux_w_m2 < film.upwards(353.15, &summer(), &[]).unwrap().flux_w_m2);
}

/// Given: an inner film under glass. Expected: all that sky and air do comes in through the glass,
/// so there is an empty state; with the film outside there is none.
#[test]
fn where_the_sky_comes_in() {
    let film_inside = Glazing::of(&[pane(0.4, 0.5, 0.0), pane(0.9, 0.0, 0.0)], 0.9, tilt());
    assert!(film_inside.unwrap().has_empty_state());
    let film_outside = Glazing::of(&[pane(0.9, 0.0, 0.0), pane(0.2, 0.7, 0.0)], 0.9, tilt());
    assert!(!film_outside.unwrap().has_empty_state());
}

/// Given: covers that cannot be. Expected: errors.
#[test]
fn refuses_nonsense() {
    let sound = pane(0.88, 0.0, 0.0);
    assert!(Glazing::of(&[sound, sound, sound], 0.9, tilt()).is_err());
    assert!(Glazing::of(&[pane(0.8, 0.3, 0.0)], 0.9, tilt()).is_err());
    assert!(Glazing::of(&[Cover { gap_m: 0.0, ..sound }], 0.9, tilt()).is_err());
    assert!(Glazing::of(&[sound], f64::NAN, tilt()).is_err());
    let glazing = Glazing::of(&[sound], 0.9, tilt()).unwrap();
    assert!(glazing.upwards(f64::NAN, &summer(), &[]).is_err());
    assert!(glazing.upwards(350.0, &Outdoors { sky_k: -1.0, ..summer() }, &[]).is_err());
    assert!(glazing.upwards(350.0, &summer(), &[f64::NAN]).is_err());
}

prop_compose! {
    fn any_cover()(
        gap_m in 0.005..0.1_f64,
        emittance in 0.02..1.0_f64,
        passes in 0.0..1.0_f64,
        resistance_m2_k_w in 0.0..0.3_f64,
        sort in 0..3_u8,
    ) -> Cover {
        let mut cover = pane(emittance, 0.0, 0.0);
        cover.gap_m = gap_m;
        match sort {
            0 => cover.longwave_transmittance = passes * (1.0 - emittance),
            1 => cover.resistance_m2_k_w = resistance_m2_k_w,
            _ => {}
        }
        cover
    }
}

proptest! {
    /// What a face sends out ends somewhere: the factors are alike both ways (reciprocity), and
    /// each face's add up to no more than it shines.
    #[test]
    fn light_is_exchanged_both_ways_alike(
        covers in proptest::collection::vec(any_cover(), 0..3),
        sheet in 0.0..1.0_f64,
    ) {
        let glazing = Glazing::of(&covers, sheet, tilt()).unwrap();
        for one in 0..=MOST_NODES {
            for other in 0..=MOST_NODES {
                let apart = glazing.exchange[one][other] - glazing.exchange[other][one];
                prop_assert!(apart.abs() < 1e-12);
            }
        }
        prop_assert!(glazing.exchange[0].iter().sum::<f64>() <= sheet + 1e-12);
    }

    /// Heat in, heat out: what the sheet gives plus the light the covers keep is what the
    /// outermost face and the seen ones give to air and sky, to 1e-6 W/m2.
    #[test]
    fn the_stack_balances(
        covers in proptest::collection::vec(any_cover(), 0..3),
        sheet in 0.01..1.0_f64,
        sheet_k in 233.15..523.15_f64,
        ambient_k in 243.15..313.15_f64,
        sky_drop_k in 0.0..40.0_f64,
        wind_film_w_m2_k in 1.0..50.0_f64,
        kept in 0.0..100.0_f64,
    ) {
        let glazing = Glazing::of(&covers, sheet, tilt()).unwrap();
        let around = Outdoors { ambient_k, sky_k: ambient_k - sky_drop_k, wind_film_w_m2_k };
        let answer = glazing.upwards(sheet_k, &around, &[kept, kept]).unwrap();
        let sky_4 = around.sky_k.powi(4);
        let to_sky = |node: usize, k: f64| {
            glazing.exchange[node][MOST_NODES] * STEFAN_BOLTZMANN_W_M2_K4 * (k.powi(4) - sky_4)
        };
        let outer_k = answer.faces_k.last().map_or(sheet_k, |faces| faces.1);
        let mut out = wind_film_w_m2_k * (outer_k - ambient_k) + to_sky(0, sheet_k);
        for (&(inner, outer), &(inner_k, outer_k)) in glazing.faces.iter().zip(&answer.faces_k) {
            out += to_sky(outer, outer_k);
            if inner != outer {
                out += to_sky(inner, inner_k);
            }
        }
        let into = answer.flux_w_m2 + kept * covers.len() as f64;
        prop_assert!((into - out).abs() < 1e-6 * (1.0 + into.abs()), "{into} and {out}");
    }

    /// Knowing the empty state is as good as knowing air and sky, wherever it exists.
    #[test]
    fn the_empty_state_stands_for_air_and_sky(
        covers in proptest::collection::vec(any_cover(), 0..3),
        sheet in 0.01..1.0_f64,
        sheet_k in 233.15..523.15_f64,
        ambient_k in 243.15..313.15_f64,
        sky_drop_k in 0.0..40.0_f64,
        wind_film_w_m2_k in 1.0..50.0_f64,
    ) {
        let glazing = Glazing::of(&covers, sheet, tilt()).unwrap();
        prop_assume!(glazing.has_empty_state());
        let around = Outdoors { ambient_k, sky_k: ambient_k - sky_drop_k, wind_film_w_m2_k };
        let empty_k = glazing.empty_k(&around).unwrap();
        let whole = glazing.upwards(sheet_k, &around, &[]).unwrap().flux_w_m2;
        let straight = glazing.sheet_to_sky()
            * STEFAN_BOLTZMANN_W_M2_K4
            * (empty_k.powi(4) - around.sky_k.powi(4));
        let parts =
            glazing.flux_from_empty_w_m2(sheet_k, empty_k, wind_film_w_m2_k).unwrap() + straight;
        prop_assert!((whole - parts).abs() < 1e-6 * (1.0 + whole.abs()), "{whole} and {parts}");
    }

    /// A warmer sheet never loses less.
    #[test]
    fn flux_rises_with_the_sheet(
        covers in proptest::collection::vec(any_cover(), 0..3),
        sheet in 0.01..1.0_f64,
        sheet_k in 233.15..503.15_f64,
        warmer_k in 0.1..20.0_f64,
    ) {
        let glazing = Glazing::of(&covers, sheet, tilt()).unwrap();
        let flux = |k: f64| glazing.upwards(k, &summer(), &[]).unwrap().flux_w_m2;
        prop_assert!(flux(sheet_k + warmer_k) > flux(sheet_k));
    }
}
