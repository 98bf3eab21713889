//! A recipe that is read becomes a plan.

use std::hint::black_box;

use criterion::Criterion;
use lamella::Plan;
use lamella_benches::ALL;

pub(crate) fn define(criterion: &mut Criterion) {
    let mut group = criterion.benchmark_group("plan");
    for fixture in ALL {
        let recipe = fixture.recipe();
        let plan = Plan::of(&recipe).unwrap();
        assert_eq!(plan.layers.len(), 7);
        assert_eq!(plan.pot.fats.len(), recipe.fats.len());
        group.bench_function(fixture.name, |bench| bench.iter(|| Plan::of(black_box(&recipe))));
    }
    group.finish();
}
