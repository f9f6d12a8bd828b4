//! Sunlight through the cover.

use physics::Angle;
use physics::panel::Cover;
use physics::panel::certificate::{modifier as by_angle, points};
use physics::panel::optics::{fresnel, modifier_souka_safwat_1966, transmission, with_reflection};

use super::pane;
use crate::support::thermal;

/// OP-01, Duffie and Beckman example 5.1.1. Given: glass, 0 and 60 deg. Expected: 0.0434, 0.093;
/// at 60 deg 0.185 across and 0.001 along.
#[test]
fn op_01_surface_of_glass() {
    let case = thermal("OP-01");
    let surfaces: Vec<_> = case
        .given_list("angle_deg")
        .iter()
        .map(|&degrees| fresnel(case.given("n"), Angle::from_degrees(degrees).cos()))
        .collect();
    let unpolarised: Vec<f64> = surfaces.iter().map(|surface| surface.unpolarised()).collect();
    case.check_list("r", &unpolarised);
    case.check("r_perp_60", surfaces[1].perpendicular);
    case.check("r_par_60", surfaces[1].parallel);
}

/// OP-03, Duffie and Beckman example 5.3.1. Given: 2.3 mm, 32 per metre, 60 deg. Expected: 0.768
/// passes, 0.147 is thrown back, 0.085 stays.
#[test]
fn op_03_one_pane_at_sixty_degrees() {
    let case = thermal("OP-03");
    let light = transmission(&[pane(&case)], Angle::from_degrees(case.given("angle_deg")));
    case.check("tau", light.transmittance);
    case.check("rho", light.reflectance);
    case.check("alpha", light.absorptance);
}

/// OP-04. Given: 4 mm of common glass, eight angles. Expected: transmittances by another hand.
#[test]
fn op_04_one_pane_by_angle() {
    let case = thermal("OP-04");
    let passed: Vec<f64> = case
        .given_list("angle_deg")
        .iter()
        .map(|&degrees| transmission(&[pane(&case)], Angle::from_degrees(degrees)).transmittance)
        .collect();
    case.check_list("tau", &passed);
}

/// OP-06. Given: tau 0.84, alpha 0.90, diffuse reflectance 0.16. Expected: 0.768, 1.6 % above the
/// plain product.
#[test]
fn op_06_multiple_reflection() {
    let case = thermal("OP-06");
    let (passed, kept) = (case.given("tau"), case.given("alpha"));
    let taken_up = with_reflection(passed, kept, case.given("rho_diffuse_one_cover"));
    case.check("tau_alpha", taken_up);
    case.check("ratio_to_simple_product", taken_up / (passed * kept));
}

/// OP-07. Given: b0 0.1. Expected: a certified flat plate's modifier, 10 to 80 deg and at 90.
#[test]
fn op_07_angle_modifier() {
    let case = thermal("OP-07");
    let modifier =
        |degrees| modifier_souka_safwat_1966(case.given("b0"), Angle::from_degrees(degrees).cos());
    let certified = case.expected_list("k_certified");
    for (degrees, want) in case.given_list("angle_deg").into_iter().zip(certified) {
        let key = if degrees > 70.0 { "abs_at_80" } else { "abs_to_70" };
        let off = (modifier(degrees) - want).abs();
        assert!(off <= case.stated_tolerance(key), "{degrees} deg: off by {off}");
    }
    // And the certificate's own row, as a bought panel carries it: itself at its angles.
    let row: Vec<(f64, f64)> =
        case.given_list("angle_deg").into_iter().zip(case.expected_list("k_certified")).collect();
    let stated = points(&row);
    for (degrees, share) in row {
        let read = by_angle(&stated, Angle::from_degrees(degrees).cos());
        assert!((read - share).abs() < 1e-9, "{degrees} deg: {read}");
    }
    assert!(by_angle(&stated, Angle::from_degrees(90.0).cos()) < 1e-9);
    assert_eq!(modifier(90.0), case.expected("k_90"));
}

/// OP-09, MIL-HDBK-1003/13A table 2-3. Given: index of nine cover materials. Expected: none of
/// their printed transmittances lies above the pane that absorbs nothing (0.005 for rounding),
/// and that ceiling as another hand computed it.
#[test]
fn op_09_no_cover_passes_more_than_its_surfaces_let() {
    let case = thermal("OP-09");
    for name in [
        "white_crystal_glass",
        "low_iron_tempered_glass",
        "tempered_float_glass",
        "frp",
        "acrylic_sheet",
        "polycarbonate_sheet",
        "fep_film",
        "polyester_film",
        "polyethylene_film",
    ] {
        let [_, printed, _, _, index] = case.expected_list(name)[..] else {
            panic!("OP-09 keeps five numbers for {name}");
        };
        let clear = Cover { index, extinction_1_m: 0.0, ..pane(&thermal("OP-03")) };
        let ceiling = transmission(&[clear], Angle::ZERO).transmittance;
        assert!(printed <= ceiling + case.stated_tolerance("solar_abs"), "{name}: {ceiling}");
        let other_hand = case.recomputed(&format!("fresnel_ceiling.{name}"));
        assert!((ceiling - other_hand).abs() < 1e-5, "{name}: {ceiling} against {other_hand}");
    }
}
