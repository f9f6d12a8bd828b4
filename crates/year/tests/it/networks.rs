//! Panels joined in every way, and circuits that weight moves.

use physics::ZERO_CELSIUS_K as C;
use physics::circuit::bank::panel_flows_kg_s;
use physics::circuit::friction::FrictionMethod;
use physics::circuit::gravity::{Legs, gravity_flow};
use physics::circuit::network::{Medium, Path};
use physics::circuit::{CheckValve, Pipe};
use physics::matter::fluid::properties_held;
use physics::panel::{Bank, HarpConnection, Join, Rungs};
use year::forcing::HourForcing;
use year::plant::Turn;
use year::{Channel, Forcing, Plant, Recorder, Tally, Upset, UpsetKind, march, march_days};

use crate::houses::{House, house};

/// The first sample with `count` of its panels.
fn with_panels(count: usize, join: impl Fn(Vec<Join>) -> Join, links: Vec<Pipe>) -> House {
    let mut house = house("first-panel.toml");
    let panel = house.build.panel.panels[0].clone();
    house.build.panel =
        Bank { panels: vec![panel; count], join: join((0..count).map(Join::One).collect()), links };
    house
}

/// A pipe of the return's tube, lagged as it.
fn pipe(house: &House, bore_m: f64, length_m: f64, fittings_loss: f64) -> Pipe {
    let mut pipe = house.build.circuit.return_pipe[0];
    let wall_m = 0.5 * (pipe.tube.outside_m - pipe.tube.bore_m);
    pipe.tube.bore_m = bore_m;
    pipe.tube.outside_m = bore_m + 2.0 * wall_m;
    Pipe { length_m, fittings_loss, ..pipe }
}

fn year_of(house: &House) -> Tally {
    let plant = Plant::compile(&house.build).expect("it compiles");
    let (ledger, _) =
        march(&plant, &house.forcing, &Upset::none(), &mut Recorder::none()).expect("it computes");
    let residual = ledger.balance().residual_share;
    assert!(residual < 1e-9, "heat is kept to a billionth: {residual:e}");
    ledger.year()
}

fn ladder(link: usize, connection: HarpConnection) -> impl Fn(Vec<Join>) -> Join {
    move |branches| Join::Ladder(Rungs { branches, link, connection })
}

/// Given three alike panels side by side with nothing between them, and the same three as a ladder
/// whose links are so wide and short that they cost and lose nothing, the same year. Tolerance: a
/// thousandth, what the links hold and the tables' lines between their nodes.
#[test]
fn links_that_cost_nothing_change_nothing() {
    let even = year_of(&with_panels(3, Join::Parallel, Vec::new()));
    let plain = house("first-panel.toml");
    for connection in [HarpConnection::SameSide, HarpConnection::OppositeCorner] {
        let link = pipe(&plain, 0.05, 0.001, 0.0);
        let linked = year_of(&with_panels(3, ladder(0, connection), vec![link]));
        let off = linked.flows().coil_heat_j / even.flows().coil_heat_j - 1.0;
        assert!(off.abs() < 1e-3, "{connection:?}: {off}");
    }
}

/// Given the same three behind narrow links, fed and left at one end, then left at the far end: the
/// plant's parts of the flow are those of the circuit's own solution (G-08 checks that one), they
/// sum to the whole, and the panels that are starved cost heat.
#[test]
fn narrow_links_starve_the_far_panel() {
    let plain = house("first-panel.toml");
    let link = pipe(&plain, 0.003, 2.0, 2.0);
    let wide = pipe(&plain, 0.013, 2.0, 2.0);
    let mut heat_j = Vec::new();
    for (link, connection) in [
        (wide, HarpConnection::SameSide),
        (link, HarpConnection::SameSide),
        (link, HarpConnection::OppositeCorner),
    ] {
        let house = with_panels(3, ladder(0, connection), vec![link]);
        let plant = Plant::compile(&house.build).expect("it compiles");
        let flow = plant.flow.as_ref().expect("a pump");
        let loop_k = C + 40.0;
        let fluid = properties_held(house.build.circuit.fluid, loop_k).unwrap();
        let medium = Medium { fluid, method: FrictionMethod::Churchill1977 };
        let whole_kg_s = flow.flow_kg_s.at(loop_k);
        let direct = panel_flows_kg_s(&house.build.panel, whole_kg_s, &medium).unwrap();
        let mut sum = 0.0;
        for (place, direct_kg_s) in direct.iter().enumerate() {
            let share = flow.shares[plant.segments[2 * place].share].at(loop_k);
            sum += share;
            let off = share * whole_kg_s / direct_kg_s - 1.0;
            assert!(off.abs() < 1e-3, "{connection:?}, panel {place}: {off}");
        }
        assert!((sum - 1.0).abs() < 1e-9, "{sum}");
        if connection == HarpConnection::SameSide && link.tube.bore_m < 0.01 {
            assert!(direct[0] > 1.3 * direct[2], "{direct:?}");
        }
        heat_j.push(year_of(&house).flows().panel_heat_j);
    }
    assert!(heat_j[1] < heat_j[0], "narrow links cost heat: {heat_j:?}");
}

