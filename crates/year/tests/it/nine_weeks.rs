//! Nine weeks spread over the year against a general-purpose solver of differential equations:
//! Dormand and Prince's adaptive pair of order 5(4) in the crate `ode_solvers`.

use ode_solvers::dop_shared::OutputType;
use ode_solvers::{DVector, Dopri5, System};
use year::{Forcing, Plant, Tally, Upset, march_days, start_state};

use crate::houses::{House, house};
use crate::plain_twin::{Moment, Moving, POWERS, hour_of, mix, rates, row};
use crate::seconds::Decisions;

/// A year that begins so many days later.
fn begun_later(house: &House, days: usize) -> House {
    let mut light = house.forcing.light.clone();
    light.absorbed_w_m2.rotate_left(days * 1440);
    light.plane_w_m2.rotate_left(days * 24);
    let mut hours = house.forcing.hours.clone();
    hours.rotate_left(days * 24);
    let year = year::MINUTES_PER_YEAR as u32;
    let shift = (days * 1440) as u32;
    let mut draws = house.forcing.draws.clone();
    for draw in &mut draws {
        draw.minute = (draw.minute + year - shift) % year;
    }
    draws.sort_by_key(|draw| draw.minute);
    let mut feeds = house.forcing.feeds.clone();
    for feed in &mut feeds {
        feed.minute = (feed.minute + year - shift) % year;
    }
    feeds.sort_by_key(|feed| (feed.minute, feed.feed));
    House {
        build: house.build.clone(),
        climate: house.climate.clone(),
        forcing: Forcing { light, hours, draws, feeds },
    }
}

/// One stretch in which nothing is decided: nodes, then the energies.
struct Stretch<'a> {
    plant: &'a Plant,
    hour: &'a year::Hour,
    moment: Moment,
    nodes: usize,
}

impl System<f64, DVector<f64>> for Stretch<'_> {
    fn system(&self, _time_s: f64, values: &DVector<f64>, change: &mut DVector<f64>) {
        let nodes = &values.as_slice()[..self.nodes];
        let mains_k = self.hour.mains_k;
        let powers = rates(
            self.plant,
            self.hour,
            mains_k,
            &self.moment,
            nodes,
            &mut change.as_mut_slice()[..self.nodes],
        );
        change.as_mut_slice()[self.nodes..].copy_from_slice(&powers.list());
    }
}

/// A week by the solver, water mixed every five seconds while it is moved or heated.
fn solved_week(house: &House, plant: &Plant, decisions: &Decisions) -> [f64; POWERS] {
    let start = row(&start_state(plant, &house.forcing).expect("the samples compute"));
    let nodes = start.len();
    let mut values = DVector::from_element(nodes + POWERS, 0.0);
    values.as_mut_slice()[..nodes].copy_from_slice(&start);
    let mut draws = house.forcing.draws.iter().peekable();
    for hour in 0..7 * 24 {
        let weather = hour_of(plant, &house.forcing.hours[hour]);
        for minute in hour * 60..hour * 60 + 60 {
            let mut moment = decisions.moment(house, minute);
            if draws.peek().is_some_and(|draw| draw.minute as usize == minute) {
                moment.drawn_m3_s = draws.next().map_or(0.0, |draw| draw.volume_m3 / 60.0);
            }
            let busy = moment.moving != Moving::Nothing
                || moment.drawn_m3_s > 0.0
                || moment.discharged_m3_s > 0.0;
            let piece_s = if busy { 5.0 } else { 60.0 };
            for _ in 0..(60.0 / piece_s) as usize {
                let stretch = Stretch { plant, hour: &weather, moment, nodes };
                values = solved(stretch, piece_s, values);
                mix(plant, &mut values.as_mut_slice()[..nodes]);
            }
        }
    }
    let mut energies = [0.0; POWERS];
    energies.copy_from_slice(&values.as_slice()[nodes..]);
    energies
}

/// The end of a stretch, to a ten-millionth. The solver's own steps are kept, not points between
/// them, so that the last is the end itself.
fn solved(stretch: Stretch, piece_s: f64, values: DVector<f64>) -> DVector<f64> {
    let (safety, beta, slower, faster, first_s) = (0.9, 0.04, 0.2, 10.0, 0.0);
    let mut solver = Dopri5::from_param(
        stretch,
        0.0,
        piece_s,
        piece_s,
        values,
        1e-7,
        1e-6,
        safety,
        beta,
        slower,
        faster,
        piece_s,
        first_s,
        100_000,
        1000,
        OutputType::Sparse,
    );
    solver.integrate().expect("a smooth stretch of a minute");
    let reached_s = solver.x_out().last().expect("it took a step");
    assert!((reached_s - piece_s).abs() < 1e-9, "it reached {reached_s} of {piece_s} s");
    solver.y_out().last().expect("it took a step").clone()
}

fn engine_week(house: &House, plant: &Plant) -> (Tally, Decisions) {
    let mut recorder = Decisions::recorder();
    let days = march_days(plant, &house.forcing, &Upset::none(), &mut recorder, 7)
        .expect("the samples compute");
    let mut week = Tally::default();
    for day in &days.tallies {
        week.add(day);
    }
    (week, Decisions::of(recorder))
}

/// Given nine weeks of the two-panel sample, every forty days from New Year, the week's panel heat,
/// coil heat, tap heat and sheet loss agree with the solver's within 0.5 %, or within 50 Wh in a
/// week whose heat is next to nothing.
#[test]
fn nine_weeks_agree_with_an_adaptive_solver() {
    let whole = house("pair-better-back.toml");
    let plant = Plant::compile(&whole.build).expect("the samples compile");
    let mut worst = 0.0_f64;
    for week in 0..9 {
        let house = begun_later(&whole, 40 * week);
        let (engine, decisions) = engine_week(&house, &plant);
        let solved = solved_week(&house, &plant, &decisions);
        let pairs = [
            ("panel loss", engine.flows().panel_loss_j(), solved[1] + solved[2]),
            ("panel heat", engine.flows().panel_heat_j, solved[3]),
            ("coil heat", engine.flows().coil_heat_j, solved[5]),
            ("tap heat", engine.tap_heat_j, solved[9]),
        ];
        for (what, found, expected) in pairs {
            let off = (found - expected).abs();
            if expected.abs() > 3.6e6 {
                worst = worst.max(off / expected.abs());
            }
            assert!(
                off < 0.005 * expected.abs().max(3.6e7),
                "week {week}: {what} {:.3} against {:.3} kWh",
                found / 3.6e6,
                expected / 3.6e6
            );
        }
    }
    println!("worst of nine weeks: {:.3} %", 100.0 * worst);
}
