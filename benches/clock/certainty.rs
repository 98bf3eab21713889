//! How sure the superfats of a plan are; beside `plan`, which it must not cost more than. And one event of a batch.

use std::hint::black_box;

use criterion::Criterion;
use lamella::Plan;
use lamella::certainty::{Advice, Certainty};
use lamella::follow::{Batch, Event};
use lamella_benches::ALL;

pub(crate) fn define(criterion: &mut Criterion) {
    let mut group = criterion.benchmark_group("certainty");
    for fixture in ALL {
        let recipe = fixture.recipe();
        let plan = Plan::of(&recipe).unwrap();
        assert_eq!(Certainty::of(&recipe, &plan).unwrap().jugs.len(), plan.jugs.len());
        group.bench_function(fixture.name, |bench| {
            bench.iter(|| Certainty::of(black_box(&recipe), black_box(&plan)));
        });
    }
    group.finish();

    let mut group = criterion.benchmark_group("advice");
    for fixture in ALL {
        let recipe = fixture.recipe();
        assert!(Advice::of(&recipe).superfat.is_some());
        group.bench_function(fixture.name, |bench| bench.iter(|| Advice::of(black_box(&recipe))));
    }
    group.finish();

    let mut group = criterion.benchmark_group("follow");
    for fixture in ALL {
        let batch = Batch::new(fixture.recipe()).unwrap();
        let layer = &batch.plan().layers[0];
        let event = Event::Poured { layer: layer.name.clone(), mass: layer.portion };
        assert_eq!(batch.clone().record(event.clone()).unwrap(), []);
        group.bench_function(fixture.name, |bench| {
            bench.iter_batched(
                || batch.clone(),
                |mut batch| batch.record(black_box(event.clone())),
                criterion::BatchSize::SmallInput,
            );
        });
    }
    group.finish();
}
