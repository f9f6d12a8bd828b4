//! Other rules than the differential, frost action, limits, and probes in wrong places, each held
//! against what was decided minute by minute as it was recorded.

use physics::ZERO_CELSIUS_K as C;
use physics::control::{
    ClockSpan, Differential, FrostAction, PanelProbePlace, PanelStop, Rule, StoreProbePlace,
    Thermostat,
};
use year::{Channel, Plant, Recorder, Tally, Upset, UpsetKind, march, march_days};

use crate::houses::{House, house};

/// The first sample under another controller, its probes without lag or error and no minimum times,
/// so that a decision follows from the last minute alone.
fn under(rule: Rule) -> House {
    let mut house = house("first-panel.toml");
    let control = &mut house.build.control;
    control.rule = rule;
    (control.min_on_s, control.min_off_s, control.store_limit) = (0.0, 0.0, None);
    control.panel_probe.lag_s = 0.0;
    control.store_probe.lag_s = 0.0;
    house
}

fn thermostat() -> Rule {
    Rule::Thermostat(Thermostat { on_k: C + 35.0, off_k: C + 29.0 })
}

/// An upset in which nothing happens: it keeps the engine from striding over quiet hours.
fn every_minute() -> Upset {
    Upset { events: vec![(UpsetKind::NoDraws, 0..0)] }
}

fn days(house: &House, upset: &Upset, recorder: &mut Recorder, days: usize) -> Tally {
    let plant = Plant::compile(&house.build).expect("it compiles");
    let march = march_days(&plant, &house.forcing, upset, recorder, days).expect("it computes");
    let mut sum = Tally::default();
    for day in &march.tallies {
        sum.add(day);
    }
    sum
}

/// Given a thermostat of 35 C on and 29 C off, the pump of every minute is what those two words ask
/// for, worked out here from the temperatures recorded at the end of the minute before.
#[test]
fn a_thermostat_follows_the_panel_alone() {
    let house = under(thermostat());
    let mut recorder = Recorder::of(&[Channel::PanelOut, Channel::Pump]);
    days(&house, &every_minute(), &mut recorder, 200);
    let panel_k = recorder.series(Channel::PanelOut).unwrap();
    let pump = recorder.series(Channel::Pump).unwrap();
    let (mut running, mut ran) = (pump[0] > 0.0, 0);
    for minute in 1..200 * 1440 {
        let seen_k = f64::from(panel_k[minute - 1]);
        // What is recorded is rounded to some 2e-5 K: nearer than that to a threshold says nothing.
        let near = (seen_k - (C + 35.0)).abs().min((seen_k - (C + 29.0)).abs()) < 1e-4;
        running = if running { seen_k > C + 29.0 } else { seen_k >= C + 35.0 };
        if near {
            running = pump[minute] > 0.0;
        }
        assert_eq!(pump[minute] > 0.0, running, "minute {minute}, panel {seen_k} K");
        ran += usize::from(running);
    }
    assert!(ran > 5000, "{ran} minutes");
}

/// Given hours from 10:15 to 14:45, the pump runs in them, each day, and in no other minute; by
/// night and in dim hours it does so too, and takes heat out of the store.
#[test]
fn a_timer_runs_in_its_hours() {
    let house = under(Rule::Timer(vec![ClockSpan { from_min: 615, to_min: 885 }]));
    let mut recorder = Recorder::of(&[Channel::Pump]);
    let sum = days(&house, &Upset::none(), &mut recorder, 40);
    let pump = recorder.series(Channel::Pump).unwrap();
    for (minute, &pump) in pump.iter().enumerate().take(40 * 1440) {
        assert_eq!(pump > 0.0, (615..885).contains(&(minute % 1440)), "minute {minute}");
    }
    assert_eq!(sum.pump_starts, 40);
    assert!((sum.pump_s - 40.0 * 270.0 * 60.0).abs() < 1e-6);
    let night = under(Rule::Timer(vec![ClockSpan { from_min: 1380, to_min: 120 }]));
    let sum = days(&night, &Upset::none(), &mut Recorder::none(), 10);
    assert!(sum.flows().coil_heat_j < 0.0 && sum.flows().panel_heat_j < 0.0);
}

