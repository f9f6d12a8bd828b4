//! Nothing is allocated from one minute to the next.
//!
//! A test binary of its own: the counting allocator holds for all of it.

use physics::circuit::CheckValve;
use physics::panel::{Bank, HarpConnection, Join, Rungs};
use year::{Channel, Forcing, Plant, Recorder, Upset, march_days};

/// A sample build and its forcing.
fn sample(name: &str) -> (physics::Build, Forcing) {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/../../samples/");
    let read = |name: &str| std::fs::read(format!("{folder}{name}")).expect("a sample");
    let design = design::read_design(name, &read(name)).design.expect("it reads");
    let weather = read(design.weather.name());
    let climate = design::weather::read_weather("weather", &weather).0.expect("it reads");
    let build = design.at(&climate, name).build;
    let forcing = Forcing::of(&build, &climate).expect("it computes");
    (build, forcing)
}

/// Allocations while so many days are marched, the run-in before them included.
fn allocations(plant: &Plant, forcing: &Forcing, days: usize) -> u64 {
    let mut recorder = Recorder::of(&Channel::ALL);
    let counted = allocation_counter::measure(|| {
        march_days(plant, forcing, &Upset::none(), &mut recorder, days).expect("it marches");
    });
    counted.count_total
}

fn minutes_allocate_nothing(name: &str, build: &physics::Build, forcing: &Forcing) {
    let plant = Plant::compile(build).expect("it compiles");
    // Rows of the working room may still grow in the first days; a hundred more days add none.
    let (few, many) = (allocations(&plant, forcing, 100), allocations(&plant, forcing, 200));
    assert_eq!(few, many, "{name}: 144 000 minutes more allocate {} times", many - few);
    // The days' tallies are one at least: the counter counts.
    assert!((1..200).contains(&few), "{name}: {few} allocations to make the room for it all");
}

/// Given a build with a pump, one that weight moves both ways, and one whose three panels stand in a
/// ladder, all channels recorded: a hundred days more allocate not once more.
#[test]
fn the_minute_loop_allocates_nothing() {
    let (mut build, forcing) = sample("first-panel.toml");
    minutes_allocate_nothing("first-panel.toml", &build, &forcing);

    let panel = build.panel.panels[0].clone();
    let branches = (0..3).map(Join::One).collect();
    build.panel = Bank {
        panels: vec![panel; 3],
        join: Join::Ladder(Rungs { branches, link: 0, connection: HarpConnection::OppositeCorner }),
        links: vec![build.circuit.return_pipe[0]],
    };
    minutes_allocate_nothing("three panels in a ladder", &build, &forcing);

    let (mut build, forcing) = sample("gravity-lean-to.toml");
    build.circuit.check_valve = CheckValve::None;
    minutes_allocate_nothing("gravity-lean-to.toml without a flap", &build, &forcing);
}
