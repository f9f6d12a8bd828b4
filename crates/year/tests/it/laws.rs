//! What must hold in every year, whatever the build.

use physics::ZERO_CELSIUS_K;
use physics::control::StoreLimit;
use physics::matter::fluid::Fluid;
use year::{Channel, Plant, Recorder, Tally, Upset, UpsetKind, march, march_days};

use crate::houses::{House, house};

fn days(house: &House, upset: &Upset, recorder: &mut Recorder) -> Vec<Tally> {
    let plant = Plant::compile(&house.build).expect("it compiles");
    march_days(&plant, &house.forcing, upset, recorder, 365).expect("it computes").tallies
}

/// Given any day of a year, the fluid gains no more than light taken up, plus what the surroundings
/// gave, plus what the sheets gave back: the second and third are the loss with its sign turned and
/// at most the sheets' capacity cooled by 200 K.
#[test]
fn useful_heat_is_never_above_what_came_in() {
    let house = house("pair-better-back.toml");
    let plant = Plant::compile(&house.build).unwrap();
    let stored_j: f64 = plant.segments.iter().map(|segment| segment.capacity_j_k * 200.0).sum();
    for day in days(&house, &Upset::none(), &mut Recorder::none()) {
        let flows = day.flows();
        let gained_j = flows.absorbed_j - flows.panel_loss_j().min(0.0);
        assert!(flows.panel_heat_j <= gained_j + stored_j);
    }
}

/// Given a pump that is dead all year, no heat passes the coil or the ports in any minute, and the
/// sheet comes to stagnation; given a blocked circuit, the same, with electricity drawn.
#[test]
fn without_flow_no_heat_passes() {
    let house = house("first-panel.toml");
    for (kind, powered) in [(UpsetKind::PumpDead, false), (UpsetKind::Blocked, true)] {
        let upset = Upset { events: vec![(kind, 0..525_600)] };
        // The run-in days are undisturbed: only the year itself counts.
        let mut year = Tally::default();
        for day in days(&house, &upset, &mut Recorder::none()) {
            year.add(&day);
        }
        assert_eq!((year.flows().panel_heat_j, year.flows().coil_heat_j), (0.0, 0.0), "{kind:?}");
        assert_eq!(year.pump_j > 0.0, powered, "{kind:?}");
        // A blocked pump's minutes are no flow either.
        assert_eq!((year.moving.absorbed_j, year.moving.circuit_loss_j), (0.0, 0.0), "{kind:?}");
        assert!(year.plate_max_k > ZERO_CELSIUS_K + 90.0, "{kind:?}: {}", year.plate_max_k);
    }
}

/// Given a year by the minute, coil heat is nought in every minute without flow.
#[test]
fn coil_heat_is_nought_while_the_pump_rests() {
    let house = house("first-panel.toml");
    let mut recorder = Recorder::of(&[Channel::CoilHeat, Channel::Flow]);
    days(&house, &Upset::none(), &mut recorder);
    let heat = recorder.series(Channel::CoilHeat).unwrap();
    let flow = recorder.series(Channel::Flow).unwrap();
    assert!(heat.iter().zip(flow).all(|(&heat, &flow)| flow > 0.0 || heat == 0.0));
    assert!(flow.iter().any(|&flow| flow > 0.0));
}