/// Given two panels in a row beside a third with a pipe of its own, and a bypass: heat is kept, more
/// of the flow through the bypass leaves less for the panels, and all three panels take part.
#[test]
fn a_bypass_takes_flow_and_heat() {
    let plain = house("first-panel.toml");
    let mut last_j = f64::INFINITY;
    for valve_loss in [1e7, 3e4, 1e2] {
        let links = vec![pipe(&plain, 0.0136, 1.0, 4.0), pipe(&plain, 0.0136, 1.0, valve_loss)];
        let join = |ones: Vec<Join>| {
            Join::Parallel(vec![
                Join::Series(vec![ones[0].clone(), ones[1].clone()]),
                Join::Series(vec![Join::Pipe(0), ones[2].clone()]),
                Join::Pipe(1),
            ])
        };
        let house = with_panels(3, join, links);
        let plant = Plant::compile(&house.build).expect("it compiles");
        assert_eq!((plant.segments.len(), plant.links.len()), (6, 2));
        let year = year_of(&house);
        assert!(year.flows().panel_heat_j < last_j, "{valve_loss}");
        last_j = year.flows().panel_heat_j;
    }
}

/// Given panels in a row with pipes between them: the pipes' loss is booked and heat is kept; bare
/// pipes lose more than lagged ones.
#[test]
fn pipes_between_panels_lose_heat() {
    let plain = house("first-panel.toml");
    let join =
        |ones: Vec<Join>| Join::Series(vec![ones[0].clone(), Join::Pipe(0), ones[1].clone()]);
    let lagged = pipe(&plain, 0.0136, 3.0, 2.0);
    let bare = Pipe { lagging_m: 0.0, ..lagged };
    let [lagged, bare] = [lagged, bare]
        .map(|link| year_of(&with_panels(2, join, vec![link])).flows().circuit_loss_j);
    assert!(bare > 1.05 * lagged, "{bare} {lagged}");
}

/// Given a ladder of three, run with the pump and against it: every segment and pipe is passed once
/// each way, and the parts of the flow that meet at the end are the whole.
#[test]
fn both_ways_pass_everything_once() {
    let plain = house("first-panel.toml");
    for connection in [HarpConnection::SameSide, HarpConnection::OppositeCorner] {
        let link = pipe(&plain, 0.008, 2.0, 2.0);
        let plant = Plant::compile(&with_panels(3, ladder(0, connection), vec![link]).build)
            .expect("it compiles");
        for way in [&plant.forwards, &plant.backwards] {
            let mut sheets = vec![0; plant.segments.len()];
            let mut pipes = vec![0; plant.links.len()];
            for turn in &way.turns {
                match turn {
                    Turn::Sheet { segment, .. } => sheets[*segment] += 1,
                    Turn::Pipe { pipe, .. } => pipes[*pipe] += 1,
                    _ => {}
                }
            }
            assert!(sheets.iter().chain(&pipes).all(|&times| times == 1), "{sheets:?} {pipes:?}");
        }
    }
}

/// Steady weather by hand: bright, mild, no draws.
fn steady(forcing: &Forcing, absorbed_w_m2: f32, air_k: f64) -> Forcing {
    let mut forcing = forcing.clone();
    forcing.light.absorbed_w_m2.fill(absorbed_w_m2);
    forcing.draws.clear();
    forcing.feeds.clear();
    for hour in &mut forcing.hours {
        *hour = HourForcing {
            air_k,
            sky_k: air_k - 5.0,
            wind_film_w_m2_k: 10.0,
            loft_k: air_k,
            mains_k: C + 10.0,
            dew_point_k: C + 5.0,
        };
    }
    forcing
}

