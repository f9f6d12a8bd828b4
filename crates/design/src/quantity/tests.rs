//! Quantities against the definitions of their units, and there and back again.

use super::{KINDS, Kind, QuantityFault, Units, exact, parse, show};
use proptest::prelude::*;

/// Given texts as people write them, the SI value by the unit's definition (SI Brochure 9th ed.
/// table 8; NIST SP 811 appendix B.8 for inch, foot, gallon, psi and Btu). Tolerance 1e-9
/// relative: the factors are exact or printed to ten figures.
#[test]
fn units_are_what_their_definitions_say() {
    let given = [
        ("0.7 mm", Kind::Length, 0.0007),
        ("1,5 m", Kind::Length, 1.5),
        ("1/2 in", Kind::Length, 0.0127),
        ("5/8\"", Kind::Length, 0.015875),
        ("1 1/2 in", Kind::Length, 0.0381),
        ("1-1/2 in", Kind::Length, 0.0381),
        ("\u{bd} in", Kind::Length, 0.0127),
        ("3' 6\"", Kind::Length, 1.0668),
        ("3 ft 6 in", Kind::Length, 1.0668),
        ("6'", Kind::Length, 1.8288),
        ("10 sq ft", Kind::Area, 0.929_030_4),
        ("1.5 m\u{b2}", Kind::Area, 1.5),
        ("118 l", Kind::Volume, 0.118),
        ("25 UK gal", Kind::Volume, 0.113_652_25),
        ("25 US gal", Kind::Volume, 0.094_635_294_6),
        ("15 l/min", Kind::Flow, 0.00025),
        ("0.2 gpm", Kind::Flow, 0.2 * 6.309_019_64e-5),
        ("4 m", Kind::Head, 4.0),
        ("12 ft head", Kind::Head, 3.6576),
        ("20 C", Kind::Temperature, 293.15),
        ("68 F", Kind::Temperature, 293.15),
        ("20 \u{b0}C", Kind::Temperature, 293.15),
        ("-5 C", Kind::Temperature, 268.15),
        ("\u{2212}40 F", Kind::Temperature, 233.15),
        ("8 K", Kind::Difference, 8.0),
        ("9 F diff", Kind::Difference, 5.0),
        ("180 deg", Kind::Angle, std::f64::consts::PI),
        ("180\u{b0}", Kind::Angle, std::f64::consts::PI),
        ("100 W", Kind::Power, 100.0),
        ("300 BTU/h", Kind::Power, 87.921_321_1),
        ("1 kWh", Kind::Energy, 3.6e6),
        ("2 bar", Kind::Pressure, 2e5),
        ("2 bar abs", Kind::Pressure, 98_675.0),
        ("29 psi", Kind::Pressure, 199_947.961_5),
        ("30 s", Kind::Time, 30.0),
        ("5 min", Kind::Time, 300.0),
        ("0.035 W/(m\u{b7}K)", Kind::Conductivity, 0.035),
        ("30 W/mK", Kind::Conductivity, 30.0),
        ("1 BTU/lb F", Kind::SpecificHeat, 4186.8),
        ("2 1/h", Kind::Rate, 2.0 / 3600.0),
        ("0.5 per hour", Kind::Rate, 0.5 / 3600.0),
        ("20 1/m", Kind::Extinction, 20.0),
        ("40 %", Kind::Share, 0.4),
        ("0.4", Kind::Share, 0.4),
        ("1.526", Kind::Number, 1.526),
        ("1.5e-6 m", Kind::Length, 1.5e-6),
        ("15 MM", Kind::Length, 0.015),
    ];
    for (text, kind, si) in given {
        let got = parse(text, kind).unwrap_or_else(|fault| panic!("{text}: {}", fault.says(kind)));
        assert!((got.si - si).abs() <= 1e-9 * si.abs(), "{text}: {} is not {si}", got.si);
    }
}

/// Given composed US units, the factors that NIST SP 811 (2008) appendix B.9 prints to seven
/// figures; tolerance half a unit in the last.
#[test]
fn composed_units_agree_with_the_printed_factors() {
    let given = [
        ("1 BTU/h ft F", Kind::Conductivity, 1.730_735, 5e-7),
        ("1 BTU/h ft2 F", Kind::Film, 5.678_263, 5e-7),
        ("1 BTU/h", Kind::Power, 0.293_071_1, 5e-8),
        ("1 lb/ft3", Kind::Density, 16.018_46, 5e-6),
        ("1 BTU/h ft2", Kind::Irradiance, 3.154_591, 5e-7),
    ];
    for (text, kind, si, off) in given {
        let got = parse(text, kind).expect("read").si;
        assert!((got - si).abs() <= off, "{text}: {got} is not {si}");
    }
}

