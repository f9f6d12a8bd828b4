//! It lets go and it moves.

use design::parameters::{parameter_at, section_at};

use super::super::remedy::tried;
use super::super::{About, Kind, LOOKS, Look, Tried, lets_go, moves};
use super::{Sample, figure_si, first_panel, plain};
use crate::idle::idle;

/// A mount in the open: the peak pressure is then 796.4 Pa, by hand after EN 1991-1-4: kr 0.19, cr
/// 0.96429, Iv 0.19704, qb 360 Pa.
const WINDY: &[(&str, &str)] = &[
    ("panel.mount.on", "roof-parallel"),
    ("panel.mount.height", "8 m"),
    ("panel.mount.terrain", "open"),
    ("panel.mount.basic-wind", "24 m/s"),
];
/// Screws whose one holds 3734 N, design (F-11 by its own arithmetic).
const SCREWED: &[(&str, &str)] = &[
    ("panel.mount.screw", "8 mm"),
    ("panel.mount.screw-depth", "50 mm"),
    ("panel.mount.timber-density", "350 kg/m3"),
];

fn with(parts: &[&[(&str, &str)]]) -> Sample {
    first_panel().written(&parts.concat())
}

/// Given wind, no coefficient. Expected: mind, the peak pressure as by hand (to 0.1 Pa), and no force nor
/// count of screws anywhere.
#[test]
fn no_count_of_screws_without_a_net_coefficient() {
    let found = with(&[WINDY, SCREWED]).found(lets_go::wind::look, "wind-lifts");
    assert_eq!((found.kind, found.remedies.len()), (Kind::Mind, 0));
    assert!((figure_si(&found, "peak pressure of the gusts") - 796.4).abs() < 0.1);
    assert_eq!(found.figures.len(), 2, "{}", plain(&found));
    let silent = first_panel().found(lets_go::wind::look, "wind-lifts");
    assert_eq!((silent.kind, silent.place.as_str()), (Kind::Mind, "panel.mount.basic-wind"));
}

/// Given a coefficient of -1.3 on a box of 1.244 by 0.644 m, 14.82 kg at 35 degrees. Expected, by hand:
/// 796.4 x 1.3 x 0.80114 = 829.4 N; 1.5 x 829.4 - 0.9 x 14.82 x 9.80665 x 0.81915 = 1137 N design; four
/// screws hold 3734 x 4^0.9 = 13 003 N: quiet. To 1 N and 15 N (3734 is printed to four figures).
#[test]
fn the_wind_s_pull_by_hand() {
    let sample = with(&[
        WINDY,
        SCREWED,
        &[("panel.mount.net-coefficient", "-1.3"), ("panel.mount.fixings", "4")],
    ]);
    let found = sample.found(lets_go::wind::look, "wind-lifts");
    assert_eq!(found.kind, Kind::Quiet, "{}", plain(&found));
    let pull = &found.figures[0];
    assert!((pull.computed_si - 1137.0).abs() < 1.0, "{}", pull.computed_si);
    let holds_n = pull.limit.as_ref().expect("a limit").si;
    assert!((holds_n - 13_003.0).abs() < 15.0, "{holds_n}");
}

/// Given a coefficient without its minus sign: the wind would be counted as weight, so it is asked about and
/// nothing is told to hold.
#[test]
fn a_wind_that_presses_holds_nothing_down() {
    let sample = with(&[WINDY, SCREWED, &[("panel.mount.net-coefficient", "1.3")]]);
    let found = sample.found(lets_go::wind::look, "wind-lifts");
    assert_eq!(found.kind, Kind::Mind, "{}", plain(&found));
    assert!(found.figures[0].limit.is_none());
}

