//! Boiling, steam, and the cistern of two weeks away.

use physics::ZERO_CELSIUS_K;
use physics::climate::HOURS_PER_YEAR;
use year::{Channel, Upset, UpsetKind};

use super::super::case::Marched;
use super::super::weather::{Spell, bright_days, extreme_day, minutes};
use super::super::{Kind, away, boils, hot_panel, too_hot};
use super::{figure_si, first_panel, harp, plain};
use crate::idle::idle;

/// Given the harp at noon of the hottest day, its pump dead: by hand, a body of the plant's capacity C
/// that takes up the noon's light S and loses U A (T - Ta), with U from the steady temperature it would
/// reach, boils after tau ln((Tinf - T0)/(Tinf - Tb)). Tolerance a third or two minutes: light, and U by
/// temperature, move in that time, and the sheet's hottest place is not its mean.
#[test]
fn it_boils_when_a_hand_reckons() {
    let sample = harp();
    let case = sample.case();
    let finding = sample.found(boils::look, "pump-dies-at-noon");
    let told_s = figure_si(&finding, "from noon until it boils");
    let boils_k = figure_si(&finding, "the fluid boils at");

    let spell = extreme_day(&case, 1);
    let at_noon = 1440 * spell.days.start + 720;
    let marched = Marched::of(&case.year.plant, &spell, &Upset::none(), &[Channel::Plate]).unwrap();
    let start_k = f64::from(marched.series(Channel::Plate)[719]);
    let light_w_m2 = f64::from(spell.forcing.light.absorbed_w_m2[at_noon]);
    let found = idle(&sample.subject.design, &sample.year.build, &sample.year.forcing);
    let found = found.unwrap().unwrap();
    let air_k = spell.forcing.hours[at_noon / 60].air_k;
    let loss_w_m2_k = found.extreme.taken_w_m2 / (found.extreme_k - found.extreme.around.ambient_k);
    let steady_k = air_k + light_w_m2 / loss_w_m2_k;
    let capacity_j_k: f64 =
        case.year.plant.segments.iter().map(|segment| segment.capacity_j_k).sum();
    let tau_s = capacity_j_k / (loss_w_m2_k * sample.year.build.panel.area_m2());
    let hand_s = tau_s * ((steady_k - start_k) / (steady_k - boils_k)).ln();
    let tolerance_s = (hand_s / 3.0).max(120.0);
    assert!((told_s - hand_s).abs() < tolerance_s, "told {told_s} s, by hand {hand_s} s");
}

/// Law: the spell's own march never makes the sheet hotter than the steady balance in the same air and
/// the year's strongest sun, and comes within 25 K of it: a sheet follows the sun by minutes, and the
/// brightest day need not hold the strongest hour.
#[test]
fn a_dead_day_stays_under_the_steady_balance() {
    for sample in [first_panel(), harp()] {
        let case = sample.case();
        let spell = extreme_day(&case, 1);
        let span = minutes(&spell.days);
        let dead =
            Upset { events: vec![(UpsetKind::PumpDead, span.start as u32..span.end as u32)] };
        let marched = Marched::of(&case.year.plant, &spell, &dead, &[Channel::Plate]).unwrap();
        let hottest_k = marched.most(Channel::Plate);
        let steady = idle(&sample.subject.design, &sample.year.build, &sample.year.forcing);
        let steady_k = steady.unwrap().unwrap().extreme_k;
        assert!(hottest_k < steady_k + 0.5, "{hottest_k} {steady_k}");
        assert!(hottest_k > steady_k - 25.0, "{hottest_k} {steady_k}");
    }
}

/// Law: a higher header tank never lowers the boiling margin; and the limit itself is the boiling point
/// of 30 % propylene glycol under two metres more than half a metre (physics, by D-08's relation).
#[test]
fn a_higher_header_tank_never_boils_earlier() {
    let sample = harp();
    let mut last_k = 0.0;
    for level in ["3 m", "4 m", "6 m", "10 m"] {
        let higher = sample.written(&[("circuit.filling.water-level", level)]);
        let boils_k = boils::boils_k(&higher.year.build).unwrap().unwrap();
        assert!(boils_k >= last_k, "{level}: {boils_k}");
        last_k = boils_k;
    }
    // Ten metres of water are about one bar more: 120 C for water (steam tables), a little more with
    // glycol in it.
    let top_m = sample.year.build.circuit.layout.panel_top_m;
    let head_m = 10.0 - top_m;
    let expected = physics::circuit::boiling::boil_below(
        sample.year.build.circuit.fluid,
        head_m,
        sample.year.build.sun.place.elevation_m,
    );
    assert!((last_k - expected.unwrap().boils_k).abs() < 0.2, "{last_k}");
}

/// Given a header tank too small, a stop, with what is thrown out; large enough, quiet: by the balance of
/// volumes, panel contents and growth.
#[test]
fn a_header_tank_takes_what_boils_or_throws_it_out() {
    let small = harp().written(&[("circuit.filling.room", "0.5 l")]);
    let finding = small.found(boils::look, "pump-dies-at-noon");
    assert_eq!(finding.kind, Kind::Stop, "{}", plain(&finding));
    let pushed_m3 = figure_si(&finding, "pushed out by steam and growth");
    let build = &small.year.build;
    let held = physics::circuit::survey::contents(&build.circuit, &build.panel, &build.store.coil);
    // Thirty percent glycol grows by 1 to 3 % from 20 to 60 C (makers' sheets, from memory).
    let grown_m3 = pushed_m3 - held.panels_m3;
    let share = grown_m3 / held.whole_m3();
    assert!((0.01..0.03).contains(&share), "{share}");
    let thrown = format!("{:.3} l", 1e3 * (pushed_m3 - 0.0005));
    assert!(plain(&finding).contains(&thrown[..3]), "{} {thrown}", plain(&finding));
    let large = harp().written(&[("circuit.filling.room", "10 l")]);
    assert_eq!(large.found(boils::look, "pump-dies-at-noon").kind, Kind::Quiet);
}