/// Given a year by the minute and a controller that stops on a full store: light taken up in minutes
/// without flow is what resting and barred panels took up, and in the others what moving ones did,
/// within a millionth (the recorder keeps seven digits). Definition.
#[test]
fn light_is_booked_by_what_the_fluid_did() {
    let mut house = house("first-panel.toml");
    house.build.control.store_limit =
        Some(StoreLimit { limit_k: ZERO_CELSIUS_K + 35.0, reset_difference_k: 3.0 });
    let mut recorder = Recorder::of(&[Channel::Absorbed, Channel::Flow]);
    let mut year = Tally::default();
    for day in days(&house, &Upset::none(), &mut recorder) {
        year.add(&day);
    }
    let light = recorder.series(Channel::Absorbed).unwrap();
    let flow = recorder.series(Channel::Flow).unwrap();
    let area_m2 = house.build.panel.area_m2();
    let taken_j = |flowing: fn(f32) -> bool| {
        let minutes = light.iter().zip(flow).filter(|&(_, &flow)| flowing(flow));
        minutes.map(|(&light, _)| f64::from(light) * 60.0 * area_m2).sum::<f64>()
    };
    let (moving_j, still_j) = (taken_j(|flow| flow > 0.0), taken_j(|flow| flow == 0.0));
    assert!((year.moving.absorbed_j / moving_j - 1.0).abs() < 1e-6);
    assert!(((year.resting.absorbed_j + year.barred.absorbed_j) / still_j - 1.0).abs() < 1e-6);
    assert!(year.barred.absorbed_j > 0.1 * still_j, "{:?}", year.barred);
}

/// Given nobody who draws, nothing is drawn, needed or spared by draws, the store stays finite, and
/// the heat is kept.
#[test]
fn a_household_that_draws_nothing_computes() {
    let mut house = house("first-panel.toml");
    house.build.tap.draws.clear();
    house.forcing.draws.clear();
    let plant = Plant::compile(&house.build).unwrap();
    let (ledger, _) = march(&plant, &house.forcing, &Upset::none(), &mut Recorder::none()).unwrap();
    let year = ledger.year();
    assert_eq!((year.drawn_m3, year.tap_heat_j, year.need_heat_j), (0.0, 0.0, 0.0));
    assert!(year.store_max_k.is_finite());
    assert!(ledger.balance().residual_share < 1e-9);
}

/// Given the same build, forcing and upset twice, the same year to the last bit; and recording
/// changes nothing.
#[test]
fn the_same_input_gives_the_same_year() {
    let house = house("southern-harp.toml");
    let first = days(&house, &Upset::none(), &mut Recorder::none());
    let mut recorder = Recorder::of(&Channel::ALL);
    let second = days(&house, &Upset::none(), &mut recorder);
    assert_eq!(first, second);
}

/// Given a thicker back, then a thicker edge, the year's panel heat rises each time.
#[test]
fn more_insulation_never_costs_heat() {
    let house = house("first-panel.toml");
    let heat_j = |house: &House| {
        let mut year = Tally::default();
        for day in days(house, &Upset::none(), &mut Recorder::none()) {
            year.add(&day);
        }
        year.flows().panel_heat_j
    };
    let plain_j = heat_j(&house);
    let mut thicker = House {
        build: house.build.clone(),
        climate: house.climate.clone(),
        forcing: house.forcing.clone(),
    };
    let panel = thicker.build.panel.panels[0].built_mut().expect("made at home");
    for layer in &mut panel.back {
        layer.thickness_m *= 2.0;
    }
    assert!(heat_j(&thicker) > plain_j);
    let panel = thicker.build.panel.panels[0].built_mut().expect("made at home");
    panel.edge.layer.thickness_m *= 2.0;
    let both_j = heat_j(&thicker);
    assert!(both_j > plain_j);
}

/// Given the strongest antifreeze the fluids' tables hold, thicker than oil at the tables' cold end,
/// the plant is made and the year computed; it passes on less heat than plain water does.
#[test]
fn the_strongest_antifreeze_computes() {
    let mut house = house("first-panel.toml");
    let heat_j = |house: &House| -> f64 {
        let tallies = days(house, &Upset::none(), &mut Recorder::none());
        tallies.iter().map(|day| day.flows().coil_heat_j).sum()
    };
    house.build.circuit.fluid = Fluid::PropyleneGlycol { mass_share: 0.6 };
    let strong_j = heat_j(&house);
    house.build.circuit.fluid = Fluid::Water;
    assert!(strong_j > 0.0 && strong_j < heat_j(&house));
}
