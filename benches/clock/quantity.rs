//! The numbers beneath, a hundred at a time.

use std::hint::black_box;

use criterion::Criterion;
use lamella::quantity::{Exact, Mass, split_into_steps};

pub(crate) fn define(criterion: &mut Criterion) {
    let mut group = criterion.benchmark_group("quantity");
    let operands: Vec<(Exact, Exact)> = (1..=100)
        .map(|n| (Exact::from(n) * Exact::from(7919) / Exact::from(97), Exact::from(n) / Exact::from(7)))
        .collect();
    type Operation = fn(Exact, Exact) -> Exact;
    let operations: [(&str, Operation); 3] =
        [("100 sums", |a, b| a + b), ("100 products", |a, b| a * b), ("100 quotients", |a, b| a / b)];
    for (name, operation) in operations {
        assert!(operands.iter().all(|(a, b)| operation(*a, *b).decimal().is_some()));
        group.bench_function(name, |bench| {
            bench.iter(|| {
                for (a, b) in black_box(&operands) {
                    black_box(operation(*a, *b));
                }
            });
        });
    }

    let mass = "1 lb 4 oz";
    assert_eq!(mass.parse::<Mass>().unwrap().to_string(), "566.9904625 g");
    group.bench_function("100 masses read", |bench| {
        bench.iter(|| (0..100).filter(|_| black_box(mass).parse::<Mass>().is_ok()).count());
    });

    let weights: Vec<Exact> = (1..=100).map(Exact::from).collect();
    let split = || split_into_steps(Mass::literal(5_000, 0), Mass::literal(1, 1), &weights);
    assert_eq!(split().unwrap().parts.into_iter().sum::<Mass>(), Mass::literal(5_000, 0));
    group.bench_function("split into 100", |bench| bench.iter(split));
    group.finish();
}
