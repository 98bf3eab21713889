//! Texts: a document is read, a plan is written, and both with the plan between them.

use std::hint::black_box;

use criterion::Criterion;
use lamella::{Plan, plan_json, recipe};
use lamella_benches::ALL;

pub(crate) fn define(criterion: &mut Criterion) {
    let mut group = criterion.benchmark_group("read");
    for fixture in ALL {
        assert_eq!(fixture.recipe().layers.len(), 7);
        group.bench_function(fixture.name, |bench| bench.iter(|| recipe::read(black_box(fixture.text))));
    }
    group.finish();

    let mut group = criterion.benchmark_group("json");
    for fixture in ALL {
        let plan = Plan::of(&fixture.recipe()).unwrap();
        assert!(plan.to_json().unwrap().starts_with("{\n  \"lamella\": \"plan/1\""));
        group.bench_function(fixture.name, |bench| bench.iter(|| black_box(&plan).to_json()));
    }
    group.finish();

    let mut group = criterion.benchmark_group("document");
    for fixture in ALL {
        let plan = Plan::of(&fixture.recipe()).unwrap();
        assert_eq!(plan_json(fixture.text.as_bytes()).unwrap(), plan.to_json().unwrap());
        group.bench_function(fixture.name, |bench| {
            bench.iter(|| plan_json(black_box(fixture.text.as_bytes())));
        });
    }
    group.finish();
}
