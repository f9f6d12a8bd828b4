//! What a year costs, part by part: reading, forcing, plant, march.

// The harness's own macro writes an item without words.
#![allow(missing_docs)]

use criterion::{Criterion, criterion_group, criterion_main};
use year::{Forcing, Plant, Recorder, Upset, march};

fn parts(criterion: &mut Criterion) {
    let house = benchmarks::house();
    let plant = Plant::compile(&house.build).expect("the sample compiles");
    let twin = Plant::compile(&house.build.twin()).expect("its twin too");
    let marched = |plant: &Plant| {
        march(plant, &house.forcing, &Upset::none(), &mut Recorder::none()).expect("it computes")
    };
    let mut group = criterion.benchmark_group("two-panel year");
    group.sample_size(20);
    group.bench_function("read the weather file", |bench| {
        bench.iter(|| design::weather::read_weather(&house.weather.0, &house.weather.1));
    });
    group.bench_function("forcing from a read climate", |bench| {
        bench.iter(|| Forcing::of(&house.build, &house.climate));
    });
    group.bench_function("plant", |bench| bench.iter(|| Plant::compile(&house.build)));
    group.bench_function("minute-year and 12 run-in days", |bench| bench.iter(|| marched(&plant)));
    group.bench_function("the twin's", |bench| bench.iter(|| marched(&twin)));
    group.finish();
}

criterion_group!(benches, parts);
criterion_main!(benches);