/// Given texts that are not what is wanted, the fault that names the matter. Each is a rule of
/// ours: what differs from country to country is refused, a difference is not a temperature.
#[test]
fn what_is_doubtful_is_refused() {
    let code = |text: &str, kind| parse(text, kind).map_or_else(|fault| fault.code(), |_| "read");
    assert_eq!(code("25 gal", Kind::Volume), "ambiguous-unit");
    assert_eq!(code("1,500 l", Kind::Volume), "ambiguous-comma");
    assert_eq!(code("0,125 in", Kind::Length), "read");
    assert_eq!(code("12", Kind::Length), "no-unit");
    assert_eq!(code("8 C", Kind::Difference), "wrong-unit");
    assert_eq!(code("8 K", Kind::Temperature), "wrong-unit");
    assert_eq!(code("0.7 mm", Kind::Area), "wrong-unit");
    assert_eq!(code("3 parsnips", Kind::Length), "unknown-unit");
    assert_eq!(code("mm", Kind::Length), "not-a-quantity");
    assert_eq!(code("", Kind::Length), "not-a-quantity");
    assert_eq!(code("1/0 in", Kind::Length), "not-finite");
    assert_eq!(code("1e999 m", Kind::Length), "not-finite");
    assert_eq!(code("4 m head", Kind::Length), "wrong-unit");
    assert_eq!(code("0.4 m", Kind::Number), "wrong-unit");
    let gallons = parse("25 gal", Kind::Volume).expect_err("refused");
    assert!(matches!(&gallons, QuantityFault::AmbiguousUnit { choices, .. } if choices.len() == 2));
    assert_eq!(gallons.hint(Kind::Volume), "write `UK gal` or `US gal`");
}

/// Every kind names the units that fit it, and each spelling is read as its own kind's.
#[test]
fn each_spelling_is_read() {
    for &kind in KINDS {
        assert!(!kind.fitting().is_empty(), "{kind:?} names no unit");
        for name in kind.spellings() {
            assert!(parse(&format!("1 {name}"), kind).is_ok(), "1 {name} is not read as {kind:?}");
        }
    }
}

proptest! {
    /// What is written out to full precision is read back the same, in either set of units.
    /// Tolerance: 1e-12 of the value, and of 300 K for temperatures, whose zero is shifted.
    #[test]
    fn exact_text_is_read_back(size in -6.0f64..6.0, negative: bool, at in 0..KINDS.len(), us: bool) {
        let kind = KINDS[at];
        let si = 10f64.powf(size) * if negative { -1.0 } else { 1.0 };
        let units = if us { Units::Us } else { Units::Metric };
        let text = exact(kind, si, units);
        let back = parse(&text, kind);
        prop_assert!(back.is_ok(), "{} is not read back", text);
        let shift = if kind == Kind::Temperature { 300.0 } else { 0.0 };
        let off = (back.expect("just checked").si - si).abs();
        prop_assert!(off <= 1e-12 * (si.abs() + shift), "{}: off by {}", text, off);
    }

    /// What is written for reading is read back to its four figures: half a unit in the fourth
    /// is 0.05 % of the value; temperatures keep two decimals.
    #[test]
    fn shown_text_is_read_back(size in -4.0f64..4.0, at in 0..KINDS.len(), us: bool) {
        let kind = KINDS[at];
        let si = 10f64.powf(size);
        let units = if us { Units::Us } else { Units::Metric };
        let text = show(kind, si, units);
        let back = parse(&text, kind);
        prop_assert!(back.is_ok(), "{} is not read back", text);
        let off = (back.expect("just checked").si - si).abs();
        let slack = if kind == Kind::Temperature { 0.0051 } else { 5.1e-4 * si };
        prop_assert!(off <= slack, "{}: off by {}", text, off);
    }

    /// No text whatever brings the reader down.
    #[test]
    fn no_text_panics(text in "\\PC{0,24}", at in 0..KINDS.len()) {
        let _ = parse(&text, KINDS[at]);
    }
}