/// Given frost action at 4 C, striding over quiet hours steps over no frost: the whole year's
/// decisions and energies are those of a year in which every minute is decided.
#[test]
fn striding_steps_over_no_frost() {
    for place in [PanelProbePlace::Outlet, PanelProbePlace::FlowPipe { distance_m: 1.0 }] {
        let mut house = house("first-panel.toml");
        house.build.control.frost = Some(FrostAction { below_k: C + 4.0, rise_difference_k: 3.0 });
        house.build.control.panel_probe_place = place;
        let run = |upset: &Upset| days(&house, upset, &mut Recorder::none(), 365);
        let (strides, minutes) = (run(&Upset::none()), run(&every_minute()));
        assert!(strides.frost_s > 3600.0, "{place:?}: {} s", strides.frost_s);
        // A start may fall a minute earlier or later, since a stride's sheet is a rounded minute's.
        let apart = |a: f64, b: f64| (a / b - 1.0).abs();
        assert!(
            apart(strides.frost_s, minutes.frost_s) < 0.02,
            "{place:?}: {} and {} s",
            strides.frost_s,
            minutes.frost_s
        );
        let heat_j = |tally: &Tally| tally.flows().coil_heat_j;
        assert!(apart(heat_j(&strides), heat_j(&minutes)) < 0.005, "{place:?}");
        println!(
            "{place:?}: frost {:.1} h striding, {:.1} h by the minute",
            strides.frost_s / 3600.0,
            minutes.frost_s / 3600.0
        );
    }
}

/// Given frost action, the pump in a cold night moves heat out of the store: coil and panel heat are
/// negative in each such minute, the sheet stays warmer than it would without, and heat is kept.
#[test]
fn frost_action_warms_the_panel_with_the_stores_heat() {
    let plain = house("first-panel.toml");
    let mut house = house("first-panel.toml");
    house.build.control.frost = Some(FrostAction { below_k: C + 4.0, rise_difference_k: 3.0 });
    let plant = Plant::compile(&house.build).unwrap();
    let mut recorder = Recorder::of(&[Channel::CoilHeat, Channel::Plate, Channel::Absorbed]);
    let (ledger, _) = march(&plant, &house.forcing, &Upset::none(), &mut recorder).unwrap();
    assert!(ledger.balance().residual_share < 1e-9);
    let year = ledger.year();
    let coil_w = recorder.series(Channel::CoilHeat).unwrap();
    let dark = recorder.series(Channel::Absorbed).unwrap();
    let by_night: f64 =
        coil_w.iter().zip(dark).filter(|&(_, &dark)| dark == 0.0).map(|(&w, _)| f64::from(w)).sum();
    assert!(by_night < 0.0, "{by_night} W min");
    let mut cold = Recorder::of(&[Channel::Plate]);
    days(&plain, &Upset::none(), &mut cold, 365);
    let coldest = |recorder: &Recorder| {
        recorder.series(Channel::Plate).unwrap().iter().copied().fold(f32::MAX, f32::min)
    };
    assert!(coldest(&recorder) > coldest(&cold) + 1.0);
    println!("frost {:.1} h, {:.2} kWh by night", year.frost_s / 3600.0, by_night / 60e3);
}