/// Given the sample without a pump under a steady sun, lagged so well that its pipes lose nothing, with
/// a store so large that it hardly warms: the flow that settles is what the thermosiphon's steady
/// balance asks for the heat it carries and the temperature of its return (B-TS-01 and B-TS-03 check
/// that one). Tolerance: 6 %. The engine's pipes have two nodes and its coil is at the temperatures
/// along it, where the balance takes one mean; both carry the same heat.
#[test]
fn a_steady_sun_drives_the_steady_thermosiphon() {
    let mut house = house("gravity-lean-to.toml");
    let build = &mut house.build;
    for pipe in build.circuit.flow_pipe.iter_mut().chain(&mut build.circuit.return_pipe) {
        pipe.lagging_conductivity_w_m_k = 1e-6;
    }
    build.store.volume_m3 = 20.0;
    house.forcing = steady(&house.forcing, 500.0, C + 15.0);
    let plant = Plant::compile(&house.build).unwrap();
    let mut recorder = Recorder::of(&[Channel::Flow, Channel::CoilHeat, Channel::StoreBottom]);
    march_days(&plant, &house.forcing, &Upset::none(), &mut recorder, 1).unwrap();
    let last = |channel| f64::from(recorder.series(channel).unwrap()[1439]);
    let (flow_kg_s, heat_w) = (last(Channel::Flow), last(Channel::CoilHeat));
    assert!(flow_kg_s > 0.005 && heat_w > 300.0, "{flow_kg_s} {heat_w}");

    let circuit = &house.build.circuit;
    let legs = Legs {
        return_pipe: Path::Run(circuit.return_pipe[0].run()),
        between: {
            let coil = &house.build.store.coil;
            let bank = physics::circuit::bank::bank_path(&house.build.panel).unwrap();
            let wound = Path::Helix {
                run: physics::circuit::pipe::Run {
                    bore_m: coil.tube.bore_m,
                    length_m: coil.length_m,
                    roughness_m: coil.tube.roughness_m,
                    fittings_loss: 0.0,
                },
                turn_diameter_m: coil.turn_diameter_m,
            };
            Path::Series(vec![wound, bank])
        },
        flow_pipe: {
            let mut run = circuit.flow_pipe[0].run();
            run.fittings_loss += circuit.check_valve.open_loss();
            Path::Run(run)
        },
    };
    // The return is as warm as the coil leaves it: with its effectiveness from the state's own heat.
    let state = {
        let fluid = properties_held(circuit.fluid, C + 30.0).unwrap();
        let rise_k = heat_w / (flow_kg_s * fluid.heat_capacity_j_kg_k);
        let ua_w_k = plant.gravity.as_ref().unwrap().coil_ua_w_m_k(flow_kg_s, C + 30.0, C + 20.0)
            * house.build.store.coil.length_m;
        let effectiveness = 1.0 - (-ua_w_k / (flow_kg_s * fluid.heat_capacity_j_kg_k)).exp();
        last(Channel::StoreBottom) + rise_k * (1.0 / effectiveness - 1.0)
    };
    let steady = gravity_flow(circuit, &house.build.store.coil, &legs, heat_w, state).unwrap();
    let off = flow_kg_s / steady.flow_kg_s - 1.0;
    println!("steady thermosiphon: {flow_kg_s} against {} kg/s ({off:+.3})", steady.flow_kg_s);
    assert!(off.abs() < 0.06, "{flow_kg_s} against {}", steady.flow_kg_s);
}

/// Given the sample without a pump: a flap lets nothing back; without it the nights take heat out of
/// the store and spare less; a spring lets nothing run at all.
#[test]
fn the_valve_decides_on_the_night() {
    let mut house = house("gravity-lean-to.toml");
    let flap = year_of(&house);
    assert_eq!((flap.reverse_s, flap.reverse_heat_j), (0.0, 0.0));
    assert!(flap.gravity_heat_j > 0.9 * flap.flows().coil_heat_j, "all heat came by weight");
    assert_eq!((flap.pump_s, flap.pump_j, flap.pump_starts), (0.0, 0.0, 0));
    house.build.circuit.check_valve = CheckValve::None;
    let open = year_of(&house);
    assert!(open.reverse_s > 0.0 && open.reverse_heat_j > 0.0, "{}", open.reverse_heat_j);
    assert!(open.flows().coil_heat_j < flap.flows().coil_heat_j);
    house.build.circuit.check_valve = CheckValve::Fitted { open_loss: 2.5 };
    let shut = year_of(&house);
    assert_eq!((shut.gravity_s, shut.reverse_s, shut.flows().coil_heat_j), (0.0, 0.0, 0.0));
}

/// Given the first sample, whose panel lies over its store: with no check valve the cold panel draws
/// heat out of the store at night; a store over the panel loses far less that way. A dead pump then
/// still lets weight run.
#[test]
fn a_panel_over_the_store_cools_it_at_night() {
    let mut house = house("first-panel.toml");
    house.build.circuit.check_valve = CheckValve::None;
    let throttled = year_of(&house);
    // The lockshield open: what holds the pump back held the night back too.
    house.build.circuit.return_pipe[0].fittings_loss = 8.0;
    let above = year_of(&house);
    assert!(above.reverse_heat_j > throttled.reverse_heat_j, "{}", above.reverse_heat_j);
    let layout = &mut house.build.circuit.layout;
    (layout.panel_bottom_m, layout.panel_top_m, layout.highest_m) = (-4.0, -3.3, 0.5);
    let below = year_of(&house);
    println!(
        "reverse flow: panel over the store {:.1} kWh, throttled {:.1}, store over the panel {:.1}",
        above.reverse_heat_j / 3.6e6,
        throttled.reverse_heat_j / 3.6e6,
        below.reverse_heat_j / 3.6e6
    );
    assert!(below.reverse_heat_j < above.reverse_heat_j, "{}", below.reverse_heat_j);
    let plant = Plant::compile(&house.build).unwrap();
    let dead = Upset { events: vec![(UpsetKind::PumpDead, 0..525_600)] };
    let (ledger, _) = march(&plant, &house.forcing, &dead, &mut Recorder::none()).unwrap();
    let year = ledger.year();
    assert!(year.pump_s == 0.0 && year.gravity_heat_j > 0.0, "{}", year.gravity_heat_j);
}
