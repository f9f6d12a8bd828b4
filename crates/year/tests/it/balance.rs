//! Heat is kept: what is stored and what crosses agree, and no flow can be off without showing.

use physics::ZERO_CELSIUS_K;
use physics::control::{ClockSpan, StoreLimit};
use physics::store::{Feed, FeedKind, OverheatDischarge};
use physics::tap::Heater;
use year::forcing::feed_minutes;
use year::ledger::{Ledger, Tally, balance};
use year::{Plant, Recorder, Upset, march};

use crate::houses::{BUILDS, house};

/// What a balance may miss, of the panel heat.
const RESIDUAL_SHARE: f64 = 1e-9;

/// A year in which every flow there is flows: the first sample with a loose lid, an overheat
/// discharge that opens early, cold taps beside the heater, and a cylinder downstream.
fn busy_year() -> Ledger {
    let mut house = house("first-panel.toml");
    house.build.store.lid_gap_m2 = 0.02;
    house.build.store.overheat = Some(OverheatDischarge {
        open_k: ZERO_CELSIUS_K + 29.0,
        close_k: ZERO_CELSIUS_K + 27.0,
        flow_m3_s: 2e-6,
    });
    // The discharge is too slow to keep the store from its limit, so that panels stand barred too.
    house.build.control.store_limit =
        Some(StoreLimit { limit_k: ZERO_CELSIUS_K + 29.5, reset_difference_k: 2.0 });
    house.build.tap.heater =
        Heater::Cylinder { volume_m3: 0.12, loss_w_k: 1.8, room_k: ZERO_CELSIUS_K + 18.0 };
    house.build.store.feeds.push(Feed {
        kind: FeedKind::ColdTaps,
        outlet_height_m: 0.3,
        day_m3: 0.05,
        hours: ClockSpan { from_min: 420, to_min: 1320 },
    });
    house.forcing.feeds = feed_minutes(&house.build.store, &house.build.tap);
    let plant = Plant::compile(&house.build).expect("the samples compile");
    march(&plant, &house.forcing, &Upset::none(), &mut Recorder::none())
        .expect("the samples compute")
        .0
}

/// Given each sample and its twin, stored and crossed heat agree to a billionth.
#[test]
fn every_sample_and_its_twin_keep_heat() {
    for name in BUILDS {
        let house = house(name);
        let result = year::run(&house.build, &house.forcing, &Upset::none(), &mut Recorder::none())
            .expect("the samples compute");
        for ledger in [&result.build, &result.twin] {
            let share = ledger.balance().residual_share;
            assert!(share < RESIDUAL_SHARE, "{name}: {share:e}");
        }
    }
}

/// Given a year in which every flow flows, a ledger with any one of them off by 1 % shows the whole
/// of that error, and more than the billionth that an honest year may miss.
#[test]
fn one_percent_off_in_any_flow_is_seen() {
    let ledger = busy_year();
    assert!(ledger.balance().residual_share < RESIDUAL_SHARE);
    type Pick = fn(&mut Tally) -> &mut f64;
    let picks: [(&str, Pick); 17] = [
        ("absorbed", |tally| &mut tally.moving.absorbed_j),
        ("through the cover", |tally| &mut tally.moving.cover_loss_j),
        ("through the back", |tally| &mut tally.moving.back_loss_j),
        ("panels resting", |tally| &mut tally.resting.cover_loss_j),
        ("panels barred", |tally| &mut tally.barred.cover_loss_j),
        ("panel heat", |tally| &mut tally.moving.panel_heat_j),
        ("pipes, pump running", |tally| &mut tally.moving.circuit_loss_j),
        ("pipes standing", |tally| &mut tally.resting.circuit_loss_j),
        ("coil heat", |tally| &mut tally.moving.coil_heat_j),
        ("store loss", |tally| &mut tally.resting.store_loss_j),
        ("evaporation", |tally| &mut tally.resting.evaporation_j),
        ("dumped", |tally| &mut tally.dumped_j),
        ("tap heat", |tally| &mut tally.tap_heat_j),
        ("other heat", |tally| &mut tally.other_heat_j),
        ("top-up", |tally| &mut tally.topup_heat_j),
        ("heater loss", |tally| &mut tally.heater_loss_j),
        ("delivered", |tally| &mut tally.delivered_j),
    ];
    for (what, pick) in picks {
        let mut year = ledger.year();
        let panel_heat_j = year.flows().panel_heat_j;
        let flow = *pick(&mut year);
        assert!(flow.abs() > 3.6e5, "{what}: {flow} J is no flow to be off");
        let off = 0.01 * flow.abs();
        *pick(&mut year) += off;
        let seen = balance(&year, &ledger.start, &ledger.end);
        assert!(
            (seen.residual_j - off).abs() < 1e-6 * panel_heat_j || seen.residual_j > off,
            "{what}: off by {off} J, seen {} J",
            seen.residual_j
        );
        assert!(seen.residual_share > RESIDUAL_SHARE, "{what}: {:e}", seen.residual_share);
    }
}
