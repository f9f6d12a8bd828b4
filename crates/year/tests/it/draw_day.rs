//! What the recorder tells of draws, against what the ledger books of them.

use year::{Channel, Recorder, Upset, draw_day, run};

use crate::houses::house;

/// Given a year of each kind of heater, pumped and by weight: the heat recorded draw by draw is what
/// the ledger has booked at the tap, each kept as f32 (24 bits: a share of 6e-8 of each, in no one
/// direction); and the layers recorded have the recorded top and bottom at their ends.
#[test]
fn what_is_recorded_is_what_is_booked() {
    for name in ["first-panel.toml", "thermostat-shed.toml", "gravity-lean-to.toml"] {
        let house = house(name);
        let layers = house.build.store.layers;
        let mut recorder = Recorder::of(&Channel::shown(layers));
        let result = run(&house.build, &house.forcing, &Upset::none(), &mut recorder).expect(name);
        let series = |channel| recorder.series(channel).expect("recorded");
        let drawn_j: f64 = series(Channel::DrawHeat).iter().map(|&j| f64::from(j)).sum();
        let booked_j = result.build.year().tap_heat_j;
        assert!((drawn_j / booked_j - 1.0).abs() < 1e-7, "{name}: {drawn_j} of {booked_j}");
        assert_eq!(series(Channel::StoreLayer(0)), series(Channel::StoreBottom));
        let top = Channel::StoreLayer(layers as u8 - 1);
        assert_eq!(series(top), series(Channel::StoreTop));
    }
}

/// Given the thermostat shed's weekdays by hand from its file (30 l at 06:50 to 06:56, 70 l from 19:10
/// to 19:20, 12 l from 12:30 to 12:33): those litres fall in those hours and nowhere else; and the
/// sun's share lies between none and all of it.
#[test]
fn a_weekday_has_the_draws_of_its_file() {
    let house = house("thermostat-shed.toml");
    let mut recorder = Recorder::of(&[Channel::DrawHeat]);
    run(&house.build, &house.forcing, &Upset::none(), &mut recorder).expect("a year");
    let day = draw_day(&house.build, &house.forcing, &recorder).expect("a twin").expect("draws");
    for (hour, &drawn_m3) in day.drawn_m3.iter().enumerate() {
        let wanted_m3 = match hour {
            6 => 0.030,
            12 => 0.012,
            19 => 0.070,
            _ => 0.0,
        };
        assert!((drawn_m3 - wanted_m3).abs() < 1e-12, "{hour}: {drawn_m3}");
        assert!((0.0..=1.0).contains(&day.sun_share[hour]));
        assert_eq!(day.sun_share[hour] > 0.0, wanted_m3 > 0.0, "{hour}");
    }
}

/// Given a house without a panel, it is its own twin: the sun's share is none.
#[test]
fn a_twin_owes_the_sun_nothing() {
    let house = house("first-panel.toml");
    let twin = house.build.twin();
    let mut recorder = Recorder::of(&[Channel::DrawHeat]);
    run(&twin, &house.forcing, &Upset::none(), &mut recorder).expect("a year");
    let day = draw_day(&twin, &house.forcing, &recorder).expect("a year").expect("draws");
    assert_eq!(day.sun_share, [0.0; 24]);
}
