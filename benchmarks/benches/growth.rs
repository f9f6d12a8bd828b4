//! How the cost grows: with minutes, layers, panels and the plate picture's grid; and without a pump.

// The harness's own macro writes an item without words.
#![allow(missing_docs)]

use benchmarks::House;
use criterion::{BenchmarkId, Criterion, criterion_group, criterion_main};
use physics::Build;
use physics::circuit::{CheckValve, Pipe};
use physics::panel::standard_test::standard_stand;
use physics::panel::{Bank, HarpConnection, Join, Panel, Rungs};
use plate::{Inflow, Question, picture};
use year::{Plant, Recorder, Upset, march_days};

/// Marches the first days of a build's year.
fn days(house: &House, plant: &Plant, days: usize) {
    march_days(plant, &house.forcing, &Upset::none(), &mut Recorder::none(), days)
        .expect("it computes");
}

fn with_panels(build: &Build, count: usize, join: fn(Vec<Join>) -> Join) -> Build {
    let panel = build.panel.panels[0].clone();
    let links = vec![Pipe { length_m: 1.0, fittings_loss: 2.0, ..build.circuit.return_pipe[0] }];
    let ones = (0..count).map(Join::One).collect();
    Build { panel: Bank { panels: vec![panel; count], join: join(ones), links }, ..build.clone() }
}

fn ladder(branches: Vec<Join>) -> Join {
    Join::Ladder(Rungs { branches, link: 0, connection: HarpConnection::OppositeCorner })
}

fn years(criterion: &mut Criterion) {
    let house = benchmarks::house();
    let plant = Plant::compile(&house.build).expect("the sample compiles");
    let mut group = criterion.benchmark_group("growth");
    group.sample_size(10);
    for count in [91, 182, 365] {
        group.bench_function(BenchmarkId::new("days", count), |bench| {
            bench.iter(|| days(&house, &plant, count));
        });
    }
    for layers in [4, 8, 16, 32] {
        let mut build = house.build.clone();
        build.store.layers = layers;
        let plant = Plant::compile(&build).expect("it compiles");
        group.bench_function(BenchmarkId::new("layers", layers), |bench| {
            bench.iter(|| days(&house, &plant, 365));
        });
    }
    for (name, join) in [
        ("panels in a row", Join::Series as fn(Vec<Join>) -> Join),
        ("alike side by side", Join::Parallel),
        ("in a ladder", ladder),
    ] {
        for count in [1, 2, 4, 8] {
            let plant =
                Plant::compile(&with_panels(&house.build, count, join)).expect("it compiles");
            group.bench_function(BenchmarkId::new(name, count), |bench| {
                bench.iter(|| days(&house, &plant, 365));
            });
        }
    }
    group.finish();
}

fn weight(criterion: &mut Criterion) {
    let mut house = benchmarks::house_of("gravity-lean-to.toml");
    let mut group = criterion.benchmark_group("without a pump");
    group.sample_size(10);
    group.bench_function("plant", |bench| bench.iter(|| Plant::compile(&house.build)));
    for (name, valve) in [
        ("year behind a flap", house.build.circuit.check_valve),
        ("year with no valve", CheckValve::None),
    ] {
        house.build.circuit.check_valve = valve;
        let plant = Plant::compile(&house.build).expect("it compiles");
        group.bench_function(name, |bench| bench.iter(|| days(&house, &plant, 365)));
    }
    group.finish();
}

fn grids(criterion: &mut Criterion) {
    let house = benchmarks::house();
    let Panel::Built(built) = &house.build.panel.panels[0] else { panic!("a panel made at home") };
    let mut group = criterion.benchmark_group("plate picture by cell");
    group.sample_size(10);
    for cell_mm in [20, 10, 5] {
        let inflow = Inflow { fluid: house.build.circuit.fluid, inlet_k: 303.15, flow_kg_s: 0.02 };
        let cell_m = f64::from(cell_mm) / 1000.0;
        let question = Question::of_panel(built, &standard_stand(10.0), inflow, cell_m)
            .expect("it is asked")
            .expect("tubes");
        group.bench_function(BenchmarkId::new("mm", cell_mm), |bench| {
            bench.iter(|| picture(&question));
        });
    }
    group.finish();
}

criterion_group!(benches, years, weight, grids);
criterion_main!(benches);
