//! What a plate picture costs: two square metres at 5 mm, on one core.

// The harness's own macro writes an item without words.
#![allow(missing_docs)]

use criterion::{Criterion, criterion_group, criterion_main};
use physics::panel::TubePattern;
use physics::panel::standard_test::standard_stand;
use physics::panel::{HarpConnection, Panel, Passage};
use plate::{Inflow, Question, picture};

/// The sample's panel stretched to a sheet of 2 m by 1 m, with its serpentine and as a harp.
fn questions() -> [(&'static str, Question); 2] {
    let house = benchmarks::house();
    let Panel::Built(first) = &house.build.panel.panels[0] else { panic!("a panel made at home") };
    let mut serpentine = first.as_ref().clone();
    serpentine.sheet.length_m = 2.0;
    serpentine.sheet.width_m = 1.0;
    let Passage::Tubes(tubes) = &mut serpentine.passage else { panic!("tubes") };
    tubes.spacing_m = 0.1;
    tubes.pattern = TubePattern::Serpentine { legs: 10, leg_length_m: 2.0 };
    let header = tubes.tube;
    let mut harp = serpentine.clone();
    let Passage::Tubes(tubes) = &mut harp.passage else { panic!("tubes") };
    tubes.pattern = TubePattern::Harp {
        risers: 10,
        riser_length_m: 2.0,
        header,
        connection: HarpConnection::OppositeCorner,
    };
    let fluid = house.build.circuit.fluid;
    let inflow = Inflow { fluid, inlet_k: 303.15, flow_kg_s: 0.04 };
    let asked = |built| {
        let stand = standard_stand(10.0);
        Question::of_panel(built, &stand, inflow, 0.005).expect("it is asked").expect("tubes")
    };
    [("serpentine", asked(&serpentine)), ("harp", asked(&harp))]
}

fn pictures(criterion: &mut Criterion) {
    let mut group = criterion.benchmark_group("plate picture of 2 m2 at 5 mm");
    group.sample_size(20);
    for (name, question) in questions() {
        assert_eq!(question.grid.cells(), 80_000);
        group.bench_function(name, |bench| bench.iter(|| picture(&question)));
    }
    group.finish();
}

criterion_group!(benches, pictures);
criterion_main!(benches);
