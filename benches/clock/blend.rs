//! Blends: twelve fats, twelve demands, in whole per cents and in any shares.

use std::hint::black_box;

use criterion::Criterion;
use lamella::blend::{self, Request};

fn request(name: &str, whole: bool) -> Request {
    let text = match name {
        "kitchen" => include_str!("../../tests/vectors/blend/kitchen.json"),
        _ => include_str!("../../tests/vectors/blend/narrow.json"),
    };
    let mut request = blend::read(text).unwrap();
    assert_eq!((request.fats.len(), request.demands.len()), (12, 12));
    if !whole {
        request.step = None;
    }
    request
}

pub(crate) fn define(criterion: &mut Criterion) {
    let mut group = criterion.benchmark_group("blend");
    for name in ["kitchen", "narrow"] {
        for (case, whole) in [("any-shares", false), ("whole-per-cents", true)] {
            let request = request(name, whole);
            let answer = blend::solve(&request).unwrap();
            assert!(answer.miss.is_zero());
            group.bench_function(format!("{name}/{case}"), |bench| {
                bench.iter(|| blend::solve(black_box(&request)).unwrap());
            });
        }
    }
    group.finish();
}
