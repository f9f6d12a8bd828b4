//! Things going wrong at a time, and spells taken out of the year.

use physics::ZERO_CELSIUS_K as C;
use physics::control::{Differential, Rule};
use year::{Channel, Plant, Recorder, Tally, Upset, UpsetKind, march_days, march_spell};

use crate::houses::{House, house};

/// Midsummer's ten days.
const SUMMER: std::ops::Range<usize> = 170..180;

fn whole_span(kind: UpsetKind) -> Upset {
    Upset { events: vec![(kind, 1440 * SUMMER.start as u32..1440 * SUMMER.end as u32)] }
}

fn summer(house: &House, upset: &Upset, recorder: &mut Recorder) -> Tally {
    let plant = Plant::compile(&house.build).expect("it compiles");
    let days = march_spell(&plant, &house.forcing, SUMMER, upset, recorder).expect("it computes");
    let mut sum = Tally::default();
    for day in &days.tallies {
        sum.add(day);
    }
    sum
}

/// Given ten days of summer by themselves, started from the twelve days before them: the panel's heat is
/// that of the same days in the year to half a percent, since a store forgets in days.
#[test]
fn a_spell_is_those_days_of_the_year() {
    let house = house("first-panel.toml");
    let plant = Plant::compile(&house.build).unwrap();
    let (undisturbed, mut nothing) = (Upset::none(), Recorder::none());
    let year = march_days(&plant, &house.forcing, &undisturbed, &mut nothing, 180).unwrap();
    let in_year_j: f64 = year.tallies[SUMMER].iter().map(|day| day.flows().panel_heat_j).sum();
    let alone_j = summer(&house, &undisturbed, &mut nothing).flows().panel_heat_j;
    assert!(in_year_j > 3.6e6, "there is heat to compare: {in_year_j}");
    assert!((alone_j / in_year_j - 1.0).abs() < 0.005, "{alone_j} {in_year_j}");
}

/// Given a spell over New Year's run-in, days 3 to 5: it starts from December's days as the year does, and
/// its heat is the year's to the last bit.
#[test]
fn a_spell_early_in_january_runs_in_through_december() {
    let house = house("first-panel.toml");
    let plant = Plant::compile(&house.build).unwrap();
    let (undisturbed, mut nothing) = (Upset::none(), Recorder::none());
    let first = march_days(&plant, &house.forcing, &undisturbed, &mut nothing, 3).unwrap();
    let alone = march_spell(&plant, &house.forcing, 0..3, &undisturbed, &mut nothing).unwrap();
    assert_eq!(first, alone);
    let later = march_spell(&plant, &house.forcing, 3..6, &undisturbed, &mut nothing).unwrap();
    assert!(later.tallies.iter().all(|day| day.drawn_m3 > 0.0), "New Year takes no draw away");
}

/// Given a discharge of 2 l/min that sticks open for ten days, 28 800 l go (by hand); stuck shut none, and
/// a store without draws is then hotter than with it.
#[test]
fn a_discharge_sticks_open_or_shut() {
    let mut house = house("first-panel.toml");
    let mut valve = house.build.store.overheat.expect("the sample has one");
    (valve.open_k, valve.close_k) = (C + 32.0, C + 30.0);
    house.build.store.overheat = Some(valve);
    let mut nothing = Recorder::none();
    let open = summer(&house, &whole_span(UpsetKind::DischargeOpen), &mut nothing);
    assert!((open.dumped_m3 - 28.8).abs() < 1e-9, "{}", open.dumped_m3);
    let away = |wrong: Option<UpsetKind>| {
        let mut upset = whole_span(UpsetKind::NoDraws);
        upset.events.extend(wrong.map(|kind| whole_span(kind).events[0].clone()));
        summer(&house, &upset, &mut Recorder::none())
    };
    let (works, shut) = (away(None), away(Some(UpsetKind::DischargeShut)));
    assert!(works.dumped_m3 > 0.0);
    assert_eq!(shut.dumped_m3, 0.0);
    assert!(shut.store_max_k > works.store_max_k + 1.0);
}