/// Given a storm no such roof sees, 60 m/s and -5, and two screws. Expected, by hand: 4977 x 5 x 0.80114
/// x 1.5 - 107 = 29.8 kN, and two hold 6968 N: stop. Screws of 3734 N each with n^0.9 need eleven; tried,
/// that is quiet. Screws that reach less than six threads: stop, whatever they hold.
#[test]
fn too_few_screws_are_a_stop_and_enough_are_told() {
    let storm = [
        ("panel.mount.basic-wind", "60 m/s"),
        ("panel.mount.net-coefficient", "-5"),
        ("panel.mount.fixings", "2"),
    ];
    let sample = with(&[WINDY, SCREWED, &storm]);
    let found = sample.found(lets_go::wind::look, "wind-lifts");
    assert_eq!(found.kind, Kind::Stop, "{}", plain(&found));
    let mended = tried(&sample.case(), lets_go::wind::look, found, &|| Ok(())).expect("tried");
    let Some(Tried::Worked { kind, .. }) = &mended.remedies[0].tried else { panic!() };
    assert_eq!(*kind, Some(Kind::Quiet));
    let says = mended.remedies[0].says.clone();
    assert_eq!(says, words_of_eleven());
    let shallow = with(&[
        WINDY,
        SCREWED,
        &[("panel.mount.net-coefficient", "-1.3"), ("panel.mount.screw-depth", "40 mm")],
    ]);
    assert_eq!(shallow.found(lets_go::wind::look, "wind-lifts").kind, Kind::Stop);
}

fn words_of_eleven() -> super::super::Words {
    use super::super::words::{count, words};
    words!("Hold it by {} screws", count(11.0))
}

/// Given 15.07 kg filled on 0.80114 m2. Expected, by hand: 184.4 Pa; a third of slates' 550 Pa, which is
/// past the 15 % of English building control; 12 % of 1500 Pa, which is not. To 0.5 Pa.
#[test]
fn the_roof_s_share_by_hand() {
    for (load, share, kind) in
        [("550 Pa", 184.4 / 550.0, Kind::Mind), ("1500 Pa", 184.4 / 1500.0, Kind::Quiet)]
    {
        let found =
            with(&[&[("panel.mount.roof-load", load)]]).found(lets_go::weight::dead, "roof-load");
        assert_eq!(found.kind, kind, "{}", plain(&found));
        assert!((found.figures[0].computed_si - share).abs() < 0.001);
        assert!((figure_si(&found, "dead load of a filled panel") - 184.4).abs() < 0.5);
    }
}

/// Given 750 Pa of snow on the ground and 40 degrees, F-09's. Expected: a bare roof carries its 400 Pa of
/// plan, the panel holds 0.8 of the ground's, 600 Pa (to 0.01). At 30 degrees both are the same: quiet.
#[test]
fn snow_is_f_09_and_what_the_frame_holds() {
    let at = |tilt| {
        with(&[&[("sun.extremes.ground-snow", "750 Pa"), ("sun.tilt", tilt)]])
            .found(lets_go::weight::snow, "snow-held")
    };
    let steep = at("40 deg");
    let held = &steep.figures[0];
    assert!((held.computed_si - 600.0).abs() < 0.01);
    assert!((held.limit.as_ref().expect("a limit").si - 400.0).abs() < 0.01);
    assert_eq!((steep.kind, at("30 deg").kind), (Kind::Mind, Kind::Quiet));
}

/// Given a panel on the ground. Expected: nothing of roof, snow on it or its covering.
#[test]
fn no_roof_is_looked_at_under_a_panel_on_the_ground() {
    let sample = with(&[&[("panel.mount.on", "ground")]]);
    for look in [lets_go::weight::dead as Look, lets_go::weight::snow, lets_go::lifting::covering] {
        assert!(sample.look(look).is_empty());
    }
    assert_eq!(sample.found(lets_go::lifting::hands, "lifting").kind, Kind::Quiet);
}

/// Given 1.2 m of copper, 17e-6 1/K, from the coldest night to the hotter of the two idle sheets. Expected:
/// alpha L dT by hand (to a micrometre); in a gap of 2 mm a mind, of 1 mm a stop that the remedy quiets.
#[test]
fn the_sheet_grows_by_hand() {
    let sample = first_panel();
    let found = sample.found(moves::stretch::look, "sheet-grows");
    let hot = idle(&sample.subject.design, &sample.year.build, &sample.year.forcing);
    let hot = hot.expect("idles").expect("a panel");
    let coldest_k = sample.year.build.sun.extremes.coldest_night.air_k;
    let by_m = 17e-6 * 1.2 * (hot.standard_k.max(hot.extreme_k) - coldest_k);
    assert!((figure_si(&found, "growth of the sheet") - by_m).abs() < 1e-6);
    assert_eq!(found.kind, Kind::Quiet);
    let narrow = |gap| with(&[&[("panel.box.rim-gap", gap)]]);
    let two = narrow("2 mm").found(moves::stretch::look, "sheet-grows");
    assert_eq!(two.kind, Kind::Mind, "{}", plain(&two));
    let sample = narrow("1 mm");
    let one = sample.found(moves::stretch::look, "sheet-grows");
    assert_eq!(one.kind, Kind::Stop);
    let mended = tried(&sample.case(), moves::stretch::look, one, &|| Ok(())).expect("tried");
    let Some(Tried::Worked { kind, .. }) = &mended.remedies[0].tried else { panic!() };
    assert_eq!(*kind, Some(Kind::Quiet));
}