/// Given a power cut on the hottest day, a controller whose panel limit is 140 C starts the pump above
/// boiling, and one set to 95 C waits until the sheet is under it.
#[test]
fn a_controller_that_waits_does_not_pump_into_steam() {
    let bold = harp().written(&[("control.panel-limit", "140 C")]);
    let finding = bold.found(hot_panel::started, "starts-into-steam");
    assert_eq!(finding.kind, Kind::Mind, "{}", plain(&finding));
    let patient = harp().written(&[("control.panel-limit", "95 C")]);
    let finding = patient.found(hot_panel::started, "starts-into-steam");
    assert_eq!(finding.kind, Kind::Quiet, "{}", plain(&finding));
    assert!(finding.figures[0].margin_si().unwrap() >= 0.0);
}

/// Given soft solder at the joints of a sheet that passes 121 C, where pressure tables of soldered joints
/// end (copper tube handbook): a stop that names it; brazed, rated to 177 C by the same trade, quiet.
#[test]
fn soft_solder_on_a_hot_sheet_is_a_stop() {
    let joints = |sample: &super::Sample| {
        let all = sample.look(too_hot::look);
        all.into_iter().find(|finding| finding.of == "tube joints").expect("joints")
    };
    let soft = joints(harp());
    assert_eq!(soft.kind, Kind::Stop);
    let limit_c = soft.figures[0].limit.as_ref().unwrap().si - ZERO_CELSIUS_K;
    assert!((limit_c - 121.0).abs() < 0.5, "{limit_c}");
    let brazed = joints(&harp().written(&[("panel.tubes.joints", "silver-braze")]));
    assert_eq!(brazed.kind, Kind::Quiet);
    let limit_c = brazed.figures[0].limit.as_ref().unwrap().si - ZERO_CELSIUS_K;
    assert!((limit_c - 177.0).abs() < 0.5, "{limit_c}");
}

/// Given two weeks without a draw: what the store's heat grew by is what crossed it (to a watt-hour, the
/// engine's own ledger, station by station); and a discharge that sticks open lets its flow times the
/// minutes go (by hand).
#[test]
fn two_weeks_away_add_up() {
    let sample = first_panel();
    let case = sample.case();
    let days = bright_days(&case, 14);
    assert!(days.end <= HOURS_PER_YEAR / 24);
    let spell = Spell { days, forcing: sample.year.forcing.clone() };
    let span = minutes(&spell.days);
    let away = Upset { events: vec![(UpsetKind::NoDraws, span.start as u32..span.end as u32)] };
    let marched = Marched::of(&case.year.plant, &spell, &away, &[]).unwrap();
    let mut sum = year::Tally::default();
    for day in &marched.days.tallies {
        sum.add(day);
    }
    assert_eq!(sum.drawn_m3, 0.0);
    let flows = sum.flows();
    let grown_j = marched.days.end.store_j - marched.days.start.store_j;
    let crossed_j = flows.coil_heat_j - flows.store_loss_j - flows.evaporation_j - sum.dumped_j;
    assert!((grown_j - crossed_j).abs() < 3600.0, "{grown_j} {crossed_j}");

    let open = sample.found(away::discharge, "discharge-stuck-open");
    // Two litres a minute for a day.
    assert!((figure_si(&open, "mains water a day") - 2.880).abs() < 1e-6);
}

/// Given a polyethylene cistern, 60 C for years and 75 C for hours (catalogue): a store limit of 90 C and
/// no discharge cook it; a limit of 50 C keeps it quiet.
#[test]
fn a_plastic_cistern_is_held_to_its_limits() {
    let hot = harp().written(&[("control.store-limit", "90 C")]);
    let finding = hot.found(away::hot, "away-hot-store");
    assert_eq!(finding.kind, Kind::Stop, "{}", plain(&finding));
    let cool = harp().written(&[("control.store-limit", "50 C")]);
    let finding = cool.found(away::hot, "away-hot-store");
    assert_eq!(finding.kind, Kind::Quiet, "{}", plain(&finding));
    assert!(finding.figures[0].margin_si().unwrap() > 0.0);
}

/// Given a metre of metal before the lagging, which dry conduction leaves cool: a panel that boils pushes
/// its fluid past it all the same, so the place is as hot as the fluid boils.
#[test]
fn steam_warms_the_pipe_past_its_metal() {
    let metal = harp().written(&[("panel.outlet-metal", "1 m")]);
    let found = idle(&metal.subject.design, &metal.year.build, &metal.year.forcing);
    let found = found.unwrap().unwrap();
    let lagging = found.parts.iter().find(|part| part.part.part.starts_with("lagging")).unwrap();
    let boils_k = boils::boils_k(&metal.year.build).unwrap().unwrap();
    assert!(found.extreme_k > boils_k && (lagging.extreme_k - boils_k).abs() < 1e-9);
}

/// Given a pump that cannot stop, or a store's probe in the loft: the store is hotter after two weeks than
/// with its limit at work, and that is told.
#[test]
fn a_failed_limit_warms_the_store_further() {
    let built = figure_si(&harp().found(away::hot, "away-hot-store"), "hottest water in the store");
    let failed = harp().found(away::limit_fails, "away-limit-fails");
    let failed_k = figure_si(&failed, "hottest water in the store");
    // Law: without its limit a store gets hotter.
    assert!(failed_k > built, "{failed_k} {built}: {}", plain(&failed));
}
