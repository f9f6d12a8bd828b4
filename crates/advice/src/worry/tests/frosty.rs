//! The coldest night, and what runs backwards in it.

use physics::panel::glazing::{Glazing, Outdoors};
use physics::panel::stagnation::{LightKept, idle_parts};
use physics::sun::sky_swinbank_1963;
use year::{Channel, Upset};

use super::super::case::Marched;
use super::super::weather::{design_night, hours};
use super::super::{Kind, frost, night};
use super::{figure_si, first_panel, harp, plain};

/// Given the coldest hour of the design night: the sheet in steady balance between a clear sky (Swinbank
/// 1963) and still air, no light, is where the march's sheet comes to. Tolerance 1.5 K: it follows the
/// air of the hours before by its time constant.
#[test]
fn the_sheet_falls_to_its_balance_with_the_sky() {
    let sample = harp();
    let case = sample.case();
    let spell = design_night(&case).unwrap();
    let marched =
        Marched::of(&case.year.plant, &spell, &Upset::none(), &[Channel::PlateColdest]).unwrap();
    let coldest = spell.forcing.hours[hours(&spell.days)]
        .iter()
        .min_by(|one, other| one.air_k.total_cmp(&other.air_k))
        .unwrap();
    let stated_k = sample.year.build.sun.extremes.coldest_night.air_k;
    assert!((coldest.air_k - stated_k).abs() < 1e-9, "{} {stated_k}", coldest.air_k);
    let sky_k = sky_swinbank_1963(coldest.air_k).unwrap();
    let built = sample.year.build.panel.panels[0].built().unwrap();
    let tilt = sample.year.build.sun.plane.tilt;
    let glazing = Glazing::of(&built.covers, built.sheet.emittance, tilt).unwrap();
    let around = Outdoors { ambient_k: coldest.air_k, sky_k, wind_film_w_m2_k: 5.0 };
    let dark = LightKept { sheet_w_m2: 0.0, covers_w_m2: vec![0.0] };
    let steady_k = idle_parts(built, &glazing, &around, &dark).unwrap().sheet_k;
    let coldest_k = marched.least(Channel::PlateColdest);
    assert!((coldest_k - steady_k).abs() < 1.5, "{coldest_k} {steady_k}");
    // A panel under a clear sky falls below the air (common knowledge of the trade).
    assert!(coldest_k < coldest.air_k);
}

/// Given water that is left in: a stop on a night of -10 C, quiet where it is drained, and where the
/// coldest night is 8 C; antifreeze of 50 % by volume (below -30 C by every table) quiet.
#[test]
fn water_freezes_unless_it_is_drained() {
    let water = [("circuit.fluid", "water"), ("circuit.share-by-volume", "")];
    let cold = ("sun.extremes.coldest-night", "-10 C");
    let left_in = first_panel().written(&[water[0], water[1], cold]);
    let finding = left_in.found(frost::night, "coldest-night");
    assert_eq!(finding.kind, Kind::Stop, "{}", plain(&finding));
    let drained = first_panel().written(&[water[0], water[1], cold, ("circuit.winter", "drained")]);
    assert_eq!(drained.found(frost::night, "coldest-night").kind, Kind::Quiet);
    let strong = first_panel().written(&[("circuit.share-by-volume", "50 %"), cold]);
    let finding = strong.found(frost::night, "coldest-night");
    assert_eq!(finding.kind, Kind::Quiet, "{}", plain(&finding));
    assert!(finding.figures[0].margin_si().unwrap() > 0.0);
}

/// Given a pump that runs against frost at a litre a minute: on a night of -2 C the sheet stays above
/// freezing and the store pays; without mains it freezes, and that is told. On one of -10 C the store's
/// warmth is pumped away and the sheet freezes all the same: by hand, 0.72 m2 of panel at some 10 W/m2 K
/// against air and sky of -10 and -35 C lose 150 W and more, and 115 l from 8 to 0 C hold 1.1 kWh, a
/// night's half.
#[test]
fn a_pump_against_frost_holds_as_long_as_mains_and_store() {
    let night_of = |celsius: &str| {
        first_panel().written(&[
            ("circuit.fluid", "water"),
            ("circuit.share-by-volume", ""),
            ("sun.extremes.coldest-night", celsius),
            ("control.frost.below", "4 C"),
        ])
    };
    let mild = night_of("-2 C");
    let kept = mild.found(frost::night, "coldest-night");
    assert_eq!(kept.kind, Kind::Quiet, "{}", plain(&kept));
    let cut = mild.found(frost::night, "frost-by-pump");
    assert_eq!(cut.kind, Kind::Mind, "{}", plain(&cut));
    assert!(figure_si(&cut, "coldest sheet in a power cut") < 273.15);
    let hard = night_of("-10 C").found(frost::night, "coldest-night");
    assert_eq!(hard.kind, Kind::Stop, "{}", plain(&hard));
}

/// Given a mix thinned by a quarter: 30 % by mass becomes 22.5 %, which freezes near -9 C (a chiller
/// handbook by volume: -9 C at 25 %, from memory): within 2 K, as tables part.
#[test]
fn a_thinned_mix_freezes_earlier() {
    let finding = harp().found(frost::thinned, "thinned-mix");
    let limit_k = finding.figures[0].limit.as_ref().unwrap().si;
    // Three kelvin are kept in hand.
    assert!((limit_k - 3.0 - 264.15).abs() < 2.0, "{limit_k}");
}

/// Given a check valve, what a stuck one lets pass is what the same build without a valve loses, and that
/// is told quietly; built without one, the same heat is a matter to mind, and a valve ends it.
#[test]
fn a_stuck_valve_costs_what_no_valve_costs() {
    let stuck = harp().found(night::look, "valve-stuck-open");
    assert_eq!(stuck.kind, Kind::Quiet);
    let none = harp().written(&[("circuit.check-valve", "none")]);
    let runs = none.found(night::look, "runs-backwards");
    assert_eq!(runs.kind, Kind::Mind, "{}", plain(&runs));
    let what = "heat carried backwards a year";
    assert!((figure_si(&stuck, what) / figure_si(&runs, what) - 1.0).abs() < 1e-9);
    assert!(harp().year.result.build.year().reverse_heat_j == 0.0);
}