/// Given acrylic on a wooden rim. Expected: more than silicone gives, told with makers' 6 mm a metre of
/// 1.244 m (by hand); copper on copper grows alike.
#[test]
fn the_cover_needs_its_rebate() {
    let found = first_panel().found(moves::stretch::look, "cover-grows");
    assert_eq!(found.kind, Kind::Mind);
    assert!((figure_si(&found, "makers of acrylic leave") - 0.006 * 1.244).abs() < 1e-9);
    let tubes = first_panel().found(moves::stretch::look, "sheet-and-tubes");
    assert_eq!((tubes.kind, tubes.figures[0].computed_si), (Kind::Quiet, 0.0));
}

/// Given glass in place of the acrylic. Expected: its edge is pulled by the trade's 32 MPa at 40 K in
/// proportion (to 1 %, the figure's own rounding); annealed it is a stop where it is more than 40 K apart;
/// toughened, which bears 150 K, is quiet.
#[test]
fn a_half_shaded_pane() {
    let glazed = |glass| {
        with(&[&[("panel.cover.material", glass), ("panel.cover.thickness", "4 mm")]])
            .found(moves::pane::edge, "pane-edge")
    };
    let annealed = glazed("glass");
    let apart_k = figure_si(&annealed, "middle of the pane over its shaded edge");
    let pull_pa = figure_si(&annealed, "pull at its edge");
    assert!((pull_pa / apart_k / (32e6 / 40.0) - 1.0).abs() < 0.011, "{pull_pa} {apart_k}");
    let kind = if apart_k > 40.0 { Kind::Stop } else { Kind::Quiet };
    assert_eq!(annealed.kind, kind);
    assert_eq!(glazed("toughened-glass").kind, Kind::Quiet);
    assert!(first_panel().look(moves::pane::edge).is_empty(), "acrylic is no glass");
}

/// Given the acrylic cover. Expected: it bows inwards, no more than a strip as wide would,
/// (1 + nu) alpha dT b2/8t by hand with 20 K across, which plastic 3 mm thick never has; in a gap of 10 mm it
/// is louder, and the wider gap of its remedy is quiet.
#[test]
fn the_acrylic_bows_towards_the_sheet() {
    let found = first_panel().found(moves::pane::bow, "cover-bows");
    let bow_m = found.figures[0].computed_si;
    let strip_m = 1.37 * 75e-6 * 20.0 * 0.644 * 0.644 / (8.0 * 0.003);
    assert!(bow_m > 0.0 && bow_m < strip_m, "{bow_m} {strip_m}");
    let sample = with(&[&[("panel.gap", "10 mm")]]);
    let narrow = sample.found(moves::pane::bow, "cover-bows");
    assert!(narrow.kind < Kind::Quiet, "{}", plain(&narrow));
    let mended = tried(&sample.case(), moves::pane::bow, narrow, &|| Ok(())).expect("tried");
    let Some(Tried::Worked { kind, .. }) = &mended.remedies[0].tried else { panic!() };
    assert_eq!(*kind, Some(Kind::Quiet));
}

/// Law: each of these findings stands at a place of the design file, bears a number and a source, and
/// none gives the verdict that nothing here gives; people at work are never a stop.
#[test]
fn each_has_its_place_its_number_and_its_source() {
    let mut seen = 0;
    for &look in LOOKS {
        for finding in first_panel().look(look) {
            if !matches!(finding.about, About::LetsGo | About::Moves | About::Ages | About::Work) {
                continue;
            }
            let place = finding.place.as_str();
            let stands = parameter_at(place).is_some() || section_at(place).is_some();
            assert!(stands, "{}: {place}", finding.code);
            assert!(!finding.figures.is_empty() && !finding.source.is_empty(), "{}", finding.code);
            assert!(finding.about != About::Work || finding.kind != Kind::Stop);
            assert!(finding.kind == Kind::Quiet || !finding.mend.is_empty(), "{}", finding.code);
            seen += 1;
        }
    }
    assert!(seen >= 18, "{seen}");
}