/// Given a pump that cannot stop, it runs ten days; given no mains, not a minute.
#[test]
fn a_pump_sticks_or_stands() {
    let house = house("first-panel.toml");
    let stuck = summer(&house, &whole_span(UpsetKind::PumpStuckOn), &mut Recorder::none());
    assert_eq!(stuck.pump_s, 864_000.0);
    let cut = summer(&house, &whole_span(UpsetKind::PowerCut), &mut Recorder::none());
    assert_eq!((cut.pump_s, cut.pump_starts), (0.0, 0));
    assert!(cut.plate_max_k > stuck.plate_max_k + 20.0, "it stands in the sun");
}

/// Given an hour without mains at noon of a day on which the pump ran: the controller begins anew when it
/// comes back, and above its panel limit it does not start, while a pump that was only dead goes on.
#[test]
fn a_controller_begins_anew_after_a_power_cut() {
    let mut house = house("southern-harp.toml");
    let Rule::Differential(rule) = &mut house.build.control.rule else { panic!("it compares") };
    rule.panel_limit_k = C + 60.0;
    let plant = Plant::compile(&house.build).unwrap();
    // Midsummer of the southern half.
    let day = 350;
    let noon = 1440 * day as u32 + 660;
    let runs_at = |kind: UpsetKind| {
        let upset = Upset { events: vec![(kind, noon..noon + 120)] };
        let mut recorder = Recorder::of(&[Channel::Pump, Channel::Plate]);
        march_spell(&plant, &house.forcing, day..day + 1, &upset, &mut recorder).unwrap();
        let back = noon as usize + 120;
        let plate_k = recorder.series(Channel::Plate).unwrap()[back - 1];
        (recorder.series(Channel::Pump).unwrap()[back], f64::from(plate_k))
    };
    let (dead_runs, dead_k) = runs_at(UpsetKind::PumpDead);
    let (cut_runs, cut_k) = runs_at(UpsetKind::PowerCut);
    assert!(dead_k > C + 60.0 && cut_k > C + 60.0, "the panel is hot: {dead_k} {cut_k}");
    assert_eq!((dead_runs, cut_runs), (1.0, 0.0));
}

/// Given probes exchanged, without lag: the pump of every minute is what the rule asks of the store's
/// reading less the panel's, worked out here from the minute before.
#[test]
fn exchanged_probes_turn_the_rule_round() {
    let mut house = house("first-panel.toml");
    let control = &mut house.build.control;
    control.rule = Rule::Differential(Differential {
        on_difference_k: 4.0,
        off_difference_k: 2.0,
        panel_limit_k: C + 200.0,
    });
    (control.min_on_s, control.min_off_s, control.store_limit) = (0.0, 0.0, None);
    control.panel_probe.lag_s = 0.0;
    control.store_probe.lag_s = 0.0;
    // One layer: the store's probe reads its mean.
    house.build.store.layers = 1;
    let mut recorder = Recorder::of(&[Channel::PanelOut, Channel::StoreMean, Channel::Pump]);
    let swapped = whole_span(UpsetKind::ProbesSwapped);
    summer(&house, &swapped, &mut recorder);
    let series = |channel| recorder.series(channel).unwrap();
    let (panel_k, store_k, pump) =
        (series(Channel::PanelOut), series(Channel::StoreMean), series(Channel::Pump));
    let mut ran = 0;
    for minute in 1440 * SUMMER.start + 1..1440 * SUMMER.end {
        let apart_k = f64::from(store_k[minute - 1]) - f64::from(panel_k[minute - 1]);
        let was = pump[minute - 1] > 0.0;
        // The store's mean is recorded before it has settled for the minutes it stood.
        if (apart_k - 4.0).abs() < 0.05 || (apart_k - 2.0).abs() < 0.05 {
            continue;
        }
        let expected = if was { apart_k > 2.0 } else { apart_k >= 4.0 };
        assert_eq!(pump[minute] > 0.0, expected, "minute {minute}: {apart_k} K");
        ran += i32::from(expected);
    }
    assert!(ran > 100, "it ran {ran} minutes, by night");
}
