//! Fins on the coil, what else the cistern feeds, and heaters that want their water cool.

use physics::ZERO_CELSIUS_K as C;
use physics::control::ClockSpan;
use physics::store::{Feed, FeedKind, Fins};
use physics::tap::{Heater, Inlet};
use year::forcing::feed_minutes;
use year::{Recorder, Tally, Upset, YearResult, run};

use crate::houses::{House, house};

fn year(house: &House) -> YearResult {
    run(&house.build, &house.forcing, &Upset::none(), &mut Recorder::none()).expect("it computes")
}

fn built(house: &House) -> Tally {
    year(house).build.year()
}

/// The pair, which warms its store most, with a feed of so many litres a day.
fn feeding(kind: FeedKind, day_m3: f64) -> House {
    let mut house = house("pair-better-back.toml");
    let outlet_height_m = house.build.store.outlet_height_m;
    let hours = ClockSpan { from_min: 420, to_min: 1320 };
    house.build.store.feeds.push(Feed { kind, outlet_height_m, day_m3, hours });
    house.forcing.feeds = feed_minutes(&house.build.store, &house.build.tap);
    house
}

/// Given 60 litres a day to a closet, the year's litres are those of its days, its warmth is tallied
/// by itself, and it spares nothing: the build spares less than without, by less than that warmth.
#[test]
fn what_else_it_feeds_takes_warmth_and_spares_nothing() {
    let plain = year(&house("pair-better-back.toml"));
    let fed_house = feeding(FeedKind::Closet, 0.06);
    let fed = year(&fed_house);
    let tally = fed.build.year();
    let days = 365.0
        - fed_house
            .build
            .tap
            .holidays
            .iter()
            .map(|span| f64::from(span.last) - f64::from(span.first) + 1.0)
            .sum::<f64>();
    assert!((tally.other_m3 - 0.06 * days).abs() < 1e-9, "{} m3", tally.other_m3);
    assert!(tally.other_heat_j > 3.6e7, "{} J", tally.other_heat_j);
    let less_j = plain.spared_heat_j() - fed.spared_heat_j();
    assert!(less_j > 0.0 && less_j < tally.other_heat_j, "{less_j} J");
    assert_eq!(plain.build.year().other_heat_j, 0.0);
}

/// Given cold taps, the hours above 25 C are some and fewer than those above 20 C, and the twin,
/// whose cistern stands in the same loft, has fewer; a closet counts none.
#[test]
fn hours_of_warm_cold_taps_are_counted() {
    let result = year(&feeding(FeedKind::ColdTaps, 0.06));
    let (tally, twin) = (result.build.year(), result.twin.year());
    assert!(tally.cold_tap_above_25_c_s > 100.0 * 3600.0);
    assert!(tally.cold_tap_above_25_c_s < tally.cold_tap_above_20_c_s);
    assert!(tally.cold_tap_above_20_c_s <= tally.span_s);
    assert!(twin.cold_tap_above_25_c_s < tally.cold_tap_above_25_c_s);
    assert_eq!(built(&feeding(FeedKind::Closet, 0.06)).cold_tap_above_20_c_s, 0.0);
}

/// Given fins of 22 mm on the first sample's coil, it passes more heat in the year; given ones that
/// hardly stand out, eleven to the inch, about as much as the bare tube (within 15 %).
#[test]
fn fins_pass_more_heat() {
    let heat_j = |fins| {
        let mut house = house("first-panel.toml");
        house.build.store.coil.fins = fins;
        built(&house).flows().coil_heat_j
    };
    let fins = |over_m: f64| {
        let tube = house("first-panel.toml").build.store.coil.tube;
        Some(Fins {
            outside_m: tube.outside_m + over_m,
            thickness_m: 0.0004,
            pitch_m: 0.0023,
            conductivity_w_m_k: tube.conductivity_w_m_k,
        })
    };
    let (bare_j, finned_j, stubs_j) = (heat_j(None), heat_j(fins(0.007)), heat_j(fins(0.0005)));
    println!("finned {:.3}, stubs {:.3} of the bare coil's", finned_j / bare_j, stubs_j / bare_j);
    assert!(finned_j > bare_j);
    assert!((stubs_j / bare_j - 1.0).abs() < 0.15, "{}", stubs_j / bare_j);
}

/// Given an instantaneous heater that takes water up to 25 C only: with a valve all the draws come
/// out of the heater at the wanted temperature and less heat is spared than by one that takes all;
/// without, no more is missing than it refused, and that is not spared: what remains is what one
/// that takes all spares, since the store gives the same water.
#[test]
fn a_heaters_highest_inlet_costs_heat() {
    let with = |inlet| {
        let mut house = house("pair-better-back.toml");
        house.build.tap.heater = Heater::Instantaneous(inlet);
        year(&house)
    };
    let highest_k = C + 25.0;
    let any = with(Inlet::Any);
    let valve = with(Inlet::Tempered { highest_k });
    let off = with(Inlet::LockedOut { highest_k });
    let missing_j = |result: &YearResult| {
        let tally = result.build.year();
        tally.need_heat_j - tally.tap_heat_j - tally.topup_heat_j
    };
    // Nothing passes the heater too cold, and with a valve nothing too hot: need is met to the joule.
    assert!(missing_j(&valve).abs() < 1e-6 * valve.build.year().need_heat_j);
    assert_eq!(valve.build.year().unmet_heat_j, 0.0);
    assert!(off.build.year().unmet_heat_j > 3.6e6);
    assert!(missing_j(&off) <= off.build.year().unmet_heat_j * (1.0 + 1e-9));
    let spared = [&any, &valve, &off].map(YearResult::spared_heat_j);
    println!(
        "spared kWh: any {:.1}, valve {:.1}, off {:.1}",
        spared[0] / 3.6e6,
        spared[1] / 3.6e6,
        spared[2] / 3.6e6
    );
    assert!(spared[0] > spared[1]);
    assert!((spared[2] / spared[0] - 1.0).abs() < 1e-9);
    for result in [&valve, &off] {
        assert!(result.balance().residual_share < 1e-9);
    }
}
