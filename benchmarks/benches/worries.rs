//! What all worries of a build cost, beside one year: made from nothing, with its twin.

// The harness's own macro writes an item without words.
#![allow(missing_docs)]

use advice::GoOn;
use advice::worry::{CHANNELS, worries};
use criterion::{Criterion, criterion_group, criterion_main};
use year::Recorder;

/// With a pump, and without one: a year without takes five times as long.
const BUILDS: [&str; 2] = [benchmarks::BUILD, "gravity-lean-to.toml"];

fn all(criterion: &mut Criterion) {
    for name in BUILDS {
        let subject = benchmarks::subject_of(name);
        let mut minutes = Recorder::of(&CHANNELS);
        let base = subject.recorded(&mut minutes).expect("the sample computes");
        let mut group = criterion.benchmark_group(name);
        group.sample_size(10);
        group.bench_function("one year and its twin", |bench| bench.iter(|| subject.year()));
        group.bench_function("all worries, remedies tried", |bench| {
            bench.iter(|| worries(&subject, &base, &minutes, &|_, _| GoOn::Yes));
        });
        group.finish();
    }
}

criterion_group!(benches, all);
criterion_main!(benches);
