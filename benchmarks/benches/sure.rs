//! What bands and next steps cost, beside one year: made from nothing, with its twin.

// The harness's own macro writes an item without words.
#![allow(missing_docs)]

use advice::band::{Question, Table, by_draws};
use advice::next_step::worth;
use advice::unknowns::unknowns;
use advice::{GoOn, WeatherYears};
use criterion::{Criterion, criterion_group, criterion_main};

/// Years drawn at once in the bench; four times as many are asked for in use.
const DRAWN: u32 = 100;

fn sure(criterion: &mut Criterion) {
    let subject = benchmarks::subject_of(benchmarks::BUILD);
    let base = subject.year().expect("the sample computes");
    let weather = WeatherYears::of(&subject, 24, 1).expect("a place");
    let unknowns = unknowns(&subject);
    let asked = Question {
        subject: &subject,
        unknowns: &unknowns,
        weather: &weather,
        figures: &|year| vec![year.spared_kwh()],
        progress: &|_, _| GoOn::Yes,
    };
    let mut group = criterion.benchmark_group("sure");
    group.sample_size(10);
    group.bench_function("one year and its twin", |bench| bench.iter(|| subject.year()));
    group.bench_function("a table", |bench| bench.iter(|| Table::of(asked, &base)));
    let table = Table::of(asked, &base).expect("the sample computes");
    group.bench_function("put together", |bench| bench.iter(|| table.told(1)));
    group.bench_function("a hundred drawn years", |bench| {
        bench.iter(|| by_draws(asked, DRAWN, 1));
    });
    group.bench_function("next steps", |bench| {
        bench.iter(|| worth(&subject, &base, &|_, _| GoOn::Yes));
    });
    group.finish();
}

criterion_group!(benches, sure);
criterion_main!(benches);
