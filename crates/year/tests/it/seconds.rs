//! Annual energies against the same nodes marched in one-second steps.

use physics::ZERO_CELSIUS_K;
use physics::circuit::CheckValve;
use physics::climate::HOURS_PER_YEAR;
use physics::control::{ClockSpan, FrostAction, PanelStop};
use physics::store::{Feed, FeedKind};
use year::forcing::feed_minutes;
use year::{Channel, Flows, Plant, Recorder, Tally, Upset, march, start_state};

use crate::houses::{BUILDS, House, house};
use crate::plain_twin::{Moment, Moving, POWERS, Powers, drift, hour_of, mix, rates, row};

/// What the engine decided, minute by minute, for the other march to follow: pump starts are thus
/// left out of the comparison.
pub struct Decisions {
    recorder: Recorder,
}

impl Decisions {
    /// A recorder for what decisions are read from.
    pub fn recorder() -> Recorder {
        Recorder::of(&[Channel::Flow, Channel::Discharge])
    }

    /// The decisions a recorder holds.
    pub fn of(recorder: Recorder) -> Decisions {
        Decisions { recorder }
    }

    pub fn moment(&self, house: &House, minute: usize) -> Moment {
        let value = |channel| f64::from(self.recorder.series(channel).expect("recorded")[minute]);
        Moment {
            absorbed_w_m2: f64::from(house.forcing.light.absorbed_w_m2[minute]),
            moving: if value(Channel::Flow) > 0.0 { Moving::Pump } else { Moving::Nothing },
            drawn_m3_s: 0.0,
            discharged_m3_s: value(Channel::Discharge) / 60_000.0,
            fed_m3_s: 0.0,
            fed_from: 0,
        }
    }
}

/// The engine's year of a build and what it decided.
fn engine_year(house: &House, plant: &Plant) -> (Tally, Decisions) {
    let mut recorder = Decisions::recorder();
    let (ledger, _) =
        march(plant, &house.forcing, &Upset::none(), &mut recorder).expect("the samples compute");
    (ledger.year(), Decisions::of(recorder))
}

/// A year in one-second steps: plain forward steps of the plain right-hand side, water mixed after
/// each. Where nothing flows, nothing is drawn and no light falls, steps of ten seconds.
fn seconds_year(house: &House, plant: &Plant, decisions: &Decisions) -> Powers {
    let mut nodes = row(&start_state(plant, &house.forcing).expect("the samples compute"));
    let mut warming = vec![0.0; nodes.len()];
    let mut energies = [0.0; POWERS];
    let mut before = 0.0;
    let mut draws = house.forcing.draws.iter().peekable();
    let mut feeds = house.forcing.feeds.iter().peekable();
    for hour in 0..HOURS_PER_YEAR {
        let weather = hour_of(plant, &house.forcing.hours[hour]);
        for minute in hour * 60..hour * 60 + 60 {
            let mut moment = decisions.moment(house, minute);
            if draws.peek().is_some_and(|draw| draw.minute as usize == minute) {
                moment.drawn_m3_s = draws.next().map_or(0.0, |draw| draw.volume_m3 / 60.0);
            }
            // The houses held here feed one thing at a time.
            if feeds.peek().is_some_and(|feed| feed.minute as usize == minute) {
                let feed = feeds.next().expect("just seen");
                moment.fed_m3_s = feed.volume_m3 / 60.0;
                moment.fed_from = plant.store.feeds[feed.feed];
            }
            // Weight asks no controller: the march finds by itself what it drives.
            let by_weight = plant.flow.is_none();
            let busy = moment.moving != Moving::Nothing
                || before != 0.0
                || moment.drawn_m3_s > 0.0
                || moment.discharged_m3_s > 0.0
                || moment.fed_m3_s > 0.0;
            let step_s = if busy || moment.absorbed_w_m2 > 0.0 { 1.0 } else { 10.0 };
            for _ in 0..(60.0 / step_s) as usize {
                if by_weight {
                    before = drift(plant, &nodes, before);
                    moment.moving =
                        if before == 0.0 { Moving::Nothing } else { Moving::Weight(before) };
                }
                let powers = rates(plant, &weather, weather.mains_k, &moment, &nodes, &mut warming);
                for (node, rate) in nodes.iter_mut().zip(&warming) {
                    *node += step_s * rate;
                }
                mix(plant, &mut nodes);
                for (energy, power) in energies.iter_mut().zip(powers.list()) {
                    *energy += step_s * power;
                }
            }
        }
    }
    let [
        absorbed,
        cover_loss,
        back_loss,
        panel_heat,
        circuit_loss,
        coil_heat,
        store_loss,
        evaporation,
        dumped,
        tap_heat,
        other_heat,
    ] = energies;
    Powers {
        absorbed,
        cover_loss,
        back_loss,
        panel_heat,
        circuit_loss,
        coil_heat,
        store_loss,
        evaporation,
        dumped,
        tap_heat,
        other_heat,
    }
}

