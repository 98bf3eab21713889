//! Blends: twelve fats, twelve demands, in whole per cents and in any shares.

use std::hint::black_box;

use criterion::Criterion;
use lamella::blend::{self, Request};
use lamella_benches::BLENDS;

fn request(text: &str, whole: bool) -> Request {
    let mut request = blend::read(text).unwrap();
    assert_eq!((request.fats.len(), request.demands.len()), (12, 12));
    if !whole {
        request.step = None;
    }
    request
}

pub(crate) fn define(criterion: &mut Criterion) {
    let mut group = criterion.benchmark_group("blend");
    for (name, text) in BLENDS {
        for (case, whole) in [("any-shares", false), ("whole-per-cents", true)] {
            let request = request(text, whole);
            let answer = blend::solve(&request).unwrap();
            assert!(answer.miss.is_zero());
            group.bench_function(format!("{name}/{case}"), |bench| {
                bench.iter(|| blend::solve(black_box(&request)).unwrap());
            });
        }
    }
    group.finish();
}