/// Given a panel that stops the pump above 45 C and a rule that would go on, no minute runs with a
/// probe above it, and after each stop none before the probe is 15 K down.
#[test]
fn a_hot_panel_holds_the_pump_off() {
    let mut house = under(Rule::Differential(Differential {
        on_difference_k: 7.0,
        off_difference_k: 3.0,
        panel_limit_k: C + 200.0,
    }));
    house.build.control.panel_stop = Some(PanelStop { above_k: C + 45.0, fall_difference_k: 15.0 });
    let mut recorder = Recorder::of(&[Channel::PanelOut, Channel::Pump]);
    days(&house, &every_minute(), &mut recorder, 240);
    let panel_k = recorder.series(Channel::PanelOut).unwrap();
    let pump = recorder.series(Channel::Pump).unwrap();
    let (mut hot, mut stops) = (false, 0);
    for minute in 1..240 * 1440 {
        let seen_k = f64::from(panel_k[minute - 1]);
        let was = hot;
        hot = if hot { seen_k > C + 30.0 + 1e-4 } else { seen_k >= C + 45.0 + 1e-4 };
        stops += usize::from(hot && !was);
        assert!(!hot || pump[minute] == 0.0, "minute {minute}, panel {seen_k} K");
    }
    assert!(stops > 5, "{stops} stops");
}

/// Given ten minutes of running on, the pump runs longer and brings no more than it costs: as many
/// starts or fewer, and hours more by at most ten minutes a start.
#[test]
fn running_on_lengthens_each_run() {
    let plain = house("first-panel.toml");
    let mut longer = house("first-panel.toml");
    longer.build.control.run_on_s = 600.0;
    let short = days(&plain, &Upset::none(), &mut Recorder::none(), 365);
    let long = days(&longer, &Upset::none(), &mut Recorder::none(), 365);
    assert!(long.pump_starts <= short.pump_starts);
    assert!(long.pump_s > short.pump_s);
    assert!(long.pump_s - short.pump_s <= 600.0 * f64::from(short.pump_starts));
}

/// Given the panel's probe where it does not belong, it costs heat, and on the pipe most of it: it
/// feels nothing until fluid moves. On the sheet it does as well as at the outlet within 5 %.
#[test]
fn a_probe_in_the_wrong_place_costs_heat() {
    let heat_j = |place| {
        let mut house = house("first-panel.toml");
        house.build.control.panel_probe_place = place;
        days(&house, &Upset::none(), &mut Recorder::none(), 365).flows().coil_heat_j
    };
    let outlet_j = heat_j(PanelProbePlace::Outlet);
    let of = |place| heat_j(place) / outlet_j;
    let sheet = of(PanelProbePlace::Sheet);
    let inlet = of(PanelProbePlace::Inlet);
    let pipe = of(PanelProbePlace::FlowPipe { distance_m: 3.0 });
    let air = of(PanelProbePlace::OpenAir);
    println!(
        "of the outlet's heat: sheet {sheet:.3}, inlet {inlet:.3}, pipe {pipe:.3}, air {air:.3}"
    );
    assert!((sheet - 1.0).abs() < 0.05, "{sheet}");
    assert!(inlet < 1.0 && pipe < 0.5 && air < 0.5, "{inlet}, {pipe}, {air}");
}

/// Given the store's probe on the wall under its jacket, the year changes by less than 1 %; given it
/// in the loft's air, the store's limit no longer holds.
#[test]
fn the_stores_probe_on_the_wall_is_nearly_in_the_water() {
    let year = |place| {
        let mut house = house("first-panel.toml");
        house.build.control.store_probe_place = place;
        if let Some(limit) = &mut house.build.control.store_limit {
            limit.limit_k = C + 30.0;
        }
        days(&house, &Upset::none(), &mut Recorder::none(), 365)
    };
    let height_m = 0.13;
    let water = year(StoreProbePlace::Water { height_m });
    let wall = year(StoreProbePlace::Wall { height_m });
    let air = year(StoreProbePlace::LoftAir);
    assert!((wall.flows().coil_heat_j / water.flows().coil_heat_j - 1.0).abs() < 0.01);
    assert!(air.store_max_k > water.store_max_k + 3.0, "{} K", air.store_max_k);
}