/// Given each sample, its decisions, forcing and start state, the annual energies of the engine and
/// of the one-second march agree within 0.5 % (of the energy itself; small energies, within 0.5 %
/// of the panel heat times a tenth: no one asks a loss of 3 kWh to the watt-hour).
#[test]
fn annual_energies_agree_with_one_second_steps() {
    for name in BUILDS {
        agrees(name, &house(name));
    }
}

/// The same with a controller that runs the pump against frost, stops it on a hot panel and lets it
/// run on, and with a cistern that feeds cold taps beside the heater.
#[test]
fn frost_and_feeds_agree_with_one_second_steps() {
    let mut house = house("first-panel.toml");
    let control = &mut house.build.control;
    control.frost = Some(FrostAction { below_k: ZERO_CELSIUS_K + 4.0, rise_difference_k: 3.0 });
    control.panel_stop =
        Some(PanelStop { above_k: ZERO_CELSIUS_K + 50.0, fall_difference_k: 10.0 });
    control.run_on_s = 180.0;
    house.build.store.feeds.push(Feed {
        kind: FeedKind::ColdTaps,
        outlet_height_m: 0.2,
        day_m3: 0.08,
        hours: ClockSpan { from_min: 420, to_min: 1320 },
    });
    house.forcing.feeds = feed_minutes(&house.build.store, &house.build.tap);
    agrees("first-panel.toml with frost action and cold taps", &house);
}

/// Given the sample without a pump, behind its flap and with none, the annual energies of the engine
/// and of a march in seconds that weighs the whole round anew in each of them agree in the same way:
/// taking a minute's flow as the mean of its ends is fine enough.
#[test]
fn weight_drives_as_in_one_second_steps() {
    let mut house = house("gravity-lean-to.toml");
    agrees("gravity-lean-to.toml", &house);
    house.build.circuit.check_valve = CheckValve::None;
    agrees("gravity-lean-to.toml without a flap", &house);
}

fn agrees(name: &str, house: &House) {
    let plant = Plant::compile(&house.build).expect("the samples compile");
    let (year, decisions) = engine_year(house, &plant);
    let seconds = seconds_year(house, &plant, &decisions);
    let Flows {
        absorbed_j,
        cover_loss_j,
        back_loss_j,
        panel_heat_j,
        circuit_loss_j,
        coil_heat_j,
        store_loss_j,
        evaporation_j,
    } = year.flows();
    let engine = [
        absorbed_j,
        cover_loss_j,
        back_loss_j,
        panel_heat_j,
        circuit_loss_j,
        coil_heat_j,
        store_loss_j,
        evaporation_j,
        year.dumped_j,
        year.tap_heat_j,
        year.other_heat_j,
    ];
    let names = [
        "absorbed",
        "cover loss",
        "back loss",
        "panel heat",
        "circuit loss",
        "coil heat",
        "store loss",
        "evaporation",
        "dumped",
        "tap heat",
        "other heat",
    ];
    let mut off = Vec::new();
    for ((what, found), expected) in names.iter().zip(engine).zip(seconds.list()) {
        let allowed = 0.005 * expected.abs().max(0.1 * seconds.panel_heat);
        let kwh = 3.6e6;
        println!(
            "{name}: {what} {:.3} against {:.3} kWh ({:+.3} %)",
            found / kwh,
            expected / kwh,
            100.0 * (found / expected - 1.0)
        );
        if (found - expected).abs() >= allowed {
            off.push(format!("{what} {:.3} against {:.3} kWh", found / kwh, expected / kwh));
        }
    }
    assert!(off.is_empty(), "{name}: {}", off.join("; "));
}
